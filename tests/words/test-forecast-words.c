/* The forecast's answer in words: every code and number makes whole sentences; a week written by hand says
 * what the household should read; and a made-up season is asked on the day of each of its states. The
 * sentences are this project's own. */
#include "words/forecast-words.h"
#include "words/kitchen-words.h"

#include <locale.h>
#include <string.h>

#include "../domain/winters.h"
#include "sentences.h"

/* A Thursday. */
#define TODAY ((FrDate){ 2026, 3, 12 })

static FrSay
say_of (void)
{
  return (FrSay){ .units = { .system = FR_SYSTEM_METRIC, .decimal_mark = '.' }, .currency = "CAD" };
}

/* As a person reads it: every kind of space as one blank, without markup. Takes @text. */
static char *
plain (char *text)
{
  g_autofree char *without = fr_say_plain (text);
  GString *out = g_string_new (NULL);

  for (const char *c = without; *c != '\0'; c = g_utf8_next_char (c))
    if (g_unichar_isspace (g_utf8_get_char (c)))
      g_string_append_c (out, ' ');
    else
      g_string_append_len (out, c, g_utf8_next_char (c) - c);
  g_free (text);
  return g_string_free (out, FALSE);
}

static void
text_is (char *text, const char *wanted)
{
  g_autofree char *is = NULL;

  if (wanted == NULL)
    {
      g_assert_null (text);
      return;
    }
  sentence_markup (text);
  is = plain (text);
  g_assert_cmpstr (is, ==, wanted);
}

/* --- a week by hand --- */

typedef struct
{
  double chance;
  double bush_l; /* middle; nine in ten are under 1.45 times it */
  double low_c, high_c, frozen_h, thaw_h;
} Row;

static const Row week[] = {
  { 0.82, 14, -6, 5, 9, 7 },   { 0.91, 19, -4, 7, 9, 8 },  { 0.4, 3, -3, 3, 14, 5 },
  { 0.1, 0.5, -8, -1, 24, 0 }, { 0.06, 0, -9, -1, 24, 0 }, { 0.2, 1, -9, 2, 21, 2 },
  { 0.8, 15, -5, 6, 9, 9 },    { 0.7, 9, -2, 6, 7, 9 },
};

static FrForecast
week_of (const Row *rows, guint n, FrForecastDay *days)
{
  FrForecast forecast = { .n_days = n,
                          .days = days,
                          .as_of = TODAY,
                          .n_taps = 14,
                          .gathered_l = 147,
                          .over_probability = 0.01,
                          .off_flavour_probability = 0 };
  double sum_l = 147;

  for (guint i = 0; i < n; i++)
    {
      double bush_l = rows[i].bush_l;

      sum_l += bush_l;
      days[i] = (FrForecastDay){
        .date = fr_date_add_days (TODAY, (gint)i + 1),
        .is_ahead = TRUE,
        .low_c = rows[i].low_c,
        .high_c = rows[i].high_c,
        .frozen_h = rows[i].frozen_h,
        .thaw_h = rows[i].thaw_h,
        .run_probability = rows[i].chance,
        .gathered_l = NAN,
        .per_tap = { .middle_l = bush_l / 14 },
        .bush = { .middle_l = bush_l },
        .so_far = { .lo_l = 147 + 0.5 * (sum_l - 147), .middle_l = sum_l, .hi_l = 147 + 1.45 * (sum_l - 147) }
      };
    }
  return forecast;
}

static FrForecastAnswer
answer_of (const FrForecast *forecast, double free_l, gboolean is_after_boil)
{
  const FrAnswerQuestion question = { forecast, TRUE, TODAY, 17, free_l, is_after_boil };
  FrForecastAnswer answer;

  fr_forecast_answer (&question, &answer);
  return answer;
}

