/* Joining series: by hand, against a search through ranks written apart, and the shift of morning-read
 * stations. */
#include "domain/maths/weather-join.h"

#include "domain/maths/chance.h"

#include "found.h"

static void
add_day (FrWeather *weather, gint day_of_march, double low_c, double high_c, gboolean is_forecast)
{
  FrWeatherDay day = fr_weather_day ((FrDate){ 2025, 3, day_of_march });

  day.low_c = low_c;
  day.high_c = high_c;
  day.low_mark = isnan (low_c) ? FR_WEATHER_ABSENT : FR_WEATHER_PLAIN;
  day.high_mark = isnan (high_c) ? FR_WEATHER_ABSENT : FR_WEATHER_PLAIN;
  day.is_forecast = is_forecast;
  g_array_append_val (weather->days, day);
}

static const FrWeatherDay *
day_of (const FrWeather *weather, gint day_of_march)
{
  return fr_weather_find_day (weather, (FrDate){ 2025, 3, day_of_march });
}

/* Equal, or both unknown. */
static gboolean
same (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

static void
test_by_hand (void)
{
  g_autoptr (FrWeather) forecast = fr_weather_new (FR_WEATHER_MET_COMPACT);
  g_autoptr (FrWeather) station = fr_weather_new (FR_WEATHER_GHCND_DLY);
  g_autoptr (FrWeather) own = fr_weather_new (FR_WEATHER_OWN);
  const FrWeather *parts[] = { forecast, station, own };
  g_autoptr (FrWeatherJoined) joined = NULL;
  const FrWeatherOrigin *origins;

  for (gint day = 1; day <= 6; day++)
    add_day (forecast, day, -1, 11, TRUE);
  forecast->latitude_deg = 44.5;
  forecast->longitude_deg = -72;
  station->altitude_m = 300;
  add_day (station, 1, -2, 8, FALSE);
  add_day (station, 2, -2, 8, FALSE);
  add_day (station, 3, NAN, 8, FALSE);
  add_day (station, 4, -2, -1, FALSE);
  add_day (own, 2, -3, NAN, FALSE);
  add_day (own, 4, 2, NAN, FALSE); /* warmer than the station's high */
  for (gint hour = 0; hour < 6 * 24; hour++)
    {
      FrWeatherHour told = { 1740787200 + hour * 3600 + 18000, 3600, 1, TRUE };

      g_array_append_val (forecast->hours, told);
      if (hour == 50)
        {
          told.temp_c = 7;
          told.is_forecast = FALSE;
          g_array_append_val (station->hours, told);
        }
    }
  joined = fr_weather_join (parts, 3, -18000);
  origins = (const FrWeatherOrigin *)(gpointer)joined->origins->data;
  g_assert_cmpint (joined->weather->format, ==, FR_WEATHER_JOINED);
  g_assert_cmpfloat (joined->weather->latitude_deg, ==, 44.5);
  g_assert_cmpuint (joined->weather->days->len, ==, 6);
  g_assert_cmpuint (joined->origins->len, ==, 6);
  /* 1: the station alone. 2: own low, the station's high. */
  g_assert_true (day_of (joined->weather, 1)->low_c == -2 && day_of (joined->weather, 1)->high_c == 8);
  g_assert_false (day_of (joined->weather, 1)->is_forecast);
  g_assert_true (day_of (joined->weather, 2)->low_c == -3 && day_of (joined->weather, 2)->high_c == 8);
  g_assert_true (origins[1].low_from == 2 && origins[1].high_from == 1);
  /* 3: a told low under an observed high. */
  g_assert_true (day_of (joined->weather, 3)->low_c == -1 && day_of (joined->weather, 3)->high_c == 8);
  g_assert_true (origins[2].low_from == 0 && origins[2].low_is_forecast && !origins[2].high_is_forecast);
  g_assert_true (day_of (joined->weather, 3)->is_forecast);
  /* 4: they do not go together: both of the station. */
  g_assert_true (day_of (joined->weather, 4)->low_c == -2 && day_of (joined->weather, 4)->high_c == -1);
  g_assert_true (origins[3].low_from == 1 && origins[3].high_from == 1);
  g_assert_true (origins[4].low_from == 0 && origins[4].rain_from == FR_WEATHER_FROM_NONE);
  /* Told hours of the 1st, 2nd and 4th are past; the observed one stands for the told one on the 3rd. */
  g_assert_cmpuint (joined->weather->hours->len, ==, 3 * 24);
  g_assert_cmpuint (joined->hour_froms->len, ==, 3 * 24);
  for (guint i = 0; i < 3 * 24; i++)
    {
      const FrWeatherHour *hour = &g_array_index (joined->weather->hours, FrWeatherHour, i);

      g_assert_cmpint (g_array_index (joined->hour_froms, gint, i), ==, i == 2 ? 1 : 0);
      g_assert_cmpfloat (hour->temp_c, ==, i == 2 ? 7 : 1);
    }
}

/* Two series that do not go together and none that has both: the better one's extreme stays alone. */
static void
test_quarrel (void)
{
  g_autoptr (FrWeather) own = fr_weather_new (FR_WEATHER_OWN);
  g_autoptr (FrWeather) station = fr_weather_new (FR_WEATHER_CSV);
  const FrWeather *parts[] = { station, own };
  g_autoptr (FrWeatherJoined) joined = NULL;

  add_day (own, 1, 3, NAN, FALSE);
  add_day (station, 1, NAN, 2, FALSE);
  add_day (own, 2, NAN, 1, FALSE);
  add_day (station, 2, 4, NAN, FALSE);
  add_day (station, 3, 6, 5, FALSE); /* upside down on its own */
  joined = fr_weather_join (parts, 2, 0);
  g_assert_true (day_of (joined->weather, 1)->low_c == 3 && isnan (day_of (joined->weather, 1)->high_c));
  g_assert_true (day_of (joined->weather, 2)->high_c == 1 && isnan (day_of (joined->weather, 2)->low_c));
  g_assert_cmpint (day_of (joined->weather, 2)->low_mark, ==, FR_WEATHER_ABSENT);
  g_assert_true (isnan (day_of (joined->weather, 3)->low_c) && isnan (day_of (joined->weather, 3)->high_c));
}

/* Random series against the rule said plainly: of all that know it, the least of (rank, place). */
static void
test_search (void)
{
  FrChance chance = { 31 };

  for (guint k = 0; k < 300; k++)
    {
      const FrWeather *parts[4];
      guint n_parts = fr_chance_below (&chance, 5);
      g_autoptr (FrWeatherJoined) joined = NULL;

      for (guint p = 0; p < n_parts; p++)
        {
          FrWeather *part
              = fr_weather_new (fr_chance_below (&chance, 2) ? FR_WEATHER_OWN : FR_WEATHER_ECCC_DAILY);

          for (gint day = 1; day <= 20; day++)
            if (fr_chance_below (&chance, 3) > 0)
              add_day (part, day, fr_chance_below (&chance, 3) ? -fr_chance_ratio (&chance) : NAN,
                       fr_chance_below (&chance, 3) ? fr_chance_ratio (&chance) : NAN,
                       fr_chance_below (&chance, 20) < (guint)day);
          parts[p] = part;
        }
      joined = fr_weather_join (parts, n_parts, 3600);
      for (gint day = 1; day <= 20; day++)
        {
          double low = NAN, high = NAN;
          const FrWeatherDay *got = day_of (joined->weather, day);
          gboolean any = FALSE;

          for (gint rank = 2; rank >= 0; rank--)
            for (guint p = n_parts; p-- > 0;)
              {
                const FrWeatherDay *one = day_of (parts[p], day);

                any |= one != NULL;
                if (one == NULL
                    || (one->is_forecast                     ? 2
                        : parts[p]->format == FR_WEATHER_OWN ? 0
                                                             : 1)
                           != rank)
                  continue;
                low = isnan (one->low_c) ? low : one->low_c;
                high = isnan (one->high_c) ? high : one->high_c;
              }
          g_assert_cmpint (got != NULL, ==, any);
          g_assert_true (got == NULL || (same (got->low_c, low) && same (got->high_c, high)));
        }
      for (guint p = 0; p < n_parts; p++)
        fr_weather_free ((FrWeather *)parts[p]);
    }
}

/* An observer who reads at 07:00: what is booked on the 4th is the high of the 3rd's afternoon and the low of
 * the 4th's morning. */
static void
test_morning (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_GHCND_DLY);

  weather->reading_minute = 420;
  add_day (weather, 4, -4, 3.3, FALSE);
  add_day (weather, 5, -5, 4.4, FALSE);
  add_day (weather, 7, -7, 6.6, FALSE); /* the 6th is left out: its high was read on the 7th */
  add_day (weather, 8, -8, NAN, FALSE);
  add_day (weather, 9, -9, 19, TRUE); /* told for its own date */
  g_assert_true (fr_weather_is_morning_read (weather, FR_READING_AS_TOLD));
  g_assert_false (fr_weather_is_morning_read (weather, FR_READING_EVENING));
  fr_weather_shift_highs (weather);
  g_assert_cmpuint (weather->days->len, ==, 7);
  g_assert_true (day_of (weather, 3)->high_c == 3.3 && isnan (day_of (weather, 3)->low_c));
  g_assert_true (day_of (weather, 4)->high_c == 4.4 && day_of (weather, 4)->low_c == -4);
  g_assert_true (isnan (day_of (weather, 5)->high_c) && day_of (weather, 5)->high_mark == FR_WEATHER_ABSENT);
  g_assert_true (day_of (weather, 6)->high_c == 6.6 && isnan (day_of (weather, 6)->low_c));
  g_assert_true (isnan (day_of (weather, 7)->high_c) && isnan (day_of (weather, 8)->high_c));
  g_assert_true (day_of (weather, 9)->high_c == 19 && day_of (weather, 9)->low_c == -9);
  /* Once is enough. */
  g_assert_false (fr_weather_is_morning_read (weather, FR_READING_AS_TOLD));
  for (gint minute = -1; minute <= 1440; minute++)
    {
      weather->reading_minute = minute;
      g_assert_cmpint (fr_weather_is_morning_read (weather, FR_READING_AS_TOLD), ==,
                       minute >= 1 && minute <= 720);
      g_assert_true (fr_weather_is_morning_read (weather, FR_READING_MORNING));
    }
}

