/* Sunrise, noon and sunset: against worked examples, another author's sky, and the seasons of both
 * hemispheres. */
#include "domain/maths/sun.h"

#include "found.h"

#define DAY_S 86400

static gint64
utc (gint year, gint month, gint day, gint hour, gint minute)
{
  return fr_date_to_days ((FrDate){ year, month, day }) * DAY_S + hour * 3600 + minute * 60;
}

/* J. Meeus, Astronomical Algorithms, examples 25.a and 28.b: 1992 October 13, 0 h; declination −7.78507° by
 * the low-accuracy method, equation of time 13 min 42.7 s. From memory. Dynamical time was then 59 s ahead of
 * UTC. */
static void
test_meeus (void)
{
  double declination_deg, dial_s;

  fr_sun_where (utc (1992, 10, 13, 0, 0), &declination_deg, &dial_s);
  found_near ("declination of Meeus's example, degrees", declination_deg, -7.78507, 1e-4);
  found_near ("equation of time of Meeus's example, min", dial_s / 60, 13 + 42.7 / 60, 2e-3);
}

static void
check_sky (const char *line, double latitude_deg, guint *unlike)
{
  g_auto (GStrv) cells = g_strsplit (line, " ", 8);
  double longitude_deg = g_ascii_strtod (cells[0], NULL), noon_s = g_ascii_strtod (cells[2], NULL);
  FrDate date = fr_date_from_days (g_ascii_strtoll (cells[1], NULL, 10));
  gboolean crosses = cells[3][0] != '-' && cells[4][0] != '-';
  FrSunDay sun;
  FrSunKind kind
      = fr_sun_day (date, latitude_deg, longitude_deg, (gint)lrint (longitude_deg / 15) * 3600, &sun);

  found_near ("noon, all latitudes, min", (sun.noon_utc - noon_s) / 60, 0, 0.1);
  if (kind == FR_SUN_RISES && crosses)
    {
      double rise_min = (sun.rise_utc - g_ascii_strtod (cells[3], NULL)) / 60,
             set_min = (sun.set_utc - g_ascii_strtod (cells[4], NULL)) / 60;

      found_near (fabs (latitude_deg) <= 50   ? "rise and set to 50°, min"
                  : fabs (latitude_deg) <= 62 ? "rise and set to 62°, min"
                                              : "rise and set beyond, min",
                  MAX (fabs (rise_min), fabs (set_min)), 0,
                  fabs (latitude_deg) <= 50   ? 0.25
                  : fabs (latitude_deg) <= 62 ? 0.5
                                              : 4);
      found_near ("height at rise and set, all latitudes, degrees",
                  MAX (fabs (rise_min) * g_ascii_strtod (cells[6], NULL),
                       fabs (set_min) * g_ascii_strtod (cells[7], NULL)),
                  0, 0.02);
      g_assert_cmpint (sun.day_s, ==, sun.set_utc - sun.rise_utc);
    }
  else if (kind == FR_SUN_RISES || crosses)
    (*unlike)++;
  else
    g_assert_cmpint (kind, ==,
                     g_ascii_strtod (cells[5], NULL) > -0.833 ? FR_SUN_STAYS_UP : FR_SUN_STAYS_DOWN);
}

/* The sun by the theory VSOP87 with nutation and aberration, far finer than ours, by another author: the
 * Debian package python3-ephem, run now. Where it is missing the check has not been made, so it fails. Both
 * hemispheres, both sides of the date line, every 61st day of nine years. */
static void
test_sky (gconstpointer data)
{
  double latitude_deg = GPOINTER_TO_INT (data);
  g_autofree char *script = g_test_build_filename (G_TEST_DIST, "domain", "sky-live.py", NULL);
  g_autofree char *latitude = g_strdup_printf ("%d", GPOINTER_TO_INT (data));
  char *argv[] = { (char *)"/usr/bin/python3",
                   script,
                   latitude,
                   (char *)"16436", /* 2015-01-01 */
                   (char *)"19723", /* 2024-01-01 */
                   (char *)"61",
                   (char *)"-179.5",
                   (char *)"-72.68",
                   (char *)"10.75",
                   (char *)"138.6",
                   NULL };
  g_autofree char *text = NULL;
  g_autofree char *complaint = NULL;
  g_auto (GStrv) lines = NULL;
  g_autoptr (GError) error = NULL;
  int status = -1;
  guint n = 0, unlike = 0;

  if (!g_spawn_sync (NULL, argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &text, &complaint, &status, &error))
    g_error ("%s", error->message);
  if (status != 0)
    g_error ("python3-ephem did not answer: %s", complaint);
  lines = g_strsplit (text, "\n", -1);
  for (; lines[n] != NULL && lines[n][0] != '\0'; n++)
    check_sky (lines[n], latitude_deg, &unlike);
  g_assert_cmpuint (n, ==, 4 * 54);
  /* Beyond 62° some days graze the horizon within the theory's hundredth of a degree. */
  found_near ("days that one of the two calls polar", unlike, 0, fabs (latitude_deg) <= 62 ? 0 : 2);
}

