/* One row of the gathering log: what it is of, the amount, the sugar as read, the sample's temperature, the true °Bx at once, and behind
 * a button what is rarely said: ice, looks, smell, a note. Entries take what is typed with each key; nothing is written until the line
 * is left, which its signal tells.
 *
 * Signals:
 * - "left" (): the focus went out of the line
 * - "step" (FrGatherField field, int by): Enter or an arrow asks for a field of another line: an arrow for the same one, Enter for the
 *   one in which this line was begun before Tab went on, so that a round can be typed down its columns or row by row
 * - "pasted" (const char *text): a table was pasted where one number goes
 * - "kept-anyway" (): the question under it was answered with Keep */
#pragma once

#include <adwaita.h>

#include "models/gather-log.h"

G_BEGIN_DECLS

#define FR_TYPE_LOG_LINE (fr_log_line_get_type ())
G_DECLARE_FINAL_TYPE (FrLogLine, fr_log_line, FR, LOG_LINE, GtkListBoxRow)

GtkWidget *fr_log_line_new (FrGatherLog *log, FrGatherRow *row);
FrGatherRow *fr_log_line_get_row (FrLogLine *self);
/* Puts the keyboard into an entry; one behind the button opens it. */
void fr_log_line_focus (FrLogLine *self, FrGatherField field);
/* What is asked before it is written, NULL for nothing. */
void fr_log_line_set_question (FrLogLine *self, const char *sentence);
/* Whether a problem or question stands under it. */
gboolean fr_log_line_is_stuck (FrLogLine *self);

/* The words over the columns. */
GtkWidget *fr_log_heads_new (void);
void fr_log_heads_set (GtkWidget *heads, FrGatherLog *log);

G_END_DECLS
