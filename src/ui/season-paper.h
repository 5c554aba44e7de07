/* The season on paper: its picture and its days as PDF, by the painters and words that the command line uses
 * too. */
#pragma once

#include "models/season.h"
#include "paint/sheet.h"

G_BEGIN_DECLS

/**
 * fr_season_paper_pdf:
 * @with_months: a page for each month too
 * @n_pages: (out) (optional)
 *
 * Returns: (transfer full): the PDF of the season looked at, or NULL and @error
 */
GBytes *
fr_season_paper_pdf (FrSeason *season, FrSheetSize size, gboolean with_months, guint *n_pages,
                     GError **error);

G_END_DECLS
