/* Weather between the book and the rest: a file's or a service's comes in as one step of undo, and the whole history of a source goes out as a
 * series, all seasons of it. */
#pragma once

#include "domain/plan/book-weather.h"
#include "domain/plan/weather-arrivals.h"
#include "models/book.h"

G_BEGIN_DECLS

typedef struct _FrWeatherImport FrWeatherImport;

/**
 * fr_weather_import_new:
 * @weather: copied; readings of single hours become days
 * @zone: the household's, whose days those are; NULL is UTC
 * @station: name or key of its source; NULL: the one that has the file's key, else as the file calls it, else @otherwise
 * @otherwise: a name for a source whose file tells none, such as the name of the file
 * @now_utc: of the import
 *
 * Returns: NULL with a sentence when the book cannot be read
 */
FrWeatherImport *fr_weather_import_new (FrBook *book, const FrWeather *weather, const char *station, const char *otherwise,
                                        const FrZoneTable *zone, gint64 now_utc, GError **error);
void fr_weather_import_free (FrWeatherImport *import);

const FrWeather *fr_weather_import_weather (const FrWeatherImport *import);
/* What becomes of it. Valid until the import is freed. */
const FrWeatherPreview *fr_weather_import_preview (const FrWeatherImport *import);

/* @label: "import-weather" or "fetch-weather"; @subject: what it is from, or NULL. NULL with @error when the book cannot be read, NULL without
 * when nothing is to be done. */
FrChange *fr_weather_import_change (FrWeatherImport *import, const char *label, const char *subject, GError **error);

/**
 * fr_book_keep_forecast:
 * @weather: as a service sent it
 * @name: for its source, when the book has none of that service yet
 *
 * Beside the steps of undo, and one in three hours at most: a later one takes the place of the one before.
 *
 * Returns: FALSE with a sentence when it could not be kept
 */
gboolean fr_book_keep_forecast (FrBook *book, const FrWeather *weather, const char *name, gint64 now_utc, GError **error);

/* The same with an answer as it came. @zone: the household's, whose days the service's lows and highs belong to; NULL is UTC. */
gboolean fr_book_keep_answer (FrBook *book, GBytes *body, const FrZoneTable *zone, const char *name, gint64 now_utc, GError **error);

/* All days that a source saw, of every season; 0 for the household's own. NULL with a sentence when the book cannot be read. */
FrWeather *fr_book_read_weather (FrBook *book, gint64 station, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrWeatherImport, fr_weather_import_free)

G_END_DECLS
