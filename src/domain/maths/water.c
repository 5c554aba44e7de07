/* Water.
 *
 * Saturation line: IAPWS Industrial Formulation 1997 (R7-97), region 4, equations 29 to 31, coefficients of table 34.
 * Latent heat: cubic in the boiling temperature fitted to IF97; within 0.001 kJ/kg of it over 30 to 115 kPa.
 * Specific heat: sixth-degree fit to IF97 at 0.2 MPa, 0 to 110 °C; within 0.5 J/(kg K).
 * Density: G. S. Kell, J. Chem. Eng. Data 20 (1975) 97.
 * Atmosphere: U.S. Standard Atmosphere 1976, troposphere, geometric altitude made geopotential.
 * Sea level reduction: hypsometric equation with the mean temperature of the column at 6.5 K/km (WMO Guide No. 8, from
 *   memory). */
#include "domain/maths/water.h"

#include "domain/units/units.h"

#include <math.h>

/* IF97 table 34. */
static const double saturation_n[10] = {
  0.11670521452767e4,  -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5,  -0.32325550322333e7,
  0.14915108613530e2,  -0.48232657361591e4, 0.40511340542057e6,  -0.23855557567849e0, 0.65017534844798e3,
};

double
fr_saturation_pressure_pa (double temp_c)
{
  const double *n = saturation_n;
  double temp_k = temp_c + FR_KELVIN_AT_ZERO_C;
  double theta, a, b, c, root;

  if (!(temp_k >= 273.15 && temp_k <= 647.096))
    return NAN;
  theta = temp_k + n[8] / (temp_k - n[9]);
  a = (theta + n[0]) * theta + n[1];
  b = (n[2] * theta + n[3]) * theta + n[4];
  c = (n[5] * theta + n[6]) * theta + n[7];
  root = 2 * c / (-b + sqrt (b * b - 4 * a * c));
  root *= root;
  return root * root * 1e6;
}

double
fr_saturation_temp_c (double pressure_pa)
{
  const double *n = saturation_n;
  double beta, e, f, g, d, sum;

  if (!(pressure_pa >= 611.212677 && pressure_pa <= 22.064e6))
    return NAN;
  beta = pow (pressure_pa * 1e-6, 0.25);
  e = (beta + n[2]) * beta + n[5];
  f = (n[0] * beta + n[3]) * beta + n[6];
  g = (n[1] * beta + n[4]) * beta + n[7];
  d = 2 * g / (-f - sqrt (f * f - 4 * e * g));
  sum = n[9] + d;
  return 0.5 * (sum - sqrt (sum * sum - 4 * (n[8] + n[9] * d))) - FR_KELVIN_AT_ZERO_C;
}

double
fr_latent_heat_j_per_kg (double pressure_pa)
{
  /* Least squares on IF97 every 0.5 kPa; the tests repeat the comparison. */
  double t = fr_saturation_temp_c (pressure_pa) - 95.0;

  if (!(pressure_pa >= 30e3 && pressure_pa <= 115e3))
    return NAN;
  return 1e3 * (2269.5952927 + t * (-2.60838956 + t * (-3.14717445e-3 + t * -1.55670868e-5)));
}

double
fr_water_density_kg_m3 (double temp_c)
{
  double t = temp_c;

  if (!(t >= -1.5 && t <= 115.0))
    return NAN;
  return (999.83952
          + t * (16.952577 + t * (-7.9905127e-3 + t * (-46.241757e-6 + t * (105.84601e-9 + t * -281.03006e-12)))))
         / (1 + 16.887236e-3 * t);
}

double
fr_water_density_slope (double temp_c)
{
  double t = temp_c;
  double top = 999.83952
               + t * (16.952577 + t * (-7.9905127e-3 + t * (-46.241757e-6 + t * (105.84601e-9 + t * -281.03006e-12))));
  double top_slope
      = 16.952577 + t * (2 * -7.9905127e-3 + t * (3 * -46.241757e-6 + t * (4 * 105.84601e-9 + t * 5 * -281.03006e-12)));
  double bottom = 1 + 16.887236e-3 * t;

  return (top_slope - top * 16.887236e-3 / bottom) / bottom;
}

double
fr_water_specific_heat (double temp_c)
{
  double t = temp_c;

  if (!(t >= 0 && t <= 110))
    return NAN;
  return 1e3
         * (4.218531576834562
            + t * (-3.2870518061773e-3
                   + t * (1.162787586931e-4
                          + t * (-2.386657902594e-6
                                 + t * (2.936446886773e-8 + t * (-1.859195356949e-10 + t * 4.731179861633e-13))))));
}

double
fr_pressure_from_altitude_pa (double altitude_m)
{
  double geopotential_m = 6356766.0 * altitude_m / (6356766.0 + altitude_m);

  if (!(altitude_m >= -500 && altitude_m <= 11000))
    return NAN;
  return 101325.0 * pow (1 - 0.0065 * geopotential_m / 288.15, 5.255876);
}

double
fr_pressure_from_sea_level_pa (double sea_level_pa, double altitude_m, double air_c)
{
  if (!(sea_level_pa >= 87000 && sea_level_pa <= 108500) || !(altitude_m >= -500 && altitude_m <= 11000)
      || !(air_c >= -60 && air_c <= 60))
    return NAN;
  return sea_level_pa
         * exp (-9.80665 * altitude_m / (287.05 * (air_c + FR_KELVIN_AT_ZERO_C + 0.0065 * altitude_m / 2)));
}
