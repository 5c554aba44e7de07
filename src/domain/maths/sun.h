/* Sunrise, sunset and noon of a place on a date.
 *
 * Latitudes north positive, longitudes east positive, instants UTC seconds. Years 1900 to 2100: within half a
 * minute of the true sky between the polar circles; the air's refraction alone makes more of a difference
 * near them. */
#pragma once

#include "domain/units/calendar.h"

G_BEGIN_DECLS

typedef enum
{
  FR_SUN_RISES,      /* it rises and sets */
  FR_SUN_STAYS_UP,   /* polar day: there is no rise and no set */
  FR_SUN_STAYS_DOWN, /* polar night: the same */
  FR_SUN_NOWHERE     /* the place is not known, or is none */
} FrSunKind;

/**
 * FrSunDay:
 * @noon_utc: when the sun stands highest
 * @rise_utc: when its upper limb comes over a level horizon before that noon
 * @set_utc: when it goes below it after that noon
 * @day_s: from rise to set
 *
 * The last three are set by FR_SUN_RISES alone.
 */
typedef struct
{
  gint64 noon_utc;
  gint64 rise_utc;
  gint64 set_utc;
  gint64 day_s;
} FrSunDay;

/**
 * fr_sun_day:
 * @date: on a clock that runs @offset_s ahead of UTC
 * @latitude_deg: −90 to 90
 * @longitude_deg: −180 to 180
 * @offset_s: within a day
 * @sun_out: of the noon nearest to 12:00 of @date on that clock; with FR_SUN_NOWHERE left as it was
 *
 * Within a day of the seasons' change at a polar circle the sun may rise and not set, or the other way round;
 * such a day counts by where it stands at noon.
 */
FrSunKind
fr_sun_day (FrDate date, double latitude_deg, double longitude_deg, gint offset_s, FrSunDay *sun_out);

/* How far north of the equator the sun stands, and how far a sundial runs ahead of the clock, at an instant.
 */
void
fr_sun_where (double utc_s, double *declination_deg_out, double *dial_s_out);

G_END_DECLS
