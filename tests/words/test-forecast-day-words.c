/* One day of the forecast in words. The sentences are the promise of the look: quantities first, ranges in words, no letter from statistics. */
#include "words/forecast-day-words.h"

#include <math.h>

#define NONE { NAN, NAN, NAN, NAN, NAN, NAN }

static const FrSay say = { .units = { .decimal_mark = '.' } };

static FrForecastDay days[3];

static FrForecast
forecast (void)
{
  days[0] = (FrForecastDay){ .date = { 2026, 3, 12 }, .low_c = -6, .high_c = 5, .frozen_h = 11, .thaw_h = 7, .run_probability = 0.4,
                             .per_tap = { 0, 0.1, 0.3, 0.5, 0.9, 0.4 }, .bush = { 0, 1, 4, 7, 12, 5 }, .tapped_days = 20 };
  days[1] = (FrForecastDay){ .date = { 2026, 3, 13 }, .is_ahead = TRUE, .low_c = -4, .high_c = 7, .frozen_h = 9, .thaw_h = 8,
                             .run_probability = 0.91, .per_tap = { 0.8, 1, 1.4, 1.7, 2.1, 1.4 }, .bush = { 11.2, 15, 19, 24, 30.4, 19 },
                             .tapped_days = 21 };
  days[2] = (FrForecastDay){ .date = { 2026, 3, 14 }, .is_ahead = TRUE, .low_c = NAN, .high_c = NAN, .frozen_h = NAN, .thaw_h = NAN,
                             .run_probability = NAN, .per_tap = NONE, .bush = NONE, .tapped_days = NAN };
  return (FrForecast){ .n_days = 3, .days = days, .as_of = { 2026, 3, 12 }, .n_taps = 14, .raised_ratio = 1, .n_learned = 0 };
}

static void
test_ahead (void)
{
  FrForecast one = forecast ();
  g_autoptr (FrForecastDayWords) words = fr_forecast_day_words_new (&one, &days[1], 17, NAN, &say);

  g_assert_cmpstr (words->title, ==, "Friday 13 March");
  g_assert_cmpstr (words->note, ==, "emptied at about 17:00");
  g_assert_cmpstr (words->number, ==, "19");
  g_assert_cmpstr (words->unit, ==, "L from 14 taps");
  g_assert_cmpstr (words->range, ==, "11 to 30 L, eight times in ten");
  g_assert_cmpuint (words->rows->len, ==, 5);
  g_assert_cmpstr (words->spoken, ==,
                   "Friday 13 March, 19 L from 14 taps, 11 to 30 L, eight times in ten, emptied at about 17:00; Chance of a run 91 %; Low and high "
                   "−4 to 7 °C; Frozen before 9 h; Thawed above 1 °C 8 h; Taps since drilling 21 days.");
}

static void
test_over (void)
{
  FrForecast one = forecast ();
  g_autoptr (FrForecastDayWords) words = fr_forecast_day_words_new (&one, &days[0], 17, 9.5, &say);

  g_assert_cmpstr (words->number, ==, "9.5");
  g_assert_cmpstr (words->unit, ==, "L gathered");
  g_assert_cmpstr (words->range, ==, "0 to 12 L were expected, eight times in ten");
  g_assert_cmpstr (words->note, ==, "this day is over");
}

static void
test_unknown (void)
{
  FrForecast one = forecast ();
  g_autoptr (FrForecastDayWords) words = fr_forecast_day_words_new (&one, &days[2], -1, NAN, &say);

  g_assert_cmpstr (words->note, ==, "No weather is known for this day");
  g_assert_null (words->number);
  g_assert_null (words->range);
  g_assert_cmpuint (words->rows->len, ==, 0);
}

/* 0.16 °Bx of standard deviation are 0.2 eight times in ten: the normal quantile of 0.9 is 1.2816. */
static void
test_sugar (void)
{
  FrForecast one = forecast ();
  g_autoptr (FrForecastDayWords) words = fr_forecast_day_words_new (&one, &days[1], 17, NAN, &say);
  const FrFigure *last;

  fr_forecast_day_words_add_sugar (words, 2.2, 0.16, &say);
  last = words->rows->pdata[words->rows->len - 1];
  g_assert_cmpstr (last->label, ==, "Sweetness");
  g_assert_cmpstr (last->number, ==, "2.2 ± 0.2");
  g_assert_cmpstr (last->unit, ==, "°Bx");
}

