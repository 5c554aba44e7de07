/* Columns and the curve: heights in proportion, gaps for what is unknown, words whole and apart at every
 * size, and the pointer finds what it is on. Pictures go to FROSTRUN_PICTURES. */
#include <math.h>
#include <string.h>

#include "paint/bars.h"
#include "paint/curve.h"
#include "stage.h"

static const FrBar seasons[] = {
  { 21, "21", "2.1", "’19", FALSE, FALSE }, { 29, "29", "2.0", "’20", FALSE, FALSE },
  { 25, "25", "2.2", "’21", FALSE, FALSE }, { 34, "34", "2.3", "’22", FALSE, FALSE },
  { NAN, "", NULL, "’23", FALSE, FALSE },   { 27, "27", "2.2", "’24", FALSE, FALSE },
  { 36, "36", "2.1", "’25", FALSE, TRUE },  { 33, "33", "2.0", "’26", FALSE, FALSE },
  { 13, "13", "2.4", "’27", TRUE, FALSE },
};

typedef void (*Draw) (cairo_t *cr, PangoContext *context, const FrPalette *palette, double width,
                      double height, double scale, gconstpointer data, GArray *labels);

static cairo_surface_t *
draw (Draw function, gconstpointer data, const FrPalette *palette, int width, int height, double scale,
      GArray *labels)
{
  PangoContext *context = stage_context ();
  cairo_surface_t *image = stage_image (width, height);
  cairo_t *cr = cairo_create (image);

  fr_palette_set_source (palette, cr, FR_ROLE_CARD, 1);
  cairo_paint (cr);
  function (cr, context, palette, width, height, scale, data, labels);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  g_object_unref (context);
  return image;
}

static void
draw_everywhere (Draw function, gconstpointer data, const char *name)
{
  static const int sizes[][2] = { { 40, 40 }, { 120, 90 }, { 300, 220 }, { 700, 320 } };
  static const double scales[] = { 1, 1.25, 1.5, 2 };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
      {
        FrPalette palette = { (FrTheme)(s % 3), s == 3 };
        g_autoptr (GArray) labels = fr_label_list_new ();
        g_autofree char *what
            = g_strdup_printf ("%s %d × %d, text %g", name, sizes[i][0], sizes[i][1], scales[s]);
        cairo_surface_t *image = draw (function, data, &palette, sizes[i][0], sizes[i][1], scales[s], labels);
        stage_check_labels (labels, sizes[i][0], sizes[i][1], what);
        g_autofree char *file = g_strdup_printf ("%s-%d-%g.png", name, sizes[i][0], scales[s]);
        if (i >= 2)
          stage_keep (image, file);
        cairo_surface_destroy (image);
      }
}

static void
draw_bars (cairo_t *cr, PangoContext *context, const FrPalette *palette, double width, double height,
           double scale, gconstpointer data, GArray *labels)
{
  fr_bars_draw (cr, context, palette, data, width, height, scale, labels);
}

static void
test_bars (void)
{
  FrBarsView view = { seasons, G_N_ELEMENTS (seasons), FR_ROLE_TREE_HARD, "No season yet." };
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  g_autoptr (GArray) labels = fr_label_list_new ();
  cairo_surface_t *image = draw (draw_bars, &view, &palette, 360, 220, 1, labels);

  for (guint i = 0; i < G_N_ELEMENTS (seasons); i++)
    {
      g_assert_true (stage_has_label (labels, seasons[i].label));
      g_assert_true (seasons[i].value_text[0] == '\0' || stage_has_label (labels, seasons[i].value_text));
    }
  g_assert_true (stage_has_label (labels, "–"));
  g_assert_true (stage_has_label (labels, "2.3"));
  g_assert_false (stage_has_label (labels, "No season yet."));

  /* Heights by counting the fill down the middle of the first, second and fourth column. */
  int heights[9] = { 0 };
  for (int x = 0; x < 360; x++)
    {
      gssize at = fr_bars_at (&view, 360, x);
      int n = 0;
      for (int y = 0; y < 220; y++)
        {
          guint32 rgb = stage_pixel (image, x, y);
          n += (int)(rgb >> 16 & 0xff) - (int)(rgb & 0xff) > 80;
        }
      if (at >= 0)
        heights[at] = MAX (heights[at], n);
    }
  g_assert_cmpfloat_with_epsilon ((double)heights[0] / heights[3], 21.0 / 34, 0.02);
  g_assert_cmpfloat_with_epsilon ((double)heights[1] / heights[3], 29.0 / 34, 0.02);
  g_assert_cmpint (heights[4], ==, 0);
  cairo_surface_destroy (image);
  g_assert_cmpint (fr_bars_at (&view, 360, -5), ==, -1);
  g_assert_cmpint (fr_bars_at (&view, 360, 3), ==, 0);
  g_assert_cmpint (fr_bars_at (&view, 360, 357), ==, 8);
  draw_everywhere (draw_bars, &view, "bars");
}

static void
test_bars_odd (void)
{
  FrBar odd[3] = { { INFINITY, "∞", NULL, "a", FALSE, FALSE },
                   { -5, "−5", NULL, NULL, TRUE, TRUE },
                   { NAN, NULL, NULL, "a season with a long name", FALSE, FALSE } };
  FrBarsView view = { odd, 3, FR_ROLE_SAP, NULL }, none = { NULL, 0, FR_ROLE_SAP, "No season yet." };
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  g_autoptr (GArray) labels = fr_label_list_new ();

  draw_everywhere (draw_bars, &view, "bars-odd");
  cairo_surface_destroy (draw (draw_bars, &none, &palette, 200, 100, 1, labels));
  g_assert_true (stage_has_label (labels, "No season yet."));
  g_assert_cmpint (fr_bars_at (&none, 200, 50), ==, -1);
}

