/* What to expect of the trees of small bushes, and their tapping plan: answers by hand, and what has to hold
 * of any: totals add up, limits are kept, and no other choice is better. */
#include "bushes.h"

#include "domain/maths/tap-choice.h"

static const FrDate TODAY = { 2026, 3, 15 };

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

/* --- what to expect --- */

/* Of a tree nobody ever tapped what its kind and size say, as maths/tree-yield.h has it; of a good one more,
 * of the season that is going on nothing; and the span around it. */
static void
test_expected (void)
{
  Bush b = bush_begin ();
  FrTree *plain = bush_thick (&b, 0, 0), *good = bush_thick (&b, 10, 0), *now = bush_thick (&b, 20, 0);
  const FrBushTree *rows[3];
  g_autoptr (FrBush) bush = NULL;

  for (guint season = 2018; season <= 2025; season++)
    {
      bush_tap (&b, good, season, "2018-03-01", 90, 1);
      bush_yield (&b, good, season, 70, 3.5);
    }
  bush_tap (&b, now, 2026, "2026-03-01", 90, 1);
  bush_yield (&b, now, 2026, 500, 9);
  bush = fr_bush_new (&b.book, 2026, TODAY);
  rows[0] = fr_bush_find (bush, plain->record.id);
  rows[1] = fr_bush_find (bush, good->record.id);
  rows[2] = fr_bush_find (bush, now->record.id);
  for (guint i = 0; i < 3; i++)
    {
      g_assert_cmpfloat (rows[i]->expected_low_l, <, rows[i]->expected_l);
      g_assert_cmpfloat (rows[i]->expected_high_l, >, rows[i]->expected_l);
      g_assert_cmpfloat (fr_bush_expected_l (bush, rows[i]->id, 1), ==, rows[i]->expected_l);
      g_assert_cmpfloat (fr_bush_expected_l (bush, rows[i]->id, 2), >, rows[i]->expected_l);
      g_assert_cmpfloat (fr_bush_expected_l (bush, rows[i]->id, 2), <, 2 * rows[i]->expected_l);
    }
  g_assert_cmpfloat (rows[1]->expected_l, >, rows[0]->expected_l + 5);
  g_assert_cmpfloat (rows[1]->expected_brix, >, rows[0]->expected_brix + 0.3);
  g_assert_cmpfloat (rows[1]->expected_l, <, 75);
  g_assert_cmpfloat (rows[2]->expected_l, ==, rows[0]->expected_l);
  g_assert_true (isnan (fr_bush_expected_l (bush, 99, 1)));
  bush_clear (&b);
}

/* Taking over from an older bush gives what working it out gives, to the last bit, whatever changed in
 * between. */
static void
test_renew (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (6);
  Bush b = bush_begin ();
  g_autoptr (FrBush) old = NULL;

  for (guint i = 0; i < 12; i++)
    bush_girth (&b, bush_tree (&b, "sugar", i, 0), "2020-01-01", "diameter", 0.4);
  for (guint step = 0; step < 60; step++)
    {
      FrTree *tree = b.book.trees->pdata[g_rand_int_range (rand, 0, 12)];
      g_autoptr (FrBush) renewed = NULL, fresh = NULL;

      switch (g_rand_int_range (rand, 0, 7))
        {
        case 0:
          tree->x_m.value += 1;
          break;
        case 1:
          bush_set (&tree->crown, g_rand_int_range (rand, 0, 2) ? "wide" : "narrow");
          break;
        case 2:
          bush_set (&tree->species, g_rand_int_range (rand, 0, 2) ? "red" : "sugar");
          break;
        case 3:
          bush_girth (&b, tree, "2024-01-01", "diameter", g_rand_double_range (rand, 0.3, 0.6));
          break;
        case 4:
          bush_yield (&b, tree, 2020 + step % 8, g_rand_double_range (rand, 10, 50), 2);
          break;
        case 5:
          bush_tap (&b, tree, 2020 + step % 8, "2020-03-01", 90, 1);
          break;
        default:
          tree->record.archived = !tree->record.archived;
          break;
        }
      renewed = fr_bush_renew (old, &b.book, 2026, TODAY);
      fresh = fr_bush_new (&b.book, 2026, TODAY);
      g_assert_cmpuint (fr_bush_n_trees (renewed), ==, fr_bush_n_trees (fresh));
      for (guint i = 0; i < fr_bush_n_trees (fresh); i++)
        {
          const FrBushTree *one = fr_bush_tree_at (renewed, i), *two = fr_bush_tree_at (fresh, i);

          g_assert_cmpint (one->id, ==, two->id);
          g_assert_cmpfloat (one->expected_l, ==, two->expected_l);
          g_assert_cmpfloat (one->expected_low_l, ==, two->expected_low_l);
          g_assert_cmpfloat (one->expected_brix, ==, two->expected_brix);
        }
      g_clear_pointer (&old, fr_bush_free);
      old = g_steal_pointer (&renewed);
    }
  bush_clear (&b);
}

