/* The reliability diagram: nothing outside the area, no word over another, dots where their shares are and as
 * large as their number, the pointer finds them, and odd numbers. */
#include <math.h>

#include "paint/forecast-reliability.h"
#include "stage.h"

static const FrReliabilityBin bins[]
    = { { 0.04, 0.02, 0, 0.07, 40 }, { 0.17, 0.2, 0.1, 0.33, 10 }, { 0.35, 0.3, 0.15, 0.5, 9 },
        { 0.52, 0.62, 0.4, 0.8, 8 }, { 0.71, 0.66, 0.5, 0.8, 12 }, { 0.9, 0.8, 0.7, 0.97, 27 } };

static const FrPalette light = { FR_THEME_LIGHT, FALSE };

static FrForecastReliability
usual (void)
{
  return (FrForecastReliability){ .bins = bins,
                                  .n_bins = G_N_ELEMENTS (bins),
                                  .said = "said the evening before",
                                  .happened = "came so",
                                  .caption = "27 of 34 fell inside the eight-in-ten bar, where 27 should.",
                                  .empty
                                  = "Each evening that was told and then gathered becomes part of a dot.",
                                  .chosen = -1 };
}

static FrReliabilityFrame
draw (const FrForecastReliability *r, FrPalette palette, int width, int height, double scale, GArray *labels,
      const char *picture, cairo_surface_t **image_out)
{
  PangoContext *context = stage_context ();
  cairo_surface_t *recording = stage_recording ();
  cairo_t *cr = cairo_create (recording);
  g_autofree char *what = g_strdup_printf ("reliability %d × %d, text %g", width, height, scale);
  g_autofree char *file
      = g_strdup_printf ("%s-%dx%d-%g-%d.png", picture, width, height, scale, palette.theme);
  g_autoptr (GArray) own = fr_label_list_new ();
  FrReliabilityFrame frame = fr_forecast_reliability_draw (cr, context, &palette, r, width, height, scale,
                                                           labels != NULL ? labels : own);

  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  stage_check_ink (recording, width, height, what);
  stage_check_labels (labels != NULL ? labels : own, width, height, what);
  if (picture != NULL || image_out != NULL)
    {
      cairo_surface_t *image = stage_develop (recording, &palette, FR_ROLE_CARD, width, height);
      if (picture != NULL)
        stage_keep (image, file);
      if (image_out != NULL)
        *image_out = cairo_surface_reference (image);
      cairo_surface_destroy (image);
    }
  cairo_surface_destroy (recording);
  g_object_unref (context);
  return frame;
}

static void
test_everywhere (void)
{
  static const int sizes[][2] = { { 200, 220 }, { 340, 300 }, { 430, 260 }, { 700, 700 } };
  static const double scales[] = { 1, 1.25, 1.5, 2 };
  FrForecastReliability r = usual ();

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
      for (guint theme = 0; theme < FR_N_THEMES; theme++)
        {
          r.chosen = theme == 1 ? 3 : -1;
          draw (&r, (FrPalette){ (FrTheme)theme, s == 3 }, sizes[i][0], sizes[i][1], scales[s], NULL,
                "reliability", NULL);
        }
}

