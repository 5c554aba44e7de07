/* Two to four places for one season, by construction and improvement.
 *
 * Beginnings: (a) one place after the other as the single search gives them; (b) evenly round the trunk at
 * the middle height; (c) packed: for a distance r, going round the trunk from a line, each place goes to the
 * first line that has a free spot, as low (or as high) as it can there; the largest r for which that finds
 * room for all is closed in by halving, over every line up the edge of a hole's square. On a trunk with room
 * for one row (c) is the best there is. Then each place in turn goes to its exact best spot among the old
 * holes and the other places, until nothing moves: no move lowers the least clearance. The best of all
 * beginnings is kept. */
#include "domain/maths/taphole.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "domain/maths/taphole-private.h"

#define SWEEPS_MAX 40
#define TURNS 2
#define HALVINGS 22
#define GAIN 1e-6 /* of the ratio: less than a hair on any trunk */

typedef struct
{
  const FrTrunk *trunk;
  guint n_holes;
  guint want;
  FrHole *all; /* the old holes, then room for the other places */
  FrHole places[FR_TAPHOLES_MAX];
} Season;

static FrHole
new_hole (double angle_deg, double height_m)
{
  return (FrHole){ angle_deg, height_m, NAN, NAN, 0 };
}

/* How many holes there are for place @self to keep clear of, all in @all. */
static guint
gather (Season *season, guint self)
{
  guint n = season->n_holes;

  for (guint i = 0; i < season->want; i++)
    if (i != self)
      season->all[n++] = season->places[i];
  return n;
}

static double
clearance_of (Season *season, guint self)
{
  const guint n = gather (season, self);
  FrTaphole place;

  fr_taphole_clearance (season->trunk, season->all, n, season->places[self].angle_deg,
                        season->places[self].height_m, &place);
  return place.clearance_ratio;
}

static double
least_clearance (Season *season)
{
  double least = INFINITY;

  for (guint i = 0; i < season->want; i++)
    least = fmin (least, clearance_of (season, i));
  return least;
}

static void
settle (Season *season)
{
  gboolean moved = TRUE;

  for (guint sweep = 0; moved && sweep < SWEEPS_MAX; sweep++)
    {
      moved = FALSE;
      for (guint i = 0; i < season->want; i++)
        {
          const double now = clearance_of (season, i);
          FrTaphole better;

          fr_taphole_find (season->trunk, season->all, season->n_holes + season->want - 1, &better);
          if (!(better.clearance_ratio > now * (1 + GAIN)))
            continue;
          season->places[i] = new_hole (better.angle_deg, better.height_m);
          moved = TRUE;
        }
    }
}

/* One after the other, each as far as it can be from what is there. */
static void
begin_in_turn (Season *season)
{
  const guint want = season->want;

  for (season->want = 0; season->want < want; season->want++)
    {
      const guint n = gather (season, season->want);
      FrTaphole place;

      fr_taphole_find (season->trunk, season->all, n, &place);
      season->places[season->want] = new_hole (place.angle_deg, place.height_m);
    }
}

static void
begin_evenly (Season *season, guint turn)
{
  const double step_deg = FR_CIRCLE_DEG / season->want;
  const double height_m = (season->trunk->min_height_m + season->trunk->max_height_m) / 2;

  for (guint i = 0; i < season->want; i++)
    season->places[i] = new_hole (FR_SOUTH_DEG + step_deg * (i + (double)turn / TURNS), height_m);
}

/* The first free spot going clockwise from the line @from, the lowest there. FALSE when nothing is free. */
static gboolean
next_spot (const FrStrip *strip, double from, double radius, FrSpot *spot_out)
{
  double best = INFINITY;

  for (guint i = 0; i <= strip->n; i++)
    {
      const double across = i < strip->n ? strip->by_across[i].across_ratio + radius : from;
      double ahead = fmod (across - from, strip->round_ratio), up;

      if (ahead < 0)
        ahead += strip->round_ratio;
      if (ahead >= best)
        continue;
      up = fr_strip_lowest_free_ratio (strip, across, radius);
      if (up > strip->high_ratio + strip->tiny_ratio)
        continue;
      best = ahead;
      *spot_out = (FrSpot){ across, fmin (up, strip->high_ratio) };
    }
  return best < INFINITY;
}

/* Packs all places @radius apart, beginning at @from. @strip is as it was afterwards. */
static gboolean
pack_from (FrStrip *strip, double from, double radius, guint want, FrSpot *spots)
{
  FrStrip full = *strip;
  gboolean fits = TRUE;

  full.by_across = g_memdup2 (strip->by_across, (strip->n + FR_TAPHOLES_MAX) * sizeof (FrSpot));
  full.by_up = g_memdup2 (strip->by_up, (strip->n + FR_TAPHOLES_MAX) * sizeof (FrSpot));
  for (guint i = 0; fits && i < want; i++)
    {
      fits = next_spot (&full, from, radius, &spots[i]);
      if (fits)
        fr_strip_add (&full, spots[i]);
    }
  fr_strip_clear (&full);
  return fits;
}

