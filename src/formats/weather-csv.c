/* A plain table: a day or an hour a row, columns in any order. The order of day and month in dates with slashes is told by the whole
 * column; where nothing tells, they are refused and not guessed at. Rows of several places are told apart by a column whose value
 * parts the rows of one date. */
#include "formats/weather-private.h"

#include "formats/csv-time.h"
#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* The hottest air ever measured: 56.7 °C, Furnace Creek 1913 (World Meteorological Organization). What is above it, in degrees of
 * which nobody says what they are, is °F. */
#define AIR_MAX_C 56.7
/* The wettest day on record had 1.83 m, the deepest snow at a station was under 12 m, and the sun above the air brings 46 MJ/m² at most
 * (from memory). */
#define RAIN_MAX_M 2.0
#define SNOW_MAX_M 20.0
#define SUN_MAX_J_PER_M2 60e6
/* Pyranometers read a trifle below nothing at night. */
#define SUN_MIN_J_PER_M2 -1e6
#define PLACES_MAX 200
#define SPAN_MAX_S 21600

typedef enum
{
  ORDER_UNKNOWN,
  ORDER_DAY_FIRST,
  ORDER_MONTH_FIRST,
  ORDER_BOTH
} Order;

typedef struct
{
  GPtrArray *rows; /* FrCsvRow *, borrowed: those of the place, without the head */
  GPtrArray *names;
  const FrWeatherColumns *choice;
  FrWeatherUse use;
  FrWeather *weather;
  Order order;
  GError **error;
} Table;

typedef struct
{
  FrDate date;
  gint second; /* −1: no clock */
  gint offset_s;
  gboolean has_offset;
} When;

static char *
cell (const Table *table, const FrCsvRow *row, gint index)
{
  return index >= 0 && (guint)index < row->cells->len ? fr_weather_cell_text (row->cells->pdata[index]) : g_strdup ("");
}

static gboolean
fail_at (const Table *table, const FrCsvRow *row, gint index, const char *sentence)
{
  g_autofree char *name = fr_weather_column_name (table->names, index);

  return fr_weather_fail_cell (table->error, row->line, name, "%s", sentence);
}

/* --- which rows --- */

static void
choose_rows (Table *table, GPtrArray *rows, guint n_head)
{
  for (guint i = n_head; i < rows->len; i++)
    {
      g_autofree char *value = cell (table, rows->pdata[i], table->use.where);

      if (table->use.where < 0 || g_ascii_strcasecmp (value, table->choice->where_value) == 0)
        g_ptr_array_add (table->rows, rows->pdata[i]);
    }
}

static char *
moment_of (const Table *table, const FrCsvRow *row)
{
  g_autofree char *date = cell (table, row, table->use.index[FR_WEATHER_COLUMN_DATE]),
                  *clock = cell (table, row, table->use.index[FR_WEATHER_COLUMN_CLOCK]);

  return g_strdup_printf ("%s %s", date, clock);
}

static gboolean
names_a_place (const char *name)
{
  static const char *const words[] = { "location", "station", "site", "place", "city", "town", NULL };
  g_autofree char *low = g_ascii_strdown (name, -1);

  for (guint i = 0; words[i] != NULL; i++)
    if (strstr (low, words[i]) != NULL)
      return TRUE;
  return FALSE;
}

/* The values of a column, in order, when it parts the rows of equal moments; else NULL. */
static GPtrArray *
places_in (const Table *table, gint index, GPtrArray *moments, guint n_twice)
{
  const gboolean is_named = names_a_place (table->names->pdata[index]);
  g_autoptr (GPtrArray) values = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal),
                         pairs = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < table->rows->len; i++)
    {
      char *value = cell (table, table->rows->pdata[i], index);
      double number;

      g_hash_table_add (pairs, g_strdup_printf ("%s\x1f%s", (char *)moments->pdata[i], value));
      if (*value == '\0' || (!is_named && fr_weather_cell_number (value, &number)) || g_hash_table_contains (seen, value))
        {
          const gboolean is_known = g_hash_table_contains (seen, value);

          g_free (value);
          if (is_known)
            continue;
          return NULL;
        }
      g_ptr_array_add (values, value);
      g_hash_table_add (seen, value);
      if (values->len > PLACES_MAX)
        return NULL;
    }
  if (values->len < 2 || (!is_named && n_twice < 3) || (table->rows->len - g_hash_table_size (pairs)) * 10 > n_twice)
    return NULL;
  return g_steal_pointer (&values);
}

