/* The book: the one door, its lists, undo and redo for every kind, and what happens when another program
 * writes. */
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "models/book.h"
#include "sample-records.h"

static FrBook *
book_new (void)
{
  g_autoptr (GError) error = NULL;
  FrBook *book = fr_book_open (":memory:", &error);

  g_assert_no_error (error);
  g_assert_nonnull (book);
  return book;
}

static void
apply (FrBook *book, const char *label, const FrRecord *before, const FrRecord *after)
{
  g_autoptr (FrChange) change = fr_change_new (label, NULL);
  g_autoptr (GError) error = NULL;

  fr_change_add (change, before, after);
  fr_book_apply (book, change, &error);
  g_assert_no_error (error);
}

static void
undo (FrBook *book)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (fr_book_undo (book, &error));
  g_assert_no_error (error);
}

static void
redo (FrBook *book)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (fr_book_redo (book, &error));
  g_assert_no_error (error);
}

static void
assert_holds (FrBook *book, const FrRecord *record)
{
  const FrRecord *held = fr_book_find (book, record->kind->id, record->id);

  g_assert_nonnull (held);
  g_assert_true (fr_record_equal (held, record));
}

/* A book with two samples of everything, so that references are met. */
static FrBook *
filled_book (void)
{
  FrBook *book = book_new ();
  g_autoptr (FrChange) all = sample_book (2);
  g_autoptr (GError) error = NULL;

  fr_book_apply (book, all, &error);
  g_assert_no_error (error);
  return book;
}

static void
test_every_kind (gconstpointer data)
{
  FrKindId kind = (FrKindId)GPOINTER_TO_INT (data);
  g_autoptr (FrBook) book = filled_book ();
  g_autoptr (GError) error = NULL;
  g_autoptr (FrRecord) fresh = fr_book_new_record (book, kind, 0, &error);
  g_autoptr (FrRecord) added = NULL;
  g_autoptr (FrRecord) edited = NULL;

  g_assert_no_error (error);
  if (fr_kind (kind)->single) /* there is one; it is edited, not added */
    added = fr_record_copy (fr_record_list_get (fr_book_get_list (book, kind), 0));
  else
    {
      added = sample_full (kind, fresh->id);
      g_strlcpy (added->uid, fresh->uid, sizeof added->uid);
      apply (book, "add", NULL, added);
    }
  assert_holds (book, added);

  edited = fr_record_copy (added);
  edited->archived = !added->archived;
  apply (book, "archive", added, edited);
  assert_holds (book, edited);
  undo (book);
  assert_holds (book, added);
  redo (book);
  assert_holds (book, edited);
  undo (book);

  if (fr_kind (kind)->single)
    return;
  apply (book, "delete", added, NULL);
  g_assert_null (fr_book_find (book, kind, added->id));
  undo (book);
  assert_holds (book, added);
  redo (book);
  g_assert_null (fr_book_find (book, kind, added->id));
  undo (book);
  undo (book); /* the addition itself */
  g_assert_null (fr_book_find (book, kind, added->id));
  redo (book);
  assert_holds (book, added);
}

static void
test_new_records (void)
{
  g_autoptr (FrBook) book = filled_book ();
  g_autoptr (FrRecord) one = fr_book_new_record (book, FR_KIND_FUEL, 0, NULL);
  g_autoptr (FrRecord) two = fr_book_new_record (book, FR_KIND_FUEL, 1, NULL);

  g_assert_cmpint (two->id, ==, one->id + 1);
  g_assert_cmpuint (strlen (one->uid), ==, 32);
  g_assert_cmpstr (one->uid, !=, two->uid);
  g_assert_null (fr_book_find (book, FR_KIND_FUEL, one->id));
}

static FrRecord *
with_power (const FrRecord *cooker, double power_w)
{
  FrRecord *after = fr_record_copy (cooker);

  fr_amount_set (&((FrCooker *)after)->power_w, power_w, NULL);
  return after;
}

