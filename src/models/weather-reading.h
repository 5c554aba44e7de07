/* A file of weather, read beside the main loop: what is in it, and of a plain table which column is taken for what. */
#pragma once

#include <gio/gio.h>

#include "formats/weather-file.h"

G_BEGIN_DECLS

/**
 * FrWeatherReading:
 * @weather: NULL with @problem
 * @columns: (element-type FrWeatherFound): of a plain table, also of one that cannot be read as it was chosen; empty for a format that
 * needs no choosing, NULL for what is no table
 * @zone: the household's, as it was asked for; or NULL
 * @problem: a sentence, or NULL
 */
typedef struct
{
  FrWeather *weather;
  GPtrArray *columns;
  FrZoneTable *zone;
  char *problem;
} FrWeatherReading;

/**
 * fr_weather_reading_async:
 * @choice: (transfer full): how to take the file; its zone is not looked at
 * @zone: the household's IANA name, whose clocks a file means that does not say it, and whose days its hours belong to; or NULL
 */
void fr_weather_reading_async (GFile *file, FrWeatherColumns choice, const char *zone, GCancellable *cancellable,
                               GAsyncReadyCallback done, gpointer data);
/* NULL when it was cancelled, or the file itself cannot be had. */
FrWeatherReading *fr_weather_reading_finish (GAsyncResult *result, GError **error);
void fr_weather_reading_free (FrWeatherReading *reading);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrWeatherReading, fr_weather_reading_free)

G_END_DECLS
