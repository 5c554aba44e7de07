/* Sums over emptyings, from which every score follows; ranges by the circular block bootstrap (Politis and Romano 1992). */
#include "domain/plan/forecast-tally.h"

#include "domain/maths/chance.h"
#include "domain/maths/scores.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define BLOCK 3
#define HELD_RATIO 0.8
#define EIGHT_IN_TEN_Z 1.2816
#define RANGE_LO 0.05
#define FEWEST (2 * BLOCK)

/* Over emptyings and courses alike. */
typedef struct
{
  double n, runs;
  double error_l, crps_l, brier, interval_l, log_score;
  double hits, false_alarms, inside;
  double rank, n_ranks;
  double base; /* Brier's of the season's own share, times n */
} Tally;

/* Two lists of one model's season, of what was told and what came. */
typedef struct
{
  guint n;
  double *told, *came;
} Ranks;

static gboolean
is_told (const FrScoreTry *try)
{
  return !isnan (try->per_day.middle_l);
}

static gboolean
ran (const FrScoreTry *try)
{
  return try->came_l >= FR_RUN_L;
}

static void
add_try (Tally *tally, const FrScoreTry *try)
{
  gboolean told = try->run_probability >= 0.5;

  tally->n++;
  tally->runs += ran (try);
  tally->error_l += fabs (try->per_day.middle_l - try->came_l) * try->span_days;
  tally->crps_l += try->crps_l;
  tally->brier += pow (try->run_probability - ran (try), 2);
  tally->interval_l += fr_score_interval_l (try->per_day.lo_l, try->per_day.hi_l, HELD_RATIO, try->came_l);
  tally->log_score += try->log_score;
  tally->hits += told && ran (try);
  tally->false_alarms += told && !ran (try);
  tally->inside += try->came_l >= try->per_day.lo_l && try->came_l <= try->per_day.hi_l;
}

/* Of the emptyings @picked of one season; all courses of each. */
static void
add_season (Tally *tally, const FrSeasonScore *season, FrScoreModel model, FrScoreAir air, const guint *picked, guint n_picked,
            Ranks *ranks)
{
  double n_before = tally->n, runs_before = tally->runs, n, share;

  for (guint c = 0; c < season->n_courses[model][air]; c++)
    {
      double rank;

      ranks->n = 0;
      for (guint i = 0; i < n_picked; i++)
        {
          const FrScoreTry *try = &season->tries[model][air][c * season->n + picked[i]];

          if (!is_told (try))
            continue;
          add_try (tally, try);
          ranks->told[ranks->n] = try->per_day.middle_l;
          ranks->came[ranks->n++] = try->came_l;
        }
      rank = fr_score_rank_ratio (ranks->told, ranks->came, ranks->n);
      if (!isnan (rank))
        {
          /* A season counts once however many courses it has. */
          tally->rank += rank / season->n_courses[model][air];
          tally->n_ranks += 1.0 / season->n_courses[model][air];
        }
    }
  n = tally->n - n_before;
  share = n > 0 ? (tally->runs - runs_before) / n : 0;
  tally->base += n * share * (1 - share);
}

static void
read_scores (const Tally *tally, const Tally *constant, double scores_out[FR_N_SCORES])
{
  double n = tally->n > 0 ? tally->n : NAN, constant_n = constant->n > 0 ? constant->n : NAN;

  scores_out[FR_SCORE_RANK] = tally->n_ranks > 0 ? tally->rank / tally->n_ranks : NAN;
  scores_out[FR_SCORE_ERROR_L] = tally->error_l / n;
  scores_out[FR_SCORE_ERROR_RATIO] = tally->error_l / n / (constant->error_l / constant_n);
  scores_out[FR_SCORE_CRPS_L] = tally->crps_l / n;
  scores_out[FR_SCORE_CRPS_RATIO] = tally->crps_l / n / (constant->crps_l / constant_n);
  scores_out[FR_SCORE_BRIER] = tally->brier / n;
  scores_out[FR_SCORE_BRIER_BASE] = tally->base / n;
  scores_out[FR_SCORE_BRIER_SKILL] = tally->base > 0 ? 1 - tally->brier / tally->base : NAN;
  scores_out[FR_SCORE_HIT_RATIO] = tally->runs > 0 ? tally->hits / tally->runs : NAN;
  scores_out[FR_SCORE_FALSE_RATIO]
      = tally->hits + tally->false_alarms > 0 ? tally->false_alarms / (tally->hits + tally->false_alarms) : NAN;
  scores_out[FR_SCORE_SUCCESS_RATIO]
      = tally->runs + tally->false_alarms > 0 ? tally->hits / (tally->runs + tally->false_alarms) : NAN;
  scores_out[FR_SCORE_SUCCESS_ALWAYS] = tally->runs / n;
  scores_out[FR_SCORE_INSIDE_RATIO] = tally->inside / n;
  scores_out[FR_SCORE_INTERVAL_L] = tally->interval_l / n;
  scores_out[FR_SCORE_INTERVAL_RATIO] = tally->interval_l / n / (constant->interval_l / constant_n);
  scores_out[FR_SCORE_LOG] = tally->log_score / n;
}

