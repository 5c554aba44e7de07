/* The book as a file: what is no book, newer, damaged, not to be written, held by another or on a full disk
 * is answered with a sentence and left as it was; an older book is brought up behind a copy. Permission bits
 * bind root to nothing, so those tests run in a child that has become the user nobody (65534) when they are
 * started by root. */
#include "book-tools.h"
#include "store/schema.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <sched.h>
#include <string.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

typedef struct
{
  char *folder;
  char *path; /* a closed book in it */
} Case;

static void
set_up (Case *c, gconstpointer data)
{
  c->folder = tools_new_folder ();
  c->path = g_build_filename (c->folder, "book.frostrun", NULL);
  g_autoptr (FrStore) store = tools_open (c->path);
  g_autoptr (FrChange) book = sample_book (2);
  tools_apply (store, book);
}

static void
tear_down (Case *c, gconstpointer data)
{
  tools_remove_folder (c->folder);
  g_free (c->path);
  g_free (c->folder);
}

static GBytes *
bytes_of (const char *path)
{
  g_autoptr (GError) error = NULL;
  char *data;
  gsize length;
  g_file_get_contents (path, &data, &length, &error);
  g_assert_no_error (error);
  return g_bytes_new_take (data, length);
}

static void
put_bytes (const char *path, gconstpointer data, gsize length)
{
  g_autoptr (GError) error = NULL;
  g_file_set_contents (path, data, length, &error);
  g_assert_no_error (error);
}

