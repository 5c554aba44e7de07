/* A household's time zone within a calendar file (RFC 5545, 3.6.5). */
#pragma once

#include "domain/units/zone.h"

#include <libical/ical.h>

G_BEGIN_DECLS

/* The zone with every change of the clock from the one in force when @first_year begins to the last of
 * @last_year, years 1 to FR_ICAL_YEAR_MAX. */
icalcomponent *
fr_calendar_zone_new (const FrZoneTable *zone, gint first_year, gint last_year);

/* The local time at an instant, named by the zone, as @make (icalproperty_new_dtstart, …) has it. */
icalproperty *
fr_calendar_zone_time (const FrZoneTable *zone, gint64 utc_s, icalproperty *(*make) (struct icaltimetype));

G_END_DECLS
