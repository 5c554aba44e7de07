/* Prices over a day as skylines. The tallest step of all lanes fills a lane's height, so that lanes compare.
 * Steps are told apart by height, number and hatch; colour only repeats it. */
#include "paint/skyline.h"

#include <math.h>

#define LANE_PX 44.0
#define STEP_PX 36.0
#define HOURS_PX 22.0
#define EDGE_PX 14.0
#define NAME_PX 86.0

double
fr_skyline_height_px (gsize n_lanes, double text_scale)
{
  return 2 * EDGE_PX + (double)n_lanes * LANE_PX * text_scale + HOURS_PX * text_scale;
}

static PangoLayout *
text_layout (PangoContext *context, gboolean bold, const char *text, double text_scale, int *width,
             int *height)
{
  PangoLayout *layout = pango_layout_new (context);
  PangoFontDescription *font = pango_font_description_copy (pango_context_get_font_description (context));

  pango_font_description_set_absolute_size (font, 12 * text_scale * PANGO_SCALE);
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_text (layout, text, -1);
  pango_layout_get_pixel_size (layout, width, height);
  pango_font_description_free (font);
  return layout;
}

static void
show (cairo_t *cr, PangoLayout *layout, double x, double y, GArray *labels)
{
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, layout);
  if (labels != NULL)
    {
      int width, height;
      FrLabelBox box;

      pango_layout_get_pixel_size (layout, &width, &height);
      box = (FrLabelBox){ x, y, width, height, g_strdup (pango_layout_get_text (layout)) };
      g_array_append_val (labels, box);
    }
}

static void
hatch (cairo_t *cr, const FrPalette *palette, FrSkylineStep step, double x, double y, double width,
       double height)
{
  double gap = step == FR_SKYLINE_HIGH ? 4.0 : 7.0;

  cairo_save (cr);
  cairo_rectangle (cr, x, y, width, height);
  cairo_clip (cr);
  fr_palette_set_source (palette, cr, FR_ROLE_CARD, step == FR_SKYLINE_HIGH ? 0.22 : 0.4);
  cairo_set_line_width (cr, fr_palette_hatch_px (palette));
  for (double at = -height; at < width + height; at += gap)
    {
      /* the two steps lean against each other, so that grey tells them apart */
      cairo_move_to (cr, x + at, step == FR_SKYLINE_HIGH ? y + height : y);
      cairo_line_to (cr, x + at + height, step == FR_SKYLINE_HIGH ? y : y + height);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_step (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrSkylinePrice *price,
           double x, double width, double ground, double tallest, double text_scale, GArray *labels)
{
  static const FrRole fills[] = { FR_ROLE_PRICE_LOW, FR_ROLE_PRICE_MID, FR_ROLE_PRICE_HIGH };
  double height = tallest > 0 ? fmax (price->price_per_kwh, 0) / tallest * STEP_PX * text_scale : 0;
  int text_width, text_height;
  PangoLayout *layout = text_layout (context, TRUE, price->label, text_scale, &text_width, &text_height);
  gboolean inside;

  height = fmax (height, 1.5);
  inside = height >= text_height;
  cairo_rectangle (cr, x, ground - height, width, height);
  fr_palette_set_source (palette, cr, fills[price->step], 1.0);
  cairo_fill (cr);
  if (price->step != FR_SKYLINE_LOW)
    hatch (cr, palette, price->step, x, ground - height, width, height);
  if (text_width + 4 <= width)
    {
      double text_x = x + (width - text_width) / 2;
      double text_y
          = inside ? ground - height + fmin (2, (height - text_height) / 2) : ground - height - text_height;

      fr_palette_set_source (
          palette, cr, inside && price->step == FR_SKYLINE_HIGH ? FR_ROLE_ON_PRICE_HIGH : FR_ROLE_INK, 1.0);
      show (cr, layout, text_x, text_y, labels);
    }
  g_object_unref (layout);
}

void
fr_skyline_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrSkylineLane *lanes,
                 gsize n_lanes, const char *const hours[5], double width_px, double height_px,
                 double text_scale, GArray *labels)
{
  double left = EDGE_PX + NAME_PX * text_scale;
  double plot = width_px - left - EDGE_PX - 14;
  double tallest = 0;
  double ground = EDGE_PX, last_end = 0;
  int width, height;

  if (plot < 60)
    return;
  for (gsize i = 0; i < n_lanes; i++)
    for (gsize j = 0; j < lanes[i].n_prices; j++)
      tallest = fmax (tallest, lanes[i].prices[j].price_per_kwh);

  for (gsize i = 0; i < n_lanes; i++)
    {
      PangoLayout *name = text_layout (context, FALSE, lanes[i].name, text_scale, &width, &height);

      ground += LANE_PX * text_scale;
      fr_palette_set_source (palette, cr, FR_ROLE_INK_SOFT, 1.0);
      show (cr, name, EDGE_PX, ground - height - 2, labels);
      g_object_unref (name);
      for (gsize j = 0; j < lanes[i].n_prices; j++)
        {
          const FrSkylinePrice *price = &lanes[i].prices[j];

          draw_step (cr, context, palette, price, left + plot * price->from_min / 1440.0,
                     plot * (price->to_min - price->from_min) / 1440.0, ground, tallest, text_scale, labels);
        }
      fr_palette_set_source (palette, cr, FR_ROLE_AXIS, 1.0);
      cairo_set_line_width (cr, 1.0);
      cairo_move_to (cr, left, ground + 0.5);
      cairo_line_to (cr, left + plot, ground + 0.5);
      cairo_stroke (cr);
    }
  for (int i = 0; i < 5; i++)
    {
      double text_x;
      PangoLayout *hour = text_layout (context, FALSE, hours[i], text_scale, &width, &height);
      double x = left + plot * i / 4.0;

      fr_palette_set_source (palette, cr, FR_ROLE_AXIS, 1.0);
      cairo_move_to (cr, x, ground);
      cairo_line_to (cr, x, ground + 4);
      cairo_stroke (cr);
      fr_palette_set_source (palette, cr, FR_ROLE_INK_SOFT, 1.0);
      /* Whole and apart, or not at all. */
      text_x = fmin (x - width / 2.0, width_px - width);
      if (text_x > last_end)
        {
          show (cr, hour, text_x, ground + 5, labels);
          last_end = text_x + width;
        }
      g_object_unref (hour);
    }
}
