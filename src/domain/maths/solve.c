/* Brent's method: inverse quadratic interpolation guarded by bisection, so it never does worse than bisection.
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 4 (from memory).
 * Accuracy: the root within x_tolerance plus four units in the last place of the root. */
#include "domain/maths/solve.h"

#include <float.h>
#include <math.h>

gboolean
fr_solve_root (FrSolveFunc func, gpointer data, double lo, double hi, double x_tolerance, double *root_out)
{
  double a = lo, b = hi, c, d, e;
  double fa, fb, fc;

  g_return_val_if_fail (root_out != NULL && x_tolerance > 0, FALSE);
  *root_out = NAN;
  fa = func (a, data);
  fb = func (b, data);
  if (!isfinite (fa) || !isfinite (fb) || (fa > 0) == (fb > 0))
    {
      if (fa == 0 || fb == 0)
        {
          *root_out = fa == 0 ? a : b;
          return TRUE;
        }
      return FALSE;
    }
  c = a;
  fc = fa;
  d = e = b - a;
  for (int i = 0; i < 200; i++)
    {
      double tolerance, half;

      if ((fb > 0) == (fc > 0))
        {
          c = a;
          fc = fa;
          d = e = b - a;
        }
      if (fabs (fc) < fabs (fb))
        {
          a = b;
          b = c;
          c = a;
          fa = fb;
          fb = fc;
          fc = fa;
        }
      tolerance = 2 * DBL_EPSILON * fabs (b) + 0.5 * x_tolerance;
      half = 0.5 * (c - b);
      if (fabs (half) <= tolerance || fb == 0)
        break;
      if (fabs (e) >= tolerance && fabs (fa) > fabs (fb))
        {
          double s = fb / fa, p, q;

          if (a == c)
            {
              p = 2 * half * s;
              q = 1 - s;
            }
          else
            {
              double r = fb / fc, t = fa / fc;

              p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
              q = (t - 1) * (r - 1) * (s - 1);
            }
          if (p > 0)
            q = -q;
          p = fabs (p);
          if (2 * p < MIN (3 * half * q - fabs (tolerance * q), fabs (e * q)))
            {
              e = d;
              d = p / q;
            }
          else
            {
              d = half;
              e = d;
            }
        }
      else
        {
          d = half;
          e = d;
        }
      a = b;
      fa = fb;
      b += fabs (d) > tolerance ? d : copysign (tolerance, half);
      fb = func (b, data);
      if (!isfinite (fb))
        return FALSE;
    }
  *root_out = b;
  return TRUE;
}
