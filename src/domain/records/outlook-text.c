/* A plain text keeps the book readable in any SQLite browser, and one row holds what was told at one instant: a forecast is read whole or not
 * at all, and rows of single hours would be most of the book. */
#include "domain/records/outlook-text.h"
#include "domain/records/kinds-private.h"
#include "domain/units/digits.h"

#include <math.h>
#include <string.h>

#define DAYS_MAX 400
#define HOURS_MAX 2000
#define YEAR_MIN 1600
#define YEAR_MAX 2400

static const struct
{
  const char *word;
  gsize offset;
  double min;
  double max;
} lines[] = {
  { "low", offsetof (FrWeatherDay, low_c), TOLD_MIN_C, TOLD_MAX_C },
  { "high", offsetof (FrWeatherDay, high_c), TOLD_MIN_C, TOLD_MAX_C },
  { "rain", offsetof (FrWeatherDay, rain_m), 0, TOLD_RAIN_MAX_M },
  { "snow", offsetof (FrWeatherDay, snow_m), 0, TOLD_SNOW_MAX_M },
  { "sun", offsetof (FrWeatherDay, sun_j_per_m2), 0, TOLD_SUN_MAX_J_PER_M2 },
};

static double *
value_of (const FrWeatherDay *day, guint line)
{
  return (double *)((char *)day + lines[line].offset);
}

/* --- writing --- */

static void
append_value (GString *text, double value)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append_c (text, ' ');
  if (isnan (value))
    {
      g_string_append_c (text, '.');
      return;
    }
  fr_digits_write (value, digits);
  g_string_append (text, digits);
}

static gboolean
is_told (const FrWeatherDay *day)
{
  gboolean known = FALSE;

  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    known |= !isnan (*value_of (day, i));
  return day->is_forecast && known;
}

/* Days from @first to before @end, one after the other. */
static void
append_days (GString *text, const FrWeatherDay *days, guint n)
{
  g_autofree char *first = fr_date_to_iso (days[0].date);

  g_string_append_printf (text, "from %s\n", first);
  for (guint line = 0; line < G_N_ELEMENTS (lines); line++)
    {
      gsize before = text->len;
      gboolean known = FALSE;

      g_string_append (text, lines[line].word);
      for (guint i = 0; i < n; i++)
        {
          known |= !isnan (*value_of (&days[i], line));
          append_value (text, *value_of (&days[i], line));
        }
      if (known)
        g_string_append_c (text, '\n');
      else
        g_string_truncate (text, before);
    }
}

static void
write_days (GString *text, const GArray *all)
{
  const FrWeatherDay *days = (const FrWeatherDay *)(gpointer)all->data;

  for (guint i = 0, n; i < all->len; i += n)
    {
      n = 1;
      if (!is_told (&days[i]))
        continue;
      while (i + n < all->len && is_told (&days[i + n])
             && fr_date_to_days (days[i + n].date) == fr_date_to_days (days[i].date) + n)
        n++;
      append_days (text, days + i, n);
    }
}

static void
write_hours (GString *text, const GArray *all)
{
  const FrWeatherHour *hours = (const FrWeatherHour *)(gpointer)all->data;
  gint64 next_utc = G_MININT64;
  gint span_s = 0;

  for (guint i = 0; i < all->len; i++)
    {
      if (!hours[i].is_forecast || isnan (hours[i].temp_c))
        continue;
      if (hours[i].utc_s != next_utc || hours[i].span_s != span_s)
        {
          span_s = hours[i].span_s;
          g_string_append_printf (text, next_utc != G_MININT64 ? "\nhours %" G_GINT64_FORMAT " %d" : "hours %" G_GINT64_FORMAT " %d",
                                  hours[i].utc_s, span_s);
        }
      append_value (text, hours[i].temp_c);
      next_utc = hours[i].utc_s + span_s;
    }
  if (next_utc != G_MININT64)
    g_string_append_c (text, '\n');
}

char *
fr_outlook_write (const FrWeather *weather)
{
  g_return_val_if_fail (weather != NULL, NULL);

  GString *text = g_string_new (NULL);

  write_days (text, weather->days);
  write_hours (text, weather->hours);
  return g_string_free (text, text->len == 0);
}

/* --- reading --- */

typedef struct
{
  FrWeather *weather;
  gboolean has_from;
  gint64 from_day; /* of the last "from" */
  guint first;     /* its first day's place among the days */
  guint told;      /* which lines came since, a bit each */
} Reading;

/* One word as a number, "." as an unknown one. */
static gboolean
read_value (const char *word, double min, double max, double *value_out)
{
  char *end;

  *value_out = NAN;
  if (strcmp (word, ".") == 0)
    return TRUE;
  if (word[strspn (word, "+-.0123456789eE")] != '\0')
    return FALSE;
  *value_out = g_ascii_strtod (word, &end);
  return end != word && *end == '\0' && *value_out >= min && *value_out <= max;
}

