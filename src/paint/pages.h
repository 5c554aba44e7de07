/* Pages of a document that is more than a column of blocks: texts, date, footer and page number in the same
 * places on all of them. Private to this room. */
#pragma once

#include "paint/pdf.h"

#define FR_PAGES_MARGIN_PT 42.0
#define FR_PAGES_FOOT_PT 14.0

/**
 * FrPages:
 * @column_pt: between the margins
 * @page: of the page in the making, from 0
 * @footer, @date: may be NULL
 */
typedef struct
{
  PangoContext *context;
  FrPdf pdf;
  double width_pt;
  double height_pt;
  double column_pt;
  guint page;
  guint n_pages;
  const char *footer;
  const char *date;
} FrPages;

/* @pages->context is there; the document is opened. */
void
fr_pages_open (FrPages *pages, FrSheetSize size, gboolean is_landscape, const char *title,
               const char *author);

/* Where a page's content begins and ends. */
double
fr_pages_top_pt (const FrPages *pages);
double
fr_pages_bottom_pt (const FrPages *pages);

/* A text of as many lines as it needs; the y below it. One that would take a third of the page is smaller. */
double
fr_pages_put (FrPages *pages, PangoLayout *layout, double y_pt, FrRole role, const char *tag);
/* The same of a string; nothing for NULL or "". */
double
fr_pages_put_text (FrPages *pages, const char *text, double size_pt, gboolean is_bold, double y_pt,
                   FrRole role, const char *tag);
/* The answer, of Pango markup. FALSE and @error when that is broken; NULL is no answer. */
gboolean
fr_pages_put_answer (FrPages *pages, const char *markup, double *y_pt, GError **error);
/* The date, ending at @y_pt, at the right. */
void
fr_pages_put_date (FrPages *pages, double y_pt);

/* Footer, number, next page. */
void
fr_pages_end (FrPages *pages);
