/* Series of days and hours for the tests of air-hours. */
#pragma once

#include "domain/maths/air-hours.h"

#include "table.h"

#include <math.h>

static inline void
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

static inline void
add_hour (FrWeather *weather, gint64 utc_s, gint span_s, double temp_c, gboolean is_forecast)
{
  FrWeatherHour hour = { utc_s, span_s, temp_c, is_forecast };

  g_array_append_val (weather->hours, hour);
}

static inline void
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

static inline double
mean_error_c (const FrAirHours *air, const double *hours_c, guint from, guint to)
{
  double sum = 0;

  for (guint h = from; h < to; h++)
    sum += fabs (air->temp_c[h] - hours_c[h]);
  return sum / (to - from);
}
