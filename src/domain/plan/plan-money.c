/* What the night costs, against other hours and the fuel, and what would take the sap that stays. */
#include "domain/plan/plan-private.h"

#include "domain/maths/sucrose.h"
#include "domain/units/units.h"

#include <math.h>
#include <string.h>

#define RISE_WITHIN_S (2 * 86400)
#define AROUND_S 7200 /* the skyline begins and ends this far around the night */
#define SAME_PRICE 1e-9

double
fr_planning_cost (const FrPlanning *planning, gint64 start_utc, double stretch, FrTariffProblem *problem_out)
{
  const FrPlanInput *input = planning->input;
  const FrPlan *plan = planning->plan;
  double sum = 0;

  if (input->tariff == NULL)
    return NAN;
  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanShare *share = &plan->shares[i];
      FrPowerStep steps[2] = { { 0, input->kits[share->kit].power_w }, { share->run.time_s * stretch, 0 } };
      FrCost cost;

      if (!share->used || !(share->run.time_s > 0))
        continue;
      if (!fr_cost_of_power (input->tariff, input->zone, start_utc, steps, 2, &cost, problem_out))
        return NAN;
      sum += cost.cost_minor;
      fr_cost_clear (&cost);
    }
  return sum;
}

static void
collect_spans (FrPlanning *planning, gint64 from_utc, gint64 to_utc)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  GArray *spans = g_array_new (FALSE, FALSE, sizeof (FrPriceSpan));

  for (gint64 at = from_utc; at < to_utc;)
    {
      FrPriceSpan span = { .from_utc = at };
      double listed;

      if (!fr_tariff_price (input->tariff, input->zone, at, &listed, &span.full_per_kwh, &span.to_utc,
                            &plan->price_problem))
        break;
      span.to_utc = MIN (span.to_utc, to_utc);
      if (spans->len > 0
          && fabs (g_array_index (spans, FrPriceSpan, spans->len - 1).full_per_kwh - span.full_per_kwh) < SAME_PRICE)
        g_array_index (spans, FrPriceSpan, spans->len - 1).to_utc = span.to_utc;
      else
        g_array_append_val (spans, span);
      at = span.to_utc;
    }
  plan->n_spans = spans->len;
  plan->spans = (FrPriceSpan *) (gpointer) g_array_free (spans, FALSE);
}

static void
find_rise (FrPlanning *planning)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  gint64 at = input->start_utc, until;
  double listed, before, after;
  FrTariffProblem ignored;

  if (!fr_tariff_price (input->tariff, input->zone, at, &listed, &before, &until, &ignored))
    return;
  while (until < input->start_utc + RISE_WITHIN_S)
    {
      at = until;
      if (!fr_tariff_price (input->tariff, input->zone, at, &listed, &after, &until, &ignored))
        return;
      if (after > before + SAME_PRICE)
        {
          plan->rise_utc = at;
          plan->price_before = before;
          plan->price_after = after;
          return;
        }
      before = after;
    }
}

/* Heat that went into liquid and vapour by the end: what the fuel would have to give as well. */
static double
useful_heat_j (const FrPlanning *planning, const FrPlanShare *share)
{
  const FrBoilRun *run = &share->run;
  const FrPlanInput *input = planning->input;
  double boil_c = planning->table.water_boils_c, t = run->left_temp_c;
  double x = input->sap_brix / 100;
  double start_sugar_kg = run->sugar_in_kg - x * run->fed_kg;

  return run->evaporated_kg * (fr_water_enthalpy_j_per_kg (boil_c) + planning->table.latent_j_per_kg)
         + run->water_left_kg * fr_water_enthalpy_j_per_kg (t) + run->sugar_out_kg * fr_sugar_enthalpy_j_per_kg (t)
         - run->water_start_kg * fr_water_enthalpy_j_per_kg (share->boil.start_c)
         - start_sugar_kg * fr_sugar_enthalpy_j_per_kg (share->boil.start_c)
         - run->fed_kg
               * ((1 - x) * fr_water_enthalpy_j_per_kg (input->sap_c) + x * fr_sugar_enthalpy_j_per_kg (input->sap_c));
}

static void
add_way (FrPlan *plan, FrWayCode code, gint64 start_utc, double fuel_kg, double cost_minor)
{
  g_return_if_fail (plan->n_ways < G_N_ELEMENTS (plan->ways));
  plan->ways[plan->n_ways++] = (FrWay){ code, start_utc, fuel_kg, cost_minor };
}

