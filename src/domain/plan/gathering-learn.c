/* What a session tells: how much of a season's sap has flowed since the one before, as the middle of what its
 * trees gave over what each gives in a whole season, less what it had left from sessions it was passed by;
 * and from that what each tree gives. One odd line moves a tree by no more than three times the spread. */
#include "domain/plan/gathering-private.h"

#include <math.h>
#include <stdlib.h>

#define LEAST_RATIO 0.02 /* of its share: what a dry tree counts as */
#define LEAST_L 0.05     /* of a share: less tells nothing */
#define CLIP 3
#define MEDIAN_COSTS 1.5707963 /* variance of a median over that of a mean, normal distribution: π/2 */

static double
square (double value)
{
  return value * value;
}

static gint
compare_doubles (gconstpointer a, gconstpointer b)
{
  const double *x = a, *y = b;

  return (*x > *y) - (*x < *y);
}

static double
median_of (double *values, guint n)
{
  if (n == 0)
    return NAN;
  qsort (values, n, sizeof *values, compare_doubles);
  return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

/* With no tree of its own line the totals tell. */
static double
level_of_totals_ratio (FrSapRun *run)
{
  double total_l = 0, pace_l = 0, backlog_l = 0;

  for (guint i = 0; i < run->lines->len; i++)
    {
      const FrSapRunLine *line = &g_array_index (run->lines, FrSapRunLine, i);
      g_autoptr (GArray) trees = fr_sap_run_trees_of (run, line);

      total_l += trees->len > 0 ? line->volume_l : 0;
      for (guint k = 0; k < trees->len; k++)
        {
          double one_l, left_l;

          fr_sap_run_pace (run, g_array_index (trees, guint, k), &one_l, &left_l);
          pace_l += one_l;
          backlog_l += left_l;
        }
    }
  return pace_l > 0 ? MAX (total_l - backlog_l, 0) / pace_l : NAN;
}

void
fr_sap_run_weigh (FrSapRun *run)
{
  g_autofree double *levels = g_new (double, run->lines->len + 1);

  for (guint i = 0; i < run->lines->len; i++)
    {
      const FrSapRunLine *line = &g_array_index (run->lines, FrSapRunLine, i);

      if (line->scope == FR_SAP_RUN_GROUP)
        for (guint k = 0; line->group != NULL && k < line->group->len; k++)
          run->trees[g_array_index (line->group, guint, k)].group_session = run->session;
      if (line->entry == FR_SAP_RUN_NONE)
        continue;
      run->trees[line->entry].own_session = run->session;
      {
        FrSapRunTaken *taken = fr_sap_run_taken (run, line);

        taken->taken_l += line->volume_l;
        taken->sweet_l += isnan (line->brix) ? 0 : line->volume_l;
        taken->sweet_brix_l += isnan (line->brix) ? 0 : line->volume_l * line->brix;
      }
    }
  for (guint i = 0; i < run->taken->len; i++)
    {
      const FrSapRunTaken *taken = &g_array_index (run->taken, FrSapRunTaken, i);

      levels[i] = MAX (taken->taken_l / taken->pace_l - taken->backlog_ratio, 0);
    }
  run->level_ratio = run->taken->len > 0 ? median_of (levels, run->taken->len) : level_of_totals_ratio (run);
}

/* A spread about what was foretold, from one more residual; what is far out counts as two and a half. */
static void
widen (double *spread_ratio, guint *n, double residual, double worth_ratio)
{
  const double most = square (2.5 * *spread_ratio);

  /* Of a normal distribution cut at 2.5 sd 0.957 of the variance is left. */
  *n += 1;
  *spread_ratio
      = sqrt (square (*spread_ratio)
              + (MIN (square (residual) * worth_ratio, most) / 0.957 - square (*spread_ratio)) / *n);
}

static void
learn_litres (FrSapRun *run, FrSapRunTaken *taken, guint n)
{
  const double share_l = taken->pace_l * (run->level_ratio + taken->backlog_ratio);
  const double reading_sd = fr_sap_run_reading_sd_ratio (run, share_l);
  const double own = log (taken->pace_l / taken->expected_l);
  const double weight = square (run->spread_ratio / reading_sd) / (1 + MEDIAN_COSTS / (n - 1));
  double residual, sd;

  if (!(share_l >= LEAST_L))
    return;
  residual = log (MAX (taken->taken_l, LEAST_RATIO * share_l) / share_l);
  sd = hypot (reading_sd, taken->pace_sd_ratio);
  if (n >= 3)
    widen (&run->spread_ratio, &run->spread_lines, residual, square (run->spread_ratio / sd) * n / (n - 1));
  taken->unit->log_sum_ratio += weight * (own + CLAMP (residual, -CLIP * sd, CLIP * sd));
  taken->unit->weight_ratio += weight;
}

static void
learn_brix (FrSapRun *run)
{
  g_autofree double *offs = g_new (double, run->taken->len + 1);
  guint n = 0;

  for (guint i = 0; i < run->taken->len; i++)
    {
      const FrSapRunTaken *taken = &g_array_index (run->taken, FrSapRunTaken, i);

      if (taken->sweet_brix_l > 0)
        offs[n++] = log (taken->sweet_brix_l / taken->sweet_l / taken->usual_brix);
    }
  if (n < 2)
    return;
  /* The whole bush's sweetness drifts; a few trees tell little of that. */
  run->brix_level_ratio += (median_of (offs, n) - run->brix_level_ratio) * n / (n + 2.0);
  for (guint i = 0; i < run->taken->len; i++)
    {
      FrSapRunTaken *taken = &g_array_index (run->taken, FrSapRunTaken, i);
      double residual, sd, own;

      if (!(taken->sweet_brix_l > 0))
        continue;
      own = log (taken->usual_brix / fr_sap_run_expected_brix (run, taken->entry));
      residual = log (taken->sweet_brix_l / taken->sweet_l / taken->usual_brix) - run->brix_level_ratio;
      sd = hypot (run->brix_spread_ratio, taken->usual_brix_sd_ratio);
      if (n >= 3)
        widen (&run->brix_spread_ratio, &run->brix_spread_lines, residual,
               square (run->brix_spread_ratio / sd) * n / (n - 1));
      taken->unit->brix_log_sum_ratio += own + CLAMP (residual, -CLIP * sd, CLIP * sd);
      taken->unit->brix_weight_ratio += 1;
    }
}

/* Mean and spread of the levels' logarithms, one more at a time (Welford 1962). */
static void
learn_level (FrSapRun *run)
{
  const double level = log (run->level_ratio), off = level - run->level_log_ratio;

  run->n_levels++;
  run->level_log_ratio += off / run->n_levels;
  run->level_apart_ratio += off * (level - run->level_log_ratio);
}

static void
empty (FrSapRun *run, guint entry)
{
  fr_sap_run_unit (run, entry, FR_SAP_RUN_NONE)->emptied_ratio = run->flowed_ratio;
  for (guint i = run->bush->tap_starts[entry]; i < run->bush->tap_starts[entry + 1]; i++)
    if (run->taps[i].pass == run->pass)
      run->taps[i].emptied_ratio = run->flowed_ratio;
}

static void
empty_all (FrSapRun *run)
{
  for (guint i = 0; i < run->taken->len; i++)
    {
      const FrSapRunTaken *taken = &g_array_index (run->taken, FrSapRunTaken, i);

      if (taken->tap == FR_SAP_RUN_NONE)
        empty (run, taken->entry);
      else
        taken->unit->emptied_ratio = fr_sap_run_unit (run, taken->entry, FR_SAP_RUN_NONE)->emptied_ratio
            = run->flowed_ratio;
    }
  for (guint i = 0; i < run->lines->len; i++)
    {
      const FrSapRunLine *line = &g_array_index (run->lines, FrSapRunLine, i);
      g_autoptr (GArray) trees = line->entry == FR_SAP_RUN_NONE ? fr_sap_run_trees_of (run, line) : NULL;

      for (guint k = 0; trees != NULL && k < trees->len; k++)
        empty (run, g_array_index (trees, guint, k));
    }
}

void
fr_sap_run_end_session (FrSapRun *run)
{
  const guint n = run->taken->len;
  FrSapRunStep step;

  if (isnan (run->level_ratio))
    return;
  if (n >= 2)
    {
      for (guint i = 0; i < n; i++)
        learn_litres (run, &g_array_index (run->taken, FrSapRunTaken, i), n);
      learn_brix (run);
    }
  if (run->level_ratio > 0)
    learn_level (run);
  run->flowed_ratio += run->level_ratio;
  empty_all (run);
  step = (FrSapRunStep){ run->day_number, run->flowed_ratio };
  g_array_append_val (run->steps, step);
}
