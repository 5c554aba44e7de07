/* When to tap, against seasons run anew for every date by a program written apart. */
#include "domain/plan/tap-date.h"

#include "found.h"
#include "winters.h"

#define FIRST ((FrDate){ 2031, 1, 1 })

typedef struct
{
  FrAirHours *air;
  FrAirHours *past[3];
  FrForecastQuestion question;
} Ask;

static void
ask_clear (Ask *ask)
{
  fr_air_hours_free (ask->air);
  for (guint i = 0; i < 3; i++)
    fr_air_hours_free (ask->past[i]);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Ask, ask_clear)

/* 60 days of this year, and three that may follow. */
static void
ask_init (Ask *ask, FrDate as_of, guint n_days)
{
  ask->air = winter_air (FIRST, 0, n_days, 0, 0.3);
  for (guint i = 0; i < 3; i++)
    ask->past[i] = winter_air ((FrDate){ 2028 + i, 1, 1 }, 0, 160, i - 1.0, 1.1 * i);
  ask->question = winter_question (ask->air, as_of);
  ask->question.n_past = 3;
  ask->question.past = (const FrAirHours *const *)ask->past;
}

/* Litres of one hole by the rules of the header and nothing else: the run hour by hour, each day that ends at
 * 17:00 after the day of drilling times what age leaves. */
static double
hole_units (const FrForecastQuestion *question, guint member, gint past, gint tapped)
{
  const FrSapShape *shape = &winter_members_of[member].shape;
  FrSapState state = fr_sap_state ();
  double units = 0;
  gint n_hours = past < 0 ? (gint)question->air->n_hours : FR_SEASON_DAYS * 24;

  for (gint h = 0; h < n_hours; h++)
    {
      double air_c
          = h < (gint)question->air->n_hours ? question->air->temp_c[h] : question->past[past]->temp_c[h];
      double ran = fr_sap_step (shape, &state, air_c);
      /* 17:00 of day d is hour 24 d + 17, and hour h fills the time after h:00. */
      gint day = h < 17 ? 0 : (h - 17) / 24 + 1;
      gint last = past < 0 ? (gint)(question->air->n_hours - 17) / 24 : FR_SEASON_DAYS - 1;

      if (day > tapped && day <= last)
        units += ran * exp (-(day - 0.5 - tapped) / shape->age_days);
    }
  return units;
}

/* Mean and quantiles of litres: gains of the prior in eight steps, log-normal scatter of the width that
 * @n_runs leaves. */
typedef struct
{
  double l[3 * 2 * 8];
  double sd[3 * 2 * 8];
  double weight[3 * 2 * 8];
  guint n;
} Cloud;

static void
cloud_of (const FrForecastQuestion *question, gint tapped, guint n_runs, Cloud *cloud)
{
  g_autoptr (FrSapLearn) learn = fr_sap_learn_new (&winter_members);
  guint n_past = MAX (question->n_past, 1);

  cloud->n = 0;
  for (guint m = 0; m < 2; m++)
    for (guint i = 0; i < n_past; i++)
      {
        double units = hole_units (question, m, question->n_past ? (gint)i : -1, tapped);

        for (guint k = 0; k < 8; k++)
          {
            cloud->l[cloud->n] = units * fr_sap_learn_gain_l (learn, m, (k + 0.5) / 8);
            cloud->sd[cloud->n] = winter_members_of[m].scatter_ratio * sqrt (0.25 + 0.75 / n_runs);
            cloud->weight[cloud->n++] = winter_members_of[m].weight_ratio / (8 * n_past);
          }
      }
}

static double
cloud_mean (const Cloud *cloud)
{
  double mean = 0;

  for (guint i = 0; i < cloud->n; i++)
    mean += cloud->weight[i] * ((cloud->l[i] + 0.05) * exp (cloud->sd[i] * cloud->sd[i] / 2) - 0.05);
  return mean;
}

static double
cloud_quantile (const Cloud *cloud, double share)
{
  double lo = 0, hi = 2000;

  while (hi - lo > 1e-6)
    {
      double at = (lo + hi) / 2, below = 0;

      for (guint i = 0; i < cloud->n; i++)
        below += cloud->weight[i] * 0.5
                 * erfc (-(log (at + 0.05) - log (cloud->l[i] + 0.05)) / cloud->sd[i] / sqrt (2));
      if (below < share)
        lo = at;
      else
        hi = at;
    }
  return lo;
}

/* Days on which a new hole is expected to give at least 0.2 L. */
static guint
n_runs (const FrForecastQuestion *question)
{
  guint n = 0;

  for (gint d = 0; d < FR_SEASON_DAYS; d++)
    {
      double expected = 0;
      Cloud with, without;

      /* What a hole of the day before has more than one of that day, its age taken off, is what ran on it. */
      cloud_of (question, d - 1, 30, &with);
      cloud_of (question, d, 30, &without);
      for (guint i = 0; i < with.n; i++)
        {
          double age_days = winter_members_of[i < with.n / 2 ? 0 : 1].shape.age_days;

          expected
              += with.weight[i] * (with.l[i] - without.l[i] * exp (-1 / age_days)) * exp (0.5 / age_days);
        }
      n += expected >= 0.2;
    }
  return n;
}

