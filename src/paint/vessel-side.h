/* A pan from the side: its outline, the liquid up to the level held, and lines at levels with words on them.
 * Plain arguments in, cairo out. Made for 260×120 to 900×320 px at text scale 1 to 2. */
#pragma once

#include "domain/maths/vessel.h"
#include "paint/label.h"

/**
 * FrVesselLevel:
 * @depth_m: above the bottom
 * @name: regular, "Power off at"
 * @value: bold, "0.8 L, 1.3 cm"
 * @strong: the level the feed holds: solid and filled; the others are dashed warning lines
 */
typedef struct
{
  double depth_m;
  const char *name;
  const char *value;
  gboolean strong;
} FrVesselLevel;

/**
 * fr_vessel_side_draw:
 * @vessel: a shape that passed fr_vessel_check()
 * @levels: from the bottom upwards
 * @rim_name, @rim_value: "Rim", "6.1 L, 10 cm"
 * @labels: (nullable): a list of #FrLabelBox to add every text to, as it was drawn
 */
void
fr_vessel_side_draw (cairo_t *cr, PangoContext *context, const FrPalette *palette, const FrVessel *vessel,
                     const FrVesselLevel *levels, gsize n_levels, const char *rim_name, const char *rim_value,
                     double width_px, double height_px, double text_scale, GArray *labels);
