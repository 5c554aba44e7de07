/* The blocks of a sheet, between its own files. A page is a column of blocks none of which is ever split: a
 * paragraph is one block a line, so a long text breaks between lines. */
#pragma once

#include "paint/canvas.h"
#include "paint/sheet.h"

/* Points. */
#define FR_SHEET_MARGIN_PT 42.0
#define FR_SHEET_LEAST_TYPE_PT 8.0
/* Letters are read at two hundred times their height (common practice, no source): two metres need capitals
 * of 10 mm, which is 40 pt type in a face whose capitals are 0.7 of it. */
#define FR_SHEET_LEAST_TIME_PT 40.0

typedef enum
{
  FR_BLOCK_LINE,  /* one line of a paragraph */
  FR_BLOCK_CELLS, /* a row of figures or times */
  FR_BLOCK_TRACE,
  FR_BLOCK_RULE
} FrBlockKind;

typedef enum
{
  FR_MARK_NONE,
  FR_MARK_TRIANGLE,
  FR_MARK_TICK
} FrMark;

typedef struct
{
  double x_pt;
  double y_pt;
  PangoLayout *layout;
  FrRole role;
} FrCellText;

typedef struct
{
  FrBlockKind kind;
  double gap_pt;
  double height_pt;
  double x_pt;
  gboolean keep_with_next;
  guint paragraph;     /* blocks of one paragraph share a number */
  const char *tag;     /* PDF structure */
  PangoLayout *layout; /* LINE */
  int line;
  FrMark mark;
  FrRole role;
  GArray *cells; /* CELLS: FrCellText */
} FrBlock;

typedef struct
{
  const FrSheet *sheet;
  PangoContext *context;
  double width_pt; /* of the column */
  double room_pt;  /* height of the column */
  double type_ratio;
  guint n_paragraphs;
  GArray *blocks;
} FrColumn;

/* Builds the blocks at column->type_ratio. */
gboolean
fr_column_fill (FrColumn *column, GError **error);

void
fr_column_clear (FrColumn *column);

/* The page of each block from 0; returns the number of pages. */
guint
fr_column_pages (const FrColumn *column, GArray *pages);

void
fr_column_draw_page (const FrColumn *column, const GArray *pages, guint page, cairo_t *cr, double x_pt,
                     double y_pt);
