/* Setting the feed by hand.
 *
 * A hole runs by Torricelli, Q = Cd A sqrt(2 g h), with Cd 0.60 to 0.62 for a sharp-edged hole (hydraulics
 * handbooks, from memory); for a bucket of constant surface it integrates to t = S / (Cd A) sqrt(2/g) (sqrt
 * h0 - sqrt h1). Good to some 5 % for a clean hole of 0.5 mm and more under 5 cm of head and more; under
 * that, surface tension and the drop's own head take over, and sap near freezing runs slower in narrow tubes.
 * Twenty drops to the millilitre: drip sets by ISO 8536-4, from memory. The balance is the law of the lever.
 */
#include "domain/maths/feed.h"

#include <math.h>

#define GRAVITY_M_PER_S2 9.80665
#define L_PER_H 3.6e6 /* litres per hour in a cubic metre per second */

static gboolean
is_discharge (double ratio)
{
  return ratio > 0 && ratio <= 1;
}

static gboolean
is_amount (double value)
{
  return value >= 0 && isfinite (value);
}

double
fr_feed_flow_l_per_h (double hole_m, double head_m, double discharge_ratio)
{
  if (!is_amount (hole_m) || !is_amount (head_m) || !is_discharge (discharge_ratio))
    return NAN;
  return L_PER_H * discharge_ratio * G_PI_4 * hole_m * hole_m * sqrt (2 * GRAVITY_M_PER_S2 * head_m);
}

double
fr_feed_hole_m (double flow_l_per_h, double head_m, double discharge_ratio)
{
  double speed_m_per_s;

  if (!is_amount (flow_l_per_h) || !is_amount (head_m) || head_m == 0 || !is_discharge (discharge_ratio))
    return NAN;
  speed_m_per_s = discharge_ratio * sqrt (2 * GRAVITY_M_PER_S2 * head_m);
  return sqrt (flow_l_per_h / L_PER_H / (speed_m_per_s * G_PI_4));
}

double
fr_feed_flow_ratio (double head_m, double full_head_m)
{
  if (!is_amount (head_m) || !is_amount (full_head_m) || full_head_m == 0 || head_m > full_head_m)
    return NAN;
  return sqrt (head_m / full_head_m);
}

/* The root of the head falls evenly; this is by how much a second. */
static double
root_fall (double area_m2, double hole_m, double discharge_ratio)
{
  if (!is_amount (area_m2) || area_m2 == 0 || !is_amount (hole_m) || hole_m == 0
      || !is_discharge (discharge_ratio))
    return NAN;
  return discharge_ratio * G_PI_4 * hole_m * hole_m / area_m2 * sqrt (GRAVITY_M_PER_S2 / 2);
}

double
fr_feed_empty_s (double area_m2, double hole_m, double from_head_m, double to_head_m, double discharge_ratio)
{
  if (!is_amount (from_head_m) || !is_amount (to_head_m) || to_head_m > from_head_m)
    return NAN;
  return (sqrt (from_head_m) - sqrt (to_head_m)) / root_fall (area_m2, hole_m, discharge_ratio);
}

double
fr_feed_head_after_m (double area_m2, double hole_m, double from_head_m, double span_s,
                      double discharge_ratio)
{
  double root;

  if (!is_amount (from_head_m) || !is_amount (span_s))
    return NAN;
  root = sqrt (from_head_m) - root_fall (area_m2, hole_m, discharge_ratio) * span_s;
  if (isnan (root))
    return NAN;
  return root > 0 ? root * root : 0;
}

double
fr_feed_drops_per_min (double flow_l_per_h, double drops_per_ml)
{
  if (!is_amount (flow_l_per_h) || !(drops_per_ml > 0))
    return NAN;
  return flow_l_per_h * 1000 / 60 * drops_per_ml;
}

double
fr_feed_flow_from_drops_l_per_h (double drops_per_min, double drops_per_ml)
{
  if (!is_amount (drops_per_min) || !(drops_per_ml > 0))
    return NAN;
  return drops_per_min / drops_per_ml * 60 / 1000;
}

double
fr_feed_seconds_per_100_ml (double flow_l_per_h)
{
  if (!is_amount (flow_l_per_h) || flow_l_per_h == 0)
    return NAN;
  return 0.1 * 3600 / flow_l_per_h;
}

static gboolean
are_arms (double counter_arm_m, double vessel_arm_m)
{
  return counter_arm_m > 0 && isfinite (counter_arm_m) && vessel_arm_m > 0 && isfinite (vessel_arm_m);
}

FrTripMass
fr_feed_trip_mass (double counter_kg, double counter_arm_m, double vessel_arm_m, double arm_error_m)
{
  FrTripMass trip = { NAN, NAN };

  if (!is_amount (counter_kg) || !are_arms (counter_arm_m, vessel_arm_m))
    return trip;
  trip.mass_kg = counter_kg * counter_arm_m / vessel_arm_m;
  /* The worse side: the counterweight's arm longer and the vessel's shorter than measured. */
  if (is_amount (arm_error_m) && arm_error_m < vessel_arm_m && arm_error_m <= counter_arm_m)
    trip.error_kg = counter_kg * (counter_arm_m + arm_error_m) / (vessel_arm_m - arm_error_m) - trip.mass_kg;
  return trip;
}

double
fr_feed_counter_kg (double trip_kg, double counter_arm_m, double vessel_arm_m)
{
  if (!is_amount (trip_kg) || !are_arms (counter_arm_m, vessel_arm_m))
    return NAN;
  return trip_kg * vessel_arm_m / counter_arm_m;
}
