/* The tonight command: the same plan, words and figures as the window's first page. */
#include "cli/cli-tonight.h"

#include "cli/cli-evening.h"
#include "cli/cli-print.h"
#include "formats/json-input.h"
#include "formats/plan-json.h"
#include "words/plan-words.h"

#include <math.h>
#include <string.h>

static char *book_path, *now_text, *start_text, *off_text, *sap_text, *brix_text, *sap_c_text, *max_text,
    *air_text, *low_text, *boils_text;
static char **cooker_names;
static gboolean anew;

const GOptionEntry fr_tonight_entries[] = {
  { "book", 0, 0, G_OPTION_ARG_FILENAME, &book_path, "The book; without it your own", "FILE" },
  { "now", 0, 0, G_OPTION_ARG_STRING, &now_text, "Plan as if it were then, local time", "2026-03-11T16:00" },
  { "start", 0, 0, G_OPTION_ARG_STRING, &start_text, "Switch on at", "19:00" },
  { "off-by", 0, 0, G_OPTION_ARG_STRING, &off_text, "Off by", "06:50" },
  { "sap", 0, 0, G_OPTION_ARG_STRING, &sap_text, "Sap on hand, in your units", "31" },
  { "brix", 0, 0, G_OPTION_ARG_STRING, &brix_text, "Its sweetness", "2.2" },
  { "sap-temp", 0, 0, G_OPTION_ARG_STRING, &sap_c_text, "Its temperature", "2" },
  { "no-thicker-than", 0, 0, G_OPTION_ARG_STRING, &max_text, "Ceiling for what is left", "60" },
  { "air", 0, 0, G_OPTION_ARG_STRING, &air_text, "Air at the pan through the night", "-3" },
  { "low", 0, 0, G_OPTION_ARG_STRING, &low_text, "The night's lowest outdoors", "-6" },
  { "water-boils", 0, 0, G_OPTION_ARG_STRING, &boils_text, "Plain water boils today at", "99.1" },
  { "cooker", 0, 0, G_OPTION_ARG_STRING_ARRAY, &cooker_names, "Only this cooker; may be repeated", "NAME" },
  { "anew", 0, 0, G_OPTION_ARG_NONE, &anew, "Plan the sap that is left, though a night is kept", NULL },
  { NULL }
};

static gboolean
choose_cookers (FrPlanInput *input, GError **error)
{
  for (guint i = 0; cooker_names != NULL && cooker_names[i] != NULL; i++)
    {
      gboolean found = FALSE;

      for (guint k = 0; k < input->n_kits; k++)
        found = found || strcmp (input->kits[k].name, cooker_names[i]) == 0;
      if (!found)
        {
          g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG,
                       "the book has no complete cooker named “%s”", cooker_names[i]);
          return FALSE;
        }
    }
  for (guint k = 0; cooker_names != NULL && k < input->n_kits; k++)
    input->kits[k].off = !g_strv_contains ((const char *const *)cooker_names, input->kits[k].name);
  return TRUE;
}

/* A kept night stands until it is over, unless this answer is asked about something else. */
static gboolean
take_kept (const FrCliEvening *evening, FrPlanInput *input)
{
  const char *const asked[]
      = { start_text, off_text, sap_text, brix_text, sap_c_text, max_text, air_text, low_text, boils_text };
  const FrNight *pending = fr_evening_pending (evening->book.nights, input->now_utc);
  g_autofree FrPlanInput *kept = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (asked); i++)
    if (asked[i] != NULL)
      return FALSE;
  if (anew || cooker_names != NULL || pending == NULL)
    return FALSE;
  kept = g_memdup2 (input, sizeof *input);
  if (!fr_evening_as_kept (kept, evening->book.nights, pending))
    return FALSE;
  *input = *kept;
  return TRUE;
}

static gboolean
fill (FrCliEvening *evening, FrPlanInput *input, FrTariff **tariff, FrTariffProblem *problem, GError **error)
{
  const FrSay *say = &evening->say;
  gint64 ignored_utc;
  gint64 now_utc = g_get_real_time () / G_USEC_PER_SEC;

  if (now_text != NULL && !fr_cli_evening_time (evening, "--now", now_text, now_utc, FALSE, &now_utc, error))
    return FALSE;
  fr_evening_input (&evening->book, evening->zone, now_utc, input, tariff, problem);
  if (take_kept (evening, input))
    return TRUE;
  if (start_text != NULL
      && !fr_cli_evening_time (evening, "--start", start_text, now_utc, TRUE, &input->start_utc, error))
    return FALSE;
  /* Another evening has its own morning. */
  if (start_text != NULL && off_text == NULL && input->off_by_utc <= input->start_utc)
    fr_plan_default_hours (*tariff, evening->zone, input->start_utc, &ignored_utc, &input->off_by_utc);
  if ((off_text != NULL
       && !fr_cli_evening_time (evening, "--off-by", off_text, input->start_utc, TRUE, &input->off_by_utc,
                                error)))
    return FALSE;
  return fr_cli_evening_amount (say, "--sap", sap_text, FR_QUANTITY_VOLUME, &input->sap_l, error)
         && fr_cli_evening_amount (say, "--brix", brix_text, FR_QUANTITY_SWEETNESS, &input->sap_brix, error)
         && fr_cli_evening_amount (say, "--sap-temp", sap_c_text, FR_QUANTITY_TEMPERATURE, &input->sap_c,
                                   error)
         && fr_cli_evening_amount (say, "--no-thicker-than", max_text, FR_QUANTITY_SWEETNESS,
                                   &input->max_brix, error)
         && fr_cli_evening_amount (say, "--air", air_text, FR_QUANTITY_TEMPERATURE, &input->air_c, error)
         && fr_cli_evening_amount (say, "--low", low_text, FR_QUANTITY_TEMPERATURE, &input->air_low_c, error)
         && fr_cli_evening_amount (say, "--water-boils", boils_text, FR_QUANTITY_TEMPERATURE,
                                   &input->water_boils_c, error)
         && choose_cookers (input, error);
}

