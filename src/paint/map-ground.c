/* The ground: the picture under everything, lines and boxes. Lines of few points are rounded off by a
 * centripetal Catmull-Rom spline, which goes through every point given and makes no loops (Yuksel and others
 * 2011); recorded tracks have points enough and stay as they are. Lines are cut to the drawing before they
 * are dashed, with the dash continued from the true beginning, because a dash costs the same seen or unseen.
 */
#include "paint/map-private.h"

#include <math.h>

#define SMOOTH_UNDER_POINTS 100
#define SMOOTH_STEPS 10
#define CASING_PX 9.0
#define MARK_PX 9.0

gboolean
fr_map_picture_matrix (const FrMapPicture *picture, cairo_matrix_t *matrix)
{
  /* As complex numbers, with the picture's rows turned upwards: plan = a × pixel + b. */
  double pc = picture->second_column - picture->first_column,
         pr = -(picture->second_row - picture->first_row);
  double px = picture->second_x_m - picture->first_x_m, py = picture->second_y_m - picture->first_y_m;
  double square = pc * pc + pr * pr;

  if (!isfinite (square) || square <= 0 || !isfinite (px * px + py * py) || px * px + py * py <= 0)
    return FALSE;
  double re = (px * pc + py * pr) / square, im = (py * pc - px * pr) / square;
  /* x = re c + im r + x0, y = im c − re r + y0 */
  cairo_matrix_init (matrix, re, im, im, -re, 0, 0);
  matrix->x0 = picture->first_x_m - (re * picture->first_column + im * picture->first_row);
  matrix->y0 = picture->first_y_m - (im * picture->first_column - re * picture->first_row);
  return TRUE;
}

