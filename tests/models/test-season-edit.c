/* Every edit of a season's sap: what it makes of the book, what it is called, that one undo takes it back
 * whole, what is refused, and that the diary keeps what was there before a correction. */
#include <math.h>
#include <string.h>

#include <glib/gstdio.h>
#include <sqlite3.h>

#include "edits.h"
#include "models/season-edit.h"

static const FrDate day = { 2027, 3, 11 };

static FrRecord *
gathering_new (double volume_l)
{
  FrRecord *record = fr_record_new (FR_KIND_GATHERING);
  FrGathering *gathering = (FrGathering *)record;

  gathering->gathered_utc = 1804800000;
  fr_amount_set (&gathering->volume_l, volume_l, NULL);
  return record;
}

static gint64
add_container (FrBook *book, const char *name, double capacity_l)
{
  g_autoptr (FrRecord) record = fr_record_new (FR_KIND_CONTAINER);

  fr_edit_set_text (record, "name", name);
  fr_amount_set (&((FrContainer *)record)->capacity_l, capacity_l, NULL);
  TAKE ("add-container", fr_season_edit_keep (book, record, &error));
  return last (book, FR_KIND_CONTAINER)->id;
}

static void
test_one (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrRecord) record = gathering_new (22);
  g_autoptr (FrRecord) kept = NULL;

  TAKE ("add-gathering", fr_season_edit_keep (book, record, &error));
  g_assert_cmpuint (count (book, FR_KIND_GATHERING), ==, 1);
  g_assert_cmpuint (strlen (last (book, FR_KIND_GATHERING)->uid), ==, 32);

  kept = fr_record_copy (last (book, FR_KIND_GATHERING));
  NOTHING (fr_season_edit_keep (book, kept, &error));
  fr_amount_set (&((FrGathering *)kept)->volume_l, 20, "20");
  TAKE ("edit-gathering", fr_season_edit_keep (book, kept, &error));
  g_assert_cmpuint (count (book, FR_KIND_GATHERING), ==, 1);
  g_assert_cmpfloat (((const FrGathering *)last (book, FR_KIND_GATHERING))->volume_l.value, ==, 20);

  fr_amount_set (&((FrGathering *)kept)->volume_l, -1, NULL);
  REFUSE ("0", fr_season_edit_keep (book, kept, &error));
  TAKE ("delete-gathering", fr_season_edit_remove (book, FR_KIND_GATHERING, kept->id, &error));
  fr_amount_set (&((FrGathering *)kept)->volume_l, 20, NULL);
  REFUSE ("no longer in the book", fr_season_edit_keep (book, kept, &error));
  REFUSE ("no longer in the book", fr_season_edit_remove (book, FR_KIND_GATHERING, kept->id, &error));
}

static void
test_several (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);

  NOTHING (fr_season_edit_keep_all (book, records, &error));
  for (guint i = 0; i < 14; i++)
    g_ptr_array_add (records, gathering_new (i));
  TAKE ("log-gatherings", fr_season_edit_keep_all (book, records, &error));
  g_assert_cmpuint (count (book, FR_KIND_GATHERING), ==, 14);
  for (guint i = 0; i < 14; i++) /* each its own number, in the order typed */
    {
      const FrGathering *kept
          = (const FrGathering *)fr_record_list_get (fr_book_get_list (book, FR_KIND_GATHERING), i);

      g_assert_cmpint (kept->record.id, ==, i + 1);
      g_assert_cmpfloat (kept->volume_l.value, ==, i);
    }
  /* One that may not be kept keeps them all out. */
  g_ptr_array_add (records, gathering_new (NAN));
  REFUSE ("", fr_season_edit_keep_all (book, records, &error));
  g_assert_cmpuint (count (book, FR_KIND_GATHERING), ==, 14);
}

