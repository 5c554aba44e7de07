/* The gathering round, put together. The plan is moved so that the start is its origin; stops with more than
 * a pail get their trips alone, which no choice can change; the rest are ordinary stops, found the best trips
 * for by round-exact.c (12 at most) or round-tour.c and round-trips.c, with a bound from round-bound.c. Last
 * come touches that do not make the walk longer: round-finish.c.
 *
 * A stop holds more than a pail when it does so by more than a billionth, so that litres that were added up
 * make no trip for their rounding. Distances are straight lines on the plan: paths, slopes and snow are not
 * in it. */
#include "domain/maths/round-private.h"

#include <string.h>

#define ROUNDING 1e-9
#define TOUR_KICKS 100 /* a stop, at most */
#define KICKS_MAX 120000
#define TRIP_STEPS 100 /* a stop, at most */
#define STEPS_MIN 20000
#define STEPS_MAX 100000
#define BOUND_STEPS 400

void
fr_round_free (FrRound *round)
{
  if (round == NULL)
    return;
  for (guint i = 0; i < round->n_trips; i++)
    g_free (round->trips[i].order);
  g_free (round->trips);
  g_free (round);
}

void
fr_round_ground_clear (FrRoundGround *ground)
{
  g_free (ground->x_m);
  g_free (ground->y_m);
  g_free (ground->litres_l);
  g_free (ground->shares);
}

void
fr_round_parts_init (FrRoundParts *parts, const FrRoundGround *ground)
{
  parts->n_trips = 0;
  parts->first = g_new0 (guint, ground->n_points + 1);
  parts->order = g_new (guint, ground->n_points);
}

void
fr_round_parts_clear (FrRoundParts *parts)
{
  g_free (parts->first);
  g_free (parts->order);
}

void
fr_round_parts_add (FrRoundParts *parts, const guint *order, guint n)
{
  const guint first = parts->first[parts->n_trips];

  memmove (parts->order + first, order, n * sizeof *order);
  parts->first[++parts->n_trips] = first + n;
}

double
fr_round_trip_walk_m (const FrRoundGround *ground, const guint *order, guint n)
{
  double walk_m = 0;

  for (guint i = 0; i <= n; i++)
    walk_m += fr_round_leg_m (ground, i > 0 ? order[i - 1] : 0, i < n ? order[i] : 0);
  return walk_m;
}

double
fr_round_trip_carry_l_m (const FrRoundGround *ground, const guint *order, guint n)
{
  double litres_l = 0, carry_l_m = 0;

  for (guint i = 0; i < n; i++)
    {
      litres_l += ground->litres_l[order[i]];
      carry_l_m += litres_l * fr_round_leg_m (ground, order[i], i + 1 < n ? order[i + 1] : 0);
    }
  return carry_l_m;
}

double
fr_round_parts_walk_m (const FrRoundParts *parts, const FrRoundGround *ground)
{
  double walk_m = 0;

  for (guint i = 0; i < parts->n_trips; i++)
    walk_m += fr_round_trip_walk_m (ground, parts->order + parts->first[i],
                                    parts->first[i + 1] - parts->first[i]);
  return walk_m;
}

/* Full pails that a stop is walked to for alone, before what is left fits into one. */
static double
full_pails (double litres_l, double pail_l)
{
  return MAX (0, ceil (litres_l / pail_l * (1 - ROUNDING)) - 1);
}

static FrRoundCode
check (double start_x_m, double start_y_m, double pail_l, const FrRoundStop *stops, guint n_stops,
       guint *stop_out)
{
  double alone = 0;

  if (!isfinite (start_x_m) || !isfinite (start_y_m))
    return FR_ROUND_BAD_START;
  if (!isnan (pail_l) && !(pail_l > 0 && isfinite (pail_l)))
    return FR_ROUND_BAD_PAIL;
  if (n_stops > FR_ROUND_STOPS_MAX)
    return FR_ROUND_TOO_MANY_STOPS;
  for (guint i = 0; i < n_stops; i++)
    {
      *stop_out = i;
      if (!(fabs (stops[i].x_m - start_x_m) <= FR_ROUND_AWAY_MAX_M)
          || !(fabs (stops[i].y_m - start_y_m) <= FR_ROUND_AWAY_MAX_M))
        return FR_ROUND_BAD_PLACE;
      if (!(stops[i].litres_l >= 0 && stops[i].litres_l <= FR_ROUND_LITRES_MAX_L))
        return FR_ROUND_BAD_LITRES;
      if (!isnan (pail_l))
        alone += full_pails (stops[i].litres_l, pail_l);
      if (alone > FR_ROUND_TRIPS_MAX)
        return FR_ROUND_TOO_MANY_TRIPS;
    }
  *stop_out = 0;
  return FR_ROUND_OK;
}

static void
add_trip (FrRound *round, GArray *trips, const FrRoundGround *ground, const guint *order, guint n)
{
  FrRoundTrip trip = { .n_stops = n, .order = g_new (guint, n) };

  for (guint i = 0; i < n; i++)
    {
      trip.order[i] = order[i] - 1;
      trip.litres_l += ground->litres_l[order[i]];
    }
  trip.walk_m = fr_round_trip_walk_m (ground, order, n);
  trip.carry_l_m = fr_round_trip_carry_l_m (ground, order, n);
  g_array_append_val (trips, trip);
}

