/* A row to choose one tree of the book by its name, with a search that begins at the first letter. Names are
 * in the order people count in: T2 before T10.
 *
 * Signal "chosen" (): another tree is chosen, by a person or because the one before has gone */
#pragma once

#include <adwaita.h>

#include "models/book.h"

G_BEGIN_DECLS

#define FR_TYPE_TREE_CHOOSER (fr_tree_chooser_get_type ())
G_DECLARE_FINAL_TYPE (FrTreeChooser, fr_tree_chooser, FR, TREE_CHOOSER, AdwActionRow)

/* Trees in use that have a place on the plan. @none: the words of a first entry that stands for no tree, or
 * NULL: there is none, and the last tree is chosen at first. */
GtkWidget *
fr_tree_chooser_new (const char *title, const char *note, FrBook *book, const char *none);

/* 0: none. */
gint64
fr_tree_chooser_get (FrTreeChooser *self);
/* Nothing happens when it is not among them. */
void
fr_tree_chooser_set (FrTreeChooser *self, gint64 tree);
guint
fr_tree_chooser_n_trees (FrTreeChooser *self);

G_END_DECLS
