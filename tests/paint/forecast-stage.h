/* What the tests of the forecast's chart share: drawing it with every check that always holds, finding its
 * marks and colours, and taking weather away. */
#pragma once

#include "forecast.h"

/* Nothing outside, no word cut or over another, and the layout as without drawing. @labels, @marks, @picture
 * (a name to keep it under) and @image_out may be NULL. */
FrForecastChartLayout
forecast_draw (const FrForecastChart *chart, FrPalette palette, int width, int height, double scale,
               GArray *labels, GArray *marks, const char *picture, cairo_surface_t **image_out);

/* The first mark of a kind on a day, or NULL; or the end of the test. */
const FrForecastMark *
forecast_find (const GArray *marks, FrForecastMarkKind kind, guint day);
const FrForecastMark *
forecast_need (const GArray *marks, FrForecastMarkKind kind, guint day);

/* Columns from @from to before @to know nothing. */
void
forecast_no_air (Forecast *f, guint from, guint to);
/* Columns from @from on are told by past seasons. */
void
forecast_beyond (Forecast *f, guint from);

/* Pixels of a role at an hour within a lane. */
guint
forecast_column_count (cairo_surface_t *image, const FrForecastChartLayout *l, FrForecastLane lane,
                       double hour, const FrPalette *palette, FrRole role);
