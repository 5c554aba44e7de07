/* Aligned text. Columns are measured in characters, since units hold ° and ²; closing standard output is
 * checked because a full disk shows only there. */
#include "cli/cli-print.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>

typedef struct
{
  char *what;
  char *number; /* NULL: @rest alone, as words */
  char *rest;
} Row;

struct _FrPrint
{
  GArray *rows;
};

static void
clear_row (gpointer data)
{
  Row *row = data;

  g_free (row->what);
  g_free (row->number);
  g_free (row->rest);
}

FrPrint *
fr_print_new (void)
{
  FrPrint *print = g_new0 (FrPrint, 1);

  print->rows = g_array_new (FALSE, FALSE, sizeof (Row));
  g_array_set_clear_func (print->rows, clear_row);
  return print;
}

void
fr_print_free (FrPrint *print)
{
  if (print == NULL)
    return;
  g_array_unref (print->rows);
  g_free (print);
}

static void
add (FrPrint *print, const char *what, char *number, const char *rest)
{
  Row row = { g_strdup (what), number, g_strdup (rest) };

  g_array_append_val (print->rows, row);
}

void
fr_print_number (FrPrint *print, const char *what, double value_in_unit, int decimals, const char *unit)
{
  char format[8], text[G_ASCII_DTOSTR_BUF_SIZE];

  /* Beyond what fits or means something in fixed digits. */
  if (fabs (value_in_unit) >= 1e9)
    g_snprintf (format, sizeof format, "%%.3e");
  else
    g_snprintf (format, sizeof format, "%%.%df", CLAMP (decimals, 0, 9));
  add (print, what,
       isnan (value_in_unit) ? g_strdup ("–")
                             : g_strdup (g_ascii_formatd (text, sizeof text, format, value_in_unit)),
       unit);
}

void
fr_print_words (FrPrint *print, const char *what, const char *words)
{
  add (print, what, NULL, words);
}

void
fr_print_span (FrPrint *print, const char *what, double span_s, const char *never)
{
  g_autofree char *text = NULL;
  gint64 minutes;

  if (!(fabs (span_s) < 1e12))
    {
      fr_print_words (print, what, never);
      return;
    }
  minutes = (gint64)llround (span_s / 60);
  if (minutes < 60)
    text = g_strdup_printf ("%d min", (int)minutes);
  else
    text = g_strdup_printf ("%" G_GINT64_FORMAT " h %02d min", minutes / 60, (int)(minutes % 60));
  fr_print_words (print, what, text);
}

void
fr_print_line (FrPrint *print, const char *line)
{
  add (print, NULL, NULL, line);
}

static void
append_padded (GString *out, const char *text, glong width, gboolean right)
{
  glong blanks = MAX (0, width - g_utf8_strlen (text, -1));

  if (!right)
    g_string_append (out, text);
  g_string_append_printf (out, "%*s", (int)blanks, "");
  if (right)
    g_string_append (out, text);
}

void
fr_print_finish (FrPrint *print, GString *out)
{
  glong what_width = 0, number_width = 0;

  for (guint i = 0; i < print->rows->len; i++)
    {
      const Row *row = &g_array_index (print->rows, Row, i);

      if (row->what != NULL)
        what_width = MAX (what_width, g_utf8_strlen (row->what, -1));
      if (row->number != NULL)
        number_width = MAX (number_width, g_utf8_strlen (row->number, -1));
    }
  for (guint i = 0; i < print->rows->len; i++)
    {
      const Row *row = &g_array_index (print->rows, Row, i);

      if (row->what != NULL)
        {
          append_padded (out, row->what, what_width + 2, FALSE);
          if (row->number != NULL)
            append_padded (out, row->number, number_width, TRUE);
          if (row->number != NULL && row->rest[0] != '\0')
            g_string_append_c (out, ' ');
        }
      g_string_append (out, row->rest);
      g_string_append_c (out, '\n');
    }
}

void
fr_print_rows (GString *out, GPtrArray *rows, guint n_columns)
{
  g_autofree glong *widths = g_new0 (glong, n_columns);

  for (guint r = 0; r < rows->len; r++)
    for (guint c = 0; c < n_columns; c++)
      widths[c] = MAX (widths[c], g_utf8_strlen (((char **)rows->pdata[r])[c], -1));
  for (guint r = 0; r < rows->len; r++)
    {
      g_autoptr (GString) line = g_string_new (NULL);

      for (guint c = 0; c < n_columns; c++)
        {
          const char *cell = ((char **)rows->pdata[r])[c];

          g_string_append_printf (line, "  %s", cell);
          for (glong i = g_utf8_strlen (cell, -1); i < widths[c]; i++)
            g_string_append_c (line, ' ');
        }
      g_string_append_printf (out, "%s\n", g_strchomp (line->str));
    }
}

void
fr_print_complaint (const char *format, ...)
{
  g_autofree char *text = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  fprintf (stderr, "frostrun-cli: %s\n", text);
}

gboolean
fr_print_answer (const GString *answer)
{
  gboolean ok = fwrite (answer->str, 1, answer->len, stdout) == answer->len;
  int failed = ok ? 0 : errno;

  if (fflush (stdout) != 0 && failed == 0)
    failed = errno;
  if (fclose (stdout) != 0 && failed == 0)
    failed = errno;
  if (failed == 0)
    return TRUE;
  fr_print_complaint ("the answer could not be written: %s", g_strerror (failed));
  return FALSE;
}
