/* Seasons and days as instants.
 *
 * A day runs from the first instant that has its date to the first instant that has the next day's: where the clocks jump over
 * midnight that is the end of the jump, where midnight comes twice it is the earlier one, and a day that a place left out of its
 * calendar has no length. */
#include "domain/plan/season-book.h"

FrDate
fr_season_first_day (guint season)
{
  return (FrDate){ (gint)season - 1, 8, 1 };
}

FrDate
fr_season_last_day (guint season)
{
  return (FrDate){ (gint)season, 7, 31 };
}

static gint64
first_utc (const FrZoneTable *zone, FrDate day)
{
  gint64 first, second;

  return fr_zone_instant (zone, day, 0, &first, &second) == FR_ZONE_NEVER ? second : first;
}

void
fr_day_span_utc (const FrZoneTable *zone, FrDate day, gint64 *from_out, gint64 *to_out)
{
  g_return_if_fail (zone != NULL);

  *from_out = first_utc (zone, day);
  *to_out = first_utc (zone, fr_date_add_days (day, 1));
}

void
fr_season_span (const FrZoneTable *zone, guint season, FrRecordSpan *span_out)
{
  gint64 unused;

  g_return_if_fail (zone != NULL && span_out != NULL);

  span_out->first = fr_season_first_day (season);
  span_out->last = fr_season_last_day (season);
  fr_day_span_utc (zone, span_out->first, &span_out->from_utc, &unused);
  fr_day_span_utc (zone, span_out->last, &unused, &span_out->to_utc);
}
