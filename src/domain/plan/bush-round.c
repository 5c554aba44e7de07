/* The gathering round through the bush: from its trees to maths/round.h and back, and what one tree adds to
 * it.
 *
 * How full a pail is comes from what the tree is expected to give in the season, spread over its days, times
 * how much more than an average day it is. What a tree is worth is told as two rounds, with it and without
 * it, while both are small enough to be exact; above that the difference of two good rounds would say more
 * about the search than about the tree, so the one round is kept and the tree is taken out of it, or put in
 * where it lengthens the way least. */
#include "domain/maths/round.h"
#include "domain/maths/tap-choice.h"
#include "domain/plan/bush-private.h"
#include "domain/records/ground-points.h"

#include <math.h>

#define SEASON_DAYS 35.0 /* common practice, no source: four to six weeks are printed */
#define PEAK_RATIO 3.0   /* common practice, no source */
#define ROUNDING 1e-9

double
fr_bush_season_days (const FrBush *bush)
{
  const FrTapping *tapping = bush->book.tapping;

  return tapping != NULL && tapping->season_days.value > 0 ? tapping->season_days.value : SEASON_DAYS;
}

double
fr_bush_peak_ratio (const FrBush *bush)
{
  const FrTapping *tapping = bush->book.tapping;

  return tapping != NULL && tapping->peak_ratio.value > 0 ? tapping->peak_ratio.value : PEAK_RATIO;
}

/* Litres one visit carries, unlimited when no pail is known. */
static double
pail_l (const FrBush *bush)
{
  return bush->book.tapping != NULL ? bush->book.tapping->pail_l.value : NAN;
}

/* --- where it starts --- */

/* The middle of the area a closed outline holds; of its corners when it holds none. */
static FrGroundPoint
middle_of (const FrGroundPoint *points, guint n)
{
  FrGroundPoint mean = { 0, 0 }, middle = { 0, 0 };
  double twice_m2 = 0;

  for (guint i = 0; i < n; i++)
    {
      mean.x_m += points[i].x_m / n;
      mean.y_m += points[i].y_m / n;
    }
  for (guint i = 0; i < n; i++)
    {
      /* From the mean, since a plan may lie far from its zero. */
      const FrGroundPoint *next = &points[(i + 1) % n];
      const double x_m = points[i].x_m - mean.x_m, y_m = points[i].y_m - mean.y_m;
      const double next_x_m = next->x_m - mean.x_m, next_y_m = next->y_m - mean.y_m;
      const double cross_m2 = x_m * next_y_m - next_x_m * y_m;

      twice_m2 += cross_m2;
      middle.x_m += (x_m + next_x_m) * cross_m2;
      middle.y_m += (y_m + next_y_m) * cross_m2;
    }
  if (n < 3 || fabs (twice_m2) < 1e-6)
    return mean;
  return (FrGroundPoint){ mean.x_m + middle.x_m / (3 * twice_m2), mean.y_m + middle.y_m / (3 * twice_m2) };
}

static gboolean
is_placed (const FrBushTree *row)
{
  return isfinite (row->tree->x_m.value) && isfinite (row->tree->y_m.value);
}

gboolean
fr_bush_start (const FrBush *bush, double *x_m_out, double *y_m_out)
{
  FrGroundPoint mean = { 0, 0 };
  guint n_placed = 0;

  for (guint i = 0; bush->book.features != NULL && i < bush->book.features->len; i++)
    {
      const FrFeature *feature = bush->book.features->pdata[i];
      g_autofree FrGroundPoint *points = NULL;
      guint n;

      if (feature->record.archived || g_strcmp0 (feature->form, "boiling") != 0 || feature->points == NULL
          || !fr_ground_points_parse (feature->points, &points, &n, NULL))
        continue;
      mean = middle_of (points, n);
      *x_m_out = mean.x_m;
      *y_m_out = mean.y_m;
      return TRUE;
    }
  for (guint i = 0; i < bush->n_rows; i++)
    if (is_placed (&bush->rows[i]))
      {
        n_placed++;
        mean.x_m += (bush->rows[i].tree->x_m.value - mean.x_m) / n_placed;
        mean.y_m += (bush->rows[i].tree->y_m.value - mean.y_m) / n_placed;
      }
  *x_m_out = n_placed > 0 ? mean.x_m : NAN;
  *y_m_out = n_placed > 0 ? mean.y_m : NAN;
  return FALSE;
}

