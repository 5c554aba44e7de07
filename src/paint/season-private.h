/* The season's parts, between its own files. */
#pragma once

#include "paint/axis.h"
#include "paint/canvas.h"
#include "paint/season-marks.h"
#include "paint/season-strip.h"

#include <math.h>

typedef struct
{
  FrCanvas canvas;
  const FrSeasonStrip *strip;
  const FrSeasonView *view;
  FrSeasonLayout layout;
  /* In the shown unit, of the lanes with a scale: what the lane spans, and where round numbers lie. */
  double low_shown[FR_N_SEASON_LANES];
  double high_shown[FR_N_SEASON_LANES];
  FrAxis axes[FR_N_SEASON_LANES];
  double freezing_shown;
  double pad_px;
  double name_x_px;
  double head_y_px; /* of the months' names */
  double foot_y_px; /* of the first row of words */
  guint n_foot_rows;
  gboolean names_inside; /* too narrow for a column of names: they stand over their lanes */
  gboolean is_empty[FR_N_SEASON_LANES];
} FrSeasonPaint;

/* season-layout.c: everything but canvas and strip. */
void
fr_season_lay_out (FrSeasonPaint *p);

/* season-scales.c */
gboolean
fr_season_is_lane_empty (const FrSeasonPaint *p, FrSeasonLane lane);
void
fr_season_choose_scale (FrSeasonPaint *p, FrSeasonLane lane);

/* A value of a lane in litres or °C, as it is shown, and its y. NAN stays NAN. */
double
fr_season_shown (const FrSeasonPaint *p, FrSeasonLane lane, double value);
double
fr_season_y (const FrSeasonPaint *p, FrSeasonLane lane, double value);

/* The y of a round number. FALSE: outside the lane. */
gboolean
fr_season_tick_y (const FrSeasonPaint *p, FrSeasonLane lane, guint at, double *y_px);

/* Left edge of a day, and a bar's width in it. */
double
fr_season_day_x (const FrSeasonPaint *p, gsize day);
double
fr_season_bar_px (const FrSeasonPaint *p);

/* Puts a text if it has room; @across_ratio, @down_ratio: which part of it lies at the point, 0 its left or
 * upper edge, 1 the other. */
gboolean
fr_season_try (FrSeasonPaint *p, PangoLayout *text, double x_px, double y_px, double across_ratio,
               double down_ratio, FrRole role, double halo_ratio);

/* The same, but only within the plot. */
gboolean
fr_season_try_inside (FrSeasonPaint *p, PangoLayout *text, double x_px, double y_px, double across_ratio,
                      double down_ratio, FrRole role, double halo_ratio);

/* The middle nearest to @middle_px at which a text lies within the plot. */
double
fr_season_held (const FrSeasonPaint *p, PangoLayout *text, double middle_px);

/* season-lanes.c: weather and gathering. */
void
fr_season_draw_span (FrSeasonPaint *p);
void
fr_season_draw_gathered (FrSeasonPaint *p);

/* season-store.c */
void
fr_season_draw_so_far (FrSeasonPaint *p);
void
fr_season_draw_store (FrSeasonPaint *p);

/* season-rows.c: one mark a day, and money. */
void
fr_season_draw_boils (FrSeasonPaint *p);
void
fr_season_draw_bottles (FrSeasonPaint *p);
void
fr_season_draw_price (FrSeasonPaint *p);

/* season-strip.c: what would fill a lane, in its middle. */
void
fr_season_draw_empty (FrSeasonPaint *p, FrSeasonLane lane);

/* season-scales.c: litres gathered up to each day's end, NAN before the first, and of this season (@past NULL)
 * after today. */
GArray *
fr_season_so_far (const FrSeasonPast *past, const FrSeasonView *view);

/* season-words.c */
void
fr_season_put_head (FrSeasonPaint *p);
void
fr_season_put_names (FrSeasonPaint *p);
void
fr_season_put_scales (FrSeasonPaint *p);
void
fr_season_put_feet (FrSeasonPaint *p);
