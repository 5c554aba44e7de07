/* What the forecast tells to do, on random weeks, against a reading of the days written apart: as one goes
 * through a calendar with a finger. */
#include "domain/plan/forecast-answer.h"

#include "found.h"

#include <string.h>

#define DAYS 20
#define FIRST ((FrDate){ 2031, 3, 1 })

typedef struct
{
  FrForecastDay days[DAYS];
  FrForecast forecast;
  guint n_past; /* days before as_of, with it */
  guint n_seen; /* days within the weather */
} Weeks;

static void
weeks_random (Weeks *weeks, GRand *rand)
{
  double so_far_l = 50, hi_l = 50;

  memset (weeks, 0, sizeof *weeks);
  weeks->n_past = (guint)g_rand_int_range (rand, 0, 8);
  weeks->n_seen = weeks->n_past + (guint)g_rand_int_range (rand, 0, DAYS - 8);
  for (guint i = 0; i < DAYS; i++)
    {
      FrForecastDay *day = &weeks->days[i];
      double litres = g_rand_double_range (rand, 0, 2);

      day->date = fr_date_add_days (FIRST, (gint)i);
      day->is_ahead = i >= weeks->n_past;
      day->is_beyond = i >= weeks->n_seen;
      day->run_probability = g_rand_int_range (rand, 0, 5) == 0 ? NAN : g_rand_double (rand);
      day->per_tap.middle_l = isnan (day->run_probability) ? NAN : litres;
      day->bush.middle_l = 10 * day->per_tap.middle_l;
      day->gathered_l = !day->is_ahead && g_rand_int_range (rand, 0, 4) == 0 ? 1 : NAN;
      day->frozen_h = g_rand_int_range (rand, 0, 25);
      day->thaw_h = g_rand_int_range (rand, 0, 25 - (gint)day->frozen_h);
      day->low_c = day->frozen_h > 0 ? g_rand_double_range (rand, -15, 0) : 2;
      so_far_l += day->is_ahead ? litres : 0;
      hi_l += day->is_ahead ? 2 * litres : 0;
      day->so_far = (FrLitres){ .middle_l = so_far_l, .hi_l = hi_l };
    }
  weeks->forecast = (FrForecast){ .n_days = DAYS,
                                  .days = weeks->days,
                                  .n_taps = 10,
                                  .gathered_l = 50,
                                  .as_of = fr_date_add_days (FIRST, (gint)weeks->n_past - 1),
                                  .over_probability = g_rand_double (rand) };
}

/* By the finger: a mark for each day. R run day within the weather, r one told by past seasons, . any other
 * known, ? a gap, - past. */
static void
mark (const Weeks *weeks, char marks[DAYS + 1])
{
  for (guint i = 0; i < DAYS; i++)
    {
      double chance = weeks->days[i].run_probability;

      marks[i] = i < weeks->n_past    ? '-'
                 : isnan (chance)     ? '?'
                 : i >= weeks->n_seen ? (chance >= 0.5 ? 'r' : ',')
                 : chance >= 0.5      ? 'R'
                                      : '.';
    }
  marks[DAYS] = '\0';
}

static gint
day_number (FrDate date)
{
  return date.year ? (gint)(fr_date_to_days (date) - fr_date_to_days (FIRST)) : -1;
}

