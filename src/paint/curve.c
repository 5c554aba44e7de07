/* One line over a round scale from zero, an optional band and second line, the chosen point and a limit.
 * Labels go where they touch nothing: the chosen point's first, then the limit's, then the lines' own. */
#include "paint/curve.h"

#include "paint/axis.h"
#include "paint/canvas.h"

#include <math.h>

#define DOT_PX 5.0

typedef struct
{
  FrCanvas canvas;
  const FrCurveView *view;
  FrCurveFrame frame;
  FrAxis x_axis;
  FrAxis y_axis;
  GArray *line; /* FrPoint */
  GArray *beyond;
} Curve;

double
fr_curve_x_px (const FrCurveFrame *frame, double x)
{
  return frame->plot_x_px + (x - frame->x_low) / (frame->x_high - frame->x_low) * frame->plot_width_px;
}

double
fr_curve_y_px (const FrCurveFrame *frame, double y)
{
  return frame->plot_y_px + frame->plot_height_px * (1 - y / frame->y_high);
}

gssize
fr_curve_at (const FrCurveFrame *frame, const FrCurveView *view, double x_px)
{
  double best = INFINITY;
  gssize index = -1;

  if (x_px < frame->plot_x_px - 12 || x_px > frame->plot_x_px + frame->plot_width_px + 12)
    return -1;
  for (gsize i = 0; i < view->n_points; i++)
    {
      if (!isfinite (view->points[i].x) || !isfinite (view->points[i].y))
        continue;
      double away = fabs (fr_curve_x_px (frame, view->points[i].x) - x_px);
      if (away < best)
        {
          best = away;
          index = (gssize)i;
        }
    }
  return index;
}

static void
reach (const FrCurvePoint *points, gsize n, double *low_x, double *high_x, double *high_y)
{
  for (gsize i = 0; i < n; i++)
    if (isfinite (points[i].x) && isfinite (points[i].y))
      {
        *low_x = MIN (*low_x, points[i].x);
        *high_x = MAX (*high_x, points[i].x);
        *high_y = MAX (*high_y, points[i].y);
      }
}

/* FALSE: there is nothing to draw. */
static gboolean
choose_scales (Curve *curve)
{
  const FrCurveView *v = curve->view;
  FrCanvas *c = &curve->canvas;
  double low_x = INFINITY, high_x = -INFINITY, high_y = 0, widest = 0, width, height;

  reach (v->points, v->n_points, &low_x, &high_x, &high_y);
  gboolean any = low_x <= high_x;
  reach (v->beyond, v->n_beyond, &low_x, &high_x, &high_y);
  for (gsize i = 0; v->high_y != NULL && i < v->n_points; i++)
    if (isfinite (v->high_y[i]))
      high_y = MAX (high_y, v->high_y[i]);
  if (low_x > high_x)
    {
      low_x = 0;
      high_x = 1;
    }
  if (isfinite (v->limit_x))
    {
      low_x = MIN (low_x, v->limit_x);
      high_x = MAX (high_x, v->limit_x);
    }
  if (low_x == high_x)
    high_x = low_x + 1;

  FrCurveFrame *f = &curve->frame;
  double s = c->scale_ratio;
  f->plot_y_px = c->line_px * (v->y_unit != NULL || v->limit_label != NULL ? 1.6 : 0.5);
  f->plot_height_px = MAX (c->height_px - f->plot_y_px - c->line_px - 6 * s, 8);
  /* As many steps as have room, but rather fewer than an axis that goes far past the line. */
  guint most = (guint)CLAMP (f->plot_height_px / (2.2 * c->line_px), 1, 4);
  fr_axis_from_zero (1, most, &curve->y_axis);
  double best = INFINITY;
  for (guint n = MIN (2, most); n <= most; n++)
    {
      FrAxis axis;
      if (!fr_axis_from_zero (high_y * 1.04, n, &axis))
        continue;
      double waste = axis.high_value / high_y * (n < 3 ? 1.2 : 1);
      if (waste <= best)
        {
          best = waste;
          curve->y_axis = axis;
        }
    }
  for (guint i = 0; i <= curve->y_axis.n_intervals; i++)
    {
      g_autofree char *text = fr_axis_text (&curve->y_axis, i, v->decimal_mark);
      g_autoptr (PangoLayout) layout = fr_canvas_text (c, text, NULL, NULL, FR_TEXT_SMALL_PX);
      fr_layout_size (layout, &width, &height);
      widest = MAX (widest, width);
    }
  f->plot_x_px = widest + 8 * s;
  f->plot_width_px = MAX (c->width_px - f->plot_x_px - 10 * s, 10);
  f->x_low = low_x;
  f->x_high = high_x;
  f->y_high = curve->y_axis.high_value;
  if (!fr_axis_round (low_x, high_x, (guint)CLAMP (f->plot_width_px / (52 * s), 2, 10), &curve->x_axis))
    fr_axis_round (0, 1, 2, &curve->x_axis);
  return any;
}

