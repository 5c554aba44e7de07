/* Folders and books of the tests' own. */
#include "books.h"

#include <glib/gstdio.h>

char *
make_folder (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("frostrun-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

void
drop_folder (char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (folder);
  g_free (folder);
}

void
run_program (const char *const *command, char **out_out)
{
  g_autoptr (GError) error = NULL;
  int status;

  g_spawn_sync (NULL, (char **)command, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, out_out, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_true (g_spawn_check_wait_status (status, NULL));
}

void
make_book (const char *book, const char *kept, const char *now)
{
  g_autofree char *json = kept != NULL ? g_test_build_filename (G_TEST_DIST, "cli", "kept", kept, NULL)
                                       : g_strdup (g_getenv ("FROSTRUN_DEMO"));
  const char *command[] = { g_getenv ("FROSTRUN_MAKE_BOOK"), json, book, now, NULL };

  run_program (command, NULL);
}

char *
bytes_of (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *data = NULL;
  gsize length;

  g_file_get_contents (path, &data, &length, &error);
  g_assert_no_error (error);
  return g_compute_checksum_for_data (G_CHECKSUM_SHA256, (guchar *)data, length);
}
