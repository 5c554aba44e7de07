/* A table on paper with boxes to fill in by hand: the gathering round, the list of trees. Columns and rows
 * come as plain texts; the header row is repeated on every page. Nothing is cut: a long text wraps, a row
 * never breaks over pages unless it alone is longer than one. */
#pragma once

#include "paint/sheet.h"

typedef enum
{
  FR_FIELD_SHEET_TEXT,   /* starts at the column's edge */
  FR_FIELD_SHEET_NUMBER, /* ends at its right edge, tabular figures */
  FR_FIELD_SHEET_BOX     /* empty box to write in; a text in it is small and soft, at its upper corner */
} FrFieldSheetKind;

/**
 * FrFieldColumn:
 * @title: in the header row, may be NULL
 * @width_m: for boxes: the least width; others are as wide as their texts. 0 or NAN takes 18 mm
 * @share_ratio: for boxes: how the width left over is shared among them, 0 counts as 1
 */
typedef struct
{
  const char *title;
  FrFieldSheetKind kind;
  double width_m;
  double share_ratio;
} FrFieldColumn;

/**
 * FrFieldSheet:
 * Any text may be NULL.
 * @title: also the document's title
 * @sentence: under the title: "14 buckets on 11 trees, 310 m, from the boiling shed."
 * @cells: @n_rows times @n_columns texts, row after row; NULL is empty
 * @headings: (nullable): for each row NULL or a text that stands as a line of its own above it: "Second trip"
 * @row_height_m: least height of a row, to write in; 0 takes 8 mm
 * @footer: at the foot of every page
 */
typedef struct
{
  const char *title;
  const char *author;
  const char *date;
  const char *sentence;
  const FrFieldColumn *columns;
  gsize n_columns;
  const char *const *cells;
  const char *const *headings;
  gsize n_rows;
  double row_height_m;
  const char *footer;
  const char *font_family;
  gboolean is_landscape;
  gboolean right_to_left;
} FrFieldSheet;

/**
 * fr_field_sheet_pdf:
 * @n_pages: (out) (optional): how many pages it took
 *
 * Returns: (transfer full): the PDF, or NULL and @error
 */
GBytes *
fr_field_sheet_pdf (const FrFieldSheet *sheet, FrSheetSize size, guint *n_pages, GError **error);
