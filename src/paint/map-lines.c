/* The lines and boxes of the ground as geometry. Lines of few points are rounded off by a centripetal
 * Catmull-Rom spline, which goes through every point given and makes no loops (Yuksel, Schaefer and Keyser
 * 2011, from memory); recorded tracks have points enough and stay as they are. Lines are cut to the drawing
 * before they are dashed, with the dash continued from the true beginning, because a dash costs the same seen
 * or unseen. */
#include "paint/map-private.h"

#include <math.h>

#define SMOOTH_UNDER_POINTS 100
#define SMOOTH_STEPS 10

static FrGroundPoint
mix (FrGroundPoint a, FrGroundPoint b, double ta, double tb, double t)
{
  double part = tb > ta ? (t - ta) / (tb - ta) : 0;

  return (FrGroundPoint){ a.x_m + (b.x_m - a.x_m) * part, a.y_m + (b.y_m - a.y_m) * part };
}

/* Between @p[1] and @p[2], by the pyramid of Barry and Goldman. */
static void
append_span (GArray *line, const FrGroundPoint p[4])
{
  double t[4] = { 0 };

  for (guint i = 1; i < 4; i++)
    t[i] = t[i - 1] + sqrt (hypot (p[i].x_m - p[i - 1].x_m, p[i].y_m - p[i - 1].y_m));
  for (guint step = 1; step <= SMOOTH_STEPS; step++)
    {
      double at = t[1] + (t[2] - t[1]) * step / SMOOTH_STEPS;
      FrGroundPoint a1 = mix (p[0], p[1], t[0], t[1], at), a2 = mix (p[1], p[2], t[1], t[2], at),
                    a3 = mix (p[2], p[3], t[2], t[3], at);
      FrGroundPoint b1 = mix (a1, a2, t[0], t[2], at), b2 = mix (a2, a3, t[1], t[3], at);
      FrGroundPoint c = step == SMOOTH_STEPS ? p[2] : mix (b1, b2, t[1], t[2], at);
      g_array_append_val (line, c);
    }
}

/* The shape's points as they are drawn, rounded off. */
GArray *
fr_map_shape_line (const FrMapShape *shape)
{
  GArray *line = g_array_new (FALSE, FALSE, sizeof (FrGroundPoint));
  const FrGroundPoint *p = shape->points;
  gsize n = shape->n_points;

  if (n < 3 || n > SMOOTH_UNDER_POINTS || fr_map_form_is_box (shape->form))
    {
      g_array_append_vals (line, p, (guint)n);
      return line;
    }
  g_array_append_val (line, p[0]);
  for (gsize i = 0; i + 1 < n; i++)
    {
      /* At the ends the line goes on as it came, mirrored. */
      FrGroundPoint before = { 2 * p[i].x_m - p[i + 1].x_m, 2 * p[i].y_m - p[i + 1].y_m };
      FrGroundPoint after = { 2 * p[i + 1].x_m - p[i].x_m, 2 * p[i + 1].y_m - p[i].y_m };
      FrGroundPoint four[4] = { i > 0 ? p[i - 1] : before, p[i], p[i + 1], i + 2 < n ? p[i + 2] : after };
      append_span (line, four);
    }
  return line;
}

gboolean
fr_map_shape_middle (const FrMapShape *shape, FrGroundPoint *middle)
{
  g_autoptr (GArray) line = fr_map_shape_line (shape);
  double length = 0, gone = 0;

  for (guint i = 1; i < line->len; i++)
    length += hypot (
        g_array_index (line, FrGroundPoint, i).x_m - g_array_index (line, FrGroundPoint, i - 1).x_m,
        g_array_index (line, FrGroundPoint, i).y_m - g_array_index (line, FrGroundPoint, i - 1).y_m);
  for (guint i = 1; i < line->len; i++)
    {
      FrGroundPoint a = g_array_index (line, FrGroundPoint, i - 1),
                    b = g_array_index (line, FrGroundPoint, i);
      double step = hypot (b.x_m - a.x_m, b.y_m - a.y_m);
      if (gone + step >= length / 2)
        {
          *middle = mix (a, b, 0, step, length / 2 - gone);
          return TRUE;
        }
      gone += step;
    }
  if (line->len > 0)
    *middle = g_array_index (line, FrGroundPoint, 0);
  return line->len > 0;
}

/* The part of a to b inside the box, as ratios of the way. Liang and Barsky. */
static gboolean
clip (double ax, double ay, double bx, double by, const FrBox *box, double *enter, double *leave)
{
  double d[4] = { ax - bx, bx - ax, ay - by, by - ay };
  double q[4]
      = { ax - box->x_px, box->x_px + box->width_px - ax, ay - box->y_px, box->y_px + box->height_px - ay };

  *enter = 0;
  *leave = 1;
  for (guint i = 0; i < 4; i++)
    {
      if (d[i] == 0)
        {
          if (q[i] < 0)
            return FALSE;
          continue;
        }
      double r = q[i] / d[i];
      if (d[i] < 0)
        *enter = MAX (*enter, r);
      else
        *leave = MIN (*leave, r);
    }
  return *enter < *leave;
}

