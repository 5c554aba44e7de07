/* A plain table: a day or an hour a row, columns in any order. Lows and highs make days, a temperature with times of day hours. */
#include "formats/weather-csv-private.h"

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
#define SPAN_MAX_S 21600

char *
fr_weather_table_cell (const FrWeatherTable *table, const FrCsvRow *row, gint index)
{
  return index >= 0 && (guint)index < row->cells->len ? fr_weather_cell_text (row->cells->pdata[index]) : g_strdup ("");
}

gboolean
fr_weather_table_fail (const FrWeatherTable *table, const FrCsvRow *row, gint index, const char *sentence)
{
  g_autofree char *name = fr_weather_column_name (table->names, index);

  return fr_weather_fail_cell (table->error, row->line, name, "%s", sentence);
}

/* --- which rows --- */

static void
choose_rows (FrWeatherTable *table, GPtrArray *rows, guint n_head)
{
  for (guint i = n_head; i < rows->len; i++)
    {
      g_autofree char *value = fr_weather_table_cell (table, rows->pdata[i], table->use.where);

      if (table->use.where < 0 || g_ascii_strcasecmp (value, table->choice->where_value) == 0)
        g_ptr_array_add (table->rows, rows->pdata[i]);
    }
}

/* --- values --- */

static gboolean
read_value (const FrWeatherTable *table, const FrCsvRow *row, FrWeatherColumn kind, double min, double max, double *value_out)
{
  const gint index = table->use.index[kind];
  g_autofree char *text = fr_weather_table_cell (table, row, index), *quoted = fr_json_quote (text), *sentence = NULL;

  *value_out = NAN;
  if (fr_weather_cell_is_absent (text))
    return TRUE;
  if (!fr_weather_cell_number (text, value_out))
    {
      sentence = g_strdup_printf (_ ("“%s” is no number; leave the cell empty where there is no value"), quoted);
      return fr_weather_table_fail (table, row, index, sentence);
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
      return fr_weather_table_fail (table, row, index, sentence);
    }
  if (*value_out >= min && *value_out <= max)
    return TRUE;
  sentence = g_strdup_printf (_ ("“%s” is out of all bounds; leave the cell empty where there is no value, or say the unit"), quoted);
  return fr_weather_table_fail (table, row, index, sentence);
}

static gboolean
read_extreme (const FrWeatherTable *table, const FrCsvRow *row, FrWeatherColumn kind, double *temp_out, FrWeatherMark *mark_out)
{
  g_autofree char *flag = fr_weather_table_cell (table, row, table->use.flag[kind]);

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
read_day (FrWeatherTable *table, const FrCsvRow *row, const FrWeatherWhen *when)
{
  FrWeatherDay day = fr_weather_day (when->date);
  g_autofree char *rain = fr_weather_table_cell (table, row, table->use.index[FR_WEATHER_COLUMN_RAIN]);

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
read_hour (FrWeatherTable *table, const FrCsvRow *row, const FrWeatherWhen *when)
{
  GArray *hours = table->weather->hours;
  FrWeatherHour hour = { .temp_c = NAN };

  if (!fr_weather_table_instant (table, row, when, hours->len > 0 ? g_array_index (hours, FrWeatherHour, hours->len - 1).utc_s : G_MININT64,
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
is_hourly (const FrWeatherTable *table, const FrWeatherWhen *whens)
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
has_name (const FrWeatherTable *table, const char *name)
{
  return g_ptr_array_find_with_equal_func (table->names, name, g_str_equal, NULL);
}

/* Orders from NOAA's archive come in °F and inches or in °C and mm, as was ticked; nothing in the file tells. */
static gboolean
is_ordered_table (const FrWeatherTable *table)
{
  return has_name (table, "STATION") && has_name (table, "NAME") && has_name (table, "DATE")
         && ((table->use.index[FR_WEATHER_COLUMN_LOW] >= 0 && !table->use.is_unit_told[FR_WEATHER_COLUMN_LOW])
             || (table->use.index[FR_WEATHER_COLUMN_HIGH] >= 0 && !table->use.is_unit_told[FR_WEATHER_COLUMN_HIGH]));
}

static gboolean
check_columns (const FrWeatherTable *table)
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
  if (is_ordered_table (table))
    return fr_weather_wrong (table->error, "%s",
                             _ ("an order from NOAA's archive comes in °F or in °C, and the file does not tell; say which, as in low=TMIN:f,high=TMAX:f"));
  return TRUE;
}

/* A day in several rows, with clocks: parts of it, whose extremes are not the day's. */
static gboolean
is_in_parts (const FrWeatherTable *table, const FrWeatherWhen *whens)
{
  for (guint i = 1; i < table->rows->len; i++)
    if (fr_date_compare (whens[i].date, whens[i - 1].date) == 0 && whens[i].second >= 0 && whens[i].second != whens[i - 1].second)
      return TRUE;
  return FALSE;
}

static gboolean
read_rows (FrWeatherTable *table)
{
  g_autofree FrWeatherWhen *whens = g_new0 (FrWeatherWhen, table->rows->len);
  gboolean hourly;

  table->order = fr_weather_table_order (table);
  for (guint i = 0; i < table->rows->len; i++)
    if (!fr_weather_table_when (table, table->rows->pdata[i], &whens[i]))
      return FALSE;
  hourly = is_hourly (table, whens);
  if (!hourly && table->use.index[FR_WEATHER_COLUMN_LOW] < 0 && table->use.index[FR_WEATHER_COLUMN_HIGH] < 0)
    return fr_weather_wrong (table->error, _ ("the table has one temperature a day and no time of day; a day's low and high, or an hour's temperature, is asked for"));
  if (!hourly && is_in_parts (table, whens))
    return fr_weather_wrong (table->error, "%s",
                             _ ("the table has lows and highs at several times of a day; a day's in one row, or temperatures with their times (temp=…), are asked for"));
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
  FrWeatherTable table = { chosen, names, choice, { .where = -1 }, weather, FR_WEATHER_ORDER_UNKNOWN, error };

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
  if (!fr_weather_table_check_place (&table) || !read_rows (&table))
    return NULL;
  fr_weather_finish (weather);
  set_spans (weather->hours);
  return g_steal_pointer (&weather);
}
