/* The small words. Clock and date follow the person's locale, units and money the household's choice. */
#include "words/say.h"

#include <glib/gi18n-lib.h>
#include <langinfo.h>
#include <math.h>
#include <string.h>

void
fr_figure_free (FrFigure *figure)
{
  if (figure == NULL)
    return;
  g_free (figure->label);
  g_free (figure->number);
  g_free (figure->unit);
  g_free (figure->note);
  g_free (figure);
}

gboolean
fr_say_locale_is_twelve_hour (void)
{
  const char *format = nl_langinfo (T_FMT);

  return strstr (format, "%r") != NULL || strstr (format, "%I") != NULL || strstr (format, "%l") != NULL;
}

static char *
format_local (const FrSay *say, gint64 utc, const char *format)
{
  FrLocalTime local = fr_zone_local (say->zone, utc);
  g_autoptr (GDateTime) time
      = g_date_time_new_utc (local.date.year, local.date.month, local.date.day, local.second_of_day / 3600,
                             local.second_of_day / 60 % 60, local.second_of_day % 60);

  return time != NULL ? g_date_time_format (time, format) : g_strdup ("–");
}

char *
fr_say_clock (const FrSay *say, gint64 utc)
{
  /* To the nearest minute, as a clock is read. */
  return format_local (say, utc + 30 - (utc + 30) % 60, say->twelve_hour ? "%-I:%M %p" : "%H:%M");
}

char *
fr_say_hour (const FrSay *say, gint64 utc)
{
  return format_local (say, utc, say->twelve_hour ? "%-I" : "%H");
}

char *
fr_say_date_as (FrDate date, const char *format)
{
  g_autoptr (GDateTime) time = g_date_time_new_utc (date.year, date.month, date.day, 12, 0, 0);

  return time != NULL ? g_date_time_format (time, format) : g_strdup ("–");
}

char *
fr_say_date (FrDate date)
{
  /* Translators: a date with its weekday, as in "Thursday 11 March"; see strftime(3) */
  return fr_say_date_as (date, _ ("%A %-e %B"));
}

char *
fr_say_weekday (FrDate date)
{
  return fr_say_date_as (date, "%A");
}

char *
fr_say_when (const FrSay *say, gint64 utc, gint64 than_utc)
{
  FrDate date = fr_zone_local (say->zone, utc).date, than = fr_zone_local (say->zone, than_utc).date;
  gint64 days = fr_date_to_days (date) - fr_date_to_days (than);
  g_autofree char *clock = fr_say_clock (say, utc), *day = NULL;

  if (days == 0)
    return g_steal_pointer (&clock);
  day = ABS (days) <= 6 ? fr_say_weekday (date) : fr_say_date (date);
  /* Translators: a day, then a clock time, as in "Sunday 14:00" */
  return g_strdup_printf (_ ("%s %s"), day, clock);
}

char *
fr_say_span (double span_s)
{
  gint minutes;

  if (!isfinite (span_s))
    return g_strdup ("–");
  minutes = (gint)lround (fabs (span_s) / 60);
  if (minutes == 0)
    return g_strdup (_ ("under a minute"));
  if (minutes < 60)
    return g_strdup_printf (_ ("%d min"), minutes);
  if (minutes >= 2 * 24 * 60)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%d day", "%d days", (minutes + 720) / 1440),
                            (minutes + 720) / 1440);
  if (minutes % 60 == 0)
    return g_strdup_printf (_ ("%d h"), minutes / 60);
  return g_strdup_printf (_ ("%d h %d min"), minutes / 60, minutes % 60);
}

char *
fr_say_amount (const FrSay *say, double value, FrQuantityKind kind, int decimals)
{
  return fr_quantity_to_string (value, kind, &say->units, decimals);
}

char *
fr_say_money (const FrSay *say, double minor)
{
  return fr_money_to_string (isnan (minor) ? G_MININT64 : fr_money_round (minor), say->currency,
                             say->units.decimal_mark);
}

char *
fr_say_number (const FrSay *say, double value, int decimals)
{
  char buffer[64], format[16];
  char *point;

  if (!isfinite (value))
    return g_strdup ("–");
  g_snprintf (format, sizeof format, "%%.%df", decimals);
  g_ascii_formatd (buffer, sizeof buffer, format, fabs (value));
  point = strchr (buffer, '.');
  if (point != NULL)
    *point = say->units.decimal_mark;
  return g_strconcat (value < 0 && strpbrk (buffer, "123456789") != NULL ? "−" : "", buffer, NULL);
}

char *
fr_say_latitude (const FrSay *say, double lat_deg)
{
  g_autofree char *number = fr_say_number (say, fabs (lat_deg), 5);

  return g_strdup_printf (lat_deg < 0 ? _ ("%s° S") : _ ("%s° N"), number);
}

char *
fr_say_longitude (const FrSay *say, double lon_deg)
{
  g_autofree char *number = fr_say_number (say, fabs (lon_deg), 5);

  return g_strdup_printf (lon_deg < 0 ? _ ("%s° W") : _ ("%s° E"), number);
}

char *
fr_say_price (const FrSay *say, double minor_per_kwh)
{
  g_autofree char *number = fr_say_number (
      say, minor_per_kwh, fabs (minor_per_kwh * 10 - round (minor_per_kwh * 10)) < 0.05 ? 1 : 2);

  return g_strdup_printf ("%s %s", number, fr_money_minor_sign (say->currency));
}

char *
fr_say_bold (char *text)
{
  g_autofree char *owned = text, *escaped = g_markup_escape_text (owned, -1);

  return g_strdup_printf ("<b>%s</b>", escaped);
}

char *
fr_say_plain (const char *markup)
{
  static const struct
  {
    const char *entity;
    char is;
  } entities[] = { { "&lt;", '<' },   { "&gt;", '>' },    { "&amp;", '&' },
                   { "&quot;", '"' }, { "&apos;", '\'' }, { "&#39;", '\'' } };
  GString *plain = g_string_new (NULL);

  for (const char *at = markup; *at != '\0';)
    {
      gboolean found = FALSE;

      if (g_str_has_prefix (at, "<b>") || g_str_has_prefix (at, "</b>"))
        {
          at = strchr (at, '>') + 1;
          continue;
        }
      for (guint i = 0; i < G_N_ELEMENTS (entities) && !found; i++)
        if (g_str_has_prefix (at, entities[i].entity))
          {
            g_string_append_c (plain, entities[i].is);
            at += strlen (entities[i].entity);
            found = TRUE;
          }
      if (!found)
        g_string_append_c (plain, *at++);
    }
  return g_string_free (plain, FALSE);
}