/* A label and the blanks to its column; g_string's own padding counts bytes, not what is seen. */
static void
print_label (GString *out, const char *label)
{
  g_string_append_printf (out, "  %s", label);
  for (glong width = g_utf8_strlen (label, -1); width < 25; width++)
    g_string_append_c (out, ' ');
}

static void
print_figure (GString *out, const FrFigure *figure)
{
  print_label (out, figure->label);
  g_string_append_printf (out, "%s%s%s", figure->number, figure->unit[0] != '\0' ? " " : "", figure->unit);
  if (figure->note != NULL)
    g_string_append_printf (out, "  (%s)", figure->note);
  g_string_append_c (out, '\n');
}

static void
print_heading (GString *out, const char *heading)
{
  g_string_append_printf (out, "\n%s\n", heading);
}

static void
print_feeds (GString *out, GPtrArray *feeds)
{
  for (guint i = 0; i < feeds->len; i++)
    {
      const FrFeedWords *feed = feeds->pdata[i];

      if (feed->title != NULL)
        g_string_append_printf (out, "  %s\n", feed->title);
      print_figure (out, feed->setting);
      for (guint k = 0; k < feed->lines->len; k++)
        print_figure (out, feed->lines->pdata[k]);
      for (guint k = 0; k < feed->warnings->len; k++)
        g_string_append_printf (out, "  %s\n", (const char *)feed->warnings->pdata[k]);
    }
}

static void
print_words (GString *out, const FrPlanWords *words)
{
  g_autofree char *sentence = fr_say_plain (words->sentence);

  g_string_append_printf (out, "%s\n\n%s\n%s\n", words->date, sentence, words->reason);
  if (words->range != NULL)
    g_string_append_printf (out, "%s\n", words->range);
  if (words->danger != NULL)
    g_string_append_printf (out, "!! %s\n", words->danger);
  if (words->figures->len > 0)
    g_string_append_c (out, '\n');
  for (guint i = 0; i < words->figures->len; i++)
    print_figure (out, words->figures->pdata[i]);
  if (words->cookers->len > 0)
    print_heading (out, "Cookers");
  for (guint i = 0; i < words->cookers->len; i++)
    {
      const FrCookerWords *cooker = words->cookers->pdata[i];
      g_autofree char *pour = fr_say_plain (cooker->pour);

      g_string_append_printf (out, "  %s: %s %s\n", cooker->name, pour, cooker->when);
    }
  if (words->rest->len > 0)
    print_heading (out, "What stays");
  for (guint i = 0; i < words->rest->len; i++)
    g_string_append_printf (out, "  %s\n", (const char *)words->rest->pdata[i]);
  if (words->costs->len > 0)
    print_heading (out, "The same sap costs");
  for (guint i = 0; i < words->costs->len; i++)
    {
      const FrCostWords *cost = words->costs->pdata[i];

      print_label (out, cost->label);
      g_string_append_printf (out, "%s\n", cost->cost);
    }
  if (words->price_note != NULL)
    g_string_append_printf (out, "  %s\n", words->price_note);
  if (words->break_even != NULL)
    g_string_append_printf (out, "  %s\n", words->break_even);
  if (words->feeds->len > 0)
    print_heading (out, "Feed");
  print_feeds (out, words->feeds);
  if (words->cautions->len > 0)
    print_heading (out, "Cautions");
  for (guint i = 0; i < words->cautions->len; i++)
    {
      const FrCautionWords *caution = words->cautions->pdata[i];

      g_string_append_printf (out, "  %s %s\n",
                              caution->severity == FR_SEVERITY_DANGER   ? "!!"
                              : caution->severity == FR_SEVERITY_PASSED ? "ok"
                                                                        : " !",
                              caution->text);
    }
}

static void
print_json (GString *out, const FrPlan *plan, const FrPlanInput *input, const FrPlanWords *words)
{
  FrOutput output;
  g_autofree char *text = NULL, *sentence = fr_say_plain (words->sentence);

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_string (&output, "sentence", sentence);
  fr_output_string (&output, "reason", words->reason);
  fr_plan_write_json (&output, plan, input);
  fr_output_end_object (&output);
  text = fr_output_finish (&output);
  g_string_append (out, text);
}

gboolean
fr_tonight_run (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliEvening evening;
  g_autofree FrPlanInput *input = g_new0 (FrPlanInput, 1);
  g_autoptr (FrTariff) tariff = NULL;
  FrTariffProblem problem = { 0 };
  gboolean ok
      = fr_cli_evening_load (&evening, book_path, error) && fill (&evening, input, &tariff, &problem, error);

  if (ok)
    {
      g_autoptr (FrPlan) plan = fr_plan_new (input);
      g_autoptr (FrPlanWords) words = fr_plan_words_new (plan, input, &evening.say);

      if (tariff == NULL && words->price_note == NULL)
        words->price_note = fr_price_problem_sentence (&problem);
      if (options->json)
        print_json (answer, plan, input, words);
      else
        print_words (answer, words);
      if (plan->status == FR_PLAN_BAD_INPUT || plan->status == FR_PLAN_BAD_KIT
          || plan->status == FR_PLAN_NO_HOURS)
        {
          g_autofree char *sentence = fr_say_plain (words->sentence);

          g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "%s %s", sentence, words->reason);
          ok = FALSE;
        }
    }
  fr_cli_evening_clear (&evening);
  return ok;
}