/* Closed form: with the sun on the equator's plane the day is 12 h and twice the time it takes to climb
 * 0.833°. */
static void
test_day_length (void)
{
  FrSunDay north, south, sun;

  for (gint latitude = -60; latitude <= 60; latitude += 15)
    {
      double declination_deg, dial_s, wanted;

      g_assert_cmpint (fr_sun_day ((FrDate){ 2025, 3, 20 }, latitude, 0, 0, &sun), ==, FR_SUN_RISES);
      fr_sun_where (sun.noon_utc, &declination_deg, &dial_s);
      wanted = 2 / 15.0 * 180 / G_PI
               * acos (cos (90.833 * G_PI / 180) / cos (latitude * G_PI / 180)
                           / cos (declination_deg * G_PI / 180)
                       - tan (latitude * G_PI / 180) * tan (declination_deg * G_PI / 180));
      found_near ("length of the equinox's day, closed form, min", sun.day_s / 60.0, wanted * 60, 0.2);
    }
  /* The seasons are turned round. */
  fr_sun_day ((FrDate){ 2025, 6, 21 }, 45, 0, 0, &north);
  fr_sun_day ((FrDate){ 2025, 12, 21 }, -45, 0, 0, &south);
  found_near ("midsummer of both hemispheres, min", north.day_s / 60.0, south.day_s / 60.0, 1);
}

static void
test_no_answer (void)
{
  FrSunDay sun;

  g_assert_cmpint (fr_sun_day ((FrDate){ 2025, 6, 21 }, 70, 20, 3600, &sun), ==, FR_SUN_STAYS_UP);
  g_assert_cmpint (fr_sun_day ((FrDate){ 2025, 12, 21 }, 70, 20, 3600, &sun), ==, FR_SUN_STAYS_DOWN);
  g_assert_cmpint (fr_sun_day ((FrDate){ 2025, 6, 21 }, -90, 0, 0, &sun), ==, FR_SUN_STAYS_DOWN);
  g_assert_cmpint (fr_sun_day ((FrDate){ 2025, 12, 21 }, -90, 0, 0, &sun), ==, FR_SUN_STAYS_UP);
  g_assert_cmpint (fr_sun_day ((FrDate){ 2025, 6, 21 }, NAN, 0, 0, &sun), ==, FR_SUN_NOWHERE);
  g_assert_cmpint (fr_sun_day ((FrDate){ 2025, 6, 21 }, 45, NAN, 0, &sun), ==, FR_SUN_NOWHERE);
  g_assert_cmpint (fr_sun_day ((FrDate){ 2025, 6, 21 }, 90.1, 0, 0, &sun), ==, FR_SUN_NOWHERE);
  g_assert_cmpint (fr_sun_day ((FrDate){ 0 }, 45, 0, 0, &sun), ==, FR_SUN_NOWHERE);
  /* Apia keeps the date of the line's other side: noon of 1 March there is that of 28 February by longitude.
   */
  fr_sun_day ((FrDate){ 2025, 3, 1 }, -13.8, -171.77, 13 * 3600, &sun);
  g_assert_cmpint (ABS (sun.noon_utc - utc (2025, 2, 28, 23, 40)), <, 20 * 60);
}

int
main (int argc, char *argv[])
{
  static const gint latitudes[] = { -90, -66, -60, -45, -20, 0, 30, 44, 50, 62, 66, 70, 78 };

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sun/meeus", test_meeus);
  for (guint i = 0; i < G_N_ELEMENTS (latitudes); i++)
    {
      g_autofree char *path = g_strdup_printf ("/sun/sky/%d", latitudes[i]);

      g_test_add_data_func (path, GINT_TO_POINTER (latitudes[i]), test_sky);
    }
  g_test_add_func ("/sun/day-length", test_day_length);
  g_test_add_func ("/sun/no-answer", test_no_answer);
  return found_run ();
}
