/* What a tree or a tap gives of a season's sap: its expectation times a ratio of its own, learned session by
 * session as a logarithm. Its spread about the others against how far a tree may be off its expectation
 * (maths/tree-yield.h) says how much it counts, and what is a week old counts half (common practice, no
 * source). */
#include "domain/plan/gathering-private.h"

#include <math.h>
#include <string.h>

#define HALF_LIFE_S (7 * 86400.0)
#define KIND_APART_RATIO 0.35 /* a tree about its kind, as the sums of maths/tree-yield.c give it */
#define BRIX_APART_RATIO 0.2
#define READ_TO_L 0.1      /* common practice, no source */
#define BACKLOG_SESSIONS 3 /* nobody lets a bucket stand longer, or it was emptied without a line */

static double
square (double value)
{
  return value * value;
}

/* How much of the season had flowed before that day. */
static double
flowed_before_ratio (const FrSapRun *run, const char *day)
{
  double flowed_ratio = 0;
  FrDate date;

  if (day == NULL || !fr_date_parse (day, &date))
    return run->flowed_ratio;
  for (guint i = 0; i < run->steps->len; i++)
    {
      const FrSapRunStep *step = &g_array_index (run->steps, FrSapRunStep, i);

      if (step->day_number >= (guint)fr_date_to_days (date))
        break;
      flowed_ratio = step->flowed_ratio;
    }
  return flowed_ratio;
}

/* Its first hole of the season. */
static const char *
set_on (const FrSapRun *run, guint entry, guint tap)
{
  const char *first = NULL;

  if (tap != FR_SAP_RUN_NONE)
    return run->bush->taps[tap]->set_on;
  for (guint i = run->bush->tap_starts[entry]; i < run->bush->tap_starts[entry + 1]; i++)
    if (fr_sap_run_is_set (run, run->bush->taps[i])
        && (first == NULL || strcmp (run->bush->taps[i]->set_on, first) < 0))
      first = run->bush->taps[i]->set_on;
  return first;
}

/* The unit as it stands at this round of gathering. */
FrSapRunUnit *
fr_sap_run_unit (FrSapRun *run, guint entry, guint tap)
{
  FrSapRunUnit *unit = tap != FR_SAP_RUN_NONE ? &run->taps[tap] : &run->trees[entry];
  double left_ratio;

  if (unit->pass != run->pass)
    {
      const FrSapRunUnit kept = *unit;

      *unit = (FrSapRunUnit){ .pass = run->pass,
                              .at_utc = run->session_utc,
                              .emptied_ratio = flowed_before_ratio (run, set_on (run, entry, tap)),
                              .session = kept.session,
                              .taken = kept.taken,
                              .own_session = kept.own_session,
                              .group_session = kept.group_session };
      return unit;
    }
  if (unit->at_utc == run->session_utc)
    return unit;
  left_ratio = exp2 ((double)(unit->at_utc - run->session_utc) / HALF_LIFE_S);
  unit->log_sum_ratio *= left_ratio;
  unit->weight_ratio *= left_ratio;
  unit->brix_log_sum_ratio *= left_ratio;
  unit->brix_weight_ratio *= left_ratio;
  unit->at_utc = run->session_utc;
  return unit;
}

/* Litres that so many taps of a tree give in a season. */
static double
season_l (const FrSapRun *run, guint entry, guint n_taps)
{
  const FrBushEntry *tree = &run->bush->entries[entry];
  double sum_l = 0, first_l;

  first_l = run->by_kind
                ? fr_sap_species (tree->tree->species)->tap_l * fr_size_yield_ratio (tree->diameter_m)
                      * fr_crown_yield_ratio (tree->tree->crown)
                : run->bush->expected[entry].volume.mean_l;
  for (guint i = 0; i < MAX (n_taps, 1); i++)
    sum_l += first_l * fr_later_tap_ratio (i);
  return sum_l;
}

/* Mean of the logarithm of its own ratio, and what it stands against. */
static double
own_log_ratio (const FrSapRun *run, guint entry, const FrSapRunUnit *unit, double *sd_out)
{
  const double apart = run->by_kind ? KIND_APART_RATIO : run->bush->expected[entry].volume_alone_ratio;
  const double prior = square (run->spread_ratio / apart);

  *sd_out = run->spread_ratio / sqrt (unit->weight_ratio + prior);
  return unit->log_sum_ratio / (unit->weight_ratio + prior);
}

