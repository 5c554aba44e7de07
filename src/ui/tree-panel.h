/* The tree beside the map: what to do with it first, the trunk with the place for the next hole, what it
 * gave, and everything the book knows of it, to be edited. Shows the current tree of the bush. */
#pragma once

#include <adwaita.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_TREE_PANEL (fr_tree_panel_get_type ())
G_DECLARE_FINAL_TYPE (FrTreePanel, fr_tree_panel, FR, TREE_PANEL, AdwBin)

GtkWidget *
fr_tree_panel_new (FrSugarbush *bush);

/* Puts the keyboard on the trunk. */
void
fr_tree_panel_grab (FrTreePanel *self);

G_END_DECLS