static void
test_week (void)
{
  FrForecastDay days[G_N_ELEMENTS (week)];
  FrForecast forecast = week_of (week, G_N_ELEMENTS (week), days);
  FrForecastAnswer answer = answer_of (&forecast, 54, TRUE);
  const FrSay say = say_of ();
  g_autoptr (GPtrArray) warnings = fr_forecast_warnings (&answer);

  g_assert_cmpint (answer.code, ==, FR_ANSWER_EMPTY);
  g_assert_cmpint (answer.spell, ==, FR_SPELL_HARD_FREEZE);
  g_assert_cmpuint (warnings->len, ==, 0);
  text_is (fr_forecast_sentence (&answer, &say),
           "Empty the buckets on Friday and Saturday: expect 33 L by Saturday evening.");
  text_is (fr_forecast_reason (&answer, &say),
           "Nine times in ten it is under 48 L, and 54 L are free after tonight’s boil. Then a hard freeze; "
           "the next run is likely on "
           "Thursday 19.");
  answer = answer_of (&forecast, 40, FALSE);
  text_is (fr_forecast_reason (&answer, &say), "Nine times in ten it is under 48 L, but only 40 L are free: "
                                               "have more room by Saturday evening. Then a hard freeze; the "
                                               "next run is likely on Thursday 19.");
  answer = answer_of (&forecast, 20, TRUE);
  text_is (fr_forecast_reason (&answer, &say),
           "Only 20 L are free after tonight’s boil: boil more or have more room by Saturday evening. Then a "
           "hard freeze; the next run "
           "is likely on Thursday 19.");
  answer = answer_of (&forecast, NAN, FALSE);
  g_assert_cmpint (answer.room, ==, FR_ROOM_UNKNOWN);
  /* What came since the last emptying and is not gathered yet hangs in the buckets. */
  days[0].is_ahead = FALSE;
  answer = answer_of (&forecast, NAN, FALSE);
  g_assert_cmpfloat (answer.hanging_l, ==, 14);
  days[0].gathered_l = 1;
  answer = answer_of (&forecast, NAN, FALSE);
  g_assert_cmpfloat (answer.hanging_l, ==, 0);
}

static void
test_days_named (void)
{
  static const char *const wanted[]
      = { "Empty the buckets on Friday: expect 10 L by Friday evening.",
          "Empty the buckets on Friday and Saturday: expect 20 L by Saturday evening.",
          "Empty the buckets on Friday, Saturday and Sunday: expect 30 L by Sunday evening.",
          "Empty the buckets every day from Friday to Monday: expect 40 L by Monday evening." };
  static const char *const today[]
      = { "Empty the buckets today: expect 10 L by Friday evening.",
          "Empty the buckets today and on Saturday: expect 20 L by Saturday evening.",
          "Empty the buckets today, on Saturday and on Sunday: expect 30 L by Sunday evening.",
          "Empty the buckets every day from today to Monday: expect 40 L by Monday evening." };
  const FrSay say = say_of ();

  for (guint n = 1; n <= 4; n++)
    {
      Row rows[6];
      FrForecastDay days[6];
      FrForecast forecast;
      FrForecastAnswer answer;

      for (guint i = 0; i < 6; i++)
        rows[i] = (Row){ i < n ? 0.9 : 0.1, i < n ? 10 : 0, 2, 9, 0, 24 };
      forecast = week_of (rows, 6, days);
      answer = answer_of (&forecast, NAN, FALSE);
      g_assert_cmpint (answer.spell, ==, FR_SPELL_WARM);
      text_is (fr_forecast_sentence (&answer, &say), wanted[n - 1]);
      answer.today = days[0].date;
      text_is (fr_forecast_sentence (&answer, &say), today[n - 1]);
    }
}