static double
backlog_ratio (const FrSapRun *run, const FrSapRunUnit *unit)
{
  const double most_ratio = run->steps->len > 0 ? BACKLOG_SESSIONS * run->flowed_ratio / run->steps->len : 0;

  return CLAMP (run->flowed_ratio - unit->emptied_ratio, 0, most_ratio);
}

void
fr_sap_run_tap_pace (FrSapRun *run, guint entry, guint tap, double *pace_l_out, double *backlog_l_out)
{
  const guint n = MAX (fr_sap_run_n_taps (run, entry), 1);
  const FrSapRunUnit *unit = fr_sap_run_unit (run, entry, tap);
  double sd;

  *pace_l_out = season_l (run, entry, n) / n * exp (own_log_ratio (run, entry, unit, &sd));
  *backlog_l_out = *pace_l_out * backlog_ratio (run, unit);
}

/* By its taps where they were measured apart and the tree was not, or not as lately. */
void
fr_sap_run_pace (FrSapRun *run, guint entry, double *pace_l_out, double *backlog_l_out)
{
  const guint n = MAX (fr_sap_run_n_taps (run, entry), 1);
  const FrSapRunUnit *unit = fr_sap_run_unit (run, entry, FR_SAP_RUN_NONE);
  double taps_weight_ratio = 0, sd;

  for (guint i = run->bush->tap_starts[entry]; i < run->bush->tap_starts[entry + 1]; i++)
    if (run->taps[i].pass == run->pass)
      taps_weight_ratio += fr_sap_run_unit (run, entry, i)->weight_ratio;
  *pace_l_out = *backlog_l_out = 0;
  if (taps_weight_ratio / n <= unit->weight_ratio)
    {
      *pace_l_out = season_l (run, entry, n) * exp (own_log_ratio (run, entry, unit, &sd));
      *backlog_l_out = *pace_l_out * backlog_ratio (run, unit);
      return;
    }
  for (guint i = run->bush->tap_starts[entry]; i < run->bush->tap_starts[entry + 1]; i++)
    if (fr_sap_run_is_set (run, run->bush->taps[i]))
      {
        double pace_l, backlog_l;

        fr_sap_run_tap_pace (run, entry, i, &pace_l, &backlog_l);
        *pace_l_out += pace_l;
        *backlog_l_out += backlog_l;
      }
}

double
fr_sap_run_reading_sd_ratio (const FrSapRun *run, double expected_l)
{
  return hypot (run->spread_ratio, READ_TO_L / MAX (expected_l, READ_TO_L));
}

double
fr_sap_run_expected_brix (const FrSapRun *run, guint entry)
{
  return run->by_kind ? fr_sap_species (run->bush->entries[entry].tree->species)->brix
                      : run->bush->expected[entry].sweetness.mean_brix;
}

FrSapRunTaken *
fr_sap_run_taken (FrSapRun *run, const FrSapRunLine *line)
{
  const guint tap = line->scope == FR_SAP_RUN_TAP ? line->tap : FR_SAP_RUN_NONE;
  FrSapRunUnit *unit = fr_sap_run_unit (run, line->entry, tap);
  FrSapRunTaken taken = { .unit = unit, .entry = line->entry, .tap = tap };
  double own, prior;

  if (unit->session == run->session)
    return &g_array_index (run->taken, FrSapRunTaken, unit->taken);
  taken.n_taps = tap != FR_SAP_RUN_NONE ? 1 : MAX (fr_sap_run_n_taps (run, line->entry), 1);
  taken.expected_l = tap != FR_SAP_RUN_NONE
                         ? season_l (run, line->entry, fr_sap_run_n_taps (run, line->entry))
                               / MAX (fr_sap_run_n_taps (run, line->entry), 1)
                         : season_l (run, line->entry, taken.n_taps);
  own = own_log_ratio (run, line->entry, unit, &taken.pace_sd_ratio);
  taken.pace_l = taken.expected_l * exp (own);
  taken.backlog_ratio = backlog_ratio (run, unit);
  prior = square (run->brix_spread_ratio / BRIX_APART_RATIO);
  taken.usual_brix = fr_sap_run_expected_brix (run, line->entry)
                     * exp (unit->brix_log_sum_ratio / (unit->brix_weight_ratio + prior));
  taken.usual_brix_sd_ratio = run->brix_spread_ratio / sqrt (unit->brix_weight_ratio + prior);
  unit->session = run->session;
  unit->taken = run->taken->len;
  g_array_append_val (run->taken, taken);
  return &g_array_index (run->taken, FrSapRunTaken, unit->taken);
}