void
fr_map_draw_picture (const FrMapFrame *frame)
{
  const FrMapPicture *picture = frame->view->picture;
  const FrViewport *v = &frame->view->viewport;
  cairo_matrix_t to_plan, to_screen;
  double x, y, ux, uy, vx, vy;

  if (picture == NULL || picture->surface == NULL || !fr_map_picture_matrix (picture, &to_plan))
    return;
  fr_viewport_to_screen (v, v->centre_x_m, v->centre_y_m, &x, &y);
  fr_viewport_to_screen (v, v->centre_x_m + 1, v->centre_y_m, &ux, &uy);
  fr_viewport_to_screen (v, v->centre_x_m, v->centre_y_m + 1, &vx, &vy);
  cairo_matrix_init (&to_screen, ux - x, uy - y, vx - x, vy - y,
                     x - (ux - x) * v->centre_x_m - (vx - x) * v->centre_y_m,
                     y - (uy - y) * v->centre_x_m - (vy - y) * v->centre_y_m);
  cairo_save (frame->cr);
  cairo_transform (frame->cr, &to_screen);
  cairo_transform (frame->cr, &to_plan);
  cairo_set_source_surface (frame->cr, picture->surface, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (frame->cr), CAIRO_FILTER_BILINEAR);
  cairo_paint_with_alpha (frame->cr, 0.55);
  cairo_restore (frame->cr);
}

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
static GArray *
line_of (const FrMapShape *shape)
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
  g_autoptr (GArray) line = line_of (shape);
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
          if (!open || enter > 0)
            {
              if (open)
                cairo_stroke (cr);
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

/* The outline of a box form in pixels as the current path. */
static void
box_path (cairo_t *cr, const FrMapView *view, const FrMapShape *shape)
{
  const FrGroundPoint *p = shape->points;
  double x, y, half = MARK_PX * fr_map_scale (view);

  cairo_new_path (cr);
  if (shape->n_points == 1)
    {
      fr_viewport_to_screen (&view->viewport, p[0].x_m, p[0].y_m, &x, &y);
      cairo_rectangle (cr, x - half, y - half, 2 * half, 2 * half);
      return;
    }
  if (shape->n_points == 2)
    {
      FrGroundPoint corners[4] = { p[0], { p[1].x_m, p[0].y_m }, p[1], { p[0].x_m, p[1].y_m } };
      for (guint i = 0; i < 4; i++)
        {
          fr_viewport_to_screen (&view->viewport, corners[i].x_m, corners[i].y_m, &x, &y);
          cairo_line_to (cr, x, y);
        }
    }
  else
    for (gsize i = 0; i < shape->n_points; i++)
      {
        fr_viewport_to_screen (&view->viewport, p[i].x_m, p[i].y_m, &x, &y);
        cairo_line_to (cr, x, y);
      }
  cairo_close_path (cr);
}

gboolean
fr_map_shape_box (const FrMapView *view, const FrMapShape *shape, FrBox *box)
{
  double left = INFINITY, top = INFINITY, right = -INFINITY, bottom = -INFINITY;
  double half = shape->n_points == 1 ? MARK_PX * fr_map_scale (view) : 0;
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

/* A pan with steam, or a barrel, on a small disc. */
static void
draw_mark (const FrMapFrame *frame, FrMapForm form, double x, double y)
{
  cairo_t *cr = frame->cr;
  double s = frame->scale_ratio;

  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, s, s);
  cairo_arc (cr, 0, 0, 9.5, 0, 2 * G_PI);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_CARD, 1);
  cairo_fill_preserve (cr);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_BUILDING_EDGE, 1);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_INK, 1);
  cairo_set_line_width (cr, 1.4);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (form == FR_MAP_FORM_BOILING)
    {
      cairo_move_to (cr, -5, 0.5);
      cairo_line_to (cr, -3.6, 4.5);
      cairo_line_to (cr, 3.6, 4.5);
      cairo_line_to (cr, 5, 0.5);
      cairo_close_path (cr);
      for (int i = -1; i <= 1; i++)
        {
          cairo_move_to (cr, 2.8 * i, -2);
          cairo_curve_to (cr, 2.8 * i - 1.6, -3.4, 2.8 * i + 1.6, -4.2, 2.8 * i, -5.8);
        }
    }
  else
    {
      cairo_move_to (cr, -3.4, -4.6);
      cairo_line_to (cr, 3.4, -4.6);
      cairo_curve_to (cr, 5, -1.6, 5, 1.6, 3.4, 4.6);
      cairo_line_to (cr, -3.4, 4.6);
      cairo_curve_to (cr, -5, 1.6, -5, -1.6, -3.4, -4.6);
      cairo_close_path (cr);
      cairo_move_to (cr, -4.4, -1.7);
      cairo_line_to (cr, 4.4, -1.7);
      cairo_move_to (cr, -4.4, 1.7);
      cairo_line_to (cr, 4.4, 1.7);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_box (const FrMapFrame *frame, const FrMapShape *shape)
{
  const FrViewport *v = &frame->view->viewport;
  cairo_t *cr = frame->cr;
  double s = frame->scale_ratio;
  FrBox box;

  if (!fr_map_shape_box (frame->view, shape, &box))
    return;
  double left = MAX (box.x_px, -20), right = MIN (box.x_px + box.width_px, v->width_px + 20);
  double top = MAX (box.y_px, -20), bottom = MIN (box.y_px + box.height_px, v->height_px + 20);
  if (left > right || top > bottom)
    return;

  box_path (cr, frame->view, shape);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_BUILDING_FILL, 1);
  cairo_fill_preserve (cr);
  cairo_save (cr);
  cairo_clip (cr);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_BUILDING_EDGE, 0.55);
  cairo_set_line_width (cr, fr_palette_hatch_px (frame->palette) * s);
  /* The lines belong to the box, so they start from its own corner. */
  double gap = 6 * s, from = box.x_px + floor ((left - (bottom - top) - box.x_px) / gap) * gap;
  double shift = fmod (top - box.y_px, gap);
  for (double x = from - gap; x < right + gap; x += gap)
    {
      cairo_move_to (cr, x - shift, bottom);
      cairo_line_to (cr, x - shift + (bottom - top), top);
    }
  cairo_stroke (cr);
  cairo_restore (cr);

  box_path (cr, frame->view, shape);
  fr_palette_set_source (frame->palette, cr, FR_ROLE_BUILDING_EDGE, 1);
  cairo_set_line_width (cr, (frame->palette->high_contrast ? 2 : 1.2) * s);
  cairo_stroke (cr);
  if (shape->form != FR_MAP_FORM_BUILDING)
    draw_mark (frame, shape->form, box.x_px + box.width_px / 2, box.y_px + box.height_px / 2);
  if (shape->is_selected || shape->is_hovered)
    {
      double out = 5 * s;
      fr_palette_set_source (frame->palette, cr, FR_ROLE_ACCENT, 1);
      cairo_set_line_width (cr, (shape->is_selected ? 2.5 : 1) * s);
      cairo_rectangle (cr, box.x_px - out, box.y_px - out, box.width_px + 2 * out, box.height_px + 2 * out);
      cairo_stroke (cr);
    }
}

