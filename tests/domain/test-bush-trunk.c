/* One trunk of the bush: its holes, what the guideline says to it, and where the next holes go; by hand, and
 * on random trunks against the exact search. */
#include "bushes.h"

static const FrDate TODAY = { 2026, 3, 15 };

static void
test_holes (void)
{
  Bush b = bush_begin ();
  FrTree *tree = bush_tree (&b, "sugar", 0, 0);
  FrTap *closed = bush_tap (&b, tree, 2024, "2024-03-02", 10, 0.9);
  FrTap *open = bush_tap (&b, tree, 2025, "2025-03-02", NAN, NAN);
  FrTap *now = bush_tap (&b, tree, 2026, "2026-03-02", 90, 0.8);
  FrTap *planned = bush_tap (&b, tree, 2026, NULL, 180, 0.7);
  const FrTap *taps[4] = { closed, open, now, planned };
  const FrHoleState states[4] = { FR_HOLE_CLOSED, FR_HOLE_OPEN, FR_HOLE_THIS_SEASON, FR_HOLE_PLANNED };
  g_autoptr (FrBush) bush = NULL, before = NULL;
  g_autoptr (GArray) holes = NULL, fewer = NULL;

  closed->closed_on = g_strdup ("2025-10-01");
  bush_tap (&b, tree, 2020, "2020-03-01", 300, 0.9)->record.id = 90; /* old enough, on a healthy tree */
  bush_tap (&b, tree, 2025, NULL, 270, 1);                           /* planned and never set */
  bush = fr_bush_new (&b.book, 2026, TODAY);
  holes = fr_bush_holes (bush, tree->record.id);
  g_assert_cmpuint (holes->len, ==, 5);
  g_assert_cmpint (g_array_index (holes, FrBushHole, 0).state, ==, FR_HOLE_CLOSED);
  for (guint i = 0; i < 4; i++)
    {
      const FrBushHole *hole = &g_array_index (holes, FrBushHole, i + 1);

      /* What is planned has stained nothing. */
      g_assert_cmpint (isnan (hole->stain_half_height_m), ==, i == 3);

      g_assert_true (hole->tap == taps[i]);
      g_assert_cmpint (hole->state, ==, states[i]);
      g_assert_cmpuint (hole->season, ==, (guint)taps[i]->season.value);
    }
  g_assert_true (isnan (g_array_index (holes, FrBushHole, 2).angle_deg));
  g_assert_cmpfloat (g_array_index (holes, FrBushHole, 3).height_m, ==, 0.8);

  /* In the season before it was not closed yet. */
  before = fr_bush_new (&b.book, 2025, TODAY);
  fewer = fr_bush_holes (before, tree->record.id);
  g_assert_cmpint (g_array_index (fewer, FrBushHole, 1).state, ==, FR_HOLE_OPEN);
  bush_clear (&b);
}

/* --- what the guideline says --- */

/* A healthy tree of 50 cm may carry two taps by the default guideline (two from 18 in, 45.72 cm; NAMSP
 * Manual). */
static FrTree *
two_tap_tree (Bush *b)
{
  FrTree *tree = bush_tree (b, "sugar", 0, 0);

  bush_girth (b, tree, "2025-09-20", "diameter", 0.50);
  return tree;
}

static void
test_verdict (void)
{
  Bush b = bush_begin ();
  FrTree *sound = two_tap_tree (&b), *weak = two_tap_tree (&b), *dead = two_tap_tree (&b);
  FrTree *never = two_tap_tree (&b), *refused = two_tap_tree (&b), *asked = two_tap_tree (&b);
  FrTree *birch = two_tap_tree (&b), *small = bush_tree (&b, "sugar", 0, 0);
  FrTree *unknown = bush_tree (&b, "sugar", 0, 0), *hard = two_tap_tree (&b), *slow = two_tap_tree (&b);
  const struct
  {
    FrTree *tree;
    int by_size, max;
    guint reasons;
  } cases[] = {
    { sound, 2, 2, 0 },
    { weak, 2, 1, FR_TREE_WEAK },
    { dead, 2, 0, FR_TREE_FAILING },
    { never, 2, 0, FR_TREE_WISHED_OFF },
    { refused, 2, 0, FR_TREE_REFUSED },
    { asked, 2, 2,
      FR_TREE_NOT_ASKED | FR_TREE_WIRES | FR_TREE_DEAD_LIMBS | FR_TREE_LEANS | FR_TREE_ROADSIDE },
    { birch, -1, -1, FR_TREE_NO_RULE },
    { small, 0, 0, FR_TREE_TOO_SMALL },
    { unknown, -1, -1, FR_TREE_SIZE_UNKNOWN },
    { hard, 2, 1, FR_TREE_TAPPED_HARD },
    { slow, 2, 1, FR_TREE_SLOW },
  };
  g_autoptr (FrBush) bush = NULL;

  bush_set (&weak->health, "weak");
  bush_set (&dead->health, "dead");
  bush_set (&never->choice, "never");
  bush_set (&refused->permission, "refused");
  bush_set (&asked->permission, "unknown");
  asked->wires = asked->dead_limbs = asked->lean = asked->roadside = TRUE;
  bush_set (&birch->species, "birch");
  bush_girth (&b, small, "2025-09-20", "diameter", 0.30); /* under 12 in */
  for (guint i = 0; i < 3; i++)
    bush_tap (&b, hard, 2025, "2025-03-01", 120 * i, 1);
  bush_girth (&b, slow, "2020-09-20", "diameter", 0.499);
  bush = fr_bush_new (&b.book, 2026, TODAY);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const FrBushTree *row = fr_bush_find (bush, cases[i].tree->record.id);

      g_test_message ("case %u", i);
      g_assert_cmpint (row->taps_by_size, ==, cases[i].by_size);
      g_assert_cmpint (row->taps_max, ==, cases[i].max);
      g_assert_cmphex (row->reasons, ==, cases[i].reasons);
    }
  /* 1 mm in five years of 365 or 366 days. */
  g_assert_cmpfloat (fabs (fr_bush_find (bush, slow->record.id)->growth_m_per_year - 0.001 / 5), <, 1e-6);
  bush_clear (&b);
}