static void
test_container (void)
{
  g_autoptr (FrBook) book = book_new ();
  gint64 can = add_container (book, "Can", 30), crock = add_container (book, "Crock", 12);
  g_autoptr (FrRecord) record = gathering_new (9);
  g_autoptr (FrRecord) pour = fr_record_new (FR_KIND_POUR);
  FrPour *move = (FrPour *)pour;

  ((FrGathering *)record)->container = can;
  TAKE ("add-gathering", fr_season_edit_keep (book, record, &error));
  move->poured_utc = 1804806000;
  move->container = can;
  move->target = can;
  fr_amount_set (&move->volume_l, 4, NULL);
  REFUSE ("comes from", fr_season_edit_keep (book, pour, &error));
  move->target = crock;
  TAKE ("add-pour", fr_season_edit_keep (book, pour, &error));
  /* Both are spoken of, so they are put away and not lost. */
  TAKE ("archive-container", fr_season_edit_remove (book, FR_KIND_CONTAINER, crock, &error));
  g_assert_true (fr_book_find (book, FR_KIND_CONTAINER, crock)->archived);
  TAKE ("delete-pour", fr_season_edit_remove (book, FR_KIND_POUR, last (book, FR_KIND_POUR)->id, &error));
}

/* The day with one field set anew. */
static FrChange *
edit_day (FrBook *book, const char *name, const char *text, double amount, GError **error)
{
  const FrDay *kept = fr_season_find_day (book, day);
  g_autoptr (FrRecord) record = kept != NULL ? fr_record_copy (&kept->record) : fr_record_new (FR_KIND_DAY);

  fr_edit_set_text (record, "day", "2027-03-11");
  fr_edit_set_field (record, fr_kind_field (record->kind, name), text, amount, NULL);
  return fr_season_edit_day (book, (const FrDay *)record, error);
}

static FrChange *
edit_storing (FrBook *book, const char *name, const char *text, double amount, GError **error)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_STORING);
  g_autoptr (FrRecord) record = fr_record_list_get_size (list) > 0
                                    ? fr_record_copy (fr_record_list_get (list, 0))
                                    : fr_record_new (FR_KIND_STORING);

  fr_edit_set_field (record, fr_kind_field (record->kind, name), text, amount, NULL);
  return fr_season_edit_storing (book, (const FrStoring *)record, error);
}

static void
test_day (void)
{
  g_autoptr (FrBook) book = book_new ();

  NOTHING (edit_day (book, "note", "  ", NAN, &error));
  TAKE ("add-day", edit_day (book, "low_c", NULL, -4, &error));
  TAKE ("edit-day", edit_day (book, "high_c", NULL, 5, &error));
  g_assert_cmpuint (count (book, FR_KIND_DAY), ==, 1);
  g_assert_cmpfloat (fr_season_find_day (book, day)->low_c.value, ==, -4);
  g_assert_cmpstr (fr_season_find_day (book, day)->day, ==, "2027-03-11");
  NOTHING (edit_day (book, "high_c", NULL, 5, &error));
  REFUSE ("", edit_day (book, "high_c", NULL, 500, &error));
  TAKE ("edit-day", edit_day (book, "buds", "swelling", NAN, &error));
  TAKE ("edit-day", edit_day (book, "buds", "unknown", NAN, &error));
  TAKE ("edit-day", edit_day (book, "low_c", NULL, NAN, &error));
  /* With its last word a day goes. */
  TAKE ("delete-day", edit_day (book, "high_c", NULL, NAN, &error));
  g_assert_null (fr_season_find_day (book, day));
}

/* A day is found and edited while the book's lists hold another season. */
/* Breakfast: a night's low and the day before's high are two days' records and one step; what was expected of a day gives way to what was
 * seen; one of the two alone leaves the other as it is. */
