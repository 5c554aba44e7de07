/* The forecast: which days to empty, the days ahead with one of them read out, what the season may come to. */
#pragma once

#include "models/forecast-scores.h"

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_FORECAST_VIEW (fr_forecast_view_get_type ())
G_DECLARE_FINAL_TYPE (FrForecastView, fr_forecast_view, FR, FORECAST_VIEW, AdwBin)

GtkWidget *fr_forecast_view_new (FrSeason *season, FrForecaster *forecaster);

/* How old the weather on hand is, and of whom; NULL for nothing to say. */
void fr_forecast_view_set_weather_line (FrForecastView *self, const char *line);

/* How well it did, as it stands on the page. */
FrForecastScores *fr_forecast_view_get_scores (FrForecastView *self);

G_END_DECLS
