/* The round and the worth of a tree in small bushes with answers by hand, and what has to hold of any: a
 * round visits every tree with all its litres, and a tree is worth the walk with it less the walk without. */
#include "bushes.h"

#include "domain/maths/tap-choice.h"

static const FrDate TODAY = { 2026, 3, 15 };

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static double
stop_l (const FrBushRound *round, gint64 tree)
{
  double sum_l = 0;

  for (guint i = 0; i < round->stops->len; i++)
    if (g_array_index (round->stops, FrBushStop, i).tree == tree)
      sum_l += g_array_index (round->stops, FrBushStop, i).volume_l;
  return sum_l;
}

/* An L of three squares of 10 m: its middle is the mean of theirs, (25/3, 25/3), not that of its corners. */
static void
test_start (void)
{
  Bush b = bush_begin ();
  g_autoptr (FrBush) bush = NULL;
  g_autoptr (FrBushRound) round = NULL;
  FrTree *tree = bush_thick (&b, 40, 0);

  bush_tap (&b, tree, 2026, "2026-03-01", 90, 1);
  bush_feature (&b, "building", "500 500\n510 500");
  bush_feature (&b, "boiling", "0 0\n20 0\n20 10\n10 10\n10 20\n0 20");
  bush_feature (&b, "boiling", "900 900");
  bush = fr_bush_new (&b.book, 2026, TODAY);
  round = fr_bush_round (bush, FR_ROUND_SET, NULL, 0, 1);
  g_assert_true (round->has_start);
  NEAR (round->start_x_m, 25.0 / 3, 1e-9);
  NEAR (round->start_y_m, 25.0 / 3, 1e-9);
  bush_clear (&b);
}

/* Two points have no area: their middle. Without a boiling place it is the middle of all trees that have a
 * place. */
static void
test_start_without_area (void)
{
  Bush b = bush_begin ();
  g_autoptr (FrBush) line = NULL, none = NULL;
  g_autoptr (FrBushRound) from_line = NULL, from_trees = NULL;
  FrFeature *boiling;

  bush_tap (&b, bush_thick (&b, 40, 0), 2026, "2026-03-01", 90, 1);
  bush_thick (&b, 0, 20);
  bush_thick (&b, NAN, NAN);
  boiling = bush_feature (&b, "boiling", "1000000 0\n1000002 4");
  line = fr_bush_new (&b.book, 2026, TODAY);
  from_line = fr_bush_round (line, FR_ROUND_SET, NULL, 0, 1);
  NEAR (from_line->start_x_m, 1000001, 1e-6);
  NEAR (from_line->start_y_m, 2, 1e-9);
  boiling->record.archived = TRUE;
  none = fr_bush_new (&b.book, 2026, TODAY);
  from_trees = fr_bush_round (none, FR_ROUND_SET, NULL, 0, 1);
  g_assert_false (from_trees->has_start);
  NEAR (from_trees->start_x_m, 20, 1e-9);
  NEAR (from_trees->start_y_m, 10, 1e-9);
  bush_clear (&b);
}

/* A rectangle of 30 by 40 m with the boiling place in one corner: 140 m round it. */
static void
test_round (void)
{
  Bush b = bush_begin ();
  FrTree *corners[] = { bush_thick (&b, 30, 0), bush_thick (&b, 30, 40), bush_thick (&b, 0, 40) };
  FrTree *idle = bush_thick (&b, 15, 15), *lost = bush_thick (&b, NAN, NAN);
  g_autoptr (FrBush) bush = NULL;
  g_autoptr (FrBushRound) set = NULL, planned = NULL, one = NULL, past_all = NULL;
  double sum_m = 0;

  bush_feature (&b, "boiling", "0 0");
  bush_tap (&b, corners[0], 2026, "2026-03-01", 90, 1);
  bush_tap (&b, corners[1], 2026, "2026-03-01", 90, 1);
  bush_tap (&b, corners[1], 2026, "2026-03-01", 270, 1);
  bush_tap (&b, corners[2], 2026, NULL, 90, 1);
  bush_tap (&b, lost, 2026, "2026-03-01", 90, 1);
  bush = fr_bush_new (&b.book, 2026, TODAY);

  set = fr_bush_round (bush, FR_ROUND_SET, NULL, 0, 1);
  NEAR (set->walk_m, 30 + 40 + 50, 1e-9);
  g_assert_cmpuint (set->n_unplaced, ==, 1);
  g_assert_cmpuint (set->n_trips, ==, 1);
  g_assert_cmpuint (set->stops->len, ==, 2);

  planned = fr_bush_round (bush, FR_ROUND_PLANNED, NULL, 0, 1);
  NEAR (planned->walk_m, 140, 1e-9);
  NEAR (planned->bound_m, 140, 1e-6);
  g_assert_true (planned->is_exact && planned->has_start);
  for (guint i = 0; i < planned->stops->len; i++)
    sum_m += g_array_index (planned->stops, FrBushStop, i).leg_m;
  NEAR (sum_m, 140 - 30, 10 + 1e-9); /* without the way back: 30 or 40 m */

  one = fr_bush_round (bush, FR_ROUND_SELECTED, (gint64[]){ idle->record.id, idle->record.id, 99 }, 3, 1);
  g_assert_cmpuint (one->stops->len, ==, 1);
  NEAR (one->walk_m, 2 * 15 * G_SQRT2, 1e-9);
  past_all = fr_bush_round_past_all (bush);
  g_assert_cmpuint (past_all->stops->len, ==, fr_bush_n_trees (bush) - 1);
  g_assert_cmpuint (past_all->n_trips, ==, 1);
  g_assert_null (fr_bush_round (bush, FR_ROUND_SELECTED, NULL, 0, 1));
  g_assert_null (fr_bush_round (bush, FR_ROUND_SELECTED, &lost->record.id, 1, 1));
  bush_clear (&b);
}

