/* A turn and a scale: screen = middle + scale × turned (plan − centre), y downwards. Zooming at a point
 * solves the same equation for the centre, so the point stays to the last bit or two of a double. Good for
 * plans of up to 1e7 m. */
#include "paint/viewport.h"

#include <math.h>
#include <string.h>

/* Cosine and sine, exact at the quarter turns. */
static void
turn_of (double angle_deg, double *cosine, double *sine)
{
  double quarter = angle_deg / 90;

  if (quarter == floor (quarter) && fabs (quarter) < 1e6)
    {
      static const double table[4][2] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
      int q = ((int)quarter % 4 + 4) % 4;
      *cosine = table[q][0];
      *sine = table[q][1];
      return;
    }
  *cosine = cos (angle_deg * G_PI / 180);
  *sine = sin (angle_deg * G_PI / 180);
}

void
fr_viewport_to_screen (const FrViewport *viewport, double x_m, double y_m, double *x_px, double *y_px)
{
  double c, s;
  double east = (x_m - viewport->centre_x_m) * viewport->px_per_m;
  double south = -(y_m - viewport->centre_y_m) * viewport->px_per_m;

  turn_of (viewport->rotation_deg, &c, &s);
  *x_px = viewport->width_px / 2 + c * east - s * south;
  *y_px = viewport->height_px / 2 + s * east + c * south;
}

void
fr_viewport_to_plan (const FrViewport *viewport, double x_px, double y_px, double *x_m, double *y_m)
{
  double c, s;
  double right = x_px - viewport->width_px / 2;
  double down = y_px - viewport->height_px / 2;

  turn_of (viewport->rotation_deg, &c, &s);
  *x_m = viewport->centre_x_m + (c * right + s * down) / viewport->px_per_m;
  *y_m = viewport->centre_y_m - (c * down - s * right) / viewport->px_per_m;
}

gboolean
fr_viewport_zoom_at (FrViewport *viewport, double x_px, double y_px, double factor)
{
  double before = viewport->px_per_m;
  double x_m, y_m, now_x_m, now_y_m;

  if (!isfinite (factor) || factor <= 0)
    return FALSE;
  fr_viewport_to_plan (viewport, x_px, y_px, &x_m, &y_m);
  viewport->px_per_m = CLAMP (before * factor, FR_VIEWPORT_LEAST_PX_PER_M, FR_VIEWPORT_MOST_PX_PER_M);
  fr_viewport_to_plan (viewport, x_px, y_px, &now_x_m, &now_y_m);
  viewport->centre_x_m += x_m - now_x_m;
  viewport->centre_y_m += y_m - now_y_m;
  return viewport->px_per_m != before;
}

void
fr_viewport_pan (FrViewport *viewport, double dx_px, double dy_px)
{
  fr_viewport_to_plan (viewport, viewport->width_px / 2 - dx_px, viewport->height_px / 2 - dy_px,
                       &viewport->centre_x_m, &viewport->centre_y_m);
}

void
fr_viewport_turn (FrViewport *viewport, double angle_deg)
{
  double turned = fmod (viewport->rotation_deg + angle_deg, 360);

  viewport->rotation_deg = turned < 0 ? turned + 360 : turned;
}

gboolean
fr_viewport_fit (FrViewport *viewport, const FrPlanBox *box, const FrMargins *margins, double most_px_per_m)
{
  double c, s;
  double room_x = viewport->width_px - margins->left_px - margins->right_px;
  double room_y = viewport->height_px - margins->top_px - margins->bottom_px;

  if (fr_plan_box_is_empty (box) || room_x <= 0 || room_y <= 0)
    return FALSE;
  turn_of (viewport->rotation_deg, &c, &s);
  double width = box->east_m - box->west_m, height = box->north_m - box->south_m;
  double across = fabs (c) * width + fabs (s) * height, down = fabs (s) * width + fabs (c) * height;
  double scale = most_px_per_m;
  if (across > 0)
    scale = MIN (scale, room_x / across);
  if (down > 0)
    scale = MIN (scale, room_y / down);
  viewport->px_per_m = CLAMP (scale, FR_VIEWPORT_LEAST_PX_PER_M, FR_VIEWPORT_MOST_PX_PER_M);
  viewport->centre_x_m = (box->west_m + box->east_m) / 2;
  viewport->centre_y_m = (box->south_m + box->north_m) / 2;
  fr_viewport_pan (viewport, (margins->left_px - margins->right_px) / 2,
                   (margins->top_px - margins->bottom_px) / 2);
  return TRUE;
}

FrPlanBox
fr_viewport_bounds (const FrViewport *viewport, double margin_px)
{
  FrPlanBox box = FR_PLAN_BOX_EMPTY;

  for (guint corner = 0; corner < 4; corner++)
    {
      double x_m, y_m;
      fr_viewport_to_plan (viewport, corner & 1 ? viewport->width_px + margin_px : -margin_px,
                           corner & 2 ? viewport->height_px + margin_px : -margin_px, &x_m, &y_m);
      fr_plan_box_add (&box, x_m, y_m);
    }
  return box;
}

void
fr_plan_box_add (FrPlanBox *box, double x_m, double y_m)
{
  if (!isfinite (x_m) || !isfinite (y_m))
    return;
  box->west_m = MIN (box->west_m, x_m);
  box->east_m = MAX (box->east_m, x_m);
  box->south_m = MIN (box->south_m, y_m);
  box->north_m = MAX (box->north_m, y_m);
}

gboolean
fr_plan_box_is_empty (const FrPlanBox *box)
{
  return !(box->west_m <= box->east_m && box->south_m <= box->north_m);
}

FrScaleBar
fr_viewport_scale_bar (const FrViewport *viewport, double most_px, double unit_m, const char *unit_name,
                       const char *decimal_mark)
{
  FrScaleBar bar = { 0, NAN, "" };
  double most = most_px / viewport->px_per_m / unit_m;

  if (!isfinite (most) || most <= 0)
    return bar;
  int power = (int)floor (log10 (most));
  double ten = pow (10, power);
  /* The logarithm may be a hair off just at a power of ten. */
  if (10 * ten <= most * (1 + 1e-9))
    {
      ten *= 10;
      power++;
    }
  double lead = most * (1 + 1e-9) / ten;
  bar.value = (lead >= 5 ? 5 : lead >= 2 ? 2 : 1) * ten;
  bar.length_px = bar.value * unit_m * viewport->px_per_m;
  char number[24];
  g_ascii_formatd (number, sizeof number, power < 0 ? "%.4g" : "%.0f", bar.value);
  char *point = strchr (number, '.');
  if (point != NULL && decimal_mark != NULL)
    {
      g_snprintf (bar.text, sizeof bar.text, "%.*s%s%s %s", (int)(point - number), number, decimal_mark,
                  point + 1, unit_name);
      return bar;
    }
  g_snprintf (bar.text, sizeof bar.text, "%s %s", number, unit_name);
  return bar;
}
