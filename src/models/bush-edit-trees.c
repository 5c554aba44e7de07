/* Edits of trees and their measures. A tree that has a history (a tap that was set, a season's yield) is never deleted; what only
 * it had, measures and planned taps, goes with one that has none. */
#include "models/bush-edit-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "words/entry-words.h"

/* Where the last number of a name stands; FALSE when it has none that can be raised. */
static gboolean
last_number (const char *name, gsize *start_out, gsize *length_out)
{
  gsize end = strlen (name);
  gsize start;

  while (end > 0 && !g_ascii_isdigit (name[end - 1]))
    end--;
  start = end;
  while (start > 0 && g_ascii_isdigit (name[start - 1]))
    start--;
  *start_out = start;
  *length_out = end - start;
  return end > start && end - start <= 9;
}

static GHashTable *
names_in_use (FrBook *book)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_TREE);
  GHashTable *names = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < fr_record_list_get_size (list); i++)
    g_hash_table_add (names, (gpointer)fr_record_label (fr_record_list_get (list, i)));
  return names;
}

char *
fr_bush_edit_next_name (FrBook *book)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_TREE);
  guint n = fr_record_list_get_size (list);
  const char *last = n > 0 ? fr_record_label (fr_record_list_get (list, n - 1)) : "";
  g_autoptr (GHashTable) names = names_in_use (book);
  g_autofree char *before = NULL;
  const char *after = "";
  guint64 number = 0;
  gsize start, length;

  if (last_number (last, &start, &length) && g_utf8_strlen (last, -1) < 100)
    {
      before = g_strndup (last, start);
      after = last + start + length;
      number = g_ascii_strtoull (last + start, NULL, 10);
    }
  else
    {
      before = g_strdup ("T");
      length = 1;
    }
  for (;;)
    {
      g_autofree char *name
          = g_strdup_printf ("%s%0*" G_GUINT64_FORMAT "%s", before, (int)length, ++number, after);

      if (!g_hash_table_contains (names, name))
        return g_steal_pointer (&name);
    }
}

static void
set_text (FrRecord *record, const char *field, const char *text)
{
  g_autofree char *stripped = text != NULL ? g_strstrip (g_strdup (text)) : NULL;

  fr_record_set_text (record, fr_kind_field (record->kind, field), stripped);
}

static FrTree *
new_tree (FrBushEdit *edit, const char *name, const char *species, GError **error)
{
  FrTree *tree = (FrTree *)fr_bush_edit_new_record (edit, FR_KIND_TREE, error);
  g_autofree char *free_name = name == NULL ? fr_bush_edit_next_name (edit->book) : NULL;

  if (tree == NULL)
    return NULL;
  set_text (&tree->record, "name", name != NULL ? name : free_name);
  if (species != NULL)
    set_text (&tree->record, "species", species);
  edit->change->subject = g_strdup (tree->name);
  return tree;
}

FrChange *
fr_bush_edit_add_tree (FrBook *book, const char *name, const char *species, double x_m, double y_m, GError **error)
{
  FrBushEdit edit;
  g_autoptr (FrRecord) after = NULL;
  FrTree *tree;

  fr_bush_edit_begin (&edit, book, "add-tree", NULL);
  tree = new_tree (&edit, name, species, error);
  after = (FrRecord *)tree;
  if (tree == NULL)
    return fr_bush_edit_drop (&edit);
  fr_amount_set (&tree->x_m, x_m, NULL);
  fr_amount_set (&tree->y_m, y_m, NULL);
  if (!fr_bush_edit_step (&edit, NULL, after, NULL, error))
    return fr_bush_edit_drop (&edit);
  return fr_bush_edit_end (&edit);
}

