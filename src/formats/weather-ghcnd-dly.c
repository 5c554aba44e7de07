/* GHCN-Daily as it is kept: a station's month of one element a line, fixed width. Columns from 1: 1–11 station, 12–15 year, 16–17 month,
 * 18–21 element, then for each of 31 days value (5), M, Q and S mark. Days that the month does not have are −9999. Lines cut off behind
 * their last value are read as well: editors take blanks away. */
#include "formats/weather-private.h"

#include "formats/json-text.h"
#include "formats/text-bytes.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define ID_LENGTH 11
#define HEAD_LENGTH 21
#define CELL_LENGTH 8

static gboolean
is_word (const char *text, gsize length)
{
  for (gsize i = 0; i < length; i++)
    if (!g_ascii_isupper (text[i]) && !g_ascii_isdigit (text[i]) && text[i] != '_' && text[i] != '-')
      return FALSE;
  return TRUE;
}

static gboolean
read_head (const char *line, gint *year_out, gint *month_out, char element_out[5])
{
  if (strlen (line) < HEAD_LENGTH || !is_word (line, ID_LENGTH) || strspn (line + ID_LENGTH, "0123456789") < 6
      || !is_word (line + 17, 4))
    return FALSE;
  memcpy (element_out, line + 17, 4);
  element_out[4] = '\0';
  return fr_ghcnd_whole (line + ID_LENGTH, 4, year_out) && fr_ghcnd_whole (line + 15, 2, month_out) && *year_out >= 1
         && *month_out >= 1 && *month_out <= 12;
}

gboolean
fr_ghcnd_dly_looks_like (const char *line)
{
  gint year, month;
  char element[5];

  return read_head (line, &year, &month, element) && strlen (line) > HEAD_LENGTH && strchr (line, ',') == NULL;
}

static gboolean
read_month (FrGhcnd *ghcnd, const char *line, gsize length, guint number)
{
  FrGhcndSpot spot = { .line = number };
  char element[5];

  if (!read_head (line, &spot.date.year, &spot.date.month, element))
    return fr_weather_fail (ghcnd->error, number,
                            "%s", _ ("a line of GHCN-Daily begins with a station of 11 letters and digits, year, month and element; this one does not"));
  spot.element = element;
  for (gsize at = HEAD_LENGTH; at < length; at += CELL_LENGTH)
    {
      g_autofree char *cell = g_strndup (line + at, MIN (length - at, CELL_LENGTH));
      const gsize n = strlen (cell);
      gint value;

      spot.date.day = (gint)((at - HEAD_LENGTH) / CELL_LENGTH) + 1;
      if (cell[strspn (cell, " ")] == '\0')
        continue;
      if (n < 5 || !fr_ghcnd_whole (cell, 5, &value))
        {
          g_autofree char *quoted = fr_json_quote (cell);

          return fr_weather_fail (ghcnd->error, number, _ ("%s of day %d is “%s”; it has to be a whole number of five characters and three marks"),
                                  element, spot.date.day, quoted);
        }
      if (!fr_date_is_valid (spot.date))
        {
          if (value == -9999)
            continue;
          return fr_weather_fail (ghcnd->error, number, _ ("%s has a value for day %d, which the month does not have"), element,
                                  spot.date.day);
        }
      if (!fr_ghcnd_put (ghcnd, &spot, value, n > 5 ? cell[5] : ' ', n > 6 ? cell[6] : ' ', ""))
        return FALSE;
    }
  return TRUE;
}

FrWeather *
fr_ghcnd_dly_read (const char *text, gsize length, const FrWeatherColumns *choice, GError **error)
{
  g_auto (FrGhcnd) ghcnd = { 0 };
  g_autoptr (FrWeather) weather = fr_ghcnd_begin (&ghcnd, FR_WEATHER_GHCND_DLY, choice, error);
  g_autoptr (GString) line = g_string_new (NULL);
  const char *at = text, *end = text + length;

  if (!fr_text_bytes_check_utf8 (text, length, error))
    return NULL;
  for (guint number = 1; fr_weather_next_line (&at, end, line); number++)
    {
      g_autofree char *station = g_strndup (line->str, ID_LENGTH);
      gboolean is_wanted;

      if (line->str[strspn (line->str, " \t")] == '\0')
        continue;
      if (!fr_ghcnd_station (&ghcnd, station, number, &is_wanted) || (is_wanted && !read_month (&ghcnd, line->str, strlen (line->str), number)))
        return NULL;
    }
  return fr_ghcnd_end (&ghcnd, weather) != NULL ? g_steal_pointer (&weather) : NULL;
}
