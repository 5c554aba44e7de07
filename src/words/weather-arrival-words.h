/* Weather that comes in, in words. */
#pragma once

#include "domain/plan/weather-arrivals.h"

G_BEGIN_DECLS

/* "5345 days: 5340 new, 2 changed, 3 the same." Free it. */
char *fr_weather_arrival_summary (const FrWeatherPreview *preview);
/* What becomes of the source. Free it; NULL when nothing does. */
char *fr_weather_arrival_station_sentence (const FrWeatherPreview *preview, const FrUnits *units);
/* What becomes of the forecast in it. Free it; NULL when there is none. */
char *fr_weather_arrival_outlook_sentence (const FrWeatherPreview *preview, const FrUnits *units);
/* That hours are kept as days. Free it; NULL when there are none. */
char *fr_weather_arrival_hours_sentence (const FrWeatherPreview *preview);
/* What becomes of a day. Free it. */
char *fr_weather_arrival_row_sentence (const FrWeatherRow *row, const FrUnits *units);
/* That the file is of another source than the book's; NULL when it is not. Free it. */
char *fr_weather_arrival_other_sentence (const FrWeatherPreview *preview, const FrWeather *weather);

G_END_DECLS
