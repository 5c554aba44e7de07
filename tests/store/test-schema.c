/* The hand-written tables are what the descriptions of the kinds say, column for column, and the connection
 * has the house's settings. The outside check is SQLite's own account of its tables. */
#include "book-tools.h"

#include "store/schema.h"

static void
assert_column (sqlite3_stmt *columns, const char *name, const char *type, gboolean not_null)
{
  g_assert_cmpint (sqlite3_step (columns), ==, SQLITE_ROW);
  g_assert_cmpstr ((const char *)sqlite3_column_text (columns, 0), ==, name);
  g_assert_cmpstr ((const char *)sqlite3_column_text (columns, 1), ==, type);
  g_assert_cmpint (sqlite3_column_int (columns, 2), ==, not_null);
}

static void
assert_field (FrStore *store, sqlite3_stmt *columns, const FrKind *kind, const FrField *field)
{
  g_autofree char *typed = g_strconcat (field->name, "_typed", NULL);

  switch (field->type)
    {
    case FR_FIELD_TEXT:
    case FR_FIELD_DATE:
      assert_column (columns, field->name, "TEXT", field->required);
      break;
    case FR_FIELD_CODE:
      assert_column (columns, field->name, "TEXT", TRUE);
      break;
    case FR_FIELD_AMOUNT:
      assert_column (columns, field->name, "REAL", field->required);
      assert_column (columns, typed, "TEXT", FALSE);
      break;
    case FR_FIELD_BOOL:
      assert_column (columns, field->name, "INTEGER", TRUE);
      break;
    case FR_FIELD_TIME:
      assert_column (columns, field->name, "INTEGER", field->required);
      break;
    case FR_FIELD_REF:
      {
        assert_column (columns, field->name, "INTEGER", field->required);
        g_autofree char *key
            = g_strdup_printf ("SELECT count (*) FROM pragma_foreign_key_list ('%s') WHERE \"from\" = '%s'"
                               " AND \"table\" = '%s' AND \"to\" = 'id'",
                               kind->name, field->name, fr_kind (field->ref_kind)->name);
        g_assert_cmpint (tools_number (store, key), ==, 1);
        break;
      }
    }
}

static void
test_columns (gconstpointer data)
{
  const FrKind *kind = fr_kind (GPOINTER_TO_INT (data));
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autofree char *sql = g_strdup_printf (
      "SELECT name, type, \"notnull\" FROM pragma_table_xinfo ('%s') ORDER BY cid", kind->name);
  g_autoptr (sqlite3_stmt) columns = fr_database_prepare (fr_store_database (store), sql, NULL);

  assert_column (columns, "id", "INTEGER", FALSE);
  assert_column (columns, "uid", "TEXT", TRUE);
  assert_column (columns, "archived", "INTEGER", TRUE);
  for (guint i = 0; i < kind->n_fields; i++)
    assert_field (store, columns, kind, &kind->fields[i]);
  g_assert_cmpint (sqlite3_step (columns), ==, SQLITE_DONE);

  g_autofree char *strict = g_strdup_printf (
      "SELECT strict FROM pragma_table_list WHERE schema = 'main' AND name = '%s'", kind->name);
  g_assert_cmpint (tools_number (store, strict), ==, 1);
}

/* Each code of the description passes the table's own check; a stranger, a word for a number and a 2 for yes
 * do not. */
static void
test_codes (gconstpointer data)
{
  const FrKind *kind = fr_kind (GPOINTER_TO_INT (data));
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrChange) book = sample_book (1);
  tools_apply (store, book);

  for (guint i = 0; i < kind->n_fields; i++)
    {
      const FrField *field = &kind->fields[i];
      for (guint j = 0; field->codes != NULL && field->codes[j] != NULL; j++)
        {
          g_autofree char *sql
              = g_strdup_printf ("UPDATE \"%s\" SET \"%s\" = '%s'", kind->name, field->name, field->codes[j]);
          g_assert_true (tools_force (store, sql));
          g_assert_cmpint (sqlite3_changes (fr_store_database (store)->handle), ==, 1);
        }
      const char *bad = field->type == FR_FIELD_BOOL ? "2" : "'stranger'";
      g_autofree char *sql = g_strdup_printf ("UPDATE \"%s\" SET \"%s\" = %s", kind->name, field->name, bad);
      if (field->type != FR_FIELD_TEXT)
        g_assert_false (tools_force (store, sql));
    }
  g_autofree char *uid = g_strdup_printf ("UPDATE \"%s\" SET uid = '0123'", kind->name);
  g_assert_false (tools_force (store, uid));
}

