/* Files of weather in words. */
#pragma once

#include "domain/maths/weather.h"

G_BEGIN_DECLS

/* "GHCN-Daily, fixed width". */
const char *
fr_weather_format_name (FrWeatherFormat format);

/* "365 days, 2025-01-01 to 2025-12-31, of “Hill Farm”. Read as: plain table." Free it. */
char *fr_weather_found_sentence (const FrWeather *weather);
/* What is missing or was left aside in reading. Free it; NULL when nothing was. */
char *fr_weather_left_out_sentence (const FrWeather *weather);

G_END_DECLS
