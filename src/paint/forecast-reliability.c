/* A square with the diagonal, four stops each way. The largest dot takes a sixteenth of the side. */
#include "paint/forecast-reliability.h"

#include "paint/axis.h"
#include "paint/canvas.h"

#include <math.h>

#define PAD_PX 10.0
#define LARGEST_RATIO (1.0 / 16)
#define LEAST_DOT_PX 2.0
#define LEAST_SIDE_PX 40.0
#define REACH_PX 14.0
#define N_STOPS 4

static gboolean
is_ratio (double value)
{
  return value >= 0 && value <= 1;
}

static gboolean
is_drawn (const FrReliabilityBin *bin)
{
  return bin->n > 0 && is_ratio (bin->said_ratio) && is_ratio (bin->happened_ratio);
}

static double
place_x (const FrReliabilityFrame *frame, double ratio)
{
  return frame->x_px + ratio * frame->side_px;
}

static double
place_y (const FrReliabilityFrame *frame, double ratio)
{
  return frame->y_px + (1 - ratio) * frame->side_px;
}

double
fr_forecast_reliability_dot_px (const FrForecastReliability *reliability, guint bin, double side_px)
{
  guint most = 0;

  for (guint i = 0; i < reliability->n_bins; i++)
    if (is_drawn (&reliability->bins[i]))
      most = MAX (most, reliability->bins[i].n);
  if (most == 0)
    return 0;
  return MAX (side_px * LARGEST_RATIO * sqrt ((double)reliability->bins[bin].n / most), LEAST_DOT_PX);
}

gssize
fr_forecast_reliability_at (const FrReliabilityFrame *frame, const FrForecastReliability *reliability,
                            double x_px, double y_px)
{
  double nearest = REACH_PX;
  gssize best = -1;

  for (guint i = 0; i < reliability->n_bins; i++)
    {
      const FrReliabilityBin *bin = &reliability->bins[i];
      double away = is_drawn (bin) ? hypot (place_x (frame, bin->said_ratio) - x_px,
                                            place_y (frame, bin->happened_ratio) - y_px)
                                   : INFINITY;
      if (away <= nearest)
        {
          nearest = away;
          best = (gssize)i;
        }
    }
  return best;
}

static PangoLayout *
wrapped (FrCanvas *c, const char *words, double room_px, double *height_px)
{
  double width;
  PangoLayout *text = fr_canvas_text (c, words, NULL, NULL, FR_TEXT_SMALL_PX);

  *height_px = 0;
  if (text == NULL)
    return NULL;
  pango_layout_set_single_paragraph_mode (text, FALSE);
  pango_layout_set_wrap (text, PANGO_WRAP_WORD);
  pango_layout_set_width (text, (int)(MAX (room_px, 1) * PANGO_SCALE));
  fr_layout_size (text, &width, height_px);
  if (width <= room_px)
    return text;
  *height_px = 0;
  g_object_unref (text);
  return NULL;
}

static double
put_stops (FrCanvas *c, const FrForecastReliability *r, const FrReliabilityFrame *frame, gboolean is_measured)
{
  double widest = 0, s = c->scale_ratio;

  for (guint k = 0; k <= N_STOPS; k++)
    {
      double ratio = (double)k / N_STOPS, width, height;
      g_autofree char *number = NULL;
      const char *unit;
      fr_quantity_format (ratio, FR_QUANTITY_RATIO, r->units, 0, &number, &unit);
      /* The unit once, at the far end. */
      g_autofree char *words
          = k == N_STOPS ? g_strdup_printf ("%s\u00a0%s", number, unit) : g_strdup (number);
      g_autoptr (PangoLayout) text = fr_canvas_text (c, words, NULL, NULL, FR_TEXT_SMALL_PX);
      fr_layout_size (text, &width, &height);
      widest = MAX (widest, width);
      if (is_measured)
        continue;
      fr_canvas_try_at (c, text, place_x (frame, 0) - 7 * s, place_y (frame, ratio), 1, 0.5, FR_ROLE_INK_SOFT,
                        0);
      fr_canvas_try_at (c, text, place_x (frame, ratio), place_y (frame, 0) + 4 * s, 0.5, 0, FR_ROLE_INK_SOFT,
                        0);
    }
  return widest;
}

