/* The trunk unrolled: the bark wraps at north, stains have the size asked for, old wood in the asked box is
 * hatched in warning and only there, words lie on nothing, and a place can be read back from where it is
 * drawn. Pictures go to FROSTRUN_PICTURES. */
#include <math.h>
#include <string.h>

#include "paint/trunk-view.h"
#include "stage.h"

static const FrTrunkHole history[] = {
  { 1, 40, 0.84, FR_TRUNK_HOLE_CLOSED, 0.020, 0.30, "’19", FALSE },
  { 2, 95, 1.04, FR_TRUNK_HOLE_CLOSED, 0.025, 0.30, "’20", FALSE },
  { 3, 150, 0.78, FR_TRUNK_HOLE_CLOSED, 0.025, 0.30, "’21", FALSE },
  { 4, 205, 1.00, FR_TRUNK_HOLE_CLOSED, 0.025, 0.30, "’22", FALSE },
  { 5, 262, 0.86, FR_TRUNK_HOLE_CLOSED, 0.025, 0.25, "’23", FALSE },
  { 6, 318, 1.08, FR_TRUNK_HOLE_CLOSED, 0.025, 0.22, "’24", FALSE },
  { 7, 20, 1.18, FR_TRUNK_HOLE_OPEN, 0.025, 0.18, "’25", FALSE },
  { 8, 178, 1.12, FR_TRUNK_HOLE_OPEN, 0.025, 0.14, "’26", FALSE },
  { 9, 117, 0.71, FR_TRUNK_HOLE_SET, 0.020, 0.08, "this year", FALSE },
};
static const FrTrunkTarget proposal[] = { { 307, 0.60, NULL } };

static FrTrunkView
full_view (void)
{
  return (FrTrunkView){ .girth_m = 1.92,
                        .min_height_m = 0.6,
                        .max_height_m = 1.2,
                        .sideways_m = 0.15,
                        .up_down_m = 0.30,
                        .holes = history,
                        .n_holes = G_N_ELEMENTS (history),
                        .targets = proposal,
                        .n_targets = 1,
                        .unit_m = 0.01 };
}

static cairo_surface_t *
draw (const FrPalette *palette, const FrTrunkView *view, int width, int height, double scale,
      FrTrunkFrame *frame, GArray *labels)
{
  PangoContext *context = stage_context ();
  cairo_surface_t *image = stage_image (width, height);
  cairo_t *cr = cairo_create (image);

  fr_palette_set_source (palette, cr, FR_ROLE_CARD, 1);
  cairo_paint (cr);
  FrTrunkFrame drawn = fr_trunk_draw (cr, context, palette, view, width, height, scale, labels);
  FrTrunkFrame asked = fr_trunk_frame (context, view, width, height, scale);
  g_assert_cmpmem (&drawn, sizeof drawn, &asked, sizeof asked);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  if (frame != NULL)
    *frame = drawn;
  cairo_destroy (cr);
  g_object_unref (context);
  return image;
}

static void
test_words (void)
{
  static const int sizes[][2] = { { 180, 140 }, { 300, 260 }, { 420, 300 }, { 900, 600 } };
  static const double scales[] = { 1, 1.25, 1.5, 2 };
  static const char *const themes[] = { "light", "dark", "paper" };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (guint s = 0; s < G_N_ELEMENTS (scales); s++)
      {
        FrPalette palette = { (FrTheme)(s % 3), s == 3 };
        FrTrunkView view = full_view ();
        FrTrunkFrame f;
        g_autoptr (GArray) labels = fr_label_list_new ();
        g_autofree char *what = g_strdup_printf ("%d × %d, text %g", sizes[i][0], sizes[i][1], scales[s]);
        view.is_focused = s == 1;
        cairo_surface_t *image = draw (&palette, &view, sizes[i][0], sizes[i][1], scales[s], &f, labels);
        stage_check_labels (labels, sizes[i][0], sizes[i][1], what);
        for (guint k = 0; k < labels->len; k++)
          {
            const FrLabelBox *box = &g_array_index (labels, FrLabelBox, k);
            for (gsize h = 0; h < view.n_holes; h++)
              {
                double x = fr_trunk_x_from_angle (&f, history[h].angle_deg);
                double y = fr_trunk_y_from_height (&f, history[h].height_m);
                if (x > box->x_px - 2 && x < box->x_px + box->width_px + 2 && y > box->y_px
                    && y < box->y_px + box->height_px)
                  g_test_fail_printf ("%s: “%s” lies on a hole", what, box->text);
              }
          }
        if (i == 1 && s == 0)
          {
            for (gsize h = 0; h < view.n_holes; h++)
              g_assert_true (stage_has_label (labels, history[h].label));
            g_assert_true (stage_has_label (labels, "60"));
            g_assert_true (stage_has_label (labels, "120"));
            g_assert_true (stage_has_label (labels, "W"));
          }
        if (i == 1)
          {
            g_autofree char *name = g_strdup_printf ("trunk-%s-%g.png", themes[s % 3], scales[s]);
            stage_keep (image, name);
          }
        cairo_surface_destroy (image);
      }
}

