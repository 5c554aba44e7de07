/* A table whose columns are known only when all its rows are: cells are put by the name of their column, and only columns with something
 * in them need be written. */
#pragma once

#include "formats/csv.h"

G_BEGIN_DECLS

typedef struct
{
  GPtrArray *rows;  /* GHashTable: name of the column → cell */
  GHashTable *used; /* names of columns with something in them */
} FrCsvTable;

void
fr_csv_table_init (FrCsvTable *table);
void
fr_csv_table_clear (FrCsvTable *table);

/* Owned by the table. */
GHashTable *
fr_csv_table_add_row (FrCsvTable *table);
/* Takes @cell; NULL puts nothing. */
void
fr_csv_table_put (FrCsvTable *table, GHashTable *row, const char *column, char *cell);
gboolean
fr_csv_table_uses (const FrCsvTable *table, const char *column);
/* @columns: char *, those to write, in their order. Free it. */
char *
fr_csv_table_text (const FrCsvTable *table, const GPtrArray *columns);

G_END_DECLS
