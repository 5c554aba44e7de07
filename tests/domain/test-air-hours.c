/* Hours of the air from days and readings: against another author's count of thaw hours, an open hourly
 * series, and by hand. */
#include "domain/maths/air-hours.h"

#include "found.h"
#include "table.h"

#include <gsl/gsl_interp.h>
#include <string.h>

#define EASTERN_S (-5 * 3600)

static void
add_day (FrWeather *weather, const char *date, double low_c, double high_c)
{
  FrDate parsed;
  FrWeatherDay day;

  g_assert_true (fr_date_parse (date, &parsed));
  day = fr_weather_day (parsed);
  day.low_c = low_c;
  day.high_c = high_c;
  g_array_append_val (weather->days, day);
}

static void
add_hour (FrWeather *weather, gint64 utc_s, gint span_s, double temp_c, gboolean is_forecast)
{
  FrWeatherHour hour = { utc_s, span_s, temp_c, is_forecast };

  g_array_append_val (weather->hours, hour);
}

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

/* Six-hourly readings against the Steffen interpolation of the GNU Scientific Library. */
static void
test_between (void)
{
  static const double temps_c[] = { -4, -7, 1, 6, 5, 5, 9, 2, -11, -11, -3, -2.5, -8 };
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_MET_COMPACT);
  g_autoptr (FrAirHours) air = NULL;
  double x[G_N_ELEMENTS (temps_c)];
  gsl_interp *gsl = gsl_interp_alloc (gsl_interp_steffen, G_N_ELEMENTS (temps_c));

  for (guint i = 0; i < G_N_ELEMENTS (temps_c); i++)
    {
      x[i] = 6.0 * i;
      add_hour (weather, 1740960000 + (gint64)i * 21600, 21600, temps_c[i], i >= 5);
    }
  gsl_interp_init (gsl, x, temps_c, G_N_ELEMENTS (temps_c));
  air = fr_air_hours_new (weather, FR_COURSE_SUN, 0);
  g_assert_cmpuint (air->n_hours, ==, 96);
  for (guint h = 0; h <= 72; h++)
    {
      found_near ("between six-hourly readings, Steffen by GSL, K", air->temp_c[h],
                  gsl_interp_eval (gsl, x, temps_c, h, NULL), 1e-12);
      g_assert_cmpint (air->from[h], ==, h % 6 == 0 ? FR_AIR_READ : FR_AIR_BETWEEN);
      g_assert_cmpint (air->is_forecast[h], ==, h > 24);
    }
  g_assert_true (isnan (air->temp_c[73]));
  gsl_interp_free (gsl);
}

/* The day's low and high are put in where six-hourly readings leave them out, and not where they have them.
 */
static void
test_extremes_between (void)
{
  static const double temps_c[] = { -4, -6, 5, 3, -2, -3, 4, 6, 0 };
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrAirHours) air = NULL;
  double low[2] = { INFINITY, INFINITY }, high[2] = { -INFINITY, -INFINITY };

  for (guint i = 0; i < G_N_ELEMENTS (temps_c); i++)
    add_hour (weather, 1740960000 + (gint64)i * 21600, 21600, temps_c[i], FALSE);
  add_day (weather, "2025-03-03", -6, 8);   /* the low was read at 06:00; the high comes at 15:00 */
  add_day (weather, "2025-03-04", -3.1, 7); /* the low is as good as read; the high was before midnight: 15:00
                                               is between 4 and 6 and stands out */
  air = fr_air_hours_new (weather, FR_COURSE_COSINE, 0);
  for (guint h = 0; h < 48; h++)
    {
      low[h / 24] = MIN (low[h / 24], air->temp_c[h]);
      high[h / 24] = MAX (high[h / 24], air->temp_c[h]);
    }
  g_assert_cmpfloat (low[0], ==, -6);
  g_assert_cmpfloat (high[0], ==, 8);
  g_assert_cmpfloat (air->temp_c[15], ==, 8);
  g_assert_cmpint (air->from[15], ==, FR_AIR_BETWEEN);
  g_assert_cmpfloat (low[1], ==, -3);
  g_assert_cmpfloat (high[1], ==, 7);
}

/* Where readings end, what days tell meets them and comes back to itself in six hours, without a step. */
static void
test_seam (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrWeather) days = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrAirHours) air = NULL;
  g_autoptr (FrAirHours) plain = NULL;

  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *date = g_strdup_printf ("2025-03-%02u", i + 3);

      add_day (weather, date, -8, 4);
      add_day (days, date, -8, 4);
    }
  for (guint h = 12; h <= 42; h++)
    add_hour (weather, 1740960000 + (gint64)h * 3600, 3600, 6, FALSE);
  air = fr_air_hours_new (weather, FR_COURSE_COSINE, 0);
  plain = fr_air_hours_new (days, FR_COURSE_COSINE, 0);
  for (guint h = 0; h < 96; h++)
    {
      double away = h < 12 ? 12 - h : h > 42 ? h - 42.0 : 0;
      double shift = h < 12 ? 6 - plain->temp_c[12] : 6 - plain->temp_c[42];

      found_near ("days beside readings by hand, K", air->temp_c[h],
                  away == 0 ? 6 : plain->temp_c[h] + shift * MAX (0, 1 - away / 6), 1e-12);
    }
}

