/* One day of the forecast, read out beside the chart. */
#pragma once

#include <adwaita.h>

#include "words/forecast-day-words.h"

G_BEGIN_DECLS

#define FR_TYPE_FORECAST_PANEL (fr_forecast_panel_get_type ())
G_DECLARE_FINAL_TYPE (FrForecastPanel, fr_forecast_panel, FR, FORECAST_PANEL, AdwBin)

GtkWidget *fr_forecast_panel_new (void);

/**
 * fr_forecast_panel_set:
 * @words: (nullable): the day; NULL shows that there is none
 * @notes: (element-type utf8): sentences below, such as what was learned
 */
void fr_forecast_panel_set (FrForecastPanel *self, const FrForecastDayWords *words, const GPtrArray *notes);

G_END_DECLS
