/* The gathering log: which rows stand in it and in which order, what is written of a row, rounds of a day,
 * and that what was typed and not kept stays. Litres and °Bx of readings are those of the domain's own tests;
 * here it is the order and the fate of entries, on an invented household. */
#include <math.h>
#include <string.h>

#include "edits.h"
#include "models/gather-log.h"
#include "models/season-edit.h"

#define HOUR_S 3600
/* 2027-03-11 20:20 UTC; the books here have no household, so the log's zone is UTC. */
#define NOW_UTC 1804796400

static gint64
put (FrBook *book, FrRecord *record)
{
  g_autoptr (GError) failure = NULL;
  g_autoptr (FrChange) change = fr_change_new ("import-trees", NULL);
  g_autoptr (FrRecord) fresh = fr_book_new_record (book, record->kind->id, 0, &failure);
  gint64 id = fresh->id;

  record->id = fresh->id;
  memcpy (record->uid, fresh->uid, sizeof record->uid);
  fr_change_add (change, NULL, record);
  fr_book_apply (book, change, &failure);
  g_assert_no_error (failure);
  fr_record_free (record);
  return id;
}

static gint64
add_tree (FrBook *book, const char *name, const char *stand)
{
  FrRecord *record = fr_record_new (FR_KIND_TREE);

  fr_edit_set_text (record, "name", name);
  fr_edit_set_text (record, "stand", stand);
  return put (book, record);
}

static gint64
add_tap (FrBook *book, gint64 tree, const char *set_on, const char *pulled_on)
{
  FrRecord *record = fr_record_new (FR_KIND_TAP);

  ((FrTap *)record)->tree = tree;
  fr_amount_set (&((FrTap *)record)->season, 2027, NULL);
  fr_edit_set_text (record, "set_on", set_on);
  fr_edit_set_text (record, "pulled_on", pulled_on);
  return put (book, record);
}

static gint64
add_gathering (FrBook *book, gint64 tree, gint64 utc_s, double volume_l)
{
  FrRecord *record = fr_record_new (FR_KIND_GATHERING);
  FrGathering *gathering = (FrGathering *)record;

  fr_edit_set_text (record, "scope", tree != 0 ? "tree" : "bush");
  gathering->tree = tree;
  gathering->gathered_utc = utc_s;
  fr_amount_set (&gathering->volume_l, volume_l, NULL);
  return put (book, record);
}

/* T10, T2, T1 with taps; T3 pulled before, T4 only planned. */
static FrBook *
bush_new (gint64 trees[5])
{
  static const char *const names[] = { "T10", "T2", "T1", "T3", "T4" };
  FrBook *book = book_new ();

  for (guint i = 0; i < 5; i++)
    {
      trees[i] = add_tree (book, names[i], i == 0 ? "Lane" : "Hill");
      add_tap (book, trees[i], i == 4 ? NULL : "2027-02-20", i == 3 ? "2027-03-01" : NULL);
    }
  return book;
}

static char *
titles (FrGatherLog *log)
{
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < fr_gather_log_n_rows (log); i++)
    g_string_append_printf (all, "%s%s", i > 0 ? " " : "",
                            fr_gather_row_get_title (fr_gather_log_row (log, i)));
  return g_string_free (all, FALSE);
}

#define ROWS(wanted)                                                                                         \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    g_autofree char *seen = titles (log);                                                                    \
    g_assert_cmpstr (seen, ==, wanted);                                                                      \
  }                                                                                                          \
  G_STMT_END

static FrGatherRow *
row_of (FrGatherLog *log, const char *title)
{
  for (guint i = 0; i < fr_gather_log_n_rows (log); i++)
    if (strcmp (fr_gather_row_get_title (fr_gather_log_row (log, i)), title) == 0)
      return fr_gather_log_row (log, i);
  g_error ("no row %s", title);
}

static void
write_row (FrGatherLog *log, FrBook *book, const char *title, const char *amount, const char *sugar)
{
  FrGatherRow *row = row_of (log, title);
  g_autoptr (FrRecord) record = NULL;
  g_autoptr (FrChange) change = NULL;
  g_autoptr (GError) failure = NULL;

  fr_gather_log_type_row (log, row, FR_GATHER_AMOUNT, amount);
  fr_gather_log_type_row (log, row, FR_GATHER_SUGAR, sugar);
  record = fr_gather_log_record (log, row);
  g_assert_nonnull (record);
  change = fr_season_edit_keep (book, record, &failure);
  g_assert_no_error (failure);
  g_assert_true (fr_book_apply (book, change, &failure));
}

