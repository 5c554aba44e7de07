/* Codes of columns and units, and a person's choice of columns written as one line. */
#include "formats/weather-private.h"

#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const use_codes[FR_N_WEATHER_COLUMNS] = { "none", "date", "time", "low", "high", "temp", "rain", "snow", "sun" };
static const char *const unit_codes[FR_N_WEATHER_UNITS] = { "", "c", "f", "mm", "cm", "m", "in", "mj", "kwh" };

/* Other ways to write a unit in a head. */
static const struct
{
  const char *word;
  FrWeatherUnit unit;
} unit_words[] = {
  { "°c", FR_WEATHER_UNIT_C },
  { "degc", FR_WEATHER_UNIT_C },
  { "celsius", FR_WEATHER_UNIT_C },
  { "°f", FR_WEATHER_UNIT_F },
  { "degf", FR_WEATHER_UNIT_F },
  { "fahrenheit", FR_WEATHER_UNIT_F },
  { "inch", FR_WEATHER_UNIT_IN },
  { "inches", FR_WEATHER_UNIT_IN },
};

const char *
fr_weather_column_code (FrWeatherColumn use)
{
  g_return_val_if_fail ((guint)use < FR_N_WEATHER_COLUMNS, NULL);
  return use_codes[use];
}

gboolean
fr_weather_column_from_code (const char *code, FrWeatherColumn *use_out)
{
  for (guint i = 0; i < FR_N_WEATHER_COLUMNS; i++)
    if (g_strcmp0 (code, use_codes[i]) == 0)
      {
        *use_out = i;
        return TRUE;
      }
  return FALSE;
}

const char *
fr_weather_unit_code (FrWeatherUnit unit)
{
  g_return_val_if_fail ((guint)unit < FR_N_WEATHER_UNITS, NULL);
  return unit_codes[unit];
}

guint
fr_weather_units_of (FrWeatherColumn use)
{
  switch (use)
    {
    case FR_WEATHER_COLUMN_LOW:
    case FR_WEATHER_COLUMN_HIGH:
    case FR_WEATHER_COLUMN_TEMP:
      return 1u << FR_WEATHER_UNIT_C | 1u << FR_WEATHER_UNIT_F;
    case FR_WEATHER_COLUMN_RAIN:
    case FR_WEATHER_COLUMN_SNOW:
      return 1u << FR_WEATHER_UNIT_MM | 1u << FR_WEATHER_UNIT_CM | 1u << FR_WEATHER_UNIT_M | 1u << FR_WEATHER_UNIT_IN;
    case FR_WEATHER_COLUMN_SUN:
      return 1u << FR_WEATHER_UNIT_MJ_PER_M2 | 1u << FR_WEATHER_UNIT_KWH_PER_M2;
    default:
      return 0;
    }
}

gboolean
fr_weather_unit_from_word (const char *word, FrWeatherUnit *unit_out)
{
  for (guint i = 1; i < FR_N_WEATHER_UNITS; i++)
    if (strcmp (unit_codes[i], word) == 0)
      {
        *unit_out = i;
        return TRUE;
      }
  for (guint i = 0; i < G_N_ELEMENTS (unit_words); i++)
    if (strcmp (unit_words[i].word, word) == 0)
      {
        *unit_out = unit_words[i].unit;
        return TRUE;
      }
  return FALSE;
}

void
fr_weather_columns_clear (FrWeatherColumns *columns)
{
  for (guint i = 0; i < FR_N_WEATHER_COLUMNS; i++)
    g_free (columns->names[i]);
  g_free (columns->where_column);
  g_free (columns->where_value);
  *columns = (FrWeatherColumns){ 0 };
}

static gboolean
parse_one (FrWeatherColumns *columns, const char *text, GError **error)
{
  g_autofree char *quoted = fr_json_quote (text), *code = NULL, *name = NULL;
  const char *equal = strchr (text, '='), *colon;
  FrWeatherUnit unit = FR_WEATHER_UNIT_UNTOLD;
  FrWeatherColumn use;

  if (equal == NULL)
    return fr_weather_wrong (error, _ ("“%s” has to be a use, = and a column, as in low=tmin"), quoted);
  code = g_strstrip (g_strndup (text, (gsize)(equal - text)));
  name = g_strstrip (g_strdup (equal + 1));
  if (!fr_weather_column_from_code (code, &use) || use == FR_WEATHER_COLUMN_NONE)
    return fr_weather_wrong (error, _ ("“%s” names no use of a column; known are date, time, low, high, temp, rain, snow and sun"), quoted);
  colon = strrchr (name, ':');
  if (colon != NULL && fr_weather_unit_from_word (colon + 1, &unit))
    {
      if ((fr_weather_units_of (use) & 1u << unit) == 0)
        return fr_weather_wrong (error, _ ("“%s” has a unit that does not belong to it: temperatures take c or f, rain and snow mm, cm, m or in, sun mj or kwh"),
                     quoted);
      name[colon - name] = '\0';
    }
  if (*name == '\0')
    return fr_weather_wrong (error, _ ("“%s” has to be a use, = and a column, as in low=tmin"), quoted);
  g_free (columns->names[use]);
  columns->names[use] = g_steal_pointer (&name);
  columns->units[use] = unit;
  return TRUE;
}

gboolean
fr_weather_columns_parse (FrWeatherColumns *columns, const char *text, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, ",", -1);

  for (guint i = 0; parts[i] != NULL; i++)
    if (!parse_one (columns, parts[i], error))
      return FALSE;
  return TRUE;
}

gboolean
fr_weather_columns_parse_where (FrWeatherColumns *columns, const char *text, GError **error)
{
  const char *equal = strchr (text, '=');
  g_autofree char *quoted = fr_json_quote (text);

  if (equal == NULL || equal == text)
    return fr_weather_wrong (error, _ ("“%s” has to be a column, = and a value, as in location=Seattle"), quoted);
  g_free (columns->where_column);
  g_free (columns->where_value);
  columns->where_column = g_strstrip (g_strndup (text, (gsize)(equal - text)));
  columns->where_value = g_strstrip (g_strdup (equal + 1));
  return TRUE;
}