/* --- the plan --- */

static void
adds_up (const FrBush *bush, const FrBushPlan *plan, const FrTapping *tapping)
{
  guint n_taps = 0, n_trees = 0;

  g_assert_cmpint (plan->code, ==, FR_BUSH_PLAN_OK);
  g_assert_cmpuint (plan->taps->len, ==, fr_bush_n_trees (bush));
  for (guint i = 0; i < plan->taps->len; i++)
    {
      const FrBushTree *row = fr_bush_tree_at (bush, i);
      const guint taps = g_array_index (plan->taps, guint, i);
      const gboolean must = g_strcmp0 (row->tree->choice, "must") == 0;

      n_taps += taps;
      n_trees += taps > 0;
      if (!must)
        g_assert_cmpint (taps, <=, MAX (row->taps_max, 0));
      else
        g_assert_cmpuint (taps, >=, 1);
    }
  g_assert_cmpuint (n_taps, ==, plan->n_taps);
  g_assert_cmpuint (n_trees, ==, plan->n_trees);
  g_assert_cmpuint (n_taps, <=, (guint)tapping->buckets.value);
  if (!isnan (tapping->max_trees.value))
    g_assert_cmpuint (n_trees, <=, (guint)tapping->max_trees.value);
  if (!isnan (tapping->peak_boil_l.value))
    g_assert_cmpfloat (plan->peak_l, <=, tapping->peak_boil_l.value * (1 + 1e-9));
  NEAR (plan->peak_l, plan->volume_l / fr_bush_season_days (bush) * fr_bush_peak_ratio (bush), 1e-6);
  g_assert_cmpfloat (plan->sugar_kg, <=, plan->bound_kg * (1 + 1e-9));
  g_assert_cmpfloat (plan->sugar_low_kg, <=, plan->sugar_kg);
  g_assert_cmpfloat (plan->sugar_high_kg, >=, plan->sugar_kg);
}

static void
test_plan_codes (void)
{
  Bush b = bush_begin ();
  g_autoptr (FrBush) bush = NULL;
  FrBushPlan *plan;

  bush = fr_bush_new (&b.book, 2026, TODAY);
  plan = fr_bush_plan (bush);
  g_assert_cmpint (plan->code, ==, FR_BUSH_PLAN_NO_BUCKETS);
  fr_bush_plan_free (plan);
  b.tapping->buckets.value = 3;
  plan = fr_bush_plan (bush);
  g_assert_cmpint (plan->code, ==, FR_BUSH_PLAN_NO_TREES);
  fr_bush_plan_free (plan);
  g_clear_pointer (&bush, fr_bush_free);

  for (guint i = 0; i < 4; i++)
    bush_set (&bush_thick (&b, 10 * i, 0)->choice, "must");
  bush = fr_bush_new (&b.book, 2026, TODAY);
  plan = fr_bush_plan (bush);
  g_assert_cmpint (plan->code, ==, FR_BUSH_PLAN_TOO_MANY_MUST);
  g_assert_cmpuint (plan->musts, ==, 4);
  fr_bush_plan_free (plan);
  bush_clear (&b);
}

/* Four buckets, the sweet tree first with both its taps; the second tap of a tree gives less than a first
 * elsewhere of the same kind only if the model says so, hence the totals are compared with trying everything.
 */
