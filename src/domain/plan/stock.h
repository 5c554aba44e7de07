/* The sap in store at a moment: every event of a season replayed in order of time, each container a mix by exact mass balance.
 *
 * Volumes turn into masses and back by the density at FR_STOCK_C, whatever the sap's temperature, so that litres typed in are litres
 * shown again; sugar and mass are what is kept. A look into a container (a dip) sets it to what was found; the difference is kept as a
 * line, never hidden. Sap whose place was not said is container 0, one more mix. */
#pragma once

#include "domain/maths/sap-keeping.h"
#include "domain/plan/season-book.h"

G_BEGIN_DECLS

/* Common sense, no source: sap is measured cold, and water is densest there, so that an error of some kelvin weighs least. */
#define FR_STOCK_C 4.0

/* Less than this is nothing: what mixing takes from the litres, what a pail leaves on its wall. Common sense, no source. */
#define FR_STOCK_NOTHING_L 0.01
#define FR_STOCK_NOTHING_KG 2e-4 /* of sugar */
/* Less than this is an empty container: what comes in next is as old as itself alone. Common sense, no source. */
#define FR_STOCK_EMPTY_L 0.1
/* °Bx of ice thrown out when it was not measured, but never more than the mix has: of reports from 0.2 to 1.2, weak ones, the middle of
 * the lower; for the density alone where no sweetness was measured all season, that of common sap. */
#define FR_STOCK_ICE_BRIX 0.5
#define FR_STOCK_SAP_BRIX 2.0

/* How much there is in all containers after an event. */
typedef struct
{
  gint64 utc_s;
  double volume_l;
} FrStockLevel;

typedef enum
{
  FR_STOCK_TEMP_UNKNOWN,  /* nothing to know it from: kept as if warm */
  FR_STOCK_TEMP_TYPED,    /* as last measured, and followed from there */
  FR_STOCK_TEMP_MODELLED, /* from the days' lows and highs, the place and the volume */
  FR_STOCK_TEMP_PLACE     /* as such a place usually is */
} FrStockTemp;

/**
 * FrStockPlace:
 * @container: its record, or NULL for sap whose place was not said
 * @mass_kg, @sugar_kg: all of it, ice too; @sugar_kg NAN when nothing is known of its sweetness
 * @volume_l: all of it, ice as water; below 0 when more left than came in, which is a line
 * @brix: of all of it; @liquid_brix: of what is not ice
 * @brix_assumed: some of its sugar is taken from other readings of the season
 * @temp_c, @ice_ratio: NAN unknown; @ice_ratio share of the mass that is ice
 * @oldest_utc: gathering of the oldest sap in it, G_MININT64 when empty
 * @used_ratio: of its keeping time, 1 = spoiled, in a mix as of what has used the most; NAN when empty. @spoils_utc: when it came to 1,
 *   or comes to it if it stays where it is, through the days whose lows and highs are known (expected ones too) and then at the last
 *   temperature; G_MININT64 when empty
 * @clarity, @smell: codes, as noted; of what is mixed the worse, until a look says otherwise
 */
typedef struct
{
  const FrContainer *container;
  double mass_kg;
  double sugar_kg;
  double volume_l;
  double brix;
  double liquid_brix;
  gboolean brix_assumed;
  double temp_c;
  FrStockTemp temp_from;
  double ice_ratio;
  gint64 oldest_utc;
  double used_ratio;
  gint64 spoils_utc;
  gint64 changed_utc;
  const char *clarity;
  const char *smell;
} FrStockPlace;

typedef enum
{
  FR_LINE_FOUND,     /* a look found more or less than computed */
  FR_LINE_NEGATIVE,  /* more left a container than was in it */
  FR_LINE_OVERFLOW,  /* more in a container than it holds */
  FR_LINE_NO_SUGAR,  /* nothing known of the sweetness */
  FR_LINE_SUGAR,     /* a pour's reading takes more sugar than there was, or leaves more than can be */
  FR_LINE_NO_AMOUNT, /* an amount that cannot be worked out, left out: a depth or a weight in a container without its measures */
  FR_N_LINES
} FrStockLineCode;

/* What does not add up. @computed_l: in the container before the event, for an overflow after it; @volume_l, @sugar_kg: measured minus
 * computed (NAN when not measured); for an overflow what it holds minus what would be in it. @since_utc: the last moment at which the
 * container was known to add up: the last look that measured an amount, else the first instant asked for. @record: the event at which
 * it shows. */
