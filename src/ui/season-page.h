/* The season: its calendar, the log of what was gathered, the sap in store, the days ahead. The page holds the views and the actions on them, prefix
 * "season.".
 *
 * Signals: "head-changed" (): what stands in the header bar for this page differs */
#pragma once

#include "models/forecast.h"
#include "models/sugarbush.h"
#include "ui/fold-bin.h"

G_BEGIN_DECLS

#define FR_TYPE_SEASON_PAGE (fr_season_page_get_type ())
G_DECLARE_FINAL_TYPE (FrSeasonPage, fr_season_page, FR, SEASON_PAGE, FrFoldBin)

/* @bush: the sugarbush page's, whose walk is an order for the log. */
FrSeasonPage *fr_season_page_new (FrBook *book, FrSugarbush *bush);

FrSeason *fr_season_page_get_season (FrSeasonPage *self);
FrForecaster *fr_season_page_get_forecaster (FrSeasonPage *self);

/* For the header bar: "Season of 2026" (free it); the switcher of the views, NULL while the title is to be shown; the buttons. */
char *fr_season_page_subtitle (FrSeasonPage *self);
GtkWidget *fr_season_page_views (FrSeasonPage *self);
GtkWidget *fr_season_page_action (FrSeasonPage *self);
GActionGroup *fr_season_page_actions (FrSeasonPage *self);

/* "calendar", "log", "store", "forecast". */
void fr_season_page_show_view (FrSeasonPage *self, const char *name);

G_END_DECLS
