/* Sums of litres over the days of a season. The end numbers keep one line of text apart, the middle one where
 * it is. */
#include "paint/forecast-season.h"

#include "paint/axis.h"
#include "paint/canvas.h"
#include "paint/number.h"
#include "paint/season-private.h"

#include <math.h>

#define PAD_PX 10.0
#define BESIDE_PX 6.0
#define FAN_RATIO 0.17
#define EMPTY_L 20.0
#define MOST_L 1e8
#define LEAST_PLOT_PX 30.0

typedef struct
{
  FrCanvas canvas;
  const FrForecastSeason *season;
  FrForecastSeasonLayout layout;
  GPtrArray *past; /* of GArray of double, the sums at each day's end */
  FrAxis axis;
  gboolean any;
} Paint;

static double
sane_l (double volume_l)
{
  return isfinite (volume_l) && volume_l >= 0 && volume_l <= MOST_L ? volume_l : NAN;
}

/* --- where --- */

static double
edge_x (const FrForecastSeasonLayout *layout, double days)
{
  return layout->plot_x_px + days * layout->plot_width_px / MAX (layout->n_days, 1);
}

double
fr_forecast_season_x (const FrForecastSeasonLayout *layout, FrDate date)
{
  return edge_x (layout, 1.0 + (double)(fr_date_to_days (date) - fr_date_to_days (layout->first)));
}

double
fr_forecast_season_y (const FrForecastSeasonLayout *layout, double volume_l)
{
  return layout->plot_y_px + layout->plot_height_px * (1 - volume_l / layout->high_l);
}

gboolean
fr_forecast_season_at (const FrForecastSeasonLayout *layout, double x_px, FrDate *date)
{
  double at = x_px - layout->plot_x_px;

  if (layout->n_days == 0 || !(at >= -BESIDE_PX && at <= layout->plot_width_px + BESIDE_PX))
    return FALSE;
  at = floor (at * layout->n_days / layout->plot_width_px);
  *date = fr_date_add_days (layout->first, (gint)CLAMP (at, 0, layout->n_days - 1.0));
  return TRUE;
}

/* --- what --- */

static GPtrArray *
past_sums (const FrForecastSeason *season, guint n_days)
{
  GPtrArray *sums = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  g_autofree FrSeasonDay *days = g_new0 (FrSeasonDay, n_days + 1);
  FrSeasonView view = { .season = season->season, .n_days = n_days, .days = days, .today = -1 };

  for (guint i = 0; i < n_days; i++)
    days[i].date = fr_date_add_days (season->first, (gint)i);
  for (gsize k = 0; k < season->n_past; k++)
    g_ptr_array_add (sums, fr_season_so_far (&season->past[k], &view));
  return sums;
}

static double
most_l (const Paint *p)
{
  const FrForecast *f = p->season->forecast;
  double most = 0;

  for (guint i = 0; f != NULL && i < f->n_days; i++)
    {
      const double all[] = { f->days[i].so_far.lo_l, f->days[i].so_far.middle_l, f->days[i].so_far.hi_l };
      for (guint k = 0; k < G_N_ELEMENTS (all); k++)
        if (sane_l (all[k]) > most)
          most = all[k];
    }
  for (guint k = 0; k < p->past->len; k++)
    {
      const GArray *sums = p->past->pdata[k];
      for (guint i = 0; i < sums->len; i++)
        if (sane_l (g_array_index (sums, double, i)) > most)
          most = g_array_index (sums, double, i);
    }
  return most;
}

/* The last day of the forecast within the axis with a fan, or NULL. */
static const FrForecastDay *
last_ahead (const Paint *p)
{
  const FrForecast *f = p->season->forecast;

  for (guint i = f != NULL ? f->n_days : 0; i-- > 0;)
    if (f->days[i].is_ahead && !isnan (sane_l (f->days[i].so_far.lo_l))
        && !isnan (sane_l (f->days[i].so_far.middle_l)) && !isnan (sane_l (f->days[i].so_far.hi_l))
        && fr_date_compare (f->days[i].date, p->season->last) <= 0
        && fr_date_compare (f->days[i].date, p->season->first) >= 0)
      return &f->days[i];
  return NULL;
}