static gboolean
is_used (const FrWeatherUse *use, gint index)
{
  for (guint k = 0; k < FR_N_WEATHER_COLUMNS; k++)
    if (use->index[k] == index || use->flag[k] == index)
      return TRUE;
  return FALSE;
}

static gboolean
fail_places (const Table *table, gint index, GPtrArray *values)
{
  g_autofree char *name = fr_weather_column_name (table->names, index), *first = fr_json_quote (values->pdata[0]);
  g_autoptr (GString) list = g_string_new (NULL);

  for (guint i = 0; i < values->len && i < 6; i++)
    {
      g_autofree char *quoted = fr_json_quote (values->pdata[i]);

      g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", quoted);
    }
  if (values->len > 6)
    g_string_append (list, ", …");
  return fr_weather_wrong (table->error,
                           _ ("the table holds %u places in its column “%s”: %s. Choose one, as in where %s=%s"), values->len,
                           name, list->str, name, first);
}

/* FALSE with the sentence when the table holds several places. */
static gboolean
check_one_place (const Table *table)
{
  g_autoptr (GPtrArray) moments = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  guint n_twice;

  for (guint i = 0; i < table->rows->len; i++)
    {
      g_ptr_array_add (moments, moment_of (table, table->rows->pdata[i]));
      g_hash_table_add (seen, moments->pdata[i]);
    }
  n_twice = table->rows->len - g_hash_table_size (seen);
  for (guint i = 0; n_twice > 0 && i < table->names->len; i++)
    {
      g_autoptr (GPtrArray) values = is_used (&table->use, (gint)i) || table->use.where == (gint)i
                                         ? NULL
                                         : places_in (table, (gint)i, moments, n_twice);

      if (values != NULL)
        return fail_places (table, (gint)i, values);
    }
  return TRUE;
}

/* --- when --- */

/* "3/1/2026" and its like: three numbers, the year last; what comes behind. */
static gboolean
split_year_last (const char *text, gint *a_out, gint *b_out, gint *year_out, const char **rest_out)
{
  const char *at = text;
  char sign;

  if (!fr_csv_read_digits (&at, 1, 2, a_out) || *at == '\0' || strchr ("./-", *at) == NULL)
    return FALSE;
  sign = *at++;
  if (!fr_csv_read_digits (&at, 1, 2, b_out) || *at++ != sign || !fr_csv_read_digits (&at, 4, 4, year_out))
    return FALSE;
  *rest_out = at;
  return !g_ascii_isdigit (*at);
}

/* "20260301", "2026/3/1", "2026-3-1". */
static gboolean
split_year_first (const char *text, gint *year_out, gint *month_out, gint *day_out, const char **rest_out)
{
  const char *at = text;

  if (!fr_csv_read_digits (&at, 4, 4, year_out))
    return FALSE;
  if (*at == '/' || *at == '-')
    {
      const char sign = *at++;

      if (!fr_csv_read_digits (&at, 1, 2, month_out) || *at++ != sign || !fr_csv_read_digits (&at, 1, 2, day_out))
        return FALSE;
    }
  else if (!fr_csv_read_digits (&at, 2, 2, month_out) || !fr_csv_read_digits (&at, 2, 2, day_out))
    return FALSE;
  *rest_out = at;
  return !g_ascii_isdigit (*at);
}

/* By the whole column: a number over 12 is no month. Dots are only used with the day first. */
static Order
find_order (const Table *table)
{
  guint orders = 0;

  for (guint i = 0; i < table->rows->len; i++)
    {
      g_autofree char *text = cell (table, table->rows->pdata[i], table->use.index[FR_WEATHER_COLUMN_DATE]);
      const char *rest;
      gint a, b, year;

      if (!split_year_last (text, &a, &b, &year, &rest))
        continue;
      if (a > 12 || strchr (text, '.') == text + 1 || strchr (text, '.') == text + 2)
        orders |= ORDER_DAY_FIRST;
      if (b > 12)
        orders |= ORDER_MONTH_FIRST;
    }
  return orders;
}

