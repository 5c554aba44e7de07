/* How much colder or warmer it is at the household's own thermometer than at the station, learned from days
 * both have.
 *
 * Lows and highs apart. Few days are trusted little: the answer is drawn towards 0. One bad day moves it by
 * no more than a day that is just out of line. Differences in K, own minus station. */
#pragma once

#include "domain/maths/weather.h"

G_BEGIN_DECLS

/**
 * FrOffsetPrior:
 * @prior_sd_k: how far a place may lie from its station, over 0
 * @day_sd_k: how far single days scatter about that, over 0
 * @clip_sds_ratio: beyond how many @day_sd_k a day counts no more than if it lay there, over 0
 */
typedef struct
{
  double prior_sd_k;
  double day_sd_k;
  double clip_sds_ratio;
} FrOffsetPrior;

/* 1.5 K, 1.3 K, 2. */
FrOffsetPrior
fr_offset_prior_usual (void);

/**
 * FrOffset:
 * @mean_k: what to add to the station's value; 0 without days
 * @sd_k: how sure
 * @n_days: with both values
 * @n_clipped: of them, out of line
 */
typedef struct
{
  double mean_k;
  double sd_k;
  guint n_days;
  guint n_clipped;
} FrOffset;

/* From single differences; unknown ones are passed over and not counted. */
FrOffset
fr_offset_learn (const double *differences_k, guint n, const FrOffsetPrior *prior);

/* From the observed days of two series, in order. */
void
fr_weather_offsets (const FrWeather *own, const FrWeather *station, const FrOffsetPrior *prior,
                    FrOffset *low_out, FrOffset *high_out);

/* Adds offsets to a series: to its days, and to its hours what half-cosines make of the two in that hour of
 * the clock @offset_s ahead of UTC. Where a low comes out above its high the day gets their middle twice.
 * Returns the number of such days. */
guint
fr_weather_put_offsets (FrWeather *weather, double low_k, double high_k, gint offset_s);

G_END_DECLS
