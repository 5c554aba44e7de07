/* Setting the feed by hand: holes, drops, millilitres, and the balance that cuts the power.
 *
 * Everything returns NAN when an argument is unknown or out of its range. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define FR_FEED_DISCHARGE_RATIO 0.62 /* a drilled hole with sharp edges; a short tube 0.82 */
#define FR_FEED_DROPS_PER_ML 20.0

/* Flow through a round hole under a head of liquid, L/h. @hole_m and @head_m 0 or more, @discharge_ratio over 0 to 1. */
double fr_feed_flow_l_per_h (double hole_m, double head_m, double discharge_ratio);

/* The hole for a wanted flow, m; @head_m over 0. */
double fr_feed_hole_m (double flow_l_per_h, double head_m, double discharge_ratio);

/* The flow left when the head has fallen from @full_head_m, as a part of the first flow. 0 <= @head_m <= @full_head_m. */
double fr_feed_flow_ratio (double head_m, double full_head_m);

/**
 * fr_feed_empty_s:
 * @area_m2: surface of the bucket, the same at every level
 * @hole_m: diameter, over 0
 * @from_head_m: liquid above the hole at first
 * @to_head_m: and at last, 0 to @from_head_m
 * @discharge_ratio: see above
 *
 * Returns: seconds for the level to fall from one to the other
 */
double fr_feed_empty_s (double area_m2, double hole_m, double from_head_m, double to_head_m, double discharge_ratio);

/* The head that is left after @span_s, 0 once empty. */
double fr_feed_head_after_m (double area_m2, double hole_m, double from_head_m, double span_s, double discharge_ratio);

double fr_feed_drops_per_min (double flow_l_per_h, double drops_per_ml);
double fr_feed_flow_from_drops_l_per_h (double drops_per_min, double drops_per_ml);

/* Seconds that a measuring cup takes for 100 ml; NAN for no flow. */
double fr_feed_seconds_per_100_ml (double flow_l_per_h);

/**
 * FrTripMass:
 * @mass_kg: mass of vessel and liquid at which the balance tips
 * @error_kg: how far off it can be when each arm is off by the arm error, both the wrong way
 */
typedef struct
{
  double mass_kg;
  double error_kg;
} FrTripMass;

/* Where a balance tips: @counter_kg on an arm of @counter_arm_m holds the vessel on an arm of @vessel_arm_m. Masses
 * 0 or more, arms over 0, @arm_error_m 0 up to either arm. */
FrTripMass fr_feed_trip_mass (double counter_kg, double counter_arm_m, double vessel_arm_m, double arm_error_m);

/* The counterweight for a wanted trip mass, kg. */
double fr_feed_counter_kg (double trip_kg, double counter_arm_m, double vessel_arm_m);

G_END_DECLS
