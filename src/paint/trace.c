/* The frame of the trace: how the height is shared among the lanes, which scales they have, and the order of
 * drawing. Room is given out in order of use: hours and level first, then the skyline of prices, a second row
 * of flags, the bucket, the power; what is left over makes all of them taller. The two scales share their
 * grid lines, so each has the same number of round steps. */
#include "paint/trace-private.h"

#include <math.h>

#define PAD_X_PX 12.0
#define GAP_PX 8.0

static gboolean
has_values (const double *values, gsize n)
{
  for (gsize i = 0; values != NULL && i < n; i++)
    if (isfinite (values[i]))
      return TRUE;
  return FALSE;
}

static double
largest (const double *values, gsize n, double most)
{
  for (gsize i = 0; values != NULL && i < n; i++)
    if (isfinite (values[i]))
      most = MAX (most, values[i]);
  return most;
}

FrRgba
fr_trace_card (const FrTrace *trace, double alpha_ratio)
{
  FrRgba card = fr_palette_color (trace->canvas.palette, FR_ROLE_CARD);

  card.alpha = (float)alpha_ratio;
  return card;
}

static void
choose_span (FrTrace *trace)
{
  const FrTraceView *v = trace->view;
  FrTraceFrame *f = &trace->frame;

  f->from_s = v->from_s;
  f->to_s = v->to_s;
  if (isfinite (f->from_s) && isfinite (f->to_s) && f->to_s > f->from_s)
    return;

  double low = INFINITY, high = -INFINITY;
  for (gsize i = 0; trace->line != NULL && i < trace->line->n_samples; i++)
    if (isfinite (trace->line->time_s[i]))
      {
        low = MIN (low, trace->line->time_s[i]);
        high = MAX (high, trace->line->time_s[i]);
      }
  if (low > high)
    low = high = isfinite (v->from_s) ? v->from_s : 0;
  f->from_s = low;
  f->to_s = high > low ? high : low + 3600;
}

static void
share_height (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  FrTraceFrame *f = &trace->frame;
  const FrTraceView *v = trace->view;
  double h = c->line_px, s = c->scale_ratio;
  double pad = c->height_px >= 200 * s ? 10 * s : 4;
  gboolean want_bucket
      = trace->line && has_values (trace->line->feed_l, trace->line->n_samples) && !trace->is_empty;
  gboolean want_power
      = trace->line && has_values (trace->line->power_w, trace->line->n_samples) && !trace->is_empty;

  double top = 1.5 * h + 2;
  double hours = 4 * s + 2 + h;
  double level = MAX (1.4 * h, 30);
  double left = c->height_px - 2 * pad - top - hours - level;
  double bucket = 0, power = 0, price = 0;
  double lane_gap = GAP_PX * s * 0.75;
  trace->n_flag_rows = 1;

  if (v->n_prices > 0 && left >= 8 + 4)
    {
      price = MIN (h + 2, left - 4);
      left -= price + 4;
    }
  double more = CLAMP (3.2 * h - level, 0, MAX (left, 0));
  level += more;
  left -= more;
  if (left >= h + 4 && v->n_events > 1)
    {
      double taller = 2 * h + 10 * s;
      left -= MAX (taller - top, 0);
      top = taller;
      trace->n_flag_rows = 2;
    }
  if (want_bucket && left >= h + 2 + lane_gap)
    {
      bucket = h + 2;
      left -= bucket + lane_gap;
    }
  if (want_power && left >= h + lane_gap)
    {
      power = h;
      left -= power + lane_gap;
    }

  double spare = MAX (left, 0);
  if (price > 0)
    {
      double add = CLAMP (0.22 * spare, 0, MAX (32 * s - price, 0));
      price += add;
      left -= add;
    }
  if (bucket > 0)
    {
      double add = CLAMP (0.12 * spare, 0, MAX (26 * s - bucket, 0));
      bucket += add;
      left -= add;
    }
  if (power > 0)
    {
      double add = CLAMP (0.08 * spare, 0, MAX (22 * s - power, 0));
      power += add;
      left -= add;
    }
  level += MAX (left, 0);

  double y = pad + top;
  trace->flag_y_px[0] = pad;
  trace->flag_y_px[1] = pad + h + 5 * s;
  f->level_y_px = y;
  f->level_height_px = level;
  y += level;
  if (bucket > 0)
    {
      f->bucket_y_px = y + lane_gap;
      f->bucket_height_px = bucket;
      y += lane_gap + bucket;
    }
  if (power > 0)
    {
      f->power_y_px = y + lane_gap;
      f->power_height_px = power;
      y += lane_gap + power;
    }
  f->hours_y_px = y;
  f->hours_height_px = hours;
  y += hours;
  if (price > 0)
    {
      f->price_y_px = y + 4;
      f->price_height_px = price;
    }
}

