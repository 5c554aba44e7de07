/* Points on the earth, and the plan that is tied to it. WGS 84 throughout: latitude north, longitude east, in
 * degrees. Distances run along the geodesic of the ellipsoid. The plan is the azimuthal equidistant
 * projection about its anchor: from the anchor every distance and direction is true; x is east, y is true
 * north there. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Farther apart than this nothing here answers; a sugarbush is not that wide, and the series are not checked
 * beyond. */
#define FR_GEO_FARTHEST_M 1000000.0

typedef struct
{
  double lat_deg;
  double lon_deg;
} FrEarthPoint;

/* Where a point of the plan lies on the earth. */
typedef struct
{
  double lat_deg;
  double lon_deg;
  double x_m;
  double y_m;
} FrGeoAnchor;

/* Whether both are finite, latitude from −90 to 90 and longitude from −180 to 180. */
gboolean
fr_geo_is_point (FrEarthPoint point);

/**
 * fr_geo_inverse:
 * @distance_m_out: (out) (optional): along the geodesic; 0 for the same point
 * @azimuth_deg_out: (out) (optional): direction at @from, clockwise from true north, 0 to 360; 0 for the same
 * point. At a pole north is where the meridian of @from would come in.
 *
 * Within 0.1 mm of the exact geodesic.
 *
 * Returns: FALSE when a point is none, or they are more than FR_GEO_FARTHEST_M apart
 */
gboolean
fr_geo_inverse (FrEarthPoint from, FrEarthPoint to, double *distance_m_out, double *azimuth_deg_out);

/**
 * fr_geo_direct:
 * @azimuth_deg: clockwise from true north, any finite number
 * @distance_m: 0 to FR_GEO_FARTHEST_M
 * @to_out: longitude from −180 to 180
 *
 * Within 0.1 mm of the exact geodesic.
 *
 * Returns: FALSE when an argument is not as asked
 */
gboolean
fr_geo_direct (FrEarthPoint from, double azimuth_deg, double distance_m, FrEarthPoint *to_out);

/**
 * fr_geo_to_plan:
 *
 * There and back, and back and there, is the same place within 1e-8 m and 1e-13 degrees of latitude (of
 * longitude that over the cosine of the latitude), up to 20 km away.
 *
 * Returns: FALSE when the point is none, the anchor is not whole, or they are more than FR_GEO_FARTHEST_M
 * apart
 */
gboolean
fr_geo_to_plan (const FrGeoAnchor *anchor, FrEarthPoint point, double *x_m_out, double *y_m_out);
gboolean
fr_geo_from_plan (const FrGeoAnchor *anchor, double x_m, double y_m, FrEarthPoint *point_out);

/* The middle of points, as the mean of their directions from the earth's centre; points of which there is
 * none are left out. FALSE when none is left, or they lie all around. */
gboolean
fr_geo_middle (const FrEarthPoint *points, guint n, FrEarthPoint *middle_out);

G_END_DECLS
