/* The rows of the sugarbush with its selection, as a list view wants them. The selection itself stays in the model, which the
 * map shows too. */
#pragma once

#include <gtk/gtk.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_TREE_SELECTION (fr_tree_selection_get_type ())
G_DECLARE_FINAL_TYPE (FrTreeSelection, fr_tree_selection, FR, TREE_SELECTION, GObject)

FrTreeSelection *fr_tree_selection_new (FrSugarbush *bush);

/* The tree of a row, 0 past the end. */
gint64 fr_tree_selection_tree_at (FrTreeSelection *self, guint position);

G_END_DECLS
