/* US National Weather Service, api.weather.gov. A gridpoint's layers have values that each hold for a time written as start "/" ISO 8601
 * duration; the temperature is laid out over its hours. The layers of daily extremes have spans of half a day that reach over midnight
 * in UTC: a day's date is that of their middle on the place's clock, so without a zone they are left. A point's answer has no
 * weather; it tells where the gridpoint's is. */
#include "formats/weather-answer.h"

#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define HOUR_S 3600
#define SPAN_MAX_S (60 * 86400)
#define VALUES_MAX 5000
#define HOURS_MAX 20000

/* "P1DT6H": weeks, days, hours, minutes and seconds. Months and years have no fixed length. */
static gboolean
read_duration (const char *text, gint64 *span_s_out)
{
  static const char date_units[] = "WD", time_units[] = "HMS";
  static const gint date_s[] = { 604800, 86400 }, time_s[] = { 3600, 60, 1 };
  const char *units = date_units, *mark;
  const gint *seconds = date_s;

  *span_s_out = 0;
  if (*text++ != 'P' || *text == '\0')
    return FALSE;
  while (*text != '\0')
    {
      gint64 n = 0;
      gsize digits;

      if (*text == 'T' && units == date_units)
        {
          units = time_units;
          seconds = time_s;
          text++;
        }
      digits = strspn (text, "0123456789");
      for (gsize i = 0; i < digits && i < 7; i++)
        n = n * 10 + (text[i] - '0');
      mark = digits > 0 && digits < 7 && text[digits] != '\0' ? strchr (units, text[digits]) : NULL;
      if (mark == NULL)
        return FALSE;
      *span_s_out += n * seconds[mark - units];
      text += digits + 1;
    }
  return *span_s_out > 0 && *span_s_out <= SPAN_MAX_S;
}

static gboolean
read_valid_time (const FrInput *value, gint64 *from_out, gint64 *span_s_out)
{
  const char *text = fr_input_string (value, "validTime", FR_INPUT_REQUIRED, _ ("a time and a duration such as 2026-03-10T12:00:00+00:00/PT2H")),
             *slash = text != NULL ? strchr (text, '/') : NULL;
  g_autofree char *start = slash != NULL ? g_strndup (text, (gsize)(slash - text)) : NULL, *quoted = NULL;

  if (text == NULL)
    return FALSE;
  if (start != NULL && fr_weather_read_instant (start, from_out) && read_duration (slash + 1, span_s_out))
    return TRUE;
  quoted = fr_json_quote (text);
  return fr_input_fail (value, "validTime", _ ("is “%s”; it must be a time and a duration of up to 60 days such as 2026-03-10T12:00:00+00:00/PT2H"), quoted);
}

/* A layer's values one after the other; FALSE with the sentence. */
static gboolean
walk_layer (const FrInput *properties, const char *name, FrInputNeed need, const FrWeatherColumns *choice, FrWeather *weather,
            gboolean (*take) (const FrInput *value, const FrWeatherColumns *choice, gint64 from_utc, gint64 span_s, double temp_c, FrWeather *weather))
{
  FrInput layer, value;
  FrWeatherUnit unit;
  JsonArray *values;

  if (!fr_input_object (properties, name, need, NULL, &layer))
    return *properties->error == NULL;
  if (!fr_weather_input_degrees (&layer, "uom", &unit))
    return FALSE;
  values = fr_input_array (&layer, "values", FR_INPUT_REQUIRED, 0, VALUES_MAX);
  for (guint i = 0; values != NULL && i < json_array_get_length (values); i++)
    {
      gint64 from_utc = 0, span_s = 0;
      double temp_c;

      if (!fr_input_element (&layer, "values", values, i, NULL, &value) || !read_valid_time (&value, &from_utc, &span_s))
        return FALSE;
      temp_c = fr_weather_input_temp_c (&value, "value", unit);
      if (*properties->error != NULL || !take (&value, choice, from_utc, span_s, temp_c, weather))
        return FALSE;
    }
  return *properties->error == NULL;
}

static gboolean
take_hours (const FrInput *value, const FrWeatherColumns *choice, gint64 from_utc, gint64 span_s, double temp_c, FrWeather *weather)
{
  for (gint64 at_s = 0; at_s < span_s; at_s += HOUR_S)
    {
      FrWeatherHour hour = { from_utc + at_s, (gint)MIN (HOUR_S, span_s - at_s), temp_c, TRUE };

      g_array_append_val (weather->hours, hour);
    }
  if (weather->hours->len > HOURS_MAX)
    return fr_input_fail (value, "validTime", _ ("brings the hours over %d"), HOURS_MAX);
  return TRUE;
}

static FrWeatherDay *
day_of (FrWeather *weather, FrDate date)
{
  FrWeatherDay day = fr_weather_day (date);

  for (guint i = 0; i < weather->days->len; i++)
    if (fr_date_compare (g_array_index (weather->days, FrWeatherDay, i).date, date) == 0)
      return &g_array_index (weather->days, FrWeatherDay, i);
  day.is_forecast = TRUE;
  g_array_append_val (weather->days, day);
  return &g_array_index (weather->days, FrWeatherDay, weather->days->len - 1);
}

