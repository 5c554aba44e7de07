/* The hours to offer: the next stretch of the lowest price, or the clock's own evening and morning. */
#include "domain/plan/plan-private.h"

#include <math.h>

#define EVENING_S (19 * 3600)
#define MORNING_S (6 * 3600 + 50 * 60)
#define LEAST_STRETCH_S (3 * 3600)
#define LONG_STRETCH_S (14 * 3600)
#define SAME_PRICE 1e-9

static gint64
clock_after (const FrZoneTable *zone, gint64 utc, gint second_of_day)
{
  FrLocalTime local = fr_zone_local (zone, utc);
  gint64 first, second;

  for (gint day = 0; day < 3; day++)
    {
      if (fr_zone_instant (zone, fr_date_add_days (local.date, day), second_of_day, &first, &second)
          == FR_ZONE_NEVER)
        first = second;
      if (first > utc)
        return first;
    }
  return utc;
}

static void
clock_hours (const FrZoneTable *zone, gint64 now_utc, gint64 *start_out, gint64 *off_by_out)
{
  FrLocalTime local = fr_zone_local (zone, now_utc);

  if (local.second_of_day >= EVENING_S || local.second_of_day < MORNING_S - LEAST_STRETCH_S)
    *start_out = now_utc + (300 - now_utc % 300) % 300;
  else
    *start_out = clock_after (zone, now_utc, EVENING_S);
  *off_by_out = clock_after (zone, *start_out, MORNING_S);
}

void
fr_plan_default_hours (const FrTariff *tariff, const FrZoneTable *zone, gint64 now_utc, gint64 *start_out,
                       gint64 *off_by_out)
{
  g_autofree FrPriceSpan *spans = NULL;
  guint n_spans;
  double lowest = INFINITY;
  gint64 rounded_utc = now_utc + (300 - now_utc % 300) % 300;

  clock_hours (zone, now_utc, start_out, off_by_out);
  if (tariff == NULL)
    return;
  spans = fr_plan_price_spans (tariff, zone, rounded_utc, rounded_utc + 2 * 86400, &n_spans);
  for (guint i = 0; i < n_spans; i++)
    if (spans[i].from_utc < rounded_utc + 86400)
      lowest = MIN (lowest, spans[i].full_per_kwh);
  for (guint i = 0; i < n_spans; i++)
    {
      const FrPriceSpan *span = &spans[i];

      if (span->full_per_kwh > lowest + SAME_PRICE || span->to_utc - span->from_utc < LEAST_STRETCH_S)
        continue;
      *start_out = span->from_utc;
      *off_by_out = span->to_utc - FR_PLAN_MARGIN_S;
      /* A stretch of a whole weekend is no reason to start at noon: then the clock's own evening serves,
       * where it lies inside. */
      if (span->to_utc - span->from_utc > LONG_STRETCH_S)
        {
          gint64 start_utc, off_by_utc;

          clock_hours (zone, span->from_utc, &start_utc, &off_by_utc);
          off_by_utc = MIN (off_by_utc, *off_by_out);
          if (off_by_utc - start_utc >= LEAST_STRETCH_S - FR_PLAN_MARGIN_S)
            {
              *start_out = start_utc;
              *off_by_out = off_by_utc;
            }
        }
      break;
    }
}
