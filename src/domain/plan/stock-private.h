/* Between the files of stock.h: a container while the season is replayed, and the readings that stand in for those not taken. */
#pragma once

#include "domain/plan/stock.h"

G_BEGIN_DECLS

/* Sap as mass and sugar; both may be below 0 when more left than came in. */
typedef struct
{
  double mass_kg;
  double sugar_kg;
} FrStockMix;

/* So many litres at a sweetness. An unknown one leaves the sugar unknown. */
FrStockMix
fr_stock_mix_of (double volume_l, double brix);
/* Where readings disagree so far that the mix cannot be (less than no sugar, or over 80 °Bx), at the density of the nearest that can;
 * there is a line then. */
double
fr_stock_mix_l (FrStockMix mix);
/* NAN when it is empty or below. */
double
fr_stock_mix_brix (FrStockMix mix);

/* What happened, and how sweet it was read; @brix NAN when nothing was read. */
typedef struct
{
  gint64 utc_s;
  const FrRecord *record;
  double brix;
} FrStockEvent;

/* One reading of the season: the sums of litres, its weight, up to and with it. */
typedef struct
{
  gint64 utc_s;
  double sum_l;
  double sum_brix_l;
} FrStockReading;

/* (element-type FrStockReading), by time as the events: see fr_stock_new. Free with g_array_unref. */
GArray *
fr_stock_readings (const FrSeasonBook *book, const GArray *events);
/* NAN without readings. */
double
fr_stock_usual_brix (const GArray *readings, gint64 utc_s);

/* NULL when there is none. */
const FrContainer *
fr_stock_container (const FrSeasonBook *book, gint64 id);

/**
 * FrStockBin:
 * A container's state.
 * @temp_c, @ice_kg: NAN unknown, and always in one that is empty or below
 * @warm_utc: up to which these and @used_ratio were followed
 * @known_utc: the last instant at which the temperature rested on a measure or on air that was known
 * @spoiled_utc: when @used_ratio came to 1, G_MININT64 not yet
 */
typedef struct
{
  gint64 id;
  const FrContainer *container;
  gboolean touched; /* something is or was in it */
  FrStockMix mix; /* set by fr_stock_set_mix() */
  double volume_l;
  gboolean brix_assumed;
  gint64 oldest_utc;
  double used_ratio;
  gint64 spoiled_utc;
  double temp_c;
  double ice_kg;
  FrStockTemp temp_from;
  gint64 warm_utc;
  gint64 known_utc;
  const char *clarity;
  const char *smell;
  gint64 changed_utc;
  gint64 since_utc;
} FrStockBin;

typedef struct
{
  const FrSeasonBook *book;
  gint64 from_utc;
  gint64 until_utc; /* the last instant that is looked ahead to */
  GArray *readings;
  FrKeepingTable keeping;
  GArray *days;                 /* FrDaySpan, of the season's weather */
  GArray *air[FR_N_SAP_PLACES]; /* FrAirKnot, NULL before it is asked for */
  GArray *bins;  /* FrStockBin */
  GArray *lines; /* FrStockLine */
  GArray *flows; /* FrStockFlow */
} FrStockReplay;

/* The container's state, made when there was none; a pointer that holds until the next is made. One that is not in the book is 0. */
FrStockBin *
fr_stock_bin (FrStockReplay *replay, gint64 container);

void
fr_stock_set_mix (FrStockBin *bin, FrStockMix mix);

/* Days, keeping table; and frees what was made. */
void
fr_stock_warmth_init (FrStockReplay *replay, gint64 at_utc);
void
fr_stock_warmth_clear (FrStockReplay *replay);

/* Follows temperature, ice and keeping of a container to an instant. */
void
fr_stock_warm_to (FrStockReplay *replay, FrStockBin *bin, gint64 utc_s);
/* The same to within ten minutes, the rest of which is made up by the next. */
void
fr_stock_warm_near (FrStockReplay *replay, FrStockBin *bin, gint64 utc_s);
/* After some left or was found: the temperature stays, and the ice is what belongs to it. */
void
fr_stock_warm_left (FrStockBin *bin);

/* Sap on its way into a container. */
typedef struct
{
  FrSapBody body;
  FrStockTemp from;
  gint64 known_utc;
} FrStockWarmth;

/* Of liquid sap just brought in, whose temperature was typed or not (NAN). */
FrStockWarmth
fr_stock_warmth_gathered (FrStockReplay *replay, const FrStockBin *bin, FrStockMix mix, double sap_c, gint64 utc_s);
/* Of what is poured out of a container, at its temperature. */
FrStockWarmth
fr_stock_warmth_of (const FrStockBin *bin, FrStockMix leaving);
/* Pours it in; @before is what was there, @bin->mix already what is. */
void
fr_stock_warm_mix (FrStockBin *bin, FrStockMix before, double before_l, const FrStockWarmth *coming, gint64 utc_s);
/* What a look says of temperature and ice. */
void
fr_stock_warm_dip (FrStockBin *bin, const FrDip *dip);
/* When it is spoiled if it stays as it is; G_MININT64 unknown. */
gint64
fr_stock_spoils_utc (FrStockReplay *replay, const FrStockBin *bin);

/* @read_brix: as read, NAN when it was not. */
void
fr_stock_apply_gathering (FrStockReplay *replay, const FrGathering *gathering, double read_brix);
void
fr_stock_apply_pour (FrStockReplay *replay, const FrPour *pour, double read_brix);
void
fr_stock_apply_dip (FrStockReplay *replay, const FrDip *dip, double liquid_brix);

G_END_DECLS
