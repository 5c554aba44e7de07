/* Hours of the air from days: against another author's count of thaw hours, an open hourly series, and by
 * hand. */
#include "air-cases.h"

#include "found.h"

#include <string.h>

#define EASTERN_S (-5 * 3600)

static guint
thaw_hours (const FrAirHours *air, const char *date)
{
  FrDate parsed;
  gint64 at;
  guint n = 0;

  g_assert_true (fr_date_parse (date, &parsed));
  at = fr_air_hours_midnight (air, parsed);
  g_assert_cmpint (at, >=, 0);
  g_assert_cmpint (at + 24, <=, air->n_hours);
  for (guint h = 0; h < 24; h++)
    n += air->temp_c[at + h] > 1;
  return n;
}

/* Every date of two seasons, counted by a program that is not ours. */
static void
test_thaw_hours (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (GPtrArray) days = test_table_load ("sap-site-days.csv");
  g_autoptr (GPtrArray) wanted = test_table_load ("sap-reference-form.csv");
  g_autoptr (FrAirHours) air = NULL;

  for (guint i = 0; i < days->len; i++)
    {
      const TestRow *row = g_ptr_array_index (days, i);

      add_day (weather, test_row_text (row, "date"), test_row_number (row, "tmin_c"),
               test_row_number (row, "tmax_c"));
    }
  air = fr_air_hours_new (weather, FR_COURSE_COSINE, EASTERN_S);
  for (guint i = 0; i < wanted->len; i++)
    {
      const TestRow *row = g_ptr_array_index (wanted, i);

      found_near ("thaw hours of a date, h", thaw_hours (air, test_row_text (row, "date")),
                  test_row_number (row, "thaw_hours_gt_1c"), 0);
    }
  g_assert_cmpuint (wanted->len, ==, 96);
}

/* Half-cosines by hand: at 06:00 and 15:00 the extremes; at 10:30 and 22:30 the middle between, which the
 * hours on both sides of it have as their mean. */
static void
test_cosine_by_hand (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrAirHours) air = NULL;

  add_day (weather, "2025-03-03", -8, 4);
  add_day (weather, "2025-03-04", -2, 10);
  air = fr_air_hours_new (weather, FR_COURSE_COSINE, EASTERN_S);
  g_assert_cmpuint (air->n_hours, ==, 48);
  found_near ("half-cosines by hand, K", air->temp_c[6], -8, 1e-12);
  found_near ("half-cosines by hand, K", air->temp_c[15], 4, 1e-12);
  found_near ("half-cosines by hand, K", (air->temp_c[10] + air->temp_c[11]) / 2, -2, 1e-12);
  found_near ("half-cosines by hand, K", (air->temp_c[22] + air->temp_c[23]) / 2, 1, 1e-12);
  found_near ("half-cosines by hand, K", air->temp_c[24 + 6], -2, 1e-12);
  found_near ("half-cosines by hand, K", air->temp_c[9], -8 + 12 * 0.25, 1e-12);
  /* Before the first low as if the day before had had the same high; after the last high the same low. */
  found_near ("half-cosines by hand, K", air->temp_c[1], 4 - 12 * 0.75, 1e-12);
  found_near ("half-cosines by hand, K", air->temp_c[24 + 20], 10 - 12 * 0.25, 1e-12);
}

/* Each course's hours are weighted means: they stay between the extremes whatever those are. */
static void
test_shares (void)
{
  static const double latitudes[] = { -80, -65, -43, 0, 20, 44.5, 60, 64, 66, 70, 90, NAN };

  for (FrCourseKind kind = 0; kind < FR_N_COURSES; kind++)
    for (guint l = 0; l < G_N_ELEMENTS (latitudes); l++)
      for (gint month = 1; month <= 12; month++)
        {
          FrDayCourse course;

          fr_day_course (kind, (FrDate){ 2026, month, 21 }, latitudes[l], NAN, 34200, &course);
          for (guint h = 0; h < FR_DAY_HOURS; h++)
            {
              double sum = 0;

              for (guint i = 0; i < FR_N_EXTREMES; i++)
                {
                  g_assert_cmpfloat (course.share_ratio[h][i], >=, 0);
                  sum += course.share_ratio[h][i];
                }
              found_near ("shares of the extremes in an hour, sum", sum, 1, 1e-12);
            }
        }
}

