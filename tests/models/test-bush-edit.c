/* Every edit of the sugarbush: what it makes of the book, what it is called, that one undo takes it back
 * whole, and what is refused. Places by tape and compass are checked against the triangle's closed form. */
#include <math.h>
#include <string.h>

#include "edits.h"
#include "models/bush-edit.h"

static const FrDate today = { 2027, 1, 16 };

static const FrTree *
tree_of (FrBook *book, gint64 id)
{
  return (const FrTree *)fr_book_find (book, FR_KIND_TREE, id);
}

static const FrTap *
tap_of (FrBook *book, gint64 id)
{
  return (const FrTap *)fr_book_find (book, FR_KIND_TAP, id);
}

static gint64
add_tree (FrBook *book, const char *name, double x_m, double y_m)
{
  TAKE ("add-tree", fr_bush_edit_add_tree (book, name, "sugar", x_m, y_m, &error));
  return last (book, FR_KIND_TREE)->id;
}

static void
test_names (void)
{
  static const char *const names[][2] = {
    { "T9", "T10" },      { "T009", "T010" },       { "Row 2 tree 14", "Row 2 tree 15" }, { "7a", "8a" },
    { "Old gate", "T1" }, { "A99999999999", "T1" }, { "Ahorn №3", "Ahorn №4" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (FrBook) book = book_new ();
      g_autofree char *first = fr_bush_edit_next_name (book);
      g_autofree char *next = NULL;

      g_assert_cmpstr (first, ==, "T1");
      add_tree (book, names[i][0], NAN, NAN);
      next = fr_bush_edit_next_name (book);
      g_assert_cmpstr (next, ==, names[i][1]);
    }
}

static void
test_next_name_is_free (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autofree char *next = NULL;

  add_tree (book, "T2", NAN, NAN);
  add_tree (book, "T3", NAN, NAN);
  add_tree (book, "T1", NAN, NAN);
  next = fr_bush_edit_next_name (book);
  g_assert_cmpstr (next, ==, "T4");
  add_tree (book, NULL, 1, 2);
  g_assert_cmpstr (fr_record_label (last (book, FR_KIND_TREE)), ==, "T4");
}

static void
test_add_tree (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 id = add_tree (book, "  Gate ", 3.5, -2);
  const FrTree *tree = tree_of (book, id);

  g_assert_cmpstr (tree->name, ==, "Gate");
  g_assert_cmpstr (tree->species, ==, "sugar");
  g_assert_cmpfloat (tree->x_m.value, ==, 3.5);
  g_assert_cmpfloat (tree->y_m.value, ==, -2);
  REFUSE ("cannot be empty", fr_bush_edit_add_tree (book, " ", "sugar", 0, 0, &error));
  REFUSE ("does not know", fr_bush_edit_add_tree (book, "A", "oak", 0, 0, &error));
  REFUSE ("both or neither", fr_bush_edit_add_tree (book, "A", "red", 4, NAN, &error));
  REFUSE ("too large", fr_bush_edit_add_tree (book, "A", "red", INFINITY, 0, &error));
}

/* 20 m in direction 30° is 10 m east and 20 √3/2 m north; a compass that points 10° east of true north reads
 * 20° there. */
static void
test_tape_and_compass (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 from = add_tree (book, "Gate", 100, 50);
  gint64 lost = add_tree (book, "Lost", NAN, NAN);
  const FrTree *tree;

  TAKE ("add-tree", fr_bush_edit_add_measured (book, NULL, "red", from, 20, 30, NAN, NAN, today, &error));
  tree = (const FrTree *)last (book, FR_KIND_TREE);
  g_assert_cmpfloat_with_epsilon (tree->x_m.value, 110, 1e-9);
  g_assert_cmpfloat_with_epsilon (tree->y_m.value, 50 + 10 * sqrt (3), 1e-9);
  g_assert_cmpstr (tree->measured_from, ==, "Gate");
  g_assert_cmpfloat (tree->from_distance_m.value, ==, 20);
  g_assert_cmpfloat (tree->from_bearing_deg.value, ==, 30);
  g_assert_cmpuint (count (book, FR_KIND_GIRTH), ==, 0);

  TAKE ("edit-ground", fr_bush_edit_single (book, FR_KIND_GROUND, "declination_deg", NULL, 10, "10", &error));
  TAKE ("add-tree",
        fr_bush_edit_add_measured (book, "Second", "red", from, 20, 20, 1.5, 0.48, today, &error));
  tree = (const FrTree *)last (book, FR_KIND_TREE);
  g_assert_cmpfloat_with_epsilon (tree->x_m.value, 110, 1e-9);
  g_assert_cmpfloat_with_epsilon (tree->y_m.value, 50 + 10 * sqrt (3), 1e-9);
  g_assert_cmpfloat (tree->from_bearing_deg.value, ==, 20);
  g_assert_cmpuint (count (book, FR_KIND_GIRTH), ==, 2);
  g_assert_cmpstr (((const FrGirth *)last (book, FR_KIND_GIRTH))->measured_on, ==, "2027-01-16");
  g_assert_cmpint (((const FrGirth *)last (book, FR_KIND_GIRTH))->tree, ==, tree->record.id);

  REFUSE ("no place on the plan",
          fr_bush_edit_add_measured (book, NULL, "red", lost, 5, 5, NAN, NAN, today, &error));
  REFUSE ("no longer", fr_bush_edit_add_measured (book, NULL, "red", 99, 5, 5, NAN, NAN, today, &error));
  REFUSE ("needed", fr_bush_edit_add_measured (book, NULL, "red", from, NAN, 5, NAN, NAN, today, &error));
  REFUSE ("360", fr_bush_edit_add_measured (book, NULL, "red", from, 5, 361, NAN, NAN, today, &error));
  REFUSE ("is too little",
          fr_bush_edit_add_measured (book, NULL, "red", from, -1, 5, NAN, NAN, today, &error));
  REFUSE ("allowed", fr_bush_edit_add_measured (book, NULL, "red", from, 5, 5, 99, NAN, today, &error));
}

static void
test_move_and_place (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 ids[] = { add_tree (book, "A", 1, 2), add_tree (book, "B", NAN, NAN), add_tree (book, "C", -1, 0) };

  TAKE ("move-trees", fr_bush_edit_move (book, ids, 3, 2, -3, &error));
  g_assert_cmpfloat (tree_of (book, ids[0])->x_m.value, ==, 3);
  g_assert_cmpfloat (tree_of (book, ids[0])->y_m.value, ==, -1);
  g_assert_true (isnan (tree_of (book, ids[1])->x_m.value));
  g_assert_cmpfloat (tree_of (book, ids[2])->y_m.value, ==, -3);
  TAKE ("edit-tree", fr_bush_edit_move (book, ids, 2, 1, 0, &error)); /* one of the two has a place */
  NOTHING (fr_bush_edit_move (book, ids, 3, 0, 0, &error));
  NOTHING (fr_bush_edit_move (book, &ids[1], 1, 5, 5, &error));
  NOTHING (fr_bush_edit_move (book, NULL, 0, 5, 5, &error));
  REFUSE ("not known", fr_bush_edit_move (book, ids, 3, NAN, 0, &error));
  REFUSE ("“A”: ", fr_bush_edit_move (book, ids, 3, 1e7, 0, &error));

  TAKE ("edit-tree", fr_bush_edit_place (book, ids[1], 7, 8, &error));
  g_assert_cmpfloat (tree_of (book, ids[1])->x_m.value, ==, 7);
  NOTHING (fr_bush_edit_place (book, ids[1], 7, 8, &error));
  REFUSE ("both or neither", fr_bush_edit_place (book, ids[1], 7, NAN, &error));
  TAKE ("edit-tree", fr_bush_edit_place (book, ids[1], NAN, NAN, &error));
  g_assert_true (isnan (tree_of (book, ids[1])->y_m.value));
}

static void
test_set (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 ids[] = { add_tree (book, "A", 1, 2), add_tree (book, "B", NAN, NAN), 77 };

  TAKE ("edit-trees", fr_bush_edit_set (book, ids, 2, "health", "weak", NAN, &error));
  g_assert_cmpstr (tree_of (book, ids[1])->health, ==, "weak");
  NOTHING (fr_bush_edit_set (book, ids, 2, "health", "weak", NAN, &error));
  TAKE ("edit-trees", fr_bush_edit_set (book, ids, 2, "wires", NULL, 1, &error));
  g_assert_true (tree_of (book, ids[0])->wires);
  TAKE ("edit-tree", fr_bush_edit_set (book, ids, 1, "wires", NULL, 0, &error));
  g_assert_false (tree_of (book, ids[0])->wires);
  TAKE ("edit-tree", fr_bush_edit_set (book, ids, 1, "elevation_m", "820 ft", 249.936, &error));
  g_assert_cmpstr (tree_of (book, ids[0])->elevation_m.typed, ==, "820 ft");
  NOTHING (fr_bush_edit_set (book, ids, 1, "elevation_m", NULL, 249.936, &error));
  TAKE ("edit-tree", fr_bush_edit_set (book, ids, 1, "elevation_m", NULL, NAN, &error));
  g_assert_true (isnan (tree_of (book, ids[0])->elevation_m.value));
  g_assert_null (tree_of (book, ids[0])->elevation_m.typed);
  TAKE ("edit-trees", fr_bush_edit_set (book, ids, 2, "note", "  two stems\n", NAN, &error));
  g_assert_cmpstr (tree_of (book, ids[0])->note, ==, "two stems");
  TAKE ("edit-trees", fr_bush_edit_set (book, ids, 2, "note", "", NAN, &error));
  g_assert_null (tree_of (book, ids[0])->note);
  REFUSE ("“A”: This cannot be empty", fr_bush_edit_set (book, ids, 2, "name", "", NAN, &error));
  REFUSE ("does not know", fr_bush_edit_set (book, ids, 1, "health", "fine", NAN, &error));
  REFUSE ("no longer", fr_bush_edit_set (book, ids, 3, "health", "dead", NAN, &error));
  REFUSE ("both or neither", fr_bush_edit_set (book, &ids[1], 1, "x_m", NULL, 3, &error));
}

static void
test_girths (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 id = add_tree (book, "A", 1, 2);
  const FrGirth *girth;

  TAKE ("add-girth", fr_bush_edit_girth (book, id, today, TRUE, 1.5, "150", &error));
  TAKE ("add-girth", fr_bush_edit_girth (book, id, today, FALSE, 0.477, NULL, &error));
  TAKE ("edit-girth", fr_bush_edit_girth (book, id, today, TRUE, 1.52, "152", &error));
  g_assert_cmpuint (count (book, FR_KIND_GIRTH), ==, 2);
  girth = (const FrGirth *)fr_record_list_get (fr_book_get_list (book, FR_KIND_GIRTH), 0);
  g_assert_cmpfloat (girth->size_m.value, ==, 1.52);
  g_assert_cmpstr (girth->size_m.typed, ==, "152");
  NOTHING (fr_bush_edit_girth (book, id, today, TRUE, 1.52, "152", &error));
  TAKE ("add-girth", fr_bush_edit_girth (book, id, (FrDate){ 2026, 1, 16 }, TRUE, 1.5, NULL, &error));
  REFUSE ("needed", fr_bush_edit_girth (book, id, today, TRUE, NAN, NULL, &error));
  REFUSE ("allowed", fr_bush_edit_girth (book, id, today, TRUE, 41, NULL, &error));
  REFUSE ("empty", fr_bush_edit_girth (book, id, (FrDate){ 0, 0, 0 }, TRUE, 1, NULL, &error));
  REFUSE ("no longer", fr_bush_edit_girth (book, 9, today, TRUE, 1, NULL, &error));
  TAKE ("delete-girth", fr_bush_edit_remove_girth (book, girth->record.id, &error));
  REFUSE ("no longer", fr_bush_edit_remove_girth (book, 88, &error));
}

static void
test_yields (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 id = add_tree (book, "A", 1, 2);
  const FrYield *yield;

  TAKE ("add-yield", fr_bush_edit_yield (book, id, 2026, 31, 2.4, "refractometer", 4, &error));
  TAKE ("edit-yield", fr_bush_edit_yield (book, id, 2026, 33, 2.4, NULL, NAN, &error));
  yield = (const FrYield *)last (book, FR_KIND_YIELD);
  g_assert_cmpuint (count (book, FR_KIND_YIELD), ==, 1);
  g_assert_cmpfloat (yield->volume_l.value, ==, 33);
  g_assert_cmpstr (yield->instrument, ==, "refractometer");
  g_assert_true (isnan (yield->sample_c.value));
  NOTHING (fr_bush_edit_yield (book, id, 2026, 33, 2.4, NULL, NAN, &error));
  REFUSE ("allowed", fr_bush_edit_yield (book, id, 2026, -1, NAN, NULL, NAN, &error));
  REFUSE ("no longer", fr_bush_edit_yield (book, 5, 2026, 1, NAN, NULL, NAN, &error));
  TAKE ("delete-yield", fr_bush_edit_remove_yield (book, id, 2026, &error));
  NOTHING (fr_bush_edit_remove_yield (book, id, 2026, &error));
}

static void
test_plan_set_pull (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 ids[] = { add_tree (book, "A", 1, 2), add_tree (book, "B", 3, 4) };
  const FrBushPlace places[]
      = { { .angle_deg = 180, .height_m = 0.9 }, { .angle_deg = NAN, .height_m = NAN } };
  const FrDate tapped = { 2027, 2, 20 }, pulled = { 2027, 4, 4 };

  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[0], 2027, places, 2, &error));
  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[1], 2027, NULL, 1, &error));
  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[1], 2028, NULL, 1, &error));
  NOTHING (fr_bush_edit_plan_taps (book, ids[1], 2028, NULL, 0, &error));
  REFUSE ("no longer", fr_bush_edit_plan_taps (book, 44, 2028, NULL, 1, &error));
  REFUSE ("allowed", fr_bush_edit_plan_taps (book, ids[1], 20280, NULL, 1, &error));
  g_assert_cmpfloat (tap_of (book, 1)->direction_deg.value, ==, 180);
  g_assert_cmpfloat (tap_of (book, 1)->height_m.value, ==, 0.9);
  g_assert_true (isnan (tap_of (book, 2)->height_m.value));
  g_assert_cmpfloat (tap_of (book, 1)->season.value, ==, 2027);

  NOTHING (fr_bush_edit_pull_taps (book, ids, 2, 2027, pulled, &error));
  TAKE ("set-taps", fr_bush_edit_set_taps (book, ids, 2, 2027, tapped, &error));
  for (gint64 tap = 1; tap <= 3; tap++)
    g_assert_cmpstr (tap_of (book, tap)->set_on, ==, "2027-02-20");
  g_assert_null (tap_of (book, 4)->set_on); /* another season's */
  NOTHING (fr_bush_edit_set_taps (book, ids, 2, 2027, pulled, &error));

  REFUSE ("before the tap was set", fr_bush_edit_pull_taps (book, ids, 2, 2027, today, &error));
  REFUSE ("not known", fr_bush_edit_pull_taps (book, ids, 2, 2027, (FrDate){ 2027, 2, 29 }, &error));
  TAKE ("pull-taps", fr_bush_edit_pull_taps (book, &ids[1], 1, 2027, pulled, &error));
  g_assert_cmpstr (tap_of (book, 3)->pulled_on, ==, "2027-04-04");
  g_assert_null (tap_of (book, 1)->pulled_on);

  TAKE ("move-tap", fr_bush_edit_move_tap (book, 1, 200, 0.8, &error));
  g_assert_cmpfloat (tap_of (book, 1)->direction_deg.value, ==, 200);
  NOTHING (fr_bush_edit_move_tap (book, 1, 200, 0.8, &error));
  REFUSE ("allowed", fr_bush_edit_move_tap (book, 1, 361, 0.8, &error));
  REFUSE ("no longer", fr_bush_edit_move_tap (book, 55, 1, 0.8, &error));

  TAKE ("archive-tap", fr_bush_edit_remove_tap (book, 1, &error));
  g_assert_true (tap_of (book, 1)->record.archived);
  NOTHING (fr_bush_edit_remove_tap (book, 1, &error));
  TAKE ("delete-tap", fr_bush_edit_remove_tap (book, 4, &error));
  g_assert_null (tap_of (book, 4));
}

