/* The calendar file in its folder: it follows the book, is not touched for nothing, and says in a sentence when it cannot be kept. */
#include "models/calendar-keeper.h"

#include "sample-records.h"

#include <glib/gstdio.h>
#include <string.h>

/* 11 March 2026, 20:00 UTC. */
#define NOW_UTC 1773259200

static gint64
now (const FrZoneTable *zone)
{
  return NOW_UTC;
}

typedef struct
{
  char *folder;
  FrBook *book;
  FrCalendarKeeper *keeper;
  guint n_problems;
} Case;

static FrRecord *
new_record (Case *t, FrKindId kind)
{
  g_autoptr (GError) error = NULL;
  FrRecord *record = fr_book_new_record (t->book, kind, 0, &error);

  g_assert_no_error (error);
  return record;
}

static void
apply (Case *t, const FrRecord *before, const FrRecord *after)
{
  g_autoptr (FrChange) change = fr_change_new ("edit", NULL);
  g_autoptr (GError) error = NULL;

  fr_change_add (change, before, after);
  g_assert_true (fr_book_apply (t->book, change, &error));
}

static void
set_folder (Case *t, const char *folder)
{
  FrRecordList *list = fr_book_get_list (t->book, FR_KIND_STORING);
  const FrRecord *before = fr_record_list_get_size (list) > 0 ? fr_record_list_get (list, 0) : NULL;
  g_autoptr (FrRecord) after = before != NULL ? fr_record_copy (before) : new_record (t, FR_KIND_STORING);

  fr_record_set_text (after, fr_kind_field (after->kind, "calendar_folder"), folder);
  apply (t, before, after);
}

static void
gather (Case *t, double volume_l)
{
  g_autoptr (FrRecord) record = new_record (t, FR_KIND_GATHERING);

  ((FrGathering *)record)->gathered_utc = NOW_UTC - 3600;
  fr_amount_set (&((FrGathering *)record)->volume_l, volume_l, NULL);
  apply (t, NULL, record);
}

static void
count_problem (Case *t)
{
  t->n_problems++;
}

static void
begin (Case *t)
{
  g_autoptr (FrRecord) household = NULL;
  g_autoptr (GError) error = NULL;

  *t = (Case){ .folder = g_dir_make_tmp ("frostrun-XXXXXX", &error), .book = fr_book_open (":memory:", &error) };
  g_assert_no_error (error);
  household = new_record (t, FR_KIND_HOUSEHOLD);
  g_free (((FrHousehold *)household)->name);
  ((FrHousehold *)household)->name = g_strdup ("Gable End");
  ((FrHousehold *)household)->zone = g_strdup ("America/Toronto");
  ((FrHousehold *)household)->currency = g_strdup ("CAD");
  apply (t, NULL, household);
  t->keeper = fr_calendar_keeper_new (t->book, now);
  g_signal_connect_swapped (t->keeper, "problem-changed", G_CALLBACK (count_problem), t);
}

