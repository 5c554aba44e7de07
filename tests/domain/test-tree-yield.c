/* What trees are expected to give: without history what the sources say, with much of it what they gave, and
 * on made-up bushes nearer the truth than either the tree's own mean or the bush's, with spans that hold as
 * often as they say. */
#include "domain/maths/tree-yield.h"

#include "domain/units/units.h"

#include "found.h"

/* A random number of a normal distribution, mean 0, sd 1 (Box and Muller). */
static double
normal (GRand *rand)
{
  return sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
}

static const FrYieldTree plain = { "sugar", 0.40, "middling", 0, NULL };

/* Extension fact pages: 5 to 15 gal a tap, here taken as 8 in 10; 10 gal nominal; 2 to 3 %, 2.0 typical,
 * range 1 to 5. */
static void
test_no_history (void)
{
  FrTreeYield yield;
  FrYieldBush bush;

  fr_tree_yields (&plain, 1, &yield, &bush);
  found_near ("sugar maple, low of 8 in 10 over 5 gal", yield.volume.lo_l / (5 * FR_LITRES_PER_US_GALLON), 1,
              0.01);
  found_near ("sugar maple, high of 8 in 10 over 15 gal", yield.volume.hi_l / (15 * FR_LITRES_PER_US_GALLON),
              1, 0.01);
  found_near ("sugar maple, mean over 10 gal", yield.volume.mean_l / (10 * FR_LITRES_PER_US_GALLON), 1, 0.06);
  g_assert_cmpfloat (yield.sweetness.lo_brix, >, 1);
  g_assert_cmpfloat (yield.sweetness.mean_brix, >, 2);
  g_assert_cmpfloat (yield.sweetness.mean_brix, <, 3);
  g_assert_cmpfloat (yield.sweetness.hi_brix, <, 5);
  found_near ("sugar of means at about 1007 kg/m³, relative",
              yield.sugar.mean_kg / (yield.volume.mean_l * 1.007 * yield.sweetness.mean_brix / 100), 1, 1e-3);
  g_assert_cmpfloat (yield.volume_own_ratio, ==, 0);
  g_assert_cmpuint (yield.n_volumes, ==, 0);
  g_assert_cmpuint (bush.n_volume_trees, ==, 0);
  found_near ("no history: the bush is as expected", bush.volume_ratio, 1, 1e-12);
}

/* What is not known widens the span; size and crown move it the way they should. */
static void
test_known (void)
{
  const FrYieldTree trees[] = { plain,
                                { "sugar", NAN, "middling", 0, NULL },
                                { NULL, 0.40, "middling", 0, NULL },
                                { "sugar", 0.40, NULL, 0, NULL },
                                { "sugar", 0.60, "wide", 0, NULL },
                                { "sugar", 0.30, "narrow", 0, NULL },
                                { "what is this", 0.40, "middling", 0, NULL } };
  FrTreeYield yields[G_N_ELEMENTS (trees)];
  double ratio[G_N_ELEMENTS (trees)];

  fr_tree_yields (trees, G_N_ELEMENTS (trees), yields, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (trees); i++)
    ratio[i] = yields[i].volume.hi_l / yields[i].volume.lo_l;
  g_assert_cmpfloat (ratio[1], >, ratio[0] * 1.05);
  g_assert_cmpfloat (ratio[3], >, ratio[0] * 1.02);
  g_assert_cmpfloat (ratio[2], >, ratio[1]);
  g_assert_cmpfloat (yields[2].volume.mean_l, ==, yields[6].volume.mean_l);
  g_assert_cmpfloat (yields[4].volume.mean_l, >, yields[0].volume.mean_l);
  g_assert_cmpfloat (yields[5].volume.mean_l, <, yields[0].volume.mean_l);
  g_assert_true (isfinite (yields[2].sugar.sd_kg));
  for (guint i = 0; i < G_N_ELEMENTS (trees); i++)
    {
      g_assert_nonnull (fr_sap_species (trees[i].species)->source);
      g_assert_cmpfloat (yields[i].volume.lo_l, <, yields[i].volume.mean_l);
      g_assert_cmpfloat (yields[i].volume.mean_l, <, yields[i].volume.hi_l);
    }
}

