/* What is drawn on the ground beside the trees. Nothing refers to a drawing, so one that goes is gone, and
 * undo brings it back. */
#include "models/bush-edit-private.h"

#include <glib/gi18n-lib.h>

static const FrFeature *
find_feature (FrBook *book, gint64 id, GError **error)
{
  const FrRecord *record = fr_book_find (book, FR_KIND_FEATURE, id);

  if (record == NULL)
    return fr_edit_refuse (error, _ ("This drawing is no longer in the book."));
  return (const FrFeature *)record;
}

FrChange *
fr_bush_edit_add_feature (FrBook *book, const char *form, const char *name, const char *points,
                          GError **error)
{
  FrEdit edit;
  g_autoptr (FrRecord) after = NULL;

  fr_edit_begin (&edit, book, "add-feature", name);
  after = fr_edit_new_record (&edit, FR_KIND_FEATURE, error);
  if (after == NULL)
    return fr_edit_drop (&edit);
  fr_edit_set_text (after, "form", form);
  fr_edit_set_text (after, "name", name);
  fr_edit_set_text (after, "points", points);
  if (!fr_edit_step (&edit, NULL, after, NULL, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

FrChange *
fr_bush_edit_set_feature (FrBook *book, gint64 feature, const char *form, const char *name,
                          const char *points, GError **error)
{
  const FrFeature *before = find_feature (book, feature, error);
  FrEdit edit;
  g_autoptr (FrRecord) after = NULL;

  if (before == NULL)
    return NULL;
  after = fr_record_copy (&before->record);
  if (form != NULL)
    fr_edit_set_text (after, "form", form);
  if (name != NULL)
    fr_edit_set_text (after, "name", name);
  if (points != NULL)
    fr_edit_set_text (after, "points", points);
  fr_edit_begin (&edit, book, "edit-feature", fr_record_label (after));
  if (!fr_edit_step (&edit, &before->record, after, NULL, error))
    return fr_edit_drop (&edit);
  return fr_edit_end (&edit);
}

FrChange *
fr_bush_edit_remove_feature (FrBook *book, gint64 feature, GError **error)
{
  const FrFeature *before = find_feature (book, feature, error);
  FrEdit edit;

  if (before == NULL)
    return NULL;
  fr_edit_begin (&edit, book, "delete-feature", before->name);
  fr_change_add (edit.change, &before->record, NULL);
  return fr_edit_end (&edit);
}
