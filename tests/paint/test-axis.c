/* Scales by table. The expected scales are worked by hand from the rule in axis.h (smallest step of 1,
 * 2, 2.5, 5 × 10^n that covers the range); no outside source. */
#include <float.h>
#include <math.h>

#include "paint/axis.h"

typedef struct
{
  const char *name;
  double low, high;
  guint most;
  double from, to, step;
  guint decimals;
} Round;

static const Round rounds[] = {
  { "level", 0, 4.1, 3, 0, 6, 2, 0 },
  { "brix", 0, 57, 3, 0, 60, 20, 0 },
  { "on-the-tick", 0, 60, 3, 0, 60, 20, 0 },
  { "fine", 0, 0.3, 3, 0, 0.3, 0.1, 1 },
  { "quarter", 0, 0.7, 3, 0, 0.75, 0.25, 2 },
  { "below-zero", -7, 5, 6, -7.5, 5, 2.5, 1 },
  { "below-zero-coarse", -7, 5, 4, -10, 5, 5, 0 },
  { "large", 0, 123456, 4, 0, 150000, 50000, 0 },
  { "away-from-zero", 98.9, 99.6, 4, 98.8, 99.6, 0.2, 1 },
  { "tiny", 0, 1.2e-6, 3, 0, 1.5e-6, 5e-7, 7 },
};

static void
test_round (gconstpointer data)
{
  const Round *r = data;
  FrAxis a;

  g_assert_true (fr_axis_round (r->low, r->high, r->most, &a));
  g_assert_cmpfloat_with_epsilon (a.low_value, r->from, fabs (r->step) * 1e-9);
  g_assert_cmpfloat_with_epsilon (a.high_value, r->to, fabs (r->step) * 1e-9);
  g_assert_cmpfloat_with_epsilon (a.step_value, r->step, fabs (r->step) * 1e-9);
  g_assert_cmpuint (a.decimals, ==, r->decimals);
  g_assert_cmpuint (a.n_intervals, ==, (guint)lround ((r->to - r->from) / r->step));
}

typedef struct
{
  const char *name;
  double high;
  guint n;
  double to;
} Zero;

static const Zero zeros[] = {
  { "level", 4.1, 3, 6 },         { "level-two", 4.1, 2, 5 },    { "brix", 57, 3, 60 },
  { "brix-exact", 60, 3, 60 },    { "syrup", 66.9, 3, 75 },      { "inches", 1.6, 3, 3 },
  { "half-inches", 1.4, 3, 1.5 }, { "one", 9, 1, 10 },           { "one-brix", 57, 1, 60 },
  { "two-brix", 57, 2, 60 },      { "two-syrup", 66.9, 2, 100 },
};

static void
test_zero (gconstpointer data)
{
  const Zero *z = data;
  FrAxis a;

  g_assert_true (fr_axis_from_zero (z->high, z->n, &a));
  g_assert_cmpfloat_with_epsilon (a.high_value, z->to, 1e-9);
  g_assert_cmpuint (a.n_intervals, ==, z->n);
  g_assert_cmpfloat (a.low_value, ==, 0);
}

/* Whatever the range: it is covered, in no more steps than asked, and every tick is where its ratio says. */
static void
test_properties (void)
{
  for (guint i = 0; i < 5000; i++)
    {
      double low = g_test_rand_double_range (-1, 1) * pow (10, g_test_rand_int_range (-6, 7));
      /* A span near the last bits of its ends has no exact ticks in a double. */
      double high = low + fabs (low) * 1e-6
                    + g_test_rand_double_range (0, 1) * pow (10, g_test_rand_int_range (-6, 7));
      guint most = (guint)g_test_rand_int_range (2, 12);
      FrAxis a;

      g_assert_true (fr_axis_round (low, high, most, &a));
      g_assert_cmpuint (a.n_intervals, <=, most);
      g_assert_cmpfloat (a.low_value, <=, low + 1e-6 * a.step_value);
      g_assert_cmpfloat (a.high_value, >=, high - 1e-6 * a.step_value);
      for (guint t = 0; t <= a.n_intervals; t++)
        g_assert_cmpfloat_with_epsilon (fr_axis_ratio (&a, fr_axis_tick (&a, t)), (double)t / a.n_intervals,
                                        1e-6);
    }
}

static void
test_refused (void)
{
  FrAxis a;

  g_assert_false (fr_axis_round (NAN, 1, 3, &a));
  g_assert_cmpfloat (a.high_value, ==, 1);
  g_assert_false (fr_axis_round (0, INFINITY, 3, &a));
  g_assert_false (fr_axis_round (2, 1, 3, &a));
  g_assert_false (fr_axis_round (0, 1, 1, &a));
  g_assert_false (fr_axis_from_zero (0, 3, &a));
  g_assert_false (fr_axis_from_zero (NAN, 3, &a));
  g_assert_cmpfloat (a.high_value, ==, 3);
  g_assert_true (isnan (fr_axis_ratio (&a, NAN)));
  g_assert_true (fr_axis_round (5, 5, 3, &a));
  g_assert_true (a.low_value <= 5 && a.high_value >= 5 && a.step_value > 0);
}

static void
test_text (void)
{
  FrAxis a;

  g_assert_true (fr_axis_round (-7, 5, 6, &a));
  g_autofree char *low = fr_axis_text (&a, 0, ",");
  g_autofree char *zero = fr_axis_text (&a, 3, NULL);
  g_assert_cmpstr (low, ==, "−7,5");
  g_assert_cmpstr (zero, ==, "0");
  g_assert_true (fr_axis_from_zero (57, 3, &a));
  g_autofree char *top = fr_axis_text (&a, 3, NULL);
  g_assert_cmpstr (top, ==, "60");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rounds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/axis/round/%s", rounds[i].name);
      g_test_add_data_func (path, &rounds[i], test_round);
    }
  for (guint i = 0; i < G_N_ELEMENTS (zeros); i++)
    {
      g_autofree char *path = g_strdup_printf ("/axis/zero/%s", zeros[i].name);
      g_test_add_data_func (path, &zeros[i], test_zero);
    }
  g_test_add_func ("/axis/properties", test_properties);
  g_test_add_func ("/axis/refused", test_refused);
  g_test_add_func ("/axis/text", test_text);
  return g_test_run ();
}
