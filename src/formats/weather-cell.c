/* Cells of tables of weather. Marks for "no value" are those of the open archives and of statistics programs; −9999 and its
 * like stand for it in tables of numbers. */
#include "formats/weather-private.h"

#include "domain/units/units.h"
#include "formats/field-text.h"
#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define MINUS "\xE2\x88\x92"
#define NUMBER_LENGTH_MAX 40

char *
fr_weather_cell_text (const char *cell)
{
  g_autofree char *plain = fr_csv_unguard (cell);

  return g_strstrip (g_steal_pointer (&plain));
}

gboolean
fr_weather_cell_is_absent (const char *text)
{
  static const char *const words[]
      = { "", "na", "n/a", "nan", "null", "none", "m", "missing", ".", "-", "--", "---", "–", "—", NULL };
  g_autofree char *low = g_ascii_strdown (text, -1);
  const char *rest;

  if (g_strv_contains (words, low))
    return TRUE;
  /* −999, −9999, −9999.0, −999.9 */
  if (!g_str_has_prefix (low, "-999"))
    return FALSE;
  rest = low + 4 + strspn (low + 4, "9");
  return *rest == '\0' || ((*rest == '.' || *rest == ',') && rest[1 + strspn (rest + 1, "09")] == '\0');
}

gboolean
fr_weather_cell_number (const char *text, double *value_out)
{
  char plain[NUMBER_LENGTH_MAX + 1];
  const gboolean is_minus = g_str_has_prefix (text, MINUS);
  char *comma;

  *value_out = NAN;
  if (strlen (text) > NUMBER_LENGTH_MAX)
    return FALSE;
  g_snprintf (plain, sizeof plain, "%s%s", is_minus ? "-" : "", is_minus ? text + strlen (MINUS) : text);
  comma = strchr (plain, ',');
  if (comma != NULL && strchr (plain, '.') == NULL)
    *comma = '.';
  return fr_decimal_read (plain, 0, value_out);
}

double
fr_weather_unit_to_inner (double value, FrWeatherUnit unit)
{
  switch (unit)
    {
    case FR_WEATHER_UNIT_F:
      return fr_celsius_from_fahrenheit (value);
    case FR_WEATHER_UNIT_MM:
      return value / 1000;
    case FR_WEATHER_UNIT_CM:
      return value / 100;
    case FR_WEATHER_UNIT_IN:
      return value * FR_METRES_PER_INCH;
    case FR_WEATHER_UNIT_MJ_PER_M2:
      return value * 1e6;
    case FR_WEATHER_UNIT_KWH_PER_M2:
      return value * FR_JOULES_PER_KWH;
    default:
      return value;
    }
}

gboolean
fr_weather_fail (GError **error, guint line, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("line %u: %s"), line, what);
  return FALSE;
}

gboolean
fr_weather_fail_cell (GError **error, guint line, const char *column, const char *format, ...)
{
  g_autofree char *what = NULL, *quoted = fr_json_quote (column);
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("line %u, column “%s”: %s"), line, quoted, what);
  return FALSE;
}

gboolean
fr_weather_wrong (GError **error, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, what);
  return FALSE;
}

gboolean
fr_weather_check_temp (double temp_c, const char *text, guint line, const char *column, GError **error)
{
  g_autofree char *quoted = NULL;

  if (fabs (temp_c) <= FR_WEATHER_TEMP_MAX_C)
    return TRUE;
  quoted = fr_json_quote (text);
  return fr_weather_fail_cell (error, line, column,
                               _ ("“%s” is no air temperature (over %d °C from freezing); leave the cell empty where there is no value"),
                               quoted, (int)FR_WEATHER_TEMP_MAX_C);
}