/* Utah trial, HortTechnology: boxelder 22.1 and 26.4 L a tree, Norway maple 7.5 and 9.3 L; both seasons lie
 * in the span. */
static void
test_utah (void)
{
  const FrYieldTree trees[]
      = { { "boxelder", 0.40, "middling", 0, NULL }, { "norway", 0.40, "middling", 0, NULL } };
  const double seen_l[2][2] = { { 22.1, 26.4 }, { 7.5, 9.3 } };
  FrTreeYield yields[2];

  fr_tree_yields (trees, 2, yields, NULL);
  for (guint i = 0; i < 2; i++)
    {
      found_near ("middle of the species over the trial's two years",
                  fr_sap_species (trees[i].species)->tap_l / sqrt (seen_l[i][0] * seen_l[i][1]), 1, 0.01);
      for (guint k = 0; k < 2; k++)
        {
          g_assert_cmpfloat (yields[i].volume.lo_l, <, seen_l[i][k]);
          g_assert_cmpfloat (yields[i].volume.hi_l, >, seen_l[i][k]);
        }
      g_assert_cmpfloat (yields[i].sweetness.lo_brix, <, 2.2);
      g_assert_cmpfloat (yields[i].sweetness.hi_brix, >, 2.2);
    }
}

/* Fifty seasons of 60 L from two taps at 3 °Bx: one tap gives 60 / 1.75, whatever the bush. */
static void
test_much_history (void)
{
  FrYieldSeason seasons[50], odd[3] = { { 2024, 2, 0, NAN }, { 2025, 0, NAN, NAN }, { 2026, 1, NAN, 0 } };
  FrYieldTree trees[2] = { plain, plain };
  FrTreeYield yields[2];
  double taps_l[3];

  for (guint k = 0; k < 50; k++)
    seasons[k] = (FrYieldSeason){ 1970 + k, 2, k % 2 == 0 ? 60 : 59.9, k % 2 == 0 ? 3 : 2.99 };
  trees[0].n_seasons = 50;
  trees[0].seasons = seasons;
  trees[1].n_seasons = 3;
  trees[1].seasons = odd;
  fr_tree_yields (trees, 2, yields, NULL);
  /* The mean lies over the middle by half the variance of a season. */
  found_near ("much history: middle of the tree's litres, relative",
              sqrt (yields[0].volume.lo_l * yields[0].volume.hi_l) / (60 / 1.75), 1, 0.02);
  found_near ("much history: middle of its sweetness, relative",
              sqrt (yields[0].sweetness.lo_brix * yields[0].sweetness.hi_brix) / 3, 1, 0.02);
  g_assert_cmpfloat (yields[0].volume_own_ratio, >, 0.95);
  g_assert_cmpuint (yields[0].n_volumes, ==, 50);
  /* Mishaps and unknowns are no history. */
  g_assert_cmpuint (yields[1].n_volumes, ==, 0);
  g_assert_cmpuint (yields[1].n_sweetnesses, ==, 0);
  fr_tree_yield_taps (&yields[0], 3, taps_l);
  found_near ("second and third tap of the first", taps_l[1] / taps_l[0] + taps_l[2] / taps_l[0], 1.35,
              1e-12);
}

/* Together: one tree is itself; of many trees only what they share stays. */
static void
test_sum (void)
{
  enum
  {
    N = 400
  };
  g_autofree FrYieldTree *trees = g_new (FrYieldTree, N);
  g_autofree FrTreeYield *yields = g_new (FrTreeYield, N);
  g_autofree guint *taps = g_new (guint, N);
  FrSpanL volume;
  FrSpanKg sugar;

  for (guint i = 0; i < N; i++)
    {
      trees[i] = plain;
      taps[i] = 1;
    }
  fr_tree_yields (trees, N, yields, NULL);
  fr_tree_yields_sum (yields, taps, 1, &volume, &sugar);
  found_near ("one tree is its own sum", volume.hi_l, yields[0].volume.hi_l, 1e-9);
  found_near ("one tree is its own sum", sugar.lo_kg, yields[0].sugar.lo_kg, 1e-9);
  found_near ("one tree is its own sum", sugar.sd_kg, yields[0].sugar.sd_kg, 1e-9);
  fr_tree_yields_sum (yields, taps, N, &volume, &sugar);
  found_near ("sum of means, relative", sugar.mean_kg / (N * yields[0].sugar.mean_kg), 1, 1e-12);
  g_assert_cmpfloat (sugar.hi_kg / sugar.lo_kg, <, yields[0].sugar.hi_kg / yields[0].sugar.lo_kg);
  found_near ("many trees: only what is shared, sd of the logarithm",
              log (sugar.hi_kg / sugar.lo_kg) / 2 / 1.2816, yields[0].shared_ratio, 0.003);
  taps[0] = 0;
  fr_tree_yields_sum (yields, taps, 1, &volume, &sugar);
  g_assert_cmpfloat (sugar.mean_kg, ==, 0);
}

