/* What the three forms of GHCN-Daily have in common: elements in tenths with three marks each, gathered into days.
 *
 * Source: readme of the Global Historical Climatology Network daily, NOAA National Centers for Environmental Information. A value that
 * failed one of its checks (Q not blank) is left out. Of the M marks T is a trace; L (lagged behind its hour) and H (of hourly values
 * only) leave a temperature in doubt. A date is the day on which the extremes were read: at a station read in the morning the high
 * is mostly of the afternoon before, which is why the time of reading is kept. */
#include "formats/weather-private.h"

#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define NO_VALUE -9999

FrWeather *
fr_ghcnd_begin (FrGhcnd *ghcnd, FrWeatherFormat format, const FrWeatherColumns *choice, GError **error)
{
  FrWeather *weather = fr_weather_new (format);

  *ghcnd = (FrGhcnd){ weather, choice, g_hash_table_new (NULL, NULL), g_hash_table_new (NULL, NULL), g_hash_table_new (NULL, NULL), error };
  return weather;
}

void
fr_ghcnd_clear (FrGhcnd *ghcnd)
{
  g_clear_pointer (&ghcnd->places, g_hash_table_unref);
  g_clear_pointer (&ghcnd->readings, g_hash_table_unref);
  g_clear_pointer (&ghcnd->rain_readings, g_hash_table_unref);
}

gboolean
fr_ghcnd_station (FrGhcnd *ghcnd, const char *station, guint line, gboolean *wanted_out)
{
  const char *wanted = ghcnd->choice != NULL && ghcnd->choice->where_column != NULL ? ghcnd->choice->where_value : NULL;
  g_autofree char *name = fr_json_quote (station);

  *wanted_out = TRUE;
  if (wanted != NULL && g_ascii_strcasecmp (ghcnd->choice->where_column, "station") != 0)
    {
      g_autofree char *quoted = fr_json_quote (ghcnd->choice->where_column);

      return fr_weather_wrong (ghcnd->error, _ ("rows of GHCN-Daily are chosen by their station, as in where station=%s, and not by “%s”"),
                               name, quoted);
    }
  if (wanted != NULL && g_ascii_strcasecmp (wanted, station) != 0)
    *wanted_out = FALSE;
  else if (ghcnd->weather->station == NULL)
    ghcnd->weather->station = g_strdup (station);
  else if (strcmp (ghcnd->weather->station, station) != 0)
    {
      g_autofree char *first = fr_json_quote (ghcnd->weather->station);

      return fr_weather_fail (ghcnd->error, line, _ ("the file holds several stations, %s and %s among them. Choose one, as in where station=%s"),
                              first, name, first);
    }
  return TRUE;
}

static FrWeatherDay *
day_of (FrGhcnd *ghcnd, FrDate date)
{
  GArray *days = ghcnd->weather->days;
  gpointer key = GINT_TO_POINTER ((gint)fr_date_to_days (date));
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (ghcnd->places, key));

  if (place == 0)
    {
      FrWeatherDay day = fr_weather_day (date);

      g_array_append_val (days, day);
      place = days->len;
      g_hash_table_insert (ghcnd->places, key, GUINT_TO_POINTER (place));
    }
  return &g_array_index (days, FrWeatherDay, place - 1);
}

static void
count_reading (GHashTable *readings, const char *clock)
{
  gint value;
  guint n;

  /* 2400 is midnight at the day's end. */
  if (!fr_ghcnd_whole (clock, strlen (clock), &value) || value < 0 || value > 2400 || value % 100 > 59)
    return;
  n = GPOINTER_TO_UINT (g_hash_table_lookup (readings, GINT_TO_POINTER (value / 100 * 60 + value % 100)));
  g_hash_table_insert (readings, GINT_TO_POINTER (value / 100 * 60 + value % 100), GUINT_TO_POINTER (n + 1));
}

static gboolean
put_extreme (FrGhcnd *ghcnd, const FrGhcndSpot *spot, gint value, char m_mark, char q_mark)
{
  const double temp_c = value / 10.0;
  const gboolean is_low = strcmp (spot->element, "TMIN") == 0;
  FrWeatherDay *day;
  FrWeatherMark *mark;
  g_autofree char *text = g_strdup_printf ("%d", value);

  if (q_mark == ' ' && !fr_weather_check_temp (temp_c, text, spot->line, spot->element, ghcnd->error))
    return FALSE;
  day = day_of (ghcnd, spot->date);
  mark = is_low ? &day->low_mark : &day->high_mark;
  ghcnd->weather->n_duplicates += *mark != FR_WEATHER_ABSENT;
  *(is_low ? &day->low_c : &day->high_c) = q_mark == ' ' ? temp_c : NAN;
  *mark = q_mark != ' ' ? FR_WEATHER_REFUSED : m_mark == 'L' || m_mark == 'H' ? FR_WEATHER_ESTIMATED : FR_WEATHER_PLAIN;
  return TRUE;
}