/* Runs SQL on a plain connection, as another program would. */
static void
run_plain (const char *path, const char *sql)
{
  sqlite3 *handle;
  g_assert_cmpint (sqlite3_open (path, &handle), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (handle, sql, NULL, NULL, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_close (handle), ==, SQLITE_OK);
}

/* @last_kind: what came after it has no record, as in a book of the version that ended there. */
static void
assert_holds_sample_to (const char *path, FrKindId last_kind)
{
  g_autoptr (FrStore) store = tools_open (path);
  g_autoptr (FrChange) book = sample_book (2);
  g_autoptr (GPtrArray) found = tools_snapshot (store);
  guint n = 0;
  for (guint i = 0; i < book->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (book->steps, i);
      if (step->after->kind->id > last_kind)
        continue;
      /* Groups came with the containers. */
      if (step->after->kind->id == FR_KIND_TREE && last_kind < FR_KIND_CONTAINER)
        fr_record_set_text (step->after, fr_kind_field (step->after->kind, "stand"), NULL);
      g_assert_cmpuint (n, <, found->len);
      g_assert_true (fr_record_equal (g_ptr_array_index (found, n++), step->after));
    }
  /* Its lots of sap have become gatherings, and what had been used of the first was poured. */
  if (last_kind < FR_KIND_CONTAINER)
    {
      static const double volumes_l[] = { 22.712470704, 22.712470704, 3.3 };

      g_assert_cmpuint (found->len, ==, n + 3);
      for (guint i = 0; i < 3; i++, n++)
        {
          const FrRecord *record = g_ptr_array_index (found, n);
          g_autoptr (GArray) problems = fr_record_check (record);

          g_assert_cmpint (record->kind->id, ==, i < 2 ? FR_KIND_GATHERING : FR_KIND_POUR);
          g_assert_cmpfloat (
              fr_record_amount ((FrRecord *)record, fr_kind_field (record->kind, "volume_l"))->value, ==, volumes_l[i]);
          g_assert_cmpint (fr_record_int (record, fr_kind_field (record->kind, i < 2 ? "gathered_utc" : "poured_utc")), ==,
                           1741471200);
          g_assert_cmpuint (problems->len, ==, 0);
        }
    }
  g_assert_cmpuint (found->len, ==, n);
}

static void
assert_holds_sample (const char *path)
{
  assert_holds_sample_to (path, FR_N_KINDS);
}

static void
test_no_book (Case *c, gconstpointer data)
{
  static const char *const contents[]
      = { "just a letter to an aunt, longer than a hundred bytes so that it could have "
          "been taken for the header of a file of another kind",
          "short", "" };
  g_autofree char *path = g_build_filename (c->folder, "other", NULL);
  g_autofree char *missing = g_build_filename (c->folder, "missing.frostrun", NULL);
  g_autofree char *below_nothing = g_build_filename (c->folder, "nowhere", "book", NULL);
  g_autofree char *below_file = g_build_filename (c->path, "book", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (contents); i++)
    {
      put_bytes (path, contents[i], strlen (contents[i]));
      tools_refuse_open (path, FALSE, FR_STORE_ERROR_NOT_A_BOOK);
      if (*contents[i] != '\0')
        tools_refuse_open (path, TRUE, FR_STORE_ERROR_NOT_A_BOOK);
      g_autoptr (GBytes) after = bytes_of (path);
      g_assert_cmpmem (g_bytes_get_data (after, NULL), g_bytes_get_size (after), contents[i],
                       strlen (contents[i]));
    }
  tools_refuse_open (missing, FALSE, FR_STORE_ERROR_CANNOT_OPEN);
  g_assert_false (g_file_test (missing, G_FILE_TEST_EXISTS));
  tools_refuse_open (below_nothing, FALSE, FR_STORE_ERROR_CANNOT_OPEN);
  tools_refuse_open (below_file, TRUE, FR_STORE_ERROR_CANNOT_OPEN);
  tools_refuse_open (c->folder, TRUE, FR_STORE_ERROR_CANNOT_OPEN);
  tools_refuse_open ("", TRUE, FR_STORE_ERROR_CANNOT_OPEN);
  tools_refuse_open ("/proc/frostrun-book", TRUE, FR_STORE_ERROR_CANNOT_OPEN);
}

/* A crash at the very beginning leaves an empty file; the next start makes a book of it. */
static void
test_empty_file_becomes_book (Case *c, gconstpointer data)
{
  g_autofree char *path = g_build_filename (c->folder, "empty", NULL);
  put_bytes (path, "", 0);
  g_autoptr (FrStore) store = tools_open (path);
  g_assert_cmpint (tools_number (store, "PRAGMA user_version"), ==, FR_SCHEMA_VERSION);
}

static void
test_other_sqlite_file (Case *c, gconstpointer data)
{
  static const char *const others[]
      = { "CREATE TABLE recipes (title)", "PRAGMA user_version = 1; CREATE TABLE t (a)",
          "PRAGMA application_id = 7; CREATE TABLE t (a)" };
  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    {
      g_autofree char *path = g_strdup_printf ("%s/other-%u", c->folder, i);
      run_plain (path, others[i]);
      g_autoptr (GBytes) before = bytes_of (path);
      tools_refuse_open (path, TRUE, FR_STORE_ERROR_NOT_A_BOOK);
      g_autoptr (GBytes) after = bytes_of (path);
      g_assert_true (g_bytes_equal (before, after));
    }
}

static void
test_newer (Case *c, gconstpointer data)
{
  run_plain (c->path, "PRAGMA user_version = 5; PRAGMA journal_mode = DELETE");
  g_autoptr (GBytes) before = bytes_of (c->path);
  tools_refuse_open (c->path, TRUE, FR_STORE_ERROR_NEWER);
  g_autoptr (GBytes) after = bytes_of (c->path);
  g_assert_true (g_bytes_equal (before, after));
}

/* Tries all the store can do with a file that may be spoilt. Whatever fails must say so; the codes are
 * returned as bits. */
static guint
use_spoilt (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = fr_store_open (path, FALSE, &error);
  guint codes = 0;

  if (store == NULL)
    {
      tools_assert_sentence (error, error->code);
      return 1u << error->code;
    }
  for (int kind = 0; kind < FR_N_KINDS; kind++)
    {
      g_autoptr (GError) load_error = NULL;
      g_autoptr (GPtrArray) records = fr_store_load (store, kind, &load_error);
      if (records != NULL)
        continue;
      tools_assert_sentence (load_error, load_error->code);
      codes |= 1u << load_error->code;
    }
  g_autoptr (GError) diary_error = NULL;
  g_autoptr (GPtrArray) rows = fr_store_diary (store, 1000, &diary_error);
  if (rows == NULL)
    codes |= 1u << diary_error->code;
  g_autoptr (FrRecord) pour = sample_sparse (FR_KIND_POUR, 99);
  g_autoptr (FrChange) add = fr_change_new ("add", NULL);
  g_autoptr (GError) apply_error = NULL;
  fr_change_add (add, NULL, pour);
  if (!fr_store_apply (store, add, FR_ORIGIN_CLI, NOW_UTC, &apply_error))
    {
      tools_assert_sentence (apply_error, apply_error->code);
      codes |= 1u << apply_error->code;
    }
  return codes;
}

/* Page after page overwritten: most hold something that is missed at once, and it is called what it is. */
static void
test_damaged_pages (Case *c, gconstpointer data)
{
  g_autoptr (GBytes) whole = bytes_of (c->path);
  g_autofree char *path = g_build_filename (c->folder, "damaged", NULL);
  gsize size = g_bytes_get_size (whole);
  guint noticed = 0;

  for (gsize at = 0; at < size; at += 4096)
    {
      g_autofree guint8 *copy = g_memdup2 (g_bytes_get_data (whole, NULL), size);
      memset (copy + at, 0xa5, 4096);
      put_bytes (path, copy, size);
      guint codes = use_spoilt (path);
      g_assert_cmphex (codes & ~(1u << FR_STORE_ERROR_NOT_A_BOOK), ==, 0);
      noticed += codes != 0;
    }
  g_test_message ("%u of %u spoilt pages noticed", noticed, (guint)(size / 4096));
  g_assert_cmpuint (noticed, >=, FR_N_KINDS + 1);
}

static void
test_cut_short (Case *c, gconstpointer data)
{
  g_autoptr (GBytes) whole = bytes_of (c->path);
  g_autofree char *path = g_build_filename (c->folder, "short", NULL);

  for (gsize length = 50; length + 4096 < g_bytes_get_size (whole); length = length * 2 + 333)
    {
      put_bytes (path, g_bytes_get_data (whole, NULL), length);
      g_assert_cmphex (use_spoilt (path), ==, 1u << FR_STORE_ERROR_NOT_A_BOOK);
    }
}

/* Single bytes turned over may pass unseen, as there are no sums over pages; nothing may crash. */
static void
test_flipped_bytes (Case *c, gconstpointer data)
{
  g_autoptr (GBytes) whole = bytes_of (c->path);
  g_autofree char *path = g_build_filename (c->folder, "flipped", NULL);
  gsize size = g_bytes_get_size (whole);
  GRand *rand = g_rand_new_with_seed (11);

  for (int round = 0; round < 150; round++)
    {
      g_autofree guint8 *copy = g_memdup2 (g_bytes_get_data (whole, NULL), size);
      for (int i = 0; i < 8; i++)
        copy[g_rand_int_range (rand, round % 3 == 0 ? 0 : 100, round % 3 == 0 ? 4096 : size)]
            ^= g_rand_int_range (rand, 1, 256);
      put_bytes (path, copy, size);
      use_spoilt (path);
      g_autofree char *wal = g_strconcat (path, "-wal", NULL);
      g_autofree char *shm = g_strconcat (path, "-shm", NULL);
      g_unlink (wal);
      g_unlink (shm);
    }
  g_rand_free (rand);
}

/* Right as a table, wrong as a record: written past the door. */
static void
test_wrong_record_inside (Case *c, gconstpointer data)
{
  g_autoptr (FrStore) store = tools_open (c->path);
  g_autoptr (GError) error = NULL;
  g_assert_true (tools_force (store, "UPDATE cooker SET power_w = 5 WHERE id = 2"));
  g_assert_null (fr_store_load (store, FR_KIND_COOKER, &error));
  tools_assert_sentence (error, FR_STORE_ERROR_NOT_A_BOOK);
  g_assert_nonnull (strstr (error->message, "power_w"));
}

static void
test_busy (Case *c, gconstpointer data)
{
  g_autoptr (FrStore) store = tools_open (c->path);
  g_autoptr (FrChange) edit = tools_edit (store, FR_KIND_COOKER, 1, "power_w", 1000);
  sqlite3 *other;
  g_assert_cmpint (sqlite3_open (c->path, &other), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_exec (other, "BEGIN IMMEDIATE", NULL, NULL, NULL), ==, SQLITE_OK);
  gint64 from = g_get_monotonic_time ();
  tools_refuse (store, edit, FR_STORE_ERROR_BUSY);
  g_assert_cmpint (g_get_monotonic_time () - from, >=, 2900000);
  sqlite3_close (other);
  tools_apply (store, edit);
}

/* SQLite's own limit on the size of the file answers as a full disk does; a really full one is tried in
 * tests/long. */
static void
test_full (Case *c, gconstpointer data)
{
  g_autoptr (FrStore) store = tools_open (c->path);
  g_autofree char *note = g_strnfill (4000, 'n');
  g_autoptr (FrChange) big = fr_change_new ("import-book", NULL);
  for (int i = 0; i < 50; i++)
    {
      g_autoptr (FrRecord) pour = sample_sparse (FR_KIND_POUR, 100 + i);
      fr_record_set_text (pour, fr_kind_field (pour->kind, "note"), note);
      fr_change_add (big, NULL, pour);
    }
  g_autofree char *limit
      = g_strdup_printf ("PRAGMA max_page_count = %d", (int)tools_number (store, "PRAGMA page_count") + 3);
  tools_number (store, limit);
  tools_refuse (store, big, FR_STORE_ERROR_FULL);
  tools_number (store, "PRAGMA max_page_count = 1000000");
  tools_apply (store, big);
  g_assert_cmpint (tools_number (store, "SELECT count (*) FROM pour"), ==, 52);
}

/* Runs a test in a child; 77 means that this machine does not let it be set up. */
static void
in_child (void (*run) (Case *c), Case *c)
{
  pid_t pid = fork ();
  g_assert_cmpint (pid, >=, 0);
  if (pid == 0)
    {
      run (c);
      fflush (stdout);
      _exit (0);
    }
  int status;
  g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
  g_assert_true (WIFEXITED (status));
  if (WEXITSTATUS (status) == 77)
    g_test_skip ("no mounting here");
  else
    g_assert_cmpint (WEXITSTATUS (status), ==, 0);
}

static void
become_nobody (void)
{
  if (geteuid () == 0 && (setresgid (65534, 65534, 65534) != 0 || setresuid (65534, 65534, 65534) != 0))
    g_error ("cannot become nobody: %s", g_strerror (errno));
}

static void
open_without_rights (Case *c)
{
  g_autofree char *new_path = g_build_filename (c->folder, "new.frostrun", NULL);
  g_autofree char *new_folder = g_build_filename (c->folder, "new", "book.frostrun", NULL);
  become_nobody ();
  /* The folder takes no new file: neither the log beside the book nor a book. */
  tools_refuse_open (c->path, FALSE, FR_STORE_ERROR_READ_ONLY);
  tools_refuse_open (new_path, TRUE, FR_STORE_ERROR_CANNOT_OPEN);
  tools_refuse_open (new_folder, TRUE, FR_STORE_ERROR_CANNOT_OPEN);
}

static void
test_read_only_folder (Case *c, gconstpointer data)
{
  g_assert_cmpint (g_chmod (c->path, 0666), ==, 0);
  g_assert_cmpint (g_chmod (c->folder, 0555), ==, 0);
  in_child (open_without_rights, c);
  g_assert_cmpint (g_chmod (c->folder, 0755), ==, 0);
  assert_holds_sample (c->path);
}

static void
open_read_only (Case *c)
{
  become_nobody ();
  tools_refuse_open (c->path, FALSE, FR_STORE_ERROR_READ_ONLY);
  tools_refuse_open (c->path, TRUE, FR_STORE_ERROR_READ_ONLY);
}

static void
test_read_only_file (Case *c, gconstpointer data)
{
  g_assert_cmpint (g_chmod (c->path, 0444), ==, 0);
  g_assert_cmpint (g_chmod (c->folder, 0777), ==, 0);
  in_child (open_read_only, c);
  g_assert_cmpint (g_chmod (c->path, 0644), ==, 0);
  assert_holds_sample (c->path);
}

static void
open_unreadable (Case *c)
{
  become_nobody ();
  tools_refuse_open (c->path, FALSE, FR_STORE_ERROR_CANNOT_OPEN);
}

static void
test_unreadable_file (Case *c, gconstpointer data)
{
  g_assert_cmpint (g_chmod (c->path, 0), ==, 0);
  g_assert_cmpint (g_chmod (c->folder, 0777), ==, 0);
  in_child (open_unreadable, c);
  g_assert_cmpint (g_chmod (c->path, 0644), ==, 0);
}

/* A disk mounted for reading: a bind mount in a mount namespace of the child's own. */
static void
open_on_read_only_disk (Case *c)
{
  g_autofree char *new_path = g_build_filename (c->folder, "new.frostrun", NULL);
  g_autofree char *new_folder = g_build_filename (c->folder, "new", "book.frostrun", NULL);
  if ((unshare (CLONE_NEWNS) != 0 && unshare (CLONE_NEWNS | CLONE_NEWUSER) != 0)
      || mount (NULL, "/", NULL, MS_REC | MS_PRIVATE, NULL) != 0
      || mount (c->folder, c->folder, NULL, MS_BIND, NULL) != 0
      || mount (NULL, c->folder, NULL, MS_BIND | MS_REMOUNT | MS_RDONLY, NULL) != 0)
    _exit (77);
  tools_refuse_open (c->path, FALSE, FR_STORE_ERROR_READ_ONLY);
  tools_refuse_open (new_path, TRUE, FR_STORE_ERROR_READ_ONLY);
  tools_refuse_open (new_folder, TRUE, FR_STORE_ERROR_READ_ONLY);
}

static void
test_read_only_disk (Case *c, gconstpointer data)
{
  in_child (open_on_read_only_disk, c);
  assert_holds_sample (c->path);
}

static gboolean
bring_up (const char *path, const char *next, GError **error)
{
  /* Of the scripts before it only the number is asked. */
  const char *scripts[FR_SCHEMA_VERSION + 2] = { NULL };
  for (guint i = 0; i < FR_SCHEMA_VERSION; i++)
    scripts[i] = "";
  scripts[FR_SCHEMA_VERSION] = next;
  g_autoptr (FrDatabase) db = fr_database_open (path, FALSE, error);
  return db != NULL && fr_schema_bring_up_with (db, FALSE, scripts, error);
}

static char *
copy_path (Case *c, const char *suffix)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *day = g_date_time_format (now, "%Y%m%d");
  return g_strdup_printf ("%s.before-v%d-%s%s", c->path, FR_SCHEMA_VERSION + 1, day, suffix);
}