static gboolean
pack (FrStrip *strip, double radius, guint want, FrSpot *spots)
{
  if (strip->n == 0)
    return pack_from (strip, 0, radius, want, spots);
  for (guint i = 0; i < strip->n; i++)
    if (pack_from (strip, strip->by_across[i].across_ratio + radius, radius, want, spots))
      return TRUE;
  return FALSE;
}

/* @upside_down: as high as it can instead of as low. FALSE when it does not reach @least. */
static gboolean
begin_packed (Season *season, gboolean upside_down, double least, double most)
{
  g_autofree FrHole *holes = g_memdup2 (season->all, (season->n_holes + 1) * sizeof *holes);
  FrTrunk trunk = *season->trunk;
  FrSpot spots[FR_TAPHOLES_MAX], best[FR_TAPHOLES_MAX];
  FrStrip strip;
  gboolean found = FALSE;

  if (upside_down)
    {
      trunk.min_height_m = -season->trunk->max_height_m;
      trunk.max_height_m = -season->trunk->min_height_m;
      for (guint i = 0; i < season->n_holes; i++)
        holes[i].height_m = -holes[i].height_m;
    }
  fr_strip_init (&strip, &trunk, holes, season->n_holes, FR_TAPHOLES_MAX);
  for (guint i = 0; i < HALVINGS; i++)
    {
      const double radius = i == 0 ? least : (least + most) / 2;

      if (pack (&strip, radius, season->want, spots))
        {
          least = radius;
          found = TRUE;
          memcpy (best, spots, sizeof best);
        }
      else if (i == 0)
        break;
      else
        most = radius;
    }
  for (guint i = 0; found && i < season->want; i++)
    {
      const double height_m
          = CLAMP (best[i].up_ratio * trunk.up_down_m, trunk.min_height_m, trunk.max_height_m);

      season->places[i]
          = new_hole (fr_strip_angle_deg (&strip, best[i].across_ratio), upside_down ? -height_m : height_m);
    }
  fr_strip_clear (&strip);
  return found;
}

static int
compare_angles (gconstpointer a, gconstpointer b)
{
  const FrTaphole *one = a, *other = b;

  if (one->angle_deg != other->angle_deg)
    return one->angle_deg < other->angle_deg ? -1 : 1;
  return (one->height_m > other->height_m) - (one->height_m < other->height_m);
}

static void
tell (Season *season, const FrHole *best, FrTaphole *places_out)
{
  for (guint i = 0; i < season->want; i++)
    fr_taphole_clearance (season->trunk, NULL, 0, best[i].angle_deg, best[i].height_m, &places_out[i]);
  qsort (places_out, season->want, sizeof *places_out, compare_angles);
  for (guint i = 0; i < season->want; i++)
    season->places[i] = new_hole (places_out[i].angle_deg, places_out[i].height_m);
  for (guint i = 0; i < season->want; i++)
    {
      const guint n = gather (season, i);

      fr_taphole_clearance (season->trunk, season->all, n, season->places[i].angle_deg,
                            season->places[i].height_m, &places_out[i]);
      if (places_out[i].nearest >= (gint)(season->n_holes + i))
        places_out[i].nearest++; /* it is not among those that it keeps clear of */
      if (places_out[i].stain_of >= (gint)(season->n_holes + i))
        places_out[i].stain_of++;
    }
}

/* Keeps the season's places if they are better than what there was. */
static void
keep_better (Season *season, FrHole *best, double *most)
{
  double least;

  settle (season);
  least = least_clearance (season);
  if (!(least > *most * (1 + GAIN)))
    return;
  *most = least;
  memcpy (best, season->places, sizeof season->places);
}

gboolean
fr_taphole_find_several (const FrTrunk *trunk, const FrHole *holes, guint n_holes, guint want,
                         FrTaphole *places_out)
{
  g_autofree FrHole *all = NULL;
  Season season = { trunk, n_holes, want };
  FrHole best[FR_TAPHOLES_MAX];
  double most = -1, alone;

  g_return_val_if_fail (want >= 1 && want <= FR_TAPHOLES_MAX && places_out != NULL, FALSE);

  if (!fr_taphole_find (trunk, holes, n_holes, &places_out[0]))
    return FALSE;
  if (want == 1)
    return TRUE;
  alone = n_holes > 0 ? places_out[0].clearance_ratio /* several are nowhere as far as one alone */
                      : trunk->girth_m / trunk->sideways_m
                            + (trunk->max_height_m - trunk->min_height_m) / trunk->up_down_m;
  season.all = all = g_new0 (FrHole, n_holes + want);
  if (n_holes > 0)
    memcpy (all, holes, n_holes * sizeof *holes);
  begin_in_turn (&season);
  keep_better (&season, best, &most);
  for (guint turn = 0; turn < TURNS; turn++)
    {
      begin_evenly (&season, turn);
      keep_better (&season, best, &most);
    }
  for (guint i = 0; i < 2; i++)
    if (begin_packed (&season, i == 1, most, alone))
      keep_better (&season, best, &most);
  tell (&season, best, places_out);
  return TRUE;
}
