/* What stands on the sheets that are taken to the trees: the field sheet's rows in walking order with boxes to fill in, and the
 * lines round the map on paper. */
#pragma once

#include "domain/plan/bush.h"
#include "words/say.h"

G_BEGIN_DECLS

typedef enum
{
  FR_PAPER_GATHERING, /* the trees with taps set or planned: boxes for litres, sweetness, remarks */
  FR_PAPER_MEASURING, /* every tree: boxes for girth, taps, remarks */
  FR_N_PAPERS
} FrPaperKind;

typedef enum
{
  FR_PAPER_NUMBER,
  FR_PAPER_TEXT,
  FR_PAPER_BOX
} FrPaperColumnKind;

typedef struct
{
  const char *title; /* as in the source, NULL for none; see fr_paper_column_title */
  FrPaperColumnKind kind;
  FrQuantityKind quantity; /* of the numbers without a unit that stand in it or are written into a box; plain: words */
  double share_ratio; /* of a box: how much of the width left over */
} FrPaperColumn;

/**
 * FrPaperWords:
 * @cells: @n_rows times @n_columns texts, NULL is empty
 * @headings: for each row NULL or what stands above it
 */
typedef struct
{
  char *title;
  char *sentence;
  const FrPaperColumn *columns;
  guint n_columns;
  guint n_rows;
  GPtrArray *cells;
  GPtrArray *headings;
} FrPaperWords;

/**
 * fr_paper_words_new:
 * @round: (nullable): the trees in walking order; those of the kind that are not in it follow by name
 */
FrPaperWords *
fr_paper_words_new (const FrBush *bush, FrPaperKind kind, const FrBushRound *round, const FrSay *say);
void
fr_paper_words_free (FrPaperWords *words);

/* "Sap, L": the title in the person's language, with the unit that is to be written. */
char *
fr_paper_column_title (const FrPaperColumn *column, const FrSay *say);
/* Of a cell, without its unit, which stands over the column; NULL when unknown, nothing is a plain 0. */
char *
fr_paper_number (const FrSay *say, double value, FrQuantityKind kind, int decimals);
/* "Map of the Sugarbush 2026". */
char *
fr_paper_map_title (const FrBush *bush);
/* "Filled: sap a tap, full at 15 L. Dashed outline: weak. ×: do not tap. …"; @filled: what the filling shows, without a full
 * stop, NULL for nothing. */
char *
fr_paper_map_legend (const char *filled);
/* The same for litres a tap. */
char *
fr_paper_litres_filled (double full_l, const FrSay *say);
/* "1 : 500". */
char *
fr_paper_scale (double scale_ratio, const FrSay *say);
/* "3 pages"; "Too many pages: 412. Choose a scale that shows it smaller." */
char *
fr_paper_pages (guint n_pages, guint most, const FrSay *say);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrPaperWords, fr_paper_words_free)

G_END_DECLS
