/* Days and moments of a table's rows. The order of day and month in dates with slashes is told by the whole column; where nothing tells, they
 * are refused and not guessed at. */
#include "formats/weather-csv-private.h"

#include "formats/csv-time.h"
#include "formats/json-text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

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
FrWeatherOrder
fr_weather_table_order (const FrWeatherTable *table)
{
  guint orders = 0;

  for (guint i = 0; i < table->rows->len; i++)
    {
      g_autofree char *text = fr_weather_table_cell (table, table->rows->pdata[i], table->use.index[FR_WEATHER_COLUMN_DATE]);
      const char *rest;
      gint a, b, year;

      if (!split_year_last (text, &a, &b, &year, &rest))
        continue;
      if (a > 12 || strchr (text, '.') == text + 1 || strchr (text, '.') == text + 2)
        orders |= FR_WEATHER_ORDER_DAY_FIRST;
      if (b > 12)
        orders |= FR_WEATHER_ORDER_MONTH_FIRST;
    }
  return orders;
}

/* The same with the year first. Free it. */
static char *
with_year_first (const char *text, FrWeatherOrder order)
{
  gint a, b, year;
  const char *rest;

  if (split_year_last (text, &a, &b, &year, &rest))
    return g_strdup_printf ("%04d-%02d-%02d%s", year, order == FR_WEATHER_ORDER_DAY_FIRST ? b : a, order == FR_WEATHER_ORDER_DAY_FIRST ? a : b, rest);
  if (split_year_first (text, &year, &a, &b, &rest))
    return g_strdup_printf ("%04d-%02d-%02d%s", year, a, b, rest);
  return g_strdup (text);
}

gboolean
fr_weather_table_when (const FrWeatherTable *table, const FrCsvRow *row, FrWeatherWhen *when_out)
{
  const gint index = table->use.index[FR_WEATHER_COLUMN_DATE], clock_index = table->use.index[FR_WEATHER_COLUMN_CLOCK];
  g_autofree char *text = fr_weather_table_cell (table, row, index), *clock = fr_weather_table_cell (table, row, clock_index),
                  *iso = with_year_first (text, table->order), *quoted = fr_json_quote (text), *sentence = NULL;
  const char *rest;
  gint a, b, year;

  *when_out = (FrWeatherWhen){ .second = -1 };
  if (split_year_last (text, &a, &b, &year, &rest) && (table->order == FR_WEATHER_ORDER_UNKNOWN || table->order == FR_WEATHER_ORDER_BOTH))
    {
      sentence = g_strdup_printf (table->order == FR_WEATHER_ORDER_BOTH
                                      ? _ ("some dates have the day first, others the month (as “%s”); write them as year-month-day")
                                      : _ ("whether day or month comes first in “%s” does not show anywhere in the table; write dates as year-month-day"),
                                  quoted);
      return fr_weather_table_fail (table, row, index, sentence);
    }
  if (!fr_csv_read_date (iso, &when_out->date, &when_out->second, &when_out->offset_s, &when_out->has_offset))
    {
      sentence = *text == '\0' ? g_strdup (_ ("the row has no day"))
                               : g_strdup_printf (_ ("“%s” is no day; write it as year-month-day, as in 2026-03-19"), quoted);
      return fr_weather_table_fail (table, row, index, sentence);
    }
  if (*clock != '\0' && !fr_csv_read_clock (clock, &when_out->second))
    {
      g_autofree char *bad = fr_json_quote (clock);

      sentence = g_strdup_printf (_ ("“%s” is no time of day; write it as 07:30"), bad);
      return fr_weather_table_fail (table, row, clock_index, sentence);
    }
  return TRUE;
}

gboolean
fr_weather_table_instant (const FrWeatherTable *table, const FrCsvRow *row, const FrWeatherWhen *when, gint64 before_utc, gint64 *utc_out)
{
  const gint index = table->use.index[FR_WEATHER_COLUMN_DATE];
  const gint64 plain = fr_date_to_days (when->date) * 86400 + when->second;
  gint64 second;

  if (when->second < 0)
    return fr_weather_table_fail (table, row, index, _ ("the row has no time of day, though others have"));
  if (when->has_offset || table->use.has_offset)
    {
      *utc_out = plain - (when->has_offset ? when->offset_s : table->use.offset_s);
      return TRUE;
    }
  if (table->choice == NULL || table->choice->zone == NULL)
    return fr_weather_table_fail (table, row, index,
                    _ ("the table does not say of which zone its clock is; name the zone, or give each time its offset, as in 2026-03-19T07:30-04:00"));
  switch (fr_zone_instant (table->choice->zone, when->date, when->second, utc_out, &second))
    {
    case FR_ZONE_TWICE:
      /* The hour in autumn that comes twice: the second time it is the later one. */
      if (*utc_out <= before_utc)
        *utc_out = second;
      return TRUE;
    case FR_ZONE_NEVER:
      return fr_weather_table_fail (table, row, index,
                      _ ("the zone's clock jumps over this time; a thermometer that keeps standard time needs its fixed offset as the zone, as in -05:00"));
    default:
      return TRUE;
    }
}
