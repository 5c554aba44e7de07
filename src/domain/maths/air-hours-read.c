/* Readings and what lies between them.
 *
 * Between readings at most six hours apart runs the monotone cubic of M. Steffen, A simple method for
 * monotonic interpolation in one dimension, Astronomy and Astrophysics 239 (1990) 443–450: it goes through
 * every reading, has no more highs and lows than they have, and never overshoots them. Six-hourly readings
 * miss the extremes themselves; where the day's low or high is known, lies beyond all readings of its date,
 * and falls between two of them that are more than an hour apart, it is put in at its hour as one more.
 *
 * Where readings end and days go on, what the days tell is shifted to meet the last reading, and the shift
 * fades within six hours: a step there would be a freeze or a thaw that nobody saw. */
#include "domain/maths/air-hours-private.h"

#include <math.h>

/* A reading this near to the day's extreme has it. */
#define REACHED_K 0.25

typedef struct
{
  gint64 utc_s;
  double temp_c;
  gboolean is_read; /* and not a day's extreme put in */
  gboolean is_forecast;
} Knot;

static double
slope_between (const Knot *a, const Knot *b)
{
  return (b->temp_c - a->temp_c) / (double)(b->utc_s - a->utc_s);
}

/* Steffen's equation 11, and at the ends the slope beside. */
static double
slope_at (const Knot *knots, guint n, guint i)
{
  double before, after, span_before, span_after, mean;

  if (i == 0)
    return slope_between (&knots[0], &knots[1]);
  if (i + 1 == n)
    return slope_between (&knots[n - 2], &knots[n - 1]);
  before = slope_between (&knots[i - 1], &knots[i]);
  after = slope_between (&knots[i], &knots[i + 1]);
  if (before * after <= 0)
    return 0;
  span_before = (double)(knots[i].utc_s - knots[i - 1].utc_s);
  span_after = (double)(knots[i + 1].utc_s - knots[i].utc_s);
  mean = (before * span_after + after * span_before) / (span_before + span_after);
  return copysign (MIN (MIN (fabs (before), fabs (after)), fabs (mean) / 2) * 2, mean);
}

static double
between_c (const Knot *knots, guint n, guint i, gint64 utc_s)
{
  double span = (double)(knots[i + 1].utc_s - knots[i].utc_s), x = (double)(utc_s - knots[i].utc_s);
  double chord = slope_between (&knots[i], &knots[i + 1]);
  double from = slope_at (knots, n, i), to = slope_at (knots, n, i + 1);

  return knots[i].temp_c
         + x * (from + x / span * (3 * chord - 2 * from - to + x / span * (from + to - 2 * chord)));
}

/* The first knot at or after an instant. */
static guint
first_at (const GArray *run, gint64 utc_s)
{
  guint lo = 0;

  for (guint hi = run->len; lo < hi;)
    {
      guint middle = (lo + hi) / 2;

      if (g_array_index (run, Knot, middle).utc_s < utc_s)
        lo = middle + 1;
      else
        hi = middle;
    }
  return lo;
}

/* Puts a date's extreme into a run of readings; @sign is 1 for a high, −1 for a low. */
static void
add_extreme (const FrAirHours *air, GArray *run, guint date, const FrAirDay *day, gint sign)
{
  gint64 midnight = fr_air_hours_utc (air, (gint64)date * FR_DAY_HOURS),
         next_midnight = fr_air_hours_utc (air, (gint64)(date + 1) * FR_DAY_HOURS);
  Knot knot = { midnight + (gint64)FR_AIR_HOUR_S * (sign > 0 ? day->high_hour : day->low_hour),
                sign > 0 ? day->high_c : day->low_c, FALSE, day->is_forecast };
  guint place = first_at (run, knot.utc_s);
  const Knot *after = &g_array_index (run, Knot, place), *before = after - 1;

  if (isnan (knot.temp_c) || (sign > 0 ? day->high_bridged : day->low_bridged))
    return;
  if (place == 0 || place == run->len || after->utc_s == knot.utc_s
      || after->utc_s - before->utc_s <= FR_AIR_HOUR_S || sign * (knot.temp_c - before->temp_c) <= 0
      || sign * (knot.temp_c - after->temp_c) <= 0)
    return;
  for (guint i = first_at (run, midnight); i < run->len && g_array_index (run, Knot, i).utc_s < next_midnight;
       i++)
    if (sign * (g_array_index (run, Knot, i).temp_c - knot.temp_c) > -REACHED_K)
      return;
  g_array_insert_val (run, place, knot);
}

