/* From what was read to litres and °Bx. Depth: solid geometry of a straight or slanting round vessel (maths/vessel.c). Weight: less
 * the empty vessel's, through the density at FR_STOCK_C, at which the stock turns masses into litres too, so that what was weighed in
 * is weighed in again. Readings: sweetness.c. */
#include "domain/plan/gathering.h"

#include "domain/maths/sucrose.h"
#include "domain/maths/vessel.h"
#include "domain/plan/stock.h"
#include "domain/plan/sweetness.h"

#include <math.h>

double
fr_container_depth_l (const FrContainer *container, double depth_m)
{
  FrVessel vessel = { .shape = FR_SHAPE_CONE };

  if (container == NULL)
    return NAN;
  vessel.a_m = container->diameter_m.value / 2;
  vessel.b_m = isnan (container->top_diameter_m.value) ? vessel.a_m : container->top_diameter_m.value / 2;
  vessel.height_m = container->height_m.value;
  if (!(depth_m >= 0 && vessel.a_m > 0 && vessel.height_m > 0))
    return NAN;
  return fr_vessel_volume_l (&vessel, depth_m);
}

/* °Bx that a solution can have. */
static double
possible_brix (double brix)
{
  return brix >= 0 && brix <= FR_BRIX_MAX ? brix : NAN;
}

double
fr_gathering_brix (const FrGathering *gathering)
{
  return possible_brix (fr_sweetness_brix (gathering->instrument, gathering->reading_brix.value,
                                           gathering->sample_c.value));
}

double
fr_pour_brix (const FrPour *pour)
{
  return possible_brix (fr_sweetness_brix (pour->instrument, pour->reading_brix.value, pour->sample_c.value));
}

double
fr_dip_brix (const FrDip *dip)
{
  return possible_brix (fr_sweetness_brix (dip->instrument, dip->reading_brix.value, dip->sample_c.value));
}

/* Litres of what weighs so much together with the vessel it is in. Less than the empty vessel's weight cannot be. */
static double
litres_by_weight (double weight_kg, double empty_kg, double brix)
{
  double mass_kg = weight_kg - empty_kg;

  return mass_kg >= 0 ? 1e3 * mass_kg / fr_sucrose_density_kg_m3 (brix, FR_STOCK_C) : NAN;
}

double
fr_gathering_at_l (const FrGathering *gathering, const FrContainer *bucket, double brix)
{
  if (g_strcmp0 (gathering->measured_by, "depth") == 0)
    return fr_container_depth_l (bucket, gathering->depth_m.value);
  if (g_strcmp0 (gathering->measured_by, "weight") == 0)
    return litres_by_weight (gathering->weight_kg.value, bucket != NULL ? bucket->empty_kg.value : 0, brix);
  return gathering->volume_l.value;
}

double
fr_gathering_l (const FrGathering *gathering, const FrContainer *bucket, double brix)
{
  double own_brix = NAN;

  if (g_strcmp0 (gathering->measured_by, "weight") == 0) /* else it says nothing of the litres */
    own_brix = fr_gathering_brix (gathering);
  return fr_gathering_at_l (gathering, bucket, isnan (own_brix) ? brix : own_brix);
}

double
fr_dip_l (const FrDip *dip, const FrContainer *container, double brix)
{
  if (g_strcmp0 (dip->measured_by, "depth") == 0)
    return fr_container_depth_l (container, dip->depth_m.value);
  if (g_strcmp0 (dip->measured_by, "weight") == 0)
    return litres_by_weight (dip->weight_kg.value, container != NULL ? container->empty_kg.value : 0, brix);
  return dip->volume_l.value;
}
