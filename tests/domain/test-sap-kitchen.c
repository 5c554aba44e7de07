/* The kitchen's evenings, against a small program of pails written apart that tries every choice of nights;
 * and the largest boil of a night against tonight's own plan. */
#include "domain/plan/sap-kitchen.h"

#include "evenings.h"
#include "found.h"
#include "random-season.h"

#define DAYS 9
#define LOTS 3
#define TODAY ((FrDate){ 2031, 3, 12 })

typedef struct
{
  double come_l[DAYS];
  FrKitchenLot lots[LOTS];
  FrKitchenQuestion question;
} Ask;

/* Whole litres, so that nothing is lost in rounding. */
static void
ask_random (Ask *ask, GRand *rand)
{
  ask->question = (FrKitchenQuestion){ .today = TODAY,
                                       .n_days = DAYS,
                                       .n_lots = LOTS,
                                       .lots = ask->lots,
                                       .capacity_l = g_rand_int_range (rand, 15, 70),
                                       .night_l = g_rand_int_range (rand, 5, 35),
                                       .keeps_days = (guint)g_rand_int_range (rand, 0, 6) };
  for (guint d = 0; d < DAYS; d++)
    ask->come_l[d] = g_rand_boolean (rand) ? g_rand_int_range (rand, 0, 25) : 0;
  for (guint i = 0; i < LOTS; i++)
    {
      gint in = g_rand_int_range (rand, 0, 8);

      ask->lots[i] = (FrKitchenLot){ g_rand_int_range (rand, 0, 12), fr_date_add_days (TODAY, in) };
      if (in == 7)
        ask->lots[i].boil_by = (FrDate){ 0 };
    }
  ask->question.come_in_l[0] = ask->question.come_in_l[1] = ask->come_l;
}

/* --- pails --- */

typedef struct
{
  double volume_l;
  gint by; /* last evening */
} Pail;

typedef struct
{
  double store_l[DAYS];
  double late_l[DAYS];
  double boiled_l[DAYS];
  double most_over_l;
  gint first_over;
  gboolean is_saved;
} Course;

static int
by_order (const void *a, const void *b)
{
  return ((const Pail *)a)->by - ((const Pail *)b)->by;
}

/* Each lot in a pail of its own; a night takes from the pail that is due first. Bit d of @nights: boil in
 * night d. */
static Course
course_of (const Ask *ask, guint nights)
{
  Course course = { .first_over = -1, .is_saved = TRUE };
  Pail pails[LOTS + DAYS];
  guint n = 0;

  for (guint i = 0; i < LOTS; i++)
    pails[n++] = (Pail){ ask->lots[i].volume_l,
                         ask->lots[i].boil_by.year
                             ? (gint)(fr_date_to_days (ask->lots[i].boil_by) - fr_date_to_days (TODAY))
                             : 10000 };
  for (gint d = 0; d < DAYS; d++)
    {
      double left_l = nights & (1u << d) ? ask->question.night_l : 0;

      pails[n++] = (Pail){ ask->come_l[d], d + (gint)ask->question.keeps_days };
      for (guint i = 0; i < n; i++)
        course.store_l[d] += pails[i].volume_l;
      if (course.store_l[d] > ask->question.capacity_l)
        {
          if (course.first_over < 0)
            course.first_over = d;
          course.most_over_l = fmax (course.most_over_l, course.store_l[d] - ask->question.capacity_l);
          course.is_saved = FALSE;
        }
      qsort (pails, n, sizeof *pails, by_order);
      for (guint i = 0; i < n; i++)
        {
          double take_l = fmin (left_l, pails[i].volume_l);

          pails[i].volume_l -= take_l;
          left_l -= take_l;
          course.boiled_l[d] += take_l;
          if (pails[i].by <= d)
            course.late_l[d] += pails[i].volume_l;
        }
      course.is_saved = course.is_saved && course.late_l[d] == 0;
    }
  return course;
}

