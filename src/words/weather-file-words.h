/* Files of weather in words. */
#pragma once

#include "domain/maths/weather.h"

G_BEGIN_DECLS

/* "GHCN-Daily, fixed width". */
const char *
fr_weather_format_name (FrWeatherFormat format);

G_END_DECLS