static PangoLayout *
litres_text (Paint *p, double volume_l, gboolean is_strong, const char *after)
{
  g_autofree char *number = fr_number_litres (volume_l, p->season->units);

  return fr_canvas_text (&p->canvas, is_strong ? NULL : number, is_strong ? number : NULL, after,
                         is_strong ? 13 : FR_TEXT_SMALL_PX);
}

static void
lay_out (Paint *p)
{
  FrForecastSeasonLayout *l = &p->layout;
  FrCanvas *c = &p->canvas;
  double s = c->scale_ratio, line = c->line_px, width, height, right = PAD_PX * s, numbers = 0;
  const FrForecastDay *end = last_ahead (p);
  gint64 n = fr_date_is_valid (p->season->first) && fr_date_is_valid (p->season->last)
                 ? fr_date_to_days (p->season->last) - fr_date_to_days (p->season->first) + 1
                 : 0;

  *l = (FrForecastSeasonLayout){ .first = p->season->first, .n_days = (guint)CLAMP (n, 0, 1000) };
  p->past = past_sums (p->season, l->n_days);
  double most = most_l (p);
  p->any = most > 0;
  l->high_l = most > 0 ? most : EMPTY_L;
  l->plot_y_px
      = PAD_PX * s + (p->season->unit != NULL || p->season->past_words != NULL ? 1.2 * line : 0.5 * line);
  l->plot_height_px = c->height_px - l->plot_y_px - 1.3 * line - 0.6 * PAD_PX * s;

  double high_shown = fr_quantity_to_shown (l->high_l, FR_QUANTITY_VOLUME, p->season->units);
  fr_axis_apart (0, high_shown, CLAMP (l->plot_height_px / (1.7 * line), 2, 3.5), &p->axis);
  for (guint k = 0; k <= p->axis.n_intervals; k++)
    {
      g_autofree char *number = fr_axis_text (&p->axis, k, NULL);
      g_autoptr (PangoLayout) text = fr_canvas_text (c, number, NULL, NULL, FR_TEXT_SMALL_PX);
      fr_layout_size (text, &width, &height);
      numbers = MAX (numbers, width);
    }
  if (end != NULL)
    {
      g_autoptr (PangoLayout) middle = litres_text (p, end->so_far.middle_l, TRUE, p->season->likely);
      g_autoptr (PangoLayout) high = litres_text (p, end->so_far.hi_l, FALSE, NULL);
      fr_layout_size (middle, &width, &height);
      right = MAX (right, width + 12 * s);
      fr_layout_size (high, &width, &height);
      right = MAX (right, width + 12 * s);
    }
  l->plot_x_px = PAD_PX * s + numbers + 8 * s;
  l->plot_width_px = c->width_px - l->plot_x_px - right;
}

/* --- drawing --- */

static void
draw_grid (Paint *p)
{
  FrCanvas *c = &p->canvas;
  const FrForecastSeasonLayout *l = &p->layout;
  double right = l->plot_x_px + l->plot_width_px, foot = l->plot_y_px + l->plot_height_px, s = c->scale_ratio;
  const char mark[] = { p->season->units != NULL ? p->season->units->decimal_mark : '.', '\0' };

  for (guint k = 1; k <= p->axis.n_intervals; k++)
    {
      double value
          = fr_quantity_from_shown (fr_axis_tick (&p->axis, k), FR_QUANTITY_VOLUME, p->season->units);
      double y = fr_forecast_season_y (l, value);
      g_autofree char *number = fr_axis_text (&p->axis, k, mark);
      g_autoptr (PangoLayout) text = fr_canvas_text (c, number, NULL, NULL, FR_TEXT_SMALL_PX);
      if (y < l->plot_y_px - 0.5)
        continue;
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_GRID, 1);
      fr_canvas_rule (c, l->plot_x_px, y, right, y, 1);
      fr_canvas_try_at (c, text, l->plot_x_px - 8 * s, y, 1, 0.5, FR_ROLE_INK_SOFT, 0);
    }
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
  fr_canvas_rule (c, l->plot_x_px, foot, right, foot, 1);
  for (gsize i = 0; i < p->season->n_months; i++)
    {
      const FrSeasonMonth *month = &p->season->months[i];
      double x = edge_x (l, month->day);
      const char *labels[] = { month->label, month->label_short };
      if (month->day >= l->n_days)
        continue;
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
      fr_canvas_rule (c, x, foot, x, foot + 5 * s, 1);
      double room = (i + 1 < p->season->n_months ? edge_x (l, MIN (month[1].day, l->n_days)) : right) - x - 6;
      for (guint way = 0; way < 2; way++)
        {
          double width, height;
          g_autoptr (PangoLayout) text = fr_canvas_text (c, labels[way], NULL, NULL, FR_TEXT_SMALL_PX);
          if (text == NULL)
            continue;
          fr_layout_size (text, &width, &height);
          if (width <= room && fr_canvas_try_at (c, text, x + 4, foot + 3 * s, 0, 0, FR_ROLE_INK_SOFT, 0))
            break;
        }
    }
}

