/* The season so far as a drawing, and the fan it may go on in. It follows the day that is chosen in the chart over it and is told of in words
 * beside it, so the keyboard passes it by. */
#pragma once

#include "models/forecast.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define FR_TYPE_FORECAST_SEASON_VIEW (fr_forecast_season_view_get_type ())
G_DECLARE_FINAL_TYPE (FrForecastSeasonView, fr_forecast_season_view, FR, FORECAST_SEASON_VIEW, GtkWidget)

GtkWidget *fr_forecast_season_view_new (void);

/* @forecast is borrowed until the next call; NULL draws nothing. @past: of the season before, or NULL; copied. */
void fr_forecast_season_view_set (FrForecastSeasonView *self, const FrForecast *forecast, guint season, const FrSeasonView *past,
                                  const FrSay *say);
void fr_forecast_season_view_set_selected (FrForecastSeasonView *self, FrDate date);

G_END_DECLS
