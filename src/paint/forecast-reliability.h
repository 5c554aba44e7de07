/* Whether a chance meant what it said: how often a run came, against how likely it was called, on the
 * diagonal when all is well. The area of a dot is the number of evenings behind it, its stem how far chance
 * alone may carry it. Plain arguments in, cairo out; texts come worded from the caller. Made for 200 px and
 * more either way at text scale 1. */
#pragma once

#include "domain/plan/forecast-tally.h"
#include "domain/units/quantity.h"
#include "paint/label.h"

/**
 * FrForecastReliability:
 * Any text may be NULL. Bins without evenings or out of 0 to 1 are not drawn.
 * @units: of the numbers; NULL is metric
 * @said: under the lower axis, "said the evening before"; @happened: over the other, "came so"
 * @caption: below, "27 of 34 fell inside the eight-in-ten bar, where 27 should."
 * @empty: when there is no bin to draw
 * @chosen: index of a bin, −1 none
 */
typedef struct
{
  const FrReliabilityBin *bins;
  guint n_bins;
  const FrUnits *units;
  const char *said;
  const char *happened;
  const char *caption;
  const char *empty;
  gssize chosen;
} FrForecastReliability;

/* The square between never and always. */
typedef struct
{
  double x_px;
  double y_px;
  double side_px;
} FrReliabilityFrame;

FrReliabilityFrame
fr_forecast_reliability_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette,
                              const FrForecastReliability *reliability, double width_px, double height_px,
                              double text_scale, GArray *labels);

/* How large a dot is, of a square's side. */
double
fr_forecast_reliability_dot_px (const FrForecastReliability *reliability, guint bin, double side_px);

/* The nearest dot within 14 px of a point, or −1. */
gssize
fr_forecast_reliability_at (const FrReliabilityFrame *frame, const FrForecastReliability *reliability,
                            double x_px, double y_px);