static GArray *
points_of (const Curve *curve, const FrCurvePoint *points, gsize n)
{
  GArray *line = g_array_new (FALSE, FALSE, sizeof (FrPoint));
  double before = NAN;

  for (gsize i = 0; i < n; i++)
    {
      FrPoint p = { fr_curve_x_px (&curve->frame, points[i].x),
                    isfinite (points[i].x) ? fr_curve_y_px (&curve->frame, points[i].y) : NAN };
      if (curve->view->is_step && isfinite (before) && isfinite (p.y_px))
        {
          FrPoint corner = { p.x_px, before };
          g_array_append_val (line, corner);
        }
      g_array_append_val (line, p);
      before = p.y_px;
    }
  return line;
}

static void
draw_scales (Curve *curve)
{
  FrCanvas *c = &curve->canvas;
  const FrCurveFrame *f = &curve->frame;
  const FrCurveView *v = curve->view;
  FrRgba none = { 0, 0, 0, 0 };
  double width, height, right = f->plot_x_px + f->plot_width_px, foot = f->plot_y_px + f->plot_height_px;

  for (guint i = 0; i <= curve->y_axis.n_intervals; i++)
    {
      double y = fr_curve_y_px (f, fr_axis_tick (&curve->y_axis, i));
      g_autofree char *text = fr_axis_text (&curve->y_axis, i, v->decimal_mark);
      g_autoptr (PangoLayout) layout = fr_canvas_text (c, text, NULL, NULL, FR_TEXT_SMALL_PX);
      fr_palette_set_source (c->palette, c->cr, i == 0 ? FR_ROLE_AXIS : FR_ROLE_GRID, 1);
      fr_canvas_rule (c, f->plot_x_px, y, right, y, 1);
      fr_layout_size (layout, &width, &height);
      fr_canvas_try (c, layout, f->plot_x_px - 6 * c->scale_ratio - width, y - height / 2, FR_ROLE_INK_SOFT,
                     none);
    }
  g_autoptr (PangoLayout) unit = fr_canvas_text (c, v->y_unit, NULL, NULL, FR_TEXT_SMALL_PX);
  if (unit != NULL)
    {
      fr_layout_size (unit, &width, &height);
      fr_canvas_try (c, unit, MAX (f->plot_x_px - 6 * c->scale_ratio - width, 0), 0, FR_ROLE_INK_SOFT, none);
    }
  g_autoptr (PangoLayout) name = fr_canvas_text (c, v->x_name, NULL, NULL, FR_TEXT_SMALL_PX);
  if (name != NULL)
    {
      fr_layout_size (name, &width, &height);
      fr_canvas_try (c, name, c->width_px - width, foot + 5 * c->scale_ratio, FR_ROLE_INK_SOFT, none);
    }
  for (guint i = 0; i <= curve->x_axis.n_intervals; i++)
    {
      double at = fr_axis_tick (&curve->x_axis, i);
      if (at < f->x_low - 1e-9 * fabs (f->x_high) || at > f->x_high + 1e-9 * fabs (f->x_high))
        continue;
      double x = fr_curve_x_px (f, at);
      g_autofree char *text = fr_axis_text (&curve->x_axis, i, v->decimal_mark);
      g_autoptr (PangoLayout) layout = fr_canvas_text (c, text, NULL, NULL, FR_TEXT_SMALL_PX);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
      fr_canvas_rule (c, x, foot, x, foot + 4 * c->scale_ratio, 1);
      fr_layout_size (layout, &width, &height);
      fr_canvas_try (c, layout, CLAMP (x - width / 2, 0, MAX (c->width_px - width, 0)),
                     foot + 5 * c->scale_ratio, FR_ROLE_INK_SOFT, none);
    }
}