/* The same with the year first. Free it. */
static char *
with_year_first (const char *text, Order order)
{
  gint a, b, year;
  const char *rest;

  if (split_year_last (text, &a, &b, &year, &rest))
    return g_strdup_printf ("%04d-%02d-%02d%s", year, order == ORDER_DAY_FIRST ? b : a, order == ORDER_DAY_FIRST ? a : b, rest);
  if (split_year_first (text, &year, &a, &b, &rest))
    return g_strdup_printf ("%04d-%02d-%02d%s", year, a, b, rest);
  return g_strdup (text);
}

static gboolean
read_when (const Table *table, const FrCsvRow *row, When *when_out)
{
  const gint index = table->use.index[FR_WEATHER_COLUMN_DATE], clock_index = table->use.index[FR_WEATHER_COLUMN_CLOCK];
  g_autofree char *text = cell (table, row, index), *clock = cell (table, row, clock_index),
                  *iso = with_year_first (text, table->order), *quoted = fr_json_quote (text), *sentence = NULL;
  const char *rest;
  gint a, b, year;

  *when_out = (When){ .second = -1 };
  if (split_year_last (text, &a, &b, &year, &rest) && (table->order == ORDER_UNKNOWN || table->order == ORDER_BOTH))
    {
      sentence = g_strdup_printf (table->order == ORDER_BOTH
                                      ? _ ("some dates have the day first, others the month (as “%s”); write them as year-month-day")
                                      : _ ("whether day or month comes first in “%s” does not show anywhere in the table; write dates as year-month-day"),
                                  quoted);
      return fail_at (table, row, index, sentence);
    }
  if (!fr_csv_read_date (iso, &when_out->date, &when_out->second, &when_out->offset_s, &when_out->has_offset))
    {
      sentence = *text == '\0' ? g_strdup (_ ("the row has no day"))
                               : g_strdup_printf (_ ("“%s” is no day; write it as year-month-day, as in 2026-03-19"), quoted);
      return fail_at (table, row, index, sentence);
    }
  if (*clock != '\0' && !fr_csv_read_clock (clock, &when_out->second))
    {
      g_autofree char *bad = fr_json_quote (clock);

      sentence = g_strdup_printf (_ ("“%s” is no time of day; write it as 07:30"), bad);
      return fail_at (table, row, clock_index, sentence);
    }
  return TRUE;
}

static gboolean
instant_of (const Table *table, const FrCsvRow *row, const When *when, gint64 before_utc, gint64 *utc_out)
{
  const gint index = table->use.index[FR_WEATHER_COLUMN_DATE];
  const gint64 plain = fr_date_to_days (when->date) * 86400 + when->second;
  gint64 second;

  if (when->second < 0)
    return fail_at (table, row, index, _ ("the row has no time of day, though others have"));
  if (when->has_offset || table->use.is_utc)
    {
      *utc_out = plain - when->offset_s;
      return TRUE;
    }
  if (table->choice == NULL || table->choice->zone == NULL)
    return fail_at (table, row, index,
                    _ ("the table does not say of which zone its clock is; name the zone, or give each time its offset, as in 2026-03-19T07:30-04:00"));
  switch (fr_zone_instant (table->choice->zone, when->date, when->second, utc_out, &second))
    {
    case FR_ZONE_TWICE:
      /* The hour in autumn that comes twice: the second time it is the later one. */
      if (*utc_out <= before_utc)
        *utc_out = second;
      return TRUE;
    case FR_ZONE_NEVER:
      return fail_at (table, row, index,
                      _ ("the zone's clock jumps over this time; a thermometer that keeps standard time needs its fixed offset as the zone, as in -05:00"));
    default:
      return TRUE;
    }
}

/* --- values --- */

