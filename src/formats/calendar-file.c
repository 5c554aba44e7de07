/* A calendar file (RFC 5545; its name by RFC 7986), put together by libical.
 *
 * A calendar that reads the file again finds each event by its UID and takes the one of the later DTSTAMP
 * (RFC 5546, 2.1.5, when SEQUENCE is the same): both it and LAST-MODIFIED say when the event's content last
 * changed. There is no METHOD, which would make the file an invitation and ask for an organizer. DTEND is the
 * day after the last of an event of whole days, and is absent for a moment (3.6.1). */
#include "formats/calendar-file.h"

#include "formats/calendar-order.h"
#include "formats/calendar-zone.h"
#include "formats/ical-parts.h"

static gboolean
happens_twice (const FrZoneTable *zone, gint64 utc_s)
{
  const FrLocalTime local = fr_zone_local (zone, utc_s);
  gint64 first, second;

  return fr_zone_instant (zone, local.date, local.second_of_day, &first, &second) == FR_ZONE_TWICE;
}

static gboolean
is_in_zone (const FrCalendarEvent *event, const FrZoneTable *zone)
{
  return !event->all_day && !g_str_equal (fr_zone_table_name (zone), "UTC")
         && !happens_twice (zone, event->start_utc) && !happens_twice (zone, event->end_utc);
}

static struct icaltimetype
ical_date (FrDate date)
{
  return (struct icaltimetype){ .year = date.year, .month = date.month, .day = date.day, .is_date = 1 };
}

static void
add_times (icalcomponent *component, const FrCalendarEvent *event, const FrZoneTable *zone)
{
  icalproperty *start, *end = NULL;

  if (event->all_day)
    {
      start = icalproperty_new_dtstart (ical_date (event->first));
      end = icalproperty_new_dtend (ical_date (fr_date_add_days (event->last, 1)));
    }
  else if (is_in_zone (event, zone))
    {
      start = fr_calendar_zone_time (zone, event->start_utc, icalproperty_new_dtstart);
      if (event->end_utc > event->start_utc)
        end = fr_calendar_zone_time (zone, event->end_utc, icalproperty_new_dtend);
    }
  else
    {
      start = icalproperty_new_dtstart (fr_ical_utc (event->start_utc));
      if (event->end_utc > event->start_utc)
        end = icalproperty_new_dtend (fr_ical_utc (event->end_utc));
    }
  icalcomponent_add_property (component, start);
  if (end != NULL)
    icalcomponent_add_property (component, end);
}

/* CATEGORIES is a list, and libical does not escape its commas and semicolons. */
static icalproperty *
category_property (const char *text)
{
  g_autofree char *one = g_strdelimit (g_strdup (text), ",;", '/');

  return icalproperty_new_categories (one);
}

static icalcomponent *
component_of_event (const FrCalendarEvent *event, const FrZoneTable *zone)
{
  icalcomponent *component = icalcomponent_new_vevent ();

  fr_ical_add_text (component, icalproperty_new_uid, event->uid);
  icalcomponent_add_property (component, icalproperty_new_dtstamp (fr_ical_utc (event->changed_utc)));
  icalcomponent_add_property (component, icalproperty_new_lastmodified (fr_ical_utc (event->changed_utc)));
  add_times (component, event, zone);
  fr_ical_add_text (component, icalproperty_new_summary, event->summary);
  fr_ical_add_text (component, icalproperty_new_description, event->description);
  fr_ical_add_text (component, category_property, event->category);
  fr_ical_add_text (component, icalproperty_new_location, event->place);
  fr_ical_add_transparent (component);
  if (event->alarm_lead_min >= 0)
    fr_ical_add_ring (component, event->summary, event->alarm_lead_min);
  return component;
}

/* The zone for the local years of the events written in it; none when there are no such. */
static void
add_zone (icalcomponent *calendar, const FrCalendarEvent *events, guint n, const FrZoneTable *zone)
{
  gint first_year = G_MAXINT, last_year = 0;

  for (guint i = 0; i < n; i++)
    if (is_in_zone (&events[i], zone))
      {
        first_year = MIN (first_year, fr_zone_local (zone, events[i].start_utc).date.year);
        last_year = MAX (last_year, fr_zone_local (zone, events[i].end_utc).date.year);
      }
  if (last_year > 0)
    icalcomponent_add_component (calendar, fr_calendar_zone_new (zone, first_year, last_year));
}

char *
fr_calendar_file_write (const FrCalendarEvent *events, guint n, const FrZoneTable *zone,
                        const char *calendar_name)
{
  g_autoptr (GPtrArray) order = NULL;
  icalcomponent *calendar;

  g_return_val_if_fail (zone != NULL && (events != NULL || n == 0), NULL);
  g_return_val_if_fail (calendar_name == NULL || g_utf8_validate (calendar_name, -1, NULL), NULL);
  g_return_val_if_fail (fr_calendar_is_sound (events, n, zone), NULL);

  calendar = fr_ical_calendar_new ();
  fr_ical_add_text (calendar, icalproperty_new_name, calendar_name);
  add_zone (calendar, events, n, zone);
  order = fr_calendar_order (events, n, zone);
  for (guint i = 0; i < n; i++)
    icalcomponent_add_component (calendar, component_of_event (g_ptr_array_index (order, i), zone));
  return fr_ical_finish (calendar);
}