static void
draw_band (const Curve *curve)
{
  const FrCurveView *v = curve->view;
  const FrCanvas *c = &curve->canvas;
  gboolean open = FALSE;

  if (v->low_y == NULL || v->high_y == NULL)
    return;
  for (gsize i = 0; i < v->n_points; i++)
    if (isfinite (v->high_y[i]) && isfinite (v->low_y[i]))
      {
        cairo_line_to (c->cr, fr_curve_x_px (&curve->frame, v->points[i].x),
                       fr_curve_y_px (&curve->frame, v->high_y[i]));
        open = TRUE;
      }
  for (gsize i = v->n_points; i-- > 0;)
    if (isfinite (v->high_y[i]) && isfinite (v->low_y[i]))
      cairo_line_to (c->cr, fr_curve_x_px (&curve->frame, v->points[i].x),
                     fr_curve_y_px (&curve->frame, MAX (v->low_y[i], 0)));
  if (!open)
    return;
  cairo_close_path (c->cr);
  fr_palette_set_source (c->palette, c->cr, v->role, 0.17);
  cairo_fill_preserve (c->cr);
  fr_palette_set_source (c->palette, c->cr, v->role, 0.6);
  cairo_set_line_width (c->cr, MAX (fr_palette_band_edge_px (c->palette), 0.5));
  cairo_stroke (c->cr);
}

static void
draw_lines (const Curve *curve)
{
  const FrCanvas *c = &curve->canvas;
  double s = c->scale_ratio;

  cairo_set_line_join (c->cr, curve->view->is_step ? CAIRO_LINE_JOIN_MITER : CAIRO_LINE_JOIN_ROUND);
  fr_palette_set_source (c->palette, c->cr, curve->view->role, 1);
  fr_canvas_dash (c, 6 * s, 4 * s);
  cairo_set_line_width (c->cr, 1.5 * s);
  fr_canvas_polyline (c, curve->beyond);
  fr_canvas_dash (c, 0, 0);
  cairo_set_line_width (c->cr, 2.2 * s);
  fr_canvas_polyline (c, curve->line);
}

static void
draw_limit (Curve *curve)
{
  FrCanvas *c = &curve->canvas;
  const FrCurveFrame *f = &curve->frame;
  double width, height, s = c->scale_ratio;
  FrRgba card = fr_palette_color (c->palette, FR_ROLE_CARD);

  if (!isfinite (curve->view->limit_x))
    return;
  double x = fr_curve_x_px (f, curve->view->limit_x);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_WARNING, 1);
  fr_canvas_dash (c, 5 * s, 3 * s);
  fr_canvas_rule (c, x, f->plot_y_px - 2 * s, x, f->plot_y_px + f->plot_height_px, 1.5);
  fr_canvas_dash (c, 0, 0);
  g_autoptr (PangoLayout) layout = fr_canvas_text (c, NULL, curve->view->limit_label, NULL, FR_TEXT_SMALL_PX);
  if (layout == NULL)
    return;
  fr_layout_size (layout, &width, &height);
  const double places[4] = { x - width / 2, x - width, x, c->width_px - width };
  for (guint i = 0; i < 4; i++)
    if (fr_canvas_try (c, layout, places[i], MAX (f->plot_y_px - height - 3 * s, 0), FR_ROLE_WARNING, card))
      return;
}

