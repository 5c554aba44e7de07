/* The trunk of one tree: its holes as they are by now, and the places that are left for new ones.
 *
 * A hole keeps clear of all old ones, closed or open, since the stained wood behind a closed one stays.
 * Places are worked out by maths/taphole.h on the trunk as it is round today. Whether there is any place at
 * all is asked of every tree whenever the bush is made, so it is answered without the search: a hole forbids
 * a rectangle around itself; if anything of the unrolled bark is left free, something is free at its lowest
 * height, which is the lowest allowed or the upper edge of a rectangle. So it is enough to look along those
 * heights for a gap between the holes near enough. */
#include "domain/maths/stain.h"
#include "domain/maths/tapping.h"
#include "domain/plan/bush-private.h"

#include <math.h>
#include <stdlib.h>

/* What keeps the rule but for rounding keeps it, as in maths/taphole.h. */
#define ROUNDING 1e-9

/* --- the rules in use --- */

const FrGuideline *
fr_bush_guideline (const FrBush *bush)
{
  FrGuidelineId id = FR_GUIDELINE_CONSERVATIVE;

  g_return_val_if_fail (bush != NULL, NULL);

  if (bush->book.tapping != NULL)
    fr_guideline_from_code (bush->book.tapping->guideline, &id);
  return fr_guideline (id);
}

FrBushSpacing
fr_bush_spacing (const FrBush *bush)
{
  const FrTapping *tapping;
  const FrSpacing *spacing = fr_spacing (FR_SPACING_SIX_TWELVE);
  FrBushSpacing rule = { spacing->sideways_m, spacing->up_down_m, FR_TAP_HEIGHT_MIN_M, FR_TAP_HEIGHT_MAX_M };
  FrSpacingId id;

  g_return_val_if_fail (bush != NULL, rule);

  tapping = bush->book.tapping;
  if (tapping == NULL)
    return rule;
  if (fr_spacing_from_code (tapping->spacing, &id))
    {
      const gboolean own = id == FR_SPACING_OWN;
      const double sideways_m = own ? tapping->sideways_m.value : fr_spacing (id)->sideways_m;
      const double up_down_m = own ? tapping->up_down_m.value : fr_spacing (id)->up_down_m;

      rule.sideways_m = isnan (sideways_m) ? rule.sideways_m : sideways_m;
      rule.up_down_m = isnan (up_down_m) ? rule.up_down_m : up_down_m;
    }
  /* One height alone moves the published other one no further than to itself. */
  if (!isnan (tapping->min_height_m.value))
    {
      rule.min_height_m = tapping->min_height_m.value;
      rule.max_height_m = MAX (rule.max_height_m, rule.min_height_m);
    }
  if (!isnan (tapping->max_height_m.value))
    {
      rule.max_height_m = tapping->max_height_m.value;
      if (isnan (tapping->min_height_m.value))
        rule.min_height_m = MIN (rule.min_height_m, rule.max_height_m);
    }
  return rule;
}

/* --- holes --- */

double
fr_bush_since_years (const FrBush *bush, const FrTap *tap)
{
  FrDate day;

  if (tap->set_on == NULL || !fr_date_parse (tap->set_on, &day))
    return NAN;
  return (double)MAX (bush->day - fr_date_to_days (day), 0) / FR_BUSH_YEAR_DAYS;
}

static FrHoleState
hole_state (const FrBush *bush, const FrTap *tap, guint season, FrHealth health)
{
  FrDate closed;
  gboolean seen = tap->closed_on != NULL && fr_date_parse (tap->closed_on, &closed)
                  && fr_date_to_days (closed) <= bush->day;

  if (tap->set_on == NULL)
    return FR_HOLE_PLANNED;
  if (season == bush->season)
    return FR_HOLE_THIS_SEASON;
  return fr_hole_is_open (fr_hole_closing (seen, fr_bush_since_years (bush, tap), health)) ? FR_HOLE_OPEN
                                                                                           : FR_HOLE_CLOSED;
}

