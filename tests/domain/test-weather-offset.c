/* The offset of an own thermometer: against the closed form for normal days, a grid, planted outliers, and
 * two stations whose distance is known. */
#include "domain/maths/weather-offset.h"

#include "domain/maths/chance.h"

#include "found.h"
#include "table.h"

/* Normal days with a normal prior (any textbook): precision 1/τ² + n/s², mean Σd/s² over it. No day is
 * clipped when the limit is far. */
static void
test_closed_form (void)
{
  FrChance chance = { 11 };
  double d[60];

  for (guint n = 0; n <= 60; n += 3)
    for (guint k = 0; k < 20; k++)
      {
        const FrOffsetPrior prior
            = { 0.3 + 3 * fr_chance_ratio (&chance), 0.3 + 3 * fr_chance_ratio (&chance), 1e6 };
        double sum = 0, precision = 1 / pow (prior.prior_sd_k, 2) + n / pow (prior.day_sd_k, 2);
        FrOffset offset;

        fr_chance_normals (&chance, d, n);
        for (guint i = 0; i < n; i++)
          sum += d[i] = 2 - 4 * fr_chance_ratio (&chance) + prior.day_sd_k * d[i];
        offset = fr_offset_learn (d, n, &prior);
        found_near ("mean of a normal posterior, closed form, K", offset.mean_k,
                    sum / pow (prior.day_sd_k, 2) / precision, 1e-12);
        found_near ("sd of a normal posterior, closed form, K", offset.sd_k, sqrt (1 / precision), 1e-12);
        g_assert_cmpuint (offset.n_days, ==, n);
        g_assert_cmpuint (offset.n_clipped, ==, 0);
      }
}

/* Huber's density, exp of −u²/2 within c and of c²/2 − c|u| beyond, times the prior: its highest point on a
 * grid. */
static void
test_grid (void)
{
  FrChance chance = { 12 };
  const FrOffsetPrior prior = fr_offset_prior_usual ();
  double d[25];

  for (guint k = 0; k < 200; k++)
    {
      guint n = 1 + fr_chance_below (&chance, 25);
      double best = -INFINITY, at = NAN;
      FrOffset offset;

      fr_chance_normals (&chance, d, n);
      for (guint i = 0; i < n; i++)
        d[i] = 1 + d[i] * (fr_chance_below (&chance, 5) == 0 ? 12 : 1.3);
      offset = fr_offset_learn (d, n, &prior);
      for (gint g = -8000; g <= 8000; g++)
        {
          double m = g / 1000.0, log_density = -m * m / (2 * 1.5 * 1.5);

          for (guint i = 0; i < n; i++)
            {
              double u = fabs (d[i] - m) / 1.3;

              log_density -= u <= 2 ? u * u / 2 : 2 * u - 2;
            }
          if (log_density > best)
            {
              best = log_density;
              at = m;
            }
        }
      found_near ("highest point of the density on a grid of 1 mK, K", offset.mean_k, at, 0.00051);
    }
}

/* Days of 1.2 K with a spread of 1.3 K, and one on which the thermometer lay in the sun: it moves the answer
 * by no more than a day at the limit, while the plain mean is off by 0.9 K. */
static void
test_outlier (void)
{
  const FrOffsetPrior prior = fr_offset_prior_usual ();
  FrChance chance = { 13 };
  double worst_plain = 0;

  for (guint k = 0; k < 300; k++)
    {
      double d[20], precision = 1 / (1.5 * 1.5) + 19 / (1.3 * 1.3), plain = 0;
      FrOffset without, with;

      fr_chance_normals (&chance, d, 20);
      for (guint i = 0; i < 20; i++)
        d[i] = 1.2 + 1.3 * d[i];
      d[19] = k % 2 == 0 ? 25 : -25;
      without = fr_offset_learn (d, 19, &prior);
      with = fr_offset_learn (d, 20, &prior);
      for (guint i = 0; i < 20; i++)
        plain += d[i] / 20;
      worst_plain = MAX (worst_plain, fabs (plain - without.mean_k));
      g_assert_cmpuint (with.n_clipped, >=, 1);
      /* A clipped day pulls by c/s; others that the shift clips or frees give way a little more than
       * linearly. */
      found_near ("moved by one wild day of twenty, K", with.mean_k, without.mean_k,
                  1.6 * 2 / 1.3 / precision);
      g_assert_cmpint (with.mean_k > without.mean_k, ==, d[19] > 0);
    }
  g_assert_cmpfloat (worst_plain, >, 1);
}

