/* Vessel shapes. Exact geometry for the regular ones; a measured table is interpolated linearly in volume between its rows,
 * so that its surface is a staircase, which is all that such a table knows.
 * Heat loss coefficients: natural convection and radiation at 100 °C in a 20 °C room (Stefan–Boltzmann and handbook film
 * coefficients), rounded. Accuracy: geometry 1e-12 relative; loss ± 30 %. */
#include "domain/maths/vessel.h"

#include "domain/maths/solve.h"

#include <math.h>
#include <string.h>

static const char *const shape_codes[FR_N_SHAPES] = { "cylinder", "cone", "cap", "box", "table" };
static const char *const cover_codes[FR_N_COVERS] = { "bare", "foil", "wrapped" };
static const double cover_w_per_m2_k[FR_N_COVERS] = { 10.0, 5.5, 1.3 };

static gboolean
code_index (const char *const *codes, guint n, const char *code, guint *index_out)
{
  for (guint i = 0; i < n; i++)
    if (g_strcmp0 (codes[i], code) == 0)
      {
        *index_out = i;
        return TRUE;
      }
  return FALSE;
}

const char *
fr_shape_code (FrShape shape)
{
  g_return_val_if_fail ((guint) shape < FR_N_SHAPES, NULL);
  return shape_codes[shape];
}

gboolean
fr_shape_from_code (const char *code, FrShape *shape_out)
{
  guint i;

  if (!code_index (shape_codes, FR_N_SHAPES, code, &i))
    return FALSE;
  *shape_out = i;
  return TRUE;
}

gboolean
fr_cover_from_code (const char *code, FrCover *cover_out)
{
  guint i;

  if (!code_index (cover_codes, FR_N_COVERS, code, &i))
    return FALSE;
  *cover_out = i;
  return TRUE;
}

static gboolean
is_size (double size_m)
{
  return size_m >= 0.005 && size_m <= 5.0;
}

FrVesselProblem
fr_vessel_check (const FrVessel *vessel)
{
  const FrVessel *v = vessel;

  switch (v->shape)
    {
    case FR_SHAPE_CYLINDER:
      return is_size (v->a_m) && is_size (v->height_m) ? FR_VESSEL_OK : FR_VESSEL_BAD_SIZE;
    case FR_SHAPE_CONE:
      return is_size (v->a_m) && is_size (v->b_m) && is_size (v->height_m) ? FR_VESSEL_OK : FR_VESSEL_BAD_SIZE;
    case FR_SHAPE_CAP:
      if (!is_size (v->a_m) || !is_size (v->height_m))
        return FR_VESSEL_BAD_SIZE;
      return v->b_m >= 0 && v->b_m < v->a_m ? FR_VESSEL_OK : FR_VESSEL_BAD_FLAT;
    case FR_SHAPE_BOX:
      if (!is_size (v->a_m) || !is_size (v->b_m) || !is_size (v->height_m))
        return FR_VESSEL_BAD_SIZE;
      return v->c_m >= 0 && 2 * v->c_m <= MIN (v->a_m, v->b_m) * (1 + 1e-12) ? FR_VESSEL_OK : FR_VESSEL_BAD_CORNER;
    case FR_SHAPE_TABLE:
      if (v->n_rows < 2 || v->n_rows > FR_VESSEL_ROWS_MAX)
        return FR_VESSEL_FEW_ROWS;
      for (guint i = 0; i < v->n_rows; i++)
        {
          if (!(v->row_depth_m[i] >= 0 && v->row_depth_m[i] <= 5.0) || !(v->row_l[i] >= 0 && v->row_l[i] <= 100000))
            return FR_VESSEL_BAD_SIZE;
          if (i > 0 && !(v->row_depth_m[i] > v->row_depth_m[i - 1] && v->row_l[i] > v->row_l[i - 1]))
            return FR_VESSEL_NOT_RISING;
        }
      /* Liquid below the first row stands in the wedge from nothing: 0 cm must be 0 L and the other way round. */
      if ((v->row_depth_m[0] == 0) != (v->row_l[0] == 0))
        return FR_VESSEL_NOT_RISING;
      return FR_VESSEL_OK;
    default:
      return FR_VESSEL_BAD_SIZE;
    }
}

/* A cap sits in a sphere of radius r whose lowest point is low_m below the flat bottom (0 without one). From
 * a² = 2 r (low + h) − (low + h)² at the rim and flat² = 2 r low − low² at the bottom. */
static void
cap_sphere (const FrVessel *v, double *radius_out, double *low_out)
{
  double h = v->height_m, a2 = v->a_m * v->a_m, f2 = v->b_m * v->b_m;
  /* centre above the flat: z0 with r² = f2 + z0² = a2 + (h − z0)² */
  double centre = (a2 - f2 + h * h) / (2 * h);
  double radius = sqrt (f2 + centre * centre);

  *radius_out = radius;
  *low_out = v->b_m > 0 ? radius - centre : 0;
}

static double
cap_volume (double radius, double h)
{
  return G_PI * h * h * (3 * radius - h) / 3;
}

double
fr_vessel_height_m (const FrVessel *vessel)
{
  if (vessel->shape == FR_SHAPE_TABLE)
    return vessel->row_depth_m[vessel->n_rows - 1];
  return vessel->height_m;
}

double
fr_vessel_capacity_l (const FrVessel *vessel)
{
  return fr_vessel_volume_l (vessel, fr_vessel_height_m (vessel));
}

