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

/* Puts the keyboard into the search. */
void
fr_tree_list_find (FrTreeList *self);
/* Puts it on the row at @position, or on the last one before; on the row it stood on last with
 * GTK_INVALID_LIST_POSITION. FALSE when there is no row. */
gboolean
fr_tree_list_grab (FrTreeList *self, guint position);
/* The row that has it now; GTK_INVALID_LIST_POSITION when none has. */
guint
fr_tree_list_focus_row (FrTreeList *self);

G_END_DECLS