static void
test_air (void)
{
  g_autoptr (FrBook) book = book_new ();
  const FrDate before = fr_date_add_days (day, -1);
  const FrSeenAir both[] = { { day, -4.5, "-4.5", NAN, NULL }, { before, NAN, NULL, 6, NULL } };
  const FrSeenAir none[] = { { day, NAN, NULL, NAN, NULL } }, high[] = { { day, NAN, NULL, 7, NULL } };
  const FrSeenAir absurd[] = { { day, -400, NULL, NAN, NULL } };
  guint n = count (book, FR_KIND_DAY);

  TAKE ("add-day", edit_day (book, "low_c", NULL, -9, &error));
  TAKE ("edit-day", edit_day (book, "high_c", NULL, 2, &error));
  TAKE ("edit-day", edit_day (book, "expected", NULL, 1, &error));
  TAKE ("edit-day", fr_season_edit_air (book, both, 2, &error));
  g_assert_cmpuint (count (book, FR_KIND_DAY), ==, n + 2);
  g_assert_cmpfloat (fr_season_find_day (book, day)->low_c.value, ==, -4.5);
  g_assert_cmpstr (fr_season_find_day (book, day)->low_c.typed, ==, "-4.5");
  g_assert_true (isnan (fr_season_find_day (book, day)->high_c.value));
  g_assert_false (fr_season_find_day (book, day)->expected);
  g_assert_cmpfloat (fr_season_find_day (book, before)->high_c.value, ==, 6);
  TAKE ("edit-day", fr_season_edit_air (book, high, 1, &error));
  g_assert_cmpfloat (fr_season_find_day (book, day)->low_c.value, ==, -4.5);
  g_assert_cmpfloat (fr_season_find_day (book, day)->high_c.value, ==, 7);
  NOTHING (fr_season_edit_air (book, none, 1, &error));
  NOTHING (fr_season_edit_air (book, high, 1, &error));
  REFUSE ("2027-03-11", fr_season_edit_air (book, absurd, 1, &error));
}

static void
test_day_of_another_season (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrChange) edit = NULL;
  g_autoptr (GError) failure = NULL;

  TAKE ("add-day", edit_day (book, "low_c", NULL, -4, &error));
  g_assert_true (fr_book_set_season (book, 2025, NULL, &failure));
  g_assert_cmpuint (count (book, FR_KIND_DAY), ==, 0);
  g_assert_null (fr_season_find_day (book, (FrDate){ 2027, 3, 12 }));
  g_assert_cmpfloat (fr_season_find_day (book, day)->low_c.value, ==, -4);
  edit = edit_day (book, "high_c", NULL, 5, &failure);
  g_assert_cmpstr (edit->label, ==, "edit-day");
  fr_book_apply (book, edit, &failure);
  g_assert_no_error (failure);
  g_assert_cmpuint (count (book, FR_KIND_DAY), ==, 0);
  g_assert_true (fr_book_set_season (book, 2027, NULL, &failure));
  g_assert_cmpuint (count (book, FR_KIND_DAY), ==, 1);
  g_assert_cmpfloat (fr_season_find_day (book, day)->high_c.value, ==, 5);
}

static void
test_chores (void)
{
  g_autoptr (FrBook) book = book_new ();
  FrChoreKit can = { FR_KIND_CONTAINER, add_container (book, "Can", 30) };
  FrChoreKit gone = { FR_KIND_COOKER, 7 };

  TAKE ("add-chore", fr_season_edit_chore (book, 2027, "wash", can, day, "done", &error));
  NOTHING (fr_season_edit_chore (book, 2027, "wash", can, day, "done", &error));
  TAKE ("edit-chore", fr_season_edit_chore (book, 2027, "wash", can, day, "not_needed", &error));
  TAKE ("add-chore", fr_season_edit_chore (book, 2028, "wash", can, (FrDate){ 2028, 2, 20 }, "done", &error));
  TAKE ("add-chore", fr_season_edit_chore (book, 2027, "rinse", can, day, "done", &error));
  g_assert_cmpuint (count (book, FR_KIND_CHORE), ==, 3);
  g_assert_cmpstr (fr_season_find_chore (book, 2027, "wash", can)->outcome, ==, "not_needed");
  REFUSE ("no longer in the book", fr_season_edit_chore (book, 2027, "wash", gone, day, "done", &error));
  TAKE ("delete-chore", fr_season_edit_chore_undone (book, 2027, "wash", can, &error));
  NOTHING (fr_season_edit_chore_undone (book, 2027, "wash", can, &error));
  g_assert_nonnull (fr_season_find_chore (book, 2028, "wash", can));
}

