/* The choice of trees against another author's solver (GLPK's branch and bound) on random small bushes,
 * against every choice there is on tiny ones, and against its own bounds on large ones. */
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

  for (guint k = 0; k < 300; k++)
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
  g_assert_cmpuint (n_feasible, >=, 200);
  g_assert_cmpuint (n_limited, >=, 60);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tap-choice/glpk", test_glpk);
  return found_run ();
}
