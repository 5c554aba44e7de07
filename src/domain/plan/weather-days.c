/* The lowest and highest of a local day's readings. Air between two readings an hour apart goes farther than both by some tenths of a degree at
 * most (common practice, no source), which is why those are marked as estimates. A day with too long a silence has none: its night may have
 * been in it. */
#include "domain/plan/weather-days.h"

#include "domain/plan/season-book.h"

#include <math.h>

typedef struct
{
  FrDate date;
  gint64 last_utc; /* reading so far, or the day's beginning */
  gint64 to_utc;
  gint64 gap_s;
  double low_c;
  double high_c;
} Day;

static Day
begin (const FrZoneTable *zone, FrDate date)
{
  Day day = { .date = date, .low_c = INFINITY, .high_c = -INFINITY };

  fr_day_span_utc (zone, date, &day.last_utc, &day.to_utc);
  return day;
}

static void
take (Day *day, gint64 utc_s, double temp_c)
{
  day->gap_s = MAX (day->gap_s, utc_s - day->last_utc);
  day->last_utc = utc_s;
  day->low_c = fmin (day->low_c, temp_c);
  day->high_c = fmax (day->high_c, temp_c);
}

/* TRUE when both were gained. */
static gboolean
end (FrWeather *weather, GArray *made, Day *done)
{
  FrWeatherDay *day, new_day;
  FrWeatherMark mark;

  done->gap_s = MAX (done->gap_s, done->to_utc - done->last_utc);
  if (done->gap_s > FR_WEATHER_DAY_GAP_S)
    return FALSE;
  day = (FrWeatherDay *)fr_weather_find_day (weather, done->date);
  new_day = fr_weather_day (done->date);
  day = day != NULL ? day : &new_day;
  if (day->is_forecast || !isnan (day->low_c) || !isnan (day->high_c))
    return FALSE;
  mark = done->gap_s > FR_WEATHER_DAY_CLOSE_S ? FR_WEATHER_ESTIMATED : FR_WEATHER_PLAIN;
  day->low_c = done->low_c;
  day->high_c = done->high_c;
  day->low_mark = day->high_mark = mark;
  weather->n_estimated += mark == FR_WEATHER_ESTIMATED ? 2 : 0;
  if (day == &new_day)
    g_array_append_val (made, new_day);
  return TRUE;
}

guint
fr_weather_fill_days (FrWeather *weather, const FrZoneTable *zone)
{
  g_return_val_if_fail (weather != NULL, 0);

  g_autoptr (FrZoneTable) utc = zone == NULL ? fr_zone_table_new_utc () : NULL;
  g_autoptr (GArray) made = g_array_new (FALSE, FALSE, sizeof (FrWeatherDay)); /* put in at the end: sorting takes long */
  gboolean has_day = FALSE;
  Day day = { { 0, 0, 0 }, 0, 0, 0, 0, 0 };
  guint n = 0;

  zone = zone != NULL ? zone : utc;
  for (guint i = 0; i < weather->hours->len; i++)
    {
      const FrWeatherHour *hour = &g_array_index (weather->hours, FrWeatherHour, i);

      if (hour->is_forecast || isnan (hour->temp_c))
        continue;
      if (!has_day || hour->utc_s >= day.to_utc)
        {
          n += has_day && end (weather, made, &day);
          day = begin (zone, fr_zone_local (zone, hour->utc_s).date);
          has_day = TRUE;
        }
      take (&day, hour->utc_s, hour->temp_c);
    }
  n += has_day && end (weather, made, &day);
  g_array_append_vals (weather->days, made->data, made->len);
  fr_weather_sort (weather);
  return n;
}