/* Parton and Logan's equations by hand for the equator at the equinox, where the day lasts 12 h 6.7 min from
 * 6:04 to 18:11 by the sun's clock, 7.4 min behind ours on 20 March: low at 5.897 h, high 1.86 − 0.17 h after
 * noon. */
static void
test_sun_by_hand (void)
{
  const double extremes[FR_N_EXTREMES] = { 0, 10, -2, 8, 1 };
  const double rise = 6 + 4 / 60.0, set = rise + 12 + 6.7 / 60, low = rise - 0.17,
               span = set - rise + 2 * 1.86;
  FrDayCourse course, south, far;
  double sunset, fall, rest = exp (-2.2 * (24 + low - set) / (24 + rise - set));

  g_assert_cmpint (fr_day_course (FR_COURSE_SUN, (FrDate){ 2025, 3, 20 }, 0, 0, 0, &course), ==,
                   FR_COURSE_SUN);
  for (guint h = 7; h <= 18; h++)
    found_near ("Parton and Logan by hand, by day, K", fr_day_course_c (&course, h, extremes),
                -2 + 10 * sin (G_PI * (h - low) / span), 0.02);
  sunset = -2 + 10 * sin (G_PI * (set - low) / span);
  for (guint h = 19; h <= 23; h++)
    {
      fall = exp (-2.2 * (h - set) / (24 + rise - set));
      found_near ("Parton and Logan by hand, by night, K", fr_day_course_c (&course, h, extremes),
                  1 + (sunset - 1) * (fall - rest) / (1 - rest), 0.02);
    }
  sunset = 0 + 10 * sin (G_PI * (set - low) / span);
  for (guint h = 0; h <= 5; h++)
    {
      fall = exp (-2.2 * (24 + h - set) / (24 + rise - set));
      found_near ("Parton and Logan by hand, by night, K", fr_day_course_c (&course, h, extremes),
                  -2 + (sunset + 2) * (fall - rest) / (1 - rest), 0.02);
    }
  /* Half a year later the south has the north's day, but for the sun's clock. */
  fr_day_course (FR_COURSE_SUN, (FrDate){ 2025, 6, 21 }, 44, 0, 0, &course);
  fr_day_course (FR_COURSE_SUN, (FrDate){ 2025, 12, 21 }, -44, 0, 0, &south);
  for (guint h = 0; h < FR_DAY_HOURS; h++)
    found_near ("midsummer of both hemispheres, K", fr_day_course_c (&south, h, extremes),
                fr_day_course_c (&course, h, extremes), 0.25);
  /* Where there is no answer half-cosines stand in, and say so. */
  fr_day_course (FR_COURSE_COSINE, (FrDate){ 2025, 12, 21 }, NAN, NAN, 0, &course);
  g_assert_cmpint (fr_day_course (FR_COURSE_SUN, (FrDate){ 2025, 12, 21 }, 70, 25, 7200, &far), ==,
                   FR_COURSE_COSINE);
  g_assert_true (memcmp (&course, &far, sizeof far) == 0);
  g_assert_cmpint (fr_day_course (FR_COURSE_SUN, (FrDate){ 2025, 12, 21 }, NAN, NAN, 0, &far), ==,
                   FR_COURSE_COSINE);
  /* A clock 15 hours off: its lows would belong to other dates. */
  g_assert_cmpint (fr_day_course (FR_COURSE_SUN, (FrDate){ 2025, 12, 21 }, 44, -72, 10 * 3600, &far), ==,
                   FR_COURSE_COSINE);
}