/* --- the round --- */

static double
day_l (const FrBush *bush, guint row, guint taps, double day_ratio)
{
  return fr_bush_season_l (bush, row, taps) / fr_bush_season_days (bush) * day_ratio;
}

static double
leg_m (double from_x_m, double from_y_m, double to_x_m, double to_y_m)
{
  return hypot (to_x_m - from_x_m, to_y_m - from_y_m);
}

static void
add_stops (FrBushRound *round, const FrRound *found, const FrRoundStop *stops, const gint64 *ids,
           double full_l)
{
  for (guint t = 0; t < found->n_trips; t++)
    {
      const FrRoundTrip *trip = &found->trips[t];
      double x_m = round->start_x_m, y_m = round->start_y_m;

      for (guint i = 0; i < trip->n_stops; i++)
        {
          const FrRoundStop *at = &stops[trip->order[i]];
          FrBushStop stop = { ids[trip->order[i]], at->litres_l, t, leg_m (x_m, y_m, at->x_m, at->y_m) };

          if (trip->alone)
            stop.volume_l = full_l;
          else if (at->litres_l > full_l)
            stop.volume_l -= full_l * MAX (0, ceil (at->litres_l / full_l * (1 - ROUNDING)) - 1);
          x_m = at->x_m;
          y_m = at->y_m;
          g_array_append_val (round->stops, stop);
        }
    }
}

FrBushRound *
fr_bush_round_through (const FrBush *bush, const guint *taps, double day_ratio)
{
  FrBushRound *round = g_new0 (FrBushRound, 1);
  g_autofree FrRoundStop *stops = g_new (FrRoundStop, bush->n_rows + 1);
  g_autofree gint64 *ids = g_new (gint64, bush->n_rows + 1);
  g_autoptr (FrRound) found = NULL;
  guint n = 0;

  round->stops = g_array_new (FALSE, FALSE, sizeof (FrBushStop));
  round->has_start = fr_bush_start (bush, &round->start_x_m, &round->start_y_m);
  for (guint i = 0; i < bush->n_rows; i++)
    {
      const FrTree *tree = bush->rows[i].tree;

      if (taps[i] == 0)
        continue;
      if (!is_placed (&bush->rows[i]))
        {
          round->n_unplaced++;
          continue;
        }
      ids[n] = bush->rows[i].id;
      stops[n] = (FrRoundStop){ tree->x_m.value, tree->y_m.value, day_l (bush, i, taps[i], day_ratio) };
      round->volume_l += stops[n++].litres_l;
    }
  if (n > 0)
    found = fr_round_new (round->start_x_m, round->start_y_m, pail_l (bush), stops, n, NULL, NULL);
  if (found == NULL)
    {
      fr_bush_round_free (round);
      return NULL;
    }
  round->n_trips = found->n_trips;
  round->walk_m = found->walk_m;
  round->bound_m = found->bound_m;
  round->is_exact = found->is_exact;
  round->litre_metres = found->carry_l_m;
  add_stops (round, found, stops, ids, pail_l (bush));
  return round;
}

/* The taps a round empties on a tree; one that is picked by hand and has none is taken with the one that it
 * might get. */
static guint
taps_in_round (const FrBushTree *row, FrRoundWhich which)
{
  const guint planned = row->taps_set + row->taps_planned;

  if (which == FR_ROUND_SET)
    return row->taps_set;
  return which == FR_ROUND_PLANNED ? planned : MAX (planned, 1);
}