/* The same number of steps on both scales; the number that wastes least of the two together. */
static void
choose_scales (FrTrace *trace)
{
  const FrTraceView *v = trace->view;
  double level = 0, brix = 0;

  for (gsize i = 0; i < v->n_lines; i++)
    {
      level = largest (v->lines[i].level_shown, v->lines[i].n_samples, level);
      brix = largest (v->lines[i].brix, v->lines[i].n_samples, brix);
    }
  trace->has_level = level > 0;
  trace->has_brix = brix > 0;
  for (gsize i = 0; i < v->n_limits; i++)
    {
      if (!isfinite (v->limits[i].value_shown))
        continue;
      if (v->limits[i].scale == FR_TRACE_LIMIT_LEVEL && trace->has_level)
        level = MAX (level, v->limits[i].value_shown);
      if (v->limits[i].scale == FR_TRACE_LIMIT_BRIX && trace->has_brix)
        brix = MAX (brix, v->limits[i].value_shown);
    }

  double room = trace->frame.level_height_px / (1.3 * trace->canvas.line_px);
  guint most = (guint)CLAMP (floor (room), 1, 4);
  double best = INFINITY;
  fr_axis_from_zero (1, 3, &trace->level_axis);
  fr_axis_from_zero (1, 3, &trace->brix_axis);
  for (guint n = MIN (2, most); n <= most; n++)
    {
      FrAxis a, b;
      /* Three steps or more read better than two. */
      double waste = n < 3 ? 1.25 : 1;
      /* A little headroom, so that a level line does not run along the very top. */
      if (fr_axis_from_zero (level * 1.02, n, &a))
        waste *= a.high_value / level;
      if (fr_axis_from_zero (brix, n, &b))
        waste *= b.high_value / brix;
      if (waste < best)
        {
          best = waste;
          trace->level_axis = a;
          trace->brix_axis = b;
        }
    }
  trace->frame.level_top_shown = trace->has_level ? trace->level_axis.high_value : NAN;
  trace->frame.brix_top = trace->has_brix ? trace->brix_axis.high_value : NAN;
}

static double
text_width (FrTrace *trace, const char *plain, const char *strong)
{
  double width = 0, height;
  g_autoptr (PangoLayout) layout = fr_canvas_text (&trace->canvas, plain, strong, NULL, FR_TEXT_SMALL_PX);

  if (layout != NULL)
    fr_layout_size (layout, &width, &height);
  return width;
}

static double
axis_width (FrTrace *trace, const FrAxis *axis)
{
  double width = 0;

  for (guint i = 0; i <= axis->n_intervals; i++)
    {
      g_autofree char *text = fr_axis_text (axis, i, trace->view->decimal_mark);
      width = MAX (width, text_width (trace, text, NULL));
    }
  return width;
}

static void
choose_gutters (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  FrTraceFrame *f = &trace->frame;
  const FrTraceView *v = trace->view;
  double s = c->scale_ratio, gap = GAP_PX * MIN (s, 1.25);
  double pad = c->width_px >= 500 ? PAD_X_PX : 6;
  double left = 0, right = 0, names = 0;

  if (trace->has_level)
    left = MAX (axis_width (trace, &trace->level_axis), text_width (trace, NULL, v->level_unit));
  if (trace->has_brix)
    right = MAX (axis_width (trace, &trace->brix_axis), text_width (trace, NULL, v->brix_unit));
  if (f->bucket_height_px > 0)
    names = MAX (names, text_width (trace, v->bucket_name, NULL));
  if (f->power_height_px > 0)
    names = MAX (names, text_width (trace, v->power_name, NULL));
  if (f->price_height_px >= c->line_px)
    names = MAX (names, text_width (trace, v->price_name, NULL));
  trace->names_inside = MAX (names, left) > 0.17 * c->width_px;
  if (!trace->names_inside)
    left = MAX (left, names);

  f->plot_x_px = pad + left + gap;
  /* The right margin is wide enough for the words of a flag at the end of the night. */
  double margin = MAX (pad + right + gap, MIN (60 * s, 0.085 * c->width_px));
  f->plot_width_px = MAX (c->width_px - f->plot_x_px - margin, 20);
}

static GArray *
points_of (const FrTrace *trace, const FrTraceLine *line, const double *values, const FrAxis *axis)
{
  const FrTraceFrame *f = &trace->frame;
  GArray *points = g_array_new (FALSE, FALSE, sizeof (FrPoint));
  double before = -INFINITY;

  for (gsize i = 0; values != NULL && i < line->n_samples; i++)
    {
      FrPoint p = { 0, NAN };
      if (!isfinite (line->time_s[i]) || line->time_s[i] < before)
        continue;
      before = line->time_s[i];
      p.x_px = fr_trace_x_from_time (f, line->time_s[i]);
      if (isfinite (values[i]))
        p.y_px = f->level_y_px + f->level_height_px * (1 - fr_axis_ratio (axis, values[i]));
      /* A run of thousands of samples has several in one pixel: those that change nothing are left out. */
      if (points->len > 0 && i + 1 < line->n_samples)
        {
          const FrPoint *last = &g_array_index (points, FrPoint, points->len - 1);
          gboolean same = isnan (p.y_px) ? isnan (last->y_px) : fabs (p.y_px - last->y_px) < 0.1;
          if (same && p.x_px - last->x_px < 0.8)
            continue;
        }
      g_array_append_val (points, p);
    }
  return points;
}

