/* The forecast: members run over the weather, weighed by what was emptied, and read off as quantiles.
 *
 * Litres of a day scatter around a member's by its own scatter, the same for a day as for the mean of several, so that
 * ranges of neighbouring days may be added. Over a longer time they scatter less (fr_forecast_sum_spread_ratio). */
#include "domain/plan/forecast-private.h"

#include "domain/plan/season-air.h"

#include <math.h>

#define GAIN_NODES FR_FORECAST_GAIN_NODES
#define WEIGHT_MIN FR_FORECAST_WEIGHT_MIN
/* Share of the degree days to a member's end at which buds may be tasted; common sense, no source. */
#define BUDS_RATIO 0.6
#define END_RATIO 0.05

typedef struct
{
  const FrForecastQuestion *question;
  FrForecastRun *run;
  FrForecastBelief *belief;
  FrForecastMix *mix;
  FrForecast *forecast;
} Work;

static gint
day_of (const Work *work, FrDate date)
{
  return (gint)(fr_date_to_days (date) - fr_date_to_days (work->question->air->first));
}

static gint
first_day (const Work *work)
{
  const FrForecastQuestion *question = work->question;
  gint first = day_of (work, question->tapped.year ? question->tapped : question->as_of);

  for (guint i = 0; i < question->n_groups; i++)
    if (question->groups[i].tapped.year)
      first = MIN (first, day_of (work, question->groups[i].tapped));
  return first;
}

static void
read_air (const Work *work, gint d, FrForecastDay *day)
{
  const FrAirHours *air = work->question->air;
  guint hour = fr_forecast_gather_hour (work->question, 4);
  gint end = d * 24 + (gint)hour;

  day->low_c = INFINITY;
  day->high_c = -INFINITY;
  day->frozen_h = day->thaw_h = 0;
  for (gint h = end - 24; h < end; h++)
    {
      double temp_c = h >= 0 && h < (gint)air->n_hours ? air->temp_c[h] : NAN;

      if (isnan (temp_c))
        {
          day->low_c = day->high_c = day->frozen_h = day->thaw_h = NAN;
          break;
        }
      day->low_c = fmin (day->low_c, temp_c);
      day->high_c = fmax (day->high_c, temp_c);
      day->frozen_h += temp_c < 0;
      day->thaw_h += temp_c > FR_RUN_AIR_C;
    }
  day->low_lo_c = day->low_hi_c = day->low_c;
  day->high_lo_c = day->high_hi_c = day->high_c;
  if (d > work->run->as_of)
    {
      double apart_k
          = fr_forecast_error_quantile_k (&work->question->errors, (guint)(d - work->run->as_of), 0.9);

      day->low_lo_c -= apart_k;
      day->low_hi_c += apart_k;
      day->high_lo_c -= apart_k;
      day->high_hi_c += apart_k;
    }
}

static FrLitres
plus (FrLitres litres, double more_l)
{
  return (FrLitres){ litres.lo_l + more_l,         litres.quarter_lo_l + more_l, litres.middle_l + more_l,
                     litres.quarter_hi_l + more_l, litres.hi_l + more_l,         litres.mean_l + more_l };
}

static void
read_sap (const Work *work, gint d, FrForecastDay *day)
{
  day->per_tap = fr_forecast_mix_span (work->mix, work->run, work->belief, d - 1, d);
  day->run_probability = fr_forecast_mix_reach_probability (work->mix, FR_RUN_L);
  day->bush = fr_litres_scaled (day->per_tap, work->question->n_groups ? work->forecast->n_taps : NAN);
}

/* Litres of all taps after as_of up to the end of day @d. @n_runs: days among them that bring anything. */
static FrLitres
sum_up (const Work *work, double *sums, gint d, guint n_runs)
{
  const FrForecastRun *run = work->run;

  fr_forecast_mix_begin (work->mix, fr_forecast_sum_spread_ratio (n_runs), FR_FORECAST_SUM_NOISE_L);
  for (guint m = 0; m < run->members->n; m++)
    for (guint j = 0; j < run->n_draws; j++)
      {
        double *sum = &sums[m * run->n_draws + j];

        *sum += fr_forecast_run_units (run, m, j)[d];
        for (guint k = 0; k < GAIN_NODES && work->belief->weights_ratio[m] >= WEIGHT_MIN; k++)
          fr_forecast_mix_add (work->mix, m, work->belief->gains_l[m][k] * *sum, work->belief->weights_ratio[m]);
      }
  return fr_litres_scaled (fr_forecast_mix_litres (work->mix), work->forecast->n_taps);
}

static const FrSapGathered *
gathered_on (const FrForecastQuestion *question, FrDate date)
{
  for (guint i = 0; i < question->n_gathered; i++)
    if (fr_date_compare (question->gathered[i].date, date) == 0)
      return &question->gathered[i];
  return NULL;
}

