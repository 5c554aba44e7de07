/* How likely a run is and how many litres it brings. A capsule's number stands beside its bar where there is
 * room, its upper end's number over it. What was gathered is a narrow filled bar in front of the capsule, so
 * that its end lies inside or outside; over several days it is an even share of each, joined at the top. */
#include "paint/forecast-private.h"
#include "paint/number.h"

#define LIKELY_RATIO 0.5 /* from here on the chance is bold */
#define OUTER_RATIO 0.15
#define INNER_RATIO 0.34
#define LEAST_PX 2.0

static double
column_x (const FrForecastPaint *p, guint column)
{
  return fr_forecast_x (p, 24.0 * column + 12);
}

static gboolean
is_told (double probability)
{
  return probability >= 0 && probability <= 1;
}

/* Not known, beside days that are; when nothing is, the words over the air say it. */
static void
put_dash (FrForecastPaint *p, double x_px, double y_px, double down_ratio)
{
  g_autoptr (PangoLayout) dash = fr_canvas_text (&p->canvas, "–", NULL, NULL, FR_FORECAST_NUMBER_PX);

  if (p->chart->forecast != NULL && p->chart->forecast->n_days > 0)
    fr_canvas_try_at (&p->canvas, dash, x_px, y_px, 0.5, down_ratio, FR_ROLE_INK_SOFT, 0);
}

static PangoLayout *
chance_text (FrForecastPaint *p, double ratio, gboolean with_unit)
{
  char *number;
  const char *unit;

  fr_quantity_format (ratio, FR_QUANTITY_RATIO, p->chart->units, 0, &number, &unit);
  g_autofree char *words = with_unit ? g_strdup_printf ("%s\u00a0%s", number, unit) : g_strdup (number);
  g_free (number);
  return fr_canvas_text (&p->canvas, ratio >= LIKELY_RATIO ? NULL : words,
                         ratio >= LIKELY_RATIO ? words : NULL, NULL, FR_FORECAST_NUMBER_PX);
}

/* On every day or on none. */
static gboolean
has_room_for_unit (FrForecastPaint *p)
{
  for (guint i = 0; i < p->chart->n_days; i++)
    {
      const FrForecastDay *day = fr_forecast_column_day (p, i);
      double width, height;
      if (day == NULL || !is_told (day->run_probability))
        continue;
      g_autoptr (PangoLayout) text = chance_text (p, day->run_probability, TRUE);
      fr_layout_size (text, &width, &height);
      if (width > p->layout.day_px - 3)
        return FALSE;
    }
  return TRUE;
}

void
fr_forecast_draw_chance (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrForecastChartLayout *l = &p->layout;
  double s = c->scale_ratio, width = MIN (0.66 * l->day_px, 50 * s), high = 6 * s;
  double y = l->lanes[FR_FORECAST_LANE_CHANCE].y_px,
         bar = y + l->lanes[FR_FORECAST_LANE_CHANCE].height_px - high;

  if (l->lanes[FR_FORECAST_LANE_CHANCE].height_px <= 0)
    return;
  gboolean with_unit = has_room_for_unit (p);
  for (guint i = 0; i < p->chart->n_days; i++)
    {
      const FrForecastDay *day = fr_forecast_column_day (p, i);
      double x = column_x (p, i);
      if (day == NULL || !is_told (day->run_probability))
        {
          put_dash (p, x, y, 0);
          continue;
        }
      double ratio = day->run_probability;
      FrBox track = { x - width / 2, bar, width, high },
            part = { track.x_px, bar, MAX (ratio * width, 0), high };
      /* As strong as it is in high contrast, the grid's colour would hide where the bar ends. */
      fr_canvas_rounded (c, track, high / 2, c->palette->high_contrast ? -0.5 : 0);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_GRID, 1);
      cairo_set_line_width (c->cr, 1);
      if (c->palette->high_contrast)
        cairo_stroke (c->cr);
      else
        cairo_fill (c->cr);
      cairo_save (c->cr);
      fr_canvas_rounded (c, track, high / 2, 0);
      cairo_clip (c->cr);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
      if (day->is_beyond)
        fr_canvas_hatch (c, part, 4 * s, TRUE);
      else
        {
          cairo_rectangle (c->cr, part.x_px, part.y_px, part.width_px, part.height_px);
          cairo_fill (c->cr);
        }
      cairo_restore (c->cr);
      fr_forecast_mark (p, FR_FORECAST_MARK_CHANCE, i, part);
      g_autoptr (PangoLayout) text = chance_text (p, ratio, with_unit);
      fr_canvas_try_at (c, text, x, y, 0.5, 0, ratio >= LIKELY_RATIO ? FR_ROLE_INK : FR_ROLE_INK_SOFT, 0);
    }
}

