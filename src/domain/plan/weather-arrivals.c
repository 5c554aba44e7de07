/* Days by source and date, a forecast by source and instant; a value counts as the same only to the last bit, for files give the same digits
 * each time. */
#include "domain/plan/weather-arrivals.h"

#include "domain/plan/book-weather.h"
#include "domain/records/outlook-text.h"

#include <math.h>
#include <string.h>

/* A forecast that does not say when it was made is looked for so long before what it tells first; a span of search, not a date. */
#define MADE_BEFORE_DAYS 3
#define DAY_S 86400
/* Of forecasts of one source one is kept in so long. */
#define SLOT_S (3 * 3600)

static gboolean
first_problem (const FrRecord *record, FrProblem *problem_out)
{
  g_autoptr (GArray) problems = fr_record_check (record);

  if (problems->len > 0)
    *problem_out = g_array_index (problems, FrProblem, 0);
  return problems->len > 0;
}

/* --- the source --- */

static void
fill_text (char **text, const char *value)
{
  if (*text == NULL && value != NULL && *value != '\0')
    *text = g_strdup (value);
}

static void
fill_amount (FrAmount *amount, double value)
{
  if (isnan (amount->value))
    fr_amount_set (amount, value, NULL);
}

static void
preview_station (FrWeatherPreview *preview, const FrWeather *weather, const FrStation *station, const char *name)
{
  FrStation *after = (FrStation *)(station != NULL ? fr_record_copy (&station->record) : fr_record_new (FR_KIND_STATION));

  preview->station_before = station;
  preview->station_after = after;
  if (station == NULL)
    {
      fr_record_set_text (&after->record, fr_kind_field (after->record.kind, "name"), name);
      fr_record_set_text (&after->record, fr_kind_field (after->record.kind, "source"),
                          fr_station_source_of (weather->format));
    }
  preview->is_other_station
      = after->station_key != NULL && weather->station != NULL && strcmp (after->station_key, weather->station) != 0;
  fill_text (&after->station_key, weather->station);
  fill_text (&after->attribution, weather->attribution);
  /* Half a place is none. */
  if (isnan (after->latitude_deg.value) && !isnan (weather->latitude_deg) && !isnan (weather->longitude_deg))
    {
      fill_amount (&after->latitude_deg, weather->latitude_deg);
      fill_amount (&after->longitude_deg, weather->longitude_deg);
    }
  fill_amount (&after->altitude_m, weather->altitude_m);
  fill_amount (&after->reading_minute, weather->reading_minute >= 0 ? weather->reading_minute : NAN);
  if (station == NULL)
    preview->station_fate = FR_WEATHER_NEW;
  else
    preview->station_fate = fr_record_equal (&station->record, &after->record) ? FR_WEATHER_SAME : FR_WEATHER_CHANGES;
  if (first_problem (&after->record, &preview->station_problem))
    preview->station_fate = FR_WEATHER_UNKEPT;
}

/* --- its days --- */

/* Those of the source by their day's text, borrowed. */
static GHashTable *
index_days (const FrStation *station, const GPtrArray *station_days)
{
  GHashTable *by_day = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; station != NULL && station_days != NULL && i < station_days->len; i++)
    {
      FrStationDay *day = station_days->pdata[i];

      if (!day->record.archived && day->station == station->record.id)
        g_hash_table_insert (by_day, day->day, day);
    }
  return by_day;
}

static void
set_mark (char **mark, FrWeatherMark told, double file_c, double kept_c)
{
  const gboolean is_known = !isnan (kept_c);

  if (isnan (file_c) && is_known)
    return; /* the book's own value keeps its mark */
  if (is_known && told != FR_WEATHER_ESTIMATED)
    told = FR_WEATHER_PLAIN;
  else if (!is_known && told != FR_WEATHER_REFUSED)
    told = FR_WEATHER_ABSENT;
  g_free (*mark);
  *mark = g_strdup (fr_weather_mark_code (told));
}

static void
set_value (FrAmount *amount, double value)
{
  if (!isnan (value) && amount->value != value)
    fr_amount_set (amount, value, NULL);
}

static void
fill_day (FrStationDay *after, const FrWeatherDay *day)
{
  set_value (&after->low_c, day->low_c);
  set_value (&after->high_c, day->high_c);
  set_value (&after->rain_m, day->rain_m);
  set_value (&after->snow_m, day->snow_m);
  set_value (&after->sun_j_per_m2, day->sun_j_per_m2);
  set_mark (&after->low_mark, day->low_mark, day->low_c, after->low_c.value);
  set_mark (&after->high_mark, day->high_mark, day->high_c, after->high_c.value);
}

static gboolean
is_bare (const FrWeatherDay *day)
{
  return isnan (day->low_c) && isnan (day->high_c) && isnan (day->rain_m) && isnan (day->snow_m)
         && isnan (day->sun_j_per_m2);
}

