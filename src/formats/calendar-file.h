/* A household's calendar as one iCalendar file (RFC 5545) that other calendars read again and again. */
#pragma once

#include "domain/units/zone.h"

G_BEGIN_DECLS

/**
 * FrCalendarEvent:
 * @uid: the same for the same thing each time it is written, so that a calendar replaces it; no two events of
 * a file share one
 * @all_day: it takes whole days, @first to @last; else it goes from @start_utc to @end_utc
 * @first: local date, all_day only
 * @last: local date, the last day it takes, from @first to the day before the last of the year 3000
 * @start_utc: UTC seconds, years 1 to 3000 in UTC and by the local clock
 * @end_utc: the same, not before @start_utc; equal to it for a moment
 * @changed_utc: when what it tells last changed, in whatever member; among two of one @uid a calendar takes
 * the one changed later. Not the clock: the same events give the same bytes
 * @summary: one line that shows something
 * @description: more, or NULL or ""; lines end in \n
 * @category: one word or two to sort by, or NULL or ""
 * @place: or NULL or ""
 * @alarm_lead_min: minutes before the event begins (a whole day begins at midnight) at which to ring, 0 or
 * more; −1 for no alarm
 *
 * Texts are valid UTF-8.
 */
typedef struct
{
  const char *uid;
  gboolean all_day;
  FrDate first;
  FrDate last;
  gint64 start_utc;
  gint64 end_utc;
  gint64 changed_utc;
  const char *summary;
  const char *description;
  const char *category;
  const char *place;
  gint alarm_lead_min;
} FrCalendarEvent;

/* Whether an event is as said above; one made from records may have an absurd year. */
gboolean
fr_calendar_event_is_sound (const FrCalendarEvent *event, const FrZoneTable *zone);

/**
 * fr_calendar_file_write:
 * @events: (array length=n): all of them sound, in any order
 * @zone: right for the years of the events
 * @calendar_name: or NULL or ""
 *
 * Events are sorted by their first local day, whole days first, then by time and uid; the text depends on
 * nothing but the arguments. Times are written in the household's zone, with its changes of the clock for all
 * years of the events, so that a reader needs no rules of its own. A local time that happens twice (autumn)
 * means the first in RFC 5545, and readers differ; an event that begins or ends in one is written in UTC. So
 * are all when the zone is "UTC". Control characters other than line ends and tabs, which the format cannot
 * hold, are left out; commas and semicolons in @category, which would make two of it, become slashes.
 *
 * Returns: (transfer full): text in UTF-8, lines ending in CR LF and folded at 75 octets.
 */
char *
fr_calendar_file_write (const FrCalendarEvent *events, guint n, const FrZoneTable *zone,
                        const char *calendar_name);

G_END_DECLS
