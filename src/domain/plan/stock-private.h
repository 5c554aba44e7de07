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

/* One reading of the season. */
typedef struct
{
  gint64 utc_s;
  double brix;
  double volume_l; /* its weight */
} FrStockReading;

/* (element-type FrStockReading), by time: see fr_stock_new. Free with g_array_unref. */
GArray *
fr_stock_readings (const FrSeasonBook *book, gint64 from_utc, gint64 at_utc);
/* NAN without readings. */
double
fr_stock_usual_brix (const GArray *readings, gint64 utc_s);

/* NULL when there is none. */
const FrContainer *
fr_stock_container (const FrSeasonBook *book, gint64 id);

/* A container's state. */
typedef struct
{
  gint64 id;
  const FrContainer *container;
  gboolean touched; /* something is or was in it */
  FrStockMix mix;
  gboolean brix_assumed;
  gint64 oldest_utc;
  double used_ratio;
  const char *clarity;
  const char *smell;
  gint64 changed_utc;
  gint64 since_utc;
} FrStockBin;

typedef struct
{
  const FrSeasonBook *book;
  gint64 from_utc;
  GArray *readings;
  GArray *bins;  /* FrStockBin */
  GArray *lines; /* FrStockLine */
  GArray *flows; /* FrStockFlow */
} FrStockReplay;

/* The container's state, made when there was none; a pointer that holds until the next is made. One that is not in the book is 0. */
FrStockBin *
fr_stock_bin (FrStockReplay *replay, gint64 container);

void
fr_stock_apply_gathering (FrStockReplay *replay, const FrGathering *gathering);
void
fr_stock_apply_pour (FrStockReplay *replay, const FrPour *pour);
void
fr_stock_apply_dip (FrStockReplay *replay, const FrDip *dip);

G_END_DECLS
