/* What the map's files share. */
#pragma once

#include "ui/bush-map.h"
#include "ui/map-scene.h"

G_BEGIN_DECLS

#define FR_BUSH_MAP_REACH_PX 6.0

typedef enum
{
  FR_MAP_DRAG_NONE,
  FR_MAP_DRAG_TREE,   /* pressed on a tree, not moved yet */
  FR_MAP_DRAG_GROUND, /* pressed beside any */
  FR_MAP_DRAG_BAND,
  FR_MAP_DRAG_MOVE,
  FR_MAP_DRAG_PAN
} FrMapDrag;

typedef struct _FrMapSketch FrMapSketch;

struct _FrBushMap
{
  GtkWidget parent_instance;
  FrSugarbush *bush;
  FrMapScene *scene;
  FrMapCache *cache;
  FrMapView view;
  gint64 focus;       /* the tree the keys are on, 0 none */
  gboolean shows_all; /* and goes on to when its size changes */
  gboolean laid_out;
  gboolean adding;
  double pointer_x_px, pointer_y_px;

  FrMapDrag drag;
  gint64 pressed; /* the tree the drag began on, 0 none */
  double from_x_px, from_y_px;
  double panned_x_px, panned_y_px;
  GdkModifierType press_state;
  int n_press;
  gboolean space_down;
  gboolean space_used; /* for a drag, so it takes no tree */

  gboolean moving_by_keys;
  double move_x_m, move_y_m;
  GArray *ghosts;       /* FrMapTree: the selected ones where they would come to lie */
  FrMapMeasure measure; /* how far they are moved, while they are */

  FrMapSketch *sketch; /* what is being drawn, or NULL */
  GArray *way;         /* FrGroundPoint of the round that is shown */
  GArray *numbers;     /* guint beside them */
  FrMapRound round;

  double zoomed; /* by the pinch so far */
  GtkWidget *menu;
  double menu_x_m, menu_y_m;
  guint n_frames;
};

/* bush-map.c */
void
fr_bush_map_marks_changed (FrBushMap *self);
void
fr_bush_map_say (FrBushMap *self);
/* Emits "hint". */
void
fr_bush_map_hint (FrBushMap *self, const char *words);
/* After the view was panned, zoomed or turned. */
void
fr_bush_map_moved_view (FrBushMap *self);
gint64
fr_bush_map_tree_at (FrBushMap *self, double x_px, double y_px);
void
fr_bush_map_open_menu (FrBushMap *self, double x_px, double y_px, gboolean at_tree);

/* bush-map-move.c: moving what is selected, by pointer or keys. */
void
fr_bush_map_move_to (FrBushMap *self, double dx_m, double dy_m);
void
fr_bush_map_move_end (FrBushMap *self, gboolean keep);
gboolean
fr_bush_map_is_moving (FrBushMap *self);

/* bush-map-sketch.c: only while there is a sketch, but the first. */
void
fr_bush_map_sketch_drop (FrBushMap *self);
void
fr_bush_map_sketch_motion (FrBushMap *self, double x_px, double y_px);
void
fr_bush_map_sketch_click (FrBushMap *self, double x_px, double y_px, gint64 tree, gboolean twice);
gboolean
fr_bush_map_sketch_key (FrBushMap *self, guint keyval, GdkModifierType state);
void
fr_bush_map_sketch_draw (FrBushMap *self, cairo_t *cr);

/* bush-map-keys.c, bush-map-pointer.c */
void
fr_bush_map_add_keys (FrBushMap *self);
void
fr_bush_map_add_pointer (FrBushMap *self);
void
fr_bush_map_cancel_drag (FrBushMap *self);

G_END_DECLS
