/* Making, copying and ordering a series of weather; what is in it comes from the readers. */
#include "domain/maths/weather.h"

#include <math.h>
#include <string.h>

static const char *const format_codes[FR_N_WEATHER_FORMATS]
    = { "csv",         "ghcnd-dly", "ghcnd-rows", "ghcnd-table", "eccc-daily", "met-compact",
        "nws-grid",    "nws-point", "open-meteo", "own",         "joined" };
static const char *const mark_codes[FR_N_WEATHER_MARKS] = { "plain", "absent", "estimated", "refused" };

const char *
fr_weather_format_code (FrWeatherFormat format)
{
  g_return_val_if_fail ((guint)format < FR_N_WEATHER_FORMATS, NULL);
  return format_codes[format];
}

gboolean
fr_weather_format_from_code (const char *code, FrWeatherFormat *format_out)
{
  for (guint i = 0; i < FR_N_WEATHER_FORMATS; i++)
    if (g_strcmp0 (format_codes[i], code) == 0)
      {
        *format_out = i;
        return TRUE;
      }
  return FALSE;
}

const char *
fr_weather_mark_code (FrWeatherMark mark)
{
  g_return_val_if_fail ((guint)mark < FR_N_WEATHER_MARKS, NULL);
  return mark_codes[mark];
}

FrWeather *
fr_weather_new (FrWeatherFormat format)
{
  FrWeather *weather = g_new0 (FrWeather, 1);

  weather->format = format;
  weather->latitude_deg = weather->longitude_deg = weather->altitude_m = NAN;
  weather->reading_minute = -1;
  weather->days = g_array_new (FALSE, FALSE, sizeof (FrWeatherDay));
  weather->hours = g_array_new (FALSE, FALSE, sizeof (FrWeatherHour));
  return weather;
}

FrWeather *
fr_weather_copy (const FrWeather *weather)
{
  FrWeather *copy = g_memdup2 (weather, sizeof *weather);

  copy->place_name = g_strdup (weather->place_name);
  copy->station = g_strdup (weather->station);
  copy->attribution = g_strdup (weather->attribution);
  copy->next_link = g_strdup (weather->next_link);
  copy->days = g_array_copy (weather->days);
  copy->hours = g_array_copy (weather->hours);
  return copy;
}

void
fr_weather_free (FrWeather *weather)
{
  if (!weather)
    return;
  g_free (weather->place_name);
  g_free (weather->station);
  g_free (weather->attribution);
  g_free (weather->next_link);
  g_array_unref (weather->days);
  g_array_unref (weather->hours);
  g_free (weather);
}

FrWeatherDay
fr_weather_day (FrDate date)
{
  return (FrWeatherDay){ .date = date,
                         .low_c = NAN,
                         .high_c = NAN,
                         .rain_m = NAN,
                         .snow_m = NAN,
                         .sun_j_per_m2 = NAN,
                         .low_mark = FR_WEATHER_ABSENT,
                         .high_mark = FR_WEATHER_ABSENT };
}

static gint
by_date (gconstpointer a, gconstpointer b)
{
  return fr_date_compare (((const FrWeatherDay *)a)->date, ((const FrWeatherDay *)b)->date);
}

static gint
by_instant (gconstpointer a, gconstpointer b)
{
  gint64 one = ((const FrWeatherHour *)a)->utc_s, other = ((const FrWeatherHour *)b)->utc_s;

  return one < other ? -1 : one > other;
}

/* Of equals the last stays: g_array_sort keeps the order in which they came. */
static guint
sort_and_keep_last (GArray *array, gsize size, GCompareFunc compare)
{
  guint n_kept = 0, n_before = array->len;

  g_array_sort (array, compare);
  for (guint i = 0; i < array->len; i++)
    {
      char *item = array->data + i * size;

      if (i + 1 < array->len && compare (item, item + size) == 0)
        continue;
      memmove (array->data + n_kept++ * size, item, size);
    }
  g_array_set_size (array, n_kept);
  return n_before - n_kept;
}

guint
fr_weather_sort (FrWeather *weather)
{
  return sort_and_keep_last (weather->days, sizeof (FrWeatherDay), by_date)
         + sort_and_keep_last (weather->hours, sizeof (FrWeatherHour), by_instant);
}

const FrWeatherDay *
fr_weather_find_day (const FrWeather *weather, FrDate date)
{
  FrWeatherDay wanted = { .date = date };
  guint place;

  if (!g_array_binary_search (weather->days, &wanted, by_date, &place))
    return NULL;
  return &g_array_index (weather->days, FrWeatherDay, place);
}

GArray *
fr_weather_gaps (const FrWeather *weather)
{
  GArray *gaps = g_array_new (FALSE, FALSE, sizeof (FrWeatherGap));

  for (guint i = 1; i < weather->days->len; i++)
    {
      FrDate before = g_array_index (weather->days, FrWeatherDay, i - 1).date,
             after = g_array_index (weather->days, FrWeatherDay, i).date;
      FrWeatherGap gap = { before, after, (guint)(fr_date_to_days (after) - fr_date_to_days (before) - 1) };

      if (gap.n_days > 0)
        g_array_append_val (gaps, gap);
    }
  return gaps;
}
