/* What a place on the trunk is worth: its distances from the holes, and the stained columns it meets. The
 * search itself is in taphole-strip.c. */
#include "domain/maths/taphole.h"

#include <math.h>

#include "domain/maths/stain.h"
#include "domain/maths/taphole-private.h"
#include "domain/maths/tapping.h"

#define KEEPS 1e-9

/* An angle within [0, 360). */
static double
compass (double angle_deg)
{
  double angle = fmod (angle_deg, FR_CIRCLE_DEG);

  if (angle < 0)
    angle += FR_CIRCLE_DEG;
  return angle >= FR_CIRCLE_DEG ? 0 : angle; /* a trace under 0 rounds up to 360 */
}

/* The shorter way between two angles, from 0 to 180. */
static double
apart_deg (double a_deg, double b_deg)
{
  double apart = fabs (compass (a_deg) - compass (b_deg));

  return fmin (apart, FR_CIRCLE_DEG - apart);
}

gboolean
fr_trunk_is_sound (const FrTrunk *trunk)
{
  return trunk->girth_m > 0 && isfinite (trunk->girth_m) && trunk->sideways_m > 0
         && isfinite (trunk->sideways_m) && trunk->up_down_m > 0 && isfinite (trunk->up_down_m)
         && isfinite (trunk->min_height_m) && isfinite (trunk->max_height_m)
         && trunk->min_height_m <= trunk->max_height_m;
}

static gboolean
holes_are_sound (const FrHole *holes, guint n_holes)
{
  for (guint i = 0; i < n_holes; i++)
    if (!isfinite (holes[i].angle_deg) || !isfinite (holes[i].height_m))
      return FALSE;
  return TRUE;
}

/* The columns that a place meets. */
static void
judge_columns (const FrTrunk *trunk, const FrHole *holes, guint n_holes, FrTaphole *place)
{
  double most = 0;

  place->stain = FR_STAIN_CLEAR;
  place->stain_of = -1;
  for (guint i = 0; i < n_holes; i++)
    {
      const FrStain stain = fr_stain_of_hole (holes[i].bore_m, holes[i].depth_m, holes[i].since_years);
      const double sideways_m
          = trunk->girth_m * apart_deg (place->angle_deg, holes[i].angle_deg) / FR_CIRCLE_DEG;
      const double overlap_m
          = fr_stain_overlap_m (&stain, sideways_m, place->height_m - holes[i].height_m, FR_BORE_M);
      const double in_line_m = fr_stain_overlap_m (&stain, sideways_m, 0, FR_BORE_M);

      if (overlap_m > (place->stain == FR_STAIN_INSIDE ? most : 0))
        {
          most = overlap_m;
          place->stain = FR_STAIN_INSIDE;
          place->stain_of = (gint)i;
        }
      else if (place->stain != FR_STAIN_INSIDE && in_line_m > most)
        {
          most = in_line_m;
          place->stain = FR_STAIN_IN_LINE;
          place->stain_of = (gint)i;
        }
    }
}

/* Everything about the place (@angle_deg, @height_m) but its place. */
static void
judge (const FrTrunk *trunk, const FrHole *holes, guint n_holes, FrTaphole *place)
{
  place->clearance_ratio = place->sideways_m = place->up_down_m = NAN;
  place->nearest = -1;
  for (guint i = 0; i < n_holes; i++)
    {
      const double sideways_m
          = trunk->girth_m * apart_deg (place->angle_deg, holes[i].angle_deg) / FR_CIRCLE_DEG;
      const double up_down_m = place->height_m - holes[i].height_m;
      const double ratio = fmax (sideways_m / trunk->sideways_m, fabs (up_down_m) / trunk->up_down_m);

      if (place->nearest >= 0 && !(ratio < place->clearance_ratio))
        continue;
      place->clearance_ratio = ratio;
      place->nearest = (gint)i;
      place->sideways_m = sideways_m;
      place->up_down_m = up_down_m;
    }
  place->keeps_rule = place->nearest < 0 || place->clearance_ratio >= 1 - KEEPS;
  place->in_range = place->height_m >= trunk->min_height_m && place->height_m <= trunk->max_height_m;
  judge_columns (trunk, holes, n_holes, place);
}

gboolean
fr_taphole_clearance (const FrTrunk *trunk, const FrHole *holes, guint n_holes, double angle_deg,
                      double height_m, FrTaphole *place_out)
{
  g_return_val_if_fail (trunk != NULL && place_out != NULL && (holes != NULL || n_holes == 0), FALSE);

  if (!fr_trunk_is_sound (trunk) || !holes_are_sound (holes, n_holes) || !isfinite (angle_deg)
      || !isfinite (height_m))
    return FALSE;
  *place_out = (FrTaphole){ .angle_deg = compass (angle_deg), .height_m = height_m };
  judge (trunk, holes, n_holes, place_out);
  return TRUE;
}

gboolean
fr_taphole_find (const FrTrunk *trunk, const FrHole *holes, guint n_holes, FrTaphole *place_out)
{
  FrStrip strip;
  FrSpot best;
  double height_m;

  g_return_val_if_fail (trunk != NULL && place_out != NULL && (holes != NULL || n_holes == 0), FALSE);

  if (!fr_trunk_is_sound (trunk) || !holes_are_sound (holes, n_holes))
    return FALSE;
  fr_strip_init (&strip, trunk, holes, n_holes, 0);
  best = fr_strip_best (&strip);
  height_m = best.up_ratio * trunk->up_down_m;
  *place_out = (FrTaphole){ .angle_deg = compass (fr_strip_angle_deg (&strip, best.across_ratio)),
                            /* multiplied back, an end of the heights may lie a rounding outside */
                            .height_m = CLAMP (height_m, trunk->min_height_m, trunk->max_height_m) };
  judge (trunk, holes, n_holes, place_out);
  fr_strip_clear (&strip);
  return TRUE;
}
