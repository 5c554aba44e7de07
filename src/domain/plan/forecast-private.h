/* What the parts of the forecast share. */
#pragma once

#include "domain/plan/forecast.h"

G_BEGIN_DECLS

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
  double *units;  /* [member][draw][day], of the middling tap; days up to as_of are the same in all draws */
  double *low_k, *high_k; /* [draw][day]: errors drawn; 0 for what was observed */
} FrForecastRun;

FrForecastRun *
fr_forecast_run_new (const FrForecastQuestion *question);
void
fr_forecast_run_free (FrForecastRun *run);
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

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecastMix, fr_forecast_mix_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecastRun, fr_forecast_run_free)

G_END_DECLS
