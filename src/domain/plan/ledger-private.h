/* Between the files of ledger.h: one difference with the entries among which its cause is looked for. */
#pragma once

#include "domain/plan/ledger.h"

G_BEGIN_DECLS

/* An entry that put litres in (@sign 1) or took them out (−1). */
typedef struct
{
  const FrRecord *record;
  gint64 utc_s;
  int sign;
  double volume_l;
} FrLedgerItem;

/**
 * FrLedgerGap:
 * @items: (element-type FrLedgerItem): between the last sound moment and this, in order of time
 * @container: of the items; NULL for sap whose place was not said, and for a night
 * @since_record: the look at the last sound moment, or NULL; @since_l what it found, @since_computed_l what was reckoned then
 * @record: the entry at which it shows; @measured_l what it says, @computed_l what was reckoned
 * @next_l: measured less computed at the next look that measured an amount; NAN when there is none
 * @difference_l: measured less computed; @side 0 when that was measured, 1 when it is at least so much, −1 at most
 * @sugar_kg: the same of sugar, NAN when it was not read; @mix_ratio: sugar in the season's sap
 * @told_more_l, @told_night: by how much nights in between say that more was boiled than left, and the night; NAN, NULL
 * @back_l, @back_night: what was left in a bucket of a night in between; NAN, NULL
 * @elsewhere: an entry meant for another container than it was written for, by a difference of as much there, NULL none; @elsewhere_l
 *   what it makes here
 * @is_night: of a night, whose items are its pours
 */
typedef struct
{
  const FrSeasonBook *book;
  gint64 since_utc;
  gint64 utc_s;
  GArray *items;
  const FrContainer *container;
  const FrRecord *since_record;
  double since_l;
  double since_computed_l;
  const FrRecord *record;
  double measured_l;
  double computed_l;
  double next_l;
  double difference_l;
  int side;
  double sugar_kg;
  double mix_ratio;
  double told_more_l;
  const FrNight *told_night;
  double back_l;
  const FrNight *back_night;
  const FrRecord *elsewhere;
  double elsewhere_l;
  gboolean is_night;
} FrLedgerGap;

/* What a gathering is expected to bring: its middling litres, and one standard deviation of their logarithm. @n: how many it is told
 * from; with few of them it says nothing. */
typedef struct
{
  guint n;
  double middle_l;
  double spread_ratio;
} FrLedgerSpread;

/* A gathering that may be wanting: of something that was gathered on other days, or when others were. */
typedef struct
{
  double chance_ratio; /* that it was made and not written, against that it was not made */
  FrLedgerSpread amount;
} FrLedgerWanting;

typedef struct _FrLedgerUsual FrLedgerUsual;

/* From the season's gatherings. */
FrLedgerUsual *
fr_ledger_usual_new (const FrStock *stock, const FrZoneTable *zone);
void
fr_ledger_usual_free (FrLedgerUsual *usual);
guint
fr_ledger_usual_n (const FrLedgerUsual *usual);

/* What it would be expected to bring by what it brought on other days and what others brought on its day. */
FrLedgerSpread
fr_ledger_usual_amount (const FrLedgerUsual *usual, const FrGathering *gathering);
/* Of any gathering into a container (0: whose place was not said). */
FrLedgerSpread
fr_ledger_usual_into (const FrLedgerUsual *usual, gint64 container);
/* (element-type FrLedgerWanting): gatherings into a container that are wanting between two instants. Free with g_array_unref. */
GArray *
fr_ledger_usual_wanting (const FrLedgerUsual *usual, gint64 container, gint64 from_utc, gint64 to_utc);

/* The pour of a flow that is one to a boil, else NULL. */
const FrPour *
fr_ledger_boil_of (const FrStockFlow *flow);
void
fr_ledger_fill_lines (FrLedger *ledger, const FrSeasonBook *book, const FrLedgerUsual *usual);

/* One standard deviation of what measuring so much is off by; 0 of nothing. */
double
fr_ledger_error_l (const FrRecord *record, double volume_l);
/* How often a slip happens to an entry, before anything else is known; 0 when it cannot. */
double
fr_ledger_slip_chance_ratio (const FrRecord *record, FrLedgerSlip slip);
/* Litres that were meant, when so many were kept: through the pail's own weight, or its shape. NAN when that cannot be. */
double
fr_ledger_meant_l (const FrSeasonBook *book, const FrRecord *record, FrLedgerSlip slip, double kept_l);

/* Fills @line's error and causes. */
void
fr_ledger_explain (const FrLedgerGap *gap, const FrLedgerUsual *usual, FrLedgerLine *line);
/* The same for an amount that cannot be worked out: a depth beyond the container's height, a weight below its own. */
void
fr_ledger_explain_amount (const FrSeasonBook *book, const FrLedgerUsual *usual, FrLedgerLine *line);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrLedgerUsual, fr_ledger_usual_free)

G_END_DECLS