void
fr_planning_money (FrPlanning *planning)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  FrTariffProblem problem = { 0 };
  double useful_j = 0, best = NAN;
  guint best_hour = 0;

  if (input->tariff != NULL)
    {
      collect_spans (planning, input->start_utc - AROUND_S, MAX (input->off_by_utc, plan->late_utc) + AROUND_S);
      plan->cost_minor = fr_planning_cost (planning, input->start_utc, 1, &plan->price_problem);
      for (guint i = 0; i < plan->n_shares; i++)
        {
          FrPlanShare *share = &plan->shares[i];
          FrPowerStep steps[2] = { { 0, input->kits[share->kit].power_w }, { share->run.time_s, 0 } };
          FrCost cost;

          share->cost_minor = NAN;
          if (share->used && fr_cost_of_power (input->tariff, input->zone, input->start_utc, steps, 2, &cost, &problem))
            {
              share->cost_minor = cost.cost_minor;
              fr_cost_clear (&cost);
            }
        }
      find_rise (planning);
      for (guint hour = 0; hour < G_N_ELEMENTS (plan->start_cost_minor); hour++)
        {
          double cost = fr_planning_cost (planning, input->start_utc + 3600 * (gint64) hour, 1, &problem);

          plan->start_cost_minor[hour] = cost;
          if (!isnan (cost) && !(best <= cost))
            {
              best = cost;
              best_hour = hour;
            }
        }
    }
  else
    for (guint i = 0; i < plan->n_shares; i++)
      plan->shares[i].cost_minor = NAN;

  add_way (plan, FR_WAY_TONIGHT, input->start_utc, NAN, plan->cost_minor);
  if (best_hour > 0 && best < plan->cost_minor - 0.5)
    add_way (plan, FR_WAY_BEST, input->start_utc + 3600 * (gint64) best_hour, NAN, best);
  if (plan->rise_utc != G_MININT64)
    add_way (plan, FR_WAY_DAY, plan->rise_utc, NAN, fr_planning_cost (planning, plan->rise_utc, 1, &problem));
  if (!isnan (input->fuel_price_per_kg) && input->fuel_mj_per_kg > 0 && input->fuel_heat_ratio > 0)
    {
      double fuel_kg;

      for (guint i = 0; i < plan->n_shares; i++)
        if (plan->shares[i].used)
          useful_j += useful_heat_j (planning, &plan->shares[i]);
      fuel_kg = fr_fuel_mass_kg (useful_j, input->fuel_mj_per_kg, input->fuel_heat_ratio);
      add_way (plan, FR_WAY_FUEL, G_MININT64, fuel_kg, fuel_kg * input->fuel_price_per_kg);
      plan->fuel_break_even_per_kg
          = fr_fuel_break_even_per_kg (plan->cost_minor, useful_j, input->fuel_mj_per_kg, input->fuel_heat_ratio);
    }
}

/* The longest any used cooker would take with all the sap shared out as tonight's is, at the careful end; and how much longer
 * than tonight that is as a ratio. */
static double
span_for_all (const FrPlanning *planning)
{
  const FrPlanInput *input = planning->input;
  const FrPlan *plan = planning->plan;
  double longest_s = 0;

  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanShare *share = &plan->shares[i];
      double want_l;
      FrBoil boil;
      FrBoilRun run;

      if (!share->used)
        continue;
      want_l = input->sap_l * (share->pan_l + share->bucket_l) / plan->used_l;
      boil = fr_planning_boil (planning, &input->kits[share->kit], share->pan_l, want_l - share->pan_l);
      boil.after_s = NAN;
      if (fr_boil_run (&boil, FALSE, &run) != FR_BOIL_OK)
        return NAN;
      longest_s = MAX (longest_s, run.time_s * share->late_s / share->run.time_s);
    }
  return longest_s;
}