static void
test_migration (Case *c, gconstpointer data)
{
  static const char *const good = "ALTER TABLE vessel ADD COLUMN lid TEXT; UPDATE vessel SET lid = 'none'";
  static const char *const bad[] = { "ALTER TABLE vessel ADD COLUMN lid TEXT; ALTER TABEL vessel",
                                     "DELETE FROM vessel", "DROP TABLE vessel" };
  g_autofree char *copy = copy_path (c, "");
  g_autofree char *second_copy = copy_path (c, "-2");

  /* A step that fails is no step, and the copy stays. */
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_false (bring_up (c->path, bad[i], &error));
      tools_assert_sentence (error, FR_STORE_ERROR_FAILED);
      assert_holds_sample (c->path);
    }
  g_assert_true (g_file_test (copy, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (second_copy, G_FILE_TEST_EXISTS));
  g_unlink (copy);
  g_unlink (second_copy);

  g_autoptr (GError) error = NULL;
  g_assert_true (bring_up (c->path, good, &error));
  g_assert_no_error (error);
  tools_refuse_open (c->path, FALSE, FR_STORE_ERROR_NEWER);
  /* The copy is the book as it was; this program still reads it. */
  assert_holds_sample (copy);
  g_assert_false (g_file_test (second_copy, G_FILE_TEST_EXISTS));

  /* Brought up already: nothing to do, no second copy. */
  g_assert_true (bring_up (c->path, good, &error));
  g_assert_false (g_file_test (second_copy, G_FILE_TEST_EXISTS));
  run_plain (c->path, "SELECT lid FROM vessel");
}

