/* Versions of the book. PRAGMA user_version counts them; numbered scripts lead from one to the next, each in
 * a transaction of its own, so that a step either happened or did not. Before the first step of an older book
 * a copy is kept beside it under a name that says so. */
#include "store/schema.h"
#include "store/store.h"
#include "store/store-sql.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>

char *
fr_schema_script (guint version)
{
  g_autofree char *name = g_strdup_printf ("/org/frostrun/store/version-%03u.sql", version);
  /* Asked for by its getter: a constructor in a static library may be left out by the linker. */
  g_autoptr (GBytes) bytes
      = g_resource_lookup_data (fr_store_sql_get_resource (), name, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  g_return_val_if_fail (bytes != NULL, NULL);

  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);
  return g_strndup (data, length);
}

/* Version 0 is an empty file. Anything else without our mark belongs to someone else. */
static gboolean
identify (FrDatabase *db, gint64 latest, gint64 *version_out, GError **error)
{
  gint64 mark, n_objects;

  if (!fr_database_int (db, "PRAGMA application_id", &mark, error)
      || !fr_database_int (db, "PRAGMA user_version", version_out, error)
      || !fr_database_int (db, "SELECT count (*) FROM sqlite_schema", &n_objects, error))
    return FALSE;
  if (mark == 0 && *version_out == 0 && n_objects == 0)
    return TRUE;
  if (mark != FR_DATABASE_APPLICATION_ID || *version_out < 1)
    return fr_database_fail (db, SQLITE_NOTADB, error);
  if (*version_out > latest)
    {
      g_set_error (
          error, FR_STORE_ERROR, FR_STORE_ERROR_NEWER,
          _ ("The book “%s” was written by a newer version of this program (book version %d, this program "
             "knows up to %d). Update the program; the book was left as it is."),
          db->path, (int)*version_out, (int)latest);
      return FALSE;
    }
  return TRUE;
}

static gboolean
keep_copy (FrDatabase *db, gint64 version, GError **error)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *day = g_date_time_format (now, "%Y%m%d");
  g_autofree char *path = g_strdup_printf ("%s.before-v%" G_GINT64_FORMAT "-%s", db->path, version, day);

  /* An earlier copy is never written over. */
  for (int i = 2; g_file_test (path, G_FILE_TEST_EXISTS); i++)
    {
      g_free (path);
      path = g_strdup_printf ("%s.before-v%" G_GINT64_FORMAT "-%s-%d", db->path, version, day, i);
    }
  return fr_database_back_up (db, path, error);
}

static gboolean
take_step (FrDatabase *db, gint64 version, const char *script, GError **error)
{
  g_autofree char *mark
      = g_strdup_printf ("PRAGMA application_id = %d; PRAGMA user_version = %" G_GINT64_FORMAT,
                         FR_DATABASE_APPLICATION_ID, version);
  gint64 found, broken;

  if (!fr_database_begin (db, error))
    return FALSE;
  if (!fr_database_int (db, "PRAGMA user_version", &found, error))
    goto failed;
  /* Another program may have taken the step while this one waited. */
  if (found >= version)
    return fr_database_commit (db, error);
  if (!fr_database_run (db, script, error) || !fr_database_run (db, mark, error)
      || !fr_database_int (db, "SELECT count (*) FROM pragma_foreign_key_check", &broken, error))
    goto failed;
  if (broken > 0)
    {
      g_set_error (
          error, FR_STORE_ERROR, FR_STORE_ERROR_FAILED,
          _ ("The book “%s” cannot be brought to version %d: records refer to others that are missing."),
          db->path, (int)version);
      goto failed;
    }
  return fr_database_commit (db, error);

failed:
  fr_database_rollback (db);
  return FALSE;
}

gboolean
fr_schema_bring_up_with (FrDatabase *db, gboolean create, const char *const *scripts, GError **error)
{
  gint64 latest = g_strv_length ((char **)scripts);
  gint64 version;

  if (!identify (db, latest, &version, error))
    return FALSE;
  if (version == 0 && !create)
    return fr_database_fail (db, SQLITE_NOTADB, error);
  if (!fr_database_settle (db, error))
    return FALSE;
  if (version == latest)
    return TRUE;
  if (version > 0 && !keep_copy (db, version + 1, error))
    return FALSE;

  /* A script may rebuild a table that others refer to; take_step looks at the references afterwards. */
  if (!fr_database_run (db, "PRAGMA foreign_keys = OFF", error))
    return FALSE;
  for (; version < latest; version++)
    if (!take_step (db, version + 1, scripts[version], error))
      return FALSE;
  return fr_database_run (db, "PRAGMA foreign_keys = ON", error);
}

gboolean
fr_schema_bring_up (FrDatabase *db, gboolean create, GError **error)
{
  g_auto (GStrv) scripts = g_new0 (char *, FR_SCHEMA_VERSION + 1);

  for (guint i = 0; i < FR_SCHEMA_VERSION; i++)
    scripts[i] = fr_schema_script (i + 1);
  return fr_schema_bring_up_with (db, create, (const char *const *)scripts, error);
}
