/* How the air goes through a day between its extremes, hour by hour.
 *
 * Every course here makes an hour a weighted mean of five extremes: the day's own low and high, those of the
 * day before, and the low of the day after. The weights do not depend on the temperatures, so that they are
 * worked out once a date and serve any number of them. Hours are those of the place's standard clock. */
#pragma once

#include "domain/maths/sun.h"

G_BEGIN_DECLS

#define FR_DAY_HOURS 24

typedef enum
{
  FR_COURSE_COSINE, /* low at 06:00, high at 15:00, half a cosine between */
  FR_COURSE_HABIT,  /* the same extremes, the shape of the hourly normals of late winter */
  FR_COURSE_SUN,    /* sine from a little before sunrise to sunset, exponential fall until the next */
  FR_N_COURSES
} FrCourseKind;

typedef enum
{
  FR_EXTREME_LOW_BEFORE,
  FR_EXTREME_HIGH_BEFORE,
  FR_EXTREME_LOW,
  FR_EXTREME_HIGH,
  FR_EXTREME_LOW_AFTER,
  FR_N_EXTREMES
} FrExtreme;

/**
 * FrDayCourse:
 * @share_ratio: of each extreme in each hour from midnight on; not negative, and one in sum
 */
typedef struct
{
  double share_ratio[FR_DAY_HOURS][FR_N_EXTREMES];
} FrDayCourse;

/**
 * FrCoursePoint:
 * @minute: of the standard day
 * @share_ratio: of the way from the extreme before to the one after
 */
typedef struct
{
  gint minute;
  double share_ratio;
} FrCoursePoint;

/**
 * fr_course_habit:
 * @falls: from a high to the next day's low, instead of from a low to the day's high
 * @n_out: how many points
 *
 * The shape of the normals: the first point is the extreme before, the last the one after.
 */
const FrCoursePoint *
fr_course_habit (gboolean falls, guint *n_out);

/**
 * fr_day_course:
 * @kind: which one is wanted
 * @date: on the standard clock
 * @latitude_deg: of the place, or NAN
 * @longitude_deg: of the place, or NAN for the meridian of its clock
 * @offset_s: the standard clock minus UTC, within a day
 * @course_out: the course
 *
 * Only FR_COURSE_SUN asks for the place. It needs a latitude, days of 4 to 23 hours around @date, and a clock
 * on which the low falls into its own date; elsewhere, as in the polar winter, FR_COURSE_COSINE stands in for
 * it.
 *
 * Returns: which one it is
 */
FrCourseKind
fr_day_course (FrCourseKind kind, FrDate date, double latitude_deg, double longitude_deg, gint offset_s,
               FrDayCourse *course_out);

/* The same for dates that follow one another, at a third of the cost each. Returns how many are of @kind. */
guint
fr_day_courses (FrCourseKind kind, FrDate first, guint n_days, double latitude_deg, double longitude_deg,
                gint offset_s, FrDayCourse *courses_out);

/* The temperature of an hour from 0 to 23; NAN when an extreme that has a share in it is unknown. */
double
fr_day_course_c (const FrDayCourse *course, guint hour, const double extremes_c[FR_N_EXTREMES]);

/**
 * fr_day_course_row:
 * @courses: one for each day
 * @low_c: of each day, all known; differences to be added to hours will do as well
 * @high_c: the same
 * @n_days: days that follow one another
 * @hours_c_out: 24 for each day
 *
 * A row of days at once, as if the days beyond both ends had the ends' own extremes: for the many courses of
 * weather that a forecast draws.
 */
void
fr_day_course_row (const FrDayCourse *courses, const double *low_c, const double *high_c, guint n_days,
                   double *hours_c_out);

G_END_DECLS
