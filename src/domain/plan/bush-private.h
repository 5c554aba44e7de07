/* How a bush is kept between the files that make it: the records sorted once by tree, so that nothing has to
 * look for them again. */
#pragma once

#include "domain/maths/tap-choice.h"
#include "domain/maths/tree-yield.h"
#include "domain/plan/bush.h"
#include "domain/plan/gathering-share.h"

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
  double own_brix;   /* mean of its measured seasons, NAN none */
  double diameter_m; /* as in its row, if it has one */
} FrBushEntry;

/* What is expected of a tree rests on this and its seasons. */
typedef struct
{
  gint64 id;
  const FrSapSpecies *species;
  double diameter_m;
  guint crown; /* index of its code */
  guint n_seasons;
} FrBushPast;

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
  GArray *gathered; /* FrGatheredTotals by tree and season, none later than the bush's own */
  double *worth_kg_or_l; /* beside seasons: what ranks, kg of sugar, or litres where no sweetness was ever
                    measured; NAN unknown */
  gboolean is_over; /* whether the bush's own season is: nothing more will be gathered */
  gboolean by_litres;
  double mean_brix; /* of all measured seasons of all trees, NAN none */
  GArray *means;    /* FrBushMean by season */
  guint n_rows;
  FrBushTree *rows;
  guint *row_entries;     /* the entry of each row */
  FrBushPast *past_trees; /* beside entries: what the expectations rest on, with no pointer into a record */
  FrYieldSeason *past_seasons;
  guint n_past_seasons;
  FrTreeYield *expected;    /* beside entries */
  double *tap_litres_l;     /* FR_TAP_CHOICE_TAPS_MAX for each row */
  FrBushRound *worth_round; /* the planned round, kept for fr_bush_worth; or NULL */
  double worth_day_ratio;
};

/* The last day of a season, 31 July, as days since 1970-01-01. */
gint64
fr_bush_season_end (guint season);
/* The entry of a tree's id; FALSE when there is none. */
gboolean
fr_bush_entry (const FrBush *bush, gint64 tree, guint *entry_out);
/* Of one measuring, whichever of the two was measured. */
double
fr_girth_diameter_m (const FrGirth *girth);
/* A season as a whole number; FALSE when the record has none. */
gboolean
fr_bush_season_of (const FrAmount *season, guint *season_out);

/* Since a tap was drilled, up to the bush's day; NAN when the day is unknown. */
double
fr_bush_since_years (const FrBush *bush, const FrTap *tap);
/* Whether any place keeps the asked distance from the holes of earlier seasons. */
gboolean
fr_bush_has_place (const FrBush *bush, guint entry, double girth_m);

/* Where rounds start: the boiling place, TRUE, or the middle of all placed trees; NAN when there is none. */
gboolean
fr_bush_start (const FrBush *bush, double *x_m_out, double *y_m_out);
/* The round past the rows with taps, as full as so many taps make them. NULL when none of them is placed. */
FrBushRound *
fr_bush_round_through (const FrBush *bush, const guint *taps, double day_ratio);
/* For each row how much shorter the round is without its visits, in the same order; NAN for those not in it.
 */
void
fr_bush_round_savings (const FrBush *bush, const FrBushRound *round, double *saved_m);
/* Takes its visits out; totals stay as they were. */
void
fr_bush_round_remove (FrBushRound *round, gint64 tree);

/* What a row's first, second … tap is expected to give in a season, as many as it may get and at least one;
 * borrowed. */
const double *
fr_bush_per_tap_l (const FrBush *bush, guint row);
/* The same for its first so many taps together. */
double
fr_bush_season_l (const FrBush *bush, guint row, guint taps);
/* Sugar of a choice, one number of taps per row, 8 seasons in 10. */
void
fr_bush_sugar_span (const FrBush *bush, const guint *taps, double *low_kg_out, double *high_kg_out);

/* Sorted, with the sizes of its trunks, and nothing else. */
FrBush *
fr_bush_new_bare (const FrBushBook *book);
/* The size of a trunk by its measures, as in its row. */
double
fr_bush_diameter_m (const FrBush *bush, guint entry);

/* The steps of fr_bush_new, in this order. */
void
fr_bush_index (FrBush *bush);
void
fr_bush_gather (FrBush *bush);
void
fr_bush_make_seasons (FrBush *bush);
void
fr_bush_make_rows (FrBush *bush);
void
fr_bush_rank_rows (FrBush *bush);
void
fr_bush_make_expectations (FrBush *bush, const FrBush *old);
void
fr_bush_share_season (FrBush *bush);

/* Adds what was gathered to a season, after what was typed. */
void
fr_bush_add_gathered (const FrBush *bush, FrTreeSeason *season, const FrGatheredTotals *totals);

/* Of an entry, see FrBushTree. */
double
fr_bush_trend_ratio (const FrBush *bush, guint entry);

/* The trees to choose from; what stands in one place of the arrays is one tree. */
typedef struct
{
  const FrBush *bush;
  guint n;
  guint *rows;
  FrTapTree *trees;
  FrTapLimits limits;
} FrBushOffer;

/* The round of an average day past the trees with taps, one number per tree on offer; NULL when none of them
 * has a place. */
FrBushRound *
fr_bush_offer_round (const FrBushOffer *offer, const guint *taps);
/* Makes the choice again, with trees put aside, until its round is no longer than that, or only what must be
 * tapped is left. Choice and round are replaced. */
FrTapChoiceCode
fr_bush_keep_walk (FrBushOffer *offer, FrTapChoice *choice, FrBushRound **round, double walk_max_m);

G_END_DECLS
