/* Totals of every date in one pass from the season's end backwards.
 *
 * A day that runs u units gives a hole drilled k days before it u exp (−(k − ½) / age); so the total of the
 * date before is that of this date times exp (−1 / age), plus that day's own. No season is run twice. */
#include "domain/plan/tap-date.h"

#include "domain/plan/forecast-private.h"
#include "domain/plan/season-air.h"

#include <math.h>

#define NODES FR_FORECAST_GAIN_NODES
/* Of the greatest total of all dates, what is too little to drill for; common sense, no source. */
#define TOO_LATE_RATIO 0.2
/* Of the total, what runs before a date and is as good as nothing; common sense, no source. */
#define FROZEN_RATIO 0.05
#define RUNNING_D 3
/* Days after midwinter from which the next season is waited for, not the last one missed; common sense, no
 * source. */
#define NEXT_SEASON_D 270

typedef struct
{
  const FrForecastQuestion *question;
  FrForecastRun *run;
  FrForecastBelief *belief;
  double *expected_l; /* [day]: of a tap that is new on it */
  double spread_ratio;
  double yield_ratio;
} Work;

static gint
day_of (const Work *work, FrDate date)
{
  return (gint)(fr_date_to_days (date) - fr_date_to_days (work->question->air->first));
}

static FrDate
date_of (const Work *work, gint day)
{
  return fr_date_add_days (work->question->air->first, day);
}

static double
mean_yield_ratio (const FrForecastQuestion *question)
{
  double yield = 0;
  guint n_taps = 0;

  for (guint i = 0; i < question->n_groups; i++)
    {
      yield += question->groups[i].n_taps * question->groups[i].yield_ratio;
      n_taps += question->groups[i].n_taps;
    }
  return n_taps > 0 ? yield / n_taps : 1;
}

/* From the gatherings, which came from the taps as they are set. */
static FrForecastBelief *
belief_of (const FrForecastQuestion *question, const FrForecastRun *ageless)
{
  g_autoptr (FrForecastRun) aged = question->n_gathered > 0 ? fr_forecast_run_new (question) : NULL;

  return fr_forecast_belief_new (aged != NULL ? aged : ageless);
}

static double
mean_gain_l (const Work *work, guint member)
{
  double sum = 0;

  for (guint k = 0; k < NODES; k++)
    sum += work->belief->gains_l[member][k];
  return work->yield_ratio * sum / NODES;
}

/* Whether nothing is known of some hour of a day within the weather. */
static gboolean
has_gap (const Work *work, gint day)
{
  gint end = day * 24 + (gint)fr_forecast_gather_hour (work->question, 4);

  for (gint h = MAX (end - 24, 0); h < end; h++)
    if (h >= (gint)work->question->air->n_hours || isnan (work->question->air->temp_c[h]))
      return TRUE;
  return FALSE;
}

static void
put_expected (Work *work)
{
  const FrForecastRun *run = work->run;
  guint n_runs = 0;

  work->expected_l = g_new0 (double, MAX (run->n_days, 1));
  for (guint m = 0; m < run->members->n; m++)
    for (guint j = 0; j < run->n_draws; j++)
      {
        const double *units = fr_forecast_run_units (run, m, j);
        double share_l = work->belief->weights_ratio[m] * mean_gain_l (work, m) / run->n_draws;

        for (gint d = 0; d < run->n_days; d++)
          work->expected_l[d] += share_l * units[d];
      }
  for (gint d = 0; d < run->n_days; d++)
    n_runs += work->expected_l[d] >= FR_SAP_NOISE_L;
  work->spread_ratio = fr_forecast_sum_spread_ratio (n_runs);
}

/* @totals: [member][draw], units of a hole drilled on @day + 1; becomes those of one drilled on @day. */
static void
step_back (const Work *work, gint day, double *totals)
{
  const FrForecastRun *run = work->run;

  for (guint m = 0; m < run->members->n; m++)
    {
      double whole_ratio = fr_sap_age_ratio (&run->members->members[m].shape, 1);
      double half_ratio = fr_sap_age_ratio (&run->members->members[m].shape, 0.5);

      for (guint j = 0; j < run->n_draws; j++)
        {
          double *total = &totals[m * run->n_draws + j];

          *total = *total * whole_ratio + fr_forecast_run_units (run, m, j)[day + 1] * half_ratio;
        }
    }
}