/* A season is open, chosen or neither: told apart in grey. */
static void
test_bars_grey (void)
{
  for (guint theme = 0; theme < FR_N_THEMES; theme++)
    {
      FrPalette palette = { (FrTheme)theme, FALSE };
      cairo_surface_t *images[3];
      for (guint i = 0; i < 3; i++)
        {
          FrBar bar = { 5, NULL, NULL, NULL, i == 1, i == 2 };
          FrBarsView view = { &bar, 1, FR_ROLE_TREE_HARD, NULL };
          images[i] = draw (draw_bars, &view, &palette, 60, 80, 1, NULL);
        }
      g_assert_cmpuint (stage_differences (images[0], images[1], 50), >, 100);
      g_assert_cmpuint (stage_differences (images[0], images[2], 50), >, 60);
      for (guint i = 0; i < 3; i++)
        cairo_surface_destroy (images[i]);
    }
}

typedef struct
{
  FrCurvePoint points[31];
  FrCurvePoint beyond[31];
  double low[31];
  double high[31];
  FrCurveView view;
} Sugar;

static void
fill_sugar (Sugar *sugar)
{
  for (guint i = 0; i <= 30; i++)
    {
      sugar->beyond[i] = (FrCurvePoint){ i, 24 * (1 - exp (-(double)i / 14)) };
      sugar->points[i] = (FrCurvePoint){ i, sugar->beyond[MIN (i, 18)].y };
      sugar->low[i] = 0.85 * sugar->points[i].y;
      sugar->high[i] = 1.15 * sugar->points[i].y;
    }
  sugar->view = (FrCurveView){ .points = sugar->points,
                               .n_points = 31,
                               .low_y = sugar->low,
                               .high_y = sugar->high,
                               .beyond = sugar->beyond,
                               .n_beyond = 31,
                               .line_label = "Sugar",
                               .beyond_label = "if all could be boiled",
                               .chosen = 14,
                               .chosen_label = "14 buckets, 15.2 kg",
                               .limit_x = 18,
                               .limit_label = "the kitchen’s limit",
                               .x_name = "buckets",
                               .y_unit = "kg",
                               .role = FR_ROLE_SYRUP };
}

static void
draw_curve (cairo_t *cr, PangoContext *context, const FrPalette *palette, double width, double height,
            double scale, gconstpointer data, GArray *labels)
{
  const FrCurveView *view = data;
  FrCurveFrame f = fr_curve_draw (cr, context, palette, data, width, height, scale, labels);

  for (gsize i = 0; i < view->n_points; i++)
    {
      double x = fr_curve_x_px (&f, view->points[i].x);
      if (!isfinite (view->points[i].y) || !isfinite (x))
        continue;
      g_assert_cmpint (fr_curve_at (&f, view, x), ==, (gssize)i);
      g_assert_cmpfloat (x, >=, f.plot_x_px - 0.001);
      g_assert_cmpfloat (x, <=, f.plot_x_px + f.plot_width_px + 0.001);
      g_assert_cmpfloat (fr_curve_y_px (&f, view->points[i].y), >=, f.plot_y_px - 0.001);
    }
  g_assert_cmpint (fr_curve_at (&f, view, f.plot_x_px - 13), ==, -1);
}

static void
test_curve (void)
{
  Sugar sugar;
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  g_autoptr (GArray) labels = fr_label_list_new ();

  fill_sugar (&sugar);
  cairo_surface_t *image = draw (draw_curve, &sugar.view, &palette, 360, 240, 1, labels);
  /* The axis ends at the first round number over the highest value, 20.5 kg. */
  static const char *const words[] = {
    "Sugar", "if all could be boiled", "14 buckets, 15.2 kg", "the kitchen’s limit", "buckets", "kg", "0",
    "20"
  };
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (!stage_has_label (labels, words[i]))
      g_test_fail_printf ("“%s” is missing", words[i]);
  g_assert_cmpuint (stage_count (image, fr_palette_color (&palette, FR_ROLE_WARNING), 10), >, 60);
  cairo_surface_destroy (image);
  draw_everywhere (draw_curve, &sugar.view, "curve");
  sugar.view.is_step = TRUE;
  draw_everywhere (draw_curve, &sugar.view, "curve-steps");
}

static void
test_curve_odd (void)
{
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  FrCurveView none
      = { .chosen = -1, .limit_x = NAN, .empty_sentence = "No plan yet.", .role = FR_ROLE_SYRUP };
  FrCurvePoint odd[4] = { { 0, NAN }, { 1, 0 }, { 1, 0 }, { NAN, 3 } };
  FrCurveView still = {
    .points = odd, .n_points = 2, .chosen = 99, .limit_x = -4, .limit_label = "limit", .role = FR_ROLE_SYRUP
  };
  g_autoptr (GArray) labels = fr_label_list_new ();

  cairo_surface_destroy (draw (draw_curve, &none, &palette, 240, 160, 1, labels));
  g_assert_true (stage_has_label (labels, "No plan yet."));
  draw_everywhere (draw_curve, &none, "curve-none");
  draw_everywhere (draw_curve, &still, "curve-still");
  still.chosen = 0;
  still.n_points = 4;
  cairo_surface_destroy (
      draw (draw_curve, &(FrCurveView){ .chosen = 0, .limit_x = 1e300 }, &palette, 240, 160, 1, NULL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bars/seasons", test_bars);
  g_test_add_func ("/bars/odd", test_bars_odd);
  g_test_add_func ("/bars/grey", test_bars_grey);
  g_test_add_func ("/curve/sugar", test_curve);
  g_test_add_func ("/curve/odd", test_curve_odd);
  return g_test_run ();
}
