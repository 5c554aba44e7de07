/* From the records of a bush to what the map draws of them, for window and paper alike. */
#pragma once

#include "domain/plan/bush.h"
#include "paint/map.h"

/* A tree as it stands: place, size, group, health, how many taps; nothing selected, nothing filled, the sides of its taps unknown.
 * Its name is borrowed. */
void
fr_map_tree_of (FrMapTree *map_tree, const FrBushTree *tree);

/* The compass side of one of its taps of the season: set, or planned. */
void
fr_map_tree_add_tap (FrMapTree *map_tree, const FrTap *tap);

/**
 * fr_map_shape_of:
 * @shape: its points are made for it: free them with g_free(); its name is borrowed
 *
 * Returns: FALSE for what was put away or has no readable points
 */
gboolean
fr_map_shape_of (FrMapShape *shape, const FrFeature *feature);

/**
 * fr_map_way_of:
 * The way of a round from corner to corner: from the start past the stops of each trip and back.
 *
 * @points: emptied and filled with #FrGroundPoint
 * @numbers: the same with #guint, the stops' numbers over all trips, 0 at the start; a tree gone to several times on end keeps its
 *   first
 */
void
fr_map_way_of (const FrBush *bush, const FrBushRound *round, GArray *points, GArray *numbers);
