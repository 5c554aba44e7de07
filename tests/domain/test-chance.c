/* Chance and the normal distribution: against published bits, the GNU Scientific Library, and the moments. */
#include "domain/maths/chance.h"

#include "found.h"

#include <gsl/gsl_cdf.h>

/* The first five of seed 1234567, as published beside several implementations of splitmix64; from memory. */
static void
test_bits (void)
{
  static const guint64 wanted[]
      = { G_GUINT64_CONSTANT (6457827717110365317), G_GUINT64_CONSTANT (3203168211198807973),
          G_GUINT64_CONSTANT (9817491932198370423), G_GUINT64_CONSTANT (4593380528125082431),
          G_GUINT64_CONSTANT (16408922859458223821) };
  FrChance chance = { 1234567 };

  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    g_assert_cmpuint (fr_chance_bits (&chance), ==, wanted[i]);
}

static void
test_quantile (void)
{
  for (gint i = -300; i <= -1; i++)
    {
      double share = pow (10, i), wanted = gsl_cdf_ugaussian_Pinv (share);

      found_near ("quantile of a normal, far tail, relative", fr_normal_quantile_ratio (share) / wanted, 1,
                  1e-12);
    }
  for (gint i = 1; i < 1000; i++)
    {
      double share = i / 1000.0, z = fr_normal_quantile_ratio (share);

      found_near ("quantile of a normal, by thousandths", z, gsl_cdf_ugaussian_Pinv (share), 1e-13);
      found_near ("share below a quantile, there and back", fr_normal_below_ratio (z), share, 1e-15);
    }
  for (gint i = -800; i <= 800; i++)
    found_near ("share of a normal below", fr_normal_below_ratio (i / 100.0), gsl_cdf_ugaussian_P (i / 100.0),
                1e-15);
  g_assert_true (isinf (fr_normal_quantile_ratio (0)) && fr_normal_quantile_ratio (0) < 0);
  g_assert_true (isinf (fr_normal_quantile_ratio (1)) && fr_normal_quantile_ratio (1) > 0);
  g_assert_true (isnan (fr_normal_quantile_ratio (-0.01)) && isnan (fr_normal_quantile_ratio (1.01))
                 && isnan (fr_normal_quantile_ratio (NAN)) && isnan (fr_normal_below_ratio (NAN)));
}

/* Moments of a standard normal: 0, 1, 0, 3, and no part of one draw in the next. The bounds are five standard
 * errors of the mean of that many draws: 1, √2, √15, √96 and 1 over √n. */
static void
test_draws (void)
{
  const guint n = 1000000;
  g_autofree double *draws = g_new (double, n);
  double m1 = 0, m2 = 0, m3 = 0, m4 = 0, next = 0, five = 5 / sqrt (n);
  FrChance chance = { 20260319 }, again = { 20260319 };
  double odd[3];

  fr_chance_normals (&chance, draws, n);
  for (guint i = 0; i < n; i++)
    {
      m1 += draws[i] / n;
      m2 += pow (draws[i], 2) / n;
      m3 += pow (draws[i], 3) / n;
      m4 += pow (draws[i], 4) / n;
      next += i > 0 ? draws[i] * draws[i - 1] / n : 0;
    }
  found_near ("mean of a million draws", m1, 0, five);
  found_near ("their variance", m2, 1, five * sqrt (2));
  found_near ("their third moment", m3, 0, five * sqrt (15));
  found_near ("their fourth moment", m4, 3, five * sqrt (96));
  found_near ("of one in the next", next, 0, five);
  fr_chance_normals (&again, odd, 3);
  for (guint i = 0; i < 3; i++)
    g_assert_true (odd[i] == draws[i]);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chance/bits", test_bits);
  g_test_add_func ("/chance/quantile", test_quantile);
  g_test_add_func ("/chance/draws", test_draws);
  return found_run ();
}