static void
test_few (void)
{
  FrForecastDay days[G_N_ELEMENTS (week)];
  FrForecast none = { .as_of = TODAY, .n_taps = 14, .over_probability = NAN, .off_flavour_probability = NAN };
  FrForecast few = week_of (week, 3, days);
  FrForecastAnswer answer = answer_of (&few, NAN, FALSE);
  const FrSay say = say_of ();
  g_autoptr (GPtrArray) short_of = fr_forecast_warnings (&answer), nothing = NULL, gaps = NULL;

  g_assert_cmpuint (short_of->len, ==, 1);
  text_is (g_strdup (short_of->pdata[0]), "The weather is known for 3 days only, through Sunday.");
  answer = answer_of (&none, 54, FALSE);
  g_assert_cmpint (answer.code, ==, FR_ANSWER_NO_WEATHER);
  text_is (fr_forecast_sentence (&answer, &say),
           "Add the nights’ lows and the days’ highs, or a forecast: without weather nothing can be told.");
  text_is (fr_forecast_reason (&answer, &say), NULL);
  nothing = fr_forecast_warnings (&answer);
  g_assert_cmpuint (nothing->len, ==, 0);
  few = week_of (week, G_N_ELEMENTS (week), days);
  days[3].run_probability = NAN;
  answer = answer_of (&few, NAN, FALSE);
  gaps = fr_forecast_warnings (&answer);
  g_assert_cmpuint (gaps->len, ==, 1);
  text_is (g_strdup (gaps->pdata[0]), "Of 1 day ahead the weather is not known; it counts as dry.");
}

/* --- a season in all its states --- */

#define SEASON_FIRST ((FrDate){ 2031, 1, 1 })

/* Invented: lows and highs by phase. */
static const struct
{
  gint from_d;
  double low_c, high_c;
} phases[] = {
  { 0, -18, -8 },  /* deep winter */
  { 40, -5, 7 },   /* the first run, 10 February */
  { 45, -15, -5 }, /* a long freeze */
  { 59, -4, 8 },   /* March: the season */
  { 69, 4, 15 },   /* a warm spell */
  { 79, -3, 7 },   /* the last runs */
  { 85, 6, 20 },   /* buds open */
  { 130, 6, 20 },
};

static FrAirHours *
season_air (guint n_days)
{
  FrAirHours *air = winter_air (SEASON_FIRST, 0, n_days, 0, 0);
  guint p = 0;

  for (guint h = 0; h < air->n_hours; h++)
    {
      while (p + 1 < G_N_ELEMENTS (phases) && phases[p + 1].from_d <= (gint)h / 24)
        p++;
      air->temp_c[h] = (phases[p].low_c + phases[p].high_c) / 2
                       - (phases[p].high_c - phases[p].low_c) / 2 * cos (2 * G_PI * (h % 24 - 4) / 24.0);
    }
  return air;
}

/* Digits become one #, and a * stands for any words, for litres and the exact days are the model's, which
 * other tests hold. */
static void
numberless_is (char *text, const char *wanted)
{
  g_autofree char *read = NULL, *is = NULL;
  GString *out = g_string_new (NULL);

  sentence_markup (text);
  read = plain (text);
  for (const char *c = read; *c != '\0'; c++)
    if (!g_ascii_isdigit (*c) && !(*c == '.' && g_ascii_isdigit (c[1])))
      g_string_append_c (out, *c);
    else if (out->len == 0 || out->str[out->len - 1] != '#')
      g_string_append_c (out, '#');
  is = g_string_free (out, FALSE);
  if (!g_pattern_match_simple (wanted, is))
    g_error ("“%s” is not “%s”", is, wanted);
}

