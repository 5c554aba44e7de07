/* What becomes of trees that arrive from a file, in sentences for the preview and for the terminal. All are
 * to be freed. */
#pragma once

#include "domain/plan/arrivals.h"
#include "words/say.h"

G_BEGIN_DECLS

/* What to call it: its name, or "unnamed". */
char *
fr_arrival_title (const FrArrivalRow *row);
/* Where it stands in the file: "line 12" or "entry 3". */
char *
fr_arrival_where (const FrArrivals *arrivals, guint line);
/* "New", "Changed", "Same", "Unclear", "Refused"; static. */
const char *
fr_arrival_fate_word (FrArrivalFate fate);
/* What becomes of it and why: "New, 12.5 m east and 3 m north on the plan." */
char *
fr_arrival_sentence (const FrArrivalRow *row, const FrArrivals *arrivals, const FrSay *say);
/* The same of a path. */
char *
fr_arrival_path_sentence (const FrArrivalPathRow *row);
/* How plan and earth come together; NULL when there is nothing to say. */
char *
fr_arrival_tie_sentence (const FrArrivalPreview *preview, const FrSay *say);
/* What to look at because plan and earth do not quite fit: a turn, a stretch, one tree far off. NULL when
 * they do. */
char *
fr_arrival_fit_sentence (const FrArrivalPreview *preview, const FrSay *say);
/* "12 new, 3 changed, 5 the same, 1 unclear, 2 refused." */
char *
fr_arrival_summary (const FrArrivalPreview *preview);

G_END_DECLS
