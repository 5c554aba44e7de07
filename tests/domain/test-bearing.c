/* Bearings as written. The 32 points and their degrees are those of any compass card (each 11.25° on from the
 * last, common knowledge); quadrant bearings are read as surveyors write them, from the first letter towards
 * the second. */
#include "domain/units/bearing.h"

#include <math.h>

static const struct
{
  const char *text;
  double bearing_deg; /* NAN: refused */
} rows[] = {
  { "N", 0 },
  { "n", 0 },
  { "NbE", 11.25 },
  { "NNE", 22.5 },
  { "NEbN", 33.75 },
  { "NE", 45 },
  { "NEbE", 56.25 },
  { "ENE", 67.5 },
  { "EbN", 78.75 },
  { "E", 90 },
  { "EbS", 101.25 },
  { "ESE", 112.5 },
  { "SEbE", 123.75 },
  { "SE", 135 },
  { "SEbS", 146.25 },
  { "SSE", 157.5 },
  { "SbE", 168.75 },
  { "S", 180 },
  { "SbW", 191.25 },
  { "SSW", 202.5 },
  { "SWbS", 213.75 },
  { "SW", 225 },
  { "SWbW", 236.25 },
  { "WSW", 247.5 },
  { "WbS", 258.75 },
  { "W", 270 },
  { "WbN", 281.25 },
  { "WNW", 292.5 },
  { "NWbW", 303.75 },
  { "NW", 315 },
  { "NWbN", 326.25 },
  { "NNW", 337.5 },
  { "NbW", 348.75 },
  { " s s e ", 157.5 },
  { "S 20 E", 160 },
  { "S20W", 200 },
  { "n 45.5 w", 314.5 },
  { "N 0 E", 0 },
  { "N 0 W", 0 },
  { "N 90 E", 90 },
  { "S 90 W", 270 },
  { "S 20° E", 160 },
  { "157.5", 157.5 },
  { "157,5°", 157.5 },
  { "0", 0 },
  { "360", 0 },
  { " 12 ° ", 12 },
  { ".5", 0.5 },
  { "", NAN },
  { "  ", NAN },
  { "360.1", NAN },
  { "-5", NAN },
  { "N 91 E", NAN },
  { "E 20 S", NAN },
  { "N E 20", NAN },
  { "S E", 135 },
  { "NN", NAN },
  { "1e2", NAN },
  { "0x10", NAN },
  { "nan", NAN },
  { "inf", NAN },
  { "1.2.3", NAN },
  { ".", NAN },
  { "N . E", NAN },
  { "12 m", NAN },
  { "north", NAN },
  { "°", NAN },
  { "123456789012345678901234567890123", NAN },
};

static void
test_row (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  double bearing_deg = 1;

  g_assert_cmpint (fr_bearing_parse (rows[i].text, &bearing_deg), ==, !isnan (rows[i].bearing_deg));
  if (isnan (rows[i].bearing_deg))
    g_assert_true (isnan (bearing_deg));
  else
    g_assert_cmpfloat (bearing_deg, ==, rows[i].bearing_deg);
}

/* A right-angled triangle of sides 3, 4, 5 stands for the sine and cosine. */
static void
test_offset (void)
{
  double dx_m, dy_m, angle_deg = atan2 (3, 4) * (180 / G_PI);

  fr_plan_offset (5, angle_deg, NAN, &dx_m, &dy_m);
  g_assert_cmpfloat_with_epsilon (dx_m, 3, 1e-12);
  g_assert_cmpfloat_with_epsilon (dy_m, 4, 1e-12);
  /* The compass points 14° west of true north: what it shows as 104° is true east. */
  fr_plan_offset (10, 104, -14, &dx_m, &dy_m);
  g_assert_cmpfloat_with_epsilon (dx_m, 10, 1e-12);
  g_assert_cmpfloat_with_epsilon (dy_m, 0, 1e-12);
  fr_plan_offset (10, 350, 10, &dx_m, &dy_m);
  g_assert_cmpfloat_with_epsilon (dx_m, 0, 1e-12);
  g_assert_cmpfloat_with_epsilon (dy_m, 10, 1e-12);
  fr_plan_offset (NAN, 350, 10, &dx_m, &dy_m);
  g_assert_true (isnan (dx_m) && isnan (dy_m));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/bearing/%02u", i);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_row);
    }
  g_test_add_func ("/bearing/offset", test_offset);
  return g_test_run ();
}
