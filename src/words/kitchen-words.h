/* What the forecast means for the kitchen, in words. All are to be freed. */
#pragma once

#include "domain/plan/sap-kitchen.h"
#include "words/say.h"

G_BEGIN_DECLS

/* Markup: "Boil <b>tonight</b> and on <b>Saturday</b>, or the store runs over." "Nothing has to boil through
 * Thursday." */
char *
fr_kitchen_sentence (const FrKitchen *kitchen, const FrSay *say);
/* Room that is missing though it boils, sap that cannot be boiled in time, and what one night in ten may ask
 * for beside. NULL when there is nothing to add. */
char *
fr_kitchen_reason (const FrKitchen *kitchen, const FrSay *say);

G_END_DECLS