static gboolean
read_from (Reading *reading, char **words)
{
  GArray *days = reading->weather->days;
  FrDate date;

  if (words[1] == NULL || words[2] != NULL || !fr_date_parse (words[1], &date) || date.year < YEAR_MIN
      || date.year > YEAR_MAX)
    return FALSE;
  reading->has_from = TRUE;
  reading->from_day = fr_date_to_days (date);
  reading->first = days->len;
  reading->told = 0;
  return days->len == 0
         || reading->from_day > fr_date_to_days (g_array_index (days, FrWeatherDay, days->len - 1).date);
}

static gboolean
read_line (Reading *reading, guint line, char **words)
{
  GArray *days = reading->weather->days;

  if (!reading->has_from || (reading->told & (1u << line)) != 0 || words[1] == NULL)
    return FALSE;
  reading->told |= 1u << line;
  for (guint i = 0; words[i + 1] != NULL; i++)
    {
      double value;

      if (reading->first + i >= DAYS_MAX || !read_value (words[i + 1], lines[line].min, lines[line].max, &value))
        return FALSE;
      if (reading->first + i >= days->len)
        {
          FrWeatherDay day = fr_weather_day (fr_date_from_days (reading->from_day + i));

          day.is_forecast = TRUE;
          g_array_append_val (days, day);
        }
      *value_of (&g_array_index (days, FrWeatherDay, reading->first + i), line) = value;
    }
  return TRUE;
}

static gboolean
read_whole (const char *word, gint64 min, gint64 max, gint64 *number_out)
{
  return g_ascii_string_to_signed (word, 10, min, max, number_out, NULL);
}

static gboolean
read_hours (Reading *reading, char **words)
{
  GArray *hours = reading->weather->hours;
  gint64 utc_s, span_s;

  if (words[1] == NULL || words[2] == NULL || words[3] == NULL
      || !read_whole (words[1], (gint64)EARLIEST_UTC, (gint64)LATEST_UTC, &utc_s) || !read_whole (words[2], 60, 86400, &span_s)
      || (hours->len > 0 && g_array_index (hours, FrWeatherHour, hours->len - 1).utc_s >= utc_s))
    return FALSE;
  for (guint i = 3; words[i] != NULL; i++, utc_s += span_s)
    {
      FrWeatherHour hour = { .utc_s = utc_s, .span_s = (gint)span_s, .is_forecast = TRUE };

      if (hours->len >= HOURS_MAX || !read_value (words[i], TOLD_MIN_C, TOLD_MAX_C, &hour.temp_c))
        return FALSE;
      g_array_append_val (hours, hour);
    }
  return TRUE;
}

static gboolean
read_words (Reading *reading, char **words)
{
  if (words[0] == NULL)
    return TRUE;
  if (strcmp (words[0], "from") == 0)
    return read_from (reading, words);
  if (strcmp (words[0], "hours") == 0)
    return read_hours (reading, words);
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    if (strcmp (words[0], lines[i].word) == 0)
      return read_line (reading, i, words);
  return FALSE;
}

/* The words of a line, without the empty ones between two blanks. */
static char **
words_of (const char *line)
{
  char **words = g_strsplit_set (line, " \t\r", -1);
  guint n = 0;

  for (guint i = 0; words[i] != NULL; i++)
    if (*words[i] != '\0')
      words[n++] = words[i];
    else
      g_free (words[i]);
  words[n] = NULL;
  return words;
}

static gboolean
mark_days (GArray *days)
{
  for (guint i = 0; i < days->len; i++)
    {
      FrWeatherDay *day = &g_array_index (days, FrWeatherDay, i);

      day->low_mark = isnan (day->low_c) ? FR_WEATHER_ABSENT : FR_WEATHER_PLAIN;
      day->high_mark = isnan (day->high_c) ? FR_WEATHER_ABSENT : FR_WEATHER_PLAIN;
    }
  return days->len > 0;
}

FrWeather *
fr_outlook_parse (const char *text, guint *line_out)
{
  g_auto (GStrv) all = g_strsplit (text != NULL ? text : "", "\n", -1);
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  Reading reading = { .weather = weather };

  for (guint i = 0; all[i] != NULL; i++)
    {
      g_auto (GStrv) words = words_of (all[i]);

      if (line_out != NULL)
        *line_out = i + 1;
      if (!read_words (&reading, words))
        return NULL;
    }
  if (line_out != NULL)
    *line_out = 1;
  if (!mark_days (weather->days) && weather->hours->len == 0)
    return NULL;
  if (line_out != NULL)
    *line_out = 0;
  return g_steal_pointer (&weather);
}
