/* Days out of hours, against a plain walk over the readings of each day, and by hand where the clocks change. */
#include "domain/plan/weather-days.h"

#include "zones.h"

#include <math.h>

static void
add_hour (FrWeather *weather, gint64 utc_s, double temp_c, gboolean is_forecast)
{
  FrWeatherHour hour = { utc_s, 3600, temp_c, is_forecast };

  g_array_append_val (weather->hours, hour);
}

/* Random readings with holes: a day is there when no three hours of it are silent, and has the least and the greatest. */
static void
test_random (void)
{
  GRand *rand = g_rand_new_with_seed (61);

  for (guint round = 0; round < 200; round++)
    {
      g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
      gint64 first_day = 20000, step_s = 60 * g_rand_int_range (rand, 5, 150);
      guint n = 0, filled;

      for (gint64 utc_s = first_day * 86400 + g_rand_int_range (rand, 0, 20000); utc_s < (first_day + 12) * 86400; utc_s += step_s)
        if (g_rand_int_range (rand, 0, 20) > 0)
          add_hour (weather, utc_s, g_rand_int_range (rand, 0, 30) == 0 ? NAN : g_rand_double_range (rand, -20, 15),
                    g_rand_int_range (rand, 0, 40) == 0);
      filled = fr_weather_fill_days (weather, NULL);
      for (gint64 day = first_day; day < first_day + 12; day++)
        {
          const FrWeatherDay *made = fr_weather_find_day (weather, fr_date_from_days (day));
          double low_c = NAN, high_c = NAN;
          gint64 silent_s = 0;
          gint64 since = day * 86400;

          for (guint i = 0; i < weather->hours->len; i++)
            {
              const FrWeatherHour *hour = &g_array_index (weather->hours, FrWeatherHour, i);

              if (hour->is_forecast || isnan (hour->temp_c) || hour->utc_s < day * 86400 || hour->utc_s >= (day + 1) * 86400)
                continue;
              low_c = fmin (low_c, hour->temp_c); /* of a NAN and a number the number */
              high_c = fmax (high_c, hour->temp_c);
              silent_s = MAX (silent_s, hour->utc_s - since);
              since = hour->utc_s;
            }
          silent_s = MAX (silent_s, (day + 1) * 86400 - since);
          g_assert_cmpint (made != NULL, ==, silent_s <= 3 * 3600);
          if (made == NULL)
            continue;
          n++;
          g_assert_cmpfloat (made->low_c, ==, low_c);
          g_assert_cmpfloat (made->high_c, ==, high_c);
          g_assert_cmpint (made->low_mark, ==, silent_s > 900 ? FR_WEATHER_ESTIMATED : FR_WEATHER_PLAIN);
          g_assert_cmpint (made->high_mark, ==, made->low_mark);
          g_assert_false (made->is_forecast);
        }
      g_assert_cmpuint (filled, ==, n);
      g_assert_cmpuint (weather->days->len, ==, n);
    }
  g_rand_free (rand);
}

/* What the series has stays. */
static void
test_kept (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  FrWeatherDay days[2] = { fr_weather_day (fr_date_from_days (20000)), fr_weather_day (fr_date_from_days (20001)) };

  days[0].low_c = -7;
  days[1].rain_m = 0.004;
  g_array_append_vals (weather->days, days, 2);
  for (gint64 utc_s = 20000 * 86400; utc_s < 20003 * 86400; utc_s += 3600)
    add_hour (weather, utc_s, utc_s / 3600 % 24, FALSE);
  g_assert_cmpuint (fr_weather_fill_days (weather, NULL), ==, 2);
  g_assert_cmpuint (weather->days->len, ==, 3);
  g_assert_cmpfloat (g_array_index (weather->days, FrWeatherDay, 0).low_c, ==, -7);
  g_assert_true (isnan (g_array_index (weather->days, FrWeatherDay, 0).high_c));
  g_assert_cmpfloat (g_array_index (weather->days, FrWeatherDay, 1).low_c, ==, 0);
  g_assert_cmpfloat (g_array_index (weather->days, FrWeatherDay, 1).high_c, ==, 23);
  g_assert_cmpfloat (g_array_index (weather->days, FrWeatherDay, 1).rain_m, ==, 0.004);
}

/* Paris, 30 March 2025: the day begins at 23:00 UTC of the 29th and ends at 22:00 UTC, 23 hours later (zones.h). */
static void
test_clock_change (void)
{
  const gint64 midnight_utc = 1743289200; /* 2025-03-29T23:00:00Z */
  g_autoptr (FrZoneTable) zone = fr_zone_table_new ("Europe/Paris", paris_spans, G_N_ELEMENTS (paris_spans));
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);

  for (gint i = -24; i < 60; i++)
    add_hour (weather, midnight_utc + i * 3600, i, FALSE);
  g_assert_cmpuint (fr_weather_fill_days (weather, zone), ==, 3);
  g_assert_cmpint (fr_date_compare (g_array_index (weather->days, FrWeatherDay, 1).date, (FrDate){ 2025, 3, 30 }), ==, 0);
  g_assert_cmpfloat (g_array_index (weather->days, FrWeatherDay, 0).high_c, ==, -1);
  g_assert_cmpfloat (g_array_index (weather->days, FrWeatherDay, 1).low_c, ==, 0);
  g_assert_cmpfloat (g_array_index (weather->days, FrWeatherDay, 1).high_c, ==, 22);
  g_assert_cmpfloat (g_array_index (weather->days, FrWeatherDay, 2).low_c, ==, 23);
  g_assert_cmpfloat (g_array_index (weather->days, FrWeatherDay, 2).high_c, ==, 46);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-days/random", test_random);
  g_test_add_func ("/weather-days/kept", test_kept);
  g_test_add_func ("/weather-days/clock-change", test_clock_change);
  return g_test_run ();
}
