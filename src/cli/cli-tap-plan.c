/* frostrun-cli tap-plan. */
#include "cli/cli-bush.h"
#include "cli/cli-commands.h"
#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "formats/tap-plan-json.h"
#include "words/tap-plan-words.h"

#include <math.h>

static void
print_choice (const FrTapPlanInput *input, const FrTapChoice *choice, const FrBushPlanWords *words,
              const char *sentence, GString *answer)
{
  g_autoptr (FrPrint) print = fr_print_new ();

  fr_print_line (print, sentence);
  fr_print_number (print, "Sugar", choice->sugar_kg, 2, "kg a season");
  fr_print_number (print, "Sap", choice->litres_l, 1, "L a season");
  fr_print_number (print, "Peak day", choice->peak_l, 1, isnan (choice->peak_l) ? "" : "L");
  fr_print_number (print, "Next bucket", choice->next_bucket_kg, 2, "kg more");
  if (choice->kitchen_limits_from != FR_TAP_CHOICE_NO_LIMIT)
    fr_print_number (print, "Kitchen limits from", choice->kitchen_limits_from, 0,
                     choice->kitchen_limits_from == 1 ? "bucket" : "buckets");
  for (guint i = 0; i < input->n_trees; i++)
    if (choice->taps[i] > 0)
      fr_print_number (print, input->names[i], choice->taps[i], 0, choice->taps[i] == 1 ? "tap" : "taps");
  for (guint i = 0; i < words->notes->len; i++)
    {
      g_autofree char *note = fr_say_plain (words->notes->pdata[i]);

      fr_print_line (print, note);
    }
  fr_print_finish (print, answer);
}

gboolean
fr_run_tap_plan (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  const FrSay say = { .units = { .decimal_mark = '.' } };
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (FrTapPlanInput) input = NULL;
  g_autoptr (FrBushPlanWords) words = NULL;
  g_auto (FrTapChoice) choice = { 0 };
  g_autofree char *sentence = NULL;

  if (file == NULL)
    return fr_run_bush_plan (options, answer, error);
  root = fr_cli_read_json (file, error);
  if (root == NULL)
    return FALSE;
  input = fr_tap_plan_input_read (root, error);
  if (input == NULL)
    return FALSE;
  if (fr_tap_choice (input->trees, input->n_trees, &input->limits, &choice) == FR_TAP_CHOICE_OK)
    {
      words = fr_tap_choice_words_new (&choice, &input->limits, &say);
      sentence = fr_say_plain (words->sentence);
    }
  else
    sentence = fr_tap_choice_refusal (&choice, &input->limits,
                                      choice.tree < input->n_trees ? input->names[choice.tree] : NULL, &say);
  if (options->json)
    {
      g_autofree char *text = fr_tap_plan_to_json (input, &choice, sentence);

      g_string_append (answer, text);
    }
  else if (words == NULL)
    g_string_append_printf (answer, "%s\n", sentence);
  else
    print_choice (input, &choice, words, sentence, answer);
  return TRUE;
}
