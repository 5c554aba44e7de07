/* The viewport against its own equation worked by hand, and against round trips: what is under the pointer
 * stays there, a fitted box is inside its margins and touches them, and the bar is the longest round one. */
#include <math.h>
#include <string.h>

#include "paint/viewport.h"

static double
random_between (double low, double high)
{
  return g_test_rand_double_range (low, high);
}

static FrViewport
random_view (void)
{
  return (FrViewport){ random_between (-500, 500),           random_between (-500, 500),
                       pow (10, random_between (-1.5, 2.5)), g_test_rand_bit () ? 0 : random_between (0, 360),
                       random_between (200, 1600),           random_between (200, 1200) };
}

/* By hand: 10 m east and 5 m north of the middle at 2 px/m lie 20 px right of it and 10 px above; with the
 * plan turned by 90° clockwise east points down and north to the right. */
static void
test_by_hand (void)
{
  FrViewport v = { 100, 50, 2, 0, 400, 300 };
  double x, y;

  fr_viewport_to_screen (&v, 110, 55, &x, &y);
  g_assert_cmpfloat (x, ==, 220);
  g_assert_cmpfloat (y, ==, 140);
  v.rotation_deg = 90;
  fr_viewport_to_screen (&v, 110, 55, &x, &y);
  g_assert_cmpfloat (x, ==, 210);
  g_assert_cmpfloat (y, ==, 170);
  v.rotation_deg = 180;
  fr_viewport_to_screen (&v, 110, 55, &x, &y);
  g_assert_cmpfloat (x, ==, 180);
  g_assert_cmpfloat (y, ==, 160);
}

static void
test_there_and_back (void)
{
  for (guint i = 0; i < 2000; i++)
    {
      FrViewport v = random_view ();
      double x = random_between (-1000, 1000), y = random_between (-1000, 1000), px, py, x_m, y_m;
      fr_viewport_to_screen (&v, x, y, &px, &py);
      fr_viewport_to_plan (&v, px, py, &x_m, &y_m);
      g_assert_cmpfloat (fabs (x_m - x), <, 1e-9);
      g_assert_cmpfloat (fabs (y_m - y), <, 1e-9);
    }
}

static void
test_zoom_stays (void)
{
  for (guint i = 0; i < 2000; i++)
    {
      FrViewport v = random_view ();
      double px = random_between (0, v.width_px), py = random_between (0, v.height_px), x, y, nx, ny;
      fr_viewport_to_plan (&v, px, py, &x, &y);
      fr_viewport_zoom_at (&v, px, py, pow (2, random_between (-2, 2)));
      fr_viewport_to_screen (&v, x, y, &nx, &ny);
      g_assert_cmpfloat (hypot (nx - px, ny - py), <, 1e-6);
    }
}

static void
test_limits (void)
{
  FrViewport v = { 0, 0, 300, 0, 400, 300 };

  g_assert_true (fr_viewport_zoom_at (&v, 10, 10, 10));
  g_assert_cmpfloat (v.px_per_m, ==, FR_VIEWPORT_MOST_PX_PER_M);
  g_assert_false (fr_viewport_zoom_at (&v, 10, 10, 10));
  g_assert_true (fr_viewport_zoom_at (&v, 10, 10, 1e-12));
  g_assert_cmpfloat (v.px_per_m, ==, FR_VIEWPORT_LEAST_PX_PER_M);
  FrViewport before = v;
  g_assert_false (fr_viewport_zoom_at (&v, 10, 10, 0));
  g_assert_false (fr_viewport_zoom_at (&v, 10, 10, -1));
  g_assert_false (fr_viewport_zoom_at (&v, 10, 10, NAN));
  g_assert_false (fr_viewport_zoom_at (&v, 10, 10, INFINITY));
  g_assert_cmpmem (&v, sizeof v, &before, sizeof before);
}

static void
test_pan_and_turn (void)
{
  for (guint i = 0; i < 500; i++)
    {
      FrViewport v = random_view ();
      double x, y, nx, ny;
      fr_viewport_to_plan (&v, 100, 120, &x, &y);
      fr_viewport_pan (&v, 37, -21);
      fr_viewport_to_screen (&v, x, y, &nx, &ny);
      g_assert_cmpfloat (hypot (nx - 137, ny - 99), <, 1e-6);
      double east = v.centre_x_m, north = v.centre_y_m;
      fr_viewport_turn (&v, random_between (-900, 900));
      g_assert_cmpfloat (v.rotation_deg, >=, 0);
      g_assert_cmpfloat (v.rotation_deg, <, 360);
      g_assert_cmpfloat (v.centre_x_m, ==, east);
      g_assert_cmpfloat (v.centre_y_m, ==, north);
    }
}

