/* One tree's symbol as on the map, for rows, panels and keys. */
#pragma once

#include <gtk/gtk.h>

#include "paint/map.h"

G_BEGIN_DECLS

#define FR_TYPE_TREE_SYMBOL (fr_tree_symbol_get_type ())
G_DECLARE_FINAL_TYPE (FrTreeSymbol, fr_tree_symbol, FR, TREE_SYMBOL, GtkWidget)

/* @size_px: of the square it stands in, at text scale 1. */
GtkWidget *fr_tree_symbol_new (int size_px);
/* Its name and place are not used. */
void fr_tree_symbol_set (FrTreeSymbol *self, const FrMapTree *tree);

G_END_DECLS
