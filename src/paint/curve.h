/* A quantity against another with the chosen point on it: sugar against buckets, and where the kitchen
 * becomes the limit. Plain arguments in, cairo out. */
#pragma once

#include "paint/label.h"

typedef struct
{
  double x;
  double y;
} FrCurvePoint;

/**
 * FrCurveView:
 * @points: the line, x ascending; NAN in y is a gap
 * @low_y, @high_y: (nullable): a band round it, @n_points each
 * @beyond: (nullable): a second line, dashed: what would be without the limit; its points as @points
 * @line_label, @beyond_label: on the lines, bold; may be NULL
 * @is_step: the value holds until the next point
 * @chosen: index of the chosen point, -1 is none; @chosen_label: beside it, "20 buckets, 12.4 kg"
 * @limit_x: an upright warning line, NAN is none; @limit_label: at its head, "the kitchen’s limit"
 * @x_name: at the right end under the axis, "buckets"
 * @y_unit: once above the axis, "kg"
 * @empty_sentence: shown when no point can be drawn
 */
typedef struct
{
  const FrCurvePoint *points;
  gsize n_points;
  const double *low_y;
  const double *high_y;
  const FrCurvePoint *beyond;
  gsize n_beyond;
  const char *line_label;
  const char *beyond_label;
  gboolean is_step;
  gssize chosen;
  const char *chosen_label;
  double limit_x;
  const char *limit_label;
  const char *x_name;
  const char *y_unit;
  const char *decimal_mark;
  const char *empty_sentence;
  FrRole role;
} FrCurveView;

/* Where the scales lie. */
typedef struct
{
  double plot_x_px;
  double plot_y_px;
  double plot_width_px;
  double plot_height_px;
  double x_low;
  double x_high;
  double y_high;
} FrCurveFrame;

/**
 * fr_curve_draw:
 * @labels: (nullable): a list of #FrLabelBox to add every text to
 */
FrCurveFrame
fr_curve_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrCurveView *view,
               double width_px, double height_px, double text_scale, GArray *labels);

double
fr_curve_x_px (const FrCurveFrame *frame, double x);

double
fr_curve_y_px (const FrCurveFrame *frame, double y);

/* The point nearest to @x_px, or -1 when there is none or the pointer is more than 12 px beside the plot. */
gssize
fr_curve_at (const FrCurveFrame *frame, const FrCurveView *view, double x_px);
