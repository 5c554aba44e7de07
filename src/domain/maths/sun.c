/* The sun of a date: the general solar position that NOAA's solar calculator uses, which is the low-accuracy
 * one of Meeus, Astronomical Algorithms (1991), chapters 25 and 28: position to 0.01°.
 *
 * Rise and set are where the sun's centre stands 90.833° from the zenith: 34' for the refraction of the air
 * at the horizon and 16' for half the sun. They are looked for between noon and the midnights around it, with
 * the sun's place at that very instant, instead of by a formula for one declination: that holds near the
 * poles too. */
#include "domain/maths/sun.h"

#include "domain/maths/solve.h"

#include <math.h>

#define DAY_S 86400.0
#define RADIAN (G_PI / 180)
#define RISE_ZENITH_DEG 90.833
#define J2000_DAYS 10957.5 /* 2000-01-01 12:00, in days since 1970 */

void
fr_sun_where (double utc_s, double *declination_deg_out, double *dial_s_out)
{
  double t = (utc_s / DAY_S - J2000_DAYS) / 36525;
  double longitude = fmod (280.46646 + t * (36000.76983 + t * 0.0003032), 360) * RADIAN;
  double anomaly = (357.52911 + t * (35999.05029 - t * 0.0001537)) * RADIAN;
  double eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
  double centre = sin (anomaly) * (1.914602 - t * (0.004817 + t * 0.000014))
                  + sin (2 * anomaly) * (0.019993 - t * 0.000101) + sin (3 * anomaly) * 0.000289;
  double node = (125.04 - t * 1934.136) * RADIAN;
  double apparent = longitude + (centre - 0.00569 - 0.00478 * sin (node)) * RADIAN;
  double tilt
      = (23 + (26 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60) / 60 + 0.00256 * cos (node))
        * RADIAN;
  double y = pow (tan (tilt / 2), 2);

  *declination_deg_out = asin (sin (tilt) * sin (apparent)) / RADIAN;
  *dial_s_out
      = 240 / RADIAN
        * (y * sin (2 * longitude) - 2 * eccentricity * sin (anomaly)
           + 4 * eccentricity * y * sin (anomaly) * cos (2 * longitude) - y * y * sin (4 * longitude) / 2
           - 1.25 * eccentricity * eccentricity * sin (2 * anomaly));
}

typedef struct
{
  double latitude;    /* radians */
  double mean_noon_s; /* 12:00 of the place's mean sun */
} Place;

/* Degrees that the sun stands higher than where it rises. */
static double
height_deg (double utc_s, gpointer data)
{
  const Place *place = data;
  double declination, dial_s, angle;

  fr_sun_where (utc_s, &declination, &dial_s);
  declination *= RADIAN;
  angle = (utc_s - place->mean_noon_s + dial_s) / 240 * RADIAN;
  return RISE_ZENITH_DEG
         - acos (CLAMP (sin (place->latitude) * sin (declination)
                            + cos (place->latitude) * cos (declination) * cos (angle),
                        -1, 1))
               / RADIAN;
}

FrSunKind
fr_sun_day (FrDate date, double latitude_deg, double longitude_deg, gint offset_s, FrSunDay *sun_out)
{
  Place place = { latitude_deg * RADIAN, NAN };
  double clock_noon_s, noon_s, declination, dial_s, rise_s, set_s;

  if (!fr_date_is_valid (date) || !(fabs (latitude_deg) <= 90) || !(fabs (longitude_deg) <= 180))
    return FR_SUN_NOWHERE;
  clock_noon_s = fr_date_to_days (date) * DAY_S + DAY_S / 2 - offset_s;
  /* Of the mean noons a day apart the one nearest to noon on the clock: on both sides of the date line. */
  place.mean_noon_s = clock_noon_s + remainder (offset_s - longitude_deg * 240, DAY_S);
  noon_s = place.mean_noon_s;
  for (guint i = 0; i < 2; i++)
    {
      fr_sun_where (noon_s, &declination, &dial_s);
      noon_s = place.mean_noon_s - dial_s;
    }
  sun_out->noon_utc = llround (noon_s);
  if (!fr_solve_root (height_deg, &place, noon_s - DAY_S / 2, noon_s, 0.1, &rise_s)
      || !fr_solve_root (height_deg, &place, noon_s, noon_s + DAY_S / 2, 0.1, &set_s))
    return height_deg (noon_s, &place) > 0 ? FR_SUN_STAYS_UP : FR_SUN_STAYS_DOWN;
  sun_out->rise_utc = llround (rise_s);
  sun_out->set_utc = llround (set_s);
  sun_out->day_s = sun_out->set_utc - sun_out->rise_utc;
  return FR_SUN_RISES;
}
