/* Joining by rank. Every value of every series is looked at once; the better rank stays. */
#include "domain/maths/weather-join.h"

#include <math.h>

#define DAY_S 86400 /* on a clock without daylight saving */
#define NOON_MINUTE 720

static gint
rank_of (const FrWeather *part, gboolean is_forecast)
{
  return is_forecast ? 2 : part->format == FR_WEATHER_OWN ? 0 : 1;
}

/* A day's value and who has it so far. */
typedef struct
{
  gint64 date;
  guint part;
  const FrWeatherDay *day;
} Candidate;

static gint
by_date_then_rank (gconstpointer a, gconstpointer b, gpointer data)
{
  const Candidate *one = a, *other = b;
  const FrWeather *const *parts = data;

  if (one->date != other->date)
    return one->date < other->date ? -1 : 1;
  if (rank_of (parts[one->part], one->day->is_forecast)
      != rank_of (parts[other->part], other->day->is_forecast))
    return rank_of (parts[one->part], one->day->is_forecast)
           - rank_of (parts[other->part], other->day->is_forecast);
  return (one->part > other->part) - (one->part < other->part);
}

static gboolean
take (double *value, gint *from, double candidate, guint part)
{
  if (*from != FR_WEATHER_FROM_NONE || isnan (candidate))
    return FALSE;
  *value = candidate;
  *from = (gint)part;
  return TRUE;
}

static void
take_low (FrWeatherDay *day, FrWeatherOrigin *origin, const Candidate *candidate)
{
  if (!take (&day->low_c, &origin->low_from, candidate->day->low_c, candidate->part))
    return;
  day->low_mark = candidate->day->low_mark;
  origin->low_is_forecast = candidate->day->is_forecast;
}

static void
take_high (FrWeatherDay *day, FrWeatherOrigin *origin, const Candidate *candidate)
{
  if (!take (&day->high_c, &origin->high_from, candidate->day->high_c, candidate->part))
    return;
  day->high_mark = candidate->day->high_mark;
  origin->high_is_forecast = candidate->day->is_forecast;
}

static void
drop_low (FrWeatherDay *day, FrWeatherOrigin *origin)
{
  day->low_c = NAN;
  day->low_mark = FR_WEATHER_ABSENT;
  origin->low_from = FR_WEATHER_FROM_NONE;
  origin->low_is_forecast = FALSE;
}

static void
drop_high (FrWeatherDay *day, FrWeatherOrigin *origin)
{
  day->high_c = NAN;
  day->high_mark = FR_WEATHER_ABSENT;
  origin->high_from = FR_WEATHER_FROM_NONE;
  origin->high_is_forecast = FALSE;
}

/* Two extremes that do not go together: those of one series, or the better one alone. */
static void
settle (FrWeatherDay *day, FrWeatherOrigin *origin, const Candidate *candidates, guint n)
{
  gboolean low_is_better = FALSE, both_bad;

  if (!(day->low_c > day->high_c))
    return;
  for (guint i = n; i-- > 0;)
    if ((gint)candidates[i].part == origin->low_from || (gint)candidates[i].part == origin->high_from)
      low_is_better = (gint)candidates[i].part == origin->low_from;
  for (guint i = 0; i < n; i++)
    if (candidates[i].day->low_c <= candidates[i].day->high_c)
      {
        drop_low (day, origin);
        drop_high (day, origin);
        take_low (day, origin, &candidates[i]);
        take_high (day, origin, &candidates[i]);
        return;
      }
  both_bad = origin->low_from == origin->high_from;
  if (low_is_better || both_bad)
    drop_high (day, origin);
  if (!low_is_better || both_bad)
    drop_low (day, origin);
}

