/* The weather service in words: its name and credit, what asking it means, and how it stands. Texts that are
 * not static are to be freed. */
#pragma once

#include "domain/plan/fetch-state.h"
#include "words/say.h"

G_BEGIN_DECLS

/* "MET Norway"; static. */
const char *
fr_weather_service_name (FrWeatherService service);
/* What the service asks to be said beside its weather; NULL for none. Static. */
const char *
fr_weather_service_credit (FrWeatherService service);
/* For the moment of choosing: what is sent, how often, and the service's own conditions. */
char *
fr_weather_service_terms (FrWeatherService service);

/* "Fresh", "3 h old", "Offline": for a label. */
char *
fr_fetch_label (const FrFetchState *state, gint64 now_utc);
/* "Forecast from this morning; the service did not answer." */
char *
fr_fetch_sentence (const FrFetchState *state, gint64 now_utc, const FrSay *say);
/* What may be done about it, or when it is asked again; NULL when there is nothing to say. */
char *
fr_fetch_advice (const FrFetchState *state, gint64 now_utc, const FrSay *say);

G_END_DECLS
