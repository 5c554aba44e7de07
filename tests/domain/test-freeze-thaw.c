/* Crossings of 0 °C by hand and against a count apart; degree-days against a hand table and a numerical
 * integral. */
#include "domain/maths/freeze-thaw.h"

#include "found.h"

typedef struct
{
  double low_c, high_c, base_c, mean_k, sine_k;
} Case;

/* By hand from the definition of the mean, and for the sine from Baskerville and Emin's integral with a table
 * of arcs: 2 to 12 over 5: arc of −0.4 is −0.41152, its cosine 0.91652: (2 × 1.98231 + 5 × 0.91652) / π; −4
 * to 8: arc of 0.5, 0.52360, and 0.86603; −1 to 7: arc of −0.75, −0.84806, and 0.66144. */
static void
test_hand_table (void)
{
  static const Case cases[] = {
    { 6, 14, 5, 5, 5 },                             /* wholly above: both are the mean's excess */
    { -9, 4, 5, 0, 0 },                             /* wholly below */
    { 2, 12, 5, 2, 2.72066 },                       /* the night is under it */
    { 0, 10, 5, 0, 1.59155 },                       /* the base in the middle: reach / π */
    { -4, 8, 5, 0, 0.65399 },                       /* the mean is under it and the afternoon is not */
    { 5, 5, 5, 0, 0 },          { 5, 15, 5, 5, 5 }, /* the low on the base */
    { -10, 10, 0, 0, 3.18310 }, { -1, 7, 0, 3, 3.15201 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const Case *c = &cases[i];

      found_near ("degree-days by the mean, hand table, K d",
                  fr_degree_days_mean_k (c->low_c, c->high_c, c->base_c), c->mean_k, 1e-12);
      found_near ("degree-days by the sine, hand table, K d",
                  fr_degree_days_sine_k (c->low_c, c->high_c, c->base_c), c->sine_k, 1e-4);
    }
  g_assert_true (isnan (fr_degree_days_mean_k (NAN, 5, 0)) && isnan (fr_degree_days_mean_k (5, 4, 0))
                 && isnan (fr_degree_days_mean_k (4, 5, NAN)));
  g_assert_true (isnan (fr_degree_days_sine_k (4, NAN, 0)) && isnan (fr_degree_days_sine_k (5, 4, 0))
                 && isnan (fr_degree_days_sine_k (4, 5, NAN)));
}

/* The day's sine by 100,000 strips. */
static void
test_integral (void)
{
  const guint n = 100000;

  for (gint low = -12; low <= 8; low += 4)
    for (gint range = 1; range <= 21; range += 5)
      for (gint base = -3; base <= 6; base += 3)
        {
          double sum = 0;

          for (guint i = 0; i < n; i++)
            sum += MAX (0, low + range / 2.0 * (1 + sin (2 * G_PI * (i + 0.5) / n)) - base) / n;
          found_near ("degree-days by the sine, 100,000 strips, K d",
                      fr_degree_days_sine_k (low, low + range, base), sum, 1e-6);
        }
}

static FrAirHours *
air_of (const double *temps_c, guint n)
{
  FrAirHours *air = g_new0 (FrAirHours, 1);

  air->first = (FrDate){ 2025, 3, 3 };
  air->n_hours = n;
  air->temp_c = g_memdup2 (temps_c, n * sizeof (double));
  air->is_forecast = g_new0 (guint8, n);
  air->from = g_new0 (guint8, n);
  return air;
}

static void
check_crossings (const double *temps_c, guint n, double threshold_c, double margin_k, const char *wanted)
{
  g_autoptr (FrAirHours) air = air_of (temps_c, n);
  g_autoptr (GArray) crossings = fr_air_crossings (air, threshold_c, margin_k);
  g_autoptr (GString) got = g_string_new (NULL);

  for (guint i = 0; i < crossings->len; i++)
    {
      const FrAirCrossing *crossing = &g_array_index (crossings, FrAirCrossing, i);
      gint minute = (gint)((crossing->utc_s - fr_air_hours_utc (air, 0)) / 60);

      g_string_append_printf (got, "%s%c%d:%02d", i > 0 ? " " : "", crossing->falls ? '-' : '+', minute / 60,
                              minute % 60);
    }
  g_assert_cmpstr (got->str, ==, wanted);
}

static void
test_crossings (void)
{
  const double plain[] = { 3, 1, -1, -4, -2, 2, 6 };
  const double dither[] = { 2, 0.4, -0.4, 0.2, -0.3, -2, -0.2, 0.3, -0.1, 0.4, 3 };
  const double holes[] = { 2, -2, NAN, 3, -1, NAN, NAN, -3, 1 };
  const double touch[] = { 2, 0, 2, 0, -2, 0, -2, 0, 2 };

  check_crossings (plain, 7, 0, 0, "-1:30 +4:30");
  check_crossings (plain, 7, -3, 0, "-2:40 +3:30");
  check_crossings (plain, 7, 20, 0, "");
  /* About 0 within half a degree: one freeze and one thaw, where the air last went through before it counted.
   */
  check_crossings (dither, 11, 0, 0.5, "-3:24 +8:12");
  check_crossings (dither, 11, 0, 0, "-1:30 +2:40 -3:24 +6:24 -7:45 +8:12");
  check_crossings (holes, 9, 0, 0, "-0:30 -3:45 +7:45");
  check_crossings (touch, 9, 0, 0, "-3:00 +7:00");
  check_crossings (plain, 0, 0, 0, "");
}

/* Half-cosines from −5 to 5 go through 0 in the middle of morning and night: 10:30 and 22:30 local. */
static void
test_days (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrAirHours) air = NULL;
  g_autoptr (GArray) crossings = NULL;

  for (gint i = 0; i < 40; i++)
    {
      FrWeatherDay day = fr_weather_day (fr_date_add_days ((FrDate){ 2025, 2, 20 }, i));

      day.low_c = -5;
      day.high_c = 5;
      g_array_append_val (weather->days, day);
    }
  air = fr_air_hours_new (weather, FR_COURSE_COSINE, 34200);
  crossings = fr_air_crossings (air, 0, 0);
  g_assert_cmpuint (crossings->len, ==, 2 * 40);
  for (guint i = 0; i < crossings->len; i++)
    {
      const FrAirCrossing *crossing = &g_array_index (crossings, FrAirCrossing, i);

      found_near ("half-cosines through 0 °C, min", ((double)((crossing->utc_s + 34200) % 86400) / 60),
                  crossing->falls ? 22.5 * 60 : 10.5 * 60, 0.02);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/freeze-thaw/hand-table", test_hand_table);
  g_test_add_func ("/freeze-thaw/integral", test_integral);
  g_test_add_func ("/freeze-thaw/crossings", test_crossings);
  g_test_add_func ("/freeze-thaw/days", test_days);
  return found_run ();
}
