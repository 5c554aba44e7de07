/* The forecast chart's parts, between its own files. */
#pragma once

#include "paint/axis.h"
#include "paint/canvas.h"
#include "paint/forecast-chart.h"

#include <math.h>

#define FR_FORECAST_NUMBER_PX 12.0
#define FR_FORECAST_SMALL_PX 11.5

typedef struct
{
  FrCanvas canvas;
  const FrForecastChart *chart;
  FrForecastChartLayout layout;
  /* In the shown unit. */
  double air_low_shown;
  double air_high_shown;
  double litres_high_shown;
  double freezing_shown;
  FrAxis air_axis;
  FrAxis litres_axis;
  double name_x_px;
  double caption_y_px; /* NAN: no room */
  guint head_lines;
  gboolean names_inside; /* too narrow for a column of names */
  gboolean is_paper;     /* hatch and outline instead of tints */
  GArray *marks;         /* FrForecastMark, or NULL */
} FrForecastPaint;

/* forecast-layout.c: everything but canvas and chart. */
void
fr_forecast_lay_out (FrForecastPaint *p);
/* The caption as wide as there is room, or NULL. */
PangoLayout *
fr_forecast_caption (FrForecastPaint *p);

/* forecast-days.c: what is asked of the data; what cannot be drawn is NAN. */
const FrForecastDay *
fr_forecast_column_day (const FrForecastPaint *p, guint column);
/* The columns of a date; −1 none. */
gssize
fr_forecast_column_of (const FrForecastPaint *p, FrDate date);
/* In the hours from the first column's midnight on. */
double
fr_forecast_hour_c (const FrForecastPaint *p, gint64 hour);
/* Up to here the hours are observed. */
double
fr_forecast_known_h (const FrForecastPaint *p);
/* Where a day's gathering ends. */
double
fr_forecast_gather_h (const FrForecastPaint *p);
double
fr_forecast_sane_c (double temp_c);
/* All five and the mean, NAN when there is nothing to draw. */
FrLitres
fr_forecast_litres (const FrForecastPaint *p, const FrForecastDay *day);
/* Gathered a day, over so many whole days; NAN none. */
double
fr_forecast_gathered_l (const FrForecastPaint *p, const FrForecastDay *day, guint *n_days);

double
fr_forecast_x (const FrForecastPaint *p, double hour);
double
fr_forecast_air_y (const FrForecastPaint *p, double temp_c);
double
fr_forecast_litres_y (const FrForecastPaint *p, double volume_l);
double
fr_forecast_shown_y (const FrForecastPaint *p, FrForecastLane lane, double shown);

void
fr_forecast_mark (FrForecastPaint *p, FrForecastMarkKind kind, guint day, FrBox box);

/* forecast-air.c */
void
fr_forecast_draw_air (FrForecastPaint *p);
/* Clips to the lane above the freezing line for @half 0, below it for 1; the role of what is there. */
FrRole
fr_forecast_clip_half (FrForecastPaint *p, guint half);
/* forecast-gaps.c */
void
fr_forecast_put_gaps (FrForecastPaint *p);
/* forecast-litres.c */
void
fr_forecast_draw_chance (FrForecastPaint *p);
void
fr_forecast_draw_litres (FrForecastPaint *p);
