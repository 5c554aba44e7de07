/* Weather as frostrun-cli answers it; the keys are in docs/json.md. */
#pragma once

#include "formats/weather-file.h"

G_BEGIN_DECLS

/* @found: (nullable) (element-type FrWeatherFound): of a plain table. Free it. */
char *
fr_weather_to_json (const FrWeather *weather, const GPtrArray *found);

G_END_DECLS
