/* A change in the making. Every record is checked here, before the store's door, because words that help
 * stand under the entry, and the store's are the last ones. */
#include "models/edit.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "words/entry-words.h"

G_DEFINE_QUARK (fr - edit - error - quark, fr_edit_error)

void
fr_edit_begin (FrEdit *edit, FrBook *book, const char *label, const char *subject)
{
  memset (edit, 0, sizeof *edit);
  edit->book = book;
  edit->change = fr_change_new (label, subject);
}

FrRecord *
fr_edit_new_record (FrEdit *edit, FrKindId kind, GError **error)
{
  return fr_book_new_record (edit->book, kind, edit->n_new[kind]++, error);
}

gboolean
fr_edit_step (FrEdit *edit, const FrRecord *before, const FrRecord *after, const char *whose, GError **error)
{
  g_autoptr (GArray) problems = after != NULL ? fr_record_check (after) : NULL;

  if (problems != NULL && problems->len > 0)
    {
      g_autofree char *why = fr_record_sentence (&g_array_index (problems, FrProblem, 0), after,
                                                 fr_book_get_units (edit->book));
      /* Translators: the name of a tree, then what is wrong with it */
      g_autofree char *sentence
          = whose != NULL ? g_strdup_printf (_ ("“%s”: %s"), whose, why) : g_strdup (why);

      fr_edit_refuse (error, sentence);
      return FALSE;
    }
  fr_change_add (edit->change, before, after);
  return TRUE;
}

FrChange *
fr_edit_drop (FrEdit *edit)
{
  g_clear_pointer (&edit->change, fr_change_free);
  return NULL;
}

void
fr_edit_take_out (FrEdit *edit, const FrRecord *record, gboolean has_to_stay)
{
  g_autoptr (FrRecord) after = has_to_stay ? fr_record_copy (record) : NULL;

  if (after != NULL)
    after->archived = TRUE;
  fr_change_add (edit->change, record, after);
}

FrChange *
fr_edit_end (FrEdit *edit)
{
  if (fr_change_is_empty (edit->change))
    return fr_edit_drop (edit);
  return g_steal_pointer (&edit->change);
}

gpointer
fr_edit_refuse (GError **error, const char *sentence)
{
  g_set_error_literal (error, FR_EDIT_ERROR, FR_EDIT_ERROR_REFUSED, sentence);
  return NULL;
}

void
fr_edit_set_text (FrRecord *record, const char *field, const char *text)
{
  g_autofree char *stripped = text != NULL ? g_strstrip (g_strdup (text)) : NULL;

  fr_record_set_text (record, fr_kind_field (record->kind, field), stripped);
}

void
fr_edit_set_amount (FrAmount *amount, double value, const char *typed)
{
  gboolean same = amount->value == value || (isnan (amount->value) && isnan (value));

  if (!same || (typed != NULL && !isnan (value)))
    fr_amount_set (amount, value, isnan (value) ? NULL : typed);
}

void
fr_edit_set_field (FrRecord *record, const FrField *field, const char *text, double amount, const char *typed)
{
  switch (field->type)
    {
    case FR_FIELD_AMOUNT:
      fr_edit_set_amount (fr_record_amount (record, field), amount, typed);
      break;
    case FR_FIELD_BOOL:
      fr_record_set_int (record, field, amount == 1);
      break;
    case FR_FIELD_TEXT:
    case FR_FIELD_CODE:
    case FR_FIELD_DATE:
      fr_edit_set_text (record, field->name, text);
      break;
    case FR_FIELD_TIME:
    case FR_FIELD_REF:
    default:
      g_return_if_reached ();
    }
}

FrRecord *
fr_edit_single_copy (FrEdit *edit, FrKindId kind, const FrRecord **before_out, GError **error)
{
  FrRecordList *list = fr_book_get_list (edit->book, kind);

  *before_out = fr_record_list_get_size (list) > 0 ? fr_record_list_get (list, 0) : NULL;
  return *before_out != NULL ? fr_record_copy (*before_out) : fr_edit_new_record (edit, kind, error);
}

gboolean
fr_edit_says_nothing (const FrRecord *record)
{
  g_autoptr (FrRecord) empty = fr_record_new (record->kind->id);

  empty->id = record->id;
  memcpy (empty->uid, record->uid, sizeof empty->uid);
  return fr_record_equal (record, empty);
}

FrChange *
fr_edit_end_single (FrEdit *edit, const FrRecord *before, const FrRecord *after, GError **error)
{
  if (before == NULL && fr_edit_says_nothing (after))
    return fr_edit_drop (edit);
  if (!fr_edit_step (edit, before, after, NULL, error))
    return fr_edit_drop (edit);
  return fr_edit_end (edit);
}
