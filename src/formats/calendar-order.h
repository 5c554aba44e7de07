/* What all forms of the calendar share: which events can be written, and in what order. */
#pragma once

#include "formats/calendar-file.h"

G_BEGIN_DECLS

/* Whether every event is as FrCalendarEvent says and no uid comes twice. */
gboolean
fr_calendar_is_sound (const FrCalendarEvent *events, guint n, const FrZoneTable *zone);

/* By first local day, whole days first, then by time and uid: pointers into @events. Free with
 * g_ptr_array_unref. */
GPtrArray *
fr_calendar_order (const FrCalendarEvent *events, guint n, const FrZoneTable *zone);

G_END_DECLS