/* --- capsules --- */

typedef struct
{
  double top_px, foot_px;             /* 8 in 10 */
  double inner_top_px, inner_foot_px; /* NAN none */
  double middle_px;                   /* NAN none */
  double half_px;
} Capsule;

static gboolean
capsule_of (const FrForecastPaint *p, const FrLitres *l, Capsule *capsule)
{
  if (isnan (l->lo_l) || isnan (l->hi_l))
    return FALSE;
  capsule->top_px = fr_forecast_litres_y (p, MAX (l->lo_l, l->hi_l));
  capsule->foot_px = fr_forecast_litres_y (p, MIN (l->lo_l, l->hi_l));
  capsule->inner_top_px = fr_forecast_litres_y (p, MAX (l->quarter_lo_l, l->quarter_hi_l));
  capsule->inner_foot_px = fr_forecast_litres_y (p, MIN (l->quarter_lo_l, l->quarter_hi_l));
  if (isnan (l->quarter_lo_l) || isnan (l->quarter_hi_l))
    capsule->inner_top_px = capsule->inner_foot_px = NAN;
  capsule->middle_px = fr_forecast_litres_y (p, l->middle_l);
  capsule->half_px = MIN (0.225 * p->layout.day_px, 19 * p->canvas.scale_ratio);
  return TRUE;
}

static void
draw_capsule (FrForecastPaint *p, guint column, const FrForecastDay *day, const Capsule *k)
{
  FrCanvas *c = &p->canvas;
  double x = column_x (p, column), line = MAX (1.1, fr_palette_band_edge_px (c->palette));
  double high = MAX (k->foot_px - k->top_px, LEAST_PX);
  FrBox outer = { x - k->half_px, k->foot_px - high, 2 * k->half_px, high };
  gboolean has_inner = isfinite (k->inner_top_px);
  FrBox inner = { x - 0.72 * k->half_px, k->inner_top_px, 1.44 * k->half_px,
                  has_inner ? MAX (k->inner_foot_px - k->inner_top_px, 0) : 0 };

  cairo_save (c->cr);
  fr_canvas_rounded (c, outer, 5, -line / 2);
  if (!p->is_paper)
    {
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, day->is_beyond ? OUTER_RATIO / 2 : OUTER_RATIO);
      cairo_fill_preserve (c->cr);
    }
  cairo_clip (c->cr);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
  if (day->is_beyond)
    {
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 0.5);
      fr_canvas_hatch (c, outer, 6 * c->scale_ratio, TRUE);
    }
  else if (has_inner && p->is_paper)
    fr_canvas_hatch (c, inner, 4, FALSE);
  cairo_restore (c->cr);
  if (has_inner && !p->is_paper && inner.height_px > 0)
    {
      fr_canvas_rounded (c, inner, 3, 0);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, day->is_beyond ? INNER_RATIO / 2 : INNER_RATIO);
      cairo_fill (c->cr);
    }
  fr_canvas_rounded (c, outer, 5, -line / 2);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
  cairo_set_line_width (c->cr, line);
  fr_canvas_dash (c, day->is_beyond ? 3 : 0, 2);
  cairo_stroke (c->cr);
  fr_canvas_dash (c, 0, 0);
  fr_canvas_take (c, outer);
  fr_forecast_mark (p, FR_FORECAST_MARK_OUTER, column, outer);
  if (has_inner)
    fr_forecast_mark (p, FR_FORECAST_MARK_INNER, column, inner);
}

static void
draw_middle (FrForecastPaint *p, guint column, const Capsule *k)
{
  FrCanvas *c = &p->canvas;
  double x = column_x (p, column), half = k->half_px + 3;

  if (isnan (k->middle_px))
    return;
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
  cairo_rectangle (c->cr, x - half, k->middle_px - 1.25, 2 * half, 2.5);
  cairo_fill (c->cr);
  fr_canvas_take (c, (FrBox){ x - half, k->middle_px - 1.25, 2 * half, 2.5 });
  fr_forecast_mark (p, FR_FORECAST_MARK_MIDDLE, column, (FrBox){ x - half, k->middle_px, 2 * half, 0 });
}

