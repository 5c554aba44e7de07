/* GHCN-Daily by year or by station: an element a row, no quotes, mostly without a head:
 * station, YYYYMMDD, element, value, M, Q and S mark, time of reading HHMM. */
#include "formats/weather-private.h"

#include "formats/json-text.h"
#include "formats/text-bytes.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define FIELDS_MIN 7
#define HEAD "ID,DATE,ELEMENT,"

static gboolean
read_date (const char *text, FrDate *date_out)
{
  if (strlen (text) != 8 || strspn (text, "0123456789") != 8)
    return FALSE;
  return fr_ghcnd_whole (text, 4, &date_out->year) && fr_ghcnd_whole (text + 4, 2, &date_out->month)
         && fr_ghcnd_whole (text + 6, 2, &date_out->day) && fr_date_is_valid (*date_out);
}

gboolean
fr_ghcnd_rows_looks_like (const char *line)
{
  g_auto (GStrv) fields = g_strsplit (line, ",", FIELDS_MIN + 2);
  FrDate date;

  return g_str_has_prefix (line, HEAD)
         || (g_strv_length (fields) >= FIELDS_MIN && strlen (fields[0]) == 11 && strchr (fields[0], ' ') == NULL
             && read_date (fields[1], &date) && strlen (fields[2]) == 4);
}

static gboolean
read_row (FrGhcnd *ghcnd, char **fields, guint line)
{
  FrGhcndSpot spot = { .line = line, .element = fields[2] };
  gint value;

  if (!read_date (fields[1], &spot.date))
    {
      g_autofree char *quoted = fr_json_quote (fields[1]);

      return fr_weather_fail (ghcnd->error, line, _ ("“%s” is no day; it has to be eight digits, year, month and day"), quoted);
    }
  if (!fr_ghcnd_whole (fields[3], strlen (fields[3]), &value))
    {
      g_autofree char *quoted = fr_json_quote (fields[3]), *element = fr_json_quote (fields[2]);

      return fr_weather_fail_cell (ghcnd->error, line, element, _ ("“%s” is no whole number in tenths"), quoted);
    }
  return fr_ghcnd_put (ghcnd, &spot, value, *fields[4] != '\0' ? *fields[4] : ' ', *fields[5] != '\0' ? *fields[5] : ' ',
                       fields[7] != NULL ? fields[7] : "");
}

FrWeather *
fr_ghcnd_rows_read (const char *text, gsize length, const FrWeatherColumns *choice, GError **error)
{
  g_auto (FrGhcnd) ghcnd = { 0 };
  g_autoptr (FrWeather) weather = fr_ghcnd_begin (&ghcnd, FR_WEATHER_GHCND_ROWS, choice, error);
  g_autoptr (GString) line = g_string_new (NULL);
  const char *at = text, *end = text + length;

  if (!fr_text_bytes_check_utf8 (text, length, error))
    return NULL;
  for (guint number = 1; fr_weather_next_line (&at, end, line); number++)
    {
      g_auto (GStrv) fields = g_strsplit (line->str, ",", -1);
      gboolean is_wanted;

      if (line->str[strspn (line->str, " \t")] == '\0' || (number == 1 && g_str_has_prefix (line->str, HEAD)))
        continue;
      if (g_strv_length (fields) < FIELDS_MIN)
        {
          fr_weather_fail (error, number, _ ("the row has %u fields; station, day, element, value and three marks are %d"),
                           g_strv_length (fields), FIELDS_MIN);
          return NULL;
        }
      if (!fr_ghcnd_station (&ghcnd, fields[0], number, &is_wanted) || (is_wanted && !read_row (&ghcnd, fields, number)))
        return NULL;
    }
  return fr_ghcnd_end (&ghcnd, weather) != NULL ? g_steal_pointer (&weather) : NULL;
}