static void
check (const Weeks *weeks, guint *n_of)
{
  const double free_l = 12;
  const FrAnswerQuestion question
      = { &weeks->forecast, TRUE, fr_date_add_days (FIRST, (gint)weeks->n_past), 17, free_l, FALSE };
  FrForecastAnswer answer;
  char marks[DAYS + 1];
  const char *first, *after, *next;
  gint last_known = -1;
  double hanging_l = weeks->n_past > 0 ? 0 : NAN;

  mark (weeks, marks);
  fr_forecast_answer (&question, &answer);
  n_of[answer.code]++;
  first = strchr (marks, 'R');
  g_assert_cmpint (day_number (answer.first), ==, first ? first - marks : -1);
  g_assert_cmpuint (answer.n_run_days, ==, first ? strspn (first, "R") : 0);
  g_assert_cmpint (day_number (answer.last), ==, first ? first - marks + (gint)strspn (first, "R") - 1 : -1);
  after = first ? first + strspn (first, "R") : marks + weeks->n_past;
  next = strpbrk (after, "Rr");
  g_assert_cmpint (day_number (answer.next_run), ==, next ? next - marks : -1);
  g_assert_cmpint (answer.is_next_by_past, ==, next != NULL && *next == 'r');
  for (gint i = 0; i < DAYS; i++)
    if (marks[i] == 'R' || marks[i] == '.')
      last_known = i;
  g_assert_cmpint (day_number (answer.known_until), ==, last_known);
  /* What hangs, back from the last past day to an emptying. */
  for (gint i = (gint)weeks->n_past - 1; i >= 0 && isnan (weeks->days[i].gathered_l); i--)
    hanging_l += weeks->days[i].bush.middle_l;
  /* Seven days are the most. */
  if (weeks->n_past == 0 || isnan (hanging_l))
    g_assert_true (isnan (answer.hanging_l));
  else
    found_near ("what hangs, L", answer.hanging_l, hanging_l, 1e-9);
  if (last_known < 0)
    {
      g_assert_cmpint (answer.code, ==, weeks->forecast.over_probability >= 0.8 ? FR_ANSWER_OVER : FR_ANSWER_NO_WEATHER);
      return;
    }
  found_near ("expected, L", answer.expected.middle_l,
              weeks->days[first ? day_number (answer.last) : last_known].so_far.middle_l - 50
                  + (isnan (hanging_l) ? 0 : hanging_l),
              1e-9);
  g_assert_cmpint (answer.room, ==,
                   answer.expected.hi_l <= free_l       ? FR_ROOM_ENOUGH
                   : answer.expected.middle_l <= free_l ? FR_ROOM_TIGHT
                                                        : FR_ROOM_SHORT);
  if (first != NULL)
    g_assert_cmpint (answer.code, ==, FR_ANSWER_EMPTY);
  else if (weeks->forecast.over_probability >= 0.8)
    g_assert_cmpint (answer.code, ==, FR_ANSWER_OVER);
  else
    g_assert_cmpint (answer.code, ==, hanging_l >= 5 ? FR_ANSWER_HANGING : FR_ANSWER_WAIT);
}

static void
test_weeks (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  guint n_of[FR_N_ANSWERS] = { 0 };

  for (guint i = 0; i < 3000; i++)
    {
      Weeks weeks;

      weeks_random (&weeks, rand);
      check (&weeks, n_of);
    }
  for (guint code = 0; code < FR_N_ANSWERS; code++)
    if (code != FR_ANSWER_NOT_TAPPED)
      g_assert_cmpuint (n_of[code], >, 20);
}

/* Days told apart by their hours; the thresholds are the header's. */
static void
test_spells (void)
{
  static const struct
  {
    double low_c, frozen_h, thaw_h;
    FrSpell spell;
  } cases[] = {
    { -9, 24, 0, FR_SPELL_HARD_FREEZE }, { -8, 22, 2, FR_SPELL_HARD_FREEZE },
    { -7.9, 24, 0, FR_SPELL_FREEZE },    { -12, 15, 8, FR_SPELL_SLACK },
    { 3, 0, 24, FR_SPELL_WARM },         { 0.5, 0, 0, FR_SPELL_WARM },
    { NAN, NAN, NAN, FR_SPELL_UNKNOWN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const FrForecastDay day
          = { .low_c = cases[i].low_c, .frozen_h = cases[i].frozen_h, .thaw_h = cases[i].thaw_h };

      g_assert_cmpint (fr_forecast_day_spell (&day), ==, cases[i].spell);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecast-answer/weeks", test_weeks);
  g_test_add_func ("/forecast-answer/spells", test_spells);
  return found_run ();
}
