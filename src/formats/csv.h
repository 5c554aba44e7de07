/* Rows of cells, RFC 4180: quotes, line breaks within quotes, CR LF or LF. UTF-8, with or without a mark of
 * the byte order. The separator, a comma, a semicolon or a tab, is the one found most often in the first row.
 */
#pragma once

#include "formats/input-error.h"

G_BEGIN_DECLS

#define FR_CSV_SIZE_MAX (20 * 1024 * 1024)
#define FR_CSV_ROWS_MAX 200000
#define FR_CSV_COLUMNS_MAX 500
#define FR_CSV_CELLS_MAX 4000000

typedef struct
{
  guint line;       /* where it begins, from 1 */
  GPtrArray *cells; /* char *; as they stand between separators, quotes undone */
} FrCsvRow;

/* FrCsvRow, without blank ones. NULL with a sentence that names the line. */
GPtrArray *
fr_csv_read (const char *text, gsize length, GError **error);

/* Appends a row with commas and CR LF; NULL is an empty cell. */
void
fr_csv_append_row (GString *out, const char *const *cells, guint n);

/* A text that a spreadsheet would run as a formula gets an apostrophe before it, as does one that begins with
 * apostrophes and then would; and back. Free them. */
char *
fr_csv_guard (const char *text);
char *
fr_csv_unguard (const char *cell);

/* "yes", "true", "x", "1" and their like, in any case; FALSE when it is neither. */
gboolean
fr_csv_read_yes (const char *cell, gboolean *yes_out);

G_END_DECLS
