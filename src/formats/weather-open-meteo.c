/* Open-Meteo: parallel lists under "hourly" and "daily", null where there is no value, units beside them. Times have no offset: they are
 * the clock of utc_offset_seconds, the same for the whole answer, or with timeformat=unixtime seconds. All of it comes from models, past
 * days too, and is called a forecast. */
#include "formats/weather-answer.h"

#include "formats/csv-time.h"
#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define HOUR_S 3600
#define OFFSET_MAX_S (18 * 3600)
#define UNIX_MAX_S 32503680000.0 /* the year 3000 */

typedef struct
{
  FrInput lists, units;
  JsonArray *times;
  guint n;
  gint offset_s;
} Block;

static gboolean
open_block (const FrInput *root, const char *name, gint offset_s, Block *block)
{
  g_autofree char *units = g_strdup_printf ("%s_units", name);

  *block = (Block){ .offset_s = offset_s };
  if (!fr_input_object (root, name, FR_INPUT_OPTIONAL, NULL, &block->lists))
    return FALSE;
  fr_input_object (root, units, FR_INPUT_OPTIONAL, NULL, &block->units);
  block->times = fr_input_array (&block->lists, "time", FR_INPUT_REQUIRED, 0, FR_WEATHER_VALUES_MAX);
  block->n = block->times != NULL ? json_array_get_length (block->times) : 0;
  return block->times != NULL;
}

/* Local date and second of day; a plain date has 0. */
static gboolean
read_time (const Block *block, guint index, FrDate *date_out, gint *second_out)
{
  JsonNode *node = json_array_get_element (block->times, index);
  g_autofree char *path = g_strdup_printf ("time[%u]", index);
  gboolean has_offset = FALSE;
  gint offset_s;

  *second_out = 0;
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_DOUBLE)
    {
      double value = fr_input_array_number (&block->lists, block->times, index, path, -UNIX_MAX_S, UNIX_MAX_S);
      gint64 local_s = (gint64)floor (value) + block->offset_s, days;

      if (isnan (value))
        return FALSE;
      days = local_s >= 0 ? local_s / 86400 : -((86399 - local_s) / 86400);
      *date_out = fr_date_from_days (days);
      *second_out = (gint)(local_s - days * 86400);
      return TRUE;
    }
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING
      && fr_csv_read_date (json_node_get_string (node), date_out, second_out, &offset_s, &has_offset) && !has_offset)
    return TRUE;
  return fr_input_fail (&block->lists, path, "%s", _ ("must be a local time without an offset, such as 2026-03-10T00:00, or seconds since 1970"));
}

/* The list @key, as long as the times; NULL when absent, or with the sentence. */
static JsonArray *
list_of (const Block *block, const char *key)
{
  return fr_input_has (&block->lists, key) ? fr_input_array (&block->lists, key, FR_INPUT_REQUIRED, block->n, block->n) : NULL;
}

static double
value_at (const Block *block, JsonArray *list, const char *key, guint index, double min, double max)
{
  g_autofree char *path = NULL;

  if (list == NULL || *block->lists.error != NULL || JSON_NODE_HOLDS_NULL (json_array_get_element (list, index)))
    return NAN;
  path = g_strdup_printf ("%s[%u]", key, index);
  return fr_input_array_number (&block->lists, list, index, path, min, max);
}

static double
temp_at (const Block *block, JsonArray *list, const char *key, FrWeatherUnit unit, guint index)
{
  const gboolean is_f = unit == FR_WEATHER_UNIT_F;

  return fr_weather_unit_to_inner (value_at (block, list, key, index, is_f ? 32 - 1.8 * FR_WEATHER_TEMP_MAX_C : -FR_WEATHER_TEMP_MAX_C,
                                             is_f ? 32 + 1.8 * FR_WEATHER_TEMP_MAX_C : FR_WEATHER_TEMP_MAX_C),
                                   unit);
}

/* "mm", "inch"; mm when it is not said. */
static FrWeatherUnit
amount_unit (const Block *block, const char *key)
{
  const char *text = fr_input_string (&block->units, key, FR_INPUT_OPTIONAL, _ ("a unit"));
  FrWeatherUnit unit = FR_WEATHER_UNIT_MM;

  if (text != NULL && !fr_weather_unit_from_word (text, &unit))
    fr_input_fail (&block->units, key, "%s", _ ("is no unit that is known; mm and inch are"));
  return unit;
}

