/* Errors of a forecast: many draws against the closed form of their covariance, and quantiles against shares.
 */
#include "domain/maths/forecast-error.h"

#include "found.h"

#define DAYS 9

/* The closed form worked out apart: sd a sd b r^|a − b|, times c between a low and a high; the bound is five
 * standard errors of a covariance of normals, √((1 + ρ²)/n) sd sd. */
static void
test_covariance (gconstpointer data)
{
  static const FrForecastError cases[] = {
    { 1.5, 3.5, 7, 0.6, 0.5 }, { 2, 2, 2, -0.4, 0.9 }, { 1, 5, 4, 0, 0 },
    { 0, 3, 5, 0.95, -0.3 },   { 3, 1, 3, 0.3, 1 },
  };
  const FrForecastError *error = &cases[GPOINTER_TO_UINT (data)];
  const guint n = 100000;
  double sums[2 * DAYS][2 * DAYS] = { 0 }, drawn[2 * DAYS];
  FrChance chance = { 7 + GPOINTER_TO_UINT (data) };

  for (guint k = 0; k < n; k++)
    {
      fr_forecast_error_draw (error, &chance, 1, DAYS, drawn, drawn + DAYS);
      for (guint i = 0; i < 2 * DAYS; i++)
        for (guint j = 0; j < 2 * DAYS; j++)
          sums[i][j] += drawn[i] * drawn[j] / n;
    }
  for (guint i = 0; i < 2 * DAYS; i++)
    for (guint j = 0; j < 2 * DAYS; j++)
      {
        guint a = i % DAYS, b = j % DAYS;
        double step = (error->last_sd_k - error->first_sd_k) / (error->last_lead - 1.0);
        double sd_a = error->first_sd_k + step * MIN (a, error->last_lead - 1),
               sd_b = error->first_sd_k + step * MIN (b, error->last_lead - 1), wanted = 1;

        for (guint d = MIN (a, b); d < MAX (a, b); d++)
          wanted *= error->day_ratio;
        if (i / DAYS != j / DAYS)
          wanted *= error->pair_ratio;
        found_near ("correlation of two errors, closed form",
                    fr_forecast_error_correlation_ratio (error, 1 + a, 1 + b, i / DAYS == j / DAYS), wanted,
                    1e-12);
        if (sd_a * sd_b > 0)
          found_near ("covariance of 100,000 draws, standard errors",
                      (sums[i][j] / (sd_a * sd_b) - wanted) / sqrt ((1 + wanted * wanted) / n), 0, 5);
        else
          g_assert_cmpfloat (sums[i][j], ==, 0);
      }
}

/* The figures: 1.5 K on day 1 growing to 3.5 K on day 7. */
static void
test_spread (void)
{
  const FrForecastError error = fr_forecast_error_usual ();
  FrForecastError bad = error;
  static const double wanted[] = { 1.5 - 1 / 3.0, 1.5,           1.5 + 1 / 3.0, 1.5 + 2 / 3.0, 2.5,
                                   2.5 + 1 / 3.0, 2.5 + 2 / 3.0, 3.5,           3.5,           3.5 };

  for (guint lead = 0; lead < G_N_ELEMENTS (wanted); lead++)
    found_near ("spread by lead by hand, K", fr_forecast_error_sd_k (&error, lead), wanted[lead], 1e-12);
  /* Tables of the normal distribution: 1.281552 at 0.9. */
  found_near ("nine of ten errors below, K", fr_forecast_error_quantile_k (&error, 7, 0.9), 3.5 * 1.281552,
              1e-5);
  found_near ("one of ten errors below, K", fr_forecast_error_quantile_k (&error, 1, 0.1), -1.5 * 1.281552,
              1e-5);
  bad.day_ratio = 1;
  g_assert_false (fr_forecast_error_is_valid (&bad));
  bad = error;
  bad.pair_ratio = NAN;
  g_assert_false (fr_forecast_error_is_valid (&bad));
  bad = error;
  bad.first_sd_k = -1;
  g_assert_false (fr_forecast_error_is_valid (&bad));
  bad = error;
  bad.last_lead = 1;
  g_assert_false (fr_forecast_error_is_valid (&bad));
  bad = error;
  bad.last_sd_k = INFINITY;
  g_assert_false (fr_forecast_error_is_valid (&bad));
  g_assert_true (fr_forecast_error_is_valid (&error));
}

/* The same seed gives the same course; the shares of draws below the quantiles are those asked for. */
static void
test_quantiles (void)
{
  const FrForecastError error = fr_forecast_error_usual ();
  const guint n = 20000;
  double low[DAYS], high[DAYS], again_low[DAYS], again_high[DAYS];
  guint below[3] = { 0 };
  static const double shares[] = { 0.1, 0.5, 0.9 };
  FrChance chance = { 42 }, again = { 42 };

  for (guint k = 0; k < n; k++)
    {
      fr_forecast_error_draw (&error, &chance, 0, DAYS, low, high);
      fr_forecast_error_draw (&error, &again, 0, DAYS, again_low, again_high);
      for (guint i = 0; i < DAYS; i++)
        g_assert_true (low[i] == again_low[i] && high[i] == again_high[i]);
      for (guint q = 0; q < 3; q++)
        below[q] += high[4] < fr_forecast_error_quantile_k (&error, 4, shares[q]);
    }
  for (guint q = 0; q < 3; q++)
    found_near ("share of draws below a quantile, standard errors",
                ((double)below[q] / n - shares[q]) / sqrt (shares[q] * (1 - shares[q]) / n), 0, 5);
}

static void
test_put (void)
{
  double low[] = { -5, 1, NAN, -2 }, high[] = { 3, 2, 4, NAN };
  const double low_k[] = { 1, 2, 1, 1 }, high_k[] = { -1, -2, 1, 1 };

  g_assert_cmpuint (fr_forecast_error_put (low, high, low_k, high_k, 4), ==, 1);
  g_assert_cmpfloat (low[0], ==, -4);
  g_assert_cmpfloat (high[0], ==, 2);
  g_assert_cmpfloat (low[1], ==, 0);
  g_assert_cmpfloat (high[1], ==, 3);
  g_assert_true (isnan (low[2]) && isnan (high[3]));
  g_assert_cmpfloat (high[2], ==, 5);
  g_assert_cmpfloat (low[3], ==, -1);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < 5; i++)
    {
      g_autofree char *path = g_strdup_printf ("/forecast-error/covariance/%u", i);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_covariance);
    }
  g_test_add_func ("/forecast-error/spread", test_spread);
  g_test_add_func ("/forecast-error/quantiles", test_quantiles);
  g_test_add_func ("/forecast-error/put", test_put);
  return found_run ();
}
