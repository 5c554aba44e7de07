/* Rows as maps from column to cell. */
#include "formats/csv-table.h"

void
fr_csv_table_init (FrCsvTable *table)
{
  table->rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_hash_table_unref);
  table->used = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

void
fr_csv_table_clear (FrCsvTable *table)
{
  g_clear_pointer (&table->rows, g_ptr_array_unref);
  g_clear_pointer (&table->used, g_hash_table_unref);
}

GHashTable *
fr_csv_table_add_row (FrCsvTable *table)
{
  GHashTable *row = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  g_ptr_array_add (table->rows, row);
  return row;
}

void
fr_csv_table_put (FrCsvTable *table, GHashTable *row, const char *column, char *cell)
{
  if (cell == NULL)
    return;
  g_hash_table_insert (row, g_strdup (column), cell);
  g_hash_table_add (table->used, g_strdup (column));
}

gboolean
fr_csv_table_uses (const FrCsvTable *table, const char *column)
{
  return g_hash_table_contains (table->used, column);
}

char *
fr_csv_table_text (const FrCsvTable *table, const GPtrArray *columns)
{
  g_autofree const char **cells = g_new0 (const char *, columns->len);
  g_autoptr (GPtrArray) heads = g_ptr_array_new_with_free_func (g_free);
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < columns->len; i++)
    g_ptr_array_add (heads, fr_csv_guard (columns->pdata[i]));
  fr_csv_append_row (out, (const char *const *)heads->pdata, columns->len);
  for (guint k = 0; k < table->rows->len; k++)
    {
      for (guint i = 0; i < columns->len; i++)
        cells[i] = g_hash_table_lookup (table->rows->pdata[k], columns->pdata[i]);
      fr_csv_append_row (out, cells, columns->len);
    }
  return g_string_free (out, FALSE);
}