static void
draw_past (Paint *p)
{
  FrCanvas *c = &p->canvas;
  const FrForecastSeasonLayout *l = &p->layout;

  fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK_FAINT, 1);
  cairo_set_line_width (c->cr, c->palette->high_contrast ? 1.5 : 0.9);
  for (guint k = 0; k < p->past->len; k++)
    {
      const GArray *sums = p->past->pdata[k];
      g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (FrPoint));
      for (guint i = 0; i < sums->len; i++)
        {
          double sum = sane_l (g_array_index (sums, double, i));
          FrPoint point = { edge_x (l, i + 1.0), fr_forecast_season_y (l, sum) };
          if (points->len == 0 && !isnan (sum))
            {
              FrPoint ground = { edge_x (l, i), fr_forecast_season_y (l, 0) };
              g_array_append_val (points, ground);
            }
          if (points->len > 0)
            g_array_append_val (points, point);
        }
      fr_canvas_polyline (c, points);
    }
}

/* Within the axis, and before or after what is known. */
static gboolean
is_drawn (const Paint *p, const FrForecastDay *day, gboolean is_ahead)
{
  return day->is_ahead == is_ahead && fr_date_compare (day->date, p->season->first) >= 0
         && fr_date_compare (day->date, p->season->last) <= 0;
}

static void
draw_fan (Paint *p, const FrPoint *now)
{
  const FrForecast *f = p->season->forecast;
  FrCanvas *c = &p->canvas;
  const FrForecastSeasonLayout *l = &p->layout;
  g_autoptr (GPtrArray) edges = g_ptr_array_new_with_free_func ((GDestroyNotify)g_array_unref);
  GArray *lines[3];

  for (guint k = 0; k < 3; k++)
    {
      lines[k] = g_array_new (FALSE, FALSE, sizeof (FrPoint));
      g_ptr_array_add (edges, lines[k]);
      if (!isnan (now->y_px))
        g_array_append_val (lines[k], *now);
    }
  for (guint i = 0; i < f->n_days; i++)
    {
      const FrForecastDay *day = &f->days[i];
      const double sums[]
          = { sane_l (day->so_far.lo_l), sane_l (day->so_far.middle_l), sane_l (day->so_far.hi_l) };
      if (!is_drawn (p, day, TRUE) || isnan (sums[0]) || isnan (sums[1]) || isnan (sums[2]))
        continue;
      for (guint k = 0; k < 3; k++)
        {
          FrPoint point = { fr_forecast_season_x (l, day->date), fr_forecast_season_y (l, sums[k]) };
          g_array_append_val (lines[k], point);
        }
    }
  if (lines[1]->len < 2)
    return;
  for (guint i = 0; i < lines[0]->len; i++)
    cairo_line_to (c->cr, g_array_index (lines[0], FrPoint, i).x_px,
                   g_array_index (lines[0], FrPoint, i).y_px);
  for (guint i = lines[2]->len; i-- > 0;)
    cairo_line_to (c->cr, g_array_index (lines[2], FrPoint, i).x_px,
                   g_array_index (lines[2], FrPoint, i).y_px);
  cairo_close_path (c->cr);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, c->palette->theme == FR_THEME_PAPER ? 0 : FAN_RATIO);
  cairo_fill (c->cr);
  cairo_set_line_width (c->cr, MAX (0.7, fr_palette_band_edge_px (c->palette)));
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP,
                         c->palette->theme == FR_THEME_PAPER || c->palette->high_contrast ? 1 : 0.5);
  fr_canvas_polyline (c, lines[0]);
  fr_canvas_polyline (c, lines[2]);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
  cairo_set_line_width (c->cr, 2.2);
  fr_canvas_dash (c, 4, 2.5);
  fr_canvas_polyline (c, lines[1]);
  fr_canvas_dash (c, 0, 0);
}

