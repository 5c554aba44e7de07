/* What every iCalendar text of the program is put together from (RFC 5545). libical escapes, folds and ends
 * lines; these parts keep from it what the format cannot hold. */
#pragma once

#include <glib.h>
#include <libical/ical.h>

G_BEGIN_DECLS

/* Who wrote the file; by it the program knows its own again. */
#define FR_ICAL_PRODID "-//Frostrun//Frostrun//EN"

/* The longest lead of a ringing alarm. */
#define FR_ICAL_LEAD_MAX_MIN (G_MAXINT / 60)

/* The last year that is written; the first is 1. */
#define FR_ICAL_YEAR_MAX 3000

/* Whether the instant lies in these years, in UTC. */
gboolean
fr_ical_instant_fits (gint64 utc_s);

struct icaltimetype
fr_ical_utc (gint64 utc_s);

/* Line ends of any kind, Unicode's too, become \n; other control characters but tabs are left out. @text is
 * valid UTF-8. Free the result. */
char *
fr_ical_plain_text (const char *text);

/* An empty calendar, said to be this program's. */
icalcomponent *
fr_ical_calendar_new (void);

/* Adds what @make (icalproperty_new_summary, …) makes of plain @text; nothing when that is NULL or empty. */
void
fr_ical_add_text (icalcomponent *component, icalproperty *(*make) (const char *), const char *text);

/* Marks @event as no appointment: it does not show the person as busy. */
void
fr_ical_add_transparent (icalcomponent *event);

/* A message @lead_min before the event begins, 0 to FR_ICAL_LEAD_MAX_MIN. */
void
fr_ical_add_ring (icalcomponent *event, const char *summary, gint lead_min);

/* The text, lines ending in CR LF and folded at 75 octets. Frees @calendar; free the text. */
char *
fr_ical_finish (icalcomponent *calendar);

G_END_DECLS