static double *
totals_of (const Work *work, gint day)
{
  double *totals = g_new0 (double, (gsize)work->run->members->n * work->run->n_draws);

  for (gint d = work->run->n_days - 2; d >= day; d--)
    step_back (work, d, totals);
  return totals;
}

/* The mean is that of the log-normals themselves, so that neighbouring dates differ by no more than they
 * should. */
static FrLitres
litres_of (const Work *work, FrForecastMix *mix, const double *totals)
{
  const FrForecastRun *run = work->run;
  FrLitres litres;
  double mean_l = 0;

  fr_forecast_mix_begin (mix, work->spread_ratio, FR_FORECAST_SUM_NOISE_L);
  for (guint m = 0; m < run->members->n; m++)
    {
      double sd = run->members->members[m].scatter_ratio * work->spread_ratio,
             raised_ratio = exp (sd * sd / 2), sum_l = 0;

      if (work->belief->weights_ratio[m] < FR_FORECAST_WEIGHT_MIN)
        continue;
      for (guint j = 0; j < run->n_draws; j++)
        for (guint k = 0; k < NODES; k++)
          {
            double total_l = work->yield_ratio * work->belief->gains_l[m][k] * totals[m * run->n_draws + j];

            fr_forecast_mix_add (mix, m, total_l, work->belief->weights_ratio[m]);
            sum_l += (total_l + FR_FORECAST_SUM_NOISE_L) * raised_ratio - FR_FORECAST_SUM_NOISE_L;
          }
      mean_l += work->belief->weights_ratio[m] * sum_l / (run->n_draws * NODES);
    }
  litres = fr_forecast_mix_litres (mix);
  litres.mean_l = mean_l;
  return litres;
}

static void
put_dates (Work *work, FrTapDates *dates)
{
  gint as_of = work->run->as_of;
  gint winter = day_of (work, fr_midwinter (work->question->as_of, work->question->is_south));
  gint first = MAX (MIN (as_of - FR_TAP_DATE_BEFORE_D, winter + FR_TAP_DATE_FROM_D), 0);
  gint last = MIN (MAX (as_of + FR_TAP_DATE_AFTER_D, winter + FR_TAP_DATE_TO_D), work->run->n_days - 2);
  g_autoptr (FrForecastMix) mix = fr_forecast_mix_new (work->run->members);
  g_autofree double *totals = NULL;

  if (last < first)
    return;
  dates->n_dates = (guint)(last - first + 1);
  dates->dates = g_new0 (FrTapDate, dates->n_dates);
  totals = totals_of (work, last);
  for (gint d = last; d >= first; d--)
    {
      if (d < last)
        step_back (work, d, totals);
      dates->dates[d - first] = (FrTapDate){ date_of (work, d), d < as_of, litres_of (work, mix, totals) };
    }
  for (gint d = first + 1; d < work->run->n_weather; d++)
    dates->n_gap_days += has_gap (work, d);
}

static void
choose (Work *work, FrTapDates *dates)
{
  double most_l = 0, ever_l = 0;

  for (guint i = 0; i < dates->n_dates; i++)
    {
      double total_l = dates->dates[i].total.mean_l;

      ever_l = fmax (ever_l, total_l);
      if (dates->dates[i].is_past || (dates->best >= 0 && total_l <= most_l))
        continue;
      most_l = total_l;
      dates->best = (gint)i;
    }
  if (dates->best < 0 || (!dates->is_season_known && dates->first_run.year == 0))
    return;
  if (most_l < TOO_LATE_RATIO * ever_l || most_l < FR_RUN_L)
    {
      dates->why = FR_TAP_DATE_TOO_LATE;
      return;
    }
  for (guint i = (guint)dates->best; i < dates->n_dates; i++)
    if (dates->dates[i].total.mean_l >= (1 - FR_TAP_DATE_WITHIN_RATIO) * most_l)
      dates->recommended = (gint)i;
}

