/* One hour of the run, and what time and warmth take from it.
 *
 * Idea: a reservoir that frost fills and warmth drains over days, as published fits of measured seasons call for; a
 * same-day rule misses what runs in the days after a freeze. Added: the wood's lag (a lumped time constant), and
 * ice that deepens by the degree hour and must thaw by as many before the wood runs free; heat goes in as it came
 * out, so that takes one number. Nothing here is fitted: sap-members.c says where the numbers come from.
 *
 * The floor of 0.002 units a day is what drips anyway. Range: hourly air of -60 to 50 °C. */
#include "domain/maths/sap-run.h"

#include <math.h>

#define FLOOR_PER_H (0.002 / 24)
#define WARMTH_BASE_C 5.0

FrSapState
fr_sap_state (void)
{
  return (FrSapState){ .wood_c = NAN, .charge_ratio = 0.5 };
}

/* What a shape asks for every hour anew. */
typedef struct
{
  double follow_ratio;
  double fill_ratio;
} Pace;

static Pace
pace_of (const FrSapShape *shape)
{
  return (Pace){ -expm1 (-1 / shape->lag_h), -expm1 (-1 / shape->charge_h) };
}

/* 1 − exp (−x); the series is exact to 2e-10 where it is used. */
static double
let_go_ratio (double x)
{
  return x < 0.02 ? x * (1 - x / 2 * (1 - x / 3 * (1 - x / 4))) : -expm1 (-x);
}

static double
step (const FrSapShape *shape, Pace pace, FrSapState *state, double air_c, double *end_ratio)
{
  double above_k, ran = 0;

  if (isnan (air_c))
    return 0;
  if (isnan (state->wood_c))
    state->wood_c = air_c;
  state->wood_c += pace.follow_ratio * (air_c - state->wood_c);
  if (air_c > WARMTH_BASE_C)
    {
      state->warmth_k_days += (air_c - WARMTH_BASE_C) / 24;
      *end_ratio = fr_sap_end_ratio (shape, state->warmth_k_days);
    }
  above_k = state->wood_c - shape->thaw_c;
  if (above_k < -shape->rest_k)
    {
      state->charge_ratio += (1 - state->charge_ratio) * pace.fill_ratio;
      state->ice_ratio = MIN (state->ice_ratio + (-shape->rest_k - above_k) / shape->ice_k_h, 1);
    }
  else if (above_k > 0)
    {
      state->ice_ratio = MAX (state->ice_ratio - above_k / shape->ice_k_h, 0);
      ran = state->charge_ratio
            * let_go_ratio (shape->drain_per_k_h * MIN (above_k, shape->cap_k) * (1 - state->ice_ratio));
      state->charge_ratio -= ran;
    }
  return (ran + FLOOR_PER_H) * *end_ratio;
}

double
fr_sap_step (const FrSapShape *shape, FrSapState *state, double air_c)
{
  double end_ratio = fr_sap_end_ratio (shape, state->warmth_k_days);

  return step (shape, pace_of (shape), state, air_c, &end_ratio);
}

void
fr_sap_run (const FrSapShape *shape, FrSapState *state, const double *air_c, guint n, double *units_out)
{
  Pace pace = pace_of (shape);
  double end_ratio = fr_sap_end_ratio (shape, state->warmth_k_days);

  for (guint i = 0; i < n; i++)
    units_out[i] = step (shape, pace, state, air_c[i], &end_ratio);
}

double
fr_sap_age_ratio (const FrSapShape *shape, double age_days)
{
  return age_days < 0 ? 0 : exp (-age_days / shape->age_days);
}

double
fr_sap_end_ratio (const FrSapShape *shape, double warmth_k_days)
{
  /* The seventh power: from nine tenths to one tenth within a factor of two of warmth; common sense, no source. */
  double share = warmth_k_days / shape->end_k_days, cube = share * share * share;

  return 1 / (1 + cube * cube * share);
}