static void
test_reminders (void)
{
  g_autoptr (FrBook) book = book_new ();

  TAKE ("add-dismissal", fr_season_edit_dismiss (book, "boil-by/3", 1804800000, &error));
  NOTHING (fr_season_edit_dismiss (book, "boil-by/3", 1804800001, &error));
  TAKE ("add-dismissal", fr_season_edit_dismiss (book, "frost/1", 1804800000, &error));
  TAKE ("delete-dismissal", fr_season_edit_recall (book));
  g_assert_cmpuint (count (book, FR_KIND_DISMISSAL), ==, 0);
  NOTHING (fr_season_edit_recall (book));
}

static void
test_storing (void)
{
  g_autoptr (FrBook) book = book_new ();

  NOTHING (edit_storing (book, "keeping", "careful", NAN, &error));
  TAKE ("edit-storing", edit_storing (book, "filters", NULL, 2, &error));
  TAKE ("edit-storing", edit_storing (book, "keeping", "published", NAN, &error));
  g_assert_cmpuint (count (book, FR_KIND_STORING), ==, 1);
  REFUSE ("", edit_storing (book, "filters", NULL, -1, &error));
}

/* A correction in the book's file: the diary has the first amount, the table the second. */
static void
test_correction_keeps_the_original (void)
{
  g_autofree char *folder = g_dir_make_tmp ("season-edit-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);
  g_autoptr (GError) failure = NULL;
  FrBook *book = fr_book_open (path, &failure);
  g_autoptr (FrRecord) record = gathering_new (220);
  g_autoptr (FrRecord) right = NULL;
  sqlite3 *db = NULL;
  sqlite3_stmt *statement = NULL;
  guint originals = 0;

  g_assert_no_error (failure);
  fr_book_set_season (book, 2027, NULL, &failure);
  g_assert_no_error (failure);
  TAKE ("add-gathering", fr_season_edit_keep (book, record, &error));
  right = fr_record_copy (last (book, FR_KIND_GATHERING));
  fr_amount_set (&((FrGathering *)right)->volume_l, 22, "22");
  TAKE ("edit-gathering", fr_season_edit_keep (book, right, &error));
  g_object_unref (book);

  g_assert_cmpint (sqlite3_open_v2 (path, &db, SQLITE_OPEN_READONLY, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_prepare_v2 (
                       db, "SELECT count(*) FROM diary WHERE label = 'edit-gathering' AND steps LIKE '%220%'",
                       -1, &statement, NULL),
                   ==, SQLITE_OK);
  if (sqlite3_step (statement) == SQLITE_ROW)
    originals = (guint)sqlite3_column_int (statement, 0);
  sqlite3_finalize (statement);
  sqlite3_close (db);
  g_assert_cmpuint (originals, >=, 1);
  g_remove (path);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/season-edit/one", test_one);
  g_test_add_func ("/season-edit/several", test_several);
  g_test_add_func ("/season-edit/container", test_container);
  g_test_add_func ("/season-edit/day", test_day);
  g_test_add_func ("/season-edit/air", test_air);
  g_test_add_func ("/season-edit/day-of-another-season", test_day_of_another_season);
  g_test_add_func ("/season-edit/chores", test_chores);
  g_test_add_func ("/season-edit/reminders", test_reminders);
  g_test_add_func ("/season-edit/storing", test_storing);
  g_test_add_func ("/season-edit/correction-keeps-the-original", test_correction_keeps_the_original);
  return g_test_run ();
}
