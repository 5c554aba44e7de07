/* The choice of trees against another author's solver (GLPK's branch and bound) on random small bushes,
 * against every choice there is on tiny ones (also from where the kitchen limits), and
 * against its own bounds on large ones. */
#include "domain/maths/tap-choice.h"

#include "domain/maths/sucrose.h"

#include "found.h"

#include <glpk.h>
#include <string.h>

#define TREES 40
#define TAPS 4

/* A bush and its limits with room for their numbers. */
typedef struct
{
  guint n;
  FrTapTree trees[TREES];
  double litres_l[TREES][TAPS];
  FrTapLimits limits;
} Bush;

static double
between (GRand *rand, double lo, double hi)
{
  return g_rand_double_range (rand, lo, hi);
}

/* @decimals: litres are whole tenths when 1, anything when under 0. @sweets: how many kinds of sweetness. */
static void
random_bush (GRand *rand, Bush *bush, guint n, int decimals, guint sweets)
{
  double brix[8], all_l = 0;

  memset (bush, 0, sizeof *bush);
  bush->n = n;
  for (guint k = 0; k < sweets; k++)
    brix[k] = g_rand_int_range (rand, 10, 41) / 10.0;
  for (guint i = 0; i < n; i++)
    {
      FrTapTree *tree = &bush->trees[i];

      tree->taps_max = (guint)g_rand_int_range (rand, 0, TAPS + 1);
      tree->litres_per_tap_l = bush->litres_l[i];
      tree->brix = brix[g_rand_int_range (rand, 0, (gint)sweets)];
      for (guint j = 0; j < tree->taps_max; j++)
        {
          /* Mostly less and less, sometimes anything, sometimes nothing. */
          double most = j == 0 || g_rand_int_range (rand, 0, 4) == 0 ? 60 : bush->litres_l[i][j - 1];
          double litres_l = g_rand_int_range (rand, 0, 20) == 0 ? 0 : between (rand, 0, most);

          bush->litres_l[i][j] = decimals < 0 ? litres_l : round (litres_l * 10) / 10;
          all_l += bush->litres_l[i][j];
        }
      tree->never = g_rand_int_range (rand, 0, 8) == 0;
      tree->must = !tree->never && tree->taps_max > 0 && g_rand_int_range (rand, 0, 10) == 0;
    }
  bush->limits.buckets = (guint)g_rand_int_range (rand, 0, (gint)(2 * n) + 1);
  bush->limits.trees_max = g_rand_int_range (rand, 0, 2) == 0
                               ? FR_TAP_CHOICE_NO_LIMIT
                               : (guint)g_rand_int_range (rand, 0, (gint)n + 1);
  bush->limits.season_days = g_rand_int_range (rand, 20, 60);
  bush->limits.peak_ratio = g_rand_int_range (rand, 2, 9) / 2.0;
  bush->limits.boil_l_per_day
      = g_rand_int_range (rand, 0, 3) == 0
            ? NAN
            : all_l * between (rand, 0.02, 0.8) / bush->limits.season_days * bush->limits.peak_ratio;
}

static double
sugar_kg (double litres_l, double brix)
{
  return litres_l * fr_sucrose_density_kg_m3 (brix, 20) / 1000 * brix / 100;
}

static double
most_l (const FrTapLimits *limits)
{
  return isnan (limits->boil_l_per_day)
             ? INFINITY
             : limits->boil_l_per_day * limits->season_days / limits->peak_ratio * (1 + 1e-9);
}

/* The same question as a mixed integer programme: one binary for each tree and number of taps. The most
 * sugar, NAN when no choice is allowed. */
