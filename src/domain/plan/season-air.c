/* Parting a series at each midwinter. */
#include "domain/plan/season-air.h"

#include <math.h>

/* Hours without a temperature that a season may have and still stand in. */
#define MISSING_MAX_H 48

FrDate
fr_midwinter (FrDate date, gboolean is_south)
{
  FrDate midwinter = { date.year, is_south ? 7 : 1, 1 };

  if (fr_date_compare (date, midwinter) < 0)
    midwinter.year--;
  return midwinter;
}

static gint64
day_of_instant (gint64 utc_s, gint offset_s)
{
  gint64 local_s = utc_s + offset_s;

  return local_s / 86400 - (local_s % 86400 < 0);
}

FrAirHours *
fr_season_air (const FrWeather *weather, FrDate midwinter, gint offset_s)
{
  g_autoptr (FrWeather) season = fr_weather_copy (weather);
  FrDate next = { midwinter.year + 1, midwinter.month, midwinter.day };
  gint64 from = fr_date_to_days (midwinter), to = fr_date_to_days (next);

  g_array_set_size (season->days, 0);
  g_array_set_size (season->hours, 0);
  for (guint i = 0; i < weather->days->len; i++)
    {
      gint64 day = fr_date_to_days (g_array_index (weather->days, FrWeatherDay, i).date);

      if (day >= from && day < to)
        g_array_append_vals (season->days, &g_array_index (weather->days, FrWeatherDay, i), 1);
    }
  for (guint i = 0; i < weather->hours->len; i++)
    {
      gint64 day = day_of_instant (g_array_index (weather->hours, FrWeatherHour, i).utc_s, offset_s);

      if (day >= from && day < to)
        g_array_append_vals (season->hours, &g_array_index (weather->hours, FrWeatherHour, i), 1);
    }
  return fr_air_hours_new (season, FR_SAP_COURSE, offset_s);
}

gboolean
fr_season_air_is_whole (const FrAirHours *air, FrDate midwinter)
{
  gint64 from = fr_air_hours_midnight (air, fr_date_add_days (midwinter, FR_PAST_FROM_D));
  gint64 to = fr_air_hours_midnight (air, fr_date_add_days (midwinter, FR_PAST_TO_D));
  guint missing = 0;

  if (air->n_hours == 0 || from < 0 || to > (gint64)air->n_hours)
    return FALSE;
  for (gint64 h = from; h < to; h++)
    missing += isnan (air->temp_c[h]);
  return missing <= MISSING_MAX_H;
}

static gboolean
first_date (const FrWeather *weather, gint offset_s, FrDate *date_out)
{
  gint64 first = G_MAXINT64;

  if (weather->days->len > 0)
    first = fr_date_to_days (g_array_index (weather->days, FrWeatherDay, 0).date);
  if (weather->hours->len > 0)
    first = MIN (first, day_of_instant (g_array_index (weather->hours, FrWeatherHour, 0).utc_s, offset_s));
  if (first == G_MAXINT64)
    return FALSE;
  *date_out = fr_date_from_days (first);
  return TRUE;
}

void
fr_past_airs (const FrWeather *weather, FrDate midwinter, gint offset_s, GPtrArray *airs_out)
{
  FrDate first;

  if (!first_date (weather, offset_s, &first))
    return;
  for (FrDate past = fr_midwinter (first, midwinter.month == 7); fr_date_compare (past, midwinter) < 0; past.year++)
    {
      FrAirHours *air = fr_season_air (weather, past, offset_s);

      if (fr_season_air_is_whole (air, past))
        g_ptr_array_add (airs_out, air);
      else
        fr_air_hours_free (air);
    }
}

gint
fr_standard_offset_s (double longitude_deg)
{
  return isnan (longitude_deg) ? 0 : (gint)lround (longitude_deg / 15) * 3600;
}
