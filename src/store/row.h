/* A record and a row of its kind's table, by description: columns id, uid, archived, then one a field in
 * order, and for an amount a second one named NAME_typed. Unknown is NULL on disk. */
#pragma once

#include "domain/records/record.h"
#include "store/database.h"

G_BEGIN_DECLS

/* Column names in quotes, comma between, in binding order. Free it. */
char *
fr_row_columns (const FrKind *kind);

typedef enum
{
  FR_SELECT_ALL,  /* by id */
  FR_SELECT_ONE,  /* takes an id */
  FR_SELECT_SPAN  /* takes the first and the last instant or day, both included; in no order */
} FrSelect;

/* SQL for one kind; free it. Insert takes fr_row_bind's arguments; update the same and finds the row by its
 * first; remove takes an id. */
char *
fr_row_select_sql (const FrKind *kind, FrSelect which);
char *
fr_row_insert_sql (const FrKind *kind);
char *
fr_row_update_sql (const FrKind *kind);
char *
fr_row_remove_sql (const FrKind *kind);

/* SQLite's code. The texts are borrowed until the statement is reset. */
int
fr_row_bind (sqlite3_stmt *statement, const FrRecord *record);
FrRecord *
fr_row_read (sqlite3_stmt *statement, const FrKind *kind);

/* Some fields alone, names ending in NULL, of a stretch of time in its order; takes what FR_SELECT_SPAN takes. Free
 * it. */
char *
fr_row_part_sql (const FrKind *kind, const char *const *fields);
/* Such a row into a record that is there: number, put away or not, and the fields, ending in NULL; the rest of it
 * stays. */
void
fr_row_read_part (sqlite3_stmt *statement, const FrField *const *fields, FrRecord *record);

G_END_DECLS
