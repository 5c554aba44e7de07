/* The plan on paper, true to a chosen scale: one page if it fits, else tiles that overlap, each with its
 * name, its neighbours' names and marks to lay them together by. */
#pragma once

#include "paint/map.h"
#include "paint/sheet.h"

/* How much neighbouring tiles share, and how many pages a plan may take. */
#define FR_MAP_SHEET_OVERLAP_M 0.010
#define FR_MAP_SHEET_MOST_PAGES 200

/**
 * FrMapSheet:
 * Any text may be NULL.
 * @map: trees, shapes, round, picture and the scale bar's unit are drawn; of its viewport only the rotation
 * counts
 * @scale_ratio: metres of the ground in a metre of paper: 500 for 1:500
 * @legend: one line at the foot, "Filled: litres a tap, full at 15 L. Dashed outline: weak. ×: do not tap."
 * @group_names: the words beside the four shapes at the foot, hard to none; NULL: no key. A NULL word is left
 * out
 * @scale_text: worded scale, "1 : 500"; NULL writes it so
 */
typedef struct
{
  const char *title;
  const char *author;
  const char *date;
  const char *legend;
  const char *const *group_names;
  const char *scale_text;
  const char *font_family;
  const FrMapView *map;
  double scale_ratio;
  gboolean is_landscape;
} FrMapSheet;

/**
 * FrMapSheetTiles:
 * How a plan falls on pages.
 * @n_columns, @n_rows: the grid, named A, B, C … from the west and 1, 2, 3 … from the north
 * @n_pages: tiles with something on them: the others are not printed
 */
typedef struct
{
  guint n_columns;
  guint n_rows;
  guint n_pages;
} FrMapSheetTiles;

/* Returns: FALSE when nothing is placed, the scale is not a positive number, or there would be too many pages
 * (then @tiles still tells how many) */
gboolean
fr_map_sheet_tiles (const FrMapSheet *sheet, FrSheetSize size, FrMapSheetTiles *tiles);

/**
 * fr_map_sheet_best_scale:
 * The largest round scale (1:50, 75, 100, 150, 200, 250, 300, 400, 500, 750, 1000 …) at which all is on one
 * page; NAN when nothing is placed.
 */
double
fr_map_sheet_best_scale (const FrMapSheet *sheet, FrSheetSize size);

/**
 * fr_map_sheet_pdf:
 * @n_pages: (out) (optional)
 *
 * Returns: (transfer full): the PDF, or NULL and @error
 */
GBytes *
fr_map_sheet_pdf (const FrMapSheet *sheet, FrSheetSize size, guint *n_pages, GError **error);
