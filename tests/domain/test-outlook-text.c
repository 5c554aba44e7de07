/* A forecast as text: against texts written by hand from the grammar in outlook-text.h, against a reader written apart here, and there and
 * back with random ones. */
#include "domain/records/kinds.h"
#include "domain/records/outlook-text.h"
#include "domain/maths/weather-service.h"

#include <math.h>
#include <string.h>

static void
add_day (FrWeather *weather, const char *iso, double low_c, double high_c, double rain_m)
{
  FrDate date;
  FrWeatherDay day;

  g_assert_true (fr_date_parse (iso, &date));
  day = fr_weather_day (date);
  day.low_c = low_c;
  day.high_c = high_c;
  day.rain_m = rain_m;
  day.is_forecast = TRUE;
  g_array_append_val (weather->days, day);
}

static void
add_hour (FrWeather *weather, gint64 utc_s, gint span_s, double temp_c)
{
  FrWeatherHour hour = { .utc_s = utc_s, .span_s = span_s, .temp_c = temp_c, .is_forecast = TRUE };

  g_array_append_val (weather->hours, hour);
}

/* What is written is what a person would write by the grammar. */
static void
test_written (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_MET_COMPACT);
  g_autofree char *nothing = fr_outlook_write (weather);
  g_autofree char *text = NULL;

  g_assert_null (nothing);
  add_day (weather, "2026-03-18", -9, 9, 0); /* seen, not told */
  g_array_index (weather->days, FrWeatherDay, 0).is_forecast = FALSE;
  add_day (weather, "2026-03-19", -4.5, 6.2, NAN);
  add_day (weather, "2026-03-20", NAN, 0.1, NAN);
  add_day (weather, "2026-03-21", NAN, NAN, NAN);
  add_day (weather, "2026-03-22", -0.0, 3, 0.0012);
  g_array_index (weather->days, FrWeatherDay, 4).sun_j_per_m2 = 12.5e6;
  add_hour (weather, 1773954000, 3600, -1.5);
  add_hour (weather, 1773957600, 3600, 2);
  add_hour (weather, 1773961200, 3600, NAN);
  add_hour (weather, 1773964800, 3600, 1.0 / 3.0);
  add_hour (weather, 1773968400, 21600, 4);
  add_hour (weather, 1773990000, 21600, 5);
  text = fr_outlook_write (weather);
  g_assert_cmpstr (text, ==,
                   "from 2026-03-19\nlow -4.5 .\nhigh 6.2 0.1\n"
                   "from 2026-03-22\nlow 0\nhigh 3\nrain 0.0012\nsun 12500000\n"
                   "hours 1773954000 3600 -1.5 2\n"
                   "hours 1773964800 3600 0.3333333333333333\n"
                   "hours 1773968400 21600 4 5\n");
}

