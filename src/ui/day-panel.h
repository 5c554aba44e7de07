/* Everything of the selected day of the season: what was gathered, what waits, what was boiled and poured, the weather and its note, the
 * reminders that stand for it; each leads to where it is edited, or is edited here.
 *
 * Signals:
 * - "open-log" (gint64 day, guint round): the day's round is to be shown in the log; a number no round has for a new one */
#pragma once

#include "models/season.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_DAY_PANEL (fr_day_panel_get_type ())
G_DECLARE_FINAL_TYPE (FrDayPanel, fr_day_panel, FR, DAY_PANEL, AdwBin)

GtkWidget *fr_day_panel_new (FrSeason *season);

G_END_DECLS
