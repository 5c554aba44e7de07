/* A disk that is really full. A tmpfs of a few hundred KiB is filled with changes until one is refused; what
 * was acknowledged must be there, the refused one must not, and after making room the same change must go
 * through. Room is taken away in steps of one page, so that the end comes at every place: the table, the log,
 * its index, the making of the book itself.
 *
 * Run by tests/long/full-disk in a mount namespace of its own. */
#include "book-tools.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <sys/mount.h>

#define PAGE 4096
/* A new book takes about 30 pages for itself and as many for its log. */
#define DISK_PAGES 120

static void
mount_disk (const char *folder, unsigned long flags, int pages)
{
  g_autofree char *options = g_strdup_printf ("size=%d", pages * PAGE);
  if (mount ("tmpfs", folder, "tmpfs", flags, options) != 0)
    g_error ("cannot mount: %s", g_strerror (errno));
}

static void
drop_disk (const char *folder)
{
  g_assert_cmpint (umount (folder), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static FrChange *
numbered_pour (gint64 n)
{
  g_autofree char *note = g_strnfill (1000 + n % 7 * 500, 'n');
  g_autoptr (FrRecord) pour = sample_sparse (FR_KIND_POUR, n);
  FrChange *change = fr_change_new ("add", NULL);
  fr_record_set_text (pour, fr_kind_field (pour->kind, "note"), note);
  fr_change_add (change, NULL, pour);
  return change;
}

static void
assert_pours (FrStore *store, gint64 n)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) pours = fr_store_load (store, FR_KIND_POUR, &error);
  g_assert_no_error (error);
  g_assert_cmpint (pours->len, ==, n);
  for (guint i = 0; i < pours->len; i++)
    {
      g_autoptr (FrChange) change = numbered_pour (i + 1);
      const FrStep *step = g_ptr_array_index (change->steps, 0);
      g_assert_true (fr_record_equal (g_ptr_array_index (pours, i), step->after));
    }
}

static gboolean
fill (int pages)
{
  g_autofree char *folder = tools_new_folder ();
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);
  g_autoptr (GError) error = NULL;
  gint64 n = 0;

  mount_disk (folder, 0, pages);
  g_autoptr (FrStore) store = fr_store_open (path, TRUE, &error);
  gboolean opened = store != NULL;
  while (store != NULL)
    {
      g_autoptr (FrChange) change = numbered_pour (n + 1);
      if (!fr_store_apply (store, change, FR_ORIGIN_CLI, NOW_UTC, &error))
        break;
      n++;
    }
  tools_assert_sentence (error, FR_STORE_ERROR_FULL);
  if (opened)
    {
      assert_pours (store, n);
      /* Closed and opened on the full disk too, when that is possible at all. */
      fr_store_close (g_steal_pointer (&store));
      g_autoptr (GError) again = NULL;
      store = fr_store_open (path, FALSE, &again);
      if (store == NULL)
        tools_assert_sentence (again, FR_STORE_ERROR_FULL);
      else
        assert_pours (store, n);
      fr_store_close (store);
    }

  mount_disk (folder, MS_REMOUNT, 2 * DISK_PAGES);
  store = tools_open (path);
  assert_pours (store, n);
  g_autoptr (FrChange) next = numbered_pour (n + 1);
  tools_apply (store, next);
  assert_pours (store, n + 1);
  g_test_message ("a disk of %d pages: %d changes kept", pages, (int)n);
  fr_store_close (g_steal_pointer (&store));
  drop_disk (folder);
  return opened;
}

static void
test_full_disk (void)
{
  int n_opened = 0, n_not = 0;
  for (int pages = 1; pages <= DISK_PAGES; pages++)
    if (fill (pages))
      n_opened++;
    else
      n_not++;
  g_test_message ("full while writing %d times, while the book was made %d times", n_opened, n_not);
  g_assert_cmpint (n_opened, >, 0);
  g_assert_cmpint (n_not, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/full-disk/every-page", test_full_disk);
  return g_test_run ();
}
