/* The table of scores against scores worked out here, on made-up emptyings; and what a forecast asked for the past must not know. */
#include "domain/plan/forecast-tally.h"

#include "domain/maths/chance.h"

#include "found.h"

#include <string.h>

/* A season whose tries the test fills in itself: one course, observed weather, program and constant. */
static FrSeasonScore *
made_up (guint n)
{
  FrSeasonScore *score = g_new0 (FrSeasonScore, 1);

  score->n = n;
  for (guint m = 0; m <= FR_SCORE_CONSTANT; m++)
    {
      score->n_courses[m][FR_SCORE_OBSERVED] = 1;
      score->tries[m][FR_SCORE_OBSERVED] = g_new0 (FrScoreTry, n);
    }
  return score;
}

static void
put (FrSeasonScore *score, FrScoreModel model, guint i, double told_l, double probability, double came_l)
{
  score->tries[model][FR_SCORE_OBSERVED][i] = (FrScoreTry){
    .span_days = 1 + i % 3,
    .per_day = { told_l / 2, told_l * 0.7, told_l, told_l * 1.4, told_l * 2, told_l * 1.1 },
    .run_probability = probability,
    .came_l = came_l,
    .crps_l = fabs (told_l - came_l) / 2,
    .log_score = 1 + told_l,
  };
}

static FrScoreRow
row_of (const FrSeasonScore *score, guint n_resamples)
{
  FrScoreRow row;

  fr_score_row (&score, 1, FR_SCORE_PROGRAM, FR_SCORE_OBSERVED, n_resamples, 1, &row);
  return row;
}

/* Six emptyings by hand. Runs: 0.6, 2, 3, 0.5; told with a half or more: the 1st, 2nd, 3rd and 6th. */
static void
test_by_hand (void)
{
  static const double told[] = { 1, 2, 2, 0.4, 0.2, 1 }, said[] = { 0.7, 0.9, 0.9, 0.2, 0.1, 0.6 };
  static const double came[] = { 0.6, 2, 3, 0.5, 0, 0.3 };
  g_autoptr (FrSeasonScore) score = made_up (6);
  FrScoreRow row;

  for (guint i = 0; i < 6; i++)
    {
      put (score, FR_SCORE_PROGRAM, i, told[i], said[i], came[i]);
      put (score, FR_SCORE_CONSTANT, i, 1, 0.5, came[i]);
    }
  row = row_of (score, 0);
  g_assert_cmpuint (row.n, ==, 6);
  g_assert_cmpuint (row.n_runs, ==, 4);
  /* Days 1, 2, 3, 1, 2, 3: 0.4 + 0 + 3 + 0.1 + 0.4 + 2.1 = 6.0; the constant: 0.4 + 2 + 6 + 0.5 + 2 + 2.1 = 13.0. */
  found_near ("mean absolute error by hand", row.scores[FR_SCORE_ERROR_L].value, 1.0, 1e-12);
  found_near ("share of the constant's by hand", row.scores[FR_SCORE_ERROR_RATIO].value, 6.0 / 13, 1e-12);
  /* 0.09 + 0.01 + 0.01 + 0.64 + 0.01 + 0.36. */
  found_near ("Brier by hand", row.scores[FR_SCORE_BRIER].value, 1.12 / 6, 1e-12);
  found_near ("Brier of the base rate by hand", row.scores[FR_SCORE_BRIER_BASE].value, 4.0 / 6 * 2 / 6, 1e-12);
  found_near ("hit rate by hand", row.scores[FR_SCORE_HIT_RATIO].value, 3.0 / 4, 1e-12);
  found_near ("false alarms by hand", row.scores[FR_SCORE_FALSE_RATIO].value, 1.0 / 4, 1e-12);
  found_near ("success index by hand", row.scores[FR_SCORE_SUCCESS_RATIO].value, 3.0 / 5, 1e-12);
  found_near ("success index of always by hand", row.scores[FR_SCORE_SUCCESS_ALWAYS].value, 4.0 / 6, 1e-12);
  /* Ranges told/2 to 2 told: all but 0 of 0.1 to 0.4 and 0.3 of 0.5 to 2. */
  found_near ("inside by hand", row.scores[FR_SCORE_INSIDE_RATIO].value, 4.0 / 6, 1e-12);
  /* Widths 1.5 times 6.6; misses 0.1 and 0.2 by 10. */
  found_near ("interval score by hand", row.scores[FR_SCORE_INTERVAL_L].value, (9.9 + 3) / 6, 1e-12);
}

