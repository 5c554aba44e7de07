/* The days ahead in one frame, and a few before them: the air across the freezing line, how likely a run is,
 * and litres a day as capsules: 8 in 10 outside, 5 in 10 inside, a bar through the middle. What was gathered
 * stands as a filled bar against its capsule. Filled is known, outlined expected. Plain arguments in, cairo
 * out; every text comes worded from the caller, numbers are written here.
 *
 * A column is a date from midnight to midnight; the capsule in it is the day that ends at the gathering hour
 * of that date. Made for 1 to 14 days at 560 to 1600 px width and text scale 1 to 2. Litres under 0 or over a
 * million and temperatures beyond 100 °C either way are not drawn. */
#pragma once

#include "domain/plan/forecast.h"
#include "domain/units/quantity.h"
#include "paint/label.h"

typedef enum
{
  FR_FORECAST_LANE_AIR,
  FR_FORECAST_LANE_CHANCE,
  FR_FORECAST_LANE_LITRES,
  FR_N_FORECAST_LANES
} FrForecastLane;

/**
 * FrForecastHead:
 * Over a column.
 * @weekday: bold, "Sat"; @date: "13"
 */
typedef struct
{
  const char *weekday;
  const char *date;
} FrForecastHead;

/**
 * FrForecastChartTexts:
 * Any may be NULL.
 * @air, @chance, @litres: names of the lanes: NULL, "Chance", "Litres"; the unit of temperature stands under
 * @air
 * @now: beside the rule, "Now"
 * @gap: over days without weather, "no weather known"
 * @beyond: over days that past seasons tell of, "as in past seasons"
 * @empty: instead of all days, when no weather is known at all
 * @no_run: over the litres when not a drop is expected
 * @caption: under all
 * @heads: one a day
 */
typedef struct
{
  const char *air;
  const char *chance;
  const char *litres;
  const char *now;
  const char *gap;
  const char *beyond;
  const char *empty;
  const char *no_run;
  const char *caption;
  const FrForecastHead *heads;
} FrForecastChartTexts;

/**
 * FrForecastChart:
 * @forecast, @air: (nullable): the days, and the hours they were told from
 * @gather_hour: 0 to 23: up to this hour of the forecast's as_of hours are drawn as observed; −1 is noon
 * @is_per_tap: litres of one tap instead of all of them
 * @units: of the numbers; NULL is metric
 * @first, @n_days: the columns
 * @today: the date of the rule, year 0 is none; @now_h: at this hour of it, standard clock
 * @selected, @hovered: year 0 is none; @is_focused: the keyboard is on the selected day
 */
typedef struct
{
  const FrForecast *forecast;
  const FrAirHours *air;
  gint gather_hour;
  gboolean is_per_tap;
  const FrUnits *units;
  const FrForecastChartTexts *texts;
  FrDate first;
  guint n_days;
  FrDate today;
  double now_h;
  FrDate selected;
  FrDate hovered;
  gboolean is_focused;
} FrForecastChart;

/**
 * FrForecastChartLayout:
 * Where things lie, px from the upper left corner; lanes that had no room are 0 px high.
 * @plot_y_px, @plot_height_px: of a column, with its head
 */
typedef struct
{
  FrDate first;
  guint n_days;
  double plot_x_px;
  double plot_width_px;
  double plot_y_px;
  double plot_height_px;
  double day_px;
  struct
  {
    double y_px;
    double height_px;
  } lanes[FR_N_FORECAST_LANES];
} FrForecastChartLayout;

typedef enum
{
  FR_FORECAST_MARK_RUNNING,  /* hours above FR_RUN_AIR_C */
  FR_FORECAST_MARK_CHANCE,   /* the filled part of the bar */
  FR_FORECAST_MARK_OUTER,    /* 8 in 10 */
  FR_FORECAST_MARK_INNER,    /* 5 in 10 */
  FR_FORECAST_MARK_MIDDLE,   /* the bar through */
  FR_FORECAST_MARK_GATHERED, /* one for each day that a gathering covers */
  FR_FORECAST_MARK_SPAN,     /* low to high of a day whose hours are not known */
  FR_FORECAST_MARK_NOW
} FrForecastMarkKind;

/**
 * FrForecastMark:
 * A mark as it was drawn: the middle of its edge, without the width of the line.
 * @day: the column
 */
typedef struct
{
  FrForecastMarkKind kind;
  guint day;
  double x_px;
  double y_px;
  double width_px;
  double height_px;
} FrForecastMark;

/* Under this height the caption and the chance are left out, then the litres. */
double
fr_forecast_chart_least_height_px (double text_scale);

/* The layout without drawing. */
FrForecastChartLayout
fr_forecast_chart_layout (PangoContext *context, const FrForecastChart *chart, double width_px,
                          double height_px, double text_scale);

/**
 * fr_forecast_chart_draw:
 * @labels: (nullable): a list of #FrLabelBox to add every text to
 * @marks: (nullable): a list of #FrForecastMark to add every mark to
 *
 * Returns: the layout it was drawn in
 */
FrForecastChartLayout
fr_forecast_chart_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette,
                        const FrForecastChart *chart, double width_px, double height_px, double text_scale,
                        GArray *labels, GArray *marks);

/**
 * fr_forecast_chart_at:
 * @date: (out): the column under a point; up to 6 px beside the plot still the first or last one
 * @lane: (out) (optional): the lane, or FR_N_FORECAST_LANES between two
 *
 * Returns: FALSE beside the plot, or when there is no day
 */
gboolean
fr_forecast_chart_at (const FrForecastChartLayout *layout, double x_px, double y_px, FrDate *date,
                      FrForecastLane *lane);

/* A day's column, for a focus ring. FALSE when it is none of them. */
gboolean
fr_forecast_chart_column (const FrForecastChartLayout *layout, FrDate date, cairo_rectangle_t *box);
