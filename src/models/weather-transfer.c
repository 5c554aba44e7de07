/* What comes in is held against the book's days of the time it speaks of, whichever seasons that is. A history is read one record after the
 * other, with its figures alone: twenty years of days are never held as records. */
#include "models/weather-transfer.h"

#include <string.h>

#include "domain/plan/weather-days.h"
#include "formats/weather-file.h"

struct _FrWeatherImport
{
  FrBook *book;
  FrWeather *weather;
  GPtrArray *stations; /* held, for the preview borrows one */
  GPtrArray *days;
  GPtrArray *outlooks;
  FrWeatherPreview *preview;
};

/* Where none is wanted by name, the file's own key goes before what it is called. */
static const FrStation *
find_station (const GPtrArray *stations, const FrWeather *weather, const char *station, const char *name)
{
  const FrStation *found = NULL;
  guint n;

  if (station == NULL && weather->station != NULL)
    found = fr_station_find (stations, weather->station, &n);
  return found != NULL ? found : fr_station_find (stations, name, &n);
}

FrWeatherImport *
fr_weather_import_new (FrBook *book, const FrWeather *weather, const char *station, const char *otherwise,
                       const FrZoneTable *zone, gint64 now_utc, GError **error)
{
  g_return_val_if_fail (FR_IS_BOOK (book) && weather != NULL, NULL);

  g_autoptr (FrWeatherImport) self = g_new0 (FrWeatherImport, 1);
  const char *name = station != NULL              ? station
                     : weather->place_name != NULL ? weather->place_name
                     : weather->station != NULL    ? weather->station
                                                   : otherwise;
  FrRecordSpan span;

  self->book = g_object_ref (book);
  self->weather = fr_weather_copy (weather);
  fr_weather_fill_days (self->weather, zone);
  fr_weather_span (self->weather, now_utc, &span);
  self->stations = g_ptr_array_ref (fr_record_list_get_records (fr_book_get_list (book, FR_KIND_STATION)));
  self->days = fr_book_load_span (book, FR_KIND_STATION_DAY, &span, error);
  self->outlooks = self->days != NULL ? fr_book_load_span (book, FR_KIND_OUTLOOK, &span, error) : NULL;
  if (self->outlooks == NULL)
    return NULL;
  self->preview = fr_weather_preview (self->weather, find_station (self->stations, weather, station, name), name, self->days,
                                      self->outlooks, now_utc);
  return g_steal_pointer (&self);
}

void
fr_weather_import_free (FrWeatherImport *self)
{
  if (self == NULL)
    return;
  fr_weather_preview_free (self->preview);
  g_clear_pointer (&self->outlooks, g_ptr_array_unref);
  g_clear_pointer (&self->days, g_ptr_array_unref);
  g_clear_pointer (&self->stations, g_ptr_array_unref);
  fr_weather_free (self->weather);
  g_clear_object (&self->book);
  g_free (self);
}

const FrWeather *
fr_weather_import_weather (const FrWeatherImport *self)
{
  return self->weather;
}

const FrWeatherPreview *
fr_weather_import_preview (const FrWeatherImport *self)
{
  return self->preview;
}

/* What the preview comes to; NULL when nothing is to be done, with @error when the book cannot be read. */
static FrChange *
change_of (FrBook *book, const FrWeatherPreview *preview, const char *label, const char *subject, GError **error)
{
  g_autoptr (FrChange) change = NULL;
  gint64 next_ids[FR_N_KINDS] = { 0 };

  for (FrKindId kind = FR_KIND_STATION; kind <= FR_KIND_OUTLOOK; kind++)
    {
      g_autoptr (FrRecord) next = fr_book_new_record (book, kind, 0, error);

      if (next == NULL)
        return NULL;
      next_ids[kind] = next->id;
    }
  change = fr_weather_preview_change (preview, label, subject, next_ids, fr_book_new_uid);
  return fr_change_is_empty (change) ? NULL : g_steal_pointer (&change);
}

FrChange *
fr_weather_import_change (FrWeatherImport *self, const char *label, const char *subject, GError **error)
{
  return change_of (self->book, self->preview, label, subject, error);
}

/* The source that stands for a service. */
static const FrStation *
find_service (FrBook *book, const char *source)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_STATION);

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrStation *station = (const FrStation *)fr_record_list_get (list, i);

      if (!station->record.archived && g_strcmp0 (station->source, source) == 0)
        return station;
    }
  return NULL;
}

gboolean
fr_book_keep_forecast (FrBook *book, const FrWeather *weather, const char *name, gint64 now_utc, GError **error)
{
  g_autoptr (FrWeatherPreview) preview = NULL;
  g_autoptr (GPtrArray) days = NULL, outlooks = NULL;
  g_autoptr (FrChange) change = NULL;
  GError *failure = NULL;
  FrRecordSpan span;

  fr_weather_span (weather, now_utc, &span);
  span.from_utc = MIN (span.from_utc, fr_weather_slot_utc (span.to_utc - 1));
  days = fr_book_load_span (book, FR_KIND_STATION_DAY, &span, error);
  outlooks = days != NULL ? fr_book_load_span (book, FR_KIND_OUTLOOK, &span, error) : NULL;
  if (outlooks == NULL)
    return FALSE;
  preview = fr_weather_preview (weather, find_service (book, fr_station_source_of (weather->format)), name, days, outlooks,
                                now_utc);
  fr_weather_preview_thin (preview, outlooks);
  change = change_of (book, preview, "fetch-weather", preview->station_after->name, &failure);
  if (failure != NULL)
    {
      g_propagate_error (error, failure);
      return FALSE;
    }
  return change == NULL || fr_book_apply_beside (book, change, error);
}

gboolean
fr_book_keep_answer (FrBook *book, GBytes *body, const FrZoneTable *zone, const char *name, gint64 now_utc, GError **error)
{
  const FrWeatherColumns choice = { .zone = zone };
  gsize length = 0;
  const char *bytes = g_bytes_get_data (body, &length);
  g_autoptr (FrWeather) weather = fr_weather_read (bytes != NULL ? bytes : "", length, &choice, error);

  return weather != NULL && fr_book_keep_forecast (book, weather, name, now_utc, error);
}

FrWeather *
fr_book_read_weather (FrBook *book, gint64 station, GError **error)
{
  static const FrRecordSpan ever = { G_MININT64, G_MAXINT64, { 1, 1, 1 }, { 9999, 12, 31 } };
  g_autoptr (FrWeather) weather = NULL;
  FrWeatherTaking taking = { NULL, station };
  gboolean ok;

  if (station == 0)
    weather = fr_weather_new (FR_WEATHER_OWN);
  else
    {
      const FrRecord *record = fr_book_find (book, FR_KIND_STATION, station);

      weather = record != NULL ? fr_station_weather_new ((const FrStation *)record) : fr_weather_new (FR_WEATHER_CSV);
    }
  taking.weather = weather;
  ok = station == 0 ? fr_book_each (book, FR_KIND_DAY, &ever, fr_own_day_fields, fr_weather_take, &taking, error)
                    : fr_book_each (book, FR_KIND_STATION_DAY, &ever, fr_station_day_fields, fr_weather_take, &taking, error);
  if (!ok)
    return NULL;
  fr_weather_sort (weather);
  return g_steal_pointer (&weather);
}
