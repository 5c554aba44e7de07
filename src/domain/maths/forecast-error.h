/* How far a forecast's low and high of a day may be off, by how many days ahead it was made.
 *
 * Errors are normal with mean 0 and a spread that grows with the lead; one day's error leans the same way as
 * the next day's, and a day's low the same way as its high. Temperature differences in K. */
#pragma once

#include "domain/maths/chance.h"

G_BEGIN_DECLS

/**
 * FrForecastError:
 * @first_sd_k: standard deviation on lead day 1, 0 or more
 * @last_sd_k: the same on @last_lead and after it, 0 or more; straight between, and on to lead 0, today
 * @last_lead: 2 or more
 * @day_ratio: correlation of the error on one day with that on the next, over −1 and under 1; to the power of
 * the days between for others
 * @pair_ratio: correlation between the errors of low and high of one day, −1 to 1
 */
typedef struct
{
  double first_sd_k;
  double last_sd_k;
  guint last_lead;
  double day_ratio;
  double pair_ratio;
} FrForecastError;

/* 1.5 K on day 1, 3.5 K on day 7, 0.6 from day to day, 0.5 between low and high. */
FrForecastError
fr_forecast_error_usual (void);

/* Whether each field is in its range. The functions below ask it of their callers. */
gboolean
fr_forecast_error_is_valid (const FrForecastError *error);

double
fr_forecast_error_sd_k (const FrForecastError *error, guint lead);

/* The error that a share of all errors lies below. */
double
fr_forecast_error_quantile_k (const FrForecastError *error, guint lead, double share_ratio);

/* The correlation of two errors; @same_extreme when both are of lows or both of highs. */
double
fr_forecast_error_correlation_ratio (const FrForecastError *error, guint lead_a, guint lead_b,
                                     gboolean same_extreme);

/**
 * fr_forecast_error_draw:
 * @first_lead: of the first day
 * @n_days: days that follow one another
 * @low_k_out: one for each day
 * @high_k_out: one for each day
 *
 * What to add to the forecast lows and highs for one course that the weather may take.
 */
void
fr_forecast_error_draw (const FrForecastError *error, FrChance *chance, guint first_lead, guint n_days,
                        double *low_k_out, double *high_k_out);

/* Adds drawn errors to lows and highs; where a low comes out above its high the two change places, so that
 * what was added to a day of little range does not turn it round. Unknown extremes stay unknown. Returns how
 * many did. */
guint
fr_forecast_error_put (double *low_c, double *high_c, const double *low_k, const double *high_k,
                       guint n_days);

G_END_DECLS
