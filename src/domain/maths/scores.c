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
fr_score_crps (const double *at, const double *below_ratio, guint n, double seen)
{
  double sum = 0;

  g_return_val_if_fail (n >= 2, NAN);
  if (seen < at[0])
    sum += at[0] - seen;
  for (guint i = 0; i + 1 < n; i++)
    {
      double width = at[i + 1] - at[i], lo = below_ratio[i], hi = below_ratio[i + 1];

      if (seen <= at[i])
        sum += square_area (width, lo - 1, hi - 1);
      else if (seen >= at[i + 1])
        sum += square_area (width, lo, hi);
      else
        {
          double middle = lo + (hi - lo) * (seen - at[i]) / width;

          sum += square_area (seen - at[i], lo, middle) + square_area (at[i + 1] - seen, middle - 1, hi - 1);
        }
    }
  if (seen > at[n - 1])
    sum += seen - at[n - 1];
  return sum;
}

static double
below (const double *at, const double *below_ratio, guint n, double value)
{
  guint lo = 0, hi = n - 1;

  if (value < at[0])
    return 0;
  if (value >= at[n - 1])
    return 1;
  while (hi - lo > 1)
    {
      guint middle = (lo + hi) / 2;

      if (at[middle] <= value)
        lo = middle;
      else
        hi = middle;
    }
  return below_ratio[lo] + (below_ratio[hi] - below_ratio[lo]) * (value - at[lo]) / (at[hi] - at[lo]);
}

double
fr_score_log (const double *at, const double *below_ratio, guint n, double seen, double within)
{
  double share = below (at, below_ratio, n, seen + within) - below (at, below_ratio, n, seen - within);

  g_return_val_if_fail (n >= 2 && within > 0, NAN);
  return -log (fmax (share, FR_SCORE_LEAST_PROBABILITY));
}

double
fr_score_interval (double lo, double hi, double held_ratio, double seen)
{
  double missed = seen < lo ? lo - seen : seen > hi ? seen - hi : 0;

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
fr_score_rank_ratio (const double *told, const double *seen, guint n)
{
  /* Ranks so counted are n/2 on average. */
  double both = 0, told_square = 0, seen_square = 0;

  if (n < 3)
    return NAN;
  for (guint i = 0; i < n; i++)
    {
      double a = rank_of (told, n, i) - n / 2.0, b = rank_of (seen, n, i) - n / 2.0;

      both += a * b;
      told_square += a * a;
      seen_square += b * b;
    }
  return told_square > 0 && seen_square > 0 ? both / sqrt (told_square * seen_square) : NAN;
}

void
fr_score_share_range (double n_found, double n, double z_ratio, double *lo_ratio_out, double *hi_ratio_out)
{
  double z2 = z_ratio * z_ratio, share = n_found / n;
  double middle = (share + z2 / (2 * n)) / (1 + z2 / n);
  double half = z_ratio / (1 + z2 / n) * sqrt (share * (1 - share) / n + z2 / (4 * n * n));

  *lo_ratio_out = n > 0 ? middle - half : NAN;
  *hi_ratio_out = n > 0 ? middle + half : NAN;
}
