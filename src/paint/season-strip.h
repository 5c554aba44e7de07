/* A whole season on one x: the days' span across the freezing line, what was gathered, what has come in so
 * far against other seasons, what waits in store, boils, bottles, and the price of power under it. Weather,
 * then work, then money. Filled is known, outlined is expected. Plain arguments in, cairo out; every text
 * comes worded from the caller, numbers are written here.
 *
 * Every day is equally wide, also the two of 23 and 25 hours: at five to fifteen px a day the hour could not
 * be seen. The moments of a day spread over its width. The clock change is named at the foot instead.
 *
 * Made for 560 to 1600 px width at text scale 1 to 2, and as many days as a season has. */
#pragma once

#include "domain/plan/season.h"
#include "paint/label.h"

typedef enum
{
  FR_SEASON_LANE_SPAN,     /* °C: low to high */
  FR_SEASON_LANE_GATHERED, /* litres a day */
  FR_SEASON_LANE_SO_FAR,   /* litres since the first, other seasons as hairlines; only when there are any */
  FR_SEASON_LANE_STORE,    /* litres in all containers */
  FR_SEASON_LANE_BOILS,
  FR_SEASON_LANE_BOTTLES,
  FR_SEASON_LANE_PRICE,
  FR_N_SEASON_LANES
} FrSeasonLane;

/**
 * FrSeasonLaneText:
 * Any may be NULL.
 * @name: "Gathered"; @unit: under it, "L a day"
 * @known: what the filled marks say, "116 L in 5 nights"; of FR_SEASON_LANE_SO_FAR the season's own name,
 * "2026"
 * @expected: what the outlined ones say, "expected, 8 in 10 inside"
 * @empty: in a lane without anything: what would fill it
 */
typedef struct
{
  const char *name;
  const char *unit;
  const char *known;
  const char *expected;
  const char *empty;
} FrSeasonLaneText;

/**
 * FrSeasonMonth:
 * @day: index of its first day in the view
 * @label: "March", of the first day "15 February"; @label_short: where that has no room, "Mar"
 */
typedef struct
{
  guint day;
  const char *label;
  const char *label_short;
} FrSeasonMonth;

/**
 * FrSeasonFoot:
 * A day with a word at the foot: "clocks go forward 14", "26 holiday, low all day".
 */
typedef struct
{
  guint day;
  const char *before;
  const char *strong;
  const char *after;
} FrSeasonFoot;

/**
 * FrSeasonPast:
 * Another season, laid over this one so that the first of March falls on the first of March.
 * @label: "2025", shown where a day is pointed at
 * @first: the day of gathered_l[0]; NAN is a day without entry
 */
typedef struct
{
  const char *label;
  guint season;
  FrDate first;
  guint n_days;
  const double *gathered_l;
} FrSeasonPast;

typedef struct
{
  FrSeasonLaneText lanes[FR_N_SEASON_LANES];
  const char *today;       /* "Today" */
  const char *taps_set;    /* "taps set" */
  const char *taps_pulled; /* "taps pulled" */
  const char *full;        /* on the line of the containers' capacity, "full" */
  const FrSeasonMonth *months;
  gsize n_months;
  const FrSeasonFoot *feet;
  gsize n_feet;
} FrSeasonTexts;

/**
 * FrSeasonStrip:
 * @units: of the numbers; NULL is metric
 * @selected, @hovered: index of a day, −1 is none; @selected_label: over the selected day, "Saturday 13"
 * @is_focused: the keyboard is on the selected day
 */
typedef struct
{
  const FrSeasonView *view;
  const FrUnits *units;
  const FrSeasonTexts *texts;
  const FrSeasonPast *past;
  gsize n_past;
  gssize selected;
  const char *selected_label;
  gssize hovered;
  gboolean is_focused;
} FrSeasonStrip;

/**
 * FrSeasonLayout:
 * Where things lie, px from the upper left corner; lanes that had no room are 0 px high.
 * @plot_y_px, @plot_height_px: from over the first lane to under the last one
 */
typedef struct
{
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
  } lanes[FR_N_SEASON_LANES];
} FrSeasonLayout;

/* Under this height lanes are left out: the season so far first, then bottles, boils, price and store. */
double
fr_season_strip_least_height_px (double text_scale);

/* The layout without drawing. */
FrSeasonLayout
fr_season_strip_layout (PangoContext *context, const FrSeasonStrip *strip, double width_px, double height_px,
                        double text_scale);

/**
 * fr_season_strip_draw:
 * @labels: (nullable): a list of #FrLabelBox to add every text to
 *
 * Returns: the layout it was drawn in
 */
FrSeasonLayout
fr_season_strip_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette,
                      const FrSeasonStrip *strip, double width_px, double height_px, double text_scale,
                      GArray *labels);

/**
 * fr_season_layout_at:
 * @day: (out): the day under a point; up to 6 px beside the plot still the first or last one
 * @lane: (out) (optional): the lane, or FR_N_SEASON_LANES between two
 *
 * Returns: FALSE beside the plot, or when there is no day
 */
gboolean
fr_season_layout_at (const FrSeasonLayout *layout, double x_px, double y_px, guint *day, FrSeasonLane *lane);

/* The column of a day through all lanes, for a focus ring. FALSE when there is no such day. */
gboolean
fr_season_layout_day (const FrSeasonLayout *layout, guint day, cairo_rectangle_t *box);

/* A moment's x; outside the days it lies on the edge. */
double
fr_season_layout_x (const FrSeasonLayout *layout, const FrSeasonView *view, gint64 utc_s);