/* @candidates are of one date, the best first. */
static void
join_day (FrWeatherJoined *joined, const Candidate *candidates, guint n)
{
  FrWeatherDay day = fr_weather_day (candidates[0].day->date);
  FrWeatherOrigin origin = { FR_WEATHER_FROM_NONE,
                             FR_WEATHER_FROM_NONE,
                             FR_WEATHER_FROM_NONE,
                             FR_WEATHER_FROM_NONE,
                             FR_WEATHER_FROM_NONE,
                             FALSE,
                             FALSE };

  for (guint i = 0; i < n; i++)
    {
      take_low (&day, &origin, &candidates[i]);
      take_high (&day, &origin, &candidates[i]);
      take (&day.rain_m, &origin.rain_from, candidates[i].day->rain_m, candidates[i].part);
      take (&day.snow_m, &origin.snow_from, candidates[i].day->snow_m, candidates[i].part);
      take (&day.sun_j_per_m2, &origin.sun_from, candidates[i].day->sun_j_per_m2, candidates[i].part);
    }
  settle (&day, &origin, candidates, n);
  day.is_forecast = origin.low_is_forecast || origin.high_is_forecast;
  g_array_append_val (joined->weather->days, day);
  g_array_append_val (joined->origins, origin);
}

static void
join_days (FrWeatherJoined *joined, const FrWeather *const *parts, guint n_parts)
{
  g_autoptr (GArray) candidates = g_array_new (FALSE, FALSE, sizeof (Candidate));

  for (guint p = 0; p < n_parts; p++)
    for (guint i = 0; i < parts[p]->days->len; i++)
      {
        const FrWeatherDay *day = &g_array_index (parts[p]->days, FrWeatherDay, i);
        Candidate candidate = { fr_date_to_days (day->date), p, day };

        g_array_append_val (candidates, candidate);
      }
  g_array_sort_with_data (candidates, by_date_then_rank, (gpointer)parts);
  for (guint i = 0, n; i < candidates->len; i += n)
    {
      const Candidate *first = &g_array_index (candidates, Candidate, i);

      for (n = 1; i + n < candidates->len && first[n].date == first->date; n++)
        ;
      join_day (joined, first, n);
    }
}

typedef struct
{
  const FrWeatherHour *hour;
  guint part;
  gint rank;
} HourCandidate;

static gint
by_instant_then_rank (gconstpointer a, gconstpointer b)
{
  const HourCandidate *one = a, *other = b;

  if (one->hour->utc_s != other->hour->utc_s)
    return one->hour->utc_s < other->hour->utc_s ? -1 : 1;
  if (one->rank != other->rank)
    return one->rank - other->rank;
  return (one->part > other->part) - (one->part < other->part);
}

/* Whether both extremes of the instant's date were observed. */
static gboolean
is_past (const FrWeatherJoined *joined, gint64 utc_s, gint offset_s)
{
  gint64 local = utc_s + offset_s;
  FrDate date = fr_date_from_days (local / DAY_S - (local % DAY_S < 0));
  const FrWeatherDay *day = fr_weather_find_day (joined->weather, date);

  return day != NULL && !day->is_forecast && !isnan (day->low_c) && !isnan (day->high_c);
}

static void
join_hours (FrWeatherJoined *joined, const FrWeather *const *parts, guint n_parts, gint offset_s)
{
  g_autoptr (GArray) candidates = g_array_new (FALSE, FALSE, sizeof (HourCandidate));

  for (guint p = 0; p < n_parts; p++)
    for (guint i = 0; i < parts[p]->hours->len; i++)
      {
        const FrWeatherHour *hour = &g_array_index (parts[p]->hours, FrWeatherHour, i);
        HourCandidate candidate = { hour, p, rank_of (parts[p], hour->is_forecast) };

        if (!isnan (hour->temp_c) && !(hour->is_forecast && is_past (joined, hour->utc_s, offset_s)))
          g_array_append_val (candidates, candidate);
      }
  g_array_sort (candidates, by_instant_then_rank);
  for (guint i = 0; i < candidates->len; i++)
    {
      const HourCandidate *here = &g_array_index (candidates, HourCandidate, i);
      gint from = (gint)here->part;

      if (i > 0 && here[-1].hour->utc_s == here->hour->utc_s)
        continue;
      g_array_append_vals (joined->weather->hours, here->hour, 1);
      g_array_append_val (joined->hour_froms, from);
    }
}