static void
test_season (void)
{
  static const struct
  {
    const char *state;
    FrDate as_of;
    guint n_ahead;
    FrAnswerCode code;
    const char *sentence;
    const char *reason;
    const char *warning; /* the only one, or NULL */
  } states[] = {
    { "deep winter",
      { 2031, 1, 25 },
      8,
      FR_ANSWER_WAIT,
      "Leave the buckets: frost holds the sap through Sunday #.",
      "Nine times in ten less than # L comes by Sunday #.",
      NULL },
    { "first run",
      { 2031, 2, 9 },
      8,
      FR_ANSWER_EMPTY,
      "Empty the buckets *: expect # L by * evening.",
      "Nine times in ten it is under # L, and # L are free. Then a hard freeze; no run is in sight through "
      "Monday #.",
      NULL },
    { "long freeze",
      { 2031, 2, 16 },
      8,
      FR_ANSWER_WAIT,
      "Leave the buckets: frost holds the sap through Monday #.",
      "Nine times in ten less than # L comes by Monday #.",
      NULL },
    { "season",
      { 2031, 3, 4 },
      8,
      FR_ANSWER_EMPTY,
      "Empty the buckets *: expect # L by * evening.",
      "Nine times in ten it is under # L, and # L are free.*",
      NULL },
    { "warm spell",
      { 2031, 3, 15 },
      5,
      FR_ANSWER_WAIT,
      "Leave the buckets: without frost at night little runs through Thursday.",
      "Nine times in ten less than # L comes by Thursday.",
      "Boil and taste a little before you boil the rest: the sap is likely to taste of buds by now (# %)." },
    { "buds",
      { 2031, 4, 20 },
      8,
      FR_ANSWER_OVER,
      "Take out the taps: the season is over.",
      "The chance that no run comes any more is # %.",
      "Boil and taste a little before you boil the rest: the sap is likely to taste of buds by now (# %)." },
  };
  const FrSay say = say_of ();

  for (guint i = 0; i < G_N_ELEMENTS (states); i++)
    {
      gint day = (gint)(fr_date_to_days (states[i].as_of) - fr_date_to_days (SEASON_FIRST));
      g_autoptr (FrAirHours) air = season_air ((guint)day + 1 + states[i].n_ahead);
      const FrTapGroup group = { { 2031, 1, 20 }, 20, 1 };
      FrForecastQuestion question = winter_question (air, states[i].as_of);
      g_autoptr (FrForecast) forecast = NULL;
      g_autoptr (GPtrArray) warnings = NULL;
      FrAnswerQuestion asked
          = { .is_tapped = TRUE, .today = states[i].as_of, .gather_hour = 17, .free_l = 5000 };
      FrForecastAnswer answer;

      question.n_groups = 1;
      question.groups = &group;
      question.tapped = group.tapped;
      forecast = fr_forecast_new (&question);
      asked.forecast = forecast;
      fr_forecast_answer (&asked, &answer);
      g_test_message ("%s", states[i].state);
      g_assert_cmpint (answer.code, ==, states[i].code);
      numberless_is (fr_forecast_sentence (&answer, &say), states[i].sentence);
      numberless_is (fr_forecast_reason (&answer, &say), states[i].reason);
      warnings = fr_forecast_warnings (&answer);
      g_assert_cmpuint (warnings->len, ==, states[i].warning != NULL);
      if (states[i].warning != NULL)
        numberless_is (g_strdup (warnings->pdata[0]), states[i].warning);
    }
}

/* --- when to tap --- */

static FrTapDates
tap_dates (FrTapDate *date, FrTapDateWhy why)
{
  *date = (FrTapDate){ .date = { 2031, 2, 20 }, .total = { .middle_l = 42, .mean_l = 42 } };
  return (FrTapDates){ .n_dates = 1,
                       .dates = date,
                       .as_of = { 2031, 2, 10 },
                       .best = 0,
                       .recommended = 0,
                       .why = why,
                       .early = { 1.1, 0.03, 0.05 },
                       .late = { 5.8, 0.14, 0.09 },
                       .first_run = { 2031, 2, 21 },
                       .is_season_known = TRUE,
                       .n_past = 8 };
}

