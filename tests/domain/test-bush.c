/* The rows, histories and holes of small bushes whose answers can be worked out by hand. */
#include "bushes.h"

#include "domain/maths/instrument.h"

static const FrDate TODAY = { 2026, 3, 15 };

static void
test_season_of (void)
{
  g_assert_cmpuint (fr_season_of ((FrDate){ 2026, 3, 15 }), ==, 2026);
  g_assert_cmpuint (fr_season_of ((FrDate){ 2026, 7, 31 }), ==, 2026);
  g_assert_cmpuint (fr_season_of ((FrDate){ 2026, 8, 1 }), ==, 2027);
  g_assert_cmpuint (fr_season_of ((FrDate){ 2026, 12, 31 }), ==, 2027);
}

static void
test_groups (void)
{
  g_assert_cmpint (fr_tree_group ("sugar"), ==, FR_TREE_HARD);
  g_assert_cmpint (fr_tree_group ("black"), ==, FR_TREE_HARD);
  g_assert_cmpint (fr_tree_group ("red"), ==, FR_TREE_SOFT);
  g_assert_cmpint (fr_tree_group ("silver"), ==, FR_TREE_SOFT);
  g_assert_cmpint (fr_tree_group ("norway"), ==, FR_TREE_OTHER);
  g_assert_cmpint (fr_tree_group ("bigleaf"), ==, FR_TREE_OTHER);
  g_assert_cmpint (fr_tree_group ("boxelder"), ==, FR_TREE_OTHER);
  g_assert_cmpint (fr_tree_group ("other"), ==, FR_TREE_OTHER);
  g_assert_cmpint (fr_tree_group ("birch"), ==, FR_TREE_NOT_MAPLE);
  g_assert_cmpint (fr_tree_group ("walnut"), ==, FR_TREE_NOT_MAPLE);
}

static void
test_empty (void)
{
  FrBushBook none = { NULL };
  g_autoptr (FrBush) bush = fr_bush_new (&none, 2026, TODAY);
  g_autoptr (GArray) history = fr_bush_history (bush, 1);
  g_autoptr (GArray) holes = fr_bush_holes (bush, 1);

  g_assert_cmpuint (fr_bush_n_trees (bush), ==, 0);
  g_assert_cmpuint (fr_bush_get_season (bush), ==, 2026);
  g_assert_null (fr_bush_find (bush, 1));
  g_assert_cmpuint (history->len, ==, 0);
  g_assert_cmpuint (holes->len, ==, 0);
}

/* Records stand in any order; rows go by id, and archived trees are not among them. */
static void
test_rows_by_id (void)
{
  Bush b = bush_begin ();
  g_autoptr (FrBush) bush = NULL;

  bush_tree (&b, "sugar", 0, 0)->record.id = 30;
  bush_tree (&b, "sugar", 0, 0)->record.id = 10;
  bush_tree (&b, "sugar", 0, 0)->record.id = 20;
  bush_tree (&b, "sugar", 0, 0)->record.id = 15;
  ((FrRecord *)b.book.trees->pdata[3])->archived = TRUE;
  bush = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_cmpuint (fr_bush_n_trees (bush), ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      const FrBushTree *row = fr_bush_tree_at (bush, i);

      g_assert_cmpint (row->id, ==, 10 * (i + 1));
      g_assert_true (fr_bush_find (bush, row->id) == row);
      g_assert_true (isnan (row->diameter_m) && isnan (row->season_l) && row->rank == 0
                     && row->last_season == 0);
      g_assert_true (row->reasons & FR_TREE_SIZE_UNKNOWN);
    }
  g_assert_null (fr_bush_find (bush, 15));
  g_assert_null (fr_bush_find (bush, 31));
  bush_clear (&b);
}

static void
test_size (void)
{
  Bush b = bush_begin ();
  FrTree *one = bush_tree (&b, "sugar", 0, 0), *later = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) bush = NULL, old = NULL;
  const FrBushTree *row;

  bush_girth (&b, one, "2025-09-20", "girth", 1.50);
  bush_girth (&b, one, "2020-09-20", "girth", 1.40);
  bush_girth (&b, one, "2026-01-01", "girth", 9)->record.archived = TRUE;
  bush_girth (&b, later, "2024-09-20", "diameter", 0.30);
  bush = fr_bush_new (&b.book, 2026, TODAY);
  row = fr_bush_find (bush, one->record.id);
  g_assert_cmpfloat (fabs (row->girth_m - 1.5), <, 1e-12);
  g_assert_cmpfloat (fabs (row->diameter_m - 1.5 / G_PI), <, 1e-12);
  g_assert_cmpstr (row->measured_on, ==, "2025-09-20");
  row = fr_bush_find (bush, later->record.id);
  g_assert_cmpfloat (fabs (row->girth_m - 0.3 * G_PI), <, 1e-12);

  /* Seen from 2023: the measure of then; and for the other one, for want of any, the first after it. */
  old = fr_bush_new (&b.book, 2023, TODAY);
  g_assert_cmpstr (fr_bush_find (old, one->record.id)->measured_on, ==, "2020-09-20");
  g_assert_cmpstr (fr_bush_find (old, later->record.id)->measured_on, ==, "2024-09-20");
  bush_clear (&b);
}

