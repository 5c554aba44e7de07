/* Sucrose solutions.
 *
 * Density: polynomial of Bubnik, Kadlec, Urban, Bruhns, Sugar Technologists Manual, 1995, p. 164 (the ICUMSA 1990 one), on
 *   Kell's water. Published for 0–100 °C; continued here to the boiling point of syrup, 104 to 110 °C, which is marked.
 *   Within 0.02 kg/m³ of the column computed from it, within 0.3 of the CRC Handbook's table to 70 °Bx.
 * Boiling: Starzak and Peacock, Zuckerindustrie 122 (1997) 380: water activity (1 − x) γ with
 *   γ = exp[(Q / R T) (1 + a x + b x²) x²], x the mole fraction of sucrose; solved for the temperature at which the vapour
 *   pressure equals the air's. Within 0.3 K of the classic table to 75 °Bx, 0.05 K of Ontario's 104.2 °C at 67 °Bx.
 * Specific heat: Bubnik et al. 1995 for pure sucrose (from memory); about 0.5 %.
 * Freezing: the temperature at which the same activity is that of ice: heat of fusion 333.6 kJ/kg (333.55 in IAPWS, from
 *   memory) with the difference of the specific heats of water and ice. Within 0.02 K of the CRC Handbook to 20 °Bx,
 *   0.08 K to 40; from 62 °Bx, −14 °C, on sugar could fall out, which in practice it does not.
 * Saturation: Bubnik and Kadlec 1995. */
#include "domain/maths/sucrose.h"

#include "domain/maths/solve.h"
#include "domain/maths/water.h"
#include "domain/units/units.h"

#include <math.h>

#define SUCROSE_G_PER_MOL 342.3
#define WATER_G_PER_MOL 18.01528
#define GAS_J_PER_MOL_K 8.314462618

/* Rows by power of (t − 20)/100, columns by power of the mass fraction from the first. */
static const double density_b[5][6] = {
  { 385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890 },
  { -46.2720, -7.1720, 1.1597, 5.1126, 17.5254, 0 },
  { 59.7712, 7.2491, 12.3630, -35.4791, 0, 0 },
  { -47.2207, -21.6977, 27.6301, 0, 0, 0 },
  { 18.3184, 12.3081, 0, 0, 0, 0 },
};

void
fr_sucrose_density_slopes (double brix, double temp_c, double *density_out, double *per_brix_out,
                           double *per_kelvin_out)
{
  double w = brix / 100, s = (temp_c - 20) / 100;
  double sum = 0, by_w = 0, by_s = 0;

  for (int i = 4; i >= 0; i--)
    {
      double row = 0, row_w = 0;

      for (int j = 5; j >= 0; j--)
        {
          row_w = row_w * w + row;
          row = row * w + density_b[i][j];
        }
      /* row is the polynomial divided by w */
      row_w = row_w * w + row;
      row *= w;
      by_s = by_s * s + sum;
      sum = sum * s + row;
      by_w = by_w * s + row_w;
    }
  *density_out = fr_water_density_kg_m3 (temp_c) + sum;
  *per_brix_out = by_w / 100;
  *per_kelvin_out = fr_water_density_slope (temp_c) + by_s / 100;
}

double
fr_sucrose_density_kg_m3 (double brix, double temp_c)
{
  double w = brix / 100, s = (temp_c - 20) / 100, sum = 0;

  if (!(brix >= 0 && brix <= FR_BRIX_MAX))
    return NAN;
  /* As above without the slopes; the rows grow shorter. */
  for (int i = 4; i >= 0; i--)
    {
      double row = 0;

      for (int j = i == 0 ? 5 : 5 - i; j >= 0; j--)
        row = row * w + density_b[i][j];
      sum = sum * s + row * w;
    }
  return fr_water_density_kg_m3 (temp_c) + sum;
}

gboolean
fr_sucrose_density_is_extrapolated (double brix, double temp_c)
{
  return brix > 75 || temp_c < 0 || temp_c > 100;
}

/* Molecules of sugar of all. */
static double
sugar_share (double brix)
{
  double sugar = brix / SUCROSE_G_PER_MOL, water = (100 - brix) / WATER_G_PER_MOL;

  return sugar / (sugar + water);
}

