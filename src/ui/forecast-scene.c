/* Words and days put together, one by one. */
#include "ui/forecast-scene.h"

/* Own measures are not needed to write numbers, and not ours to keep. */
static FrUnits
plain_units (const FrUnits *units)
{
  FrUnits plain = *units;

  plain.measures = NULL;
  plain.n_measures = 0;
  return plain;
}

FrForecastChartScene *
fr_forecast_chart_scene_new (const FrForecast *forecast, const FrBookForecast *asked, FrDate first, guint n_days, const char *clock,
                             const FrUnits *units)
{
  FrForecastChartScene *scene = g_new0 (FrForecastChartScene, 1);
  const FrForecastChartWords *words = scene->words = fr_forecast_chart_words_new (first, n_days, clock, units);

  scene->units = plain_units (units);
  scene->heads = g_new0 (FrForecastHead, n_days);
  for (guint i = 0; i < n_days; i++)
    scene->heads[i] = (FrForecastHead){ words->heads->pdata[2 * i], words->heads->pdata[2 * i + 1] };
  scene->texts = (FrForecastChartTexts){ .chance = words->chance,
                                         .litres = words->litres,
                                         .now = words->now,
                                         .gap = words->gap,
                                         .beyond = words->beyond,
                                         .empty = words->empty,
                                         .no_run = words->no_run,
                                         .caption = words->caption,
                                         .heads = scene->heads };
  scene->chart = (FrForecastChart){ .forecast = forecast,
                                    .air = asked->air,
                                    .gather_hour = asked->question.gather_hour,
                                    .is_per_tap = asked->question.n_groups == 0,
                                    .units = &scene->units,
                                    .texts = &scene->texts,
                                    .first = first,
                                    .n_days = n_days,
                                    .today = asked->today,
                                    .now_h = asked->now_h };
  return scene;
}

void
fr_forecast_chart_scene_free (FrForecastChartScene *scene)
{
  if (scene == NULL)
    return;
  fr_forecast_chart_words_free (scene->words);
  g_free (scene->heads);
  g_free (scene);
}

static void
add_past (FrForecastSeasonScene *scene, const FrSeasonView *past)
{
  scene->past_l = g_new (double, past->n_days);
  for (guint i = 0; i < past->n_days; i++)
    scene->past_l[i] = past->days[i].gathered_l;
  scene->past = (FrSeasonPast){ scene->words->past_name, past->season, past->days[0].date, past->n_days, scene->past_l };
  scene->season.past = &scene->past;
  scene->season.n_past = 1;
}

FrForecastSeasonScene *
fr_forecast_season_scene_new (const FrForecast *forecast, guint season, const FrSeasonView *past, const FrUnits *units)
{
  FrForecastSeasonScene *scene = g_new0 (FrForecastSeasonScene, 1);
  const FrDate first = forecast->days[0].date, last = forecast->days[forecast->n_days - 1].date;
  const FrForecastSeasonWords *words = scene->words
      = fr_forecast_season_words_new (first, last, past != NULL ? past->season : 0, units);

  scene->units = plain_units (units);
  scene->months = g_new0 (FrSeasonMonth, words->months->len);
  for (guint i = 0; i < words->months->len; i++)
    {
      const FrForecastMonthMark *mark = &g_array_index (words->months, FrForecastMonthMark, i);

      scene->months[i] = (FrSeasonMonth){ mark->day, mark->label, mark->label_short };
    }
  scene->season = (FrForecastSeason){ .forecast = forecast,
                                      .units = &scene->units,
                                      .season = season,
                                      .first = first,
                                      .last = last,
                                      .months = scene->months,
                                      .n_months = words->months->len,
                                      .unit = words->unit,
                                      .past_words = words->past_words,
                                      .likely = words->likely,
                                      .empty = words->empty };
  if (past != NULL)
    add_past (scene, past);
  return scene;
}

void
fr_forecast_season_scene_free (FrForecastSeasonScene *scene)
{
  if (scene == NULL)
    return;
  fr_forecast_season_words_free (scene->words);
  g_free (scene->months);
  g_free (scene->past_l);
  g_free (scene);
}