static void
test_connection (void)
{
  g_autofree char *folder = tools_new_folder ();
  g_autofree char *path = g_build_filename (folder, "book.frostrun", NULL);
  g_autoptr (FrStore) store = tools_open (path);

  g_assert_cmpint (tools_number (store, "PRAGMA foreign_keys"), ==, 1);
  g_assert_cmpint (tools_number (store, "PRAGMA synchronous"), ==, 2);
  g_assert_cmpint (tools_number (store, "PRAGMA trusted_schema"), ==, 0);
  g_assert_cmpint (tools_number (store, "PRAGMA busy_timeout"), ==, 3000);
  g_assert_cmpint (tools_number (store, "PRAGMA application_id"), ==, FR_DATABASE_APPLICATION_ID);
  g_assert_cmpint (tools_number (store, "PRAGMA user_version"), ==, FR_SCHEMA_VERSION);
  g_autoptr (sqlite3_stmt) mode
      = fr_database_prepare (fr_store_database (store), "PRAGMA journal_mode", NULL);
  g_assert_cmpint (sqlite3_step (mode), ==, SQLITE_ROW);
  g_assert_cmpstr ((const char *)sqlite3_column_text (mode, 0), ==, "wal");
  sqlite3_finalize (g_steal_pointer (&mode));
  /* A defensive connection does not let its schema be written as a table. */
  g_assert_cmpint (sqlite3_exec (fr_store_database (store)->handle,
                                 "PRAGMA writable_schema = ON; DELETE FROM sqlite_schema", NULL, NULL, NULL),
                   !=, SQLITE_OK);
  fr_store_close (g_steal_pointer (&store));
  tools_remove_folder (folder);
}

static void
test_diary_only_grows (void)
{
  static const char *const attempts[] = {
    "DELETE FROM diary",
    "UPDATE diary SET label = 'x'",
    "UPDATE diary SET id = id + 10",
    "INSERT OR REPLACE INTO diary (id, utc_s, label, origin, steps) VALUES (1, 0, 'x', 'cli', '[]')",
    "REPLACE INTO diary (id, utc_s, label, origin, steps) VALUES (1, 0, 'x', 'cli', '[]')",
    "INSERT INTO diary (utc_s, label, origin, steps) VALUES (0, 'x', 'cli', '[')",
    "INSERT INTO diary (utc_s, label, origin, steps) VALUES (0, 'x', 'elsewhere', '[]')",
  };
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrChange) book = sample_book (1);
  tools_apply (store, book);
  for (guint i = 0; i < G_N_ELEMENTS (attempts); i++)
    {
      g_assert_false (tools_force (store, attempts[i]));
      g_assert_cmpint (tools_number (store, "SELECT count (*) FROM diary"), ==, 1);
      g_assert_cmpint (
          tools_number (store, "SELECT count (*) FROM diary WHERE label = 'import-book' AND id = 1"), ==, 1);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (int kind = 0; kind < FR_N_KINDS; kind++)
    {
      g_autofree char *columns = g_strdup_printf ("/schema/columns/%s", fr_kind (kind)->name);
      g_autofree char *codes = g_strdup_printf ("/schema/codes/%s", fr_kind (kind)->name);
      g_test_add_data_func (columns, GINT_TO_POINTER (kind), test_columns);
      g_test_add_data_func (codes, GINT_TO_POINTER (kind), test_codes);
    }
  g_test_add_func ("/schema/connection", test_connection);
  g_test_add_func ("/schema/diary-only-grows", test_diary_only_grows);
  return g_test_run ();
}
