/* Edits of trees. One that has a history (a tap that was set, a season's yield, what was gathered from it) is
 * never deleted; what only it had, measures and planned taps, goes with one that has none. */
#include "models/bush-edit-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Goes through trees with a function that edits a copy. */
typedef void (*EditTree) (FrTree *tree, gconstpointer data);

static gboolean
edit_trees (FrEdit *edit, const gint64 *trees, guint n, EditTree function, gconstpointer data, GError **error)
{
  for (guint i = 0; i < n; i++)
    {
      const FrTree *before = fr_bush_edit_tree (edit->book, trees[i], error);
      g_autoptr (FrRecord) after = NULL;

      if (before == NULL)
        return FALSE;
      after = fr_record_copy (&before->record);
      function ((FrTree *)after, data);
      if (!fr_edit_step (edit, &before->record, after, n > 1 ? before->name : NULL, error))
        return FALSE;
    }
  return TRUE;
}

static void
move_tree (FrTree *tree, gconstpointer data)
{
  const double *way = data;

  fr_edit_set_amount (&tree->x_m, tree->x_m.value + way[0], NULL);
  fr_edit_set_amount (&tree->y_m, tree->y_m.value + way[1], NULL);
}

FrChange *
fr_bush_edit_move (FrBook *book, const gint64 *trees, guint n, double dx_m, double dy_m, GError **error)
{
  const double way[] = { dx_m, dy_m };
  FrEdit edit;

  if (!isfinite (dx_m) || !isfinite (dy_m))
    return fr_edit_refuse (error, _ ("How far to move is not known. Type how far east and how far north."));
  fr_edit_begin (&edit, book, "move-trees", NULL);
  if (!edit_trees (&edit, trees, n, move_tree, way, error))
    return fr_edit_drop (&edit);
  return fr_bush_edit_end_trees (&edit, edit.change->steps->len == 1 ? "edit" : "move");
}

static void
place_tree (FrTree *tree, gconstpointer data)
{
  const double *place = data;

  fr_edit_set_amount (&tree->x_m, place[0], NULL);
  fr_edit_set_amount (&tree->y_m, place[1], NULL);
}

FrChange *
fr_bush_edit_place (FrBook *book, gint64 tree, double x_m, double y_m, GError **error)
{
  const double place[] = { x_m, y_m };
  FrEdit edit;

  fr_edit_begin (&edit, book, "edit-tree", NULL);
  if (!edit_trees (&edit, &tree, 1, place_tree, place, error))
    return fr_edit_drop (&edit);
  return fr_bush_edit_end_trees (&edit, "edit");
}

typedef struct
{
  const FrField *field;
  const char *text;
  double amount;
} Setting;

static void
set_tree (FrTree *tree, gconstpointer data)
{
  const Setting *setting = data;

  switch (setting->field->type)
    {
    case FR_FIELD_AMOUNT:
      fr_edit_set_amount (fr_record_amount (&tree->record, setting->field), setting->amount, setting->text);
      break;
    case FR_FIELD_BOOL:
      fr_record_set_int (&tree->record, setting->field, setting->amount == 1);
      break;
    default:
      fr_edit_set_text (&tree->record, setting->field->name, setting->text);
    }
}

FrChange *
fr_bush_edit_set (FrBook *book, const gint64 *trees, guint n, const char *field, const char *text,
                  double amount, GError **error)
{
  const Setting setting
      = { .field = fr_kind_field (fr_kind (FR_KIND_TREE), field), .text = text, .amount = amount };
  FrEdit edit;

  g_return_val_if_fail (setting.field != NULL, NULL);
  g_return_val_if_fail (setting.field->type != FR_FIELD_BOOL || amount == 0 || amount == 1, NULL);
  fr_edit_begin (&edit, book, "edit-trees", NULL);
  if (!edit_trees (&edit, trees, n, set_tree, &setting, error))
    return fr_edit_drop (&edit);
  return fr_bush_edit_end_trees (&edit, "edit");
}

static void
restore_tree (FrTree *tree, gconstpointer data)
{
  tree->record.archived = FALSE;
}

FrChange *
fr_bush_edit_restore (FrBook *book, const gint64 *trees, guint n, GError **error)
{
  FrEdit edit;

  fr_edit_begin (&edit, book, "restore-trees", NULL);
  if (!edit_trees (&edit, trees, n, restore_tree, NULL, error))
    return fr_edit_drop (&edit);
  return fr_bush_edit_end_trees (&edit, "restore");
}

/* Moves a tree from those that may be deleted to those that may not, if it is one of them. */
static void
keep_tree (GHashTable *going, GHashTable *staying, gint64 tree)
{
  gpointer key;

  if (g_hash_table_steal_extended (going, &tree, &key, NULL))
    g_hash_table_add (staying, key);
}

/* Takes trees with a history out of @going into the set that comes back. Records that are put away are history
 * all the same. */
static GHashTable *
take_out_history (FrBook *book, GHashTable *going, const gint64 *trees, guint n)
{
  FrRecordList *taps = fr_book_get_list (book, FR_KIND_TAP);
  FrRecordList *yields = fr_book_get_list (book, FR_KIND_YIELD);
  GHashTable *staying = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);

  for (guint i = 0; i < fr_record_list_get_size (taps); i++)
    {
      const FrTap *tap = (const FrTap *)fr_record_list_get (taps, i);

      if (fr_bush_edit_set_has (going, tap->tree) && fr_bush_edit_tap_has_history (book, tap))
        keep_tree (going, staying, tap->tree);
    }
  for (guint i = 0; i < fr_record_list_get_size (yields); i++)
    keep_tree (going, staying, ((const FrYield *)fr_record_list_get (yields, i))->tree);
  for (guint i = 0; i < n; i++)
    if (fr_bush_edit_set_has (going, trees[i])
        && fr_book_refers (book, FR_KIND_GATHERING, FR_KIND_TREE, trees[i]))
      keep_tree (going, staying, trees[i]);
  return staying;
}

FrChange *
fr_bush_edit_remove (FrBook *book, const gint64 *trees, guint n, GError **error)
{
  FrRecordList *girths = fr_book_get_list (book, FR_KIND_GIRTH);
  FrRecordList *taps = fr_book_get_list (book, FR_KIND_TAP);
  g_autoptr (GHashTable) going = fr_bush_edit_tree_set (book, trees, n, error);
  g_autoptr (GHashTable) staying = NULL;
  FrEdit edit;

  if (going == NULL)
    return NULL;
  staying = take_out_history (book, going, trees, n);
  fr_edit_begin (&edit, book, "delete-trees", NULL);
  for (guint i = 0; i < fr_record_list_get_size (girths); i++)
    {
      const FrRecord *girth = fr_record_list_get (girths, i);

      if (fr_bush_edit_set_has (going, ((const FrGirth *)girth)->tree))
        fr_change_add (edit.change, girth, NULL);
    }
  for (guint i = 0; i < fr_record_list_get_size (taps); i++)
    {
      const FrRecord *tap = fr_record_list_get (taps, i);

      if (fr_bush_edit_set_has (going, ((const FrTap *)tap)->tree))
        fr_change_add (edit.change, tap, NULL);
    }
  for (guint i = 0; i < n; i++)
    {
      const FrRecord *before = fr_book_find (book, FR_KIND_TREE, trees[i]);

      fr_edit_take_out (&edit, before, fr_bush_edit_set_has (staying, trees[i]));
    }
  return fr_bush_edit_end_trees (&edit, g_hash_table_size (staying) > 0 ? "archive" : "delete");
}