void
fr_map_stroke_line (const FrMapFrame *frame, const FrGroundPoint *points, gsize n, gboolean is_closed,
                    double on_px, double off_px)
{
  const FrViewport *v = &frame->view->viewport;
  cairo_t *cr = frame->cr;
  FrBox box = { -16, -16, v->width_px + 32, v->height_px + 32 };
  double dash[2] = { on_px, off_px };
  double gone = 0, ax, ay;
  gboolean open = FALSE;

  if (n < 2)
    return;
  fr_viewport_to_screen (v, points[0].x_m, points[0].y_m, &ax, &ay);
  for (gsize i = 1; i < n + (is_closed ? 1 : 0); i++)
    {
      double bx, by, enter, leave;
      fr_viewport_to_screen (v, points[i % n].x_m, points[i % n].y_m, &bx, &by);
      double step = hypot (bx - ax, by - ay);
      if (isfinite (step) && clip (ax, ay, bx, by, &box, &enter, &leave))
        {
          if (!open)
            {
              if (off_px > 0)
                cairo_set_dash (cr, dash, 2, fmod (gone + enter * step, on_px + off_px));
              cairo_move_to (cr, ax + enter * (bx - ax), ay + enter * (by - ay));
            }
          cairo_line_to (cr, ax + leave * (bx - ax), ay + leave * (by - ay));
          open = leave >= 1;
          if (!open)
            cairo_stroke (cr);
        }
      else if (open)
        {
          cairo_stroke (cr);
          open = FALSE;
        }
      gone += isfinite (step) ? step : 0;
      ax = bx;
      ay = by;
    }
  if (open)
    cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

gboolean
fr_map_shape_box (const FrMapView *view, const FrMapShape *shape, FrBox *box)
{
  double left = INFINITY, top = INFINITY, right = -INFINITY, bottom = -INFINITY;
  double half = shape->n_points == 1 ? FR_MAP_MARK_PX * fr_map_scale (view) : 0;
  const FrGroundPoint *p = shape->points;

  for (gsize i = 0; i < shape->n_points; i++)
    for (gsize k = 0; k < (shape->n_points == 2 ? 2u : 1u); k++)
      {
        double x, y;
        /* With two points the other two corners count as well: the map may be turned. */
        fr_viewport_to_screen (&view->viewport, p[i].x_m, p[k == 0 ? i : 1 - i].y_m, &x, &y);
        left = MIN (left, x - half);
        right = MAX (right, x + half);
        top = MIN (top, y - half);
        bottom = MAX (bottom, y + half);
      }
  if (!isfinite (left + top + right + bottom))
    return FALSE;
  *box = (FrBox){ left, top, right - left, bottom - top };
  return TRUE;
}

static double
distance_to_segment (double x, double y, double ax, double ay, double bx, double by)
{
  double dx = bx - ax, dy = by - ay, square = dx * dx + dy * dy;
  double part = square > 0 ? CLAMP (((x - ax) * dx + (y - ay) * dy) / square, 0, 1) : 0;

  return hypot (x - ax - part * dx, y - ay - part * dy);
}

static gboolean
on_box (const FrMapView *view, const FrMapShape *shape, double x, double y, double tolerance)
{
  FrBox box;
  gboolean inside = FALSE;
  double bx, by, ax, ay;

  if (!fr_map_shape_box (view, shape, &box))
    return FALSE;
  if (shape->n_points == 1)
    return x >= box.x_px - tolerance && x <= box.x_px + box.width_px + tolerance && y >= box.y_px - tolerance
           && y <= box.y_px + box.height_px + tolerance;
  FrGroundPoint corners[4] = { shape->points[0], { 0, 0 }, shape->points[1], { 0, 0 } };
  const FrGroundPoint *p = shape->points;
  gsize n = shape->n_points;
  if (n == 2)
    {
      corners[1] = (FrGroundPoint){ p[1].x_m, p[0].y_m };
      corners[3] = (FrGroundPoint){ p[0].x_m, p[1].y_m };
      p = corners;
      n = 4;
    }
  fr_viewport_to_screen (&view->viewport, p[n - 1].x_m, p[n - 1].y_m, &bx, &by);
  for (gsize i = 0; i < n; i++)
    {
      ax = bx;
      ay = by;
      fr_viewport_to_screen (&view->viewport, p[i].x_m, p[i].y_m, &bx, &by);
      if (distance_to_segment (x, y, ax, ay, bx, by) <= tolerance)
        return TRUE;
      if ((ay > y) != (by > y) && x < ax + (y - ay) / (by - ay) * (bx - ax))
        inside = !inside;
    }
  return inside;
}

static gboolean
on_line (const FrMapView *view, const FrMapShape *shape, double x, double y, double tolerance)
{
  g_autoptr (GArray) line = fr_map_shape_line (shape);
  double half = (shape->form == FR_MAP_FORM_LANE ? FR_MAP_CASING_PX : 3) / 2 * fr_map_scale (view);
  double ax = NAN, ay = NAN;

  for (guint i = 0; i < line->len; i++)
    {
      double bx, by;
      fr_viewport_to_screen (&view->viewport, g_array_index (line, FrGroundPoint, i).x_m,
                             g_array_index (line, FrGroundPoint, i).y_m, &bx, &by);
      if (distance_to_segment (x, y, i == 0 ? bx : ax, i == 0 ? by : ay, bx, by) <= tolerance + half)
        return TRUE;
      ax = bx;
      ay = by;
    }
  return FALSE;
}

gssize
fr_map_shape_at (const FrMapView *view, double x_px, double y_px, double tolerance_px)
{
  /* Boxes are drawn after lines, later ones over earlier. */
  for (guint boxes = 2; boxes-- > 0;)
    for (gsize i = view->n_shapes; i-- > 0;)
      {
        const FrMapShape *shape = &view->shapes[i];
        if (shape->n_points == 0 || fr_map_form_is_box (shape->form) != (boxes == 1))
          continue;
        if (boxes == 1 ? on_box (view, shape, x_px, y_px, tolerance_px)
                       : on_line (view, shape, x_px, y_px, tolerance_px))
          return (gssize)i;
      }
  return -1;
}