static void
test_rows (void)
{
  gint64 trees[5];
  g_autoptr (FrBook) book = bush_new (trees);
  g_autoptr (FrGatherLog) log = fr_gather_log_new (book, NULL, NOW_UTC);
  gint64 walk[] = { trees[2], trees[0] };

  /* One row a tree whose tap runs; by name as people count, until a walk is known. */
  g_assert_cmpint (fr_gather_log_get_scope (log), ==, FR_GATHER_TREE);
  ROWS ("T1 T2 T10");
  fr_gather_log_set_walk (log, walk, 2);
  ROWS ("T1 T10 T2");
  fr_gather_log_set_order (log, FR_GATHER_NAME);
  ROWS ("T1 T2 T10");
  fr_gather_log_set_scope (log, FR_GATHER_GROUP);
  ROWS ("Hill Lane");
  fr_gather_log_set_scope (log, FR_GATHER_BUSH);
  ROWS ("The whole bush");
  add_tap (book, trees[2], "2027-02-21", NULL);
  fr_gather_log_set_scope (log, FR_GATHER_TAP);
  ROWS ("T1 · 1 T1 · 2 T2 T10");
  /* Before any tap was set there is nothing to gather from; before T3's was pulled it is there. */
  fr_gather_log_set_scope (log, FR_GATHER_TREE);
  fr_gather_log_set_day (log, (FrDate){ 2027, 2, 19 });
  ROWS ("");
  fr_gather_log_set_day (log, (FrDate){ 2027, 3, 1 });
  ROWS ("T1 T2 T3 T10");
}

static void
test_as_last (void)
{
  gint64 trees[5];
  g_autoptr (FrBook) book = bush_new (trees);
  g_autoptr (FrGatherLog) log = NULL;

  add_gathering (book, trees[1], NOW_UTC - 24 * HOUR_S, 2);
  add_gathering (book, trees[0], NOW_UTC - 24 * HOUR_S, 3);
  log = fr_gather_log_new (book, NULL, NOW_UTC);
  /* Yesterday's two in the order they were typed, then the third. */
  ROWS ("T2 T10 T1");
  write_row (log, book, "T1", "1.5", "2");
  ROWS ("T2 T10 T1");
}

static void
test_write_and_correct (void)
{
  gint64 trees[5];
  g_autoptr (FrBook) book = bush_new (trees);
  g_autoptr (FrGatherLog) log = fr_gather_log_new (book, NULL, NOW_UTC);
  FrGatherRow *row = row_of (log, "T2");
  const FrUnits *units = fr_book_get_units (book);
  g_autofree char *problem = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) failure = NULL;
  const FrGathering *kept;
  FrGatherSum sum;

  g_assert_false (fr_gather_row_is_begun (row));
  g_assert_null (fr_gather_log_record (log, row));
  fr_gather_log_type_row (log, row, FR_GATHER_SUGAR, "2.2");
  /* A reading without an amount is begun and cannot be kept. */
  g_assert_true (fr_gather_row_is_begun (row));
  g_assert_null (fr_gather_log_record (log, row));
  problem = fr_gather_row_problem (row, FR_GATHER_AMOUNT, units);
  g_assert_nonnull (problem);
  fr_gather_log_type_row (log, row, FR_GATHER_AMOUNT, "2 gal x");
  g_assert_null (fr_gather_log_record (log, row));
  g_assert_null (fr_gather_row_problem (row, FR_GATHER_SUGAR, units));

  write_row (log, book, "T2", "1 gal", "2.2");
  g_assert_true (row_of (log, "T2") == row);
  g_assert_cmpint (fr_gather_row_get_id (row), ==, 1);
  g_assert_false (fr_gather_row_is_begun (row));
  kept = (const FrGathering *)last (book, FR_KIND_GATHERING);
  /* 231 cubic inches of 2.54 cm. */
  g_assert_cmpfloat_with_epsilon (kept->volume_l.value, 231 * 2.54 * 2.54 * 2.54 / 1e3, 1e-9);
  g_assert_cmpstr (kept->volume_l.typed, ==, "1 gal");
  g_assert_cmpint (kept->tree, ==, trees[1]);
  g_assert_cmpint (kept->gathered_utc, ==, NOW_UTC);
  text = fr_gather_row_text (row, FR_GATHER_AMOUNT, units);
  g_assert_cmpstr (text, ==, "1 gal");

  write_row (log, book, "T2", "4", "2.2");
  g_assert_cmpuint (count (book, FR_KIND_GATHERING), ==, 1);
  write_row (log, book, "T1", "6", "3");
  sum = fr_gather_log_sum (log);
  g_assert_cmpuint (sum.n_rows, ==, 3);
  g_assert_cmpuint (sum.n_kept, ==, 2);
  g_assert_cmpuint (sum.n_begun, ==, 0);
  g_assert_cmpfloat_with_epsilon (sum.volume_l, 10, 1e-12);
  /* By mass; 2.2 and 3 °Bx are 0.3 % apart in density, so the mean by volume is near. */
  g_assert_cmpfloat_with_epsilon (sum.brix, (4 * 2.2 + 6 * 3) / 10, 2e-3);

  g_assert_true (fr_book_undo (book, &failure));
  g_assert_cmpint (fr_gather_row_get_id (row_of (log, "T1")), ==, 0);
  g_assert_false (fr_gather_row_is_begun (row_of (log, "T1")));
}

