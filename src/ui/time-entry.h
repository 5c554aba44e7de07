/* Instants in the household's zone: typed as a date and a clock time, and shown so. */
#pragma once

#include "domain/units/zone.h"
#include "models/book.h"

G_BEGIN_DECLS

/* The zone of the book's household, right for @around_year and the years beside it; NULL while it is unknown.
 */
FrZoneTable *
fr_book_zone (FrBook *book, int around_year);

/* "2027-03-11 16:20" in the household's zone, or with UTC behind it while the zone is unknown; "" for an
 * unknown instant. Free it. */
char *
fr_time_text (FrBook *book, gint64 utc_s);

/* "15 March 2026, 16:50", for headings and lists. Free it. */
char *
fr_time_words (FrBook *book, gint64 utc_s);

/**
 * fr_time_entry_parse:
 * @book: whose household's zone counts
 * @text: "2027-03-11 16:20"; empty means unknown
 * @utc_out: the instant, G_MININT64 when unknown
 * @reason_out: (out): a sentence when the text cannot be read or the time does not exist that day
 *
 * A time that happens twice means the first.
 *
 * Returns: FALSE with @reason_out set when there is no such instant
 */
gboolean
fr_time_entry_parse (FrBook *book, const char *text, gint64 *utc_out, char **reason_out);

G_END_DECLS
