/* The stained column that a taphole leaves.
 *
 * The tree closes the wounded wood off, quickly sideways and slowly along the grain, so the column is a thin
 * spindle. Figures of the literature were not seen; everything here is from memory and unverified, good for a
 * drawing and for a word of caution: volume   tens of times the hole's; 75 here width    one and a half bores
 * at the middle, tapering as a parabola to both ends depth    that of the hole height   what follows: area of
 * two parabolas 8/3 a h, so h = 3 V / (8 a d); 23 cm each way for a bore of 5/16 in time     as good as
 * finished after the first summer; grows evenly until then The wood stays stained for good; the tree grows
 * clean wood over it. */
#include "domain/maths/stain.h"

#include <math.h>

#include "domain/maths/tapping.h"

#define LITRES_PER_M3 1000.0

FrStain
fr_stain_of_hole (double bore_m, double depth_m, double since_years)
{
  const double bore = isnan (bore_m) ? FR_BORE_M : bore_m,
               depth = isnan (depth_m) ? FR_BORE_DEPTH_M : depth_m;
  const double done = isnan (since_years)
                          ? 1
                          : CLAMP (since_years / FR_STAIN_FORMS_YEARS, 0, 1); /* before it: only the hole */
  const double wide = bore * FR_STAIN_WIDTH_RATIO / 2,
               high = 3 * FR_STAIN_VOLUME_RATIO * G_PI / 4 * bore * bore / (8 * wide);
  FrStain stain = { NAN, NAN, NAN };

  g_return_val_if_fail (bore > 0 && depth > 0, stain);
  stain.half_width_m = bore / 2 + done * (wide - bore / 2);
  stain.half_height_m = bore / 2 + done * (high - bore / 2);
  stain.depth_m = depth;
  return stain;
}

double
fr_stain_half_width_m (const FrStain *stain, double off_m)
{
  const double part = off_m / stain->half_height_m;

  return fabs (part) < 1 ? stain->half_width_m * (1 - part * part) : 0;
}

double
fr_stain_volume_l (const FrStain *stain)
{
  return 8.0 / 3 * stain->half_width_m * stain->half_height_m * stain->depth_m * LITRES_PER_M3;
}

double
fr_stain_overlap_m (const FrStain *stain, double sideways_m, double off_m, double bore_m)
{
  const double bore = isnan (bore_m) ? FR_BORE_M : bore_m;
  const double off
      = fmax (fabs (off_m) - bore / 2, 0); /* the edge of the new hole that is nearest to the middle */
  const double half_width = fr_stain_half_width_m (stain, off);

  if (half_width <= 0)
    return 0;
  return CLAMP (half_width + bore / 2 - fabs (sideways_m), 0, bore);
}

double
fr_new_wood_m (double growth_m_per_year, double since_years)
{
  return growth_m_per_year / 2 * since_years;
}
