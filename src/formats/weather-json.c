/* Weather into JSON: what it is and how much of it there is first, then every day and hour. */
#include "formats/weather-json.h"

#include "formats/json-output.h"

#include <math.h>

static void
put_date (FrOutput *out, const char *key, FrDate date)
{
  g_autofree char *iso = fr_date_to_iso (date);

  fr_output_string (out, key, iso);
}

static void
put_string (FrOutput *out, const char *key, const char *text)
{
  if (text != NULL)
    fr_output_string (out, key, text);
  else
    fr_output_null (out, key);
}

static void
put_counts (FrOutput *out, const FrWeather *weather)
{
  const guint n_days = weather->days->len, n_hours = weather->hours->len;
  guint n_unknown = 0;

  for (guint i = 0; i < n_hours; i++)
    n_unknown += isnan (g_array_index (weather->hours, FrWeatherHour, i).temp_c);
  fr_output_object (out, "counts");
  fr_output_number (out, "days", n_days);
  fr_output_number (out, "hours", n_hours);
  fr_output_number (out, "hours_absent", n_unknown);
  fr_output_number (out, "absent", weather->n_absent);
  fr_output_number (out, "estimated", weather->n_estimated);
  fr_output_number (out, "refused", weather->n_refused);
  fr_output_number (out, "trace", weather->n_trace);
  fr_output_number (out, "duplicates", weather->n_duplicates);
  fr_output_end_object (out);
  if (n_days > 0)
    {
      put_date (out, "first_day", g_array_index (weather->days, FrWeatherDay, 0).date);
      put_date (out, "last_day", g_array_index (weather->days, FrWeatherDay, n_days - 1).date);
    }
  else
    {
      fr_output_null (out, "first_day");
      fr_output_null (out, "last_day");
    }
  fr_output_instant (out, "first_hour", n_hours > 0 ? g_array_index (weather->hours, FrWeatherHour, 0).utc_s : G_MININT64);
  fr_output_instant (out, "last_hour",
                     n_hours > 0 ? g_array_index (weather->hours, FrWeatherHour, n_hours - 1).utc_s : G_MININT64);
}

static void
put_gaps (FrOutput *out, const FrWeather *weather)
{
  g_autoptr (GArray) gaps = fr_weather_gaps (weather);

  fr_output_array (out, "gaps");
  for (guint i = 0; i < gaps->len; i++)
    {
      const FrWeatherGap *gap = &g_array_index (gaps, FrWeatherGap, i);

      fr_output_object (out, NULL);
      put_date (out, "before", gap->before);
      put_date (out, "after", gap->after);
      fr_output_number (out, "days", gap->n_days);
      fr_output_end_object (out);
    }
  fr_output_end_array (out);
}

static void
put_days (FrOutput *out, const FrWeather *weather)
{
  fr_output_array (out, "days");
  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);

      fr_output_object (out, NULL);
      put_date (out, "date", day->date);
      fr_output_number (out, "low_c", day->low_c);
      fr_output_number (out, "high_c", day->high_c);
      fr_output_number (out, "rain_m", day->rain_m);
      fr_output_number (out, "snow_m", day->snow_m);
      fr_output_number (out, "sun_j_per_m2", day->sun_j_per_m2);
      fr_output_string (out, "low_mark", fr_weather_mark_code (day->low_mark));
      fr_output_string (out, "high_mark", fr_weather_mark_code (day->high_mark));
      fr_output_boolean (out, "is_forecast", day->is_forecast);
      fr_output_end_object (out);
    }
  fr_output_end_array (out);
}

static void
put_hours (FrOutput *out, const FrWeather *weather)
{
  fr_output_array (out, "hours");
  for (guint i = 0; i < weather->hours->len; i++)
    {
      const FrWeatherHour *hour = &g_array_index (weather->hours, FrWeatherHour, i);

      fr_output_object (out, NULL);
      fr_output_instant (out, "at", hour->utc_s);
      fr_output_number (out, "span_s", hour->span_s);
      fr_output_number (out, "temp_c", hour->temp_c);
      fr_output_boolean (out, "is_forecast", hour->is_forecast);
      fr_output_end_object (out);
    }
  fr_output_end_array (out);
}

static void
put_columns (FrOutput *out, const GPtrArray *found)
{
  if (found == NULL)
    {
      fr_output_null (out, "columns");
      return;
    }
  fr_output_array (out, "columns");
  for (guint i = 0; i < found->len; i++)
    {
      const FrWeatherFound *one = found->pdata[i];

      fr_output_object (out, NULL);
      fr_output_string (out, "name", one->name);
      fr_output_string (out, "use", fr_weather_column_code (one->use));
      put_string (out, "unit", one->unit != FR_WEATHER_UNIT_UNTOLD ? fr_weather_unit_code (one->unit) : NULL);
      fr_output_boolean (out, "is_unit_told", one->is_unit_told);
      fr_output_boolean (out, "is_mark", one->is_mark);
      fr_output_end_object (out);
    }
  fr_output_end_array (out);
}

char *
fr_weather_to_json (const FrWeather *weather, const GPtrArray *found)
{
  FrOutput out;

  fr_output_init (&out);
  fr_output_object (&out, NULL);
  fr_output_string (&out, "format", fr_weather_format_code (weather->format));
  put_string (&out, "place", weather->place_name);
  put_string (&out, "station", weather->station);
  put_string (&out, "attribution", weather->attribution);
  fr_output_number (&out, "latitude_deg", weather->latitude_deg);
  fr_output_number (&out, "longitude_deg", weather->longitude_deg);
  fr_output_number (&out, "altitude_m", weather->altitude_m);
  fr_output_instant (&out, "issued", weather->has_issued ? weather->issued_utc : G_MININT64);
  if (weather->reading_minute >= 0)
    fr_output_number (&out, "reading_minute", weather->reading_minute);
  else
    fr_output_null (&out, "reading_minute");
  put_string (&out, "next_link", weather->next_link);
  put_counts (&out, weather);
  put_columns (&out, found);
  put_gaps (&out, weather);
  put_days (&out, weather);
  put_hours (&out, weather);
  fr_output_end_object (&out);
  return fr_output_finish (&out);
}
