/* Daily climate data of Environment and Climate Change Canada, CSV. Columns are found by name: today's files begin with
 * them, older ones have two dozen lines about the station and the marks before. A mark stands in a column of its own beside each value:
 * M missing, E estimated, T trace; others leave a temperature in doubt. Values are °C, mm and cm; days local standard time. A year's file
 * lists the days to come too, empty. */
#include "formats/weather-private.h"

#include "formats/csv-time.h"
#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define HEAD_ROWS_MAX 60

typedef enum
{
  LONGITUDE,
  LATITUDE,
  STATION_NAME,
  CLIMATE_ID,
  DATE,
  HIGH,
  HIGH_MARK,
  LOW,
  LOW_MARK,
  RAIN,
  RAIN_MARK,
  SNOW,
  N_COLUMNS
} Column;

/* In English and in French (the latter from memory), up to the unit in brackets, whose ° some files have spoilt. */
static const char *const names[N_COLUMNS][2] = {
  { "Longitude", "Longitude" },
  { "Latitude", "Latitude" },
  { "Station Name", "Nom de la Station" },
  { "Climate ID", "ID climatologique" },
  { "Date/Time", "Date/Heure" },
  { "Max Temp", "Temp max." },
  { "Max Temp Flag", "Temp max. Indicateur" },
  { "Min Temp", "Temp min." },
  { "Min Temp Flag", "Temp min. Indicateur" },
  { "Total Precip", "Précip. totales" },
  { "Total Precip Flag", "Précip. totales Indicateur" },
  { "Snow on Grnd", "Neige au sol" },
};

typedef struct
{
  gint index[N_COLUMNS];
  FrWeather *weather;
  GError **error;
} Table;

static gboolean
is_named (const char *cell, const char *name)
{
  const gsize length = strlen (name);

  return g_ascii_strncasecmp (cell, name, length) == 0
         && (cell[length] == '\0' || cell[length] == '(' || (cell[length] == ' ' && cell[length + 1] == '('));
}

static void
find_columns (const FrCsvRow *row, gint index_out[N_COLUMNS])
{
  for (guint k = 0; k < N_COLUMNS; k++)
    {
      index_out[k] = -1;
      for (guint i = 0; i < row->cells->len && index_out[k] < 0; i++)
        if (is_named (row->cells->pdata[i], names[k][0]) || is_named (row->cells->pdata[i], names[k][1]))
          index_out[k] = (gint)i;
    }
}

gint
fr_eccc_head (GPtrArray *rows)
{
  gint index[N_COLUMNS];

  for (guint i = 0; i < rows->len && i < HEAD_ROWS_MAX; i++)
    {
      find_columns (rows->pdata[i], index);
      if (index[DATE] >= 0 && index[HIGH] >= 0 && index[LOW] >= 0 && index[HIGH_MARK] >= 0 && index[LOW_MARK] >= 0)
        return (gint)i;
    }
  return -1;
}

static char *
cell (const Table *table, const FrCsvRow *row, Column column)
{
  const gint index = table->index[column];

  return index >= 0 && (guint)index < row->cells->len ? fr_weather_cell_text (row->cells->pdata[index]) : g_strdup ("");
}

static gboolean
read_number (const Table *table, const FrCsvRow *row, Column column, double *value_out)
{
  g_autofree char *text = cell (table, row, column);

  *value_out = NAN;
  if (*text == '\0' || fr_weather_cell_number (text, value_out))
    return TRUE;
  {
    g_autofree char *quoted = fr_json_quote (text);

    return fr_weather_fail_cell (table->error, row->line, names[column][0], _ ("“%s” is no number"), quoted);
  }
}

static gboolean
read_extreme (const Table *table, const FrCsvRow *row, Column column, Column mark_column, double *temp_out, FrWeatherMark *mark_out)
{
  g_autofree char *text = cell (table, row, column), *mark = cell (table, row, mark_column);

  if (!read_number (table, row, column, temp_out))
    return FALSE;
  if (strcmp (mark, "M") == 0)
    *temp_out = NAN;
  if (isnan (*temp_out))
    return TRUE;
  *mark_out = *mark == '\0' ? FR_WEATHER_PLAIN : FR_WEATHER_ESTIMATED;
  return fr_weather_check_temp (*temp_out, text, row->line, names[column][0], table->error);
}

static gboolean
read_amount (const Table *table, const FrCsvRow *row, Column column, double per_m, double *value_out)
{
  double value;

  if (!read_number (table, row, column, &value))
    return FALSE;
  if (value < 0)
    return fr_weather_fail_cell (table->error, row->line, names[column][0], "%s", _ ("the amount is less than nothing"));
  *value_out = value / per_m;
  return TRUE;
}

