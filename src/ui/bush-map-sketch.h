/* Something drawn on the map corner by corner, or one point taken from it. While it lasts the map's clicks
 * and keys are its own: a click or Space adds a corner, Backspace takes the last one back, Enter or a double
 * click ends, Escape lets go; arrows move a cross by 1 m, with Shift by 10 m. Wheel, + − 0 and drags of the
 * ground still move the view. */
#pragma once

#include "domain/records/ground-points.h"
#include "ui/bush-map.h"

G_BEGIN_DECLS

/* What was drawn; no points when it was let go. */
typedef void (*FrBushMapSketched) (const FrGroundPoint *points, guint n, gpointer data);

/**
 * fr_bush_map_sketch:
 * @form: code of what is drawn; of a building two corners are enough, of a line two are needed. NULL: one
 * point, which a click on a tree takes from the tree
 * @points: the corners to go on from
 * @done: called once, but not when the map goes before
 */
void
fr_bush_map_sketch (FrBushMap *self, const char *form, const FrGroundPoint *points, guint n,
                    FrBushMapSketched done, gpointer data);
gboolean
fr_bush_map_is_sketching (FrBushMap *self);
void
fr_bush_map_sketch_end (FrBushMap *self, gboolean keep);

G_END_DECLS
