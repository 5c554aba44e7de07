/* Geodesics against the geodesic routines that come with PROJ (C. F. F. Karney, "Algorithms for geodesics",
 * J. Geodesy 87, 2013; exact to some nanometres), which share no series with ours; and the plan against
 * itself, there and back. */
#include "domain/units/geo.h"
#include "found.h"

#include <geodesic.h>

#define PAIRS 20000

static struct geod_geodesic ellipsoid;

static double
turn_between (double a_deg, double b_deg)
{
  return fabs (remainder (a_deg - b_deg, 360));
}

/* Azimuths are compared where they are used: as metres at the other end. */
static void
compare (FrEarthPoint from, FrEarthPoint to, const char *what)
{
  double distance_m, azimuth_deg, distance, azimuth, back, lat, lon, miss;
  FrEarthPoint reached;

  geod_inverse (&ellipsoid, from.lat_deg, from.lon_deg, to.lat_deg, to.lon_deg, &distance, &azimuth, &back);
  if (distance > FR_GEO_FARTHEST_M)
    {
      g_assert_false (fr_geo_inverse (from, to, &distance_m, &azimuth_deg));
      return;
    }
  if (!fr_geo_inverse (from, to, &distance_m, &azimuth_deg))
    g_error ("%s: no answer from %.17g %.17g to %.17g %.17g", what, from.lat_deg, from.lon_deg, to.lat_deg,
             to.lon_deg);
  g_assert_cmpfloat (azimuth_deg, >=, 0);
  g_assert_cmpfloat (azimuth_deg, <, 360);
  found_near (what, distance_m, distance, 1e-4);
  found_near ("azimuth, as metres at the other end",
              turn_between (azimuth_deg, azimuth) * (G_PI / 180) * distance, 0, 1e-3);
  geod_direct (&ellipsoid, from.lat_deg, from.lon_deg, azimuth_deg, distance_m, &lat, &lon, &back);
  g_assert_true (fr_geo_direct (from, azimuth_deg, distance_m, &reached));
  g_assert_true (fr_geo_is_point (reached));
  geod_inverse (&ellipsoid, lat, lon, reached.lat_deg, reached.lon_deg, &miss, &azimuth, &back);
  found_near ("destination", miss, 0, 1e-4);
}

static FrEarthPoint
somewhere (GRand *random, FrEarthPoint near, double within_m)
{
  double lat, lon, back;

  geod_direct (&ellipsoid, near.lat_deg, near.lon_deg, g_rand_double_range (random, 0, 360),
               within_m * g_rand_double (random), &lat, &lon, &back);
  return (FrEarthPoint){ lat, lon };
}

static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (3);

  for (guint i = 0; i < PAIRS; i++)
    {
      FrEarthPoint from = { asin (g_rand_double_range (random, -1, 1)) * (180 / G_PI),
                            g_rand_double_range (random, -180, 180) };
      double within_m = pow (10, g_rand_double_range (random, -3, 6));

      compare (from, somewhere (random, from, within_m),
               within_m < 20000 ? "distance to 20 km" : "distance to 1000 km");
    }
}

static void
test_edges (void)
{
  static const double lats[] = { -90, -89.9999999, -45, -1e-9, 0, 1e-9, 44.26, 89.9, 89.9999999, 90 };
  static const double lons[] = { -180, -179.9999999, -72.58, 0, 90, 179.9999999, 180 };
  g_autoptr (GRand) random = g_rand_new_with_seed (4);

  for (guint a = 0; a < G_N_ELEMENTS (lats); a++)
    for (guint o = 0; o < G_N_ELEMENTS (lons); o++)
      {
        FrEarthPoint from = { lats[a], lons[o] };

        for (guint i = 0; i < 20; i++)
          compare (from, somewhere (random, from, i < 10 ? 5000 : 999000),
                   "distance at poles, equator and date line");
        for (guint b = 0; b < G_N_ELEMENTS (lats); b++)
          for (guint p = 0; p < G_N_ELEMENTS (lons); p++)
            compare (from, (FrEarthPoint){ lats[b], lons[p] }, "distance at poles, equator and date line");
      }
}

static void
test_same_place (void)
{
  double distance_m, azimuth_deg;

  g_assert_true (
      fr_geo_inverse ((FrEarthPoint){ 44, 180 }, (FrEarthPoint){ 44, -180 }, &distance_m, &azimuth_deg));
  g_assert_cmpfloat (distance_m, ==, 0);
  g_assert_cmpfloat (azimuth_deg, ==, 0);
  g_assert_true (fr_geo_inverse ((FrEarthPoint){ 90, 10 }, (FrEarthPoint){ 90, 130 }, &distance_m, NULL));
  g_assert_cmpfloat (distance_m, <, 1e-9);
}

