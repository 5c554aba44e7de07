/* The normal distribution.
 *
 * Draws: G. E. P. Box and M. E. Muller, A note on the generation of random normal deviates, Annals of
 * Mathematical Statistics 29 (1958) 610–611; exact, two at a time.
 *
 * Quantile: a start from the rational approximation 26.2.23 of Abramowitz and Stegun (4.5e-4), then Halley's
 * steps on the library's erfc, each of which triples the digits: to 1e-13 relative from 1e-300 on. */
#include "domain/maths/chance.h"

#include <math.h>

void
fr_chance_normals (FrChance *chance, double *draws_ratio_out, guint n)
{
  for (guint i = 0; i < n; i += 2)
    {
      /* 1 - [0, 1) is never 0. */
      double radius = sqrt (-2 * log (1 - fr_chance_ratio (chance))),
             angle = 2 * G_PI * fr_chance_ratio (chance);

      draws_ratio_out[i] = radius * cos (angle);
      if (i + 1 < n)
        draws_ratio_out[i + 1] = radius * sin (angle);
    }
}

double
fr_normal_below_ratio (double z_ratio)
{
  return erfc (-z_ratio / G_SQRT2) / 2;
}

double
fr_normal_quantile_ratio (double share_ratio)
{
  double t, z;
  gboolean upper = share_ratio > 0.5;

  if (!(share_ratio >= 0 && share_ratio <= 1))
    return NAN;
  if (upper)
    share_ratio = 1 - share_ratio;
  if (share_ratio <= 0)
    return upper ? INFINITY : -INFINITY;
  t = sqrt (-2 * log (share_ratio));
  z = (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))) - t;
  for (guint i = 0; i < 2; i++)
    {
      double step = (fr_normal_below_ratio (z) - share_ratio) * sqrt (2 * G_PI) * exp (z * z / 2);

      z -= step / (1 + z * step / 2);
    }
  return upper ? -z : z;
}
