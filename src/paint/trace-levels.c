/* The upper lane: level (solid) and sweetness (dashed) on one clock, each with its own scale in its own
 * colour. Under the level the area is tinted by how sweet the pan is then; the dashed line says the same, so
 * the tint is decoration. A label is placed by trying many spots along its line and taking the cheapest:
 * crossing a solid line is worse than crossing a dotted one, and far from the wished spot is worse than near.
 */
#include "paint/trace-private.h"

#include <math.h>

#define LINE_PX 2.2
/* Sweetness at which the tint has wholly become the next colour. */
#define TINT_CONCENTRATE_BRIX 25.0
#define TINT_SYRUP_BRIX 60.0

static double
level_bottom (const FrTrace *trace)
{
  return trace->frame.level_y_px + trace->frame.level_height_px;
}

static void
put_scale (FrTrace *trace, const FrAxis *axis, const char *unit, FrRole role, gboolean at_left)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  FrRgba none = fr_trace_card (trace, 0);
  double width, height, top = 0;

  for (guint i = 0; i <= axis->n_intervals; i++)
    {
      g_autofree char *text = fr_axis_text (axis, i, trace->view->decimal_mark);
      g_autoptr (PangoLayout) layout = fr_canvas_text (c, text, NULL, NULL, FR_TEXT_SMALL_PX);
      fr_layout_size (layout, &width, &height);
      double y = level_bottom (trace) - f->level_height_px * i / axis->n_intervals - height / 2;
      double x = at_left ? f->plot_x_px - 8 - width : f->plot_x_px + f->plot_width_px + 8;
      top = y;
      fr_canvas_try (c, layout, x, y, role, none);
    }
  g_autoptr (PangoLayout) layout = fr_canvas_text (c, NULL, unit, NULL, FR_TEXT_SMALL_PX);
  if (layout == NULL)
    return;
  fr_layout_size (layout, &width, &height);
  fr_canvas_try (c, layout, at_left ? f->plot_x_px - 8 - width : f->plot_x_px + f->plot_width_px + 8,
                 MAX (top - height, 0), role, none);
}

void
fr_trace_draw_scales (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  double right = f->plot_x_px + f->plot_width_px;
  guint n = trace->level_axis.n_intervals;

  fr_palette_set_source (c->palette, c->cr, FR_ROLE_GRID, 1);
  for (guint i = 1; i <= n; i++)
    {
      double y = level_bottom (trace) - f->level_height_px * i / n;
      fr_canvas_rule (c, f->plot_x_px, y, right, y, 1);
    }
  if (trace->has_level)
    put_scale (trace, &trace->level_axis, trace->view->level_unit, FR_ROLE_SAP, TRUE);
  if (trace->has_brix)
    put_scale (trace, &trace->brix_axis, trace->view->brix_unit, FR_ROLE_SYRUP, FALSE);
}

static FrRgba
tint (const FrTrace *trace, double brix)
{
  const FrPalette *p = trace->canvas.palette;
  FrRgba sap = fr_palette_color (p, FR_ROLE_SAP);
  FrRgba concentrate = fr_palette_color (p, FR_ROLE_CONCENTRATE);
  FrRgba syrup = fr_palette_color (p, FR_ROLE_SYRUP);

  if (!isfinite (brix) || brix <= 0)
    return sap;
  if (brix < TINT_CONCENTRATE_BRIX)
    return fr_rgba_mix (sap, concentrate, brix / TINT_CONCENTRATE_BRIX);
  return fr_rgba_mix (concentrate, syrup,
                      MIN ((brix - TINT_CONCENTRATE_BRIX) / (TINT_SYRUP_BRIX - TINT_CONCENTRATE_BRIX), 1));
}

static void
fill_level (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  double bottom = level_bottom (trace);
  double x0 = f->plot_x_px, x1 = x0 + f->plot_width_px;
  cairo_pattern_t *pattern = cairo_pattern_create_linear (x0, 0, x1, 0);

  for (guint i = 0; i <= 64; i++)
    {
      double time_s = f->from_s + (f->to_s - f->from_s) * i / 64;
      FrRgba t = tint (trace, fr_trace_moment_at (trace->line, time_s).brix);
      /* Past the end there is nothing to tint; the last colour goes on so that the stops do not fall back to
       * sap. */
      if (i > 0 && time_s > trace->line->time_s[trace->line->n_samples - 1])
        break;
      cairo_pattern_add_color_stop_rgba (pattern, i / 64.0, t.red, t.green, t.blue, 0.26);
    }
  cairo_set_source (c->cr, pattern);
  for (guint i = 0; i < trace->level_points->len; i++)
    {
      guint from = i;
      while (i < trace->level_points->len && !isnan (g_array_index (trace->level_points, FrPoint, i).y_px))
        {
          const FrPoint *p = &g_array_index (trace->level_points, FrPoint, i);
          if (i == from)
            cairo_move_to (c->cr, p->x_px, bottom);
          cairo_line_to (c->cr, p->x_px, p->y_px);
          i++;
        }
      if (i > from)
        {
          cairo_line_to (c->cr, g_array_index (trace->level_points, FrPoint, i - 1).x_px, bottom);
          cairo_close_path (c->cr);
        }
    }
  cairo_fill (c->cr);
  cairo_pattern_destroy (pattern);
}

