/* The charge: what it promises holds, and a little more does not. */
#include "domain/maths/charge.h"

#include "domain/units/units.h"

#include "boil-cases.h"
#include "found.h"

/* The largest charge holds, and one percent more breaks the limit it named. */
static void
test_charge (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (101);
  FrBoilTable table;
  guint limits[FR_N_LIMITS] = { 0 };

  for (guint i = 0; i < 300; i++)
    {
      FrBoil boil = case_boil (rand, FR_FEED_LEVEL, &table);
      double capacity_l = one_in (rand, 2) ? between (rand, 0, 15) : NAN, ceiling;
      FrCharge charge;
      FrBoilRun more;

      boil.trip_s = NAN;
      boil.cutoff_l = boil.hold_l * between (rand, 0.2, 0.95);
      boil.after_s = between (rand, 2, 14) * 3600;
      boil.stop_brix = one_in (rand, 2) ? between (rand, 15, 66) : NAN;
      ceiling = isnan (boil.stop_brix) ? FR_DRY_LIMIT_BRIX : boil.stop_brix;
      if (fr_charge (&boil, capacity_l, FALSE, &charge) != FR_BOIL_OK)
        {
          g_test_fail_printf ("charge %u has no answer", i);
          return;
        }
      limits[charge.limited_by]++;
      boil.stop_brix = NAN;
      if (!charge.feasible)
        {
          g_assert_cmpfloat (charge.feed_l, ==, 0);
          boil.feed_l = 0;
          g_assert_cmpint (fr_boil_run (&boil, FALSE, &more), ==, FR_BOIL_OK);
          g_assert_true (more.ended_by != FR_END_CUTOFF || more.left_brix > ceiling);
          continue;
        }
      g_assert_cmpint (charge.run.ended_by, ==, FR_END_CUTOFF);
      g_assert_cmpfloat (charge.run.time_s, <=, boil.after_s);
      g_assert_cmpfloat (charge.run.left_brix, <=, ceiling + 1e-9);
      if (!isnan (capacity_l))
        g_assert_cmpfloat (charge.feed_l, <=, capacity_l);
      boil.feed_l = charge.feed_l * 1.01 + 1e-6;
      switch (charge.limited_by)
        {
        case FR_LIMIT_TIME:
          g_assert_cmpint (fr_boil_run (&boil, FALSE, &more), ==, FR_BOIL_OK);
          g_assert_cmpint (more.ended_by, ==, FR_END_TIME);
          found_near ("charge limited by time: how early it cuts off, s", charge.run.time_s, boil.after_s,
                      0.1);
          break;
        case FR_LIMIT_BRIX:
          boil.after_s = NAN;
          g_assert_cmpint (fr_boil_run (&boil, FALSE, &more), ==, FR_BOIL_OK);
          g_assert_true (more.left_brix > ceiling || more.ended_by == FR_END_DRY_LIMIT);
          found_near ("charge limited by °Bx: how thin it ends, °Bx", charge.run.left_brix, ceiling, 1e-5);
          break;
        default:
          g_assert_cmpint (charge.limited_by, ==, FR_LIMIT_CAPACITY);
          g_assert_cmpfloat (charge.feed_l, ==, capacity_l);
        }
      /* The next limit binds when this one is lifted. */
      if (charge.limited_by == FR_LIMIT_CAPACITY && charge.next != FR_LIMIT_NONE)
        {
          FrCharge lifted;

          boil.stop_brix = ceiling;
          g_assert_cmpint (fr_charge (&boil, NAN, FALSE, &lifted), ==, FR_BOIL_OK);
          g_assert_cmpint (lifted.limited_by, ==, charge.next);
          g_assert_cmpfloat (lifted.feed_l, ==, charge.next_l);
        }
    }
  g_assert_cmpuint (limits[FR_LIMIT_TIME], >, 20);
  g_assert_cmpuint (limits[FR_LIMIT_BRIX], >, 20);
  g_assert_cmpuint (limits[FR_LIMIT_CAPACITY], >, 20);
}

/* A pan that stands empty is filled from the bucket, so its charge is that of a full pan plus what fills it.
 */
static void
test_charge_empty_pan (void)
{
  FrBoil boil = evening ();
  FrCharge full, empty;

  boil.after_s = 8 * 3600;
  boil.start_c = boil.feed_c;
  g_assert_cmpint (fr_charge (&boil, NAN, FALSE, &full), ==, FR_BOIL_OK);
  boil.start_l = 0;
  g_assert_cmpint (fr_charge (&boil, NAN, FALSE, &empty), ==, FR_BOIL_OK);
  g_assert_true (empty.feasible);
  g_assert_cmpint (empty.limited_by, ==, full.limited_by);
  found_near ("charge into an empty pan, L", empty.feed_l, full.feed_l + 1.5, 1e-6);
}

/* Source: common practice, no source: five taps run 1 to 1.5 US gallons each on an average day; a 500 W
 * cooker cannot boil that off in a night of 11 hours, an 1800 W one can the lesser of it. */
static void
test_five_taps (void)
{
  double sap_l = 5 * FR_LITRES_PER_US_GALLON;
  FrBoil boil = evening ();
  FrCharge weak, strong;

  boil.after_s = 11 * 3600;
  boil.power_w = 500;
  g_assert_cmpint (fr_charge (&boil, NAN, FALSE, &weak), ==, FR_BOIL_OK);
  g_assert_cmpfloat (weak.feed_l + boil.start_l, <, sap_l);
  boil.power_w = 1800;
  g_assert_cmpint (fr_charge (&boil, NAN, FALSE, &strong), ==, FR_BOIL_OK);
  g_assert_cmpint (strong.limited_by, ==, FR_LIMIT_TIME);
  g_assert_cmpfloat (strong.feed_l + boil.start_l, >, sap_l);
  g_test_message ("11 h: 500 W %.1f L, 1800 W %.1f L, five taps %.1f to %.1f L", weak.feed_l + 1.5,
                  strong.feed_l + 1.5, sap_l, 1.5 * sap_l);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/charge/random", test_charge);
  g_test_add_func ("/charge/empty-pan", test_charge_empty_pan);
  g_test_add_func ("/charge/five-taps", test_five_taps);
  return found_run ();
}
