/* Prices over a day as skylines, one lane a kind of day: taller is dearer. Plain arguments in, cairo out;
 * every text comes worded from the caller. Made for 260 to 1200 px width at text scale 1 to 2. */
#pragma once

#include "paint/label.h"

typedef enum
{
  FR_SKYLINE_LOW,
  FR_SKYLINE_MID,
  FR_SKYLINE_HIGH
} FrSkylineStep;

/**
 * FrSkylinePrice:
 * @from_min, @to_min: minutes of the day's clock
 * @price_per_kwh: height; zero or less is a line on the ground
 * @label: inside or over the step, "9.8"
 */
typedef struct
{
  int from_min;
  int to_min;
  double price_per_kwh;
  FrSkylineStep step;
  const char *label;
} FrSkylinePrice;

/**
 * FrSkylineLane:
 * @name: left of the lane, "Weekdays"
 */
typedef struct
{
  const char *name;
  const FrSkylinePrice *prices;
  gsize n_prices;
} FrSkylineLane;

/**
 * fr_skyline_height_px:
 * The height @n_lanes need.
 */
double
fr_skyline_height_px (gsize n_lanes, double text_scale);

/**
 * fr_skyline_draw:
 * @hours: labels for 0, 6, 12, 18 and 24 o'clock
 * @labels: (nullable): a list of #FrLabelBox to add every text to, as it was drawn
 */
void
fr_skyline_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrSkylineLane *lanes,
                 gsize n_lanes, const char *const hours[5], double width_px, double height_px,
                 double text_scale, GArray *labels);