typedef struct
{
  FrStockLineCode code;
  gint64 utc_s;
  gint64 since_utc;
  gint64 container;
  double computed_l;
  double volume_l;
  double sugar_kg;
  const FrRecord *record;
} FrStockLine;

/* Sap that went from one place to another at one event. */
typedef enum
{
  FR_FLOW_GATHERED,
  FR_FLOW_MOVED,
  FR_FLOW_BOILED,
  FR_FLOW_ICE, /* out of a container; what was thrown out at the trees is none */
  FR_FLOW_SPILLED,
  FR_FLOW_SPOILED,
  FR_FLOW_DRUNK,
  FR_FLOW_FOUND, /* by a look: more than computed, or less (below 0) */
  FR_N_FLOWS
} FrStockFlowKind;

#define FR_STOCK_OUTSIDE G_GINT64_CONSTANT (-1)

/**
 * FrStockFlow:
 * @from, @to: containers, 0 for the sap whose place was not said, FR_STOCK_OUTSIDE where it is none
 * @volume_l: as measured; for what was found the difference of the volumes before and after
 * @mass_kg, @sugar_kg: @sugar_kg NAN where nothing is known
 * @brix_assumed: its sugar is taken from other readings of the season
 */
typedef struct
{
  FrStockFlowKind kind;
  gint64 utc_s;
  gint64 from;
  gint64 to;
  double volume_l;
  double mass_kg;
  double sugar_kg;
  gboolean brix_assumed;
  const FrRecord *record;
} FrStockFlow;

/* Which container to boil from first. What may be spoiled already is not advised: it has to be looked at. */
typedef enum
{
  FR_FIRST_NONE,   /* there is nothing, or nothing that still keeps */
  FR_FIRST_ONLY,   /* only one has sap that still keeps */
  FR_FIRST_OLDEST, /* the oldest, which is also the first to spoil */
  FR_FIRST_SPOILS  /* the first to spoil, though another is older */
} FrStockFirst;

typedef struct
{
  gint64 from_utc;
  gint64 at_utc;
  guint n_places;
  FrStockPlace *places; /* every store container in use, empty ones too; others, and 0, when something is or was in them; oldest sap
                           first */
  guint n_levels;
  FrStockLevel *levels;
  guint n_lines;
  FrStockLine *lines; /* in order of time */
  guint n_flows;
  FrStockFlow *flows; /* in order of time */
  double volume_l, mass_kg, sugar_kg; /* all together */
  gint64 oldest_utc;
  FrStockFirst first_code;
  int first; /* index into @places, −1 none */
  double capacity_l; /* of all store containers in use, NAN without one */
} FrStock;

/**
 * fr_stock_new:
 * @from_utc: the first instant of events
 * @at_utc: the last
 *
 * What happens at one instant happens in this order: gatherings, pours, looks, and by id. A gathering's sugar, where it was not read,
 * is the mean by litres of the gatherings' readings nearest to it in time before or after: of all that lie no more than 12 h
 * further off than the nearest. Without any it is the plain mean, in the same way, of what was read in containers and of what was
 * poured; without these it is unknown. The same holds for what leaves a container in which nothing is.
 *
 * A pour takes the mix as it is unless it was read. A look that measured an amount sets it, at its reading or the mix's °Bx; one that
 * only read the sweetness sets the sugar and leaves the mass. A reading is of the liquid: so much less of the whole as ice was noted.
 *
 * Borrows the records.
 *
 * Returns: (transfer full): never NULL
 */
FrStock *fr_stock_new (const FrSeasonBook *book, gint64 from_utc, gint64 at_utc);
void fr_stock_free (FrStock *stock);
/* The household's table of keeping; @storing NULL: the careful one. Where the published or a household's own table ends, the careful one's
 * hours stand for what is warmer. FALSE when the household's own cannot be read: the careful one then. */
gboolean fr_stock_keeping (const FrStoring *storing, FrKeepingTable *table_out);
/* The container's place, 0 for sap whose place was not said; NULL when it has none. */
const FrStockPlace *fr_stock_place (const FrStock *stock, gint64 container);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrStock, fr_stock_free)

G_END_DECLS
