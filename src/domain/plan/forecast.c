/* The forecast: members run over the weather, weighed by what was emptied, and read off as quantiles.
 *
 * Litres of a day scatter around a member's by its own scatter, the same for a day as for the mean of several, so that
 * ranges of neighbouring days may be added. Over a longer time SHARED of that scatter's square is common to all days
 * and the rest evens out (common sense, no source: emptyings of the measured seasons are too few to tell). */
#include "domain/plan/forecast-private.h"

#include <math.h>

#define GAIN_NODES 8
#define SHARED_RATIO 0.25
/* A member that holds less than this of the belief is passed over. */
#define WEIGHT_MIN 1e-5
/* Of a season's litres, what is as good as nothing. */
#define SUM_NOISE_L 0.05
/* Share of the degree days to a member's end at which buds may be tasted; common sense, no source. */
#define BUDS_RATIO 0.6
#define END_RATIO 0.05

typedef struct
{
  const FrForecastQuestion *question;
  FrForecastRun *run;
  FrSapLearn *learn;
  FrForecastMix *mix;
  double *weights;           /* of each member */
  double (*gains)[GAIN_NODES]; /* litres a unit, each as likely */
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

/* Whether all hours of the days (@from, @to] are known. */
static gboolean
is_known (const Work *work, double from, gint to)
{
  const FrAirHours *air = work->question->air;
  guint hour = fr_forecast_gather_hour (work->question, 0);
  gint first = (gint)floor (from * 24) + (gint)hour, end = to * 24 + (gint)hour;

  if (first < 0 || end > (gint)air->n_hours)
    return FALSE;
  for (gint h = first; h < end; h++)
    if (isnan (air->temp_c[h]))
      return FALSE;
  return TRUE;
}

static void
learn (Work *work)
{
  const FrForecastQuestion *question = work->question;
  guint n_members = work->run->members->n;
  g_autofree double *units = g_new (double, n_members);

  for (guint i = 0; i < question->n_gathered; i++)
    {
      const FrSapGathered *gathered = &question->gathered[i];
      gint to = day_of (work, gathered->date);
      double from = to - gathered->span_days;
      gint whole = (gint)floor (from);

      if (to > work->run->as_of || to >= work->run->n_weather || isnan (gathered->per_tap_l)
          || !is_known (work, from, to))
        continue;
      for (guint m = 0; m < n_members; m++)
        {
          const double *days = fr_forecast_run_units (work->run, m, 0);

          units[m] = 0;
          for (gint d = whole + 1; d <= to; d++)
            units[m] += days[d] * (d == whole + 1 ? 1 - (from - whole) : 1);
        }
      fr_sap_learn_add (work->learn, units, gathered->per_tap_l, gathered->span_days);
      work->forecast->n_learned++;
    }
}

static void
put_belief (Work *work)
{
  for (guint m = 0; m < work->run->members->n; m++)
    {
      work->weights[m] = fr_sap_learn_weight_ratio (work->learn, m);
      for (guint k = 0; k < GAIN_NODES && work->weights[m] >= WEIGHT_MIN; k++)
        work->gains[m][k] = fr_sap_learn_gain_l (work->learn, m, (k + 0.5) / GAIN_NODES);
    }
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

/* Whether the hours of that day are known or stood in for; only unknown ones of the weather make a gap. */
static gboolean
has_air (const Work *work, gint d)
{
  return d >= work->run->n_weather ? work->question->n_past > 0 : is_known (work, d - 1, d);
}

static FrLitres
scale (FrLitres litres, double by)
{
  return (FrLitres){ litres.lo_l * by,        litres.quarter_lo_l * by, litres.middle_l * by,
                     litres.quarter_hi_l * by, litres.hi_l * by,        litres.mean_l * by };
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
  const FrForecastRun *run = work->run;
  guint n_draws = d > run->as_of ? run->n_draws : 1;

  fr_forecast_mix_begin (work->mix, 1, FR_SAP_NOISE_L);
  for (guint m = 0; m < run->members->n && has_air (work, d); m++)
    for (guint j = 0; j < n_draws && work->weights[m] >= WEIGHT_MIN; j++)
      for (guint k = 0; k < GAIN_NODES; k++)
        fr_forecast_mix_add (work->mix, m, work->gains[m][k] * fr_forecast_run_units (run, m, j)[d],
                             work->weights[m]);
  day->per_tap = fr_forecast_mix_litres (work->mix);
  day->run_probability = fr_forecast_mix_reach_probability (work->mix, FR_RUN_L);
  day->bush = scale (day->per_tap, work->question->n_groups ? work->forecast->n_taps : NAN);
}

/* Litres of all taps after as_of up to the end of day @d. @n_runs: days among them that bring anything. */
static FrLitres
sum_up (const Work *work, double *sums, gint d, guint n_runs)
{
  const FrForecastRun *run = work->run;
  double spread = sqrt (SHARED_RATIO + (1 - SHARED_RATIO) / MAX (n_runs, 1));

  fr_forecast_mix_begin (work->mix, spread, SUM_NOISE_L);
  for (guint m = 0; m < run->members->n; m++)
    for (guint j = 0; j < run->n_draws; j++)
      {
        double *sum = &sums[m * run->n_draws + j];

        *sum += fr_forecast_run_units (run, m, j)[d];
        for (guint k = 0; k < GAIN_NODES && work->weights[m] >= WEIGHT_MIN; k++)
          fr_forecast_mix_add (work->mix, m, work->gains[m][k] * *sum, work->weights[m]);
      }
  return scale (fr_forecast_mix_litres (work->mix), work->forecast->n_taps);
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
  double over = 0, all = 0, warmth_k_days = NAN;

  if (work->forecast->n_days > 0 && work->question->n_past == 0)
    warmth_k_days = work->forecast->days[work->forecast->n_days - 1].warmth_k_days;
  for (guint m = 0; m < run->members->n; m++)
    {
      gboolean ends = isnan (warmth_k_days) || fr_sap_end_ratio (&run->members->members[m].shape, warmth_k_days) < END_RATIO;

      for (guint j = 0; j < run->n_draws; j++)
        {
          double most = 0;

          for (gint d = MAX (run->as_of + 1, 0); d < run->n_days; d++)
            most = fmax (most, fr_forecast_run_units (run, m, j)[d]);
          for (guint k = 0; k < GAIN_NODES && work->weights[m] >= WEIGHT_MIN; k++)
            {
              all += work->weights[m];
              over += ends && work->gains[m][k] * most < FR_RUN_L ? work->weights[m] : 0;
            }
        }
    }
  return all > 0 && run->n_days > 0 ? over / all : NAN;
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
      share += work->weights[m];
  return share;
}

FrForecast *
fr_forecast_new (const FrForecastQuestion *question)
{
  static const double shares[3] = { 0.1, 0.5, 0.9 };
  FrForecast *forecast = g_new0 (FrForecast, 1);
  Work work = { .question = question, .forecast = forecast };
  double middle_gain_l = 0;

  forecast->as_of = question->as_of;
  forecast->n_taps = fr_forecast_n_taps (question);
  forecast->n_past = question->n_past;
  work.run = fr_forecast_run_new (question);
  work.learn = fr_sap_learn_new (work.run->members);
  work.mix = fr_forecast_mix_new (work.run->members);
  work.weights = g_new0 (double, work.run->members->n);
  work.gains = g_malloc0_n (work.run->members->n, sizeof *work.gains);
  for (guint m = 0; m < work.run->members->n; m++)
    middle_gain_l += work.run->members->members[m].weight_ratio * log (work.run->members->members[m].gain_l);
  middle_gain_l = exp (middle_gain_l);
  for (guint i = 0; i < 3; i++)
    forecast->gain_before_l[i] = middle_gain_l * fr_sap_learn_gain_ratio (work.learn, shares[i]);
  learn (&work);
  for (guint i = 0; i < 3; i++)
    forecast->gain_after_l[i] = middle_gain_l * fr_sap_learn_gain_ratio (work.learn, shares[i]);
  forecast->raised_ratio = forecast->gain_after_l[1] / forecast->gain_before_l[1];
  put_belief (&work);
  put_days (&work);
  forecast->over_probability = over_probability (&work);
  forecast->off_flavour_probability = off_flavour_probability (&work);
  fr_forecast_run_free (work.run);
  fr_sap_learn_free (work.learn);
  fr_forecast_mix_free (work.mix);
  g_free (work.weights);
  g_free (work.gains);
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