static void
take_extreme (const FrWeatherColumns *choice, gint64 from_utc, gint64 span_s, double temp_c, gboolean is_low, FrWeather *weather)
{
  FrWeatherDay *day;
  double *place;

  if (choice == NULL || choice->zone == NULL || isnan (temp_c))
    return;
  day = day_of (weather, fr_zone_local (choice->zone, from_utc + span_s / 2).date);
  place = is_low ? &day->low_c : &day->high_c;
  weather->n_duplicates += !isnan (*place);
  *place = temp_c;
  *(is_low ? &day->low_mark : &day->high_mark) = FR_WEATHER_PLAIN;
}

static gboolean
take_low (const FrInput *value, const FrWeatherColumns *choice, gint64 from_utc, gint64 span_s, double temp_c, FrWeather *weather)
{
  take_extreme (choice, from_utc, span_s, temp_c, TRUE, weather);
  return TRUE;
}

static gboolean
take_high (const FrInput *value, const FrWeatherColumns *choice, gint64 from_utc, gint64 span_s, double temp_c, FrWeather *weather)
{
  take_extreme (choice, from_utc, span_s, temp_c, FALSE, weather);
  return TRUE;
}

/* A number of the grid, which is written as a number or as text. Free it. */
static char *
grid_number (JsonObject *object, const char *key)
{
  JsonNode *node = json_object_get_member (object, key);

  if (node == NULL || !JSON_NODE_HOLDS_VALUE (node))
    return g_strdup ("?");
  if (json_node_get_value_type (node) == G_TYPE_STRING)
    return fr_json_quote (json_node_get_string (node));
  return json_node_get_value_type (node) == G_TYPE_DOUBLE ? fr_input_number_text (json_node_get_double (node)) : g_strdup ("?");
}

static void
read_grid_name (const FrInput *properties, FrWeather *weather)
{
  const char *office = fr_input_string (properties, "gridId", FR_INPUT_OPTIONAL, _ ("the code of an office"));
  g_autofree char *x = grid_number (properties->object, "gridX"), *y = grid_number (properties->object, "gridY");

  if (office != NULL)
    weather->station = g_strdup_printf ("%s/%s,%s", office, x, y);
}

/* The middle of a polygon's first ring. */
static void
read_polygon (const FrInput *root, FrWeather *weather)
{
  double lo[2] = { INFINITY, INFINITY }, hi[2] = { -INFINITY, -INFINITY };
  FrInput geometry;
  JsonArray *rings, *ring;
  JsonNode *node;

  if (!fr_input_object (root, "geometry", FR_INPUT_OPTIONAL, NULL, &geometry)
      || g_strcmp0 (fr_input_string (&geometry, "type", FR_INPUT_OPTIONAL, _ ("a kind of geometry")), "Polygon") != 0
      || (rings = fr_input_array (&geometry, "coordinates", FR_INPUT_REQUIRED, 1, 100)) == NULL)
    return;
  node = json_array_get_element (rings, 0);
  ring = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  for (guint i = 0; ring != NULL && i < json_array_get_length (ring); i++)
    {
      JsonNode *corner = json_array_get_element (ring, i);
      JsonArray *place = JSON_NODE_HOLDS_ARRAY (corner) ? json_node_get_array (corner) : NULL;

      for (guint k = 0; place != NULL && json_array_get_length (place) >= 2 && k < 2 && *root->error == NULL; k++)
        {
          double deg = fr_input_array_number (&geometry, place, k, "coordinates", k == 0 ? -180 : -90, k == 0 ? 180 : 90);

          lo[k] = MIN (lo[k], deg);
          hi[k] = MAX (hi[k], deg);
        }
    }
  if (isfinite (lo[0]) && isfinite (lo[1]) && *root->error == NULL)
    {
      weather->longitude_deg = (lo[0] + hi[0]) / 2;
      weather->latitude_deg = (lo[1] + hi[1]) / 2;
    }
}

FrWeather *
fr_nws_grid_read (const FrInput *root, const FrWeatherColumns *choice)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_NWS_GRID);
  FrInput properties, elevation;

  read_polygon (root, weather);
  if (!fr_input_object (root, "properties", FR_INPUT_REQUIRED, NULL, &properties))
    return NULL;
  read_grid_name (&properties, weather);
  weather->has_issued = fr_input_has (&properties, "updateTime") && fr_weather_input_instant (&properties, "updateTime", &weather->issued_utc);
  if (fr_input_object (&properties, "elevation", FR_INPUT_OPTIONAL, NULL, &elevation))
    weather->altitude_m = fr_input_number (&elevation, "value", FR_INPUT_OPTIONAL, -500, 9000);
  if (!walk_layer (&properties, "temperature", FR_INPUT_REQUIRED, choice, weather, take_hours)
      || !walk_layer (&properties, "minTemperature", FR_INPUT_OPTIONAL, choice, weather, take_low)
      || !walk_layer (&properties, "maxTemperature", FR_INPUT_OPTIONAL, choice, weather, take_high))
    return NULL;
  weather->attribution = g_strdup (_ ("US National Weather Service"));
  return g_steal_pointer (&weather);
}

FrWeather *
fr_nws_point_read (const FrInput *root)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_NWS_POINT);
  FrInput properties;

  fr_weather_input_point (root, weather);
  if (!fr_input_object (root, "properties", FR_INPUT_REQUIRED, NULL, &properties))
    return NULL;
  read_grid_name (&properties, weather);
  weather->next_link = g_strdup (fr_input_string (&properties, "forecastGridData", FR_INPUT_REQUIRED, _ ("an address")));
  weather->attribution = g_strdup (_ ("US National Weather Service"));
  return *root->error == NULL ? g_steal_pointer (&weather) : NULL;
}
