/* RFC 4180, read strictly: a quote stands only around a whole cell, and doubled within it. */
#include "formats/csv.h"

#include "formats/text-bytes.h"

#include <glib/gi18n-lib.h>
#include <string.h>

typedef struct
{
  const char *at;
  const char *end;
  guint line;
  char separator;
  gboolean by_returns; /* rows end with nothing but a carriage return */
  guint n_cells;
  GError **error;
} Scan;

static gboolean G_GNUC_PRINTF (3, 4) fail (Scan *scan, guint line, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (scan->error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("line %u: %s"), line, what);
  return FALSE;
}

static void
row_free (gpointer data)
{
  FrCsvRow *row = data;

  g_ptr_array_unref (row->cells);
  g_free (row);
}

static gboolean
at_break (const Scan *scan)
{
  return scan->at == scan->end || *scan->at == '\n'
         || (*scan->at == '\r' && (scan->by_returns || scan->at + 1 == scan->end || scan->at[1] == '\n'));
}

static void
skip_break (Scan *scan)
{
  if (scan->at < scan->end && *scan->at == '\r')
    scan->at++;
  if (scan->at < scan->end && *scan->at == '\n')
    scan->at++;
  scan->line++;
}

/* Outside of quotes, in the first row. */
static char
find_separator (const char *text, const char *end, char last)
{
  static const char candidates[] = ",;\t";
  guint n[3] = { 0 }, best = 0;
  gboolean quoted = FALSE;

  for (const char *p = text; p < end && (quoted || *p != last); p++)
    {
      const char *found = strchr (candidates, *p);

      quoted ^= *p == '"';
      if (!quoted && *p != '\0' && found != NULL)
        n[found - candidates]++;
    }
  for (guint i = 1; i < 3; i++)
    if (n[i] > n[best])
      best = i;
  return candidates[best];
}

static char *
read_quoted (Scan *scan)
{
  g_autoptr (GString) cell = g_string_new (NULL);
  guint line = scan->line;

  for (scan->at++; scan->at < scan->end; scan->at++)
    {
      if (*scan->at == '\n')
        scan->line++;
      if (*scan->at != '"')
        g_string_append_c (cell, *scan->at);
      else if (scan->at + 1 < scan->end && scan->at[1] == '"')
        g_string_append_c (cell, *scan->at++);
      else
        {
          scan->at++;
          if (at_break (scan) || *scan->at == scan->separator)
            return g_strdup (cell->str);
          fail (scan, scan->line,
                _ ("a closing quote is followed by more text; quotes within a cell are doubled"));
          return NULL;
        }
    }
  fail (scan, line, _ ("this quoted cell is not closed"));
  return NULL;
}

static char *
read_bare (Scan *scan)
{
  const char *start = scan->at;

  for (; !at_break (scan) && *scan->at != scan->separator; scan->at++)
    if (*scan->at == '"')
      {
        fail (scan, scan->line, _ ("a quote stands within a cell that does not begin with one"));
        return NULL;
      }
  return g_strndup (start, scan->at - start);
}

static FrCsvRow *
read_row (Scan *scan)
{
  FrCsvRow *row = g_new0 (FrCsvRow, 1);

  row->line = scan->line;
  row->cells = g_ptr_array_new_with_free_func (g_free);
  for (;;)
    {
      char *cell = scan->at < scan->end && *scan->at == '"' ? read_quoted (scan) : read_bare (scan);

      if (cell == NULL)
        break;
      g_ptr_array_add (row->cells, cell);
      if (++scan->n_cells > FR_CSV_CELLS_MAX)
        {
          fail (scan, scan->line, _ ("the file has more than %d cells"), FR_CSV_CELLS_MAX);
          break;
        }
      if (at_break (scan))
        {
          skip_break (scan);
          return row;
        }
      scan->at++;
      if (row->cells->len == FR_CSV_COLUMNS_MAX)
        {
          fail (scan, scan->line, _ ("the row has more than %d cells"), FR_CSV_COLUMNS_MAX);
          break;
        }
    }
  row_free (row);
  return NULL;
}

