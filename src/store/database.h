/* A thin layer over SQLite for this room alone: opening with the house's settings, statements, transactions,
 * and errors as sentences. Nothing here knows a record. */
#pragma once

#include <glib.h>
#include <sqlite3.h>

G_BEGIN_DECLS

/* "Frsb" in ASCII: marks the file as a book, so that another program's SQLite file is refused. */
#define FR_DATABASE_APPLICATION_ID 0x46727362

typedef struct
{
  sqlite3 *handle;
  char *path;
} FrDatabase;

/* Opens without writing a byte to an existing file; fr_database_settle follows once it is known to be a book.
 */
FrDatabase *
fr_database_open (const char *path, gboolean create, GError **error);
/* Write-ahead log, full synchronisation. */
gboolean
fr_database_settle (FrDatabase *db, GError **error);
void
fr_database_close (FrDatabase *db);

/* Turns SQLite's last answer into a GError that says what, where and what to do. Returns FALSE for chaining.
 */
gboolean
fr_database_fail (FrDatabase *db, int code, GError **error);

/* NULL and @error when the SQL cannot be compiled. */
sqlite3_stmt *
fr_database_prepare (FrDatabase *db, const char *sql, GError **error);
gboolean
fr_database_run (FrDatabase *db, const char *sql, GError **error);
/* The first column of the first row; 0 when there is no row or it is NULL. */
gboolean
fr_database_int (FrDatabase *db, const char *sql, gint64 *value_out, GError **error);

/* Takes the write lock at once, so that what is read afterwards stays true until the end. */
gboolean
fr_database_begin (FrDatabase *db, GError **error);
/* On failure the transaction is rolled back. */
gboolean
fr_database_commit (FrDatabase *db, GError **error);
void
fr_database_rollback (FrDatabase *db);

/* Copies the whole book into a new file beside it. */
gboolean
fr_database_back_up (FrDatabase *db, const char *to_path, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrDatabase, fr_database_close)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (sqlite3_stmt, sqlite3_finalize)

G_END_DECLS
