/* The price at an instant.
 *
 * The instant becomes a local time through the zone table. How long a price holds is found by hopping from
 * one possible edge to the next (slice, end of day, clock change) while the clock runs evenly between them;
 * so an edge inside the spring jump acts at the first instant after it, and in the autumn hour both passes
 * take the price the clock shows. Exact to the second. */
#include "domain/maths/tariff-private.h"

#include <math.h>
#include <stdlib.h>

static gboolean
season_holds (const Season *season, gint month, gint day)
{
  const gint number = fr_tariff_day_number (month, day);

  if (season->from_day <= season->to_day)
    return number >= season->from_day && number <= season->to_day;
  return number >= season->from_day || number <= season->to_day;
}

int
fr_tariff_compare_days (const void *a, const void *b)
{
  const gint64 left = *(const gint64 *)a, right = *(const gint64 *)b;

  return left < right ? -1 : left > right;
}

FrDays
fr_tariff_list_for (const Season *season, FrDays days)
{
  static const FrDays order[][4] = {
    [FR_DAYS_WEEKDAY] = { FR_DAYS_WEEKDAY, FR_DAYS_ALL, FR_N_DAYS, FR_N_DAYS },
    [FR_DAYS_SATURDAY] = { FR_DAYS_SATURDAY, FR_DAYS_WEEKEND, FR_DAYS_ALL, FR_N_DAYS },
    [FR_DAYS_SUNDAY] = { FR_DAYS_SUNDAY, FR_DAYS_WEEKEND, FR_DAYS_ALL, FR_N_DAYS },
    [FR_DAYS_WEEKEND] = { FR_N_DAYS, FR_N_DAYS, FR_N_DAYS, FR_N_DAYS },
    [FR_DAYS_HOLIDAY] = { FR_DAYS_HOLIDAY, FR_DAYS_WEEKEND, FR_DAYS_SUNDAY, FR_DAYS_ALL },
  };

  for (guint i = 0; i < 4 && order[days][i] != FR_N_DAYS; i++)
    if (season->lists[order[days][i]].n_slices > 0)
      return order[days][i];
  return FR_N_DAYS;
}

guint
fr_tariff_count_seasons (const FrTariff *tariff, gint month, gint day, const Season **season_out)
{
  guint n = 0;

  *season_out = NULL;
  for (guint i = 0; i < tariff->n_seasons; i++)
    if (season_holds (&tariff->seasons[i], month, day))
      {
        *season_out = &tariff->seasons[i];
        n++;
      }
  return n;
}

static gboolean
is_holiday (const FrTariff *tariff, FrDate date)
{
  const gint64 day = fr_date_to_days (date);

  return tariff->n_holidays > 0
         && bsearch (&day, tariff->holidays, tariff->n_holidays, sizeof day, fr_tariff_compare_days) != NULL;
}

static const DayList *
find_list (const FrTariff *tariff, const FrLocalTime *local, FrTariffProblem *problem_out)
{
  const Season *season = NULL;
  FrDays days = FR_DAYS_WEEKDAY;

  fr_tariff_problem_set (problem_out, FR_TARIFF_OK, 0);
  if (!fr_date_is_valid (local->date)
      || fr_tariff_count_seasons (tariff, local->date.month, local->date.day, &season) == 0)
    {
      fr_tariff_problem_set (problem_out, FR_TARIFF_NO_SEASON, 0);
      problem_out->date = local->date;
      return NULL;
    }
  if (is_holiday (tariff, local->date))
    days = FR_DAYS_HOLIDAY;
  else if (local->weekday == 6)
    days = FR_DAYS_SATURDAY;
  else if (local->weekday == 7)
    days = FR_DAYS_SUNDAY;
  return &season->lists[fr_tariff_list_for (season, days)];
}

static const Slice *
find_slice (const DayList *list, gint second_of_day)
{
  guint i = 0;

  while (second_of_day >= list->slices[i].to_min * 60)
    i++;
  return &list->slices[i];
}

gboolean
fr_tariff_price (const FrTariff *tariff, const FrZoneTable *zone, gint64 utc_s, double *listed_out,
                 double *full_out, gint64 *until_utc_out, FrTariffProblem *problem_out)
{
  const FrLocalTime start = fr_zone_local (zone, utc_s);
  FrLocalTime local = start;
  FrTariffProblem problem;
  const DayList *list;
  const Slice *slice;
  double listed;

  g_return_val_if_fail (tariff != NULL && zone != NULL, FALSE);

  *listed_out = *full_out = NAN;
  *until_utc_out = utc_s;
  list = find_list (tariff, &start, &problem);
  if (problem_out != NULL)
    *problem_out = problem;
  if (list == NULL)
    return FALSE;
  slice = find_slice (list, start.second_of_day);
  listed = slice->price_per_kwh;

  do
    {
      gint64 next = utc_s + slice->to_min * 60 - local.second_of_day;
      gint64 change;

      if (fr_zone_next_change (zone, utc_s, &change) && change < next)
        next = change;
      utc_s = next;
      local = fr_zone_local (zone, utc_s);
      slice = find_slice (list, local.second_of_day);
    }
  while (fr_date_compare (local.date, start.date) == 0 && slice->price_per_kwh == listed);

  *listed_out = listed;
  *full_out = (listed + tariff->adder_per_kwh) * (1 + tariff->tax_ratio);
  *until_utc_out = utc_s;
  return TRUE;
}

gboolean
fr_tariff_has_open_date (const FrTariff *tariff, FrDate *date_out)
{
  const gint64 first = fr_date_to_days ((FrDate){ 2000, 1, 1 });

  g_return_val_if_fail (tariff != NULL && date_out != NULL, FALSE);

  *date_out = (FrDate){ 0, 0, 0 };
  for (gint i = 0; i < 366; i++)
    {
      const FrDate date = fr_date_from_days (first + i);
      const Season *season;

      if (fr_tariff_count_seasons (tariff, date.month, date.day, &season) == 0)
        {
          *date_out = (FrDate){ 0, date.month, date.day };
          return TRUE;
        }
    }
  return FALSE;
}
