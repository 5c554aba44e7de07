/* What the season page shows: the season that is looked at and the one that today lies in, with stock, reminders and checklist, and the
 * day that is selected. Made anew when the book has changed and somebody asks; nothing here writes to the book but the choice of the
 * season its lists hold.
 *
 * Signals:
 * - "changed" (): everything below may differ
 * - "day-changed" (): another day is selected */
#pragma once

#include "domain/plan/forecast.h"
#include "domain/plan/gathering-ask.h"
#include "domain/plan/ledger.h"
#include "domain/plan/season.h"
#include "models/book.h"
#include "words/say.h"

G_BEGIN_DECLS

#define FR_TYPE_SEASON (fr_season_get_type ())
G_DECLARE_FINAL_TYPE (FrSeason, fr_season, FR, SEASON, GObject)

/* What time it is; a held clock needs the household's zone, NULL while it is unknown. */
typedef gint64 (*FrSeasonClock) (const FrZoneTable *zone);

FrSeason *fr_season_new (FrBook *book, FrSeasonClock clock);
/* From whom the days to come are told in today's season; "changed" comes once more with each of its answers. */
typedef struct _FrForecaster FrForecaster;
void fr_season_set_forecaster (FrSeason *self, FrForecaster *forecaster);
/* NULL without one, or while it has no answer. */
const FrForecast *fr_season_get_forecast (FrSeason *self);
FrBook *fr_season_get_book (FrSeason *self);

/* Asks the clock again. Nothing happens within the same minute, nor while the book is the same and the hour too. */
void fr_season_refresh (FrSeason *self);

gint64 fr_season_get_now (FrSeason *self);
FrDate fr_season_get_today (FrSeason *self);
/* The household's zone, UTC while it is unknown; and how it is spoken to. Valid until the next "changed". */
const FrZoneTable *fr_season_get_zone (FrSeason *self);
const FrSay *fr_season_get_say (FrSeason *self);

/* The season looked at, which the book's lists hold; today's unless another was chosen. FALSE when it cannot be read. */
guint fr_season_get_season (FrSeason *self);
gboolean fr_season_set_season (FrSeason *self, guint season, GError **error);
gboolean fr_season_is_present (FrSeason *self); /* it is today's */

/* All valid until the next "changed". */
const FrSeasonView *fr_season_get_view (FrSeason *self);
/* Of the season that today lies in, whichever is looked at. */
const FrSeasonView *fr_season_get_present (FrSeason *self);
/* Its account: what came in, where it went, what does not add up and why that may be. */
const FrLedger *fr_season_get_ledger (FrSeason *self);
/* What had come of the season before by the same day, the one looked at counted up to now; NULL when it has nothing. */
const FrSeasonTally *fr_season_get_past (FrSeason *self);
/* Of the season before, day by day; NULL when it has nothing. */
const FrSeasonView *fr_season_get_past_view (FrSeason *self);
/* The kit's checklist of the season looked at; elements FrChoreItem. */
const GArray *fr_season_get_chores (FrSeason *self);

/* What is to be asked about a record of the season looked at before it is kept; elements FrQuestion, free with g_array_unref. @bush: of
 * the same season, or NULL. */
GArray *fr_season_ask (FrSeason *self, const FrBush *bush, const FrRecord *record);

FrDate fr_season_get_day (FrSeason *self);
/* A day outside the season looked at goes to the next one inside its days. */
void fr_season_set_day (FrSeason *self, FrDate day);

G_END_DECLS
