/* The scenes of the drawn widgets, on a sheet. */
#include "ui/forecast-paper.h"

#include <glib/gi18n-lib.h>

#include "paint/forecast-sheet.h"
#include "ui/forecast-scene.h"
#include "ui/paper-table.h"
#include "words/forecast-day-words.h"
#include "words/score-words.h"

GBytes *
fr_forecast_paper_pdf (FrForecaster *forecaster, const FrScoreTable *scores, FrSeason *season, FrSheetSize size, guint *n_pages,
                       GError **error)
{
  const FrForecast *forecast = fr_forecaster_get (forecaster);
  const FrBookForecast *asked = fr_forecaster_get_asked (forecaster);
  const FrForecastAnswer *answer = fr_forecaster_get_answer (forecaster);
  const FrSay *say = fr_season_get_say (season);
  const FrHousehold *household = fr_book_get_household (fr_season_get_book (season));
  g_autofree char *title = fr_forecast_title (), *sentence = NULL, *reason = NULL, *note = NULL;
  g_autofree char *date = fr_say_date (fr_season_get_today (season)), *clock = fr_say_clock (say, fr_season_get_now (season));
  g_autoptr (FrForecastChartScene) chart = NULL;
  g_autoptr (FrForecastSeasonScene) so_far = NULL;
  g_autoptr (FrPaperWords) days = NULL, scored = NULL;
  g_auto (FrPaperTable) table = { NULL }, score_table = { NULL };
  g_autofree char *score_notes = NULL;
  FrForecastSheet sheet = { .title = title, .date = date, .season_title = fr_forecast_season_title () };
  FrDate first;
  guint n_days;

  if (forecast == NULL || asked == NULL || answer == NULL)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_BUSY, _ ("The days ahead are being worked out."));
      return NULL;
    }
  sheet.author = sheet.footer = household != NULL ? household->name : NULL;
  sheet.sentence_markup = sentence = fr_forecast_paper_answer (forecast, answer, fr_forecaster_get_tap_dates (forecaster),
                                                               fr_forecaster_get_kitchen (forecaster), say, &reason);
  sheet.reason = reason;
  n_days = fr_forecast_paper_days (forecast, &first);
  if (n_days > 0)
    {
      chart = fr_forecast_chart_scene_new (forecast, asked, first, n_days, clock, &say->units);
      so_far = fr_forecast_season_scene_new (forecast, fr_season_get_present (season)->season,
                                             fr_season_is_present (season) ? fr_season_get_past_view (season) : NULL, &say->units);
      days = fr_forecast_table_words_new (forecast, say);
      fr_paper_table_init (&table, days, say);
      note = fr_forecast_season_words (forecast, say);
      sheet.chart = &chart->chart;
      sheet.days = &table.sheet;
      sheet.season = &so_far->season;
      sheet.season_note = note;
    }
  if (scores != NULL && scores->n >= FR_SCORES_LEAST)
    {
      g_autoptr (GPtrArray) notes = fr_score_table_notes (scores->rows[FR_SCORE_OBSERVED], fr_score_table_drawn (scores),
                                                          scores->n_inside, scores->n);

      scored = fr_score_table_words_new (scores->rows[FR_SCORE_OBSERVED], scores->n, &say->units);
      fr_paper_table_init (&score_table, scored, say);
      g_ptr_array_add (notes, NULL);
      sheet.scores = &score_table.sheet;
      sheet.scores_note = score_notes = g_strjoinv ("\n", (char **)notes->pdata);
    }
  return fr_forecast_sheet_pdf (&sheet, size, n_pages, error);
}
