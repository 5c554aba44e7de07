/* How well the forecast did on the open book's season: each emptying told again as of the one before it. It takes seconds, so it is asked for
 * only when somebody looks, is worked out beside the main loop, and again when what was emptied has changed.
 *
 * Signals: "changed" (): there are other scores */
#pragma once

#include "models/forecast.h"
#include "models/score-table.h"

G_BEGIN_DECLS

/* Fewer emptyings say nothing of how well it does; common sense, no source. */
#define FR_SCORES_LEAST 5

#define FR_TYPE_FORECAST_SCORES (fr_forecast_scores_get_type ())
G_DECLARE_FINAL_TYPE (FrForecastScores, fr_forecast_scores, FR, FORECAST_SCORES, GObject)

FrForecastScores *fr_forecast_scores_new (FrForecaster *forecaster);
/* NULL until they are there; the first call asks for them. With too few emptyings @n is under FR_SCORES_LEAST and no row holds. Valid until the
 * next "changed". */
const FrScoreTable *fr_forecast_scores_get (FrForecastScores *self);

G_END_DECLS
