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

/* When it may be asked again; NULL when it may be now, or not before something is changed. */
char *
fr_fetch_next_sentence (const FrFetchState *state, gint64 now_utc, const FrSay *say);
/* For beside a forecast: how old what is on hand is and what went wrong, with the service's credit. NULL while none is turned on. */
char *
fr_fetch_line (const FrFetchState *state, gint64 now_utc, const FrSay *say);
/* The place as it is sent: "It is told 44.26° N, 72.58° W and a height of 250 m." @altitude_m may be NAN. */
char *
fr_weather_place_sentence (FrWeatherService service, double latitude_deg, double longitude_deg, double altitude_m,
                           const FrSay *say);

G_END_DECLS