static void
test_missing (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrWeather) empty = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrAirHours) air = NULL;
  g_autoptr (FrAirHours) none = fr_air_hours_new (empty, FR_COURSE_COSINE, 0);

  g_assert_cmpuint (none->n_hours, ==, 0);
  add_day (weather, "2025-03-01", NAN, NAN); /* before anything is known: not in the grid */
  add_day (weather, "2025-03-03", -8, 4);
  add_day (weather, "2025-03-05", -4, 8);  /* the 4th is bridged: -6, 6 */
  add_day (weather, "2025-03-08", -3, 5);  /* the 6th and 7th are not */
  add_day (weather, "2025-03-09", 7, 2);   /* upside down: unknown */
  add_day (weather, "2025-03-10", NAN, 9); /* its low and its high alone */
  add_day (weather, "2025-03-11", 1, NAN);
  air = fr_air_hours_new (weather, FR_COURSE_COSINE, EASTERN_S);
  g_assert_cmpint (fr_date_compare (air->first, (FrDate){ 2025, 3, 3 }), ==, 0);
  g_assert_cmpuint (air->n_hours, ==, 9 * 24);
  found_near ("a bridged day by hand, K", air->temp_c[24 + 6], -6, 1e-12);
  found_near ("a bridged day by hand, K", air->temp_c[24 + 15], 6, 1e-12);
  g_assert_cmpint (air->from[24 + 12], ==, FR_AIR_BRIDGED);
  g_assert_cmpint (air->from[12], ==, FR_AIR_DAY);
  g_assert_cmpint (air->from[20], ==, FR_AIR_BRIDGED); /* falls to the bridged low */
  for (guint h = 3 * 24; h < 5 * 24; h++)
    {
      g_assert_true (isnan (air->temp_c[h]));
      g_assert_cmpint (air->from[h], ==, FR_AIR_UNKNOWN);
    }
  g_assert_false (isnan (air->temp_c[5 * 24 + 23]));
  /* The low of the 9th is the mean of the 8th's and the 10th's, and the 10th has none. */
  g_assert_true (isnan (air->temp_c[6 * 24 + 6]));
  /* From the 10th's high down to the 11th's low, and no further. */
  g_assert_true (isnan (air->temp_c[7 * 24 + 14]));
  found_near ("half-cosines by hand, K", air->temp_c[7 * 24 + 15], 9, 1e-12);
  found_near ("half-cosines by hand, K", air->temp_c[8 * 24 + 5], 9 - 8 * (1 - cos (G_PI * 14 / 15)) / 2,
              1e-12);
  g_assert_true (isnan (air->temp_c[8 * 24 + 7]));
}

/* A reading holds at its instant, on the standard clock of the place, on both sides of the date line and on
 * clocks half an hour off. */
static void
test_readings (void)
{
  static const gint offsets[] = { EASTERN_S, 13 * 3600, -11 * 3600, 19800, 0 };

  for (guint i = 0; i < G_N_ELEMENTS (offsets); i++)
    {
      g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
      g_autoptr (FrAirHours) air = NULL;
      /* 2025-03-03 09:00 on that clock; days since 1970 by hand: 20,150 */
      gint64 nine = 20150 * G_GINT64_CONSTANT (86400) + 9 * 3600 - offsets[i];

      add_day (weather, "2025-03-03", -8, 4);
      add_hour (weather, nine, 3600, 1.5, TRUE);
      add_hour (weather, nine + 3600, 3600, NAN, TRUE);
      air = fr_air_hours_new (weather, FR_COURSE_COSINE, offsets[i]);
      g_assert_cmpuint (air->n_hours, ==, 24);
      g_assert_cmpint (fr_air_hours_at (air, nine), ==, 9);
      g_assert_cmpint (fr_air_hours_at (air, nine + 3599), ==, 9);
      g_assert_cmpint (fr_air_hours_at (air, nine - 10 * 3600), ==, -1);
      g_assert_cmpint (fr_air_hours_utc (air, 9), ==, nine);
      g_assert_cmpfloat (air->temp_c[9], ==, 1.5);
      g_assert_cmpint (air->from[9], ==, FR_AIR_READ);
      g_assert_true (air->is_forecast[9]);
      g_assert_cmpint (air->from[10], ==, FR_AIR_DAY);
      g_assert_false (air->is_forecast[10]);
    }
}

