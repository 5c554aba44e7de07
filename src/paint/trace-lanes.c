/* The lanes under the level: bucket, power, hours and the skyline of prices. All share the x of the frame. A
 * number stands inside its step; where the step is too narrow for it the number is left out, never cut, since
 * the height says the same. */
#include "paint/trace-private.h"

#include <math.h>

static void
name_lane (FrTrace *trace, const char *name, double y_px, double height_px)
{
  FrCanvas *c = &trace->canvas;
  double width, height;

  if (trace->names_inside)
    return;
  g_autoptr (PangoLayout) layout = fr_canvas_text (c, name, NULL, NULL, FR_TEXT_SMALL_PX);
  if (layout == NULL)
    return;
  fr_layout_size (layout, &width, &height);
  /* In the middle, or at the foot when the lowest number of the scale above is in the way. */
  double x = trace->frame.plot_x_px - 8 - width;
  FrRgba none = fr_trace_card (trace, 0);
  if (!fr_canvas_try (c, layout, x, y_px + (height_px - height) / 2, FR_ROLE_INK_SOFT, none))
    fr_canvas_try (c, layout, x, y_px + height_px - height + 2, FR_ROLE_INK_SOFT, none);
}

static double
first_x (const FrTrace *trace)
{
  const FrTraceFrame *f = &trace->frame;
  double x = trace->line->n_samples > 0 ? fr_trace_x_from_time (f, trace->line->time_s[0]) : f->plot_x_px;

  return isfinite (x) ? MAX (x, f->plot_x_px) : f->plot_x_px;
}

static double
last_x (const FrTrace *trace)
{
  gsize n = trace->line->n_samples;
  double x = n > 0 ? fr_trace_x_from_time (&trace->frame, trace->line->time_s[n - 1]) : NAN;

  return isfinite (x) ? MAX (x, first_x (trace)) : first_x (trace);
}

/* The words inside a lane stand at the left end of what they tell of, or behind it where it is too short. */
static void
fill_lane_words (FrTrace *trace, const char *name, const char *label, double y_px, double height_px)
{
  FrCanvas *c = &trace->canvas;
  double width, height;

  for (guint tries = trace->names_inside ? 0 : 1; tries < 2; tries++)
    {
      g_autoptr (PangoLayout) layout
          = fr_canvas_text (c, tries == 0 ? name : NULL, label, NULL, FR_TEXT_SMALL_PX);
      if (layout == NULL)
        continue;
      fr_layout_size (layout, &width, &height);
      double x_px = first_x (trace) + 9;
      if (x_px + width > last_x (trace))
        x_px = last_x (trace) + 9;
      if (x_px + width <= trace->frame.plot_x_px + trace->frame.plot_width_px
          && fr_canvas_try (c, layout, x_px, y_px + height_px - height, FR_ROLE_INK,
                            fr_trace_card (trace, 0)))
        return;
    }
}

static void
baseline (FrTrace *trace, double y_px)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;

  fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
  fr_canvas_rule (c, f->plot_x_px, y_px, f->plot_x_px + f->plot_width_px, y_px, 1);
}

