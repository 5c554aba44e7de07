/* Sharing the sap out among the cookers and following each pan.
 *
 * Each cooker first gets the most it can boil down under its own limits, at the unfavourable end of its heat
 * ratio's range. With more sap than that the rest stays. With less, it is shared so that all that are not at
 * their own ceiling or bucket end together; a cooker whose part would not stand a tenth above its cut-off
 * stays off. Buckets are rounded down to what can be poured, and the tenths of a litre that leaves are handed
 * to whoever may still take them. */
#include "domain/plan/plan-private.h"

#include "domain/maths/calibrate.h"
#include "domain/maths/sucrose.h"

#include <math.h>
#include <string.h>

#define BUCKET_STEP_L 0.1 /* nobody pours finer than that */
#define ABOVE_CUTOFF 1.1  /* a pan is worth starting from this much over its cut-off */

FrBoil
fr_planning_boil (const FrPlanning *planning, const FrPlanKit *kit, double fresh_l, double bucket_l)
{
  const FrPlanInput *input = planning->input;
  FrBoil boil = {
    .table = &planning->table,
    .air_c = input->air_c,
    .power_w = kit->power_w,
    .heat_ratio = kit->heat_ratio,
    .wall_w_per_k = kit->wall_w_per_k,
    .reflux_ratio = kit->reflux_ratio,
    .start_l = fresh_l,
    .start_brix = input->sap_brix,
    .start_c = input->sap_c,
    .feed_kind = FR_FEED_LEVEL,
    .feed_l = bucket_l,
    .feed_brix = input->sap_brix,
    .feed_c = input->sap_c,
    .hold_l = kit->hold_l,
    .cutoff_l = kit->cutoff_l,
    .after_s = (double)(input->off_by_utc - input->start_utc),
    .stop_brix = NAN,
    .trip_s = NAN,
    .rim_l = fr_vessel_capacity_l (&kit->vessel),
    .foam_l = NAN,
    .min_l = kit->min_level_l,
  };

  if (input->kept)
    {
      boil.start_l = kit->poured_pan_l;
      boil.start_brix = kit->poured_brix;
      boil.start_c = kit->poured_c;
      return boil;
    }
  if (kit->rest_l > 0)
    {
      double rest_kg = 1e-3 * kit->rest_l * fr_sucrose_density_kg_m3 (kit->rest_brix, kit->rest_c);
      double fresh_kg = 1e-3 * fresh_l * fr_sucrose_density_kg_m3 (input->sap_brix, input->sap_c);
      double sugar_kg = rest_kg * kit->rest_brix / 100 + fresh_kg * input->sap_brix / 100;
      double water_kg = rest_kg + fresh_kg - sugar_kg;
      double rest_sugar_kg = rest_kg * kit->rest_brix / 100;
      double fresh_sugar_kg = sugar_kg - rest_sugar_kg;
      double heat_j = (rest_kg - rest_sugar_kg) * fr_water_enthalpy_j_per_kg (kit->rest_c)
                      + rest_sugar_kg * fr_sugar_enthalpy_j_per_kg (kit->rest_c)
                      + (fresh_kg - fresh_sugar_kg) * fr_water_enthalpy_j_per_kg (input->sap_c)
                      + fresh_sugar_kg * fr_sugar_enthalpy_j_per_kg (input->sap_c);

      boil.start_brix = 100 * sugar_kg / (sugar_kg + water_kg);
      boil.start_c = fr_boil_temp_of_heat_c (water_kg, sugar_kg, heat_j);
      boil.start_l = 1e3 * (sugar_kg + water_kg) / fr_sucrose_density_kg_m3 (boil.start_brix, boil.start_c);
    }
  return boil;
}

double
fr_planning_rest_l (const FrPlanKit *kit)
{
  return kit->rest_l > 0 ? kit->rest_l : 0;
}

double
fr_planning_room_l (const FrPlanKit *kit)
{
  return MAX (0, kit->hold_l - fr_planning_rest_l (kit));
}

double
fr_planning_least_l (const FrPlanKit *kit)
{
  return MAX (0, ABOVE_CUTOFF * kit->cutoff_l - fr_planning_rest_l (kit));
}

double
fr_planning_ratio (const FrPlanKit *kit, int side)
{
  double ratio = kit->heat_ratio + side * fr_heat_ratio_half_range (kit->heat_ratio, kit->heat_ratio_sd);

  return side == 0 ? kit->heat_ratio : CLAMP (ratio, 0.01, 1);
}

