/* Pots and pans: how deep a volume stands, how wide its surface is, how much wall it wets.
 *
 * Depths in m from the bottom, volumes in L, areas in m². */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  FR_SHAPE_CYLINDER, /* straight round pot: radius_m, height_m */
  FR_SHAPE_CONE,     /* round, wider or narrower at the top: bottom_radius_m, top_radius_m, height_m */
  FR_SHAPE_CAP,      /* bowl or wok, part of a sphere: rim_radius_m, depth_m, and flat_radius_m of a flat bottom or 0 */
  FR_SHAPE_BOX,      /* flat pan: length_m, width_m, corner_radius_m of the upright corners, height_m */
  FR_SHAPE_TABLE,    /* measured: pairs of depth and litres, first 0 0 or implied */
  FR_N_SHAPES
} FrShape;

#define FR_VESSEL_ROWS_MAX 64

/**
 * FrVessel:
 * A plain value. @a_m to @d_m by shape:
 *   cylinder radius, –, –, height · cone bottom radius, top radius, –, height · cap rim radius, flat radius, –, depth ·
 *   box length, width, corner radius, height · table: unused, rows count.
 */
typedef struct
{
  FrShape shape;
  double a_m;
  double b_m;
  double c_m;
  double height_m;
  guint n_rows;
  double row_depth_m[FR_VESSEL_ROWS_MAX];
  double row_l[FR_VESSEL_ROWS_MAX];
} FrVessel;

typedef enum
{
  FR_VESSEL_OK,
  FR_VESSEL_BAD_SIZE,     /* a dimension is missing, not over 0 or over 5 m */
  FR_VESSEL_BAD_FLAT,     /* the flat bottom is not smaller than the rim */
  FR_VESSEL_BAD_CORNER,   /* twice the corner radius is more than the shorter side */
  FR_VESSEL_FEW_ROWS,     /* fewer than two rows or more than FR_VESSEL_ROWS_MAX */
  FR_VESSEL_NOT_RISING    /* depth or litres do not rise from row to row */
} FrVesselProblem;

typedef enum
{
  FR_COVER_BARE,
  FR_COVER_FOIL,
  FR_COVER_WRAPPED,
  FR_N_COVERS
} FrCover;

const char *fr_shape_code (FrShape shape);
gboolean fr_shape_from_code (const char *code, FrShape *shape_out);
gboolean fr_cover_from_code (const char *code, FrCover *cover_out);

FrVesselProblem fr_vessel_check (const FrVessel *vessel);

/* What it holds to the rim. */
double fr_vessel_capacity_l (const FrVessel *vessel);
double fr_vessel_height_m (const FrVessel *vessel);

/* 0 below 0; NAN above the rim. */
double fr_vessel_volume_l (const FrVessel *vessel, double depth_m);
/* NAN outside 0 to capacity. Inverse of the above within 1e-9 m. */
double fr_vessel_depth_m (const FrVessel *vessel, double volume_l);
double fr_vessel_surface_m2 (const FrVessel *vessel, double depth_m);

/* Wall and bottom touched by liquid standing @depth_m deep; for a measured table taken as round. */
double fr_vessel_wetted_m2 (const FrVessel *vessel, double depth_m);

/* Heat lost through wet and dry wall per kelvin, W/K: the whole side loses heat (steam wets it), the bottom is left out
 * since the heater sits there. About 10 W/(m² K) bare metal, 5.5 foil, 1.3 wrapped in 25 mm of felt: indoors, still air;
 * common figures, ± 30 %. */
double fr_vessel_wall_w_per_k (const FrVessel *vessel, FrCover cover);

G_END_DECLS