FrBushRound *
fr_bush_round (const FrBush *bush, FrRoundWhich which, const gint64 *ids, guint n, double day_ratio)
{
  g_autofree guint *taps = NULL;

  g_return_val_if_fail (bush != NULL && (n == 0 || ids != NULL), NULL);
  g_return_val_if_fail (day_ratio > 0 && isfinite (day_ratio), NULL);

  taps = g_new0 (guint, bush->n_rows + 1);
  if (which == FR_ROUND_SELECTED)
    for (guint i = 0; i < n; i++)
      {
        const FrBushTree *row = fr_bush_find (bush, ids[i]);

        if (row != NULL)
          taps[row - bush->rows] = taps_in_round (row, which);
      }
  else
    for (guint i = 0; i < bush->n_rows; i++)
      taps[i] = taps_in_round (&bush->rows[i], which);
  return fr_bush_round_through (bush, taps, day_ratio);
}

FrBushRound *
fr_bush_round_past_all (const FrBush *bush)
{
  /* So little in each pail that one trip carries all. */
  const double nothing_ratio = 1e-6;
  g_autofree gint64 *ids = NULL;

  g_return_val_if_fail (bush != NULL, NULL);
  ids = g_new (gint64, bush->n_rows + 1);
  for (guint i = 0; i < bush->n_rows; i++)
    ids[i] = fr_bush_tree_at (bush, i)->id;
  return fr_bush_round (bush, FR_ROUND_SELECTED, ids, bush->n_rows, nothing_ratio);
}

void
fr_bush_round_free (FrBushRound *round)
{
  if (round == NULL)
    return;
  g_array_unref (round->stops);
  g_free (round);
}

/* --- what one tree adds --- */

/* A corner of the way: a stop, or the start before the first and after the last. */
static FrGroundPoint
corner (const FrBush *bush, const FrBushRound *round, gint at, guint trip)
{
  if (at >= 0 && at < (gint)round->stops->len)
    {
      const FrBushStop *stop = &g_array_index (round->stops, FrBushStop, at);

      if (stop->trip == trip)
        {
          const FrTree *tree = fr_bush_find (bush, stop->tree)->tree;

          return (FrGroundPoint){ tree->x_m.value, tree->y_m.value };
        }
    }
  return (FrGroundPoint){ round->start_x_m, round->start_y_m };
}

static double
detour_m (FrGroundPoint before, FrGroundPoint at, FrGroundPoint after)
{
  return leg_m (before.x_m, before.y_m, at.x_m, at.y_m) + leg_m (at.x_m, at.y_m, after.x_m, after.y_m)
         - leg_m (before.x_m, before.y_m, after.x_m, after.y_m);
}

/* How much shorter the round is without one of its visits. */
static double
visit_m (const FrBush *bush, const FrBushRound *round, gint at)
{
  const guint trip = g_array_index (round->stops, FrBushStop, at).trip;

  return detour_m (corner (bush, round, at - 1, trip), corner (bush, round, at, trip),
                   corner (bush, round, at + 1, trip));
}

void
fr_bush_round_savings (const FrBush *bush, const FrBushRound *round, double *saved_m)
{
  for (guint i = 0; i < bush->n_rows; i++)
    saved_m[i] = NAN;
  for (guint i = 0; i < round->stops->len; i++)
    {
      const guint row
          = (guint)(fr_bush_find (bush, g_array_index (round->stops, FrBushStop, i).tree) - bush->rows);

      saved_m[row] = (isnan (saved_m[row]) ? 0 : saved_m[row]) + visit_m (bush, round, (gint)i);
    }
}

void
fr_bush_round_remove (FrBushRound *round, gint64 tree)
{
  for (guint i = round->stops->len; i-- > 0;)
    if (g_array_index (round->stops, FrBushStop, i).tree == tree)
      g_array_remove_index (round->stops, i);
}

static double
saved_m (const FrBush *bush, const FrBushRound *round, gint64 tree)
{
  double sum_m = NAN;

  for (guint i = 0; i < round->stops->len; i++)
    if (g_array_index (round->stops, FrBushStop, i).tree == tree)
      sum_m = (isnan (sum_m) ? 0 : sum_m) + visit_m (bush, round, (gint)i);
  return sum_m;
}

