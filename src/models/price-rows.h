/* The kept text of a price plan as rows to edit, and back. Pure functions; the rules of what covers a day are
 * the tariff's own. A row whose price is not typed yet has NAN and cannot be kept. */
#pragma once

#include "domain/maths/tariff.h"

G_BEGIN_DECLS

/* Elements FrTariffPeriod in the order of the text. NULL and the line (from 1) when one cannot be read. */
GArray *
fr_price_rows_parse (const char *text, guint *bad_line_out);

/* One period a line; NULL when a price is unknown. Free it. */
char *
fr_price_rows_text (GArray *rows);

/* Whether two rows belong to the same season. */
gboolean
fr_price_rows_same_season (const FrTariffPeriod *a, const FrTariffPeriod *b);

/* "07:00"; 1440 is "24:00". Free it. */
char *
fr_price_clock_text (gint minutes);

G_END_DECLS
