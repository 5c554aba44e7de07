/* SQLite with the house's settings: foreign keys held, schema not trusted, a defensive connection, three
 * seconds of patience with another program, write-ahead log with full synchronisation, so that what was
 * acknowledged survives a kill and a power cut. Errors name the file and what a person can do about it;
 * SQLite's own words follow only where nothing better is known. */
#include "store/database.h"
#include "store/own-locks.h"
#include "store/store.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>

#define PATIENCE_MS 3000

G_DEFINE_QUARK (fr - store - error - quark, fr_store_error)

static gboolean
is_memory (const char *path)
{
  return strcmp (path, ":memory:") == 0;
}

static void
set_cannot_open (const char *path, int system_error, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);

  if (g_file_test (path, G_FILE_TEST_IS_DIR))
    g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_CANNOT_OPEN,
                 _ ("“%s” is a folder. Choose the book’s file inside it."), path);
  else if (!g_file_test (folder, G_FILE_TEST_IS_DIR))
    g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_CANNOT_OPEN,
                 _ ("The book “%s” cannot be opened: there is no folder “%s”."), path, folder);
  else if (system_error == EROFS)
    g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_READ_ONLY,
                 _ ("The book “%s” cannot be kept: its disk can only be read. Choose another place for it."),
                 path);
  else if (system_error == EACCES || system_error == EPERM)
    g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_CANNOT_OPEN,
                 _ ("The book “%s” cannot be opened: this user may not read and write in “%s”. Change the "
                    "permissions or choose another place."),
                 path, folder);
  else if (system_error == ENOENT)
    g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_CANNOT_OPEN, _ ("There is no book “%s”."), path);
  else
    g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_CANNOT_OPEN, _ ("The book “%s” cannot be opened: %s."),
                 path,
                 system_error != 0 ? g_strerror (system_error) : _ ("it is no file that can be opened"));
}

gboolean
fr_database_fail (FrDatabase *db, int code, GError **error)
{
  int system_error = sqlite3_system_errno (db->handle);
  int primary = code & 0xff;
  /* SQLite quotes what it read, and from a damaged file that may be no text. */
  g_autofree char *own_words = g_utf8_make_valid (sqlite3_errmsg (db->handle), -1);

  if (primary == SQLITE_IOERR && (system_error == ENOSPC || system_error == EDQUOT))
    primary = SQLITE_FULL;
  switch (primary)
    {
    case SQLITE_FULL:
      g_set_error (
          error, FR_STORE_ERROR, FR_STORE_ERROR_FULL,
          _ ("There is no room left on the disk that holds “%s”. Nothing of this change was kept. Free some "
             "space and try again."),
          db->path);
      break;
    case SQLITE_READONLY:
    case SQLITE_PERM:
      g_set_error (
          error, FR_STORE_ERROR, FR_STORE_ERROR_READ_ONLY,
          _ ("The book “%s” can only be read here, so nothing can be kept in it. Copy it to a folder of "
             "yours, or change its permissions."),
          db->path);
      break;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_BUSY,
                   _ ("Another program is writing to the book “%s”. Nothing was changed. Wait a moment and "
                      "try again."),
                   db->path);
      break;
    case SQLITE_CORRUPT:
      g_set_error (
          error, FR_STORE_ERROR, FR_STORE_ERROR_NOT_A_BOOK,
          _ ("The book “%s” is damaged (%s). Go back to a copy of it; copies made by this program lie beside "
             "it and have “before” in their name."),
          db->path, own_words);
      break;
    case SQLITE_NOTADB:
      g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_NOT_A_BOOK,
                   _ ("“%s” is not a book of this program. It was left as it is."), db->path);
      break;
    case SQLITE_CANTOPEN:
      set_cannot_open (db->path, system_error, error);
      break;
    case SQLITE_CONSTRAINT:
      g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_REFUSED,
                   _ ("The book “%s” does not take this change (%s). Nothing of it was kept."), db->path,
                   own_words);
      break;
    default:
      g_set_error (
          error, FR_STORE_ERROR, FR_STORE_ERROR_FAILED,
          _ ("The book “%s” could not be read or written (%s). What was kept before is still there."),
          db->path, own_words);
      break;
    }
  return FALSE;
}

/* A folder is made for the book in the data folder of a new user; nowhere else is one missing by rights. */
static gboolean
make_folder (const char *path, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);

  if (g_mkdir_with_parents (folder, 0700) == 0)
    return TRUE;
  int code = errno;
  g_set_error (error, FR_STORE_ERROR, code == EROFS ? FR_STORE_ERROR_READ_ONLY : FR_STORE_ERROR_CANNOT_OPEN,
               _ ("The folder “%s” for the book cannot be made: %s."), folder, g_strerror (code));
  return FALSE;
}

/* Made here and not by SQLite, which answers a disk that cannot be written with "no such file". Only a file
 * that is not there is touched: opening and closing one that SQLite holds would drop its locks. */
