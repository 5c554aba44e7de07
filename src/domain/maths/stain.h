/* The stained column that a taphole leaves: wood that no longer carries sap, far longer than wide.
 *
 * A spindle on the unrolled trunk, for drawing it and for telling when a new hole would sit in it; no figure
 * of sap or sugar rests on it. Its size is from memory and unverified: see stain.c. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define FR_STAIN_VOLUME_RATIO 75.0 /* column over hole */
#define FR_STAIN_WIDTH_RATIO 1.5   /* column's widest over bore */
#define FR_STAIN_FORMS_YEARS 1.0

/**
 * FrStain:
 * @half_width_m: sideways, at the height of the hole
 * @half_height_m: how far it reaches above the hole, and below
 * @depth_m: into the wood, from the bark's inner side of the year of the hole; the same everywhere
 */
typedef struct
{
  double half_width_m;
  double half_height_m;
  double depth_m;
} FrStain;

/* Of a hole of @bore_m and @depth_m drilled @since_years ago. NAN for an unknown one: the standard bore, the
 * standard depth, a finished column. A hole of this very day has stained nothing but itself. */
FrStain
fr_stain_of_hole (double bore_m, double depth_m, double since_years);

/* Half the width @off_m above or below the hole (either sign); 0 beyond the ends. */
double
fr_stain_half_width_m (const FrStain *stain, double off_m);

/* Volume of the whole column. */
double
fr_stain_volume_l (const FrStain *stain);

/* How far a hole of @bore_m would reach sideways into the column, its middle @sideways_m beside and @off_m
 * above or below the old one's; 0 when it keeps out. At most the hole's whole width. */
double
fr_stain_overlap_m (const FrStain *stain, double sideways_m, double off_m, double bore_m);

/* New wood over an old hole: the part of a new bore that is certainly clean. @growth_m_per_year is of the
 * diameter. */
double
fr_new_wood_m (double growth_m_per_year, double since_years);

G_END_DECLS