static void
test_typed_stays (void)
{
  gint64 trees[5];
  g_autoptr (FrBook) book = bush_new (trees);
  g_autoptr (FrGatherLog) log = fr_gather_log_new (book, NULL, NOW_UTC);
  FrGatherRow *row = row_of (log, "T1");
  g_autofree char *text = NULL;
  g_autoptr (FrRecord) record = NULL;
  g_autoptr (FrRecord) defaults = NULL;

  fr_gather_log_type_row (log, row, FR_GATHER_AMOUNT, "12");
  write_row (log, book, "T2", "3", "");
  /* Another row was written, a default changed, the way of measuring too: what was typed is still there. */
  defaults = fr_record_copy (&fr_gather_log_get_defaults (log)->record);
  fr_edit_set_text (defaults, "who", "Ada");
  fr_edit_set_text (defaults, "measured_by", "weight");
  fr_amount_set (&((FrGathering *)defaults)->sap_c, 2, NULL);
  fr_gather_log_set_defaults (log, (FrGathering *)defaults);
  text = fr_gather_row_text (row, FR_GATHER_AMOUNT, fr_book_get_units (book));
  g_assert_cmpstr (text, ==, "12");
  record = fr_gather_log_record (log, row);
  g_assert_cmpfloat (((FrGathering *)record)->weight_kg.value, ==, 12);
  g_assert_true (isnan (((FrGathering *)record)->volume_l.value));
  g_assert_cmpfloat (((FrGathering *)record)->sap_c.value, ==, 2);
  g_assert_cmpstr (((FrGathering *)record)->who, ==, "Ada");
  /* The row in the book keeps what it was written with. */
  g_assert_null (((const FrGathering *)last (book, FR_KIND_GATHERING))->who);
  fr_gather_log_restore_row (log, row);
  g_assert_false (fr_gather_row_is_begun (row));
}