static void
test_tap_date (void)
{
  FrTapDate date;
  FrTapDates dates = tap_dates (&date, FR_TAP_DATE_FROZEN);
  const FrSay say = say_of ();

  text_is (fr_tap_date_sentence (&dates, &say),
           "Tap on Thursday 20 February: a hole is likely to give 42 L by the season’s end.");
  text_is (fr_tap_date_reason (&dates, &say),
           "Hardly any sap runs before, and a hole only gets older. A week later loses 5.8 L a tap, a week "
           "earlier 1.1 L. Told by 8 past "
           "seasons.");
  text_is (fr_tap_date_caution (&dates), "Drill on a day above freezing: frozen wood splits around a tap.");
  dates.is_season_known = FALSE;
  dates.n_past = 0;
  text_is (fr_tap_date_sentence (&dates, &say),
           "Tap on Thursday 20 February: a hole is likely to give 42 L within the forecast.");
  dates = tap_dates (&date, FR_TAP_DATE_RUNNING);
  date.date = dates.as_of;
  dates.early.loss_l = -2.2;
  text_is (fr_tap_date_sentence (&dates, &say),
           "Tap today: a hole is likely to give 42 L by the season’s end.");
  text_is (fr_tap_date_reason (&dates, &say),
           "Sap is running already. A week later loses 5.8 L a tap. Told by 8 past seasons.");
  dates = tap_dates (&date, FR_TAP_DATE_TOO_LATE);
  dates.recommended = -1;
  dates.early = dates.late = (FrTapDateShift){ NAN, NAN, NAN };
  text_is (fr_tap_date_sentence (&dates, &say),
           "Leave the trees alone this year: too little of the season is left.");
  text_is (fr_tap_date_caution (&dates), NULL);
  dates = tap_dates (&date, FR_TAP_DATE_UNKNOWN);
  dates.recommended = -1;
  dates.is_season_known = FALSE;
  dates.early = dates.late = (FrTapDateShift){ NAN, NAN, NAN };
  text_is (fr_tap_date_sentence (&dates, &say), "Wait with tapping: no run is in sight.");
  text_is (
      fr_tap_date_reason (&dates, &say),
      "Without past seasons on file the season cannot be told: only the days whose weather is known count.");
}

/* --- the kitchen --- */

static void
kitchen_says (const double come_l[5], double capacity_l, double night_l, const char *wanted,
              const char *reason)
{
  double hi_l[5];
  const FrKitchenLot lot = { 20, { 2026, 3, 13 } };
  const FrKitchenQuestion question = { .today = TODAY,
                                       .n_days = 5,
                                       .come_in_l = { come_l, hi_l },
                                       .n_lots = come_l[0] < 0 ? 0 : 1,
                                       .lots = &lot,
                                       .capacity_l = capacity_l,
                                       .night_l = night_l,
                                       .least_l = 1,
                                       .keeps_days = 9 };
  double come_in_l[5];
  FrKitchenQuestion asked = question;
  g_autoptr (FrKitchen) kitchen = NULL;
  const FrSay say = say_of ();

  for (guint d = 0; d < 5; d++)
    {
      come_in_l[d] = fmax (come_l[d], 0);
      hi_l[d] = 1.5 * come_in_l[d];
    }
  asked.come_in_l[0] = come_in_l;
  kitchen = fr_kitchen_new (&asked);
  text_is (fr_kitchen_sentence (kitchen, &say), wanted);
  text_is (fr_kitchen_reason (kitchen, &say), reason);
}

static void
test_kitchen (void)
{
  static const double none_l[5] = { -1, 0, 0, 0, 0 }, little_l[5] = { 0, 0, 0, 0, 0 },
                      much_l[5] = { 0, 15, 30, 0, 0 }, flood_l[5] = { 0, 40, 60, 40, 0 };

  kitchen_says (none_l, 60, 20, "Leave the pan cold: there is nothing to boil through Monday.", NULL);
  kitchen_says (none_l, 60, NAN, "Add a cooker and its pan: without them nothing can be said of nights.",
                NULL);
  /* 20 L that have to be on the stove by Friday. */
  kitchen_says (little_l, 60, 25, "Boil on Friday, or sap is past its time.", NULL);
  kitchen_says (little_l, 60, 15, "Boil tonight and on Friday, or sap is past its time.", NULL);
  /* 20 and 15 and 30 L in 40 L: 25 have to be gone by Saturday. */
  kitchen_says (much_l, 40, 30, "Boil on Friday, or the store runs over.",
                "Have 5.0 L more room by Saturday to be safe nine times in ten.");
  kitchen_says (flood_l, 50, 20, "Boil tonight, on Friday and in 2 more nights, or the store runs over.",
                "Have 30 L more room by Saturday and 50 L by Sunday: the pan alone cannot keep up.");
  kitchen_says (little_l, 60, 5, "Boil tonight, on Friday and in 2 more nights, or sap is past its time.",
                "All the same 10 L are past their time after Friday: look at them before boiling; local food "
                "rules come first.");
}

