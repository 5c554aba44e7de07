/* Where a plan in metres lies on a drawing in pixels: centre, scale and turn, as a plain value. The plan's x
 * is east and its y north; on the drawing y runs down. Everything here is pure geometry. */
#pragma once

#include <glib.h>

/* How far out and how close in a viewport may go. */
#define FR_VIEWPORT_LEAST_PX_PER_M 0.02
#define FR_VIEWPORT_MOST_PX_PER_M 400.0

/* Pixels in a metre of the screen at the design's 96 dpi: a scale of 1:150 is this over 150. */
#define FR_SCREEN_PX_PER_M (96.0 / 0.0254)

/**
 * FrViewport:
 * @centre_x_m, @centre_y_m: the point of the plan in the middle of the drawing
 * @px_per_m: the scale, FR_VIEWPORT_LEAST_PX_PER_M to FR_VIEWPORT_MOST_PX_PER_M
 * @rotation_deg: how far the plan is turned clockwise on the drawing; 0 has north up, 90 has north at the
 * right
 * @width_px, @height_px: the drawing
 */
typedef struct
{
  double centre_x_m;
  double centre_y_m;
  double px_per_m;
  double rotation_deg;
  double width_px;
  double height_px;
} FrViewport;

/* What is to stay free at each side of a fitted box. */
typedef struct
{
  double top_px;
  double right_px;
  double bottom_px;
  double left_px;
} FrMargins;

/* A box of the plan, its sides along x and y. */
typedef struct
{
  double west_m;
  double south_m;
  double east_m;
  double north_m;
} FrPlanBox;

/* An empty box: fr_plan_box_add() makes it hold a point. */
#define FR_PLAN_BOX_EMPTY ((FrPlanBox){ G_MAXDOUBLE, G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE })

/**
 * FrScaleBar:
 * @length_px: how long the bar is
 * @value: its length in the caller's unit: 1, 2 or 5 times a power of ten
 * @text: "20 m", "0.5 ft"
 */
typedef struct
{
  double length_px;
  double value;
  char text[32];
} FrScaleBar;

void
fr_viewport_to_screen (const FrViewport *viewport, double x_m, double y_m, double *x_px, double *y_px);

void
fr_viewport_to_plan (const FrViewport *viewport, double x_px, double y_px, double *x_m, double *y_m);

/**
 * fr_viewport_zoom_at:
 * Zooms by @factor (over 1 is closer) so that the point of the plan under @x_px, @y_px stays there. At the
 * limits of the scale it goes as far as it may.
 *
 * Returns: FALSE when the scale did not change: it is at its limit, or @factor is not a positive number
 */
gboolean
fr_viewport_zoom_at (FrViewport *viewport, double x_px, double y_px, double factor);

/* Moves the plan with the pointer: what was under it stays under it after a drag by @dx_px, @dy_px. */
void
fr_viewport_pan (FrViewport *viewport, double dx_px, double dy_px);

/* Turns the plan by @angle_deg clockwise round the middle; the rotation stays within 0 to 360. */
void
fr_viewport_turn (FrViewport *viewport, double angle_deg);

/**
 * fr_viewport_fit:
 * Shows the whole @box between the margins, as close in as it can, keeping the turn. A box without extent
 * (one tree) is shown at @most_px_per_m, and no box any closer than that.
 *
 * Returns: FALSE and no change when the box is empty or not finite, or the drawing has no room
 */
gboolean
fr_viewport_fit (FrViewport *viewport, const FrPlanBox *box, const FrMargins *margins, double most_px_per_m);

/* The box of the plan that holds all the drawing shows, with @margin_px more on each side. */
FrPlanBox
fr_viewport_bounds (const FrViewport *viewport, double margin_px);

/* Points that are not finite are passed over. */
void
fr_plan_box_add (FrPlanBox *box, double x_m, double y_m);

gboolean
fr_plan_box_is_empty (const FrPlanBox *box);

/**
 * fr_viewport_scale_bar:
 * The longest round bar of at most @most_px.
 * @unit_m: the length of the caller's unit, 1 for metres, 0.3048 for feet
 * @unit_name: "m", "ft"
 * @decimal_mark: for bars under one unit; NULL is "."
 */
FrScaleBar
fr_viewport_scale_bar (const FrViewport *viewport, double most_px, double unit_m, const char *unit_name,
                       const char *decimal_mark);
