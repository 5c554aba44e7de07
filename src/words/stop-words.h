/* The stops of a gathering round in words, one by one and trip by trip; for list, paper and terminal. */
#pragma once

#include "domain/plan/bush.h"
#include "words/say.h"

G_BEGIN_DECLS

typedef struct
{
  char *heading; /* above the first stop of a trip where there are several: "Trip 2 · 18.4 L · 120 m"; else NULL */
  char *number;  /* "3" */
  char *name;
  char *litres;  /* "3.4 L" */
  char *leg;     /* how far from the stop before, "24 m" */
  char *spoken;
} FrStopWords;

/* One for each stop of the round, in its order; elements FrStopWords, which the array frees. */
GPtrArray *fr_stop_words (const FrBush *bush, const FrBushRound *round, const FrSay *say);
void fr_stop_words_free (FrStopWords *words);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrStopWords, fr_stop_words_free)

G_END_DECLS
