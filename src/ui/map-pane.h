/* The view "Map": list, map and panel beside each other. Under 900 px the panel slides over the map when asked for, under 640 the
 * list does too. */
#pragma once

#include "models/sugarbush.h"
#include "ui/fold-bin.h"

G_BEGIN_DECLS

#define FR_TYPE_MAP_PANE (fr_map_pane_get_type ())
G_DECLARE_FINAL_TYPE (FrMapPane, fr_map_pane, FR, MAP_PANE, FrFoldBin)

GtkWidget *fr_map_pane_new (FrSugarbush *bush);

void fr_map_pane_find (FrMapPane *self);
/* The next click on the map adds a tree. */
void fr_map_pane_add (FrMapPane *self);
/* Asks for the current tree's name where it stands. */
void fr_map_pane_rename (FrMapPane *self);
/* What the plan stands on, in the side panel in place of the trees, until one is selected. */
void fr_map_pane_show_ground (FrMapPane *self, gboolean shown);
gboolean fr_map_pane_shows_ground (FrMapPane *self);
/* The row of the list that has the keyboard, to be given back with fr_map_pane_regain() after rows went away: to the row that
 * moved up, or to the map when none is left. */
guint fr_map_pane_focus_row (FrMapPane *self);
void fr_map_pane_regain (FrMapPane *self, guint row);
/* The way drawn on the map; NULL takes it off. */
void fr_map_pane_set_round (FrMapPane *self, const FrBushRound *round);
void fr_map_pane_show_all (FrMapPane *self);
void fr_map_pane_north_up (FrMapPane *self);
/* Over 1 is closer. */
void fr_map_pane_zoom (FrMapPane *self, double factor);

G_END_DECLS
