/* The order of drawing: shades of the days, grid, lanes, then rules and words. The words with the best claim
 * to their place come first: the selected day, today, the scales, the months; those that find no room are
 * left out, never cut. */
#include "paint/season-private.h"

#define TODAY_PX 1.7
#define RING_PX 2.0

gboolean
fr_season_try (FrSeasonPaint *p, PangoLayout *text, double x_px, double y_px, double across_ratio,
               double down_ratio, FrRole role, double halo_ratio)
{
  return fr_canvas_try_at (&p->canvas, text, x_px, y_px, across_ratio, down_ratio, role, halo_ratio);
}

double
fr_season_held (const FrSeasonPaint *p, PangoLayout *text, double middle_px)
{
  double width, height, left = p->layout.plot_x_px, right = left + p->layout.plot_width_px;

  fr_layout_size (text, &width, &height);
  return CLAMP (middle_px, MIN (left + width / 2, right), MAX (right - width / 2, left));
}

gboolean
fr_season_try_inside (FrSeasonPaint *p, PangoLayout *text, double x_px, double y_px, double across_ratio,
                      double down_ratio, FrRole role, double halo_ratio)
{
  double width, height, from, to = p->layout.plot_x_px + p->layout.plot_width_px;

  if (text == NULL)
    return FALSE;
  fr_layout_size (text, &width, &height);
  from = x_px - across_ratio * width;
  if (from < p->layout.plot_x_px || from + width > to)
    return FALSE;
  return fr_season_try (p, text, x_px, y_px, across_ratio, down_ratio, role, halo_ratio);
}

void
fr_season_draw_empty (FrSeasonPaint *p, FrSeasonLane lane)
{
  const FrSeasonLayout *l = &p->layout;
  double from = l->plot_x_px + 12, to = l->plot_x_px + l->plot_width_px - 12, width, height;
  /* Over the freezing line, in the middle elsewhere. */
  double foot = lane == FR_SEASON_LANE_SPAN ? fr_season_y (p, lane, 0)
                                            : l->lanes[lane].y_px + l->lanes[lane].height_px;
  double middle = (l->lanes[lane].y_px + foot) / 2;
  double now = p->view->today >= 0 ? fr_season_layout_x (l, p->view, p->view->now_utc) : to;
  double rooms[2][2] = { { from, MIN (now - 6, to) }, { MAX (now + 6, from), to } };
  guint larger = rooms[1][1] - rooms[1][0] > rooms[0][1] - rooms[0][0];
  g_autoptr (PangoLayout) text
      = fr_canvas_text (&p->canvas, p->strip->texts->lanes[lane].empty, NULL, NULL, FR_TEXT_SMALL_PX);

  if (text == NULL)
    return;
  fr_layout_size (text, &width, &height);
  for (guint i = 0; i < 2; i++)
    if (width <= rooms[i][1] - rooms[i][0]
        && fr_season_try_inside (p, text, rooms[i][0], middle, 0, 0.5, FR_ROLE_INK_SOFT, 0.9))
      return;
  /* On several lines beside today's rule. */
  double room = rooms[larger][1] - rooms[larger][0];
  pango_layout_set_single_paragraph_mode (text, FALSE);
  pango_layout_set_width (text, (int)(MAX (room, 1) * PANGO_SCALE));
  pango_layout_set_wrap (text, PANGO_WRAP_WORD);
  fr_layout_size (text, &width, &height);
  if (width <= room && height <= foot - l->lanes[lane].y_px + p->canvas.line_px)
    fr_season_try_inside (p, text, rooms[larger][0], middle, 0, 0.5, FR_ROLE_INK_SOFT, 0.9);
}

/* --- shades --- */

static void
shade (FrSeasonPaint *p, double from_px, double to_px, FrRole role)
{
  FrCanvas *c = &p->canvas;

  fr_palette_set_source (c->palette, c->cr, role, 1);
  cairo_rectangle (c->cr, from_px, p->layout.plot_y_px, to_px - from_px, p->layout.plot_height_px);
  cairo_fill (c->cr);
}

static void
draw_shades (FrSeasonPaint *p)
{
  const FrSeasonView *v = p->view;

  for (guint i = 0; i < v->n_days; i++)
    {
      guint end = i;
      while (end < v->n_days && v->days[end].weekday >= 6)
        end++;
      if (end > i)
        shade (p, fr_season_day_x (p, i), fr_season_day_x (p, end), FR_ROLE_NIGHT);
      i = end;
    }
  if (v->today >= 0)
    shade (p, fr_season_day_x (p, (gsize)v->today), fr_season_day_x (p, (gsize)v->today + 1),
           FR_ROLE_ACCENT_BG);
  if (p->strip->selected >= 0 && p->strip->selected < (gssize)v->n_days)
    shade (p, fr_season_day_x (p, (gsize)p->strip->selected),
           fr_season_day_x (p, (gsize)p->strip->selected + 1), FR_ROLE_ACCENT_BG);
}