/* --- whatever it says --- */

static void
test_every (void)
{
  const FrSay say = say_of ();
  const double chances[] = { NAN, 0, 0.25, 0.4, 0.6, 0.9, 1 };

  for (guint code = 0; code < FR_N_ANSWERS; code++)
    for (guint spell = 0; spell < FR_N_SPELLS; spell++)
      for (guint room = 0; room < FR_N_ROOMS; room++)
        for (guint k = 0; k < 16; k++)
          {
            FrForecastAnswer answer = { .code = code,
                                        .today = TODAY,
                                        .gather_hour = k & 1 ? 12 : -1,
                                        .first = { 2026, 3, 13 },
                                        .last = { 2026, 3, 15 },
                                        .n_run_days = 3,
                                        .expected = { 1, 2, 3, 4, 5, 3 },
                                        .is_per_tap = (k & 2) != 0,
                                        .hanging_l = 0.04,
                                        .free_l = 12.34,
                                        .is_after_boil = k & 1,
                                        .room = room,
                                        .spell = spell,
                                        .known_until = { 2026, 3, 31 },
                                        .n_known = k,
                                        .n_gaps = k / 2,
                                        .over_probability = chances[k % 7],
                                        .off_flavour_probability = chances[(k + 3) % 7] };
            g_autofree char *first = NULL, *second = NULL;
            g_autoptr (GPtrArray) warnings = fr_forecast_warnings (&answer);

            if (k & 4)
              answer.next_run = (FrDate){ 2026, 4, 2 };
            answer.is_next_by_past = (k & 8) != 0;
            if (code != FR_ANSWER_EMPTY)
              answer.n_run_days = 0;
            if (code == FR_ANSWER_OVER)
              answer.over_probability = 0.8 + 0.2 * k / 15;
            first = fr_forecast_sentence (&answer, &say);
            second = fr_forecast_reason (&answer, &say);
            sentence_markup (first);
            if (second != NULL)
              sentence (second);
            for (guint i = 0; i < warnings->len; i++)
              sentence (warnings->pdata[i]);
          }
  for (guint why = 0; why < FR_N_TAP_DATE_WHYS; why++)
    {
      FrTapDate date;
      FrTapDates dates = tap_dates (&date, why);
      g_autofree char *first = fr_tap_date_sentence (&dates, &say),
                      *second = fr_tap_date_reason (&dates, &say);

      sentence_markup (first);
      sentence (second);
    }
  for (guint i = 0; i < 27; i++)
    {
      const FrForecastDay day = { .run_probability = (i % 3) * 0.4,
                                  .thaw_h = i / 3 % 3 * 6,
                                  .frozen_h = i / 9 * 10,
                                  .low_c = i / 9 * -6.0 };
      g_autofree char *text = fr_forecast_day_why (&day, &say);

      sentence (text);
    }
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "C");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecast-words/week", test_week);
  g_test_add_func ("/forecast-words/days-named", test_days_named);
  g_test_add_func ("/forecast-words/few", test_few);
  g_test_add_func ("/forecast-words/season", test_season);
  g_test_add_func ("/forecast-words/tap-date", test_tap_date);
  g_test_add_func ("/forecast-words/kitchen", test_kitchen);
  g_test_add_func ("/forecast-words/every", test_every);
  return g_test_run ();
}
