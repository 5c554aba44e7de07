/* References between records: what a record refers to is in the book, and what is referred to stays in it. The
 * tables say so too, but not in words. */
#include "store/store-private.h"

#include <glib/gi18n-lib.h>

gboolean
fr_store_verify_references (FrStore *store, const FrRecord *record, GError **error)
{
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];
      if (field->type != FR_FIELD_REF || fr_record_int (record, field) == 0)
        continue;
      g_autoptr (FrRecord) target = NULL;
      g_autofree char *number = NULL, *other = NULL;
      if (!fr_store_find (store, field->ref_kind, fr_record_int (record, field), &target, error))
        return FALSE;
      if (target != NULL)
        continue;
      number = fr_number_text (record->id);
      other = fr_number_text (fr_record_int (record, field));
      g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_REFUSED,
                   _ ("The %s “%s” (number %s) cannot be kept: it refers to a %s that is not in the book "
                      "(number %s)."),
                   fr_kind_words (record->kind), fr_record_label (record), number,
                   fr_kind_words (fr_kind (field->ref_kind)), other);
      return FALSE;
    }
  return TRUE;
}

static sqlite3_stmt *
referrer_statement (FrStore *store, const FrKind *by, const FrField *field, GError **error)
{
  sqlite3_stmt *statement = g_hash_table_lookup (store->referrers, field);
  g_autofree char *sql = NULL;

  if (statement != NULL)
    return statement;
  sql = g_strdup_printf ("SELECT min (id) FROM \"%s\" WHERE \"%s\" = ?1", by->name, field->name);
  statement = fr_database_prepare (store->db, sql, error);
  if (statement != NULL)
    g_hash_table_insert (store->referrers, (gpointer)field, statement);
  return statement;
}

/* The first record of a kind that refers to another, 0 when none does. */
static gboolean
first_referrer (FrStore *store, const FrKind *by, const FrKind *to, gint64 id, gint64 *id_out, GError **error)
{
  *id_out = 0;
  for (guint i = 0; i < by->n_fields && *id_out == 0; i++)
    {
      const FrField *field = &by->fields[i];
      sqlite3_stmt *statement;

      if (field->type != FR_FIELD_REF || field->ref_kind != to->id)
        continue;
      statement = referrer_statement (store, by, field, error);
      if (statement == NULL)
        return FALSE;
      sqlite3_bind_int64 (statement, 1, id);
      if (!fr_store_step_int (store, statement, id_out, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
fr_store_refers (FrStore *store, FrKindId by, FrKindId to, gint64 id, gboolean *refers_out, GError **error)
{
  gint64 referrer;

  g_return_val_if_fail (store != NULL && fr_kind (by) != NULL && fr_kind (to) != NULL, FALSE);
  *refers_out = FALSE;
  if (!first_referrer (store, fr_kind (by), fr_kind (to), id, &referrer, error))
    return FALSE;
  *refers_out = referrer != 0;
  return TRUE;
}

gboolean
fr_store_verify_unreferred (FrStore *store, const FrRecord *gone, GError **error)
{
  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      const FrKind *kind = fr_kind (k);
      g_autoptr (FrRecord) referrer = NULL;
      gint64 id;

      if (!first_referrer (store, kind, gone->kind, gone->id, &id, error))
        return FALSE;
      if (id == 0)
        continue;
      if (!fr_store_find (store, k, id, &referrer, error))
        return FALSE;
      g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_REFUSED,
                   _ ("The %s “%s” cannot be deleted: the %s “%s” still refers to it. Archive it instead."),
                   fr_kind_words (gone->kind), fr_record_label (gone), fr_kind_words (kind),
                   fr_record_label (referrer));
      return FALSE;
    }
  return TRUE;
}
