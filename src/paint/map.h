/* The plan of the bush: ground, paths and buildings, every tree as a symbol that says group, thickness,
 * health, taps and a chosen shading without colour, the round, and what is being done with the pointer. Plain
 * arguments in, cairo out; every text comes worded from the caller, every colour from the palette.
 *
 * Thousands of trees stay smooth: what lies outside the view is passed over by a grid, symbols are kept as
 * small pictures and names as layouts in an #FrMapCache the caller owns, and the names' places are worked out
 * once for a scale, so that panning moves them with the ground. */
#pragma once

#include "domain/records/ground-points.h"
#include "paint/label.h"
#include "paint/viewport.h"

#define FR_MAP_MOST_TAPS 6

/* Shape and colour of a tree. */
typedef enum
{
  FR_MAP_GROUP_HARD,  /* circle */
  FR_MAP_GROUP_SOFT,  /* rounded square */
  FR_MAP_GROUP_OTHER, /* hexagon */
  FR_MAP_GROUP_NONE   /* diamond */
} FrMapGroup;

/**
 * FrMapTree:
 * @x_m, @y_m: NAN is not placed: neither drawn nor hit
 * @diameter_m: NAN is unknown: the smallest symbol, with a thin outline
 * @set_deg, @planned_deg: compass side of each tap; NAN is unknown: they spread at the bottom
 * @n_set, @n_planned: how many; what is over FR_MAP_MOST_TAPS is not drawn
 * @is_weak: dashed outline
 * @is_off: a cross: do not tap
 * @has_hazard: a small triangle at the upper right
 * @level_ratio: how far the cup is filled, 0 to 1; NAN is none
 * @name: may be NULL; wider than 160 px it ends in an ellipsis
 * @rank: names of higher rank find their places first (tapped trees, then by size)
 * @is_dimmed: filtered out: pale and without its name
 */
typedef struct
{
  gint64 id;
  double x_m;
  double y_m;
  double diameter_m;
  FrMapGroup group;
  guint n_set;
  double set_deg[FR_MAP_MOST_TAPS];
  guint n_planned;
  double planned_deg[FR_MAP_MOST_TAPS];
  gboolean is_weak;
  gboolean is_off;
  gboolean has_hazard;
  double level_ratio;
  const char *name;
  double rank;
  gboolean is_selected;
  gboolean is_hovered;
  gboolean is_focused;
  gboolean is_dimmed;
} FrMapTree;

typedef enum
{
  FR_MAP_FORM_PATH,     /* dashes */
  FR_MAP_FORM_LANE,     /* dashes on a wide pale band */
  FR_MAP_FORM_WALL,     /* dots */
  FR_MAP_FORM_STREAM,   /* a wavy double line */
  FR_MAP_FORM_BUILDING, /* hatched box */
  FR_MAP_FORM_BOILING,  /* the same with a pan above it */
  FR_MAP_FORM_STORE     /* the same with a barrel above it */
} FrMapForm;

/**
 * FrMapShape:
 * @points: the line from end to end; for the last three forms the outline (it closes itself), with two points
 * opposite corners, with one a mark at that point
 * @name: along the line's middle or under the box; may be NULL
 */
typedef struct
{
  gint64 id;
  FrMapForm form;
  const FrGroundPoint *points;
  gsize n_points;
  const char *name;
  gboolean is_selected;
  gboolean is_hovered;
} FrMapShape;

/**
 * FrMapPicture:
 * A photo or scan under everything, at 55 %. Two points known in both, in the picture's pixels from its upper
 * left and in metres, place it.
 */
typedef struct
{
  cairo_surface_t *surface;
  double first_column;
  double first_row;
  double first_x_m;
  double first_y_m;
  double second_column;
  double second_row;
  double second_x_m;
  double second_y_m;
} FrMapPicture;

/**
 * FrMapRound:
 * The way of the gathering round, from stop to stop.
 * @numbers: for each point the number at the stop, 0 for none; NULL: no numbers (they show in the Round view)
 */
typedef struct
{
  const FrGroundPoint *points;
  const guint *numbers;
  gsize n_points;
} FrMapRound;

/**
 * FrMapMeasure:
 * A line being measured or a distance and bearing being entered.
 * @text: "12.4 m, 305°"; may be NULL
 */
typedef struct
{
  double from_x_m;
  double from_y_m;
  double to_x_m;
  double to_y_m;
  const char *text;
} FrMapMeasure;

