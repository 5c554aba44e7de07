/* frostrun-cli score. */
#include "cli/cli-commands.h"
#include "cli/cli-print.h"
#include "cli/cli-score-seasons.h"
#include "formats/score-json.h"
#include "words/score-words.h"

#include <math.h>

#define RESAMPLES 1000
#define BINS 5

typedef struct
{
  FrScoreRow rows[FR_N_SCORE_AIRS][FR_N_SCORE_MODELS];
} Rows;

static void
put_rows (const FrCliScoreChoice *choice, const FrSeasonScore *const *seasons, guint n, Rows *rows)
{
  for (guint k = 0; k < FR_N_SCORE_AIRS; k++)
    for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
      fr_score_row (seasons, n, m, k, RESAMPLES, choice->seed, &rows->rows[k][m]);
}

static const FrScoreRow *
drawn_of (const Rows *rows)
{
  const FrScoreRow *row = &rows->rows[FR_SCORE_DRAWN][FR_SCORE_PROGRAM];

  return row->n > 0 ? row : NULL;
}

static char *
cell (const FrScoreRow *row, FrScoreKind kind, double by, int decimals)
{
  const FrScoreValue *score = &row->scores[kind];

  if (isnan (score->value))
    return g_strdup ("–");
  if (isnan (score->lo))
    return g_strdup_printf ("%.*f", decimals, by * score->value);
  return g_strdup_printf ("%.*f (%.*f…%.*f)", decimals, by * score->value, decimals, by * score->lo, decimals, by * score->hi);
}

static const struct
{
  const char *head;
  FrScoreKind kind;
  double by;
  int decimals;
} litres_columns[] = {
  { "Rank r", FR_SCORE_RANK, 1, 2 },
  { "Error L", FR_SCORE_ERROR_L, 1, 2 },
  { "% of constant's", FR_SCORE_ERROR_RATIO, 100, 0 },
  { "CRPS L/day", FR_SCORE_CRPS_L, 1, 3 },
  { "In 10–90 %", FR_SCORE_INSIDE_RATIO, 100, 0 },
  { "Interval L/day", FR_SCORE_INTERVAL_L, 1, 2 },
  { "Log score", FR_SCORE_LOG, 1, 2 },
}, run_columns[] = {
  { "Brier", FR_SCORE_BRIER, 1, 3 },
  { "of base rate", FR_SCORE_BRIER_BASE, 1, 3 },
  { "Skill %", FR_SCORE_BRIER_SKILL, 100, 0 },
  { "Hits %", FR_SCORE_HIT_RATIO, 100, 0 },
  { "False alarms %", FR_SCORE_FALSE_RATIO, 100, 0 },
  { "Success index", FR_SCORE_SUCCESS_RATIO, 1, 2 },
  { "always collect", FR_SCORE_SUCCESS_ALWAYS, 1, 2 },
};

#define COLUMNS (1 + G_N_ELEMENTS (litres_columns))
G_STATIC_ASSERT (G_N_ELEMENTS (litres_columns) == G_N_ELEMENTS (run_columns));

static void
print_table (const Rows *rows, FrScoreAir air, gboolean of_runs, GString *answer)
{
  g_autoptr (GPtrArray) table = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  char **head = g_new0 (char *, COLUMNS + 1);

  head[0] = g_strdup (of_runs ? "A run, or none" : "Litres a tap");
  for (guint i = 0; i + 1 < COLUMNS; i++)
    head[i + 1] = g_strdup (of_runs ? run_columns[i].head : litres_columns[i].head);
  g_ptr_array_add (table, head);
  for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
    {
      char **row = g_new0 (char *, COLUMNS + 1);

      row[0] = g_strdup (fr_score_model_name (m));
      for (guint i = 0; i + 1 < COLUMNS; i++)
        row[i + 1] = of_runs ? cell (&rows->rows[air][m], run_columns[i].kind, run_columns[i].by, run_columns[i].decimals)
                             : cell (&rows->rows[air][m], litres_columns[i].kind, litres_columns[i].by, litres_columns[i].decimals);
      g_ptr_array_add (table, row);
    }
  fr_print_rows (answer, table, COLUMNS);
}

static void
print_reliability (const FrSeasonScore *const *seasons, guint n, FrScoreAir air, GString *answer)
{
  static const char *const head[] = { "Chance said %", "ran %", "8 in 10", "emptyings", NULL };
  g_autoptr (GPtrArray) table = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  FrReliabilityBin bins[BINS];

  fr_score_reliability (seasons, n, FR_SCORE_PROGRAM, air, BINS, bins);
  g_ptr_array_add (table, g_strdupv ((char **)head));
  for (guint i = 0; i < BINS; i++)
    if (bins[i].n > 0)
      {
        char **row = g_new0 (char *, 5);

        row[0] = g_strdup_printf ("%.0f", 100 * bins[i].said_ratio);
        row[1] = g_strdup_printf ("%.0f", 100 * bins[i].happened_ratio);
        row[2] = g_strdup_printf ("%.0f…%.0f", 100 * bins[i].lo_ratio, 100 * bins[i].hi_ratio);
        row[3] = g_strdup_printf ("%u", bins[i].n);
        g_ptr_array_add (table, row);
      }
  fr_print_rows (answer, table, 4);
}

static void
print_part (const char *name, const FrSeasonScore *const *seasons, guint n, const Rows *rows, GString *answer)
{
  for (guint k = 0; k < FR_N_SCORE_AIRS; k++)
    {
      const FrScoreRow *own = &rows->rows[k][FR_SCORE_PROGRAM];

      if (own->n == 0)
        continue;
      g_string_append_printf (answer, "\n%s: %u emptyings, %u with a run. %s.\n", name, own->n, own->n_runs, fr_score_air_name (k));
      print_table (rows, k, FALSE, answer);
      print_table (rows, k, TRUE, answer);
      print_reliability (seasons, n, k, answer);
    }
}

