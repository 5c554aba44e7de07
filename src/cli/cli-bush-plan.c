/* frostrun-cli tap-plan and round from a book instead of a file: the plan and the round that the window
 * shows. Nothing is written. */
#include "cli/cli-bush.h"

#include "formats/bush-plan-json.h"
#include "formats/input-error.h"
#include "words/bush-words.h"

#include <string.h>

char *fr_cli_plan_book;
static char *season_text, *now_text, *which_text;
static gboolean peak_day;

#define SHARED_ENTRIES                                                                                       \
  { "book", 0, 0, G_OPTION_ARG_FILENAME, &fr_cli_plan_book, "A book instead of a file", "FILE" },            \
      { "season", 0, 0, G_OPTION_ARG_STRING, &season_text, "With a book: the year of the season's spring",   \
        "2026" },                                                                                            \
  {                                                                                                          \
    "now", 0, 0, G_OPTION_ARG_STRING, &now_text, "With a book: as if it were then, local time",              \
        "2026-03-11T16:00"                                                                                   \
  }

const GOptionEntry fr_tap_plan_entries[] = { SHARED_ENTRIES, { NULL } };

const GOptionEntry fr_round_entries[]
    = { SHARED_ENTRIES,
        { "which", 0, 0, G_OPTION_ARG_STRING, &which_text, "With a book: past taps set, or planned too",
          "set|planned" },
        { "peak", 0, 0, G_OPTION_ARG_NONE, &peak_day,
          "With a book: as full as on a peak day, not an average one", NULL },
        { NULL } };

static void
print_figures (GString *out, GPtrArray *figures)
{
  glong width = 0;

  for (guint i = 0; i < figures->len; i++)
    width = MAX (width, g_utf8_strlen (((FrFigure *)figures->pdata[i])->label, -1));
  if (figures->len > 0)
    g_string_append_c (out, '\n');
  for (guint i = 0; i < figures->len; i++)
    {
      const FrFigure *figure = figures->pdata[i];

      g_string_append_printf (out, "  %s", figure->label);
      for (glong k = g_utf8_strlen (figure->label, -1); k < width; k++)
        g_string_append_c (out, ' ');
      g_string_append_printf (out, "  %s%s%s\n", figure->number, figure->unit[0] != '\0' ? " " : "",
                              figure->unit);
    }
}

static void
print_notes (GString *out, GPtrArray *notes)
{
  if (notes->len > 0)
    g_string_append_c (out, '\n');
  for (guint i = 0; i < notes->len; i++)
    g_string_append_printf (out, "%s\n", (const char *)notes->pdata[i]);
}

static void
print_dangers (GString *out, GPtrArray *dangers)
{
  for (guint i = 0; i < dangers->len; i++)
    g_string_append_printf (out, "!! %s\n", (const char *)dangers->pdata[i]);
}

/* --- tap-plan --- */

static void
print_plan (GString *out, const FrBush *bush, const FrBushPlan *plan, const FrBushPlanWords *words,
            const char *sentence)
{
  g_string_append_printf (out, "%s\n", sentence);
  print_dangers (out, words->dangers);
  if (words->reason != NULL)
    g_string_append_printf (out, "%s\n", words->reason);
  print_figures (out, words->figures);
  if (plan->n_taps > 0)
    g_string_append_c (out, '\n');
  for (guint i = 0; i < plan->taps->len; i++)
    {
      const guint taps = g_array_index (plan->taps, guint, i);

      if (taps > 0)
        g_string_append_printf (out, "  %u  %s\n", taps, fr_bush_tree_at (bush, i)->tree->name);
    }
  print_notes (out, words->notes);
}

