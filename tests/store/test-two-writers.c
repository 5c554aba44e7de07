/* Two programs write to one book at once, a window and a command line: each adds what a season brings and counts itself
 * in a record that both edit. Nothing is lost, nothing is there twice, and who was too late is told and tries again. */
#include "book-tools.h"
#include "domain/records/kinds.h"

#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define N_WRITERS 2
#define N_CHANGES 150

static const FrKindId growing[] = { FR_KIND_GATHERING, FR_KIND_POUR, FR_KIND_DIP, FR_KIND_DAY };
static const char *program;

/* One more of each kind, and the counter one up; NULL when the book cannot be read. */
static FrChange *
next_change (FrStore *store, guint writer, GError **error)
{
  g_autoptr (FrChange) change = fr_change_new ("add-gathering", NULL);
  g_autoptr (FrRecord) before = NULL, after = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (growing); i++)
    {
      gint64 id = fr_store_next_id (store, growing[i], error);
      g_autoptr (FrRecord) record = NULL;

      if (id <= 0)
        return NULL;
      record = sample_sparse (growing[i], id);
      record->uid[0] = (char)('a' + writer);
      fr_change_add (change, NULL, record);
    }
  if (!fr_store_find (store, FR_KIND_CONTAINER, 1, &before, error))
    return NULL;
  after = fr_record_copy (before);
  fr_amount_set (&((FrContainer *)after)->capacity_l, ((FrContainer *)before)->capacity_l.value + 1, NULL);
  fr_change_add (change, before, after);
  return g_steal_pointer (&change);
}

/* Says how often it was too late by its exit code, 255 for anything else that went wrong. */
static int
write_many (const char *path, guint writer)
{
  g_autoptr (FrStore) store = tools_open (path);
  int late = 0;

  for (guint n = 0; n < N_CHANGES;)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (FrChange) change = next_change (store, writer, &error);

      if (change == NULL)
        return 255;
      if (fr_store_apply (store, change, FR_ORIGIN_CLI, NOW_UTC, &error))
        {
          n++;
          continue;
        }
      if (!g_error_matches (error, FR_STORE_ERROR, FR_STORE_ERROR_CONFLICT))
        {
          g_printerr ("%s\n", error->message);
          return 255;
        }
      late = MIN (late + 1, 254);
    }
  return late;
}

static pid_t
start (const char *path, guint writer)
{
  pid_t pid = fork ();

  g_assert_cmpint (pid, >=, 0);
  if (pid == 0)
    {
      execl (program, program, "--writer", path, writer == 0 ? "0" : "1", NULL);
      _exit (255);
    }
  return pid;
}

static void
test_two_writers (void)
{
  g_autofree char *folder = tools_new_folder ();
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);
  g_autoptr (FrStore) store = tools_open (path);
  g_autoptr (FrRecord) container = sample_full (FR_KIND_CONTAINER, 1), counted = NULL;
  g_autoptr (FrChange) kit = fr_change_new ("import-book", NULL);
  double begin_l = 100;
  gint64 before;
  pid_t pids[N_WRITERS];
  int late = 0;

  fr_amount_set (&((FrContainer *)container)->capacity_l, begin_l, NULL);
  fr_change_add (kit, NULL, container);
  tools_apply (store, kit);
  before = fr_store_data_version (store);
  for (guint i = 0; i < N_WRITERS; i++)
    pids[i] = start (path, i);
  for (guint i = 0; i < N_WRITERS; i++)
    {
      int status;

      g_assert_cmpint (waitpid (pids[i], &status, 0), ==, pids[i]);
      g_assert_true (WIFEXITED (status));
      g_assert_cmpint (WEXITSTATUS (status), <, 255);
      late += WEXITSTATUS (status);
    }
  g_test_message ("%d changes of two writers, %d times too late", N_WRITERS * N_CHANGES, late);

  g_assert_cmpint (fr_store_data_version (store), !=, before);
  counted = tools_find (store, FR_KIND_CONTAINER, 1);
  g_assert_cmpfloat (((FrContainer *)counted)->capacity_l.value, ==, begin_l + N_WRITERS * N_CHANGES);
  g_assert_cmpint (tools_number (store, "SELECT count (*) FROM diary"), ==, 1 + N_WRITERS * N_CHANGES);
  for (guint k = 0; k < G_N_ELEMENTS (growing); k++)
    {
      g_autoptr (GPtrArray) records = fr_store_load (store, growing[k], NULL);
      guint of[N_WRITERS] = { 0 };

      g_assert_cmpuint (records->len, ==, N_WRITERS * N_CHANGES);
      for (guint i = 0; i < records->len; i++)
        {
          const FrRecord *record = records->pdata[i];

          g_assert_cmpint (record->id, ==, i + 1);
          of[record->uid[0] - 'a']++;
        }
      for (guint i = 0; i < N_WRITERS; i++)
        g_assert_cmpuint (of[i], ==, N_CHANGES);
    }
  fr_store_close (g_steal_pointer (&store));
  tools_remove_folder (folder);
}

int
main (int argc, char **argv)
{
  program = argv[0];
  if (argc == 4 && strcmp (argv[1], "--writer") == 0)
    return write_many (argv[2], (guint)atoi (argv[3]));
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/two-writers/all-kept", test_two_writers);
  return g_test_run ();
}