/* 24 in = 0.6096 m and 60 in = 1.524 m are the limits' own words on an axis in inches. */
static void
test_inches (void)
{
  static const char *const letters[4] = { "n", "o", "s", "w" };
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  FrTrunkView view = { .girth_m = NAN,
                       .min_height_m = 24 * 0.0254,
                       .max_height_m = 60 * 0.0254,
                       .sideways_m = NAN,
                       .up_down_m = NAN,
                       .unit_m = 0.0254,
                       .compass = letters,
                       .empty_sentence = "No holes yet." };
  g_autoptr (GArray) labels = fr_label_list_new ();

  cairo_surface_destroy (draw (&palette, &view, 300, 240, 1, NULL, labels));
  g_assert_true (stage_has_label (labels, "24"));
  g_assert_true (stage_has_label (labels, "60"));
  g_assert_true (stage_has_label (labels, "40"));
  g_assert_true (stage_has_label (labels, "o"));
  g_assert_false (stage_has_label (labels, "E"));
  g_assert_true (stage_has_label (labels, "No holes yet."));
  stage_check_labels (labels, 300, 240, "inches");
}

/* A turn of the trunk only moves the drawing: with everything turned by 180° the right half looks as the left
 * did, pixel by pixel, also what lay over north. Paper has no grain, which would stay. */
static void
test_wrap (void)
{
  FrPalette palette = { FR_THEME_PAPER, FALSE };
  FrTrunkHole holes[3] = { { 1, 2, 0.9, FR_TRUNK_HOLE_CLOSED, 0.1, 0.2, NULL, FALSE },
                           { 2, 356, 0.7, FR_TRUNK_HOLE_SET, 0, 0, NULL, TRUE },
                           { 3, 120, 1.0, FR_TRUNK_HOLE_OPEN, 0.05, 0.2, NULL, FALSE } };
  FrTrunkTarget target = { 350, 0.95, NULL };
  FrTrunkView view = { .girth_m = 1,
                       .min_height_m = 0.6,
                       .max_height_m = 1.2,
                       .sideways_m = 0.1,
                       .up_down_m = 0.2,
                       .holes = holes,
                       .n_holes = 3,
                       .targets = &target,
                       .n_targets = 1,
                       .unit_m = 0.01 };
  FrTrunkFrame f;
  cairo_surface_t *plain = draw (&palette, &view, 400, 300, 1, &f, NULL);
  for (gsize i = 0; i < 3; i++)
    holes[i].angle_deg += 180;
  target.angle_deg -= 540;
  cairo_surface_t *turned = draw (&palette, &view, 400, 300, 1, &f, NULL);
  double half = f.plot_width_px / 2;
  guint wrong = 0, n = 0;
  for (int y = (int)f.plot_y_px + 3; y < f.plot_y_px + f.plot_height_px - 3; y++)
    for (double x = f.plot_x_px + 3; x < f.plot_x_px + half - 3; x++)
      {
        n++;
        wrong += fabs (stage_grey (plain, (int)round (x), y) - stage_grey (turned, (int)round (x + half), y))
                 > 120;
      }
  /* Half pixels of the turn show only along edges. */
  g_assert_cmpuint (n, >, 20000);
  g_assert_cmpuint (wrong, <, n / 100);
  cairo_surface_destroy (plain);
  cairo_surface_destroy (turned);
}