static gboolean
read_day (Table *table, const FrCsvRow *row)
{
  g_autofree char *date = cell (table, row, DATE), *rain_mark = cell (table, row, RAIN_MARK);
  FrWeatherDay day = fr_weather_day ((FrDate){ 0 });
  gint second, offset_s;
  gboolean has_offset;

  if (!fr_csv_read_date (date, &day.date, &second, &offset_s, &has_offset))
    {
      g_autofree char *quoted = fr_json_quote (date);

      return fr_weather_fail_cell (table->error, row->line, names[DATE][0], _ ("“%s” is no day; write it as year-month-day, as in 2026-03-19"), quoted);
    }
  if (!read_extreme (table, row, LOW, LOW_MARK, &day.low_c, &day.low_mark)
      || !read_extreme (table, row, HIGH, HIGH_MARK, &day.high_c, &day.high_mark) || !read_amount (table, row, RAIN, 1000, &day.rain_m)
      || !read_amount (table, row, SNOW, 100, &day.snow_m))
    return FALSE;
  if (strcmp (rain_mark, "T") == 0)
    {
      day.rain_m = 0;
      table->weather->n_trace++;
    }
  g_array_append_val (table->weather->days, day);
  return TRUE;
}

/* NAN for what is no such number. */
static double
place_number (const char *text, double min, double max)
{
  double value;

  return fr_weather_cell_number (text, &value) && value >= min && value <= max ? value : NAN;
}

static void
read_place (Table *table, const FrCsvRow *row)
{
  g_autofree char *latitude = cell (table, row, LATITUDE), *longitude = cell (table, row, LONGITUDE), *name = cell (table, row, STATION_NAME),
                  *id = cell (table, row, CLIMATE_ID);
  FrWeather *weather = table->weather;

  weather->latitude_deg = place_number (latitude, -90, 90);
  weather->longitude_deg = place_number (longitude, -180, 180);
  weather->place_name = *name != '\0' ? g_steal_pointer (&name) : NULL;
  weather->station = *id != '\0' ? g_steal_pointer (&id) : NULL;
}

/* Lines about the station, "Latitude","45.38", in older files. */
static void
read_preamble (Table *table, GPtrArray *rows, gint head)
{
  FrWeather *weather = table->weather;

  for (gint i = 0; i < head; i++)
    {
      const FrCsvRow *row = rows->pdata[i];
      const char *key = row->cells->pdata[0], *text = row->cells->len > 1 ? row->cells->pdata[1] : "";

      if (strcmp (key, "Station Name") == 0 && *text != '\0')
        {
          g_free (weather->place_name);
          weather->place_name = g_strdup (text);
        }
      else if (strcmp (key, "Climate Identifier") == 0 && *text != '\0')
        {
          g_free (weather->station);
          weather->station = g_strdup (text);
        }
      else if (strcmp (key, "Latitude") == 0)
        weather->latitude_deg = place_number (text, -90, 90);
      else if (strcmp (key, "Longitude") == 0)
        weather->longitude_deg = place_number (text, -180, 180);
      else if (strcmp (key, "Elevation") == 0)
        weather->altitude_m = place_number (text, -500, 9000);
    }
}

/* Days to come are empty. */
static void
drop_empty_end (GArray *days)
{
  while (days->len > 0)
    {
      const FrWeatherDay *last = &g_array_index (days, FrWeatherDay, days->len - 1);

      if (!isnan (last->low_c) || !isnan (last->high_c) || !isnan (last->rain_m) || !isnan (last->snow_m))
        break;
      g_array_set_size (days, days->len - 1);
    }
}

FrWeather *
fr_eccc_read (GPtrArray *rows, gint head, const FrWeatherColumns *choice, GError **error)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_ECCC_DAILY);
  Table table = { .weather = weather, .error = error };

  find_columns (rows->pdata[head], table.index);
  read_preamble (&table, rows, head);
  for (guint i = (guint)head + 1; i < rows->len; i++)
    {
      g_autofree char *id = cell (&table, rows->pdata[i], CLIMATE_ID);

      if (i == (guint)head + 1 && table.index[STATION_NAME] >= 0)
        read_place (&table, rows->pdata[i]);
      if (*id != '\0' && g_strcmp0 (id, weather->station) != 0)
        {
          fr_weather_fail (error, ((FrCsvRow *)rows->pdata[i])->line, "%s", _ ("the file holds several stations; read a file of one"));
          return NULL;
        }
      if (!read_day (&table, rows->pdata[i]))
        return NULL;
    }
  drop_empty_end (weather->days);
  if (weather->days->len == 0)
    {
      fr_weather_wrong (error, "%s", _ ("the file has no day with a value"));
      return NULL;
    }
  weather->attribution = g_strdup ("Environment and Climate Change Canada");
  fr_weather_finish (weather);
  return g_steal_pointer (&weather);
}
