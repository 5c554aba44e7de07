/* The season so far and where it is going: litres since the first tap as black steps, then a fan with a
 * dashed middle and its three end numbers, other seasons behind it as hairlines. The fan goes as far as the
 * forecast's days: to the season's end where past seasons stand in. Plain arguments in, cairo out; texts come
 * worded from the caller, numbers are written here.
 *
 * Made for 280 px width and 160 px height and more at text scale 1. Litres under 0 or over a hundred million
 * are not drawn. */
#pragma once

#include "paint/season-strip.h"
#include "domain/plan/forecast.h"

/**
 * FrForecastSeason:
 * Any text may be NULL.
 * @season: the year whose first of March other seasons are laid on
 * @first, @last: what the axis spans
 * @past: other seasons' litres, of as many taps
 * @months: their days count from @first
 * @selected: a day with a hairline and dots on the lines, year 0 is none
 * @unit: at the head, "L in all"
 * @past_words: over the plot, "grey: eight past seasons"
 * @likely: after the middle's end number
 * @empty: when nothing was gathered and nothing is expected
 */
typedef struct
{
  const FrForecast *forecast;
  const FrUnits *units;
  guint season;
  FrDate first;
  FrDate last;
  const FrSeasonPast *past;
  gsize n_past;
  const FrSeasonMonth *months;
  gsize n_months;
  FrDate selected;
  const char *unit;
  const char *past_words;
  const char *likely;
  const char *empty;
} FrForecastSeason;

/* Where it lies, px from the upper left corner. */
typedef struct
{
  FrDate first;
  guint n_days;
  double plot_x_px;
  double plot_y_px;
  double plot_width_px;
  double plot_height_px;
  double high_l; /* at the plot's upper edge */
} FrForecastSeasonLayout;

/**
 * fr_forecast_season_draw:
 * @labels: (nullable): a list of #FrLabelBox to add every text to
 */
FrForecastSeasonLayout
fr_forecast_season_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette,
                         const FrForecastSeason *season, double width_px, double height_px, double text_scale,
                         GArray *labels);

/* The end of a day, and a number of litres. */
double
fr_forecast_season_x (const FrForecastSeasonLayout *layout, FrDate date);
double
fr_forecast_season_y (const FrForecastSeasonLayout *layout, double volume_l);

/* The day at a point; up to 6 px beside the plot still the first or last one. FALSE beside it. */
gboolean
fr_forecast_season_at (const FrForecastSeasonLayout *layout, double x_px, FrDate *date);
