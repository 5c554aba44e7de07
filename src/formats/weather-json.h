/* Weather as frostrun-cli answers it; the keys are in docs/json.md. */
#pragma once

#include "domain/maths/weather.h"

G_BEGIN_DECLS

/* Free it. */
char *
fr_weather_to_json (const FrWeather *weather);

G_END_DECLS
