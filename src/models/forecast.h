/* The sap forecast of the open book. It is worked out beside the main loop whenever the book or the hour has changed and somebody looks on;
 * until the new answer is there the old one stays.
 *
 * Signals:
 * - "changed" (): there is another answer
 * - "pending-changed" (): one is on its way, or has come */
#pragma once

#include "domain/plan/book-forecast.h"
#include "domain/plan/book-sugar.h"
#include "domain/plan/sap-kitchen.h"
#include "domain/plan/tap-date.h"
#include "models/book.h"
#include "models/season.h"

G_BEGIN_DECLS

#define FR_TYPE_FORECASTER (fr_forecaster_get_type ())
G_DECLARE_FINAL_TYPE (FrForecaster, fr_forecaster, FR, FORECASTER, GObject)

FrForecaster *fr_forecaster_new (FrBook *book, FrSeasonClock clock);

/* Asks the clock again; a new answer is made when the hour is another. */
void fr_forecaster_refresh (FrForecaster *self);

/* The answer and what it was asked with, NULL until there is one: the first call asks for it. Both valid until the next "changed". */
const FrForecast *fr_forecaster_get (FrForecaster *self);
const FrBookForecast *fr_forecaster_get_asked (FrForecaster *self);
/* When to tap: while no hole of the season is drilled; else NULL. Valid as above. */
const FrTapDates *fr_forecaster_get_tap_dates (FrForecaster *self);
/* What it tells to do, by the room that is left after tonight's boil; and on which nights to boil, NULL when no day ahead is known. Valid as
 * above. */
const FrForecastAnswer *fr_forecaster_get_answer (FrForecaster *self);
const FrKitchen *fr_forecaster_get_kitchen (FrForecaster *self);
/* How sweet a day's sap is likely to be, by this season's readings; FALSE without one. */
gboolean fr_forecaster_get_sugar (FrForecaster *self, FrDate date, FrSugarBrix *sugar_out);
gboolean fr_forecaster_is_pending (FrForecaster *self);
/* Counts answers. */
guint fr_forecaster_get_serial (FrForecaster *self);

G_END_DECLS
