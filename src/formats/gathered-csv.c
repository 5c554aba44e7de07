/* Reading what was emptied, by day. */
#include "formats/gathered-csv.h"

#include "formats/weather-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A bucket a day is plenty; ten times what was ever measured of a tap is a slip of the unit. */
#define LITRES_MAX 200.0
#define DAYS_MAX 200.0

typedef struct
{
  gint date;
  gint litres;
  gint days;
} Columns;

static const char *
cell_at (const FrCsvRow *row, gint index)
{
  return index >= 0 && (guint)index < row->cells->len ? row->cells->pdata[index] : "";
}

static gint
find (const FrCsvRow *head, const char *name)
{
  for (guint i = 0; i < head->cells->len; i++)
    {
      g_autofree char *text = fr_weather_cell_text (head->cells->pdata[i]);

      if (g_ascii_strcasecmp (text, name) == 0)
        return i;
    }
  return -1;
}

static gboolean
read_number (const FrCsvRow *row, gint index, const char *name, double least, double most, double *value_out,
             GError **error)
{
  g_autofree char *text = fr_weather_cell_text (cell_at (row, index));

  *value_out = NAN;
  if (fr_weather_cell_is_absent (text))
    return TRUE;
  if (!fr_weather_cell_number (text, value_out))
    return fr_weather_fail_cell (error, row->line, name, _ ("“%s” is not a number."), text);
  if (!(*value_out >= least && *value_out <= most))
    return fr_weather_fail_cell (error, row->line, name, _ ("%s is out of range; %g to %g is possible."), text, least,
                                 most);
  return TRUE;
}

static gboolean
read_row (const FrCsvRow *row, const Columns *columns, GArray *gathered, GError **error)
{
  FrSapGathered one = { .per_tap_l = NAN, .span_days = NAN };
  g_autofree char *date = fr_weather_cell_text (cell_at (row, columns->date));

  if (!fr_date_parse (date, &one.date))
    return fr_weather_fail_cell (error, row->line, "date", _ ("“%s” is not a date such as 2026-03-19."), date);
  if (!read_number (row, columns->litres, "litres_per_tap", 0, LITRES_MAX, &one.per_tap_l, error)
      || !read_number (row, columns->days, "days", 1.0 / 24, DAYS_MAX, &one.span_days, error))
    return FALSE;
  if (gathered->len > 0)
    {
      const FrSapGathered *before = &g_array_index (gathered, FrSapGathered, gathered->len - 1);

      if (fr_date_compare (before->date, one.date) >= 0)
        return fr_weather_fail_cell (error, row->line, "date", _ ("%s does not come after the row before it."), date);
      if (isnan (one.span_days))
        one.span_days = fr_date_to_days (one.date) - fr_date_to_days (before->date);
    }
  if (isnan (one.span_days))
    one.span_days = 1;
  g_array_append_val (gathered, one);
  return TRUE;
}

GArray *
fr_gathered_read (const char *bytes, gsize length, GError **error)
{
  g_autoptr (GPtrArray) rows = fr_csv_read (bytes, length, error);
  g_autoptr (GArray) gathered = g_array_new (FALSE, FALSE, sizeof (FrSapGathered));
  Columns columns;

  if (!rows)
    return NULL;
  if (rows->len == 0)
    {
      fr_weather_fail (error, 1, _ ("the table is empty. Its first row names the columns date and litres_per_tap."));
      return NULL;
    }
  columns = (Columns){ find (rows->pdata[0], "date"), find (rows->pdata[0], "litres_per_tap"),
                       find (rows->pdata[0], "days") };
  if (columns.date < 0 || columns.litres < 0)
    {
      fr_weather_fail (error, 1, _ ("the first row has to name the columns date and litres_per_tap."));
      return NULL;
    }
  for (guint i = 1; i < rows->len; i++)
    if (!read_row (rows->pdata[i], &columns, gathered, error))
      return NULL;
  return g_steal_pointer (&gathered);
}