static GPtrArray *
records_of (FrBook *book, FrKindId kind)
{
  GPtrArray *records = g_ptr_array_new ();

  for (guint i = 0; i < count (book, kind); i++)
    g_ptr_array_add (records, (gpointer)fr_record_list_get (fr_book_get_list (book, kind), i));
  return records;
}

/* A: two planned, one wanted; B: one set, two wanted, girth known; C: nothing, one wanted, girth unknown; D:
 * one set, none wanted; E: one planned, none wanted; all by a plan made by hand. */
static void
test_take_plan (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 ids[5];
  const guint wanted[] = { 1, 2, 1, 0, 0 };
  g_autoptr (GArray) taps = g_array_new (FALSE, FALSE, sizeof (guint));
  FrBushPlan plan = { .code = FR_BUSH_PLAN_NO_BUCKETS, .taps = taps };
  FrBushBook records = { 0 };
  g_autoptr (FrBush) bush = NULL;
  const FrTap *tap;

  for (guint i = 0; i < 5; i++)
    ids[i] = add_tree (book, (const char *[]){ "A", "B", "C", "D", "E" }[i], NAN, NAN);
  g_array_append_vals (taps, wanted, G_N_ELEMENTS (wanted));
  TAKE ("add-girth", fr_bush_edit_girth (book, ids[1], today, TRUE, 1.9, NULL, &error));
  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[1], 2027, NULL, 1, &error)); /* 1 */
  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[3], 2027, NULL, 1, &error)); /* 2 */
  TAKE ("set-taps", fr_bush_edit_set_taps (book, (gint64[]){ ids[1], ids[3] }, 2, 2027, today, &error));
  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[0], 2027, NULL, 2, &error)); /* 3, 4 */
  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[4], 2027, NULL, 1, &error)); /* 5 */
  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[4], 2026, NULL, 1, &error)); /* 6 */

  records.trees = records_of (book, FR_KIND_TREE);
  records.girths = records_of (book, FR_KIND_GIRTH);
  records.taps = records_of (book, FR_KIND_TAP);
  records.yields = records_of (book, FR_KIND_YIELD);
  records.features = records_of (book, FR_KIND_FEATURE);
  bush = fr_bush_new (&records, 2027, today);
  REFUSE ("no plan", fr_bush_edit_take_plan (book, bush, &plan, &error));
  plan.code = FR_BUSH_PLAN_OK;
  TAKE ("plan-taps", fr_bush_edit_take_plan (book, bush, &plan, &error));

  g_assert_nonnull (tap_of (book, 3)); /* the older one stays */
  g_assert_null (tap_of (book, 4));
  g_assert_null (tap_of (book, 5));
  g_assert_nonnull (tap_of (book, 6)); /* another season's */
  g_assert_nonnull (tap_of (book, 2));
  g_assert_cmpuint (count (book, FR_KIND_TAP), ==, 6);
  tap = tap_of (book, 7);
  g_assert_cmpint (tap->tree, ==, ids[1]);
  g_assert_false (isnan (tap->direction_deg.value));
  g_assert_cmpfloat (tap->season.value, ==, 2027);
  tap = tap_of (book, 8);
  g_assert_cmpint (tap->tree, ==, ids[2]);
  g_assert_true (isnan (tap->height_m.value));

  g_clear_pointer (&bush, fr_bush_free);
  g_ptr_array_unref (records.taps);
  records.taps = records_of (book, FR_KIND_TAP);
  bush = fr_bush_new (&records, 2027, today);
  NOTHING (fr_bush_edit_take_plan (book, bush, &plan, &error));

  g_ptr_array_unref (records.trees);
  g_ptr_array_unref (records.girths);
  g_ptr_array_unref (records.taps);
  g_ptr_array_unref (records.yields);
  g_ptr_array_unref (records.features);
}

