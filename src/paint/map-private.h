/* The map's parts, between its own files. A frame carries what all of them need; the cache carries what
 * lasts. */
#pragma once

#include "paint/canvas.h"
#include "paint/map.h"

/* What a symbol looks like, without its place. Sizes in px of the drawing. */
typedef struct
{
  FrMapGroup group;
  double radius_px;
  double scale_ratio;
  double level_ratio; /* NAN: no cup */
  gboolean is_weak;
  gboolean is_off;
  gboolean has_hazard;
  gboolean is_unknown; /* thickness */
  gboolean is_selected;
  gboolean is_hovered;
  gboolean is_focused;
  gboolean is_dimmed;
} FrMapLook;

/* A name and where it goes, relative to the middle of its tree or shape. */
typedef struct
{
  PangoLayout *layout;     /* NULL until it is needed */
  cairo_surface_t *sprite; /* the same as a picture, NULL until it is needed */
  float width_px;
  float height_px;
  float dx_px;
  float dy_px;
  guint8 is_bold;
  guint8 is_placed;
  guint8 is_pinned; /* chosen, and lying on others */
  guint8 is_soft;
} FrMapName;

struct _FrMapCache
{
  /* Symbols. */
  GHashTable *sprites; /* guint64 key to cairo_surface_t */
  gsize sprite_bytes;
  FrPalette palette;
  double device_ratio;

  /* Places: trees by cells of the plan, cell after cell. */
  guint64 revision;
  gsize n_trees;
  gsize n_shapes;
  FrPlanBox bounds;
  double cell_m;
  guint n_across;
  guint n_down;
  guint32 *first; /* n cells + 1: where each cell begins in order */
  guint32 *order; /* indices of trees */
  double largest_diameter_m;

  /* Names: of the trees, then of the shapes. */
  FrMapName *names;
  gsize n_names;
  guint64 names_signature;
  FrPlanBox names_box; /* of the plan: outside it no places are known */
  double names_scale;
  gsize name_bytes;
  gpointer font;    /* PangoFontDescription the layouts were made with */
  gboolean is_bare; /* no pictures are kept: everything as outlines */
};

typedef struct
{
  cairo_t *cr;
  PangoContext *context;
  const FrPalette *palette;
  const FrMapView *view;
  FrMapCache *cache;
  double scale_ratio;
  double device_ratio;
  GArray *labels;
  GArray *furniture; /* FrBox that no name may lie on */
} FrMapFrame;

static inline double
fr_map_scale (const FrMapView *view)
{
  return view->scale_ratio > 0 ? view->scale_ratio : 1.0;
}

/* map-symbol.c */
FrMapLook
fr_map_look (const FrMapView *view, const FrMapTree *tree);

/* The group's outline with a radius whose circle has the same area. */
void
fr_map_outline (cairo_t *cr, FrMapGroup group, double x_px, double y_px, double radius_px);

void
fr_map_look_draw (cairo_t *cr, const FrPalette *palette, const FrMapLook *look, double x_px, double y_px);

/* From a kept picture where that is worth it. */
void
fr_map_look_put (const FrMapFrame *frame, const FrMapLook *look, double x_px, double y_px);

/* Adds the wedges of one kind of a tree's taps to the current path. FALSE: there are none, or no room. */
gboolean
fr_map_wedges (cairo_t *cr, const FrMapTree *tree, double rotation_deg, double x_px, double y_px,
               double radius_px, double scale_ratio, gboolean planned);

/* How far symbol and taps reach from the middle to left, top, right and bottom. */
void
fr_map_reach (const FrMapView *view, const FrMapTree *tree, double reach_px[4]);

/* map-find.c */
FrMapCache *
fr_map_cache_ready (FrMapCache *cache, const FrMapView *view);

/* Calls @found with every tree in or near the box, in a fixed order. */
typedef void (*FrMapFound) (guint index, gpointer data);
void
fr_map_cache_visit (const FrMapCache *cache, const FrMapView *view, const FrPlanBox *box, FrMapFound found,
                    gpointer data);

/* map-ground.c */
void
fr_map_draw_picture (const FrMapFrame *frame);

void
fr_map_draw_shapes (const FrMapFrame *frame);

/* Width of a lane's band, and half the side of a box form that has a single point. */
#define FR_MAP_CASING_PX 9.0
#define FR_MAP_MARK_PX 9.0

/* map-lines.c */
/* The shape's points (#FrGroundPoint) as they are drawn, rounded off. */
GArray *
fr_map_shape_line (const FrMapShape *shape);

/* A line in pixels, clipped to the drawing, stroked with the dash given (0: none) so that it keeps its place
 * on the ground when the view moves. */
void
fr_map_stroke_line (const FrMapFrame *frame, const FrGroundPoint *points, gsize n, gboolean is_closed,
                    double on_px, double off_px);

/* The shape's box on the drawing; FALSE when it has no points. */
gboolean
fr_map_shape_box (const FrMapView *view, const FrMapShape *shape, FrBox *box);

/* The point of a line half way along. */
gboolean
fr_map_shape_middle (const FrMapShape *shape, FrGroundPoint *middle);

static inline gboolean
fr_map_form_is_box (FrMapForm form)
{
  return form == FR_MAP_FORM_BUILDING || form == FR_MAP_FORM_BOILING || form == FR_MAP_FORM_STORE;
}

/* map-names.c */
void
fr_map_names_clear (FrMapCache *cache);

/* Finds the names' places if anything they depend on has changed. */
void
fr_map_names_place (const FrMapFrame *frame);

void
fr_map_names_draw (const FrMapFrame *frame);

/* A text with a halo of the ground; its box goes to the labels. */
void
fr_map_text (const FrMapFrame *frame, PangoLayout *layout, double x_px, double y_px, FrRole role);

PangoLayout *
fr_map_layout (const FrMapFrame *frame, const char *text, gboolean is_bold, double size_px);

/* map-furniture.c */
void
fr_map_furniture_boxes (const FrMapFrame *frame);

void
fr_map_draw_furniture (const FrMapFrame *frame);

/* A scale bar that ends at @right_px, its line at @y_px; the north disc round a point. */
void
fr_map_put_bar (const FrMapFrame *frame, const FrScaleBar *bar, double right_px, double y_px);

void
fr_map_put_north (const FrMapFrame *frame, double x_px, double y_px);