/* 40 L at 2.5 °Bx: density 1008.1 kg/m³ at 20 °C (ICUMSA table, 2.5 % sucrose: 1.00811 kg/L, from memory; the
 * table in tests/tables holds the neighbours), so 40.32 kg with a fortieth of sugar: 1.008 kg. */
static void
test_sugar (void)
{
  Bush b = bush_begin ();
  FrTree *tree = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) bush = NULL;
  const FrBushTree *row;

  bush_yield (&b, tree, 2026, 40, 2.5);
  bush_yield (&b, tree, 2024, 31, 2.0);
  bush_yield (&b, tree, 2025, NAN, 2.2);
  bush = fr_bush_new (&b.book, 2026, TODAY);
  row = fr_bush_find (bush, tree->record.id);
  g_assert_cmpfloat (row->season_l, ==, 40);
  g_assert_cmpfloat (row->season_brix, ==, 2.5);
  g_assert_cmpfloat (fabs (row->season_sugar_kg - 1.008), <, 0.0005);
  g_assert_cmpfloat (row->last_l, ==, 31); /* 2025 has no litres */
  g_assert_cmpuint (row->last_season, ==, 2024);
  bush_clear (&b);
}

/* A hydrometer made for 60 °F in sap at 2 °C reads too much; the same correction as anywhere else. */
static void
test_corrected (void)
{
  Bush b = bush_begin ();
  FrTree *tree = bush_tree (&b, "sugar", 0, 0);
  FrYield *cold = bush_yield (&b, tree, 2026, 10, 2.5), *unsure = bush_yield (&b, tree, 2025, 10, 2.5);
  g_autoptr (FrBush) bush = NULL;
  const FrBushTree *row;
  g_autoptr (GArray) history = NULL;

  bush_set (&cold->instrument, "hydrometer_60f");
  cold->sample_c.value = 2;
  bush_set (&unsure->instrument, "hydrometer_60f"); /* no temperature: cannot be made good */
  bush = fr_bush_new (&b.book, 2026, TODAY);
  row = fr_bush_find (bush, tree->record.id);
  g_assert_cmpfloat (row->season_brix, ==, fr_instrument_correct (FR_INSTRUMENT_HYDROMETER_60F, 2.5, 2).brix);
  g_assert_cmpfloat (row->season_brix, <, 2.5);
  history = fr_bush_history (bush, tree->record.id);
  g_assert_true (isnan (g_array_index (history, FrTreeSeason, 0).brix));
  g_assert_true (isnan (g_array_index (history, FrTreeSeason, 0).sugar_kg));
  bush_clear (&b);
}

/* Two notes on one season: 10 L at 2 and 30 L at 3 °Bx mix to 40 L at 2.75. */
static void
test_two_notes (void)
{
  Bush b = bush_begin ();
  FrTree *tree = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) bush = NULL;
  const FrBushTree *row;

  bush_yield (&b, tree, 2026, 10, 2);
  bush_yield (&b, tree, 2026, 30, 3);
  bush_yield (&b, tree, 2026, 99, 9)->record.archived = TRUE;
  bush = fr_bush_new (&b.book, 2026, TODAY);
  row = fr_bush_find (bush, tree->record.id);
  g_assert_cmpfloat (row->season_l, ==, 40);
  g_assert_cmpfloat (fabs (row->season_brix - 2.75), <, 1e-12);
  bush_clear (&b);
}

