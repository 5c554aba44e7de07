/* Which service's answer a JSON text is shows in its keys; complaints of services come as JSON too (RFC 7807, or a reason). */
#include "formats/weather-answer.h"

#include "formats/csv-time.h"
#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define COMPLAINT_MAX 300

gboolean
fr_weather_read_instant (const char *text, gint64 *utc_out)
{
  FrDate date;
  gint second = -1, offset_s = 0;
  gboolean has_offset = FALSE;

  if (!fr_csv_read_date (text, &date, &second, &offset_s, &has_offset) || second < 0 || !has_offset)
    return FALSE;
  *utc_out = fr_date_to_days (date) * 86400 + second - offset_s;
  return TRUE;
}

gboolean
fr_weather_input_instant (const FrInput *input, const char *key, gint64 *utc_out)
{
  const char *text = fr_input_string (input, key, FR_INPUT_REQUIRED, _ ("a time such as 2026-03-10T12:00:00Z"));
  g_autofree char *quoted = NULL;

  if (text == NULL)
    return FALSE;
  if (fr_weather_read_instant (text, utc_out))
    return TRUE;
  quoted = fr_json_quote (text);
  return fr_input_fail (input, key, _ ("is “%s”; it must be a time such as 2026-03-10T12:00:00Z"), quoted);
}

gboolean
fr_weather_input_degrees (const FrInput *input, const char *key, FrWeatherUnit *unit_out)
{
  const char *text = fr_input_string (input, key, FR_INPUT_OPTIONAL, _ ("a unit of temperature")), *bare;
  g_autofree char *low = NULL, *quoted = NULL;

  *unit_out = FR_WEATHER_UNIT_C;
  if (text == NULL)
    return *input->error == NULL;
  bare = strrchr (text, ':');
  low = g_utf8_strdown (bare != NULL ? bare + 1 : text, -1);
  if (fr_weather_unit_from_word (low, unit_out) && (*unit_out == FR_WEATHER_UNIT_C || *unit_out == FR_WEATHER_UNIT_F))
    return TRUE;
  quoted = fr_json_quote (text);
  return fr_input_fail (input, key, _ ("is “%s”; temperatures are read in °C or °F"), quoted);
}

double
fr_weather_input_temp_c (const FrInput *input, const char *key, FrWeatherUnit unit)
{
  const double most = unit == FR_WEATHER_UNIT_F ? FR_WEATHER_TEMP_MAX_C * 1.8 : FR_WEATHER_TEMP_MAX_C,
               freezing = unit == FR_WEATHER_UNIT_F ? 32 : 0;

  return fr_weather_unit_to_inner (fr_input_number (input, key, FR_INPUT_OPTIONAL, freezing - most, freezing + most), unit);
}

void
fr_weather_input_point (const FrInput *root, FrWeather *weather)
{
  FrInput geometry;
  JsonArray *place;

  if (!fr_input_object (root, "geometry", FR_INPUT_OPTIONAL, NULL, &geometry)
      || g_strcmp0 (fr_input_string (&geometry, "type", FR_INPUT_OPTIONAL, _ ("a kind of geometry")), "Point") != 0)
    return;
  place = fr_input_array (&geometry, "coordinates", FR_INPUT_REQUIRED, 2, 3);
  if (place == NULL)
    return;
  weather->longitude_deg = fr_input_array_number (&geometry, place, 0, "coordinates[0]", -180, 180);
  weather->latitude_deg = *root->error == NULL ? fr_input_array_number (&geometry, place, 1, "coordinates[1]", -90, 90) : NAN;
  if (*root->error == NULL && json_array_get_length (place) == 3)
    weather->altitude_m = fr_input_array_number (&geometry, place, 2, "coordinates[2]", -500, 9000);
}

/* --- which one --- */

static gboolean
is_text (JsonObject *object, const char *key)
{
  JsonNode *node = json_object_get_member (object, key);

  return node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING;
}

