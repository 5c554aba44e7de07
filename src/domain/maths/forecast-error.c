/* Forecast errors as a first-order autoregression (Box and Jenkins) along the lead days, of pairs.
 *
 * With z(L) the pair of standard normal errors of low and high at lead L, z(L) = r z(L − 1) + √(1 − r²) w(L),
 * and the two parts of w correlated by c: every z has unit variance, parts a and b of leads L and M have the
 * correlation r^|L − M| for a = b and c r^|L − M| otherwise. The spread by lead: what public forecasts of
 * daily extremes do at mid-latitudes, common practice, no source. The correlations: common sense, no source.
 */
#include "domain/maths/forecast-error.h"

#include <math.h>

#define USUAL_FIRST_SD_K 1.5
#define USUAL_LAST_SD_K 3.5
#define USUAL_LAST_LEAD 7
#define USUAL_DAY_RATIO 0.6
#define USUAL_PAIR_RATIO 0.5

FrForecastError
fr_forecast_error_usual (void)
{
  return (FrForecastError){ USUAL_FIRST_SD_K, USUAL_LAST_SD_K, USUAL_LAST_LEAD, USUAL_DAY_RATIO,
                            USUAL_PAIR_RATIO };
}

gboolean
fr_forecast_error_is_valid (const FrForecastError *error)
{
  return error->first_sd_k >= 0 && error->last_sd_k >= 0 && isfinite (error->first_sd_k)
         && isfinite (error->last_sd_k) && error->last_lead >= 2 && fabs (error->day_ratio) < 1
         && fabs (error->pair_ratio) <= 1;
}

double
fr_forecast_error_sd_k (const FrForecastError *error, guint lead)
{
  g_return_val_if_fail (fr_forecast_error_is_valid (error), NAN);
  if (lead >= error->last_lead)
    return error->last_sd_k;
  /* Today by the same line; a steep one would go below 0 there. */
  return MAX (0, error->first_sd_k
                     + (error->last_sd_k - error->first_sd_k) * ((double)lead - 1) / (error->last_lead - 1));
}

double
fr_forecast_error_quantile_k (const FrForecastError *error, guint lead, double share_ratio)
{
  double sd = fr_forecast_error_sd_k (error, lead);

  return sd > 0 ? sd * fr_normal_quantile_ratio (share_ratio) : 0;
}

double
fr_forecast_error_correlation_ratio (const FrForecastError *error, guint lead_a, guint lead_b,
                                     gboolean same_extreme)
{
  g_return_val_if_fail (fr_forecast_error_is_valid (error), NAN);
  return pow (error->day_ratio, MAX (lead_a, lead_b) - MIN (lead_a, lead_b))
         * (same_extreme ? 1 : error->pair_ratio);
}

void
fr_forecast_error_draw (const FrForecastError *error, FrChance *chance, guint first_lead, guint n_days,
                        double *low_k_out, double *high_k_out)
{
  double low = 0, high = 0, fresh, across;

  g_return_if_fail (fr_forecast_error_is_valid (error));
  fresh = sqrt (1 - error->day_ratio * error->day_ratio);
  across = sqrt (1 - error->pair_ratio * error->pair_ratio);
  for (guint i = 0; i < n_days; i++)
    {
      double w[2], sd = fr_forecast_error_sd_k (error, first_lead + i);

      fr_chance_normals (chance, w, 2);
      w[1] = error->pair_ratio * w[0] + across * w[1];
      low = i == 0 ? w[0] : error->day_ratio * low + fresh * w[0];
      high = i == 0 ? w[1] : error->day_ratio * high + fresh * w[1];
      low_k_out[i] = sd * low;
      high_k_out[i] = sd * high;
    }
}

guint
fr_forecast_error_put (double *low_c, double *high_c, const double *low_k, const double *high_k, guint n_days)
{
  guint n_turned = 0;

  for (guint i = 0; i < n_days; i++)
    {
      double low = low_c[i] + low_k[i], high = high_c[i] + high_k[i];
      gboolean turned = low > high;

      low_c[i] = turned ? high : low;
      high_c[i] = turned ? low : high;
      n_turned += turned;
    }
  return n_turned;
}
