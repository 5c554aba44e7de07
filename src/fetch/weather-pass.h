/* One look at the weather service from beginning to end. It blocks, so it is for a thread of its own. */
#pragma once

#include "fetch/weather-fetch.h"

G_BEGIN_DECLS

/* Asks if it may, else tells how it stands; never NULL. */
FrWeatherFetched *
fr_weather_pass (const FrWeatherAsk *ask, GCancellable *cancellable);

G_END_DECLS
