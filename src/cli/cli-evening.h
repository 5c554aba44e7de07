/* The book as an evening needs it, for commands that answer from a book. */
#pragma once

#include "domain/plan/evening.h"
#include "store/store.h"
#include "words/say.h"

G_BEGIN_DECLS

typedef struct
{
  GPtrArray *kinds[FR_N_KINDS]; /* all records */
  FrSeasonBook book;            /* borrows them */
  FrZoneTable *zone;
  FrMeasure *measures;
  guint n_measures;
  FrSay say;
} FrCliEvening;

/* The person's own, ',' or '.'. */
char fr_cli_decimal_mark (void);

/* All records of every kind as a season needs them, borrowed. */
FrSeasonBook fr_cli_season_book (GPtrArray *const *kinds, const FrZoneTable *zone);

/* The book of a path, NULL the person's own, which has to be there. */
FrStore *fr_cli_open_book (const char *path, GError **error);

/* @path NULL: the person's own book. */
gboolean fr_cli_evening_load (FrCliEvening *evening, const char *path, GError **error);
void fr_cli_evening_clear (FrCliEvening *evening);

/* "2026-03-11T16:00" or, on the day of @on_utc, "16:00"; in the book's zone. A time that the clock jumps over is an error
 * naming its neighbours. @after: the first such clock time at or after @on_utc. */
gboolean fr_cli_evening_time (const FrCliEvening *evening, const char *option, const char *text, gint64 on_utc,
                              gboolean after, gint64 *utc_out, GError **error);

/* An option's text by the household's own grammar; NULL leaves *value_out as it is. FALSE when it cannot be read. */
gboolean fr_cli_evening_amount (const FrSay *say, const char *option, const char *text, FrQuantityKind kind,
                                double *value_out, GError **error);

G_END_DECLS