/**
 * FrMapView:
 * Everything that is drawn. All pointers are borrowed for the call.
 * @scale_ratio: size of text and symbols, fr_text_scale_of_context(); 0 counts as 1
 * @device_ratio: pixels of the screen in one px, for crisp symbols; 0 counts as 1
 * @revision: another number whenever a tree was added, removed, moved, measured or renamed, or its rank
 * changed; everything else may change freely
 * @ghosts: trees being placed or moved, drawn as outlines where they would come to lie
 * @has_band, @band_...: the rubber band, any two opposite corners
 * @unit_m, @unit_name: the scale bar's unit; NULL name: no bar
 * @decimal_mark: of the scale bar; NULL is "."
 * @has_north: the north disc above the scale bar
 * @north_text: its letter; NULL is "N"
 * @furniture: how far scale bar and north disc keep from the right and the bottom (other sides are not used)
 * @keeps_ground: the ground is not painted: for a caller that has done so, and for paper
 */
typedef struct
{
  FrViewport viewport;
  double scale_ratio;
  double device_ratio;
  guint64 revision;
  const FrMapTree *trees;
  gsize n_trees;
  const FrMapShape *shapes;
  gsize n_shapes;
  const FrMapPicture *picture;
  const FrMapRound *round;
  const FrMapMeasure *measure;
  const FrMapTree *ghosts;
  gsize n_ghosts;
  gboolean has_band;
  double band_x1_px;
  double band_y1_px;
  double band_x2_px;
  double band_y2_px;
  double unit_m;
  const char *unit_name;
  const char *decimal_mark;
  gboolean has_north;
  const char *north_text;
  FrMargins furniture;
  gboolean keeps_ground;
} FrMapView;

/**
 * FrMapCache:
 * What one map remembers from frame to frame. Opaque; one per widget.
 */
typedef struct _FrMapCache FrMapCache;

FrMapCache *
fr_map_cache_new (void);

void
fr_map_cache_free (FrMapCache *cache);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrMapCache, fr_map_cache_free)

/* The memory of the kept symbols, in bytes; for measurements. */
gsize
fr_map_cache_bytes (const FrMapCache *cache);

/**
 * fr_map_draw:
 * @cache: NULL draws every symbol as outlines, for print
 * @labels: (nullable): a list of #FrLabelBox to add every text to, as it was drawn
 */
void
fr_map_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrMapView *view,
             FrMapCache *cache, GArray *labels);

/**
 * fr_map_radius_px:
 * The radius of a tree's symbol: 4 px + 0.125 px per cm of diameter (which is the trunk at 1:150 and 4 px of
 * rim). Closer than 1:150 the trunk's part grows with the scale and the rim melts away, so that from 1:50 on
 * the symbol is the trunk, true to scale. Further out than about 1:950 all shrink together, to no less than 3
 * px.
 */
double
fr_map_radius_px (const FrMapView *view, double diameter_m);

/**
 * fr_map_symbol_draw:
 * One tree's symbol round @x_px, @y_px with @radius_px, for lists and keys. Its place, name and thickness are
 * not used; taps are drawn if there are any.
 */
void
fr_map_symbol_draw (cairo_t *cr, const FrPalette *palette, const FrMapTree *tree, double x_px, double y_px,
                    double radius_px);

/**
 * fr_map_tree_at:
 * @tolerance_px: how far beside the symbol still counts
 *
 * Returns: the index of the tree under the point, the nearest by its rim; -1 when there is none
 */
gssize
fr_map_tree_at (const FrMapView *view, FrMapCache *cache, double x_px, double y_px, double tolerance_px);

/**
 * fr_map_trees_in:
 * Appends the index (#guint) of every tree whose middle lies in the rectangle to @indices, in order. Dimmed
 * trees are left out.
 */
void
fr_map_trees_in (const FrMapView *view, FrMapCache *cache, double x1_px, double y1_px, double x2_px,
                 double y2_px, GArray *indices);

/**
 * fr_map_tree_towards:
 * For the arrow keys: the tree that lies best in the direction @dx_px, @dy_px from tree @from (-1: from the
 * middle of the drawing). Nearness counts, and twice as much what is off the direction. Dimmed trees are left
 * out.
 *
 * Returns: its index, -1 when nothing lies that way
 */
gssize
fr_map_tree_towards (const FrMapView *view, gssize from, double dx_px, double dy_px);

/* The shape under the point: on its line, in its box; the last drawn one wins. -1 when there is none. */
gssize
fr_map_shape_at (const FrMapView *view, double x_px, double y_px, double tolerance_px);

/* Whether the point is on the north disc. */
gboolean
fr_map_north_at (const FrMapView *view, double x_px, double y_px);

/**
 * fr_map_bounds:
 * The box of all that is placed: trees, shapes, and the round.
 */
FrPlanBox
fr_map_bounds (const FrMapView *view);

/**
 * fr_map_picture_matrix:
 * From the picture's pixels to metres.
 *
 * Returns: FALSE when the two points are the same in one of them, or not finite
 */
gboolean
fr_map_picture_matrix (const FrMapPicture *picture, cairo_matrix_t *matrix);
