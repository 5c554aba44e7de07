/* A season on paper, lying: the answer first, then the season's picture; then, each if asked for, the months,
 * a page each, and the days as a table. Paper palette; nothing is cut. */
#pragma once

#include "paint/field-sheet.h"
#include "paint/month.h"
#include "paint/season-strip.h"

/**
 * FrSeasonSheet:
 * Any text may be NULL.
 * @sentence_markup: the answer, quantities in <b>
 * @reason: a soft line below it
 * @strip: its selection is not drawn
 * @months, @month_names: (nullable): their selection is not drawn either; "March 2026"
 * @table: (nullable): the days; its title stands over it, its footer and font are the sheet's
 */
typedef struct
{
  const char *title;
  const char *author;
  const char *date;
  const char *sentence_markup;
  const char *reason;
  const char *footer;
  const char *font_family;
  const FrSeasonStrip *strip;
  const FrMonth *months;
  const char *const *month_names;
  gsize n_months;
  const FrFieldSheet *table;
} FrSeasonSheet;

/**
 * fr_season_sheet_pdf:
 * @n_pages: (out) (optional)
 *
 * Returns: (transfer full): the PDF, or NULL and @error when the sentence's markup is broken or memory ran
 * out
 */
GBytes *
fr_season_sheet_pdf (const FrSeasonSheet *sheet, FrSheetSize size, guint *n_pages, GError **error);