static void
test_taps (void)
{
  Bush b = bush_begin ();
  FrTree *tree = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) bush = NULL;
  g_autoptr (GArray) history = NULL;
  const FrBushTree *row;

  bush_tap (&b, tree, 2026, "2026-03-01", 90, 0.8);
  bush_tap (&b, tree, 2026, NULL, 200, 0.8);
  bush_tap (&b, tree, 2026, NULL, 210, 0.8);
  bush_tap (&b, tree, 2026, NULL, 220, 0.8)->record.archived = TRUE;
  bush_tap (&b, tree, 2024, "2024-03-01", 10, 0.8);
  bush_tap (&b, tree, 2024, "2024-03-01", 190, 0.8);
  bush_tap (&b, tree, 2023, NULL, 190, 0.8); /* never set */
  bush_yield (&b, tree, 2024, 50, NAN);
  bush_yield (&b, tree, 2027, 70, NAN); /* after the season */
  bush = fr_bush_new (&b.book, 2026, TODAY);
  row = fr_bush_find (bush, tree->record.id);
  g_assert_cmpuint (row->taps_set, ==, 1);
  g_assert_cmpuint (row->taps_planned, ==, 2);
  history = fr_bush_history (bush, tree->record.id);
  g_assert_cmpuint (history->len, ==, 2);
  g_assert_cmpuint (g_array_index (history, FrTreeSeason, 0).season, ==, 2024);
  g_assert_cmpuint (g_array_index (history, FrTreeSeason, 0).taps, ==, 2);
  g_assert_cmpfloat (g_array_index (history, FrTreeSeason, 0).volume_l, ==, 50);
  g_assert_true (isnan (g_array_index (history, FrTreeSeason, 0).brix));
  g_assert_cmpuint (g_array_index (history, FrTreeSeason, 1).season, ==, 2026);
  g_assert_cmpuint (g_array_index (history, FrTreeSeason, 1).taps, ==, 1);
  g_assert_true (isnan (g_array_index (history, FrTreeSeason, 1).volume_l));
  bush_clear (&b);
}

/* --- rank --- */

static void
test_rank (void)
{
  Bush b = bush_begin ();
  FrTree *watery = bush_tree (&b, "red", 0, 0), *sweet = bush_tree (&b, "sugar", 0, 0);
  FrTree *same = bush_tree (&b, "sugar", 0, 0), *none = bush_tree (&b, "sugar", 0, 0);
  FrTree *put_away = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) bush = NULL;
  g_autoptr (GArray) history = NULL;

  put_away->record.archived = TRUE;
  /* 40 L at 2 °Bx against 30 L at 3 °Bx: about 0.81 and 0.91 kg. */
  bush_yield (&b, watery, 2025, 40, 2);
  bush_yield (&b, sweet, 2025, 30, 3);
  bush_yield (&b, same, 2025, 30, 3);
  bush_yield (&b, put_away, 2025, 90, 3);
  bush = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_cmpuint (fr_bush_find (bush, sweet->record.id)->rank, ==, 1);
  g_assert_cmpuint (fr_bush_find (bush, same->record.id)->rank, ==, 1);
  g_assert_cmpuint (fr_bush_find (bush, watery->record.id)->rank, ==, 3);
  g_assert_cmpuint (fr_bush_find (bush, watery->record.id)->n_ranked, ==, 3);
  g_assert_cmpuint (fr_bush_find (bush, none->record.id)->rank, ==, 0);

  /* In its season the tree that is put away by now was the first. */
  history = fr_bush_history (bush, watery->record.id);
  g_assert_cmpuint (g_array_index (history, FrTreeSeason, 0).rank, ==, 4);
  g_assert_cmpuint (g_array_index (history, FrTreeSeason, 0).n_ranked, ==, 4);
  bush_clear (&b);
}

/* Without any sweetness litres rank; with one, a tree without takes its own of other seasons, or the bush's
 * mean. */
static void
test_rank_without_sweetness (void)
{
  Bush b = bush_begin ();
  FrTree *one = bush_tree (&b, "sugar", 0, 0), *two = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) litres = NULL, sugar = NULL;

  bush_yield (&b, one, 2025, 40, NAN);
  bush_yield (&b, two, 2025, 35, NAN);
  litres = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_cmpuint (fr_bush_find (litres, one->record.id)->rank, ==, 1);
  bush_yield (&b, one, 2024, NAN, 2);
  bush_yield (&b, two, 2024, NAN, 3);
  sugar = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_cmpuint (fr_bush_find (sugar, two->record.id)->rank, ==, 1);
  g_assert_cmpuint (fr_bush_find (sugar, one->record.id)->rank, ==, 2);
  bush_clear (&b);
}

/* Five seasons count, those of the bush: what was gathered in the sixth last no longer does. */
static void
test_rank_of_five_seasons (void)
{
  Bush b = bush_begin ();
  FrTree *old = bush_tree (&b, "sugar", 0, 0), *steady = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) six = NULL, five = NULL;

  bush_yield (&b, old, 2020, 100, 2);
  for (guint season = 2020; season <= 2024; season++)
    bush_yield (&b, steady, season, 30, 2);
  five = fr_bush_new (&b.book, 2024, TODAY);
  g_assert_cmpuint (fr_bush_find (five, old->record.id)->rank, ==, 1);
  bush_yield (&b, steady, 2026, 30, 2); /* a season without data between does not count */
  six = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_cmpuint (fr_bush_find (six, old->record.id)->rank, ==, 0);
  g_assert_cmpuint (fr_bush_find (six, steady->record.id)->rank, ==, 1);
  g_assert_cmpuint (fr_bush_find (six, steady->record.id)->n_ranked, ==, 1);
  bush_clear (&b);
}