static void
test_fit (void)
{
  for (guint i = 0; i < 500; i++)
    {
      FrViewport v = random_view ();
      FrMargins m = { 10, 20, 30, 40 };
      FrPlanBox box = FR_PLAN_BOX_EMPTY;
      double left = INFINITY, right = -INFINITY, top = INFINITY, bottom = -INFINITY;
      for (guint k = 0; k < 3; k++)
        fr_plan_box_add (&box, random_between (-300, 300), random_between (-300, 300));
      fr_plan_box_add (&box, NAN, 5);
      g_assert_true (fr_viewport_fit (&v, &box, &m, 400));
      for (guint corner = 0; corner < 4; corner++)
        {
          double x, y;
          fr_viewport_to_screen (&v, corner & 1 ? box.west_m : box.east_m,
                                 corner & 2 ? box.south_m : box.north_m, &x, &y);
          left = MIN (left, x);
          right = MAX (right, x);
          top = MIN (top, y);
          bottom = MAX (bottom, y);
        }
      g_assert_cmpfloat (left, >, 40 - 1e-6);
      g_assert_cmpfloat (right, <, v.width_px - 20 + 1e-6);
      g_assert_cmpfloat (top, >, 10 - 1e-6);
      g_assert_cmpfloat (bottom, <, v.height_px - 30 + 1e-6);
      gboolean wide = fabs (right - left - (v.width_px - 60)) < 1e-6;
      gboolean high = fabs (bottom - top - (v.height_px - 40)) < 1e-6;
      g_assert_true (wide || high);
    }

  FrViewport v = { 1, 2, 3, 0, 400, 300 };
  FrPlanBox none = FR_PLAN_BOX_EMPTY, one = FR_PLAN_BOX_EMPTY;
  FrMargins m = { 0, 0, 0, 0 }, thick = { 200, 0, 200, 0 };
  g_assert_false (fr_viewport_fit (&v, &none, &m, 50));
  fr_plan_box_add (&one, 7, 8);
  g_assert_false (fr_viewport_fit (&v, &one, &thick, 50));
  g_assert_cmpfloat (v.centre_x_m, ==, 1);
  g_assert_true (fr_viewport_fit (&v, &one, &m, 50));
  g_assert_cmpfloat (v.px_per_m, ==, 50);
  g_assert_cmpfloat (v.centre_x_m, ==, 7);
  g_assert_cmpfloat (v.centre_y_m, ==, 8);
}

static void
test_bar (void)
{
  static const struct
  {
    double px_per_m, most_px, unit_m;
    const char *unit, *text;
    double length_px;
  } rows[] = {
    { 5.15, 120, 1, "m", "20 m", 103 },
    { 1, 100, 1, "m", "100 m", 100 },
    { 1, 99.9, 1, "m", "50 m", 50 },
    { 400, 120, 1, "m", "0,2 m", 80 },
    { 0.02, 120, 1, "m", "5000 m", 100 },
    { 3, 120, 0.3048, "ft", "100 ft", 91.44 },
    { 400, 120, 0.3048, "ft", "0,5 ft", 60.96 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      FrViewport v = { 0, 0, rows[i].px_per_m, 0, 800, 600 };
      FrScaleBar bar = fr_viewport_scale_bar (&v, rows[i].most_px, rows[i].unit_m, rows[i].unit, ",");
      g_assert_cmpstr (bar.text, ==, rows[i].text);
      g_assert_cmpfloat (fabs (bar.length_px - rows[i].length_px), <, 1e-9);
    }
  for (guint i = 0; i < 2000; i++)
    {
      FrViewport v = random_view ();
      double most = random_between (40, 200), unit = g_test_rand_bit () ? 1 : 0.3048;
      FrScaleBar bar = fr_viewport_scale_bar (&v, most, unit, "m", NULL);
      g_assert_cmpfloat (bar.length_px, <=, most * (1 + 1e-6));
      /* The next round one, at most 2.5 times as long, would be too long. */
      g_assert_cmpfloat (bar.length_px * 2.5, >, most);
      g_assert_cmpfloat (fabs (bar.length_px - bar.value * unit * v.px_per_m), <, 1e-6);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/viewport/by-hand", test_by_hand);
  g_test_add_func ("/viewport/there-and-back", test_there_and_back);
  g_test_add_func ("/viewport/zoom-stays", test_zoom_stays);
  g_test_add_func ("/viewport/limits", test_limits);
  g_test_add_func ("/viewport/pan-and-turn", test_pan_and_turn);
  g_test_add_func ("/viewport/fit", test_fit);
  g_test_add_func ("/viewport/bar", test_bar);
  return g_test_run ();
}
