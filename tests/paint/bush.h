/* An invented bush for the tests of the map and its sheets: 31 trees, paths, a wall, buildings and a round.
 */
#pragma once

#include "paint/map.h"

typedef struct
{
  FrMapTree trees[31];
  FrMapShape shapes[6];
  FrMapRound round;
  FrGroundPoint stops[13];
  FrMapView view;
} Bush;

/* Fills @bush and shows all of it on @width_px × @height_px. */
void
bush_fill (Bush *bush, double width_px, double height_px);

/* @n trees of all kinds, spread evenly enough over a square with 7 m to each; names "T 0" and on. Free with
 * many_free(). */
FrMapTree *
many_new (gsize n);

void
many_free (FrMapTree *trees, gsize n);
