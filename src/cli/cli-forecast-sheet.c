/* The forecast on paper: its answer, its picture, its days as a table and the season so far, by the words that the window prints with. How
 * well it did stands only on the window's sheet: frostrun-cli score tells it. */
#include "cli/cli-forecast-sheet.h"

#include "cli/cli-table.h"
#include "domain/plan/book-answer.h"
#include "paint/forecast-sheet.h"
#include "words/forecast-day-words.h"
#include "words/forecast-picture-words.h"

#include <math.h>

/* --- the days --- */

static void
fill_texts (FrForecastChartTexts *texts, const FrForecastChartWords *words, FrForecastHead *heads)
{
  for (guint i = 0; i < words->heads->len / 2; i++)
    heads[i] = (FrForecastHead){ words->heads->pdata[2 * i], words->heads->pdata[2 * i + 1] };
  *texts = (FrForecastChartTexts){ .chance = words->chance,
                                   .litres = words->litres,
                                   .now = words->now,
                                   .gap = words->gap,
                                   .beyond = words->beyond,
                                   .empty = words->empty,
                                   .no_run = words->no_run,
                                   .caption = words->caption,
                                   .heads = heads };
}

/* --- the season --- */

typedef struct
{
  FrForecastSeasonWords *words;
  FrSeasonView *past_view; /* NULL when nothing was gathered in it */
  double *past_l;
  FrSeasonPast past;
  FrSeasonMonth *months;
  FrForecastSeason season;
} Season;

static void
season_init (Season *season, const FrCliBush *bush, const FrForecast *forecast)
{
  const guint year = fr_season_of (bush->today);
  const FrDate first = forecast->days[0].date, last = forecast->days[forecast->n_days - 1].date;

  *season = (Season){ .past_view = fr_season_view_new (&bush->evening.book, year - 1, bush->now_utc) };
  if (!(season->past_view->tally.n_gathering_days > 0))
    g_clear_pointer (&season->past_view, fr_season_view_free);
  season->words = fr_forecast_season_words_new (first, last, season->past_view != NULL ? year - 1 : 0,
                                                &bush->evening.say.units);
  season->months = g_new0 (FrSeasonMonth, season->words->months->len);
  for (guint i = 0; i < season->words->months->len; i++)
    {
      const FrForecastMonthMark *mark = &g_array_index (season->words->months, FrForecastMonthMark, i);

      season->months[i] = (FrSeasonMonth){ mark->day, mark->label, mark->label_short };
    }
  season->season = (FrForecastSeason){ .forecast = forecast,
                                       .units = &bush->evening.say.units,
                                       .season = year,
                                       .first = first,
                                       .last = last,
                                       .months = season->months,
                                       .n_months = season->words->months->len,
                                       .unit = season->words->unit,
                                       .past_words = season->words->past_words,
                                       .likely = season->words->likely,
                                       .empty = season->words->empty };
  if (season->past_view == NULL)
    return;
  season->past_l = g_new (double, season->past_view->n_days);
  for (guint i = 0; i < season->past_view->n_days; i++)
    season->past_l[i] = season->past_view->days[i].gathered_l;
  season->past = (FrSeasonPast){ season->words->past_name, year - 1, season->past_view->days[0].date,
                                 season->past_view->n_days, season->past_l };
  season->season.past = &season->past;
  season->season.n_past = 1;
}

static void
season_clear (Season *season)
{
  fr_forecast_season_words_free (season->words);
  g_clear_pointer (&season->past_view, fr_season_view_free);
  g_free (season->past_l);
  g_free (season->months);
}

/* --- all --- */

GBytes *
fr_cli_forecast_sheet (const FrCliBush *bush, const char *household, FrSheetSize size, guint *n_pages, guint *n_rows,
                       GError **error)
{
  const FrSeasonBook *book = &bush->evening.book;
  const FrSay *say = &bush->evening.say;
  g_autoptr (FrBookForecast) asked = fr_book_forecast_new (book, NULL, NULL, NAN, bush->now_utc);
  g_autoptr (FrForecast) forecast = fr_book_forecast_answer (asked);
  g_autoptr (FrTapDates) dates = asked->question.tapped.year == 0 ? fr_tap_dates_new (&asked->question) : NULL;
  g_autoptr (FrForecastChartWords) words = NULL;
  g_autoptr (FrPaperWords) days = fr_forecast_table_words_new (forecast, say);
  g_autofree char *title = fr_forecast_title (), *date = fr_say_date (bush->today),
                  *clock = fr_say_clock (say, bush->now_utc), *sentence = NULL, *reason = NULL, *note = NULL;
  g_auto (FrCliTable) table = { NULL };
  FrForecastHead heads[FR_FORECAST_PAPER_DAYS];
  FrForecastChartTexts texts;
  FrForecastAnswer answer;
  g_autoptr (FrKitchen) kitchen = fr_book_answer (book, asked, forecast, bush->now_utc, &answer);
  FrForecastSheet sheet = { .title = title, .author = household, .date = date, .footer = household };
  FrForecastChart chart;
  FrDate first;
  const guint n_days = fr_forecast_paper_days (forecast, &first);
  Season season = { 0 };
  GBytes *pdf;

  sheet.sentence_markup = sentence = fr_forecast_paper_answer (forecast, &answer, dates, kitchen, say, &reason);
  sheet.reason = reason;
  fr_cli_table_init (&table, days, say);
  if (n_days > 0)
    {
      words = fr_forecast_chart_words_new (first, n_days, clock, &say->units);
      fill_texts (&texts, words, heads);
      chart = (FrForecastChart){ .forecast = forecast,
                                 .air = asked->air,
                                 .gather_hour = asked->question.gather_hour,
                                 .is_per_tap = asked->question.n_groups == 0,
                                 .units = &say->units,
                                 .texts = &texts,
                                 .first = first,
                                 .n_days = n_days,
                                 .today = asked->today,
                                 .now_h = asked->now_h };
      season_init (&season, bush, forecast);
      note = fr_forecast_season_words (forecast, say);
      sheet.chart = &chart;
      sheet.days = &table.sheet;
      sheet.season_title = fr_forecast_season_title ();
      sheet.season = &season.season;
      sheet.season_note = note;
    }
  pdf = fr_forecast_sheet_pdf (&sheet, size, n_pages, error);
  *n_rows = days->n_rows;
  season_clear (&season);
  return pdf;
}