/* Whether all numbers have room beside their bars; else all stand over their capsules. */
static gboolean
has_room_beside (FrForecastPaint *p)
{
  for (guint i = 0; i < p->chart->n_days; i++)
    {
      FrLitres l = fr_forecast_litres (p, fr_forecast_column_day (p, i));
      Capsule k;
      double width, height;
      if (isnan (l.middle_l) || !capsule_of (p, &l, &k))
        continue;
      g_autofree char *number = fr_number_litres (l.middle_l, p->chart->units);
      g_autoptr (PangoLayout) text = fr_canvas_text (&p->canvas, NULL, number, NULL, 13);
      fr_layout_size (text, &width, &height);
      if (2 * k.half_px + 7 + width > p->layout.day_px)
        return FALSE;
    }
  return TRUE;
}

static void
number_capsule (FrForecastPaint *p, guint column, const FrLitres *l, const Capsule *k, gboolean is_beside)
{
  FrCanvas *c = &p->canvas;
  double x = column_x (p, column), side = k->half_px + 6;
  g_autofree char *middle = fr_number_litres (l->middle_l, p->chart->units);
  g_autofree char *high = fr_number_litres (MAX (l->lo_l, l->hi_l), p->chart->units);
  g_autoptr (PangoLayout) strong = fr_canvas_text (c, NULL, middle, NULL, 13);
  g_autoptr (PangoLayout) soft = fr_canvas_text (c, high, NULL, NULL, FR_FORECAST_SMALL_PX);
  double width, height;
  double foot = fr_forecast_litres_y (p, 0);

  fr_layout_size (strong, &width, &height);
  /* Next to nothing: one number over it is enough. */
  if (isnan (l->middle_l) || k->foot_px - k->top_px < 1.1 * c->line_px)
    {
      fr_canvas_try_at (c, isnan (l->middle_l) ? soft : strong, x, k->top_px - 3, 0.5, 1, FR_ROLE_SAP, 0.9);
      return;
    }
  /* Not over the ground line. */
  double y = MIN (k->middle_px, foot - height / 2 + 1);
  gboolean is_put = is_beside
                    && (fr_canvas_try_at (c, strong, x + side, y, 0, 0.5, FR_ROLE_SAP, 0.9)
                        || fr_canvas_try_at (c, strong, x - side, y, 1, 0.5, FR_ROLE_SAP, 0.9));
  if (!is_put)
    fr_canvas_try_at (c, strong, x, k->top_px - 1, 0.5, 1, FR_ROLE_SAP, 0.9);
  else
    fr_canvas_try_at (c, soft, x, k->top_px - 1, 0.5, 1, FR_ROLE_INK_SOFT, 0.9);
}

/* --- gathered --- */

static void
draw_gathered (FrForecastPaint *p, guint column, const FrForecastDay *day)
{
  FrCanvas *c = &p->canvas;
  guint n;
  double share = fr_forecast_gathered_l (p, day, &n),
         half = MIN (0.09 * p->layout.day_px, 8 * c->scale_ratio);
  double foot = fr_forecast_litres_y (p, 0), y = MIN (fr_forecast_litres_y (p, share), foot - LEAST_PX);

  if (isnan (share))
    return;
  for (guint back = 0; back < n && back <= column; back++)
    {
      double x = column_x (p, column - back);
      FrBox box = { x - half, y, 2 * half, foot - y };
      cairo_rectangle (c->cr, box.x_px - 1.5, box.y_px - 1.5, box.width_px + 3, box.height_px + 1.5);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_CARD, 1);
      cairo_fill (c->cr);
      cairo_rectangle (c->cr, box.x_px, box.y_px, box.width_px, box.height_px);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
      cairo_fill (c->cr);
      fr_canvas_take (c, box);
      fr_forecast_mark (p, FR_FORECAST_MARK_GATHERED, column - back, box);
    }
  if (n > 1)
    {
      double from = MAX (column_x (p, column) - (n - 1) * p->layout.day_px, p->layout.plot_x_px);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_SAP, 1);
      fr_canvas_rule (c, from, y + 1, column_x (p, column), y + 1, 2);
    }
}

