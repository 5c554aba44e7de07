/* Tables of gatherings and stock from files and into files, asked for with the desktop's file chooser. */
#pragma once

#include "models/season.h"
#include "ui/window.h"

G_BEGIN_DECLS

void fr_season_import (FrWindow *window, FrSeason *season);
/* The season looked at: its gatherings, or its containers, pours and looks. */
void fr_season_export (FrWindow *window, FrSeason *season, gboolean stock);

G_END_DECLS
