/* Hours of the air from readings, alone and beside days: against the GNU Scientific Library, an open hourly
 * series, by hand, and on random series. */
#include "air-cases.h"

#include "domain/maths/chance.h"

#include "found.h"

#include <gsl/gsl_interp.h>

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

/* A forecast that begins in the evening of an observed day leaves that day as it was. */
static void
test_told_beside_seen (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrWeather) days = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrAirHours) air = NULL;
  g_autoptr (FrAirHours) plain = NULL;

  add_day (weather, "2025-03-03", -8, 4);
  add_day (days, "2025-03-03", -8, 4);
  for (guint h = 18; h < 48; h++)
    add_hour (weather, 1740960000 + (gint64)h * 3600, 3600, -3, TRUE);
  air = fr_air_hours_new (weather, FR_COURSE_COSINE, 0);
  plain = fr_air_hours_new (days, FR_COURSE_COSINE, 0);
  for (guint h = 0; h < 48; h++)
    {
      g_assert_true (air->temp_c[h] == (h < 18 ? plain->temp_c[h] : -3));
      g_assert_cmpint (air->is_forecast[h], ==, h >= 18);
    }
}

/* Random series of days, readings and holes: the grid is whole, marks and values agree, nothing passes the
 * warmest and coldest of what was given but where days are shifted to readings, and readings stand as read.
 */
static void
test_random (void)
{
  FrChance chance = { 77 };

  for (guint k = 0; k < 3000; k++)
    {
      g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
      g_autoptr (FrAirHours) air = NULL;
      gint offset_s = 900 * ((gint)fr_chance_below (&chance, 105) - 48);
      guint holes = fr_chance_below (&chance, 4), n_days = fr_chance_below (&chance, 12),
            n_hours = fr_chance_below (&chance, 60), what = fr_chance_below (&chance, 3);
      gint64 utc_s = 1740960000 + 900 * (gint64)fr_chance_below (&chance, 2000);
      double low = INFINITY, high = -INFINITY;

      weather->latitude_deg = fr_chance_below (&chance, 5) == 0 ? NAN : 180 * fr_chance_ratio (&chance) - 90;
      weather->longitude_deg
          = fr_chance_below (&chance, 5) == 0 ? NAN : 360 * fr_chance_ratio (&chance) - 180;
      for (guint i = 0; i < n_days && what != 1; i++)
        {
          g_autofree char *date = g_strdup_printf ("2025-03-%02u", i + 3);
          double one = 30 * fr_chance_ratio (&chance) - 20, other = one + 15 * fr_chance_ratio (&chance);

          if (fr_chance_below (&chance, 4) < holes)
            one = NAN;
          if (fr_chance_below (&chance, 4) < holes)
            other = NAN;
          if (fr_chance_below (&chance, 3) > 0)
            add_day (weather, date, one, other);
          low = fmin (low, fmin (one, other));
          high = fmax (high, fmax (one, other));
        }
      for (guint i = 0; i < n_hours && what != 0; i++)
        {
          double temp_c = fr_chance_below (&chance, 4) < holes ? NAN : 30 * fr_chance_ratio (&chance) - 15;

          utc_s
              += 900 * (1 + (gint64)fr_chance_below (&chance, fr_chance_below (&chance, 9) == 0 ? 200 : 25));
          add_hour (weather, utc_s, 3600, temp_c, fr_chance_below (&chance, 2));
          low = fmin (low, temp_c);
          high = fmax (high, temp_c);
        }
      air = fr_air_hours_new (weather, fr_chance_below (&chance, FR_N_COURSES), offset_s);
      g_assert_cmpuint (air->n_hours % 24, ==, 0);
      for (guint h = 0; h < air->n_hours; h++)
        {
          g_assert_cmpint (isnan (air->temp_c[h]) != 0, ==, air->from[h] == FR_AIR_UNKNOWN);
          g_assert_cmpint (air->from[h], <, FR_N_AIR_FROMS);
          if (what != 2 && air->from[h] != FR_AIR_BRIDGED && air->from[h] != FR_AIR_UNKNOWN)
            g_assert_true (air->temp_c[h] >= low - 1e-9 && air->temp_c[h] <= high + 1e-9);
        }
      for (guint i = 0; i < weather->hours->len; i++)
        {
          const FrWeatherHour *hour = &g_array_index (weather->hours, FrWeatherHour, i);
          gint64 at = isnan (hour->temp_c) ? -1 : fr_air_hours_at (air, hour->utc_s);

          if (at < 0 || fr_air_hours_utc (air, at) != hour->utc_s)
            continue;
          g_assert_cmpint (at, <, air->n_hours);
          g_assert_true (air->temp_c[at] == hour->temp_c && air->from[at] == FR_AIR_READ);
          g_assert_cmpint (air->is_forecast[at], ==, hour->is_forecast != FALSE);
        }
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/air-readings/between", test_between);
  g_test_add_func ("/air-readings/extremes-between", test_extremes_between);
  g_test_add_func ("/air-readings/seam", test_seam);
  g_test_add_func ("/air-readings/bridged-hours", test_bridged_hours);
  g_test_add_func ("/air-readings/told-beside-seen", test_told_beside_seen);
  g_test_add_func ("/air-readings/random", test_random);
  g_test_add_func ("/air-readings/six-hourly", test_six_hourly);
  return found_run ();
}
