/* The list beside the map: the same trees, the same symbols, the same selection. Search, a choice of what to show, columns to sort
 * by. Keys: arrows, Space and Ctrl+A as in any list, Enter opens, F2 renames, Delete deletes, Escape lets go.
 *
 * Signals: "open" (): the current tree is to be shown close by */
#pragma once

#include <gtk/gtk.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_TREE_LIST (fr_tree_list_get_type ())
G_DECLARE_FINAL_TYPE (FrTreeList, fr_tree_list, FR, TREE_LIST, GtkBox)

GtkWidget *fr_tree_list_new (FrSugarbush *bush);

/* Puts the keyboard into the search, or on the list. */
void fr_tree_list_find (FrTreeList *self);
void fr_tree_list_grab (FrTreeList *self);

G_END_DECLS
