/* The sugarbush on paper: the field sheet and the map as PDF, by the painters and words that the command line uses too. */
#pragma once

#include "models/sugarbush.h"
#include "paint/map-sheet.h"
#include "words/paper-words.h"

G_BEGIN_DECLS

typedef struct
{
  gboolean is_map;
  FrPaperKind field;   /* of the field sheet */
  FrSheetSize size;
  gboolean is_landscape;
  double scale_ratio;  /* of the map; NAN: the largest round one that takes one page */
  gboolean with_way;   /* the round on the map */
} FrBushPaper;

/**
 * fr_bush_paper_pdf:
 * @n_pages: (out) (optional)
 *
 * Returns: (transfer full): NULL and @error, a sentence, when there is nothing to print or too much
 */
GBytes *fr_bush_paper_pdf (FrSugarbush *bush, const FrBushPaper *paper, guint *n_pages, GError **error);

/* How many pages the map takes, also when they are too many, and at which scale; FALSE when nothing has a place. */
gboolean fr_bush_paper_tiles (FrSugarbush *bush, const FrBushPaper *paper, FrMapSheetTiles *tiles, double *scale_ratio_out);

G_END_DECLS