static void
draw_frame (FrCanvas *c, const FrReliabilityFrame *frame)
{
  for (guint k = 0; k <= N_STOPS; k++)
    {
      double ratio = (double)k / N_STOPS;
      fr_palette_set_source (c->palette, c->cr, k == 0 ? FR_ROLE_AXIS : FR_ROLE_GRID, 1);
      fr_canvas_rule (c, place_x (frame, 0), place_y (frame, ratio), place_x (frame, 1),
                      place_y (frame, ratio), 1);
      fr_canvas_rule (c, place_x (frame, ratio), place_y (frame, 0), place_x (frame, ratio),
                      place_y (frame, 1), 1);
    }
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_INK_SOFT, 1);
  cairo_set_line_width (c->cr, 1.2);
  fr_canvas_dash (c, 5, 3);
  cairo_move_to (c->cr, place_x (frame, 0), place_y (frame, 0));
  cairo_line_to (c->cr, place_x (frame, 1), place_y (frame, 1));
  cairo_stroke (c->cr);
  fr_canvas_dash (c, 0, 0);
}

static void
draw_bin (FrCanvas *c, const FrForecastReliability *r, const FrReliabilityFrame *frame, guint at)
{
  const FrReliabilityBin *bin = &r->bins[at];
  double x = place_x (frame, bin->said_ratio), y = place_y (frame, bin->happened_ratio);
  double radius = fr_forecast_reliability_dot_px (r, at, frame->side_px);

  if (is_ratio (bin->lo_ratio) && is_ratio (bin->hi_ratio))
    {
      double low = place_y (frame, bin->lo_ratio), high = place_y (frame, bin->hi_ratio);
      fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
      cairo_set_line_width (c->cr, MAX (1.4, fr_palette_band_edge_px (c->palette)));
      cairo_move_to (c->cr, x, low);
      cairo_line_to (c->cr, x, high);
      for (guint end = 0; end < 2; end++)
        {
          cairo_move_to (c->cr, x - 3, end == 0 ? low : high);
          cairo_line_to (c->cr, x + 3, end == 0 ? low : high);
        }
      cairo_stroke (c->cr);
      fr_canvas_take (c, (FrBox){ x - 1.5, MIN (low, high), 3, fabs (low - high) });
    }
  fr_canvas_dot (c, x, y, radius, FR_ROLE_ACCENT);
  fr_canvas_take (c, (FrBox){ x - radius, y - radius, 2 * radius, 2 * radius });
  if (r->chosen != (gssize)at)
    return;
  cairo_new_sub_path (c->cr);
  cairo_arc (c->cr, x, y, radius + 4, 0, 2 * G_PI);
  fr_palette_set_source (c->palette, c->cr, FR_ROLE_ACCENT, 1);
  cairo_set_line_width (c->cr, 2);
  cairo_stroke (c->cr);
}

/* How many evenings, beside the dot where there is room. */
static void
number_bin (FrCanvas *c, const FrForecastReliability *r, const FrReliabilityFrame *frame, guint at)
{
  const FrReliabilityBin *bin = &r->bins[at];
  double x = place_x (frame, bin->said_ratio), y = place_y (frame, bin->happened_ratio);
  double side = fr_forecast_reliability_dot_px (r, at, frame->side_px) + (r->chosen == (gssize)at ? 7 : 3);
  g_autofree char *number = g_strdup_printf ("%u", bin->n);
  g_autoptr (PangoLayout) text = fr_canvas_text (c, number, NULL, NULL, 11.5);

  if (!fr_canvas_try_at (c, text, x + side, y, 0, 0.5, FR_ROLE_INK_SOFT, 0.9))
    fr_canvas_try_at (c, text, x - side, y, 1, 0.5, FR_ROLE_INK_SOFT, 0.9);
}

