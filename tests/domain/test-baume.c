/* Degrees Baumé: the 20 °C row kept with the units and the whole density polynomial a floor higher are one
 * formula, so their gravities must agree; a typing slip in either shows here. Tolerance 1e-6: water's density
 * is a rounded 998.203 there. */
#include "domain/maths/sucrose.h"
#include "domain/units/baume.h"

#include <math.h>

static void
test_one_formula (void)
{
  for (int brix = 0; brix <= 75; brix++)
    g_assert_cmpfloat_with_epsilon (fr_gravity_ratio_from_brix (brix),
                                    fr_sucrose_density_kg_m3 (brix, 20) / fr_sucrose_density_kg_m3 (0, 20),
                                    1e-6);
}

/* Modulus 145 by its definition: SG 1.45 is 45 °Bé. */
static void
test_definition (void)
{
  double low = 80, high = 100;

  for (int i = 0; i < 60; i++)
    {
      double middle = (low + high) / 2;

      if (fr_gravity_ratio_from_brix (middle) < 1.45)
        low = middle;
      else
        high = middle;
    }
  g_assert_cmpfloat_with_epsilon (fr_baume_from_brix (low), 45, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_brix_from_baume (45), low, 1e-9);
}

static void
test_inverse (void)
{
  for (double brix = -5; brix <= 100; brix += 0.25)
    g_assert_cmpfloat_with_epsilon (fr_brix_from_baume (fr_baume_from_brix (brix)), brix, 1e-9);
}

static void
test_ends (void)
{
  g_assert_true (isnan (fr_baume_from_brix (-5.1)));
  g_assert_true (isnan (fr_baume_from_brix (100.1)));
  g_assert_true (isnan (fr_baume_from_brix (NAN)));
  g_assert_true (isnan (fr_brix_from_baume (51.8)));
  g_assert_true (isnan (fr_brix_from_baume (-3)));
  g_assert_true (isnan (fr_brix_from_baume (NAN)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/baume/one-formula", test_one_formula);
  g_test_add_func ("/baume/definition", test_definition);
  g_test_add_func ("/baume/inverse", test_inverse);
  g_test_add_func ("/baume/ends", test_ends);
  return g_test_run ();
}
