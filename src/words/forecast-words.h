/* The sap forecast in words: what to do, why, what to mind, and when to tap. Window, paper and command line
 * all say exactly this.
 *
 * Texts named markup may hold <b>…</b> and are escaped; all others are plain. All are to be freed. */
#pragma once

#include "domain/plan/forecast-answer.h"
#include "domain/plan/tap-date.h"
#include "words/say.h"

G_BEGIN_DECLS

/* Markup: "Empty the buckets on <b>Friday</b> and <b>Saturday</b>: expect <b>33 L</b> by Saturday evening."
 * Of a bush that is not tapped it says so; fr_tap_date_sentence says when to. */
char *
fr_forecast_sentence (const FrForecastAnswer *answer, const FrSay *say);
/* Under it: how sure, what room there is, what comes after: "Nine times in ten it is under 48 L, and 54 L are
 * free after tonight’s boil. Then a hard freeze; the next run is likely on Friday 19." NULL when there is
 * nothing to say. */
char *
fr_forecast_reason (const FrForecastAnswer *answer, const FrSay *say);
/* What else to mind, the worst first: buds, the end, gaps, few days. Elements char *, which the array frees;
 * may be none. */
GPtrArray *
fr_forecast_warnings (const FrForecastAnswer *answer);

/* What makes a day run or not: "A run is likely: 8 h above 1 °C after 9 h of frost." NULL when its weather is
 * not known. */
char *
fr_forecast_day_why (const FrForecastDay *day, const FrSay *say);

/* Markup: "Tap on <b>Saturday 20 February</b>: expect <b>42 L</b> a tap by the season’s end." */
char *
fr_tap_date_sentence (const FrTapDates *dates, const FrSay *say);
/* Why, and what a week early or late loses. */
char *
fr_tap_date_reason (const FrTapDates *dates, const FrSay *say);
/* At the drill; NULL when no date is recommended. */
char *
fr_tap_date_caution (const FrTapDates *dates);

G_END_DECLS