static gboolean
add_measure (FrBushEdit *edit, gint64 tree, FrDate day, gboolean is_girth, double size_m, const char *typed,
             GError **error)
{
  g_autoptr (FrRecord) after = fr_bush_edit_new_record (edit, FR_KIND_GIRTH, error);
  g_autofree char *iso = fr_date_is_valid (day) ? fr_date_to_iso (day) : NULL;
  FrGirth *girth = (FrGirth *)after;

  if (after == NULL)
    return FALSE;
  girth->tree = tree;
  set_text (after, "measured_on", iso);
  set_text (after, "measure", is_girth ? "girth" : "diameter");
  fr_amount_set (&girth->size_m, size_m, typed);
  return fr_bush_edit_step (edit, NULL, after, NULL, error);
}

/* The place by tape and compass: bearings are read from magnetic north, which lies @declination east of true north. */
static void
place_from (FrTree *tree, const FrTree *from, double distance_m, double bearing_deg, const FrGround *ground)
{
  double declination_deg
      = ground != NULL && !isnan (ground->declination_deg.value) ? ground->declination_deg.value : 0.0;
  double angle = (bearing_deg + declination_deg) * G_PI / 180.0;

  fr_amount_set (&tree->from_distance_m, distance_m, NULL);
  fr_amount_set (&tree->from_bearing_deg, bearing_deg, NULL);
  fr_amount_set (&tree->x_m, from->x_m.value + distance_m * sin (angle), NULL);
  fr_amount_set (&tree->y_m, from->y_m.value + distance_m * cos (angle), NULL);
}

/* The two readings by themselves: a tree may do without them, this way of placing it may not. */
static gboolean
readings_are_known (FrBook *book, double distance_m, double bearing_deg, GError **error)
{
  const char *const names[] = { "from_distance_m", "from_bearing_deg" };
  const double values[] = { distance_m, bearing_deg };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      const FrField *field = fr_kind_field (fr_kind (FR_KIND_TREE), names[i]);
      g_autofree char *sentence = NULL;

      if (values[i] >= field->min && values[i] <= field->max)
        continue;
      sentence = fr_amount_sentence (field->name, values[i], field->min, field->max, field->quantity,
                                     fr_book_get_units (book));
      fr_bush_edit_refuse (error, sentence);
      return FALSE;
    }
  return TRUE;
}

FrChange *
fr_bush_edit_add_measured (FrBook *book, const char *name, const char *species, gint64 from, double distance_m,
                           double bearing_deg, double girth_m, double diameter_m, FrDate today, GError **error)
{
  const FrTree *origin = fr_bush_edit_tree (book, from, error);
  FrRecordList *grounds = fr_book_get_list (book, FR_KIND_GROUND);
  FrBushEdit edit;
  g_autoptr (FrRecord) after = NULL;
  FrTree *tree;

  if (origin == NULL || !readings_are_known (book, distance_m, bearing_deg, error))
    return NULL;
  if (isnan (origin->x_m.value) || isnan (origin->y_m.value))
    {
      g_autofree char *sentence = g_strdup_printf (
          _ ("“%s” has no place on the plan yet, so nothing can be measured from it. Place it first."), origin->name);

      return fr_bush_edit_refuse (error, sentence);
    }

  fr_bush_edit_begin (&edit, book, "add-tree", NULL);
  tree = new_tree (&edit, name, species, error);
  after = (FrRecord *)tree;
  if (tree == NULL)
    return fr_bush_edit_drop (&edit);
  set_text (after, "measured_from", origin->name);
  place_from (tree, origin, distance_m, bearing_deg,
              fr_record_list_get_size (grounds) > 0 ? (const FrGround *)fr_record_list_get (grounds, 0) : NULL);
  if (!fr_bush_edit_step (&edit, NULL, after, NULL, error)
      || (!isnan (girth_m) && !add_measure (&edit, after->id, today, TRUE, girth_m, NULL, error))
      || (!isnan (diameter_m) && !add_measure (&edit, after->id, today, FALSE, diameter_m, NULL, error)))
    return fr_bush_edit_drop (&edit);
  return fr_bush_edit_end (&edit);
}

/* Goes through trees with a function that edits a copy. */
typedef void (*EditTree) (FrTree *tree, gconstpointer data);