/* A: nothing; B: a measure and a planned tap; C: a tap that was set; D: a yield that was put away. */
static void
test_remove (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 ids[] = { add_tree (book, "A", 1, 2), add_tree (book, "B", 3, 4), add_tree (book, "C", 5, 6),
                   add_tree (book, "D", 7, 8) };
  g_autoptr (FrRecord) away = NULL;
  g_autoptr (FrChange) put_away = fr_change_new ("archive-yield", NULL);

  TAKE ("add-girth", fr_bush_edit_girth (book, ids[1], today, TRUE, 1.5, NULL, &error));
  TAKE ("add-girth", fr_bush_edit_girth (book, ids[2], today, TRUE, 1.6, NULL, &error));
  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[2], 2027, NULL, 2, &error));
  TAKE ("set-taps", fr_bush_edit_set_taps (book, &ids[2], 1, 2027, today, &error));
  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[1], 2027, NULL, 1, &error));
  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[2], 2027, NULL, 1, &error));
  TAKE ("add-yield", fr_bush_edit_yield (book, ids[3], 2026, 31, 2.4, NULL, NAN, &error));
  away = fr_record_copy (last (book, FR_KIND_YIELD));
  away->archived = TRUE;
  fr_change_add (put_away, last (book, FR_KIND_YIELD), away);
  g_assert_true (fr_book_apply (book, put_away, NULL));

  REFUSE ("no longer", fr_bush_edit_remove (book, (gint64[]){ ids[0], 99 }, 2, &error));
  TAKE ("delete-tree", fr_bush_edit_remove (book, ids, 1, &error));
  g_assert_true (fr_book_undo (book, NULL));
  TAKE ("archive-tree", fr_bush_edit_remove (book, &ids[2], 1, &error));
  TAKE ("restore-tree", fr_bush_edit_restore (book, &ids[2], 1, &error));
  NOTHING (fr_bush_edit_restore (book, &ids[2], 1, &error));
  TAKE ("delete-trees", fr_bush_edit_remove (book, ids, 2, &error));
  g_assert_cmpuint (count (book, FR_KIND_TREE), ==, 2);
  g_assert_cmpuint (count (book, FR_KIND_GIRTH), ==, 1);
  g_assert_cmpuint (count (book, FR_KIND_TAP), ==, 3); /* C's, planned ones too */
  g_assert_true (fr_book_undo (book, NULL));
  TAKE ("archive-trees", fr_bush_edit_remove (book, ids, 4, &error));
  g_assert_cmpuint (count (book, FR_KIND_TREE), ==, 2);
  g_assert_true (tree_of (book, ids[2])->record.archived);
  g_assert_true (tree_of (book, ids[3])->record.archived);
  NOTHING (fr_bush_edit_remove (book, &ids[2], 2, &error));
  TAKE ("restore-trees", fr_bush_edit_restore (book, &ids[2], 2, &error));
}

