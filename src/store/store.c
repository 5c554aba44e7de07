/* The one door to the book. A change is checked whole before anything is written: every image before must
 * equal what is stored, every image after must pass its check, every reference must lead somewhere when the
 * change is done. Then it is written with its diary row in one transaction, or nothing is. */
#include "store/store.h"
#include "store/row.h"
#include "store/schema.h"
#include "store/store-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

typedef enum
{
  ROW_ONE,
  ROW_INSERT,
  ROW_UPDATE,
  ROW_REMOVE,
  ROW_NEXT, /* the next free id */
  N_ROW
} RowStatement;

struct _FrStore
{
  FrDatabase *db;
  sqlite3_stmt *rows[FR_N_KINDS][N_ROW]; /* compiled when first needed */
};

FrStore *
fr_store_open (const char *path, gboolean create, GError **error)
{
  g_return_val_if_fail (path != NULL, NULL);

  g_autoptr (FrDatabase) db = fr_database_open (path, create, error);
  if (db == NULL || !fr_schema_bring_up (db, create || strcmp (path, ":memory:") == 0, error))
    return NULL;
  FrStore *store = g_new0 (FrStore, 1);
  store->db = g_steal_pointer (&db);
  return store;
}

void
fr_store_close (FrStore *store)
{
  if (store == NULL)
    return;
  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    for (guint i = 0; i < N_ROW; i++)
      sqlite3_finalize (store->rows[kind][i]);
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

static sqlite3_stmt *
row_statement (FrStore *store, const FrKind *kind, RowStatement which, GError **error)
{
  sqlite3_stmt **slot = &store->rows[kind->id][which];
  if (*slot != NULL)
    return *slot;

  g_autofree char *sql = NULL;
  switch (which)
    {
    case ROW_ONE:
      sql = fr_row_select_sql (kind, TRUE);
      break;
    case ROW_INSERT:
      sql = fr_row_insert_sql (kind);
      break;
    case ROW_UPDATE:
      sql = fr_row_update_sql (kind);
      break;
    case ROW_REMOVE:
      sql = fr_row_remove_sql (kind);
      break;
    case ROW_NEXT:
      /* The sequence remembers ids of deleted records, so that the diary and an undo never meet a stranger.
       */
      sql = g_strdup_printf ("SELECT max (coalesce ((SELECT seq FROM sqlite_sequence WHERE name = '%s'), 0),"
                             " coalesce ((SELECT max (id) FROM \"%s\"), 0)) + 1",
                             kind->name, kind->name);
      break;
    case N_ROW:
      g_assert_not_reached ();
    }
  *slot = fr_database_prepare (store->db, sql, error);
  return *slot;
}

static gboolean
is_uid (const char *uid)
{
  return strlen (uid) == 32 && strspn (uid, "0123456789abcdef") == 32;
}

/* Whether a record may stand in the book; the first reason against it as an error. */
static gboolean
check_record (const FrRecord *record, FrStoreError code, GError **error)
{
  g_autofree char *sentence = NULL;
  g_autoptr (GArray) problems = fr_record_check (record);

  if (problems->len > 0)
    sentence = fr_refusal_sentence (record, &g_array_index (problems, FrProblem, 0));
  else if (record->id < 1 || !is_uid (record->uid))
    sentence = g_strdup_printf (_ ("The %s “%s” cannot be kept: it has no number or no identity of its own."),
                                fr_kind_words (record->kind), fr_record_label (record));
  else
    return TRUE;
  g_set_error_literal (error, FR_STORE_ERROR, code, sentence);
  return FALSE;
}

GPtrArray *
fr_store_load (FrStore *store, FrKindId kind_id, GError **error)
{
  const FrKind *kind = fr_kind (kind_id);
  g_return_val_if_fail (store != NULL && kind != NULL, NULL);

  g_autofree char *sql = fr_row_select_sql (kind, FALSE);
  g_autoptr (sqlite3_stmt) statement = fr_database_prepare (store->db, sql, error);
  if (statement == NULL)
    return NULL;

  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  int code;
  while ((code = sqlite3_step (statement)) == SQLITE_ROW)
    {
      FrRecord *record = fr_row_read (statement, kind);
      g_ptr_array_add (records, record);
      if (!check_record (record, FR_STORE_ERROR_NOT_A_BOOK, error))
        {
          g_prefix_error (error, _ ("The book “%s” holds something it cannot hold. "), store->db->path);
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

gint64
fr_store_next_id (FrStore *store, FrKindId kind_id, GError **error)
{
  const FrKind *kind = fr_kind (kind_id);
  g_return_val_if_fail (store != NULL && kind != NULL, 0);

  sqlite3_stmt *statement = row_statement (store, kind, ROW_NEXT, error);
  gint64 id = 0;
  if (statement == NULL)
    return 0;

  int code = sqlite3_step (statement);
  if (code == SQLITE_ROW)
    id = sqlite3_column_int64 (statement, 0);
  else
    fr_database_fail (store->db, code, error);
  sqlite3_reset (statement);
  return id;
}

/* What is stored under an id; NULL without @error when nothing is. */
static gboolean
read_one (FrStore *store, const FrKind *kind, gint64 id, FrRecord **record_out, GError **error)
{
  sqlite3_stmt *statement = row_statement (store, kind, ROW_ONE, error);
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

static const FrRecord *
step_record (const FrStep *step)
{
  return step->before != NULL ? step->before : step->after;
}

static gboolean
verify_before (FrStore *store, const FrStep *step, GError **error)
{
  const FrRecord *wanted = step_record (step);
  g_autoptr (FrRecord) stored = NULL;
  g_autofree char *number = NULL;

  if (!read_one (store, wanted->kind, wanted->id, &stored, error))
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
  RowStatement which = step->after == NULL ? ROW_REMOVE : step->before == NULL ? ROW_INSERT : ROW_UPDATE;
  sqlite3_stmt *statement = row_statement (store, step_record (step)->kind, which, error);
  if (statement == NULL)
    return FALSE;

  int code = which == ROW_REMOVE ? sqlite3_bind_int64 (statement, 1, step->before->id)
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

/* Every reference of a record leads to a stored one. */
static gboolean
verify_references (FrStore *store, const FrRecord *record, GError **error)
{
  for (guint i = 0; i < record->kind->n_fields; i++)
    {
      const FrField *field = &record->kind->fields[i];
      if (field->type != FR_FIELD_REF || fr_record_int (record, field) == 0)
        continue;
      g_autoptr (FrRecord) target = NULL;
      g_autofree char *number = NULL, *other = NULL;
      if (!read_one (store, fr_kind (field->ref_kind), fr_record_int (record, field), &target, error))
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

/* Nothing refers to a record that is gone. */
static gboolean
verify_unreferred (FrStore *store, const FrRecord *gone, GError **error)
{
  for (guint k = 0; k < FR_N_KINDS; k++)
    for (guint i = 0; i < fr_kind (k)->n_fields; i++)
      {
        const FrKind *kind = fr_kind (k);
        const FrField *field = &kind->fields[i];
        if (field->type != FR_FIELD_REF || field->ref_kind != gone->kind->id)
          continue;
        g_autofree char *sql
            = g_strdup_printf ("SELECT min (id) FROM \"%s\" WHERE \"%s\" = %" G_GINT64_FORMAT, kind->name,
                               field->name, gone->id);
        gint64 id;
        g_autoptr (FrRecord) referrer = NULL;
        if (!fr_database_int (store->db, sql, &id, error))
          return FALSE;
        if (id == 0)
          continue;
        if (!read_one (store, kind, id, &referrer, error))
          return FALSE;
        g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_REFUSED,
                     _ ("The %s “%s” cannot be deleted: the %s “%s” still refers to it. Archive it instead."),
                     fr_kind_words (gone->kind), fr_record_label (gone), fr_kind_words (kind),
                     fr_record_label (referrer));
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
      if (step->after != NULL ? !verify_references (store, step->after, error)
                              : !verify_unreferred (store, step->before, error))
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
      if (step_record (step)->kind == kind)
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
      const FrKind *kind = step_record (step)->kind;
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
      if (step->after != NULL && !check_record (step->after, FR_STORE_ERROR_REFUSED, error))
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