static void
draw_chosen (Curve *curve)
{
  const FrCurveView *v = curve->view;
  FrCanvas *c = &curve->canvas;
  const FrCurveFrame *f = &curve->frame;
  double width, height, s = c->scale_ratio, r = DOT_PX * s;
  FrRgba card = fr_palette_color (c->palette, FR_ROLE_CARD);

  if (v->chosen < 0 || (gsize)v->chosen >= v->n_points || !isfinite (v->points[v->chosen].y)
      || !isfinite (v->points[v->chosen].x))
    return;
  double x = fr_curve_x_px (f, v->points[v->chosen].x), y = fr_curve_y_px (f, v->points[v->chosen].y);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
  fr_canvas_rule (c, x, y, x, f->plot_y_px + f->plot_height_px, c->palette->high_contrast ? 2 : 1);
  cairo_arc (c->cr, x, y, r + 2 * s, 0, 2 * G_PI);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_CARD, 1);
  cairo_fill (c->cr);
  cairo_arc (c->cr, x, y, r, 0, 2 * G_PI);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
  cairo_fill (c->cr);
  fr_canvas_take (c, (FrBox){ x - r - 2, y - r - 2, 2 * r + 4, 2 * r + 4 });
  g_autoptr (PangoLayout) layout = fr_canvas_text (c, NULL, v->chosen_label, NULL, FR_TEXT_SMALL_PX);
  if (layout == NULL)
    return;
  fr_layout_size (layout, &width, &height);
  /* Under the line on its right is the emptiest place of a rising curve, then over it on the left. */
  const double places[6][2] = {
    { x + 9 * s, y + 5 * s },
    { x - width - 9 * s, y - height - 4 * s },
    { x - width - 9 * s, y + 5 * s },
    { x + 9 * s, y - height - 4 * s },
    { x - width / 2, y - height - 10 * s },
    { CLAMP (x - width / 2, f->plot_x_px + 2, MAX (c->width_px - width, 0)), y + 12 * s },
  };
  guint best = 6, fewest = G_MAXUINT;
  for (guint i = 0; i < 6; i++)
    {
      FrBox box = { places[i][0], places[i][1], width, height };
      if (box.x_px < f->plot_x_px || box.y_px + height > f->plot_y_px + f->plot_height_px
          || !fr_canvas_free (c, &box))
        continue;
      double limit = isfinite (v->limit_x) ? fr_curve_x_px (f, v->limit_x) : NAN;
      guint n = 2 * fr_points_crossing (curve->line, &box) + fr_points_crossing (curve->beyond, &box)
                + (limit > box.x_px && limit < box.x_px + width);
      if (n < fewest)
        {
          fewest = n;
          best = i;
        }
    }
  if (best < 6)
    fr_canvas_put (c, layout, places[best][0], places[best][1], FR_ROLE_ACCENT, card);
}

/* Where the second line has left the first: only there can a word on it be told from one on the first. */
static GArray *
part_beyond (const Curve *curve)
{
  GArray *part = g_array_new (FALSE, FALSE, sizeof (FrPoint));

  for (guint i = 0; i < curve->beyond->len; i++)
    {
      FrPoint p = g_array_index (curve->beyond, FrPoint, i);
      double top, bottom;
      if (fr_points_span (curve->line, p.x_px - 0.5, p.x_px + 0.5, &top, &bottom) && p.y_px > top - 2
          && p.y_px < bottom + 2)
        continue;
      g_array_append_val (part, p);
    }
  return part;
}

