/* The texts of the forecast's drawings, and of what stands with them on paper. Window and command line both print these. */
#pragma once

#include "domain/plan/forecast-answer.h"
#include "domain/plan/sap-kitchen.h"
#include "domain/plan/tap-date.h"
#include "words/paper-words.h"

G_BEGIN_DECLS

/* Days that a drawing on paper has room for. */
#define FR_FORECAST_PAPER_DAYS 14

/**
 * FrForecastChartWords:
 * Of the days in one frame.
 * @heads: two texts a day: "Sat" and "13"
 */
typedef struct
{
  const char *chance;
  const char *litres;
  const char *gap;
  const char *beyond;
  const char *empty;
  const char *no_run;
  const char *caption;
  char *now;
  GPtrArray *heads;
} FrForecastChartWords;

/* A month's name at its first day. */
typedef struct
{
  guint day; /* since the first */
  char *label;
  char *label_short;
} FrForecastMonthMark;

/**
 * FrForecastSeasonWords:
 * Of the season so far and to come.
 * @past_name, @past_words: NULL when there is no other season
 * @months: (element-type FrForecastMonthMark)
 */
typedef struct
{
  const char *likely;
  const char *empty;
  char *unit;
  char *past_name;
  char *past_words;
  GArray *months;
} FrForecastSeasonWords;

/* @clock: (nullable): the moment, as a clock time */
FrForecastChartWords *fr_forecast_chart_words_new (FrDate first, guint n_days, const char *clock, const FrUnits *units);
void fr_forecast_chart_words_free (FrForecastChartWords *words);

/* @past_season: the year of another season that is drawn behind it, 0 for none */
FrForecastSeasonWords *fr_forecast_season_words_new (FrDate first, FrDate last, guint past_season, const FrUnits *units);
void fr_forecast_season_words_free (FrForecastSeasonWords *words);

/* Which days stand on paper: from the day before the moment as far as there is room; how many. */
guint fr_forecast_paper_days (const FrForecast *forecast, FrDate *first_out);

/* "Sap Forecast" */
char *fr_forecast_title (void);
/* "The Season So Far"; static. */
const char *fr_forecast_season_title (void);

/* These days, a row each. */
FrPaperWords *fr_forecast_table_words_new (const FrForecast *forecast, const FrSay *say);

/**
 * fr_forecast_paper_answer:
 * @dates: (nullable): when to tap, while no hole is drilled
 * @kitchen: (nullable)
 * @reason_out: (out): what stands under it, a line each: why, nights to boil, what to mind; may be ""
 *
 * Returns: the answer as markup
 */
char *fr_forecast_paper_answer (const FrForecast *forecast, const FrForecastAnswer *answer, const FrTapDates *dates,
                                const FrKitchen *kitchen, const FrSay *say, char **reason_out);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecastChartWords, fr_forecast_chart_words_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecastSeasonWords, fr_forecast_season_words_free)

G_END_DECLS