void
fr_trace_draw_bucket (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  const FrTraceLine *line = trace->line;
  double full = 0, bottom = f->bucket_y_px + f->bucket_height_px;

  if (f->bucket_height_px <= 0)
    return;
  for (gsize i = 0; i < line->n_samples; i++)
    if (isfinite (line->feed_l[i]))
      full = MAX (full, line->feed_l[i]);

  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (FrPoint));
  gboolean empty = FALSE;
  for (gsize i = 0; i < line->n_samples; i++)
    {
      FrPoint p = { fr_trace_x_from_time (f, line->time_s[i]), NAN };
      if (!isfinite (line->time_s[i]))
        continue;
      /* Once empty the lane is bare. */
      if (isfinite (line->feed_l[i]) && full > 0 && !(empty && line->feed_l[i] <= 0))
        p.y_px = bottom - f->bucket_height_px * line->feed_l[i] / full;
      empty = line->feed_l[i] <= 0;
      g_array_append_val (points, p);
    }
  cairo_save (c->cr);
  cairo_rectangle (c->cr, f->plot_x_px, f->bucket_y_px - 2, f->plot_width_px, f->bucket_height_px + 2);
  cairo_clip (c->cr);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 0.3);
  for (guint i = 1; i < points->len; i++)
    {
      const FrPoint *a = &g_array_index (points, FrPoint, i - 1), *b = &g_array_index (points, FrPoint, i);
      guint from = i - 1;
      if (isnan (a->y_px) || isnan (b->y_px))
        continue;
      cairo_move_to (c->cr, a->x_px, bottom);
      cairo_line_to (c->cr, a->x_px, a->y_px);
      while (i < points->len && !isnan (g_array_index (points, FrPoint, i).y_px))
        {
          cairo_line_to (c->cr, g_array_index (points, FrPoint, i).x_px,
                         g_array_index (points, FrPoint, i).y_px);
          i++;
        }
      g_assert (i > from);
      cairo_line_to (c->cr, g_array_index (points, FrPoint, i - 1).x_px, bottom);
      cairo_fill (c->cr);
    }
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
  cairo_set_line_width (c->cr, 1.6);
  fr_canvas_polyline (c, points);
  cairo_restore (c->cr);
  baseline (trace, bottom);
  name_lane (trace, trace->view->bucket_name, f->bucket_y_px, f->bucket_height_px);
  fill_lane_words (trace, trace->view->bucket_name, line->feed_label, f->bucket_y_px,
                   f->bucket_height_px - 2);
}

void
fr_trace_draw_power (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  const FrTraceLine *line = trace->line;
  double most = 0, bottom = f->power_y_px + f->power_height_px;
  double end = f->plot_x_px + f->plot_width_px;

  if (f->power_height_px <= 0)
    return;
  for (gsize i = 0; i < line->n_samples; i++)
    if (isfinite (line->power_w[i]))
      most = MAX (most, line->power_w[i]);

  cairo_save (c->cr);
  cairo_rectangle (c->cr, f->plot_x_px - 1, f->power_y_px - 2, f->plot_width_px + 2, f->power_height_px + 4);
  cairo_clip (c->cr);
  double y = bottom;
  cairo_move_to (c->cr, f->plot_x_px, bottom);
  for (gsize i = 0; i < line->n_samples && most > 0; i++)
    {
      /* Unknown power keeps the step before; the last sample ends the run. */
      if (!isfinite (line->time_s[i]))
        continue;
      double x = fr_trace_x_from_time (f, line->time_s[i]);
      cairo_line_to (c->cr, x, y);
      if (i + 1 == line->n_samples)
        y = bottom;
      else if (isfinite (line->power_w[i]))
        y = bottom - f->power_height_px * MAX (line->power_w[i], 0) / most;
      cairo_line_to (c->cr, x, y);
    }
  cairo_line_to (c->cr, end, y);
  cairo_path_t *steps = cairo_copy_path (c->cr);
  cairo_line_to (c->cr, end, bottom);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_POWER, 0.16);
  cairo_fill (c->cr);
  cairo_append_path (c->cr, steps);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_POWER, 1);
  cairo_set_line_width (c->cr, 1.6);
  cairo_set_line_join (c->cr, CAIRO_LINE_JOIN_MITER);
  cairo_stroke (c->cr);
  cairo_path_destroy (steps);
  cairo_restore (c->cr);
  name_lane (trace, trace->view->power_name, f->power_y_px, f->power_height_px);
  double slack = MAX (f->power_height_px - c->line_px, 0);
  fill_lane_words (trace, trace->view->power_name, line->power_label, f->power_y_px,
                   f->power_height_px - slack / 2);
}

static gboolean
hours_fit (FrTrace *trace, const GArray *boxes, double least_gap_px)
{
  for (guint i = 1; i < boxes->len; i++)
    {
      const FrBox *a = &g_array_index (boxes, FrBox, i - 1), *b = &g_array_index (boxes, FrBox, i);
      if (b->x_px - (a->x_px + a->width_px) < least_gap_px)
        return FALSE;
    }
  return TRUE;
}