static void
test_rounds (void)
{
  gint64 trees[5];
  g_autoptr (FrBook) book = bush_new (trees);
  g_autoptr (FrGatherLog) log = NULL;
  guint n;

  /* Two rounds a day, three hours apart; one tree of the second was not in the first. */
  add_gathering (book, trees[0], NOW_UTC - 4 * HOUR_S, 1);
  add_gathering (book, trees[1], NOW_UTC - 4 * HOUR_S + 600, 2);
  add_gathering (book, trees[2], NOW_UTC - HOUR_S, 3);
  add_gathering (book, trees[0], NOW_UTC - HOUR_S, 4);
  log = fr_gather_log_new (book, NULL, NOW_UTC);
  g_assert_cmpuint (fr_gather_log_n_rounds (log), ==, 2);
  g_assert_cmpuint (fr_gather_log_get_round (log), ==, 1);
  g_assert_cmpint (fr_gather_log_round_utc (log, 0, &n), ==, NOW_UTC - 4 * HOUR_S);
  g_assert_cmpuint (n, ==, 2);
  g_assert_cmpfloat (fr_gather_row_volume_l (row_of (log, "T10")), ==, 4);
  fr_gather_log_set_round (log, 0);
  g_assert_cmpfloat (fr_gather_row_volume_l (row_of (log, "T10")), ==, 1);

  /* A third one begins now, and what is written goes into it alone, an hour after the second. */
  fr_gather_log_set_round (log, 2);
  g_assert_cmpuint (fr_gather_log_sum (log).n_kept, ==, 0);
  write_row (log, book, "T10", "5", "");
  g_assert_cmpuint (fr_gather_log_n_rounds (log), ==, 3);
  g_assert_cmpuint (fr_gather_log_get_round (log), ==, 2);
  write_row (log, book, "T2", "6", "");
  g_assert_cmpuint (fr_gather_log_get_round (log), ==, 2);
  g_assert_cmpuint (fr_gather_log_sum (log).n_kept, ==, 2);

  /* The same tree twice at one moment is never hidden: a round more. */
  add_gathering (book, trees[1], NOW_UTC, 6);
  g_assert_cmpuint (fr_gather_log_n_rounds (log), ==, 4);
}

static void
test_other_scopes_are_shown (void)
{
  gint64 trees[5];
  g_autoptr (FrBook) book = bush_new (trees);
  g_autoptr (FrGatherLog) log = NULL;

  add_gathering (book, trees[0], NOW_UTC - 600, 1);
  add_gathering (book, 0, NOW_UTC - 300, 20);
  log = fr_gather_log_new (book, NULL, NOW_UTC);
  fr_gather_log_set_scope (log, FR_GATHER_TREE);
  g_assert_cmpuint (fr_gather_log_n_rows (log), ==, 4);
  g_assert_cmpuint (fr_gather_log_sum (log).n_kept, ==, 2);
  g_assert_cmpfloat (fr_gather_log_sum (log).volume_l, ==, 21);
}

static void
test_the_clock (void)
{
  gint64 trees[5];
  g_autoptr (FrBook) book = bush_new (trees);
  g_autoptr (FrGatherLog) log = fr_gather_log_new (book, NULL, NOW_UTC);
  g_autoptr (FrRecord) defaults = NULL;

  fr_gather_log_set_now (log, NULL, NOW_UTC + HOUR_S);
  g_assert_cmpint (fr_gather_log_get_defaults (log)->gathered_utc, ==, NOW_UTC + HOUR_S);
  fr_gather_log_type_row (log, row_of (log, "T1"), FR_GATHER_AMOUNT, "3");
  fr_gather_log_set_now (log, NULL, NOW_UTC + 2 * HOUR_S);
  g_assert_cmpint (fr_gather_log_get_defaults (log)->gathered_utc, ==, NOW_UTC + HOUR_S);
  fr_gather_log_restore_row (log, row_of (log, "T1"));
  fr_gather_log_set_now (log, NULL, NOW_UTC + 20 * HOUR_S);
  g_assert_cmpint (fr_gather_log_get_day (log).day, ==, 12);
  defaults = fr_record_copy (&fr_gather_log_get_defaults (log)->record);
  ((FrGathering *)defaults)->gathered_utc = NOW_UTC;
  fr_gather_log_set_defaults (log, (FrGathering *)defaults);
  g_assert_cmpint (fr_gather_log_get_day (log).day, ==, 11);
  fr_gather_log_set_now (log, NULL, NOW_UTC + 21 * HOUR_S);
  g_assert_cmpint (fr_gather_log_get_defaults (log)->gathered_utc, ==, NOW_UTC);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/gather-log/rows", test_rows);
  g_test_add_func ("/gather-log/as-last", test_as_last);
  g_test_add_func ("/gather-log/write-and-correct", test_write_and_correct);
  g_test_add_func ("/gather-log/typed-stays", test_typed_stays);
  g_test_add_func ("/gather-log/rounds", test_rounds);
  g_test_add_func ("/gather-log/other-scopes-are-shown", test_other_scopes_are_shown);
  g_test_add_func ("/gather-log/the-clock", test_the_clock);
  return g_test_run ();
}
