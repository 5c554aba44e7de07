/* Finding what an edit of the sugarbush is about, and what concerns the single records of the book. */
#include "models/bush-edit-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "domain/maths/tapping.h"
#include "words/entry-words.h"

FrChange *
fr_bush_edit_end_trees (FrEdit *edit, const char *verb)
{
  const FrRecord *one = NULL;
  guint n = 0;

  for (guint i = 0; i < edit->change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (edit->change->steps, i);
      const FrRecord *record = fr_step_record (step);

      if (record->kind->id != FR_KIND_TREE)
        continue;
      one = record;
      n++;
    }
  g_free (edit->change->label);
  g_free (edit->change->subject);
  edit->change->label = g_strconcat (verb, n == 1 ? "-tree" : "-trees", NULL);
  edit->change->subject = n == 1 ? g_strdup (fr_record_label (one)) : NULL;
  return fr_edit_end (edit);
}

const FrTree *
fr_bush_edit_tree (FrBook *book, gint64 id, GError **error)
{
  const FrRecord *record = fr_book_find (book, FR_KIND_TREE, id);

  if (record == NULL)
    return fr_edit_refuse (error, _ ("This tree is no longer in the book."));
  return (const FrTree *)record;
}

const FrTap *
fr_bush_edit_tap (FrBook *book, gint64 id, GError **error)
{
  const FrRecord *record = fr_book_find (book, FR_KIND_TAP, id);

  if (record == NULL)
    return fr_edit_refuse (error, _ ("This tap is no longer in the book."));
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

  FrEdit edit;
  const FrRecord *before;
  g_autoptr (FrRecord) after = NULL;
  g_autofree char *was = NULL;

  fr_edit_begin (&edit, book, kind == FR_KIND_GROUND ? "edit-ground" : "edit-tapping", NULL);
  after = fr_edit_single_copy (&edit, kind, &before, error);
  if (after == NULL)
    return fr_edit_drop (&edit);
  was = g_strdup (field->type == FR_FIELD_CODE ? fr_record_text (after, field) : NULL);
  fr_edit_set_field (after, field, text, amount, typed);
  if (strcmp (field->name, "spacing") == 0 && g_strcmp0 (text, "own") == 0)
    begin_own_spacing ((FrTapping *)after, was);
  return fr_edit_end_single (&edit, before, after, error);
}

FrChange *
fr_bush_edit_anchor (FrBook *book, double x_m, double y_m, double lat_deg, double lon_deg, GError **error)
{
  FrEdit edit;
  const FrRecord *before;
  g_autoptr (FrRecord) after = NULL;
  FrGround *ground;

  fr_edit_begin (&edit, book, "edit-ground", NULL);
  after = fr_edit_single_copy (&edit, FR_KIND_GROUND, &before, error);
  if (after == NULL)
    return fr_edit_drop (&edit);
  ground = (FrGround *)after;
  fr_edit_set_amount (&ground->anchor_x_m, x_m, NULL);
  fr_edit_set_amount (&ground->anchor_y_m, y_m, NULL);
  fr_edit_set_amount (&ground->anchor_lat_deg, lat_deg, NULL);
  fr_edit_set_amount (&ground->anchor_lon_deg, lon_deg, NULL);
  return fr_edit_end_single (&edit, before, after, error);
}

static void
set_known_point (FrAmount *column, FrAmount *row, FrAmount *x, FrAmount *y, const FrPicturePoint *point)
{
  fr_edit_set_amount (column, point != NULL ? point->column : NAN, NULL);
  fr_edit_set_amount (row, point != NULL ? point->row : NAN, NULL);
  fr_edit_set_amount (x, point != NULL ? point->x_m : NAN, NULL);
  fr_edit_set_amount (y, point != NULL ? point->y_m : NAN, NULL);
}

FrChange *
fr_bush_edit_picture (FrBook *book, const char *file, const FrPicturePoint *first,
                      const FrPicturePoint *second, GError **error)
{
  FrEdit edit;
  const FrRecord *before;
  g_autoptr (FrRecord) after = NULL;
  FrGround *ground;

  fr_edit_begin (&edit, book, "place-picture", NULL);
  after = fr_edit_single_copy (&edit, FR_KIND_GROUND, &before, error);
  if (after == NULL)
    return fr_edit_drop (&edit);
  ground = (FrGround *)after;
  fr_edit_set_text (after, "picture", file);
  ground->picture_shown = file != NULL && *file != '\0';
  set_known_point (&ground->first_column, &ground->first_row, &ground->first_x_m, &ground->first_y_m, first);
  set_known_point (&ground->second_column, &ground->second_row, &ground->second_x_m, &ground->second_y_m,
                   second);
  return fr_edit_end_single (&edit, before, after, error);
}
