/* Hours from days and from readings.
 *
 * On a clock without daylight saving every date has 24 hours, so that hours are counted through: nothing here
 * asks when tomorrow begins on the wall. */
#include "domain/maths/air-hours-private.h"

#include <math.h>

#define BLOCK_DAYS 32u /* of which courses are at hand */

static gint64
floor_div (gint64 a, gint64 b)
{
  return a / b - (a % b != 0 && (a % b < 0) != (b < 0));
}

gint64
fr_air_hours_midnight (const FrAirHours *air, FrDate date)
{
  return (fr_date_to_days (date) - fr_date_to_days (air->first)) * FR_DAY_HOURS;
}

gint64
fr_air_hours_utc (const FrAirHours *air, gint64 hour)
{
  return (fr_date_to_days (air->first) * FR_DAY_HOURS + hour) * FR_AIR_HOUR_S - air->offset_s;
}

gint64
fr_air_hours_at (const FrAirHours *air, gint64 utc_s)
{
  return floor_div (utc_s - fr_air_hours_utc (air, 0), FR_AIR_HOUR_S);
}

static gboolean
knows (const FrWeatherDay *day)
{
  return (!isnan (day->low_c) || !isnan (day->high_c)) && !(day->low_c > day->high_c);
}

/* Days since the epoch of the first and last date of which anything is known. */
static gboolean
bounds (const FrWeather *weather, gint offset_s, gint64 *first_out, gint64 *last_out)
{
  gint64 first = G_MAXINT64, last = G_MININT64;

  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);

      if (knows (day))
        {
          first = MIN (first, fr_date_to_days (day->date));
          last = MAX (last, fr_date_to_days (day->date));
        }
    }
  for (guint i = 0; i < weather->hours->len; i++)
    {
      const FrWeatherHour *hour = &g_array_index (weather->hours, FrWeatherHour, i);

      if (!isnan (hour->temp_c))
        {
          gint64 date = floor_div (hour->utc_s + offset_s, (gint64)FR_DAY_HOURS * FR_AIR_HOUR_S);

          first = MIN (first, date);
          last = MAX (last, date);
        }
    }
  *first_out = first;
  *last_out = last;
  return first <= last;
}

static void
bridge (FrAirDay *days, guint n_days)
{
  for (guint i = 1; i + 1 < n_days; i++)
    {
      FrAirDay *day = &days[i];
      const FrAirDay *before = day - 1, *after = day + 1;

      if (isnan (day->low_c) && !before->low_bridged && !isnan (before->low_c + after->low_c))
        {
          day->low_c = (before->low_c + after->low_c) / 2;
          day->low_bridged = TRUE;
        }
      if (isnan (day->high_c) && !before->high_bridged && !isnan (before->high_c + after->high_c))
        {
          day->high_c = (before->high_c + after->high_c) / 2;
          day->high_bridged = TRUE;
        }
    }
}

static FrAirDay *
take_days (const FrWeather *weather, gint64 first, guint n_days)
{
  FrAirDay *days = g_new (FrAirDay, n_days);

  for (guint i = 0; i < n_days; i++)
    days[i] = (FrAirDay){ .low_c = NAN, .high_c = NAN };
  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);
      gint64 place = fr_date_to_days (day->date) - first;

      if (knows (day))
        days[place]
            = (FrAirDay){ .low_c = day->low_c, .high_c = day->high_c, .is_forecast = day->is_forecast };
    }
  bridge (days, n_days);
  return days;
}

static void
put_day (FrAirHours *air, guint place, const FrAirDay *days, guint n_days, const FrDayCourse *course)
{
  const FrAirDay *day = &days[place];
  FrAirDay before = place > 0 ? days[place - 1] : *day, after = place + 1 < n_days ? days[place + 1] : *day;
  double extremes[FR_N_EXTREMES];
  gboolean bridged[FR_N_EXTREMES];

  if (isnan (before.low_c))
    before.low_c = day->low_c;
  if (isnan (before.high_c))
    before.high_c = day->high_c;
  if (isnan (after.low_c))
    after.low_c = day->low_c;
  extremes[FR_EXTREME_LOW_BEFORE] = before.low_c, bridged[FR_EXTREME_LOW_BEFORE] = before.low_bridged;
  extremes[FR_EXTREME_HIGH_BEFORE] = before.high_c, bridged[FR_EXTREME_HIGH_BEFORE] = before.high_bridged;
  extremes[FR_EXTREME_LOW] = day->low_c, bridged[FR_EXTREME_LOW] = day->low_bridged;
  extremes[FR_EXTREME_HIGH] = day->high_c, bridged[FR_EXTREME_HIGH] = day->high_bridged;
  extremes[FR_EXTREME_LOW_AFTER] = after.low_c, bridged[FR_EXTREME_LOW_AFTER] = after.low_bridged;
  for (guint hour = 0; hour < FR_DAY_HOURS; hour++)
    {
      guint at = place * FR_DAY_HOURS + hour;

      air->temp_c[at] = fr_day_course_c (course, hour, extremes);
      if (isnan (air->temp_c[at]))
        continue;
      air->from[at] = FR_AIR_DAY;
      air->is_forecast[at] = day->is_forecast != FALSE;
      for (guint i = 0; i < FR_N_EXTREMES; i++)
        if (course->share_ratio[hour][i] > 0 && bridged[i])
          air->from[at] = FR_AIR_BRIDGED;
    }
}

