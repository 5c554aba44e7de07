/* A forecast as its painters take it: its days with the words for them. Glue between words and paint, shared by the drawn widgets and by the
 * paper. */
#pragma once

#include "domain/plan/book-forecast.h"
#include "paint/forecast-chart.h"
#include "paint/forecast-season.h"
#include "words/forecast-picture-words.h"

G_BEGIN_DECLS

/**
 * FrForecastChartScene:
 * @chart: ready to draw; whoever draws fills in what is selected and hovered
 */
typedef struct
{
  FrUnits units;
  FrForecastChartWords *words;
  FrForecastHead *heads;
  FrForecastChartTexts texts;
  FrForecastChart chart;
} FrForecastChartScene;

/* @season: ready to draw; whoever draws fills in what is selected. */
typedef struct
{
  FrUnits units;
  FrForecastSeasonWords *words;
  FrSeasonMonth *months;
  double *past_l;
  FrSeasonPast past;
  FrForecastSeason season;
} FrForecastSeasonScene;

/* @forecast (nullable) and @asked have to stay until the scene is freed; @clock: the moment, NULL for none. */
FrForecastChartScene *fr_forecast_chart_scene_new (const FrForecast *forecast, const FrBookForecast *asked, FrDate first, guint n_days,
                                                   const char *clock, const FrUnits *units);
void fr_forecast_chart_scene_free (FrForecastChartScene *scene);

/* @forecast, which has days, has to stay until the scene is freed; @past, another season, is NULL or copied. */
FrForecastSeasonScene *fr_forecast_season_scene_new (const FrForecast *forecast, guint season, const FrSeasonView *past,
                                                     const FrUnits *units);
void fr_forecast_season_scene_free (FrForecastSeasonScene *scene);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecastChartScene, fr_forecast_chart_scene_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrForecastSeasonScene, fr_forecast_season_scene_free)

G_END_DECLS