static double
glpk_sugar_kg (const Bush *bush, guint buckets, gboolean kitchen)
{
  const FrTapLimits *limits = &bush->limits;
  glp_prob *problem = glp_create_prob ();
  glp_iocp how;
  double best_kg = NAN;
  int column = 0, code;

  glp_term_out (GLP_OFF);
  glp_set_obj_dir (problem, GLP_MAX);
  glp_add_rows (problem, 3 + (int)bush->n);
  glp_set_row_bnds (problem, 1, GLP_UP, 0, buckets);
  glp_set_row_bnds (problem, 2, limits->trees_max == FR_TAP_CHOICE_NO_LIMIT ? GLP_FR : GLP_UP, 0,
                    limits->trees_max);
  glp_set_row_bnds (problem, 3, kitchen && isfinite (most_l (limits)) ? GLP_UP : GLP_FR, 0, most_l (limits));
  for (guint i = 0; i < bush->n; i++)
    {
      const FrTapTree *tree = &bush->trees[i];
      double litres_l = 0;

      glp_set_row_bnds (problem, 4 + (int)i, GLP_FX, 1, 1);
      for (guint j = 0; j <= tree->taps_max; j++)
        {
          int rows[5] = { 0, 1, 2, 3, 4 + (int)i };
          double takes[5] = { 0, j, j > 0, 0, 1 };

          if (j > 0)
            litres_l += tree->litres_per_tap_l[j - 1];
          takes[3] = litres_l;
          column = glp_add_cols (problem, 1);
          glp_set_col_kind (problem, column, GLP_BV);
          if ((tree->must && j == 0) || (tree->never && j > 0))
            glp_set_col_bnds (problem, column, GLP_FX, 0, 0);
          glp_set_obj_coef (problem, column, sugar_kg (litres_l, tree->brix));
          glp_set_mat_col (problem, column, 4, rows, takes);
        }
    }
  glp_init_iocp (&how);
  how.presolve = GLP_ON;
  how.tol_obj = 1e-11;
  how.mip_gap = 0;
  code = bush->n == 0 ? GLP_ENOPFS : glp_intopt (problem, &how);
  g_assert_true (code == 0 || code == GLP_ENOPFS || code == GLP_ENODFS);
  if (code == 0 && glp_mip_status (problem) == GLP_OPT)
    {
      /* Sums of what was chosen, free of the solver's tolerances. */
      best_kg = 0;
      for (int c = 1; c <= column; c++)
        if (glp_mip_col_val (problem, c) > 0.5)
          best_kg += glp_get_obj_coef (problem, c);
    }
  glp_delete_prob (problem);
  return bush->n == 0 ? 0 : best_kg;
}

/* The answer keeps its limits and its sums are those of its taps. */
static void
keeps_limits (const Bush *bush, const FrTapChoice *choice)
{
  double litres_l = 0, sum_kg = 0;
  guint buckets = 0, trees = 0;

  for (guint i = 0; i < bush->n; i++)
    {
      const FrTapTree *tree = &bush->trees[i];

      g_assert_cmpuint (choice->taps[i], <=, tree->never ? 0 : tree->taps_max);
      g_assert_true (!tree->must || choice->taps[i] > 0);
      buckets += choice->taps[i];
      trees += choice->taps[i] > 0;
      for (guint j = 0; j < choice->taps[i]; j++)
        {
          litres_l += tree->litres_per_tap_l[j];
          sum_kg += sugar_kg (tree->litres_per_tap_l[j], tree->brix);
        }
    }
  g_assert_cmpuint (buckets, ==, choice->buckets_used);
  g_assert_cmpuint (buckets, <=, bush->limits.buckets);
  g_assert_cmpuint (trees, ==, choice->trees_used);
  g_assert_cmpuint (trees, <=, bush->limits.trees_max);
  g_assert_cmpfloat (litres_l, <=, most_l (&bush->limits));
  found_near ("sugar and litres are those of the taps", choice->sugar_kg + choice->litres_l,
              sum_kg + litres_l, 1e-9);
  found_near ("peak day", choice->peak_l, litres_l * bush->limits.peak_ratio / bush->limits.season_days,
              1e-9);
}

#define RELATIVE(got, wanted) ((got) / ((wanted) == 0 ? 1 : (wanted)) + ((wanted) == 0 ? 1 : 0))

static void
test_glpk (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  guint n_feasible = 0, n_limited = 0;

  for (guint k = 0; k < 1500; k++)
    {
      g_auto (FrTapChoice) choice = { 0 };
      Bush bush;
      double wanted_kg, next_kg, any_kg;

      random_bush (rand, &bush, (guint)g_rand_int_range (rand, 1, 15), k % 3 == 0 ? -1 : 1,
                   (guint)g_rand_int_range (rand, 1, 9));
      fr_tap_choice (bush.trees, bush.n, &bush.limits, &choice);
      wanted_kg = glpk_sugar_kg (&bush, bush.limits.buckets, TRUE);
      g_assert_true (isnan (wanted_kg) == (choice.code != FR_TAP_CHOICE_OK));
      if (isnan (wanted_kg))
        continue;
      n_feasible++;
      keeps_limits (&bush, &choice);
      g_assert_true (choice.is_exact);
      found_near ("most sugar against GLPK, relative", RELATIVE (choice.sugar_kg, wanted_kg), 1, 1e-9);
      next_kg = glpk_sugar_kg (&bush, bush.limits.buckets + 1, TRUE);
      g_assert_true (choice.next_is_exact);
      found_near ("the next bucket against GLPK, relative to the sugar",
                  RELATIVE (choice.sugar_kg + choice.next_bucket_kg, next_kg), 1, 1e-9);
      any_kg = glpk_sugar_kg (&bush, bush.limits.buckets, FALSE);
      g_assert_true (choice.kitchen_limits == (wanted_kg < any_kg * (1 - 1e-9)));
      n_limited += choice.kitchen_limits;
    }
  g_test_message ("%u feasible, %u limited by the kitchen", n_feasible, n_limited);
  g_assert_cmpuint (n_feasible, >=, 1000);
  g_assert_cmpuint (n_limited, >=, 300);
}

