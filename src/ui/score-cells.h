/* Scores written into a grid: a number, and under it, where wanted, the range that 9 in 10 lie in. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A name stands left and takes the room, a number right. @css_class may be NULL. Returns: (transfer none): the label */
GtkWidget *fr_score_attach (GtkGrid *grid, const char *text, const char *css_class, gboolean is_name, int column, int row);

G_END_DECLS