static gboolean
edit_trees (FrBushEdit *edit, const gint64 *trees, guint n, EditTree function, gconstpointer data, GError **error)
{
  for (guint i = 0; i < n; i++)
    {
      const FrTree *before = fr_bush_edit_tree (edit->book, trees[i], error);
      g_autoptr (FrRecord) after = NULL;

      if (before == NULL)
        return FALSE;
      after = fr_record_copy (&before->record);
      function ((FrTree *)after, data);
      if (!fr_bush_edit_step (edit, &before->record, after, n > 1 ? before->name : NULL, error))
        return FALSE;
    }
  return TRUE;
}

static void
move_tree (FrTree *tree, gconstpointer data)
{
  const double *way = data;

  if (isnan (tree->x_m.value) || (way[0] == 0 && way[1] == 0))
    return;
  fr_amount_set (&tree->x_m, tree->x_m.value + way[0], NULL);
  fr_amount_set (&tree->y_m, tree->y_m.value + way[1], NULL);
}

FrChange *
fr_bush_edit_move (FrBook *book, const gint64 *trees, guint n, double dx_m, double dy_m, GError **error)
{
  const double way[] = { dx_m, dy_m };
  FrBushEdit edit;

  if (!isfinite (dx_m) || !isfinite (dy_m))
    return fr_bush_edit_refuse (error, _ ("How far to move is not known. Type how far east and how far north."));
  fr_bush_edit_begin (&edit, book, "move-trees", NULL);
  if (!edit_trees (&edit, trees, n, move_tree, way, error))
    return fr_bush_edit_drop (&edit);
  return fr_bush_edit_end_trees (&edit, edit.change->steps->len == 1 ? "edit" : "move");
}

static void
place_tree (FrTree *tree, gconstpointer data)
{
  const double *place = data;

  if (tree->x_m.value == place[0] && tree->y_m.value == place[1])
    return; /* keeps how it was typed */
  fr_amount_set (&tree->x_m, place[0], NULL);
  fr_amount_set (&tree->y_m, place[1], NULL);
}

FrChange *
fr_bush_edit_place (FrBook *book, gint64 tree, double x_m, double y_m, GError **error)
{
  const double place[] = { x_m, y_m };
  FrBushEdit edit;

  fr_bush_edit_begin (&edit, book, "edit-tree", NULL);
  if (!edit_trees (&edit, &tree, 1, place_tree, place, error))
    return fr_bush_edit_drop (&edit);
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
      fr_record_set_amount (&tree->record, setting->field, setting->amount,
                            isnan (setting->amount) ? NULL : setting->text);
      break;
    case FR_FIELD_BOOL:
      fr_record_set_int (&tree->record, setting->field, setting->amount == 1);
      break;
    default:
      set_text (&tree->record, setting->field->name, setting->text);
    }
}

FrChange *
fr_bush_edit_set (FrBook *book, const gint64 *trees, guint n, const char *field, const char *text, double amount,
                  GError **error)
{
  const Setting setting
      = { .field = fr_kind_field (fr_kind (FR_KIND_TREE), field), .text = text, .amount = amount };
  FrBushEdit edit;

  g_return_val_if_fail (setting.field != NULL, NULL);
  g_return_val_if_fail (setting.field->type != FR_FIELD_BOOL || amount == 0 || amount == 1, NULL);
  fr_bush_edit_begin (&edit, book, "edit-trees", NULL);
  if (!edit_trees (&edit, trees, n, set_tree, &setting, error))
    return fr_bush_edit_drop (&edit);
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
  FrBushEdit edit;

  fr_bush_edit_begin (&edit, book, "restore-trees", NULL);
  if (!edit_trees (&edit, trees, n, restore_tree, NULL, error))
    return fr_bush_edit_drop (&edit);
  return fr_bush_edit_end_trees (&edit, "restore");
}

/* Takes trees with a history out of @set into the set that comes back; it does not own its keys. Records that are put away are
 * history all the same. */