/* ln of the water activity of a solution at a temperature. */
static double
log_activity (double brix, double temp_c)
{
  double x = sugar_share (brix);

  return log1p (-x)
         + -17638.0 / (GAS_J_PER_MOL_K * (temp_c + FR_KELVIN_AT_ZERO_C)) * (1 + x * (-1.0038 + x * -0.24653)) * x * x;
}

/* The activity hardly moves with temperature, so that stepping "which water temperature has p / a" settles fast: each
 * round shrinks the error some hundredfold. */
double
fr_sucrose_boil_temp_c (double brix, double pressure_pa)
{
  double temp_c;

  if (!(brix >= 0 && brix <= 95) || !(pressure_pa >= 20e3 && pressure_pa <= 120e3))
    return NAN;
  temp_c = fr_saturation_temp_c (pressure_pa);
  if (brix == 0)
    return temp_c;
  for (int i = 0; i < 50; i++)
    {
      double next = fr_saturation_temp_c (pressure_pa / exp (log_activity (brix, temp_c)));
      double moved = fabs (next - temp_c);

      temp_c = next;
      if (moved < 1e-12)
        break;
    }
  return temp_c;
}

double
fr_sucrose_elevation_k (double brix, double pressure_pa)
{
  return fr_sucrose_boil_temp_c (brix, pressure_pa) - fr_saturation_temp_c (pressure_pa);
}

typedef struct
{
  double target;
  double pressure_pa;
} Elevation;

static double
elevation_gap (double brix, gpointer data)
{
  Elevation *elevation = data;

  return fr_sucrose_elevation_k (brix, elevation->pressure_pa) - elevation->target;
}

double
fr_sucrose_brix_from_elevation (double elevation_k, double pressure_pa)
{
  Elevation elevation = { elevation_k, pressure_pa };
  double brix;

  if (!(elevation_k >= 0) || !fr_solve_root (elevation_gap, &elevation, 0, FR_BRIX_MAX, 1e-9, &brix))
    return NAN;
  return brix;
}

/* cp = 4186.8 − 25.1 Bx + 0.075 Bx t, J/(kg K). With Bx = 100 sugar / mass the heat of a solution is that of its water plus
 * that of its sugar. */
double
fr_sucrose_specific_heat (double brix, double temp_c)
{
  if (!(brix >= 0 && brix <= FR_BRIX_MAX))
    return NAN;
  return 4186.8 - 25.1 * brix + 0.075 * brix * temp_c;
}

double
fr_water_enthalpy_j_per_kg (double temp_c)
{
  return 4186.8 * temp_c;
}

double
fr_sugar_enthalpy_j_per_kg (double temp_c)
{
  return (4186.8 - 2510.0) * temp_c + 3.75 * temp_c * temp_c;
}

double
fr_water_heat_slope (double temp_c)
{
  return 4186.8;
}

double
fr_sugar_heat_slope (double temp_c)
{
  return (4186.8 - 2510.0) + 7.5 * temp_c;
}

/* ln a = ∫ L(T) / (R T²) dT from 0 °C, L = L0 + c (T − T0), by Newton's method; the part of ln a that is no mixing of
 * molecules alone goes as 1 / T. */
double
fr_sucrose_freezing_c (double brix)
{
  const double zero = FR_KELVIN_AT_ZERO_C, gas = GAS_J_PER_MOL_K / (1e-3 * WATER_G_PER_MOL),
               heat = fr_water_heat_slope (0) - FR_ICE_J_PER_KG_K, fusion = FR_ICE_FUSION_J_PER_KG - heat * zero;
  double temp_k = zero, mixing, excess_k;

  if (!(brix >= 0 && brix <= FR_BRIX_MAX))
    return NAN;
  mixing = log1p (-sugar_share (brix));
  excess_k = zero * (log_activity (brix, 0) - mixing);
  for (int i = 0; i < 50 && brix > 0; i++)
    {
      double gap = (fusion * (1 / zero - 1 / temp_k) + heat * log (temp_k / zero)) / gas - mixing - excess_k / temp_k,
             slope = ((fusion / temp_k + heat) / gas + excess_k / temp_k) / temp_k, step = gap / slope;

      temp_k -= step;
      if (fabs (step) < 1e-10)
        break;
    }
  return temp_k - zero;
}

double
fr_sucrose_saturation_brix (double temp_c)
{
  double t = temp_c;

  if (!(t >= 0 && t <= 100))
    return NAN;
  return 64.447 + t * (0.08222 + t * (1.6169e-3 + t * (-1.558e-6 + t * -4.63e-8)));
}
