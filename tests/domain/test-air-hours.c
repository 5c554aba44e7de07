/* Hours of the air from days and readings: against another author's count of thaw hours, an open hourly
 * series, and by hand. */
#include "domain/maths/air-hours.h"

#include "found.h"
#include "table.h"

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
  for (FrCourseKind kind = 0; kind < FR_N_COURSES; kind++)
    for (gint month = 1; month <= 12; month++)
      {
        FrDayCourse course;

        fr_day_course (kind, (FrDate){ 2026, month, 21 }, &course);
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
      g_assert_cmpuint (weather->days->len, >=, 60);
      air = fr_air_hours_new (weather, cases[i].kind, -8 * 3600);
      found_near (cases[i].what, mean_error_c (air, hours_c, 24, air->n_hours - 24), 0, cases[i].promised);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/air-hours/thaw-hours", test_thaw_hours);
  g_test_add_func ("/air-hours/cosine-by-hand", test_cosine_by_hand);
  g_test_add_func ("/air-hours/shares", test_shares);
  g_test_add_func ("/air-hours/missing", test_missing);
  g_test_add_func ("/air-hours/readings", test_readings);
  g_test_add_func ("/air-hours/normals", test_normals);
  return found_run ();
}