static gboolean
fail (FrPlanning *planning, FrPlanStatus status, guint kit, const char *fault, double min, double max)
{
  FrPlan *plan = planning->plan;

  plan->status = status;
  plan->fault_kit = kit;
  g_strlcpy (plan->fault, fault != NULL ? fault : "", sizeof plan->fault);
  plan->fault_min = min;
  plan->fault_max = max;
  return FALSE;
}

static gboolean
check_kit (FrPlanning *planning, guint i)
{
  const FrPlanKit *kit = &planning->input->kits[i];
  double capacity_l;
  FrBoil boil;
  FrBoilFault fault;

  if (fr_vessel_check (&kit->vessel) != FR_VESSEL_OK)
    return fail (planning, FR_PLAN_BAD_KIT, i, "vessel", NAN, NAN);
  capacity_l = fr_vessel_capacity_l (&kit->vessel);
  if (!(kit->hold_l >= FR_DRY_LIMIT_L && kit->hold_l <= capacity_l))
    return fail (planning, FR_PLAN_BAD_KIT, i, "hold_l", FR_DRY_LIMIT_L, capacity_l);
  if (!(kit->cutoff_l > FR_DRY_LIMIT_L && kit->cutoff_l < kit->hold_l))
    return fail (planning, FR_PLAN_BAD_KIT, i, "cutoff_l", FR_DRY_LIMIT_L, kit->hold_l);
  if (!isnan (kit->bucket_l) && !(kit->bucket_l >= 0 && kit->bucket_l <= 10000))
    return fail (planning, FR_PLAN_BAD_KIT, i, "bucket_l", 0, 10000);
  if (kit->rest_l > 0 && !(kit->rest_l <= capacity_l))
    return fail (planning, FR_PLAN_BAD_KIT, i, "rest_l", 0, capacity_l);
  if (kit->rest_l > 0 && !(kit->rest_brix >= 0 && kit->rest_brix <= 70))
    return fail (planning, FR_PLAN_BAD_KIT, i, "rest_brix", 0, 70);
  if (kit->rest_l > 0 && !(kit->rest_c >= -1 && kit->rest_c <= 105))
    return fail (planning, FR_PLAN_BAD_KIT, i, "rest_c", -1, 105);
  boil = fr_planning_boil (planning, kit, fr_planning_room_l (kit), 1);
  if (!fr_boil_check (&boil, &fault))
    return fail (planning, FR_PLAN_BAD_KIT, i, fault.name, fault.min, fault.max);
  return TRUE;
}

/* The boil of a kit with no clock, the pan filled first. */
static FrBoil
untimed_boil (const FrPlanning *planning, const FrPlanKit *kit, double litres_l, int side)
{
  double pan_l = MIN (fr_planning_room_l (kit), litres_l);
  FrBoil boil = fr_planning_boil (planning, kit, pan_l, litres_l - pan_l);

  boil.heat_ratio = fr_planning_ratio (kit, side);
  boil.after_s = NAN;
  return boil;
}

double
fr_planning_span_s (const FrPlanning *planning, const FrPlanKit *kit, double litres_l, int side)
{
  FrBoil boil = untimed_boil (planning, kit, litres_l, side);
  FrBoilRun run;

  if (fr_boil_run (&boil, FALSE, &run) != FR_BOIL_OK || run.ended_by != FR_END_CUTOFF)
    return NAN;
  return run.time_s;
}

double
fr_planning_most_untimed_l (const FrPlanning *planning, const FrPlanKit *kit)
{
  FrBoil boil = untimed_boil (planning, kit, fr_planning_room_l (kit), 0);
  FrCharge charge;

  boil.stop_brix = planning->input->max_brix;
  if (fr_charge (&boil, kit->bucket_l, FALSE, &charge) != FR_BOIL_OK || !charge.feasible)
    return 0;
  return fr_planning_room_l (kit) + floor (charge.feed_l / BUCKET_STEP_L + 1e-9) * BUCKET_STEP_L;
}

/* The most this cooker can take: limits by the time at the unfavourable ratio, by the ceiling and by the
 * bucket. */
