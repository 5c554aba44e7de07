/* An edit of the sugarbush in the making, and what concerns the single records of the book. Every record is
 * checked here, before the store's door, because words that help stand under the entry, and the store's are
 * the last ones. */
#include "models/bush-edit-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "domain/maths/tapping.h"
#include "words/entry-words.h"

G_DEFINE_QUARK (fr - bush - edit - error - quark, fr_bush_edit_error)

void
fr_bush_edit_begin (FrBushEdit *edit, FrBook *book, const char *label, const char *subject)
{
  memset (edit, 0, sizeof *edit);
  edit->book = book;
  edit->change = fr_change_new (label, subject);
}

FrRecord *
fr_bush_edit_new_record (FrBushEdit *edit, FrKindId kind, GError **error)
{
  return fr_book_new_record (edit->book, kind, edit->n_new[kind]++, error);
}

gboolean
fr_bush_edit_step (FrBushEdit *edit, const FrRecord *before, const FrRecord *after, const char *whose,
                   GError **error)
{
  g_autoptr (GArray) problems = after != NULL ? fr_record_check (after) : NULL;

  if (problems != NULL && problems->len > 0)
    {
      g_autofree char *why = fr_record_sentence (&g_array_index (problems, FrProblem, 0), after,
                                                 fr_book_get_units (edit->book));
      /* Translators: the name of a tree, then what is wrong with it */
      g_autofree char *sentence
          = whose != NULL ? g_strdup_printf (_ ("“%s”: %s"), whose, why) : g_strdup (why);

      fr_bush_edit_refuse (error, sentence);
      return FALSE;
    }
  fr_change_add (edit->change, before, after);
  return TRUE;
}

FrChange *
fr_bush_edit_drop (FrBushEdit *edit)
{
  g_clear_pointer (&edit->change, fr_change_free);
  return NULL;
}

FrChange *
fr_bush_edit_end (FrBushEdit *edit)
{
  if (fr_change_is_empty (edit->change))
    return fr_bush_edit_drop (edit);
  return g_steal_pointer (&edit->change);
}

FrChange *
fr_bush_edit_end_trees (FrBushEdit *edit, const char *verb)
{
  const FrRecord *one = NULL;
  guint n = 0;

  for (guint i = 0; i < edit->change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (edit->change->steps, i);
      const FrRecord *record = step->before != NULL ? step->before : step->after;

      if (record->kind->id != FR_KIND_TREE)
        continue;
      one = record;
      n++;
    }
  g_free (edit->change->label);
  g_free (edit->change->subject);
  edit->change->label = g_strconcat (verb, n == 1 ? "-tree" : "-trees", NULL);
  edit->change->subject = n == 1 ? g_strdup (fr_record_label (one)) : NULL;
  return fr_bush_edit_end (edit);
}

gpointer
fr_bush_edit_refuse (GError **error, const char *sentence)
{
  g_set_error_literal (error, FR_BUSH_EDIT_ERROR, FR_BUSH_EDIT_ERROR_REFUSED, sentence);
  return NULL;
}

void
fr_bush_edit_set_text (FrRecord *record, const char *field, const char *text)
{
  g_autofree char *stripped = text != NULL ? g_strstrip (g_strdup (text)) : NULL;

  fr_record_set_text (record, fr_kind_field (record->kind, field), stripped);
}

void
fr_bush_edit_set_amount (FrAmount *amount, double value, const char *typed)
{
  gboolean same = amount->value == value || (isnan (amount->value) && isnan (value));

  if (!same || (typed != NULL && !isnan (value)))
    fr_amount_set (amount, value, isnan (value) ? NULL : typed);
}

const FrTree *
fr_bush_edit_tree (FrBook *book, gint64 id, GError **error)
{
  const FrRecord *record = fr_book_find (book, FR_KIND_TREE, id);

  if (record == NULL)
    return fr_bush_edit_refuse (error, _ ("This tree is no longer in the book."));
  return (const FrTree *)record;
}

const FrTap *
fr_bush_edit_tap (FrBook *book, gint64 id, GError **error)
{
  const FrRecord *record = fr_book_find (book, FR_KIND_TAP, id);

  if (record == NULL)
    return fr_bush_edit_refuse (error, _ ("This tap is no longer in the book."));
  return (const FrTap *)record;
}

GHashTable *
fr_bush_edit_tree_set (FrBook *book, const gint64 *trees, guint n, GError **error)
{
  g_autoptr (GHashTable) set = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);

  for (guint i = 0; i < n; i++)
    {
      if (fr_bush_edit_tree (book, trees[i], error) == NULL)
        return NULL;
      g_hash_table_add (set, g_memdup2 (&trees[i], sizeof trees[i]));
    }
  return g_steal_pointer (&set);
}

/* One book holds at most one of these. A copy to edit, new when there is none yet. */
static FrRecord *
single_copy (FrBushEdit *edit, FrKindId kind, const FrRecord **before_out, GError **error)
{
  FrRecordList *list = fr_book_get_list (edit->book, kind);

  *before_out = fr_record_list_get_size (list) > 0 ? fr_record_list_get (list, 0) : NULL;
  return *before_out != NULL ? fr_record_copy (*before_out) : fr_bush_edit_new_record (edit, kind, error);
}