/* Up at the end of the day; returns where the last known sum stands, NAN in y without one. */
static FrPoint
draw_steps (Paint *p)
{
  const FrForecast *f = p->season->forecast;
  FrCanvas *c = &p->canvas;
  const FrForecastSeasonLayout *l = &p->layout;
  FrPoint last = { l->plot_x_px, NAN };
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (FrPoint));

  for (guint i = 0; i < f->n_days; i++)
    {
      const FrForecastDay *day = &f->days[i];
      double sum = sane_l (day->so_far.middle_l);
      if (!is_drawn (p, day, FALSE) || isnan (sum))
        continue;
      FrPoint point = { fr_forecast_season_x (l, day->date), fr_forecast_season_y (l, sum) };
      FrPoint before = { point.x_px, isnan (last.y_px) ? fr_forecast_season_y (l, 0) : last.y_px };
      g_array_append_val (points, before);
      g_array_append_val (points, point);
      last = point;
    }
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK, 1);
  cairo_set_line_width (c->cr, 2.2);
  cairo_set_line_join (c->cr, CAIRO_LINE_JOIN_MITER);
  fr_canvas_polyline (c, points);
  return last;
}

static void
put_ends (Paint *p)
{
  FrCanvas *c = &p->canvas;
  const FrForecastSeasonLayout *l = &p->layout;
  const FrForecastDay *end = last_ahead (p);

  if (end == NULL)
    return;
  const double sums[] = { end->so_far.hi_l, end->so_far.middle_l, end->so_far.lo_l };
  double x = fr_forecast_season_x (l, end->date) + 8 * c->scale_ratio, line = c->line_px,
         height = c->height_px;
  double ys[3];
  for (guint k = 0; k < 3; k++)
    ys[k] = fr_forecast_season_y (l, sums[k]);
  /* One line apart and all inside. */
  ys[1] = CLAMP (ys[1], 1.6 * line, MAX (height - 1.6 * line, 1.6 * line));
  /* The middle one is larger. */
  double apart = 1.05 * line + 1;
  ys[0] = MIN (ys[0], ys[1] - apart);
  ys[2] = MAX (ys[2], ys[1] + apart);
  const guint order[] = { 1, 0, 2 };
  for (guint i = 0; i < 3; i++)
    {
      guint k = order[i];
      g_autoptr (PangoLayout) text = litres_text (p, sums[k], k == 1, k == 1 ? p->season->likely : NULL);
      fr_canvas_try_at (c, text, x, ys[k], 0, 0.5, FR_ROLE_SAP, 0.9);
    }
}

static void
draw_selected (Paint *p)
{
  FrCanvas *c = &p->canvas;
  const FrForecastSeasonLayout *l = &p->layout;
  const FrForecast *f = p->season->forecast;
  FrDate date = p->season->selected;

  if (date.year == 0 || !fr_date_is_valid (date) || fr_date_compare (date, p->season->first) < 0
      || fr_date_compare (date, p->season->last) > 0)
    return;
  double x = fr_forecast_season_x (l, date);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
  fr_canvas_rule (c, x, l->plot_y_px, x, l->plot_y_px + l->plot_height_px, 1);
  gint64 at = fr_date_to_days (date) - fr_date_to_days (p->season->first);
  for (guint k = 0; k < p->past->len; k++)
    {
      double sum = sane_l (g_array_index ((const GArray *)p->past->pdata[k], double, at));
      if (!isnan (sum))
        fr_canvas_dot (c, x, fr_forecast_season_y (l, sum), 1.8, FR_ROLE_INK_SOFT);
    }
  const FrForecastDay *day = f != NULL ? fr_forecast_day (f, date) : NULL;
  if (day != NULL && !isnan (sane_l (day->so_far.middle_l)))
    fr_canvas_dot (c, x, fr_forecast_season_y (l, day->so_far.middle_l), 3,
                   day->is_ahead ? FR_ROLE_SAP : FR_ROLE_INK);
}