FrWeatherJoined *
fr_weather_join (const FrWeather *const *parts, guint n_parts, gint offset_s)
{
  FrWeatherJoined *joined = g_new0 (FrWeatherJoined, 1);
  FrWeather *weather = joined->weather = fr_weather_new (FR_WEATHER_JOINED);

  joined->origins = g_array_new (FALSE, FALSE, sizeof (FrWeatherOrigin));
  joined->hour_froms = g_array_new (FALSE, FALSE, sizeof (gint));
  for (guint p = 0; p < n_parts; p++)
    {
      if (isnan (weather->latitude_deg) && !isnan (parts[p]->latitude_deg))
        {
          weather->latitude_deg = parts[p]->latitude_deg;
          weather->longitude_deg = parts[p]->longitude_deg;
          weather->altitude_m = parts[p]->altitude_m;
        }
      if (parts[p]->has_issued && (!weather->has_issued || parts[p]->issued_utc > weather->issued_utc))
        {
          weather->has_issued = TRUE;
          weather->issued_utc = parts[p]->issued_utc;
        }
    }
  join_days (joined, parts, n_parts);
  join_hours (joined, parts, n_parts, offset_s);
  return joined;
}

void
fr_weather_joined_free (FrWeatherJoined *joined)
{
  if (!joined)
    return;
  fr_weather_free (joined->weather);
  g_array_unref (joined->origins);
  g_array_unref (joined->hour_froms);
  g_free (joined);
}

gboolean
fr_weather_is_morning_read (const FrWeather *weather, FrReadingTime reading)
{
  if (reading == FR_READING_AS_TOLD)
    return weather->reading_minute > 0 && weather->reading_minute <= NOON_MINUTE;
  return reading == FR_READING_MORNING;
}

void
fr_weather_shift_highs (FrWeather *weather)
{
  guint n_days = weather->days->len;

  weather->reading_minute = -1;
  for (guint i = 0; i < n_days; i++)
    {
      FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);
      FrDate before = fr_date_add_days (day->date, -1);
      double high = day->high_c;
      FrWeatherMark mark = day->high_mark;

      if (day->is_forecast)
        continue;
      day->high_c = NAN;
      day->high_mark = FR_WEATHER_ABSENT;
      if (i > 0 && fr_date_compare (day[-1].date, before) == 0 && !day[-1].is_forecast)
        {
          day[-1].high_c = high;
          day[-1].high_mark = mark;
        }
      else if (!isnan (high) && (i == 0 || fr_date_compare (day[-1].date, before) != 0))
        {
          FrWeatherDay made = fr_weather_day (before);

          made.high_c = high;
          made.high_mark = mark;
          g_array_append_val (weather->days, made);
        }
    }
  fr_weather_sort (weather);
}

GArray *
fr_weather_unknown_days (const FrWeather *weather, FrDate from, FrDate to)
{
  GArray *gaps = g_array_new (FALSE, FALSE, sizeof (FrWeatherUnknown));
  gboolean is_open = FALSE;

  for (FrDate date = from; fr_date_compare (date, to) <= 0; date = fr_date_add_days (date, 1))
    {
      const FrWeatherDay *day = fr_weather_find_day (weather, date);
      gboolean has_low = day != NULL && !isnan (day->low_c), has_high = day != NULL && !isnan (day->high_c);
      FrWeatherUnknown gap = { date, date, 1, has_low || has_high };

      if (has_low && has_high)
        {
          is_open = FALSE;
          continue;
        }
      if (is_open)
        {
          FrWeatherUnknown *last = &g_array_index (gaps, FrWeatherUnknown, gaps->len - 1);

          last->to = date;
          last->n_days++;
          last->n_half += gap.n_half;
        }
      else
        g_array_append_val (gaps, gap);
      is_open = TRUE;
    }
  return gaps;
}