static void
test_over_guideline (void)
{
  Bush b = bush_begin ();
  FrTree *full = two_tap_tree (&b), *over = two_tap_tree (&b), *must = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) bush = NULL;

  for (guint i = 0; i < 3; i++)
    {
      if (i < 2)
        bush_tap (&b, full, 2026, "2026-03-01", 120 * i, 1);
      bush_tap (&b, over, 2026, i < 2 ? "2026-03-01" : NULL, 120 * i, 1);
    }
  bush_girth (&b, must, "2025-09-20", "diameter", 0.20);
  bush_set (&must->choice, "must");
  bush = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_false (fr_bush_find (bush, full->record.id)->reasons & FR_TREE_OVER_GUIDELINE);
  g_assert_true (fr_bush_find (bush, over->record.id)->reasons & FR_TREE_OVER_GUIDELINE);
  g_assert_true (fr_bush_find (bush, must->record.id)->reasons & FR_TREE_OVER_GUIDELINE);
  g_assert_true (fr_bush_find (bush, must->record.id)->reasons & FR_TREE_TOO_SMALL);
  bush_clear (&b);
}

/* Another guideline: one tap from 10 in, a second only for a tree that is known to grow. */
static void
test_other_guideline (void)
{
  Bush b = bush_begin ();
  FrTree *tree = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) bush = NULL;
  const FrBushTree *row;

  bush_girth (&b, tree, "2025-09-20", "diameter", 0.60);
  bush_set (&b.tapping->guideline, "one_tap");
  bush = fr_bush_new (&b.book, 2026, TODAY);
  row = fr_bush_tree_at (bush, 0);
  g_assert_cmpint (row->taps_by_size, ==, 2);
  g_assert_cmpint (row->taps_max, ==, 1);
  g_assert_cmphex (row->reasons, ==, FR_TREE_GROWTH_UNKNOWN);
  g_assert_cmpstr (fr_bush_guideline (bush)->code, ==, "one_tap");
  bush_clear (&b);
}

/* --- places --- */

static void
test_spacing (void)
{
  Bush b = bush_begin ();
  FrBushBook bare = b.book;
  g_autoptr (FrBush) published = NULL, own = NULL;
  FrBushSpacing rule;

  bare.tapping = NULL;
  published = fr_bush_new (&bare, 2026, TODAY);
  rule = fr_bush_spacing (published);
  /* 6 and 12 in, 2 and 4 ft. */
  g_assert_cmpfloat (fabs (rule.sideways_m - 0.1524), <, 1e-12);
  g_assert_cmpfloat (fabs (rule.up_down_m - 0.3048), <, 1e-12);
  g_assert_cmpfloat (fabs (rule.min_height_m - 0.6096), <, 1e-12);
  g_assert_cmpfloat (fabs (rule.max_height_m - 1.2192), <, 1e-12);
  bush_set (&b.tapping->spacing, "own");
  b.tapping->sideways_m.value = 0.1;
  b.tapping->up_down_m.value = 0.4;
  b.tapping->min_height_m.value = 1.5;
  own = fr_bush_new (&b.book, 2026, TODAY);
  rule = fr_bush_spacing (own);
  g_assert_cmpfloat (rule.sideways_m, ==, 0.1);
  g_assert_cmpfloat (rule.up_down_m, ==, 0.4);
  g_assert_cmpfloat (rule.min_height_m, ==, 1.5);
  g_assert_cmpfloat (rule.max_height_m, ==, 1.5);
  bush_clear (&b);
}

/* The trunk of the command line's example: 150 cm round, one hole due east at 80 cm. The far side is best, 75
 * cm away, five times the asked 15 cm. */