static void
put_empty (Paint *p)
{
  FrCanvas *c = &p->canvas;
  const FrForecastSeasonLayout *l = &p->layout;
  double width, height;
  g_autoptr (PangoLayout) text = fr_canvas_text (c, p->season->empty, NULL, NULL, FR_TEXT_SMALL_PX);

  if (text == NULL)
    return;
  pango_layout_set_single_paragraph_mode (text, FALSE);
  pango_layout_set_wrap (text, PANGO_WRAP_WORD);
  pango_layout_set_width (text, (int)(MAX (l->plot_width_px - 12, 1) * PANGO_SCALE));
  fr_layout_size (text, &width, &height);
  pango_layout_set_width (text, (int)(ceil (width) * PANGO_SCALE));
  if (width <= l->plot_width_px)
    fr_canvas_try_at (c, text, l->plot_x_px + l->plot_width_px / 2, l->plot_y_px + l->plot_height_px / 2, 0.5,
                      0.5, FR_ROLE_INK_SOFT, 0.9);
}

static void
draw_all (Paint *p)
{
  FrCanvas *c = &p->canvas;
  const FrForecastSeasonLayout *l = &p->layout;
  const FrForecast *f = p->season->forecast;
  double right = l->plot_x_px + l->plot_width_px;
  FrPoint now = { NAN, NAN };

  g_autoptr (PangoLayout) unit = fr_canvas_text (c, p->season->unit, NULL, NULL, FR_TEXT_SMALL_PX);
  g_autoptr (PangoLayout) past = fr_canvas_text (c, p->season->past_words, NULL, NULL, FR_TEXT_SMALL_PX);
  fr_canvas_try_at (c, unit, c->width_px - PAD_PX * c->scale_ratio, 0.5 * PAD_PX * c->scale_ratio, 1, 0,
                    FR_ROLE_INK_SOFT, 0);
  draw_grid (p);
  cairo_save (c->cr);
  cairo_rectangle (c->cr, l->plot_x_px - 1, l->plot_y_px - 2, l->plot_width_px + 2, l->plot_height_px + 3);
  cairo_clip (c->cr);
  cairo_set_line_join (c->cr, CAIRO_LINE_JOIN_ROUND);
  draw_past (p);
  if (f != NULL)
    {
      now = draw_steps (p);
      draw_fan (p, &now);
    }
  cairo_restore (c->cr);
  put_ends (p);
  if (!isnan (now.y_px))
    {
      double known = NAN;
      for (guint i = 0; i < f->n_days; i++)
        if (is_drawn (p, &f->days[i], FALSE) && !isnan (sane_l (f->days[i].so_far.middle_l)))
          known = f->days[i].so_far.middle_l;
      g_autoptr (PangoLayout) text = litres_text (p, known, TRUE, NULL);
      fr_canvas_dot (c, now.x_px, now.y_px, 4, FR_ROLE_INK);
      fr_canvas_take (c, (FrBox){ now.x_px - 4, now.y_px - 4, 8, 8 });
      if (!fr_canvas_try_at (c, text, now.x_px - 7, now.y_px - 3, 1, 1, FR_ROLE_INK, 0.9))
        fr_canvas_try_at (c, text, now.x_px + 7, now.y_px - 3, 0, 1, FR_ROLE_INK, 0.9);
    }
  draw_selected (p);
  if (p->season->n_past > 0
      && !fr_canvas_try_at (c, past, l->plot_x_px + 8, l->plot_y_px, 0, 1, FR_ROLE_INK_SOFT, 0.9))
    fr_canvas_try_at (c, past, right, l->plot_y_px + l->plot_height_px - 3, 1, 1, FR_ROLE_INK_SOFT, 0.9);
  if (!p->any)
    put_empty (p);
}

FrForecastSeasonLayout
fr_forecast_season_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette,
                         const FrForecastSeason *season, double width_px, double height_px, double text_scale,
                         GArray *labels)
{
  Paint p = { .season = season };

  fr_canvas_init (&p.canvas, cr, context, palette, width_px, height_px, text_scale);
  lay_out (&p);
  cairo_save (cr);
  if (p.layout.plot_width_px >= LEAST_PLOT_PX && p.layout.plot_height_px >= LEAST_PLOT_PX
      && p.layout.n_days > 0)
    draw_all (&p);
  fr_canvas_flush (&p.canvas, labels);
  cairo_restore (cr);
  g_ptr_array_unref (p.past);
  fr_canvas_clear (&p.canvas);
  return p.layout;
}
