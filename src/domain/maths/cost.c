/* A power trace priced by a tariff, and the same heat from a fuel.
 *
 * Each step of the trace is walked from one change of price to the next in elapsed seconds; the clock on the
 * wall plays no part but to say which price holds. Nothing is rounded here. Exact to the second at price
 * changes; sums in double. */
#include "domain/maths/cost.h"

#include <math.h>

#include "domain/units/units.h"

#define SPAN_LIMIT_S 1e9
#define MJ 1e6

static gboolean
fail_at_step (FrTariffProblem *problem_out, guint step)
{
  if (problem_out != NULL)
    *problem_out = (FrTariffProblem){ FR_TARIFF_BAD_NUMBER, step + 1, FR_N_DAYS, 0, { 0, 0, 0 } };
  return FALSE;
}

static gboolean
steps_are_sound (const FrPowerStep *steps, guint n_steps, FrTariffProblem *problem_out)
{
  if (n_steps == 0)
    return fail_at_step (problem_out, 0);
  for (guint i = 0; i < n_steps; i++)
    {
      const double least_s = i == 0 ? 0 : steps[i - 1].after_s;

      if (!(steps[i].after_s <= SPAN_LIMIT_S)
          || !(i == 0 ? steps[i].after_s == 0 : steps[i].after_s > least_s))
        return fail_at_step (problem_out, i);
      if (!(isfinite (steps[i].power_w) && steps[i].power_w >= 0))
        return fail_at_step (problem_out, i);
    }
  if (steps[n_steps - 1].power_w != 0)
    return fail_at_step (problem_out, n_steps - 1);
  return TRUE;
}

static FrCostBand *
find_band (GArray *bands, double listed_per_kwh, double full_per_kwh)
{
  const FrCostBand fresh = { listed_per_kwh, full_per_kwh, 0, 0, 0 };

  for (guint i = 0; i < bands->len; i++)
    {
      FrCostBand *band = &g_array_index (bands, FrCostBand, i);

      if (band->listed_per_kwh == listed_per_kwh)
        return band;
    }
  g_array_append_val (bands, fresh);
  return &g_array_index (bands, FrCostBand, bands->len - 1);
}

gboolean
fr_cost_of_power (const FrTariff *tariff, const FrZoneTable *zone, gint64 start_utc, const FrPowerStep *steps,
                  guint n_steps, FrCost *cost_out, FrTariffProblem *problem_out)
{
  g_autoptr (GArray) bands = g_array_new (FALSE, FALSE, sizeof (FrCostBand));
  double cost_minor = 0, energy_kwh = 0;

  g_return_val_if_fail (cost_out != NULL, FALSE);
  *cost_out = (FrCost){ NAN, NAN, 0, NULL };
  g_return_val_if_fail (tariff != NULL && zone != NULL, FALSE);
  g_return_val_if_fail (steps != NULL || n_steps == 0, FALSE);

  if (problem_out != NULL)
    *problem_out = (FrTariffProblem){ FR_TARIFF_OK, 0, FR_N_DAYS, 0, { 0, 0, 0 } };
  if (!steps_are_sound (steps, n_steps, problem_out))
    return FALSE;
  /* A start outside the calendar has no date, so no season; and adding to it could overflow. */
  if (!fr_date_is_valid (fr_zone_local (zone, start_utc).date))
    {
      if (problem_out != NULL)
        problem_out->code = FR_TARIFF_NO_SEASON;
      return FALSE;
    }

  for (guint i = 0; i + 1 < n_steps; i++)
    {
      double at_s = steps[i].after_s;

      if (steps[i].power_w == 0)
        continue;
      while (at_s < steps[i + 1].after_s)
        {
          double listed, full, until_s, hours_h, piece_kwh;
          gint64 until_utc;
          FrCostBand *band;

          /* Prices change on whole seconds, so the one at the second begun holds for all of it. */
          if (!fr_tariff_price (tariff, zone, start_utc + (gint64)floor (at_s), &listed, &full, &until_utc,
                                problem_out))
            return FALSE;
          until_s = MIN (steps[i + 1].after_s, (double)(until_utc - start_utc));
          hours_h = (until_s - at_s) / 3600;
          piece_kwh = steps[i].power_w * (until_s - at_s) / FR_JOULES_PER_KWH;
          band = find_band (bands, listed, full);
          band->hours_h += hours_h;
          band->energy_kwh += piece_kwh;
          band->cost_minor += piece_kwh * full;
          energy_kwh += piece_kwh;
          cost_minor += piece_kwh * full;
          at_s = until_s;
        }
    }
  *cost_out = (FrCost){ cost_minor, energy_kwh, bands->len, NULL };
  cost_out->bands = g_memdup2 (bands->data, bands->len * sizeof (FrCostBand));
  return TRUE;
}

void
fr_cost_clear (FrCost *cost)
{
  g_clear_pointer (&cost->bands, g_free);
  cost->n_bands = 0;
  cost->cost_minor = cost->energy_kwh = NAN;
}

double
fr_fuel_mass_kg (double useful_heat_j, double heat_mj_per_kg, double heat_ratio)
{
  if (!(useful_heat_j >= 0) || !(heat_mj_per_kg > 0) || !(heat_ratio > 0 && heat_ratio <= 1))
    return NAN;
  return useful_heat_j / (heat_mj_per_kg * MJ * heat_ratio);
}

double
fr_fuel_break_even_per_kg (double electric_cost_minor, double useful_heat_j, double heat_mj_per_kg,
                           double heat_ratio)
{
  const double mass_kg = fr_fuel_mass_kg (useful_heat_j, heat_mj_per_kg, heat_ratio);

  return mass_kg > 0 ? electric_cost_minor / mass_kg : NAN;
}