static gboolean
is_object (JsonObject *object, const char *key)
{
  JsonNode *node = json_object_get_member (object, key);

  return node != NULL && JSON_NODE_HOLDS_OBJECT (node);
}

/* What a service says, on one line and not without end. Free it; NULL when it says nothing. */
static char *
service_text (JsonObject *object, const char *key)
{
  const char *text = is_text (object, key) ? json_object_get_string_member (object, key) : NULL;
  GString *out;
  guint n = 0;

  if (text == NULL)
    return NULL;
  out = g_string_new (NULL);
  for (const char *p = text; *p != '\0' && n < COMPLAINT_MAX; p = g_utf8_next_char (p), n++)
    g_string_append_unichar (out, g_unichar_isprint (g_utf8_get_char (p)) ? g_utf8_get_char (p) : ' ');
  return g_string_free (out, FALSE);
}

/* FALSE with what the service says when the answer is a complaint. */
static gboolean
check_complaint (JsonObject *object, GError **error)
{
  g_autofree char *reason = service_text (object, "reason"), *title = service_text (object, "title"), *detail = service_text (object, "detail"),
                  *number = NULL;
  JsonNode *status = json_object_get_member (object, "status");

  if (reason != NULL && json_object_has_member (object, "error"))
    return fr_weather_wrong (error, _ ("the service gave no weather; it says: %s"), reason);
  if (title == NULL || status == NULL || json_object_has_member (object, "properties"))
    return TRUE;
  number = JSON_NODE_HOLDS_VALUE (status) && json_node_get_value_type (status) == G_TYPE_DOUBLE
               ? fr_input_number_text (json_node_get_double (status))
               : g_strdup ("–");
  return fr_weather_wrong (error, _ ("the service gave no weather; it says: %s (%s)%s%s"), title, number, detail != NULL ? ": " : "",
                           detail != NULL ? detail : "");
}

static FrWeather *
read_known (const FrInput *root, const FrWeatherColumns *choice)
{
  JsonObject *object = root->object, *properties = is_object (object, "properties") ? json_object_get_object_member (object, "properties") : NULL;

  if (properties != NULL && json_object_has_member (properties, "timeseries"))
    return fr_met_read (root);
  if (properties != NULL && json_object_has_member (properties, "forecastGridData"))
    return fr_nws_point_read (root);
  if (properties != NULL && json_object_has_member (properties, "validTimes"))
    return fr_nws_grid_read (root, choice);
  if (properties != NULL && json_object_has_member (properties, "periods"))
    fr_weather_wrong (root->error, "%s",
                      _ ("this is the National Weather Service's forecast by periods; its gridpoint answer is read, the one named by forecastGridData"));
  else if (is_object (object, "hourly") || is_object (object, "daily"))
    return fr_open_meteo_read (root);
  else
    fr_weather_wrong (root->error, "%s",
                      _ ("the JSON is of no weather service that is known: MET Norway compact, National Weather Service gridpoint and point, and Open-Meteo are"));
  return NULL;
}

FrWeather *
fr_weather_answer_read (const char *text, gsize length, const FrWeatherColumns *choice, GError **error)
{
  g_autoptr (JsonNode) node = fr_json_parse (text, length, error);
  GError *first = NULL;
  FrInput root;
  FrWeather *weather = NULL;

  if (node == NULL)
    return NULL;
  if (!JSON_NODE_HOLDS_OBJECT (node))
    {
      fr_weather_wrong (error, "%s", _ ("the JSON is no object in { }, as the answers of weather services are"));
      return NULL;
    }
  root = (FrInput){ json_node_get_object (node), "", &first };
  if (check_complaint (root.object, &first))
    weather = read_known (&root, choice);
  if (first != NULL)
    {
      g_clear_pointer (&weather, fr_weather_free);
      g_propagate_error (error, first);
      return NULL;
    }
  fr_weather_finish (weather);
  return weather;
}
