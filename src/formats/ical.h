/* Timed alarms as an iCalendar text, for a phone. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * FrAlarm:
 * @uid: the same for the same alarm each time it is written, so that a calendar replaces it
 * @utc_s: the moment, UTC seconds, years 1 to 3000
 * @summary: one line, not empty
 * @description: more, or NULL or ""; lines end in \n
 * @lead_min: minutes before @utc_s at which to ring, 0 or more
 */
typedef struct
{
  const char *uid;
  gint64 utc_s;
  const char *summary;
  const char *description;
  gint lead_min;
} FrAlarm;

/**
 * fr_ical_write:
 * @alarms: (array length=n_alarms): valid UTF-8; control characters other than line ends and tabs, which the
 * format cannot hold, are left out
 * @stamp_utc_s: when this text was made, UTC seconds
 *
 * One event of five minutes with one ringing alarm each. Moments are written in UTC, so no change of the
 * clocks and no zone of the phone moves them.
 *
 * Returns: (transfer full): RFC 5545 text in UTF-8, lines ending in CR LF and folded at 75 octets.
 */
char *
fr_ical_write (const FrAlarm *alarms, guint n_alarms, gint64 stamp_utc_s);

G_END_DECLS