static void
test_plan_is_best (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);

  for (guint k = 0; k < 20; k++)
    {
      Bush b = bush_random (rand, 6);
      g_autoptr (FrBush) bush = NULL;
      FrBushPlan *plan;
      double best_kg = 0;

      b.tapping->buckets.value = g_rand_int_range (rand, 1, 8);
      if (g_rand_int_range (rand, 0, 2))
        b.tapping->max_trees.value = g_rand_int_range (rand, 1, 5);
      if (g_rand_int_range (rand, 0, 2))
        b.tapping->peak_boil_l.value = g_rand_double_range (rand, 4, 15);
      bush = fr_bush_new (&b.book, 2026, TODAY);
      plan = fr_bush_plan (bush);
      if (plan->code == FR_BUSH_PLAN_NO_TREES)
        {
          fr_bush_plan_free (plan);
          bush_clear (&b);
          continue;
        }
      adds_up (bush, plan, b.tapping);
      g_assert_true (plan->is_exact);
      /* All of 3^6 ways: no tree of these carries more than two. */
      for (guint way = 0; way < 729; way++)
        {
          guint n_taps = 0, n_trees = 0;
          double kg = 0, litres_l = 0;
          gboolean fits = TRUE;

          for (guint i = 0, rest = way; i < 6; i++, rest /= 3)
            {
              const FrBushTree *row = fr_bush_tree_at (bush, i);
              const guint taps = rest % 3;
              double tree_l;

              fits = fits && (int)taps <= MAX (row->taps_max, 0);
              if (!fits || taps == 0)
                continue;
              tree_l = fr_bush_expected_l (bush, row->id, taps);
              n_taps += taps;
              n_trees++;
              litres_l += tree_l;
              kg += fr_sap_sugar_kg (tree_l, row->expected_brix);
            }
          if (!fits || n_taps > b.tapping->buckets.value || n_trees > b.tapping->max_trees.value
              || litres_l / 35 * 3 > b.tapping->peak_boil_l.value)
            continue;
          best_kg = MAX (best_kg, kg);
        }
      NEAR (plan->sugar_kg, best_kg, 1e-6);
      NEAR (g_array_index (plan->curve, double, MIN (plan->curve->len - 1, (guint)b.tapping->buckets.value)),
            plan->sugar_kg, 1e-6);
      fr_bush_plan_free (plan);
      bush_clear (&b);
    }
}

/* What must be tapped is, even where the guideline would not, with a warning; not when the owner refused or
 * the tree is dead. What never may be is not. */
static void
test_plan_must_and_never (void)
{
  Bush b = bush_begin ();
  FrTree *small = bush_tree (&b, "sugar", 0, 0), *refused = bush_thick (&b, 10, 0),
         *dead = bush_thick (&b, 20, 0);
  FrTree *never = bush_thick (&b, 30, 0), *unmeasured = bush_tree (&b, "sugar", 40, 0),
         *open = bush_thick (&b, 50, 0);
  FrTree *musts[] = { small, refused, dead, unmeasured };
  const guint taps[] = { 1, 0, 0, 0, 1, 2 };
  g_autoptr (FrBush) bush = NULL;
  FrBushPlan *plan;

  for (guint i = 0; i < G_N_ELEMENTS (musts); i++)
    bush_set (&musts[i]->choice, "must");
  bush_girth (&b, small, "2025-09-20", "diameter", 0.2);
  bush_set (&refused->permission, "refused");
  bush_set (&dead->health, "dead");
  bush_set (&never->choice, "never");
  b.tapping->buckets.value = 9;
  bush = fr_bush_new (&b.book, 2026, TODAY);
  plan = fr_bush_plan (bush);
  g_assert_cmpint (plan->code, ==, FR_BUSH_PLAN_OK);
  for (guint i = 0; i < G_N_ELEMENTS (taps); i++)
    g_assert_cmpuint (g_array_index (plan->taps, guint, i), ==, taps[i]);
  g_assert_true (fr_bush_find (bush, small->record.id)->reasons & FR_TREE_OVER_GUIDELINE);
  g_assert_cmpint (open->record.id, ==, 6);
  NEAR (plan->next_bucket_kg, 0, 1e-12);
  fr_bush_plan_free (plan);
  bush_clear (&b);
}

/* Nine trees alike near the boiling place and one alike 500 m off: a longest walk leaves that one out, and
 * its bucket goes to a second tap nearby. */