static void
draw_grid (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;
  double right = l->plot_x_px + l->plot_width_px;

  fr_palette_set_source (c->palette, c->cr, FR_ROLE_GRID, 1);
  for (guint lane = 0; lane <= FR_SEASON_LANE_STORE; lane++)
    for (guint k = 0; l->lanes[lane].height_px > 0 && k <= p->axes[lane].n_intervals; k++)
      {
        double y;
        if (fr_season_tick_y (p, lane, k, &y))
          fr_canvas_rule (c, l->plot_x_px, y, right, y, 1);
      }
  for (gsize i = 0; i < p->strip->texts->n_months; i++)
    if (p->strip->texts->months[i].day < l->n_days)
      {
        double x = fr_season_day_x (p, p->strip->texts->months[i].day);
        fr_canvas_rule (c, x, p->head_y_px, x, l->plot_y_px + l->plot_height_px, 1);
      }
}

/* --- what is chosen --- */

static void
ring (FrSeasonPaint *p, guint day, double line_px, double away_px)
{
  FrCanvas *c = &p->canvas;
  cairo_rectangle_t box;

  if (!fr_season_layout_day (&p->layout, day, &box))
    return;
  cairo_rectangle (c->cr, box.x - away_px, box.y, box.width + 2 * away_px, box.height + 2);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
  cairo_set_line_width (c->cr, line_px);
  cairo_stroke (c->cr);
}

static void
draw_chosen (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;

  if (p->view->today >= 0)
    {
      double x = fr_season_layout_x (l, p->view, p->view->now_utc);
      cairo_save (c->cr);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
      cairo_set_line_width (c->cr, TODAY_PX);
      cairo_move_to (c->cr, x, p->head_y_px + c->line_px + 1);
      cairo_line_to (c->cr, x, l->plot_y_px + l->plot_height_px);
      cairo_stroke (c->cr);
      cairo_restore (c->cr);
    }
  if (p->strip->hovered >= 0 && p->strip->hovered != p->strip->selected)
    ring (p, (guint)p->strip->hovered, 1, 0.5);
  if (p->strip->selected >= 0)
    ring (p, (guint)p->strip->selected, p->strip->is_focused ? RING_PX : 1, p->strip->is_focused ? 2 : 0.5);
}

static void
paint_init (FrSeasonPaint *p, cairo_t *cr, PangoContext *context, const FrPalette *palette,
            const FrSeasonStrip *strip, double width_px, double height_px, double text_scale)
{
  *p = (FrSeasonPaint){ .strip = strip, .view = strip->view };
  fr_canvas_init (&p->canvas, cr, context, palette, width_px, height_px, text_scale);
  fr_season_lay_out (p);
}

FrSeasonLayout
fr_season_strip_layout (PangoContext *context, const FrSeasonStrip *strip, double width_px, double height_px,
                        double text_scale)
{
  static const FrPalette light = { FR_THEME_LIGHT, FALSE };
  FrSeasonPaint p;

  g_return_val_if_fail (PANGO_IS_CONTEXT (context) && strip != NULL && strip->view != NULL
                            && strip->texts != NULL,
                        (FrSeasonLayout){ 0 });
  paint_init (&p, NULL, context, &light, strip, width_px, height_px, text_scale);
  fr_canvas_clear (&p.canvas);
  return p.layout;
}

FrSeasonLayout
fr_season_strip_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette,
                      const FrSeasonStrip *strip, double width_px, double height_px, double text_scale,
                      GArray *labels)
{
  static void (*const lanes[FR_N_SEASON_LANES]) (FrSeasonPaint * p)
      = { fr_season_draw_span,  fr_season_draw_gathered, fr_season_draw_so_far, fr_season_draw_store,
          fr_season_draw_boils, fr_season_draw_bottles,  fr_season_draw_price };
  FrSeasonPaint p;

  g_return_val_if_fail (cr != NULL && PANGO_IS_CONTEXT (context) && palette != NULL, (FrSeasonLayout){ 0 });
  g_return_val_if_fail (strip != NULL && strip->view != NULL && strip->texts != NULL, (FrSeasonLayout){ 0 });
  g_return_val_if_fail (width_px > 0 && height_px > 0 && text_scale > 0, (FrSeasonLayout){ 0 });

  paint_init (&p, cr, context, palette, strip, width_px, height_px, text_scale);
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, width_px, height_px);
  cairo_clip (cr);
  draw_shades (&p);
  draw_grid (&p);
  fr_season_put_head (&p);
  fr_season_put_names (&p);
  if (p.view->today >= 0)
    {
      /* Words keep off the rule of now. */
      double x = fr_season_layout_x (&p.layout, p.view, p.view->now_utc);
      fr_canvas_take (&p.canvas, (FrBox){ x - 2, p.layout.plot_y_px, 4, p.layout.plot_height_px });
    }
  for (guint i = 0; i < FR_N_SEASON_LANES; i++)
    if (p.layout.lanes[i].height_px > 0)
      {
        lanes[i](&p);
        if (p.is_empty[i])
          fr_season_draw_empty (&p, i);
      }
  fr_season_put_scales (&p);
  fr_season_put_feet (&p);
  draw_chosen (&p);
  fr_canvas_flush (&p.canvas, labels);
  cairo_restore (cr);
  fr_canvas_clear (&p.canvas);
  return p.layout;
}
