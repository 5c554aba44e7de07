/* The prices of a day and the pan from the side on recording surfaces: nothing outside the area, no word over
 * another, and inputs that only a wrong entry brings. Geometry only, so it does not depend on a font. */
#include <math.h>
#include <string.h>

#include "paint/skyline.h"
#include "paint/vessel-side.h"

static const double scales[] = { 1.0, 1.25, 1.5, 2.0 };

static PangoContext *
new_context (void)
{
  g_autoptr (PangoFontMap) map = pango_cairo_font_map_new ();
  PangoContext *context;
  PangoFontDescription *interface = pango_font_description_from_string ("Cantarell, Adwaita Sans, Sans 11");

  pango_cairo_font_map_set_resolution (PANGO_CAIRO_FONT_MAP (map), 96);
  context = pango_font_map_create_context (map);
  pango_context_set_font_description (context, interface);
  pango_font_description_free (interface);
  return context;
}

static gboolean
overlap (const FrLabelBox *a, const FrLabelBox *b)
{
  return a->x_px + 0.5 < b->x_px + b->width_px && b->x_px + 0.5 < a->x_px + a->width_px
         && a->y_px + 0.5 < b->y_px + b->height_px && b->y_px + 0.5 < a->y_px + a->height_px;
}

/* Ink and words inside the area, with a whole pixel of slack for rounding, and no word over another. */
static void
check (cairo_surface_t *recording, const GArray *labels, double width_px, double height_px, double scale)
{
  double x, y, w, h;

  cairo_recording_surface_ink_extents (recording, &x, &y, &w, &h);
  if (w > 0 && (x < -1 || y < -1 || x + w > width_px + 1 || y + h > height_px + 1))
    g_test_fail_printf ("ink outside %.0f×%.0f at text %.2f: %.1f %.1f %.1f %.1f", width_px, height_px, scale,
                        x, y, w, h);
  for (guint i = 0; i < labels->len; i++)
    {
      const FrLabelBox *a = &g_array_index (labels, FrLabelBox, i);

      if (a->x_px < -0.5 || a->y_px < -0.5 || a->x_px + a->width_px > width_px + 0.5
          || a->y_px + a->height_px > height_px + 0.5)
        g_test_fail_printf ("“%s” is cut at %.0f×%.0f, text %.2f: %.1f %.1f %.1f %.1f", a->text, width_px,
                            height_px, scale, a->x_px, a->y_px, a->width_px, a->height_px);
      for (guint j = 0; j < i; j++)
        if (overlap (a, &g_array_index (labels, FrLabelBox, j)))
          g_test_fail_printf ("“%s” lies over “%s” at %.0f×%.0f, text %.2f", a->text,
                              g_array_index (labels, FrLabelBox, j).text, width_px, height_px, scale);
    }
}

typedef void (*Draw) (cairo_t *cr, PangoContext *context, const FrPalette *palette, double width_px,
                      double height_px, double scale, gconstpointer data, GArray *labels);

static guint
draw (Draw function, gconstpointer data, double width_px, double height_px, double scale,
      gboolean high_contrast)
{
  FrPalette palette = { FR_THEME_DARK, high_contrast };
  PangoContext *context = new_context ();
  g_autoptr (GArray) labels = fr_label_list_new ();
  cairo_surface_t *recording = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (recording);

  function (cr, context, &palette, width_px, height_px, scale, data, labels);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  check (recording, labels, width_px, height_px, scale);
  cairo_surface_destroy (recording);
  g_object_unref (context);
  return labels->len;
}

/* --- prices --- */

typedef struct
{
  FrSkylineLane lanes[3];
  gsize n_lanes;
} Prices;

static const FrSkylinePrice weekday[] = {
  { 0, 420, 9.8, FR_SKYLINE_LOW, "9.8" },      { 420, 660, 20.3, FR_SKYLINE_HIGH, "20.3" },
  { 660, 1020, 15.7, FR_SKYLINE_MID, "15.7" }, { 1020, 1140, 20.3, FR_SKYLINE_HIGH, "20.3" },
  { 1140, 1440, 9.8, FR_SKYLINE_LOW, "9.8" },
};
static const FrSkylinePrice weekend[] = { { 0, 1440, 9.8, FR_SKYLINE_LOW, "9.8" } };

static void
draw_prices (cairo_t *cr, PangoContext *context, const FrPalette *palette, double width_px, double height_px,
             double scale, gconstpointer data, GArray *labels)
{
  static const char *const hours[5] = { "00:00", "06:00", "12:00", "18:00", "24:00" };
  const Prices *prices = data;

  fr_skyline_draw (cr, context, palette, prices->lanes, prices->n_lanes, hours, width_px, height_px, scale,
                   labels);
}

static void
draw_prices_everywhere (const Prices *prices)
{
  static const double widths_px[] = { 40, 260, 420, 700, 1200 };

  for (guint w = 0; w < G_N_ELEMENTS (widths_px); w++)
    for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
      draw (draw_prices, prices, widths_px[w], fr_skyline_height_px (prices->n_lanes, scales[s]), scales[s],
            s & 1);
}

