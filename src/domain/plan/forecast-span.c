/* Days taken together: the mean of a span is one case of the mixture that a day is. Its litres scatter around a member's by the
 * member's own scatter, as those of the spans that it was fitted on and learns from do. */
#include "domain/plan/forecast-private.h"

static gboolean
has_air (const FrForecastRun *run, gint d)
{
  return d >= run->n_weather ? run->question->n_past > 0 : fr_forecast_run_is_known (run, d - 1, d);
}

FrLitres
fr_forecast_mix_span (FrForecastMix *mix, const FrForecastRun *run, const FrForecastBelief *belief, double from_days, gint to)
{
  guint n_draws = to > run->as_of ? run->n_draws : 1;
  gboolean known = from_days >= -1 && to < run->n_days;

  for (gint d = (gint)floor (from_days) + 1; d <= to && known; d++)
    known = has_air (run, d);
  fr_forecast_mix_begin (mix, 1, FR_SAP_NOISE_L);
  for (guint m = 0; m < run->members->n && known; m++)
    for (guint j = 0; j < n_draws && belief->weights_ratio[m] >= FR_FORECAST_WEIGHT_MIN; j++)
      {
        double per_day = fr_forecast_run_span_units (run, m, j, from_days, to) / (to - from_days);

        for (guint k = 0; k < FR_FORECAST_GAIN_NODES; k++)
          fr_forecast_mix_add (mix, m, belief->gains_l[m][k] * per_day, belief->weights_ratio[m]);
      }
  return fr_forecast_mix_litres (mix);
}

void
fr_forecast_span (const FrForecastQuestion *question, FrDate date, double span_days, FrForecastSpan *span_out)
{
  g_autoptr (FrForecastRun) run = NULL;
  g_autoptr (FrForecastBelief) belief = NULL;
  g_autoptr (FrForecastMix) mix = NULL;
  gint to = (gint)(fr_date_to_days (date) - fr_date_to_days (question->air->first));

  g_return_if_fail (span_days > 0);
  run = fr_forecast_run_new (question);
  belief = fr_forecast_belief_new (run);
  mix = fr_forecast_mix_new (run->members);
  span_out->span_days = span_days;
  span_out->per_day = fr_forecast_mix_span (mix, run, belief, to - span_days, to);
  span_out->per_tap = fr_litres_scaled (span_out->per_day, span_days);
  span_out->run_probability = fr_forecast_mix_reach_probability (mix, FR_RUN_L);
  span_out->n_learned = belief->n_learned;
  fr_forecast_mix_steps (mix, span_out->at_l, span_out->below_ratio);
}
