/* One moment of a fed boil: state in, rates out.
 *
 * Let m be the mass in the pan, s its sugar fraction, x the feed's, T the temperature, C the heat capacity, f
 * the feed and E the vapour (kg/s), q the net heat, L the heat of evaporation, Δ the heat the feed brings per
 * kg above that of the same liquid at T (negative: it comes cold).
 *
 *   below the boil   C dT = q + f Δ                                                E = 0
 *   at the boil      T = T_b(°Bx), so C T_b' d°Bx = q + f Δ − E L / (1 − reflux),   d°Bx = 100 ((x − s) f + s
 * E) / m held level       dV = 0, so f − E = (m / ρ) dρ with dρ = ρ_B d°Bx + ρ_T dT
 *
 * which are linear in E and f and solved exactly. Sources: mass and energy balance; properties from
 * sucrose.c, water.c. The superheat of vapour leaving above 100 °C (under 0.4 % of L at the syrup point) is
 * left out. */
#include "domain/maths/boil.h"

#include "domain/maths/sucrose.h"

#include <math.h>

#define GRAVITY_M_S2 9.80665
#define COLDEST_C (-1.001) /* what is allowed, and rounding */
#define ICE_C 0.0
#define FADE_K 0.1

static const char *const end_codes[FR_N_ENDS] = { "cutoff", "brix", "time", "never_boils", "dry_limit" };
static const char *const feed_codes[FR_N_FEEDS] = { "level", "stream", "hole" };

const char *
fr_end_code (FrEnd end)
{
  g_return_val_if_fail ((guint)end < FR_N_ENDS, NULL);
  return end_codes[end];
}

const char *
fr_feed_code (FrFeedKind kind)
{
  g_return_val_if_fail ((guint)kind < FR_N_FEEDS, NULL);
  return feed_codes[kind];
}

gboolean
fr_feed_from_code (const char *code, FrFeedKind *kind_out)
{
  for (guint i = 0; i < FR_N_FEEDS; i++)
    if (g_strcmp0 (code, feed_codes[i]) == 0)
      {
        *kind_out = i;
        return TRUE;
      }
  return FALSE;
}

/* 3.75 S T² + (c_w W + c_s S) T = H, written so that no digits cancel. */
double
fr_boil_temp_of_heat_c (double water_kg, double sugar_kg, double heat_j)
{
  double b = fr_water_heat_slope (0) * water_kg + fr_sugar_heat_slope (0) * sugar_kg;
  double under = b * b + 4 * 3.75 * sugar_kg * heat_j;

  return under >= 0 ? 2 * heat_j / (b + sqrt (under)) : NAN;
}

static double
liquid_heat_j_per_kg (double sugar_fraction, double temp_c)
{
  return (1 - sugar_fraction) * fr_water_enthalpy_j_per_kg (temp_c)
         + sugar_fraction * fr_sugar_enthalpy_j_per_kg (temp_c);
}

/* The flow of a feed that does not care for the level, kg/s. */
static double
free_feed (const FrBoil *boil, double left_kg)
{
  double density = fr_sucrose_density_kg_m3 (boil->feed_brix, boil->feed_c);

  if (boil->feed_kind == FR_FEED_STREAM)
    return boil->stream_l_per_s * 1e-3 * density;
  return density * boil->hole_m2
         * sqrt (2 * GRAVITY_M_S2 * (boil->head_m + MAX (left_kg, 0) / density / boil->bucket_m2));
}

gboolean
fr_boil_rates (const FrBoil *boil, const FrBoilMode *mode, const double state[FR_N_STATE],
               double rates[FR_N_STATE], FrBoilMoment *moment)
{
  double water = state[FR_STATE_WATER_KG], sugar = state[FR_STATE_SUGAR_KG];
  double m = water + sugar, s = sugar / m, x = boil->feed_brix / 100;
  double brix = 100 * s, temp, boil_slope = 0;
  double rho, rho_b, rho_t, capacity, power, heat, bring, f = 0, e = 0, brix_rate, temp_rate;

  if (!(water > 0 && sugar >= 0))
    return FALSE;
  temp = mode->boiling ? fr_boil_table_temp_c (boil->table, brix, &boil_slope)
                       : fr_boil_temp_of_heat_c (water, sugar, state[FR_STATE_HEAT_J]);
  if (!(temp >= COLDEST_C && temp <= 114))
    return FALSE;
  fr_sucrose_density_slopes (brix, temp, &rho, &rho_b, &rho_t);
  capacity = water * fr_water_heat_slope (temp) + sugar * fr_sugar_heat_slope (temp);
  power = mode->tripped ? 0 : boil->power_w;
  heat = power * boil->heat_ratio - boil->wall_w_per_k * (temp - boil->air_c);
  /* A pan left without power in the cold comes to the ice point and stays: from there on heat is lost by
   * freezing, which is not followed. The loss fades over the last of it, since a step there would be crossed
   * back and forth without end by a feed that trickles in warmer. */
  if (mode->tripped && heat < 0)
    heat *= CLAMP ((temp - ICE_C) / FADE_K, 0, 1);
  bring = liquid_heat_j_per_kg (x, boil->feed_c) - liquid_heat_j_per_kg (x, temp);

  if (!mode->dry && boil->feed_kind != FR_FEED_LEVEL)
    f = free_feed (boil, state[FR_STATE_FEED_KG]);
  if (mode->boiling)
    {
      double latent = boil->table->latent_j_per_kg / (1 - boil->reflux_ratio);
      double warm = capacity * boil_slope * 100 / m; /* heat to lift the boiling point, per d°Bx m/100 */
      double per_e = latent + warm * s, per_f = bring - warm * (x - s);
      double dense = (rho_b + rho_t * boil_slope) * 100 / rho;

      if (mode->holding && !mode->dry)
        {
          double ratio = (1 + dense * s) / (1 - dense * (x - s));

          e = heat / (per_e - ratio * per_f);
          f = ratio * e;
        }
      else
        e = (heat + f * per_f) / per_e;
      brix_rate = 100 * ((x - s) * f + s * e) / m;
      temp_rate = boil_slope * brix_rate;
    }
  else
    {
      double swell = m * rho_t / (rho * capacity);

      if (mode->holding && !mode->dry)
        f = swell * heat / (1 - 100 * (x - s) * rho_b / rho - swell * bring);
      brix_rate = 100 * (x - s) * f / m;
      temp_rate = (heat + f * bring) / capacity;
    }

  rates[FR_STATE_WATER_KG] = (1 - x) * f - e;
  rates[FR_STATE_SUGAR_KG] = x * f;
  rates[FR_STATE_HEAT_J]
      = heat + f * liquid_heat_j_per_kg (x, boil->feed_c)
        - e * (fr_water_enthalpy_j_per_kg (temp) + boil->table->latent_j_per_kg / (1 - boil->reflux_ratio));
  rates[FR_STATE_FEED_KG] = -f;
  rates[FR_STATE_DRAWN_J] = power;
  rates[FR_STATE_VAPOUR_KG] = e;

  moment->mass_kg = m;
  moment->brix = brix;
  moment->temp_c = temp;
  moment->volume_l = 1e3 * m / rho;
  moment->feed_kg_per_s = f;
  moment->vapour_kg_per_s = e;
  moment->volume_l_per_s = 1e3 / rho * (f - e - m / rho * (rho_b * brix_rate + rho_t * temp_rate));
  return TRUE;
}
