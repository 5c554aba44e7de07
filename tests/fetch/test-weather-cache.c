/* What is remembered between runs: every answer and every attempt survives a restart, a damaged file does no
 * harm, a folder that cannot be written keeps from asking (an attempt that is not remembered would be made
 * again), a kill leaves one whole file or the other (rename, POSIX), and two programs at once ask once. */
#include "stage.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <math.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include "fetch/kept-file.h"

static const char *program;

/* The file of the cache with that ending, or NULL. */
static char *
file_of (Stage *stage, const char *ending)
{
  g_autoptr (GDir) dir = g_dir_open (stage->folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ending))
      return g_build_filename (stage->folder, name, NULL);
  return NULL;
}

static void
test_private (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autofree char *below = g_build_filename (stage->folder, "frostrun", "weather", NULL), *answer = NULL;
  g_autoptr (GDir) dir = NULL;
  const char *name;
  GStatBuf status;

  stage->ask.folder = below;
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_ANSWERED, 1));
  g_assert_cmpint (g_stat (below, &status), ==, 0);
  g_assert_cmpint (status.st_mode & 0777, ==, 0700);
  dir = g_dir_open (below, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (below, name, NULL);

      g_assert_cmpint (g_stat (path, &status), ==, 0);
      g_assert_cmpint (status.st_mode & 077, ==, 0);
      g_assert_null (strstr (name, "44"));
    }
}

/* Every cut and every changed byte is found, and then the service is asked anew, without conditions. */
static void
test_damage (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autofree char *path = NULL, *text = NULL;
  gsize length;

  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_ANSWERED, 1));
  path = file_of (stage, ".answer");
  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  stage->ask.only_kept = TRUE;
  for (gsize i = 0; i < 2 * length; i++)
    {
      g_autofree char *spoilt = g_memdup2 (text, length);
      g_autoptr (FrWeatherFetched) fetched = NULL;

      if (i >= length)
        spoilt[i - length] ^= 1 << (i % 8);
      g_assert_true (g_file_set_contents (path, spoilt, i < length ? i : length, NULL));
      fetched = stage_expect (stage, FR_FETCH_ANSWERED, 1);
      g_assert_null (fetched->body);
      g_assert_null (fetched->weather);
      g_assert_false (fr_fetch_has_weather (&fetched->state));
    }
  stage->ask.only_kept = FALSE;
  stage->ask.now_utc += STAGE_HOUR;
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_ANSWERED, 2));
  g_assert_null (g_hash_table_lookup (stage->head, "if-modified-since"));
}

/* Where the last attempt cannot be read it may have been a moment ago. */
static void
test_damaged_attempt (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autofree char *path = NULL;
  g_autoptr (FrWeatherFetched) fetched = NULL;

  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_ANSWERED, 1));
  path = file_of (stage, ".asked");
  g_assert_true (g_file_set_contents (path, "frostrun-kept-1 5 beef\nhello", -1, NULL));
  stage->ask.now_utc += 600;
  fetched = stage_expect (stage, FR_FETCH_BROKEN_OFF, 1);
  g_assert_nonnull (fetched->body);
  g_assert_cmpint (fetched->state.next_utc, ==, stage->ask.now_utc + STAGE_HOUR);
  stage->ask.now_utc += STAGE_HOUR;
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_ANSWERED, 2));
}

/* A folder that cannot be: below a file, which stops root too. */
static void
test_no_folder (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autofree char *file = g_build_filename (stage->folder, "file", NULL),
                  *below = g_build_filename (file, "below", NULL);
  g_autoptr (FrWeatherFetched) fetched = NULL;

  g_assert_true (g_file_set_contents (file, "", 0, NULL));
  stage->ask.folder = below;
  fetched = stage_expect (stage, FR_FETCH_NO_FOLDER, 0);
  g_assert_nonnull (fetched->problem);
}