/* The hour in which an extreme counts most. */
static guint
hour_of (const FrDayCourse *course, FrExtreme extreme)
{
  guint best = 0;

  for (guint hour = 1; hour < FR_DAY_HOURS; hour++)
    if (course->share_ratio[hour][extreme] > course->share_ratio[best][extreme])
      best = hour;
  return best;
}

/* The mean of the hours a day before and a day after. */
static double
between_days_c (const FrAirHours *air, guint from, guint to, gint64 at)
{
  gint64 before = at - FR_DAY_HOURS, after = at + FR_DAY_HOURS;

  if (before < 0 || after >= air->n_hours || (before >= from && before <= to)
      || (after >= from && after <= to))
    return NAN;
  if (air->from[before] == FR_AIR_BRIDGED || air->from[after] == FR_AIR_BRIDGED)
    return NAN;
  return (air->temp_c[before] + air->temp_c[after]) / 2;
}

/* Fills the unknown hours @from to @to by the days around, shifted to meet the known hour at either end. */
static void
bridge_hours (FrAirHours *air, guint from, guint to)
{
  double first = air->temp_c[from - 1] - between_days_c (air, from, to, (gint64)from - 1),
         last = air->temp_c[to + 1] - between_days_c (air, from, to, (gint64)to + 1);

  for (guint at = from; at <= to; at++)
    if (isnan (between_days_c (air, from, to, at)))
      return;
  if (isnan (first))
    first = isnan (last) ? 0 : last;
  if (isnan (last))
    last = first;
  for (guint at = from; at <= to; at++)
    {
      air->temp_c[at]
          = between_days_c (air, from, to, at) + first + (last - first) * (at - from + 1) / (to - from + 2);
      air->is_forecast[at] = air->is_forecast[at - FR_DAY_HOURS] | air->is_forecast[at + FR_DAY_HOURS];
    }
  for (guint at = from; at <= to; at++)
    air->from[at] = FR_AIR_BRIDGED;
}

static void
bridge_gaps (FrAirHours *air)
{
  for (guint from = 0, to; from < air->n_hours; from = to + 1)
    {
      to = from;
      if (!isnan (air->temp_c[from]))
        continue;
      while (to + 1 < air->n_hours && isnan (air->temp_c[to + 1]))
        to++;
      if (from > 0 && to + 1 < air->n_hours && to - from < FR_DAY_HOURS)
        bridge_hours (air, from, to);
    }
}

FrAirHours *
fr_air_hours_new (const FrWeather *weather, FrCourseKind kind, gint offset_s)
{
  FrAirHours *air = g_new0 (FrAirHours, 1);
  gint64 first, last;
  guint n_days;
  g_autofree FrAirDay *days = NULL;
  FrDayCourse courses[BLOCK_DAYS];

  g_return_val_if_fail ((guint)kind < FR_N_COURSES && ABS (offset_s) < FR_DAY_HOURS * FR_AIR_HOUR_S, air);
  air->offset_s = offset_s;
  if (!bounds (weather, offset_s, &first, &last))
    return air;
  n_days = (guint)(last - first + 1);
  air->first = fr_date_from_days (first);
  air->n_hours = n_days * FR_DAY_HOURS;
  air->temp_c = g_new (double, air->n_hours);
  air->is_forecast = g_new0 (guint8, air->n_hours);
  air->from = g_new0 (guint8, air->n_hours);
  days = take_days (weather, first, n_days);
  for (guint i = 0; i < n_days; i++)
    {
      const FrDayCourse *course = &courses[i % BLOCK_DAYS];

      if (i % BLOCK_DAYS == 0)
        fr_day_courses (kind, fr_date_from_days (first + i), MIN (BLOCK_DAYS, n_days - i),
                        weather->latitude_deg, weather->longitude_deg, offset_s, courses);
      days[i].low_hour = hour_of (course, FR_EXTREME_LOW);
      days[i].high_hour = hour_of (course, FR_EXTREME_HIGH);
      put_day (air, i, days, n_days, course);
    }
  fr_air_hours_put_readings (air, weather, days);
  bridge_gaps (air);
  return air;
}

void
fr_air_hours_free (FrAirHours *air)
{
  if (!air)
    return;
  g_free (air->temp_c);
  g_free (air->is_forecast);
  g_free (air->from);
  g_free (air);
}