static void
put (FrAirHours *air, gint64 at, double temp_c, FrAirFrom from, gboolean is_forecast)
{
  if (at < 0 || at >= air->n_hours)
    return;
  air->temp_c[at] = temp_c;
  air->from[at] = from;
  air->is_forecast[at] = is_forecast != FALSE;
}

static void
put_run (FrAirHours *air, const GArray *run)
{
  const Knot *knots = (const Knot *)(gpointer)run->data;

  for (guint i = 0; i < run->len; i++)
    {
      gint64 at = fr_air_hours_at (air, knots[i].utc_s);

      if (fr_air_hours_utc (air, at) == knots[i].utc_s)
        put (air, at, knots[i].temp_c, knots[i].is_read ? FR_AIR_READ : FR_AIR_BETWEEN, knots[i].is_forecast);
      if (i + 1 == run->len)
        break;
      for (at++; fr_air_hours_utc (air, at) < knots[i + 1].utc_s; at++)
        put (air, at, between_c (knots, run->len, i, fr_air_hours_utc (air, at)), FR_AIR_BETWEEN,
             knots[i].is_forecast || knots[i + 1].is_forecast);
    }
}

/* What days tell at an instant between two hours of the grid. */
static double
told_c (const FrAirHours *air, const double *told, gint64 utc_s)
{
  gint64 at = fr_air_hours_at (air, utc_s);
  double share = (double)(utc_s - fr_air_hours_utc (air, at)) / FR_AIR_HOUR_S;

  if (at < 0 || at >= air->n_hours)
    return NAN;
  if (at + 1 == air->n_hours || share <= 0)
    return told[at];
  return told[at] + share * (told[at + 1] - told[at]);
}

/* Shifts what days tell beyond an end of readings; @way is −1 before the first and 1 after the last. */
static void
fade (FrAirHours *air, const double *told, const Knot *end, gint way)
{
  double shift = end->temp_c - told_c (air, told, end->utc_s);
  gint64 at = fr_air_hours_at (air, end->utc_s);

  if (isnan (shift))
    return;
  if (way > 0 || fr_air_hours_utc (air, at) == end->utc_s)
    at += way;
  for (; at >= 0 && at < air->n_hours; at += way)
    {
      double away = fabs ((double)(fr_air_hours_utc (air, at) - end->utc_s)) / FR_AIR_REACH_S;

      if (away >= 1)
        break;
      if ((air->from[at] == FR_AIR_DAY || air->from[at] == FR_AIR_BRIDGED)
          && (air->is_forecast[at] || !end->is_forecast))
        air->temp_c[at] += shift * (1 - away);
    }
}

static guint
next_reading (const GArray *hours, guint i)
{
  while (i < hours->len && isnan (g_array_index (hours, FrWeatherHour, i).temp_c))
    i++;
  return i;
}

void
fr_air_hours_put_readings (FrAirHours *air, const FrWeather *weather, const FrAirDay *days)
{
  g_autofree double *told = g_memdup2 (air->temp_c, air->n_hours * sizeof (double));
  g_autoptr (GArray) run = g_array_new (FALSE, FALSE, sizeof (Knot));
  g_autoptr (GArray) ends = g_array_new (FALSE, FALSE, sizeof (Knot));
  guint i = next_reading (weather->hours, 0);

  while (i < weather->hours->len)
    {
      gint64 last_utc;

      g_array_set_size (run, 0);
      do
        {
          const FrWeatherHour *hour = &g_array_index (weather->hours, FrWeatherHour, i);
          Knot knot = { hour->utc_s, hour->temp_c, TRUE, hour->is_forecast };

          g_array_append_val (run, knot);
          last_utc = hour->utc_s;
          i = next_reading (weather->hours, i + 1);
        }
      while (i < weather->hours->len
             && g_array_index (weather->hours, FrWeatherHour, i).utc_s - last_utc <= FR_AIR_REACH_S);
      g_array_append_vals (ends, run->data, 1);
      g_array_append_vals (ends, &g_array_index (run, Knot, run->len - 1), 1);
      for (gint64 date = fr_air_hours_at (air, g_array_index (run, Knot, 0).utc_s) / FR_DAY_HOURS;
           date <= fr_air_hours_at (air, last_utc) / FR_DAY_HOURS; date++)
        {
          add_extreme (air, run, (guint)date, &days[date], -1);
          add_extreme (air, run, (guint)date, &days[date], 1);
        }
      put_run (air, run);
    }
  for (guint e = 0; e < ends->len; e++)
    fade (air, told, &g_array_index (ends, Knot, e), (e & 1) != 0 ? 1 : -1);
}
