/* Words of a table as the painter of sheets takes them. */
#pragma once

#include "paint/field-sheet.h"
#include "words/paper-words.h"

G_BEGIN_DECLS

/**
 * FrPaperTable:
 * @sheet: title, sentence, columns, cells and headings are filled; the rest is the caller's
 */
typedef struct
{
  FrFieldColumn *columns;
  GPtrArray *titles;
  FrFieldSheet sheet;
} FrPaperTable;

/* @words is borrowed until the table is cleared, @say for the call. */
void
fr_paper_table_init (FrPaperTable *table, const FrPaperWords *words, const FrSay *say);
void
fr_paper_table_clear (FrPaperTable *table);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrPaperTable, fr_paper_table_clear)

G_END_DECLS
