/* A gathering round in sentences: how far, how many trips, how sure. */
#pragma once

#include "domain/maths/round.h"
#include "words/say.h"

G_BEGIN_DECLS

/* "Walk 412 m in 2 trips; carry 38 L." Free it. */
char *
fr_round_sentence (const FrRound *round, const FrSay *say);

/* "No order is shorter." or "At most 2.3 % longer than the shortest there can be." NULL without a trip. Free
 * it. */
char *
fr_round_proof (const FrRound *round, const FrSay *say);

/* "2200 litre-metres", for an American or imperial household "1907 gallon-feet". Free it. */
char *
fr_round_carry (double carry_l_m, const FrSay *say);

/* One trip, to stand beside its stops: "120 m, 18 L", "100 m, 20 L, a full pail". Free it. */
char *
fr_round_trip_words (const FrRoundTrip *trip, const FrSay *say);

/* Why there is no round; NULL for FR_ROUND_OK. @stop is the name of the stop at fault, or NULL. Free it. */
char *
fr_round_refusal (FrRoundCode code, const char *stop, const FrSay *say);

G_END_DECLS