/* Made-up bushes of 20 trees over six seasons, each tree tapped in some of them; the truth has its own sds,
 * which are not the prior's. What comes out is held against the truth of each tree, as the middle of its
 * litres in a season. */
static void
simulate (double tree_sd, double rest_sd, double season_sd, double promised_coverage)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);
  double pooled = 0, own = 0, mean_of_all = 0;
  guint n = 0, inside = 0, bushes = 150, n_spans = 0;

  for (guint k = 0; k < bushes; k++)
    {
      enum
      {
        TREES = 20,
        SEASONS = 6
      };
      FrYieldSeason seasons[TREES][SEASONS];
      FrYieldTree trees[TREES];
      FrTreeYield yields[TREES];
      double good[SEASONS], truth[TREES], own_sum[TREES] = { 0 }, all = 0,
                                          level = log (33) + 0.2 * normal (rand),
                                          next = season_sd * normal (rand);
      guint all_n = 0;

      for (guint t = 0; t < SEASONS; t++)
        good[t] = season_sd * normal (rand);
      for (guint i = 0; i < TREES; i++)
        {
          trees[i] = plain;
          trees[i].n_seasons = 0;
          trees[i].seasons = seasons[i];
          truth[i] = level + tree_sd * normal (rand);
          for (guint t = 0; t < SEASONS; t++)
            if (g_rand_int_range (rand, 0, 3) == 0)
              {
                double seen = truth[i] + good[t] + rest_sd * normal (rand);

                seasons[i][trees[i].n_seasons++] = (FrYieldSeason){ 2020 + t, 1, exp (seen), NAN };
                own_sum[i] += seen;
                all += seen;
                all_n++;
              }
        }
      fr_tree_yields (trees, TREES, yields, NULL);
      for (guint i = 0; i < TREES; i++)
        {
          double middle = log (yields[i].volume.lo_l * yields[i].volume.hi_l) / 2,
                 season = exp (truth[i] + next + rest_sd * normal (rand));

          n_spans++;
          inside += season > yields[i].volume.lo_l && season < yields[i].volume.hi_l;
          if (trees[i].n_seasons == 0)
            continue;
          n++;
          pooled += (middle - truth[i]) * (middle - truth[i]);
          own += (own_sum[i] / trees[i].n_seasons - truth[i]) * (own_sum[i] / trees[i].n_seasons - truth[i]);
          mean_of_all += (all / all_n - truth[i]) * (all / all_n - truth[i]);
        }
    }
  g_test_message ("tree sd %.2f: mean squared error pooled %.4f, own %.4f, bush %.4f; %.1f %% inside",
                  tree_sd, pooled / n, own / n, mean_of_all / n, 100.0 * inside / n_spans);
  g_assert_cmpfloat (pooled, <, 0.95 * own);
  g_assert_cmpfloat (pooled, <, 0.95 * mean_of_all);
  found_near ("spans of a season to come that hold, of 8 in 10", (double)inside / n_spans, 0.8,
              promised_coverage);
}

static void
test_bushes (void)
{
  simulate (0.25, 0.18, 0.20, 0.03);
  simulate (0.40, 0.30, 0.20, 0.04);
  simulate (0.15, 0.25, 0.15, 0.05);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tree-yield/no-history", test_no_history);
  g_test_add_func ("/tree-yield/known", test_known);
  g_test_add_func ("/tree-yield/utah", test_utah);
  g_test_add_func ("/tree-yield/much-history", test_much_history);
  g_test_add_func ("/tree-yield/sum", test_sum);
  g_test_add_func ("/tree-yield/bushes", test_bushes);
  return found_run ();
}