static FrWeatherRow
preview_day (const FrWeatherPreview *preview, GHashTable *by_day, const FrWeatherDay *day)
{
  g_autofree char *iso = fr_date_to_iso (day->date);
  FrWeatherRow row = { .date = day->date, .before = g_hash_table_lookup (by_day, iso) };
  g_autoptr (FrRecord) record = NULL;
  FrStationDay *after;

  if (row.before == NULL && is_bare (day))
    {
      row.fate = FR_WEATHER_BARE;
      return row;
    }
  record = row.before != NULL ? fr_record_copy (&row.before->record) : fr_record_new (FR_KIND_STATION_DAY);
  after = (FrStationDay *)record;
  fill_day (after, day);
  if (row.before == NULL)
    {
      after->day = g_steal_pointer (&iso);
      /* A new source has no number yet, and any is right for the check. */
      after->station = preview->station_before != NULL ? preview->station_before->record.id : 1;
    }
  row.fate = row.before == NULL                                     ? FR_WEATHER_NEW
             : fr_record_equal (&row.before->record, record) ? FR_WEATHER_SAME
                                                                    : FR_WEATHER_CHANGES;
  if (row.fate == FR_WEATHER_SAME)
    return row;
  if (first_problem (record, &row.problem))
    row.fate = FR_WEATHER_UNKEPT;
  row.after = (FrStationDay *)g_steal_pointer (&record);
  return row;
}

static void
preview_days (FrWeatherPreview *preview, const FrWeather *weather, const GPtrArray *station_days)
{
  g_autoptr (GHashTable) by_day = index_days (preview->station_before, station_days);

  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);
      FrWeatherRow row;

      if (day->is_forecast)
        continue;
      row = preview_day (preview, by_day, day);
      preview->n[row.fate]++;
      g_array_append_val (preview->rows, row);
    }
  for (guint i = 0; i < weather->hours->len; i++)
    preview->n_hours_left += !g_array_index (weather->hours, FrWeatherHour, i).is_forecast;
}

/* --- its forecast --- */

/* The one of that instant; where the file does not say when it was made, one that tells the same. */
static const FrOutlook *
find_outlook (const FrStation *station, const GPtrArray *outlooks, const FrWeather *weather, const char *body)
{
  for (guint i = 0; station != NULL && outlooks != NULL && i < outlooks->len; i++)
    {
      const FrOutlook *outlook = outlooks->pdata[i];

      if (!outlook->record.archived && outlook->station == station->record.id
          && (weather->has_issued ? outlook->issued_utc == weather->issued_utc : strcmp (outlook->body, body) == 0))
        return outlook;
    }
  return NULL;
}

static void
preview_outlook (FrWeatherPreview *preview, const FrWeather *weather, const GPtrArray *outlooks, gint64 fetched_utc)
{
  g_autofree char *body = fr_outlook_write (weather);
  const FrOutlook *before;
  FrOutlook *after;

  preview->outlook_fate = FR_WEATHER_BARE;
  if (body == NULL)
    return;
  preview->outlook_before = before = find_outlook (preview->station_before, outlooks, weather, body);
  if (before != NULL && strcmp (before->body, body) == 0)
    {
      preview->outlook_fate = FR_WEATHER_SAME;
      return;
    }
  after = (FrOutlook *)(before != NULL ? fr_record_copy (&before->record) : fr_record_new (FR_KIND_OUTLOOK));
  after->station = preview->station_before != NULL ? preview->station_before->record.id : 1;
  after->issued_utc = weather->has_issued ? weather->issued_utc : fetched_utc;
  after->fetched_utc = fetched_utc;
  g_free (after->body);
  after->body = g_steal_pointer (&body);
  preview->outlook_after = after;
  preview->outlook_fate = before != NULL ? FR_WEATHER_CHANGES : FR_WEATHER_NEW;
  if (first_problem (&after->record, &preview->outlook_problem))
    preview->outlook_fate = FR_WEATHER_UNKEPT;
}

/* --- the whole --- */

static void
row_clear (gpointer data)
{
  FrWeatherRow *row = data;

  fr_record_free ((FrRecord *)row->after);
}

FrWeatherPreview *
fr_weather_preview (const FrWeather *weather, const FrStation *station, const char *name, const GPtrArray *station_days,
                    const GPtrArray *outlooks, gint64 fetched_utc)
{
  g_return_val_if_fail (weather != NULL, NULL);

  FrWeatherPreview *preview = g_new0 (FrWeatherPreview, 1);

  preview->rows = g_array_new (FALSE, FALSE, sizeof (FrWeatherRow));
  g_array_set_clear_func (preview->rows, row_clear);
  preview_station (preview, weather, station, name);
  preview_days (preview, weather, station_days);
  preview_outlook (preview, weather, outlooks, fetched_utc);
  return preview;
}

void
fr_weather_preview_free (FrWeatherPreview *preview)
{
  if (preview == NULL)
    return;
  g_array_unref (preview->rows);
  fr_record_free ((FrRecord *)preview->station_after);
  fr_record_free ((FrRecord *)preview->outlook_after);
  g_free (preview);
}