static void
check (const Ask *ask, guint *n_saved, guint *n_lost)
{
  g_autoptr (FrKitchen) kitchen = fr_kitchen_new (&ask->question);
  const FrKitchenCourseDays *days = &kitchen->courses[FR_KITCHEN_MIDDLE];
  const Course idle = course_of (ask, 0);
  guint ours = 0, fewest = G_MAXUINT;
  gint latest = -1;
  double least_over_l = INFINITY;
  Course course;

  for (guint d = 0; d < DAYS; d++)
    ours |= days->nights[d].must_boil ? 1u << d : 0;
  course = course_of (ask, ours);
  for (guint d = 0; d < DAYS; d++)
    {
      found_near ("in store of an evening, L", days->nights[d].store_l, course.store_l[d], 1e-9);
      found_near ("boiled in a night, L", days->nights[d].boiled_l, course.boiled_l[d], 1e-9);
      found_near ("past its time, L", days->nights[d].late_l, course.late_l[d], 1e-9);
    }
  g_assert_cmpint (days->first_over, ==, course.first_over);
  g_assert_cmpint (days->first_over_idle, ==, idle.first_over);
  for (guint nights = 0; nights < 1u << DAYS; nights++)
    {
      const Course other = course_of (ask, nights);

      least_over_l = fmin (least_over_l, other.most_over_l);
      if (!other.is_saved)
        continue;
      fewest = MIN (fewest, (guint)__builtin_popcount (nights));
      latest = MAX (latest, nights == 0 ? DAYS : __builtin_ctz (nights));
    }
  found_near ("room that is missing, L", days->missing_l, least_over_l, 1e-9);
  g_assert_cmpint (days->missing_by < 0, ==, days->first_over < 0);
  if (days->missing_by >= 0)
    found_near ("room that is missing on its evening, L", course.store_l[days->missing_by] - ask->question.capacity_l, least_over_l,
                1e-9);
  g_assert_cmpint (course.is_saved, ==, fewest != G_MAXUINT);
  g_assert_cmpint (course.is_saved, ==, days->first_over < 0 && days->first_late < 0);
  if (!course.is_saved)
    {
      (*n_lost)++;
      return;
    }
  (*n_saved)++;
  /* As few nights as there can be, and none that saves all starts later. */
  g_assert_cmpuint (days->n_must, ==, fewest);
  g_assert_cmpint (days->first_must < 0 ? DAYS : days->first_must, ==, latest);
}

static void
test_every_choice (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20310312);
  guint n_saved = 0, n_lost = 0;

  for (guint i = 0; i < 400; i++)
    {
      Ask ask;

      ask_random (&ask, rand);
      check (&ask, &n_saved, &n_lost);
    }
  /* Both kinds are met. */
  g_assert_cmpuint (n_saved, >, 50);
  g_assert_cmpuint (n_lost, >, 50);
}

static void
test_unknown (void)
{
  const double come_l[] = { 0, 30, 30 };
  const FrKitchenQuestion question = { .today = TODAY,
                                       .n_days = 3,
                                       .come_in_l = { come_l, come_l },
                                       .capacity_l = NAN,
                                       .night_l = NAN,
                                       .least_l = 2,
                                       .keeps_days = 1 };
  g_autoptr (FrKitchen) kitchen = fr_kitchen_new (&question);
  const FrKitchenCourseDays *days = &kitchen->courses[0];

  g_assert_true (isnan (kitchen->free_now_l) && isnan (kitchen->free_after_l));
  g_assert_true (isnan (days->nights[1].over_l) && isnan (days->nights[1].boiled_l));
  g_assert_cmpint (days->first_over, ==, -1);
  g_assert_cmpuint (days->n_must, ==, 0);
  g_assert_true (days->nights[0].is_nothing);
  g_assert_false (days->nights[1].is_nothing);
}

/* What is said to be the most is what tonight's plan uses when there is that much and more, and no less than
 * it uses of anything less. */
static void
test_night (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  FrPlanInput input = evening_input (zone, 10);
  double least_l, most_l;

  input.kits[0] = evening_kit ("Hot plate", 1500);
  input.n_kits = 1;
  most_l = fr_kitchen_night_l (&input, &least_l);
  found_near ("smallest boil, L", least_l, input.kits[0].cutoff_l, 0);
  g_assert_cmpfloat (most_l, >, 4);
  for (double sap_l = 5; sap_l < 2 * most_l; sap_l += 1.5)
    {
      g_autoptr (FrPlan) plan = NULL;

      input.sap_l = sap_l;
      plan = fr_plan_new (&input);
      g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
      if (sap_l > most_l)
        found_near ("most of a night, L", plan->used_l, most_l, 1e-9);
      else
        g_assert_cmpfloat (plan->used_l, <=, most_l + 1e-9);
    }
  input.kits[0].off = TRUE;
  g_assert_true (isnan (fr_kitchen_night_l (&input, NULL)));
}