static void
test_words (void)
{
  static const char *const words[] = {
    "0",       "25", "50", "75", "100\u00a0%", "said the evening before",
    "came so", "40", "27", "12", "8",          "27 of 34 fell inside the eight-in-ten bar, where 27 should."
  };
  FrForecastReliability r = usual ();
  g_autoptr (GArray) labels = fr_label_list_new ();

  draw (&r, light, 400, 320, 1, labels, NULL, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (!stage_has_label (labels, words[i]))
      g_test_fail_printf ("“%s” is missing", words[i]);
  r.n_bins = 0;
  g_array_set_size (labels, 0);
  draw (&r, light, 400, 320, 1, labels, NULL, NULL);
  g_assert_true (stage_has_label (labels, r.empty));
}

/* Where a share lies in the square, and that a dot of its size is there; the area goes with the number. */
static void
test_dots (void)
{
  FrForecastReliability r = usual ();
  cairo_surface_t *image;
  FrReliabilityFrame f = draw (&r, light, 700, 700, 1, NULL, NULL, &image);
  FrRgba accent = fr_palette_color (&light, FR_ROLE_ACCENT);
  guint32 rgb = (guint32)lround (255 * (double)accent.red) << 16
                | (guint32)lround (255 * (double)accent.green) << 8
                | (guint32)lround (255 * (double)accent.blue);

  g_assert_cmpfloat (f.side_px, >, 500);
  for (guint i = 0; i < G_N_ELEMENTS (bins); i++)
    {
      double x = f.x_px + bins[i].said_ratio * f.side_px,
             y = f.y_px + (1 - bins[i].happened_ratio) * f.side_px;
      double radius = fr_forecast_reliability_dot_px (&r, i, f.side_px);
      g_assert_cmphex (stage_pixel (image, (int)x, (int)y), ==, rgb);
      g_assert_cmphex (stage_pixel (image, (int)(x - radius + 2), (int)y), ==, rgb);
      g_assert_cmphex (stage_pixel (image, (int)(x - radius - 4), (int)y), !=, rgb);
      g_assert_cmpint (fr_forecast_reliability_at (&f, &r, x + 5, y - 5), ==, i);
      /* The stem: the ends of the 8 in 10. */
      if (bins[i].lo_ratio > 0)
        for (guint end = 0; end < 2; end++)
          {
            double ratio = end == 0 ? bins[i].lo_ratio : bins[i].hi_ratio;
            int at = (int)(f.y_px + (1 - ratio) * f.side_px) + (end == 0 ? -3 : 3);
            g_assert_cmpfloat (stage_grey (image, (int)x, at), <, 170);
          }
    }
  /* Forty evenings against ten: four times the area. */
  double large = fr_forecast_reliability_dot_px (&r, 0, 500),
         small = fr_forecast_reliability_dot_px (&r, 1, 500);
  g_assert_cmpfloat_with_epsilon (large * large / (small * small), 4, 1e-9);
  g_assert_cmpint (fr_forecast_reliability_at (&f, &r, f.x_px, f.y_px), ==, -1);
  g_assert_cmpint (fr_forecast_reliability_at (&f, &r, NAN, NAN), ==, -1);
  cairo_surface_destroy (image);
}

/* What cannot be placed is not: no evenings, not a share. */
static void
test_odd (void)
{
  const FrReliabilityBin bad[] = { { 0.5, 0.5, NAN, NAN, 0 },
                                   { NAN, 0.5, 0, 1, 3 },
                                   { 0.2, 1.5, 0, 1, 3 },
                                   { -1e300, 0.5, 0, 1, 3 },
                                   { INFINITY, NAN, -INFINITY, 1e9, 9 } };
  const FrReliabilityBin mixed[]
      = { { 0.5, 0.5, -7, 1e300, G_MAXUINT }, { 0, 0, NAN, NAN, 1 }, { 1, 1, 0, 1, 1 } };
  FrForecastReliability r = usual ();
  g_autoptr (GArray) labels = fr_label_list_new ();
  cairo_surface_t *images[2];

  r.bins = bad;
  r.n_bins = G_N_ELEMENTS (bad);
  draw (&r, light, 340, 300, 1, labels, NULL, &images[0]);
  g_assert_true (stage_has_label (labels, r.empty));
  r.n_bins = 0;
  draw (&r, light, 340, 300, 1, NULL, NULL, &images[1]);
  g_assert_cmpuint (stage_differences (images[0], images[1], 0), ==, 0);
  for (guint i = 0; i < 2; i++)
    cairo_surface_destroy (images[i]);
  r.bins = mixed;
  r.n_bins = G_N_ELEMENTS (mixed);
  for (int size = 20; size < 500; size += 31)
    for (double scale = 0.7; scale < 2.2; scale += 0.5)
      draw (&r, light, size, 520 - size, scale, NULL, NULL, NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecast-reliability/everywhere", test_everywhere);
  g_test_add_func ("/forecast-reliability/words", test_words);
  g_test_add_func ("/forecast-reliability/dots", test_dots);
  g_test_add_func ("/forecast-reliability/odd", test_odd);
  return g_test_run ();
}
