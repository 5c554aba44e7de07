/* One tree in short: what it is, what it may carry, what it gave. */
#pragma once

#include <adwaita.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_TREE_BRIEF (fr_tree_brief_get_type ())
G_DECLARE_FINAL_TYPE (FrTreeBrief, fr_tree_brief, FR, TREE_BRIEF, AdwBin)

/* Shows the current tree of @bush. */
GtkWidget *fr_tree_brief_new (FrSugarbush *bush);

G_END_DECLS