/* How much longer it gets where the tree fits in best. */
static double
added_m (const FrBush *bush, const FrBushRound *round, const FrBushTree *row, double volume_l)
{
  const FrGroundPoint at = { row->tree->x_m.value, row->tree->y_m.value };
  const double away_m = leg_m (round->start_x_m, round->start_y_m, at.x_m, at.y_m), full_l = pail_l (bush);
  const double alone = isnan (full_l) ? 0 : MAX (0, ceil (volume_l / full_l * (1 - ROUNDING)) - 1);
  const double rest_l = alone > 0 ? volume_l - alone * full_l : volume_l;
  double best_m = 2 * away_m;

  for (guint first = 0, last; first < round->stops->len; first = last)
    {
      const guint trip = g_array_index (round->stops, FrBushStop, first).trip;
      double carried_l = 0;

      for (last = first;
           last < round->stops->len && g_array_index (round->stops, FrBushStop, last).trip == trip; last++)
        carried_l += g_array_index (round->stops, FrBushStop, last).volume_l;
      if (!isnan (full_l) && carried_l + rest_l > full_l * (1 + ROUNDING))
        continue;
      for (gint i = (gint)first; i <= (gint)last; i++)
        best_m
            = MIN (best_m, detour_m (corner (bush, round, i - 1, trip), at, corner (bush, round, i, trip)));
    }
  return best_m + 2 * away_m * alone;
}

gboolean
fr_bush_worth_in (const FrBush *bush, const FrBushRound *round, gint64 tree, double day_ratio,
                  FrTreeWorth *worth_out)
{
  const FrBushTree *row;

  g_return_val_if_fail (bush != NULL && round != NULL && worth_out != NULL, FALSE);

  row = fr_bush_find (bush, tree);
  if (row == NULL || !is_placed (row))
    return FALSE;
  worth_out->volume_l
      = day_l (bush, (guint)(row - bush->rows), taps_in_round (row, FR_ROUND_SELECTED), day_ratio);
  worth_out->sugar_kg = fr_sap_sugar_kg (worth_out->volume_l, row->expected_brix);
  worth_out->detour_m = saved_m (bush, round, tree);
  if (isnan (worth_out->detour_m))
    worth_out->detour_m = added_m (bush, round, row, worth_out->volume_l);
  return TRUE;
}

gboolean
fr_bush_worth (const FrBush *bush, gint64 tree, double day_ratio, FrTreeWorth *worth_out)
{
  g_autoptr (FrBushRound) with = NULL, without = NULL;
  g_autofree guint *taps = NULL;
  const FrBushTree *row;
  FrBush *keeps = (FrBush *)bush;
  guint n = 0;

  g_return_val_if_fail (bush != NULL && worth_out != NULL, FALSE);
  g_return_val_if_fail (day_ratio > 0 && isfinite (day_ratio), FALSE);

  row = fr_bush_find (bush, tree);
  if (row == NULL || !is_placed (row))
    return FALSE;
  taps = g_new0 (guint, bush->n_rows + 1);
  for (guint i = 0; i < bush->n_rows; i++)
    if (&bush->rows[i] != row)
      {
        taps[i] = taps_in_round (&bush->rows[i], FR_ROUND_PLANNED);
        n += taps[i] > 0 && is_placed (&bush->rows[i]);
      }
  if (n < FR_ROUND_EXACT_STOPS)
    {
      without = fr_bush_round_through (bush, taps, day_ratio);
      taps[row - bush->rows] = taps_in_round (row, FR_ROUND_SELECTED);
      with = fr_bush_round_through (bush, taps, day_ratio);
      if (with == NULL || !fr_bush_worth_in (bush, with, tree, day_ratio, worth_out))
        return FALSE;
      worth_out->detour_m = with->walk_m - (without != NULL ? without->walk_m : 0);
      return TRUE;
    }
  /* Asked of one tree after the other: the round is worked out once. */
  if (keeps->worth_round == NULL || keeps->worth_day_ratio != day_ratio)
    {
      g_clear_pointer (&keeps->worth_round, fr_bush_round_free);
      keeps->worth_round = fr_bush_round (bush, FR_ROUND_PLANNED, NULL, 0, day_ratio);
      keeps->worth_day_ratio = day_ratio;
    }
  return bush->worth_round != NULL && fr_bush_worth_in (bush, bush->worth_round, tree, day_ratio, worth_out);
}
