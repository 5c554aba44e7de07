/* The forecast on paper, standing: the answer first, then the days as a picture and as a table, the season,
 * and how well it did. Paper palette; parts that are not there are left out, what has no room on a page goes
 * to the next, and nothing is cut. */
#pragma once

#include "paint/field-sheet.h"
#include "paint/forecast-chart.h"
#include "paint/forecast-reliability.h"
#include "paint/forecast-season.h"

/**
 * FrForecastSheet:
 * Any text and any part may be NULL.
 * @sentence_markup: the answer, quantities in <b>
 * @reason: a soft line below it
 * @chart, @season, @reliability: what is selected or chosen in them is not marked; their captions and empty
 *   words are
 * @days, @scores: rows with a title, a line above the table (@sentence) and their columns; columns to fill in
 *   by hand are texts here
 * @season_note, @scores_note: below the season, below the scores
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
  const FrForecastChart *chart;
  const FrFieldSheet *days;
  const char *season_title;
  const FrForecastSeason *season;
  const char *season_note;
  const FrFieldSheet *scores;
  const char *scores_note;
  const char *reliability_title;
  const FrForecastReliability *reliability;
} FrForecastSheet;

/**
 * fr_forecast_sheet_pdf:
 * @n_pages: (out) (optional)
 *
 * Returns: (transfer full): the PDF, or NULL and @error when the answer's markup is broken or memory ran out
 */
GBytes *
fr_forecast_sheet_pdf (const FrForecastSheet *sheet, FrSheetSize size, guint *n_pages, GError **error);
