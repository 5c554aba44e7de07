/* GHCN-Daily as the archive's access form gives it: a day a row, quoted, with the station's place in each row; every element has a column
 * and one with its marks, ELEMENT_ATTRIBUTES: "M,Q,S" and, for some, the time of reading. Values are in tenths, as in the other forms. */
#include "formats/weather-private.h"

#include "formats/csv-time.h"
#include "formats/field-text.h"
#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* These six, in this order, tell the form apart from others of the same archive, whose units are chosen when they are ordered. */
static const char *const head[] = { "STATION", "DATE", "LATITUDE", "LONGITUDE", "ELEVATION", "NAME" };
static const char *const elements[] = { "TMAX", "TMIN", "PRCP", "SNWD" };

#define ELEVATION_MIN_M -500
#define ELEVATION_MAX_M 9000

gboolean
fr_ghcnd_table_looks_like (GPtrArray *rows)
{
  const FrCsvRow *row = rows->pdata[0];

  for (guint i = 0; i < G_N_ELEMENTS (head); i++)
    if (i >= row->cells->len || strcmp (row->cells->pdata[i], head[i]) != 0)
      return FALSE;
  return TRUE;
}

static gint
find (const FrCsvRow *row, const char *name)
{
  for (guint i = 0; i < row->cells->len; i++)
    if (strcmp (row->cells->pdata[i], name) == 0)
      return (gint)i;
  return -1;
}

static const char *
cell (const FrCsvRow *row, gint index)
{
  return index >= 0 && (guint)index < row->cells->len ? row->cells->pdata[index] : "";
}

static double
place_number (const FrCsvRow *row, gint index, double min, double max)
{
  double value;

  return fr_decimal_read (cell (row, index), 0, &value) && value >= min && value <= max ? value : NAN;
}

static gboolean
read_element (FrGhcnd *ghcnd, const FrCsvRow *names, const FrCsvRow *row, FrGhcndSpot *spot)
{
  g_autofree char *attributes_name = g_strdup_printf ("%s_ATTRIBUTES", spot->element);
  const char *text = cell (row, find (names, spot->element));
  g_auto (GStrv) marks = g_strsplit (cell (row, find (names, attributes_name)), ",", -1);
  const guint n = g_strv_length (marks);
  gint value;

  if (!fr_ghcnd_whole (text, strlen (text), &value))
    {
      g_autofree char *quoted = fr_json_quote (text);

      return fr_weather_fail_cell (ghcnd->error, row->line, spot->element, _ ("“%s” is no whole number in tenths"), quoted);
    }
  return fr_ghcnd_put (ghcnd, spot, value, n > 0 && *marks[0] != '\0' ? *marks[0] : ' ', n > 1 && *marks[1] != '\0' ? *marks[1] : ' ',
                       n > 3 ? marks[3] : "");
}

static gboolean
read_row (FrGhcnd *ghcnd, const FrCsvRow *names, const FrCsvRow *row)
{
  FrGhcndSpot spot = { .line = row->line };
  gint second, offset_s;
  gboolean has_offset, is_wanted;

  if (!fr_ghcnd_station (ghcnd, cell (row, 0), row->line, &is_wanted) || !is_wanted)
    return !is_wanted;
  if (!fr_csv_read_date (cell (row, 1), &spot.date, &second, &offset_s, &has_offset))
    {
      g_autofree char *quoted = fr_json_quote (cell (row, 1));

      return fr_weather_fail_cell (ghcnd->error, row->line, head[1], _ ("“%s” is no day; write it as year-month-day, as in 2026-03-19"), quoted);
    }
  ghcnd->weather->latitude_deg = place_number (row, 2, -90, 90);
  ghcnd->weather->longitude_deg = place_number (row, 3, -180, 180);
  ghcnd->weather->altitude_m = place_number (row, 4, ELEVATION_MIN_M, ELEVATION_MAX_M);
  if (ghcnd->weather->place_name == NULL && *cell (row, 5) != '\0')
    ghcnd->weather->place_name = g_strdup (cell (row, 5));
  for (guint i = 0; i < G_N_ELEMENTS (elements); i++)
    {
      spot.element = elements[i];
      if (!read_element (ghcnd, names, row, &spot))
        return FALSE;
    }
  return TRUE;
}

FrWeather *
fr_ghcnd_table_read (GPtrArray *rows, const FrWeatherColumns *choice, GError **error)
{
  g_auto (FrGhcnd) ghcnd = { 0 };
  g_autoptr (FrWeather) weather = fr_ghcnd_begin (&ghcnd, FR_WEATHER_GHCND_TABLE, choice, error);

  for (guint i = 1; i < rows->len; i++)
    if (!read_row (&ghcnd, rows->pdata[0], rows->pdata[i]))
      return NULL;
  return fr_ghcnd_end (&ghcnd, weather) != NULL ? g_steal_pointer (&weather) : NULL;
}
