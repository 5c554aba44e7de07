/* A row with several lines of text under its title: a measured table, own measures, holidays, notes.
 *
 * Signal "finished" (const char *text): the text was left and differs from what was set. */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define FR_TYPE_LINES_ROW (fr_lines_row_get_type ())
G_DECLARE_FINAL_TYPE (FrLinesRow, fr_lines_row, FR, LINES_ROW, AdwPreferencesRow)

GtkWidget *
fr_lines_row_new (const char *title, const char *note);
/* Hidden where a heading says the same; screen readers hear it all the same. */
void
fr_lines_row_set_title_visible (FrLinesRow *self, gboolean visible);
void
fr_lines_row_set_text (FrLinesRow *self, const char *text);
char *
fr_lines_row_get_text (FrLinesRow *self);
void
fr_lines_row_set_problem (FrLinesRow *self, const char *sentence);
void
fr_lines_row_finish (FrLinesRow *self);

G_END_DECLS
