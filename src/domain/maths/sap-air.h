/* The air around a container of sap: from each day's low and high, and from where the container stands.
 *
 * Air is a list of knots with straight lines between. A day knows its low and its high alone; when they come
 * is assumed (sap-air.c). Temperatures in °C, instants UTC seconds, days local dates. */
#pragma once

#include "domain/units/zone.h"

G_BEGIN_DECLS

/**
 * FrAirKnot:
 * @utc_s: not before the knot ahead of it; two at one instant are a jump, and at that instant the later one
 * holds
 * @temp_c: NAN is unknown, and so is all between it and its neighbours
 *
 * Held flat before the first knot and after the last.
 */
typedef struct
{
  gint64 utc_s;
  double temp_c;
} FrAirKnot;

typedef struct
{
  FrDate date;
  double low_c;
  double high_c;
} FrDaySpan;

/* Where a container stands; in a book: outdoors, shed, snowbank, fridge, cellar, indoors. */
typedef enum
{
  FR_SAP_PLACE_OUTDOORS,
  FR_SAP_PLACE_SHED,
  FR_SAP_PLACE_SNOWBANK,
  FR_SAP_PLACE_FRIDGE,
  FR_SAP_PLACE_CELLAR,
  FR_SAP_PLACE_INDOORS,
  FR_N_SAP_PLACES
} FrSapPlace;

const char *
fr_sap_place_code (FrSapPlace place);
gboolean
fr_sap_place_from_code (const char *code, FrSapPlace *place_out);

/* NAN without knots. */
double
fr_air_temp_c (const FrAirKnot *air, guint n_air, gint64 utc_s);

/**
 * fr_place_air:
 * @place: where it stands
 * @days: dates rising; a date left out is as one whose low and high are NAN
 * @zone: the days' clock
 * @from_utc: first instant wanted
 * @to_utc: last instant wanted, not before @from_utc
 * @knots_out: (element-type FrAirKnot): emptied, then filled; the knots may reach beyond what is wanted, and
 * what they do not reach is unknown
 *
 * Outdoors, shed and snowbank follow the days and are unknown, for the whole local date, on every date whose
 * low or high is not known; a run of known days begins as if the day before it had had the same high and ends
 * as if the day after it had the same low. Fridge, cellar and indoors have a temperature of their own and
 * need no days.
 *
 * Returns: FALSE, with no knots, when the dates do not rise or a low is above its high
 */
gboolean
fr_place_air (FrSapPlace place, const FrDaySpan *days, guint n_days, const FrZoneTable *zone, gint64 from_utc,
              gint64 to_utc, GArray *knots_out);

G_END_DECLS
