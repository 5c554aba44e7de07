/* What to be careful of tonight, worst first. The order of FrCautionCode is the order of gravity.
 *
 * Circuit: 80 % of the breaker for hours on end. Foam: free height over the liquid, the household's own
 * ratio. Frost: the night's low against the freezing point of this sap. Steam: all that boils off indoors.
 * The rest are facts of the kit. */
#include "domain/plan/plan-private.h"

#include "domain/maths/sucrose.h"

#include <math.h>
#include <stdlib.h>

#define NEAR_SYRUP_BRIX 6.0    /* this close to syrup it scorches fast */
#define STEAM_WORTH_KG 0.5     /* less than that a room takes without a sign */
#define LOOK_BEFORE_DRY_S 1800 /* look again this long before the bucket is dry */

static void
add (FrPlan *plan, FrCautionCode code, FrSeverity severity, guint kit, double a, double b)
{
  g_return_if_fail (plan->n_cautions < G_N_ELEMENTS (plan->cautions));
  plan->cautions[plan->n_cautions++] = (FrCaution){ code, severity, kit, a, b };
}

/* One verdict a circuit: every cooker on it that is on tonight. */
static void
check_circuit (FrPlanning *planning, guint first)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  const FrPlanKit *kit = &input->kits[plan->shares[first].kit];
  double loads_w[FR_PLAN_KITS_MAX];
  FrCircuitLoad load;
  gboolean wet = FALSE;
  guint n = 0;

  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanKit *other = &input->kits[plan->shares[i].kit];

      if (!plan->shares[i].used
          || !(i == first || (kit->circuit_id != 0 && other->circuit_id == kit->circuit_id)))
        continue;
      if (i < first)
        {
          plan->shares[first].circuit = plan->shares[i].circuit;
          return;
        }
      loads_w[n++] = other->power_w;
      wet = wet || other->place != FR_PLACE_INDOORS;
    }
  load = fr_circuit_load (kit->breaker_a, kit->volts_v, loads_w, n, kit->other_load_w);
  plan->shares[first].circuit = load;
  if (load.code == FR_CIRCUIT_OVER)
    add (plan, FR_CAUTION_CIRCUIT_OVER, FR_SEVERITY_DANGER, first, load.used_a, load.allowed_a);
  else if (load.code == FR_CIRCUIT_NEAR)
    add (plan, FR_CAUTION_CIRCUIT_NEAR, FR_SEVERITY_WARN, first, load.used_a, load.allowed_a);
  else if (load.code == FR_CIRCUIT_UNKNOWN)
    add (plan, FR_CAUTION_BREAKER_UNKNOWN, FR_SEVERITY_WARN, first, NAN, NAN);
  if (kit->circuit_id != 0 && wet && !kit->gfci)
    add (plan, FR_CAUTION_NO_GFCI, FR_SEVERITY_WARN, first, NAN, NAN);
}

static void
check_share (FrPlanning *planning, guint i)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  const FrPlanShare *share = &plan->shares[i];
  const FrPlanKit *kit = &input->kits[share->kit];
  double height_m = fr_vessel_height_m (&kit->vessel), free_m, depth_m, rim_s;

  check_circuit (planning, i);
  if (kit->cutoff_by == FR_CUTOFF_BY_NONE)
    add (plan, FR_CAUTION_NO_CUTOFF, FR_SEVERITY_DANGER, i, NAN, NAN);
  if (!isnan (share->feed.trip_rim_s))
    add (plan, FR_CAUTION_RUNS_OVER, FR_SEVERITY_WARN, i, share->feed.trip_worst_s, share->feed.trip_rim_s);
  rim_s = share->run.rim_s;
  if (isnan (rim_s) && share->feed.n_cases > 0)
    rim_s = share->feed.cases[0].rim_s; /* at the set rate */
  if (!isnan (rim_s))
    add (plan, FR_CAUTION_RIM, FR_SEVERITY_WARN, i, rim_s, NAN);
  if (kit->cutoff_l < kit->min_level_l)
    add (plan, FR_CAUTION_MIN_LEVEL, FR_SEVERITY_WARN, i, kit->cutoff_l, kit->min_level_l);
  if (kit->solder)
    add (plan, FR_CAUTION_SOLDER, FR_SEVERITY_WARN, i, NAN, NAN);
  if (kit->place == FR_PLACE_INDOORS && share->run.evaporated_kg > STEAM_WORTH_KG)
    add (plan, FR_CAUTION_STEAM, FR_SEVERITY_WARN, i, share->run.evaporated_kg, NAN);
  depth_m
      = fr_vessel_depth_m (&kit->vessel, MIN (share->run.max_volume_l, fr_vessel_capacity_l (&kit->vessel)));
  free_m = height_m - depth_m;
  if (!isnan (kit->foam_ratio) && free_m < kit->foam_ratio * depth_m)
    add (plan, FR_CAUTION_FOAM, FR_SEVERITY_WARN, i, free_m, kit->foam_ratio * depth_m);
  if (share->run.left_brix > input->syrup_brix - NEAR_SYRUP_BRIX)
    add (plan, FR_CAUTION_THICK, FR_SEVERITY_WARN, i, share->run.left_brix, NAN);
  if (isnan (kit->heat_ratio_sd))
    add (plan, FR_CAUTION_UNCALIBRATED, FR_SEVERITY_WARN, i, NAN, NAN);
}

