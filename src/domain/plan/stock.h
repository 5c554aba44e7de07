/* The sap in store at a moment: every event of a season replayed in order of time, each container a mix by exact mass balance.
 *
 * Volumes turn into masses and back by the density at FR_STOCK_C, whatever the sap's temperature, so that litres typed in are litres
 * shown again; sugar and mass are what is kept. A look into a container (a dip) sets it to what was found; the difference is kept as a
 * line, never hidden. Sap whose place was not said is container 0, one more mix. */
#pragma once

#include "domain/plan/season-book.h"

G_BEGIN_DECLS

/* Common sense, no source: sap is measured cold, and water is densest there, so that an error of some kelvin weighs least. */
#define FR_STOCK_C 4.0

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
 * @ice_ratio: share of the mass that is ice; @temp_c
 * @oldest_utc: gathering of the oldest sap in it, G_MININT64 when empty
 * @used_ratio: of its keeping time, 1 = spoiled; NAN unknown; @spoils_utc: when it reaches 1 if it stays as it is, G_MININT64 unknown
 * @clarity, @smell: as last noted, codes
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
  FR_N_LINES
} FrStockLineCode;

/* What does not add up. @volume_l, @sugar_kg: measured minus computed (NAN when not measured); @since_utc: the last moment at which
 * the container was known to add up. @record: the event at which it shows. */
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

typedef struct
{
  gint64 from_utc;
  gint64 at_utc;
  guint n_places;
  FrStockPlace *places; /* every store container in use, empty ones too, and 0 when something is or was in it; oldest sap first */
  guint n_levels;
  FrStockLevel *levels;
  guint n_lines;
  FrStockLine *lines; /* in order of time */
  double volume_l, mass_kg, sugar_kg; /* all together */
  gint64 oldest_utc;
  double capacity_l;
} FrStock;

/* Events from @from_utc to @at_utc, both included. Borrows the records. Never NULL. */
FrStock *fr_stock_new (const FrSeasonBook *book, gint64 from_utc, gint64 at_utc);
void fr_stock_free (FrStock *stock);
/* The container's place, 0 for sap whose place was not said; NULL when it has none. */
const FrStockPlace *fr_stock_place (const FrStock *stock, gint64 container);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrStock, fr_stock_free)

G_END_DECLS
