/* Cubic Hermite pieces through the boiling temperatures every half °Bx, slopes by fourth-order differences of the same
 * values. Source of the values: sucrose.c. Accuracy: 1e-6 K of it. */
#include "domain/maths/boil-table.h"

#include "domain/maths/sucrose.h"
#include "domain/maths/water.h"

#include <math.h>

#define NODES_PER_BRIX 2

gboolean
fr_boil_table_init (FrBoilTable *table, double pressure_pa)
{
  const guint last = FR_BOIL_TABLE_NODES - 1;
  double *f = table->boil_c;

  table->pressure_pa = pressure_pa;
  table->latent_j_per_kg = fr_latent_heat_j_per_kg (pressure_pa);
  if (isnan (table->latent_j_per_kg))
    return FALSE;
  table->water_boils_c = fr_saturation_temp_c (pressure_pa);
  for (guint i = 0; i <= last; i++)
    f[i] = fr_sucrose_boil_temp_c ((double) i / NODES_PER_BRIX, pressure_pa);
  for (guint i = 0; i <= last; i++)
    {
      if (i >= 2 && i + 2 <= last)
        table->slope[i] = (f[i - 2] - 8 * f[i - 1] + 8 * f[i + 1] - f[i + 2]) / 12;
      else if (i < 2)
        table->slope[i] = i == 0 ? (-25 * f[0] + 48 * f[1] - 36 * f[2] + 16 * f[3] - 3 * f[4]) / 12
                                 : (-3 * f[0] - 10 * f[1] + 18 * f[2] - 6 * f[3] + f[4]) / 12;
      else
        table->slope[i]
            = i == last ? (25 * f[i] - 48 * f[i - 1] + 36 * f[i - 2] - 16 * f[i - 3] + 3 * f[i - 4]) / 12
                        : (3 * f[i + 1] + 10 * f[i] - 18 * f[i - 1] + 6 * f[i - 2] - f[i - 3]) / 12;
    }
  return TRUE;
}

double
fr_boil_table_temp_c (const FrBoilTable *table, double brix, double *slope_out)
{
  double at = brix * NODES_PER_BRIX, u, v;
  const double *f, *s;
  guint i;

  if (!(at >= -1e-9 && at <= FR_BOIL_TABLE_NODES - 1))
    {
      if (slope_out != NULL)
        *slope_out = NAN;
      return NAN;
    }
  i = MIN ((guint) MAX (at, 0), (guint) FR_BOIL_TABLE_NODES - 2);
  u = at - i;
  v = 1 - u;
  f = table->boil_c + i;
  s = table->slope + i;
  if (slope_out != NULL)
    *slope_out = NODES_PER_BRIX
                 * (6 * u * v * (f[1] - f[0]) + v * (v - 2 * u) * s[0] + u * (u - 2 * v) * s[1]);
  return v * v * (1 + 2 * u) * f[0] + u * u * (1 + 2 * v) * f[1] + u * v * (v * s[0] - u * s[1]);
}
