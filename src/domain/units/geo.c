/* Geodesics of WGS 84 after T. Vincenty, "Direct and inverse solutions of geodesics on the ellipsoid with
 * application of nested equations", Survey Review 23 (176), 1975, with his later shorter series (1976) in
 * Helmert's parameter k. His is the iteration, the terms are written anew so that small distances keep all
 * their digits: the difference of latitudes enters as a difference, never as that of two products. Nearly
 * opposite points, where the iteration fails, are far beyond the 1000 km that are answered. */
#include "domain/units/geo.h"

#include <math.h>

#define SEMI_MAJOR_M 6378137.0
#define FLATTENING (1 / 298.257223563)
#define SEMI_MINOR_M (SEMI_MAJOR_M * (1 - FLATTENING))
#define ROUNDS_MAX 100

/* A latitude on the auxiliary sphere. */
typedef struct
{
  double sin_u;
  double cos_u;
  double norm; /* of ((1 − f) sin φ, cos φ) */
} Reduced;

static double
radians (double degrees)
{
  return degrees * (G_PI / 180);
}

static double
degrees (double radians_)
{
  return radians_ * (180 / G_PI);
}

static Reduced
reduce (double lat_deg)
{
  double up = (1 - FLATTENING) * sin (radians (lat_deg));
  /* Exactly none at the poles, where the cosine of a rounded π/2 would not be. */
  double out = fabs (lat_deg) == 90 ? 0 : cos (radians (lat_deg));
  double norm = hypot (up, out);

  return (Reduced){ up / norm, out / norm, norm };
}

/* What the series need from the geodesic's steepest point. */
typedef struct
{
  double a;
  double b;
  double c;
} Series;

static Series
series (double cos2_alpha)
{
  double u2 = cos2_alpha * (SEMI_MAJOR_M * SEMI_MAJOR_M - SEMI_MINOR_M * SEMI_MINOR_M)
              / (SEMI_MINOR_M * SEMI_MINOR_M);
  double root = sqrt (1 + u2), k = (root - 1) / (root + 1);

  return (Series){ (1 + k * k / 4) / (1 - k), k * (1 - 3 * k * k / 8),
                   FLATTENING / 16 * cos2_alpha * (4 + FLATTENING * (4 - 3 * cos2_alpha)) };
}

static double
delta_sigma (double b, double sin_sigma, double cos_sigma, double cos_2m)
{
  return b * sin_sigma
         * (cos_2m
            + b / 4
                  * (cos_sigma * (2 * cos_2m * cos_2m - 1)
                     - b / 6 * cos_2m * (4 * sin_sigma * sin_sigma - 3) * (4 * cos_2m * cos_2m - 3)));
}

/* How much farther the longitude turns on the sphere than on the ellipsoid. */
static double
turn (double c, double sin_alpha, double sigma, double sin_sigma, double cos_sigma, double cos_2m)
{
  return (1 - c) * FLATTENING * sin_alpha
         * (sigma + c * sin_sigma * (cos_2m + c * cos_sigma * (2 * cos_2m * cos_2m - 1)));
}

gboolean
fr_geo_is_point (FrEarthPoint point)
{
  /* Written so that a NAN fails too. */
  return fabs (point.lat_deg) <= 90 && fabs (point.lon_deg) <= 180;
}

/* The geodesic's length and the sine and cosine of its direction at @from. */
static gboolean
inverse (FrEarthPoint from, FrEarthPoint to, double *distance_m, double *sin_az, double *cos_az)
{
  Reduced one, two;
  double rise, difference, lambda;

  if (!fr_geo_is_point (from) || !fr_geo_is_point (to))
    return FALSE;
  one = reduce (from.lat_deg);
  two = reduce (to.lat_deg);
  rise = (1 - FLATTENING) * sin (radians (to.lat_deg - from.lat_deg)) / (one.norm * two.norm);
  difference = radians (remainder (to.lon_deg - from.lon_deg, 360));
  lambda = difference;
  for (guint i = 0; i < ROUNDS_MAX; i++)
    {
      double half = sin (lambda / 2);
      double east = two.cos_u * sin (lambda);
      double north = rise + 2 * one.sin_u * two.cos_u * half * half;
      double sin_sigma = hypot (east, north);
      double cos_sigma = one.sin_u * two.sin_u + one.cos_u * two.cos_u * cos (lambda);
      double sigma = atan2 (sin_sigma, cos_sigma), sin_alpha, cos2_alpha, cos_2m, next;
      Series s;

      if (sin_sigma == 0)
        {
          *distance_m = *sin_az = 0;
          *cos_az = 1;
          return cos_sigma > 0;
        }
      sin_alpha = one.cos_u * east / sin_sigma;
      cos2_alpha = (1 - sin_alpha) * (1 + sin_alpha);
      cos_2m = cos2_alpha > 0 ? cos_sigma - 2 * one.sin_u * two.sin_u / cos2_alpha : 0;
      s = series (cos2_alpha);
      next = difference + turn (s.c, sin_alpha, sigma, sin_sigma, cos_sigma, cos_2m);
      if (fabs (next - lambda) <= 1e-15 * fabs (next) || i == ROUNDS_MAX - 1)
        {
          *distance_m = SEMI_MINOR_M * s.a * (sigma - delta_sigma (s.b, sin_sigma, cos_sigma, cos_2m));
          *sin_az = east / sin_sigma;
          *cos_az = north / sin_sigma;
          return fabs (next - lambda) <= 1e-12 && *distance_m <= FR_GEO_FARTHEST_M;
        }
      lambda = next;
    }
  return FALSE;
}