static void
end (Case *t)
{
  g_autoptr (GDir) dir = g_dir_open (t->folder, 0, NULL);

  g_assert_finalize_object (g_steal_pointer (&t->keeper));
  g_assert_finalize_object (g_steal_pointer (&t->book));
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    {
      g_autofree char *path = g_build_filename (t->folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (t->folder);
  g_free (t->folder);
}

static char *
read_file (Case *t)
{
  g_autofree char *path = fr_calendar_keeper_get_path (t->keeper);
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, NULL);
  return text;
}

static void
test_follows (void)
{
  Case t;
  g_autofree char *path = NULL, *first = NULL, *second = NULL, *third = NULL, *back = NULL;
  g_autoptr (GError) error = NULL;
  GStatBuf before, after;

  begin (&t);
  g_assert_null (fr_calendar_keeper_get_path (t.keeper));
  fr_calendar_keeper_finish (t.keeper);
  set_folder (&t, t.folder);
  gather (&t, 22);
  path = fr_calendar_keeper_get_path (t.keeper);
  g_assert_true (g_str_has_prefix (path, t.folder) && g_str_has_suffix (path, ".ics"));
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS)); /* it waits for more */
  fr_calendar_keeper_finish (t.keeper);
  first = read_file (&t);
  g_assert_nonnull (first);
  g_assert_true (g_str_has_prefix (first, "BEGIN:VCALENDAR\r\n"));
  g_assert_nonnull (strstr (first, "DTSTART;VALUE=DATE:20260311\r\n"));
  g_assert_nonnull (strstr (first, "Gable End"));
  g_assert_nonnull (strstr (first, "Clocks go forward"));
  g_assert_nonnull (strstr (first, "SUMMARY:22.0"));

  /* What is in no event touches no file. */
  g_stat (path, &before);
  {
    g_autoptr (FrRecord) fuel = sample_full (FR_KIND_FUEL, 1);

    apply (&t, NULL, fuel);
  }
  fr_calendar_keeper_finish (t.keeper);
  g_stat (path, &after);
  g_assert_cmpint (before.st_ino, ==, after.st_ino);
  g_assert_cmpint (before.st_mtim.tv_nsec, ==, after.st_mtim.tv_nsec);

  gather (&t, 3);
  fr_calendar_keeper_finish (t.keeper);
  second = read_file (&t);
  g_assert_nonnull (strstr (second, "SUMMARY:25.0"));
  g_assert_true (fr_book_undo (t.book, &error));
  fr_calendar_keeper_finish (t.keeper);
  third = read_file (&t);
  g_assert_nonnull (strstr (third, "SUMMARY:22.0"));
  g_assert_cmpuint (t.n_problems, ==, 0);
  end (&t);
}

static gboolean
give_up (gpointer data)
{
  g_test_message ("the calendar file did not come by itself");
  g_assert_cmpint (0, ==, 1);
  return G_SOURCE_REMOVE;
}

/* By itself, a second after the change. */
static void
test_by_itself (void)
{
  Case t;
  g_autofree char *path = NULL;
  guint watch = g_timeout_add_seconds (20, give_up, NULL);
  gint64 from;

  begin (&t);
  set_folder (&t, t.folder);
  path = fr_calendar_keeper_get_path (t.keeper);
  from = g_get_monotonic_time ();
  while (!g_file_test (path, G_FILE_TEST_EXISTS))
    g_main_context_iteration (NULL, TRUE);
  g_assert_cmpint (g_get_monotonic_time () - from, >=, 900000);
  fr_calendar_keeper_finish (t.keeper);
  g_source_remove (watch);
  end (&t);
}

static void
test_problems (void)
{
  Case t;
  g_autofree char *gone = NULL, *path = NULL, *text = NULL;

  begin (&t);
  gone = g_build_filename (t.folder, "not there", NULL);
  set_folder (&t, gone);
  fr_calendar_keeper_finish (t.keeper);
  g_assert_cmpuint (t.n_problems, ==, 1);
  g_assert_nonnull (strstr (fr_calendar_keeper_get_problem (t.keeper), "not there"));
  g_assert_true (g_str_has_suffix (fr_calendar_keeper_get_problem (t.keeper), "."));
  gather (&t, 3);
  fr_calendar_keeper_finish (t.keeper);
  g_assert_cmpuint (t.n_problems, ==, 1); /* the same is told once */
  set_folder (&t, t.folder);
  fr_calendar_keeper_finish (t.keeper);
  g_assert_cmpuint (t.n_problems, ==, 2);
  g_assert_null (fr_calendar_keeper_get_problem (t.keeper));

  /* Somebody else's file of that name stays as it is. */
  path = fr_calendar_keeper_get_path (t.keeper);
  g_assert_true (g_file_set_contents (path, "dear diary", -1, NULL));
  gather (&t, 4);
  fr_calendar_keeper_finish (t.keeper);
  g_assert_nonnull (fr_calendar_keeper_get_problem (t.keeper));
  text = read_file (&t);
  g_assert_cmpstr (text, ==, "dear diary");
  /* And no folder is no problem. */
  set_folder (&t, NULL);
  fr_calendar_keeper_finish (t.keeper);
  g_assert_null (fr_calendar_keeper_get_problem (t.keeper));
  g_assert_null (fr_calendar_keeper_get_path (t.keeper));
  end (&t);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calendar-keeper/follows", test_follows);
  g_test_add_func ("/calendar-keeper/by-itself", test_by_itself);
  g_test_add_func ("/calendar-keeper/problems", test_problems);
  return g_test_run ();
}
