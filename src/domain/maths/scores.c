/* Sources: continuous ranked probability score and interval score, Gneiting and Raftery 2007, J. Am. Stat. Assoc. 102,
 * eqs. 20 and 43; range of a share, Wilson 1927, J. Am. Stat. Assoc. 22. The first is an exact integral of the steps. */
#include "domain/maths/scores.h"

#include <math.h>

/* Of the square of a straight line from @g0 to @g1 over @width. */
static double
square_area (double width, double g0, double g1)
{
  return width * (g0 * g0 + g0 * g1 + g1 * g1) / 3;
}

double
fr_score_crps_l (const double *at_l, const double *below_ratio, guint n, double seen_l)
{
  double sum = 0;

  g_return_val_if_fail (n >= 2, NAN);
  if (seen_l < at_l[0])
    sum += at_l[0] - seen_l;
  for (guint i = 0; i + 1 < n; i++)
    {
      double width = at_l[i + 1] - at_l[i], lo = below_ratio[i], hi = below_ratio[i + 1];

      if (seen_l <= at_l[i])
        sum += square_area (width, lo - 1, hi - 1);
      else if (seen_l >= at_l[i + 1])
        sum += square_area (width, lo, hi);
      else
        {
          double middle = lo + (hi - lo) * (seen_l - at_l[i]) / width;

          sum += square_area (seen_l - at_l[i], lo, middle) + square_area (at_l[i + 1] - seen_l, middle - 1, hi - 1);
        }
    }
  if (seen_l > at_l[n - 1])
    sum += seen_l - at_l[n - 1];
  return sum;
}

static double
below (const double *at_l, const double *below_ratio, guint n, double value)
{
  guint lo = 0, hi = n - 1;

  if (value < at_l[0])
    return 0;
  if (value >= at_l[n - 1])
    return 1;
  while (hi - lo > 1)
    {
      guint middle = (lo + hi) / 2;

      if (at_l[middle] <= value)
        lo = middle;
      else
        hi = middle;
    }
  return below_ratio[lo] + (below_ratio[hi] - below_ratio[lo]) * (value - at_l[lo]) / (at_l[hi] - at_l[lo]);
}

double
fr_score_log (const double *at_l, const double *below_ratio, guint n, double seen_l, double within_l)
{
  double share = below (at_l, below_ratio, n, seen_l + within_l) - below (at_l, below_ratio, n, seen_l - within_l);

  g_return_val_if_fail (n >= 2 && within_l > 0, NAN);
  return -log (fmax (share, FR_SCORE_LEAST_PROBABILITY));
}

double
fr_score_interval_l (double lo, double hi, double held_ratio, double seen_l)
{
  double missed = seen_l < lo ? lo - seen_l : seen_l > hi ? seen_l - hi : 0;

  return hi - lo + 2 / (1 - held_ratio) * missed;
}

/* Of each value: half of those that tie with it, and all below. */
static double
rank_of (const double *values, guint n, guint at)
{
  double rank = 0;

  for (guint i = 0; i < n; i++)
    rank += values[i] < values[at] ? 1 : values[i] == values[at] ? 0.5 : 0;
  return rank;
}

double
fr_score_rank_ratio (const double *told_l, const double *seen_l, guint n)
{
  /* Ranks so counted are n/2 on average. */
  double both = 0, told_square = 0, seen_square = 0;

  if (n < 3)
    return NAN;
  for (guint i = 0; i < n; i++)
    {
      double a = rank_of (told_l, n, i) - n / 2.0, b = rank_of (seen_l, n, i) - n / 2.0;

      both += a * b;
      told_square += a * a;
      seen_square += b * b;
    }
  return told_square > 0 && seen_square > 0 ? both / sqrt (told_square * seen_square) : NAN;
}

void
fr_score_share_range (double share_ratio, guint n, double z_ratio, double *lo_ratio_out, double *hi_ratio_out)
{
  double z2 = z_ratio * z_ratio, cases = n;
  double middle = (share_ratio + z2 / (2 * cases)) / (1 + z2 / cases);
  double half = z_ratio / (1 + z2 / cases) * sqrt (share_ratio * (1 - share_ratio) / cases + z2 / (4 * cases * cases));

  *lo_ratio_out = n > 0 ? middle - half : NAN;
  *hi_ratio_out = n > 0 ? middle + half : NAN;
}