static FrPlanStatus
most_of (FrPlanning *planning, FrPlanShare *share)
{
  const FrPlanInput *input = planning->input;
  const FrPlanKit *kit = &input->kits[share->kit];
  double pan_l = MIN (fr_planning_room_l (kit), input->sap_l);
  FrBoil boil = fr_planning_boil (planning, kit, pan_l, 0);
  FrCharge careful, nominal;

  if (input->sap_l < fr_planning_least_l (kit))
    return FR_PLAN_TOO_LITTLE;
  boil.stop_brix = input->max_brix;
  boil.heat_ratio = fr_planning_ratio (kit, -1);
  if (fr_charge (&boil, kit->bucket_l, FALSE, &careful) != FR_BOIL_OK)
    return FR_PLAN_BAD_KIT;
  boil.heat_ratio = kit->heat_ratio;
  if (fr_charge (&boil, kit->bucket_l, FALSE, &nominal) != FR_BOIL_OK)
    return FR_PLAN_BAD_KIT;
  share->bucket_l = floor (careful.feed_l / BUCKET_STEP_L + 1e-9) * BUCKET_STEP_L;
  share->bucket_max_l = nominal.feed_l;
  share->limited_by = careful.limited_by;
  share->next = careful.next;
  share->next_l = careful.next_l;
  share->pan_l = pan_l;
  if (careful.feasible)
    return FR_PLAN_OK;
  if (nominal.run.ended_by == FR_END_NEVER_BOILS)
    return FR_PLAN_NEVER_BOILS;
  return careful.limited_by == FR_LIMIT_BRIX ? FR_PLAN_TOO_SWEET : FR_PLAN_TOO_LATE;
}

/* When the pan alone would have to start to be off in time. */
static gint64
latest_start (FrPlanning *planning, const FrPlanKit *kit)
{
  double span_s
      = fr_planning_span_s (planning, kit, MIN (fr_planning_room_l (kit), planning->input->sap_l), -1);

  return isnan (span_s) ? G_MININT64 : planning->input->off_by_utc - (gint64)ceil (span_s);
}

/* Rounds the buckets down, then hands the tenths that leaves to whoever may take them. */
static void
pour_out (FrPlanning *planning, const double *litres_l, const double *most_l)
{
  FrPlan *plan = planning->plan;
  double left_l = planning->input->sap_l;

  for (guint i = 0; i < plan->n_shares; i++)
    {
      FrPlanShare *share = &plan->shares[i];

      if (!share->used)
        continue;
      if (litres_l[i] < most_l[i] - 1e-9 && share->limited_by != FR_LIMIT_SAP)
        {
          share->next = share->limited_by;
          share->next_l = share->bucket_l;
          share->limited_by = FR_LIMIT_SAP;
        }
      share->pan_l = MIN (share->pan_l, litres_l[i]);
      share->bucket_l = floor ((litres_l[i] - share->pan_l) / BUCKET_STEP_L + 1e-6) * BUCKET_STEP_L;
      left_l -= share->pan_l + share->bucket_l;
    }
  for (guint i = 0; i < plan->n_shares && left_l >= BUCKET_STEP_L - 1e-9; i++)
    {
      FrPlanShare *share = &plan->shares[i];

      if (share->used && share->pan_l >= fr_planning_room_l (&planning->input->kits[share->kit]) - 1e-9
          && share->pan_l + share->bucket_l + BUCKET_STEP_L <= most_l[i] + 1e-9)
        {
          share->bucket_l += BUCKET_STEP_L;
          left_l -= BUCKET_STEP_L;
        }
    }
}

/* Gives each used share its part of the sap. FALSE when some part is too small, with the least such kit
 * turned off. */
static gboolean
deal (FrPlanning *planning)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  double least_l[FR_PLAN_KITS_MAX], most_l[FR_PLAN_KITS_MAX], litres_l[FR_PLAN_KITS_MAX], sum_l = 0;
  FrPlanShare *least = NULL;
  guint n_used = 0, only = 0;

  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanShare *share = &plan->shares[i];

      least_l[i] = fr_planning_least_l (&input->kits[share->kit]);
      most_l[i] = litres_l[i] = share->used ? share->pan_l + share->bucket_l : 0;
      sum_l += most_l[i];
      if (share->used)
        {
          n_used++;
          only = i;
        }
    }
  if (n_used == 0)
    return TRUE;
  if (n_used == 1)
    litres_l[only] = MIN (most_l[only], input->sap_l);
  else if (input->sap_l < sum_l
           && isnan (fr_planning_together_s (planning, 0, least_l, most_l, input->sap_l, litres_l)))
    /* Not known to happen: then each gets the same part of its most. */
    for (guint i = 0; i < plan->n_shares; i++)
      litres_l[i] = most_l[i] * input->sap_l / sum_l;
  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used && litres_l[i] < least_l[i] - 1e-9
        && (least == NULL || most_l[i] < most_l[least - plan->shares]))
      least = &plan->shares[i];
  if (least != NULL)
    {
      least->used = FALSE;
      least->off_because = FR_PLAN_TOO_LITTLE;
      return FALSE;
    }
  if (input->sap_l < sum_l)
    pour_out (planning, litres_l, most_l);
  return TRUE;
}