/* An off cooker is told of only when turning it on, with what is on already, would ask too much of its
 * circuit. */
static void
check_off (FrPlanning *planning, guint i)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  const FrPlanKit *kit = &input->kits[plan->shares[i].kit];
  double loads_w[FR_PLAN_KITS_MAX] = { kit->power_w };
  FrCircuitLoad load;
  guint n = 1;

  for (guint k = 0; k < plan->n_shares; k++)
    if (plan->shares[k].used && kit->circuit_id != 0
        && input->kits[plan->shares[k].kit].circuit_id == kit->circuit_id)
      loads_w[n++] = input->kits[plan->shares[k].kit].power_w;
  load = fr_circuit_load (kit->breaker_a, kit->volts_v, loads_w, n, kit->other_load_w);
  if (load.code == FR_CIRCUIT_OVER)
    add (plan, FR_CAUTION_LEFT_OFF, FR_SEVERITY_WARN, i, load.used_a, load.allowed_a);
}

static int
by_gravity (const void *a, const void *b)
{
  const FrCaution *one = a, *two = b;

  if (one->severity != two->severity)
    return one->severity < two->severity ? -1 : 1;
  if (one->code != two->code)
    return one->code < two->code ? -1 : 1;
  return one->kit < two->kit ? -1 : one->kit > two->kit;
}

void
fr_planning_cautions (FrPlanning *planning)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  gboolean outdoors = TRUE, fed = FALSE;
  double freezes_c;
  gint64 look_utc;

  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used)
      {
        check_share (planning, i);
        outdoors = outdoors && input->kits[plan->shares[i].kit].place == FR_PLACE_OUTDOORS;
        fed = fed || plan->shares[i].bucket_l > 0;
      }
    else if (input->kits[plan->shares[i].kit].off)
      check_off (planning, i);
  if (input->fuel_flame && !isnan (input->fuel_price_per_kg))
    add (plan, FR_CAUTION_FLAME, FR_SEVERITY_WARN, G_MAXUINT, NAN, NAN);
  freezes_c = fr_sucrose_freezing_c (MIN (input->sap_brix, 25));
  if (fed && input->air_low_c < freezes_c)
    add (plan, FR_CAUTION_FROST, FR_SEVERITY_WARN, G_MAXUINT, input->air_low_c, freezes_c);
  if (plan->keep_until_utc != G_MININT64 && plan->keep_until_utc < input->start_utc)
    add (plan, FR_CAUTION_AGE, FR_SEVERITY_WARN, G_MAXUINT, (double)(input->start_utc - plan->keep_until_utc),
         NAN);
  /* Before the first bucket runs dry, not the last: from there on that pan thickens. */
  look_utc = plan->end_utc;
  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanShare *share = &plan->shares[i];
      double thickens_s = isnan (share->run.feed_dry_s) ? share->early_s : share->run.feed_dry_s;

      if (share->used)
        look_utc = MIN (look_utc, input->start_utc + (gint64)lround (thickens_s) - LOOK_BEFORE_DRY_S);
    }
  look_utc = MAX (look_utc, input->start_utc + 600);
  add (plan, FR_CAUTION_ATTEND, FR_SEVERITY_WARN, G_MAXUINT, (double)MIN (look_utc, plan->end_utc), NAN);
  if (outdoors)
    add (plan, FR_CAUTION_STEAM_OK, FR_SEVERITY_PASSED, G_MAXUINT, NAN, NAN);
  qsort (plan->cautions, plan->n_cautions, sizeof plan->cautions[0], by_gravity);
}
