/* Holes, drops and the balance: tests/tables/feed-holes.csv, textbook properties of an emptying bucket, a
 * bucket emptied in small steps apart from the closed formula, and the law of the lever. */
#include "domain/maths/feed.h"

#include <math.h>

#include "found.h"
#include "table.h"

#define CD FR_FEED_DISCHARGE_RATIO

static void
check_hole (const TestRow *row)
{
  const double hole_m = test_row_number (row, "hole_mm") / 1000;
  const double head_m = test_row_number (row, "head_cm") / 100;
  const double flow = fr_feed_flow_l_per_h (hole_m, head_m, CD);

  found_near (test_row_number (row, "tolerance") < 0.01 ? "flow through a hole, two decimals, L/h"
                                                        : "flow through a hole, one decimal, L/h",
              flow, test_row_number (row, "flow_l_per_h"), test_row_number (row, "tolerance") + 2e-4 * flow);
  g_assert_cmpfloat_with_epsilon (fr_feed_hole_m (flow, head_m, CD) / hole_m, 1, 1e-12);
}

/* Torricelli: half the flow at a quarter of the head. */
static void
test_ratio (void)
{
  g_assert_cmpfloat_with_epsilon (fr_feed_flow_ratio (0.075, 0.3), 0.5, 1e-12);
  g_assert_cmpfloat_with_epsilon (fr_feed_flow_ratio (0.3, 0.3), 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (fr_feed_flow_ratio (0, 0.3), 0, 1e-12);
  g_assert_cmpfloat_with_epsilon (fr_feed_flow_ratio (0.1, 0.4) * fr_feed_flow_l_per_h (0.002, 0.4, CD),
                                  fr_feed_flow_l_per_h (0.002, 0.1, CD), 1e-9);
}

/* A straight vessel empties in twice the time that its first flow would take (textbook consequence of
 * Torricelli). */
static void
test_twice_the_time (void)
{
  const double area_m2 = 0.0707, head_m = 0.31, hole_m = 0.0021;
  const double first_l_per_h = fr_feed_flow_l_per_h (hole_m, head_m, CD);
  const double steady_s = area_m2 * head_m * 1000 / first_l_per_h * 3600;

  g_assert_cmpfloat_with_epsilon (fr_feed_empty_s (area_m2, hole_m, head_m, 0, CD) / steady_s, 2, 1e-12);
}

/* Half a second at a time with the flow alone; the closed formula must give the same time. */
static void
test_small_steps (void)
{
  const double area_m2 = 0.05, hole_m = 0.0015;
  double head_m = 0.25, at_s = 0;

  while (head_m > 0.1)
    {
      head_m -= fr_feed_flow_l_per_h (hole_m, head_m, CD) / 3.6e6 / area_m2 * 0.5;
      at_s += 0.5;
    }
  g_assert_cmpfloat_with_epsilon (fr_feed_empty_s (area_m2, hole_m, 0.25, 0.1, CD) / at_s, 1, 2e-4);
  g_assert_cmpfloat_with_epsilon (fr_feed_head_after_m (area_m2, hole_m, 0.25, at_s, CD) / head_m, 1, 2e-4);
}

/* By hand: 0.05 m2, 2 mm hole, Cd 0.62, from 0.30 m dry: A = 3.14159e-6, t = 0.05 / (0.62 x 3.14159e-6) x
 * 0.451601 x 0.547723 = 6,349.6 s. */
static void
test_by_hand (void)
{
  g_assert_cmpfloat_with_epsilon (fr_feed_empty_s (0.05, 0.002, 0.30, 0, 0.62), 6349.6, 0.5);
}

static void
test_head_after (void)
{
  const double dry_s = fr_feed_empty_s (0.05, 0.002, 0.3, 0, CD);

  g_assert_cmpfloat_with_epsilon (fr_feed_head_after_m (0.05, 0.002, 0.3, 0, CD), 0.3, 1e-12);
  g_assert_cmpfloat_with_epsilon (fr_feed_head_after_m (0.05, 0.002, 0.3, dry_s / 2, CD), 0.075, 1e-9);
  g_assert_cmpfloat (fr_feed_head_after_m (0.05, 0.002, 0.3, dry_s + 1, CD), ==, 0);
  g_assert_cmpfloat_with_epsilon (
      fr_feed_empty_s (0.05, 0.002, 0.3, 0.1, CD) + fr_feed_empty_s (0.05, 0.002, 0.1, 0, CD), dry_s, 1e-6);
}

/* ISO 8536-4, from memory: 20 drops are 1 ml. 0.5, 1 and 2 L/h are 167, 333 and 667 drops a minute. */
static void
test_drops (void)
{
  g_assert_cmpfloat_with_epsilon (fr_feed_drops_per_min (0.5, FR_FEED_DROPS_PER_ML), 167, 0.5);
  g_assert_cmpfloat_with_epsilon (fr_feed_drops_per_min (1, FR_FEED_DROPS_PER_ML), 333, 0.5);
  g_assert_cmpfloat_with_epsilon (fr_feed_drops_per_min (2, FR_FEED_DROPS_PER_ML), 667, 0.5);
  g_assert_cmpfloat_with_epsilon (fr_feed_drops_per_min (1, 60), 1000, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_feed_flow_from_drops_l_per_h (40, 20), 0.12, 1e-12);
  g_assert_cmpfloat_with_epsilon (fr_feed_flow_from_drops_l_per_h (fr_feed_drops_per_min (1.73, 15), 15),
                                  1.73, 1e-12);
}

static void
test_cup (void)
{
  g_assert_cmpfloat_with_epsilon (fr_feed_seconds_per_100_ml (1), 360, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_feed_seconds_per_100_ml (2.07), 173.9, 0.05);
  g_assert_true (isnan (fr_feed_seconds_per_100_ml (0)));
}

/* The law of the lever (Archimedes): 1 kg at 30 cm holds 2 kg at 15 cm. */
static void
test_balance (void)
{
  const FrTripMass trip = fr_feed_trip_mass (1, 0.30, 0.15, 0);

  g_assert_cmpfloat_with_epsilon (trip.mass_kg, 2, 1e-12);
  g_assert_cmpfloat_with_epsilon (trip.error_kg, 0, 1e-12);
  g_assert_cmpfloat_with_epsilon (fr_feed_counter_kg (2, 0.30, 0.15), 1, 1e-12);
}

/* Both arms off by 1 mm, the wrong way: 301/149 instead of 2, so 20.1 g; to first order e/a + e/b = 1 % of 2
 * kg. */
static void
test_balance_error (void)
{
  const FrTripMass trip = fr_feed_trip_mass (1, 0.30, 0.15, 0.001);

  g_assert_cmpfloat_with_epsilon (trip.error_kg, 301.0 / 149.0 - 2, 1e-12);
  g_assert_cmpfloat_with_epsilon (trip.error_kg, 2 * (0.001 / 0.30 + 0.001 / 0.15), 2e-4);
}

static void
test_balance_nonsense (void)
{
  g_assert_true (isnan (fr_feed_trip_mass (1, 0, 0.15, 0).mass_kg));
  g_assert_true (isnan (fr_feed_trip_mass (1, 0.3, NAN, 0).mass_kg));
  g_assert_true (isnan (fr_feed_trip_mass (-1, 0.3, 0.15, 0).mass_kg));
  g_assert_true (isnan (fr_feed_trip_mass (1, 0.3, 0.15, NAN).error_kg));
  g_assert_true (isnan (fr_feed_trip_mass (1, 0.3, 0.15, 0.15).error_kg));
  g_assert_cmpfloat_with_epsilon (fr_feed_trip_mass (1, 0.3, 0.15, NAN).mass_kg, 2, 1e-12);
  g_assert_true (isnan (fr_feed_counter_kg (NAN, 0.3, 0.15)));
}

static void
test_nonsense (void)
{
  g_assert_true (isnan (fr_feed_flow_l_per_h (-0.001, 0.1, CD)));
  g_assert_true (isnan (fr_feed_flow_l_per_h (0.001, -0.1, CD)));
  g_assert_true (isnan (fr_feed_flow_l_per_h (0.001, 0.1, 0)));
  g_assert_true (isnan (fr_feed_flow_l_per_h (0.001, 0.1, 1.1)));
  g_assert_true (isnan (fr_feed_flow_l_per_h (NAN, 0.1, CD)));
  g_assert_cmpfloat (fr_feed_flow_l_per_h (0.001, 0, CD), ==, 0);
  g_assert_true (isnan (fr_feed_hole_m (1, 0, CD)));
  g_assert_true (isnan (fr_feed_flow_ratio (0.4, 0.3)));
  g_assert_true (isnan (fr_feed_flow_ratio (0, 0)));
  g_assert_true (isnan (fr_feed_empty_s (0, 0.002, 0.3, 0, CD)));
  g_assert_true (isnan (fr_feed_empty_s (0.05, 0, 0.3, 0, CD)));
  g_assert_true (isnan (fr_feed_empty_s (0.05, 0.002, 0.1, 0.3, CD)));
  g_assert_true (isnan (fr_feed_head_after_m (0.05, 0, 0.3, 10, CD)));
  g_assert_true (isnan (fr_feed_head_after_m (0.05, 0.002, 0.3, -1, CD)));
  g_assert_true (isnan (fr_feed_drops_per_min (1, 0)));
  g_assert_true (isnan (fr_feed_flow_from_drops_l_per_h (-1, 20)));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  test_table_add ("feed-holes.csv", "/feed/hole", check_hole);
  g_test_add_func ("/feed/ratio", test_ratio);
  g_test_add_func ("/feed/twice-the-time", test_twice_the_time);
  g_test_add_func ("/feed/small-steps", test_small_steps);
  g_test_add_func ("/feed/by-hand", test_by_hand);
  g_test_add_func ("/feed/head-after", test_head_after);
  g_test_add_func ("/feed/drops", test_drops);
  g_test_add_func ("/feed/cup", test_cup);
  g_test_add_func ("/feed/balance", test_balance);
  g_test_add_func ("/feed/balance-error", test_balance_error);
  g_test_add_func ("/feed/balance-nonsense", test_balance_nonsense);
  g_test_add_func ("/feed/nonsense", test_nonsense);
  return found_run ();
}