static gboolean
last_point (const GArray *points, FrPoint *last)
{
  for (guint i = points->len; i > 0; i--)
    if (!isnan (g_array_index (points, FrPoint, i - 1).y_px))
      {
        *last = g_array_index (points, FrPoint, i - 1);
        return TRUE;
      }
  return FALSE;
}

static void
draw_dot (FrTrace *trace, FrPoint p, FrRole role)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;

  if (p.x_px < f->plot_x_px || p.x_px > f->plot_x_px + f->plot_width_px)
    return;
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_CARD, 1);
  cairo_arc (c->cr, p.x_px, p.y_px, 6, 0, 2 * G_PI);
  cairo_fill (c->cr);
  fr_palette_set_source (c->palette, c->cr, role, 1);
  cairo_arc (c->cr, p.x_px, p.y_px, 4, 0, 2 * G_PI);
  cairo_fill (c->cr);
}

static void
draw_limits (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;

  for (gsize i = 0; i < trace->view->n_limits; i++)
    {
      const FrTraceLimit *limit = &trace->view->limits[i];
      gboolean level = limit->scale == FR_TRACE_LIMIT_LEVEL;
      double ratio = fr_axis_ratio (level ? &trace->level_axis : &trace->brix_axis, limit->value_shown);
      FrPoint a = { f->plot_x_px, level_bottom (trace) - f->level_height_px * ratio };
      FrPoint b = { f->plot_x_px + f->plot_width_px, a.y_px };
      FrPoint gap = { b.x_px, NAN };

      if (!(level ? trace->has_level : trace->has_brix) || !(ratio >= 0 && ratio <= 1.0001))
        a.y_px = NAN;
      g_array_append_val (trace->limit_points, a);
      g_array_append_val (trace->limit_points, b);
      g_array_append_val (trace->limit_points, gap);
      if (isnan (a.y_px))
        continue;
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_WARNING, 1);
      if (level)
        fr_canvas_dash (c, 2, 3);
      else
        fr_canvas_dash (c, 6, 3);
      fr_canvas_rule (c, a.x_px, a.y_px, b.x_px, b.y_px, 1.3);
      fr_canvas_dash (c, 0, 0);
    }
}

void
fr_trace_draw_levels (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  double bottom = level_bottom (trace);
  FrPoint end;

  cairo_save (c->cr);
  cairo_rectangle (c->cr, f->plot_x_px - 2, f->level_y_px - 4, f->plot_width_px + 4, f->level_height_px + 5);
  cairo_clip (c->cr);
  if (trace->has_level && trace->line->level_shown != NULL)
    fill_level (trace);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
  fr_canvas_rule (c, f->plot_x_px, bottom, f->plot_x_px + f->plot_width_px, bottom, 1);
  draw_limits (trace);
  cairo_set_line_width (c->cr, LINE_PX);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
  for (guint i = 0; i < trace->level_points->len; i++)
    {
      const FrPoint *p = &g_array_index (trace->level_points, FrPoint, i);
      if (isnan (p->y_px))
        continue;
      cairo_move_to (c->cr, p->x_px, bottom);
      cairo_line_to (c->cr, p->x_px, p->y_px);
      cairo_stroke (c->cr);
      break;
    }
  fr_canvas_polyline (c, trace->level_points);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SYRUP, 1);
  cairo_set_line_width (c->cr, LINE_PX + 0.3);
  fr_canvas_dash (c, 7, 4);
  fr_canvas_polyline (c, trace->brix_points);
  fr_canvas_dash (c, 0, 0);
  cairo_restore (c->cr);
  if (last_point (trace->level_points, &end))
    draw_dot (trace, end, FR_ROLE_SAP);
  if (last_point (trace->brix_points, &end))
    draw_dot (trace, end, FR_ROLE_SYRUP);
}

typedef struct
{
  double x_px;
  double y_px;
  double cost;
} Spot;

