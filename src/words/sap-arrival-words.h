/* What becomes of rows of gatherings and stock that arrive from a table, in sentences for the preview and the terminal. All are to be
 * freed. */
#pragma once

#include "domain/plan/sap-arrivals.h"
#include "words/say.h"

G_BEGIN_DECLS

/* What the row is about: "Gate", "Tub", "whole bush". @book: as it was previewed with. */
char *
fr_sap_arrival_title (const FrSapArrivalRow *row, const FrSeasonBook *book);
/* "New", "Changed", "Same", "Asked about", "Refused"; static. */
const char *
fr_sap_fate_word (FrSapFate fate);
/* What becomes of it and why: "New." or "clarity is “murky”; it must be one of unknown, clear …". */
char *
fr_sap_arrival_sentence (const FrSapArrivalRow *row, const FrSapArrivalPreview *preview, const FrSeasonBook *book,
                         const FrSay *say);
/* "12 new, 3 the same, 1 refused." */
char *
fr_sap_arrival_summary (const FrSapArrivalPreview *preview);
/* Why nothing comes in yet and what to do; NULL when all may. */
char *
fr_sap_arrival_open_sentence (const FrSapArrivalPreview *preview);

G_END_DECLS
