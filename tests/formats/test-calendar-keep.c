/* A calendar file kept up to date: written when it differs and only then, in one step, never over what others
 * wrote. */
#include "formats/calendar-file.h"
#include "formats/calendar-keep.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define NOBODY 65534

typedef struct
{
  char *folder;
  char *path;
} Place;

static void
place_set_up (Place *place, gconstpointer data)
{
  place->folder = g_dir_make_tmp ("frostrun-keep-XXXXXX", NULL);
  g_assert_nonnull (place->folder);
  place->path = g_build_filename (place->folder, "season é.ics", NULL);
}

static void
place_tear_down (Place *place, gconstpointer data)
{
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (place->folder, name, NULL);

      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (place->folder), ==, 0);
  g_free (place->folder);
  g_free (place->path);
}

static char *
calendar (const char *summary)
{
  g_autoptr (FrZoneTable) utc = fr_zone_table_new_utc ();
  FrCalendarEvent event = { .uid = "boil@example",
                            .start_utc = 1772951400,
                            .end_utc = 1772955000,
                            .changed_utc = 1772955000,
                            .summary = summary,
                            .alarm_lead_min = -1 };

  return fr_calendar_file_write (&event, 1, utc, NULL);
}

static void
check_holds (const char *path, const char *text)
{
  g_autofree char *found = NULL;

  g_assert_true (g_file_get_contents (path, &found, NULL, NULL));
  g_assert_cmpstr (found, ==, text);
}

static void
check_kept (const char *path, const char *text, gboolean wanted)
{
  g_autoptr (GError) error = NULL;
  gboolean changed = !wanted;

  g_assert_true (fr_calendar_file_keep (path, text, &changed, &error));
  g_assert_no_error (error);
  g_assert_cmpint (changed, ==, wanted);
  check_holds (path, text);
}

static void
check_fails (const char *path, const char *text, GFileError code, const char *part)
{
  g_autoptr (GError) error = NULL;
  gboolean changed = TRUE;

  g_assert_false (fr_calendar_file_keep (path, text, &changed, &error));
  g_assert_error (error, G_FILE_ERROR, (gint)code);
  g_assert_false (changed);
  if (strstr (error->message, part) == NULL)
    g_error ("no “%s” in “%s”", part, error->message);
}

static guint
n_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
test_only_when_different (Place *place, gconstpointer data)
{
  g_autofree char *one = calendar ("Boil");
  g_autofree char *other = calendar ("Boil, 21 L");
  GStatBuf before, after;

  check_kept (place->path, one, TRUE);
  g_assert_cmpint (g_stat (place->path, &before), ==, 0);
  check_kept (place->path, one, FALSE);
  g_assert_cmpint (g_stat (place->path, &after), ==, 0);
  /* not even the same bytes were written: it is the same file, unchanged since */
  g_assert_cmpint (before.st_ino, ==, after.st_ino);
  g_assert_cmpint (before.st_mtim.tv_sec, ==, after.st_mtim.tv_sec);
  g_assert_cmpint (before.st_mtim.tv_nsec, ==, after.st_mtim.tv_nsec);
  check_kept (place->path, other, TRUE);
  check_kept (place->path, one, TRUE);
  g_assert_cmpuint (n_files (place->folder), ==, 1);
}

static void
test_empty_and_cut (Place *place, gconstpointer data)
{
  g_autofree char *one = calendar ("Boil");

  g_assert_true (g_file_set_contents (place->path, "", 0, NULL));
  check_kept (place->path, one, TRUE);
  /* cut short, by a disk that was full for whoever copied it */
  g_assert_true (g_file_set_contents (place->path, one, (gssize)strlen (one) / 2, NULL));
  check_kept (place->path, one, TRUE);
  /* with a NUL behind what is the same so far */
  g_assert_true (g_file_set_contents (place->path, one, (gssize)strlen (one) + 1, NULL));
  check_kept (place->path, one, TRUE);
}

static void
test_others (Place *place, gconstpointer data)
{
  static const char *const texts[] = {
    "dear diary\n",
    "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Example//Example//EN\r\nEND:VCALENDAR\r\n",
    "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Example//Example//EN\r\nBEGIN:VEVENT\r\n"
    "DESCRIPTION:PRODID:-//Frostrun//Frostrun//EN\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n",
  };
  g_autofree char *one = calendar ("Boil");

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_assert_true (g_file_set_contents (place->path, texts[i], -1, NULL));
      check_fails (place->path, one, G_FILE_ERROR_EXIST, "season é.ics” is there already");
      check_holds (place->path, texts[i]);
    }
  check_fails (place->folder, one, G_FILE_ERROR_EXIST, "is no calendar file");
}

static void
test_permissions (Place *place, gconstpointer data)
{
  g_autofree char *one = calendar ("Boil");
  g_autofree char *other = calendar ("Boil, 21 L");
  GStatBuf found;

  check_kept (place->path, one, TRUE);
  g_assert_cmpint (g_chmod (place->path, 0600), ==, 0);
  check_kept (place->path, other, TRUE);
  g_assert_cmpint (g_stat (place->path, &found), ==, 0);
  g_assert_cmpint (found.st_mode & 0777, ==, 0600);
}