static void
draw_others (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;

  for (gsize i = 0; i < trace->view->n_lines; i++)
    {
      const FrTraceLine *line = &trace->view->lines[i];
      if (line == trace->line)
        continue;
      g_autoptr (GArray) level = points_of (trace, line, line->level_shown, &trace->level_axis);
      g_autoptr (GArray) brix = points_of (trace, line, line->brix, &trace->brix_axis);
      cairo_set_line_width (c->cr, 1.1);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
      fr_canvas_polyline (c, level);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SYRUP, 1);
      fr_canvas_dash (c, 7, 4);
      fr_canvas_polyline (c, brix);
      fr_canvas_dash (c, 0, 0);
    }
}

static void
draw_nights (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;

  for (gsize i = 0; i < trace->view->n_nights; i++)
    {
      const FrTraceSpan *n = &trace->view->nights[i];
      double from = MAX (n->from_s, f->from_s), to = MIN (n->to_s, f->to_s);
      if (!(from < to))
        continue;
      double x = fr_trace_x_from_time (f, from);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_NIGHT, 1);
      cairo_rectangle (c->cr, x, f->level_y_px - 4, fr_trace_x_from_time (f, to) - x, f->level_height_px + 4);
      cairo_fill_preserve (c->cr);
      double edge = fr_palette_band_edge_px (c->palette);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, edge > 0 ? 1 : 0);
      cairo_set_line_width (c->cr, edge > 0 ? edge : 1);
      cairo_stroke (c->cr);
    }
}

static void
draw_empty (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  static const double sizes[] = { 13.5, 12, 11, 10, 9, 8 };

  if (!trace->is_empty || trace->view->empty_sentence == NULL)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (PangoLayout) layout = fr_canvas_text (c, trace->view->empty_sentence, NULL, NULL, sizes[i]);
      double width, height;
      if (layout == NULL)
        return;
      pango_layout_set_width (layout, (int)((f->plot_width_px - 12) * PANGO_SCALE));
      pango_layout_set_wrap (layout, PANGO_WRAP_WORD);
      pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
      fr_layout_size (layout, &width, &height);
      if (width > f->plot_width_px - 12 || height > f->level_height_px - 2)
        continue;
      /* The layout centres within its own width, so it is set to what the lines need. */
      pango_layout_set_width (layout, (int)(ceil (width) * PANGO_SCALE));
      fr_canvas_put (c, layout, f->plot_x_px + (f->plot_width_px - width) / 2,
                     f->level_y_px + (f->level_height_px - height) / 2, FR_ROLE_INK_SOFT,
                     fr_trace_card (trace, 0));
      return;
    }
}

void
fr_trace_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrTraceView *view,
               double width_px, double height_px, double text_scale, FrTraceFrame *frame, GArray *labels)
{
  FrTrace trace = { .view = view };

  g_return_if_fail (cr != NULL && PANGO_IS_CONTEXT (context) && palette != NULL && view != NULL);
  g_return_if_fail (width_px > 0 && height_px > 0 && text_scale > 0);

  if (view->n_lines > 0)
    trace.line = &view->lines[MIN (view->chosen, view->n_lines - 1)];
  trace.is_empty = trace.line == NULL
                   || !(has_values (trace.line->level_shown, trace.line->n_samples)
                        || has_values (trace.line->brix, trace.line->n_samples));
  fr_canvas_init (&trace.canvas, cr, context, palette, width_px, height_px, text_scale);
  trace.stems = g_array_new (FALSE, FALSE, sizeof (FrStem));
  trace.limit_points = g_array_new (FALSE, FALSE, sizeof (FrPoint));
  choose_span (&trace);
  share_height (&trace);
  choose_scales (&trace);
  choose_gutters (&trace);
  static const FrTraceLine nothing = { 0 };
  const FrTraceLine *line = trace.line != NULL ? trace.line : &nothing;
  trace.level_points = points_of (&trace, line, line->level_shown, &trace.level_axis);
  trace.brix_points = points_of (&trace, line, line->brix, &trace.brix_axis);

  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, width_px, height_px);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  draw_nights (&trace);
  fr_trace_draw_scales (&trace);
  fr_trace_draw_bucket (&trace);
  fr_trace_draw_power (&trace);
  fr_trace_draw_hours (&trace);
  fr_trace_draw_prices (&trace);
  draw_others (&trace);
  fr_trace_draw_levels (&trace);
  fr_trace_draw_flags (&trace);
  fr_trace_label_levels (&trace);
  fr_trace_draw_selected (&trace);
  draw_empty (&trace);
  fr_canvas_flush (&trace.canvas, labels);
  cairo_restore (cr);

  if (frame != NULL)
    *frame = trace.frame;
  g_array_unref (trace.level_points);
  g_array_unref (trace.brix_points);
  g_array_unref (trace.limit_points);
  g_array_unref (trace.stems);
  fr_canvas_clear (&trace.canvas);
}
