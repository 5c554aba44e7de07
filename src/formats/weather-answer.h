/* What the readers of services' JSON share. */
#pragma once

#include "formats/json-input.h"
#include "formats/weather-private.h"

G_BEGIN_DECLS

#define FR_WEATHER_VALUES_MAX 1000000

/* The weather of a service's answer, whichever it is of; NULL with the service's own complaint when the answer is one. */
FrWeather *
fr_weather_answer_read (const char *text, gsize length, const FrWeatherColumns *choice, GError **error);

/* --- values --- */

/* "2026-03-10T12:00:00Z" or with an offset; FALSE when it is anything else. */
gboolean
fr_weather_read_instant (const char *text, gint64 *utc_out);
/* The instant @key, required. FALSE with the sentence. */
gboolean
fr_weather_input_instant (const FrInput *input, const char *key, gint64 *utc_out);
/* The unit named by @key, in any of its spellings ("celsius", "wmoUnit:degF", "°C"): °C when it is absent. FALSE with the sentence
 * when it is neither °C nor °F. */
gboolean
fr_weather_input_degrees (const FrInput *input, const char *key, FrWeatherUnit *unit_out);
/* A temperature in °C; NAN when absent, null, or wrong. */
double
fr_weather_input_temp_c (const FrInput *input, const char *key, FrWeatherUnit unit);
/* Longitude, latitude and perhaps altitude of the Point "geometry"; another geometry leaves them unknown. */
void
fr_weather_input_point (const FrInput *root, FrWeather *weather);

/* --- readers; @input->error is set where NULL is returned --- */

FrWeather *
fr_met_read (const FrInput *root);
FrWeather *
fr_nws_grid_read (const FrInput *root, const FrWeatherColumns *choice);
FrWeather *
fr_nws_point_read (const FrInput *root);
FrWeather *
fr_open_meteo_read (const FrInput *root);

G_END_DECLS
