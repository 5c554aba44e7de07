/* A month's parts, between its own files. */
#pragma once

#include "paint/canvas.h"
#include "paint/month.h"
#include "paint/season-marks.h"

#define FR_MONTH_DATE_PX 13.0
#define FR_MONTH_NUMBER_PX 11.5

typedef struct
{
  FrCanvas canvas;
  const FrMonth *month;
  FrMonthLayout layout;
  double farthest_c; /* from freezing, of all days of the view: half a pill's room */
  double full_l;     /* what fills the gauge: the capacity, else the most there ever was; NAN: no gauge */
  gboolean with_unit;
} FrMonthPaint;

/* month-cell.c: one measure for the whole season, so that months compare. */
void
fr_month_choose_scales (FrMonthPaint *p);

/* One cell; @day is NULL where nothing is known. */
void
fr_month_draw_cell (FrMonthPaint *p, FrDate date, const FrSeasonDay *day, const cairo_rectangle_t *cell);
