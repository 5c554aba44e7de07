/* The forecast on paper: its answer, its picture, its days, the season and its scores as PDF, by the painters and words that the command line uses too. */
#pragma once

#include "models/forecast-scores.h"
#include "models/season.h"
#include "paint/sheet.h"

G_BEGIN_DECLS

/**
 * fr_forecast_paper_pdf:
 * @scores: (nullable): left out when they are of too few gatherings
 * @n_pages: (out) (optional)
 *
 * Returns: (transfer full): the PDF, or NULL and @error: while the first answer is being worked out too
 */
GBytes *fr_forecast_paper_pdf (FrForecaster *forecaster, const FrScoreTable *scores, FrSeason *season, FrSheetSize size,
                               guint *n_pages, GError **error);

G_END_DECLS
