/* Asks how the season or its forecast goes on paper, and saves it as PDF. */
#pragma once

#include "models/forecast-scores.h"
#include "models/season.h"
#include "ui/window.h"

G_BEGIN_DECLS

#define FR_TYPE_SEASON_PRINT (fr_season_print_get_type ())
G_DECLARE_FINAL_TYPE (FrSeasonPrint, fr_season_print, FR, SEASON_PRINT, AdwWindow)

GtkWidget *
fr_season_print_new (FrWindow *window, FrSeason *season);

/* Of the forecast and how well it did, as far as that is known when it is saved. */
GtkWidget *
fr_forecast_print_new (FrWindow *window, FrSeason *season, FrForecaster *forecaster, FrForecastScores *scores);

/* What would be saved now; NULL and @error when it cannot be made. */
GBytes *
fr_season_print_make (FrSeasonPrint *self, guint *n_pages, GError **error);

G_END_DECLS
