/* frostrun-cli round. */
#include "cli/cli-bush.h"
#include "cli/cli-commands.h"
#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "formats/round-json.h"
#include "words/round-words.h"

/* Full pails from the same stop come one after another and are told together. */
static guint
same_trips (const FrRound *round, guint i)
{
  guint n = 1;

  while (round->trips[i].alone && i + n < round->n_trips && round->trips[i + n].alone
         && round->trips[i + n].order[0] == round->trips[i].order[0])
    n++;
  return n;
}

static void
print_round (const FrRoundInput *input, const FrRound *round, GString *answer)
{
  const FrSay say = { .units = { .decimal_mark = '.' } };
  g_autoptr (FrPrint) print = fr_print_new ();
  g_autofree char *sentence = fr_round_sentence (round, &say), *proof = fr_round_proof (round, &say);

  fr_print_line (print, sentence);
  if (proof != NULL)
    fr_print_line (print, proof);
  fr_print_number (print, "Carried", round->carry_l_m, 0, "litre-metres");
  for (guint i = 0, n; i < round->n_trips; i += n)
    {
      const FrRoundTrip *trip = &round->trips[i];
      g_autoptr (GString) rest = g_string_new (NULL);
      g_autofree char *what = NULL;

      n = same_trips (round, i);
      what = n == 1 ? g_strdup_printf ("Trip %u", i + 1) : g_strdup_printf ("Trips %u to %u", i + 1, i + n);
      g_string_append_printf (rest, "m%s, %.1f L%s:", n > 1 ? " each" : "", trip->litres_l,
                              trip->alone ? " (a full pail)" : "");
      for (guint j = 0; j < trip->n_stops; j++)
        g_string_append_printf (rest, "%s %s", j > 0 ? "," : "", input->names[trip->order[j]]);
      fr_print_number (print, what, trip->walk_m, 1, rest->str);
    }
  fr_print_finish (print, answer);
}

gboolean
fr_run_round (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (FrRoundInput) input = NULL;
  g_autoptr (FrRound) round = NULL;

  if (file == NULL)
    return fr_run_bush_round (options, answer, error);
  root = fr_cli_read_json (file, error);
  if (root == NULL)
    return FALSE;
  input = fr_round_input_read (root, error);
  if (input == NULL)
    return FALSE;
  round = fr_round_input_run (input, error);
  if (round == NULL)
    return FALSE;
  if (options->json)
    {
      g_autofree char *text = fr_round_to_json (input, round);

      g_string_append (answer, text);
    }
  else
    print_round (input, round, answer);
  return TRUE;
}
