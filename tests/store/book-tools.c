/* Helpers of the store's tests. Books are compared record by record through fr_record_equal, whose reach over
 * every field is checked in tests/domain/test-record.c. */
#include "book-tools.h"

#include <glib/gstdio.h>
#include <string.h>

char *
tools_new_folder (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("frostrun-store-XXXXXX", &error);
  g_assert_no_error (error);
  return folder;
}

void
tools_remove_folder (const char *folder)
{
  g_autoptr (GError) error = NULL;
  GDir *dir = g_dir_open (folder, 0, &error);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        tools_remove_folder (path);
      else
        g_assert_cmpint (g_unlink (path), ==, 0);
    }
  g_dir_close (dir);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

FrStore *
tools_open (const char *path)
{
  g_autoptr (GError) error = NULL;
  FrStore *store = fr_store_open (path, TRUE, &error);
  g_assert_no_error (error);
  g_assert_nonnull (store);
  g_assert_cmpstr (fr_store_path (store), ==, path);
  return store;
}

void
tools_apply (FrStore *store, const FrChange *change)
{
  g_autoptr (GError) error = NULL;
  gboolean ok = fr_store_apply (store, change, FR_ORIGIN_WINDOW, NOW_UTC, &error);
  g_assert_no_error (error);
  g_assert_true (ok);
}

void
tools_assert_sentence (const GError *error, FrStoreError code)
{
  g_assert_nonnull (error);
  g_test_message ("%s", error->message);
  g_assert_error (error, FR_STORE_ERROR, (int)code);
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_true (g_str_has_suffix (error->message, "."));
  g_assert_cmpuint (strlen (error->message), >, 15);
}

void
tools_refuse (FrStore *store, const FrChange *change, FrStoreError code)
{
  g_autoptr (GPtrArray) before = tools_snapshot (store);
  gint64 diary = tools_number (store, "SELECT count (*) FROM diary");
  g_autoptr (GError) error = NULL;
  g_assert_false (fr_store_apply (store, change, FR_ORIGIN_WINDOW, NOW_UTC, &error));
  tools_assert_sentence (error, code);

  /* Nothing of it was kept, no transaction is left open. */
  g_autoptr (GPtrArray) after = tools_snapshot (store);
  tools_assert_same (before, after);
  g_assert_cmpint (tools_number (store, "SELECT count (*) FROM diary"), ==, diary);
  g_assert_true (sqlite3_get_autocommit (fr_store_database (store)->handle));
}

void
tools_refuse_open (const char *path, gboolean create, FrStoreError code)
{
  g_autoptr (GError) error = NULL;
  g_assert_null (fr_store_open (path, create, &error));
  tools_assert_sentence (error, code);
}

gint64
tools_number (FrStore *store, const char *sql)
{
  g_autoptr (GError) error = NULL;
  gint64 value;
  fr_database_int (fr_store_database (store), sql, &value, &error);
  g_assert_no_error (error);
  return value;
}

gboolean
tools_force (FrStore *store, const char *sql)
{
  sqlite3 *handle = fr_store_database (store)->handle;
  int code = sqlite3_exec (handle, sql, NULL, NULL, NULL) & 0xff;
  if (code != SQLITE_OK && code != SQLITE_CONSTRAINT)
    g_error ("%s: %s", sql, sqlite3_errmsg (handle));
  return code == SQLITE_OK;
}

FrRecord *
tools_find (FrStore *store, FrKindId kind, gint64 id)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) records = fr_store_load (store, kind, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < records->len; i++)
    {
      const FrRecord *record = g_ptr_array_index (records, i);
      if (record->id == id)
        return fr_record_copy (record);
    }
  return NULL;
}

FrChange *
tools_edit (FrStore *store, FrKindId kind, gint64 id, const char *field, double value)
{
  g_autoptr (FrRecord) before = tools_find (store, kind, id);
  g_assert_nonnull (before);
  g_autoptr (FrRecord) after = fr_record_copy (before);
  fr_record_set_amount (after, fr_kind_field (after->kind, field), value, NULL);
  FrChange *change = fr_change_new ("edit", fr_record_label (before));
  fr_change_add (change, before, after);
  return change;
}

GPtrArray *
tools_snapshot (FrStore *store)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
  for (int kind = 0; kind < FR_N_KINDS; kind++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) records = fr_store_load (store, kind, &error);
      g_assert_no_error (error);
      for (guint i = 0; i < records->len; i++)
        g_ptr_array_add (all, fr_record_copy (g_ptr_array_index (records, i)));
    }
  return all;
}

void
tools_assert_same (GPtrArray *a, GPtrArray *b)
{
  g_assert_cmpuint (a->len, ==, b->len);
  for (guint i = 0; i < a->len; i++)
    g_assert_true (fr_record_equal (g_ptr_array_index (a, i), g_ptr_array_index (b, i)));
}
