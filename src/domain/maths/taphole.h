/* Where on the trunk this year's hole goes: as far as possible from every old one.
 *
 * Distance is measured by the spacing rule: the clearance of a place from a hole is the larger of
 *   sideways distance / sideways_m     (sideways = girth × shortest angle / 360)
 *   distance up or down / up_down_m
 * and of the place, the least over all holes; 1 or more keeps the rule. The search is exact: no grid, and
 * nothing is missed (see taphole.c). Angles are compass degrees on the trunk, 0 north, clockwise; heights
 * above the ground. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define FR_TAPHOLES_MAX 4 /* places in one season */

/**
 * FrTrunk:
 * @girth_m: at the holes; over 0
 * @sideways_m: spacing asked, over 0
 * @up_down_m: spacing asked, over 0
 * @min_height_m: lowest place
 * @max_height_m: highest place; the same as the lowest is allowed
 */
typedef struct
{
  double girth_m;
  double sideways_m;
  double up_down_m;
  double min_height_m;
  double max_height_m;
} FrTrunk;

/* An old hole, or one of this year. @bore_m, @depth_m and @since_years shape its stained column (stain.h);
 * each may be NAN. */
typedef struct
{
  double angle_deg;
  double height_m;
  double bore_m;
  double depth_m;
  double since_years;
} FrHole;

typedef enum
{
  FR_STAIN_CLEAR,
  FR_STAIN_IN_LINE, /* straight above or below a hole, inside the sideways width of its stain, but past the
                        modelled end */
  FR_STAIN_INSIDE   /* inside the modelled column */
} FrStainMet;

/**
 * FrTaphole:
 * @clearance_ratio: NAN when there is nothing to keep clear of
 * @keeps_rule: the ratio is 1 or more (to 1e-9), or there is nothing to keep clear of
 * @in_range: within the trunk's heights
 * @nearest: index of the hole that sets the ratio, -1 for none; from the number of holes on, another new
 * place
 * @sideways_m: distances to that one; NAN for none
 * @up_down_m: positive when the place is above it
 * @stain: the worst of all columns it meets; a hole of the standard bore is meant
 * @stain_of: index of the hole whose column that is, -1 for none
 */
typedef struct
{
  double angle_deg; /* from 0 to below 360 */
  double height_m;
  double clearance_ratio;
  gboolean keeps_rule;
  gboolean in_range;
  gint nearest;
  double sideways_m;
  double up_down_m;
  FrStainMet stain;
  gint stain_of;
} FrTaphole;

/* What is wrong with a trunk: a number that is not finite, a length that is not over 0, heights the wrong way
 * round. */
gboolean
fr_trunk_is_sound (const FrTrunk *trunk);

/**
 * fr_taphole_find:
 * @trunk: a sound one
 * @holes: all that there are, or NULL
 * @n_holes: how many
 * @place_out: the place with the greatest clearance
 *
 * Of several equally good ones the one whose height is nearest the middle of the range, then nearest south,
 * then the one with the smaller angle, then the lower. Equal means to 1e-11 of the trunk's size. Without
 * holes: the middle, on the south side.
 *
 * Returns: FALSE when the trunk is not sound or a hole's place is not known
 */
gboolean
fr_taphole_find (const FrTrunk *trunk, const FrHole *holes, guint n_holes, FrTaphole *place_out);

/* The same figures for a place that somebody chose. */
gboolean
fr_taphole_clearance (const FrTrunk *trunk, const FrHole *holes, guint n_holes, double angle_deg,
                      double height_m, FrTaphole *place_out);

/**
 * fr_taphole_find_several:
 * @want: 1 to FR_TAPHOLES_MAX places for one season
 * @places_out: room for @want; by angle, clockwise from north
 *
 * Places that keep clear of the old holes and of each other, so that the least clearance is as great as the
 * method finds. One place is exact. More are placed one after the other and then moved in turn, each to its
 * best place among the others, until nothing moves; from several beginnings, of which the best is kept. That
 * can miss the very best; docs/physics/tapping.md says by how much.
 */
gboolean
fr_taphole_find_several (const FrTrunk *trunk, const FrHole *holes, guint n_holes, guint want,
                         FrTaphole *places_out);

G_END_DECLS
