/* The plan's pages, between their own files. */
#pragma once

#include "paint/map-private.h"
#include "paint/map-sheet.h"
#include "paint/pdf.h"

#define FR_MAP_SHEET_MARGIN_PT 36.0
#define FR_MAP_SHEET_TYPE_RATIO 0.75 /* 12 px of the screen's small text become 9 pt */
#define FR_MAP_SHEET_KEY_PT 15.0

static const FrPalette fr_map_paper = { FR_THEME_PAPER, FALSE };

typedef struct
{
  const FrMapSheet *sheet;
  PangoContext *context;
  double head_pt;   /* the most that title and date may take, */
  double legend_pt; /* and the legend */
  double page_width_pt;
  double page_height_pt;
  double frame_x_pt; /* where the plan is printed */
  double frame_y_pt;
  double frame_width_pt;
  double frame_height_pt;
  double foot_y_pt;
  double pt_per_m;
  double left_pt; /* of the whole grid, in points of the turned plan from its zero */
  double top_pt;
  double step_x_pt;
  double step_y_pt;
  FrMapSheetTiles tiles;
} FrMapPages;

/* The turned plan in points from its own zero. */
static inline FrViewport
fr_map_pages_origin (const FrMapPages *layout)
{
  return (FrViewport){ .px_per_m = layout->pt_per_m,
                       .rotation_deg = layout->sheet->map->viewport.rotation_deg };
}

/* Whether anything lies on a tile of the grid. */
gboolean
fr_map_pages_uses (const FrMapPages *layout, guint column, guint row);

/* A text as high as @most_pt at the most. */
PangoLayout *
fr_map_page_text (const FrMapPages *layout, const char *text, double size_pt, gboolean is_bold,
                  double width_pt, double most_pt);

/* "A1": the column's letters from the west, the row's number from the north. Caller frees. */
char *
fr_map_tile_name (guint column, guint row);

void
fr_map_page_head (const FrMapPages *layout, FrMapFrame *frame, const char *name);

void
fr_map_page_foot (const FrMapPages *layout, FrMapFrame *frame, guint page);

/* The marks to lay a tile's neighbours by. */
void
fr_map_page_joins (const FrMapPages *layout, cairo_t *cr, guint column, guint row);
