/* Weather as one line of text, so that a test may say what it expects in one string. */
#pragma once

#include "formats/weather-file.h"

#include <math.h>
#include <string.h>

static inline void
said_number (GString *out, const char *before, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append_printf (out, "%s%s", before, isnan (value) ? "?" : g_ascii_formatd (text, sizeof text, "%.6g", value));
}

/* Days as "2026-03-01 -6.1 7.2": low and high, "?" unknown, then e estimated, r refused; then rain in mm, snow in cm and sun in MJ/m²
 * where known; "ahead" for a forecast. Hours as "2026-03-10T12:00:00Z -3.1 3600". Free it. */
static inline char *
said (const FrWeather *weather)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);
      g_autofree char *iso = fr_date_to_iso (day->date);

      g_string_append_printf (out, "%s%s ", out->len > 0 ? "; " : "", iso);
      said_number (out, "", day->low_c);
      g_string_append_printf (out, "%s ", day->low_mark == FR_WEATHER_ESTIMATED ? "e" : day->low_mark == FR_WEATHER_REFUSED ? "r" : "");
      said_number (out, "", day->high_c);
      g_string_append (out, day->high_mark == FR_WEATHER_ESTIMATED ? "e" : day->high_mark == FR_WEATHER_REFUSED ? "r" : "");
      if (!isnan (day->rain_m))
        said_number (out, " rain ", day->rain_m * 1000);
      if (!isnan (day->snow_m))
        said_number (out, " snow ", day->snow_m * 100);
      if (!isnan (day->sun_j_per_m2))
        said_number (out, " sun ", day->sun_j_per_m2 / 1e6);
      g_string_append (out, day->is_forecast ? " ahead" : "");
    }
  for (guint i = 0; i < weather->hours->len; i++)
    {
      const FrWeatherHour *hour = &g_array_index (weather->hours, FrWeatherHour, i);
      g_autoptr (GDateTime) time = g_date_time_new_from_unix_utc (hour->utc_s);
      g_autofree char *iso = g_date_time_format (time, "%Y-%m-%dT%H:%M:%SZ");

      g_string_append_printf (out, "%s%s ", out->len > 0 ? "; " : "", iso);
      said_number (out, "", hour->temp_c);
      g_string_append_printf (out, " %d%s", hour->span_s, hour->is_forecast ? " ahead" : "");
    }
  return g_string_free (out, FALSE);
}

/* The same of what @text is read as, or the sentence by which it is refused. Free it. */
static inline char *
read_said (const char *text, const FrWeatherColumns *choice)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrWeather) weather = fr_weather_read (text, strlen (text), choice, &error);

  g_assert_true ((weather == NULL) == (error != NULL));
  if (weather != NULL)
    return said (weather);
  g_assert_true (g_error_matches (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG));
  return g_strdup (error->message);
}

/* A file of tests/fixtures. Free it. */
static inline char *
fixture (const char *name, gsize *length_out)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "fixtures", name, NULL);
  char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, length_out, NULL));
  return text;
}
