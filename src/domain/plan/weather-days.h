/* Days out of readings of single hours, for a logger's file: the book keeps days. */
#pragma once

#include "domain/maths/weather.h"
#include "domain/units/zone.h"

G_BEGIN_DECLS

/* No longer than this may a day of the clock be without a reading, at its ends too. */
#define FR_WEATHER_DAY_GAP_S (3 * 3600)
/* Readings no farther apart than this have the day's low and high among them; those of others are estimates of it. */
#define FR_WEATHER_DAY_CLOSE_S (15 * 60)

/**
 * fr_weather_fill_days:
 * @weather: in order, and so afterwards
 * @zone: whose days; NULL is UTC
 *
 * Of hours that were seen. A low or high that the series has stays; what was told ahead makes no day.
 *
 * Returns: how many days gained a low and a high
 */
guint fr_weather_fill_days (FrWeather *weather, const FrZoneTable *zone);

G_END_DECLS