static void
print_foot (const FrCliScores *scores, const FrCliScoreChoice *choice, GString *answer)
{
  g_string_append (answer, scores->is_apart
                               ? "\nEach season was foretold with numbers fitted on the other one alone, learning from its own past days.\n"
                               : "\nForetold with the numbers that ship, fitted on Whately 2013 and 2014: a score of those seasons themselves is "
                                 "flattered.\n");
  g_string_append_printf (answer,
                          "Each emptying was foretold as of the one before. Drawn errors: %.1f K on the first day, %.1f on the seventh, "
                          "%.2f from day to day, mean of %u courses.\n",
                          choice->errors.first_sd_k, choice->errors.last_sd_k, choice->errors.day_ratio, choice->n_courses);
  g_string_append (answer, "In brackets: 9 in 10, by drawing emptyings anew, three neighbours at a time. A run is at least 0.5 L a tap and "
                           "day; a hit is one told with a chance of a half or more. Of several seasons the rank correlation is the mean of each.\n");
}

static void
print_scores (const FrCliScores *scores, const FrCliScoreChoice *choice, GString *answer)
{
  const FrSeasonScore *const *seasons = (const FrSeasonScore *const *)scores->seasons->pdata;
  guint n = scores->seasons->len;
  g_autofree Rows *all = g_new0 (Rows, 1), *rows = g_new0 (Rows, 1);
  g_autofree char *verdict = NULL;

  put_rows (choice, seasons, n, all);
  verdict = fr_score_verdict (FR_SCORE_OBSERVED, all->rows[FR_SCORE_OBSERVED], drawn_of (all));
  g_string_append_printf (answer, "%s\n", verdict);
  for (guint i = 0; i < n && n > 1; i++)
    {
      g_autofree char *alone = NULL;

      put_rows (choice, seasons + i, 1, rows);
      alone = fr_score_verdict (FR_SCORE_OBSERVED, rows->rows[FR_SCORE_OBSERVED], drawn_of (rows));
      g_string_append_printf (answer, "\n%s: %s\n", (const char *)scores->names->pdata[i], alone);
      print_part (scores->names->pdata[i], seasons + i, 1, rows, answer);
    }
  print_part (n > 1 ? "All seasons" : scores->names->pdata[0], seasons, n, all, answer);
  print_foot (scores, choice, answer);
}

static void
put_json_part (FrOutput *output, const FrCliScoreChoice *choice, const char *name, const FrSeasonScore *const *seasons, guint n)
{
  g_autofree Rows *rows = g_new0 (Rows, 1);
  g_autofree char *verdict = NULL;

  put_rows (choice, seasons, n, rows);
  verdict = fr_score_verdict (FR_SCORE_OBSERVED, rows->rows[FR_SCORE_OBSERVED], drawn_of (rows));
  fr_output_object (output, NULL);
  fr_output_string (output, "name", name);
  fr_output_string (output, "verdict", verdict);
  for (guint k = 0; k < FR_N_SCORE_AIRS; k++)
    {
      FrReliabilityBin bins[BINS];

      if (rows->rows[k][FR_SCORE_PROGRAM].n == 0)
        continue;
      fr_output_object (output, fr_score_air_codes[k]);
      fr_output_object (output, "models");
      for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
        fr_score_row_write_json (output, fr_score_model_codes[m], &rows->rows[k][m]);
      fr_output_end_object (output);
      fr_score_reliability (seasons, n, FR_SCORE_PROGRAM, k, BINS, bins);
      fr_score_reliability_write_json (output, bins, BINS);
      if (n == 1)
        fr_score_tries_write_json (output, seasons[0], FR_SCORE_PROGRAM, k);
      fr_output_end_object (output);
    }
  fr_output_end_object (output);
}

static void
write_scores (const FrCliScores *scores, const FrCliScoreChoice *choice, GString *answer)
{
  const FrSeasonScore *const *seasons = (const FrSeasonScore *const *)scores->seasons->pdata;
  guint n = scores->seasons->len;
  FrOutput output;
  g_autofree char *text = NULL;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_boolean (&output, "fitted_on_other_seasons", scores->is_apart);
  fr_output_number (&output, "courses", choice->n_courses);
  fr_output_number (&output, "error_first_k", choice->errors.first_sd_k);
  fr_output_number (&output, "error_week_k", choice->errors.last_sd_k);
  fr_output_number (&output, "error_memory", choice->errors.day_ratio);
  fr_output_number (&output, "seed", choice->seed);
  fr_output_array (&output, "seasons");
  for (guint i = 0; i < n; i++)
    put_json_part (&output, choice, scores->names->pdata[i], seasons + i, 1);
  if (n > 1)
    put_json_part (&output, choice, "all", seasons, n);
  fr_output_end_array (&output);
  fr_output_end_object (&output);
  text = fr_output_finish (&output);
  g_string_append (answer, text);
}

gboolean
fr_run_score (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  FrCliScoreChoice choice;
  g_auto (FrCliScores) scores = { 0 };

  (void)file;
  if (!fr_cli_score_ask (&choice, error) || !fr_cli_scores_make (&choice, &scores, error))
    return FALSE;
  if (options->json)
    write_scores (&scores, &choice, answer);
  else
    print_scores (&scores, &choice, answer);
  return TRUE;
}