static int
by_size (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

static double
quantile (const double *sorted, guint n, double share_ratio)
{
  double at = share_ratio * (n - 1);
  guint lo = (guint)at;

  return sorted[lo] + (at - lo) * (sorted[MIN (lo + 1, n - 1)] - sorted[lo]);
}

static void
put_range (const double *drawn, guint n, FrScoreValue *value)
{
  g_autofree double *known = g_new (double, MAX (n, 1));
  guint n_known = 0;

  value->lo = value->hi = NAN;
  for (guint i = 0; i < n; i++)
    if (isfinite (drawn[i * FR_N_SCORES]))
      known[n_known++] = drawn[i * FR_N_SCORES];
  if (n_known == 0 || isnan (value->value))
    return;
  qsort (known, n_known, sizeof *known, by_size);
  value->lo = quantile (known, n_known, RANGE_LO);
  value->hi = quantile (known, n_known, 1 - RANGE_LO);
}

/* Blocks of neighbours that begin anywhere and go round the end. */
static void
pick (FrChance *chance, guint n, guint *picked_out)
{
  for (guint i = 0; i < n;)
    {
      guint start = fr_chance_below (chance, n);

      for (guint k = 0; k < BLOCK && i < n; k++)
        picked_out[i++] = (start + k) % n;
    }
}

void
fr_score_row (const FrSeasonScore *const *seasons, guint n_seasons, FrScoreModel model, FrScoreAir air, guint n_resamples,
              guint64 seed, FrScoreRow *row_out)
{
  guint most = 1;
  FrChance chance = { seed };
  g_autofree double *drawn = g_new (double, MAX (n_resamples, 1) * FR_N_SCORES), *told = NULL, *came = NULL;
  g_autofree guint *picked = NULL;
  Ranks ranks = { 0 };

  for (guint s = 0; s < n_seasons; s++)
    most = MAX (most, seasons[s]->n);
  ranks.told = told = g_new (double, most);
  ranks.came = came = g_new (double, most);
  picked = g_new (guint, most);
  for (guint r = 0; r <= n_resamples; r++)
    {
      Tally tally = { 0 }, constant = { 0 };
      double whole[FR_N_SCORES];

      for (guint s = 0; s < n_seasons; s++)
        {
          guint n = seasons[s]->n;

          if (n == 0)
            continue;
          for (guint i = 0; i < n && r == 0; i++)
            picked[i] = i;
          if (r > 0)
            pick (&chance, n, picked);
          add_season (&tally, seasons[s], model, air, picked, n, &ranks);
          add_season (&constant, seasons[s], FR_SCORE_CONSTANT, air, picked, n, &ranks);
        }
      read_scores (&tally, &constant, r > 0 ? drawn + (r - 1) * FR_N_SCORES : whole);
      if (r > 0)
        continue;
      row_out->n = row_out->n_runs = 0;
      for (guint s = 0; s < n_seasons; s++)
        for (guint i = 0; i < seasons[s]->n && seasons[s]->n_courses[model][air] > 0; i++)
          {
            const FrScoreTry *try = &seasons[s]->tries[model][air][i];

            row_out->n += is_told (try);
            row_out->n_runs += is_told (try) && ran (try);
          }
      for (guint k = 0; k < FR_N_SCORES; k++)
        row_out->scores[k].value = whole[k];
    }
  for (guint k = 0; k < FR_N_SCORES; k++)
    put_range (drawn + k, row_out->n >= FEWEST ? n_resamples : 0, &row_out->scores[k]);
}

void
fr_score_reliability (const FrSeasonScore *const *seasons, guint n_seasons, FrScoreModel model, FrScoreAir air, guint n_bins,
                      FrReliabilityBin *bins_out)
{
  g_autofree double *n = g_new0 (double, MAX (n_bins, 1)), *said = g_new0 (double, MAX (n_bins, 1)),
                    *runs = g_new0 (double, MAX (n_bins, 1));

  g_return_if_fail (n_bins > 0);
  for (guint s = 0; s < n_seasons; s++)
    for (guint i = 0; i < seasons[s]->n * seasons[s]->n_courses[model][air]; i++)
      {
        const FrScoreTry *try = &seasons[s]->tries[model][air][i];
        double share = 1.0 / seasons[s]->n_courses[model][air];
        guint bin;

        if (!is_told (try))
          continue;
        bin = MIN ((guint)(try->run_probability * n_bins), n_bins - 1);
        n[bin] += share;
        said[bin] += share * try->run_probability;
        runs[bin] += share * ran (try);
      }
  for (guint b = 0; b < n_bins; b++)
    {
      bins_out[b] = (FrReliabilityBin){ NAN, NAN, NAN, NAN, (guint)lround (n[b]) };
      if (!(n[b] > 0))
        continue;
      bins_out[b].said_ratio = said[b] / n[b];
      bins_out[b].happened_ratio = runs[b] / n[b];
      fr_score_share_range (bins_out[b].happened_ratio, bins_out[b].n, EIGHT_IN_TEN_Z, &bins_out[b].lo_ratio, &bins_out[b].hi_ratio);
    }
}
