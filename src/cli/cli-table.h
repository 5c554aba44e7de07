/* Words of a table as the painter of sheets takes them. */
#pragma once

#include "paint/field-sheet.h"
#include "words/paper-words.h"

G_BEGIN_DECLS

/**
 * FrCliTable:
 * @sheet: title, sentence, columns, cells and headings are filled; the rest is the caller's
 */
typedef struct
{
  FrFieldColumn *columns;
  GPtrArray *titles;
  FrFieldSheet sheet;
} FrCliTable;

/* @words is borrowed until the table is cleared, @say for the call. */
void
fr_cli_table_init (FrCliTable *table, const FrPaperWords *words, const FrSay *say);
void
fr_cli_table_clear (FrCliTable *table);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrCliTable, fr_cli_table_clear)

G_END_DECLS
