/* The store through the coming evenings, sorted by the evening on which sap has to be on the stove.
 *
 * Whether a night must boil is tried: the nights after it boil all they can, once with it and once without.
 * Boiling earlier never leaves more in the store or past its time on any later evening, so when both come to
 * the same the night can be left out. */
#include "domain/plan/sap-kitchen.h"

#include <math.h>

/* Sums of litres are off by rounding. */
#define ROUNDING_L 1e-9

static double
lots_l (const FrKitchenQuestion *question)
{
  double sum_l = 0;

  for (guint i = 0; i < question->n_lots; i++)
    sum_l += question->lots[i].volume_l;
  return sum_l;
}

/* Sap by its last evening: [0, n_days), and last what has no such evening or a later one. */
static void
put_lots (const FrKitchenQuestion *question, double *by_l)
{
  gint64 today = fr_date_to_days (question->today);

  for (guint d = 0; d <= question->n_days; d++)
    by_l[d] = 0;
  for (guint i = 0; i < question->n_lots; i++)
    {
      const FrKitchenLot *lot = &question->lots[i];
      gint64 by = lot->boil_by.year ? fr_date_to_days (lot->boil_by) - today : question->n_days;

      by_l[CLAMP (by, 0, question->n_days)] += lot->volume_l;
    }
}

static double
sum_to (const double *by_l, guint end)
{
  double sum_l = 0;

  for (guint d = 0; d < end; d++)
    sum_l += by_l[d];
  return sum_l;
}

/* One evening and its night: @come_in_l in, up to @night_l out, what is due first before the rest. Returns
 * what was boiled. */
static double
pass (const FrKitchenQuestion *question, guint day, double come_in_l, double night_l, double *by_l)
{
  double left_l = night_l;

  by_l[MIN (day + question->keeps_days, question->n_days)] += come_in_l;
  for (guint d = 0; d <= question->n_days && left_l > 0; d++)
    {
      double take_l = fmin (by_l[d], left_l);

      by_l[d] -= take_l;
      left_l -= take_l;
    }
  return night_l - left_l;
}

typedef struct
{
  double over_l;
  double late_l;
} Lost;

/* What runs over and what is late from @day on, litres of each evening added up, when that night boils
 * @tonight_l and all later ones all they can. */
static Lost
lost_from (const FrKitchenQuestion *question, const double *come_in_l, guint day, double tonight_l,
           const double *now_l)
{
  g_autofree double *by_l = g_memdup2 (now_l, (question->n_days + 1) * sizeof *now_l);
  Lost lost = { 0, 0 };

  for (guint d = day; d < question->n_days; d++)
    {
      if (!isnan (question->capacity_l))
        lost.over_l += fmax (sum_to (by_l, question->n_days + 1) + come_in_l[d] - question->capacity_l, 0);
      pass (question, d, come_in_l[d], d == day ? tonight_l : question->night_l, by_l);
      lost.late_l += sum_to (by_l, d + 1);
    }
  return lost;
}

static void
ask_night (const FrKitchenQuestion *question, const double *come_in_l, guint day, const double *by_l,
           FrKitchenNight *night)
{
  Lost with = lost_from (question, come_in_l, day, question->night_l, by_l);
  Lost without = lost_from (question, come_in_l, day, 0, by_l);

  night->is_for_room = without.over_l > with.over_l + ROUNDING_L;
  night->is_for_time = without.late_l > with.late_l + ROUNDING_L;
  night->must_boil = night->is_for_room || night->is_for_time;
}

static void
put_nights (const FrKitchenQuestion *question, const double *come_in_l, FrKitchenCourseDays *course)
{
  g_autofree double *by_l = g_new (double, question->n_days + 1);

  put_lots (question, by_l);
  for (guint d = 0; d < question->n_days; d++)
    {
      FrKitchenNight *night = &course->nights[d];

      night->store_l = sum_to (by_l, question->n_days + 1) + come_in_l[d];
      night->is_nothing = night->store_l < question->least_l || night->store_l <= ROUNDING_L;
      night->over_l = isnan (question->capacity_l) ? NAN : fmax (night->store_l - question->capacity_l, 0);
      if (question->night_l > 0 && !night->is_nothing)
        ask_night (question, come_in_l, d, by_l, night);
      night->boiled_l = pass (question, d, come_in_l[d], night->must_boil ? question->night_l : 0, by_l);
      if (isnan (question->night_l))
        night->boiled_l = NAN;
      night->late_l = sum_to (by_l, d + 1);
    }
}

static void
read_course (const FrKitchenQuestion *question, const double *come_in_l, FrKitchenCourseDays *course)
{
  double come_l = lots_l (question);

  course->first_must = course->first_over = course->first_over_idle = course->missing_by = course->first_late
      = -1;
  for (gint d = 0; d < (gint)question->n_days; d++)
    {
      const FrKitchenNight *night = &course->nights[d];

      come_l += come_in_l[d];
      course->n_must += night->must_boil;
      if (night->must_boil && course->first_must < 0)
        course->first_must = d;
      if (night->over_l > ROUNDING_L && course->first_over < 0)
        course->first_over = d;
      if (night->over_l > course->missing_l + ROUNDING_L)
        {
          course->missing_l = night->over_l;
          course->missing_by = d;
        }
      if (come_l > question->capacity_l + ROUNDING_L && course->first_over_idle < 0)
        course->first_over_idle = d;
      if (night->late_l > ROUNDING_L && course->first_late < 0)
        course->first_late = d;
    }
}

FrKitchen *
fr_kitchen_new (const FrKitchenQuestion *question)
{
  FrKitchen *kitchen = g_new0 (FrKitchen, 1);
  double tonight_l = isnan (question->night_l) ? 0 : question->night_l;

  kitchen->today = question->today;
  kitchen->n_days = question->n_days;
  kitchen->capacity_l = question->capacity_l;
  kitchen->night_l = question->night_l;
  kitchen->stored_l = lots_l (question);
  kitchen->free_now_l = question->capacity_l - kitchen->stored_l;
  kitchen->free_after_l = question->capacity_l - fmax (kitchen->stored_l - tonight_l, 0);
  for (guint c = 0; c < FR_N_KITCHEN_COURSES; c++)
    {
      kitchen->courses[c].nights = g_new0 (FrKitchenNight, question->n_days);
      put_nights (question, question->come_in_l[c], &kitchen->courses[c]);
      read_course (question, question->come_in_l[c], &kitchen->courses[c]);
    }
  return kitchen;
}

void
fr_kitchen_free (FrKitchen *kitchen)
{
  if (!kitchen)
    return;
  for (guint c = 0; c < FR_N_KITCHEN_COURSES; c++)
    g_free (kitchen->courses[c].nights);
  g_free (kitchen);
}
