/* Reading the book: all records of a kind, those of a stretch of time, or one. What is read is checked like what
 * is written, for a file may have been damaged. A growing kind has an index over the column that places it in
 * time; rows come by that index and are put into the order of their numbers here, so that SQLite need not sort
 * whole rows. */
#include "store/row.h"
#include "store/store-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* The first problem as a sentence in @error; TRUE without one. */
static gboolean
refuse_problems (const FrRecord *record, const GArray *problems, FrStoreError code, GError **error)
{
  g_autofree char *sentence = NULL;

  if (problems->len == 0)
    return TRUE;
  sentence = fr_refusal_sentence (record, &g_array_index (problems, FrProblem, 0));
  g_set_error_literal (error, FR_STORE_ERROR, code, sentence);
  return FALSE;
}

static gboolean
is_uid (const char *uid)
{
  return strlen (uid) == 32 && strspn (uid, "0123456789abcdef") == 32;
}

gboolean
fr_store_check (const FrRecord *record, FrStoreError code, GError **error)
{
  g_autoptr (GArray) problems = fr_record_check (record);

  if (!refuse_problems (record, problems, code, error))
    return FALSE;
  if (record->id >= 1 && is_uid (record->uid))
    return TRUE;
  g_set_error (error, FR_STORE_ERROR, code,
               _ ("The %s “%s” cannot be kept: it has no number or no identity of its own."),
               fr_kind_words (record->kind), fr_record_label (record));
  return FALSE;
}

static void
prefix_damaged (FrStore *store, GError **error)
{
  g_prefix_error (error, _ ("The book “%s” holds something it cannot hold. "), store->db->path);
}

/* Every row of a statement; NULL when one cannot stand in a book. */
static GPtrArray *
read_rows (FrStore *store, const FrKind *kind, sqlite3_stmt *statement, GError **error)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  int code;

  while ((code = sqlite3_step (statement)) == SQLITE_ROW)
    {
      FrRecord *record = fr_row_read (statement, kind);
      g_ptr_array_add (records, record);
      if (!fr_store_check (record, FR_STORE_ERROR_NOT_A_BOOK, error))
        {
          prefix_damaged (store, error);
          return NULL;
        }
    }
  if (code != SQLITE_DONE)
    {
      fr_database_fail (store->db, code, error);
      return NULL;
    }
  return g_steal_pointer (&records);
}

GPtrArray *
fr_store_load (FrStore *store, FrKindId kind_id, GError **error)
{
  const FrKind *kind = fr_kind (kind_id);
  g_return_val_if_fail (store != NULL && kind != NULL, NULL);

  g_autofree char *sql = fr_row_select_sql (kind, FR_SELECT_ALL);
  g_autoptr (sqlite3_stmt) statement = fr_database_prepare (store->db, sql, error);
  return statement != NULL ? read_rows (store, kind, statement, error) : NULL;
}

/* The query over a stretch of time, ready to step. */
static sqlite3_stmt *
prepare_span (FrStore *store, const FrKind *kind, const char *sql, const FrRecordSpan *span, GError **error)
{
  g_autoptr (sqlite3_stmt) statement = fr_database_prepare (store->db, sql, error);
  int code;

  if (statement == NULL)
    return NULL;
  if (fr_kind_field (kind, kind->time_field)->type == FR_FIELD_DATE) /* days as text are in the order of bytes */
    {
      code = sqlite3_bind_text (statement, 1, fr_date_to_iso (span->first), -1, g_free);
      if (code == SQLITE_OK)
        code = sqlite3_bind_text (statement, 2, fr_date_to_iso (span->last), -1, g_free);
    }
  else
    {
      code = sqlite3_bind_int64 (statement, 1, span->from_utc);
      if (code == SQLITE_OK)
        code = sqlite3_bind_int64 (statement, 2, span->to_utc - 1);
    }
  if (code == SQLITE_OK)
    return g_steal_pointer (&statement);
  fr_database_fail (store->db, code, error);
  return NULL;
}

static gint
by_id (gconstpointer a, gconstpointer b)
{
  const FrRecord *one = *(const FrRecord *const *)a, *two = *(const FrRecord *const *)b;

  return (one->id > two->id) - (one->id < two->id);
}