/* Every choice there is, tree by tree. */
static void
try_all (const Bush *bush, guint tree, guint buckets, guint trees, double litres_l, double kg,
         double *best_kg, double allowed_l)
{
  const FrTapTree *one = &bush->trees[tree];

  if (tree == bush->n)
    {
      if (trees <= bush->limits.trees_max && litres_l <= allowed_l && !(*best_kg >= kg))
        *best_kg = kg;
      return;
    }
  for (guint j = 0; j <= (one->never ? 0 : MIN (one->taps_max, buckets)); j++)
    {
      if (j > 0)
        {
          litres_l += one->litres_per_tap_l[j - 1];
          kg += sugar_kg (one->litres_per_tap_l[j - 1], one->brix);
        }
      if (j > 0 || !one->must)
        try_all (bush, tree + 1, buckets - j, trees + (j > 0), litres_l, kg, best_kg, allowed_l);
    }
}

static double
all_sugar_kg (const Bush *bush, guint buckets, gboolean kitchen)
{
  double best_kg = NAN;

  try_all (bush, 0, buckets, 0, 0, 0, &best_kg, kitchen ? most_l (&bush->limits) : INFINITY);
  return best_kg;
}

/* From where the kitchen limits, and the curve, by every choice for every number of buckets. */
static void
test_every_choice (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2);
  guint n_from = 0;

  for (guint k = 0; k < 250; k++)
    {
      g_auto (FrTapChoice) choice = { 0 };
      guint buckets[2 * TAPS * TREES], from = FR_TAP_CHOICE_NO_LIMIT, n, in_all = 0;
      double curve_kg[2 * TAPS * TREES], any_kg[2 * TAPS * TREES];
      FrTapChoiceCode code, curve;
      Bush bush;

      random_bush (rand, &bush, (guint)g_rand_int_range (rand, 1, 6), k % 2 == 0 ? -1 : 1,
                   (guint)g_rand_int_range (rand, 1, 4));
      code = fr_tap_choice (bush.trees, bush.n, &bush.limits, &choice);
      for (guint i = 0; i < bush.n; i++)
        in_all += bush.trees[i].taps_max;
      n = in_all + 3;
      for (guint b = 0; b < n; b++)
        buckets[b] = b;
      curve = fr_tap_choice_curve (bush.trees, bush.n, &bush.limits, buckets, n, curve_kg, any_kg);
      if (curve != FR_TAP_CHOICE_OK)
        {
          g_assert_true (curve == code || code == FR_TAP_CHOICE_TOO_FEW_BUCKETS);
          g_assert_true (isnan (all_sugar_kg (&bush, n, TRUE)));
          continue;
        }
      for (guint b = n; b-- > 0;)
        {
          double with_kg = all_sugar_kg (&bush, b, TRUE), without_kg = all_sugar_kg (&bush, b, FALSE);

          g_assert_true (isnan (with_kg) == isnan (curve_kg[b]));
          if (isnan (with_kg))
            continue;
          found_near ("curve against every choice, relative", RELATIVE (curve_kg[b], with_kg), 1, 1e-9);
          found_near ("curve for any kitchen, the same", RELATIVE (any_kg[b], without_kg), 1, 1e-9);
          if (with_kg < without_kg * (1 - 1e-9) && b <= in_all)
            from = b;
        }
      if (code != FR_TAP_CHOICE_OK)
        {
          g_assert_cmpint (code, ==, FR_TAP_CHOICE_TOO_FEW_BUCKETS);
          continue;
        }
      found_near ("most sugar against every choice, relative",
                  RELATIVE (choice.sugar_kg, all_sugar_kg (&bush, bush.limits.buckets, TRUE)), 1, 1e-9);
      g_assert_cmpuint (choice.kitchen_limits_from, ==, from);
      n_from += from != FR_TAP_CHOICE_NO_LIMIT;
    }
  g_test_message ("the kitchen limits somewhere in %u", n_from);
  g_assert_cmpuint (n_from, >=, 80);
}

