/* How a bush is kept between the files that make it: the records sorted once by tree, so that nothing has to
 * look for them again. */
#pragma once

#include "domain/plan/bush.h"

G_BEGIN_DECLS

/* Days of a year in the mean, for ages and growth. */
#define FR_BUSH_YEAR_DAYS 365.2425

/* One season of the whole bush, archived trees included. */
typedef struct
{
  guint season;
  double litres_l; /* of the trees whose litres and taps are both known */
  guint taps;
  guint n; /* how many trees those are */
} FrBushMean;

/* A tree, archived or not. What belongs to entry i stands in taps, girths and seasons from starts[i] to below
 * starts[i + 1]. */
typedef struct
{
  gint64 id;
  const FrTree *tree;
  double own_brix; /* mean of its measured seasons, NAN none */
} FrBushEntry;

struct _FrBush
{
  FrBushBook book;
  guint season;
  gint64 day; /* what ages are counted to: today, or the season's last day if that is past */
  guint n_entries;
  FrBushEntry *entries; /* by id */
  const FrTap **taps;   /* by tree, season, id */
  guint *tap_starts;
  const FrGirth **girths; /* by tree, day, id */
  guint *girth_starts;
  const FrYield **yields; /* by tree, season, id */
  guint *yield_starts;
  GArray *seasons; /* FrTreeSeason by tree and season, none later than the bush's own; ranks not filled in */
  guint *season_starts;
  double *worth_kg_or_l; /* beside seasons: what ranks, kg of sugar, or litres where no sweetness was ever
                    measured; NAN unknown */
  gboolean by_litres;
  double mean_brix; /* of all measured seasons of all trees, NAN none */
  GArray *means;    /* FrBushMean by season */
  guint n_rows;
  FrBushTree *rows;
  guint *row_entries; /* the entry of each row */
};

/* The last day of a season, 31 July, as days since 1970-01-01. */
gint64
fr_bush_season_end (guint season);
/* The entry of a tree's id; FALSE when there is none. */
gboolean
fr_bush_entry (const FrBush *bush, gint64 tree, guint *entry_out);
/* A season as a whole number; FALSE when the record has none. */
gboolean
fr_bush_season_of (const FrAmount *season, guint *season_out);

/* Since a tap was drilled, up to the bush's day; NAN when the day is unknown. */
double
fr_bush_since_years (const FrBush *bush, const FrTap *tap);
/* Whether any place keeps the asked distance from the holes of earlier seasons. */
gboolean
fr_bush_has_place (const FrBush *bush, guint entry, double girth_m);

/* The steps of fr_bush_new, in this order. */
void
fr_bush_index (FrBush *bush);
void
fr_bush_make_seasons (FrBush *bush);
void
fr_bush_make_rows (FrBush *bush);
void
fr_bush_rank_rows (FrBush *bush);

/* Of an entry, see FrBushTree. */
double
fr_bush_trend_ratio (const FrBush *bush, guint entry);

G_END_DECLS