/* NOAA's hourly normals of two places: what each course makes of their lows and highs. */
static void
test_normals (void)
{
  static const struct
  {
    const char *place;
    FrCourseKind kind;
    const char *what;
    double promised;
  } cases[] = {
    { "seattle", FR_COURSE_SUN, "Seattle's normals, by the sun, mean error, K", 0.8 },
    { "san-francisco", FR_COURSE_SUN, "San Francisco's normals, by the sun, mean error, K", 1 },
    { "seattle", FR_COURSE_COSINE, "Seattle's normals, half-cosines, mean error, K", 0.8 },
    { "seattle", FR_COURSE_HABIT, "Seattle's normals, their own habit, mean error, K", 0.3 },
    { "san-francisco", FR_COURSE_COSINE, "San Francisco's normals, half-cosines, mean error, K", 1 },
    { "san-francisco", FR_COURSE_HABIT, "San Francisco's normals, Seattle's habit, mean error, K", 0.6 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
      g_autofree double *hours_c = g_new (double, 200 * 24);
      g_autoptr (FrAirHours) air = NULL;

      add_normals (weather, cases[i].place, hours_c);
      weather->latitude_deg = cases[i].place[1] == 'e' ? 47.45 : 37.62;
      weather->longitude_deg = cases[i].place[1] == 'e' ? -122.31 : -122.38;
      g_assert_cmpuint (weather->days->len, >=, 60);
      air = fr_air_hours_new (weather, cases[i].kind, -8 * 3600);
      found_near (cases[i].what, mean_error_c (air, hours_c, 24, air->n_hours - 24), 0, cases[i].promised);
    }
}

/* A row at once gives the grid's hours. */
static void
test_row (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autofree double *hours_c = g_new (double, 200 * 24);
  g_autoptr (FrAirHours) air = NULL;
  FrDayCourse courses[100], row[100];
  double low[100], high[100];

  add_normals (weather, "seattle", hours_c);
  weather->latitude_deg = 47.45;
  air = fr_air_hours_new (weather, FR_COURSE_SUN, -8 * 3600);
  g_assert_cmpuint (
      fr_day_courses (FR_COURSE_SUN, air->first, weather->days->len, 47.45, NAN, -8 * 3600, row), ==,
      weather->days->len);
  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);

      low[i] = day->low_c;
      high[i] = day->high_c;
      fr_day_course (FR_COURSE_SUN, day->date, 47.45, NAN, -8 * 3600, &courses[i]);
      for (guint h = 0; h < FR_DAY_HOURS; h++)
        for (guint e = 0; e < FR_N_EXTREMES; e++)
          found_near ("courses of dates in a row against one by one", row[i].share_ratio[h][e],
                      courses[i].share_ratio[h][e], 1e-12);
    }
  /* Into the polar night and out of it: the days that touch it have no sun's course either. */
  g_assert_cmpuint (fr_day_courses (FR_COURSE_SUN, (FrDate){ 2025, 10, 20 }, 100, 70, 25, 7200, row), <, 40);
  for (guint i = 0; i < 100; i++)
    {
      fr_day_course (FR_COURSE_SUN, fr_date_add_days ((FrDate){ 2025, 10, 20 }, (gint)i), 70, 25, 7200,
                     &courses[i]);
      for (guint h = 0; h < FR_DAY_HOURS; h++)
        for (guint e = 0; e < FR_N_EXTREMES; e++)
          found_near ("courses of dates in a row against one by one", row[i].share_ratio[h][e],
                      courses[i].share_ratio[h][e], 1e-12);
    }
  fr_day_courses (FR_COURSE_SUN, air->first, weather->days->len, 47.45, NAN, -8 * 3600, courses);
  fr_day_course_row (courses, low, high, weather->days->len, hours_c);
  for (guint h = 0; h < air->n_hours; h++)
    found_near ("a row of days at once against the grid, K", hours_c[h], air->temp_c[h], 1e-12);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/air-hours/thaw-hours", test_thaw_hours);
  g_test_add_func ("/air-hours/cosine-by-hand", test_cosine_by_hand);
  g_test_add_func ("/air-hours/shares", test_shares);
  g_test_add_func ("/air-hours/sun-by-hand", test_sun_by_hand);
  g_test_add_func ("/air-hours/missing", test_missing);
  g_test_add_func ("/air-hours/readings", test_readings);
  g_test_add_func ("/air-hours/normals", test_normals);
  g_test_add_func ("/air-hours/row", test_row);
  return found_run ();
}