/* --- trend --- */

/* Against a bush that is the geometric middle of the two, one tree gains 10 % a season and the other loses as
 * much; seasons differ threefold, which is nobody's doing. Taps double in one season, and litres with them.
 */
static void
test_trend (void)
{
  Bush b = bush_begin ();
  FrTree *gains = bush_tree (&b, "sugar", 0, 0), *loses = bush_tree (&b, "sugar", 0, 0);
  FrTree *rest = bush_tree (&b, "sugar", 0, 0);
  const double weather[] = { 30, 10, 20, 25 };
  g_autoptr (FrBush) bush = NULL, early = NULL;

  for (guint i = 0; i < 4; i++)
    {
      const guint season = 2023 + i;
      double up = pow (1.1, i), down = pow (0.8, i);
      guint n = i == 2 ? 2 : 1;

      for (guint k = 0; k < n; k++)
        bush_tap (&b, gains, season, "2023-03-01", 90, 1);
      bush_tap (&b, loses, season, "2023-03-01", 90, 1);
      bush_tap (&b, rest, season, "2023-03-01", 90, 1);
      bush_yield (&b, gains, season, weather[i] * up * n, NAN);
      bush_yield (&b, loses, season, weather[i] * down, NAN);
      /* So much that the mean per tap is the weather's. */
      bush_yield (&b, rest, season, weather[i] * ((n + 2) - up * n - down), NAN);
    }
  bush = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_cmpfloat (fabs (fr_bush_find (bush, gains->record.id)->trend_ratio - 0.1), <, 1e-12);
  g_assert_cmpfloat (fabs (fr_bush_find (bush, loses->record.id)->trend_ratio + 0.2), <, 1e-12);
  /* Two seasons are no trend. */
  early = fr_bush_new (&b.book, 2024, TODAY);
  g_assert_true (isnan (fr_bush_find (early, gains->record.id)->trend_ratio));
  bush_clear (&b);
}

/* With itself alone to compare with, or without taps on record, nothing is said. */
static void
test_no_trend (void)
{
  Bush b = bush_begin ();
  FrTree *alone = bush_tree (&b, "sugar", 0, 0), *tapless = bush_tree (&b, "sugar", 0, 0);
  g_autoptr (FrBush) bush = NULL;

  for (guint season = 2020; season <= 2025; season++)
    {
      bush_tap (&b, alone, season, "2020-03-01", 90, 1);
      bush_yield (&b, alone, season, 10 + season - 2020, NAN);
      bush_yield (&b, tapless, season, 10, NAN);
    }
  bush = fr_bush_new (&b.book, 2026, TODAY);
  g_assert_true (isnan (fr_bush_find (bush, alone->record.id)->trend_ratio));
  g_assert_true (isnan (fr_bush_find (bush, tapless->record.id)->trend_ratio));
  bush_clear (&b);
}

/* --- holes --- */

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
  g_test_add_func ("/bush/season-of", test_season_of);
  g_test_add_func ("/bush/groups", test_groups);
  g_test_add_func ("/bush/empty", test_empty);
  g_test_add_func ("/bush/rows-by-id", test_rows_by_id);
  g_test_add_func ("/bush/size", test_size);
  g_test_add_func ("/bush/sugar", test_sugar);
  g_test_add_func ("/bush/corrected", test_corrected);
  g_test_add_func ("/bush/two-notes", test_two_notes);
  g_test_add_func ("/bush/taps", test_taps);
  g_test_add_func ("/bush/rank", test_rank);
  g_test_add_func ("/bush/rank-without-sweetness", test_rank_without_sweetness);
  g_test_add_func ("/bush/rank-of-five-seasons", test_rank_of_five_seasons);
  g_test_add_func ("/bush/trend", test_trend);
  g_test_add_func ("/bush/no-trend", test_no_trend);
  g_test_add_func ("/bush/holes", test_holes);
  g_test_add_func ("/bush/verdict", test_verdict);
  g_test_add_func ("/bush/over-guideline", test_over_guideline);
  g_test_add_func ("/bush/other-guideline", test_other_guideline);
  g_test_add_func ("/bush/spacing", test_spacing);
  g_test_add_func ("/bush/places", test_places);
  g_test_add_func ("/bush/no-place", test_no_place);
  return g_test_run ();
}
