/* What waits in store, as steps from event to event, and what has come in so far beside other seasons. Both
 * stand at their last known value until now and are not drawn beyond it. */
#include "paint/season-private.h"

#define NUMBER_PX 11.5
#define STROKE_PX 0.5

static double
end_x (const FrSeasonPaint *p)
{
  const FrSeasonLayout *l = &p->layout;

  if (p->view->today < 0)
    return l->plot_x_px + l->plot_width_px;
  return fr_season_layout_x (l, p->view, p->view->now_utc);
}

static double
lane_foot (const FrSeasonPaint *p, FrSeasonLane lane)
{
  return p->layout.lanes[lane].y_px + p->layout.lanes[lane].height_px;
}

static void
draw_ground (FrSeasonPaint *p, FrSeasonLane lane)
{
  FrCanvas *c = &p->canvas;
  double y = fr_season_y (p, lane, 0);

  fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
  fr_canvas_rule (c, p->layout.plot_x_px, y, p->layout.plot_x_px + p->layout.plot_width_px, y, 1);
}

/* The number of a word on a line, whole: "60". */
static void
draw_capacity (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;
  double top = l->lanes[FR_SEASON_LANE_STORE].y_px,
         y = fr_season_y (p, FR_SEASON_LANE_STORE, p->view->capacity_l);
  char *number;
  const char *unit;

  if (!isfinite (y))
    return;
  fr_quantity_format (p->view->capacity_l, FR_QUANTITY_VOLUME, p->strip->units, 0, &number, &unit);
  if (y < top - 0.5)
    {
      /* Far above the scale: only the word, with an arrow up. */
      g_autofree char *arrow = g_strdup_printf ("%s ↑", number);
      g_autoptr (PangoLayout) text = fr_canvas_text (c, p->strip->texts->full, arrow, NULL, NUMBER_PX);
      if (!fr_season_try_inside (p, text, l->plot_x_px + 6, top, 0, 0, FR_ROLE_WARNING, 0.9))
        fr_season_try_inside (p, text, l->plot_x_px + l->plot_width_px - 6, top, 1, 0, FR_ROLE_WARNING, 0.9);
      g_free (number);
      return;
    }
  cairo_save (c->cr);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_WARNING, 1);
  fr_canvas_dash (c, 6, 3);
  fr_canvas_rule (c, l->plot_x_px, y, l->plot_x_px + l->plot_width_px, y, 1.3);
  cairo_restore (c->cr);
  g_autoptr (PangoLayout) text = fr_canvas_text (c, p->strip->texts->full, NULL, NULL, NUMBER_PX);
  g_autoptr (PangoLayout) tick = fr_canvas_text (c, NULL, number, NULL, FR_TEXT_SMALL_PX);
  if (text != NULL && !fr_season_try_inside (p, text, l->plot_x_px + 6, y - 1, 0, 1, FR_ROLE_WARNING, 0.9))
    fr_season_try_inside (p, text, l->plot_x_px + l->plot_width_px - 6, y - 1, 1, 1, FR_ROLE_WARNING, 0.9);
  fr_season_try (p, tick, l->plot_x_px - 8 * c->scale_ratio, y, 1, 0.5, FR_ROLE_WARNING, 0);
  g_free (number);
}

