/* An instant typed as a date and a clock time. A time the clocks jump over is refused and both neighbours are
 * offered. */
#include "ui/time-entry.h"

#include <glib/gi18n-lib.h>

#include "formats/zone-source.h"

static char *
clock_text (const FrZoneTable *zone, gint64 utc_s)
{
  FrLocalTime local = fr_zone_local (zone, utc_s);

  return g_strdup_printf ("%02d:%02d", local.second_of_day / 3600, local.second_of_day / 60 % 60);
}

FrZoneTable *
fr_book_zone (FrBook *book, int around_year)
{
  const FrHousehold *household = fr_book_get_household (book);

  if (household == NULL || household->zone == NULL || around_year < 1901 || around_year > 2299)
    return NULL;
  return fr_zone_table_load (household->zone, around_year - 1, around_year + 1, NULL);
}

char *
fr_time_text (FrBook *book, gint64 utc_s)
{
  g_autoptr (GDateTime) utc = utc_s != G_MININT64 ? g_date_time_new_from_unix_utc (utc_s) : NULL;
  g_autoptr (FrZoneTable) zone = NULL;
  g_autofree char *day = NULL;
  FrLocalTime local;

  if (utc == NULL)
    return g_strdup ("");
  zone = fr_book_zone (book, g_date_time_get_year (utc));
  if (zone == NULL)
    return g_date_time_format (utc, "%Y-%m-%d %H:%M UTC");
  local = fr_zone_local (zone, utc_s);
  day = fr_date_to_iso (local.date);
  return g_strdup_printf ("%s %02d:%02d", day, local.second_of_day / 3600, local.second_of_day / 60 % 60);
}

char *
fr_time_words (FrBook *book, gint64 utc_s)
{
  g_autoptr (GDateTime) utc = utc_s != G_MININT64 ? g_date_time_new_from_unix_utc (utc_s) : NULL;
  g_autoptr (FrZoneTable) zone = utc != NULL ? fr_book_zone (book, g_date_time_get_year (utc)) : NULL;
  g_autoptr (GDateTime) shown = NULL;

  if (zone == NULL)
    return fr_time_text (book, utc_s);
  /* the local clock, carried as if it were UTC, for formatting alone */
  shown = g_date_time_new_from_unix_utc (utc_s + fr_zone_local (zone, utc_s).offset_s);
  /* Translators: day of the month, month, year, clock */
  return g_date_time_format (shown, _ ("%-e %B %Y, %H:%M"));
}

gboolean
fr_time_entry_parse (FrBook *book, const char *text, gint64 *utc_out, char **reason_out)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  g_auto (GStrv) parts = NULL;
  g_autoptr (FrZoneTable) zone = NULL;
  FrDate date;
  gint minutes = 0;
  gint64 first_s, second_s;

  *utc_out = G_MININT64;
  if (*stripped == '\0')
    return TRUE;
  parts = g_strsplit_set (stripped, " T", 2);
  if (g_strv_length (parts) != 2 || !fr_date_parse (parts[0], &date)
      || !fr_clock_parse (g_strstrip (parts[1]), &minutes))
    {
      *reason_out = g_strdup (_ ("A date and a clock time are needed, for example 2027-03-11 16:20."));
      return FALSE;
    }
  zone = fr_book_zone (book, date.year);
  if (zone == NULL)
    {
      *reason_out = g_strdup (_ ("The book has no time zone yet. Enter it under Household first."));
      return FALSE;
    }
  if (fr_zone_instant (zone, date, minutes * 60, &first_s, &second_s) == FR_ZONE_NEVER)
    {
      g_autofree char *before = clock_text (zone, first_s);
      g_autofree char *after = clock_text (zone, second_s);

      *reason_out = g_strdup_printf (_ ("There is no %s that day: the clocks go forward. Type %s or %s."),
                                     parts[1], before, after);
      return FALSE;
    }
  *utc_out = first_s;
  return TRUE;
}