/* Murphy 1973: Brier = reliability − resolution + uncertainty where chances take a few values, each a bin of its own. */
static void
test_brier_parts (void)
{
  enum
  {
    N = 300,
    BINS = 5
  };
  static const double chances[BINS] = { 0.1, 0.3, 0.5, 0.7, 0.9 };
  g_autoptr (FrSeasonScore) score = made_up (N);
  const FrSeasonScore *seasons[] = { score };
  FrReliabilityBin bins[BINS];
  FrChance chance = { 11 };
  FrScoreRow row;
  double runs = 0, reliability = 0, resolution = 0;
  guint n = 0;

  for (guint i = 0; i < N; i++)
    {
      double said = chances[fr_chance_below (&chance, BINS)];
      double came = fr_chance_ratio (&chance) < said * 0.8 ? 1 : 0;

      put (score, FR_SCORE_PROGRAM, i, 1, said, came);
      put (score, FR_SCORE_CONSTANT, i, 1, 0.5, came);
      runs += came;
    }
  row = row_of (score, 0);
  fr_score_reliability (seasons, 1, FR_SCORE_PROGRAM, FR_SCORE_OBSERVED, BINS, bins);
  for (guint b = 0; b < BINS; b++)
    {
      n += bins[b].n;
      reliability += bins[b].n * pow (bins[b].said_ratio - bins[b].happened_ratio, 2) / N;
      resolution += bins[b].n * pow (bins[b].happened_ratio - runs / N, 2) / N;
      found_near ("chance of a bin", bins[b].said_ratio, chances[b], 1e-12);
      g_assert_cmpfloat (bins[b].lo_ratio, <, bins[b].happened_ratio);
      g_assert_cmpfloat (bins[b].hi_ratio, >, bins[b].happened_ratio);
    }
  g_assert_cmpuint (n, ==, N);
  found_near ("Brier from its parts (Murphy 1973)", row.scores[FR_SCORE_BRIER].value,
              reliability - resolution + runs / N * (1 - runs / N), 1e-12);
}

/* Of too few there are no ranges, of none there is nothing. */
static void
test_few (void)
{
  for (guint n = 0; n <= 6; n++)
    {
      g_autoptr (FrSeasonScore) score = made_up (MAX (n, 1));
      FrScoreRow row;

      score->n = n;
      for (guint i = 0; i < n; i++)
        {
          put (score, FR_SCORE_PROGRAM, i, 1 + i, 0.5, i);
          put (score, FR_SCORE_CONSTANT, i, 1, 0.5, i);
        }
      row = row_of (score, 50);
      g_assert_cmpuint (row.n, ==, n);
      for (guint k = 0; k < FR_N_SCORES; k++)
        g_assert_cmpint (isnan (row.scores[k].lo), ==, n < 6 || isnan (row.scores[k].value));
      g_assert_cmpint (isnan (row.scores[FR_SCORE_ERROR_L].value), ==, n == 0);
    }
}

/* How often a range of 9 in 10 holds the truth: errors of 30 emptyings drawn again and again, alone and each leaning on the one before.
 * The block bootstrap of so few is known to fall short (common practice, no source), the more the more they lean. */
static double
coverage (double lean_ratio)
{
  enum
  {
    N = 30,
    TIMES = 400
  };
  FrChance chance = { 5 };
  guint held = 0;

  for (guint t = 0; t < TIMES; t++)
    {
      g_autoptr (FrSeasonScore) score = made_up (N);
      double z = 0, fresh;
      FrScoreRow row;

      fr_chance_normals (&chance, &z, 1);
      for (guint i = 0; i < N; i++)
        {
          put (score, FR_SCORE_PROGRAM, i, 3, 0.5, 3);
          put (score, FR_SCORE_CONSTANT, i, 3, 0.5, 3);
          fr_chance_normals (&chance, &fresh, 1);
          z = lean_ratio * z + sqrt (1 - lean_ratio * lean_ratio) * fresh;
          score->tries[FR_SCORE_PROGRAM][FR_SCORE_OBSERVED][i].log_score = 2 + z;
        }
      row = row_of (score, 300);
      held += row.scores[FR_SCORE_LOG].lo <= 2 && row.scores[FR_SCORE_LOG].hi >= 2;
    }
  return (double)held / TIMES;
}