GPtrArray *
fr_store_load_span (FrStore *store, FrKindId kind_id, const FrRecordSpan *span, GError **error)
{
  const FrKind *kind = fr_kind (kind_id);
  g_return_val_if_fail (store != NULL && kind != NULL && kind->time_field != NULL && span != NULL, NULL);

  g_autofree char *sql = fr_row_select_sql (kind, FR_SELECT_SPAN);
  g_autoptr (sqlite3_stmt) statement = prepare_span (store, kind, sql, span, error);
  GPtrArray *records = statement != NULL ? read_rows (store, kind, statement, error) : NULL;
  if (records != NULL)
    g_ptr_array_sort (records, by_id);
  return records;
}

gboolean
fr_store_each (FrStore *store, FrKindId kind_id, const FrRecordSpan *span, const char *const *names,
               FrStoreEach each, gpointer user_data, GError **error)
{
  const FrKind *kind = fr_kind (kind_id);
  g_return_val_if_fail (store != NULL && kind != NULL && kind->time_field != NULL && span != NULL, FALSE);

  guint n = g_strv_length ((char **)names);
  g_autofree const FrField **fields = g_new0 (const FrField *, n + 1);
  for (guint i = 0; i < n; i++)
    g_return_val_if_fail ((fields[i] = fr_kind_field (kind, names[i])) != NULL, FALSE);

  g_autofree char *sql = fr_row_part_sql (kind, names);
  g_autoptr (sqlite3_stmt) statement = prepare_span (store, kind, sql, span, error);
  g_autoptr (FrRecord) record = fr_record_new (kind_id);
  g_autoptr (GArray) problems = g_array_new (FALSE, FALSE, sizeof (FrProblem));
  int code;
  if (statement == NULL)
    return FALSE;
  while ((code = sqlite3_step (statement)) == SQLITE_ROW)
    {
      fr_row_read_part (statement, fields, record);
      for (guint i = 0; i < n; i++)
        fr_record_check_field (problems, record, fields[i]);
      if (!refuse_problems (record, problems, FR_STORE_ERROR_NOT_A_BOOK, error))
        {
          prefix_damaged (store, error);
          return FALSE;
        }
      each (record, user_data);
    }
  return code == SQLITE_DONE || fr_database_fail (store->db, code, error);
}

gboolean
fr_store_find (FrStore *store, FrKindId kind_id, gint64 id, FrRecord **record_out, GError **error)
{
  const FrKind *kind = fr_kind (kind_id);
  g_return_val_if_fail (store != NULL && kind != NULL, FALSE);

  sqlite3_stmt *statement = fr_store_statement (store, kind, FR_ROW_ONE, error);
  *record_out = NULL;
  if (statement == NULL)
    return FALSE;

  int code = sqlite3_bind_int64 (statement, 1, id);
  if (code == SQLITE_OK)
    code = sqlite3_step (statement);
  if (code == SQLITE_ROW)
    {
      *record_out = fr_row_read (statement, kind);
      code = SQLITE_DONE;
    }
  gboolean ok = code == SQLITE_DONE || fr_database_fail (store->db, code, error);
  sqlite3_reset (statement);
  sqlite3_clear_bindings (statement);
  return ok;
}

gboolean
fr_store_step_int (FrStore *store, sqlite3_stmt *statement, gint64 *value_out, GError **error)
{
  int code = sqlite3_step (statement);
  gboolean ok = code == SQLITE_ROW || fr_database_fail (store->db, code, error);

  *value_out = ok ? sqlite3_column_int64 (statement, 0) : 0;
  sqlite3_reset (statement);
  return ok;
}

gint64
fr_store_next_id (FrStore *store, FrKindId kind_id, GError **error)
{
  const FrKind *kind = fr_kind (kind_id);
  g_return_val_if_fail (store != NULL && kind != NULL, 0);

  sqlite3_stmt *statement = fr_store_statement (store, kind, FR_ROW_NEXT, error);
  gint64 id = 0;
  if (statement != NULL)
    fr_store_step_int (store, statement, &id, error);
  return id;
}
