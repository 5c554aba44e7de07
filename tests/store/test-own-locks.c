/* Something else in the program opens and closes the book's files, as a file chooser does that looks into
 * them to tell their kind; then another program comes and goes. Closing drops a program's POSIX locks
 * (fcntl(2)), and SQLite takes the write-ahead log away when it believes it is the last to close
 * (sqlite.org/wal.html), so without locks of its own the store would write on into a file that is gone. The
 * other program is this one, started anew with --first or --write. */
#include "book-tools.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <unistd.h>

static const char *program;

static int
other_program (const char *what, const char *path)
{
  sqlite3 *db = NULL;
  sqlite3_stmt *statement = NULL;
  int code = sqlite3_open_v2 (path, &db, SQLITE_OPEN_READWRITE, NULL);

  if (code == SQLITE_OK && g_str_equal (what, "--write"))
    code = sqlite3_exec (db, "UPDATE pour SET note = 'by the other'", NULL, NULL, NULL);
  else if (code == SQLITE_OK)
    {
      code = sqlite3_prepare_v2 (db, "SELECT volume_l FROM pour ORDER BY id", -1, &statement, NULL);
      if (code == SQLITE_OK && sqlite3_step (statement) == SQLITE_ROW)
        g_print ("%g", sqlite3_column_double (statement, 0));
      sqlite3_finalize (statement);
    }
  sqlite3_close (db);
  return code;
}

/* What the other program says; its exit status is SQLite's code. */
static char *
run_other (const char *what, const char *path, int expected)
{
  const char *const argv[] = { program, what, path, NULL };
  g_autoptr (GError) error = NULL;
  char *said = NULL;
  int status;

  g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &said, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (status));
  g_assert_cmpint (WEXITSTATUS (status), ==, expected);
  return said;
}

static void
look_into_files (const char *path)
{
  const char *const ends[] = { "", "-wal", "-shm" };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      g_autofree char *name = g_strconcat (path, ends[i], NULL);
      char bytes[16];
      int fd = g_open (name, O_RDONLY | O_CLOEXEC, 0);

      g_assert_cmpint (fd, >=, 0);
      g_assert_cmpint (read (fd, bytes, sizeof bytes), >=, 0);
      g_assert_cmpint (close (fd), ==, 0);
    }
}

static void
test_log_stays (void)
{
  g_autofree char *folder = tools_new_folder ();
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);
  g_autofree char *log = g_strconcat (path, "-wal", NULL);

  {
    g_autoptr (FrStore) store = tools_open (path);
    g_autoptr (FrChange) book = sample_book (2), edit = NULL;
    g_autofree char *before = NULL, *after = NULL;

    tools_apply (store, book);
    look_into_files (path);
    before = run_other ("--first", path, SQLITE_OK);
    g_assert_true (g_file_test (log, G_FILE_TEST_EXISTS));
    edit = tools_edit (store, FR_KIND_POUR, 1, "volume_l", 12.5);
    tools_apply (store, edit);
    after = run_other ("--first", path, SQLITE_OK);
    g_assert_cmpstr (before, !=, "12.5");
    g_assert_cmpstr (after, ==, "12.5");
  }
  {
    g_autoptr (FrStore) again = tools_open (path);

    g_assert_cmpint (tools_number (again, "SELECT volume_l = 12.5 FROM pour ORDER BY id"), ==, 1);
  }
  tools_remove_folder (folder);
}

/* A change under way is not written into. */
static void
test_change_is_alone (void)
{
  g_autofree char *folder = tools_new_folder ();
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);

  {
    g_autoptr (FrStore) store = tools_open (path);
    g_autoptr (FrChange) book = sample_book (2);
    g_autofree char *busy = NULL, *done = NULL;

    tools_apply (store, book);
    g_assert_true (fr_database_begin (fr_store_database (store), NULL));
    look_into_files (path);
    busy = run_other ("--write", path, SQLITE_BUSY);
    fr_database_rollback (fr_store_database (store));
    done = run_other ("--write", path, SQLITE_OK);
    g_assert_cmpint (tools_number (store, "SELECT count (*) FROM pour WHERE note = 'by the other'"), >, 0);
  }
  tools_remove_folder (folder);
}

int
main (int argc, char **argv)
{
  program = argv[0];
  if (argc == 3 && (g_str_equal (argv[1], "--first") || g_str_equal (argv[1], "--write")))
    return other_program (argv[1], argv[2]);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/own-locks/log-stays", test_log_stays);
  g_test_add_func ("/own-locks/change-is-alone", test_change_is_alone);
  return g_test_run ();
}
