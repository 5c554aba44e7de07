/* From records to series. The codes of marks are the names of FrWeatherMark, so that nothing is lost between the two. */
#include "domain/plan/book-weather.h"

#include "domain/records/outlook-text.h"

#include <math.h>
#include <string.h>

const char *const fr_own_day_fields[] = { "day", "low_c", "high_c", "expected", "rain_m", NULL };
const char *const fr_station_day_fields[]
    = { "station", "day", "low_c", "high_c", "rain_m", "snow_m", "sun_j_per_m2", "low_mark", "high_mark", NULL };

static const struct
{
  FrWeatherFormat format;
  const char *source;
} services[] = { { FR_WEATHER_MET_COMPACT, "met-norway" },
                 { FR_WEATHER_NWS_GRID, "nws" },
                 { FR_WEATHER_NWS_POINT, "nws" },
                 { FR_WEATHER_OPEN_METEO, "open-meteo" },
                 { FR_WEATHER_OWN, "other" },
                 { FR_WEATHER_JOINED, "other" } };

const char *
fr_station_source_of (FrWeatherFormat format)
{
  for (guint i = 0; i < G_N_ELEMENTS (services); i++)
    if (services[i].format == format)
      return services[i].source;
  return "file";
}

FrWeatherFormat
fr_station_format (const FrStation *station)
{
  for (guint i = 0; i < G_N_ELEMENTS (services) && strcmp (station->source, "other") != 0; i++)
    if (strcmp (services[i].source, station->source) == 0)
      return services[i].format;
  return FR_WEATHER_CSV;
}

static const FrStation *
find_by (const GPtrArray *stations, const char *field, const char *text, guint *n_out)
{
  const FrStation *found = NULL;

  *n_out = 0;
  for (guint i = 0; stations != NULL && i < stations->len; i++)
    {
      const FrRecord *record = stations->pdata[i];

      if (record->archived || g_strcmp0 (fr_record_text (record, fr_kind_field (record->kind, field)), text) != 0)
        continue;
      found = found != NULL ? found : (const FrStation *)record;
      (*n_out)++;
    }
  return found;
}

const FrStation *
fr_station_find (const GPtrArray *stations, const char *text, guint *n_out)
{
  const FrStation *found = find_by (stations, "name", text, n_out);

  return found != NULL ? found : find_by (stations, "station_key", text, n_out);
}

FrWeather *
fr_station_weather_new (const FrStation *station)
{
  FrWeather *weather = fr_weather_new (fr_station_format (station));

  weather->place_name = g_strdup (station->name);
  weather->station = g_strdup (station->station_key);
  weather->attribution = g_strdup (station->attribution);
  weather->latitude_deg = station->latitude_deg.value;
  weather->longitude_deg = station->longitude_deg.value;
  weather->altitude_m = station->altitude_m.value;
  if (!isnan (station->reading_minute.value))
    weather->reading_minute = (gint)station->reading_minute.value;
  return weather;
}

static FrWeatherMark
mark_of (const char *code, double temp_c)
{
  for (FrWeatherMark mark = 0; mark < FR_N_WEATHER_MARKS; mark++)
    if (strcmp (fr_weather_mark_code (mark), code) == 0 && mark != FR_WEATHER_PLAIN)
      return mark;
  return isnan (temp_c) ? FR_WEATHER_ABSENT : FR_WEATHER_PLAIN;
}

static gboolean
begin_day (const FrRecord *record, const char *iso, FrWeatherDay *day_out)
{
  FrDate date;

  if (record->archived || iso == NULL || !fr_date_parse (iso, &date))
    return FALSE;
  *day_out = fr_weather_day (date);
  return TRUE;
}

static void
take_own (FrWeather *weather, const FrDay *own)
{
  FrWeatherDay day;

  if (!begin_day (&own->record, own->day, &day)
      || (isnan (own->low_c.value) && isnan (own->high_c.value) && isnan (own->rain_m.value)))
    return;
  day.low_c = own->low_c.value;
  day.high_c = own->high_c.value;
  day.rain_m = own->rain_m.value;
  day.low_mark = mark_of ("plain", day.low_c);
  day.high_mark = mark_of ("plain", day.high_c);
  day.is_forecast = own->expected;
  g_array_append_val (weather->days, day);
}