static void
test_read (void)
{
  guint line = 99;
  g_autoptr (FrWeather) weather = fr_outlook_parse ("from 2026-12-31\n\n  high\t3  . \r\nlow -2.5 -3\nfrom 2027-02-27\n"
                                                    "rain 0 . 0.02\nhours -3600 3600 1 . -2e0\nhours 21600 21600 7",
                                                    &line);
  static const struct
  {
    FrDate date;
    double low_c, high_c, rain_m;
  } days[] = { { { 2026, 12, 31 }, -2.5, 3, NAN },
               { { 2027, 1, 1 }, -3, NAN, NAN },
               { { 2027, 2, 27 }, NAN, NAN, 0 },
               { { 2027, 2, 28 }, NAN, NAN, NAN },
               { { 2027, 3, 1 }, NAN, NAN, 0.02 } };
  static const struct
  {
    gint64 utc_s;
    gint span_s;
    double temp_c;
  } hours[] = { { -3600, 3600, 1 }, { 0, 3600, NAN }, { 3600, 3600, -2 }, { 21600, 21600, 7 } };

  g_assert_nonnull (weather);
  g_assert_cmpuint (line, ==, 0);
  g_assert_cmpuint (weather->days->len, ==, G_N_ELEMENTS (days));
  for (guint i = 0; i < G_N_ELEMENTS (days); i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);

      g_assert_cmpint (fr_date_compare (day->date, days[i].date), ==, 0);
      g_assert_true (day->low_c == days[i].low_c || (isnan (day->low_c) && isnan (days[i].low_c)));
      g_assert_true (day->high_c == days[i].high_c || (isnan (day->high_c) && isnan (days[i].high_c)));
      g_assert_true (day->rain_m == days[i].rain_m || (isnan (day->rain_m) && isnan (days[i].rain_m)));
      g_assert_true (isnan (day->snow_m) && isnan (day->sun_j_per_m2));
      g_assert_true (day->is_forecast);
      g_assert_cmpint (day->low_mark, ==, isnan (days[i].low_c) ? FR_WEATHER_ABSENT : FR_WEATHER_PLAIN);
      g_assert_cmpint (day->high_mark, ==, isnan (days[i].high_c) ? FR_WEATHER_ABSENT : FR_WEATHER_PLAIN);
    }
  g_assert_cmpuint (weather->hours->len, ==, G_N_ELEMENTS (hours));
  for (guint i = 0; i < G_N_ELEMENTS (hours); i++)
    {
      const FrWeatherHour *hour = &g_array_index (weather->hours, FrWeatherHour, i);

      g_assert_cmpint (hour->utc_s, ==, hours[i].utc_s);
      g_assert_cmpint (hour->span_s, ==, hours[i].span_s);
      g_assert_true (hour->temp_c == hours[i].temp_c || (isnan (hour->temp_c) && isnan (hours[i].temp_c)));
      g_assert_true (hour->is_forecast);
    }
}

static void
test_refused (void)
{
  static const struct
  {
    const char *text;
    guint line;
  } cases[] = {
    { "", 1 },
    { "\n \n", 1 },
    { "from 2026-03-19", 1 },                     /* no day after it */
    { "low 1", 1 },                               /* of no day */
    { "from 2026-02-29\nlow 1", 1 },
    { "from 2026-03-19 2026-03-20\nlow 1", 1 },
    { "from 1599-12-31\nlow 1", 1 },
    { "from 2401-01-01\nlow 1", 1 },
    { "from\nlow 1", 1 },
    { "from 2026-03-19\nlow", 2 },
    { "from 2026-03-19\nlow 1\nlow 2", 3 },
    { "from 2026-03-19\nlow 1 2\nfrom 2026-03-20\nlow 3", 3 }, /* a day twice */
    { "from 2026-03-19\nlow 1\nfrom 2026-03-18\nlow 3", 3 },
    { "from 2026-03-19\nlow x", 2 },
    { "from 2026-03-19\nlow 1,5", 2 },
    { "from 2026-03-19\nlow nan", 2 },
    { "from 2026-03-19\nlow inf", 2 },
    { "from 2026-03-19\nlow 0x10", 2 },
    { "from 2026-03-19\nlow 1e", 2 },
    { "from 2026-03-19\nlow -", 2 },
    { "from 2026-03-19\nlow -96", 2 },
    { "from 2026-03-19\nhigh 66", 2 },
    { "from 2026-03-19\nrain -0.001", 2 },
    { "from 2026-03-19\nrain 4", 2 },
    { "from 2026-03-19\nsnow 31", 2 },
    { "from 2026-03-19\nsun 7e7", 2 },
    { "from 2026-03-19\nlow 1\nwind 5", 3 },
    { "from 2026-03-19\nlow 1\n\xff", 3 },
    { "hours", 1 },
    { "hours 0 3600", 1 },
    { "hours 0 59 1", 1 },
    { "hours 0.5 3600 1", 1 },
    { "hours 99999999999999999999 3600 1", 1 },
    { "hours 13601088000 3600 1", 1 },
    { "hours 0 3600 1 2\nhours 3600 3600 3", 2 }, /* an hour twice */
    { "hours 0 3600 1\nhours 0 3600 3", 2 },
    { "hours 7200 3600 1\nhours 0 3600 3", 2 },
    { "hours 0 3600 70", 1 },
  };
  g_autoptr (GString) long_days = g_string_new ("from 2026-03-19\nlow");
  g_autoptr (GString) long_hours = g_string_new ("hours 0 3600");

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      guint line = 99;

      g_test_message ("%s", cases[i].text);
      g_assert_null (fr_outlook_parse (cases[i].text, &line));
      g_assert_cmpuint (line, ==, cases[i].line);
    }
  g_assert_null (fr_outlook_parse (NULL, NULL));
  for (guint i = 0; i <= 400; i++)
    g_string_append (long_days, " 1");
  for (guint i = 0; i <= 2000; i++)
    g_string_append (long_hours, " 1");
  g_assert_null (fr_outlook_parse (long_days->str, NULL));
  g_assert_null (fr_outlook_parse (long_hours->str, NULL));
  for (guint i = 0; i < 2; i++) /* one less is fine */
    {
      GString *text = i == 0 ? long_days : long_hours;
      g_autoptr (FrWeather) weather = NULL;

      g_string_truncate (text, text->len - 2);
      weather = fr_outlook_parse (text->str, NULL);
      g_assert_nonnull (weather);
    }
}