/* On the line, where it crosses it least. */
static void
label_line (Curve *curve, const GArray *points, const char *text, gboolean above)
{
  FrCanvas *c = &curve->canvas;
  const FrCurveFrame *f = &curve->frame;
  double width, height, best_x = NAN, best_y = NAN, fewest = INFINITY;
  FrRgba card = fr_palette_color (c->palette, FR_ROLE_CARD);
  g_autoptr (PangoLayout) layout = fr_canvas_text (c, NULL, text, NULL, FR_TEXT_SMALL_PX);

  if (layout == NULL)
    return;
  fr_layout_size (layout, &width, &height);
  for (double x = f->plot_x_px + f->plot_width_px - width - 4; x >= f->plot_x_px + 4; x -= 12)
    {
      double top, bottom;
      if (!fr_points_span (points, x, x + width, &top, &bottom))
        continue;
      for (guint side = 0; side < 2; side++)
        {
          gboolean over = (side == 0) == above;
          FrBox box = { x, over ? top - height - 2 : bottom + 2, width, height };
          if (box.y_px < f->plot_y_px - 2 || box.y_px + height > f->plot_y_px + f->plot_height_px
              || !fr_canvas_free (c, &box))
            continue;
          double limit = isfinite (curve->view->limit_x) ? fr_curve_x_px (f, curve->view->limit_x) : NAN;
          double cost
              = 4.0 * (fr_points_crossing (curve->line, &box) + fr_points_crossing (curve->beyond, &box))
                + (limit > x && limit < x + width ? 3 : 0) + (side == 1) + (bottom - top) / 40;
          if (cost < fewest)
            {
              fewest = cost;
              best_x = x;
              best_y = box.y_px;
            }
        }
    }
  if (isfinite (best_x))
    fr_canvas_put (c, layout, best_x, best_y, curve->view->role, card);
}

static void
draw_empty (Curve *curve)
{
  FrCanvas *c = &curve->canvas;
  const FrCurveFrame *f = &curve->frame;
  double width, height;
  FrRgba card = fr_palette_color (c->palette, FR_ROLE_CARD);
  g_autoptr (PangoLayout) layout
      = fr_canvas_text (c, curve->view->empty_sentence, NULL, NULL, FR_TEXT_SMALL_PX);

  if (layout == NULL)
    return;
  pango_layout_set_single_paragraph_mode (layout, FALSE);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  pango_layout_set_width (layout, (int)((f->plot_width_px - 12) * PANGO_SCALE));
  fr_layout_size (layout, &width, &height);
  pango_layout_set_width (layout, (int)(ceil (width) * PANGO_SCALE));
  if (height <= f->plot_height_px)
    fr_canvas_put (c, layout, f->plot_x_px + (f->plot_width_px - width) / 2,
                   f->plot_y_px + (f->plot_height_px - height) / 2, FR_ROLE_INK_SOFT, card);
}

FrCurveFrame
fr_curve_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrCurveView *view,
               double width_px, double height_px, double text_scale, GArray *labels)
{
  Curve curve = { .view = view };

  fr_canvas_init (&curve.canvas, cr, context, palette, width_px, height_px, text_scale);
  gboolean any = choose_scales (&curve);
  curve.line = points_of (&curve, view->points, view->n_points);
  curve.beyond = points_of (&curve, view->beyond, view->n_beyond);
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, width_px, height_px);
  cairo_clip (cr);
  draw_scales (&curve);
  draw_band (&curve);
  draw_lines (&curve);
  draw_limit (&curve);
  draw_chosen (&curve);
  label_line (&curve, curve.line, view->line_label, FALSE);
  g_autoptr (GArray) apart = part_beyond (&curve);
  label_line (&curve, apart, view->beyond_label, TRUE);
  if (!any)
    draw_empty (&curve);
  fr_canvas_flush (&curve.canvas, labels);
  cairo_restore (cr);
  g_array_unref (curve.line);
  g_array_unref (curve.beyond);
  fr_canvas_clear (&curve.canvas);
  return curve.frame;
}
