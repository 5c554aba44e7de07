/* What a tree gave, a column a season. The pointer or the arrow keys choose a season, which is then read out.
 */
#pragma once

#include <gtk/gtk.h>

#include "domain/plan/bush.h"
#include "words/say.h"

G_BEGIN_DECLS

#define FR_TYPE_SEASON_BARS (fr_season_bars_get_type ())
G_DECLARE_FINAL_TYPE (FrSeasonBars, fr_season_bars, FR, SEASON_BARS, GtkWidget)

GtkWidget *
fr_season_bars_new (void);

/* @history: elements FrTreeSeason, copied; @season: the one that is still open, outlined. */
void
fr_season_bars_set (FrSeasonBars *self, const GArray *history, guint season, FrTreeGroup group,
                    const FrSay *say);

G_END_DECLS
