/* What time it is. A demonstration and its pictures hold the clock still; everything else asks the computer.
 */
#pragma once

#include <glib.h>

#include "domain/units/zone.h"

G_BEGIN_DECLS

/* Holds the clock at a local time, "2026-03-19T18:30"; FALSE when the text is none. */
gboolean
fr_clock_hold (const char *local);

/* UTC seconds now, or the instant of the held local time in @zone; a NULL zone takes it as UTC. */
gint64
fr_clock_now (const FrZoneTable *zone);

/* The local day and clock at that instant; @zone as above. */
FrLocalTime
fr_clock_local (const FrZoneTable *zone);

G_END_DECLS
