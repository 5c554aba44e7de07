/* One line that tells records apart in a list, and the line at the foot of the side list. */
#pragma once

#include "models/book.h"

G_BEGIN_DECLS

/* What a record is called in a list: its name, or for sap when it was gathered. Free it. */
char *
fr_record_title (FrBook *book, const FrRecord *record);
/* What tells it apart, "1,800 W on Wide pot"; "" when nothing is known. Free it. */
char *
fr_record_summary (FrBook *book, const FrRecord *record);
/* An amount with its unit and a gap one can see in small type. Free it. */
char *
fr_amount_text (double value, FrQuantityKind kind, const FrUnits *units);

/* "31 trees · 2 pans · 250 m", or with cookers while there are no trees. Free it. */
char *
fr_book_summary (FrBook *book);

G_END_DECLS