/* The steps. What happens within half a pixel is one upright stroke from the lowest to the highest of it. */
static GArray *
store_points (const FrSeasonPaint *p)
{
  const FrSeasonView *v = p->view;
  GArray *points = g_array_new (FALSE, FALSE, sizeof (FrPoint));
  double before = fr_season_y (p, FR_SEASON_LANE_STORE, 0), end = end_x (p);
  FrPoint first = { p->layout.plot_x_px, before };

  g_array_append_val (points, first);
  for (guint i = 0; i < v->n_levels;)
    {
      double x = fr_season_layout_x (&p->layout, v, v->levels[i].utc_s), low = before, high = before,
             last = before;
      if (x > end)
        break;
      for (; i < v->n_levels && fr_season_layout_x (&p->layout, v, v->levels[i].utc_s) < x + STROKE_PX; i++)
        {
          double y = fr_season_y (p, FR_SEASON_LANE_STORE, v->levels[i].volume_l);
          if (!isfinite (y))
            continue;
          low = MIN (low, y);
          high = MAX (high, y);
          last = y;
        }
      const double ys[] = { before, low, high, last };
      for (guint k = 0; k < G_N_ELEMENTS (ys); k++)
        {
          FrPoint point = { x, ys[k] };
          if (k == 0 || ys[k] != ys[k - 1])
            g_array_append_val (points, point);
        }
      before = last;
    }
  FrPoint last = { MAX (end, g_array_index (points, FrPoint, points->len - 1).x_px), before };
  g_array_append_val (points, last);
  return points;
}

/* Keeps words off a step line: a thin box along each stretch. */
static void
take_line (FrSeasonPaint *p, const GArray *points)
{
  for (guint i = 1; i < points->len; i++)
    {
      const FrPoint *a = &g_array_index (points, FrPoint, i - 1), *b = &g_array_index (points, FrPoint, i);
      if (isnan (a->y_px) || isnan (b->y_px) || fabs (a->x_px - b->x_px) + fabs (a->y_px - b->y_px) < 0.5)
        continue;
      fr_canvas_take (&p->canvas, (FrBox){ MIN (a->x_px, b->x_px) - 1, MIN (a->y_px, b->y_px) - 1,
                                           fabs (a->x_px - b->x_px) + 2, fabs (a->y_px - b->y_px) + 2 });
    }
}

static gssize
pointed_day (const FrSeasonPaint *p)
{
  gssize day = p->strip->hovered >= 0 ? p->strip->hovered : p->strip->selected;

  return day >= 0 && day < (gssize)p->view->n_days ? day : -1;
}

void
fr_season_draw_store (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;
  gssize day = pointed_day (p);

  if (p->view->n_levels > 0)
    {
      g_autoptr (GArray) points = store_points (p);
      const FrPoint *last = &g_array_index (points, FrPoint, points->len - 1);
      double ground = fr_season_y (p, FR_SEASON_LANE_STORE, 0);

      cairo_save (c->cr);
      cairo_rectangle (c->cr, l->plot_x_px, l->lanes[FR_SEASON_LANE_STORE].y_px - 3, l->plot_width_px,
                       l->lanes[FR_SEASON_LANE_STORE].height_px + 4);
      cairo_clip (c->cr);
      cairo_move_to (c->cr, l->plot_x_px, ground);
      for (guint i = 0; i < points->len; i++)
        cairo_line_to (c->cr, g_array_index (points, FrPoint, i).x_px,
                       g_array_index (points, FrPoint, i).y_px);
      cairo_line_to (c->cr, last->x_px, ground);
      cairo_close_path (c->cr);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 0.26);
      cairo_fill (c->cr);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
      cairo_set_line_width (c->cr, 1.8);
      cairo_set_line_join (c->cr, CAIRO_LINE_JOIN_MITER);
      fr_canvas_polyline (c, points);
      cairo_restore (c->cr);
      take_line (p, points);
    }
  draw_ground (p, FR_SEASON_LANE_STORE);
  draw_capacity (p);
  if (day >= 0)
    {
      double y = fr_season_y (p, FR_SEASON_LANE_STORE, p->view->days[day].store_l);
      double x = day == p->view->today ? end_x (p) : fr_season_day_x (p, (gsize)day + 1);
      if (isfinite (y) && p->view->n_levels > 0)
        fr_canvas_dot (&p->canvas, x, y, 3, FR_ROLE_SAP);
    }
}

/* --- so far --- */

