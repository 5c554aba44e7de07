/* Dormand and Prince's embedded Runge–Kutta pair of order 5(4), J. Comp. Appl. Math. 6 (1980) 19;
 * coefficients from memory, checked by the order of convergence in the tests. Sums of states whose rates add
 * up to nothing are kept to rounding, which is why water and sugar balance. */
#include "domain/maths/dormand-prince.h"

#include <string.h>

gboolean
fr_dormand_prince_step (FrRatesFunc func, gpointer data, guint n, const double *state, const double *rates,
                        double h, double *state_out, double *rates_out, double *error_out)
{
  static const double a[6][6] = {
    { 1.0 / 5 },
    { 3.0 / 40, 9.0 / 40 },
    { 44.0 / 45, -56.0 / 15, 32.0 / 9 },
    { 19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729 },
    { 9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656 },
    { 35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84 },
  };
  static const double b4[7]
      = { 5179.0 / 57600, 0, 7571.0 / 16695, 393.0 / 640, -92097.0 / 339200, 187.0 / 2100, 1.0 / 40 };
  double k[7][FR_STEP_STATES_MAX], y[FR_STEP_STATES_MAX];

  g_return_val_if_fail (n <= FR_STEP_STATES_MAX, FALSE);
  memcpy (k[0], rates, n * sizeof (double));
  for (guint i = 0; i < 6; i++)
    {
      for (guint s = 0; s < n; s++)
        {
          double sum = 0;

          for (guint j = 0; j <= i; j++)
            sum += a[i][j] * k[j][s];
          y[s] = state[s] + h * sum;
        }
      if (!func (y, k[i + 1], data))
        return FALSE;
    }
  memcpy (state_out, y, n * sizeof (double));
  memcpy (rates_out, k[6], n * sizeof (double));
  for (guint s = 0; error_out != NULL && s < n; s++)
    {
      double difference = 0;

      for (guint j = 0; j < 7; j++)
        difference += ((j < 6 ? a[5][j] : 0) - b4[j]) * k[j][s];
      error_out[s] = h * difference;
    }
  return TRUE;
}
