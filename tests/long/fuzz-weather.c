/* A target for libFuzzer over the readers of weather. What is read is in order, each day and hour once, within bounds, with marks and counts
 * that agree; its JSON is JSON; its days written as a plain table are the same days when read again. What is not read has a sentence. How to
 * run: tests/long/fuzz-weather. */
#include "formats/json-output.h"
#include "formats/json-text.h"
#include "formats/weather-file.h"
#include "formats/weather-json.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

static void
check_extreme (double temp_c, FrWeatherMark mark, guint counts[FR_N_WEATHER_MARKS])
{
  g_assert_true (isnan (temp_c) == (mark == FR_WEATHER_ABSENT || mark == FR_WEATHER_REFUSED));
  g_assert_true (isnan (temp_c) || fabs (temp_c) <= FR_WEATHER_TEMP_MAX_C + 1e-9);
  counts[mark]++;
}

static void
check (const FrWeather *weather, const GPtrArray *found)
{
  guint counts[FR_N_WEATHER_MARKS] = { 0 };
  g_autofree char *json = fr_weather_to_json (weather, found);
  g_autoptr (JsonNode) node = fr_json_parse (json, strlen (json), NULL);
  g_autoptr (GArray) gaps = fr_weather_gaps (weather);

  g_assert_nonnull (node);
  g_assert_true (gaps->len < MAX (1, weather->days->len));
  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);

      g_assert_true (fr_date_is_valid (day->date));
      g_assert_true (i == 0 || fr_date_compare (g_array_index (weather->days, FrWeatherDay, i - 1).date, day->date) < 0);
      g_assert_true (fr_weather_find_day (weather, day->date) == day);
      check_extreme (day->low_c, day->low_mark, counts);
      check_extreme (day->high_c, day->high_mark, counts);
      g_assert_false (day->low_c > day->high_c);
      g_assert_false (day->rain_m < 0 || day->snow_m < 0);
    }
  for (guint i = 0; i < weather->hours->len; i++)
    {
      const FrWeatherHour *hour = &g_array_index (weather->hours, FrWeatherHour, i);

      g_assert_true (i == 0 || g_array_index (weather->hours, FrWeatherHour, i - 1).utc_s < hour->utc_s);
      g_assert_true (hour->span_s >= 1 && hour->span_s <= 21600);
      g_assert_true (isnan (hour->temp_c) || fabs (hour->temp_c) <= FR_WEATHER_TEMP_MAX_C + 1e-9);
    }
  g_assert_cmpuint (weather->n_absent, ==, counts[FR_WEATHER_ABSENT]);
  g_assert_cmpuint (weather->n_estimated, ==, counts[FR_WEATHER_ESTIMATED]);
  g_assert_cmpuint (weather->n_refused, >=, counts[FR_WEATHER_REFUSED]);
  g_assert_false (fabs (weather->latitude_deg) > 90 || fabs (weather->longitude_deg) > 180);
  g_assert_true (weather->reading_minute >= -1 && weather->reading_minute <= 1440);
}

static void
put_number (GString *out, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE] = "";

  if (!isnan (value))
    fr_output_number_text (value, text);
  g_string_append_printf (out, ",%s", text);
}

static gboolean
is_same (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

/* Out as a plain table and in again. */
static void
check_again (const FrWeather *weather)
{
  g_autoptr (GString) out = g_string_new ("date,tmin_c,tmax_c,snow_m\n");
  g_autoptr (GError) error = NULL;
  g_autoptr (FrWeather) again = NULL;

  if (weather->days->len == 0)
    return;
  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);
      g_autofree char *iso = fr_date_to_iso (day->date);

      g_string_append (out, iso);
      put_number (out, fabs (day->low_c) > FR_WEATHER_TEMP_MAX_C ? NAN : day->low_c);
      put_number (out, fabs (day->high_c) > FR_WEATHER_TEMP_MAX_C ? NAN : day->high_c);
      put_number (out, day->snow_m > 20 ? NAN : day->snow_m);
      g_string_append_c (out, '\n');
    }
  again = fr_weather_read (out->str, out->len, NULL, &error);
  if (again == NULL)
    g_error ("%s in %s", error->message, out->str);
  g_assert_cmpuint (again->days->len, ==, weather->days->len);
  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *a = &g_array_index (weather->days, FrWeatherDay, i), *b = &g_array_index (again->days, FrWeatherDay, i);

      g_assert_cmpint (fr_date_compare (a->date, b->date), ==, 0);
      g_assert_true (is_same (a->low_c, b->low_c) || fabs (a->low_c) > FR_WEATHER_TEMP_MAX_C);
      g_assert_true (is_same (a->high_c, b->high_c) || fabs (a->high_c) > FR_WEATHER_TEMP_MAX_C);
    }
}

static void
run (const char *text, size_t size, const FrWeatherColumns *choice)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrWeather) weather = fr_weather_read (text, size, choice, &error);
  g_autoptr (GPtrArray) found = fr_weather_list_columns (text, size, choice, NULL);

  g_assert_true ((weather == NULL) == (error != NULL));
  if (weather == NULL)
    {
      g_assert_true (g_error_matches (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG));
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      return;
    }
  check (weather, found);
  check_again (weather);
}

/* A first line "!date=a,low=b" chooses columns. */
static void
run_chosen (const char *text, size_t size, const FrZoneTable *zone)
{
  const char *stop = memchr (text, '\n', size);
  g_autofree char *line = stop != NULL ? g_strndup (text + 1, (gsize)(stop - text - 1)) : NULL;
  g_auto (FrWeatherColumns) choice = { .zone = zone };
  g_autoptr (GError) error = NULL;

  if (line == NULL || !g_utf8_validate (line, -1, NULL))
    return;
  if (fr_weather_columns_parse (&choice, line, &error) || fr_weather_columns_parse_where (&choice, line, NULL))
    run (stop + 1, size - (size_t)(stop + 1 - text), &choice);
  else
    g_assert_true (g_utf8_validate (error->message, -1, NULL));
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  const FrZoneSpan spans[] = { { G_MININT64, -18000, FALSE, "EST" },
                               { 1772953200, -14400, TRUE, "EDT" },
                               { 1793512800, -18000, FALSE, "EST" } };
  g_autoptr (FrZoneTable) zone = fr_zone_table_new ("America/Toronto", spans, G_N_ELEMENTS (spans));
  const FrWeatherColumns zoned = { .zone = zone };

  if (size > 0 && data[0] == '!')
    run_chosen ((const char *)data, size, zone);
  else
    {
      run ((const char *)data, size, NULL);
      run ((const char *)data, size, &zoned);
    }
  return 0;
}