/* Nothing here is known for certain. */
static void
test_certain (void)
{
  FrForecast one = forecast ();
  g_autoptr (FrForecastDayWords) sure = NULL, never = NULL;

  days[1].run_probability = 1;
  sure = fr_forecast_day_words_new (&one, &days[1], 17, NAN, &say);
  g_assert_cmpstr (((FrFigure *)sure->rows->pdata[0])->number, ==, "99");
  days[1].run_probability = 0;
  never = fr_forecast_day_words_new (&one, &days[1], 17, NAN, &say);
  g_assert_cmpstr (((FrFigure *)never->rows->pdata[0])->number, ==, "1");
}

static void
test_next (void)
{
  FrForecast one = forecast ();
  g_autofree char *likely = fr_forecast_next_sentence (&one, &say), *tap = NULL, *none = NULL;

  g_assert_cmpstr (likely, ==, "<b>Friday</b> will bring <b>11 to 30 L</b>.");
  days[1].bush = (FrLitres)NONE;
  tap = fr_forecast_next_sentence (&one, &say);
  g_assert_cmpstr (tap, ==, "<b>Friday</b> would bring a tap <b>0.8 to 2.1 L</b>.");
  days[1].run_probability = 0.2;
  none = fr_forecast_next_sentence (&one, &say);
  g_assert_cmpstr (none, ==, "No run is likely up to <b>Saturday</b>.");
  one.n_days = 1;
  g_assert_null (fr_forecast_next_sentence (&one, &say));
}

static void
test_learned (void)
{
  static const struct
  {
    double ran_ratio;
    double raised_ratio;
    const char *words;
  } cases[] = {
    { 1.09, 1.06, "Your buckets this season ran 9 % above the model, so it was raised by 6 %." },
    { 0.7, 0.8, "Your buckets this season ran 30 % below the model, so it was lowered by 20 %." },
    { 0.99, 1.06, "By what your buckets gave this season the model was raised by 6 %." },
    { NAN, 0.8, "By what your buckets gave this season the model was lowered by 20 %." },
    { 1.05, 1.01, "Your buckets this season ran as expected." },
  };
  FrForecast one = forecast ();

  g_assert_null (fr_forecast_learned_words (&one, &say));
  one.n_learned = 3;
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *words = NULL;

      one.ran_ratio = cases[i].ran_ratio;
      one.raised_ratio = cases[i].raised_ratio;
      words = fr_forecast_learned_words (&one, &say);
      g_assert_cmpstr (words, ==, cases[i].words);
    }
}

static void
test_season (void)
{
  FrForecast one = forecast ();
  g_autofree char *only = NULL, *to_friday = NULL, *whole = NULL;

  one.gathered_l = 147;
  one.n_days = 1;
  only = fr_forecast_season_words (&one, &say);
  g_assert_cmpstr (only, ==, "147 L came in so far.");
  one.n_days = 2;
  days[1].so_far = (FrLitres){ 158, 160, 166, 170, 177, 166 };
  to_friday = fr_forecast_season_words (&one, &say);
  g_assert_cmpstr (to_friday, ==,
                   "147 L came in so far; 158 to 177 L by Friday 13 March, eight times in ten. Later days wait for weather.");
  one.n_past = 3;
  whole = fr_forecast_season_words (&one, &say);
  g_assert_cmpstr (whole, ==, "147 L came in so far; 158 to 177 L by the season’s end, eight times in ten.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecast-day-words/ahead", test_ahead);
  g_test_add_func ("/forecast-day-words/over", test_over);
  g_test_add_func ("/forecast-day-words/unknown", test_unknown);
  g_test_add_func ("/forecast-day-words/sugar", test_sugar);
  g_test_add_func ("/forecast-day-words/certain", test_certain);
  g_test_add_func ("/forecast-day-words/next", test_next);
  g_test_add_func ("/forecast-day-words/learned", test_learned);
  g_test_add_func ("/forecast-day-words/season", test_season);
  return g_test_run ();
}
