/* The best place on the unrolled trunk.
 *
 * In units of the spacing asked, the points nearer than r to a hole are an open square of half-width r, on a
 * strip that joins left and right. The best clearance is the largest r whose squares leave a point of the
 * strip free. From there the point cannot be moved away from everything at once, so it is pinched: between
 * two holes side by side (their gap, or the whole way round, is 2 r), between two above one another (2 r
 * again), or between a hole and an end of the heights (r). Those are finitely many radii. What is free
 * shrinks as r grows, so the largest is found by halving their sorted list. For one radius, a free point can
 * be slid left until it touches a square, so only the lines up the right edges of squares are tried, and each
 * is walked up from below.
 *
 * At the best radius, sliding a free point towards the middle height ends there or at an edge, so the rows to
 * look at are the middle height and the edges of squares; in a row, the free point nearest to south is south
 * or an end of a blocked arc.
 *
 * With n holes the list has about 3/2 n² radii; each of its log2 trials costs n² steps, and so do the rows.
 * Comparisons allow 1e-11 of the strip's size for rounding. */
#include "domain/maths/taphole-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define ROUNDING 1e-11

static int
compare_across (gconstpointer a, gconstpointer b)
{
  const double left = ((const FrSpot *)a)->across_ratio, right = ((const FrSpot *)b)->across_ratio;

  return (left > right) - (left < right);
}

static int
compare_up (gconstpointer a, gconstpointer b)
{
  const double left = ((const FrSpot *)a)->up_ratio, right = ((const FrSpot *)b)->up_ratio;

  return (left > right) - (left < right);
}

static int
compare_numbers (gconstpointer a, gconstpointer b)
{
  const double left = *(const double *)a, right = *(const double *)b;

  return (left > right) - (left < right);
}

static double
wrap (const FrStrip *strip, double across)
{
  return across - strip->round_ratio * floor (across / strip->round_ratio + 0.5);
}

static void
allow_for_rounding (FrStrip *strip, FrSpot spot)
{
  strip->tiny_ratio = fmax (strip->tiny_ratio, ROUNDING * fabs (spot.up_ratio));
}

void
fr_strip_init (FrStrip *strip, const FrTrunk *trunk, const FrHole *holes, guint n_holes, guint more)
{
  strip->round_ratio = trunk->girth_m / trunk->sideways_m;
  strip->low_ratio = trunk->min_height_m / trunk->up_down_m;
  strip->high_ratio = trunk->max_height_m / trunk->up_down_m;
  strip->middle_ratio = (trunk->min_height_m + trunk->max_height_m) / 2 / trunk->up_down_m;
  strip->tiny_ratio = ROUNDING * (strip->round_ratio + fabs (strip->low_ratio) + fabs (strip->high_ratio));
  strip->n = n_holes;
  strip->by_across = g_new (FrSpot, n_holes + more + 1);
  for (guint i = 0; i < n_holes; i++)
    {
      const double turn_deg = fmod (holes[i].angle_deg - FR_SOUTH_DEG, FR_CIRCLE_DEG);

      strip->by_across[i].across_ratio = wrap (strip, strip->round_ratio * turn_deg / FR_CIRCLE_DEG);
      strip->by_across[i].up_ratio = holes[i].height_m / trunk->up_down_m;
      allow_for_rounding (strip, strip->by_across[i]);
    }
  strip->by_up = g_new (FrSpot, n_holes + more + 1);
  if (n_holes == 0)
    return;
  memcpy (strip->by_up, strip->by_across, n_holes * sizeof *strip->by_up);
  qsort (strip->by_across, n_holes, sizeof *strip->by_across, compare_across);
  qsort (strip->by_up, n_holes, sizeof *strip->by_up, compare_up);
}

void
fr_strip_clear (FrStrip *strip)
{
  g_clear_pointer (&strip->by_across, g_free);
  g_clear_pointer (&strip->by_up, g_free);
}

static void
insert (FrSpot *spots, guint n, FrSpot spot, int (*compare) (gconstpointer, gconstpointer))
{
  guint at = n;

  for (; at > 0 && compare (&spot, &spots[at - 1]) < 0; at--)
    spots[at] = spots[at - 1];
  spots[at] = spot;
}

void
fr_strip_add (FrStrip *strip, FrSpot spot)
{
  spot.across_ratio = wrap (strip, spot.across_ratio);
  allow_for_rounding (strip, spot);
  insert (strip->by_across, strip->n, spot, compare_across);
  insert (strip->by_up, strip->n, spot, compare_up);
  strip->n++;
}

double
fr_strip_angle_deg (const FrStrip *strip, double across_ratio)
{
  const double angle_deg
      = fmod (FR_SOUTH_DEG + across_ratio / strip->round_ratio * FR_CIRCLE_DEG, FR_CIRCLE_DEG);

  return angle_deg < 0 ? angle_deg + FR_CIRCLE_DEG : angle_deg;
}

double
fr_strip_lowest_free_ratio (const FrStrip *strip, double across_ratio, double radius_ratio)
{
  const double near = radius_ratio - strip->tiny_ratio, across = wrap (strip, across_ratio);
  double reached = strip->low_ratio;

  for (guint i = 0; i < strip->n; i++)
    {
      const FrSpot *hole = &strip->by_up[i];
      const double apart = fabs (across - hole->across_ratio);

      if (!(fmin (apart, strip->round_ratio - apart) < near))
        continue;
      if (hole->up_ratio - reached >= near)
        break; /* and all that follow lie higher */
      reached = fmax (reached, hole->up_ratio + radius_ratio);
    }
  return reached;
}

