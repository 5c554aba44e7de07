/* What the night costs, against other hours and the fuel. */
#include "domain/plan/plan-private.h"

#include "domain/maths/sucrose.h"
#include "domain/units/units.h"

#include <math.h>
#include <string.h>

#define RISE_WITHIN_S (2 * 86400)
#define AROUND_S 7200 /* the skyline begins and ends this far around the night */
#define SAME_PRICE 1e-9

double
fr_plan_cost_minor (const FrPlanInput *input, double power_w, gint64 start_utc, double span_s,
                    FrTariffProblem *problem_out)
{
  FrPowerStep steps[2] = { { 0, power_w }, { span_s, 0 } };
  double cost_minor;
  FrCost cost;

  if (input->tariff == NULL || !(span_s > 0)
      || !fr_cost_of_power (input->tariff, input->zone, start_utc, steps, 2, &cost, problem_out))
    return NAN;
  cost_minor = cost.cost_minor;
  fr_cost_clear (&cost);
  return cost_minor;
}

/* Cost of all used cookers when started at @start_utc, each for its own span; NAN unknown. */
static double
cost_of_all (const FrPlanning *planning, gint64 start_utc, FrTariffProblem *problem_out)
{
  const FrPlan *plan = planning->plan;
  double sum = 0;

  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used)
      sum += fr_plan_cost_minor (planning->input, planning->input->kits[plan->shares[i].kit].power_w,
                                 start_utc, plan->shares[i].run.time_s, problem_out);
  return sum;
}

/* The first instant of the next local day. */
static gint64
next_day_utc (const FrZoneTable *zone, gint64 utc)
{
  FrDate next = fr_date_add_days (fr_zone_local (zone, utc).date, 1);
  gint64 first, second;

  if (fr_zone_instant (zone, next, 0, &first, &second) == FR_ZONE_NEVER)
    first = second;
  return first > utc ? first : utc + 86400;
}

FrPriceSpan *
fr_plan_price_spans (const FrTariff *tariff, const FrZoneTable *zone, gint64 from_utc, gint64 to_utc,
                     guint *n_out)
{
  GArray *spans = g_array_new (FALSE, FALSE, sizeof (FrPriceSpan));

  for (gint64 at = from_utc; at < to_utc;)
    {
      FrPriceSpan span = { .from_utc = at };
      FrPriceSpan *last = spans->len > 0 ? &g_array_index (spans, FrPriceSpan, spans->len - 1) : NULL;
      FrTariffProblem ignored;
      double listed;

      /* A day without a price leaves a gap; whether that matters to the night is for its cost to say. */
      if (!fr_tariff_price (tariff, zone, at, &listed, &span.full_per_kwh, &span.to_utc, &ignored))
        {
          at = next_day_utc (zone, at);
          continue;
        }
      span.to_utc = MIN (span.to_utc, to_utc);
      if (last != NULL && last->to_utc == at && fabs (last->full_per_kwh - span.full_per_kwh) < SAME_PRICE)
        last->to_utc = span.to_utc;
      else
        g_array_append_val (spans, span);
      at = span.to_utc;
    }
  *n_out = spans->len;
  return (FrPriceSpan *)(gpointer)g_array_free (spans, FALSE);
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
         + run->water_left_kg * fr_water_enthalpy_j_per_kg (t)
         + run->sugar_out_kg * fr_sugar_enthalpy_j_per_kg (t)
         - run->water_start_kg * fr_water_enthalpy_j_per_kg (share->boil.start_c)
         - start_sugar_kg * fr_sugar_enthalpy_j_per_kg (share->boil.start_c)
         - run->fed_kg
               * ((1 - x) * fr_water_enthalpy_j_per_kg (input->sap_c)
                  + x * fr_sugar_enthalpy_j_per_kg (input->sap_c));
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
      plan->spans = fr_plan_price_spans (input->tariff, input->zone, input->start_utc - AROUND_S,
                                         MAX (input->off_by_utc, plan->late_utc) + AROUND_S, &plan->n_spans);
      plan->cost_minor = cost_of_all (planning, input->start_utc, &plan->price_problem);
      for (guint i = 0; i < plan->n_shares; i++)
        plan->shares[i].cost_minor
            = plan->shares[i].used
                  ? fr_plan_cost_minor (input, input->kits[plan->shares[i].kit].power_w, input->start_utc,
                                        plan->shares[i].run.time_s, &problem)
                  : NAN;
      find_rise (planning);
      for (guint hour = 0; hour < G_N_ELEMENTS (plan->start_cost_minor); hour++)
        {
          double cost = cost_of_all (planning, input->start_utc + 3600 * (gint64)hour, &problem);

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
    add_way (plan, FR_WAY_BEST, input->start_utc + 3600 * (gint64)best_hour, NAN, best);
  if (plan->rise_utc != G_MININT64)
    add_way (plan, FR_WAY_DAY, plan->rise_utc, NAN, cost_of_all (planning, plan->rise_utc, &problem));
  if (!isnan (input->fuel_price_per_kg) && input->fuel_mj_per_kg > 0 && input->fuel_heat_ratio > 0)
    {
      double fuel_kg;

      for (guint i = 0; i < plan->n_shares; i++)
        if (plan->shares[i].used)
          useful_j += useful_heat_j (planning, &plan->shares[i]);
      fuel_kg = fr_fuel_mass_kg (useful_j, input->fuel_mj_per_kg, input->fuel_heat_ratio);
      add_way (plan, FR_WAY_FUEL, G_MININT64, fuel_kg, fuel_kg * input->fuel_price_per_kg);
      plan->fuel_break_even_per_kg = fr_fuel_break_even_per_kg (
          plan->cost_minor, useful_j, input->fuel_mj_per_kg, input->fuel_heat_ratio);
    }
}