static void
test_amount_edits_join (void)
{
  g_autoptr (FrBook) book = filled_book ();
  g_autoptr (FrRecord) first = fr_record_copy (fr_book_find (book, FR_KIND_COOKER, 1));
  g_autoptr (FrRecord) second = with_power (first, 1000);
  g_autoptr (FrRecord) third = with_power (first, 1100);
  g_autoptr (FrRecord) renamed = fr_record_copy (third);

  apply (book, "edit-cooker", first, second);
  apply (book, "edit-cooker", second, third);
  undo (book);
  assert_holds (book, first);
  redo (book);
  assert_holds (book, third);

  /* another field is another step */
  fr_record_set_text (renamed, fr_kind_field (renamed->kind, "name"), "Another name");
  apply (book, "edit-cooker", third, renamed);
  undo (book);
  assert_holds (book, third);
  undo (book);
  assert_holds (book, first);
}

static void
test_text_edits_do_not_join (void)
{
  g_autoptr (FrBook) book = filled_book ();
  g_autoptr (FrRecord) first = fr_record_copy (fr_book_find (book, FR_KIND_COOKER, 1));
  g_autoptr (FrRecord) second = fr_record_copy (first);
  g_autoptr (FrRecord) third = fr_record_copy (first);

  fr_record_set_text (second, fr_kind_field (first->kind, "name"), "Two");
  fr_record_set_text (third, fr_kind_field (first->kind, "name"), "Three");
  apply (book, "edit-cooker", first, second);
  apply (book, "edit-cooker", second, third);
  undo (book);
  assert_holds (book, second);
}

static void
test_back_to_the_start_leaves_no_step (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrRecord) fuel = sample_full (FR_KIND_FUEL, 1);
  g_autoptr (FrRecord) dearer = fr_record_copy (fuel);

  apply (book, "add-fuel", NULL, fuel);
  fr_amount_set (&((FrFuel *)dearer)->price_per_kg, 999, NULL);
  apply (book, "edit-fuel", fuel, dearer);
  apply (book, "edit-fuel", dearer, fuel);
  g_assert_cmpstr (fr_book_peek_undo (book)->label, ==, "add-fuel");
}

static void
test_refused_change_changes_nothing (void)
{
  g_autoptr (FrBook) book = filled_book ();
  g_autoptr (FrRecord) cooker = fr_record_copy (fr_book_find (book, FR_KIND_COOKER, 1));
  g_autoptr (FrRecord) absurd = with_power (cooker, 1e9);
  g_autoptr (FrChange) change = fr_change_new ("edit-cooker", NULL);
  g_autoptr (GError) error = NULL;
  const FrChange *before = fr_book_peek_undo (book);

  fr_change_add (change, cooker, absurd);
  g_assert_false (fr_book_apply (book, change, &error));
  g_assert_error (error, FR_STORE_ERROR, FR_STORE_ERROR_REFUSED);
  assert_holds (book, cooker);
  g_assert_true (fr_book_peek_undo (book) == before);
}

static void
test_used (void)
{
  g_autoptr (FrBook) book = filled_book ();
  g_autoptr (FrRecord) lone = sample_sparse (FR_KIND_FUEL, 50);

  g_assert_true (fr_book_is_used (book, fr_book_find (book, FR_KIND_VESSEL, 1)));
  apply (book, "add-fuel", NULL, lone);
  g_assert_false (fr_book_is_used (book, lone));
}

static void
test_units_follow_household (void)
{
  g_autoptr (FrBook) book = filled_book ();
  g_autoptr (FrRecord) before = fr_record_copy (&fr_book_get_household (book)->record);
  g_autoptr (FrRecord) after = fr_record_copy (before);

  fr_record_set_text (after, fr_kind_field (after->kind, "units"), "us");
  fr_record_set_text (after, fr_kind_field (after->kind, "measures"), "pail = 9\n");
  fr_record_set_text (after, fr_kind_field (after->kind, "sweetness"), "baume");
  apply (book, "edit-household", before, after);
  g_assert_cmpint (fr_book_get_units (book)->system, ==, FR_SYSTEM_US);
  g_assert_true (fr_book_get_units (book)->baume);
  g_assert_cmpuint (fr_book_get_units (book)->n_measures, ==, 1);
  g_assert_cmpfloat (fr_book_get_units (book)->measures[0].litres_l, ==, 9);
}

typedef struct
{
  guint changed;
  guint moved;
  guint lost;
  char *code;
} Heard;

static void
changed_cb (FrBook *book, Heard *heard)
{
  heard->changed++;
}

static void
moved_cb (FrBook *book, const char *code, guint n, Heard *heard)
{
  heard->moved++;
  heard->lost = n;
  g_free (heard->code);
  heard->code = g_strdup (code);
}