double
fr_vessel_volume_l (const FrVessel *vessel, double depth_m)
{
  const FrVessel *v = vessel;
  double h = depth_m;

  if (!(h >= 0))
    return isnan (h) ? NAN : 0;
  if (h > fr_vessel_height_m (v) * (1 + 1e-12))
    return NAN;
  switch (v->shape)
    {
    case FR_SHAPE_CYLINDER:
      return 1e3 * G_PI * v->a_m * v->a_m * h;
    case FR_SHAPE_CONE:
      {
        double r0 = v->a_m, r = r0 + (v->b_m - r0) * h / v->height_m;

        return 1e3 * G_PI * h / 3 * (r0 * r0 + r0 * r + r * r);
      }
    case FR_SHAPE_CAP:
      {
        double radius, low;

        cap_sphere (v, &radius, &low);
        return 1e3 * (cap_volume (radius, low + h) - cap_volume (radius, low));
      }
    case FR_SHAPE_BOX:
      return 1e3 * (v->a_m * v->b_m - (4 - G_PI) * v->c_m * v->c_m) * h;
    default:
      {
        guint i = 0;
        double d0 = 0, l0 = 0;

        while (i < v->n_rows - 1 && h > v->row_depth_m[i])
          i++;
        if (i > 0)
          {
            d0 = v->row_depth_m[i - 1];
            l0 = v->row_l[i - 1];
          }
        if (v->row_depth_m[i] == d0)
          return v->row_l[i];
        return l0 + (v->row_l[i] - l0) * MIN (1, (h - d0) / (v->row_depth_m[i] - d0));
      }
    }
}

typedef struct
{
  const FrVessel *vessel;
  double volume_l;
} Depth;

static double
depth_gap (double depth_m, gpointer data)
{
  Depth *depth = data;

  return fr_vessel_volume_l (depth->vessel, depth_m) - depth->volume_l;
}

double
fr_vessel_depth_m (const FrVessel *vessel, double volume_l)
{
  double capacity_l = fr_vessel_capacity_l (vessel), height_m = fr_vessel_height_m (vessel);
  Depth depth = { vessel, volume_l };
  double depth_m;

  if (!(volume_l >= 0 && volume_l <= capacity_l * (1 + 1e-12)))
    return NAN;
  if (volume_l >= capacity_l)
    return height_m;
  if (vessel->shape == FR_SHAPE_CYLINDER || vessel->shape == FR_SHAPE_BOX)
    return height_m * volume_l / capacity_l;
  return fr_solve_root (depth_gap, &depth, 0, height_m, 1e-13, &depth_m) ? depth_m : NAN;
}

double
fr_vessel_surface_m2 (const FrVessel *vessel, double depth_m)
{
  const FrVessel *v = vessel;
  double h = depth_m;

  if (!(h >= 0 && h <= fr_vessel_height_m (v) * (1 + 1e-12)))
    return NAN;
  switch (v->shape)
    {
    case FR_SHAPE_CYLINDER:
      return G_PI * v->a_m * v->a_m;
    case FR_SHAPE_CONE:
      {
        double r = v->a_m + (v->b_m - v->a_m) * h / v->height_m;

        return G_PI * r * r;
      }
    case FR_SHAPE_CAP:
      {
        double radius, low;

        cap_sphere (v, &radius, &low);
        return G_PI * (low + h) * (2 * radius - low - h);
      }
    case FR_SHAPE_BOX:
      return v->a_m * v->b_m - (4 - G_PI) * v->c_m * v->c_m;
    default:
      {
        guint i = v->row_depth_m[0] == 0 ? 1 : 0;
        double d0, l0;

        while (i < v->n_rows - 1 && h > v->row_depth_m[i])
          i++;
        d0 = i > 0 ? v->row_depth_m[i - 1] : 0;
        l0 = i > 0 ? v->row_l[i - 1] : 0;
        return 1e-3 * (v->row_l[i] - l0) / (v->row_depth_m[i] - d0);
      }
    }
}

/* Side only, from the bottom up to @depth_m. */
static double
side_m2 (const FrVessel *v, double depth_m)
{
  double h = depth_m;

  switch (v->shape)
    {
    case FR_SHAPE_CYLINDER:
      return 2 * G_PI * v->a_m * h;
    case FR_SHAPE_CONE:
      {
        double r = v->a_m + (v->b_m - v->a_m) * h / v->height_m;

        return G_PI * (v->a_m + r) * hypot (h, r - v->a_m);
      }
    case FR_SHAPE_CAP:
      {
        double radius, low;

        cap_sphere (v, &radius, &low);
        return 2 * G_PI * radius * h;
      }
    case FR_SHAPE_BOX:
      return (2 * (v->a_m + v->b_m) - (8 - 2 * G_PI) * v->c_m) * h;
    default:
      {
        double mean_m2 = 1e-3 * fr_vessel_volume_l (v, h) / h;

        return h > 0 ? 2 * sqrt (G_PI * mean_m2) * h : 0;
      }
    }
}

static double
bottom_m2 (const FrVessel *v)
{
  if (v->shape == FR_SHAPE_CAP)
    return G_PI * v->b_m * v->b_m;
  return fr_vessel_surface_m2 (v, 0);
}

double
fr_vessel_wetted_m2 (const FrVessel *vessel, double depth_m)
{
  if (!(depth_m >= 0 && depth_m <= fr_vessel_height_m (vessel) * (1 + 1e-12)))
    return NAN;
  return side_m2 (vessel, depth_m) + bottom_m2 (vessel);
}

double
fr_vessel_wall_w_per_k (const FrVessel *vessel, FrCover cover)
{
  g_return_val_if_fail ((guint) cover < FR_N_COVERS, NAN);
  return cover_w_per_m2_k[cover] * side_m2 (vessel, fr_vessel_height_m (vessel));
}
