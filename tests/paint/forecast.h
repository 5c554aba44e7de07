/* An invented forecast to draw: eleven days of a March, three of them behind, typed in. */
#pragma once

#include "paint/forecast-chart.h"
#include "paint/forecast-season.h"

#define FORECAST_DAYS 11
#define FORECAST_PAST 3
#define FORECAST_HOURS ((FORECAST_DAYS + 2) * 24)

typedef struct
{
  FrForecast forecast;
  FrForecastDay days[FORECAST_DAYS];
  double temp_c[FORECAST_HOURS];
  guint8 is_forecast[FORECAST_HOURS];
  guint8 from[FORECAST_HOURS];
  FrAirHours air;
  FrForecastHead heads[FORECAST_DAYS];
  FrForecastChartTexts texts;
  FrForecastChart chart;
} Forecast;

void
forecast_fill (Forecast *forecast);

#define FORECAST_SEASON_DAYS 70
#define FORECAST_PASTS 4

/* From 20 February to 30 April: the same days and the rest of the season as past ones would have it. */
typedef struct
{
  Forecast forecast;
  FrForecastDay days[FORECAST_SEASON_DAYS];
  double past_l[FORECAST_PASTS][FORECAST_SEASON_DAYS];
  FrSeasonPast past[FORECAST_PASTS];
  FrSeasonMonth months[3];
  FrForecastSeason season;
} ForecastSeason;

void
forecast_season_fill (ForecastSeason *season);

/* Low and high of a column as typed in, at 06:00 and 15:00. */
void
forecast_extremes (guint column, double *low_c, double *high_c);