static double
grey_at (cairo_surface_t *image, const FrTrunkFrame *f, double angle_deg, double height_m)
{
  return stage_grey (image, (int)round (fr_trunk_x_from_angle (f, angle_deg)),
                     (int)round (fr_trunk_y_from_height (f, height_m)));
}

/* What reaches over north shows on the other side: a stain, a box, and the marks themselves. */
static void
test_north (void)
{
  FrPalette palette = { FR_THEME_PAPER, FALSE };
  FrTrunkHole hole = { 1, 5, 0.8, FR_TRUNK_HOLE_CLOSED, 0.1, 0.2, NULL, FALSE };
  FrTrunkTarget target = { 355, 1.1, NULL };
  FrTrunkView view = { .girth_m = 1,
                       .min_height_m = 0.5,
                       .max_height_m = 1.3,
                       .sideways_m = 0.1,
                       .up_down_m = 0.05,
                       .holes = &hole,
                       .n_holes = 1,
                       .targets = &target,
                       .n_targets = 1,
                       .unit_m = 0.01 };
  FrTrunkFrame f;
  cairo_surface_t *image = draw (&palette, &view, 400, 300, 1, &f, NULL);

  /* 25° to either side of the hole, then of the target; the wood between them for comparison. */
  g_assert_cmpfloat_with_epsilon (grey_at (image, &f, 340, 0.8), grey_at (image, &f, 30, 0.8), 3);
  g_assert_cmpfloat (grey_at (image, &f, 340, 0.8), <, grey_at (image, &f, 180, 0.8) - 40);
  g_assert_cmpfloat_with_epsilon (grey_at (image, &f, 20, 1.1), grey_at (image, &f, 330, 1.1), 3);
  g_assert_cmpfloat (grey_at (image, &f, 20, 1.1), <, grey_at (image, &f, 180, 1.1) - 10);
  cairo_surface_destroy (image);

  hole.angle_deg = 0.5;
  hole.stain_half_width_m = NAN;
  target.angle_deg = 359.5;
  image = draw (&palette, &view, 400, 300, 1, &f, NULL);
  g_assert_cmpfloat (grey_at (image, &f, 359.3, 0.8), <, 60);
  g_assert_cmpfloat (grey_at (image, &f, 0.7, 0.8), <, 60);
  g_assert_cmpfloat (stage_grey (image, (int)f.plot_x_px + 5, (int)fr_trunk_y_from_height (&f, 1.1)), <, 100);
  cairo_surface_destroy (image);
}

/* A stain of 0.1 m to each side of a trunk of 1 m takes a fifth of the width at its middle, and its height is
 * that on the axis. */
static void
test_stain (void)
{
  FrPalette palette = { FR_THEME_PAPER, TRUE };
  FrTrunkHole hole = { 1, 180, 1.0, FR_TRUNK_HOLE_CLOSED, 0.1, 0.2, NULL, FALSE };
  FrTrunkView view = { .girth_m = 1,
                       .min_height_m = 0.6,
                       .max_height_m = 1.4,
                       .sideways_m = NAN,
                       .up_down_m = NAN,
                       .holes = &hole,
                       .n_holes = 1,
                       .unit_m = 0.01 };
  FrTrunkFrame f;
  cairo_surface_t *image = draw (&palette, &view, 500, 400, 1, &f, NULL);
  int x = (int)fr_trunk_x_from_angle (&f, 180), y = (int)fr_trunk_y_from_height (&f, 1.0);
  double wood = stage_grey (image, x - 120, y);
  int left = x, right = x, top = y, bottom = y;

  while (stage_grey (image, left, y) < wood - 40)
    left--;
  while (stage_grey (image, right, y) < wood - 40)
    right++;
  while (stage_grey (image, x, top) < wood - 40)
    top--;
  while (stage_grey (image, x, bottom) < wood - 40)
    bottom++;
  g_assert_cmpfloat_with_epsilon (right - left, 0.2 * f.plot_width_px, 4);
  g_assert_cmpfloat_with_epsilon (bottom - top, 0.4 / (f.high_m - f.low_m) * f.plot_height_px, 6);
  cairo_surface_destroy (image);
}