/* Litres go with taps, days and how full: what is expected of the season, over its days, times the ratio. */
static void
test_round_litres (void)
{
  Bush b = bush_begin ();
  FrTree *tree = bush_thick (&b, 10, 0);
  g_autoptr (FrBush) usual = NULL, own = NULL;
  g_autoptr (FrBushRound) average = NULL, peak = NULL, shorter = NULL;
  const double pail_l = 1.5;
  double day_l;

  bush_feature (&b, "boiling", "0 0");
  bush_tap (&b, tree, 2026, "2026-03-01", 90, 1);
  usual = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_cmpfloat (fr_bush_season_days (usual), ==, 35);
  g_assert_cmpfloat (fr_bush_peak_ratio (usual), ==, 3);
  day_l = fr_bush_find (usual, tree->record.id)->expected_l / 35;
  average = fr_bush_round (usual, FR_ROUND_SET, NULL, 0, 1);
  NEAR (average->volume_l, day_l, 1e-12);
  NEAR (stop_l (average, tree->record.id), day_l, 1e-12);

  b.tapping->season_days.value = 20;
  b.tapping->pail_l.value = pail_l;
  own = fr_bush_new (&b.book, 2026, TODAY);
  shorter = fr_bush_round (own, FR_ROUND_SET, NULL, 0, 1);
  NEAR (shorter->volume_l, day_l * 35 / 20, 1e-9);
  /* So many pails that several trips go there alone. */
  peak = fr_bush_round (own, FR_ROUND_SET, NULL, 0, 8);
  NEAR (stop_l (peak, tree->record.id), day_l * 35 / 20 * 8, 1e-9);
  g_assert_cmpuint (peak->n_trips, ==, (guint)ceil (day_l * 35 / 20 * 8 / pail_l));
  NEAR (peak->walk_m, 20 * peak->n_trips, 1e-9);
  for (guint i = 0; i < peak->stops->len; i++)
    g_assert_cmpfloat (g_array_index (peak->stops, FrBushStop, i).volume_l, <=, pail_l + 1e-9);
  bush_clear (&b);
}

static void
test_worth (void)
{
  Bush b = bush_begin ();
  FrTree *near = bush_thick (&b, 30, 0), *far = bush_thick (&b, 30, 40), *lost = bush_thick (&b, NAN, NAN);
  g_autoptr (FrBush) bush = NULL;
  const FrBushTree *row;
  FrTreeWorth worth;

  bush_feature (&b, "boiling", "0 0");
  bush_tap (&b, near, 2026, "2026-03-01", 90, 1);
  bush = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_true (fr_bush_worth (bush, near->record.id, 1, &worth));
  NEAR (worth.detour_m, 60, 1e-9);
  /* Not tapped yet: what one tap would add. There and back by way of the first: 120 instead of 60 m. */
  g_assert_true (fr_bush_worth (bush, far->record.id, 1, &worth));
  NEAR (worth.detour_m, 60, 1e-9);
  row = fr_bush_find (bush, far->record.id);
  NEAR (worth.volume_l, row->expected_l / 35, 1e-12);
  NEAR (worth.sugar_kg, fr_sap_sugar_kg (row->expected_l / 35, row->expected_brix), 1e-12);
  g_assert_false (fr_bush_worth (bush, lost->record.id, 1, &worth));
  g_assert_false (fr_bush_worth (bush, 99, 1, &worth));
  bush_clear (&b);
}

