/* The forecast, key by key. */
#pragma once

#include "domain/plan/forecast.h"
#include "domain/plan/tap-date.h"
#include "formats/json-output.h"

G_BEGIN_DECLS

/**
 * fr_forecast_write_json:
 * @recommended: the date to tap on, year 0 when none is recommended
 *
 * Writes the keys "days" and "season" of an object that is begun.
 */
void
fr_forecast_write_json (FrOutput *output, const FrForecast *forecast, FrDate recommended);

/* The keys of an object that is begun; shifts are against the recommended date. */
void
fr_tap_dates_write_json (FrOutput *output, const FrTapDates *dates);

G_END_DECLS
