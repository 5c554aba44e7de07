/* Asks for a tree's name beside its symbol. Enter keeps it, Escape closes. */
#pragma once

#include <gtk/gtk.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_TREE_RENAME (fr_tree_rename_get_type ())
G_DECLARE_FINAL_TYPE (FrTreeRename, fr_tree_rename, FR, TREE_RENAME, GtkPopover)

GtkWidget *fr_tree_rename_new (FrSugarbush *bush);
/* @at: in the widget it is a child of. */
void fr_tree_rename_ask (FrTreeRename *self, gint64 tree, const GdkRectangle *at);

G_END_DECLS
