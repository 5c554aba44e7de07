/* Reminders of the season as notices of the desktop, while the program runs: each once, however often the program is started, until it
 * stands no more or was put away. Nothing is sent on a desktop without a service for them, nor when the person switched them off. */
#pragma once

#include "models/season.h"

G_BEGIN_DECLS

#define FR_TYPE_SEASON_NOTICES (fr_season_notices_get_type ())
G_DECLARE_FINAL_TYPE (FrSeasonNotices, fr_season_notices, FR, SEASON_NOTICES, GObject)

/* @settings NULL: nothing is sent, for nobody could switch it off. */
FrSeasonNotices *fr_season_notices_new (GApplication *application, FrSeason *season, GSettings *settings);

G_END_DECLS