static gboolean
is_hole (const FrBush *bush, const FrTap *tap, guint *season_out)
{
  /* What was planned for an earlier season and has no date was never drilled, as far as is known. */
  return fr_bush_season_of (&tap->season, season_out) && *season_out <= bush->season
         && (tap->set_on != NULL || *season_out == bush->season);
}

GArray *
fr_bush_holes (const FrBush *bush, gint64 tree)
{
  GArray *holes = g_array_new (FALSE, FALSE, sizeof (FrBushHole));
  FrHealth health = FR_HEALTH_UNKNOWN;
  guint entry;

  g_return_val_if_fail (bush != NULL, holes);

  if (!fr_bush_entry (bush, tree, &entry))
    return holes;
  fr_health_from_code (bush->entries[entry].tree->health, &health);
  for (guint i = bush->tap_starts[entry]; i < bush->tap_starts[entry + 1]; i++)
    {
      const FrTap *tap = bush->taps[i];
      FrBushHole hole = { tap };

      if (!is_hole (bush, tap, &hole.season))
        continue;
      hole.angle_deg = tap->direction_deg.value;
      hole.height_m = tap->height_m.value;
      hole.state = hole_state (bush, tap, hole.season, health);
      hole.stain_half_width_m = hole.stain_half_height_m = NAN;
      if (tap->set_on != NULL)
        {
          FrStain stain
              = fr_stain_of_hole (tap->bore_m.value, tap->depth_m.value, fr_bush_since_years (bush, tap));

          hole.stain_half_width_m = stain.half_width_m;
          hole.stain_half_height_m = stain.half_height_m;
        }
      g_array_append_val (holes, hole);
    }
  return holes;
}

/* --- is there a place at all --- */

static gint
by_number (gconstpointer a, gconstpointer b)
{
  const double one = *(const double *)a, two = *(const double *)b;

  return (one > two) - (one < two);
}

/* Whether the holes nearer than the rule to one height leave a gap around the trunk there. */
static gboolean
is_free_at (const FrTap *const *taps, guint n, double height_m, const FrBushSpacing *rule, double girth_m,
            double *around_m)
{
  const double gap_m = 2 * rule->sideways_m * (1 - ROUNDING);
  guint near = 0;

  for (guint i = 0; i < n; i++)
    if (fabs (taps[i]->height_m.value - height_m) < rule->up_down_m * (1 - ROUNDING))
      around_m[near++] = fmod (taps[i]->direction_deg.value, 360) / 360 * girth_m;
  if (near == 0)
    return TRUE;
  qsort (around_m, near, sizeof *around_m, by_number);
  for (guint i = 0; i + 1 < near; i++)
    if (around_m[i + 1] - around_m[i] >= gap_m)
      return TRUE;
  return around_m[0] + girth_m - around_m[near - 1] >= gap_m;
}

gboolean
fr_bush_has_place (const FrBush *bush, guint entry, double girth_m)
{
  const FrBushSpacing rule = fr_bush_spacing (bush);
  const guint most = bush->tap_starts[entry + 1] - bush->tap_starts[entry];
  g_autofree const FrTap **taps = g_new (const FrTap *, most + 1);
  g_autofree double *around_m = g_new (double, most + 1);
  guint n = 0, season;

  for (guint i = bush->tap_starts[entry]; i < bush->tap_starts[entry + 1]; i++)
    {
      const FrTap *tap = bush->taps[i];

      if (is_hole (bush, tap, &season) && season < bush->season && !isnan (tap->height_m.value)
          && !isnan (tap->direction_deg.value))
        taps[n++] = tap;
    }
  if (n * 2 * rule.sideways_m <= girth_m || is_free_at (taps, n, rule.min_height_m, &rule, girth_m, around_m))
    return TRUE;
  for (guint i = 0; i < n; i++)
    {
      const double height_m = taps[i]->height_m.value + rule.up_down_m;

      if (height_m >= rule.min_height_m && height_m <= rule.max_height_m + ROUNDING
          && is_free_at (taps, n, height_m, &rule, girth_m, around_m))
        return TRUE;
    }
  return FALSE;
}