static void
test_against_rerun (void)
{
  g_auto (Ask) ask = { 0 };
  g_autoptr (FrTapDates) dates = NULL;
  guint runs;

  ask_init (&ask, (FrDate){ 2031, 2, 20 }, 60);
  runs = n_runs (&ask.question);
  dates = fr_tap_dates_new (&ask.question);
  g_assert_cmpuint (runs, >, 10);
  /* 26 January, which is the 25th day after midwinter, to 60 days after 20 February. */
  g_assert_cmpint (fr_date_to_days (dates->dates[0].date) - fr_date_to_days (FIRST), ==, 25);
  g_assert_cmpint (fr_date_to_days (dates->dates[dates->n_dates - 1].date) - fr_date_to_days (FIRST), ==,
                   50 + 60);
  for (guint i = 0; i < dates->n_dates; i += 3)
    {
      Cloud cloud;
      FrLitres total = dates->dates[i].total;

      cloud_of (&ask.question, 25 + (gint)i, runs, &cloud);
      found_near ("expected total, share", total.mean_l / cloud_mean (&cloud), 1, 1e-9);
      if (total.lo_l < 0.5)
        continue;
      found_near ("one in ten below, share", total.lo_l / cloud_quantile (&cloud, 0.1), 1, 0.02);
      found_near ("half below, share", total.middle_l / cloud_quantile (&cloud, 0.5), 1, 0.02);
      found_near ("nine in ten below, share", total.hi_l / cloud_quantile (&cloud, 0.9), 1, 0.02);
    }
}

/* The rule as the header states it, read off the dates anew. */
static void
test_rule (void)
{
  for (gint day = 20; day < 130; day += 5)
    {
      g_auto (Ask) ask = { 0 };
      g_autoptr (FrTapDates) dates = NULL;
      double most_l = 0;
      gint wanted = -1;

      ask_init (&ask, fr_date_add_days (FIRST, day), 140);
      dates = fr_tap_dates_new (&ask.question);
      for (guint i = 0; i < dates->n_dates; i++)
        if (fr_date_compare (dates->dates[i].date, ask.question.as_of) >= 0)
          most_l = fmax (most_l, dates->dates[i].total.mean_l);
      for (guint i = 0; i < dates->n_dates; i++)
        if (fr_date_compare (dates->dates[i].date, ask.question.as_of) >= 0
            && dates->dates[i].total.mean_l >= 0.99 * most_l)
          wanted = (gint)i;
      if (dates->why == FR_TAP_DATE_TOO_LATE)
        {
          g_assert_cmpint (day, >, 90);
          g_assert_cmpint (dates->recommended, ==, -1);
          g_assert_cmpint (fr_tap_dates_recommended (dates).year, ==, 0);
          continue;
        }
      g_assert_cmpint (dates->recommended, ==, wanted);
      g_assert_cmpint (fr_date_compare (fr_tap_dates_recommended (dates), dates->dates[wanted].date), ==, 0);
      if (wanted + 7 < (gint)dates->n_dates)
        {
          double loss_l = dates->dates[wanted].total.mean_l - dates->dates[wanted + 7].total.mean_l;

          found_near ("loss a week late, L", dates->late.loss_l, loss_l, 1e-12);
          g_assert_cmpfloat (dates->late.loss_l, >, 0.01 * dates->dates[wanted].total.mean_l - 1e-9);
          g_assert_cmpfloat (dates->late.better_probability, <=, 0.5);
        }
    }
}

/* The same weather half a year on, at midwinter of the south. */
static void
test_south (void)
{
  g_auto (Ask) north = { 0 }, south = { 0 };
  g_autoptr (FrTapDates) here = NULL, there = NULL;

  ask_init (&north, (FrDate){ 2031, 2, 10 }, 60);
  ask_init (&south, (FrDate){ 2031, 8, 10 }, 60);
  south.air->first = (FrDate){ 2031, 7, 1 };
  for (guint i = 0; i < 3; i++)
    south.past[i]->first = (FrDate){ 2028 + i, 7, 1 };
  south.question.is_south = TRUE;
  here = fr_tap_dates_new (&north.question);
  there = fr_tap_dates_new (&south.question);
  g_assert_cmpuint (here->n_dates, ==, there->n_dates);
  for (guint i = 0; i < here->n_dates; i++)
    found_near ("south against north, L", there->dates[i].total.mean_l, here->dates[i].total.mean_l, 1e-9);
  g_assert_cmpint (here->recommended, ==, there->recommended);
  g_assert_cmpint (there->dates[0].date.month, ==, 7);
  g_assert_cmpint (there->dates[0].date.day, ==, 26);
}