/* Nothing is kept for a record that would say no more than none at all. */
static gboolean
says_nothing (const FrRecord *record)
{
  g_autoptr (FrRecord) empty = fr_record_new (record->kind->id);

  empty->id = record->id;
  memcpy (empty->uid, record->uid, sizeof empty->uid);
  return fr_record_equal (record, empty);
}

static FrChange *
end_single (FrBushEdit *edit, const FrRecord *before, const FrRecord *after, GError **error)
{
  if (before == NULL && says_nothing (after))
    return fr_bush_edit_drop (edit);
  if (!fr_bush_edit_step (edit, before, after, NULL, error))
    return fr_bush_edit_drop (edit);
  return fr_bush_edit_end (edit);
}

/* A household's own spacing begins with the distances of the rule it had, where it has not said its own yet.
 */
static void
begin_own_spacing (FrTapping *tapping, const char *before)
{
  FrSpacingId id;

  if (!fr_spacing_from_code (before, &id) || id == FR_SPACING_OWN)
    return;
  if (isnan (tapping->sideways_m.value))
    fr_amount_set (&tapping->sideways_m, fr_spacing (id)->sideways_m, NULL);
  if (isnan (tapping->up_down_m.value))
    fr_amount_set (&tapping->up_down_m, fr_spacing (id)->up_down_m, NULL);
}

FrChange *
fr_bush_edit_single (FrBook *book, FrKindId kind, const char *field_name, const char *text, double amount,
                     const char *typed, GError **error)
{
  g_return_val_if_fail (kind == FR_KIND_GROUND || kind == FR_KIND_TAPPING, NULL);
  const FrField *field = fr_kind_field (fr_kind (kind), field_name);
  g_return_val_if_fail (field != NULL, NULL);

  FrBushEdit edit;
  const FrRecord *before;
  g_autoptr (FrRecord) after = NULL;

  fr_bush_edit_begin (&edit, book, kind == FR_KIND_GROUND ? "edit-ground" : "edit-tapping", NULL);
  after = single_copy (&edit, kind, &before, error);
  if (after == NULL)
    return fr_bush_edit_drop (&edit);
  switch (field->type)
    {
    case FR_FIELD_AMOUNT:
      fr_bush_edit_set_amount (fr_record_amount (after, field), amount, typed);
      break;
    case FR_FIELD_BOOL:
      fr_record_set_int (after, field, amount == 1);
      break;
    default:
      {
        g_autofree char *was = g_strdup (fr_record_text (after, field));

        fr_bush_edit_set_text (after, field->name, text);
        if (strcmp (field->name, "spacing") == 0 && g_strcmp0 (text, "own") == 0)
          begin_own_spacing ((FrTapping *)after, was);
      }
    }
  return end_single (&edit, before, after, error);
}

FrChange *
fr_bush_edit_anchor (FrBook *book, double x_m, double y_m, double lat_deg, double lon_deg, GError **error)
{
  FrBushEdit edit;
  const FrRecord *before;
  g_autoptr (FrRecord) after = NULL;
  FrGround *ground;

  fr_bush_edit_begin (&edit, book, "edit-ground", NULL);
  after = single_copy (&edit, FR_KIND_GROUND, &before, error);
  if (after == NULL)
    return fr_bush_edit_drop (&edit);
  ground = (FrGround *)after;
  fr_bush_edit_set_amount (&ground->anchor_x_m, x_m, NULL);
  fr_bush_edit_set_amount (&ground->anchor_y_m, y_m, NULL);
  fr_bush_edit_set_amount (&ground->anchor_lat_deg, lat_deg, NULL);
  fr_bush_edit_set_amount (&ground->anchor_lon_deg, lon_deg, NULL);
  return end_single (&edit, before, after, error);
}

static void
set_known_point (FrAmount *column, FrAmount *row, FrAmount *x, FrAmount *y, const FrPicturePoint *point)
{
  fr_bush_edit_set_amount (column, point != NULL ? point->column : NAN, NULL);
  fr_bush_edit_set_amount (row, point != NULL ? point->row : NAN, NULL);
  fr_bush_edit_set_amount (x, point != NULL ? point->x_m : NAN, NULL);
  fr_bush_edit_set_amount (y, point != NULL ? point->y_m : NAN, NULL);
}

FrChange *
fr_bush_edit_picture (FrBook *book, const char *file, const FrPicturePoint *first,
                      const FrPicturePoint *second, GError **error)
{
  FrBushEdit edit;
  const FrRecord *before;
  g_autoptr (FrRecord) after = NULL;
  FrGround *ground;

  fr_bush_edit_begin (&edit, book, "place-picture", NULL);
  after = single_copy (&edit, FR_KIND_GROUND, &before, error);
  if (after == NULL)
    return fr_bush_edit_drop (&edit);
  ground = (FrGround *)after;
  fr_bush_edit_set_text (after, "picture", file);
  ground->picture_shown = file != NULL && *file != '\0';
  set_known_point (&ground->first_column, &ground->first_row, &ground->first_x_m, &ground->first_y_m, first);
  set_known_point (&ground->second_column, &ground->second_row, &ground->second_x_m, &ground->second_y_m,
                   second);
  return end_single (&edit, before, after, error);
}
