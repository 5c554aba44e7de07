/* Courses of a day.
 *
 * Cosine: low at 06:00, high at 15:00 standard time, half a cosine from each to the next; common practice in
 * modelling sap and degree-days.
 *
 * Habit: the same extremes, and between them the shares of the way that the hours take in February to April
 * on the mean of the 1981–2010 hourly normals of Seattle (NOAA, as in the open vega-datasets), rounded: the
 * morning climbs late, half the evening's fall is done four hours after the high. Of single days that is a
 * habit, not a law.
 *
 * What each misses: docs/physics/air-hours.md. */
#include "domain/maths/day-course.h"

#include <math.h>

#define LOW_HOUR 6
#define HIGH_HOUR 15

static const FrCoursePoint rise[]
    = { { LOW_HOUR * 60, 0 }, { 480, 0.15 }, { 600, 0.48 }, { 720, 0.79 }, { HIGH_HOUR * 60, 1 } };
static const FrCoursePoint fall[]
    = { { HIGH_HOUR * 60, 0 }, { 1020, 0.12 }, { 1140, 0.43 },
        { 1260, 0.59 },        { 1380, 0.71 }, { (FR_DAY_HOURS + LOW_HOUR) * 60, 1 } };

const FrCoursePoint *
fr_course_habit (gboolean falls, guint *n_out)
{
  *n_out = falls ? G_N_ELEMENTS (fall) : G_N_ELEMENTS (rise);
  return falls ? fall : rise;
}

static double
habit_share (gboolean falls, double minute)
{
  guint n, i = 0;
  const FrCoursePoint *points = fr_course_habit (falls, &n);

  while (i + 2 < n && minute >= points[i + 1].minute)
    i++;
  return points[i].share_ratio
         + (points[i + 1].share_ratio - points[i].share_ratio) * (minute - points[i].minute)
               / (points[i + 1].minute - points[i].minute);
}

static double
cosine_share (gboolean falls, double minute)
{
  double from = 60 * (falls ? HIGH_HOUR : LOW_HOUR), to = 60 * (falls ? FR_DAY_HOURS + LOW_HOUR : HIGH_HOUR);

  return (1 - cos (G_PI * (minute - from) / (to - from))) / 2;
}

void
fr_day_course (FrCourseKind kind, FrDate date, FrDayCourse *course_out)
{
  g_return_if_fail ((guint)kind < FR_N_COURSES && fr_date_is_valid (date));
  *course_out = (FrDayCourse){ 0 };
  for (gint hour = 0; hour < FR_DAY_HOURS; hour++)
    {
      gboolean falls = hour < LOW_HOUR || hour >= HIGH_HOUR;
      double minute = 60 * (hour < LOW_HOUR ? hour + FR_DAY_HOURS : hour);
      double share = kind == FR_COURSE_HABIT ? habit_share (falls, minute) : cosine_share (falls, minute);
      double *shares = course_out->share_ratio[hour];

      shares[hour < LOW_HOUR ? FR_EXTREME_HIGH_BEFORE : falls ? FR_EXTREME_HIGH : FR_EXTREME_LOW] = 1 - share;
      shares[hour < LOW_HOUR ? FR_EXTREME_LOW : falls ? FR_EXTREME_LOW_AFTER : FR_EXTREME_HIGH] = share;
    }
}

double
fr_day_course_c (const FrDayCourse *course, guint hour, const double extremes_c[FR_N_EXTREMES])
{
  double sum = 0;

  g_return_val_if_fail (hour < FR_DAY_HOURS, NAN);
  for (guint i = 0; i < FR_N_EXTREMES; i++)
    if (course->share_ratio[hour][i] > 0)
      sum += course->share_ratio[hour][i] * extremes_c[i];
  return sum;
}
