/* Edits of taps. A planned tap is a wish and may vanish; one that was set left a hole in the tree, and what was
 * gathered from one says so, so such a one is put away at most. */
#include "models/bush-edit-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

gboolean
fr_bush_edit_tap_is_of (const FrTap *tap, guint season)
{
  return !tap->record.archived && tap->season.value == season;
}

gboolean
fr_bush_edit_tap_has_history (FrBook *book, const FrTap *tap)
{
  return tap->set_on != NULL || fr_book_refers (book, FR_KIND_GATHERING, FR_KIND_TAP, tap->record.id);
}

gboolean
fr_bush_edit_plan_tap (FrEdit *edit, gint64 tree, guint season, const FrBushPlace *place, GError **error)
{
  g_autoptr (FrRecord) after = fr_edit_new_record (edit, FR_KIND_TAP, error);
  FrTap *tap = (FrTap *)after;

  if (after == NULL)
    return FALSE;
  tap->tree = tree;
  fr_amount_set (&tap->season, season, NULL);
  if (place != NULL)
    {
      fr_amount_set (&tap->direction_deg, place->angle_deg, NULL);
      fr_amount_set (&tap->height_m, place->height_m, NULL);
    }
  return fr_edit_step (edit, NULL, after, NULL, error);
}

FrChange *
fr_bush_edit_plan_taps (FrBook *book, gint64 tree, guint season, const FrBushPlace *places, guint n,
                        GError **error)
{
  const FrTree *of = fr_bush_edit_tree (book, tree, error);
  FrEdit edit;

  if (of == NULL)
    return NULL;
  fr_edit_begin (&edit, book, "plan-taps", of->name);
  for (guint i = 0; i < n; i++)
    if (!fr_bush_edit_plan_tap (&edit, tree, season, places != NULL ? &places[i] : NULL, error))
      return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

/* Gives the taps of trees and season a day, in the member @day_of points out of a copy; those @wanted. */
static FrChange *
date_taps (FrBook *book, const char *label, const gint64 *trees, guint n, guint season, FrDate day,
           gboolean (*wanted) (const FrTap *tap), const char *field, GError **error)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_TAP);
  g_autoptr (GHashTable) set = fr_bush_edit_tree_set (book, trees, n, error);
  g_autofree char *iso = NULL;
  FrEdit edit;

  if (set == NULL)
    return NULL;
  if (!fr_date_is_valid (day))
    return fr_edit_refuse (error, _ ("The day is not known. Write year, month, day: 2027-03-11."));
  iso = fr_date_to_iso (day);
  fr_edit_begin (&edit, book, label,
                 g_hash_table_size (set) == 1 ? fr_bush_edit_tree (book, trees[0], NULL)->name : NULL);
  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    {
      const FrTap *before = (const FrTap *)fr_record_list_get (list, i);
      g_autoptr (FrRecord) after = NULL;

      if (!fr_bush_edit_tap_is_of (before, season) || !wanted (before)
          || !fr_bush_edit_set_has (set, before->tree))
        continue;
      after = fr_record_copy (&before->record);
      fr_record_set_text (after, fr_kind_field (after->kind, field), iso);
      if (!fr_edit_step (
              &edit, &before->record, after,
              g_hash_table_size (set) > 1 ? fr_bush_edit_tree (book, before->tree, NULL)->name : NULL, error))
        return fr_edit_drop (&edit);
    }
  return fr_edit_end (&edit);
}

static gboolean
is_planned (const FrTap *tap)
{
  return tap->set_on == NULL;
}

static gboolean
is_running (const FrTap *tap)
{
  return tap->set_on != NULL && tap->pulled_on == NULL;
}

FrChange *
fr_bush_edit_set_taps (FrBook *book, const gint64 *trees, guint n, guint season, FrDate day, GError **error)
{
  return date_taps (book, "set-taps", trees, n, season, day, is_planned, "set_on", error);
}

FrChange *
fr_bush_edit_pull_taps (FrBook *book, const gint64 *trees, guint n, guint season, FrDate day, GError **error)
{
  return date_taps (book, "pull-taps", trees, n, season, day, is_running, "pulled_on", error);
}

/* What a change of a tap is about: its tree. */
static const char *
tree_name (FrBook *book, const FrTap *tap)
{
  const FrRecord *tree = fr_book_find (book, FR_KIND_TREE, tap->tree);

  return tree != NULL ? fr_record_label (tree) : NULL;
}

FrChange *
fr_bush_edit_move_tap (FrBook *book, gint64 tap, double angle_deg, double height_m, GError **error)
{
  const FrTap *before = fr_bush_edit_tap (book, tap, error);
  FrEdit edit;
  g_autoptr (FrRecord) after = NULL;
  FrTap *moved;

  if (before == NULL)
    return NULL;
  after = fr_record_copy (&before->record);
  moved = (FrTap *)after;
  fr_edit_set_amount (&moved->direction_deg, angle_deg, NULL);
  fr_edit_set_amount (&moved->height_m, height_m, NULL);
  fr_edit_begin (&edit, book, "move-tap", tree_name (book, before));
  if (!fr_edit_step (&edit, &before->record, after, NULL, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

FrChange *
fr_bush_edit_remove_tap (FrBook *book, gint64 tap, GError **error)
{
  const FrTap *before = fr_bush_edit_tap (book, tap, error);
  gboolean has_history;
  FrEdit edit;

  if (before == NULL)
    return NULL;
  has_history = fr_bush_edit_tap_has_history (book, before);
  fr_edit_begin (&edit, book, has_history ? "archive-tap" : "delete-tap", tree_name (book, before));
  fr_edit_take_out (&edit, &before->record, has_history);
  return fr_edit_end (&edit);
}
