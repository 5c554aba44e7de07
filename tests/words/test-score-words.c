/* The sentence of a score says what its rows say and nothing else. */
#include "words/score-words.h"

#include "sentences.h"

#include <math.h>

/* A row that beats everything; the others behind it. */
static void
rows_good (FrScoreRow *rows)
{
  for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
    {
      rows[m] = (FrScoreRow){ .n = 20, .n_runs = 12 };
      for (guint k = 0; k < FR_N_SCORES; k++)
        rows[m].scores[k] = (FrScoreValue){ m == FR_SCORE_PROGRAM ? 0.5 : 1, 0.4, 0.7 };
      rows[m].scores[FR_SCORE_SUCCESS_RATIO].value = 0.9;
      rows[m].scores[FR_SCORE_SUCCESS_ALWAYS].value = 0.6;
      rows[m].scores[FR_SCORE_INSIDE_RATIO].value = 0.8;
      rows[m].scores[FR_SCORE_BRIER].value = 0.1;
      rows[m].scores[FR_SCORE_BRIER_BASE].value = 0.24;
    }
}

/* Each row changed for the worse in one way brings its own part, and no other one. */
static void
test_parts (void)
{
  static const char *const parts[] = { "closer in litres", "better distribution", "told apart only weakly", "than luck may give",
                                       "no better than the season's own", "always collecting", "too narrow", "too wide", "no gain" };

  for (guint i = 0; i <= G_N_ELEMENTS (parts); i++)
    {
      FrScoreRow rows[FR_N_SCORE_MODELS], drawn;
      FrScoreRow *own = &rows[FR_SCORE_PROGRAM];
      g_autofree char *text = NULL;

      rows_good (rows);
      drawn = *own;
      if (i == 0)
        rows[FR_SCORE_THAW_HOURS].scores[FR_SCORE_ERROR_L].value = 0.3;
      else if (i == 1)
        rows[FR_SCORE_THAW_HOURS].scores[FR_SCORE_CRPS_L].value = 0.3;
      else if (i == 2)
        own->scores[FR_SCORE_RANK].value = 0.3;
      else if (i == 3)
        own->scores[FR_SCORE_BRIER_SKILL].lo = -0.1;
      else if (i == 4)
        own->scores[FR_SCORE_BRIER].value = 0.25;
      else if (i == 5)
        own->scores[FR_SCORE_SUCCESS_RATIO].value = 0.6;
      else if (i == 6)
        own->scores[FR_SCORE_INSIDE_RATIO].value = 0.5;
      else if (i == 7)
        own->scores[FR_SCORE_INSIDE_RATIO].value = 1;
      else if (i == 8)
        drawn.scores[FR_SCORE_ERROR_RATIO].hi = 1.1;
      text = fr_score_verdict (FR_SCORE_OBSERVED, rows, &drawn);
      sentence (text);
      for (guint k = 0; k < G_N_ELEMENTS (parts); k++)
        g_assert_cmpint (strstr (text, parts[k]) != NULL, ==, k == i);
      g_assert_cmpint (strstr (text, "disappointing") != NULL, ==, i < G_N_ELEMENTS (parts));
      if (i < 2)
        g_assert_nonnull (strstr (text, fr_score_model_name (FR_SCORE_THAW_HOURS)));
    }
}

/* It "beat" only where the whole range does. */
static void
test_claims (void)
{
  static const struct
  {
    double value, hi;
    const char *said;
  } cases[] = { { 0.5, 0.7, "beat a constant" },
                { 0.8, 0.997, "may be luck" },
                { 0.8, 1.2, "may be luck" },
                { 1.1, 1.3, "did not beat" },
                { 0.8, NAN, "may be luck" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      FrScoreRow rows[FR_N_SCORE_MODELS];
      g_autofree char *text = NULL;

      rows_good (rows);
      rows[FR_SCORE_PROGRAM].scores[FR_SCORE_ERROR_RATIO] = (FrScoreValue){ cases[i].value, isnan (cases[i].hi) ? NAN : 0.4, cases[i].hi };
      text = fr_score_verdict (FR_SCORE_KEPT, rows, NULL);
      sentence (text);
      g_assert_true (g_str_has_prefix (text, "By the forecasts that were kept"));
      g_assert_nonnull (strstr (text, cases[i].said));
    }
}

static void
test_few (void)
{
  FrScoreRow rows[FR_N_SCORE_MODELS];
  g_autofree char *text = NULL;

  rows_good (rows);
  rows[FR_SCORE_PROGRAM].n = 9;
  text = fr_score_verdict (FR_SCORE_OBSERVED, rows, NULL);
  sentence (text);
  g_assert_nonnull (strstr (text, "Too few"));
}

static void
test_names (void)
{
  for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
    sentence_parts (fr_score_model_name (m));
  for (guint k = 0; k < FR_N_SCORE_AIRS; k++)
    sentence_parts (fr_score_air_name (k));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/score-words/parts", test_parts);
  g_test_add_func ("/score-words/claims", test_claims);
  g_test_add_func ("/score-words/few", test_few);
  g_test_add_func ("/score-words/names", test_names);
  return g_test_run ();
}