static double
some_value (GRand *rand, double min, double max)
{
  switch (g_rand_int_range (rand, 0, 4))
    {
    case 0:
      return NAN;
    case 1:
      return min + (max - min) * (g_rand_int_range (rand, 0, 101) / 100.0);
    default:
      return g_rand_double_range (rand, min, max);
    }
}

static gboolean
same (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

/* Random series with gaps come back to the last bit; what was seen and what is unknown of all does not come along. */
static void
test_round_trip (void)
{
  GRand *rand = g_rand_new_with_seed (29);

  for (guint round = 0; round < 500; round++)
    {
      g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_NWS_GRID);
      g_autoptr (FrWeather) back = NULL;
      g_autofree char *text = NULL;
      g_autofree char *again = NULL;
      gint64 utc_s = g_rand_int_range (rand, -1000000, 2000000000);
      guint n_days = 0, n_hours = 0, line;

      for (gint64 day = g_rand_int_range (rand, 0, 30000), i = 0; i < g_rand_int_range (rand, 0, 20); i++)
        {
          FrWeatherDay one = fr_weather_day (fr_date_from_days (day));

          one.low_c = some_value (rand, -95, 65);
          one.high_c = some_value (rand, -95, 65);
          one.rain_m = some_value (rand, 0, 3);
          one.snow_m = some_value (rand, 0, 30);
          one.sun_j_per_m2 = some_value (rand, 0, 6e7);
          one.is_forecast = g_rand_int_range (rand, 0, 5) > 0;
          g_array_append_val (weather->days, one);
          day += g_rand_boolean (rand) ? 1 : g_rand_int_range (rand, 1, 4);
        }
      for (gint i = 0, n = g_rand_int_range (rand, 0, 60); i < n; i++)
        {
          FrWeatherHour hour = { utc_s, g_rand_boolean (rand) ? 3600 : 21600, some_value (rand, -95, 65),
                                 g_rand_int_range (rand, 0, 5) > 0 };

          g_array_append_val (weather->hours, hour);
          utc_s += g_rand_int_range (rand, 0, 4) > 0 ? hour.span_s : g_rand_int_range (rand, 1, 100000);
        }
      text = fr_outlook_write (weather);
      back = text != NULL ? fr_outlook_parse (text, &line) : fr_weather_new (FR_WEATHER_CSV);
      g_assert_nonnull (back);
      for (guint i = 0; i < weather->days->len; i++)
        {
          const FrWeatherDay *was = &g_array_index (weather->days, FrWeatherDay, i), *is;

          if (!was->is_forecast
              || (isnan (was->low_c) && isnan (was->high_c) && isnan (was->rain_m) && isnan (was->snow_m)
                  && isnan (was->sun_j_per_m2)))
            continue;
          g_assert_cmpuint (n_days, <, back->days->len);
          is = &g_array_index (back->days, FrWeatherDay, n_days++);
          g_assert_cmpint (fr_date_compare (was->date, is->date), ==, 0);
          g_assert_true (same (was->low_c, is->low_c) && same (was->high_c, is->high_c) && same (was->rain_m, is->rain_m)
                         && same (was->snow_m, is->snow_m) && same (was->sun_j_per_m2, is->sun_j_per_m2));
        }
      for (guint i = 0; i < weather->hours->len; i++)
        {
          const FrWeatherHour *was = &g_array_index (weather->hours, FrWeatherHour, i), *is;

          if (!was->is_forecast || isnan (was->temp_c))
            continue;
          g_assert_cmpuint (n_hours, <, back->hours->len);
          is = &g_array_index (back->hours, FrWeatherHour, n_hours++);
          g_assert_true (was->utc_s == is->utc_s && was->span_s == is->span_s && was->temp_c == is->temp_c);
        }
      g_assert_cmpuint (back->days->len, ==, n_days);
      g_assert_cmpuint (back->hours->len, ==, n_hours);
      again = fr_outlook_write (back);
      g_assert_cmpstr (again, ==, text);
    }
  g_rand_free (rand);
}

