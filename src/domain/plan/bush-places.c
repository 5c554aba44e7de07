/* Where new holes go on a trunk of the bush: from its taps to maths/taphole.h and back. Holes whose side or
 * height is unknown cannot be kept clear of; those planned and set this season can and are. */
#include "domain/maths/taphole.h"
#include "domain/plan/bush-private.h"

#include <math.h>

/* A trunk with what there is to keep clear of; the taps stand beside the holes. */
typedef struct
{
  FrTrunk trunk;
  FrHole *holes;
  gint64 *taps;
  guint n_holes;
} Bark;

static void
bark_add (Bark *bark, FrHole hole, gint64 tap)
{
  bark->holes = g_renew (FrHole, bark->holes, bark->n_holes + 1);
  bark->taps = g_renew (gint64, bark->taps, bark->n_holes + 1);
  bark->holes[bark->n_holes] = hole;
  bark->taps[bark->n_holes++] = tap;
}

static void
bark_clear (Bark *bark)
{
  g_free (bark->holes);
  g_free (bark->taps);
}

static gboolean
bark_init (Bark *bark, const FrBush *bush, gint64 tree, gint64 without_tap)
{
  const FrBushTree *row = fr_bush_find (bush, tree);
  const FrBushSpacing rule = fr_bush_spacing (bush);
  g_autoptr (GArray) holes = NULL;

  *bark = (Bark){ { 0 }, NULL, NULL, 0 };
  if (row == NULL || isnan (row->girth_m))
    return FALSE;
  bark->trunk
      = (FrTrunk){ row->girth_m, rule.sideways_m, rule.up_down_m, rule.min_height_m, rule.max_height_m };
  holes = fr_bush_holes (bush, tree);
  for (guint i = 0; i < holes->len; i++)
    {
      const FrBushHole *hole = &g_array_index (holes, FrBushHole, i);

      if (isnan (hole->angle_deg) || isnan (hole->height_m) || hole->tap->record.id == without_tap)
        continue;
      bark_add (bark,
                (FrHole){ hole->angle_deg, hole->height_m, hole->tap->bore_m.value, hole->tap->depth_m.value,
                          fr_bush_since_years (bush, hole->tap) },
                hole->tap->record.id);
    }
  return fr_trunk_is_sound (&bark->trunk);
}

/* @found has indices into the bark's holes, and past them for another new place. */
static FrBushPlace
place_from (const Bark *bark, const FrTaphole *found)
{
  FrBushPlace place = { found->angle_deg,
                        found->height_m,
                        found->clearance_ratio,
                        found->keeps_rule,
                        found->stain != FR_STAIN_CLEAR,
                        0 };

  if (found->nearest >= 0 && (guint)found->nearest < bark->n_holes)
    place.nearest_tap = bark->taps[found->nearest];
  return place;
}

gboolean
fr_bush_places (const FrBush *bush, gint64 tree, guint n, FrBushPlace *places_out)
{
  Bark bark;
  gboolean found;

  g_return_val_if_fail (bush != NULL && (n == 0 || places_out != NULL), FALSE);

  found = bark_init (&bark, bush, tree, 0);
  for (guint done = 0; found && done < n;)
    {
      FrTaphole places[FR_TAPHOLES_MAX];
      const guint want = MIN (n - done, FR_TAPHOLES_MAX);

      found = want == 1 ? fr_taphole_find (&bark.trunk, bark.holes, bark.n_holes, places)
                        : fr_taphole_find_several (&bark.trunk, bark.holes, bark.n_holes, want, places);
      for (guint i = 0; found && i < want; i++)
        places_out[done + i] = place_from (&bark, &places[i]);
      /* More than the search takes at once: the next ones keep clear of these. */
      for (guint i = 0; found && done + want < n && i < want; i++)
        bark_add (&bark, (FrHole){ places[i].angle_deg, places[i].height_m, NAN, NAN, 0 }, 0);
      done += want;
    }
  bark_clear (&bark);
  return found;
}

gboolean
fr_bush_place_at (const FrBush *bush, gint64 tree, double angle_deg, double height_m, gint64 without_tap,
                  FrBushPlace *place_out)
{
  Bark bark;
  FrTaphole found;
  gboolean known;

  g_return_val_if_fail (bush != NULL && place_out != NULL, FALSE);

  known = bark_init (&bark, bush, tree, without_tap)
          && fr_taphole_clearance (&bark.trunk, bark.holes, bark.n_holes, angle_deg, height_m, &found);
  if (known)
    *place_out = place_from (&bark, &found);
  bark_clear (&bark);
  return known;
}
