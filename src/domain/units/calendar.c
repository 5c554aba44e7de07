/* Civil days and clock times.
 *
 * Days are counted from 1970-01-01 by the usual shift of the year's start to the first of March, so that the
 * leap day falls at the end of a year and months have a linear rule (153 days in five months). Proleptic
 * Gregorian, years 1 to 9999; exact. The clock has no zone here. */
#include "domain/units/calendar.h"

#include <string.h>

#define DAYS_IN_ERA 146097  /* 400 years */
#define DAYS_TO_1970 719468 /* from 0000-03-01 */
#define FIRST_DAYS -719162  /* 0001-01-01 */
#define LAST_DAYS 2932896   /* 9999-12-31 */

static gboolean
is_leap (gint year)
{
  return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

static gint
month_length (gint year, gint month)
{
  static const gint lengths[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };

  return month == 2 && is_leap (year) ? 29 : lengths[month - 1];
}

/* A fixed number of ASCII digits; a locale's digits or a sign are not digits here. */
static gboolean
read_digits (const char *text, gsize n, gint *value_out)
{
  gint value = 0;

  for (gsize i = 0; i < n; i++)
    {
      if (!g_ascii_isdigit (text[i]))
        return FALSE;
      value = value * 10 + (text[i] - '0');
    }
  *value_out = value;
  return TRUE;
}

gboolean
fr_date_is_valid (FrDate date)
{
  return date.year >= 1 && date.year <= 9999 && date.month >= 1 && date.month <= 12 && date.day >= 1
         && date.day <= month_length (date.year, date.month);
}

gint64
fr_date_to_days (FrDate date)
{
  gint64 year, era, year_of_era, day_of_year;

  if (!fr_date_is_valid (date))
    return G_MININT64;
  year = date.month <= 2 ? date.year - 1 : date.year;
  era = year / 400; /* year is never negative here */
  year_of_era = year - era * 400;
  day_of_year = (153 * ((date.month + 9) % 12) + 2) / 5 + date.day - 1;
  return era * DAYS_IN_ERA + year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year
         - DAYS_TO_1970;
}

FrDate
fr_date_from_days (gint64 days)
{
  const FrDate none = { 0, 0, 0 };
  gint64 shifted, era, day_of_era, year_of_era, day_of_year, march_month;
  FrDate date;

  if (days < FIRST_DAYS || days > LAST_DAYS)
    return none;
  shifted = days + DAYS_TO_1970;
  era = shifted / DAYS_IN_ERA;
  day_of_era = shifted - era * DAYS_IN_ERA;
  year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
  day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  march_month = (5 * day_of_year + 2) / 153;
  date.day = (gint)(day_of_year - (153 * march_month + 2) / 5 + 1);
  date.month = (gint)(march_month < 10 ? march_month + 3 : march_month - 9);
  date.year = (gint)(year_of_era + era * 400 + (date.month <= 2 ? 1 : 0));
  return date;
}

FrDate
fr_date_add_days (FrDate date, gint days)
{
  const gint64 from = fr_date_to_days (date);

  if (from == G_MININT64)
    return (FrDate){ 0, 0, 0 };
  return fr_date_from_days (from + days);
}

gint
fr_date_weekday (FrDate date)
{
  return fr_weekday_of_days (fr_date_to_days (date));
}

gint
fr_weekday_of_days (gint64 days)
{
  if (days < FIRST_DAYS || days > LAST_DAYS)
    return 0;
  /* 1970-01-01 was a Thursday; the second remainder keeps days before it positive. */
  return (gint)(((days + 3) % 7 + 7) % 7) + 1;
}

gint
fr_date_compare (FrDate a, FrDate b)
{
  if (a.year != b.year)
    return a.year < b.year ? -1 : 1;
  if (a.month != b.month)
    return a.month < b.month ? -1 : 1;
  if (a.day != b.day)
    return a.day < b.day ? -1 : 1;
  return 0;
}

gboolean
fr_date_parse (const char *text, FrDate *date_out)
{
  FrDate date = { 0, 0, 0 };

  g_return_val_if_fail (date_out != NULL, FALSE);

  *date_out = date;
  if (text == NULL || strlen (text) != 10 || text[4] != '-' || text[7] != '-')
    return FALSE;
  if (!read_digits (text, 4, &date.year) || !read_digits (text + 5, 2, &date.month)
      || !read_digits (text + 8, 2, &date.day) || !fr_date_is_valid (date))
    return FALSE;
  *date_out = date;
  return TRUE;
}

char *
fr_date_to_iso (FrDate date)
{
  if (!fr_date_is_valid (date))
    return g_strdup ("");
  return g_strdup_printf ("%04d-%02d-%02d", date.year, date.month, date.day);
}

gboolean
fr_clock_parse (const char *text, gint *minutes_out)
{
  gint hours, minutes;
  gsize length, n_hours;

  g_return_val_if_fail (minutes_out != NULL, FALSE);

  *minutes_out = -1;
  if (text == NULL)
    return FALSE;
  length = strlen (text);
  if (length != 4 && length != 5)
    return FALSE;
  n_hours = length - 3;
  if (text[n_hours] != ':' || !read_digits (text, n_hours, &hours)
      || !read_digits (text + n_hours + 1, 2, &minutes))
    return FALSE;
  if (minutes > 59 || hours > 24 || (hours == 24 && minutes > 0))
    return FALSE;
  *minutes_out = hours * 60 + minutes;
  return TRUE;
}
