/* The view "Calendar": what the season has come to, always in sight; the season as one picture or month by month; the selected day beside
 * it; the checklist of the kit; seasons before.
 *
 * Signals: "open-log" (gint64 day, guint round): as the day panel's */
#pragma once

#include "models/season.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_CALENDAR_VIEW (fr_calendar_view_get_type ())
G_DECLARE_FINAL_TYPE (FrCalendarView, fr_calendar_view, FR, CALENDAR_VIEW, AdwBin)

GtkWidget *fr_calendar_view_new (FrSeason *season);

/* The month, or the whole season. */
void fr_calendar_view_show_month (FrCalendarView *self, gboolean month);

G_END_DECLS
