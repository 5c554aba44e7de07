/* Where new holes go on a trunk of the bush: from its taps to maths/taphole.h and back. Holes whose side or
 * height is unknown cannot be kept clear of; those planned and set this season can and are. */
#include "domain/maths/taphole.h"
#include "domain/plan/bush-private.h"

#include <math.h>

static void
trunk_add (FrBushTrunk *trunk, FrHole hole, guint season, gint64 tap)
{
  const guint n = trunk->n_holes++;

  trunk->holes = g_renew (FrHole, trunk->holes, n + 1);
  trunk->seasons = g_renew (guint, trunk->seasons, n + 1);
  trunk->taps = g_renew (gint64, trunk->taps, n + 1);
  trunk->holes[n] = hole;
  trunk->seasons[n] = season;
  trunk->taps[n] = tap;
}

void
fr_bush_trunk_clear (FrBushTrunk *trunk)
{
  g_clear_pointer (&trunk->holes, g_free);
  g_clear_pointer (&trunk->seasons, g_free);
  g_clear_pointer (&trunk->taps, g_free);
  trunk->n_holes = 0;
}

gboolean
fr_bush_trunk (const FrBush *bush, gint64 tree, gint64 without_tap, FrBushTrunk *trunk_out)
{
  const FrBushTree *row;
  FrBushSpacing rule;
  g_autoptr (GArray) holes = NULL;

  *trunk_out = (FrBushTrunk){ 0 };
  g_return_val_if_fail (bush != NULL, FALSE);

  row = fr_bush_find (bush, tree);
  if (row == NULL || isnan (row->girth_m))
    return FALSE;
  rule = fr_bush_spacing (bush);
  trunk_out->trunk
      = (FrTrunk){ row->girth_m, rule.sideways_m, rule.up_down_m, rule.min_height_m, rule.max_height_m };
  holes = fr_bush_holes (bush, tree);
  for (guint i = 0; i < holes->len; i++)
    {
      const FrBushHole *hole = &g_array_index (holes, FrBushHole, i);
      const FrTap *tap = hole->tap;

      if (!isnan (hole->angle_deg) && !isnan (hole->height_m) && tap->record.id != without_tap)
        trunk_add (trunk_out,
                   (FrHole){ hole->angle_deg, hole->height_m, tap->bore_m.value, tap->depth_m.value,
                             fr_bush_since_years (bush, tap) },
                   hole->season, tap->record.id);
    }
  return fr_trunk_is_sound (&trunk_out->trunk);
}

/* @found has indices into the trunk's holes, and past them for another new place. */
static FrBushPlace
place_from (const FrBushTrunk *trunk, const FrTaphole *found)
{
  FrBushPlace place = { found->angle_deg,
                        found->height_m,
                        found->clearance_ratio,
                        found->keeps_rule,
                        found->stain != FR_STAIN_CLEAR,
                        0 };

  if (found->nearest >= 0 && (guint)found->nearest < trunk->n_holes)
    place.nearest_tap = trunk->taps[found->nearest];
  return place;
}

gboolean
fr_bush_places (const FrBush *bush, gint64 tree, guint n, FrBushPlace *places_out)
{
  g_auto (FrBushTrunk) trunk = { 0 };
  gboolean found;

  g_return_val_if_fail (bush != NULL && (n == 0 || places_out != NULL), FALSE);

  found = fr_bush_trunk (bush, tree, 0, &trunk);
  for (guint done = 0; found && done < n;)
    {
      FrTaphole places[FR_TAPHOLES_MAX];
      const guint want = MIN (n - done, FR_TAPHOLES_MAX);

      found = want == 1 ? fr_taphole_find (&trunk.trunk, trunk.holes, trunk.n_holes, places)
                        : fr_taphole_find_several (&trunk.trunk, trunk.holes, trunk.n_holes, want, places);
      for (guint i = 0; found && i < want; i++)
        places_out[done + i] = place_from (&trunk, &places[i]);
      /* More than the search takes at once: the next ones keep clear of these. */
      for (guint i = 0; found && done + want < n && i < want; i++)
        trunk_add (&trunk, (FrHole){ places[i].angle_deg, places[i].height_m, NAN, NAN, 0 }, 0, 0);
      done += want;
    }
  return found;
}

gboolean
fr_bush_place_at (const FrBush *bush, gint64 tree, double angle_deg, double height_m, gint64 without_tap,
                  FrBushPlace *place_out)
{
  g_auto (FrBushTrunk) trunk = { 0 };
  FrTaphole found;
  gboolean known;

  g_return_val_if_fail (bush != NULL && place_out != NULL, FALSE);

  known = fr_bush_trunk (bush, tree, without_tap, &trunk)
          && fr_taphole_clearance (&trunk.trunk, trunk.holes, trunk.n_holes, angle_deg, height_m, &found);
  if (known)
    *place_out = place_from (&trunk, &found);
  return known;
}