static guint
warned (double target_deg, double target_m, double hole_deg, guint *left_half)
{
  FrPalette palette = { FR_THEME_LIGHT, FALSE };
  FrTrunkTarget target = { target_deg, target_m, NULL };
  FrTrunkHole hole = { 1, hole_deg, 0.9, FR_TRUNK_HOLE_CLOSED, 0.04, 0.25, NULL, FALSE };
  FrTrunkView view = { .girth_m = 1.5,
                       .min_height_m = 0.5,
                       .max_height_m = 1.5,
                       .sideways_m = 0.15,
                       .up_down_m = 0.3,
                       .holes = &hole,
                       .n_holes = 1,
                       .targets = &target,
                       .n_targets = 1,
                       .unit_m = 0.01 };
  cairo_surface_t *image = draw (&palette, &view, 400, 300, 1, NULL, NULL);
  guint n = stage_count (image, fr_palette_color (&palette, FR_ROLE_WARNING), 12);

  /* The right half painted over leaves those of the left. */
  cairo_t *cr = cairo_create (image);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_rectangle (cr, 200, 0, 200, 300);
  cairo_fill (cr);
  cairo_destroy (cr);
  *left_half = stage_count (image, fr_palette_color (&palette, FR_ROLE_WARNING), 12);
  cairo_surface_destroy (image);
  return n;
}

/* 1.5 m round: 0.15 m and half the stain's 0.08 m are 45.6°. */
static void
test_overlap (void)
{
  guint left;

  g_assert_cmpuint (warned (350, 0.9, 350, &left), >, 60);
  g_assert_cmpuint (warned (310, 0.9, 350, &left), >, 10);
  g_assert_cmpuint (warned (300, 0.9, 350, &left), ==, 0);
  /* Over north. */
  g_assert_cmpuint (warned (30, 0.9, 350, &left), >, 10);
  g_assert_cmpuint (warned (37, 0.9, 350, &left), ==, 0);
  /* A stain that lies on both sides of north is hatched on both. */
  guint all = warned (30, 0.9, 359, &left);
  g_assert_cmpuint (left, >, 10);
  g_assert_cmpuint (all - left, >, 10);
  all = warned (330, 0.9, 1, &left);
  g_assert_cmpuint (left, >, 10);
  g_assert_cmpuint (all - left, >, 10);
  /* Above it: 0.3 + 0.25 m. */
  g_assert_cmpuint (warned (350, 1.48, 350, &left), ==, 0);
  g_assert_cmpuint (warned (350, 1.3, 350, &left), >, 10);
}

static void
test_places (void)
{
  FrTrunkView view = full_view ();
  PangoContext *context = stage_context ();
  FrTrunkFrame f = fr_trunk_frame (context, &view, 300, 260, 1);
  double angle, height;

  g_object_unref (context);
  for (guint i = 0; i < 500; i++)
    {
      double a = g_test_rand_double_range (0, 360), h = g_test_rand_double_range (f.low_m, f.high_m);
      g_assert_true (fr_trunk_place_at (&f, fr_trunk_x_from_angle (&f, a), fr_trunk_y_from_height (&f, h),
                                        &angle, &height));
      g_assert_cmpfloat_with_epsilon (angle, a, 1e-6);
      g_assert_cmpfloat_with_epsilon (height, h, 1e-9);
      /* Dragged once round it is the same place. */
      g_assert_true (
          fr_trunk_place_at (&f, fr_trunk_x_from_angle (&f, a) - f.plot_width_px, 0, &angle, &height));
      g_assert_cmpfloat_with_epsilon (fmod (angle - a + 540, 360), 180, 1e-6);
    }
  fr_trunk_place_at (&f, 100, 1e6, &angle, &height);
  g_assert_cmpfloat (height, ==, f.low_m);
  fr_trunk_place_at (&f, 100, -1e6, &angle, &height);
  g_assert_cmpfloat (height, ==, f.high_m);
  FrTrunkFrame none = { 0 };
  g_assert_false (fr_trunk_place_at (&none, 1, 1, &angle, &height));
  for (gsize i = 0; i < view.n_holes; i++)
    g_assert_cmpint (fr_trunk_hole_at (&f, &view, fr_trunk_x_from_angle (&f, history[i].angle_deg) + 2,
                                       fr_trunk_y_from_height (&f, history[i].height_m) - 2, 6),
                     ==, (gssize)i);
  g_assert_cmpint (fr_trunk_hole_at (&f, &view, 5, 5, 3), ==, -1);
  g_assert_cmpint (
      fr_trunk_target_at (&f, &view, fr_trunk_x_from_angle (&f, 307), fr_trunk_y_from_height (&f, 0.6), 8),
      ==, 0);
  /* What lies just past north is hit from the other edge. */
  FrTrunkHole edge = { 1, 1, 0.9, FR_TRUNK_HOLE_CLOSED, NAN, NAN, NULL, FALSE };
  FrTrunkView one = { .girth_m = 1, .min_height_m = 0.6, .max_height_m = 1.2, .holes = &edge, .n_holes = 1 };
  g_assert_cmpint (
      fr_trunk_hole_at (&f, &one, f.plot_x_px + f.plot_width_px - 3, fr_trunk_y_from_height (&f, 0.9), 5), ==,
      0);
}