/* The sum in the issue, by hand: 40 and 30 L at 2 °Bx, whose density at 20 °C is 1005.96 kg/m³ (ICUMSA). */
static void
test_by_hand (void)
{
  const double litres_l[] = { 40, 30 };
  const FrTapTree tree = { 2, litres_l, 2, FALSE, FALSE };
  FrTapLimits limits = { 1, FR_TAP_CHOICE_NO_LIMIT, NAN, 35, 3 };
  g_auto (FrTapChoice) choice = { 0 };
  g_auto (FrTapChoice) fits = { 0 };
  g_auto (FrTapChoice) over = { 0 };

  fr_tap_choice (&tree, 1, &limits, &choice);
  found_near ("40 L of 2 °Bx, kg", choice.sugar_kg, 40 * 1.00596 * 0.02, 1e-5);
  found_near ("the next 30 L, kg", choice.next_bucket_kg, 30 * 1.00596 * 0.02, 1e-5);
  found_near ("their peak day, L", choice.peak_l, 40.0 / 35 * 3, 1e-12);
  /* A kitchen for exactly this peak day takes it; one for a millionth less does not. */
  limits.boil_l_per_day = 40.0 / 35 * 3;
  fr_tap_choice (&tree, 1, &limits, &fits);
  g_assert_cmpuint (fits.taps[0], ==, 1);
  g_assert_false (fits.kitchen_limits);
  g_assert_cmpuint (fits.kitchen_limits_from, ==, 2);
  limits.boil_l_per_day *= 1 - 1e-6;
  fr_tap_choice (&tree, 1, &limits, &over);
  g_assert_cmpuint (over.taps[0], ==, 0);
  g_assert_true (over.kitchen_limits);
  g_assert_cmpuint (over.kitchen_limits_from, ==, 1);
}

static void
test_no_choice (void)
{
  const double litres_l[] = { 40, NAN };
  FrTapTree trees[]
      = { { 1, litres_l, 2, TRUE, FALSE }, { 1, litres_l, 2, TRUE, FALSE }, { 0, NULL, 2, FALSE, TRUE } };
  const FrTapLimits plenty = { 9, FR_TAP_CHOICE_NO_LIMIT, NAN, NAN, NAN };
  const struct
  {
    FrTapLimits limits;
    FrTapChoiceCode code;
  } cases[] = {
    { { 2, 2, 80 * 3 / 35.0, 35, 3 }, FR_TAP_CHOICE_OK },
    { { 1, 2, NAN, 35, 3 }, FR_TAP_CHOICE_TOO_FEW_BUCKETS },
    { { 2, 1, NAN, 35, 3 }, FR_TAP_CHOICE_TOO_FEW_TREES },
    { { 2, 2, 6.8, 35, 3 }, FR_TAP_CHOICE_KITCHEN_TOO_SMALL },
    { { 2, 2, 6.8, NAN, 3 }, FR_TAP_CHOICE_BAD_INPUT },
    { { 2, 2, -1, 35, 3 }, FR_TAP_CHOICE_BAD_INPUT },
  };
  g_auto (FrTapChoice) last = { 0 };

  for (guint k = 0; k < G_N_ELEMENTS (cases); k++)
    {
      g_auto (FrTapChoice) choice = { 0 };

      g_assert_cmpint (fr_tap_choice (trees, 3, &cases[k].limits, &choice), ==, cases[k].code);
      g_assert_cmpint (choice.code, ==, cases[k].code);
      g_assert_true ((choice.taps != NULL) == (cases[k].code == FR_TAP_CHOICE_OK));
      g_assert_true (isnan (choice.sugar_kg) == (cases[k].code != FR_TAP_CHOICE_OK));
      if (cases[k].code == FR_TAP_CHOICE_KITCHEN_TOO_SMALL)
        found_near ("peak day of the musts, L", choice.musts_peak_l, 80.0 / 35 * 3, 1e-12);
    }
  trees[1].never = TRUE;
  g_assert_cmpint (fr_tap_choice (trees, 3, &plenty, &last), ==, FR_TAP_CHOICE_MUST_AND_NEVER);
  g_assert_cmpuint (last.tree, ==, 1);
  trees[1].never = FALSE;
  trees[1].taps_max = 0;
  g_assert_cmpint (fr_tap_choice (trees, 3, &plenty, &last), ==, FR_TAP_CHOICE_MUST_WITHOUT_TAPS);
  trees[1].taps_max = 2;
  g_assert_cmpint (fr_tap_choice (trees, 3, &plenty, &last), ==, FR_TAP_CHOICE_BAD_INPUT);
  g_assert_cmpuint (last.tree, ==, 1);
  g_assert_cmpint (fr_tap_choice (NULL, 0, &plenty, &last), ==, FR_TAP_CHOICE_OK);
  g_assert_cmpfloat (last.sugar_kg, ==, 0);
  g_assert_cmpuint (last.buckets_used, ==, 0);
  for (FrTapChoiceCode code = 0; code < FR_N_TAP_CHOICE_CODES; code++)
    g_assert_nonnull (fr_tap_choice_code (code));
}

