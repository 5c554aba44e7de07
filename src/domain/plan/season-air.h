/* A series of many years parted into sap seasons, each from its midwinter on. */
#pragma once

#include "domain/maths/air-hours.h"

G_BEGIN_DECLS

/* The last 1 January, in the south 1 July, not after a date. */
FrDate
fr_midwinter (FrDate date, gboolean is_south);

/* How the program makes hours of days for the sap: the course that its members were fitted with. */
#define FR_SAP_COURSE FR_COURSE_COSINE

/**
 * fr_season_air:
 * @weather: in order
 * @midwinter: the season's
 * @offset_s: the place's standard clock minus UTC
 *
 * Returns: the hours from @midwinter up to the next one, as far as the series knows any; n_hours 0 when it knows none
 */
FrAirHours *
fr_season_air (const FrWeather *weather, FrDate midwinter, gint offset_s);

/* A past season that may stand in for what is to come: known from @FR_PAST_FROM_D to @FR_PAST_TO_D days after midwinter but
 * for a few hours. */
#define FR_PAST_FROM_D 31
#define FR_PAST_TO_D 120
gboolean
fr_season_air_is_whole (const FrAirHours *air, FrDate midwinter);

/* Adds to @airs_out (element-type FrAirHours *, owned) every whole season of @weather before the one of @midwinter. */
void
fr_past_airs (const FrWeather *weather, FrDate midwinter, gint offset_s, GPtrArray *airs_out);

/* Standard clock of a longitude: whole hours; 0 for NAN. */
gint
fr_standard_offset_s (double longitude_deg);

G_END_DECLS
