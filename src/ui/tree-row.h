/* One row of the trees' list: symbol, name, thickness, taps, litres. */
#pragma once

#include <gtk/gtk.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_TREE_ROW (fr_tree_row_get_type ())
G_DECLARE_FINAL_TYPE (FrTreeRow, fr_tree_row, FR, TREE_ROW, GtkBox)

/* Widths of the columns, which the heads above them share. */
#define FR_TREE_ROW_SYMBOL_PX 24
#define FR_TREE_ROW_SIZE_PX 28
#define FR_TREE_ROW_TAPS_PX 34
#define FR_TREE_ROW_LITRES_PX 38

GtkWidget *fr_tree_row_new (void);
/* @tree 0: nothing. */
void fr_tree_row_set (FrTreeRow *self, FrSugarbush *bush, gint64 tree);
gint64 fr_tree_row_get_tree (FrTreeRow *self);

/* The width of a column for @widget's text size; −1 stays −1. */
int fr_tree_row_width (GtkWidget *widget, int width_px);

G_END_DECLS
