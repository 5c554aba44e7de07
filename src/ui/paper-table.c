/* Columns of words and of paint, one by one. */
#include "ui/paper-table.h"

static const FrFieldSheetKind kinds[] = { [FR_PAPER_NUMBER] = FR_FIELD_SHEET_NUMBER,
                                          [FR_PAPER_TEXT] = FR_FIELD_SHEET_TEXT,
                                          [FR_PAPER_BOX] = FR_FIELD_SHEET_BOX };

void
fr_paper_table_init (FrPaperTable *table, const FrPaperWords *words, const FrSay *say)
{
  table->titles = g_ptr_array_new_with_free_func (g_free);
  table->columns = g_new0 (FrFieldColumn, words->n_columns);
  for (guint i = 0; i < words->n_columns; i++)
    {
      g_ptr_array_add (table->titles, fr_paper_column_title (&words->columns[i], say));
      table->columns[i] = (FrFieldColumn){ .title = table->titles->pdata[i],
                                           .kind = kinds[words->columns[i].kind],
                                           .share_ratio = words->columns[i].share_ratio };
    }
  table->sheet = (FrFieldSheet){ .title = words->title,
                                 .sentence = words->sentence,
                                 .columns = table->columns,
                                 .n_columns = words->n_columns,
                                 .cells = (const char *const *)words->cells->pdata,
                                 .headings = (const char *const *)words->headings->pdata,
                                 .n_rows = words->n_rows };
}

void
fr_paper_table_clear (FrPaperTable *table)
{
  g_clear_pointer (&table->columns, g_free);
  g_clear_pointer (&table->titles, g_ptr_array_unref);
}
