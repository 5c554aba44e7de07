/* What was acknowledged survives a kill. A child commits changes as fast as it can and says so after each;
 * the parent kills it without warning after a random while and looks at the book: whole, nothing acknowledged
 * missing, no change half there.
 *
 *   test-kill [--kills N]      20 kills unless told otherwise; tests/long/kills runs hundreds
 *
 * A kill of the process leaves the system running, so this shows that transactions and their log are sound; a
 * power cut is answered by synchronous = FULL, which test-schema checks. */
#include "book-tools.h"
#include "domain/records/kinds.h"

#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

static const char *program;
static int n_kills = 20;

/* What a season adds to a book. */
static const FrKindId growing[] = { FR_KIND_GATHERING, FR_KIND_POUR, FR_KIND_DIP, FR_KIND_DAY };

/* The field that a number is kept in, here by the hundredth. */
static const FrField *
number_field (FrKindId kind)
{
  return fr_kind_field (fr_kind (kind), kind == FR_KIND_DAY   ? "high_c"
                                        : kind == FR_KIND_DIP ? "reading_brix"
                                                              : "volume_l");
}

static double
number_of (gint64 n)
{
  return (n % 4000) / 100.0;
}

/* Each change adds a gathering, a pouring, a look and a day N of N / 100 and sets the cooker's power by N: records
 * that must go together. */
static FrChange *
numbered_change (FrStore *store, gint64 n)
{
  FrChange *change = tools_edit (store, FR_KIND_COOKER, 1, "power_w", 100.0 + n % 10000);

  for (guint i = 0; i < G_N_ELEMENTS (growing); i++)
    {
      g_autoptr (FrRecord) record = sample_sparse (growing[i], n);

      fr_record_set_amount (record, number_field (growing[i]), number_of (n), NULL);
      fr_change_add (change, NULL, record);
    }
  return change;
}

static int
write_until_killed (const char *path)
{
  prctl (PR_SET_PDEATHSIG, SIGKILL);
  g_autoptr (FrStore) store = tools_open (path);
  for (gint64 n = fr_store_next_id (store, FR_KIND_GATHERING, NULL); getppid () != 1; n++)
    {
      g_autoptr (FrChange) change = numbered_change (store, n);
      tools_apply (store, change);
      g_autofree char *line = g_strdup_printf ("%" G_GINT64_FORMAT "\n", n);
      if (write (STDOUT_FILENO, line, strlen (line)) != (gssize)strlen (line))
        return 1;
    }
  return 1;
}

/* The last number a child acknowledged; @last when it was killed before the first. @at_work waits for the
 * first, so that a slow machine kills at work too. */
static gint64
run_and_kill (const char *path, GRand *rand, gboolean at_work, gint64 last)
{
  int ends[2];
  g_assert_cmpint (pipe (ends), ==, 0);
  pid_t pid = fork ();
  g_assert_cmpint (pid, >=, 0);
  if (pid == 0)
    {
      dup2 (ends[1], STDOUT_FILENO);
      close (ends[0]);
      close (ends[1]);
      execl (program, program, "--child", path, NULL);
      _exit (127);
    }
  close (ends[1]);
  g_autoptr (GString) said = g_string_new (NULL);
  char buffer[4096];
  gssize n = 0;
  if (at_work)
    {
      n = read (ends[0], buffer, sizeof buffer);
      g_assert_cmpint (n, >, 0);
      g_string_append_len (said, buffer, n);
    }
  g_usleep (g_rand_int_range (rand, 0, at_work ? 100000 : 200000));
  g_assert_cmpint (kill (pid, SIGKILL), ==, 0);
  int status;
  g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
  g_assert_true (WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL);

  while ((n = read (ends[0], buffer, sizeof buffer)) > 0)
    g_string_append_len (said, buffer, n);
  g_assert_cmpint (n, ==, 0);
  close (ends[0]);

  const char *at = said->str;
  while (*at != '\0')
    {
      char *end;
      gint64 number = g_ascii_strtoll (at, &end, 10);
      /* A pipe takes a short line whole or not at all. */
      g_assert_cmpint (*end, ==, '\n');
      g_assert_cmpint (number, >, last);
      last = number;
      at = end + 1;
    }
  return last;
}

