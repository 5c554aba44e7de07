/* The trunk of one tree: its holes as they are by now, and the places that are left for new ones. */
#include "domain/plan/bush-private.h"

#include <math.h>

/* --- holes --- */

static FrHoleState
hole_state (const FrBush *bush, const FrTap *tap, guint season)
{
  FrDate closed;

  if (tap->set_on == NULL)
    return FR_HOLE_PLANNED;
  if (season == bush->season)
    return FR_HOLE_THIS_SEASON;
  if (tap->closed_on != NULL && fr_date_parse (tap->closed_on, &closed)
      && fr_date_to_days (closed) <= bush->day)
    return FR_HOLE_CLOSED;
  return FR_HOLE_OPEN;
}

GArray *
fr_bush_holes (const FrBush *bush, gint64 tree)
{
  GArray *holes = g_array_new (FALSE, FALSE, sizeof (FrBushHole));
  guint entry;

  g_return_val_if_fail (bush != NULL, holes);

  if (!fr_bush_entry (bush, tree, &entry))
    return holes;
  for (guint i = bush->tap_starts[entry]; i < bush->tap_starts[entry + 1]; i++)
    {
      const FrTap *tap = bush->taps[i];
      FrBushHole hole = { tap };

      /* What was planned for an earlier season and has no date was never drilled, as far as is known. */
      if (!fr_bush_season_of (&tap->season, &hole.season) || hole.season > bush->season
          || (tap->set_on == NULL && hole.season < bush->season))
        continue;
      hole.angle_deg = tap->direction_deg.value;
      hole.height_m = tap->height_m.value;
      hole.state = hole_state (bush, tap, hole.season);
      hole.stain_half_width_m = hole.stain_half_height_m = NAN;
      g_array_append_val (holes, hole);
    }
  return holes;
}