/* Texts cut, doubled and scrambled: refused or read, never a crash; what is read can be written and read again. */
static void
test_scrambled (void)
{
  static const char *const whole = "from 2026-03-19\nlow -4.5 . 1e1\nhigh 6.2 0.1 3\nhours 1773954000 3600 -1.5 2\n";
  static const char bytes[] = " \n.-+e0123456789fromhlwix\t";
  GRand *rand = g_rand_new_with_seed (31);
  guint n_read = 0;

  for (guint round = 0; round < 20000; round++)
    {
      g_autoptr (GString) text = g_string_new (whole);

      for (gint i = g_rand_int_range (rand, 1, 4); i > 0 && text->len > 1; i--)
        {
          gsize at = g_rand_int_range (rand, 0, text->len);

          if (g_rand_boolean (rand))
            text->str[at] = bytes[g_rand_int_range (rand, 0, sizeof bytes - 1)];
          else
            g_string_erase (text, at, 1);
        }
      g_autoptr (FrWeather) weather = fr_outlook_parse (text->str, NULL);
      if (weather == NULL)
        continue;
      n_read++;
      g_autofree char *written = fr_outlook_write (weather);
      g_autoptr (FrWeather) again = written != NULL ? fr_outlook_parse (written, NULL) : NULL;
      g_assert_true (written == NULL || again != NULL);
    }
  g_assert_cmpuint (n_read, >, 1000);
  g_rand_free (rand);
}

/* The book's codes are those of the services and of the marks. */
static void
test_codes (void)
{
  const char *const *services = fr_kind_field (fr_kind (FR_KIND_FORECASTING), "service")->codes;
  const char *const *marks = fr_kind_field (fr_kind (FR_KIND_STATION_DAY), "low_mark")->codes;

  g_assert_true (g_strv_equal (services, fr_weather_service_codes ()));
  g_assert_cmpuint (g_strv_length ((char **)marks), ==, FR_N_WEATHER_MARKS);
  for (guint i = 0; i < FR_N_WEATHER_MARKS; i++)
    g_assert_cmpstr (marks[i], ==, fr_weather_mark_code (i));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outlook-text/written", test_written);
  g_test_add_func ("/outlook-text/read", test_read);
  g_test_add_func ("/outlook-text/refused", test_refused);
  g_test_add_func ("/outlook-text/round-trip", test_round_trip);
  g_test_add_func ("/outlook-text/scrambled", test_scrambled);
  g_test_add_func ("/outlook-text/codes", test_codes);
  return g_test_run ();
}
