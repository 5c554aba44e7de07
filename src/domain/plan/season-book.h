/* The records that a season's answers are made of: what came in, where it waits, what was boiled. */
#pragma once

#include "domain/records/kinds.h"
#include "domain/units/zone.h"

G_BEGIN_DECLS

/**
 * FrSeasonBook:
 * Arrays of FrRecord, borrowed, by id; archived ones are passed over. Gatherings, pours, dips, days and the
 * days and forecasts of sources of weather hold one season's at least; those outside the season asked for are passed over too. Any array may be NULL, which is empty.
 */
typedef struct
{
  const FrHousehold *household; /* or NULL */
  const FrStoring *storing;     /* or NULL: as usual */
  const FrTapping *tapping;     /* or NULL */
  const FrForecasting *forecasting; /* or NULL: as usual */
  const FrZoneTable *zone;      /* the household's */
  GPtrArray *trees;
  GPtrArray *girths;
  GPtrArray *taps;
  GPtrArray *yields;
  GPtrArray *containers;
  GPtrArray *gatherings;
  GPtrArray *pours;
  GPtrArray *dips;
  GPtrArray *days;
  GPtrArray *stations;
  GPtrArray *station_days;
  GPtrArray *outlooks;
  GPtrArray *chores;
  GPtrArray *dismissals;
  GPtrArray *nights;
  GPtrArray *cookers;
  GPtrArray *vessels;
  GPtrArray *circuits;
  GPtrArray *tariffs;
  GPtrArray *fuels;
} FrSeasonBook;

/* A season is named by the year of its spring (fr_season_of in bush.h): from 1 August before to 31 July, local days. */
FrDate fr_season_first_day (guint season);
FrDate fr_season_last_day (guint season);

/* All of a season, as instants and as days. */
void fr_season_span (const FrZoneTable *zone, guint season, FrRecordSpan *span_out);

/* Instants of a local day: from its first second to the next day's first; 23 or 25 hours when the clocks change. */
void fr_day_span_utc (const FrZoneTable *zone, FrDate day, gint64 *from_out, gint64 *to_out);

G_END_DECLS
