/* The order of drawing: shades of the days, grid, lanes, rules and words. Words with the best claim to their
 * place come first: the heads, the freezing line and the scales, then the lanes' numbers; those that find no
 * room are left out, never cut. */
#include "paint/forecast-private.h"

#define RULE_PX 1.7
#define RING_PX 2.0
#define ROUND_PX 7.0

static FrBox
column_box (const FrForecastPaint *p, gssize column)
{
  return (FrBox){ fr_forecast_x (p, 24.0 * (double)column), p->layout.plot_y_px, p->layout.day_px,
                  p->layout.plot_height_px };
}

/* Shades end where the lanes do. */
static void
draw_shades (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  gssize selected = fr_forecast_column_of (p, p->chart->selected);

  for (guint i = 0; i < p->chart->n_days; i++)
    {
      FrBox box = column_box (p, i);
      gint weekday = fr_date_weekday (fr_date_add_days (p->chart->first, (gint)i));
      if (weekday < 6 || (gssize)i == selected)
        continue;
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_NIGHT, 1);
      cairo_rectangle (c->cr, box.x_px, p->layout.lanes[FR_FORECAST_LANE_AIR].y_px, box.width_px,
                       box.y_px + box.height_px - p->layout.lanes[FR_FORECAST_LANE_AIR].y_px);
      cairo_fill (c->cr);
    }
  if (selected < 0)
    return;
  fr_canvas_rounded (c, column_box (p, selected), ROUND_PX, -1);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT_BG, 1);
  cairo_fill (c->cr);
}

static void
draw_chosen (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  gssize selected = fr_forecast_column_of (p, p->chart->selected),
         hovered = fr_forecast_column_of (p, p->chart->hovered);

  fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
  if (hovered >= 0 && hovered != selected)
    {
      fr_canvas_rounded (c, column_box (p, hovered), ROUND_PX, -1.5);
      cairo_set_line_width (c->cr, 1);
      cairo_stroke (c->cr);
    }
  if (selected >= 0 && (p->chart->is_focused || c->palette->high_contrast || p->is_paper))
    {
      fr_canvas_rounded (c, column_box (p, selected), ROUND_PX, -1.5);
      cairo_set_line_width (c->cr, p->chart->is_focused ? RING_PX : 1);
      cairo_stroke (c->cr);
    }
}

/* --- scales --- */

static void
put_scale (FrForecastPaint *p, FrForecastLane lane, const FrAxis *axis, double low_shown, double high_shown)
{
  FrCanvas *c = &p->canvas;
  const FrForecastChartLayout *l = &p->layout;
  double right = l->plot_x_px - 8 * c->scale_ratio;
  const char mark[] = { p->chart->units != NULL ? p->chart->units->decimal_mark : '.', '\0' };
  gboolean is_air = lane == FR_FORECAST_LANE_AIR;
  double slack = 0.001 * (high_shown - low_shown);

  for (guint k = 0; k <= axis->n_intervals; k++)
    {
      double tick = fr_axis_tick (axis, k), y = fr_forecast_shown_y (p, lane, tick);
      gboolean is_ground = fabs (tick - (is_air ? p->freezing_shown : 0)) < 1e-9;
      if (tick < low_shown - slack || tick > high_shown + slack || is_ground)
        continue;
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_GRID, 1);
      fr_canvas_rule (c, l->plot_x_px, y, l->plot_x_px + l->plot_width_px, y, 1);
      g_autofree char *plain = fr_axis_text (axis, k, mark);
      g_autofree char *number
          = is_air && tick > 0 && p->freezing_shown == 0 ? g_strconcat ("+", plain, NULL) : g_strdup (plain);
      g_autoptr (PangoLayout) text = fr_canvas_text (c, number, NULL, NULL, FR_TEXT_SMALL_PX);
      fr_canvas_try_at (c, text, right, y, 1, 0.5, FR_ROLE_INK_SOFT, 0);
    }
}

static void
put_scales (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  double right = p->layout.plot_x_px - 8 * c->scale_ratio;
  g_autofree char *freezing = g_strdup_printf ("%.0f", p->freezing_shown);
  g_autoptr (PangoLayout) ground = fr_canvas_text (c, NULL, freezing, NULL, FR_TEXT_SMALL_PX);

  if (p->layout.lanes[FR_FORECAST_LANE_AIR].height_px > 0)
    {
      fr_canvas_try_at (c, ground, right, fr_forecast_air_y (p, 0), 1, 0.5, FR_ROLE_INK, 0);
      put_scale (p, FR_FORECAST_LANE_AIR, &p->air_axis, p->air_low_shown, p->air_high_shown);
    }
  if (p->layout.lanes[FR_FORECAST_LANE_LITRES].height_px > 0)
    put_scale (p, FR_FORECAST_LANE_LITRES, &p->litres_axis, 0, p->litres_high_shown);
}

/* The name and under it the unit, at the head of the lane; without a column of names over the plot's edge. */
static void
put_names (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrForecastChartLayout *l = &p->layout;
  const char *names[] = { p->chart->texts->air, p->chart->texts->chance, p->chart->texts->litres };

  for (guint lane = 0; lane < FR_N_FORECAST_LANES; lane++)
    {
      double y = l->lanes[lane].y_px;
      const char *unit
          = lane == FR_FORECAST_LANE_AIR ? fr_quantity_unit (FR_QUANTITY_TEMPERATURE, p->chart->units) : NULL;
      if (l->lanes[lane].height_px <= 0)
        continue;
      g_autoptr (PangoLayout) name = fr_canvas_text (c, NULL, names[lane], NULL, FR_TEXT_SMALL_PX);
      g_autoptr (PangoLayout) below = fr_canvas_text (c, unit, NULL, NULL, FR_TEXT_SMALL_PX);
      /* Level with the lane's highest number. */
      double top = lane == FR_FORECAST_LANE_CHANCE || p->names_inside ? y : y + c->line_px / 2;
      if (p->names_inside && lane != FR_FORECAST_LANE_AIR)
        top -= lane == FR_FORECAST_LANE_LITRES ? 0.55 * c->line_px : 0;
      if (name != NULL && fr_canvas_try_at (c, name, p->name_x_px, top, 0, 0, FR_ROLE_INK, 0.9))
        top += c->line_px;
      if (below != NULL)
        fr_canvas_try_at (c, below, p->name_x_px, top, 0, 0, FR_ROLE_INK_SOFT, 0.9);
    }
}

