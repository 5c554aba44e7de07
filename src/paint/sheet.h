/* One page for the shed wall: the sentence, the times large enough to read from two metres, the figures, the
 * feed, the cautions and the trace, as a PDF. All texts come worded; this file only finds them room. Nothing
 * is cut: when it is too much for a page the type gets smaller down to its floor, and then there is a second
 * page. */
#pragma once

#include "paint/trace.h"

typedef enum
{
  FR_SHEET_A4,    /* 210 × 297 mm */
  FR_SHEET_LETTER /* 8.5 × 11 in */
} FrSheetSize;

/**
 * FrSheetFigure:
 * @label: above the value, "Left in the pan"
 * @value_markup: Pango markup, "<b>0.97</b> kg"
 * @note: below, or NULL
 */
typedef struct
{
  const char *label;
  const char *value_markup;
  const char *note;
} FrSheetFigure;

/**
 * FrSheetTime:
 * One of the big times: @time "19:00", @word "Switch on".
 */
typedef struct
{
  const char *time;
  const char *word;
} FrSheetTime;

/**
 * FrSheetCaution:
 * @passed: a check that went well: a tick instead of the triangle
 */
typedef struct
{
  const char *text;
  gboolean passed;
} FrSheetCaution;

/**
 * FrSheet:
 * Any text may be NULL and any list empty; its part is then left out. Markup is Pango's.
 * @title: also the document's title in the PDF
 * @author: whose book, for the PDF's own data
 * @sentence_markup: what to do, quantities in <b>
 * @trace: drawn with the paper palette; NULL leaves it out
 * @footer: at the foot of every page
 * @font_family: NULL is the house's list
 * @right_to_left: figures and marks run from the right; paragraphs find their direction themselves
 */
typedef struct
{
  const char *title;
  const char *author;
  const char *date;
  const char *sentence_markup;
  const char *reason;
  const FrSheetTime *times;
  gsize n_times;
  const FrSheetFigure *figures;
  gsize n_figures;
  const FrTraceView *trace;
  const char *feed_heading;
  const FrSheetFigure *feeds;
  gsize n_feeds;
  const char *cautions_heading;
  const FrSheetCaution *cautions;
  gsize n_cautions;
  const char *footer;
  const char *font_family;
  gboolean right_to_left;
} FrSheet;

/**
 * fr_sheet_pdf:
 * @n_pages: (out) (optional): how many pages it took
 *
 * Returns: (transfer full): the PDF, or NULL and @error when a text's markup is broken or memory ran out
 */
GBytes *
fr_sheet_pdf (const FrSheet *sheet, FrSheetSize size, guint *n_pages, GError **error);

typedef enum
{
  FR_PAINT_ERROR_SURFACE,  /* cairo could not make the document; the message is cairo's */
  FR_PAINT_ERROR_NOTHING,  /* there is nothing to print; the message is for programmers */
  FR_PAINT_ERROR_TOO_LARGE /* it would take too many pages; the message is for programmers */
} FrPaintError;

#define FR_PAINT_ERROR (fr_paint_error_quark ())
GQuark
fr_paint_error_quark (void);