/* A tap that brings nothing gets no bucket, unless its tree must have one. */
static void
test_dry_taps (void)
{
  const double dry_l[] = { 0, 0 }, later_l[] = { 0, 30 }, once_l[] = { 30, 0 };
  const FrTapTree trees[] = { { 2, dry_l, 2, FALSE, FALSE },
                              { 2, dry_l, 2, TRUE, FALSE },
                              { 2, later_l, 2, FALSE, FALSE },
                              { 2, once_l, 2, FALSE, FALSE } };
  const FrTapLimits limits = { 9, FR_TAP_CHOICE_NO_LIMIT, NAN, NAN, NAN };
  g_auto (FrTapChoice) choice = { 0 };

  fr_tap_choice (trees, 4, &limits, &choice);
  g_assert_cmpuint (choice.taps[0], ==, 0);
  g_assert_cmpuint (choice.taps[1], ==, 1);
  g_assert_cmpuint (choice.taps[2], ==, 2);
  g_assert_cmpuint (choice.taps[3], ==, 1);
  g_assert_cmpfloat (choice.next_bucket_kg, ==, 0);
  g_assert_true (isnan (choice.peak_l));
}

/* Large bushes: within the limits, the bound above the answer and near it, the same answer twice, and never
 * less than what taking the best taps one by one brings. */
static void
test_large (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  double (*litres_l)[3] = g_malloc (2000 * sizeof *litres_l);
  g_autofree FrTapTree *trees = g_new0 (FrTapTree, 2000);

  for (guint k = 0; k < 12; k++)
    {
      guint n = k % 3 == 0 ? 2000 : 60 * (k % 3);
      FrTapLimits limits
          = { k % 3 == 0 ? 600 : 40, k % 4 == 1 ? 25 * n / 60 / 2 : FR_TAP_CHOICE_NO_LIMIT, NAN, 35, 3 };
      g_auto (FrTapChoice) any = { 0 };
      g_auto (FrTapChoice) choice = { 0 };
      g_auto (FrTapChoice) again = { 0 };

      for (guint i = 0; i < n; i++)
        {
          trees[i] = (FrTapTree){ (guint)g_rand_int_range (rand, 0, 4), litres_l[i],
                                  k % 2 == 0 ? 2 : g_rand_int_range (rand, 10, 40) / 10.0, FALSE, FALSE };
          litres_l[i][0] = between (rand, 15, 60);
          litres_l[i][1] = 0.75 * litres_l[i][0];
          litres_l[i][2] = 0.6 * litres_l[i][0];
        }
      fr_tap_choice (trees, n, &limits, &any);
      limits.boil_l_per_day = any.peak_l * between (rand, 0.4, 0.95);
      fr_tap_choice (trees, n, &limits, &choice);
      fr_tap_choice (trees, n, &limits, &again);
      g_assert_cmpfloat (choice.peak_l, <=, limits.boil_l_per_day * (1 + 1e-9));
      g_assert_cmpuint (choice.buckets_used, <=, limits.buckets);
      g_assert_cmpuint (choice.trees_used, <=, limits.trees_max);
      g_assert_true (choice.kitchen_limits);
      g_assert_cmpfloat (choice.bound_kg, >=, choice.sugar_kg);
      g_assert_cmpfloat (choice.bound_kg, <=, any.sugar_kg * (1 + 1e-12));
      g_assert_cmpfloat (choice.next_bucket_kg, >=, 0);
      g_assert_true (choice.is_exact || choice.bound_kg > choice.sugar_kg);
      found_near ("large bushes: bound over answer, relative", choice.bound_kg / choice.sugar_kg, 1, 2e-4);
      g_assert_cmpmem (choice.taps, n * sizeof *choice.taps, again.taps, n * sizeof *again.taps);
    }
  g_free (litres_l);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tap-choice/by-hand", test_by_hand);
  g_test_add_func ("/tap-choice/glpk", test_glpk);
  g_test_add_func ("/tap-choice/every-choice", test_every_choice);
  g_test_add_func ("/tap-choice/no-choice", test_no_choice);
  g_test_add_func ("/tap-choice/dry-taps", test_dry_taps);
  g_test_add_func ("/tap-choice/large", test_large);
  return found_run ();
}
