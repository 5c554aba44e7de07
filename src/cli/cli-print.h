/* Text for people: a heading, then aligned rows of what, how much and in which unit. The decimal mark is a
 * point, as in the input. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _FrPrint FrPrint;

FrPrint *
fr_print_new (void);
void
fr_print_free (FrPrint *print);

/* A row "what   12.3 L"; NAN gives "–". @unit may be "". */
void
fr_print_number (FrPrint *print, const char *what, double value_in_unit, int decimals, const char *unit);
/* A row with words. */
void
fr_print_words (FrPrint *print, const char *what, const char *words);
/* A span of elapsed time: "6 h 36 min", under an hour "36 min"; NAN gives @never. */
void
fr_print_span (FrPrint *print, const char *what, double span_s, const char *never);
/* A line of its own, between rows. */
void
fr_print_line (FrPrint *print, const char *line);

/* All rows, aligned, appended to @out. */
void
fr_print_finish (FrPrint *print, GString *out);

/* @rows: (element-type char **): cells of each row; with blanks so that each column stands straight, the last is left as it is. */
void
fr_print_rows (GString *out, GPtrArray *rows, guint n_columns);

/* One sentence and a line break to standard error: "frostrun-cli: …". */
void
fr_print_complaint (const char *format, ...) G_GNUC_PRINTF (1, 2);
/* Everything to standard output, flushed and closed; FALSE, with the complaint made, when it could not all be
 * written. */
gboolean
fr_print_answer (const GString *answer);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrPrint, fr_print_free)

G_END_DECLS