static void
put_hour (FrTrace *trace, const FrTraceTick *tick, gboolean full, gboolean measure, GArray *boxes)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  const char *text = full || tick->label_short == NULL ? tick->label : tick->label_short;
  FrBox box;
  g_autoptr (PangoLayout) layout = tick->clock_change
                                       ? fr_canvas_text (c, NULL, text, NULL, FR_TEXT_SMALL_PX)
                                       : fr_canvas_text (c, text, NULL, NULL, FR_TEXT_SMALL_PX);

  if (layout == NULL)
    return;
  fr_layout_size (layout, &box.width_px, &box.height_px);
  box.x_px = fr_trace_x_from_time (f, tick->time_s) - box.width_px / 2;
  box.y_px = f->hours_y_px + f->hours_height_px - box.height_px;
  if (measure)
    g_array_append_val (boxes, box);
  else
    fr_canvas_try (c, layout, box.x_px, box.y_px, tick->clock_change ? FR_ROLE_INK : FR_ROLE_INK_SOFT,
                   fr_trace_card (trace, 0));
}

static gboolean
tick_shown (const FrTraceFrame *f, const FrTraceTick *tick)
{
  return isfinite (tick->time_s) && tick->time_s >= f->from_s && tick->time_s <= f->to_s;
}

void
fr_trace_draw_hours (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  const FrTraceView *v = trace->view;
  double s = c->scale_ratio;
  /* Every hour with two short labels between full ones, else every second, third … hour in full. */
  static const gsize every[] = { 1, 2, 3, 4, 6, 8, 12, 24, 48 };
  gsize step = 0;

  if (f->power_height_px <= 0)
    baseline (trace, f->hours_y_px);
  for (guint k = 0; k < G_N_ELEMENTS (every) && step == 0; k++)
    {
      g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (FrBox));
      for (gsize i = 0; i < v->n_ticks; i += every[k])
        if (tick_shown (f, &v->ticks[i]) && !v->ticks[i].clock_change)
          put_hour (trace, &v->ticks[i], every[k] > 1 || i % 3 == 0, TRUE, boxes);
      if (hours_fit (trace, boxes, 8 * s))
        step = every[k];
    }

  fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
  for (gsize i = 0; i < v->n_ticks; i++)
    if (tick_shown (f, &v->ticks[i]))
      {
        const FrTraceTick *t = &v->ticks[i];
        double x = fr_trace_x_from_time (f, t->time_s);
        if (t->clock_change)
          {
            cairo_save (c->cr);
            fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK, 1);
            fr_canvas_dash (c, 2, 2);
            fr_canvas_rule (c, x, f->level_y_px, x, f->hours_y_px + 4 * s, 1);
            cairo_restore (c->cr);
            g_array_append_val (trace->stems, ((FrStem){ x, f->level_y_px, f->hours_y_px }));
            guint before = c->taken->len;
            put_hour (trace, t, TRUE, FALSE, NULL);
            /* The hours beside it keep their distance, or go. */
            if (c->taken->len > before)
              {
                FrBox box = g_array_index (c->taken, FrBox, before);
                box.x_px -= 5 * s;
                box.width_px += 10 * s;
                fr_canvas_take (c, box);
              }
          }
        else if (step > 0 && (i % step) == 0)
          fr_canvas_rule (c, x, f->hours_y_px + 1, x, f->hours_y_px + 4 * s, 1);
      }
  for (gsize i = 0; step > 0 && i < v->n_ticks; i += step)
    if (tick_shown (f, &v->ticks[i]) && !v->ticks[i].clock_change)
      put_hour (trace, &v->ticks[i], step > 1 || i % 3 == 0, FALSE, NULL);
}

static FrRole
price_role (FrPriceStep step)
{
  return step == FR_PRICE_STEP_HIGH  ? FR_ROLE_PRICE_HIGH
         : step == FR_PRICE_STEP_MID ? FR_ROLE_PRICE_MID
                                     : FR_ROLE_PRICE_LOW;
}