static gboolean
read_value (const Table *table, const FrCsvRow *row, FrWeatherColumn kind, double min, double max, double *value_out)
{
  const gint index = table->use.index[kind];
  g_autofree char *text = cell (table, row, index), *quoted = fr_json_quote (text), *sentence = NULL;

  *value_out = NAN;
  if (fr_weather_cell_is_absent (text))
    return TRUE;
  if (!fr_weather_cell_number (text, value_out))
    {
      sentence = g_strdup_printf (_ ("“%s” is no number; leave the cell empty where there is no value"), quoted);
      return fail_at (table, row, index, sentence);
    }
  *value_out = fr_weather_unit_to_inner (*value_out, table->use.unit[kind]);
  if (isnan (min))
    {
      g_autofree char *name = fr_weather_column_name (table->names, index);

      if (!fr_weather_check_temp (*value_out, text, row->line, name, table->error))
        return FALSE;
      if (table->use.is_unit_told[kind] || *value_out <= AIR_MAX_C)
        return TRUE;
      sentence = g_strdup_printf (_ ("“%s” would be hotter than any air measured, if it is °C; the table does not tell. If it is °F, say so, as in %s=%s:f"),
                                  quoted, fr_weather_column_code (kind), name);
      return fail_at (table, row, index, sentence);
    }
  if (*value_out >= min && *value_out <= max)
    return TRUE;
  sentence = g_strdup_printf (_ ("“%s” is out of all bounds; leave the cell empty where there is no value, or say the unit"), quoted);
  return fail_at (table, row, index, sentence);
}

static gboolean
read_extreme (const Table *table, const FrCsvRow *row, FrWeatherColumn kind, double *temp_out, FrWeatherMark *mark_out)
{
  g_autofree char *flag = cell (table, row, table->use.flag[kind]);

  *mark_out = FR_WEATHER_ABSENT;
  if (table->use.index[kind] < 0)
    return TRUE;
  if (!read_value (table, row, kind, NAN, NAN, temp_out))
    return FALSE;
  if (g_ascii_strcasecmp (flag, "m") == 0)
    *temp_out = NAN;
  if (!isnan (*temp_out))
    *mark_out = *flag == '\0' ? FR_WEATHER_PLAIN : FR_WEATHER_ESTIMATED;
  return TRUE;
}

static gboolean
read_day (Table *table, const FrCsvRow *row, const When *when)
{
  FrWeatherDay day = fr_weather_day (when->date);
  g_autofree char *rain = cell (table, row, table->use.index[FR_WEATHER_COLUMN_RAIN]);

  if (!read_extreme (table, row, FR_WEATHER_COLUMN_LOW, &day.low_c, &day.low_mark)
      || !read_extreme (table, row, FR_WEATHER_COLUMN_HIGH, &day.high_c, &day.high_mark))
    return FALSE;
  if (g_ascii_strcasecmp (rain, "t") == 0 || g_ascii_strcasecmp (rain, "trace") == 0)
    {
      day.rain_m = 0;
      table->weather->n_trace++;
    }
  else if (!read_value (table, row, FR_WEATHER_COLUMN_RAIN, 0, RAIN_MAX_M, &day.rain_m))
    return FALSE;
  if (!read_value (table, row, FR_WEATHER_COLUMN_SNOW, 0, SNOW_MAX_M, &day.snow_m)
      || !read_value (table, row, FR_WEATHER_COLUMN_SUN, SUN_MIN_J_PER_M2, SUN_MAX_J_PER_M2, &day.sun_j_per_m2))
    return FALSE;
  g_array_append_val (table->weather->days, day);
  return TRUE;
}

static gboolean
read_hour (Table *table, const FrCsvRow *row, const When *when)
{
  GArray *hours = table->weather->hours;
  FrWeatherHour hour = { .temp_c = NAN };

  if (!instant_of (table, row, when, hours->len > 0 ? g_array_index (hours, FrWeatherHour, hours->len - 1).utc_s : G_MININT64,
                   &hour.utc_s)
      || !read_value (table, row, FR_WEATHER_COLUMN_TEMP, NAN, NAN, &hour.temp_c))
    return FALSE;
  g_array_append_val (hours, hour);
  return TRUE;
}

static gint
by_size (gconstpointer a, gconstpointer b)
{
  return *(const gint *)a - *(const gint *)b;
}

