/* Days whose hours are not known: a box where past seasons tell of lows and highs, words where nothing does.
 * One word stands for all such days side by side. */
#include "paint/forecast-private.h"

static gboolean
has_hours (const FrForecastPaint *p, guint column)
{
  for (gint64 k = 24 * (gint64)column; k < 24 * ((gint64)column + 1); k++)
    if (!isnan (fr_forecast_hour_c (p, k)))
      return TRUE;
  return FALSE;
}

static gboolean
has_span (const FrForecastDay *day)
{
  return day != NULL && isfinite (fr_forecast_sane_c (day->low_lo_c))
         && isfinite (fr_forecast_sane_c (day->high_hi_c));
}

/* 8 in 10 of the lows and highs that past seasons had: a hatched box across the freezing line. */
static void
draw_span (FrForecastPaint *p, guint column, const FrForecastDay *day)
{
  FrCanvas *c = &p->canvas;
  double half = 0.22 * p->layout.day_px, x = fr_forecast_x (p, 24 * column + 12.0);
  double top = fr_forecast_air_y (p, MAX (day->high_hi_c, day->low_lo_c)),
         foot = fr_forecast_air_y (p, MIN (day->high_hi_c, day->low_lo_c));
  FrBox box = { x - half, top, 2 * half, MAX (foot - top, 2) };

  for (guint part = 0; part < 2; part++)
    {
      cairo_save (c->cr);
      FrRole role = fr_forecast_clip_half (p, part);
      fr_canvas_rounded (c, box, 4, 0);
      cairo_clip_preserve (c->cr);
      fr_palette_set_source (c->palette, c->cr, role, 1);
      cairo_set_line_width (c->cr, 2);
      cairo_stroke (c->cr);
      fr_palette_set_source (c->palette, c->cr, role, 0.55);
      fr_canvas_hatch (c, box, 5 * c->scale_ratio, part == 0);
      cairo_restore (c->cr);
    }
  fr_canvas_take (c, box);
  fr_forecast_mark (p, FR_FORECAST_MARK_SPAN, column, box);
}

/* Words in the middle of a stretch of columns, over the freezing line if they fit, on more lines if they
 * must. */
static void
put_words (FrForecastPaint *p, const char *words, guint from, guint to)
{
  FrCanvas *c = &p->canvas;
  double left = fr_forecast_x (p, 24.0 * from) + 4, room = fr_forecast_x (p, 24.0 * to) - 4 - left;
  double top = p->layout.lanes[FR_FORECAST_LANE_AIR].y_px, zero = fr_forecast_air_y (p, 0), width, height;
  g_autoptr (PangoLayout) text = fr_canvas_text (c, words, NULL, NULL, FR_FORECAST_SMALL_PX);

  if (text != NULL && room > 0)
    {
      pango_layout_set_single_paragraph_mode (text, FALSE);
      pango_layout_set_alignment (text, PANGO_ALIGN_CENTER);
      pango_layout_set_wrap (text, PANGO_WRAP_WORD);
      pango_layout_set_width (text, (int)(room * PANGO_SCALE));
      fr_layout_size (text, &width, &height);
      /* As narrow as its lines, so that its box is where its words are. */
      pango_layout_set_width (text, (int)(ceil (width) * PANGO_SCALE));
      if (width <= room
          && (fr_canvas_try_at (c, text, left + room / 2, zero - 4, 0.5, 1, FR_ROLE_INK_SOFT, 0.9)
              || fr_canvas_try_at (c, text, left + room / 2, zero + 8, 0.5, 0, FR_ROLE_INK_SOFT, 0.9)
              || fr_canvas_try_at (c, text, left + room / 2, top, 0.5, 0, FR_ROLE_INK_SOFT, 0.9)))
        return;
    }
  g_autoptr (PangoLayout) dash = fr_canvas_text (c, "–", NULL, NULL, FR_FORECAST_SMALL_PX);
  fr_canvas_try_at (c, dash, left + room / 2, zero - 4, 0.5, 1, FR_ROLE_INK_SOFT, 0.9);
}

/* Over past seasons' boxes, in one line that may reach back over the days before. */
static void
put_beyond (FrForecastPaint *p, guint from, guint to)
{
  double x = fr_forecast_x (p, 12.0 * (from + to)), top = p->layout.lanes[FR_FORECAST_LANE_AIR].y_px;
  double right = p->layout.plot_x_px + p->layout.plot_width_px;
  g_autoptr (PangoLayout) text
      = fr_canvas_text (&p->canvas, p->chart->texts->beyond, NULL, NULL, FR_FORECAST_SMALL_PX);

  for (guint row = 0; row < 2; row++)
    {
      double y = row == 0 ? top : top + p->layout.lanes[FR_FORECAST_LANE_AIR].height_px - p->canvas.line_px;
      if (fr_canvas_try_at (&p->canvas, text, x, y, 0.5, 0, FR_ROLE_INK_SOFT, 0.9)
          || fr_canvas_try_at (&p->canvas, text, right, y, 1, 0, FR_ROLE_INK_SOFT, 0.9))
        return;
    }
}

typedef enum
{
  HAS_HOURS,
  HAS_SPAN,
  IS_BEYOND, /* told by past seasons, and not how cold and warm it is */
  HAS_NOTHING
} Told;

void
fr_forecast_put_gaps (FrForecastPaint *p)
{
  guint n = p->chart->n_days;
  g_autofree Told *told = g_new (Told, n + 1);
  gboolean any = FALSE;

  for (guint i = 0; i < n; i++)
    {
      const FrForecastDay *day = fr_forecast_column_day (p, i);
      told[i] = has_hours (p, i)                ? HAS_HOURS
                : has_span (day)                ? HAS_SPAN
                : day != NULL && day->is_beyond ? IS_BEYOND
                                                : HAS_NOTHING;
      any = any || told[i] != HAS_NOTHING;
      if (told[i] == HAS_SPAN)
        draw_span (p, i, day);
    }
  for (guint i = 0, to; i < n; i = to)
    {
      for (to = i + 1; to < n && told[to] == told[i]; to++)
        ;
      if (told[i] == HAS_SPAN)
        put_beyond (p, i, to);
      else if (told[i] == IS_BEYOND)
        put_words (p, p->chart->texts->beyond, i, to);
      else if (told[i] == HAS_NOTHING)
        put_words (p, any ? p->chart->texts->gap : p->chart->texts->empty, i, to);
    }
}
