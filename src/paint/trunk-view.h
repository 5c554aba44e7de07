/* The trunk, unrolled: across is the compass from N round to N, up is height. Old holes with the stain each
 * left, the allowed heights between dashed lines, this season's taps as wedges, and the proposed place as a
 * target in the box of the asked spacing. The bark wraps: what leaves at N comes back at N. Plain arguments
 * in, cairo out.
 *
 * Made for about 180×140 to 900×600 px at text scale 1 to 2. */
#pragma once

#include "paint/label.h"

typedef enum
{
  FR_TRUNK_HOLE_CLOSED, /* dot */
  FR_TRUNK_HOLE_OPEN,   /* ring */
  FR_TRUNK_HOLE_SET,    /* this season's: solid wedge */
  FR_TRUNK_HOLE_PLANNED /* outlined wedge */
} FrTrunkHoleState;

/**
 * FrTrunkHole:
 * @angle_deg: compass side of its middle; any number, it wraps. NAN or a NAN height: not drawn
 * @stain_half_width_m, @stain_half_height_m: the stained column, round the trunk and up and down; 0 or NAN is
 * none
 * @label: "’24", "this year"; may be NULL
 */
typedef struct
{
  gint64 id;
  double angle_deg;
  double height_m;
  FrTrunkHoleState state;
  double stain_half_width_m;
  double stain_half_height_m;
  const char *label;
  gboolean is_selected;
} FrTrunkHole;

/**
 * FrTrunkTarget:
 * A proposed place. The first one of a view is the one that can be dragged.
 * @label: "1", "best"; may be NULL
 */
typedef struct
{
  double angle_deg;
  double height_m;
  const char *label;
} FrTrunkTarget;

/**
 * FrTrunkView:
 * @girth_m: round the trunk at breast height, for widths; NAN is unknown: 1 m is drawn
 * @min_height_m, @max_height_m: the allowed heights; NAN: no limit on that side
 * @sideways_m, @up_down_m: the asked spacing, half the size of the box; NAN: no box
 * @unit_m: of the heights' axis, 0.01 for cm, 0.0254 for inches
 * @compass: the four letters from north clockwise; NULL is N E S W
 * @is_focused: the keyboard is on the target
 * @empty_sentence: shown when there is neither hole nor target; may be NULL
 */
typedef struct
{
  double girth_m;
  double min_height_m;
  double max_height_m;
  double sideways_m;
  double up_down_m;
  const FrTrunkHole *holes;
  gsize n_holes;
  const FrTrunkTarget *targets;
  gsize n_targets;
  double unit_m;
  const char *const *compass;
  gboolean is_focused;
  const char *empty_sentence;
} FrTrunkView;

/**
 * FrTrunkFrame:
 * Where the bark lies in the area, for pointer and test.
 */
typedef struct
{
  double plot_x_px;
  double plot_y_px;
  double plot_width_px;
  double plot_height_px;
  double low_m; /* height at the lower edge */
  double high_m;
  double scale_ratio;
} FrTrunkFrame;

/* The frame without drawing. */
FrTrunkFrame
fr_trunk_frame (PangoContext *context, const FrTrunkView *view, double width_px, double height_px,
                double text_scale);

/**
 * fr_trunk_draw:
 * @labels: (nullable): a list of #FrLabelBox to add every text to
 *
 * Returns: the frame it was drawn in
 */
FrTrunkFrame
fr_trunk_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrTrunkView *view,
               double width_px, double height_px, double text_scale, GArray *labels);

/* 0 to 360 from the left edge to the right one. */
double
fr_trunk_x_from_angle (const FrTrunkFrame *frame, double angle_deg);

double
fr_trunk_y_from_height (const FrTrunkFrame *frame, double height_m);

/**
 * fr_trunk_place_at:
 * The place under a point, for clicking and dragging. Beside the bark the angle wraps and the height stays on
 * the bark's edge, so that a drag may leave it.
 *
 * Returns: FALSE when the frame has no size
 */
gboolean
fr_trunk_place_at (const FrTrunkFrame *frame, double x_px, double y_px, double *angle_deg, double *height_m);

/* The hole within @tolerance_px of the point, the nearest; -1 when there is none. */
gssize
fr_trunk_hole_at (const FrTrunkFrame *frame, const FrTrunkView *view, double x_px, double y_px,
                  double tolerance_px);

/* The same for the targets. */
gssize
fr_trunk_target_at (const FrTrunkFrame *frame, const FrTrunkView *view, double x_px, double y_px,
                    double tolerance_px);
