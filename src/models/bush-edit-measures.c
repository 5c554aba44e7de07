/* What was measured of trees: girths and diameters by day, and what they gave by season. */
#include "models/bush-edit-private.h"

#include <glib/gi18n-lib.h>

#include <string.h>

gboolean
fr_bush_edit_add_measure (FrEdit *edit, gint64 tree, FrDate day, gboolean is_girth, double size_m,
                          const char *typed, GError **error)
{
  g_autoptr (FrRecord) after = fr_edit_new_record (edit, FR_KIND_GIRTH, error);
  g_autofree char *iso = fr_date_is_valid (day) ? fr_date_to_iso (day) : NULL;
  FrGirth *girth = (FrGirth *)after;

  if (after == NULL)
    return FALSE;
  girth->tree = tree;
  fr_edit_set_text (after, "measured_on", iso);
  fr_edit_set_text (after, "measure", is_girth ? "girth" : "diameter");
  fr_amount_set (&girth->size_m, size_m, typed);
  return fr_edit_step (edit, NULL, after, NULL, error);
}

FrChange *
fr_bush_edit_girth (FrBook *book, gint64 tree, FrDate day, gboolean is_girth, double size_m,
                    const char *typed, GError **error)
{
  const FrTree *of = fr_bush_edit_tree (book, tree, error);
  FrRecordList *list = fr_book_get_list (book, FR_KIND_GIRTH);
  g_autofree char *iso = fr_date_is_valid (day) ? fr_date_to_iso (day) : NULL;
  FrEdit edit;

  if (of == NULL)
    return NULL;
  fr_edit_begin (&edit, book, "add-girth", of->name);
  for (guint i = fr_record_list_get_size (list); i-- > 0;)
    {
      const FrGirth *before = (const FrGirth *)fr_record_list_get (list, i);
      g_autoptr (FrRecord) after = NULL;

      if (before->tree != tree || before->record.archived || g_strcmp0 (before->measured_on, iso) != 0
          || (strcmp (before->measure, "girth") == 0) != !!is_girth)
        continue;
      after = fr_record_copy (&before->record);
      fr_edit_set_amount (&((FrGirth *)after)->size_m, size_m, typed);
      g_free (edit.change->label);
      edit.change->label = g_strdup ("edit-girth");
      if (!fr_edit_step (&edit, &before->record, after, NULL, error))
        return fr_edit_drop (&edit);
      return fr_edit_end (&edit);
    }
  if (!fr_bush_edit_add_measure (&edit, tree, day, is_girth, size_m, typed, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

FrChange *
fr_bush_edit_remove_girth (FrBook *book, gint64 girth, GError **error)
{
  const FrRecord *before = fr_book_find (book, FR_KIND_GIRTH, girth);
  FrEdit edit;

  if (before == NULL)
    return fr_edit_refuse (error, _ ("This measure is no longer in the book."));
  fr_edit_begin (&edit, book, "delete-girth", NULL);
  fr_change_add (edit.change, before, NULL);
  return fr_edit_end (&edit);
}

static const FrYield *
find_yield (FrBook *book, gint64 tree, guint season)
{
  FrRecordList *list = fr_book_get_list (book, FR_KIND_YIELD);

  for (guint i = fr_record_list_get_size (list); i-- > 0;)
    {
      const FrYield *yield = (const FrYield *)fr_record_list_get (list, i);

      if (yield->tree == tree && yield->season.value == season && !yield->record.archived)
        return yield;
    }
  return NULL;
}

FrChange *
fr_bush_edit_yield (FrBook *book, gint64 tree, guint season, double volume_l, double reading_brix,
                    const char *instrument, double sample_c, GError **error)
{
  const FrTree *of = fr_bush_edit_tree (book, tree, error);
  const FrYield *before = find_yield (book, tree, season);
  FrEdit edit;
  g_autoptr (FrRecord) after = NULL;
  FrYield *yield;

  if (of == NULL)
    return NULL;
  fr_edit_begin (&edit, book, before != NULL ? "edit-yield" : "add-yield", of->name);
  after
      = before != NULL ? fr_record_copy (&before->record) : fr_edit_new_record (&edit, FR_KIND_YIELD, error);
  if (after == NULL)
    return fr_edit_drop (&edit);
  yield = (FrYield *)after;
  if (before == NULL)
    {
      yield->tree = tree;
      fr_amount_set (&yield->season, season, NULL);
    }
  fr_edit_set_amount (&yield->volume_l, volume_l, NULL);
  fr_edit_set_amount (&yield->reading_brix, reading_brix, NULL);
  fr_edit_set_amount (&yield->sample_c, sample_c, NULL);
  if (instrument != NULL)
    fr_edit_set_text (after, "instrument", instrument);
  if (!fr_edit_step (&edit, before != NULL ? &before->record : NULL, after, NULL, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

FrChange *
fr_bush_edit_remove_yield (FrBook *book, gint64 tree, guint season, GError **error)
{
  const FrTree *of = fr_bush_edit_tree (book, tree, error);
  const FrYield *before = find_yield (book, tree, season);
  FrEdit edit;

  if (of == NULL || before == NULL)
    return NULL;
  fr_edit_begin (&edit, book, "delete-yield", of->name);
  fr_change_add (edit.change, &before->record, NULL);
  return fr_edit_end (&edit);
}
