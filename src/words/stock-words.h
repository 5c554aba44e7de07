/* The sap in store in words: what to boil first, what each container holds and until when. Window and command line say exactly this.
 *
 * Texts named markup may hold <b>…</b> and are escaped; all others are plain. All are to be freed. */
#pragma once

#include "domain/plan/stock.h"
#include "words/say.h"

G_BEGIN_DECLS

/* Markup: "<b>31 L</b> in store. Boil from “Cellar crock” first: it keeps until <b>Sunday 14:00</b>." */
char *fr_stock_sentence (const FrStock *stock, const FrSay *say);
/* Under it: sweetness, sugar, room left; NULL when there is nothing to say. */
char *fr_stock_reason (const FrStock *stock, const FrSay *say);

/* "Gathered Tuesday, 2.2 °Bx, 2 °C as worked out, a tenth of it ice". NULL for an empty one. */
char *fr_stock_place_note (const FrStockPlace *place, const FrStock *stock, const FrSay *say);

/* How its keeping stands. */
typedef enum
{
  FR_KEEPS_EMPTY,
  FR_KEEPS_WELL,
  FR_KEEPS_SOON, /* past its time within two days */
  FR_KEEPS_PAST
} FrKeeps;

FrKeeps fr_stock_place_keeps (const FrStockPlace *place, gint64 now_utc);
/* "Keeps until Sunday 14:00, at most."; past its time what to do, with local rules first; NULL for an empty one. */
char *fr_stock_place_keeping (const FrStockPlace *place, gint64 now_utc, const FrSay *say);
/* All of it in one spoken text. @name: what the container is called. */
char *fr_stock_place_spoken (const FrStockPlace *place, const char *name, const FrStock *stock, const FrSay *say);

/* What does not add up, "On Saturday 8 March 3.5 L less were found in “Can” than there should be." */
char *fr_stock_line_sentence (const FrStockLine *line, const FrRecord *container, const FrSay *say);

G_END_DECLS
