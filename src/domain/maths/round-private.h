/* What the files of the gathering round share. */
#pragma once

#include "domain/maths/chance.h"
#include "domain/maths/round.h"

#include <math.h>

G_BEGIN_DECLS

#define FR_ROUND_PAIL_SHARES                                                                                 \
  (G_GINT64_CONSTANT (1) << 40) /* parts of a pail, so that sums of loads are exact */
#define FR_ROUND_FULL                                                                                        \
  (FR_ROUND_PAIL_SHARES + (G_GINT64_CONSTANT (1) << 11)) /* 2e-9 over, for litres that were added up */

/**
 * FrRoundGround:
 * The ordinary visits. Point 0 is the start, at the origin; 1 to @n_points - 1 are stops. @shares are loads
 * in parts of a pail, at most FR_ROUND_FULL; all 0 when there is no limit. Plain value;
 * fr_round_ground_clear.
 */
typedef struct
{
  guint n_points;
  double *x_m;
  double *y_m;
  double *litres_l;
  gint64 *shares;
  gboolean one_trip; /* no limit: everything at once */
} FrRoundGround;

void
fr_round_ground_clear (FrRoundGround *ground);

static inline double
fr_round_leg_m (const FrRoundGround *ground, guint a, guint b)
{
  const double east_m = ground->x_m[a] - ground->x_m[b], north_m = ground->y_m[a] - ground->y_m[b];

  return sqrt (east_m * east_m + north_m * north_m);
}

/**
 * FrRoundParts:
 * Trips as one list of points cut in pieces: trip i is @order from @first[i] to before @first[i + 1].
 */
typedef struct
{
  guint n_trips;
  guint *first; /* n_trips + 1 of them */
  guint *order;
} FrRoundParts;

/* Room for one trip a stop; no trips yet. */
void
fr_round_parts_init (FrRoundParts *parts, const FrRoundGround *ground);
void
fr_round_parts_clear (FrRoundParts *parts);
/* One more trip, of @n > 0 points. */
void
fr_round_parts_add (FrRoundParts *parts, const guint *order, guint n);
double
fr_round_parts_walk_m (const FrRoundParts *parts, const FrRoundGround *ground);
/* Walk and litre-metres of one trip. */
double
fr_round_trip_walk_m (const FrRoundGround *ground, const guint *order, guint n);
double
fr_round_trip_carry_l_m (const FrRoundGround *ground, const guint *order, guint n);

/* round-near.c: for each of @n points the @k < n nearest others, nearest first, @k a row. Free it. */
guint *
fr_round_near (const double *x_m, const double *y_m, guint n, guint k);

/* round-exact.c: at most FR_ROUND_EXACT_STOPS points. The best order of one trip; and the best trips. */
void
fr_round_exact_trip (const FrRoundGround *ground, guint *order, guint n);
void
fr_round_exact (const FrRoundGround *ground, FrRoundParts *parts_out);

/* round-tour.c: betters the order of one trip of any size; @kicks is the budget. */
void
fr_round_tour (const FrRoundGround *ground, guint *order, guint n, guint kicks);

/* round-trips.c: good trips under the pail; @steps is the budget. @tour: all stops in a good order for one
 * trip. */
void
fr_round_trips (const FrRoundGround *ground, const guint *tour, guint steps, FrRoundParts *parts_out);

/* round-finish.c: betters each trip by itself, then its litre-metres while the walk stays the same; cuts it
 * where it passes over the start. */
void
fr_round_finish (const FrRoundGround *ground, FrRoundParts *parts);

/* round-bound.c: no trips walk less than this. @walk_m: of a known answer, over 0, to aim at. */
double
fr_round_bound_m (const FrRoundGround *ground, double walk_m, guint steps);

G_END_DECLS
