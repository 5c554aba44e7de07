/* A second opinion on prices, written apart from the program: no tables of slices, no hops from edge to edge.
 * For one minute of UTC it looks through all periods in turn; days come from GLib's calendar. */
#pragma once

#include <math.h>

#include "domain/maths/tariff.h"
#include "zones.h"

typedef struct
{
  const FrTariffPeriod *periods;
  guint n_periods;
  const FrDate *holidays;
  guint n_holidays;
  const FrZoneSpan *spans;
  guint n_spans;
} Oracle;

static inline void
oracle_local (const Oracle *oracle, gint64 utc_s, GDate *date_out, gint *minute_out)
{
  gint64 local_s = utc_s;
  gint64 day;

  for (guint i = 0; i < oracle->n_spans; i++)
    if (oracle->spans[i].from_utc <= utc_s)
      local_s = utc_s + oracle->spans[i].offset_s;
  day = (gint64)floor ((double)local_s / 86400);
  g_date_clear (date_out, 1);
  g_date_set_julian (date_out, (guint32)(day + 719163)); /* 1970-01-01 is GDate's day 719163 */
  *minute_out = (gint)((local_s - day * 86400) / 60);
}

/* 0 when none of the season's periods is for @days, else their number. */
static inline guint
oracle_count (const Oracle *oracle, const FrTariffPeriod *season, FrDays days)
{
  guint n = 0;

  for (guint i = 0; i < oracle->n_periods; i++)
    {
      const FrTariffPeriod *p = &oracle->periods[i];

      if (p->days == days && p->from_month == season->from_month && p->from_day == season->from_day
          && p->to_month == season->to_month && p->to_day == season->to_day)
        n++;
    }
  return n;
}

static inline gboolean
oracle_in_season (const FrTariffPeriod *p, GDate *date)
{
  const gint now = g_date_get_month (date) * 100 + g_date_get_day (date);
  const gint from = p->from_month * 100 + p->from_day, to = p->to_month * 100 + p->to_day;

  return from <= to ? from <= now && now <= to : !(to < now && now < from);
}

/* NAN unless exactly one period speaks for the minute. */
static inline double
oracle_price (const Oracle *oracle, gint64 utc_s)
{
  GDate date;
  gint minute;
  guint n = 0;
  double price = NAN;
  gboolean holiday = FALSE;

  oracle_local (oracle, utc_s, &date, &minute);
  for (guint i = 0; i < oracle->n_holidays; i++)
    if (oracle->holidays[i].year == g_date_get_year (&date)
        && oracle->holidays[i].month == (gint)g_date_get_month (&date)
        && oracle->holidays[i].day == g_date_get_day (&date))
      holiday = TRUE;

  for (guint i = 0; i < oracle->n_periods; i++)
    {
      const FrTariffPeriod *p = &oracle->periods[i];
      const gint weekday = g_date_get_weekday (&date);
      FrDays wanted = FR_DAYS_ALL;
      gboolean in_time;

      if (!oracle_in_season (p, &date))
        continue;
      if (holiday)
        wanted = oracle_count (oracle, p, FR_DAYS_HOLIDAY)   ? FR_DAYS_HOLIDAY
                 : oracle_count (oracle, p, FR_DAYS_WEEKEND) ? FR_DAYS_WEEKEND
                 : oracle_count (oracle, p, FR_DAYS_SUNDAY)  ? FR_DAYS_SUNDAY
                                                             : FR_DAYS_ALL;
      else if (weekday < 6)
        wanted = oracle_count (oracle, p, FR_DAYS_WEEKDAY) ? FR_DAYS_WEEKDAY : FR_DAYS_ALL;
      else
        {
          const FrDays own = weekday == 6 ? FR_DAYS_SATURDAY : FR_DAYS_SUNDAY;

          wanted = oracle_count (oracle, p, own)               ? own
                   : oracle_count (oracle, p, FR_DAYS_WEEKEND) ? FR_DAYS_WEEKEND
                                                               : FR_DAYS_ALL;
        }
      if (p->days != wanted)
        continue;
      in_time = p->from_min < p->to_min ? p->from_min <= minute && minute < p->to_min
                                        : minute >= p->from_min || minute < p->to_min;
      if (in_time)
        {
          price = p->price_per_kwh;
          n++;
        }
    }
  return n == 1 ? price : NAN;
}

/* A random tariff that is complete: one to three seasons round the year, day types in different mixes, edges
 * on random minutes, some periods across midnight, prices that may be 0 or negative. Returns the number of
 * periods. */
static inline guint
oracle_random_list (GRand *rand, FrTariffPeriod season, FrDays days, FrTariffPeriod *out)
{
  const guint n = (guint)g_rand_int_range (rand, 1, 6);
  gint edges[6];
  guint n_edges = 0;

  while (n_edges < n)
    {
      const gint edge = g_rand_int_range (rand, 0, 2) ? g_rand_int_range (rand, 0, 24) * 60
                                                      : g_rand_int_range (rand, 0, 1440);
      gboolean fresh = TRUE;

      for (guint i = 0; i < n_edges; i++)
        fresh = fresh && edges[i] != edge;
      if (fresh)
        edges[n_edges++] = edge;
    }
  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n; j++)
      if (edges[j] < edges[i])
        {
          const gint swap = edges[i];

          edges[i] = edges[j];
          edges[j] = swap;
        }
  season.days = days;
  for (guint i = 0; i < n; i++)
    {
      out[i] = season;
      out[i].from_min = n == 1 ? 0 : edges[i];
      out[i].to_min = n == 1 ? 1440 : edges[(i + 1) % n];
      out[i].price_per_kwh
          = g_rand_int_range (rand, 0, 8) == 0 ? 0 : g_rand_int_range (rand, -300, 4000) / 100.0;
    }
  return n;
}

static inline guint
oracle_random_periods (GRand *rand, FrTariffPeriod *out)
{
  static const FrDays mixes[][5] = {
    { FR_DAYS_ALL, FR_N_DAYS },
    { FR_DAYS_WEEKDAY, FR_DAYS_WEEKEND, FR_N_DAYS },
    { FR_DAYS_WEEKDAY, FR_DAYS_SATURDAY, FR_DAYS_SUNDAY, FR_N_DAYS },
    { FR_DAYS_ALL, FR_DAYS_SUNDAY, FR_N_DAYS },
    { FR_DAYS_WEEKDAY, FR_DAYS_WEEKEND, FR_DAYS_SATURDAY, FR_DAYS_HOLIDAY, FR_N_DAYS },
  };
  static const FrTariffPeriod years[][3] = {
    { { 1, 1, 12, 31 } },
    { { 11, 1, 4, 30 }, { 5, 1, 10, 31 } },
    { { 12, 16, 2, 29 }, { 3, 1, 3, 9 }, { 3, 10, 12, 15 } },
  };
  const guint year = (guint)g_rand_int_range (rand, 0, 3);
  guint n = 0;

  for (guint s = 0; s <= year; s++)
    {
      const FrDays *mix = mixes[g_rand_int_range (rand, 0, G_N_ELEMENTS (mixes))];

      for (guint i = 0; mix[i] != FR_N_DAYS; i++)
        n += oracle_random_list (rand, years[year][s], mix[i], out + n);
    }
  return n;
}
#define ORACLE_MAX_PERIODS 96