static void
gather (FrBook *book, const char *scope, gint64 tree, gint64 tap)
{
  g_autoptr (FrRecord) record = fr_book_new_record (book, FR_KIND_GATHERING, 0, NULL);
  FrGathering *gathering = (FrGathering *)record;
  g_autoptr (FrChange) change = fr_change_new ("add-gathering", NULL);
  g_autoptr (GError) error = NULL;

  gathering->gathered_utc = 1710000000; /* another season than the lists hold */
  fr_record_set_text (record, fr_kind_field (record->kind, "scope"), scope);
  gathering->tree = tree;
  gathering->tap = tap;
  fr_amount_set (&gathering->volume_l, 3, NULL);
  fr_change_add (change, NULL, record);
  fr_book_apply (book, change, &error);
  g_assert_no_error (error);
}

/* What was gathered of a tree or a tap stays, so they do too. */
static void
test_remove_gathered (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 ids[] = { add_tree (book, "A", 1, 2), add_tree (book, "B", 3, 4), add_tree (book, "C", 5, 6) };
  g_autoptr (GArray) taps = g_array_new (FALSE, TRUE, sizeof (guint));
  FrBushPlan plan = { .code = FR_BUSH_PLAN_OK, .taps = taps };
  FrBushBook records = { 0 };
  g_autoptr (FrBush) bush = NULL;

  TAKE ("plan-taps", fr_bush_edit_plan_taps (book, ids[0], 2027, NULL, 2, &error)); /* 1, 2 */
  gather (book, "tree", ids[1], 0);
  gather (book, "tap", 0, 2);

  records.trees = records_of (book, FR_KIND_TREE);
  records.taps = records_of (book, FR_KIND_TAP);
  bush = fr_bush_new (&records, 2027, today);
  g_array_set_size (taps, 3);
  TAKE ("plan-taps", fr_bush_edit_take_plan (book, bush, &plan, &error));
  g_assert_null (tap_of (book, 1));
  g_assert_true (tap_of (book, 2)->record.archived);
  g_assert_true (fr_book_undo (book, NULL));

  TAKE ("archive-tap", fr_bush_edit_remove_tap (book, 2, &error));
  g_assert_true (fr_book_undo (book, NULL));
  TAKE ("delete-tap", fr_bush_edit_remove_tap (book, 1, &error));
  TAKE ("archive-trees", fr_bush_edit_remove (book, ids, 3, &error));
  g_assert_true (tree_of (book, ids[0])->record.archived);
  g_assert_true (tree_of (book, ids[1])->record.archived);
  g_assert_cmpuint (count (book, FR_KIND_TREE), ==, 2);
  g_ptr_array_unref (records.trees);
  g_ptr_array_unref (records.taps);
}