static void
follow (FrPlanning *planning, FrPlanShare *share)
{
  const FrPlanInput *input = planning->input;
  const FrPlanKit *kit = &input->kits[share->kit];
  FrBoil boil = fr_planning_boil (planning, kit, share->pan_l, share->bucket_l);
  FrBoilRun side;
  double heat_w;

  share->boil = boil;
  fr_boil_run (&boil, TRUE, &share->run);
  /* How early or late it may get says nothing when it is cut by the clock, so these run free of it. */
  boil.after_s = NAN;
  boil.heat_ratio = fr_planning_ratio (kit, 1);
  fr_boil_run (&boil, FALSE, &side);
  share->early_s = side.time_s;
  boil.heat_ratio = fr_planning_ratio (kit, -1);
  fr_boil_run (&boil, FALSE, &side);
  share->late_s = side.ended_by == FR_END_NEVER_BOILS ? NAN : side.time_s;

  share->finish_kg = MAX (0, share->run.left_kg * (1 - share->run.left_brix / input->syrup_brix));
  heat_w = kit->power_w * kit->heat_ratio - kit->wall_w_per_k * (planning->plan->finish_c - input->air_c);
  share->finish_s
      = heat_w > 0 ? share->finish_kg * planning->table.latent_j_per_kg / (1 - kit->reflux_ratio) / heat_w
                   : NAN;
  share->syrup_l = share->run.sugar_out_kg * 1e5
                   / (input->syrup_brix * fr_sucrose_density_kg_m3 (input->syrup_brix, 20));
  share->level_hold_m = fr_vessel_depth_m (&kit->vessel, kit->hold_l);
  share->level_cutoff_m = fr_vessel_depth_m (&kit->vessel, kit->cutoff_l);
  share->energy_kwh = share->run.energy_kwh;
  fr_planning_feed (planning, share);
}

void
fr_planning_share (FrPlanning *planning)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  FrPlanStatus first_problem = FR_PLAN_OK;
  guint n_used = 0, problem_kit = G_MAXUINT;

  for (guint i = 0; i < input->n_kits; i++)
    if (!input->kits[i].off && !check_kit (planning, i))
      return;
  plan->n_shares = input->n_kits;
  for (guint i = 0; i < input->n_kits; i++)
    {
      FrPlanShare *share = &plan->shares[i];
      FrPlanStatus status;

      share->kit = i;
      if (input->kits[i].off)
        continue;
      if (input->kept)
        {
          share->used = TRUE;
          share->pan_l = input->kits[i].poured_pan_l;
          share->bucket_l = share->bucket_max_l = input->kits[i].poured_bucket_l;
          share->limited_by = share->next = FR_LIMIT_NONE;
          share->next_l = NAN;
          n_used++;
          continue;
        }
      status = most_of (planning, share);
      share->used = status == FR_PLAN_OK;
      share->off_because = status;
      n_used += share->used;
      /* The one that could start latest is nearest to a plan. */
      if (status == FR_PLAN_TOO_LATE)
        {
          gint64 start_utc = latest_start (planning, &input->kits[i]);

          if (first_problem != FR_PLAN_TOO_LATE || start_utc > plan->needs_start_utc)
            {
              first_problem = status;
              problem_kit = i;
              plan->needs_start_utc = start_utc;
            }
        }
      else if (status != FR_PLAN_OK && first_problem == FR_PLAN_OK)
        {
          first_problem = status;
          problem_kit = i;
        }
    }
  if (n_used == 0)
    {
      fail (planning, first_problem, first_problem == FR_PLAN_TOO_LITTLE ? G_MAXUINT : problem_kit, NULL, NAN,
            NAN);
      return;
    }
  plan->needs_start_utc = G_MININT64;
  while (!input->kept && !deal (planning))
    ;
  n_used = 0;
  for (guint i = 0; i < plan->n_shares; i++)
    n_used += plan->shares[i].used;
  if (n_used == 0)
    {
      fail (planning, FR_PLAN_TOO_LITTLE, G_MAXUINT, NULL, NAN, NAN);
      return;
    }
  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used)
      follow (planning, &plan->shares[i]);
    else
      plan->shares[i].pan_l = plan->shares[i].bucket_l = 0;
}
