/* The book's weather as series: what the household wrote down, what each source saw, and what was told ahead last.
 *
 * Nothing is moved or added here: a source's highs stay at the days it has them at, and its offset to the household is the reader's to add
 * (FrStation has both). Records that were put away are passed over. */
#pragma once

#include "domain/maths/weather.h"
#include "domain/records/kinds.h"

G_BEGIN_DECLS

/* Code of a source of weather for what a file or an answer was; and back (FR_WEATHER_CSV for files and others). */
const char *fr_station_source_of (FrWeatherFormat format);
FrWeatherFormat fr_station_format (const FrStation *station);

/* The source that has this name, or else this key. @n_out: how many do; the first is given. NULL and 0 without one. */
const FrStation *fr_station_find (const GPtrArray *stations, const char *text, guint *n_out);

/* An empty series with name, key, place, reading time and attribution of the source. */
FrWeather *fr_station_weather_new (const FrStation *station);

/* --- one record after the other, for histories that are not held --- */

/**
 * FrWeatherTaking:
 * @weather: gains the days
 * @station: of which source, 0 for the household's own days
 */
typedef struct
{
  FrWeather *weather;
  gint64 station;
} FrWeatherTaking;

/* The fields that fr_weather_take() asks for, NULL at the end. */
extern const char *const fr_own_day_fields[];
extern const char *const fr_station_day_fields[];

/* Adds a FrDay or FrStationDay if it is one of those wanted; @taking is a FrWeatherTaking. Its form is that of a visitor of records, so that a
 * store can show it all seasons without holding them. Days come in any order: fr_weather_sort() afterwards. */
void fr_weather_take (const FrRecord *record, gpointer taking);

/* --- from arrays of records; NULL is an empty one --- */

/* The household's own days, as FR_WEATHER_OWN. What was written down as expected is forecast. Never NULL. */
FrWeather *fr_own_weather (const GPtrArray *days);
/* What the source saw. Never NULL. */
FrWeather *fr_station_weather (const FrStation *station, const GPtrArray *station_days);

/* The forecast issued last, not after @until_utc; @station 0 for any source. Of two at one instant the one fetched later. NULL without one. */
const FrOutlook *fr_latest_outlook (const GPtrArray *outlooks, gint64 station, gint64 until_utc);
/* What it told; all of it is forecast. @station: its source, or NULL. NULL when its text cannot be read. */
FrWeather *fr_outlook_weather (const FrOutlook *outlook, const FrStation *station);

G_END_DECLS
