/* The kept text of a price plan as rows to edit, and back. */
#include "models/price-rows.h"

#include <math.h>
#include <string.h>

static gboolean
read_day (const char *text, gint *month_out, gint *day_out)
{
  /* A leap year, so that 02-29 is a day. */
  g_autofree char *iso = g_strconcat ("2000-", text, NULL);
  FrDate date;

  if (strlen (text) != 5 || !fr_date_parse (iso, &date))
    return FALSE;
  *month_out = date.month;
  *day_out = date.day;
  return TRUE;
}

static gboolean
read_row (const char *line, FrTariffPeriod *row)
{
  g_auto (GStrv) all = g_strsplit_set (line, " \t", -1);
  const char *words[7] = { NULL };
  char *end = NULL;
  guint n = 0;

  for (guint i = 0; all[i] != NULL; i++)
    if (*all[i] != '\0')
      {
        if (n == 6)
          return FALSE;
        words[n++] = all[i];
      }
  if (n != 6 || !read_day (words[0], &row->from_month, &row->from_day)
      || !read_day (words[1], &row->to_month, &row->to_day) || !fr_days_from_code (words[2], &row->days)
      || !fr_clock_parse (words[3], &row->from_min) || !fr_clock_parse (words[4], &row->to_min))
    return FALSE;
  row->price_per_kwh = g_ascii_strtod (words[5], &end);
  return *end == '\0' && isfinite (row->price_per_kwh);
}

GArray *
fr_price_rows_parse (const char *text, guint *bad_line_out)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, TRUE, sizeof (FrTariffPeriod));
  g_auto (GStrv) lines = g_strsplit (text != NULL ? text : "", "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    {
      FrTariffPeriod row = { 0 };
      char *line = g_strstrip (lines[i]);

      if (*line == '\0' || *line == '#')
        continue;
      if (!read_row (line, &row))
        {
          *bad_line_out = i + 1;
          return NULL;
        }
      g_array_append_val (rows, row);
    }
  return g_steal_pointer (&rows);
}

char *
fr_price_clock_text (gint minutes)
{
  return g_strdup_printf ("%02d:%02d", minutes / 60, minutes % 60);
}

char *
fr_price_rows_text (GArray *rows)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < rows->len; i++)
    {
      const FrTariffPeriod *row = &g_array_index (rows, FrTariffPeriod, i);
      g_autofree char *from = fr_price_clock_text (row->from_min);
      g_autofree char *to = fr_price_clock_text (row->to_min);
      char number[G_ASCII_DTOSTR_BUF_SIZE];

      if (!isfinite (row->price_per_kwh))
        return NULL;
      g_ascii_formatd (number, sizeof number, "%.10g", row->price_per_kwh);
      g_string_append_printf (text, "%02d-%02d %02d-%02d %s %s %s %s\n", row->from_month, row->from_day,
                              row->to_month, row->to_day, fr_days_code (row->days), from, to, number);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

gboolean
fr_price_rows_same_season (const FrTariffPeriod *a, const FrTariffPeriod *b)
{
  return a->from_month == b->from_month && a->from_day == b->from_day && a->to_month == b->to_month
         && a->to_day == b->to_day;
}