/* The usual step between two rows, for all: a row left out does not make the one before it last longer. */
static void
set_spans (GArray *hours)
{
  g_autoptr (GArray) steps = g_array_new (FALSE, FALSE, sizeof (gint));
  gint step_s = 3600;

  for (guint i = 1; i < hours->len; i++)
    {
      gint64 apart = g_array_index (hours, FrWeatherHour, i).utc_s - g_array_index (hours, FrWeatherHour, i - 1).utc_s;
      gint apart_s = (gint)CLAMP (apart, 1, SPAN_MAX_S);

      g_array_append_val (steps, apart_s);
    }
  g_array_sort (steps, by_size);
  if (steps->len > 0)
    step_s = g_array_index (steps, gint, steps->len / 2);
  for (guint i = 0; i < hours->len; i++)
    g_array_index (hours, FrWeatherHour, i).span_s = step_s;
}

/* --- the table --- */

/* Whether rows are moments and not days. */
static gboolean
is_hourly (const Table *table, const When *whens)
{
  const gint *index = table->use.index;

  if (index[FR_WEATHER_COLUMN_TEMP] < 0)
    return FALSE;
  for (guint i = 0; i < table->rows->len; i++)
    if (whens[i].second >= 0
        && ((index[FR_WEATHER_COLUMN_LOW] < 0 && index[FR_WEATHER_COLUMN_HIGH] < 0) || whens[i].second != whens[0].second))
      return TRUE;
  return FALSE;
}

static gboolean
check_columns (const Table *table)
{
  const gint *index = table->use.index;
  g_autofree char *list = fr_weather_list_names (table->names);

  if (index[FR_WEATHER_COLUMN_DATE] < 0)
    return fr_weather_wrong (table->error, _ ("no column of the table is a day. It has %s; say which is which, as in date=#1,low=#2,high=#3"),
                             list);
  if (index[FR_WEATHER_COLUMN_LOW] < 0 && index[FR_WEATHER_COLUMN_HIGH] < 0 && index[FR_WEATHER_COLUMN_TEMP] < 0)
    return fr_weather_wrong (table->error,
                             _ ("no column of the table is known as a temperature. It has %s; say which is which, as in date=#1,low=#2,high=#3"),
                             list);
  return TRUE;
}

static gboolean
read_rows (Table *table)
{
  g_autofree When *whens = g_new0 (When, table->rows->len);
  gboolean hourly;

  table->order = find_order (table);
  for (guint i = 0; i < table->rows->len; i++)
    if (!read_when (table, table->rows->pdata[i], &whens[i]))
      return FALSE;
  hourly = is_hourly (table, whens);
  if (!hourly && table->use.index[FR_WEATHER_COLUMN_LOW] < 0 && table->use.index[FR_WEATHER_COLUMN_HIGH] < 0)
    return fr_weather_wrong (table->error, _ ("the table has one temperature a day and no time of day; a day's low and high, or an hour's temperature, is asked for"));
  for (guint i = 0; i < table->rows->len; i++)
    if (hourly ? !read_hour (table, table->rows->pdata[i], &whens[i]) : !read_day (table, table->rows->pdata[i], &whens[i]))
      return FALSE;
  return TRUE;
}

FrWeather *
fr_weather_csv_read (GPtrArray *rows, const FrWeatherColumns *choice, GError **error)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  guint n_head;
  g_autoptr (GPtrArray) names = fr_weather_table_names (rows, &n_head), chosen = g_ptr_array_new ();
  Table table = { chosen, names, choice, { .where = -1 }, weather, ORDER_UNKNOWN, error };

  if (!fr_weather_use_columns (names, rows->len > n_head ? rows->pdata[n_head] : NULL, choice, &table.use, error))
    return NULL;
  choose_rows (&table, rows, n_head);
  if (!check_columns (&table))
    return NULL;
  if (chosen->len == 0)
    {
      g_autofree char *quoted = table.use.where >= 0 ? fr_json_quote (choice->where_value) : NULL;

      if (quoted != NULL)
        fr_weather_wrong (error, _ ("no row of the table has “%s” in its column “%s”"), quoted, choice->where_column);
      else
        fr_weather_wrong (error, "%s", _ ("the table has a head and no rows"));
      return NULL;
    }
  if (!check_one_place (&table) || !read_rows (&table))
    return NULL;
  fr_weather_finish (weather);
  set_spans (weather->hours);
  return g_steal_pointer (&weather);
}
