/* One day of the sap forecast in words, for the panel beside the chart and for who hears it. */
#pragma once

#include "domain/plan/forecast.h"
#include "words/say.h"

G_BEGIN_DECLS

/**
 * FrForecastDayWords:
 * @title: "Saturday 13 March"
 * @note: until when the day counts, or what came before it; NULL for nothing to say
 * @number: "19"; @unit: "L from 14 taps"; both NULL when no litres are known
 * @range: "11 to 30 L, eight times in ten"; NULL likewise
 * @rows: (element-type FrFigure): label, number and unit
 * @spoken: all of it in one sentence or two
 */
typedef struct
{
  char *title;
  char *note;
  char *number;
  char *unit;
  char *range;
  GPtrArray *rows;
  char *spoken;
} FrForecastDayWords;

/**
 * fr_forecast_day_words_new:
 * @day: of @forecast
 * @gather_hour: of the day on the local clock, −1 not told
 * @came_l: litres that were written down for that day, NAN for none
 */
FrForecastDayWords *fr_forecast_day_words_new (const FrForecast *forecast, const FrForecastDay *day, gint gather_hour, double came_l,
                                               const FrSay *say);
/* How sweet its sap is likely to be, with what eight times in ten is off either way. */
void fr_forecast_day_words_add_sugar (FrForecastDayWords *words, double mean_brix, double brix_sd, const FrSay *say);
void fr_forecast_day_words_free (FrForecastDayWords *words);

/* "Friday will bring 8 to 22 L.", markup, of the next day on which a run is as likely as not and all before it; NULL when the forecast
 * knows no day to come. */
char *fr_forecast_next_sentence (const FrForecast *forecast, const FrSay *say);
/* The next such day, NULL without one: as likely as not, within the weather known. */
const FrForecastDay *fr_forecast_next_run (const FrForecast *forecast);

/* "8 to 22 L", one number when both read alike. */
char *fr_forecast_litres_words (double lo_l, double hi_l, const FrSay *say);
/* What came so far and what the season may come to. */
char *fr_forecast_season_words (const FrForecast *forecast, const FrSay *say);
/* What the bush's own litres made of it; NULL when nothing was learned yet. */
char *fr_forecast_learned_words (const FrForecast *forecast, const FrSay *say);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecastDayWords, fr_forecast_day_words_free)

G_END_DECLS
