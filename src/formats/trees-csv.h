/* Trees with their girths, taps and seasons as one table: the column "record" says which of the four a row
 * is, and each column's name has its unit. Reading takes any of the columns in any order; without "record"
 * every row is a tree. The columns are listed in docs/files.md; others are kept with their tree and come
 * back. */
#pragma once

#include "domain/plan/arrivals.h"
#include "formats/csv.h"

G_BEGIN_DECLS

#define FR_TREES_CSV_TREES_MAX 20000

/* NULL with a sentence that names the line. */
FrArrivals *
fr_trees_csv_read (const char *text, gsize length, GError **error);

/* All trees, those put away too, each followed by its history. Free it. */
char *
fr_trees_csv_write (const FrBushBook *book);

G_END_DECLS