static void
write_elsewhere (const char *path, const FrRecord *before, const FrRecord *after)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = fr_store_open (path, FALSE, &error);
  g_autoptr (FrChange) change = fr_change_new ("elsewhere", NULL);

  g_assert_no_error (error);
  fr_change_add (change, before, after);
  fr_store_apply (store, change, FR_ORIGIN_CLI, 1800000000, &error);
  g_assert_no_error (error);
}

static void
remove_folder (const char *folder)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_build_filename (folder, name, NULL);

      g_unlink (file);
    }
  g_dir_close (dir);
  g_rmdir (folder);
}

static void
test_another_program_writes (void)
{
  g_autofree char *folder = g_dir_make_tmp ("frostrun-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrBook) book = fr_book_open (path, &error);
  g_autoptr (FrRecord) fuel = sample_full (FR_KIND_FUEL, 1);
  g_autoptr (FrRecord) other = sample_full (FR_KIND_FUEL, 2);
  g_autoptr (FrRecord) changed = fr_record_copy (fuel);
  g_autoptr (FrRecord) mine = fr_record_copy (other);
  g_autoptr (FrRecord) again = fr_record_copy (fuel);
  g_autoptr (FrRecord) third = sample_sparse (FR_KIND_FUEL, 3);
  g_autoptr (FrChange) stale = fr_change_new ("edit-fuel", NULL);
  Heard heard = { 0 };

  g_assert_no_error (error);
  apply (book, "add-fuel", NULL, fuel);
  apply (book, "add-fuel", NULL, other);
  fr_amount_set (&((FrFuel *)mine)->price_per_kg, 321, NULL);
  apply (book, "edit-fuel", other, mine);
  g_signal_connect (book, "changed", G_CALLBACK (changed_cb), &heard);
  g_signal_connect (book, "moved", G_CALLBACK (moved_cb), &heard);

  fr_amount_set (&((FrFuel *)changed)->price_per_kg, 123, NULL);
  write_elsewhere (path, fuel, changed);

  /* a change made from what was on the screen is refused, and the screen brought up to date */
  fr_amount_set (&((FrFuel *)again)->price_per_kg, 555, NULL);
  fr_change_add (stale, fuel, again);
  g_assert_false (fr_book_apply (book, stale, &error));
  g_assert_error (error, FR_STORE_ERROR, FR_STORE_ERROR_CONFLICT);
  g_clear_error (&error);
  assert_holds (book, changed);
  g_assert_cmpuint (heard.moved, ==, 1);
  g_assert_cmpuint (heard.changed, ==, 1);

  /* adding fuel 1 can no longer be undone; the steps of fuel 2 can */
  g_assert_cmpstr (heard.code, ==, "book-moved-undo-lost");
  g_assert_cmpuint (heard.lost, ==, 1);
  undo (book);
  assert_holds (book, other);
  undo (book);
  g_assert_null (fr_book_find (book, FR_KIND_FUEL, 2));
  g_assert_null (fr_book_peek_undo (book));
  assert_holds (book, changed);

  /* nothing of ours: nothing lost; nothing new: nothing told */
  write_elsewhere (path, NULL, third);
  g_assert_true (fr_book_refresh (book, &error));
  assert_holds (book, third);
  g_assert_cmpstr (heard.code, ==, "book-moved");
  g_assert_true (fr_book_refresh (book, &error));
  g_assert_cmpuint (heard.moved, ==, 2);

  g_free (heard.code);
  g_clear_object (&book);
  remove_folder (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      g_autofree char *path = g_strconcat ("/book/undo/", fr_kind ((FrKindId)k)->name, NULL);

      g_test_add_data_func (path, GINT_TO_POINTER (k), test_every_kind);
    }
  g_test_add_func ("/book/new-records", test_new_records);
  g_test_add_func ("/book/amount-edits-join", test_amount_edits_join);
  g_test_add_func ("/book/text-edits-do-not-join", test_text_edits_do_not_join);
  g_test_add_func ("/book/back-to-the-start-leaves-no-step", test_back_to_the_start_leaves_no_step);
  g_test_add_func ("/book/refused-change-changes-nothing", test_refused_change_changes_nothing);
  g_test_add_func ("/book/used", test_used);
  g_test_add_func ("/book/units-follow-household", test_units_follow_household);
  g_test_add_func ("/book/another-program-writes", test_another_program_writes);
  return g_test_run ();
}
