/* The trunk unrolled, in units of the spacing asked: shared by the search for one place and the one for
 * several. */
#pragma once

#include "domain/maths/taphole.h"

G_BEGIN_DECLS

#define FR_CIRCLE_DEG 360.0
#define FR_SOUTH_DEG 180.0

/* A hole or a place. Lengths here are pure ratios: metres over the spacing asked. */
typedef struct
{
  double across_ratio; /* from south, clockwise; −round / 2 to round / 2 */
  double up_ratio;
} FrSpot;

typedef struct
{
  double round_ratio; /* all the way round the trunk */
  double low_ratio, high_ratio, middle_ratio;
  double tiny_ratio; /* what counts as equal */
  guint n;
  FrSpot *by_across; /* the holes, sorted */
  FrSpot *by_up;     /* the same, sorted */
} FrStrip;

/* Of a sound trunk and holes. @more: room for so many spots added later. */
void
fr_strip_init (FrStrip *strip, const FrTrunk *trunk, const FrHole *holes, guint n_holes, guint more);
void
fr_strip_clear (FrStrip *strip);
/* One more, in its place in both orders. */
void
fr_strip_add (FrStrip *strip, FrSpot spot);

/* The lowest spot on the line up the trunk at @across_ratio that no square of half-width @radius_ratio round
 * a hole covers; over the strip's high end when there is none. */
double
fr_strip_lowest_free_ratio (const FrStrip *strip, double across_ratio, double radius_ratio);

/* The best place, by the order of ties in taphole.h. */
FrSpot
fr_strip_best (const FrStrip *strip);

double
fr_strip_angle_deg (const FrStrip *strip, double across_ratio);

G_END_DECLS