static gboolean
read_hours (const Block *block, FrWeather *weather)
{
  JsonArray *temps = list_of (block, "temperature_2m");
  FrWeatherUnit unit;

  if (!fr_weather_input_degrees (&block->units, "temperature_2m", &unit))
    return FALSE;
  for (guint i = 0; temps != NULL && i < block->n; i++)
    {
      FrWeatherHour hour = { .span_s = HOUR_S, .is_forecast = TRUE };
      FrDate date;
      gint second;

      if (!read_time (block, i, &date, &second))
        return FALSE;
      hour.utc_s = fr_date_to_days (date) * 86400 + second - block->offset_s;
      hour.temp_c = temp_at (block, temps, "temperature_2m", unit, i);
      g_array_append_val (weather->hours, hour);
    }
  return *block->lists.error == NULL;
}

static gboolean
read_days (const Block *block, FrWeather *weather)
{
  JsonArray *lows = list_of (block, "temperature_2m_min"), *highs = list_of (block, "temperature_2m_max"),
            *rains = list_of (block, "precipitation_sum"), *suns = list_of (block, "shortwave_radiation_sum");
  FrWeatherUnit low_unit, high_unit, rain_unit = amount_unit (block, "precipitation_sum");

  if (!fr_weather_input_degrees (&block->units, "temperature_2m_min", &low_unit)
      || !fr_weather_input_degrees (&block->units, "temperature_2m_max", &high_unit))
    return FALSE;
  for (guint i = 0; (lows != NULL || highs != NULL) && i < block->n; i++)
    {
      FrWeatherDay day = fr_weather_day ((FrDate){ 0 });
      gint second;

      if (!read_time (block, i, &day.date, &second))
        return FALSE;
      day.is_forecast = TRUE;
      day.low_c = temp_at (block, lows, "temperature_2m_min", low_unit, i);
      day.high_c = temp_at (block, highs, "temperature_2m_max", high_unit, i);
      day.low_mark = isnan (day.low_c) ? FR_WEATHER_ABSENT : FR_WEATHER_PLAIN;
      day.high_mark = isnan (day.high_c) ? FR_WEATHER_ABSENT : FR_WEATHER_PLAIN;
      day.rain_m = fr_weather_unit_to_inner (value_at (block, rains, "precipitation_sum", i, 0, 2000), rain_unit);
      day.sun_j_per_m2 = value_at (block, suns, "shortwave_radiation_sum", i, 0, 60) * 1e6;
      g_array_append_val (weather->days, day);
    }
  return *block->lists.error == NULL;
}

FrWeather *
fr_open_meteo_read (const FrInput *root)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_OPEN_METEO);
  double offset_s = fr_input_number (root, "utc_offset_seconds", FR_INPUT_OPTIONAL, -OFFSET_MAX_S, OFFSET_MAX_S);
  Block block;

  weather->latitude_deg = fr_input_number (root, "latitude", FR_INPUT_OPTIONAL, -90, 90);
  weather->longitude_deg = fr_input_number (root, "longitude", FR_INPUT_OPTIONAL, -180, 180);
  weather->altitude_m = fr_input_number (root, "elevation", FR_INPUT_OPTIONAL, -500, 9000);
  if (open_block (root, "hourly", isnan (offset_s) ? 0 : (gint)offset_s, &block) && !read_hours (&block, weather))
    return NULL;
  if (open_block (root, "daily", isnan (offset_s) ? 0 : (gint)offset_s, &block) && !read_days (&block, weather))
    return NULL;
  if (*root->error != NULL)
    return NULL;
  if (weather->days->len == 0 && weather->hours->len == 0)
    {
      fr_weather_wrong (root->error, "%s",
                        _ ("the answer has neither hourly temperature_2m nor daily temperature_2m_min and temperature_2m_max; ask for them"));
      return NULL;
    }
  weather->attribution = g_strdup (_ ("Weather data by Open-Meteo.com, CC BY 4.0"));
  return g_steal_pointer (&weather);
}
