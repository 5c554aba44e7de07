/* The hours of a day from its low and high, and what a shed or a snowbank makes of them.
 *
 * Shape: that of the hourly normals (day-course.h), by the zone's standard time (an hour later on the clock in
 * summer time). docs/physics/sap-body.md has what it misses.
 *
 * Shed and snowbank: each extreme drawn halfway to the mean of the day around it; in snow never above 0 °C.
 * Fridge 3.5, cellar 8, indoors 20 °C. All of that: common sense, no source. */
#include "domain/maths/sap-air.h"

#include "domain/maths/day-course.h"

#include <math.h>

#define DAMPED_RATIO 0.5

static const char *const place_codes[FR_N_SAP_PLACES]
    = { "outdoors", "shed", "snowbank", "fridge", "cellar", "indoors" };
static const double place_c[FR_N_SAP_PLACES] = { NAN, NAN, NAN, 3.5, 8, 20 };

const char *
fr_sap_place_code (FrSapPlace place)
{
  g_return_val_if_fail ((guint)place < FR_N_SAP_PLACES, NULL);
  return place_codes[place];
}

gboolean
fr_sap_place_from_code (const char *code, FrSapPlace *place_out)
{
  for (guint i = 0; i < FR_N_SAP_PLACES; i++)
    if (g_strcmp0 (place_codes[i], code) == 0)
      {
        *place_out = i;
        return TRUE;
      }
  return FALSE;
}

double
fr_air_temp_c (const FrAirKnot *air, guint n_air, gint64 utc_s)
{
  guint after = 0;

  if (n_air == 0)
    return NAN;
  for (guint lo = 0, hi = n_air; lo < hi; after = lo)
    {
      guint middle = (lo + hi) / 2;

      if (air[middle].utc_s <= utc_s)
        lo = middle + 1;
      else
        hi = middle;
    }
  if (after == 0)
    return air[0].temp_c;
  if (after == n_air || air[after - 1].utc_s == utc_s)
    return air[after - 1].temp_c;
  return air[after - 1].temp_c
         + (air[after].temp_c - air[after - 1].temp_c) * (double)(utc_s - air[after - 1].utc_s)
               / (double)(air[after].utc_s - air[after - 1].utc_s);
}

static gint64
instant_at (const FrZoneTable *zone, FrDate date, gint second_of_day)
{
  gint64 first, second;

  return fr_zone_instant (zone, date, second_of_day, &first, &second) == FR_ZONE_NEVER ? second : first;
}

static gint64
midnight (const FrZoneTable *zone, FrDate date)
{
  return instant_at (zone, date, 0);
}

static gint
noon_offset_s (const FrZoneTable *zone, FrDate date)
{
  return fr_zone_local (zone, instant_at (zone, date, 12 * 3600)).offset_s;
}

/* A minute of the day in standard time: the smaller offset of the year's two halves. */
static gint64
standard_instant (const FrZoneTable *zone, FrDate date, gint minute)
{
  gint standard_s = MIN (noon_offset_s (zone, (FrDate){ date.year, 1, 1 }),
                         noon_offset_s (zone, (FrDate){ date.year, 7, 1 }));

  return instant_at (zone, date, 60 * minute + noon_offset_s (zone, date) - standard_s);
}

static gboolean
is_known (const FrDaySpan *day)
{
  return !isnan (day->low_c) && !isnan (day->high_c);
}

static void
put (GArray *knots, gint64 utc_s, double temp_c)
{
  FrAirKnot knot = { utc_s, temp_c };

  g_array_append_val (knots, knot);
}

/* A run of known days that follow one another: extremes from the high of the day before the first to the low
 * of the day after the last, both made up; 2 n + 2 of them. */
typedef struct
{
  const FrDaySpan *days;
  guint n;
  const FrZoneTable *zone;
  gboolean damped;
} Run;

static const FrDaySpan *
run_day (const Run *run, gint day)
{
  return &run->days[CLAMP (day, 0, (gint)run->n - 1)];
}

/* Extreme 2 d is the low of day d, 2 d + 1 its high; −1 and 2 n are made up. */
static double
extreme_c (const Run *run, gint i)
{
  gint day = i < 0 ? (i - 1) / 2 : i / 2;

  return (i & 1) != 0 ? run_day (run, day)->high_c : run_day (run, day)->low_c;
}

