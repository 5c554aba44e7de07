/* Latitude and longitude as typed. Values worked out by hand: minutes are sixtieths of a degree, seconds of a
 * minute. */
#include <math.h>

#include "domain/units/geo-parse.h"

static void
test_one (void)
{
  static const struct
  {
    const char *text;
    gboolean is_latitude;
    double value_deg; /* NAN: refused */
  } rows[] = {
    { "44.2601", TRUE, 44.2601 },
    { "44,2601", TRUE, 44.2601 },
    { " -72.5802 ", FALSE, -72.5802 },
    { "−72.5802", FALSE, -72.5802 },
    { "44° 15' 36\" N", TRUE, 44.26 },
    { "44°15′36″N", TRUE, 44.26 },
    { "N 44 15.6", TRUE, 44.26 },
    { "w 72 34.8", FALSE, -72.58 },
    { "33 S", TRUE, -33 },
    { "14 W", FALSE, -14 },
    { "90", TRUE, 90 },
    { "180 W", FALSE, -180 },
    { "0", TRUE, 0 },
    { "90.001", TRUE, NAN },
    { "180.5", FALSE, NAN },
    { "44 E", TRUE, NAN },
    { "72 N", FALSE, NAN },
    { "-44 S", TRUE, NAN },
    { "44.5 30", TRUE, NAN },
    { "44 60", TRUE, NAN },
    { "44 15 60", TRUE, NAN },
    { "44 15 10 5", TRUE, NAN },
    { "44 N 15", TRUE, NAN },
    { "44 -15", TRUE, NAN },
    { "4.4.2", TRUE, NAN },
    { "1e3", FALSE, NAN },
    { "nan", TRUE, NAN },
    { "N", TRUE, NAN },
    { "-", TRUE, NAN },
    { "", TRUE, NAN },
    { "44.26, -72.58", TRUE, NAN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double value_deg = 0;
      gboolean read = fr_degrees_parse (rows[i].text, rows[i].is_latitude, &value_deg);

      g_test_message ("“%s” %g", rows[i].text, value_deg);
      g_assert_cmpint (read, ==, !isnan (rows[i].value_deg));
      if (read)
        g_assert_cmpfloat_with_epsilon (value_deg, rows[i].value_deg, 1e-12);
      else
        g_assert_true (isnan (value_deg));
    }
}

static void
test_both (void)
{
  static const struct
  {
    const char *text;
    double lat_deg;
    double lon_deg;
  } rows[] = {
    { "44.2601, -72.5802", 44.2601, -72.5802 },
    { "44.2601 -72.5802", 44.2601, -72.5802 },
    { "44.2601,-72.5802", 44.2601, -72.5802 },
    { "44,2601 -72,5802", 44.2601, -72.5802 },
    { "44,2601; -72,5802", 44.2601, -72.5802 },
    { "N 44 15.6, W 72 34.8", 44.26, -72.58 },
    { "44°15'36\"N 72°34'48\"W", 44.26, -72.58 },
    { "44 15 20 30", NAN, NAN }, /* 44° 15′ and 20° 30′, or 44° and 15° 20′ 30″ */
    { "44.2601", NAN, NAN },
    { "-72.5802 E, 44.2601", NAN, NAN },
    { "95, 10", NAN, NAN },
    { "", NAN, NAN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      FrEarthPoint point;
      gboolean read = fr_earth_point_parse (rows[i].text, &point);

      g_test_message ("“%s” %g %g", rows[i].text, point.lat_deg, point.lon_deg);
      g_assert_cmpint (read, ==, !isnan (rows[i].lat_deg));
      if (!read)
        continue;
      g_assert_cmpfloat_with_epsilon (point.lat_deg, rows[i].lat_deg, 1e-12);
      g_assert_cmpfloat_with_epsilon (point.lon_deg, rows[i].lon_deg, 1e-12);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geo-parse/one", test_one);
  g_test_add_func ("/geo-parse/both", test_both);
  return g_test_run ();
}
