/* Random steps, each given to the book and to the plain model; the two must say the same and then hold the
 * same rows. The steps are in bush-soak-steps.c, the other program in bush-soak-beside.c. */
#include "bush-soak-private.h"

#include <glib/gstdio.h>
#include <string.h>

gint
soak_pick (Soak *soak, gint n)
{
  return g_rand_int_range (soak->rand, 0, n);
}

gboolean
soak_one_in (Soak *soak, gint n)
{
  return soak_pick (soak, n) == 0;
}

gint64
soak_pick_id (Soak *soak, MKind kind)
{
  guint n = m_n_rows (soak->model, kind);

  if (kind == M_TREE && m_is_stale (soak->model) && soak->beside != 0 && soak_pick (soak, 2))
    return soak->beside;
  return n == 0 || soak_one_in (soak, 40)
             ? 1000000
             : m_row_at (soak->model, kind, (guint)soak_pick (soak, (gint)n))->id;
}

static void
assert_page (Soak *soak)
{
  GListModel *rows = fr_sugarbush_get_rows (soak->page);
  guint n = 0;

  for (guint i = 0; i < m_n_rows (soak->model, M_TREE); i++)
    n += !m_row_at (soak->model, M_TREE, i)->archived;
  g_assert_cmpuint (g_list_model_get_n_items (rows), ==, n);
  g_assert_cmpuint (fr_bush_n_trees (fr_sugarbush_get_bush (soak->page)), ==, n);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (FrTreeItem) item = g_list_model_get_item (rows, i);
      const MRow *row = m_find (soak->model, M_TREE, fr_tree_item_get_id (item));

      g_assert_true (row != NULL && !row->archived);
    }
  for (guint i = 0; i < fr_sugarbush_n_selected (soak->page); i++)
    g_assert_nonnull (
        fr_bush_find (fr_sugarbush_get_bush (soak->page), fr_sugarbush_get_selected (soak->page)[i]));
}

static void
open_book (Soak *soak)
{
  g_autoptr (GError) error = NULL;

  g_clear_object (&soak->page);
  g_clear_object (&soak->book);
  soak->book = fr_book_open (soak->path, &error);
  g_assert_no_error (error);
  soak->page = fr_sugarbush_new (soak->book, NOW_UTC);
}

void
soak_meet (Soak *soak, MAnswer answer, FrChange *change, GError *error)
{
  g_autoptr (FrChange) owned = change;
  g_autoptr (GError) failure = error;
  g_autoptr (GError) refusal = NULL;
  MAnswer real = owned != NULL ? M_CHANGED : failure != NULL ? M_REFUSED : M_NOTHING;
  gboolean stale, fits, ok;

  if (real != answer)
    g_error ("the model says %d, the book %d (%s, %s)", answer, real, m_label (soak->model),
             failure != NULL ? failure->message : "");
  if (failure != NULL)
    {
      g_assert_error (failure, FR_EDIT_ERROR, FR_EDIT_ERROR_REFUSED);
      g_assert_cmpuint (strlen (failure->message), >, 10);
    }
  soak->counts.changed += answer == M_CHANGED;
  soak->counts.nothing += answer == M_NOTHING;
  soak->counts.refused += answer == M_REFUSED;
  if (answer != M_CHANGED)
    {
      m_leave (soak->model);
      return;
    }
  g_assert_cmpstr (owned->label, ==, m_label (soak->model));

  stale = m_is_stale (soak->model);
  fits = m_fits (soak->model);
  ok = fr_book_apply (soak->book, owned, &refusal);
  if (ok != fits)
    g_error ("the model says it %s, the book %s", fits ? "fits" : "does not fit",
             refusal != NULL ? refusal->message : "took it");
  soak->counts.stale += stale;
  soak->counts.turned += !ok;
  g_assert_true (ok || stale);
  soak->counts.lost += m_refresh (soak->model);
  if (ok)
    m_take (soak->model, soak->book);
  else
    m_leave (soak->model);
}

static void
remove_files (Soak *soak, const char *folder)
{
  static const char *const ends[] = { "", "-wal", "-shm" };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      g_autofree char *file = g_strconcat (soak->path, ends[i], NULL);

      g_unlink (file);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

void
bush_soak (guint steps, guint32 seed, gboolean say, BushSoak *counts_out)
{
  g_autofree char *folder = g_dir_make_tmp ("frostrun-soak-XXXXXX", NULL);
  Soak soak = { .rand = g_rand_new_with_seed (seed), .model = m_model_new () };

  soak.path = g_build_filename (folder, "book.frostrun", NULL);
  open_book (&soak);
  for (guint i = 0; i < steps; i++)
    {
      if (soak_one_in (&soak, 25))
        {
          soak_write_beside (&soak);
          if (soak_one_in (&soak, 2)) /* else the next edit meets it unawares */
            {
              g_assert_true (fr_book_refresh (soak.book, NULL));
              soak.counts.lost += m_refresh (soak.model);
            }
        }
      if (soak_one_in (&soak, 150))
        {
          open_book (&soak);
          m_reopen (soak.model);
          soak.counts.reopened++;
        }
      soak_step (&soak);
      m_assert_same (soak.model, soak.book);
      assert_page (&soak);
      if (i % 50 == 0)
        m_assert_same_file (soak.model, soak.path);
      soak.counts.most_trees = MAX (soak.counts.most_trees, m_n_rows (soak.model, M_TREE));
      if (say && (i + 1) % 1000 == 0)
        g_print ("%u\n", i + 1);
    }
  m_assert_same_file (soak.model, soak.path);
  g_clear_object (&soak.page);
  g_clear_object (&soak.book);
  remove_files (&soak, folder);
  *counts_out = soak.counts;
  m_model_free (soak.model);
  g_rand_free (soak.rand);
  g_free (soak.path);
}