static void
test_prices (void)
{
  const Prices prices
      = { { { "Weekdays", weekday, G_N_ELEMENTS (weekday) }, { "Weekends", weekend, 1 } }, 2 };

  draw_prices_everywhere (&prices);
  /* With room, every price, lane and hour has its words. */
  g_assert_cmpuint (draw (draw_prices, &prices, 1200, fr_skyline_height_px (2, 1), 1, FALSE), ==,
                    5 + 1 + 2 + 5);
}

static void
test_odd_prices (void)
{
  const FrSkylinePrice odd[] = { { 0, 1, 1e12, FR_SKYLINE_HIGH, "1000000000000" },
                                 { 1, 700, 0, FR_SKYLINE_LOW, "0" },
                                 { 700, 1000, -4, FR_SKYLINE_LOW, "-4" },
                                 { 1000, 1440, 1e-9, FR_SKYLINE_MID, "0.000000001" } };
  const Prices none = { { { "Weekdays", NULL, 0 } }, 1 }, no_lane = { { { NULL } }, 0 },
               strange = { { { "Weekdays", odd, G_N_ELEMENTS (odd) }, { "Weekends", odd + 1, 2 } }, 2 };

  draw_prices_everywhere (&none);
  draw_prices_everywhere (&no_lane);
  draw_prices_everywhere (&strange);
}

/* --- the pan --- */

typedef struct
{
  FrVessel vessel;
  FrVesselLevel levels[4];
  gsize n_levels;
} Pan;

static void
draw_pan (cairo_t *cr, PangoContext *context, const FrPalette *palette, double width_px, double height_px,
          double scale, gconstpointer data, GArray *labels)
{
  const Pan *pan = data;

  fr_vessel_side_draw (cr, context, palette, &pan->vessel, pan->levels, pan->n_levels, "Rim", "11 L, 18 cm",
                       width_px, height_px, scale, labels);
}

static void
draw_pan_everywhere (const Pan *pan)
{
  static const double sizes_px[][2] = { { 20, 20 }, { 260, 120 }, { 420, 160 }, { 600, 220 }, { 900, 320 } };

  for (guint i = 0; i < G_N_ELEMENTS (sizes_px); i++)
    for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
      draw (draw_pan, pan, sizes_px[i][0], sizes_px[i][1], scales[s], s & 1);
}

static void
test_pans (void)
{
  Pan pan = { .vessel = { .shape = FR_SHAPE_CYLINDER, .a_m = 0.14, .height_m = 0.18 },
              .levels = { { 0.013, "Power off at", "0.8 L, 1.3 cm", FALSE },
                          { 0.041, "Held at", "2.5 L, 4.1 cm", TRUE },
                          { 0.12, "Foam", "7.4 L, 12 cm", FALSE } },
              .n_levels = 3 };

  draw_pan_everywhere (&pan);
  g_assert_cmpuint (draw (draw_pan, &pan, 900, 320, 1, FALSE), ==, 2 * 4); /* three levels and the rim */
  pan.vessel = (FrVessel){ .shape = FR_SHAPE_BOX, .a_m = 0.6, .b_m = 0.4, .c_m = 0.02, .height_m = 0.13 };
  draw_pan_everywhere (&pan);
  pan.vessel = (FrVessel){ .shape = FR_SHAPE_CAP, .a_m = 0.18, .b_m = 0, .height_m = 0.13 };
  draw_pan_everywhere (&pan);
  pan.vessel = (FrVessel){ .shape = FR_SHAPE_CONE, .a_m = 0.05, .b_m = 0.3, .height_m = 0.13 };
  draw_pan_everywhere (&pan);
}

static void
test_odd_pans (void)
{
  Pan pan = { .vessel = { .shape = FR_SHAPE_CYLINDER, .a_m = 0.05, .height_m = 2 },
              .levels = { { NAN, "Unknown", "–", FALSE },
                          { -1, "Under it", "–", FALSE },
                          { 0, "Empty", "0 L", TRUE },
                          { 9, "Over it", "99 L", FALSE } },
              .n_levels = 4 };

  draw_pan_everywhere (&pan); /* a pipe */
  pan.vessel = (FrVessel){ .shape = FR_SHAPE_CYLINDER, .a_m = 5, .height_m = 0.01 };
  draw_pan_everywhere (&pan);                                    /* a puddle */
  pan.levels[0] = pan.levels[1] = pan.levels[3] = pan.levels[2]; /* all at one level */
  draw_pan_everywhere (&pan);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/side/prices", test_prices);
  g_test_add_func ("/side/odd-prices", test_odd_prices);
  g_test_add_func ("/side/pans", test_pans);
  g_test_add_func ("/side/odd-pans", test_odd_pans);
  return g_test_run ();
}