gboolean
fr_weather_span (const FrWeather *weather, gint64 fetched_utc, FrRecordSpan *span_out)
{
  const GArray *days = weather->days, *hours = weather->hours;

  *span_out = (FrRecordSpan){ fetched_utc, fetched_utc + 1, fr_date_from_days (0), fr_date_from_days (0) };
  if (days->len > 0)
    {
      span_out->first = g_array_index (days, FrWeatherDay, 0).date;
      span_out->last = g_array_index (days, FrWeatherDay, days->len - 1).date;
      if (!weather->has_issued)
        span_out->from_utc = MIN (fetched_utc, (fr_date_to_days (span_out->first) - MADE_BEFORE_DAYS) * DAY_S);
    }
  if (weather->has_issued)
    {
      span_out->from_utc = weather->issued_utc;
      span_out->to_utc = weather->issued_utc + 1;
    }
  else if (hours->len > 0)
    span_out->from_utc
        = MIN (span_out->from_utc, g_array_index (hours, FrWeatherHour, 0).utc_s - MADE_BEFORE_DAYS * DAY_S);
  return days->len > 0 || hours->len > 0;
}

gboolean
fr_weather_preview_is_kept (const FrWeatherPreview *preview)
{
  return preview->n[FR_WEATHER_UNKEPT] == 0 && preview->station_fate != FR_WEATHER_UNKEPT
         && preview->outlook_fate != FR_WEATHER_UNKEPT;
}

gint64
fr_weather_slot_utc (gint64 utc_s)
{
  gint64 into_s = utc_s % SLOT_S;

  return utc_s - (into_s < 0 ? into_s + SLOT_S : into_s);
}

void
fr_weather_preview_thin (FrWeatherPreview *preview, const GPtrArray *outlooks)
{
  FrOutlook *after = preview->outlook_after;

  if (preview->outlook_fate != FR_WEATHER_NEW || preview->station_before == NULL)
    return;
  for (guint i = 0; outlooks != NULL && i < outlooks->len; i++)
    {
      const FrOutlook *outlook = outlooks->pdata[i];

      if (outlook->record.archived || outlook->station != preview->station_before->record.id
          || outlook->issued_utc > after->issued_utc
          || fr_weather_slot_utc (outlook->issued_utc) != fr_weather_slot_utc (after->issued_utc))
        continue;
      preview->outlook_before = outlook;
      preview->outlook_fate = FR_WEATHER_CHANGES;
      after->record.id = outlook->record.id;
      g_strlcpy (after->record.uid, outlook->record.uid, sizeof after->record.uid);
    }
}

static gboolean
comes_in (FrWeatherFate fate)
{
  return fate == FR_WEATHER_NEW || fate == FR_WEATHER_CHANGES;
}

/* A record that is new gets number, identity and source. */
static void
add (FrChange *change, const FrRecord *before, const FrRecord *after, gint64 *next_id, gint64 station_id,
     void (*new_uid) (char uid_out[33]))
{
  g_autoptr (FrRecord) record = fr_record_copy (after);
  const FrField *station = fr_kind_field (record->kind, "station");

  if (before == NULL)
    {
      record->id = (*next_id)++;
      new_uid (record->uid);
      if (station != NULL)
        fr_record_set_int (record, station, station_id);
    }
  fr_change_add (change, before, record);
}

FrChange *
fr_weather_preview_change (const FrWeatherPreview *preview, const char *label, const char *subject,
                           const gint64 next_ids[FR_N_KINDS], void (*new_uid) (char uid_out[33]))
{
  FrChange *change = fr_change_new (label, subject);
  gint64 station_id = next_ids[FR_KIND_STATION], next_station = station_id;
  gint64 next_day = next_ids[FR_KIND_STATION_DAY], next_outlook = next_ids[FR_KIND_OUTLOOK];
  const gboolean has_outlook = comes_in (preview->outlook_fate);
  const gboolean has_any = preview->n[FR_WEATHER_NEW] + preview->n[FR_WEATHER_CHANGES] > 0 || has_outlook;

  if (preview->station_fate == FR_WEATHER_UNKEPT || (preview->station_fate == FR_WEATHER_NEW && !has_any))
    return change;
  if (preview->station_before != NULL)
    station_id = preview->station_before->record.id;
  add (change, (const FrRecord *)preview->station_before, &preview->station_after->record, &next_station, 0, new_uid);
  for (guint i = 0; i < preview->rows->len; i++)
    {
      const FrWeatherRow *row = &g_array_index (preview->rows, FrWeatherRow, i);

      if (comes_in (row->fate))
        add (change, (const FrRecord *)row->before, &row->after->record, &next_day, station_id, new_uid);
    }
  if (has_outlook)
    add (change, (const FrRecord *)preview->outlook_before, &preview->outlook_after->record, &next_outlook, station_id,
         new_uid);
  return change;
}
