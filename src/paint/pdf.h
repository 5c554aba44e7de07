/* What all sheets share: the document, its fonts, and texts in points. Private to this room. */
#pragma once

#include "paint/sheet.h"

typedef struct
{
  GByteArray *bytes;
  cairo_surface_t *surface;
  cairo_t *cr;
  double width_pt;
  double height_pt;
} FrPdf;

#define FR_PDF_PT_PER_M (72.0 / 0.0254)

void
fr_pdf_size (FrSheetSize size, gboolean is_landscape, double *width_pt, double *height_pt);

/* @title and @author may be NULL. */
void
fr_pdf_open (FrPdf *pdf, double width_pt, double height_pt, const char *title, const char *author);

/* Ends the document and gives it up; NULL and @error when cairo could not make it. */
GBytes *
fr_pdf_close (FrPdf *pdf, GError **error);

/* Fonts for paper: letters stand where the design puts them. @font_family: NULL is the house's list. */
PangoContext *
fr_pdf_context_new (const char *font_family, gboolean right_to_left);

/* Wrapped at @width_pt, or one line when that is 0. */
PangoLayout *
fr_pdf_text (PangoContext *context, const char *text, double size_pt, gboolean is_bold, double width_pt);

/* In the paper palette. @tag: of the PDF's structure, or NULL. */
void
fr_pdf_show (cairo_t *cr, PangoLayout *layout, FrRole role, double x_pt, double y_pt, const char *tag);
