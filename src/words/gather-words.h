/* The gathering log in words. Markup may hold <b>…</b> and is escaped; all else is plain. All are to be freed. */
#pragma once

#include "words/say.h"

G_BEGIN_DECLS

/* What a round comes to, as the log's sentence: "22.5 L from 11 trees." @n_rows: what could be gathered from; @n_kept: what is in the
 * book; @what: FR_GATHERED_TREES and so on. */
typedef enum
{
  FR_GATHERED_BUSH,
  FR_GATHERED_GROUPS,
  FR_GATHERED_TREES,
  FR_GATHERED_TAPS
} FrGatheredWhat;

char *fr_gathered_markup (const FrSay *say, FrGatheredWhat what, guint n_rows, guint n_kept, double volume_l);
/* Under it: sweetness and sugar, and what still waits; NULL when there is nothing to say. @n_begun: rows typed and not in the book. */
char *fr_gathered_reason (const FrSay *say, double brix, double sugar_kg, guint n_begun);

G_END_DECLS
