/* A plain number at a cursor, for tables of numbers that a household types line by line. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Reads digits with at most one decimal mark, "," or ".", up to white space or the end of the text; no sign,
 * no group marks: "1,500" could be a thousand and a half thousand, so a comma with exactly three digits
 * behind it is not read. Blanks and tabs before it are passed over; *@cursor is left behind the number. */
gboolean
fr_number_read (const char **cursor, double *number_out);

G_END_DECLS
