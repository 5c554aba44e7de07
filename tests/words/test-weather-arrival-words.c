/* What is said of weather that comes in: counts add up to the days, and each sentence keeps the manners of the others. */
#include "words/weather-arrival-words.h"

#include <math.h>
#include <string.h>

static const FrUnits units = { .decimal_mark = '.' };

static void
add_day (FrWeather *weather, int day, double low_c, double high_c)
{
  FrWeatherDay one = fr_weather_day ((FrDate){ 2026, 3, day });

  one.low_c = low_c;
  one.high_c = high_c;
  g_array_append_val (weather->days, one);
}

static void
check_manners (char *sentence)
{
  g_assert_nonnull (sentence);
  g_assert_true (g_str_has_suffix (sentence, "."));
  g_assert_null (strchr (sentence, '!'));
  g_assert_null (strstr (sentence, "(null)"));
  g_assert_null (strchr (sentence, '%'));
  g_free (sentence);
}

static void
test_words (void)
{
  g_autoptr (FrRecord) station = fr_record_new (FR_KIND_STATION), stored = fr_record_new (FR_KIND_STATION_DAY);
  g_autoptr (GPtrArray) days = g_ptr_array_new ();
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  FrWeatherHour hours[] = { { 0, 3600, 1, FALSE }, { 3600, 3600, 2, TRUE } };
  g_autoptr (FrWeatherPreview) preview = NULL;
  g_autofree char *summary = NULL;

  station->id = 1;
  ((FrStation *)station)->name = g_strdup ("Old 100% mill");
  ((FrStation *)station)->station_key = g_strdup ("A");
  stored->id = 1;
  ((FrStationDay *)stored)->station = 1;
  ((FrStationDay *)stored)->day = g_strdup ("2026-03-01");
  ((FrStationDay *)stored)->low_c.value = -4;
  g_ptr_array_add (days, stored);
  add_day (weather, 1, -5, NAN);
  add_day (weather, 2, -5, 3);
  add_day (weather, 3, NAN, NAN);
  add_day (weather, 4, 5, 3);
  add_day (weather, 5, 5, 90);
  g_array_append_vals (weather->hours, hours, 2);
  weather->station = g_strdup ("B");
  weather->altitude_m = 300;
  preview = fr_weather_preview (weather, (FrStation *)station, NULL, days, NULL, 100);
  summary = fr_weather_arrival_summary (preview);
  g_assert_cmpstr (summary, ==, "5 days: 1 new, 1 changed, 1 without any value, left out, 2 refused.");
  for (guint i = 0; i < preview->rows->len; i++)
    check_manners (fr_weather_arrival_row_sentence (&g_array_index (preview->rows, FrWeatherRow, i), &units));
  check_manners (fr_weather_arrival_outlook_sentence (preview, &units));
  check_manners (fr_weather_arrival_hours_sentence (preview));
  {
    g_autofree char *other = fr_weather_arrival_other_sentence (preview, weather);
    g_autofree char *gains = fr_weather_arrival_station_sentence (preview, &units);

    g_assert_cmpstr (other, ==, "The file is of “B”, but the book has “Old 100% mill” as A.");
    g_assert_cmpstr (gains, ==, "What the file says of “Old 100% mill” is added to what the book knows of it.");
  }
}

static void
test_nothing (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrWeatherPreview) preview = fr_weather_preview (weather, NULL, NULL, NULL, NULL, 0);

  g_assert_null (fr_weather_arrival_outlook_sentence (preview, &units));
  g_assert_null (fr_weather_arrival_hours_sentence (preview));
  g_assert_null (fr_weather_arrival_other_sentence (preview, weather));
  check_manners (fr_weather_arrival_summary (preview));
  check_manners (fr_weather_arrival_station_sentence (preview, &units)); /* it has no name */
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-arrival-words/words", test_words);
  g_test_add_func ("/weather-arrival-words/nothing", test_nothing);
  return g_test_run ();
}