/* One that may be read but not written: what is kept is shown, and nothing is asked. */
static void
test_read_only (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autoptr (FrWeatherFetched) fetched = NULL;
  g_autofree char *asked = NULL, *lock = NULL;

  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_ANSWERED, 1));
  stage->ask.now_utc += STAGE_HOUR;
  if (geteuid () == 0)
    {
      /* Root writes everywhere, but opens no folder for writing as if it were a file. */
      lock = file_of (stage, ".lock");
      g_assert_cmpint (g_unlink (lock), ==, 0);
      g_assert_cmpint (g_mkdir (lock, 0700), ==, 0);
    }
  else
    {
      asked = file_of (stage, ".lock");
      g_assert_cmpint (g_unlink (asked), ==, 0);
      g_assert_cmpint (g_chmod (stage->folder, 0500), ==, 0);
    }
  fetched = stage_expect (stage, FR_FETCH_NO_FOLDER, 1);
  g_chmod (stage->folder, 0700);
  g_assert_nonnull (fetched->body);
  g_assert_nonnull (fetched->weather);
  g_assert_nonnull (fetched->problem);
}

/* --- kills --- */

/* Writes n = 1, 2, 3 … as facts and as 100 kB of one letter. */
static int
write_until_killed (const char *path)
{
  prctl (PR_SET_PDEATHSIG, SIGKILL);
  for (gint64 n = 1; getppid () != 1; n++)
    {
      g_autoptr (GKeyFile) facts = g_key_file_new ();
      g_autofree char *text = g_strnfill (100000, 'a' + n % 26);
      g_autoptr (GBytes) body = g_bytes_new (text, 100000);

      g_key_file_set_int64 (facts, "kept", "n", n);
      if (!fr_kept_file_write (path, facts, body, NULL) || write (STDOUT_FILENO, ".", 1) != 1)
        return 1;
    }
  return 1;
}

static void
test_kill (void)
{
  g_autofree char *folder = g_dir_make_tmp ("frostrun-kill-XXXXXX", NULL),
                  *path = g_build_filename (folder, "one.answer", NULL);
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  guint n_kills = 30;
  g_autoptr (GDir) dir = NULL;
  const char *name;

  for (guint i = 0; i < n_kills; i++)
    {
      g_autoptr (GKeyFile) facts = NULL;
      g_autoptr (GBytes) body = NULL;
      const char *bytes;
      int ends[2], status;
      char dot;
      gint64 n;
      pid_t pid;

      g_assert_cmpint (pipe (ends), ==, 0);
      pid = fork ();
      g_assert_cmpint (pid, >=, 0);
      if (pid == 0)
        {
          dup2 (ends[1], STDOUT_FILENO);
          close (ends[0]);
          execl (program, program, "--write", path, NULL);
          _exit (127);
        }
      close (ends[1]);
      g_assert_cmpint (read (ends[0], &dot, 1), ==, 1);
      g_usleep (g_rand_int_range (rand, 0, 30000));
      g_assert_cmpint (kill (pid, SIGKILL), ==, 0);
      g_assert_cmpint (waitpid (pid, &status, 0), ==, pid);
      g_assert_true (WIFSIGNALED (status));
      close (ends[0]);
      g_assert_cmpint (fr_kept_file_read (path, &facts, &body), ==, FR_KEPT_FILE_SOUND);
      n = g_key_file_get_int64 (facts, "kept", "n", NULL);
      g_assert_cmpint (n, >=, 1);
      g_assert_cmpuint (g_bytes_get_size (body), ==, 100000);
      bytes = g_bytes_get_data (body, NULL);
      g_assert_cmpint (bytes[0], ==, 'a' + n % 26);
      g_assert_cmpint (memcmp (bytes, bytes + 1, 99999), ==, 0);
    }
  dir = g_dir_open (folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_build_filename (folder, name, NULL);

      g_unlink (file);
    }
  g_rmdir (folder);
}

