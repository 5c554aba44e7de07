/* A household's calendar as one iCalendar file (RFC 5545) that other calendars read again and again. */
#pragma once

#include "domain/plan/calendar-event.h"
#include "domain/units/zone.h"

G_BEGIN_DECLS

/* Whether an event is as its description asks; one made from records may have an absurd year. */
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
