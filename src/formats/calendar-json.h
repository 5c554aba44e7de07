/* A household's calendar as JSON, for programs. */
#pragma once

#include "formats/calendar-file.h"

G_BEGIN_DECLS

/**
 * fr_calendar_to_json:
 * @events: (array length=n): as for fr_calendar_file_write, and in its order
 * @zone: the household's
 * @calendar_name: or NULL
 *
 * Returns: (transfer full): the text; docs/json.md has its keys
 */
char *
fr_calendar_to_json (const FrCalendarEvent *events, guint n, const FrZoneTable *zone,
                     const char *calendar_name);

G_END_DECLS