static GHashTable *
take_out_history (FrBook *book, GHashTable *set)
{
  FrRecordList *taps = fr_book_get_list (book, FR_KIND_TAP);
  FrRecordList *yields = fr_book_get_list (book, FR_KIND_YIELD);
  GHashTable *old = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);

  for (guint i = 0; i < fr_record_list_get_size (taps); i++)
    {
      const FrTap *tap = (const FrTap *)fr_record_list_get (taps, i);
      gpointer key;

      if (tap->set_on != NULL && g_hash_table_steal_extended (set, &tap->tree, &key, NULL))
        g_hash_table_add (old, key);
    }
  for (guint i = 0; i < fr_record_list_get_size (yields); i++)
    {
      const FrYield *yield = (const FrYield *)fr_record_list_get (yields, i);
      gpointer key;

      if (g_hash_table_steal_extended (set, &yield->tree, &key, NULL))
        g_hash_table_add (old, key);
    }
  return old;
}

FrChange *
fr_bush_edit_remove (FrBook *book, const gint64 *trees, guint n, GError **error)
{
  FrRecordList *girths = fr_book_get_list (book, FR_KIND_GIRTH);
  FrRecordList *taps = fr_book_get_list (book, FR_KIND_TAP);
  g_autoptr (GHashTable) going = fr_bush_edit_tree_set (book, trees, n, error);
  g_autoptr (GHashTable) staying = NULL;
  FrBushEdit edit;

  if (going == NULL)
    return NULL;
  staying = take_out_history (book, going);
  fr_bush_edit_begin (&edit, book, "delete-trees", NULL);
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
      g_autoptr (FrRecord) after = NULL;

      if (fr_bush_edit_set_has (staying, trees[i]))
        {
          after = fr_record_copy (before);
          after->archived = TRUE;
        }
      fr_change_add (edit.change, before, after);
    }
  return fr_bush_edit_end_trees (&edit, g_hash_table_size (staying) > 0 ? "archive" : "delete");
}

FrChange *
fr_bush_edit_girth (FrBook *book, gint64 tree, FrDate day, gboolean is_girth, double size_m, const char *typed,
                    GError **error)
{
  const FrTree *of = fr_bush_edit_tree (book, tree, error);
  FrRecordList *list = fr_book_get_list (book, FR_KIND_GIRTH);
  g_autofree char *iso = fr_date_is_valid (day) ? fr_date_to_iso (day) : NULL;
  FrBushEdit edit;

  if (of == NULL)
    return NULL;
  fr_bush_edit_begin (&edit, book, "add-girth", of->name);
  for (guint i = fr_record_list_get_size (list); i-- > 0;)
    {
      const FrGirth *before = (const FrGirth *)fr_record_list_get (list, i);
      g_autoptr (FrRecord) after = NULL;

      if (before->tree != tree || before->record.archived || g_strcmp0 (before->measured_on, iso) != 0
          || (strcmp (before->measure, "girth") == 0) != !!is_girth)
        continue;
      after = fr_record_copy (&before->record);
      fr_amount_set (&((FrGirth *)after)->size_m, size_m, typed);
      g_free (edit.change->label);
      edit.change->label = g_strdup ("edit-girth");
      if (!fr_bush_edit_step (&edit, &before->record, after, NULL, error))
        return fr_bush_edit_drop (&edit);
      return fr_bush_edit_end (&edit);
    }
  if (!add_measure (&edit, tree, day, is_girth, size_m, typed, error))
    return fr_bush_edit_drop (&edit);
  return fr_bush_edit_end (&edit);
}

FrChange *
fr_bush_edit_remove_girth (FrBook *book, gint64 girth, GError **error)
{
  const FrRecord *before = fr_book_find (book, FR_KIND_GIRTH, girth);
  FrBushEdit edit;

  if (before == NULL)
    return fr_bush_edit_refuse (error, _ ("This measure is no longer in the book."));
  fr_bush_edit_begin (&edit, book, "delete-girth", NULL);
  fr_change_add (edit.change, before, NULL);
  return fr_bush_edit_end (&edit);
}