static void
test_worth_is_the_difference (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);

  for (guint round = 0; round < 20; round++)
    {
      Bush b = bush_random (rand, 8);
      g_autoptr (FrBush) bush = NULL;
      gint64 ids[8];

      b.tapping->pail_l.value = g_rand_double_range (rand, 2, 10);
      bush = fr_bush_new (&b.book, 2026, TODAY);
      for (guint t = 0; t < 8; t++)
        {
          const FrBushTree *row = fr_bush_tree_at (bush, t);
          g_autoptr (FrBushRound) with = NULL, without = NULL;
          FrTreeWorth worth;
          guint n = 0;

          for (guint i = 0; i < 8; i++)
            {
              const FrBushTree *other = fr_bush_tree_at (bush, i);

              if (i != t && other->taps_set + other->taps_planned > 0)
                ids[n++] = other->id;
            }
          without = fr_bush_round (bush, FR_ROUND_SELECTED, ids, n, 1);
          ids[n++] = row->id;
          with = fr_bush_round (bush, FR_ROUND_SELECTED, ids, n, 1);
          g_assert_true (fr_bush_worth (bush, row->id, 1, &worth));
          NEAR (worth.detour_m, with->walk_m - (without != NULL ? without->walk_m : 0), 1e-9);
          g_assert_cmpfloat (worth.detour_m, >=, -1e-9);
          NEAR (worth.volume_l, stop_l (with, row->id), 1e-9);
        }
      bush_clear (&b);
    }
}

/* Past what is exact, a tree is taken out of the round or put into it: never less than nothing, and never
 * more than there and back. */
static void
test_worth_in_a_large_bush (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (2);
  Bush b = bush_random (rand, 60);
  g_autoptr (FrBush) bush = fr_bush_new (&b.book, 2026, TODAY);

  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    {
      const FrTree *tree = fr_bush_tree_at (bush, i)->tree;
      const double away_m = hypot (tree->x_m.value, tree->y_m.value);
      FrTreeWorth worth;

      g_assert_true (fr_bush_worth (bush, tree->record.id, 1, &worth));
      g_assert_cmpfloat (worth.detour_m, >=, -1e-9);
      g_assert_cmpfloat (worth.detour_m, <=, 2 * away_m + 1e-9);
    }
  bush_clear (&b);
}

static void
test_round_visits_all (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);

  for (guint k = 0; k < 10; k++)
    {
      Bush b = bush_random (rand, 40);
      g_autoptr (FrBush) bush = NULL;
      g_autoptr (FrBushRound) round = NULL;
      g_autofree guint *visits = g_new0 (guint, 41);
      double carried_l[400] = { 0 }, sum_l = 0;

      b.tapping->pail_l.value = 6;
      bush = fr_bush_new (&b.book, 2026, TODAY);
      round = fr_bush_round (bush, FR_ROUND_PLANNED, NULL, 0, 3);
      g_assert_cmpfloat (round->walk_m, >=, round->bound_m * (1 - 1e-9));
      for (guint i = 0; i < round->stops->len; i++)
        {
          const FrBushStop *stop = &g_array_index (round->stops, FrBushStop, i);

          visits[stop->tree]++;
          carried_l[stop->trip] += stop->volume_l;
          sum_l += stop->volume_l;
          g_assert_cmpuint (stop->trip, <, round->n_trips);
        }
      NEAR (sum_l, round->volume_l, 1e-6);
      for (guint i = 0; i < round->n_trips; i++)
        g_assert_cmpfloat (carried_l[i], <=, 6 + 1e-6);
      for (guint i = 0; i < fr_bush_n_trees (bush); i++)
        {
          const FrBushTree *row = fr_bush_tree_at (bush, i);
          const gboolean tapped = row->taps_set + row->taps_planned > 0;

          g_assert_cmpint (visits[row->id] > 0, ==, tapped);
          /* Once, but for full pails before. */
          if (tapped)
            g_assert_cmpuint (visits[row->id], ==, MAX (1, (guint)ceil (stop_l (round, row->id) / 6 - 1e-9)));
        }
      bush_clear (&b);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bush-round/start", test_start);
  g_test_add_func ("/bush-round/start-without-area", test_start_without_area);
  g_test_add_func ("/bush-round/round", test_round);
  g_test_add_func ("/bush-round/round-litres", test_round_litres);
  g_test_add_func ("/bush-round/worth", test_worth);
  g_test_add_func ("/bush-round/worth-is-the-difference", test_worth_is_the_difference);
  g_test_add_func ("/bush-round/worth-in-a-large-bush", test_worth_in_a_large_bush);
  g_test_add_func ("/bush-round/round-visits-all", test_round_visits_all);
  return g_test_run ();
}
