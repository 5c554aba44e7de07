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
 * Sun: W. J. Parton and J. A. Logan, A model for diurnal variation in soil and air temperature, Agricultural
 * Meteorology 23 (1981) 205–216, with their constants for air at 1.5 m (from memory): a sine from the low,
 * 0.17 h before sunrise, through the high, and from sunset on an exponential fall. Theirs does not quite
 * arrive at the next low; here it is stretched to do so, lest the air jump there.
 *
 * What each misses: docs/physics/air-hours.md. */
#include "domain/maths/day-course.h"

#include <math.h>
#include <string.h>

#define LOW_HOUR 6
#define HIGH_HOUR 15
#define HOUR_S 3600.0
#define HIGH_AFTER_NOON_H 1.86
#define NIGHT_FALL 2.2
#define LOW_AFTER_RISE_H (-0.17)
#define DAY_LEAST_H 4
#define DAY_MOST_H 23

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

static void
fixed_course (FrCourseKind kind, FrDayCourse *course)
{
  for (gint hour = 0; hour < FR_DAY_HOURS; hour++)
    {
      gboolean falls = hour < LOW_HOUR || hour >= HIGH_HOUR;
      double minute = 60 * (hour < LOW_HOUR ? hour + FR_DAY_HOURS : hour);
      double share = kind == FR_COURSE_HABIT ? habit_share (falls, minute) : cosine_share (falls, minute);
      double *shares = course->share_ratio[hour];

      shares[hour < LOW_HOUR ? FR_EXTREME_HIGH_BEFORE : falls ? FR_EXTREME_HIGH : FR_EXTREME_LOW] = 1 - share;
      shares[hour < LOW_HOUR ? FR_EXTREME_LOW : falls ? FR_EXTREME_LOW_AFTER : FR_EXTREME_HIGH] = share;
    }
}

/* A date's sun in hours from a midnight. */
typedef struct
{
  double low_h; /* when the air is coldest */
  double rise_h;
  double set_h;
} SunHours;

static gboolean
sun_hours (FrDate date, double latitude_deg, double longitude_deg, gint offset_s, SunHours *hours_out)
{
  FrSunDay sun;
  gint64 midnight_utc = fr_date_to_days (date) * FR_DAY_HOURS * (gint64)HOUR_S - offset_s;

  if (fr_sun_day (date, latitude_deg, longitude_deg, offset_s, &sun) != FR_SUN_RISES
      || sun.day_s < DAY_LEAST_H * HOUR_S || sun.day_s > DAY_MOST_H * HOUR_S)
    return FALSE;
  hours_out->rise_h = (double)(sun.rise_utc - midnight_utc) / HOUR_S;
  hours_out->set_h = (double)(sun.set_utc - midnight_utc) / HOUR_S;
  hours_out->low_h = hours_out->rise_h + LOW_AFTER_RISE_H;
  return TRUE;
}

/* The high's share by day. */
static double
day_share (const SunHours *day, double hour)
{
  return sin (G_PI * (hour - day->low_h) / (day->set_h - day->rise_h + 2 * HIGH_AFTER_NOON_H));
}

/* The share that the temperature of sunset still has by night; none is left at the next low. */
static double
night_share (const SunHours *day, const SunHours *next, double hour)
{
  double night_h = next->rise_h - day->set_h;
  double rest = exp (-NIGHT_FALL * (next->low_h - day->set_h) / night_h);

  return (exp (-NIGHT_FALL * (hour - day->set_h) / night_h) - rest) / (1 - rest);
}

/* @suns are those of the day before, the day, and the day after. */
static gboolean
sun_course (const SunHours suns[3], FrDayCourse *course)
{
  if (suns[1].low_h < 0 || suns[2].low_h < FR_DAY_HOURS)
    return FALSE;
  for (guint hour = 0; hour < FR_DAY_HOURS; hour++)
    {
      gboolean is_before = hour < suns[1].low_h;
      const SunHours *day = &suns[is_before ? 0 : 1], *next = day + 1;
      double *shares = course->share_ratio[hour];
      double sunset = hour > day->set_h ? night_share (day, next, hour) : 1;
      double high = day_share (day, MIN (hour, day->set_h));

      shares[is_before ? FR_EXTREME_HIGH_BEFORE : FR_EXTREME_HIGH] = sunset * high;
      shares[is_before ? FR_EXTREME_LOW_BEFORE : FR_EXTREME_LOW] = sunset * (1 - high);
      shares[is_before ? FR_EXTREME_LOW : FR_EXTREME_LOW_AFTER] += 1 - sunset;
    }
  return TRUE;
}

static SunHours
hours_later (SunHours sun, gint days)
{
  return (SunHours){ sun.low_h + days * FR_DAY_HOURS, sun.rise_h + days * FR_DAY_HOURS,
                     sun.set_h + days * FR_DAY_HOURS };
}

guint
fr_day_courses (FrCourseKind kind, FrDate first, guint n_days, double latitude_deg, double longitude_deg,
                gint offset_s, FrDayCourse *courses_out)
{
  SunHours suns[3] = { { 0 } };
  guint n_known = 0, n_made = 0; /* how many of the last @suns are known */

  g_return_val_if_fail ((guint)kind < FR_N_COURSES && fr_date_is_valid (first), 0);
  if (isnan (longitude_deg))
    longitude_deg = offset_s / 240.0;
  memset (courses_out, 0, n_days * sizeof *courses_out);
  if (kind != FR_COURSE_SUN)
    {
      for (guint i = 0; i < n_days; i++)
        fixed_course (kind, &courses_out[i]);
      return n_days;
    }
  /* Each date's sun is looked for once, from its own midnight. */
  for (guint i = 0; i < n_days + 2; i++)
    {
      suns[0] = suns[1];
      suns[1] = suns[2];
      n_known
          = sun_hours (fr_date_add_days (first, (gint)i - 1), latitude_deg, longitude_deg, offset_s, &suns[2])
                ? n_known + 1
                : 0;
      if (i < 2)
        continue;
      if (n_known >= 3
          && sun_course ((const SunHours[]){ hours_later (suns[0], -1), suns[1], hours_later (suns[2], 1) },
                         &courses_out[i - 2]))
        n_made++;
      else
        fixed_course (FR_COURSE_COSINE, &courses_out[i - 2]);
    }
  return n_made;
}

FrCourseKind
fr_day_course (FrCourseKind kind, FrDate date, double latitude_deg, double longitude_deg, gint offset_s,
               FrDayCourse *course_out)
{
  return fr_day_courses (kind, date, 1, latitude_deg, longitude_deg, offset_s, course_out) == 1
             ? kind
             : FR_COURSE_COSINE;
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

void
fr_day_course_row (const FrDayCourse *courses, const double *low_c, const double *high_c, guint n_days,
                   double *hours_c_out)
{
  for (guint i = 0; i < n_days; i++)
    {
      guint before = i > 0 ? i - 1 : 0, after = i + 1 < n_days ? i + 1 : i;

      for (guint hour = 0; hour < FR_DAY_HOURS; hour++)
        {
          const double *shares = courses[i].share_ratio[hour];

          *hours_c_out++ = shares[FR_EXTREME_LOW_BEFORE] * low_c[before]
                           + shares[FR_EXTREME_HIGH_BEFORE] * high_c[before]
                           + shares[FR_EXTREME_LOW] * low_c[i] + shares[FR_EXTREME_HIGH] * high_c[i]
                           + shares[FR_EXTREME_LOW_AFTER] * low_c[after];
        }
    }
}