/* Gaps of hours without days: a day at most is bridged, by the days around it. */
static void
test_bridged_hours (void)
{
  for (guint missing = 23; missing <= 25; missing++)
    {
      g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
      g_autoptr (FrAirHours) air = NULL;

      /* A day's course on a steady climb: the mean of the days around is the truth. */
      for (guint h = 0; h < 96; h++)
        if (h < 30 || h >= 30 + missing)
          add_hour (weather, 1740960000 + (gint64)h * 3600, 3600, h / 12.0 + 5 * cos (G_PI * h / 12), FALSE);
      air = fr_air_hours_new (weather, FR_COURSE_SUN, 0);
      for (guint h = 30; h < 30 + missing; h++)
        if (missing <= 24)
          {
            found_near ("a gap of hours bridged, K", air->temp_c[h], h / 12.0 + 5 * cos (G_PI * h / 12),
                        1e-9);
            g_assert_cmpint (air->from[h], ==, FR_AIR_BRIDGED);
          }
        else
          g_assert_true (isnan (air->temp_c[h]));
    }
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

static void
add_normals (FrWeather *weather, const char *place, double *hours_c)
{
  g_autoptr (GPtrArray) rows = test_table_load ("hourly-normals.csv");

  for (guint i = 0; i < rows->len; i++)
    {
      const TestRow *row = g_ptr_array_index (rows, i);
      double low = INFINITY, high = -INFINITY;

      if (!g_str_equal (test_row_text (row, "place"), place))
        continue;
      for (guint h = 0; h < 24; h++)
        {
          g_autofree char *column = g_strdup_printf ("h%02u_f", h);
          double temp_c = (test_row_number (row, column) - 32) / 1.8;

          hours_c[weather->days->len * 24 + h] = temp_c;
          low = MIN (low, temp_c);
          high = MAX (high, temp_c);
        }
      add_day (weather, test_row_text (row, "date"), low, high);
    }
}

static double
mean_error_c (const FrAirHours *air, const double *hours_c, guint from, guint to)
{
  double sum = 0;

  for (guint h = from; h < to; h++)
    sum += fabs (air->temp_c[h] - hours_c[h]);
  return sum / (to - from);
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
  FrDayCourse courses[100];
  double low[100], high[100];

  add_normals (weather, "seattle", hours_c);
  weather->latitude_deg = 47.45;
  air = fr_air_hours_new (weather, FR_COURSE_SUN, -8 * 3600);
  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);

      low[i] = day->low_c;
      high[i] = day->high_c;
      fr_day_course (FR_COURSE_SUN, day->date, 47.45, NAN, -8 * 3600, &courses[i]);
    }
  fr_day_course_row (courses, low, high, weather->days->len, hours_c);
  for (guint h = 0; h < air->n_hours; h++)
    found_near ("a row of days at once against the grid, K", hours_c[h], air->temp_c[h], 1e-12);
}

/* The same series read every six hours of UTC, as forecasts beyond two days come, without and with its lows
 * and highs. */
static void
test_six_hourly (void)
{
  for (guint with_days = 0; with_days < 2; with_days++)
    {
      g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_MET_COMPACT);
      g_autofree double *hours_c = g_new (double, 200 * 24);
      g_autoptr (FrAirHours) air = NULL;
      FrDate first;
      guint n;

      add_normals (weather, "san-francisco", hours_c);
      first = g_array_index (weather->days, FrWeatherDay, 0).date;
      n = weather->days->len * 24;
      for (guint h = 4; h < n; h += 6)
        add_hour (weather, (fr_date_to_days (first) * 24 + h + 8) * 3600, 21600, hours_c[h], TRUE);
      if (!with_days)
        g_array_set_size (weather->days, 0);
      air = fr_air_hours_new (weather, FR_COURSE_SUN, -8 * 3600);
      found_near (with_days ? "San Francisco's normals, every six hours and extremes, mean error, K"
                            : "San Francisco's normals, every six hours, mean error, K",
                  mean_error_c (air, hours_c, 24, n - 24), 0, with_days ? 0.35 : 0.7);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/air-hours/thaw-hours", test_thaw_hours);
  g_test_add_func ("/air-hours/cosine-by-hand", test_cosine_by_hand);
  g_test_add_func ("/air-hours/shares", test_shares);
  g_test_add_func ("/air-hours/sun-by-hand", test_sun_by_hand);
  g_test_add_func ("/air-hours/between", test_between);
  g_test_add_func ("/air-hours/extremes-between", test_extremes_between);
  g_test_add_func ("/air-hours/seam", test_seam);
  g_test_add_func ("/air-hours/bridged-hours", test_bridged_hours);
  g_test_add_func ("/air-hours/missing", test_missing);
  g_test_add_func ("/air-hours/readings", test_readings);
  g_test_add_func ("/air-hours/normals", test_normals);
  g_test_add_func ("/air-hours/row", test_row);
  g_test_add_func ("/air-hours/six-hourly", test_six_hourly);
  return found_run ();
}