static double
place_extreme_c (const Run *run, gint i)
{
  double own = extreme_c (run, i);

  if (!run->damped)
    return own;
  return own + DAMPED_RATIO * ((extreme_c (run, i - 1) + 2 * own + extreme_c (run, i + 1)) / 4 - own);
}

static void
put_run (const Run *run, GArray *knots)
{
  gint64 from = midnight (run->zone, run->days[0].date),
         to = midnight (run->zone, fr_date_add_days (run->days[run->n - 1].date, 1));
  g_autoptr (GArray) inner = g_array_new (FALSE, FALSE, sizeof (FrAirKnot));

  for (gint i = -1; i <= 2 * (gint)run->n; i++)
    {
      double here = place_extreme_c (run, i), next = place_extreme_c (run, i + 1);
      gboolean falls = (i & 1) != 0;
      guint n_points;
      const FrCoursePoint *points = fr_course_habit (falls, &n_points);
      FrDate date = fr_date_add_days (run->days[0].date, i < 0 ? -1 : i / 2);

      /* The last point is the next extreme; past the run's end there is none. */
      for (guint k = 0; k + 1 < n_points && (k == 0 || i < 2 * (gint)run->n); k++)
        put (inner, standard_instant (run->zone, date, points[k].minute),
             here + points[k].share_ratio * (next - here));
    }
  put (knots, from, fr_air_temp_c ((FrAirKnot *)inner->data, inner->len, from));
  for (guint i = 0; i < inner->len; i++)
    {
      FrAirKnot knot = g_array_index (inner, FrAirKnot, i);

      if (knot.utc_s > from && knot.utc_s < to)
        g_array_append_val (knots, knot);
    }
  put (knots, to, fr_air_temp_c ((FrAirKnot *)inner->data, inner->len, to));
}

/* No warmer than @most_c, with a knot where it meets it. */
static void
cap (GArray *knots, double most_c)
{
  for (guint i = 0; i < knots->len; i++)
    {
      FrAirKnot *here = &g_array_index (knots, FrAirKnot, i);

      if (i + 1 < knots->len)
        {
          const FrAirKnot *next = here + 1;

          if ((here->temp_c - most_c) * (next->temp_c - most_c) < 0)
            {
              FrAirKnot met
                  = { here->utc_s
                          + (gint64)llround ((double)(next->utc_s - here->utc_s) * (most_c - here->temp_c)
                                             / (next->temp_c - here->temp_c)),
                      most_c };

              g_array_insert_val (knots, i + 1, met);
              here = &g_array_index (knots, FrAirKnot, i);
            }
        }
      if (here->temp_c > most_c)
        here->temp_c = most_c;
    }
}

gboolean
fr_place_air (FrSapPlace place, const FrDaySpan *days, guint n_days, const FrZoneTable *zone, gint64 from_utc,
              gint64 to_utc, GArray *knots_out)
{
  gint64 known_to = G_MININT64;

  g_return_val_if_fail ((guint)place < FR_N_SAP_PLACES && from_utc <= to_utc, FALSE);
  g_array_set_size (knots_out, 0);
  for (guint i = 0; i < n_days; i++)
    if (days[i].low_c > days[i].high_c || (i > 0 && fr_date_compare (days[i - 1].date, days[i].date) >= 0))
      return FALSE;
  if (!isnan (place_c[place]))
    {
      put (knots_out, from_utc, place_c[place]);
      put (knots_out, to_utc, place_c[place]);
      return TRUE;
    }
  for (guint i = 0, n; i < n_days; i += n)
    {
      Run run = { &days[i], 1, zone, place != FR_SAP_PLACE_OUTDOORS };

      n = 1;
      if (!is_known (&days[i]))
        continue;
      while (i + n < n_days && is_known (&days[i + n])
             && fr_date_compare (fr_date_add_days (days[i + n - 1].date, 1), days[i + n].date) == 0)
        n++;
      run.n = n;
      if (midnight (zone, days[i].date) > to_utc)
        break;
      known_to = midnight (zone, fr_date_add_days (days[i + n - 1].date, 1));
      if (known_to < from_utc)
        continue;
      put (knots_out, midnight (zone, days[i].date), NAN);
      put_run (&run, knots_out);
      put (knots_out, known_to, NAN);
    }
  if (knots_out->len == 0)
    {
      put (knots_out, from_utc, NAN);
      put (knots_out, to_utc, NAN);
    }
  if (place == FR_SAP_PLACE_SNOWBANK)
    cap (knots_out, 0);
  return TRUE;
}
