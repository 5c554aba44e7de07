/* What a sap reading means once it is corrected, or why it cannot be. */
#pragma once

#include "domain/records/kinds.h"
#include "words/say.h"

G_BEGIN_DECLS

/* "True sweetness 2.1 °Bx, give or take 0.2." or what to do with the sample. NULL when there is no reading. Free it. */
char *fr_lot_sentence (const FrSapLot *lot, const FrSay *say);

G_END_DECLS