static void
test_features (void)
{
  g_autoptr (FrBook) book = book_new ();
  const FrFeature *feature;

  TAKE ("add-feature", fr_bush_edit_add_feature (book, "boiling", "Shed", "0 0\n3 0\n3 4", &error));
  feature = (const FrFeature *)last (book, FR_KIND_FEATURE);
  g_assert_cmpstr (feature->form, ==, "boiling");
  REFUSE ("Line 2 cannot be read", fr_bush_edit_add_feature (book, "path", NULL, "0 0\nx", &error));
  REFUSE ("cannot be empty", fr_bush_edit_add_feature (book, "path", NULL, "", &error));
  REFUSE ("does not know", fr_bush_edit_add_feature (book, "pond", NULL, "0 0", &error));
  TAKE ("edit-feature", fr_bush_edit_set_feature (book, 1, NULL, NULL, "1 1", &error));
  feature = (const FrFeature *)fr_book_find (book, FR_KIND_FEATURE, 1);
  g_assert_cmpstr (feature->name, ==, "Shed");
  g_assert_cmpstr (feature->points, ==, "1 1");
  TAKE ("edit-feature", fr_bush_edit_set_feature (book, 1, "building", "", NULL, &error));
  feature = (const FrFeature *)fr_book_find (book, FR_KIND_FEATURE, 1);
  g_assert_null (feature->name);
  g_assert_cmpstr (feature->form, ==, "building");
  NOTHING (fr_bush_edit_set_feature (book, 1, "building", "", NULL, &error));
  REFUSE ("no longer", fr_bush_edit_set_feature (book, 2, NULL, "x", NULL, &error));
  TAKE ("delete-feature", fr_bush_edit_remove_feature (book, 1, &error));
  g_assert_cmpuint (count (book, FR_KIND_FEATURE), ==, 0);
  REFUSE ("no longer", fr_bush_edit_remove_feature (book, 1, &error));
}

