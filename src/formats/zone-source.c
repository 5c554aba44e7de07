/* A zone table from the machine's time zone database, read through GTimeZone.
 *
 * GTimeZone numbers the intervals between changes in order of time but does not tell where they lie. The
 * number of the interval at an instant only ever grows with the instant, so each end is found by bisection to
 * the second; nothing is sampled, so no change however short is missed. Future years follow the rule at the
 * end of the zone's file.
 *
 * g_time_zone_new_identifier also reads POSIX rules and bare offsets, and runs into assertions on files that
 * are no zones; names of that shape are turned away first. All IANA names begin with a capital letter and
 * have no full stop (the naming rules in the database's own "theory" file); digits occur behind a slash and
 * in seven old names. */
#include "formats/zone-source.h"

#include <string.h>

#define DAY_S 86400

G_DEFINE_QUARK (fr - zone - source - error - quark, fr_zone_source_error)

static gboolean
is_iana_shape (const char *name)
{
  static const char *const with_digits[]
      = { "CST6CDT", "EST5EDT", "GMT+0", "GMT-0", "GMT0", "MST7MDT", "PST8PDT", NULL };

  if (!name || !g_ascii_isupper (*name) || strlen (name) > 64)
    return FALSE;
  for (const char *p = name; *p; p++)
    if (!g_ascii_isalnum (*p) && !strchr ("/_+-", *p))
      return FALSE;
  return strchr (name, '/') || !strpbrk (name, "0123456789") || g_strv_contains (with_digits, name);
}

/* UTC has days of 86,400 seconds, so counting them is right here. */
static gint64
utc_new_year (int year)
{
  return fr_date_to_days ((FrDate){ year, 1, 1 }) * DAY_S;
}

static FrZoneSpan
span_of_interval (GTimeZone *zone, int interval, gint64 from_utc)
{
  FrZoneSpan span
      = { from_utc, g_time_zone_get_offset (zone, interval), g_time_zone_is_dst (zone, interval), "" };

  g_strlcpy (span.abbreviation, g_time_zone_get_abbreviation (zone, interval), sizeof span.abbreviation);
  return span;
}

FrZoneTable *
fr_zone_table_load (const char *iana_name, int from_year, int to_year, GError **error)
{
  g_autoptr (GTimeZone) zone = NULL;
  g_autoptr (GArray) spans = NULL;
  FrZoneSpan span;
  gint64 at, end;
  int interval;

  g_return_val_if_fail (from_year >= 1900 && from_year <= to_year && to_year <= 2300, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (is_iana_shape (iana_name))
    zone = g_time_zone_new_identifier (iana_name);
  if (!zone)
    {
      g_set_error (error, FR_ZONE_SOURCE_ERROR, FR_ZONE_SOURCE_ERROR_UNKNOWN,
                   "“%s” is no time zone this machine knows; a name looks like “America/Toronto”",
                   iana_name ? iana_name : "");
      return NULL;
    }

  spans = g_array_new (FALSE, FALSE, sizeof (FrZoneSpan));
  at = utc_new_year (from_year) - 2 * DAY_S;
  end = utc_new_year (to_year + 1) + 2 * DAY_S;
  interval = g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, at);
  span = span_of_interval (zone, interval, G_MININT64);
  g_array_append_val (spans, span);
  while (g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, end) != interval)
    {
      gint64 inside = at, beyond = end;

      while (beyond - inside > 1)
        {
          gint64 middle = inside + (beyond - inside) / 2;

          if (g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, middle) == interval)
            inside = middle;
          else
            beyond = middle;
        }
      at = beyond;
      interval = g_time_zone_find_interval (zone, G_TIME_TYPE_UNIVERSAL, at);
      span = span_of_interval (zone, interval, at);
      g_array_append_val (spans, span);
    }
  return fr_zone_table_new (iana_name, &g_array_index (spans, FrZoneSpan, 0), spans->len);
}