static void
put_days (Work *work)
{
  const FrForecastQuestion *question = work->question;
  FrForecastRun *run = work->run;
  FrForecast *forecast = work->forecast;
  gint first = MAX (first_day (work), -1), end = run->n_days;
  g_autofree double *sums = g_new0 (double, (gsize)run->members->n *run->n_draws);
  double gathered_l = 0, warmth_k_days = 0;
  guint n_runs = 0;

  forecast->n_days = end > first + 1 ? (guint)(end - first - 1) : 0;
  forecast->days = g_new0 (FrForecastDay, forecast->n_days);
  for (gint d = 0; d < end; d++)
    {
      FrForecastDay ignored, *day = d > first ? &forecast->days[d - first - 1] : &ignored;
      const FrSapGathered *gathered;

      day->date = fr_date_add_days (question->air->first, d);
      for (gint h = 0; h < 24 && d * 24 + h < (gint)question->air->n_hours; h++)
        if (question->air->temp_c[d * 24 + h] > 5)
          warmth_k_days += (question->air->temp_c[d * 24 + h] - 5) / 24;
      if (d <= first)
        continue;
      day->warmth_k_days = warmth_k_days;
      day->is_ahead = d > run->as_of;
      day->is_beyond = d >= run->n_weather;
      day->tapped_days = question->tapped.year || question->n_groups ? d - first : NAN;
      read_air (work, d, day);
      read_sap (work, d, day);
      gathered = gathered_on (question, day->date);
      day->gathered_l = gathered ? gathered->per_tap_l : NAN;
      day->gathered_days = gathered ? gathered->span_days : NAN;
      if (gathered && !day->is_ahead && !isnan (gathered->per_tap_l))
        gathered_l += gathered->per_tap_l * forecast->n_taps;
      n_runs += day->is_ahead && day->per_tap.mean_l >= FR_SAP_NOISE_L;
      if (day->is_ahead)
        day->so_far = plus (sum_up (work, sums, d, n_runs), gathered_l);
      else
        day->so_far = plus ((FrLitres){ 0 }, gathered_l);
    }
  forecast->gathered_l = gathered_l;
  forecast->to_come = (FrLitres){ NAN, NAN, NAN, NAN, NAN, NAN };
  if (forecast->n_days > 0 && end > run->as_of + 1)
    forecast->to_come = plus (forecast->days[forecast->n_days - 1].so_far, -gathered_l);
}

/* No day ahead reaches a run; and where no past season stands in, warmth ends it by the last day that is known. */
static double
over_probability (const Work *work)
{
  const FrForecastRun *run = work->run;
  const FrForecastQuestion *question = work->question;
  gint season_end = day_of (work, fr_midwinter (question->as_of, question->is_south)) + FR_SEASON_DAYS;
  double over = 0, all = 0, warmth_k_days = NAN;
  gboolean is_known_ahead = FALSE;

  if (run->as_of + 1 >= season_end)
    return 1;
  for (guint i = 0; i < work->forecast->n_days; i++)
    is_known_ahead = is_known_ahead || (work->forecast->days[i].is_ahead && !isnan (work->forecast->days[i].run_probability));
  if (!is_known_ahead)
    return NAN;
  if (question->n_past == 0)
    warmth_k_days = work->forecast->days[work->forecast->n_days - 1].warmth_k_days;
  for (guint m = 0; m < run->members->n; m++)
    {
      gboolean ends = isnan (warmth_k_days) || fr_sap_end_ratio (&run->members->members[m].shape, warmth_k_days) < END_RATIO;

      for (guint j = 0; j < run->n_draws; j++)
        {
          double most = 0;

          for (gint d = MAX (run->as_of + 1, 0); d < run->n_days; d++)
            most = fmax (most, fr_forecast_run_units (run, m, j)[d]);
          for (guint k = 0; k < GAIN_NODES && work->belief->weights_ratio[m] >= WEIGHT_MIN; k++)
            {
              all += work->belief->weights_ratio[m];
              over += ends && work->belief->gains_l[m][k] * most < FR_RUN_L ? work->belief->weights_ratio[m] : 0;
            }
        }
    }
  return over / all;
}

static double
off_flavour_probability (const Work *work)
{
  const FrForecastDay *day = fr_forecast_day (work->forecast, work->question->as_of);
  double share = 0;

  if (!day || isnan (day->low_c))
    return NAN;
  for (guint m = 0; m < work->run->members->n; m++)
    if (day->warmth_k_days >= BUDS_RATIO * work->run->members->members[m].shape.end_k_days)
      share += work->belief->weights_ratio[m];
  return share;
}

FrForecast *
fr_forecast_new (const FrForecastQuestion *question)
{
  FrForecast *forecast = g_new0 (FrForecast, 1);
  Work work = { .question = question, .forecast = forecast };

  forecast->as_of = question->as_of;
  forecast->n_taps = fr_forecast_n_taps (question);
  forecast->n_past = question->n_past;
  work.run = fr_forecast_run_new (question);
  work.belief = fr_forecast_belief_new (work.run);
  work.mix = fr_forecast_mix_new (work.run->members);
  forecast->n_learned = work.belief->n_learned;
  forecast->ran_ratio = work.belief->ran_ratio;
  for (guint i = 0; i < 3; i++)
    {
      forecast->gain_before_l[i] = work.belief->gain_before_l[i];
      forecast->gain_after_l[i] = work.belief->gain_after_l[i];
    }
  forecast->raised_ratio = forecast->gain_after_l[1] / forecast->gain_before_l[1];
  put_days (&work);
  forecast->over_probability = over_probability (&work);
  forecast->off_flavour_probability = off_flavour_probability (&work);
  fr_forecast_run_free (work.run);
  fr_forecast_belief_free (work.belief);
  fr_forecast_mix_free (work.mix);
  return forecast;
}

void
fr_forecast_free (FrForecast *forecast)
{
  if (!forecast)
    return;
  g_free (forecast->days);
  g_free (forecast);
}

const FrForecastDay *
fr_forecast_day (const FrForecast *forecast, FrDate date)
{
  gint64 at;

  if (forecast->n_days == 0)
    return NULL;
  at = fr_date_to_days (date) - fr_date_to_days (forecast->days[0].date);
  return at >= 0 && at < forecast->n_days ? &forecast->days[at] : NULL;
}