static gboolean
make_file (const char *path, GError **error)
{
  int fd = g_open (path, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
  if (fd >= 0)
    return g_close (fd, error);
  if (errno == EEXIST)
    return TRUE;
  set_cannot_open (path, errno, error);
  return FALSE;
}

FrDatabase *
fr_database_open (const char *path, gboolean create, GError **error)
{
  int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE | (create ? SQLITE_OPEN_CREATE : 0);
  sqlite3 *handle = NULL;

  if (*path == '\0')
    {
      g_set_error_literal (error, FR_STORE_ERROR, FR_STORE_ERROR_CANNOT_OPEN, _ ("No book was named."));
      return NULL;
    }
  if (is_memory (path))
    flags |= SQLITE_OPEN_CREATE;
  else if (create && (!make_folder (path, error) || !make_file (path, error)))
    return NULL;

  fr_own_locks_begin ();
  int code = sqlite3_open_v2 (path, &handle, flags, NULL);
  if (handle == NULL)
    g_error ("out of memory");
  g_autoptr (FrDatabase) db = g_new0 (FrDatabase, 1);
  db->handle = handle;
  db->path = g_strdup (path);
  if (code == SQLITE_OK)
    code = sqlite3_busy_timeout (handle, PATIENCE_MS);
  if (code == SQLITE_OK)
    code = sqlite3_db_config (handle, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
  if (code == SQLITE_OK)
    code = sqlite3_db_config (handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
  if (code == SQLITE_OK)
    code = sqlite3_db_config (handle, SQLITE_DBCONFIG_ENABLE_FKEY, 1, NULL);
  if (code == SQLITE_OK)
    code = sqlite3_db_config (handle, SQLITE_DBCONFIG_DQS_DML, 0, NULL);
  if (code != SQLITE_OK)
    {
      fr_database_fail (db, code, error);
      return NULL;
    }
  /* SQLite opens a file it may not write as readable and would say so only at the first change. */
  if (sqlite3_db_readonly (handle, "main") == 1)
    {
      fr_database_fail (db, SQLITE_READONLY, error);
      return NULL;
    }
  return g_steal_pointer (&db);
}

gboolean
fr_database_settle (FrDatabase *db, GError **error)
{
  /* Where the file system cannot share memory SQLite stays with its rollback journal, which is as safe. */
  return fr_database_run (db, "PRAGMA journal_mode = WAL", error)
         && fr_database_run (db, "PRAGMA synchronous = FULL", error)
         && fr_database_run (db, "PRAGMA cell_size_check = ON", error);
}

void
fr_database_close (FrDatabase *db)
{
  if (db == NULL)
    return;
  int code = sqlite3_close (db->handle);
  g_warn_if_fail (code == SQLITE_OK);
  g_free (db->path);
  g_free (db);
}

sqlite3_stmt *
fr_database_prepare (FrDatabase *db, const char *sql, GError **error)
{
  sqlite3_stmt *statement = NULL;
  int code = sqlite3_prepare_v2 (db->handle, sql, -1, &statement, NULL);
  if (code != SQLITE_OK)
    fr_database_fail (db, code, error);
  return statement;
}

gboolean
fr_database_run (FrDatabase *db, const char *sql, GError **error)
{
  int code = sqlite3_exec (db->handle, sql, NULL, NULL, NULL);
  return code == SQLITE_OK || fr_database_fail (db, code, error);
}

gboolean
fr_database_int (FrDatabase *db, const char *sql, gint64 *value_out, GError **error)
{
  g_autoptr (sqlite3_stmt) statement = fr_database_prepare (db, sql, error);

  *value_out = 0;
  if (statement == NULL)
    return FALSE;
  int code = sqlite3_step (statement);
  if (code == SQLITE_ROW)
    *value_out = sqlite3_column_int64 (statement, 0);
  else if (code != SQLITE_DONE)
    return fr_database_fail (db, code, error);
  return TRUE;
}

gboolean
fr_database_begin (FrDatabase *db, GError **error)
{
  return fr_database_run (db, "BEGIN IMMEDIATE", error);
}

gboolean
fr_database_commit (FrDatabase *db, GError **error)
{
  if (fr_database_run (db, "COMMIT", error))
    return TRUE;
  fr_database_rollback (db);
  return FALSE;
}

void
fr_database_rollback (FrDatabase *db)
{
  /* A full disk may have ended the transaction already. */
  if (sqlite3_get_autocommit (db->handle))
    return;
  int code = sqlite3_exec (db->handle, "ROLLBACK", NULL, NULL, NULL);
  if (code != SQLITE_OK && !sqlite3_get_autocommit (db->handle))
    g_warning ("%s: %s", db->path, sqlite3_errmsg (db->handle));
}

gboolean
fr_database_back_up (FrDatabase *db, const char *to_path, GError **error)
{
  g_autofree char *part = g_strconcat (to_path, ".part", NULL);
  g_autoptr (FrDatabase) copy = g_new0 (FrDatabase, 1);

  copy->path = g_strdup (part);
  g_unlink (part);
  int code = sqlite3_open_v2 (part, &copy->handle,
                              SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_EXRESCODE, NULL);
  if (code == SQLITE_OK)
    {
      sqlite3_backup *backup = sqlite3_backup_init (copy->handle, "main", db->handle, "main");
      if (backup != NULL)
        sqlite3_backup_step (backup, -1);
      if (backup != NULL)
        sqlite3_backup_finish (backup);
      code = sqlite3_extended_errcode (copy->handle);
    }
  if (code == SQLITE_OK)
    code = sqlite3_exec (copy->handle, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL);
  if (code != SQLITE_OK)
    {
      fr_database_fail (copy, code, error);
      g_unlink (part);
      return FALSE;
    }
  fr_database_close (g_steal_pointer (&copy));
  /* Only a whole copy gets the name. */
  if (g_rename (part, to_path) == 0)
    return TRUE;
  int system_error = errno;
  g_set_error (error, FR_STORE_ERROR, FR_STORE_ERROR_FAILED,
               _ ("The copy “%s” of the book cannot be made: %s."), to_path, g_strerror (system_error));
  g_unlink (part);
  return FALSE;
}