/* The book holds 1 to N of each kind without a gap, N not below what was acknowledged and at most one above. */
static gint64
verify (const char *path, gint64 acknowledged)
{
  g_autoptr (FrStore) store = tools_open (path);
  g_autoptr (sqlite3_stmt) whole
      = fr_database_prepare (fr_store_database (store), "PRAGMA integrity_check", NULL);
  g_assert_cmpint (sqlite3_step (whole), ==, SQLITE_ROW);
  g_assert_cmpstr ((const char *)sqlite3_column_text (whole, 0), ==, "ok");
  sqlite3_finalize (g_steal_pointer (&whole));
  g_assert_cmpint (tools_number (store, "SELECT count (*) FROM pragma_foreign_key_check"), ==, 0);

  gint64 last = tools_number (store, "SELECT count (*) FROM gathering");
  g_assert_cmpint (last, >=, acknowledged);
  g_assert_cmpint (last, <=, acknowledged + 1);
  for (guint k = 0; k < G_N_ELEMENTS (growing); k++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) records = fr_store_load (store, growing[k], &error);
      g_assert_no_error (error);
      g_assert_cmpint (records->len, ==, last);
      for (guint i = 0; i < records->len; i++)
        {
          FrRecord *record = g_ptr_array_index (records, i);
          g_assert_cmpint (record->id, ==, i + 1);
          g_assert_cmpfloat (fr_record_amount (record, number_field (growing[k]))->value, ==, number_of (i + 1));
        }
    }
  g_autoptr (FrRecord) cooker = tools_find (store, FR_KIND_COOKER, 1);
  if (last > 0)
    g_assert_cmpfloat (((FrCooker *)cooker)->power_w.value, ==, 100.0 + last % 10000);
  /* The first row is the book itself. */
  g_assert_cmpint (tools_number (store, "SELECT count (*) FROM diary"), ==, last + 1);
  return last;
}

/* The kit of the sample. */
static void
make_book (const char *path)
{
  g_autoptr (FrStore) store = tools_open (path);
  g_autoptr (FrChange) book = fr_change_new ("import-book", NULL);
  static const FrKindId kinds[] = { FR_KIND_HOUSEHOLD, FR_KIND_CIRCUIT, FR_KIND_VESSEL, FR_KIND_COOKER };
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (FrRecord) record = sample_full (kinds[i], 1);
      fr_change_add (book, NULL, record);
    }
  tools_apply (store, book);
}

static void
test_kills (void)
{
  g_autofree char *folder = tools_new_folder ();
  g_autofree char *path = NULL;
  GRand *rand = g_rand_new_with_seed (g_test_rand_int ());
  gint64 last = 0, all = 0, ahead = 0, n_before_first = 0;

  for (int i = 0; i < n_kills; i++)
    {
      /* A fresh book now and then keeps the check of each quick. */
      if (i % 10 == 0)
        {
          g_free (path);
          path = g_strdup_printf ("%s/book-%d.frostrun", folder, i);
          make_book (path);
          last = 0;
        }
      gint64 acknowledged = run_and_kill (path, rand, i % 2 == 0, last);
      gint64 stored = verify (path, acknowledged);
      all += stored - last;
      ahead += stored - acknowledged;
      n_before_first += acknowledged == last;
      last = stored;
    }
  g_test_message (
      "%d kills, %d changes kept, %d kept but not yet acknowledged, %d kills before the first, 0 lost",
      n_kills, (int)all, (int)ahead, (int)n_before_first);
  g_assert_cmpint (n_before_first, <=, n_kills / 2);
  g_assert_cmpint (all, >=, n_kills / 2);
  g_rand_free (rand);
  tools_remove_folder (folder);
}

/* Killed while the book is being made: the next start makes it or finds it made. */
static void
test_kills_at_birth (void)
{
  g_autofree char *folder = tools_new_folder ();
  GRand *rand = g_rand_new_with_seed (g_test_rand_int ());
  int n_whole = 0;

  for (int i = 0; i < n_kills; i++)
    {
      g_autofree char *path = g_strdup_printf ("%s/book-%d.frostrun", folder, i);
      pid_t pid = fork ();
      g_assert_cmpint (pid, >=, 0);
      if (pid == 0)
        {
          execl (program, program, "--birth", path, NULL);
          _exit (127);
        }
      int status;
      g_usleep (g_rand_int_range (rand, 500, 120000));
      kill (pid, SIGKILL);
      g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
      g_assert_true (WIFSIGNALED (status) || WEXITSTATUS (status) == 0);
      n_whole += WIFEXITED (status);
      g_autoptr (FrStore) store = tools_open (path);
      g_assert_cmpint (tools_number (store, "SELECT count (*) FROM sqlite_schema WHERE type = 'table'"), ==,
                       FR_N_KINDS + 2);
    }
  g_test_message ("%d kills at birth, %d came too late", n_kills, n_whole);
  g_rand_free (rand);
  tools_remove_folder (folder);
}

int
main (int argc, char **argv)
{
  program = argv[0];
  if (argc == 3 && strcmp (argv[1], "--child") == 0)
    return write_until_killed (argv[2]);
  if (argc == 3 && strcmp (argv[1], "--birth") == 0)
    {
      g_autoptr (FrStore) store = tools_open (argv[2]);
      return 0;
    }
  g_test_init (&argc, &argv, NULL);
  if (argc == 3 && strcmp (argv[1], "--kills") == 0)
    n_kills = CLAMP (atoi (argv[2]), 1, 100000);
  g_test_add_func ("/kill/at-work", test_kills);
  g_test_add_func ("/kill/at-birth", test_kills_at_birth);
  return g_test_run ();
}