static void
number_gathered (FrForecastPaint *p, guint column, const FrForecastDay *day, const Capsule *k)
{
  FrCanvas *c = &p->canvas;
  guint n;
  double share = fr_forecast_gathered_l (p, day, &n), x = column_x (p, column);
  double y = MIN (fr_forecast_litres_y (p, share), fr_forecast_litres_y (p, 0) - LEAST_PX) - 2;
  double side = (k != NULL ? k->half_px : 0) + 6;
  double middle = MAX (x - (n - 1) * p->layout.day_px / 2, p->layout.plot_x_px);
  g_autofree char *one = fr_number_litres (share, p->chart->units);
  g_autofree char *number = n > 1 ? g_strdup_printf ("%u × %s", n, one) : g_strdup (one);
  g_autoptr (PangoLayout) text = fr_canvas_text (c, NULL, number, NULL, 13);

  double top = k != NULL ? k->top_px : y;
  for (guint back = 1; back < n && back <= column; back++)
    {
      FrLitres l = fr_forecast_litres (p, fr_forecast_column_day (p, column - back));
      Capsule other;
      if (capsule_of (p, &l, &other))
        top = MIN (top, other.top_px);
    }
  /* Over the bars' middle where no capsule reaches, else beside the last of them, else over all capsules. */
  if (!fr_canvas_try_at (c, text, middle, y, 0.5, 1, FR_ROLE_INK, 0.9)
      && !fr_canvas_try_at (c, text, x + side, y, 0, 0.5, FR_ROLE_INK, 0.9)
      && !fr_canvas_try_at (c, text, x - side, y, 1, 0.5, FR_ROLE_INK, 0.9))
    fr_canvas_try_at (c, text, middle, top - 2, 0.5, 1, FR_ROLE_INK, 0.9);
}

/* Whether a gathering on this day or a later one holds the column's sap. */
static gboolean
is_gathered (const FrForecastPaint *p, guint column)
{
  for (guint i = column; i < p->chart->n_days; i++)
    {
      guint n;
      if (!isnan (fr_forecast_gathered_l (p, fr_forecast_column_day (p, i), &n)) && i - column < n)
        return TRUE;
    }
  return FALSE;
}

void
fr_forecast_draw_litres (FrForecastPaint *p)
{
  FrCanvas *c = &p->canvas;
  const FrForecastChartLayout *l = &p->layout;
  double foot = l->lanes[FR_FORECAST_LANE_LITRES].y_px + l->lanes[FR_FORECAST_LANE_LITRES].height_px,
         most = 0;
  gboolean any = FALSE;

  if (l->lanes[FR_FORECAST_LANE_LITRES].height_px <= 0)
    return;
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_AXIS, 1);
  fr_canvas_rule (c, l->plot_x_px, foot, l->plot_x_px + l->plot_width_px, foot, 1);
  gboolean is_beside = has_room_beside (p);
  /* Marks first, so that all numbers keep clear of all of them. */
  for (guint pass = 0; pass < 5; pass++)
    for (guint i = 0; i < p->chart->n_days; i++)
      {
        const FrForecastDay *day = fr_forecast_column_day (p, i);
        FrLitres litres = fr_forecast_litres (p, day);
        Capsule capsule;
        guint n;
        gboolean has_capsule = capsule_of (p, &litres, &capsule);
        double gathered = fr_forecast_gathered_l (p, day, &n);
        if (pass == 0 && has_capsule)
          {
            draw_capsule (p, i, day, &capsule);
            any = TRUE;
            most = MAX (most, MAX (litres.hi_l, litres.lo_l));
          }
        else if (pass == 1)
          draw_gathered (p, i, day);
        else if (pass == 2 && has_capsule)
          draw_middle (p, i, &capsule);
        else if (pass == 3 && !isnan (gathered))
          {
            number_gathered (p, i, day, has_capsule ? &capsule : NULL);
            most = MAX (most, gathered);
          }
        else if (pass != 4 || is_gathered (p, i))
          continue;
        else if (has_capsule)
          number_capsule (p, i, &litres, &capsule, is_beside);
        else
          {
            put_dash (p, column_x (p, i), foot - 3, 1);
          }
      }
  if (any && most <= 0)
    {
      g_autoptr (PangoLayout) text
          = fr_canvas_text (c, p->chart->texts->no_run, NULL, NULL, FR_TEXT_SMALL_PX);
      fr_canvas_try_at (c, text, l->plot_x_px + l->plot_width_px / 2,
                        foot - l->lanes[FR_FORECAST_LANE_LITRES].height_px / 2, 0.5, 0.5, FR_ROLE_INK_SOFT,
                        0.9);
    }
}
