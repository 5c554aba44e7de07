/* The air of a place hour by hour, made of whatever a series knows: days' lows and highs, hours, or both.
 *
 * An unbroken grid on the place's standard clock (no daylight saving): hour 0 is midnight, every date has 24.
 * What is not known is NAN in the grid, never left out of it. */
#pragma once

#include "domain/maths/day-course.h"
#include "domain/maths/weather.h"

G_BEGIN_DECLS

/* What an hour's temperature was made of. */
typedef enum
{
  FR_AIR_UNKNOWN, /* nothing: the value is NAN */
  FR_AIR_READ,    /* a value of that instant */
  FR_AIR_BETWEEN, /* values at most six hours apart around it */
  FR_AIR_DAY,     /* lows and highs of days, by a course of the day */
  FR_AIR_BRIDGED, /* the days around a gap of a day at most */
  FR_N_AIR_FROMS
} FrAirFrom;

/**
 * FrAirHours:
 * @first: date of hour 0
 * @offset_s: the standard clock minus UTC
 * @n_hours: 24 for each date; 0 when the series knows nothing
 * @temp_c: or NAN
 * @is_forecast: whether the value, or one of those it was made of on its own date, was told ahead
 * @from: an FrAirFrom each
 */
typedef struct
{
  FrDate first;
  gint offset_s;
  guint n_hours;
  double *temp_c;
  guint8 *is_forecast;
  guint8 *from;
} FrAirHours;

/**
 * fr_air_hours_new:
 * @weather: in order
 * @kind: how hours are made of days; FR_COURSE_SUN looks at the place of @weather
 * @offset_s: the place's standard clock minus UTC, within a day
 *
 * From the first date of which @weather knows a temperature to the last.
 *
 * Readings: a value of an instant holds there; between two at most six hours apart a curve that does not
 * overshoot them, through the day's low and high where the readings leave them out.
 *
 * Days: hours are made of them as far as the extremes around are known. An unknown neighbour is taken to have
 * the day's own extremes, so that a lone day has all its hours; an unknown low or high of the day itself
 * leaves the hours on both its sides unknown. A day whose low is above its high counts as unknown. What days
 * tell is shifted to meet readings beside it, fading within six hours; observed days are not shifted to meet
 * a forecast.
 *
 * Gaps: a single day without low or high between two that have it takes their mean; otherwise up to 24
 * unknown hours take the mean of the days around. Both say FR_AIR_BRIDGED. What is longer stays unknown.
 */
FrAirHours *
fr_air_hours_new (const FrWeather *weather, FrCourseKind kind, gint offset_s);
void
fr_air_hours_free (FrAirHours *air);

/* The instant of an hour of the grid; beyond either end too. */
gint64
fr_air_hours_utc (const FrAirHours *air, gint64 hour);

/* The hour at or before an instant; negative before the first, and not held to @n_hours. */
gint64
fr_air_hours_at (const FrAirHours *air, gint64 utc_s);

/* The grid's index of 00:00 of a date; negative before the first, and not held to @n_hours. */
gint64
fr_air_hours_midnight (const FrAirHours *air, FrDate date);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrAirHours, fr_air_hours_free)

G_END_DECLS
