/* Inside of the round's lower bound: least forests under prices, and the sets of stops that need several
 * pails. */
#pragma once

#include "domain/maths/round-private.h"

G_BEGIN_DECLS

/**
 * FrRoundSet:
 * Stops whose litres need @pails pails, so that @n - @pails legs between them are the most any round has. A
 * leg between two of them costs @price_m more, and as much for each that is allowed is paid back.
 */
typedef struct
{
  guint64 key;
  guint n;
  guint *stops;
  guint pails;
  double price_m;
  gboolean listed;
  gint over; /* legs of the last forest in it, beyond what is allowed */
} FrRoundSet;

typedef struct
{
  guint a, b;
} FrRoundEdge;

/**
 * FrRoundForest:
 * Stops 0 to @n - 1 are points 1 to @n. A tree is @parent and the price of the edge there, @key_m, in the
 * order @found; which edges of it are in the forest is @kept.
 */
typedef struct
{
  const FrRoundGround *ground;
  guint n;
  guint trips_min, trips_max;
  double *start_m; /* stop to start */
  double *price_m; /* of each end at a stop */
  GPtrArray *sets; /* those with a price */
  GArray *edges;   /* the near ones */
  guint *first, *to;
  double *leg_m, *more_m; /* by edge and direction; what the sets add */
  guint *parent, *second, *found;
  double *key_m;
  guint8 *kept;
  gint *ends; /* legs of the last forest, and to the start, at each stop */
  guint *by_start, *by_edge;
  guint8 *done;
  guint *heap, *heap_at, n_heap;
  guint *mark, last_mark; /* by stop */
} FrRoundForest;

void
fr_round_forest_init (FrRoundForest *forest, const FrRoundGround *ground, guint trips_min, guint trips_max);
void
fr_round_forest_clear (FrRoundForest *forest);
/* The least tree over the near legs; over all legs. */
void
fr_round_forest_near (FrRoundForest *forest);
void
fr_round_forest_whole (FrRoundForest *forest);
/* The least forest and legs to the start from that tree; no round costs less. Sets kept and ends. */
double
fr_round_forest_worth_m (FrRoundForest *forest);
/* Makes the legs of the tree near ones; FALSE when all were. */
gboolean
fr_round_forest_learn (FrRoundForest *forest);

G_END_DECLS
