/* MET Norway, Locationforecast 2.0 compact: a GeoJSON feature whose properties.timeseries has an entry an hour for two or three days and
 * then one every six hours. Temperatures are those of the moment; next_1_hours, next_6_hours and next_12_hours each may be missing. */
#include "formats/weather-answer.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define HOUR_S 3600
#define SIX_HOURS_S 21600
#define ENTRIES_MAX 5000

static gboolean
read_entry (const FrInput *entry, FrWeatherUnit unit, FrWeather *weather)
{
  FrInput data, instant, details;
  FrWeatherHour hour = { .is_forecast = TRUE, .temp_c = NAN };

  if (!fr_weather_input_instant (entry, "time", &hour.utc_s) || !fr_input_object (entry, "data", FR_INPUT_REQUIRED, NULL, &data)
      || !fr_input_object (&data, "instant", FR_INPUT_REQUIRED, NULL, &instant))
    return FALSE;
  if (fr_input_object (&instant, "details", FR_INPUT_OPTIONAL, NULL, &details))
    hour.temp_c = fr_weather_input_temp_c (&details, "air_temperature", unit);
  hour.span_s = fr_input_has (&data, "next_1_hours") ? HOUR_S : SIX_HOURS_S;
  g_array_append_val (weather->hours, hour);
  return *entry->error == NULL;
}

/* An entry that does not tell of the next hour, but is followed within six, lasts until then. */
static void
shorten_spans (GArray *hours)
{
  for (guint i = 0; i + 1 < hours->len; i++)
    {
      FrWeatherHour *hour = &g_array_index (hours, FrWeatherHour, i);
      gint64 apart_s = g_array_index (hours, FrWeatherHour, i + 1).utc_s - hour->utc_s;

      hour->span_s = (gint)MIN (hour->span_s, apart_s);
    }
}

FrWeather *
fr_met_read (const FrInput *root)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_MET_COMPACT);
  FrInput properties, meta, units;
  FrWeatherUnit unit = FR_WEATHER_UNIT_C;
  JsonArray *entries;

  fr_weather_input_point (root, weather);
  if (!fr_input_object (root, "properties", FR_INPUT_REQUIRED, NULL, &properties))
    return NULL;
  if (fr_input_object (&properties, "meta", FR_INPUT_OPTIONAL, NULL, &meta))
    {
      weather->has_issued = fr_input_has (&meta, "updated_at") && fr_weather_input_instant (&meta, "updated_at", &weather->issued_utc);
      if (fr_input_object (&meta, "units", FR_INPUT_OPTIONAL, NULL, &units)
          && !fr_weather_input_degrees (&units, "air_temperature", &unit))
        return NULL;
    }
  entries = fr_input_array (&properties, "timeseries", FR_INPUT_REQUIRED, 1, ENTRIES_MAX);
  for (guint i = 0; entries != NULL && i < json_array_get_length (entries); i++)
    {
      FrInput entry;

      if (!fr_input_element (&properties, "timeseries", entries, i, NULL, &entry) || !read_entry (&entry, unit, weather))
        return NULL;
    }
  if (*root->error != NULL)
    return NULL;
  weather->n_duplicates = fr_weather_sort (weather);
  shorten_spans (weather->hours);
  weather->attribution = g_strdup (_ ("Data from MET Norway, CC BY 4.0"));
  return g_steal_pointer (&weather);
}