static void
put_heads (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  double y = p->layout.plot_y_px + 5 * c->scale_ratio;
  gssize today = fr_forecast_column_of (p, p->chart->today);

  for (guint i = 0; p->chart->texts->heads != NULL && i < p->chart->n_days; i++)
    {
      const FrForecastHead *head = &p->chart->texts->heads[i];
      double x = fr_forecast_x (p, 24.0 * i + 12);
      FrRole role = (gssize)i == today ? FR_ROLE_ACCENT : FR_ROLE_INK;
      g_autoptr (PangoLayout) whole = fr_canvas_text (c, NULL, head->weekday, head->date, 13.5);
      g_autoptr (PangoLayout) weekday = fr_canvas_text (c, NULL, head->weekday, NULL, 12);
      g_autoptr (PangoLayout) date = fr_canvas_text (c, head->date, NULL, NULL, 12);
      if (p->head_lines == 1)
        fr_canvas_try_at (c, whole, x, y, 0.5, 0, role, 0);
      else
        {
          fr_canvas_try_at (c, weekday, x, y, 0.5, 0, role, 0);
          fr_canvas_try_at (c, date, x, y + 1.1 * c->line_px, 0.5, 0, role, 0);
        }
    }
}

static void
draw_now (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  gssize today = fr_forecast_column_of (p, p->chart->today);

  if (today < 0 || !(p->chart->now_h >= 0 && p->chart->now_h <= 24))
    return;
  double x = fr_forecast_x (p, 24.0 * (double)today + p->chart->now_h),
         top = p->layout.lanes[FR_FORECAST_LANE_AIR].y_px - 3,
         foot = p->layout.plot_y_px + p->layout.plot_height_px;
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
  cairo_set_line_width (c->cr, RULE_PX);
  cairo_move_to (c->cr, x, top);
  cairo_line_to (c->cr, x, foot);
  cairo_stroke (c->cr);
  fr_forecast_mark (p, FR_FORECAST_MARK_NOW, (guint)today, (FrBox){ x, top, 0, foot - top });
}

static void
put_now (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  gssize today = fr_forecast_column_of (p, p->chart->today);

  if (today < 0 || !(p->chart->now_h >= 0 && p->chart->now_h <= 24))
    return;
  double x = fr_forecast_x (p, 24.0 * (double)today + p->chart->now_h),
         top = p->layout.lanes[FR_FORECAST_LANE_AIR].y_px - 1;
  g_autoptr (PangoLayout) text = fr_canvas_text (c, NULL, p->chart->texts->now, NULL, FR_FORECAST_SMALL_PX);
  if (!fr_canvas_try_at (c, text, x + 4, top, 0, 0, FR_ROLE_ACCENT, 0.9))
    fr_canvas_try_at (c, text, x - 4, top, 1, 0, FR_ROLE_ACCENT, 0.9);
}

static void
begin (FrForecastPaint *p, cairo_t *cr, PangoContext *context, const FrPalette *palette,
       const FrForecastChart *chart, double width_px, double height_px, double text_scale)
{
  *p = (FrForecastPaint){ .chart = chart };
  fr_canvas_init (&p->canvas, cr, context, palette, width_px, height_px, text_scale);
  fr_forecast_lay_out (p);
}

FrForecastChartLayout
fr_forecast_chart_layout (PangoContext *context, const FrForecastChart *chart, double width_px,
                          double height_px, double text_scale)
{
  static const FrPalette any = { FR_THEME_LIGHT, FALSE };
  FrForecastPaint p;

  begin (&p, NULL, context, &any, chart, width_px, height_px, text_scale);
  fr_canvas_clear (&p.canvas);
  return p.layout;
}

FrForecastChartLayout
fr_forecast_chart_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette,
                        const FrForecastChart *chart, double width_px, double height_px, double text_scale,
                        GArray *labels, GArray *marks)
{
  FrForecastPaint p;
  FrRgba no_halo = { 0, 0, 0, 0 };

  begin (&p, cr, context, palette, chart, width_px, height_px, text_scale);
  p.marks = marks;
  cairo_save (cr);
  if (p.layout.lanes[FR_FORECAST_LANE_AIR].height_px > 0 && chart->n_days > 0)
    {
      draw_shades (&p);
      put_heads (&p);
      put_scales (&p);
      put_names (&p);
      fr_forecast_draw_air (&p);
      fr_forecast_draw_chance (&p);
      draw_now (&p);
      fr_forecast_draw_litres (&p);
      put_now (&p);
      draw_chosen (&p);
      g_autoptr (PangoLayout) caption = fr_forecast_caption (&p);
      if (caption != NULL && isfinite (p.caption_y_px))
        fr_canvas_put (&p.canvas, caption, p.layout.plot_x_px, p.caption_y_px, FR_ROLE_INK_SOFT, no_halo);
    }
  fr_canvas_flush (&p.canvas, labels);
  cairo_restore (cr);
  fr_canvas_clear (&p.canvas);
  return p.layout;
}
