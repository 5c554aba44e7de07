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
  FR_AIR_DAY,     /* lows and highs of days, by a course of the day */
  FR_AIR_BRIDGED, /* a single missing day between two known ones */
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
 * @kind: how hours are made of days
 * @offset_s: the place's standard clock minus UTC, within a day
 *
 * From the first date of which @weather knows a temperature to the last. Values of an instant win over what
 * days tell. Hours are made of days as far as the extremes around them are known: an unknown neighbour is
 * taken to have the day's own extremes, so that a lone day still has all its hours, but an unknown low or
 * high of the day itself leaves the hours on both its sides unknown. A day whose low is above its high counts
 * as unknown. A single day without low or high between two days that have it takes their mean, and what is
 * made of it says FR_AIR_BRIDGED; longer gaps stay unknown.
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