gboolean
fr_ghcnd_put (FrGhcnd *ghcnd, const FrGhcndSpot *spot, gint value, char m_mark, char q_mark, const char *clock)
{
  const gboolean is_rain = strcmp (spot->element, "PRCP") == 0;

  if (value == NO_VALUE)
    return TRUE;
  if (strcmp (spot->element, "TMAX") == 0 || strcmp (spot->element, "TMIN") == 0)
    {
      count_reading (ghcnd->readings, clock);
      return put_extreme (ghcnd, spot, value, m_mark, q_mark);
    }
  if (!is_rain && strcmp (spot->element, "SNWD") != 0)
    return TRUE;
  if (q_mark != ' ')
    {
      ghcnd->weather->n_refused++;
      return TRUE;
    }
  if (value < 0)
    return fr_weather_fail_cell (ghcnd->error, spot->line, spot->element, _ ("“%d” is less than nothing; −9999 stands for no value"), value);
  if (is_rain)
    {
      count_reading (ghcnd->rain_readings, clock);
      day_of (ghcnd, spot->date)->rain_m = value / 10000.0;
      ghcnd->weather->n_trace += m_mark == 'T';
    }
  else
    day_of (ghcnd, spot->date)->snow_m = value / 1000.0;
  return TRUE;
}

/* The minute most values were read at; of equals the earlier. */
static gint
usual_reading (GHashTable *readings)
{
  GHashTableIter iter;
  gpointer key, value;
  gint best = -1;
  guint most = 0;

  g_hash_table_iter_init (&iter, readings);
  while (g_hash_table_iter_next (&iter, &key, &value))
    if (GPOINTER_TO_UINT (value) > most || (GPOINTER_TO_UINT (value) == most && GPOINTER_TO_INT (key) < best))
      {
        best = GPOINTER_TO_INT (key);
        most = GPOINTER_TO_UINT (value);
      }
  return best;
}

FrWeather *
fr_ghcnd_end (FrGhcnd *ghcnd, FrWeather *weather)
{
  if (weather->days->len == 0)
    {
      g_autofree char *quoted = ghcnd->choice != NULL && ghcnd->choice->where_value != NULL ? fr_json_quote (ghcnd->choice->where_value) : NULL;

      if (quoted != NULL && weather->station == NULL)
        fr_weather_wrong (ghcnd->error, _ ("the file has no row of the station “%s”"), quoted);
      else
        fr_weather_wrong (ghcnd->error, "%s", _ ("the file has no value of TMAX, TMIN, PRCP or SNWD"));
      return NULL;
    }
  /* Temperatures without a time are read with the rain. */
  weather->reading_minute = usual_reading (g_hash_table_size (ghcnd->readings) > 0 ? ghcnd->readings : ghcnd->rain_readings);
  weather->attribution = g_strdup ("NOAA National Centers for Environmental Information, GHCN-Daily");
  fr_weather_finish (weather);
  return weather;
}

gboolean
fr_ghcnd_whole (const char *text, gsize length, gint *value_out)
{
  g_autofree char *plain = g_strstrip (g_strndup (text, length));
  gint64 value = NO_VALUE;

  if (*plain != '\0' && !g_ascii_string_to_signed (plain, 10, -99999, 99999, &value, NULL))
    return FALSE;
  *value_out = (gint)value;
  return TRUE;
}

gboolean
fr_weather_next_line (const char **at, const char *end, GString *line_out)
{
  const char *stop;

  if (*at >= end)
    return FALSE;
  stop = memchr (*at, '\n', (gsize)(end - *at));
  g_string_truncate (line_out, 0);
  g_string_append_len (line_out, *at, (stop != NULL ? stop : end) - *at);
  while (line_out->len > 0 && line_out->str[line_out->len - 1] == '\r')
    g_string_truncate (line_out, line_out->len - 1);
  *at = stop != NULL ? stop + 1 : end;
  return TRUE;
}
