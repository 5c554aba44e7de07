/* One event of a household's calendar, as other calendars take it. */
#pragma once

#include "domain/units/calendar.h"

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

G_END_DECLS