static void
draw_step (FrTrace *trace, const FrTracePrice *price, const FrBox *box)
{
  FrCanvas *c = &trace->canvas;

  fr_palette_set_source (c->palette, c->cr, price_role (price->step), 1);
  cairo_rectangle (c->cr, box->x_px, box->y_px, box->width_px, box->height_px);
  cairo_fill (c->cr);
  if (price->step == FR_PRICE_STEP_MID)
    {
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_PRICE_HIGH, 0.45);
      fr_canvas_hatch (c, *box, 7, FALSE);
    }
  else if (price->step == FR_PRICE_STEP_HIGH)
    {
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_ON_PRICE_HIGH, 0.28);
      fr_canvas_hatch (c, *box, 4, TRUE);
    }
}

static gboolean
number_step (FrTrace *trace, const FrTracePrice *price, const FrBox *box, const char *label)
{
  FrCanvas *c = &trace->canvas;
  FrRole role = price->step == FR_PRICE_STEP_HIGH ? FR_ROLE_ON_PRICE_HIGH : FR_ROLE_INK;
  FrRgba halo = fr_palette_color (c->palette, price_role (price->step));
  double width, height;
  g_autoptr (PangoLayout) layout = fr_canvas_text (c, NULL, label, NULL, FR_TEXT_SMALL_PX);

  if (layout == NULL)
    return FALSE;
  fr_layout_size (layout, &width, &height);
  if (width + 4 > box->width_px)
    return FALSE;
  /* Narrow steps have it in the middle, wide ones at their beginning. */
  double x = box->width_px < width + 30 ? box->x_px + (box->width_px - width) / 2 : box->x_px + 10;
  double y = box->height_px > 1.6 * height ? box->y_px + 2 : box->y_px + (box->height_px - height) / 2;
  /* On a step lower than the number it stands on the ground and looks over it. */
  if (box->height_px < 0.8 * height)
    {
      role = FR_ROLE_INK;
      halo.alpha = 0;
      y = box->y_px + box->height_px - height;
    }
  return fr_canvas_try (c, layout, x, y, role, halo);
}

void
fr_trace_draw_prices (FrTrace *trace)
{
  FrCanvas *c = &trace->canvas;
  const FrTraceFrame *f = &trace->frame;
  const FrTraceView *v = trace->view;
  double most = 0, bottom = f->price_y_px + f->price_height_px;

  if (f->price_height_px <= 0)
    return;
  for (gsize i = 0; i < v->n_prices; i++)
    if (isfinite (v->prices[i].price_per_kwh))
      most = MAX (most, v->prices[i].price_per_kwh);
  for (gsize i = 0; i < v->n_prices; i++)
    {
      const FrTracePrice *p = &v->prices[i];
      double from = MAX (p->from_s, f->from_s), to = MIN (p->to_s, f->to_s);
      if (!(from < to) || !isfinite (p->price_per_kwh))
        continue;
      FrBox box = { fr_trace_x_from_time (f, from), 0, 0, 0 };
      box.width_px = fr_trace_x_from_time (f, to) - box.x_px;
      box.height_px = MAX (most > 0 ? f->price_height_px * p->price_per_kwh / most : 0, 1.5);
      box.y_px = bottom - box.height_px;
      draw_step (trace, p, &box);
      if (f->price_height_px < 0.8 * c->line_px)
        continue;
      if (!number_step (trace, p, &box, p->label_long))
        number_step (trace, p, &box, p->label);

      double width, height;
      g_autoptr (PangoLayout) cost = fr_canvas_text (c, p->cost_label, NULL, NULL, FR_TEXT_SMALL_PX);
      if (cost == NULL)
        continue;
      fr_layout_size (cost, &width, &height);
      double x = box.x_px + box.width_px - 10 - width;
      if (x > box.x_px + 4 && box.height_px >= 0.8 * height)
        fr_canvas_try (c, cost, x, box.y_px + (box.height_px - height) / 2,
                       p->step == FR_PRICE_STEP_HIGH ? FR_ROLE_ON_PRICE_HIGH : FR_ROLE_INK,
                       fr_palette_color (c->palette, price_role (p->step)));
    }
  if (f->price_height_px >= c->line_px)
    name_lane (trace, v->price_name, bottom - c->line_px, c->line_px);
}
