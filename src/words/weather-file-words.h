/* Files of weather in words. */
#pragma once

#include "domain/maths/weather-offset.h"
#include "domain/units/quantity.h"

G_BEGIN_DECLS

/* "GHCN-Daily, fixed width". */
const char *
fr_weather_format_name (FrWeatherFormat format);

/* "365 days, 2025-01-01 to 2025-12-31, of “Hill Farm”. Read as: plain table." Free it. */
char *fr_weather_found_sentence (const FrWeather *weather);
/* What is missing or was left aside in reading. Free it; NULL when nothing was. */
char *fr_weather_left_out_sentence (const FrWeather *weather);

/* "365 days on file, 2025-01-01 to 2025-12-31. By 34 days that you wrote down too, your lows are 1.2 °C below its own and your highs 0.4 °C
 * above." Free it. @first and @last count when there is a day. */
char *fr_station_sentence (guint n_days, FrDate first, FrDate last, const FrOffset *low, const FrOffset *high, const FrUnits *units);

G_END_DECLS