void
fr_planning_options (FrPlanning *planning)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  FrTariffProblem problem = { 0 };
  const FrPlanShare *bound = NULL;
  double span_s;

  if (plan->over_l < 0.2)
    return;
  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used && (bound == NULL || plan->shares[i].bucket_l > bound->bucket_l))
      bound = &plan->shares[i];
  if (bound->limited_by == FR_LIMIT_BRIX)
    {
      /* All the sap's sugar at the ceiling fills this much at the boil. */
      double boil_c = fr_boil_table_temp_c (&planning->table, input->max_brix, NULL);
      double part = (bound->pan_l + bound->bucket_l) / plan->used_l;
      double sugar_kg = bound->run.sugar_in_kg
                        + 1e-5 * plan->over_l * part * input->sap_brix
                              * fr_sucrose_density_kg_m3 (input->sap_brix, input->sap_c);
      double cutoff_l = 1e5 * sugar_kg / (input->max_brix * fr_sucrose_density_kg_m3 (input->max_brix, boil_c));

      if (cutoff_l < input->kits[bound->kit].hold_l)
        plan->options[plan->n_options++] = (FrOption){ FR_OPTION_HIGHER_CUTOFF, G_MININT64, NAN, cutoff_l, NAN };
      return;
    }
  span_s = span_for_all (planning);
  if (!isfinite (span_s) || span_s > 4 * 86400.0)
    return;
  if (bound->limited_by == FR_LIMIT_CAPACITY)
    plan->options[plan->n_options++] = (FrOption){ FR_OPTION_REFILL, plan->dry_utc, NAN, NAN, NAN };
  if (input->off_by_utc - (gint64) span_s >= input->now_utc)
    plan->options[plan->n_options++]
        = (FrOption){ FR_OPTION_EARLIER, input->off_by_utc - (gint64) span_s, NAN, NAN,
                      fr_planning_cost (planning, input->off_by_utc - (gint64) span_s,
                                        span_s / MAX (1, (double) (plan->late_utc - input->start_utc)), &problem)
                          - plan->cost_minor };
  plan->options[plan->n_options++]
      = (FrOption){ FR_OPTION_LATER, input->start_utc + (gint64) span_s, NAN, NAN,
                    fr_planning_cost (planning, input->start_utc,
                                      span_s / MAX (1, (double) (plan->late_utc - input->start_utc)), &problem)
                        - plan->cost_minor };
  if (bound->limited_by == FR_LIMIT_TIME)
    {
      double power_w = 0;

      for (guint i = 0; i < plan->n_shares; i++)
        if (plan->shares[i].used)
          power_w += input->kits[plan->shares[i].kit].power_w;
      plan->options[plan->n_options++]
          = (FrOption){ FR_OPTION_SECOND, G_MININT64, ceil (power_w * plan->over_l / plan->used_l / 50) * 50, NAN,
                        isnan (plan->cost_minor) ? NAN : plan->cost_minor * plan->over_l / plan->used_l };
    }
}

/* --- hours to offer --- */

static gint64
clock_after (const FrZoneTable *zone, gint64 utc, gint second_of_day)
{
  FrLocalTime local = fr_zone_local (zone, utc);
  gint64 first, second;

  for (gint day = 0; day < 3; day++)
    {
      if (fr_zone_instant (zone, fr_date_add_days (local.date, day), second_of_day, &first, &second) == FR_ZONE_NEVER)
        first = second;
      if (first > utc)
        return first;
    }
  return utc;
}

static void
clock_hours (const FrZoneTable *zone, gint64 now_utc, gint64 *start_out, gint64 *off_by_out)
{
  FrLocalTime local = fr_zone_local (zone, now_utc);
  const gint evening = 19 * 3600, morning = 6 * 3600 + 50 * 60;

  if (local.second_of_day >= evening || local.second_of_day < morning - 3 * 3600)
    *start_out = now_utc + (300 - now_utc % 300) % 300;
  else
    *start_out = clock_after (zone, now_utc, evening);
  *off_by_out = clock_after (zone, *start_out, morning);
}

void
fr_plan_default_hours (const FrTariff *tariff, const FrZoneTable *zone, gint64 now_utc, gint64 *start_out,
                       gint64 *off_by_out)
{
  FrPlan holder = { 0 };
  FrPlanInput input = { .zone = zone, .tariff = tariff };
  FrPlanning planning = { .input = &input, .plan = &holder };
  double lowest = INFINITY;
  gint64 rounded_utc = now_utc + (300 - now_utc % 300) % 300;

  clock_hours (zone, now_utc, start_out, off_by_out);
  if (tariff == NULL)
    return;
  collect_spans (&planning, rounded_utc, rounded_utc + 2 * 86400);
  for (guint i = 0; i < holder.n_spans; i++)
    if (holder.spans[i].from_utc < rounded_utc + 86400)
      lowest = MIN (lowest, holder.spans[i].full_per_kwh);
  for (guint i = 0; i < holder.n_spans; i++)
    {
      const FrPriceSpan *span = &holder.spans[i];

      if (span->full_per_kwh > lowest + SAME_PRICE || span->to_utc - span->from_utc < 3 * 3600)
        continue;
      /* A stretch of a whole weekend is no reason to start at noon: then the clock's own evening serves. */
      if (span->to_utc - span->from_utc > 14 * 3600)
        {
          clock_hours (zone, MAX (now_utc, span->from_utc), start_out, off_by_out);
          *off_by_out = MIN (*off_by_out, span->to_utc - FR_PLAN_MARGIN_S);
        }
      else
        {
          *start_out = span->from_utc;
          *off_by_out = span->to_utc - FR_PLAN_MARGIN_S;
        }
      break;
    }
  g_free (holder.spans);
}
