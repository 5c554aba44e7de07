/* Invented winters for the forecast's tests: lows and highs that warm from midwinter to May in waves, hours
 * between them by a cosine written here. No real place. */
#pragma once

#include "domain/plan/forecast.h"

#include <math.h>

/* @warm_k: added to all; @phase: of the waves; @n_days from @first on, day 0 being @from_d days after
 * midwinter. */
static inline FrAirHours *
winter_air (FrDate first, gint from_d, guint n_days, double warm_k, double phase)
{
  FrAirHours *air = g_new0 (FrAirHours, 1);

  air->first = first;
  air->n_hours = n_days * 24;
  air->temp_c = g_new (double, air->n_hours);
  air->is_forecast = g_new0 (guint8, air->n_hours);
  air->from = g_new0 (guint8, air->n_hours);
  for (guint h = 0; h < air->n_hours; h++)
    {
      double day = from_d + h / 24.0;
      double mean_c = -9 + 0.14 * day + 4.5 * sin (2 * G_PI * day / 9.3 + phase)
                      + 2 * sin (2 * G_PI * day / 23 + 2 * phase);

      air->temp_c[h] = mean_c + warm_k - 5 * cos (2 * G_PI * (h % 24 - 3) / 24.0);
    }
  return air;
}

/* Two members that differ in all that matters, of unequal weight. */
static const FrSapMember winter_members_of[] = {
  { .shape = { .lag_h = 4,
               .thaw_c = -1.5,
               .rest_k = 0.2,
               .charge_h = 5,
               .drain_per_k_h = 0.004,
               .cap_k = 5,
               .ice_k_h = 400,
               .age_days = 60,
               .end_k_days = 60 },
    .gain_l = 11,
    .scatter_ratio = 0.4,
    .weight_ratio = 0.75 },
  { .shape = { .lag_h = 2,
               .thaw_c = -0.5,
               .rest_k = 0.2,
               .charge_h = 12,
               .drain_per_k_h = 0.008,
               .cap_k = 8,
               .ice_k_h = 900,
               .age_days = 300,
               .end_k_days = 120 },
    .gain_l = 7,
    .scatter_ratio = 0.6,
    .weight_ratio = 0.25 },
};
static const FrSapMembers winter_members = { 2, winter_members_of, 0.5 };

/* A forecast without error. */
static const FrForecastError winter_sure = { 0, 0, 7, 0, 0 };

static inline FrForecastQuestion
winter_question (const FrAirHours *air, FrDate as_of)
{
  return (FrForecastQuestion){ .air = air,
                               .as_of = as_of,
                               .gather_hour = 17,
                               .errors = winter_sure,
                               .members = &winter_members,
                               .n_draws = 4,
                               .seed = 1 };
}