static void
test_single (void)
{
  g_autoptr (FrBook) book = book_new ();
  const FrTapping *tapping;
  const FrGround *ground;
  const FrPicturePoint first = { 100, 80, 0, 0 }, second = { 900, 700, 80, -62 };

  /* the default is what holds without a record */
  NOTHING (fr_bush_edit_single (book, FR_KIND_TAPPING, "guideline", "conservative", NAN, NULL, &error));
  TAKE ("edit-tapping", fr_bush_edit_single (book, FR_KIND_TAPPING, "buckets", NULL, 18, "18", &error));
  TAKE ("edit-tapping", fr_bush_edit_single (book, FR_KIND_TAPPING, "guideline", "facts", NAN, NULL, &error));
  g_assert_cmpuint (count (book, FR_KIND_TAPPING), ==, 1);
  tapping = (const FrTapping *)last (book, FR_KIND_TAPPING);
  g_assert_cmpfloat (tapping->buckets.value, ==, 18);
  g_assert_cmpstr (tapping->guideline, ==, "facts");
  REFUSE ("whole number", fr_bush_edit_single (book, FR_KIND_TAPPING, "buckets", NULL, 1.5, NULL, &error));
  /* 2 in sideways, 6 in up and down */
  TAKE ("edit-tapping", fr_bush_edit_single (book, FR_KIND_TAPPING, "spacing", "two_six", NAN, NULL, &error));
  TAKE ("edit-tapping", fr_bush_edit_single (book, FR_KIND_TAPPING, "spacing", "own", NAN, NULL, &error));
  tapping = (const FrTapping *)last (book, FR_KIND_TAPPING);
  g_assert_cmpfloat_with_epsilon (tapping->sideways_m.value, 0.0508, 1e-12);
  g_assert_cmpfloat_with_epsilon (tapping->up_down_m.value, 0.1524, 1e-12);
  REFUSE ("needed", fr_bush_edit_single (book, FR_KIND_TAPPING, "sideways_m", NULL, NAN, NULL, &error));
  TAKE ("edit-tapping", fr_bush_edit_single (book, FR_KIND_TAPPING, "min_height_m", NULL, 0.6, NULL, &error));
  REFUSE ("under the lowest, 60",
          fr_bush_edit_single (book, FR_KIND_TAPPING, "max_height_m", NULL, 0.5, NULL, &error));

  TAKE ("edit-ground", fr_bush_edit_anchor (book, 0, 0, 44.26, -72.58, &error));
  REFUSE ("four numbers", fr_bush_edit_anchor (book, 0, 0, 44.26, NAN, &error));
  REFUSE ("four numbers", fr_bush_edit_single (book, FR_KIND_GROUND, "anchor_x_m", NULL, NAN, NULL, &error));
  TAKE ("edit-ground", fr_bush_edit_anchor (book, NAN, NAN, NAN, NAN, &error));
  NOTHING (fr_bush_edit_anchor (book, NAN, NAN, NAN, NAN, &error));
  TAKE ("place-picture", fr_bush_edit_picture (book, "bush.jpg", &first, &second, &error));
  ground = (const FrGround *)last (book, FR_KIND_GROUND);
  g_assert_true (ground->picture_shown);
  g_assert_cmpfloat (ground->second_y_m.value, ==, -62);
  REFUSE ("same one in the picture", fr_bush_edit_picture (book, "bush.jpg", &first, &first, &error));
  TAKE ("edit-ground", fr_bush_edit_single (book, FR_KIND_GROUND, "picture_shown", NULL, 0, NULL, &error));
  TAKE ("place-picture", fr_bush_edit_picture (book, NULL, NULL, NULL, &error));
  g_assert_cmpuint (count (book, FR_KIND_GROUND), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bush-edit/names", test_names);
  g_test_add_func ("/bush-edit/next-name-is-free", test_next_name_is_free);
  g_test_add_func ("/bush-edit/add-tree", test_add_tree);
  g_test_add_func ("/bush-edit/tape-and-compass", test_tape_and_compass);
  g_test_add_func ("/bush-edit/move-and-place", test_move_and_place);
  g_test_add_func ("/bush-edit/set", test_set);
  g_test_add_func ("/bush-edit/girths", test_girths);
  g_test_add_func ("/bush-edit/yields", test_yields);
  g_test_add_func ("/bush-edit/plan-set-pull", test_plan_set_pull);
  g_test_add_func ("/bush-edit/take-plan", test_take_plan);
  g_test_add_func ("/bush-edit/remove", test_remove);
  g_test_add_func ("/bush-edit/remove-gathered", test_remove_gathered);
  g_test_add_func ("/bush-edit/features", test_features);
  g_test_add_func ("/bush-edit/single", test_single);
  return g_test_run ();
}