static void
try_spot (FrTrace *trace, PangoLayout *layout, double x_px, double y_px, double cost, Spot *best)
{
  const FrTraceFrame *f = &trace->frame;
  FrBox box = { x_px, y_px, 0, 0 };

  fr_layout_size (layout, &box.width_px, &box.height_px);
  if (cost >= best->cost || box.x_px < f->plot_x_px + 2
      || box.x_px + box.width_px > f->plot_x_px + f->plot_width_px - 2
      || box.y_px < f->level_y_px - box.height_px || box.y_px + box.height_px > level_bottom (trace) + 1
      || !fr_canvas_free (&trace->canvas, &box))
    return;
  cost += 10
          * (fr_points_crossing (trace->level_points, &box) + fr_points_crossing (trace->brix_points, &box));
  cost += 4 * fr_points_crossing (trace->limit_points, &box);
  for (guint i = 0; i < trace->stems->len; i++)
    {
      const FrStem *s = &g_array_index (trace->stems, FrStem, i);
      if (s->x_px > box.x_px - 3 && s->x_px < box.x_px + box.width_px + 3
          && s->top_px < box.y_px + box.height_px && s->bottom_px > box.y_px)
        cost += 3;
    }
  if (cost < best->cost)
    *best = (Spot){ x_px, y_px, cost };
}

/* @worst: a spot that costs this much is worse than no label. */
static gboolean
put_best (FrTrace *trace, PangoLayout *layout, const Spot *best, double worst, FrRole role)
{
  if (!(best->cost < worst))
    return FALSE;
  fr_canvas_put (&trace->canvas, layout, best->x_px, best->y_px, role,
                 fr_trace_card (trace, best->cost >= 3 ? 0.9 : 0));
  return TRUE;
}

/* A bold label along a line; @above first or below first. */
static gboolean
label_along (FrTrace *trace, const GArray *points, const char *text, double wished_ratio, gboolean above,
             FrRole role)
{
  FrCanvas *c = &trace->canvas;
  FrPoint end;
  double width, height, top, bottom;
  Spot best = { 0, 0, INFINITY };

  g_autoptr (PangoLayout) layout = fr_canvas_text (c, NULL, text, NULL, FR_TEXT_SMALL_PX);
  if (layout == NULL || !last_point (points, &end))
    return FALSE;
  fr_layout_size (layout, &width, &height);
  double from = MAX (g_array_index (points, FrPoint, 0).x_px, trace->frame.plot_x_px);
  double wished = from + (end.x_px - from) * wished_ratio;
  /* From the wished spot outwards, until going further costs more than the best found. */
  for (int step = 0; step * 3.0 < 2 * (end.x_px - from); step++)
    {
      double x = wished - width / 2 + (step % 2 ? -1 : 1) * ((step + 1) / 2) * 6.0;
      double cost = fabs (x + width / 2 - wished) / 150;
      if (cost >= best.cost)
        break;
      if (x < from + 8 || x + width >= end.x_px || !fr_points_span (points, x, x + width, &top, &bottom))
        continue;
      /* Where the line is steep a label beside it points at nothing. */
      cost += (bottom - top) / 20;
      try_spot (trace, layout, x, top - height - 2, cost + (above ? 0 : 0.8), &best);
      try_spot (trace, layout, x, bottom + 3, cost + (above ? 0.8 : 0), &best);
    }
  return put_best (trace, layout, &best, 4, role);
}

static void
label_end (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  FrPoint end;
  double width, height;
  Spot best = { 0, 0, INFINITY };
  g_autoptr (PangoLayout) layout
      = fr_canvas_text (c, NULL, trace->line->brix_end_label, NULL, FR_TEXT_SMALL_PX);

  if (layout == NULL || !last_point (trace->brix_points, &end))
    return;
  fr_layout_size (layout, &width, &height);
  for (int dy = -2; dy <= 2; dy++)
    for (int dx = 0; dx <= 6; dx++)
      {
        double y = end.y_px - height / 2 + dy * height / 2, cost = abs (dy) * 0.5 + dx * 0.45;
        try_spot (trace, layout, end.x_px - 9 - width - dx * 6, y, cost, &best);
        try_spot (trace, layout, end.x_px + 9 + dx * 6, y, cost + 0.3, &best);
      }
  put_best (trace, layout, &best, 10, FR_ROLE_SYRUP);
}