static void
load (FrWeather *weather, const char *file, const char *low, const char *high)
{
  g_autoptr (GPtrArray) rows = test_table_load (file);

  for (guint i = 0; i < rows->len; i++)
    {
      const TestRow *row = g_ptr_array_index (rows, i);
      FrDate date;
      FrWeatherDay day;

      g_assert_true (fr_date_parse (test_row_text (row, "date"), &date));
      day = fr_weather_day (date);
      day.low_c = test_row_number (row, low);
      day.high_c = test_row_number (row, high);
      g_array_append_val (weather->days, day);
    }
}

/* A site whose days are those of a station moved by 1.45 and 0.57 K: without scatter all that stays is the
 * prior's pull, 1.5²/(1.5² + 1.3²/74) of the way. */
static void
test_stations (void)
{
  g_autoptr (FrWeather) own = fr_weather_new (FR_WEATHER_OWN);
  g_autoptr (FrWeather) station = fr_weather_new (FR_WEATHER_CSV);
  const FrOffsetPrior prior = fr_offset_prior_usual ();
  const double share = 2.25 / (2.25 + 1.69 / 74);
  FrOffset low, high;

  load (own, "sap-site-days.csv", "tmin_c", "tmax_c");
  load (station, "fisher-days.csv", "low_c", "high_c");
  fr_weather_offsets (own, station, &prior, &low, &high);
  g_assert_cmpuint (low.n_days, ==, 74);
  found_near ("offset of lows of two sites, 1.45 K", low.mean_k, 1.45 * share, 1e-9);
  found_near ("offset of highs of two sites, 0.57 K", high.mean_k, 0.57 * share, 1e-9);
  /* A forecast teaches nothing, and a missing value only for its own extreme. */
  g_array_index (station->days, FrWeatherDay, 0).is_forecast = TRUE;
  g_array_index (station->days, FrWeatherDay, 1).low_c = NAN;
  fr_weather_offsets (own, station, &prior, &low, &high);
  g_assert_cmpuint (low.n_days, ==, 72);
  g_assert_cmpuint (high.n_days, ==, 73);
  fr_weather_offsets (station, own, &prior, &low, &high);
  g_assert_cmpfloat (low.mean_k, <, -1.4);
}

static void
test_put (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  FrWeatherDay day = fr_weather_day ((FrDate){ 2025, 3, 3 });
  static const double wanted_k[]
      = { 2, 1, 1.5 }; /* 06:00, 15:00, and half way down at 22:30 between two hours */

  day.low_c = -3;
  day.high_c = 5;
  g_array_append_val (weather->days, day);
  day.date.day = 4;
  day.high_c = -3;
  g_array_append_val (weather->days, day);
  for (guint i = 0; i < 4; i++)
    {
      static const gint hours[] = { 6, 15, 22, 23 };
      FrWeatherHour hour = { 1740960000 + hours[i] * 3600 + 18000, 3600, 10, FALSE };

      g_array_append_val (weather->hours, hour);
    }
  g_assert_cmpuint (fr_weather_put_offsets (weather, 2, 1, -18000), ==, 1);
  found_near ("offsets put on, K", g_array_index (weather->days, FrWeatherDay, 0).low_c, -1, 1e-12);
  found_near ("offsets put on, K", g_array_index (weather->days, FrWeatherDay, 0).high_c, 6, 1e-12);
  found_near ("offsets put on, K", g_array_index (weather->days, FrWeatherDay, 1).low_c, -1.5, 1e-12);
  found_near ("offsets put on, K", g_array_index (weather->days, FrWeatherDay, 1).high_c, -1.5, 1e-12);
  for (guint i = 0; i < 2; i++)
    found_near ("offsets put on, K", g_array_index (weather->hours, FrWeatherHour, i).temp_c,
                10 + wanted_k[i], 1e-12);
  found_near ("offsets put on, K",
              (g_array_index (weather->hours, FrWeatherHour, 2).temp_c
               + g_array_index (weather->hours, FrWeatherHour, 3).temp_c)
                  / 2,
              10 + wanted_k[2], 1e-12);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-offset/closed-form", test_closed_form);
  g_test_add_func ("/weather-offset/grid", test_grid);
  g_test_add_func ("/weather-offset/outlier", test_outlier);
  g_test_add_func ("/weather-offset/stations", test_stations);
  g_test_add_func ("/weather-offset/put", test_put);
  return found_run ();
}