FrReliabilityFrame
fr_forecast_reliability_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette,
                              const FrForecastReliability *reliability, double width_px, double height_px,
                              double text_scale, GArray *labels)
{
  FrCanvas c;
  FrReliabilityFrame frame = { 0, 0, 0 };
  double s = text_scale, caption_height, empty_height;
  gboolean any = FALSE;

  fr_canvas_init (&c, cr, context, palette, width_px, height_px, text_scale);
  g_autoptr (PangoLayout) caption
      = wrapped (&c, reliability->caption, width_px - 2 * PAD_PX * s, &caption_height);
  g_autoptr (PangoLayout) said = fr_canvas_text (&c, reliability->said, NULL, NULL, FR_TEXT_SMALL_PX);
  g_autoptr (PangoLayout) happened = fr_canvas_text (&c, reliability->happened, NULL, NULL, FR_TEXT_SMALL_PX);
  frame.x_px = PAD_PX * s + put_stops (&c, reliability, &frame, TRUE) + 7 * s;
  frame.y_px = 0.6 * PAD_PX * s + (happened != NULL ? 1.5 : 0.5) * c.line_px;
  double below = 4 * s + (said != NULL ? 2.1 : 1.1) * c.line_px + 0.6 * PAD_PX * s;
  /* The last stop's number reaches beyond the square. */
  double side = MIN (width_px - frame.x_px - 2.2 * PAD_PX * s, height_px - frame.y_px - below);
  if (caption != NULL
      && height_px - frame.y_px - below - caption_height - 4 * s >= MIN (side, 3 * LEAST_SIDE_PX * s))
    side = MIN (side, height_px - frame.y_px - below - caption_height - 4 * s);
  else if (caption != NULL)
    g_clear_object (&caption);
  frame.side_px = MAX (side, 0);

  cairo_save (cr);
  if (frame.side_px >= LEAST_SIDE_PX)
    {
      g_autoptr (PangoLayout) empty = wrapped (&c, reliability->empty, frame.side_px - 8, &empty_height);
      draw_frame (&c, &frame);
      put_stops (&c, reliability, &frame, FALSE);
      fr_canvas_try_at (&c, happened, PAD_PX * s, frame.y_px - 0.6 * c.line_px, 0, 1, FR_ROLE_INK_SOFT, 0);
      if (!fr_canvas_try_at (&c, said, place_x (&frame, 1), place_y (&frame, 0) + 4 * s + c.line_px, 1, 0,
                             FR_ROLE_INK_SOFT, 0))
        fr_canvas_try_at (&c, said, PAD_PX * s, place_y (&frame, 0) + 4 * s + c.line_px, 0, 0,
                          FR_ROLE_INK_SOFT, 0);
      for (guint i = 0; i < reliability->n_bins; i++)
        if (is_drawn (&reliability->bins[i]))
          {
            draw_bin (&c, reliability, &frame, i);
            any = TRUE;
          }
      for (guint i = 0; i < reliability->n_bins; i++)
        if (is_drawn (&reliability->bins[i]))
          number_bin (&c, reliability, &frame, i);
      if (!any && empty != NULL)
        fr_canvas_try_at (&c, empty, place_x (&frame, 0) + 4, place_y (&frame, 0.75), 0, 0.5,
                          FR_ROLE_INK_SOFT, 0.9);
      if (caption != NULL)
        fr_canvas_try_at (&c, caption, PAD_PX * s, height_px - 0.6 * PAD_PX * s, 0, 1, FR_ROLE_INK_SOFT, 0);
    }
  fr_canvas_flush (&c, labels);
  cairo_restore (cr);
  fr_canvas_clear (&c);
  return frame;
}