static gboolean
is_blank (const FrCsvRow *row)
{
  for (guint i = 0; i < row->cells->len; i++)
    {
      const char *cell = row->cells->pdata[i];

      if (cell[strspn (cell, " \t")] != '\0')
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_text (Scan *scan)
{
  if (scan->end - scan->at > FR_CSV_SIZE_MAX)
    {
      g_set_error (scan->error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, _ ("the file is larger than %d MiB"),
                   FR_CSV_SIZE_MAX / (1024 * 1024));
      return FALSE;
    }
  return fr_text_bytes_check_utf8 (scan->at, (gsize)(scan->end - scan->at), scan->error);
}

GPtrArray *
fr_csv_read (const char *text, gsize length, GError **error)
{
  Scan scan = { text, text + length, 1, ',', memchr (text, '\n', length) == NULL, 0, error };
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (row_free);

  if (length >= 3 && memcmp (text, "\xEF\xBB\xBF", 3) == 0)
    scan.at += 3;
  if (!check_text (&scan))
    return NULL;
  while (scan.at < scan.end)
    {
      FrCsvRow *row;

      if (rows->len == 0)
        scan.separator = find_separator (scan.at, scan.end, scan.by_returns ? '\r' : '\n');
      row = read_row (&scan);
      if (row == NULL)
        return NULL;
      if (is_blank (row))
        {
          row_free (row);
          continue;
        }
      g_ptr_array_add (rows, row);
      if (rows->len > FR_CSV_ROWS_MAX)
        {
          fail (&scan, row->line, _ ("the file has more than %d rows"), FR_CSV_ROWS_MAX);
          return NULL;
        }
    }
  return g_steal_pointer (&rows);
}

void
fr_csv_append_row (GString *out, const char *const *cells, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      const char *cell = cells[i] != NULL ? cells[i] : "";

      if (i > 0)
        g_string_append_c (out, ',');
      /* Blanks at the ends and other separators too: not every program keeps to the rules. */
      if (strpbrk (cell, ",;\t\"\r\n") == NULL && *cell != ' ' && !g_str_has_suffix (cell, " ")
          && !g_str_has_prefix (cell, "\xEF\xBB\xBF"))
        {
          g_string_append (out, cell);
          continue;
        }
      g_string_append_c (out, '"');
      for (const char *p = cell; *p != '\0'; p++)
        {
          if (*p == '"')
            g_string_append_c (out, '"');
          g_string_append_c (out, *p);
        }
      g_string_append_c (out, '"');
    }
  g_string_append (out, "\r\n");
}

/* Whether a spreadsheet takes what comes after apostrophes for a formula, or a reader for nothing at all. */
static gboolean
is_dangerous (const char *text)
{
  /* The wide forms of the same, which some programs take for them. */
  static const char *const wide[] = { "＝", "＋", "－", "＠" };
  const char *rest = text + strspn (text, "'");

  for (guint i = 0; i < G_N_ELEMENTS (wide); i++)
    if (g_str_has_prefix (rest, wide[i]))
      return TRUE;
  return *rest != '\0' && (strchr ("=+-@\t\r\n", *rest) != NULL || rest[strspn (rest, " \t\r\n")] == '\0');
}

char *
fr_csv_guard (const char *text)
{
  return is_dangerous (text) ? g_strconcat ("'", text, NULL) : g_strdup (text);
}

char *
fr_csv_unguard (const char *cell)
{
  return g_strdup (*cell == '\'' && is_dangerous (cell) ? cell + 1 : cell);
}

gboolean
fr_csv_read_yes (const char *cell, gboolean *yes_out)
{
  static const char *const yes_words[] = { "true", "yes", "y", "x", "1", NULL }, *const no_words[]
                                                                                 = { "false", "no", "n", "0",
                                                                                     NULL };
  g_autofree char *low = g_strstrip (g_ascii_strdown (cell, -1));

  *yes_out = g_strv_contains (yes_words, low);
  return *yes_out || g_strv_contains (no_words, low);
}