static void
put_first_run (Work *work, FrTapDates *dates)
{
  for (gint d = MAX (work->run->as_of + 1, 0); d < work->run->n_days; d++)
    if (work->expected_l[d] >= FR_RUN_L)
      {
        dates->first_run = date_of (work, d);
        dates->is_first_run_forecast = d < work->run->n_weather;
        return;
      }
}

static FrTapDateWhy
why (const Work *work, const FrTapDates *dates)
{
  const FrTapDate *date = &dates->dates[dates->recommended];
  gint as_of = work->run->as_of, day = day_of (work, date->date);
  double before_l = 0;

  if (day > as_of)
    {
      for (gint d = MAX (as_of + 1, 0); d <= day; d++)
        before_l += work->expected_l[d];
      return before_l <= FROZEN_RATIO * date->total.mean_l ? FR_TAP_DATE_FROZEN : FR_TAP_DATE_AGEING;
    }
  for (gint d = MAX (as_of - RUNNING_D + 1, 0); d <= as_of && d < work->run->n_days; d++)
    if (work->expected_l[d] >= FR_RUN_L)
      return FR_TAP_DATE_RUNNING;
  return dates->is_first_run_forecast ? FR_TAP_DATE_RUN_NEAR : FR_TAP_DATE_WAITING_LOSES;
}

static void
put_shift (const Work *work, const FrTapDates *dates, gint by_days, FrTapDateShift *shift)
{
  const FrForecastRun *run = work->run;
  gint at = dates->recommended + by_days, day = day_of (work, dates->dates[dates->recommended].date);
  g_autofree double *here = NULL, *there = NULL;

  if (at < 0 || at >= (gint)dates->n_dates)
    return;
  here = totals_of (work, day);
  there = totals_of (work, day + by_days);
  shift->loss_l = dates->dates[dates->recommended].total.mean_l - dates->dates[at].total.mean_l;
  shift->loss_ratio = shift->loss_l / dates->dates[dates->recommended].total.mean_l;
  shift->better_probability = 0;
  for (guint m = 0; m < run->members->n; m++)
    for (guint j = 0; j < run->n_draws; j++)
      if (there[m * run->n_draws + j] > here[m * run->n_draws + j])
        shift->better_probability += work->belief->weights_ratio[m] / run->n_draws;
}

/* By the calendar alone. */
static gboolean
is_behind (const FrForecastQuestion *question)
{
  gint64 after = fr_date_to_days (question->as_of)
                 - fr_date_to_days (fr_midwinter (question->as_of, question->is_south));

  return after > FR_TAP_DATE_TO_D && after < NEXT_SEASON_D;
}

FrTapDates *
fr_tap_dates_new (const FrForecastQuestion *question)
{
  FrTapDates *dates = g_new0 (FrTapDates, 1);
  Work work = { .question = question, .yield_ratio = mean_yield_ratio (question) };

  dates->as_of = question->as_of;
  dates->best = dates->recommended = -1;
  dates->early = dates->late = (FrTapDateShift){ NAN, NAN, NAN };
  dates->n_past = question->n_past;
  dates->is_season_known = question->n_past > 0;
  work.run = fr_forecast_run_ageless_new (question);
  if (work.run->n_days > 1)
    {
      work.belief = belief_of (question, work.run);
      put_expected (&work);
      put_dates (&work, dates);
      put_first_run (&work, dates);
      choose (&work, dates);
    }
  if (dates->recommended >= 0)
    {
      dates->why = why (&work, dates);
      put_shift (&work, dates, -FR_TAP_DATE_WEEK_D, &dates->early);
      put_shift (&work, dates, FR_TAP_DATE_WEEK_D, &dates->late);
    }
  else if (is_behind (question))
    dates->why = FR_TAP_DATE_TOO_LATE;
  fr_forecast_run_free (work.run);
  fr_forecast_belief_free (work.belief);
  g_free (work.expected_l);
  return dates;
}

void
fr_tap_dates_free (FrTapDates *dates)
{
  if (!dates)
    return;
  g_free (dates->dates);
  g_free (dates);
}

FrDate
fr_tap_dates_recommended (const FrTapDates *dates)
{
  return dates->recommended >= 0 ? dates->dates[dates->recommended].date : (FrDate){ 0 };
}