static void
test_no_past (void)
{
  g_auto (Ask) ask = { 0 };
  g_autoptr (FrTapDates) running = NULL, frozen = NULL, july = NULL, none = NULL;
  FrAirHours nothing = { .first = FIRST };
  FrSapMember few[2] = { winter_members_of[0], winter_members_of[1] };
  const FrSapMembers narrow = { 2, few, winter_members.gain_spread_ratio };
  Cloud cloud;

  few[0].scatter_ratio = few[1].scatter_ratio = 1e-3;
  /* Warm enough to run within the 80 days that are known. */
  ask_init (&ask, (FrDate){ 2031, 3, 1 }, 80);
  ask.question.n_past = 0;
  ask.question.members = &narrow;
  running = fr_tap_dates_new (&ask.question);
  g_assert_false (running->is_season_known);
  g_assert_cmpint (running->first_run.year, ==, 2031);
  g_assert_true (running->is_first_run_forecast);
  g_assert_cmpint (running->recommended, >=, 0);
  for (guint i = 0; i < running->n_dates; i++)
    {
      gint day = (gint)(fr_date_to_days (running->dates[i].date) - fr_date_to_days (FIRST));

      g_assert_cmpint (day, <, 79);
      if (i % 5 != 0)
        continue;
      /* The scatter is as good as none, so that the number of runs does not matter. */
      cloud_of (&ask.question, day, 1000, &cloud);
      for (guint k = 0; k < cloud.n; k++)
        cloud.sd[k] = 1e-3;
      found_near ("expected total of the weather alone, L", running->dates[i].total.mean_l,
                  cloud_mean (&cloud), 1e-4);
    }
  /* Three frozen days. */
  for (guint h = 0; h < ask.air->n_hours; h++)
    ask.air->temp_c[h] = -12;
  ask.air->n_hours = 72;
  ask.question.as_of = (FrDate){ 2031, 1, 2 };
  frozen = fr_tap_dates_new (&ask.question);
  g_assert_cmpint (frozen->recommended, ==, -1);
  g_assert_cmpint (frozen->why, ==, FR_TAP_DATE_UNKNOWN);
  g_assert_true (isnan (frozen->early.loss_l) && isnan (frozen->late.loss_ratio));
  /* The same in July. */
  ask.air->first = (FrDate){ 2031, 7, 1 };
  ask.question.as_of = (FrDate){ 2031, 7, 2 };
  july = fr_tap_dates_new (&ask.question);
  g_assert_cmpint (july->recommended, ==, -1);
  g_assert_cmpint (july->why, ==, FR_TAP_DATE_TOO_LATE);
  ask.question.as_of = (FrDate){ 2031, 1, 2 };
  /* Nothing at all. */
  ask.question.air = &nothing;
  none = fr_tap_dates_new (&ask.question);
  g_assert_cmpuint (none->n_dates, ==, 0);
  g_assert_cmpint (none->why, ==, FR_TAP_DATE_UNKNOWN);
}

static void
test_gaps (void)
{
  g_auto (Ask) ask = { 0 };
  g_autoptr (FrTapDates) dates = NULL;

  ask_init (&ask, (FrDate){ 2031, 2, 20 }, 60);
  /* 18:00 of day 40 to 16:00 of day 42 lie in the days that end at 17:00 of the days 41 and 42. */
  for (guint h = 40 * 24 + 18; h < 42 * 24 + 16; h++)
    ask.air->temp_c[h] = NAN;
  dates = fr_tap_dates_new (&ask.question);
  g_assert_cmpuint (dates->n_gap_days, ==, 2);
  g_assert_cmpint (dates->recommended, >=, 0);
}

/* Each reason in a season of its own. */
static void
test_reasons (void)
{
  static const struct
  {
    gint day;
    double warm_k;
    guint frozen_d; /* of the past seasons */
    FrTapDateWhy why;
  } cases[] = {
    { 5, -6, 50, FR_TAP_DATE_FROZEN },   /* January, and no thaw before late February in any year */
    { 5, 0, 0, FR_TAP_DATE_AGEING },     /* January, with a thaw now and then */
    { 64, 0, 50, FR_TAP_DATE_RUN_NEAR }, /* the end of February, a thaw on its way */
    { 75, 0, 0, FR_TAP_DATE_RUNNING },   /* mid-March */
    { 135, 0, 0, FR_TAP_DATE_TOO_LATE }, /* mid-May */
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (Ask) ask = { 0 };
      g_autoptr (FrTapDates) dates = NULL;

      ask_init (&ask, fr_date_add_days (FIRST, cases[i].day), (guint)cases[i].day + 8);
      ask.question.members = NULL; /* those that ship: holes that age slowly */
      for (guint h = 0; h < ask.air->n_hours; h++)
        ask.air->temp_c[h] += cases[i].warm_k;
      for (guint p = 0; p < 3; p++)
        for (guint h = 0; h < cases[i].frozen_d * 24; h++)
          ask.past[p]->temp_c[h] = -12;
      dates = fr_tap_dates_new (&ask.question);
      g_assert_cmpint (dates->why, ==, cases[i].why);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tap-date/against-rerun", test_against_rerun);
  g_test_add_func ("/tap-date/rule", test_rule);
  g_test_add_func ("/tap-date/south", test_south);
  g_test_add_func ("/tap-date/no-past", test_no_past);
  g_test_add_func ("/tap-date/gaps", test_gaps);
  g_test_add_func ("/tap-date/reasons", test_reasons);
  return found_run ();
}