/* Each state of a hole is told from the others without colour. */
static void
test_grey (void)
{
  for (guint theme = 0; theme < FR_N_THEMES; theme++)
    {
      FrPalette palette = { (FrTheme)theme, FALSE };
      cairo_surface_t *images[5];
      for (guint i = 0; i < 5; i++)
        {
          FrTrunkHole hole = { 1, 180, 0.9, (FrTrunkHoleState)(i % 4), 0, 0, NULL, i == 4 };
          FrTrunkView view = { .girth_m = 1,
                               .min_height_m = 0.6,
                               .max_height_m = 1.2,
                               .sideways_m = NAN,
                               .up_down_m = NAN,
                               .holes = &hole,
                               .n_holes = 1 };
          images[i] = draw (&palette, &view, 200, 160, 1, NULL, NULL);
        }
      for (guint i = 0; i < 5; i++)
        for (guint k = 0; k < i; k++)
          g_assert_cmpuint (stage_differences (images[i], images[k], 50), >, 8);
      for (guint i = 0; i < 5; i++)
        cairo_surface_destroy (images[i]);
    }
}

static void
test_odd (void)
{
  FrPalette palette = { FR_THEME_DARK, TRUE };
  FrTrunkHole odd[] = { { 1, NAN, 1, FR_TRUNK_HOLE_CLOSED, 1, 1, "nowhere", TRUE },
                        { 2, 1e9, 1, FR_TRUNK_HOLE_OPEN, INFINITY, -1, "far", FALSE },
                        { 3, -725, 3, FR_TRUNK_HOLE_SET, 40, 50, "", FALSE },
                        { 4, 10, -2, FR_TRUNK_HOLE_PLANNED, NAN, NAN, NULL, FALSE } };
  FrTrunkTarget targets[2] = { { NAN, NAN, "x" }, { 90, 1, "2" } };
  static const int sizes[][2] = { { 1, 1 }, { 30, 20 }, { 300, 200 } };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      FrTrunkView view = { .girth_m = -4,
                           .min_height_m = 2,
                           .max_height_m = 1,
                           .sideways_m = 9,
                           .up_down_m = 1e6,
                           .holes = odd,
                           .n_holes = 4,
                           .targets = targets,
                           .n_targets = 2,
                           .unit_m = NAN };
      g_autoptr (GArray) labels = fr_label_list_new ();
      cairo_surface_destroy (draw (&palette, &view, sizes[i][0], sizes[i][1], 1, NULL, labels));
      g_assert_false (stage_has_label (labels, "nowhere"));
      FrTrunkView empty
          = { .girth_m = NAN, .min_height_m = NAN, .max_height_m = NAN, .empty_sentence = "Nothing." };
      cairo_surface_destroy (draw (&palette, &empty, sizes[i][0], sizes[i][1], 1, NULL, NULL));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trunk/words", test_words);
  g_test_add_func ("/trunk/inches", test_inches);
  g_test_add_func ("/trunk/wrap", test_wrap);
  g_test_add_func ("/trunk/north", test_north);
  g_test_add_func ("/trunk/stain", test_stain);
  g_test_add_func ("/trunk/overlap", test_overlap);
  g_test_add_func ("/trunk/places", test_places);
  g_test_add_func ("/trunk/grey", test_grey);
  g_test_add_func ("/trunk/odd", test_odd);
  return g_test_run ();
}