static void
draw_line (const FrMapFrame *frame, const FrMapShape *shape)
{
  cairo_t *cr = frame->cr;
  const FrPalette *palette = frame->palette;
  double s = frame->scale_ratio, more = palette->high_contrast ? 1.4 : 1;
  g_autoptr (GArray) line = line_of (shape);
  const FrGroundPoint *p = (const FrGroundPoint *)(void *)line->data;

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (shape->is_selected || shape->is_hovered)
    {
      fr_palette_set_source (palette, cr, FR_ROLE_ACCENT, shape->is_selected ? 0.9 : 0.5);
      cairo_set_line_width (cr, (shape->form == FR_MAP_FORM_LANE ? CASING_PX + 5 : 8) * s);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0, 0);
      fr_palette_set_source (palette, cr, FR_ROLE_GROUND, 1);
      cairo_set_line_width (cr, (shape->form == FR_MAP_FORM_LANE ? CASING_PX : 3.5) * s);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0, 0);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
    }
  switch (shape->form)
    {
    case FR_MAP_FORM_LANE:
      /* Opaque, so that a lane crossing itself does not darken. */
      {
        FrRgba casing = fr_rgba_mix (fr_palette_color (palette, FR_ROLE_GROUND),
                                     fr_palette_color (palette, FR_ROLE_PATH), 0.26);
        cairo_set_source_rgb (cr, casing.red, casing.green, casing.blue);
      }
      cairo_set_line_width (cr, CASING_PX * s);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0, 0);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
      G_GNUC_FALLTHROUGH;
    case FR_MAP_FORM_PATH:
      fr_palette_set_source (palette, cr, FR_ROLE_PATH, 1);
      cairo_set_line_width (cr, 1.6 * s * more);
      fr_map_stroke_line (frame, p, line->len, FALSE, 7 * s, 5 * s);
      break;
    case FR_MAP_FORM_WALL:
      fr_palette_set_source (palette, cr, FR_ROLE_INK_FAINT, 1);
      cairo_set_line_width (cr, 3.2 * s);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0.01, 5.2 * s);
      break;
    case FR_MAP_FORM_STREAM:
    default:
      fr_palette_set_source (palette, cr, FR_ROLE_FREEZE, 0.75);
      cairo_set_line_width (cr, 5.2 * s * more);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0, 0);
      {
        FrRgba water = fr_rgba_mix (fr_palette_color (palette, FR_ROLE_GROUND),
                                    fr_palette_color (palette, FR_ROLE_FREEZE), 0.14);
        cairo_set_source_rgb (cr, water.red, water.green, water.blue);
      }
      cairo_set_line_width (cr, 3.2 * s);
      fr_map_stroke_line (frame, p, line->len, FALSE, 0, 0);
      break;
    }
  cairo_restore (cr);
}

void
fr_map_draw_shapes (const FrMapFrame *frame)
{
  for (gsize i = 0; i < frame->view->n_shapes; i++)
    if (frame->view->shapes[i].n_points > 0 && !fr_map_form_is_box (frame->view->shapes[i].form))
      draw_line (frame, &frame->view->shapes[i]);
  for (gsize i = 0; i < frame->view->n_shapes; i++)
    if (frame->view->shapes[i].n_points > 0 && fr_map_form_is_box (frame->view->shapes[i].form))
      draw_box (frame, &frame->view->shapes[i]);
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
  g_autoptr (GArray) line = line_of (shape);
  double half = (shape->form == FR_MAP_FORM_LANE ? CASING_PX : 3) / 2 * fr_map_scale (view);
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