static void
test_coverage (void)
{
  double alone = coverage (0), leaning = coverage (0.3);

  g_test_message ("a range of 9 in 10 held %.3f of truths, %.3f where neighbours lean", alone, leaning);
  g_assert_cmpfloat (alone, >, 0.83);
  g_assert_cmpfloat (alone, <, 0.95);
  g_assert_cmpfloat (leaning, >, 0.76);
}

/* --- a season asked of the forecast itself --- */

#define DAYS 60

typedef struct
{
  double air_c[DAYS * 24];
  FrAirHours air;
  FrSapGathered gathered[20];
  FrForecastQuestion season;
  FrScoreRivals *rivals;
} Season;

static void
season_set_up (Season *season, gconstpointer data)
{
  FrSapFitSpan spans[20];
  FrSapFitSeason training = { DAYS * 24, season->air_c, 20 * 24, 20, spans };

  for (gint h = 0; h < DAYS * 24; h++)
    season->air_c[h] = -2 + 3 * sin (h / 100.0) + 5 * sin ((h % 24 - 9) * G_PI / 12);
  season->air = (FrAirHours){ { 2026, 2, 1 }, 0, DAYS * 24, season->air_c, NULL, NULL };
  for (guint i = 0; i < 20; i++)
    {
      season->gathered[i] = (FrSapGathered){ fr_date_add_days (season->air.first, 22 + 2 * (gint)i), fmax (0, 2 * sin (i * 1.3) + 1), 2 };
      spans[i] = (FrSapFitSpan){ (20 + 2 * i) * 24, (22 + 2 * i) * 24, fmax (0, 1.6 * sin (i * 1.1) + 1) };
    }
  season->rivals = fr_score_rivals_new (&training, 1);
  season->season = (FrForecastQuestion){ .air = &season->air,
                                         .gather_hour = 17,
                                         .tapped = fr_date_add_days (season->air.first, 20),
                                         .n_gathered = 18,
                                         .gathered = season->gathered,
                                         .errors = fr_forecast_error_usual (),
                                         .n_draws = 2,
                                         .seed = 3 };
}

static void
season_tear_down (Season *season, gconstpointer data)
{
  fr_score_rivals_free (season->rivals);
}

/* A span of one day is that day. */
static void
test_span_is_day (Season *season, gconstpointer data)
{
  g_autoptr (FrForecast) forecast = NULL;

  season->season.as_of = season->gathered[9].date;
  forecast = fr_forecast_new (&season->season);
  for (gint ahead = 1; ahead <= 5; ahead++)
    {
      FrDate date = fr_date_add_days (season->season.as_of, ahead);
      const FrForecastDay *day = fr_forecast_day (forecast, date);
      FrForecastSpan span;

      fr_forecast_span (&season->season, date, 1, &span);
      found_near ("a span of a day, L", span.per_tap.middle_l, day->per_tap.middle_l, 1e-12);
      found_near ("a span of a day, chance", span.run_probability, day->run_probability, 1e-12);
      g_assert_cmpuint (span.n_learned, ==, 10);
      /* The mean of a distribution is what lies above each value, added up; steps are 2 % wide. */
      double mean_l = 0;

      for (guint i = 0; i < FR_FORECAST_STEPS; i++)
        mean_l += (span.at_l[i + 1] - span.at_l[i]) * (1 - (span.below_ratio[i] + span.below_ratio[i + 1]) / 2);
      found_near ("mean from the distribution, of 1", mean_l / span.per_day.mean_l, 1, 1e-3);
    }
}

/* Of a span the mean is the days' added up, for they scatter together. */
static void
test_span_adds_up (Season *season, gconstpointer data)
{
  g_autoptr (FrForecast) forecast = NULL;
  FrForecastSpan span;
  double sum_l = 0;

  season->season.as_of = season->gathered[9].date;
  season->season.errors.first_sd_k = season->season.errors.last_sd_k = 0;
  forecast = fr_forecast_new (&season->season);
  for (gint ahead = 1; ahead <= 3; ahead++)
    sum_l += fr_forecast_day (forecast, fr_date_add_days (season->season.as_of, ahead))->per_tap.mean_l;
  fr_forecast_span (&season->season, fr_date_add_days (season->season.as_of, 3), 3, &span);
  found_near ("mean of a span over its days' added, of 1", span.per_tap.mean_l / sum_l, 1, 0.02);
  g_assert_cmpfloat (span.per_tap.lo_l, <, span.per_tap.middle_l);
  g_assert_cmpfloat (span.per_tap.middle_l, <, span.per_tap.hi_l);
}

