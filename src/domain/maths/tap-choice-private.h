/* What the files of the choice share: the trees in whole units, and plans. */
#pragma once

#include "domain/maths/tap-choice.h"

G_BEGIN_DECLS

/**
 * FrChoiceTrees:
 * The trees that may be tapped. Sugar and litres are whole multiples of a unit, so that sums do not depend on
 * their order and what is equal is equal; all the taps together come to under 2^60 units.
 */
typedef struct
{
  guint n;
  guint *which;  /* place in the caller's list */
  guint *taps;   /* most taps */
  guint *least;  /* 1 when it must be tapped, else 0 */
  guint *first;  /* of the two below, its entry for no tap; that for j taps is j further */
  gint64 *sugar; /* with so many taps */
  gint64 *litres;
  guint musts;
  guint taps_in_all;
  double sugar_unit_kg;
  double litres_unit_l;
  gint64 litres_step; /* every tap's litres are a multiple of this */
} FrChoiceTrees;

typedef struct
{
  guint buckets;
  guint trees;
  gint64 litres; /* G_MAXINT64: any amount */
} FrChoiceLimits;

/* A choice and what it comes to. @taps has one entry for each of FrChoiceTrees. */
typedef struct
{
  guint *taps;
  gint64 sugar, litres;
  guint buckets, trees;
  double bound_kg;
  gboolean exact;
} FrChoicePlan;

static inline double
fr_choice_kg (const FrChoiceTrees *trees, double value)
{
  return value * trees->sugar_unit_kg;
}

void
fr_choice_plan_sum (const FrChoiceTrees *trees, FrChoicePlan *plan);

/* The best choice for every number of buckets when nothing else limits it. */
typedef struct _FrChoiceTable FrChoiceTable;
FrChoiceTable *
fr_choice_table_new (const FrChoiceTrees *trees);
void
fr_choice_table_free (FrChoiceTable *table);
/* @buckets at least the musts. */
gint64
fr_choice_table_sugar (const FrChoiceTable *table, guint buckets);
gint64
fr_choice_table_litres (const FrChoiceTable *table, guint buckets);
void
fr_choice_table_plan (const FrChoiceTable *table, guint buckets, FrChoicePlan *plan);

/**
 * fr_choice_search:
 * @effort: 0 for a curve, 1 for what is told beside an answer, 2 for an answer
 * @plan: a choice within the limits to begin with; becomes the best that is found, with its bound
 */
void
fr_choice_search (const FrChoiceTrees *trees, const FrChoiceLimits *limits, guint effort, FrChoicePlan *plan);

/**
 * FrChoiceSearch:
 * The linear relaxation's bound and what follows from it; see tap-choice-search.c.
 */
typedef struct
{
  const FrChoiceTrees *trees;
  const FrChoiceLimits *limits;
  double bound_kg;
  double *lost_kg;   /* of each tree and taps, laid out as FrChoiceTrees.sugar */
  guint *first;      /* first choice of each tree */
  guint *order;      /* trees by least loss */
  double *least_kg;  /* loss of each tree's next best choice */
  gint64 *aside;     /* order among trees of the same loss */
  FrChoicePlan base; /* the first choices, within the limits or not */
  FrChoicePlan *best;
  guint64 work, work_most;
} FrChoiceSearch;

/* How far the best choice may be from the bound, less than nothing when that counts as equal. */
double fr_choice_gap_kg (const FrChoiceSearch *search);

/* Looks at partial choices of at most @trees_most trees in lists of at most @most. Returns the least loss of a tree that was
 * left out, INFINITY when none could matter. */
double fr_choice_look_kg (FrChoiceSearch *search, guint most, guint trees_most);

/**
 * fr_choice_bound_kg:
 * @value_kg: of tree and taps, laid out as FrChoiceTrees.sugar
 * @litres_l: the same, litres
 * @most_l: litres that are allowed
 * @price_kg_out: what a bucket, a tree, a litre is worth, each 0 or more
 *
 * Prices for which the sum of each tree's best value less prices, plus the limits at their prices, is least:
 * the bound of the linear relaxation.
 *
 * Returns: that bound.
 */
double
fr_choice_bound_kg (const FrChoiceTrees *trees, const FrChoiceLimits *limits, const double *value_kg,
                  const double *litres_l, double most_l, double price_kg_out[3]);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrChoiceTable, fr_choice_table_free)

G_END_DECLS
