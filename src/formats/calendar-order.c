/* The order of a calendar's events. Uids differ, so no two events are equal and the order is one. */
#include "formats/calendar-order.h"

#include "formats/ical-parts.h"

#include <string.h>

static gboolean
is_text (const char *text)
{
  return text == NULL || g_utf8_validate (text, -1, NULL);
}

static gboolean
shows_something (const char *text)
{
  g_autofree char *plain = text != NULL && is_text (text) ? fr_ical_plain_text (text) : NULL;

  return plain != NULL && *plain != '\0';
}

static gboolean
has_local_date (gint64 utc_s, const FrZoneTable *zone)
{
  gint year;

  if (!fr_ical_instant_fits (utc_s))
    return FALSE;
  year = fr_zone_local (zone, utc_s).date.year;
  return year >= 1 && year <= FR_ICAL_YEAR_MAX;
}

gboolean
fr_calendar_event_is_sound (const FrCalendarEvent *event, const FrZoneTable *zone)
{
  g_return_val_if_fail (event != NULL && zone != NULL, FALSE);

  if (!shows_something (event->uid) || !shows_something (event->summary) || !is_text (event->description)
      || !is_text (event->category) || !is_text (event->place))
    return FALSE;
  if (!fr_ical_instant_fits (event->changed_utc) || event->alarm_lead_min < -1
      || event->alarm_lead_min > FR_ICAL_LEAD_MAX_MIN)
    return FALSE;
  if (event->all_day)
    return fr_date_is_valid (event->first) && fr_date_is_valid (event->last)
           && event->last.year <= FR_ICAL_YEAR_MAX && fr_date_compare (event->first, event->last) <= 0
           && fr_date_add_days (event->last, 1).year <= FR_ICAL_YEAR_MAX;
  return event->start_utc <= event->end_utc && has_local_date (event->start_utc, zone)
         && has_local_date (event->end_utc, zone);
}

gboolean
fr_calendar_is_sound (const FrCalendarEvent *events, guint n, const FrZoneTable *zone)
{
  g_autoptr (GHashTable) uids = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < n; i++)
    if (!fr_calendar_event_is_sound (&events[i], zone) || !g_hash_table_add (uids, (gpointer)events[i].uid))
      return FALSE;
  return TRUE;
}

static FrDate
first_day (const FrCalendarEvent *event, const FrZoneTable *zone)
{
  return event->all_day ? event->first : fr_zone_local (zone, event->start_utc).date;
}

static gint
compare_events (gconstpointer a, gconstpointer b, gpointer zone)
{
  const FrCalendarEvent *one = *(const FrCalendarEvent *const *)a;
  const FrCalendarEvent *other = *(const FrCalendarEvent *const *)b;
  gint order = fr_date_compare (first_day (one, zone), first_day (other, zone));

  if (order == 0 && one->all_day != other->all_day)
    order = one->all_day ? -1 : 1;
  if (order == 0 && !one->all_day && one->start_utc != other->start_utc)
    order = one->start_utc < other->start_utc ? -1 : 1;
  return order != 0 ? order : strcmp (one->uid, other->uid);
}

GPtrArray *
fr_calendar_order (const FrCalendarEvent *events, guint n, const FrZoneTable *zone)
{
  GPtrArray *order = g_ptr_array_sized_new (n);

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (order, (gpointer)&events[i]);
  g_ptr_array_sort_with_data (order, compare_events, (gpointer)zone);
  return order;
}
