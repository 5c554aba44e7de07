/* Crossings of a temperature, and degree-days.
 *
 * Single sine: G. L. Baskerville and P. Emin, Rapid estimation of heat accumulation from maximum and minimum
 * temperatures, Ecology 50 (1969) 514–517: the day is one sine wave from its low to its high, and what of it
 * lies above the base is integrated. */
#include "domain/maths/freeze-thaw.h"

#include <math.h>

GArray *
fr_air_crossings (const FrAirHours *air, double threshold_c, double margin_k)
{
  GArray *crossings = g_array_new (FALSE, FALSE, sizeof (FrAirCrossing));
  gint side = 0; /* −1 below, 1 above, 0 not known yet */
  gint64 last_utc = 0;

  for (guint i = 0; i < air->n_hours; i++)
    {
      double here = air->temp_c[i] - threshold_c, before = i > 0 ? air->temp_c[i - 1] - threshold_c : NAN;
      gint now = here < -margin_k ? -1 : here > margin_k ? 1 : 0;

      if (isnan (here))
        {
          side = 0;
          continue;
        }
      /* Touching it from one side is going through when the air goes on. */
      if (!isnan (before) && (before < 0) != (here < 0))
        last_utc = fr_air_hours_utc (air, (gint64)i - 1)
                   + llround ((double)(fr_air_hours_utc (air, i) - fr_air_hours_utc (air, (gint64)i - 1))
                              * before / (before - here));
      if (now != 0 && side != 0 && now != side)
        {
          FrAirCrossing crossing = { last_utc, now < 0 };

          g_array_append_val (crossings, crossing);
        }
      if (now != 0)
        side = now;
    }
  return crossings;
}

double
fr_degree_days_mean_k (double low_c, double high_c, double base_c)
{
  if (!(low_c <= high_c) || isnan (base_c))
    return NAN;
  return MAX (0, (low_c + high_c) / 2 - base_c);
}

double
fr_degree_days_sine_k (double low_c, double high_c, double base_c)
{
  double mean = (low_c + high_c) / 2, reach = (high_c - low_c) / 2, angle;

  if (!(low_c <= high_c) || isnan (base_c))
    return NAN;
  if (low_c >= base_c)
    return mean - base_c;
  if (high_c <= base_c)
    return 0;
  angle = asin ((base_c - mean) / reach);
  return ((mean - base_c) * (G_PI / 2 - angle) + reach * cos (angle)) / G_PI;
}