/* A book kept from an earlier version, with every kind there was up to @last_kind. Each was made once with
 * --write-fixture and never again. */
static void
assert_upgrades (Case *c, const char *name, FrKindId last_kind)
{
  g_autofree char *fixture = g_test_build_filename (G_TEST_DIST, "fixtures", name, NULL);
  g_autoptr (GBytes) bytes = bytes_of (fixture);
  g_autofree char *path = g_build_filename (c->folder, name, NULL);
  put_bytes (path, g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
  assert_holds_sample_to (path, last_kind);

  g_autoptr (FrStore) store = tools_open (path);
  g_assert_cmpint (tools_number (store, "PRAGMA user_version"), ==, FR_SCHEMA_VERSION);
  g_autoptr (GPtrArray) rows = fr_store_diary (store, 10, NULL);
  g_assert_cmpuint (rows->len, ==, 1);
  g_assert_cmpint (((FrDiaryRow *)g_ptr_array_index (rows, 0))->utc_s, ==, NOW_UTC);
}

static void
test_fixture_1 (Case *c, gconstpointer data)
{
  assert_upgrades (c, "book-v1.frostrun", FR_KIND_NIGHT);
}

static void
test_fixture_2 (Case *c, gconstpointer data)
{
  assert_upgrades (c, "book-v2.frostrun", FR_KIND_TAPPING);
}

static void
test_fixture_3 (Case *c, gconstpointer data)
{
  assert_upgrades (c, "book-v3.frostrun", FR_KIND_STORING);
}

static int
write_fixture (const char *path)
{
  g_autoptr (FrStore) store = tools_open (path);
  g_autoptr (FrChange) book = sample_book (2);
  tools_apply (store, book);
  /* One file, without a log beside it. */
  tools_number (store, "PRAGMA journal_mode = DELETE");
  return 0;
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    void (*run) (Case *c, gconstpointer data);
  } tests[] = {
    { "no-book", test_no_book },
    { "empty-file-becomes-book", test_empty_file_becomes_book },
    { "other-sqlite-file", test_other_sqlite_file },
    { "newer", test_newer },
    { "damaged-pages", test_damaged_pages },
    { "cut-short", test_cut_short },
    { "flipped-bytes", test_flipped_bytes },
    { "wrong-record-inside", test_wrong_record_inside },
    { "busy", test_busy },
    { "full", test_full },
    { "read-only-folder", test_read_only_folder },
    { "read-only-file", test_read_only_file },
    { "unreadable-file", test_unreadable_file },
    { "read-only-disk", test_read_only_disk },
    { "migration", test_migration },
    { "fixture-v1", test_fixture_1 },
    { "fixture-v2", test_fixture_2 },
    { "fixture-v3", test_fixture_3 },
  };

  if (argc == 3 && strcmp (argv[1], "--write-fixture") == 0)
    return write_fixture (argv[2]);
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strconcat ("/book-file/", tests[i].name, NULL);
      g_test_add (path, Case, NULL, set_up, tests[i].run, tear_down);
    }
  return g_test_run ();
}