static void
test_plan_walk (void)
{
  Bush b = bush_begin ();
  g_autoptr (FrBush) bush = NULL;
  FrBushPlan *free_walk, *short_walk;

  bush_feature (&b, "boiling", "0 0");
  for (guint i = 0; i < 9; i++)
    bush_thick (&b, 10 + 5 * (i % 3), 5 * (i / 3));
  bush_thick (&b, 500, 0);
  b.tapping->buckets.value = 10;
  b.tapping->max_trees.value = 10;
  bush = fr_bush_new (&b.book, 2026, TODAY);
  free_walk = fr_bush_plan (bush);
  adds_up (bush, free_walk, b.tapping);
  g_assert_false (free_walk->walk_limits);
  b.tapping->walk_m.value = 150;
  short_walk = fr_bush_plan (bush);
  adds_up (bush, short_walk, b.tapping);
  g_assert_cmpuint (g_array_index (short_walk->taps, guint, 9), ==, 0);
  g_assert_cmpuint (short_walk->n_taps, ==, 10);
  g_assert_cmpfloat (short_walk->walk_m, <=, 150);
  g_assert_cmpfloat (short_walk->sugar_kg, <=, free_walk->sugar_kg * (1 + 1e-9));
  if (g_array_index (free_walk->taps, guint, 9) > 0)
    {
      g_assert_true (short_walk->walk_limits && !short_walk->is_exact);
      g_assert_cmpfloat (free_walk->walk_m, >, 1000);
    }
  fr_bush_plan_free (free_walk);
  fr_bush_plan_free (short_walk);
  bush_clear (&b);
}

/* A walk so short that nothing fits leaves what must be tapped. */
static void
test_plan_walk_and_must (void)
{
  Bush b = bush_begin ();
  g_autoptr (FrBush) bush = NULL;
  FrBushPlan *plan;

  bush_feature (&b, "boiling", "0 0");
  bush_set (&bush_thick (&b, 100, 0)->choice, "must");
  bush_thick (&b, 0, 90);
  b.tapping->buckets.value = 4;
  b.tapping->walk_m.value = 10;
  bush = fr_bush_new (&b.book, 2026, TODAY);
  plan = fr_bush_plan (bush);
  g_assert_cmpint (plan->code, ==, FR_BUSH_PLAN_OK);
  g_assert_true (plan->walk_limits);
  g_assert_cmpuint (plan->n_trees, ==, 1);
  NEAR (plan->walk_m, 200, 1e-9);
  fr_bush_plan_free (plan);
  bush_clear (&b);
}

static void
test_plan_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  for (guint k = 0; k < 12; k++)
    {
      Bush b = bush_random (rand, 30);
      g_autoptr (FrBush) bush = NULL;
      FrBushPlan *plan, *unlimited;

      b.tapping->buckets.value = g_rand_int_range (rand, 2, 30);
      b.tapping->pail_l.value = 15;
      if (k % 2)
        b.tapping->peak_boil_l.value = g_rand_double_range (rand, 10, 60);
      bush = fr_bush_new (&b.book, 2026, TODAY);
      unlimited = fr_bush_plan (bush);
      adds_up (bush, unlimited, b.tapping);
      b.tapping->walk_m.value = unlimited->walk_m * 0.6;
      plan = fr_bush_plan (bush);
      adds_up (bush, plan, b.tapping);
      g_assert_true (plan->walk_limits);
      g_assert_cmpfloat (plan->walk_m, <=, b.tapping->walk_m.value * (1 + 1e-9));
      g_assert_cmpfloat (plan->sugar_kg, <=, unlimited->sugar_kg * (1 + 1e-9));
      /* Six tenths of the walk bring clearly more than nothing. */
      g_assert_cmpfloat (plan->sugar_kg, >, 0.4 * unlimited->sugar_kg);
      g_test_message ("%.0f of %.0f m: %.2f of %.2f kg", plan->walk_m, unlimited->walk_m, plan->sugar_kg,
                      unlimited->sugar_kg);
      fr_bush_plan_free (plan);
      fr_bush_plan_free (unlimited);
      bush_clear (&b);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bush-plan/expected", test_expected);
  g_test_add_func ("/bush-plan/renew", test_renew);
  g_test_add_func ("/bush-plan/codes", test_plan_codes);
  g_test_add_func ("/bush-plan/is-best", test_plan_is_best);
  g_test_add_func ("/bush-plan/must-and-never", test_plan_must_and_never);
  g_test_add_func ("/bush-plan/walk", test_plan_walk);
  g_test_add_func ("/bush-plan/walk-and-must", test_plan_walk_and_must);
  g_test_add_func ("/bush-plan/random", test_plan_random);
  return g_test_run ();
}