static void
test_link (Place *place, gconstpointer data)
{
  g_autofree char *link_path = g_build_filename (place->folder, "link.ics", NULL);
  g_autofree char *one = calendar ("Boil");

  g_assert_cmpint (symlink (place->path, link_path), ==, 0);
  check_fails (link_path, one, G_FILE_ERROR_NOENT, "points to a file that is not there");
  check_kept (place->path, one, TRUE);
  check_kept (link_path, one, FALSE);
  g_free (one);
  one = calendar ("Boil, 21 L");
  check_kept (link_path, one, TRUE);
  check_holds (place->path, one);
  g_assert_true (g_file_test (link_path, G_FILE_TEST_IS_SYMLINK));
}

static void
test_no_folder (Place *place, gconstpointer data)
{
  g_autofree char *inside = g_build_filename (place->folder, "gone", "season.ics", NULL);
  g_autofree char *below_file = g_build_filename (place->path, "season.ics", NULL);
  g_autofree char *one = calendar ("Boil");

  check_fails (inside, one, G_FILE_ERROR_NOENT, "/gone” for the calendar file is not there");
  check_kept (place->path, one, TRUE);
  check_fails (below_file, one, G_FILE_ERROR_NOENT, "season é.ics” for the calendar file is not there");
}

/* Nothing stops root; as somebody else it would be stopped. */
static void
test_read_only (Place *place, gconstpointer data)
{
  g_autofree char *one = calendar ("Boil");
  g_autofree char *other = calendar ("Boil, 21 L");
  gboolean is_root = geteuid () == 0;

  check_kept (place->path, one, TRUE);
  g_assert_cmpint (g_chmod (place->path, 0444), ==, 0);
  g_assert_cmpint (g_chmod (place->folder, 0555), ==, 0);
  if (is_root)
    g_assert_cmpint (seteuid (NOBODY), ==, 0);
  check_kept (place->path, one, FALSE);
  check_fails (place->path, other, G_FILE_ERROR_ACCES, "nothing may be written into the folder “");
  check_holds (place->path, one);
  if (is_root)
    g_assert_cmpint (seteuid (0), ==, 0);
  g_assert_cmpint (g_chmod (place->folder, 0755), ==, 0);
  g_assert_cmpint (g_chmod (place->path, 0000), ==, 0);
  if (is_root)
    g_assert_cmpint (seteuid (NOBODY), ==, 0);
  check_fails (place->path, other, G_FILE_ERROR_ACCES, "cannot be read");
  if (is_root)
    g_assert_cmpint (seteuid (0), ==, 0);
  g_assert_cmpint (g_chmod (place->path, 0644), ==, 0);
  check_holds (place->path, one);
}

typedef struct
{
  const char *path;
  const char *one;
  const char *other;
  gint done; /* atomic */
  guint n_read;
} Watch;

static gpointer
watch_thread (gpointer data)
{
  Watch *watch = data;

  while (!g_atomic_int_get (&watch->done))
    {
      g_autofree char *found = NULL;

      g_assert_true (g_file_get_contents (watch->path, &found, NULL, NULL));
      g_assert_true (g_str_equal (found, watch->one) || g_str_equal (found, watch->other));
      watch->n_read++;
    }
  return NULL;
}

/* Who reads while it is written has the old file or the new one, whole. */
static void
test_in_one_step (Place *place, gconstpointer data)
{
  g_autofree char *long_a = g_strnfill (300000, 'a');
  g_autofree char *long_b = g_strnfill (200000, 'b');
  g_autofree char *one = calendar (long_a);
  g_autofree char *other = calendar (long_b);
  Watch watch = { place->path, one, other, 0, 0 };
  GThread *thread;

  check_kept (place->path, one, TRUE);
  thread = g_thread_new ("watch", watch_thread, &watch);
  for (guint i = 0; i < 100; i++)
    check_kept (place->path, i % 2 == 0 ? other : one, TRUE);
  g_atomic_int_set (&watch.done, 1);
  g_thread_join (thread);
  g_assert_cmpuint (watch.n_read, >, 0);
}

static void
add (const char *name, void (*test) (Place *place, gconstpointer data))
{
  g_test_add (name, Place, NULL, place_set_up, test, place_tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("/calendar-keep/only-when-different", test_only_when_different);
  add ("/calendar-keep/empty-and-cut", test_empty_and_cut);
  add ("/calendar-keep/others", test_others);
  add ("/calendar-keep/permissions", test_permissions);
  add ("/calendar-keep/link", test_link);
  add ("/calendar-keep/no-folder", test_no_folder);
  add ("/calendar-keep/read-only", test_read_only);
  add ("/calendar-keep/in-one-step", test_in_one_step);
  return g_test_run ();
}
