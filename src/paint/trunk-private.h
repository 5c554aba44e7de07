/* The parts of the trunk, between its own files. */
#pragma once

#include "paint/canvas.h"
#include "paint/trunk-view.h"

#include <math.h>

#define FR_TRUNK_DOT_PX 4.2
#define FR_TRUNK_TARGET_PX 7.0

typedef struct
{
  FrCanvas canvas;
  const FrTrunkView *view;
  FrTrunkFrame frame;
} FrTrunk;

static inline gboolean
fr_trunk_hole_is_drawn (const FrTrunkHole *hole)
{
  return isfinite (hole->angle_deg) && isfinite (hole->height_m);
}

static inline gboolean
fr_trunk_target_is_drawn (const FrTrunkTarget *target)
{
  return isfinite (target->angle_deg) && isfinite (target->height_m);
}

static inline double
fr_trunk_unit_m (const FrTrunkView *view)
{
  return view->unit_m > 0 ? view->unit_m : 0.01;
}

/* A height on the axis, in the caller's unit. */
char *
fr_trunk_height_text (double value);

void
fr_trunk_place_axes (FrTrunk *trunk);

void
fr_trunk_place_names (FrTrunk *trunk);

/* The sentence when there is nothing to show. */
void
fr_trunk_place_empty (FrTrunk *trunk);