/* What comes after an emptying changes nothing of what was told of it, in any model or column. */
static void
test_no_future (Season *season, gconstpointer data)
{
  const FrScoreQuestion question = { .season = &season->season, .rivals = season->rivals, .n_courses = 2 };
  g_autoptr (FrSeasonScore) before = fr_season_score_new (&question), after = NULL;
  guint changed = 0;

  for (guint i = 10; i < 18; i++)
    season->gathered[i].per_tap_l = 40;
  for (gint h = (22 + 2 * 10 + 1) * 24; h < DAYS * 24; h++)
    season->air_c[h] = 12;
  after = fr_season_score_new (&question);
  for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
    for (guint k = 0; k < FR_SCORE_KEPT; k++)
      for (guint i = 0; i < 18 * before->n_courses[m][k]; i++)
        {
          const FrScoreTry *a = &before->tries[m][k][i], *b = &after->tries[m][k][i];

          if (i % 18 <= 10)
            {
              g_assert_cmpfloat (a->per_day.middle_l, ==, b->per_day.middle_l);
              g_assert_cmpfloat (a->run_probability, ==, b->run_probability);
            }
          else
            changed += a->per_day.middle_l != b->per_day.middle_l;
        }
  g_assert_cmpuint (changed, >, 60);
}

/* Errors of no size are no errors: the columns agree to the last digit. A kept forecast that was right is the first column too. */
static void
test_columns_agree (Season *season, gconstpointer data)
{
  const FrScoreKept kept[] = { { season->gathered[4].date, &season->air }, { season->gathered[7].date, &season->air } };
  const FrScoreQuestion question = { &season->season, season->rivals, 1, G_N_ELEMENTS (kept), kept };
  g_autoptr (FrSeasonScore) score = NULL;
  const FrSeasonScore *seasons[1];
  FrScoreRow row;

  season->season.errors.first_sd_k = season->season.errors.last_sd_k = 0;
  score = fr_season_score_new (&question);
  seasons[0] = score;
  for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
    for (guint i = 0; i < score->n; i++)
      {
        const FrScoreTry *observed = &score->tries[m][FR_SCORE_OBSERVED][i];
        const FrScoreTry *drawn = &score->tries[m][FR_SCORE_DRAWN][i], *foretold = &score->tries[m][FR_SCORE_KEPT][i];

        found_near ("middle with errors of no size, L", drawn->per_day.middle_l, observed->per_day.middle_l, 1e-9);
        if (i == 5 || i == 8)
          found_near ("middle by a forecast that was right, L", foretold->per_day.middle_l, observed->per_day.middle_l, 1e-9);
        else
          g_assert_true (isnan (foretold->per_day.middle_l));
      }
  fr_score_row (seasons, 1, FR_SCORE_PROGRAM, FR_SCORE_KEPT, 10, 1, &row);
  g_assert_cmpuint (row.n, ==, 2);
}

/* "As the emptying before" tells what came then; the mean of other seasons their geometric one, above a fifth of a litre. */
static void
test_simple_ways (Season *season, gconstpointer data)
{
  const FrScoreQuestion question = { .season = &season->season, .rivals = season->rivals };
  g_autoptr (FrSeasonScore) score = fr_season_score_new (&question);
  double mean = 0;

  for (guint i = 0; i < 20; i++)
    mean += log (fmax (0, 1.6 * sin (i * 1.1) + 1) / 2 + 0.2) / 20;
  for (guint i = 1; i < score->n; i++)
    {
      found_near ("as the emptying before, L a day", score->tries[FR_SCORE_LAST][FR_SCORE_OBSERVED][i].per_day.middle_l,
                  season->gathered[i - 1].per_tap_l / 2, 0.02);
      found_near ("mean of other seasons, L a day", score->tries[FR_SCORE_SEASON_MEAN][FR_SCORE_OBSERVED][i].per_day.middle_l,
                  exp (mean) - 0.2, 0.02);
    }
}

#define ADD(name, test) g_test_add ("/forecast-score/" name, Season, NULL, season_set_up, test, season_tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecast-score/by-hand", test_by_hand);
  g_test_add_func ("/forecast-score/brier-parts", test_brier_parts);
  g_test_add_func ("/forecast-score/few", test_few);
  g_test_add_func ("/forecast-score/coverage", test_coverage);
  ADD ("span/day", test_span_is_day);
  ADD ("span/adds-up", test_span_adds_up);
  ADD ("no-future", test_no_future);
  ADD ("columns-agree", test_columns_agree);
  ADD ("simple-ways", test_simple_ways);
  return found_run ();
}