static void
test_unknown_days (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (GArray) spans = NULL;
  const FrWeatherUnknown *span;

  add_day (weather, 2, -4, 3, FALSE);
  add_day (weather, 4, NAN, 3, FALSE);
  add_day (weather, 5, -4, 3, FALSE);
  add_day (weather, 6, -4, NAN, FALSE);
  add_day (weather, 7, NAN, NAN, FALSE);
  spans = fr_weather_unknown_days (weather, (FrDate){ 2025, 2, 27 }, (FrDate){ 2025, 3, 9 });
  g_assert_cmpuint (spans->len, ==, 3);
  span = (const FrWeatherUnknown *)(gpointer)spans->data;
  g_assert_true (span[0].n_days == 3 && span[0].n_half == 0 && span[0].from.month == 2
                 && span[0].to.day == 1);
  g_assert_true (span[1].from.day == 3 && span[1].to.day == 4 && span[1].n_days == 2 && span[1].n_half == 1);
  g_assert_true (span[2].from.day == 6 && span[2].to.day == 9 && span[2].n_days == 4 && span[2].n_half == 1);
  g_array_unref (spans);
  spans = fr_weather_unknown_days (weather, (FrDate){ 2025, 3, 9 }, (FrDate){ 2025, 3, 8 });
  g_assert_cmpuint (spans->len, ==, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-join/by-hand", test_by_hand);
  g_test_add_func ("/weather-join/quarrel", test_quarrel);
  g_test_add_func ("/weather-join/search", test_search);
  g_test_add_func ("/weather-join/morning", test_morning);
  g_test_add_func ("/weather-join/unknown-days", test_unknown_days);
  return found_run ();
}