static GArray *
sum_points (const FrSeasonPaint *p, const FrSeasonPast *past)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (FrPoint));
  g_autoptr (GArray) sums = fr_season_so_far (past, p->view);
  gboolean begun = FALSE;

  for (guint i = 0; i < sums->len; i++)
    {
      FrPoint point = { fr_season_day_x (p, i + 1),
                        fr_season_y (p, FR_SEASON_LANE_SO_FAR, g_array_index (sums, double, i)) };
      /* From nothing on the day before the first. */
      if (!begun && !isnan (point.y_px) && points->len > 0)
        g_array_index (points, FrPoint, points->len - 1).y_px = fr_season_y (p, FR_SEASON_LANE_SO_FAR, 0);
      begun = begun || !isnan (point.y_px);
      g_array_append_val (points, point);
    }
  return points;
}

/* Dots on the other seasons' lines at a day, and their names where the lines end and lie farthest apart. */
static void
name_past (FrSeasonPaint *p, GPtrArray *lines, guint day)
{
  for (gsize i = 0; i < p->strip->n_past; i++)
    {
      const GArray *line = lines->pdata[i];
      const FrPoint *at = &g_array_index (line, FrPoint, day),
                    *end = &g_array_index (line, FrPoint, line->len - 1);
      g_autoptr (PangoLayout) text
          = fr_canvas_text (&p->canvas, p->strip->past[i].label, NULL, NULL, NUMBER_PX);
      if (!isnan (at->y_px))
        fr_canvas_dot (&p->canvas, at->x_px, at->y_px, 1.8, FR_ROLE_INK_SOFT);
      if (!isnan (end->y_px) && text != NULL)
        fr_season_try_inside (p, text, end->x_px - 4, end->y_px, 1, 0.5, FR_ROLE_INK_SOFT, 0.9);
    }
}

void
fr_season_draw_so_far (FrSeasonPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrSeasonLayout *l = &p->layout;
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  g_autoptr (GArray) own = sum_points (p, NULL);
  gssize day = pointed_day (p), last = -1;

  cairo_save (c->cr);
  cairo_rectangle (c->cr, l->plot_x_px, l->lanes[FR_SEASON_LANE_SO_FAR].y_px - 3, l->plot_width_px,
                   l->lanes[FR_SEASON_LANE_SO_FAR].height_px + 5);
  cairo_clip (c->cr);
  cairo_set_line_join (c->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_width (c->cr, c->palette->high_contrast ? 1.5 : 0.9);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK_FAINT, 1);
  for (gsize i = 0; i < p->strip->n_past; i++)
    {
      g_ptr_array_add (lines, sum_points (p, &p->strip->past[i]));
      fr_canvas_polyline (c, lines->pdata[i]);
    }
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
  cairo_set_line_width (c->cr, 2.2);
  fr_canvas_polyline (c, own);
  cairo_restore (c->cr);
  draw_ground (p, FR_SEASON_LANE_SO_FAR);

  for (guint i = 0; i < own->len; i++)
    if (!isnan (g_array_index (own, FrPoint, i).y_px))
      last = i;
  take_line (p, own);
  if (day >= 0 && !isnan (g_array_index (own, FrPoint, day).y_px))
    fr_canvas_dot (&p->canvas, g_array_index (own, FrPoint, day).x_px, g_array_index (own, FrPoint, day).y_px,
                   3, FR_ROLE_SAP);
  if (last >= 0)
    {
      const FrPoint *at = &g_array_index (own, FrPoint, last);
      g_autoptr (PangoLayout) text
          = fr_canvas_text (c, NULL, p->strip->texts->lanes[FR_SEASON_LANE_SO_FAR].known, NULL, NUMBER_PX);
      /* Over the line's end to the left of it, where a growing line leaves room. */
      if (text != NULL && !fr_season_try_inside (p, text, at->x_px - 6, at->y_px - 2, 1, 1, FR_ROLE_SAP, 0.9))
        fr_season_try (p, text, at->x_px + 8, MIN (at->y_px + 2, lane_foot (p, FR_SEASON_LANE_SO_FAR)), 0,
                       0.5, FR_ROLE_SAP, 0.9);
    }
  if (day >= 0)
    name_past (p, lines, (guint)day);
}
