/* The pages of a field sheet in a document that has others too. Private to this room. */
#pragma once

#include "paint/field-sheet.h"
#include "paint/pdf.h"

/**
 * fr_field_sheet_draw:
 * @pdf: where to; NULL only counts
 * @n_before, @n_all: pages of the document before these, and altogether, for their numbers
 *
 * Returns: how many pages
 */
guint
fr_field_sheet_draw (const FrFieldSheet *sheet, FrPdf *pdf, PangoContext *context, double page_width_pt,
                     double page_height_pt, guint n_before, guint n_all);
