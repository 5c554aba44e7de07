/* The stained column: nothing outside was at hand to hold its size against, so what is checked is that it is
 * the shape and the volume it says it is, worked out by summing slices, and that telling whether a hole meets
 * it agrees with trying points. */
#include "domain/maths/stain.h"

#include <math.h>

#include "domain/maths/tapping.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

/* Standard bore 5/16 in, 1.5 in deep: hole π/4 × 0.79375² × 3.81 = 1.8853 cm³, column 75 times that, one and
 * a half bores (1.19 cm) wide. */
static void
test_size (void)
{
  const FrStain stain = fr_stain_of_hole (0.0079375, 0.0381, NAN), unknown = fr_stain_of_hole (NAN, NAN, NAN);

  NEAR (2 * stain.half_width_m, 0.01190625, 1e-9);
  NEAR (stain.half_height_m, 0.2338, 0.0001);
  NEAR (stain.depth_m, 0.0381, 1e-15);
  NEAR (fr_stain_volume_l (&stain), 75 * 0.0018853, 1e-4);
  NEAR (unknown.half_height_m, stain.half_height_m, 1e-15);
  NEAR (unknown.half_width_m, stain.half_width_m, 1e-15);
}

static void
test_slices (void)
{
  const FrStain stain = fr_stain_of_hole (0.0111125, 0.05, 4);
  const guint n = 20000;
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += 2 * fr_stain_half_width_m (&stain, (2.0 * (i + 0.5) / n - 1) * stain.half_height_m) * 2
           * stain.half_height_m / n;
  NEAR (fr_stain_volume_l (&stain), 1000 * sum * 0.05, 1e-8);
  NEAR (fr_stain_volume_l (&stain) / (1000 * G_PI / 4 * 0.0111125 * 0.0111125 * 0.05), FR_STAIN_VOLUME_RATIO,
        1e-9);
  NEAR (fr_stain_half_width_m (&stain, 0), stain.half_width_m, 1e-15);
  g_assert_cmpfloat (fr_stain_half_width_m (&stain, stain.half_height_m), ==, 0);
  g_assert_cmpfloat (fr_stain_half_width_m (&stain, -1.1 * stain.half_height_m), ==, 0);
  NEAR (fr_stain_half_width_m (&stain, -0.1), fr_stain_half_width_m (&stain, 0.1), 1e-15);
}

/* The day it is drilled it is the hole; after a summer it is all there and stays. */
static void
test_years (void)
{
  const FrStain fresh = fr_stain_of_hole (0.008, 0.04, 0), half = fr_stain_of_hole (0.008, 0.04, 0.5),
                full = fr_stain_of_hole (0.008, 0.04, 1), old = fr_stain_of_hole (0.008, 0.04, 12);

  NEAR (fresh.half_width_m, 0.004, 1e-12);
  NEAR (fresh.half_height_m, 0.004, 1e-12);
  NEAR (half.half_height_m, (fresh.half_height_m + full.half_height_m) / 2, 1e-12);
  NEAR (full.half_height_m, old.half_height_m, 1e-15);
  NEAR (full.half_width_m, old.half_width_m, 1e-15);
  NEAR (fr_new_wood_m (0.005, 4), 0.01, 1e-15); /* 5 mm of diameter is 2.5 mm each side */
}

static void
test_overlap (void)
{
  const FrStain stain = fr_stain_of_hole (0.008, 0.04, 5);

  NEAR (fr_stain_overlap_m (&stain, 0, 0, 0.008), 0.008, 1e-15);
  NEAR (fr_stain_overlap_m (&stain, 0.006, 0, 0.008), 0.004, 1e-12); /* half widths 6 and 4 mm, 6 mm apart */
  NEAR (fr_stain_overlap_m (&stain, -0.006, 0, NAN), 0.006 + FR_BORE_M / 2 - 0.006, 1e-12);
  g_assert_cmpfloat (fr_stain_overlap_m (&stain, 0.011, 0, 0.008), ==, 0);
  g_assert_cmpfloat (fr_stain_overlap_m (&stain, 0, stain.half_height_m + 0.0041, 0.008), ==, 0);
  g_assert_cmpfloat (fr_stain_overlap_m (&stain, 0, -stain.half_height_m - 0.0039, 0.008), >, 0);
  g_assert_cmpfloat (fr_stain_overlap_m (&stain, 0.2, 0, 0.008), ==, 0);
}

/* A bore taken as a square meets the spindle exactly where one of its points lies inside. */
static void
test_points (void)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (3);
  const FrStain stain = fr_stain_of_hole (0.008, 0.04, 5);
  const double bore = 0.008;
  guint met = 0;

  for (guint run = 0; run < 2000; run++)
    {
      const double sideways = g_rand_double_range (chance, -0.02, 0.02),
                   off = g_rand_double_range (chance, -0.3, 0.3);
      double deepest = -INFINITY; /* how far the best of its points reaches in */

      for (guint i = 0; i <= 200; i++)
        {
          const double up = off + bore * (i / 200.0 - 0.5);

          if (fabs (up) < stain.half_height_m)
            deepest = fmax (deepest, fr_stain_half_width_m (&stain, up) - (fabs (sideways) - bore / 2));
        }
      met += deepest > 0;
      if (deepest > 1e-5 || deepest < -1e-5)
        g_assert_cmpint (fr_stain_overlap_m (&stain, sideways, off, bore) > 0, ==, deepest > 0);
    }
  g_assert_cmpuint (met, >, 200);
  g_assert_cmpuint (met, <, 1800);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stain/size", test_size);
  g_test_add_func ("/stain/slices", test_slices);
  g_test_add_func ("/stain/years", test_years);
  g_test_add_func ("/stain/overlap", test_overlap);
  g_test_add_func ("/stain/points", test_points);
  return g_test_run ();
}
