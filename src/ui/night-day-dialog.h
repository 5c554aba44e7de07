/* Written down at breakfast: how cold the night was and how warm the day before. Two entries; Enter goes from the first to the second and
 * from there keeps both, as one step of undo. */
#pragma once

#include "models/season.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_NIGHT_DAY_DIALOG (fr_night_day_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FrNightDayDialog, fr_night_day_dialog, FR, NIGHT_DAY_DIALOG, AdwWindow)

GtkWidget *fr_night_day_dialog_new (FrWindow *window, FrSeason *season);

G_END_DECLS
