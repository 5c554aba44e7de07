/* The rows and histories of small bushes whose answers can be worked out by hand. */
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
  return g_test_run ();
}