static void
test_refusals (void)
{
  const FrGeoAnchor anchor = { 44, -72, 0, 0 }, broken = { NAN, -72, 0, 0 };
  double x_m, y_m;
  FrEarthPoint point;

  g_assert_false (fr_geo_is_point ((FrEarthPoint){ 95, 0 }));
  g_assert_false (fr_geo_is_point ((FrEarthPoint){ 0, 180.0001 }));
  g_assert_false (fr_geo_is_point ((FrEarthPoint){ NAN, 0 }));
  g_assert_false (fr_geo_is_point ((FrEarthPoint){ 0, INFINITY }));
  g_assert_false (fr_geo_inverse ((FrEarthPoint){ 0, 0 }, (FrEarthPoint){ 0, 9.1 }, NULL, NULL));
  g_assert_false (fr_geo_inverse ((FrEarthPoint){ 0, 0 }, (FrEarthPoint){ 0.1, 179.9 }, NULL, NULL));
  g_assert_false (fr_geo_direct ((FrEarthPoint){ 0, 0 }, NAN, 1, &point));
  g_assert_false (fr_geo_direct ((FrEarthPoint){ 0, 0 }, 0, -1, &point));
  g_assert_false (fr_geo_direct ((FrEarthPoint){ 0, 0 }, 0, 1000001, &point));
  g_assert_false (fr_geo_to_plan (&anchor, (FrEarthPoint){ 95, 0 }, &x_m, &y_m));
  g_assert_true (isnan (x_m) && isnan (y_m));
  g_assert_false (fr_geo_to_plan (&anchor, (FrEarthPoint){ 44, 20 }, &x_m, &y_m));
  g_assert_false (fr_geo_to_plan (&broken, (FrEarthPoint){ 44, -72 }, &x_m, &y_m));
  g_assert_false (fr_geo_from_plan (&anchor, NAN, 0, &point));
  g_assert_false (fr_geo_from_plan (&broken, 0, 0, &point));
  g_assert_true (isnan (point.lat_deg));
}

/* Anchors anywhere, away from zero on the plan; longitudes weigh as much as they do on the ground. */
static void
test_there_and_back (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (5);

  for (guint i = 0; i < PAIRS; i++)
    {
      FrGeoAnchor anchor
          = { i % 50 == 0   ? 90
              : i % 50 == 1 ? -90
                            : g_rand_double_range (random, -90, 90),
              i % 7 == 0 ? 180 : g_rand_double_range (random, -180, 180),
              g_rand_double_range (random, -500, 500), g_rand_double_range (random, -500, 500) };
      FrEarthPoint here = { anchor.lat_deg, anchor.lon_deg }, point = somewhere (random, here, 20000), back;
      double x_m, y_m, again_x_m, again_y_m;

      g_assert_true (fr_geo_to_plan (&anchor, point, &x_m, &y_m));
      g_assert_true (fr_geo_from_plan (&anchor, x_m, y_m, &back));
      found_near ("latitude there and back", back.lat_deg, point.lat_deg, 1e-13);
      found_near ("longitude there and back, times the cosine",
                  turn_between (back.lon_deg, point.lon_deg) * cos (point.lat_deg * (G_PI / 180)), 0, 1e-13);
      g_assert_true (fr_geo_to_plan (&anchor, back, &again_x_m, &again_y_m));
      found_near ("plan there and back", hypot (again_x_m - x_m, again_y_m - y_m), 0, 1e-8);
      x_m = anchor.x_m + g_rand_double_range (random, -14000, 14000);
      y_m = anchor.y_m + g_rand_double_range (random, -14000, 14000);
      g_assert_true (fr_geo_from_plan (&anchor, x_m, y_m, &back));
      g_assert_true (fr_geo_to_plan (&anchor, back, &again_x_m, &again_y_m));
      found_near ("plan there and back", hypot (again_x_m - x_m, again_y_m - y_m), 0, 1e-8);
    }
}

/* x is east and y is true north. */
static void
test_plan_directions (void)
{
  const FrGeoAnchor anchor = { -33.9, 151.2, 100, 200 };
  double x_m, y_m, lat, lon, back;

  geod_direct (&ellipsoid, anchor.lat_deg, anchor.lon_deg, 90, 50, &lat, &lon, &back);
  g_assert_true (fr_geo_to_plan (&anchor, (FrEarthPoint){ lat, lon }, &x_m, &y_m));
  found_near ("east of the anchor", hypot (x_m - 150, y_m - 200), 0, 1e-6);
  geod_direct (&ellipsoid, anchor.lat_deg, anchor.lon_deg, 180, 50, &lat, &lon, &back);
  g_assert_true (fr_geo_to_plan (&anchor, (FrEarthPoint){ lat, lon }, &x_m, &y_m));
  found_near ("south of the anchor", hypot (x_m - 100, y_m - 150), 0, 1e-6);
}

static void
test_middle (void)
{
  const FrEarthPoint points[] = { { 10, 179 }, { NAN, 3 }, { 10, -179 } },
                     opposite[] = { { 0, 0 }, { 0, 180 } };
  FrEarthPoint middle;

  g_assert_true (fr_geo_middle (points, 3, &middle));
  g_assert_cmpfloat_with_epsilon (fabs (middle.lon_deg), 180, 1e-9);
  /* tan φ = tan 10° / cos 1°, by the triangle of the two meridians. */
  g_assert_cmpfloat_with_epsilon (middle.lat_deg,
                                  atan (tan (10 * G_PI / 180) / cos (G_PI / 180)) * 180 / G_PI, 1e-9);
  g_assert_false (fr_geo_middle (opposite, 2, &middle));
  g_assert_false (fr_geo_middle (NULL, 0, &middle));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  geod_init (&ellipsoid, 6378137.0, 1 / 298.257223563);
  g_test_add_func ("/geo/random-pairs", test_random);
  g_test_add_func ("/geo/poles-equator-date-line", test_edges);
  g_test_add_func ("/geo/same-place", test_same_place);
  g_test_add_func ("/geo/refusals", test_refusals);
  g_test_add_func ("/geo/there-and-back", test_there_and_back);
  g_test_add_func ("/geo/plan-directions", test_plan_directions);
  g_test_add_func ("/geo/middle", test_middle);
  return found_run ();
}
