/* Weather that arrives from a file or a service, held against what the book has of its source: what becomes of each day and of the forecast in
 * it, and the one change that brings it in. The same file read twice changes nothing the second time.
 *
 * What was seen becomes days of the source, what was told ahead one forecast. A value that the file does not have never takes one away that the
 * book has. */
#pragma once

#include "domain/maths/weather.h"
#include "domain/records/change.h"
#include "domain/records/kinds.h"

G_BEGIN_DECLS

typedef enum
{
  FR_WEATHER_NEW,
  FR_WEATHER_CHANGES, /* the book has the day, and a value or a mark differs */
  FR_WEATHER_SAME,
  FR_WEATHER_BARE, /* nothing is known of the day and the book has none: left aside */
  FR_WEATHER_UNKEPT, /* cannot be kept: @problem */
  FR_N_WEATHER_FATES
} FrWeatherFate;

/**
 * FrWeatherRow:
 * A day that was seen.
 * @before: of the book, borrowed; NULL for a new one
 * @after: as it would be kept, or cannot be; NULL when it is the same or bare
 */
typedef struct
{
  FrWeatherFate fate;
  FrDate date;
  const FrStationDay *before;
  FrStationDay *after;
  FrProblem problem;
} FrWeatherRow;

/**
 * FrWeatherPreview:
 * @rows: (element-type FrWeatherRow): days that were seen, by date
 * @n: how many have each fate
 * @station_before: of the book, borrowed; NULL when the source is new to it
 * @station_after: as it would be kept; what the book does not know yet is filled in
 * @is_other_station: the file's key is another one than the book's: likely a file of another place
 * @outlook_fate: of the forecast, FR_WEATHER_BARE when there is none
 * @outlook_before, @outlook_after: as of a row
 * @station_problem, @outlook_problem: with FR_WEATHER_UNKEPT
 * @n_hours_left: hours that were seen, and are not kept by themselves: fr_weather_fill_days makes days of them before
 */
typedef struct
{
  GArray *rows;
  guint n[FR_N_WEATHER_FATES];
  FrWeatherFate station_fate;
  const FrStation *station_before;
  FrStation *station_after;
  FrProblem station_problem;
  gboolean is_other_station;
  FrWeatherFate outlook_fate;
  const FrOutlook *outlook_before;
  FrOutlook *outlook_after;
  FrProblem outlook_problem;
  guint n_hours_left;
} FrWeatherPreview;

/**
 * fr_weather_preview:
 * @station: of the book, NULL for one that it does not have yet
 * @name: for a new one
 * @station_days: the book's, at least those of the time that @weather speaks of; of any source
 * @outlooks: the same
 * @fetched_utc: now; a forecast that does not say when it was made counts as made then
 *
 * Borrows all but @weather and @name. Never NULL.
 */
FrWeatherPreview *fr_weather_preview (const FrWeather *weather, const FrStation *station, const char *name,
                                      const GPtrArray *station_days, const GPtrArray *outlooks, gint64 fetched_utc);
void fr_weather_preview_free (FrWeatherPreview *preview);

/* Where the book's days and forecasts lie that @weather is to be held against; FALSE when it has no day and no hour. */
gboolean fr_weather_span (const FrWeather *weather, gint64 fetched_utc, FrRecordSpan *span_out);

/* Whether everything in it can be kept. */
gboolean fr_weather_preview_is_kept (const FrWeatherPreview *preview);

/* A forecast that is new takes the place of one of the same source that was made in the same three hours of UTC, so that a service asked every
 * hour fills no book: eight a day are kept at most. @outlooks: as for fr_weather_preview, back to fr_weather_slot_utc(). */
void fr_weather_preview_thin (FrWeatherPreview *preview, const GPtrArray *outlooks);
/* When the three hours began that an instant lies in. */
gint64 fr_weather_slot_utc (gint64 utc_s);

/* @label: "import-weather" or "fetch-weather"; @subject: what it was read from, or NULL. @next_ids: the next free id of each kind. What cannot be
 * kept is left out; empty when there is nothing to do, or when the source itself cannot be kept. */
FrChange *fr_weather_preview_change (const FrWeatherPreview *preview, const char *label, const char *subject,
                                     const gint64 next_ids[FR_N_KINDS], void (*new_uid) (char uid_out[33]));

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrWeatherPreview, fr_weather_preview_free)

G_END_DECLS