/* Moves to the start, takes the trips alone off. */
static void
lay_out (FrRoundGround *ground, double start_x_m, double start_y_m, double pail_l, const FrRoundStop *stops,
         guint n_stops, GArray *trips)
{
  const guint n = n_stops + 1;

  *ground = (FrRoundGround){ .n_points = n, .one_trip = isnan (pail_l) };
  ground->x_m = g_new0 (double, n);
  ground->y_m = g_new0 (double, n);
  ground->litres_l = g_new0 (double, n);
  ground->shares = g_new0 (gint64, n);
  for (guint i = 1; i < n; i++)
    {
      const FrRoundStop *stop = &stops[i - 1];

      ground->x_m[i] = stop->x_m - start_x_m;
      ground->y_m[i] = stop->y_m - start_y_m;
      ground->litres_l[i] = stop->litres_l;
      if (!ground->one_trip)
        {
          const guint full = (guint)full_pails (stop->litres_l, pail_l);
          const double away_m = fr_round_leg_m (ground, 0, i);

          for (guint k = 0; k < full; k++)
            {
              FrRoundTrip trip = { .n_stops = 1,
                                   .order = g_new (guint, 1),
                                   .walk_m = 2 * away_m,
                                   .litres_l = pail_l,
                                   .carry_l_m = pail_l * away_m,
                                   .alone = TRUE };

              trip.order[0] = i - 1;
              g_array_append_val (trips, trip);
            }
          ground->litres_l[i] = stop->litres_l - full * pail_l;
          ground->shares[i]
              = MIN (FR_ROUND_FULL, llround (ground->litres_l[i] / pail_l * FR_ROUND_PAIL_SHARES));
        }
    }
}

static void
search (const FrRoundGround *ground, FrRoundParts *parts)
{
  const guint n = ground->n_points - 1;
  g_autofree guint *order = g_new (guint, n);
  gint64 load = 0;

  for (guint i = 0; i < n; i++)
    {
      order[i] = i + 1;
      load += ground->shares[i + 1];
    }
  if (load <= FR_ROUND_FULL)
    {
      fr_round_tour (ground, order, n, MIN (KICKS_MAX, n * TOUR_KICKS));
      fr_round_parts_add (parts, order, n);
    }
  else
    {
      fr_round_tour (ground, order, n, n);
      fr_round_trips (ground, order, CLAMP (n * TRIP_STEPS, STEPS_MIN, STEPS_MAX), parts);
    }
  fr_round_finish (ground, parts);
}

static int
compare_trips (const void *a, const void *b, void *parts_data)
{
  const guint *lowest = parts_data;
  const guint one = lowest[*(const guint *)a], two = lowest[*(const guint *)b];

  return one < two ? -1 : one > two;
}

/* The trips by the lowest stop in each. */
static void
hand_over (FrRound *round, GArray *trips, const FrRoundGround *ground, const FrRoundParts *parts)
{
  g_autofree guint *lowest = g_new (guint, parts->n_trips + 1), *sorted = g_new (guint, parts->n_trips + 1);

  for (guint i = 0; i < parts->n_trips; i++)
    {
      sorted[i] = i;
      lowest[i] = G_MAXUINT;
      for (guint j = parts->first[i]; j < parts->first[i + 1]; j++)
        lowest[i] = MIN (lowest[i], parts->order[j]);
    }
  g_qsort_with_data (sorted, (gint)parts->n_trips, sizeof *sorted, compare_trips, lowest);
  for (guint i = 0; i < parts->n_trips; i++)
    add_trip (round, trips, ground, parts->order + parts->first[sorted[i]],
              parts->first[sorted[i] + 1] - parts->first[sorted[i]]);
}

FrRound *
fr_round_new (double start_x_m, double start_y_m, double pail_l, const FrRoundStop *stops, guint n_stops,
              FrRoundCode *code_out, guint *stop_out)
{
  guint at_fault = 0;
  const FrRoundCode code = check (start_x_m, start_y_m, pail_l, stops, n_stops, &at_fault);
  double alone_m = 0, walk_m, bound_m;
  FrRoundGround ground;
  FrRoundParts parts;
  FrRound *round;
  GArray *trips;

  if (code_out != NULL)
    *code_out = code;
  if (stop_out != NULL)
    *stop_out = at_fault;
  if (code != FR_ROUND_OK)
    return NULL;

  round = g_new0 (FrRound, 1);
  trips = g_array_new (FALSE, FALSE, sizeof (FrRoundTrip));
  lay_out (&ground, start_x_m, start_y_m, pail_l, stops, n_stops, trips);
  for (guint i = 0; i < trips->len; i++)
    alone_m += g_array_index (trips, FrRoundTrip, i).walk_m;
  fr_round_parts_init (&parts, &ground);
  if (n_stops <= FR_ROUND_EXACT_STOPS)
    {
      fr_round_exact (&ground, &parts);
      walk_m = bound_m = fr_round_parts_walk_m (&parts, &ground);
      round->is_exact = TRUE;
    }
  else
    {
      search (&ground, &parts);
      walk_m = fr_round_parts_walk_m (&parts, &ground);
      bound_m = walk_m > 0 ? fr_round_bound_m (&ground, walk_m, BOUND_STEPS) : 0;
      round->is_exact = walk_m <= bound_m * (1 + ROUNDING);
    }
  hand_over (round, trips, &ground, &parts);
  fr_round_parts_clear (&parts);
  fr_round_ground_clear (&ground);

  round->n_trips = trips->len;
  round->trips = (FrRoundTrip *)(gpointer)g_array_free (trips, FALSE);
  round->walk_m = walk_m + alone_m;
  round->bound_m = bound_m + alone_m;
  for (guint i = 0; i < round->n_trips; i++)
    round->carry_l_m += round->trips[i].carry_l_m;
  round->gap_ratio = round->bound_m > 0 ? round->walk_m / round->bound_m - 1 : 0;
  return round;
}
