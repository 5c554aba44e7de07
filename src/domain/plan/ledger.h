/* The account of a season's sap: what came in, where it went, what is there, and what does not add up, with its likely causes.
 *
 * Mass and sugar add up exactly; litres do but for what mixing makes of them (a thousandth of a percent), which is shown. What a look
 * found beyond the reckoning stands in the account as found, and each such difference is a line; none is spread over the others. */
#pragma once

#include "domain/plan/stock.h"

G_BEGIN_DECLS

typedef struct
{
  double volume_l;
  double mass_kg;
  double sugar_kg; /* NAN where nothing is known */
} FrLedgerSum;

/**
 * FrLedgerAccount:
 * One container, or all together.
 * @container: NULL for the sap whose place was not said, and for all
 * @flows: by FrStockFlowKind, what came in by being gathered, what left to the boil, as ice, spilled, spoiled, drunk; of what was found
 *   the gains and the losses; of what was moved what left (for all together there is none)
 * @moved_in, @found_less: what came in by being moved; what looks found to be missing, below 0. @flows[FR_FLOW_FOUND] is what they
 *   found to be more
 * @there: what is in it at the end
 * @mixing_l: @there less all the others: litres are not conserved
 */
typedef struct
{
  const FrContainer *container;
  FrLedgerSum flows[FR_N_FLOWS];
  FrLedgerSum moved_in;
  FrLedgerSum found_less;
  FrLedgerSum there;
  double mixing_l;
} FrLedgerAccount;

/* A night's boil: @told is what the night says was poured into pan and bucket, @poured what left the containers for it. */
typedef struct
{
  const FrNight *night;
  guint n_pours;
  FrLedgerSum told;
  FrLedgerSum poured;
} FrLedgerNight;

/* What does not add up. The first are those of stock.h. */
typedef enum
{
  FR_LEDGER_FOUND = FR_LINE_FOUND,
  FR_LEDGER_NEGATIVE = FR_LINE_NEGATIVE,
  FR_LEDGER_OVERFLOW = FR_LINE_OVERFLOW,
  FR_LEDGER_NO_SUGAR = FR_LINE_NO_SUGAR,
  FR_LEDGER_SUGAR = FR_LINE_SUGAR,
  FR_LEDGER_NO_AMOUNT = FR_LINE_NO_AMOUNT,
  FR_LEDGER_NIGHT_DIFFERS, /* more or less left the containers than the night says was poured */
  FR_LEDGER_NIGHT_ALONE,   /* a night for which nothing left a container */
  FR_LEDGER_POUR_ALONE,    /* sap left for a boil without a night, and a night lacks its sap */
  FR_N_LEDGER_LINES
} FrLedgerCode;

/* Why it may not add up. */
typedef enum
{
  FR_LEDGER_CAUSE_MEASURING,     /* within what measuring usually is off by */
  FR_LEDGER_CAUSE_UNIT,          /* an amount in another unit, or its decimal mark misplaced */
  FR_LEDGER_CAUSE_MISSED,        /* sap that was brought in and not written down */
  FR_LEDGER_CAUSE_DOUBLE,        /* written down twice */
  FR_LEDGER_CAUSE_BOILED_MORE,   /* more went to the boil than was written */
  FR_LEDGER_CAUSE_SPILLED,       /* spilled, leaked, drunk */
  FR_LEDGER_CAUSE_ICE,           /* ice thrown out and not written: litres gone, sugar still there */
  FR_LEDGER_CAUSE_WATER,         /* rain or melt came in: litres without sugar */
  FR_LEDGER_CAUSE_POURED_BACK,   /* what was left in a boil's bucket, poured back */
  FR_LEDGER_CAUSE_OTHER_PLACE,   /* an amount written for another container, which is off by as much the other way */
  FR_N_LEDGER_CAUSES
} FrLedgerCauseCode;

/* What was meant when a number was kept as something else. */
typedef enum
{
  FR_SLIP_US_GAL,   /* the number was of US gallons, kept as litres */
  FR_SLIP_IMP_GAL,  /* of imperial gallons */
  FR_SLIP_L_US,     /* of litres, kept as US gallons */
  FR_SLIP_L_IMP,    /* of litres, kept as imperial gallons */
  FR_SLIP_LB,       /* of pounds, kept as kilograms */
  FR_SLIP_KG,       /* of kilograms, kept as pounds */
  FR_SLIP_INCH,     /* of inches, kept as centimetres */
  FR_SLIP_CM,       /* of centimetres, kept as inches */
  FR_SLIP_TEN_MORE, /* ten times as much was meant */
  FR_SLIP_TEN_LESS, /* a tenth was meant */
  FR_N_SLIPS
} FrLedgerSlip;

/* What was meant over what was kept, for each slip. */
double
fr_ledger_slip_ratio (FrLedgerSlip slip);

/**
 * FrLedgerCause:
 * @chance_ratio: of all causes thought of, 0 to 1; they add up to 1
 * @record: the entry it would be, or NULL: for UNIT the one that was slipped in (a gathering, pour, look or night), for DOUBLE the later
 *   one, for BOILED_MORE and POURED_BACK the night, for OTHER_PLACE the entry
 * @other: for DOUBLE the one it repeats
 * @slip: for UNIT
 * @volume_l: what the difference would be if it were so: for UNIT, DOUBLE, POURED_BACK, OTHER_PLACE; else NAN
 */
typedef struct
{
  FrLedgerCauseCode code;
  double chance_ratio;
  const FrRecord *record;
  const FrRecord *other;
  FrLedgerSlip slip;
  double volume_l;
} FrLedgerCause;

/**
 * FrLedgerLine:
 * @container: 0 for sap whose place was not said; meaningless for a night's
 * @since_utc: from when on the cause is to be looked for; for a night's its begin
 * @computed_l, @volume_l, @sugar_kg: as in stock.h; for a night's what left the containers, and what the night says less that; for a
 *   pour's alone 0 and what left
 * @error_l: what measuring may be off by, one standard deviation; NAN where no amount was measured
 * @record: the entry at which it shows, a night's the night
 * @night: of a pour alone, the night without pours that it may belong to, or NULL
 * @causes: likeliest first; those under one in a hundred are left out, but for the first
 */
typedef struct
{
  FrLedgerCode code;
  gint64 utc_s;
  gint64 since_utc;
  gint64 container;
  double computed_l;
  double volume_l;
  double sugar_kg;
  double error_l;
  const FrRecord *record;
  const FrNight *night;
  guint n_causes;
  FrLedgerCause causes[FR_N_LEDGER_CAUSES];
} FrLedgerLine;

typedef struct
{
  guint season;
  gint64 from_utc;
  gint64 at_utc;
  guint n_accounts;
  FrLedgerAccount *accounts; /* of the stock's places, by the containers' ids */
  FrLedgerAccount all;
  FrLedgerSum tree_ice; /* thrown out where it was gathered; never in a container */
  guint n_nights;
  FrLedgerNight *nights; /* begun by then, in order of time */
  guint n_lines;
  FrLedgerLine *lines; /* in order of time */
  FrStock *stock;
} FrLedger;

/* The season up to @now_utc or its end. Nights are compared only in a season in which something was gathered. Borrows the records.
 * Never NULL. */
FrLedger *
fr_ledger_new (const FrSeasonBook *book, guint season, gint64 now_utc);
void
fr_ledger_free (FrLedger *ledger);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrLedger, fr_ledger_free)

G_END_DECLS
