/* The one door to the book. A change is checked whole before anything is written: every image before must
 * equal what is stored, every image after must pass its check, every reference must lead somewhere when the
 * change is done. Then it is written with its diary row in one transaction, or nothing is. */
#include "store/store.h"
#include "store/row.h"
#include "store/schema.h"
#include "store/store-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static void
statement_free (gpointer statement)
{
  sqlite3_finalize (statement);
}

FrStore *
fr_store_open (const char *path, gboolean create, GError **error)
{
  g_return_val_if_fail (path != NULL, NULL);

  g_autoptr (FrDatabase) db = fr_database_open (path, create, error);
  if (db == NULL || !fr_schema_bring_up (db, create || strcmp (path, ":memory:") == 0, error))
    return NULL;
  FrStore *store = g_new0 (FrStore, 1);
  store->db = g_steal_pointer (&db);
  store->referrers = g_hash_table_new_full (NULL, NULL, NULL, statement_free);
  return store;
}

void
fr_store_close (FrStore *store)
{
  if (store == NULL)
    return;
  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    for (guint i = 0; i < FR_N_ROW; i++)
      sqlite3_finalize (store->rows[kind][i]);
  g_hash_table_unref (store->referrers);
  fr_database_close (store->db);
  g_free (store);
}

const char *
fr_store_path (const FrStore *store)
{
  return store->db->path;
}

FrDatabase *
fr_store_database (FrStore *store)
{
  return store->db;
}

sqlite3_stmt *
fr_store_statement (FrStore *store, const FrKind *kind, FrRowStatement which, GError **error)
{
  sqlite3_stmt **slot = &store->rows[kind->id][which];
  if (*slot != NULL)
    return *slot;

  g_autofree char *sql = NULL;
  switch (which)
    {
    case FR_ROW_ONE:
      sql = fr_row_select_sql (kind, FR_SELECT_ONE);
      break;
    case FR_ROW_INSERT:
      sql = fr_row_insert_sql (kind);
      break;
    case FR_ROW_UPDATE:
      sql = fr_row_update_sql (kind);
      break;
    case FR_ROW_REMOVE:
      sql = fr_row_remove_sql (kind);
      break;
    case FR_ROW_NEXT:
      /* The sequence remembers ids of deleted records, so that the diary and an undo never meet a stranger.
       */
      sql = g_strdup_printf ("SELECT max (coalesce ((SELECT seq FROM sqlite_sequence WHERE name = '%s'), 0),"
                             " coalesce ((SELECT max (id) FROM \"%s\"), 0)) + 1",
                             kind->name, kind->name);
      break;
    case FR_N_ROW:
      g_assert_not_reached ();
    }
  *slot = fr_database_prepare (store->db, sql, error);
  return *slot;
}

static gboolean
verify_before (FrStore *store, const FrStep *step, GError **error)
{
  const FrRecord *wanted = fr_step_record (step);
  g_autoptr (FrRecord) stored = NULL;
  g_autofree char *number = NULL;

  if (!fr_store_find (store, wanted->kind->id, wanted->id, &stored, error))
    return FALSE;
  if (step->before == NULL ? stored == NULL : fr_record_equal (stored, step->before))
    return TRUE;
  number = fr_number_text (wanted->id);
  g_set_error (
      error, FR_STORE_ERROR, FR_STORE_ERROR_CONFLICT,
      _ ("The %s “%s” (number %s) has been changed elsewhere since it was read. Nothing of this change was "
         "kept; look at it again and repeat the change."),
      fr_kind_words (wanted->kind), fr_record_label (wanted), number);
  return FALSE;
}

static gboolean
write_step (FrStore *store, const FrStep *step, GError **error)
{
  FrRowStatement which = step->after == NULL ? FR_ROW_REMOVE : step->before == NULL ? FR_ROW_INSERT : FR_ROW_UPDATE;
  sqlite3_stmt *statement = fr_store_statement (store, fr_step_record (step)->kind, which, error);
  if (statement == NULL)
    return FALSE;

  int code = which == FR_ROW_REMOVE ? sqlite3_bind_int64 (statement, 1, step->before->id)
                                 : fr_row_bind (statement, step->after);
  if (code == SQLITE_OK)
    code = sqlite3_step (statement);
  gboolean ok = code == SQLITE_DONE || fr_database_fail (store->db, code, error);
  sqlite3_reset (statement);
  sqlite3_clear_bindings (statement);
  return ok;
}

/* Deletions first: what takes a deleted record's identity or place must find it free. */
static gboolean
write_steps (FrStore *store, const FrChange *change, GError **error)
{
  for (int deleting = 1; deleting >= 0; deleting--)
    for (guint i = 0; i < change->steps->len; i++)
      {
        const FrStep *step = g_ptr_array_index (change->steps, i);
        if ((step->after == NULL) == deleting && !write_step (store, step, error))
          return FALSE;
      }
  return TRUE;
}

static gboolean
verify_whole (FrStore *store, const FrChange *change, GError **error)
{
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);
      if (step->after != NULL ? !fr_store_verify_references (store, step->after, error)
                              : !fr_store_verify_unreferred (store, step->before, error))
        return FALSE;
    }
  return TRUE;
}