gboolean
fr_run_bush_plan (const FrCommandOptions *options, GString *answer, GError **error)
{
  FrCliBush bush;
  gboolean ok = fr_cli_bush_load (&bush, fr_cli_plan_book, season_text, now_text, error);

  if (ok)
    {
      g_autoptr (FrBushPlan) plan = fr_bush_plan (bush.bush);
      g_autoptr (FrBushPlanWords) words = fr_bush_plan_words_new (bush.bush, plan, &bush.evening.say);
      g_autofree char *sentence = fr_say_plain (words->sentence);

      if (options->json)
        {
          g_autofree char *text = fr_bush_plan_to_json (bush.bush, plan, sentence);

          g_string_append (answer, text);
        }
      else
        print_plan (answer, bush.bush, plan, words, sentence);
    }
  fr_cli_bush_clear (&bush);
  return ok;
}

/* --- round --- */

static void
print_stops (GString *out, const FrBush *bush, const FrBushRound *round, const FrSay *say)
{
  guint trip = G_MAXUINT;

  for (guint i = 0; i < round->stops->len; i++)
    {
      const FrBushStop *stop = &g_array_index (round->stops, FrBushStop, i);
      g_autofree char *leg = fr_say_amount (say, stop->leg_m, FR_QUANTITY_DISTANCE, 0);
      g_autofree char *litres = fr_say_amount (say, stop->volume_l, FR_QUANTITY_VOLUME, 1);

      if (stop->trip != trip)
        g_string_append_printf (out, "\nTrip %u\n", stop->trip + 1);
      trip = stop->trip;
      g_string_append_printf (out, "  %s: %s on, %s\n", fr_bush_find (bush, stop->tree)->tree->name, leg,
                              litres);
    }
}

static void
print_round (GString *out, const FrBush *bush, const FrBushRound *round, const FrBushRoundWords *words,
             const char *sentence, const FrSay *say)
{
  g_autoptr (GArray) trees = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GPtrArray) dangers = NULL;

  /* Full trips to one tree stand one after the other. */
  for (guint i = 0; round != NULL && i < round->stops->len; i++)
    if (trees->len == 0
        || g_array_index (trees, gint64, trees->len - 1) != g_array_index (round->stops, FrBushStop, i).tree)
      g_array_append_val (trees, g_array_index (round->stops, FrBushStop, i).tree);
  dangers = fr_bush_dangers (bush, (const gint64 *)(gconstpointer)trees->data, trees->len, say);
  g_string_append_printf (out, "%s\n", sentence);
  print_dangers (out, dangers);
  if (words->reason != NULL)
    g_string_append_printf (out, "%s\n", words->reason);
  print_figures (out, words->figures);
  if (round != NULL)
    print_stops (out, bush, round, say);
  print_notes (out, words->notes);
}

static gboolean
round_kind (FrRoundWhich *which_out, GError **error)
{
  *which_out = FR_ROUND_PLANNED;
  if (which_text == NULL || strcmp (which_text, "planned") == 0)
    return TRUE;
  *which_out = FR_ROUND_SET;
  if (strcmp (which_text, "set") == 0)
    return TRUE;
  g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "--which “%s” has to be set or planned",
               which_text);
  return FALSE;
}

gboolean
fr_run_bush_round (const FrCommandOptions *options, GString *answer, GError **error)
{
  FrCliBush bush;
  FrRoundWhich which;
  gboolean ok = fr_cli_bush_load (&bush, fr_cli_plan_book, season_text, now_text, error)
                && round_kind (&which, error);

  if (ok)
    {
      const double ratio = peak_day ? fr_bush_peak_ratio (bush.bush) : 1;
      g_autoptr (FrBushRound) round = fr_bush_round (bush.bush, which, NULL, 0, ratio);
      g_autoptr (FrBushRoundWords) words = fr_bush_round_words_new (round, &bush.evening.say);
      g_autofree char *sentence = fr_say_plain (words->sentence);

      if (options->json)
        {
          g_autofree char *text = fr_bush_round_to_json (bush.bush, round, sentence);

          g_string_append (answer, text);
        }
      else
        print_round (answer, bush.bush, round, words, sentence, &bush.evening.say);
    }
  fr_cli_bush_clear (&bush);
  return ok;
}
