/* Scores against closed forms, published examples and other definitions of the same number. */
#include "domain/maths/chance.h"
#include "domain/maths/scores.h"

#include "found.h"

#define STEPS 4001

/* A distribution as a table; @from_log: laid out evenly in the logarithm. */
static void
lay_normal (double middle, double sd, gboolean of_log, double *at, double *below)
{
  for (guint i = 0; i < STEPS; i++)
    {
      double z = -8 + 16.0 * i / (STEPS - 1);

      at[i] = of_log ? exp (middle + sd * z) : middle + sd * z;
      below[i] = fr_normal_below_ratio (z);
    }
}

static double
density (double z)
{
  return exp (-z * z / 2) / sqrt (2 * G_PI);
}

/* σ (z (2Φ(z) − 1) + 2φ(z) − 1/√π): Gneiting and Raftery 2007, eq. 21 and the text around it, from memory. */
static void
test_crps_normal (void)
{
  static const double seen[] = { -3, 0, 0.4, 1.7, 2, 5, 30 };
  double at[STEPS], below[STEPS];

  lay_normal (2, 1.5, FALSE, at, below);
  for (guint i = 0; i < G_N_ELEMENTS (seen); i++)
    {
      double z = (seen[i] - 2) / 1.5;

      found_near ("CRPS of a normal distribution", fr_score_crps_l (at, below, STEPS, seen[i]),
                  1.5 * (z * (2 * fr_normal_below_ratio (z) - 1) + 2 * density (z) - 1 / sqrt (G_PI)), 2e-5);
    }
}

/* y (2Φ(z) − 1) − 2 exp (μ + σ²/2) (Φ(z − σ) + Φ(σ/√2) − 1): Baran and Lerch 2015, from memory. */
static void
test_crps_lognormal (void)
{
  static const double seen[] = { 0.05, 0.5, 1, 2, 7 };
  double at[STEPS], below[STEPS], s = 0.6;

  lay_normal (0.2, s, TRUE, at, below);
  for (guint i = 0; i < G_N_ELEMENTS (seen); i++)
    {
      double z = (log (seen[i]) - 0.2) / s;

      found_near ("CRPS of a log-normal distribution", fr_score_crps_l (at, below, STEPS, seen[i]),
                  seen[i] * (2 * fr_normal_below_ratio (z) - 1)
                      - 2 * exp (0.2 + s * s / 2) * (fr_normal_below_ratio (z - s) + fr_normal_below_ratio (s / sqrt (2)) - 1),
                  2e-5);
    }
}

/* A forecast sure of one value has the absolute error for its score; one with a chance of nothing at all, E|X − y| − E|X − X'|/2. */
static void
test_crps_steps (void)
{
  const double at[] = { 1, 1.0000001 }, below[] = { 0, 1 };
  const double edge[] = { 0, 2 }, half[] = { 0.5, 1 };

  found_near ("CRPS of a sure value", fr_score_crps_l (at, below, 2, 3.5), 2.5, 1e-6);
  /* X: 0 half the time, else even over 0 to 2. y = 0: E|X| = 1/2; E|X − X'| = 2 · ¼ · 1 + ¼ · 2/3 = 2/3. */
  found_near ("CRPS of nothing or something", fr_score_crps_l (edge, half, 2, 0), 0.5 - 1.0 / 3, 1e-12);
  found_near ("CRPS of nothing or something", fr_score_crps_l (edge, half, 2, -1), 1.5 - 1.0 / 3, 1e-12);
  found_near ("CRPS of nothing or something", fr_score_crps_l (edge, half, 2, 4), 3.5 - 1.0 / 3, 1e-12);
}

static void
test_log (void)
{
  double at[STEPS], below[STEPS];

  lay_normal (0, 1, FALSE, at, below);
  found_near ("log score of a normal distribution", fr_score_log (at, below, STEPS, 0.5, 0.1),
              -log (fr_normal_below_ratio (0.6) - fr_normal_below_ratio (0.4)), 1e-4);
  found_near ("log score far off", fr_score_log (at, below, STEPS, 50, 0.1), log (1e6), 1e-9);
}

/* Gneiting and Raftery 2007, eq. 43, by its indicators; and the true quantiles are the best range to tell. */
static void
test_interval (void)
{
  static const double cases[][3] = { { 1, 3, 2 }, { 1, 3, 0 }, { 1, 3, 4.5 }, { 0, 0, 1 } };
  FrChance chance = { 4 };
  double sums[3] = { 0 };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      double l = cases[i][0], u = cases[i][1], x = cases[i][2], alpha = 0.2;
      double score = (u - l) + (2 / alpha) * (l - x) * (x < l) + (2 / alpha) * (x - u) * (x > u);

      found_near ("interval score", fr_score_interval_l (l, u, 0.8, x), score, 1e-12);
    }
  for (guint i = 0; i < 100000; i++)
    {
      double draw;

      fr_chance_normals (&chance, &draw, 1);
      for (guint k = 0; k < 3; k++)
        sums[k] += fr_score_interval_l (-1.2816 * (0.8 + 0.2 * k), 1.2816 * (0.8 + 0.2 * k), 0.8, draw);
    }
  g_assert_cmpfloat (sums[1], <, sums[0]);
  g_assert_cmpfloat (sums[1], <, sums[2]);
}

/* Ranks with ties: the example of SciPy's manual; without: the worked example of ten children in a common encyclopedia's article,
 * −29/165, from memory. */
static void
test_rank (void)
{
  static const double a[] = { 1, 2, 3, 4, 5 }, b[] = { 5, 6, 7, 8, 7 }, same[] = { 2, 2, 2, 2, 2 };
  static const double iq[] = { 106, 100, 86, 101, 99, 103, 97, 113, 112, 110 };
  static const double hours[] = { 7, 27, 2, 50, 28, 29, 20, 12, 6, 17 };

  found_near ("rank correlation with ties", fr_score_rank_ratio (a, b, 5), 0.82078268166812329, 1e-12);
  found_near ("rank correlation", fr_score_rank_ratio (iq, hours, 10), -29.0 / 165, 1e-12);
  g_assert_true (isnan (fr_score_rank_ratio (a, same, 5)));
  g_assert_true (isnan (fr_score_rank_ratio (a, b, 2)));
}

/* Newcombe 1998, Stat. Med. 17, table I, method 3, 95 %, from memory. */
static void
test_share (void)
{
  static const double cases[][4]
      = { { 81, 263, 0.2553, 0.3662 }, { 15, 148, 0.0624, 0.1605 }, { 0, 20, 0, 0.1611 }, { 1, 29, 0.0061, 0.1718 } };
  double lo, hi;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      fr_score_share_range (cases[i][0] / cases[i][1], (guint)cases[i][1], 1.959964, &lo, &hi);
      found_near ("range of a share", lo, cases[i][2], 5.1e-5);
      found_near ("range of a share", hi, cases[i][3], 5.1e-5);
    }
  fr_score_share_range (0, 0, 1.28, &lo, &hi);
  g_assert_true (isnan (lo) && isnan (hi));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scores/crps/normal", test_crps_normal);
  g_test_add_func ("/scores/crps/lognormal", test_crps_lognormal);
  g_test_add_func ("/scores/crps/steps", test_crps_steps);
  g_test_add_func ("/scores/log", test_log);
  g_test_add_func ("/scores/interval", test_interval);
  g_test_add_func ("/scores/rank", test_rank);
  g_test_add_func ("/scores/share", test_share);
  return found_run ();
}
