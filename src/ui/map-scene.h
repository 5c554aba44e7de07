/* What the map's painter draws of a sugarbush: its trees and the ground, made anew when the book changes and marked when the
 * selection does; never for a frame. */
#pragma once

#include "models/sugarbush.h"
#include "paint/map.h"

G_BEGIN_DECLS

typedef struct _FrMapScene FrMapScene;

FrMapScene *fr_map_scene_new (void);
void fr_map_scene_free (FrMapScene *scene);

/* A picture under the plan is read beside the window's work; @changed is called when it is there to be drawn. */
void fr_map_scene_on_change (FrMapScene *scene, void (*changed) (gpointer data), gpointer data);

/* After "changed" of the model. */
void fr_map_scene_load (FrMapScene *scene, FrSugarbush *bush);
/* After "selection-changed" or "hover-changed"; @focus has the keyboard, 0 none. */
void fr_map_scene_mark (FrMapScene *scene, FrSugarbush *bush, gint64 focus);

/* Puts trees, ground, picture and revision into a painter's view. */
void fr_map_scene_show (FrMapScene *scene, FrMapView *view);

guint fr_map_scene_n_trees (const FrMapScene *scene);
const FrMapTree *fr_map_scene_tree_at (const FrMapScene *scene, gsize index);
/* -1 when it is not there. */
gssize fr_map_scene_find (const FrMapScene *scene, gint64 tree);
/* How often the trees were made anew; for tests. */
guint fr_map_scene_n_loads (const FrMapScene *scene);

/* One tree as the painter wants it, without what the selection says. */
void fr_map_tree_set (FrMapTree *map_tree, FrSugarbush *bush, const FrBushTree *tree);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrMapScene, fr_map_scene_free)

G_END_DECLS