static gboolean
is_free (const FrStrip *strip, double radius)
{
  for (guint i = 0; i < strip->n; i++)
    if (fr_strip_lowest_free_ratio (strip, strip->by_across[i].across_ratio + radius, radius)
        <= strip->high_ratio + strip->tiny_ratio)
      return TRUE;
  return FALSE;
}

/* Every radius at which a place can be pinched, sorted; 0 is among them. */
static double *
list_radii (const FrStrip *strip, guint *n_out)
{
  const gsize n = strip->n;
  double *radii = g_new (double, n *(n - 1) + n * (n - 1) / 2 + 2 * n + 2);
  guint at = 0;

  radii[at++] = 0;
  radii[at++] = strip->round_ratio / 2;
  for (guint i = 0; i < n; i++)
    {
      const FrSpot *one = &strip->by_across[i];

      radii[at++] = strip->high_ratio - one->up_ratio;
      radii[at++] = one->up_ratio - strip->low_ratio;
      for (guint j = i + 1; j < n; j++)
        {
          const FrSpot *other = &strip->by_across[j];
          const double gap = other->across_ratio - one->across_ratio;

          radii[at++] = gap / 2;
          radii[at++] = (strip->round_ratio - gap) / 2;
          radii[at++] = fabs (other->up_ratio - one->up_ratio) / 2;
        }
    }
  qsort (radii, at, sizeof *radii, compare_numbers);
  *n_out = at;
  return radii;
}

/* How far one has to go from south, clockwise (@way 1) or the other way (−1), to be clear of every square in
 * the row at @up; all the way round or more when the row is full. The squares are equal, so in the order of
 * their middles each begins after the one before. */
static double
first_free (const FrStrip *strip, double up, double radius, int way)
{
  const double near = radius - strip->tiny_ratio;
  double reached = 0;

  for (int turn = -1; turn <= 1; turn++)
    for (guint k = 0; k < strip->n; k++)
      {
        const FrSpot *hole = &strip->by_across[way > 0 ? k : strip->n - 1 - k];
        const double from_south = way * hole->across_ratio + turn * strip->round_ratio;

        if (!(fabs (hole->up_ratio - up) < near) || reached - from_south >= near)
          continue;
        if (from_south - reached >= near)
          return reached;
        reached = from_south + radius;
      }
  return reached;
}

/* The free spot nearest to south in a row; of two the one with the smaller angle, which is the one before
 * south. */
static gboolean
row_spot (const FrStrip *strip, double up, double radius, FrSpot *spot_out)
{
  const double clockwise = first_free (strip, up, radius, 1), back = first_free (strip, up, radius, -1);
  const double full = strip->round_ratio - strip->tiny_ratio;

  if (clockwise >= full && back >= full)
    return FALSE;
  spot_out->up_ratio = up;
  spot_out->across_ratio = back <= clockwise + strip->tiny_ratio ? -back : clockwise;
  return TRUE;
}

static gboolean
better (const FrStrip *strip, const FrSpot *one, const FrSpot *than)
{
  const double off = fabs (one->up_ratio - strip->middle_ratio) - fabs (than->up_ratio - strip->middle_ratio);
  const double turn = fabs (one->across_ratio) - fabs (than->across_ratio);

  if (fabs (off) > strip->tiny_ratio)
    return off < 0;
  if (fabs (turn) > strip->tiny_ratio)
    return turn < 0;
  if (fabs (one->across_ratio - than->across_ratio) > strip->tiny_ratio)
    return one->across_ratio < than->across_ratio;
  return one->up_ratio < than->up_ratio - strip->tiny_ratio;
}

/* The best of the free spots at @radius; FALSE when there is none. */
static gboolean
choose (const FrStrip *strip, double radius, FrSpot *best)
{
  gboolean found = row_spot (strip, strip->middle_ratio, radius, best);

  if (found)
    return TRUE;
  for (guint k = 0; k < 2 * strip->n; k++)
    {
      const FrSpot *hole = &strip->by_up[k / 2];
      double up = k % 2 == 0 ? hole->up_ratio + radius : hole->up_ratio - radius;
      FrSpot one;

      if (up < strip->low_ratio - strip->tiny_ratio || up > strip->high_ratio + strip->tiny_ratio)
        continue;
      up = CLAMP (up, strip->low_ratio, strip->high_ratio); /* by a rounding at most */
      if (found
          && fabs (up - strip->middle_ratio)
                 > fabs (best->up_ratio - strip->middle_ratio) + strip->tiny_ratio)
        continue;
      if (row_spot (strip, up, radius, &one) && (!found || better (strip, &one, best)))
        {
          *best = one;
          found = TRUE;
        }
    }
  return found;
}

FrSpot
fr_strip_best (const FrStrip *strip)
{
  g_autofree double *radii = NULL;
  FrSpot best = { 0, strip->middle_ratio };
  guint free = 0, blocked;

  if (strip->n == 0)
    return best;
  radii = list_radii (strip, &blocked);
  while (radii[free] < 0)
    free++; /* a hole outside the heights gives one; 0, which is always free, stands behind it */
  while (blocked - free > 1)
    {
      const guint half = free + (blocked - free) / 2;

      if (is_free (strip, radii[half]))
        free = half;
      else
        blocked = half;
    }
  while (!choose (strip, radii[free], &best) && free > 0)
    free--; /* two radii closer together than a rounding */
  return best;
}