/* A forecast of five days in which @middle_l comes each day in the middle, and half as much again nine times
 * in ten. */
static FrForecast
five_days (FrDate today, double middle_l, FrForecastDay *days)
{
  for (guint i = 0; i < 5; i++)
    days[i] = (FrForecastDay){ .date = fr_date_add_days (today, (gint)i + 1),
                               .is_ahead = TRUE,
                               .run_probability = 0.9,
                               .gathered_l = NAN,
                               .bush = { .middle_l = middle_l },
                               .per_tap = { .middle_l = middle_l / 10 },
                               .so_far = { .middle_l = 100 + middle_l * (i + 1),
                                           .hi_l = 100 + 1.5 * middle_l * (i + 1) } };
  return (FrForecast){
    .n_days = 5, .days = days, .as_of = today, .n_taps = 10, .gathered_l = 100, .over_probability = 0
  };
}

/* Random books: litres, deadlines and what comes in, from the store and the forecast read anew. */
static void
test_book (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  g_autoptr (GRand) rand = g_rand_new_with_seed (4);
  guint n_late = 0;

  for (guint round = 0; round < 40; round++)
    {
      g_autoptr (RandomSeason) season = random_season_new_kept (rand, 2026, zone);
      FrDate today = { 2026, 3, (guint8)g_rand_int_range (rand, 5, 28) };
      gint64 now_utc, second, from_utc, to_utc;
      g_autoptr (FrStock) stock = NULL;
      g_autoptr (FrKitchen) dry = NULL, wet = NULL;
      FrForecastDay days[5];
      FrForecast forecast = five_days (today, 0, days);
      FrForecastAnswer answer;
      FrAnswerQuestion asked = { &forecast, TRUE, today, 17, NAN, FALSE };
      double stored_l = 0;

      fr_zone_instant (zone, today, 19 * 3600, &now_utc, &second);
      fr_day_span_utc (zone, fr_season_first_day (2026), &from_utc, &to_utc);
      stock = fr_stock_new (&season->book, from_utc, now_utc);
      for (guint i = 0; i < stock->n_places; i++)
        stored_l += stock->places[i].volume_l > 0.01 ? stock->places[i].volume_l : 0;
      fr_forecast_answer (&asked, &answer);
      dry = fr_kitchen_of_book (&season->book, &forecast, &answer, now_utc);
      g_assert_cmpuint (dry->n_days, ==, 6);
      found_near ("in store, L", dry->stored_l, stored_l, 1e-9);
      found_near ("what the store holds, L", dry->capacity_l, stock->capacity_l, 1e-9);
      for (gint d = 0; d < 6; d++)
        {
          gint64 next_utc;
          double late_l = 0;

          /* Late after the night of day d: what is past its time before the evening of the next. */
          fr_zone_instant (zone, fr_date_add_days (today, d + 1), 18 * 3600, &next_utc, &second);
          for (guint i = 0; i < stock->n_places; i++)
            if (stock->places[i].volume_l > 0.01 && stock->places[i].spoils_utc != G_MININT64
                && stock->places[i].spoils_utc < next_utc)
              late_l += stock->places[i].volume_l;
          found_near ("past its time by an evening, L", dry->courses[0].nights[d].late_l, late_l, 1e-9);
          n_late += late_l > 0;
        }
      forecast = five_days (today, 12, days);
      fr_forecast_answer (&asked, &answer);
      wet = fr_kitchen_of_book (&season->book, &forecast, &answer, now_utc);
      /* No cooker in the book: nothing is boiled. */
      g_assert_true (isnan (wet->night_l));
      found_near ("in store at last, L", wet->courses[FR_KITCHEN_MIDDLE].nights[5].store_l, stored_l + 60,
                  1e-9);
      found_near ("in store at last, nine in ten, L", wet->courses[FR_KITCHEN_NINE_IN_TEN].nights[5].store_l,
                  stored_l + 90, 1e-9);
    }
  g_assert_cmpuint (n_late, >, 20);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-kitchen/every-choice", test_every_choice);
  g_test_add_func ("/sap-kitchen/unknown", test_unknown);
  g_test_add_func ("/sap-kitchen/night", test_night);
  g_test_add_func ("/sap-kitchen/book", test_book);
  return found_run ();
}