static const char *
origin_code (FrOrigin origin)
{
  static const char *const codes[] = { "window", "cli", "import", "demo" };
  g_return_val_if_fail ((guint)origin < G_N_ELEMENTS (codes), codes[0]);
  return codes[origin];
}

static gboolean
write_diary (FrStore *store, const FrChange *change, FrOrigin origin, gint64 now_utc, GError **error)
{
  g_autofree char *steps = fr_diary_steps_json (change);
  g_autoptr (sqlite3_stmt) statement = fr_database_prepare (
      store->db, "INSERT INTO diary (utc_s, label, subject, origin, steps) VALUES (?1, ?2, ?3, ?4, ?5)",
      error);
  if (statement == NULL)
    return FALSE;

  sqlite3_bind_int64 (statement, 1, now_utc);
  sqlite3_bind_text (statement, 2, change->label, -1, SQLITE_STATIC);
  sqlite3_bind_text (statement, 3, change->subject, -1, SQLITE_STATIC);
  sqlite3_bind_text (statement, 4, origin_code (origin), -1, SQLITE_STATIC);
  sqlite3_bind_text (statement, 5, steps, -1, SQLITE_STATIC);
  int code = sqlite3_step (statement);
  return code == SQLITE_DONE || fr_database_fail (store->db, code, error);
}

/* Of some kinds a book holds one; the table says so too, but not in words. */
static gboolean
one_of_a_kind (FrStore *store, const FrChange *change, const FrKind *kind, GError **error)
{
  g_autofree char *sql = g_strdup_printf ("SELECT count (*) FROM \"%s\"", kind->name);
  gint64 n = 0;

  if (!fr_database_int (store->db, sql, &n, error))
    return FALSE;
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);
      if (fr_step_record (step)->kind == kind)
        n += (step->after != NULL) - (step->before != NULL);
    }
  if (n <= 1)
    return TRUE;
  g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_REFUSED,
               /* Translators: a kind of record, as "household" */
               _ ("The book “%s” already has its %s; a book holds one."), store->db->path,
               fr_kind_words (kind));
  return FALSE;
}

/* Looks only where something is added: a change of a thousand trees asks nothing here. */
static gboolean
singles_stay_single (FrStore *store, const FrChange *change, GError **error)
{
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);
      const FrKind *kind = fr_step_record (step)->kind;
      if (kind->single && step->before == NULL && !one_of_a_kind (store, change, kind, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
fr_store_apply (FrStore *store, const FrChange *change, FrOrigin origin, gint64 now_utc, GError **error)
{
  g_return_val_if_fail (store != NULL && change != NULL, FALSE);

  if (fr_change_is_empty (change))
    return TRUE;
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);
      if (step->after != NULL && !fr_store_check (step->after, FR_STORE_ERROR_REFUSED, error))
        return FALSE;
    }
  if (!fr_database_begin (store->db, error))
    return FALSE;
  for (guint i = 0; i < change->steps->len; i++)
    if (!verify_before (store, g_ptr_array_index (change->steps, i), error))
      goto failed;
  if (!singles_stay_single (store, change, error) || !write_steps (store, change, error)
      || !verify_whole (store, change, error) || !write_diary (store, change, origin, now_utc, error))
    goto failed;
  return fr_database_commit (store->db, error);

failed:
  fr_database_rollback (store->db);
  return FALSE;
}

gint64
fr_store_data_version (FrStore *store)
{
  gint64 version;
  g_autoptr (GError) error = NULL;

  /* Cannot fail but for a file that has vanished under us; then the next load says so. */
  if (!fr_database_int (store->db, "PRAGMA data_version", &version, &error))
    g_warning ("%s", error->message);
  return version;
}

static void
diary_row_free (gpointer data)
{
  FrDiaryRow *row = data;
  g_free (row->label);
  g_free (row->subject);
  g_free (row->origin);
  g_free (row);
}

GPtrArray *
fr_store_diary (FrStore *store, guint limit, GError **error)
{
  g_autoptr (sqlite3_stmt) statement = fr_database_prepare (
      store->db, "SELECT utc_s, label, subject, origin FROM diary ORDER BY id DESC LIMIT ?1", error);
  if (statement == NULL)
    return NULL;

  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (diary_row_free);
  sqlite3_bind_int64 (statement, 1, limit);
  int code;
  while ((code = sqlite3_step (statement)) == SQLITE_ROW)
    {
      FrDiaryRow *row = g_new0 (FrDiaryRow, 1);
      row->utc_s = sqlite3_column_int64 (statement, 0);
      row->label = g_strdup ((const char *)sqlite3_column_text (statement, 1));
      row->subject = g_strdup ((const char *)sqlite3_column_text (statement, 2));
      row->origin = g_strdup ((const char *)sqlite3_column_text (statement, 3));
      g_ptr_array_add (rows, row);
    }
  if (code != SQLITE_DONE)
    {
      fr_database_fail (store->db, code, error);
      return NULL;
    }
  return g_steal_pointer (&rows);
}
