/* What the parts of the forecast share. */
#pragma once

#include "domain/plan/forecast.h"

#include <math.h>

G_BEGIN_DECLS

/* Of a member's gain: quantiles that are as likely each. */
#define FR_FORECAST_GAIN_NODES 8
/* A member that holds less than this of the belief is passed over. */
#define FR_FORECAST_WEIGHT_MIN 1e-5
/* Of a season's litres, what is as good as nothing. */
#define FR_FORECAST_SUM_NOISE_L 0.05
/* Share of a day's squared scatter that is common to all days; common sense, no source: emptyings of the measured seasons are
 * too few to tell. */
#define FR_FORECAST_SHARED_RATIO 0.25

/* By what a day's scatter is multiplied for the sum of so many days that bring anything. */
static inline double
fr_forecast_sum_spread_ratio (guint n_runs)
{
  return sqrt (FR_FORECAST_SHARED_RATIO + (1 - FR_FORECAST_SHARED_RATIO) / MAX (n_runs, 1));
}

/* A mixture of logarithms of litres, put into bins and spread by each member's scatter. */
typedef struct _FrForecastMix FrForecastMix;

FrForecastMix *
fr_forecast_mix_new (const FrSapMembers *members);
void
fr_forecast_mix_free (FrForecastMix *mix);
/* Empties it. @spread_ratio: by what the members' scatter is multiplied; @noise_l: added before logarithms. */
void
fr_forecast_mix_begin (FrForecastMix *mix, double spread_ratio, double noise_l);
void
fr_forecast_mix_add (FrForecastMix *mix, guint member, double litres_l, double weight_ratio);
/* Weights need not come to 1. All NAN when nothing was added. */
FrLitres
fr_forecast_mix_litres (FrForecastMix *mix);
/* The whole of it, FR_FORECAST_STEPS + 1 each: litres, and the share below; after fr_forecast_mix_litres. */
void
fr_forecast_mix_steps (const FrForecastMix *mix, double *at_l_out, double *below_ratio_out);
/* That litres are at least so many; after fr_forecast_mix_litres. */
double
fr_forecast_mix_reach_probability (const FrForecastMix *mix, double litres_l);

/* Days are counted from the first of the question's air; day d ends at the gathering hour of its date. */
typedef struct
{
  const FrForecastQuestion *question;
  const FrSapMembers *members;
  gint as_of;     /* day */
  gint n_weather; /* days whose hours the weather knows: 0 to n_weather − 1 */
  gint n_days;    /* and those that past seasons stand in for */
  guint n_draws;
  gboolean is_ageless;
  double *units;  /* [member][draw][day], of the middling tap; days up to as_of are the same in all draws */
  double *low_k, *high_k; /* [draw][day]: errors drawn; 0 for what was observed */
} FrForecastRun;

FrForecastRun *
fr_forecast_run_new (const FrForecastQuestion *question);
/* The same for a tap that is new on every day, in a middling tree; with past seasons one draw for each, the j-th of which
 * the j-th stands in for. */
FrForecastRun *
fr_forecast_run_ageless_new (const FrForecastQuestion *question);
void
fr_forecast_run_free (FrForecastRun *run);
/* What errors drawn for lows and highs of @n_days days make of hour @h when it was foretold at @from. */
double
fr_forecast_error_at_k (const double *low_k, const double *high_k, gint n_days, gint from, gint h);
/* Of the day at which a member takes the buckets to be emptied. */
guint
fr_forecast_gather_hour (const FrForecastQuestion *question, guint member);
guint
fr_forecast_n_taps (const FrForecastQuestion *question);
static inline double *
fr_forecast_run_units (const FrForecastRun *run, guint member, guint draw)
{
  return run->units + ((gsize)member * run->n_draws + draw) * run->n_days;
}

/* Of the days (@from_days, @to], of which the first may be a part. */
static inline double
fr_forecast_run_span_units (const FrForecastRun *run, guint member, guint draw, double from_days, gint to)
{
  const double *days = fr_forecast_run_units (run, member, draw);
  gint whole = (gint)floor (from_days);
  double units = 0;

  for (gint d = whole + 1; d <= to; d++)
    units += days[d] * (d == whole + 1 ? 1 - (from_days - whole) : 1);
  return units;
}

/* Whether all hours of the days (@from_days, @to] are known. */
gboolean
fr_forecast_run_is_known (const FrForecastRun *run, double from_days, gint to);

/**
 * FrForecastBelief:
 * What the question's gatherings up to as_of leave of the members.
 * @weights_ratio: of each, together 1
 * @gains_l: of each, litres a tap for a unit, each as likely; 0 for a member that is passed over
 * @n_learned, @gain_before_l, @gain_after_l, @ran_ratio: as in FrForecast
 */
typedef struct
{
  double *weights_ratio;
  double (*gains_l)[FR_FORECAST_GAIN_NODES];
  guint n_learned;
  double gain_before_l[3];
  double gain_after_l[3];
  double ran_ratio;
} FrForecastBelief;

/* @run: ageless only where there are no gatherings. */
FrForecastBelief *
fr_forecast_belief_new (const FrForecastRun *run);
void
fr_forecast_belief_free (FrForecastBelief *belief);

/* Puts the days (@from_days, @to] into @mix: litres a tap and day; all NAN where their weather is not known. */
FrLitres
fr_forecast_mix_span (FrForecastMix *mix, const FrForecastRun *run, const FrForecastBelief *belief, double from_days, gint to);

static inline FrLitres
fr_litres_scaled (FrLitres litres, double by_ratio)
{
  return (FrLitres){ litres.lo_l * by_ratio,        litres.quarter_lo_l * by_ratio, litres.middle_l * by_ratio,
                     litres.quarter_hi_l * by_ratio, litres.hi_l * by_ratio,         litres.mean_l * by_ratio };
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecastBelief, fr_forecast_belief_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecastMix, fr_forecast_mix_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecastRun, fr_forecast_run_free)

G_END_DECLS
