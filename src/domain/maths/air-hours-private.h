/* Shared by the files of air-hours. */
#pragma once

#include "domain/maths/air-hours.h"

G_BEGIN_DECLS

#define FR_AIR_HOUR_S 3600
#define FR_AIR_REACH_S                                                                                       \
  21600 /* the widest step of readings that is filled, and how far an end of them is felt */

/* A date's extremes as they are used, on an unbroken row of dates, and the hours in which its course has
 * them. */
typedef struct
{
  double low_c;
  double high_c;
  gboolean low_bridged;
  gboolean high_bridged;
  gboolean is_forecast;
  guint low_hour;
  guint high_hour;
} FrAirDay;

/* Readings at their instants, between them, and how what days told is bent towards them; @days has one for
 * each date of the grid. */
void
fr_air_hours_put_readings (FrAirHours *air, const FrWeather *weather, const FrAirDay *days);

G_END_DECLS