static void
take_station (FrWeather *weather, const FrStationDay *seen)
{
  FrWeatherDay day;

  if (!begin_day (&seen->record, seen->day, &day))
    return;
  day.low_c = seen->low_c.value;
  day.high_c = seen->high_c.value;
  day.rain_m = seen->rain_m.value;
  day.snow_m = seen->snow_m.value;
  day.sun_j_per_m2 = seen->sun_j_per_m2.value;
  day.low_mark = mark_of (seen->low_mark, day.low_c);
  day.high_mark = mark_of (seen->high_mark, day.high_c);
  weather->n_absent += (day.low_mark == FR_WEATHER_ABSENT) + (day.high_mark == FR_WEATHER_ABSENT);
  weather->n_estimated += (day.low_mark == FR_WEATHER_ESTIMATED) + (day.high_mark == FR_WEATHER_ESTIMATED);
  weather->n_refused += (day.low_mark == FR_WEATHER_REFUSED) + (day.high_mark == FR_WEATHER_REFUSED);
  g_array_append_val (weather->days, day);
}

void
fr_weather_take (const FrRecord *record, gpointer user_data)
{
  const FrWeatherTaking *taking = user_data;

  if (record->kind->id == FR_KIND_DAY && taking->station == 0)
    take_own (taking->weather, (const FrDay *)record);
  else if (record->kind->id == FR_KIND_STATION_DAY && ((const FrStationDay *)record)->station == taking->station)
    take_station (taking->weather, (const FrStationDay *)record);
}

static FrWeather *
take_all (FrWeather *weather, gint64 station, const GPtrArray *records)
{
  FrWeatherTaking taking = { weather, station };

  for (guint i = 0; records != NULL && i < records->len; i++)
    fr_weather_take (records->pdata[i], &taking);
  fr_weather_sort (weather);
  return weather;
}

FrWeather *
fr_own_weather (const GPtrArray *days)
{
  return take_all (fr_weather_new (FR_WEATHER_OWN), 0, days);
}

FrWeather *
fr_station_weather (const FrStation *station, const GPtrArray *station_days)
{
  g_return_val_if_fail (station != NULL, NULL);

  return take_all (fr_station_weather_new (station), station->record.id, station_days);
}

static gboolean
is_later (const FrOutlook *outlook, const FrOutlook *than)
{
  if (outlook->issued_utc != than->issued_utc)
    return outlook->issued_utc > than->issued_utc;
  return outlook->fetched_utc != than->fetched_utc ? outlook->fetched_utc > than->fetched_utc
                                                   : outlook->record.id > than->record.id;
}

const FrOutlook *
fr_latest_outlook (const GPtrArray *outlooks, gint64 station, gint64 until_utc)
{
  const FrOutlook *latest = NULL;

  for (guint i = 0; outlooks != NULL && i < outlooks->len; i++)
    {
      const FrOutlook *outlook = outlooks->pdata[i];

      if (!outlook->record.archived && outlook->issued_utc <= until_utc
          && (station == 0 || outlook->station == station) && (latest == NULL || is_later (outlook, latest)))
        latest = outlook;
    }
  return latest;
}

FrWeather *
fr_outlook_weather (const FrOutlook *outlook, const FrStation *station)
{
  g_return_val_if_fail (outlook != NULL, NULL);

  g_autoptr (FrWeather) told = fr_outlook_parse (outlook->body, NULL);
  FrWeather *weather;

  if (told == NULL || station == NULL)
    weather = g_steal_pointer (&told);
  else
    {
      weather = fr_station_weather_new (station);
      g_array_append_vals (weather->days, told->days->data, told->days->len);
      g_array_append_vals (weather->hours, told->hours->data, told->hours->len);
    }
  if (weather != NULL)
    {
      weather->has_issued = TRUE;
      weather->issued_utc = outlook->issued_utc;
    }
  return weather;
}
