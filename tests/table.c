/* Reading of check tables. Strict on purpose: see table.h. */
#include "table.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void
row_free (gpointer data)
{
  TestRow *row = data;

  g_free (row->file);
  g_strfreev (row->names);
  g_strfreev (row->cells);
  g_free (row);
}

static char **
split_cells (const char *line)
{
  char **cells = g_strsplit (line, ",", -1);

  for (guint i = 0; cells[i] != NULL; i++)
    g_strstrip (cells[i]);
  return cells;
}

static gboolean
names_are_sound (char **names)
{
  for (guint i = 0; names[i] != NULL; i++)
    {
      if (names[i][0] == '\0')
        return FALSE;
      for (guint j = 0; j < i; j++)
        if (strcmp (names[i], names[j]) == 0)
          return FALSE;
    }
  return names[0] != NULL;
}

static gboolean
head_is_complete (const char *head, const char *file, char **problem_out)
{
  static const char *const words[] = { "source", "unit", "tolerance" };
  g_autofree char *lower = g_ascii_strdown (head, -1);

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (strstr (lower, words[i]) == NULL)
      {
        *problem_out = g_strdup_printf ("%s: the opening lines do not name the %s", file, words[i]);
        return FALSE;
      }
  return TRUE;
}

GPtrArray *
test_table_parse (const char *file, const char *text, char **problem_out)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  g_auto (GStrv) names = NULL;
  g_autoptr (GString) head = g_string_new (NULL);
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (row_free);

  *problem_out = NULL;
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) cells = NULL;
      TestRow *row;

      if (lines[i][0] == '#')
        {
          if (names == NULL)
            g_string_append (head, lines[i]);
          continue;
        }
      if (lines[i][0] == '\0' && lines[i + 1] == NULL)
        break;
      if (lines[i][0] == '\0' || strpbrk (lines[i], "\"\r\t") != NULL)
        {
          *problem_out = g_strdup_printf ("%s:%u: empty line, quote, tab or carriage return", file, i + 1);
          return NULL;
        }
      cells = split_cells (lines[i]);
      if (names == NULL)
        {
          if (!names_are_sound (cells))
            {
              *problem_out = g_strdup_printf ("%s:%u: a column without a name, or named twice", file, i + 1);
              return NULL;
            }
          names = g_steal_pointer (&cells);
          continue;
        }
      if (g_strv_length (cells) != g_strv_length (names))
        {
          *problem_out = g_strdup_printf ("%s:%u: %u cells under %u names", file, i + 1,
                                          g_strv_length (cells), g_strv_length (names));
          return NULL;
        }
      row = g_new0 (TestRow, 1);
      row->file = g_strdup (file);
      row->line = i + 1;
      row->names = g_strdupv (names);
      row->cells = g_steal_pointer (&cells);
      g_ptr_array_add (rows, row);
    }
  if (!head_is_complete (head->str, file, problem_out))
    return NULL;
  if (rows->len == 0)
    {
      *problem_out = g_strdup_printf ("%s: no row", file);
      return NULL;
    }
  return g_steal_pointer (&rows);
}

GPtrArray *
test_table_load (const char *file)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "tables", file, NULL);
  g_autofree char *text = NULL;
  g_autofree char *problem = NULL;
  g_autoptr (GError) error = NULL;
  GPtrArray *rows;

  if (!g_file_get_contents (path, &text, NULL, &error))
    g_error ("%s", error->message);
  rows = test_table_parse (file, text, &problem);
  if (rows == NULL)
    g_error ("%s", problem);
  return rows;
}

/* The rows outlive the registered tests, which run from g_test_run. */
static GPtrArray *kept_rows;

typedef struct
{
  const TestRow *row;
  TestRowFunc func;
} Case;

static void
run_case (gconstpointer data)
{
  const Case *c = data;

  c->func (c->row);
}

static void
drop_kept_rows (void)
{
  g_clear_pointer (&kept_rows, g_ptr_array_unref);
}

void
test_table_add (const char *file, const char *path, TestRowFunc func)
{
  g_autoptr (GPtrArray) rows = test_table_load (file);

  if (kept_rows == NULL)
    {
      kept_rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_ptr_array_unref);
      atexit (drop_kept_rows);
    }
  for (guint i = 0; i < rows->len; i++)
    {
      const TestRow *row = g_ptr_array_index (rows, i);
      g_autofree char *first = g_strcanon (
          g_strdup (row->cells[0]), "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-", '_');
      g_autofree char *name = g_strdup_printf ("%s/%u-%s", path, row->line, first);
      Case *c = g_new0 (Case, 1);

      c->row = row;
      c->func = func;
      g_test_add_data_func_full (name, c, run_case, g_free);
    }
  g_ptr_array_add (kept_rows, g_steal_pointer (&rows));
}

const char *
test_row_text (const TestRow *row, const char *column)
{
  for (guint i = 0; row->names[i] != NULL; i++)
    if (strcmp (row->names[i], column) == 0)
      return row->cells[i];
  g_error ("%s: no column %s", row->file, column);
}

double
test_row_number_or_nan (const TestRow *row, const char *column)
{
  const char *text = test_row_text (row, column);
  char *end = NULL;
  double value;

  if (text[0] == '\0')
    return NAN;
  value = g_ascii_strtod (text, &end);
  if (*end != '\0' || !isfinite (value))
    g_error ("%s:%u: %s is no number: %s", row->file, row->line, column, text);
  return value;
}

double
test_row_number (const TestRow *row, const char *column)
{
  const double value = test_row_number_or_nan (row, column);

  if (isnan (value))
    g_error ("%s:%u: %s is empty", row->file, row->line, column);
  return value;
}

void
test_row_near (const TestRow *row, const char *what, double got, double wanted, double tolerance)
{
  if (!(fabs (got - wanted) <= tolerance))
    g_test_fail_printf ("%s:%u: %s is %.9g, the table says %.9g +/- %g", row->file, row->line, what, got,
                        wanted, tolerance);
}