static void
label_limits (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  double width, height;

  for (gsize i = 0; i < trace->view->n_limits; i++)
    {
      FrPoint *a = &g_array_index (trace->limit_points, FrPoint, i * 3);
      double y = a->y_px;
      Spot best = { 0, 0, INFINITY };
      g_autoptr (PangoLayout) layout
          = fr_canvas_text (c, trace->view->limits[i].label, NULL, NULL, FR_TEXT_SMALL_PX);
      if (layout == NULL || isnan (y))
        continue;
      fr_layout_size (layout, &width, &height);
      double from = trace->level_points->len > 0 ? g_array_index (trace->level_points, FrPoint, 0).x_px
                                                 : f->plot_x_px;
      from = MAX (from, f->plot_x_px);
      for (double x = f->plot_x_px + 4; x + width < f->plot_x_px + f->plot_width_px; x += 6)
        {
          double cost = fabs (x - from - 12) / 120;
          try_spot (trace, layout, x, y - height - 1, cost, &best);
          try_spot (trace, layout, x, y + 2, cost + 0.6, &best);
        }
      put_best (trace, layout, &best, 9, FR_ROLE_WARNING);
    }
}

/* Soft words beside a stem that begins inside the lane. */
static void
label_minor (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  double width, height;

  for (gsize i = 0; i < trace->view->n_events; i++)
    {
      const FrTraceEvent *e = &trace->view->events[i];
      Spot best = { 0, 0, INFINITY };
      double x = fr_trace_x_from_time (f, e->time_s);
      if (e->kind != FR_TRACE_EVENT_MINOR || !(x >= f->plot_x_px && x <= f->plot_x_px + f->plot_width_px))
        continue;
      double top = f->level_y_px + 0.5 * f->level_height_px;
      double scratch;
      fr_points_span (trace->level_points, x - 1, x + 1, &top, &scratch);
      g_autoptr (PangoLayout) layout = fr_canvas_text (c, e->strong, NULL, e->plain, FR_TEXT_SMALL_PX);
      if (layout != NULL)
        {
          fr_layout_size (layout, &width, &height);
          for (double y = f->level_y_px + 2; y + height < top - 4; y += 4)
            {
              double cost = (y - f->level_y_px) / 40;
              try_spot (trace, layout, x + 6, y, cost, &best);
              try_spot (trace, layout, x - 6 - width, y, cost + 0.2, &best);
            }
          if (!put_best (trace, layout, &best, 3, FR_ROLE_INK_SOFT))
            continue;
          cairo_save (c->cr);
          fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK_SOFT, 1);
          fr_canvas_dash (c, 2, 2);
          fr_canvas_rule (c, x, best.y_px + 3, x, level_bottom (trace), 1);
          cairo_restore (c->cr);
        }
    }
}

void
fr_trace_label_levels (FrTrace *trace)
{
  FrPoint end;

  if (trace->is_empty)
    return;
  /* The dots are part of the drawing that no word may cover. */
  if (last_point (trace->level_points, &end))
    fr_canvas_take (&trace->canvas, (FrBox){ end.x_px - 5, end.y_px - 5, 10, 10 });
  if (last_point (trace->brix_points, &end))
    fr_canvas_take (&trace->canvas, (FrBox){ end.x_px - 5, end.y_px - 5, 10, 10 });
  label_end (trace);
  if (!label_along (trace, trace->level_points, trace->line->level_label, 0.3, TRUE, FR_ROLE_SAP))
    label_along (trace, trace->level_points, trace->line->level_label_short, 0.3, TRUE, FR_ROLE_SAP);
  label_limits (trace);
  label_along (trace, trace->brix_points, trace->line->brix_label, 0.7, FALSE, FR_ROLE_SYRUP);
  label_minor (trace);
}

void
fr_trace_draw_selected (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  double at = trace->view->selected_s;

  if (!isfinite (at) || at < f->from_s || at > f->to_s)
    return;
  double x = fr_trace_x_from_time (f, at);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK, 0.75);
  fr_canvas_rule (c, x, f->level_y_px, x,
                  f->price_height_px > 0 ? f->price_y_px + f->price_height_px : f->hours_y_px, 1);
  for (gsize i = 0; i < trace->view->n_lines; i++)
    {
      FrTraceMoment m = fr_trace_moment_at (&trace->view->lines[i], at);
      if (trace->line != &trace->view->lines[i])
        continue;
      if (isfinite (m.level_shown) && trace->has_level)
        draw_dot (
            trace,
            (FrPoint){ x, level_bottom (trace)
                              - f->level_height_px * fr_axis_ratio (&trace->level_axis, m.level_shown) },
            FR_ROLE_SAP);
      if (isfinite (m.brix) && trace->has_brix)
        draw_dot (trace,
                  (FrPoint){ x, level_bottom (trace)
                                    - f->level_height_px * fr_axis_ratio (&trace->brix_axis, m.brix) },
                  FR_ROLE_SYRUP);
    }
}
