/* The days ahead as a drawing. The pointer or the arrow keys choose a day; who listens reads it out. It shows as many days as its width has
 * room for and moves on when a day beyond them is chosen.
 *
 * Signals:
 * - "day-selected" (gint64): days since 1970, or FR_NO_DAY when it was let go
 * - "day-activated" (gint64): by Enter or a second click */
#pragma once

#include "models/forecast.h"
#include "ui/day-walk.h"
#include "words/say.h"

G_BEGIN_DECLS

#define FR_TYPE_FORECAST_CHART_VIEW (fr_forecast_chart_view_get_type ())
G_DECLARE_FINAL_TYPE (FrForecastChartView, fr_forecast_chart_view, FR, FORECAST_CHART_VIEW, GtkWidget)

GtkWidget *fr_forecast_chart_view_new (void);

/* Borrowed until the next call; all NULL draws nothing. @now_utc is where the rule stands. */
void fr_forecast_chart_view_set (FrForecastChartView *self, const FrForecast *forecast, const FrBookForecast *asked, gint64 now_utc,
                                 const FrSay *say);
/* Year 0 for none. @spoken: what a screen reader says of it. */
void fr_forecast_chart_view_set_selected (FrForecastChartView *self, FrDate date, const char *spoken);
FrDate fr_forecast_chart_view_get_selected (FrForecastChartView *self);
/* Where a day is drawn; FALSE when it is not. */
gboolean fr_forecast_chart_view_get_day (FrForecastChartView *self, FrDate date, GdkRectangle *day_out);

G_END_DECLS