/* What a kill left beside is cleared away by the next question, and nothing else is. */
static void
test_leftovers (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autofree char *answer = NULL, *left = NULL,
                  *other = g_build_filename (stage->folder, "other.answer.ABC123", NULL);

  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_ANSWERED, 1));
  answer = file_of (stage, ".answer");
  left = g_strconcat (answer, ".XY12ZW", NULL);
  g_assert_true (g_file_set_contents (left, "half", -1, NULL));
  g_assert_true (g_file_set_contents (other, "not ours", -1, NULL));
  stage->ask.now_utc += STAGE_HOUR;
  fr_weather_fetched_free (stage_expect (stage, FR_FETCH_ANSWERED, 2));
  g_assert_false (g_file_test (left, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (other, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_test (answer, G_FILE_TEST_EXISTS));
}

/* --- two at once --- */

static void
on_fetched (GObject *object, GAsyncResult *result, gpointer data)
{
  GError *error = NULL;
  FrWeatherFetched *fetched = fr_weather_fetch_finish (result, &error);

  g_assert_no_error (error);
  fr_weather_fetched_free (fetched);
  ++*(guint *)data;
}

/* Another program: asks the address in a folder, and says nothing. */
static int
ask_and_leave (const char *folder, const char *base)
{
  const FrWeatherAsk ask = { .service = FR_WEATHER_SERVICE_MET_NORWAY,
                             .base_address = base,
                             .contact = "sugarhouse@example.org",
                             .version = "0.0",
                             .latitude_deg = 44.26071,
                             .longitude_deg = -72.57538,
                             .altitude_m = NAN,
                             .folder = folder,
                             .reader = stage_reader,
                             .limits = { 100000, 20000, 10000 },
                             .now_utc = STAGE_NOW };
  guint n = 0;

  fr_weather_fetch_async (&ask, NULL, on_fetched, &n);
  while (n == 0)
    g_main_context_iteration (NULL, TRUE);
  return 0;
}

static void
test_two_at_once (void)
{
  g_autoptr (Stage) stage = stage_new (stage_answer_ok);
  g_autoptr (FrWeatherFetched) kept = NULL;
  GPid pids[6];
  guint n = 0, n_done = 0;

  for (guint i = 0; i < G_N_ELEMENTS (pids); i++)
    {
      char *argv[] = { (char *)program, (char *)"--ask", stage->folder, stage->base, NULL };
      g_autoptr (GError) error = NULL;

      g_spawn_async (NULL, argv, NULL, G_SPAWN_DO_NOT_REAP_CHILD, NULL, NULL, &pids[i], &error);
      g_assert_no_error (error);
    }
  /* And four threads of this one. */
  for (guint i = 0; i < 4; i++)
    fr_weather_fetch_async (&stage->ask, NULL, on_fetched, &n);
  while (n < 4 || n_done < G_N_ELEMENTS (pids))
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
      for (guint i = 0; i < G_N_ELEMENTS (pids); i++)
        {
          int status;

          if (pids[i] > 0 && waitpid (pids[i], &status, WNOHANG) == pids[i])
            {
              g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
              pids[i] = 0;
              n_done++;
            }
        }
    }
  g_assert_cmpuint (stage->n_asked, ==, 1);
  /* And its answer was kept, whoever came by meanwhile. */
  stage->ask.only_kept = TRUE;
  kept = stage_expect (stage, FR_FETCH_ANSWERED, 1);
  g_assert_nonnull (kept->weather);
}

int
main (int argc, char **argv)
{
  program = argv[0];
  if (argc == 3 && strcmp (argv[1], "--write") == 0)
    return write_until_killed (argv[2]);
  if (argc == 4 && strcmp (argv[1], "--ask") == 0)
    return ask_and_leave (argv[2], argv[3]);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-cache/private", test_private);
  g_test_add_func ("/weather-cache/damage", test_damage);
  g_test_add_func ("/weather-cache/damaged-attempt", test_damaged_attempt);
  g_test_add_func ("/weather-cache/no-folder", test_no_folder);
  g_test_add_func ("/weather-cache/read-only", test_read_only);
  g_test_add_func ("/weather-cache/kill", test_kill);
  g_test_add_func ("/weather-cache/leftovers", test_leftovers);
  g_test_add_func ("/weather-cache/two-at-once", test_two_at_once);
  return g_test_run ();
}