static void
test_places (void)
{
  Bush b = bush_begin ();
  FrTree *tree = bush_tree (&b, "sugar", 0, 0), *unmeasured = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) bush = NULL;
  FrBushPlace place, places[6];
  FrTap *old, *planned;

  bush_girth (&b, tree, "2025-09-20", "girth", 1.50);
  bush_set (&b.tapping->spacing, "own");
  b.tapping->sideways_m.value = 0.15;
  b.tapping->up_down_m.value = 0.30;
  b.tapping->min_height_m.value = 0.60;
  b.tapping->max_height_m.value = 1.20;
  old = bush_tap (&b, tree, 2024, "2024-03-01", 90, 0.8);
  bush_tap (&b, tree, 2023, "2023-03-01", NAN, 0.8); /* nobody knows where */
  bush = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_true (fr_bush_places (bush, tree->record.id, 1, &place));
  g_assert_cmpfloat (fabs (place.angle_deg - 270), <, 1e-9);
  g_assert_cmpfloat (fabs (place.clearance_ratio - 5), <, 1e-9);
  g_assert_cmpint (place.nearest_tap, ==, old->record.id);
  g_assert_true (place.keeps_rule && !place.in_column);
  g_assert_false (fr_bush_places (bush, unmeasured->record.id, 1, &place));
  g_assert_false (fr_bush_places (bush, 99, 1, &place));
  g_assert_true (fr_bush_places (bush, tree->record.id, 0, NULL));

  /* Straight above the old hole, 45 cm: one and a half times the asked distance, and in its column all the
   * same. */
  g_assert_true (fr_bush_place_at (bush, tree->record.id, 90, 1.25, 0, &place));
  g_assert_cmpfloat (fabs (place.clearance_ratio - 1.5), <, 1e-9);
  g_assert_true (place.in_column);
  g_assert_true (fr_bush_place_at (bush, tree->record.id, 90, 1.25, old->record.id, &place));
  g_assert_true (isnan (place.clearance_ratio) && place.keeps_rule && place.nearest_tap == 0);
  g_clear_pointer (&bush, fr_bush_free);

  /* A planned hole is kept clear of, but not of itself while it is moved. */
  planned = bush_tap (&b, tree, 2026, NULL, 270, 0.8);
  bush = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_true (fr_bush_place_at (bush, tree->record.id, 270, 0.8, 0, &place));
  g_assert_cmpfloat (place.clearance_ratio, ==, 0);
  g_assert_cmpint (place.nearest_tap, ==, planned->record.id);
  g_assert_true (fr_bush_place_at (bush, tree->record.id, 270, 0.8, planned->record.id, &place));
  g_assert_cmpfloat (fabs (place.clearance_ratio - 5), <, 1e-9);

  /* Six at once, more than the search takes: all keep the rule to the holes and to each other. */
  g_assert_true (fr_bush_places (bush, tree->record.id, 6, places));
  for (guint i = 0; i < 6; i++)
    for (guint k = 0; k < i; k++)
      {
        double apart_deg = fabs (places[i].angle_deg - places[k].angle_deg), sideways_m;

        sideways_m = MIN (apart_deg, 360 - apart_deg) / 360 * 1.5;
        g_assert_true (MAX (sideways_m / 0.15, fabs (places[i].height_m - places[k].height_m) / 0.3)
                       > 1 - 1e-9);
      }
  bush_clear (&b);
}

/* Whether there is a place is asked of every tree without a search: on random trunks it must agree with the
 * search, which is exact. */
static void
test_no_place (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260315);
  guint n_none = 0;

  for (guint round = 0; round < 400; round++)
    {
      Bush b = bush_begin ();
      FrTree *tree = bush_tree (&b, "sugar", 0, 0);
      g_autoptr (FrBush) bush = NULL;
      const guint n = g_rand_int_range (rand, 1, 26);
      FrBushPlace place;
      gboolean none;

      bush_girth (&b, tree, "2025-09-20", "girth", g_rand_double_range (rand, 0.2, 1.8));
      for (guint i = 0; i < n; i++)
        bush_tap (&b, tree, 2001 + i, "2001-03-01", g_rand_int_range (rand, 0, 361),
                  0.01 * g_rand_int_range (rand, 40, 140));
      bush = fr_bush_new (&b.book, 2026, TODAY);
      g_assert_true (fr_bush_places (bush, tree->record.id, 1, &place));
      none = (fr_bush_tree_at (bush, 0)->reasons & FR_TREE_NO_PLACE) != 0;
      g_assert_cmpint (none, ==, !place.keeps_rule);
      if (none)
        g_assert_cmpint (fr_bush_tree_at (bush, 0)->taps_max, ==, 0);
      n_none += none;
      bush_clear (&b);
    }
  g_test_message ("%u of 400 trunks are full", n_none);
  g_assert_cmpuint (n_none, >, 40);
  g_assert_cmpuint (n_none, <, 360);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bush-trunk/holes", test_holes);
  g_test_add_func ("/bush-trunk/verdict", test_verdict);
  g_test_add_func ("/bush-trunk/over-guideline", test_over_guideline);
  g_test_add_func ("/bush-trunk/other-guideline", test_other_guideline);
  g_test_add_func ("/bush-trunk/spacing", test_spacing);
  g_test_add_func ("/bush-trunk/places", test_places);
  g_test_add_func ("/bush-trunk/no-place", test_no_place);
  return g_test_run ();
}
