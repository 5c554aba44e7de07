/* A power trace priced by a tariff. Elapsed seconds run through the zone table, so a night with a clock change has seven
 * or nine hours where the clock says eight. */
#pragma once

#include "domain/maths/tariff.h"

G_BEGIN_DECLS

/* Power from @after_s (elapsed since start, rising, first 0) until the next step; the last step must have power 0. */
typedef struct
{
  double after_s;
  double power_w;
} FrPowerStep;

/* One price met on the way; bands of equal listed price are joined, in order of first appearance. */
typedef struct
{
  double listed_per_kwh; /* minor units */
  double full_per_kwh;   /* with adder and tax */
  double hours_h;        /* hours with the power on */
  double energy_kwh;
  double cost_minor; /* not rounded */
} FrCostBand;

typedef struct
{
  double cost_minor; /* not rounded: round once with fr_money_round */
  double energy_kwh;
  guint n_bands;
  FrCostBand *bands;
} FrCost;

/* FALSE when a powered second has no price (*problem_out as fr_tariff_price), or the steps are not as told above: code
 * BAD_NUMBER and the 1-based step as line. after_s up to 1e9, power finite and not negative. A pause (power 0) needs no
 * price. Clear *cost_out after TRUE. */
gboolean fr_cost_of_power (const FrTariff *tariff, const FrZoneTable *zone, gint64 start_utc,
                           const FrPowerStep *steps, guint n_steps, FrCost *cost_out, FrTariffProblem *problem_out);
void fr_cost_clear (FrCost *cost);

/* Propane and the like for the same useful heat: kg needed. heat_ratio over 0 to 1, on the higher heating value as
 * heat_mj_per_kg is. NAN when an argument is out of range or unknown. */
double fr_fuel_mass_kg (double useful_heat_j, double heat_mj_per_kg, double heat_ratio);
/* The price per kg at which this fuel costs what electricity did for the same useful heat. */
double fr_fuel_break_even_per_kg (double electric_cost_minor, double useful_heat_j, double heat_mj_per_kg,
                                  double heat_ratio);

G_END_DECLS