static gboolean
direct (FrEarthPoint from, double sin_az, double cos_az, double distance_m, FrEarthPoint *to)
{
  Reduced one;
  double sigma_1, sin_alpha, cos2_alpha, first, sigma, sin_sigma, cos_sigma, cos_2m, up, out, lambda;
  Series s;

  if (!fr_geo_is_point (from) || !(distance_m >= 0 && distance_m <= FR_GEO_FARTHEST_M))
    return FALSE;
  one = reduce (from.lat_deg);
  sigma_1 = atan2 (one.sin_u, one.cos_u * cos_az);
  sin_alpha = one.cos_u * sin_az;
  cos2_alpha = (1 - sin_alpha) * (1 + sin_alpha);
  s = series (cos2_alpha);
  first = sigma = distance_m / (SEMI_MINOR_M * s.a);
  for (guint i = 0; i < ROUNDS_MAX; i++)
    {
      double before = sigma;

      sigma = first + delta_sigma (s.b, sin (sigma), cos (sigma), cos (2 * sigma_1 + sigma));
      if (fabs (sigma - before) <= 1e-16 * sigma)
        break;
    }
  sin_sigma = sin (sigma);
  cos_sigma = cos (sigma);
  cos_2m = cos (2 * sigma_1 + sigma);
  up = one.sin_u * cos_sigma + one.cos_u * sin_sigma * cos_az;
  out = hypot (sin_alpha, one.sin_u * sin_sigma - one.cos_u * cos_sigma * cos_az);
  lambda = atan2 (sin_sigma * sin_az, one.cos_u * cos_sigma - one.sin_u * sin_sigma * cos_az);
  lambda -= turn (s.c, sin_alpha, sigma, sin_sigma, cos_sigma, cos_2m);
  to->lat_deg = degrees (atan2 (up, (1 - FLATTENING) * out));
  to->lon_deg = remainder (from.lon_deg + degrees (lambda), 360);
  return TRUE;
}

gboolean
fr_geo_inverse (FrEarthPoint from, FrEarthPoint to, double *distance_m_out, double *azimuth_deg_out)
{
  double distance_m, sin_az, cos_az, azimuth_deg;

  if (!inverse (from, to, &distance_m, &sin_az, &cos_az))
    return FALSE;
  azimuth_deg = degrees (atan2 (sin_az, cos_az));
  if (azimuth_deg < 0)
    azimuth_deg += 360;
  if (distance_m_out != NULL)
    *distance_m_out = distance_m;
  if (azimuth_deg_out != NULL)
    *azimuth_deg_out = azimuth_deg < 360 ? azimuth_deg : 0;
  return TRUE;
}

gboolean
fr_geo_direct (FrEarthPoint from, double azimuth_deg, double distance_m, FrEarthPoint *to_out)
{
  double angle = radians (remainder (azimuth_deg, 360));

  g_return_val_if_fail (to_out != NULL, FALSE);

  return isfinite (azimuth_deg) && direct (from, sin (angle), cos (angle), distance_m, to_out);
}

gboolean
fr_geo_to_plan (const FrGeoAnchor *anchor, FrEarthPoint point, double *x_m_out, double *y_m_out)
{
  double distance_m, sin_az, cos_az;

  g_return_val_if_fail (anchor != NULL && x_m_out != NULL && y_m_out != NULL, FALSE);

  *x_m_out = *y_m_out = NAN;
  if (!isfinite (anchor->x_m) || !isfinite (anchor->y_m)
      || !inverse ((FrEarthPoint){ anchor->lat_deg, anchor->lon_deg }, point, &distance_m, &sin_az, &cos_az))
    return FALSE;
  *x_m_out = anchor->x_m + distance_m * sin_az;
  *y_m_out = anchor->y_m + distance_m * cos_az;
  return TRUE;
}

gboolean
fr_geo_from_plan (const FrGeoAnchor *anchor, double x_m, double y_m, FrEarthPoint *point_out)
{
  double east, north, distance_m;

  g_return_val_if_fail (anchor != NULL && point_out != NULL, FALSE);

  *point_out = (FrEarthPoint){ NAN, NAN };
  east = x_m - anchor->x_m;
  north = y_m - anchor->y_m;
  distance_m = hypot (east, north);
  if (!isfinite (distance_m))
    return FALSE;
  return direct ((FrEarthPoint){ anchor->lat_deg, anchor->lon_deg }, distance_m > 0 ? east / distance_m : 0,
                 distance_m > 0 ? north / distance_m : 1, distance_m, point_out);
}

gboolean
fr_geo_middle (const FrEarthPoint *points, guint n, FrEarthPoint *middle_out)
{
  double x = 0, y = 0, z = 0;
  guint seen = 0;

  g_return_val_if_fail (points != NULL || n == 0, FALSE);
  g_return_val_if_fail (middle_out != NULL, FALSE);

  for (guint i = 0; i < n; i++)
    {
      double lat = radians (points[i].lat_deg), lon = radians (points[i].lon_deg);

      if (!fr_geo_is_point (points[i]))
        continue;
      x += cos (lat) * cos (lon);
      y += cos (lat) * sin (lon);
      z += sin (lat);
      seen++;
    }
  /* Half a million kilometres of summed radii that cancel to nothing have no middle. */
  if (seen == 0 || hypot (hypot (x, y), z) < 1e-6 * seen)
    return FALSE;
  *middle_out = (FrEarthPoint){ degrees (atan2 (z, hypot (x, y))), degrees (atan2 (y, x)) };
  return TRUE;
}
