/* Several series of one place made into one, value by value, with where each value came from.
 *
 * Ranks: the household's own thermometer, then what a station observed, then what was told ahead; within a
 * rank the series given first. Values are taken as they are: what one thermometer is off from another is
 * weather-offset's. */
#pragma once

#include "domain/maths/weather.h"

G_BEGIN_DECLS

/* Which series a value came from, by its place in the list. */
#define FR_WEATHER_FROM_NONE (-1)

/**
 * FrWeatherOrigin:
 * Of one day of a joined series: the place of the series in the list, or FR_WEATHER_FROM_NONE.
 * @low_is_forecast: told ahead; the day's own mark says so when either of its extremes is
 */
typedef struct
{
  gint low_from;
  gint high_from;
  gint rain_from;
  gint snow_from;
  gint sun_from;
  gboolean low_is_forecast;
  gboolean high_is_forecast;
} FrWeatherOrigin;

/**
 * FrWeatherJoined:
 * @weather: FR_WEATHER_JOINED, in order; the place of the first series that knows one
 * @origins: (element-type FrWeatherOrigin): one for each of its days
 * @hour_froms: (element-type gint): one for each of its hours
 */
typedef struct
{
  FrWeather *weather;
  GArray *origins;
  GArray *hour_froms;
} FrWeatherJoined;

/**
 * fr_weather_join:
 * @parts: each in order
 * @n_parts: how many
 * @offset_s: the place's standard clock minus UTC, within a day
 *
 * A day takes low and high from the best series that has each; when those two would put the low above the
 * high, both come from the best series that has both, and without one the worse of the two is unknown, and
 * both when one series has them so. Hours told ahead are left out on dates of which both extremes were
 * observed, so that yesterday's forecast does not stand in for yesterday.
 */
FrWeatherJoined *
fr_weather_join (const FrWeather *const *parts, guint n_parts, gint offset_s);
void
fr_weather_joined_free (FrWeatherJoined *joined);

/* When a station's extremes of a date were read. */
typedef enum
{
  FR_READING_AS_TOLD, /* by @reading_minute; not told is at the day's end */
  FR_READING_MORNING, /* at or before noon: the high is that of the afternoon before */
  FR_READING_EVENING  /* later, or at midnight: the high is that of the date */
} FrReadingTime;

/* Whether the highs of a series stand a day late. Observers of GHCN-Daily who read at or before noon book the
 * highest since the last reading, which was the afternoon before, on the day of reading; the low, which came
 * before dawn, stands right. */
gboolean
fr_weather_is_morning_read (const FrWeather *weather, FrReadingTime reading);

/* Puts observed highs one date back, with their marks; told ones stay. Rain and snow stay as booked. For
 * series that fr_weather_is_morning_read; afterwards @reading_minute is not told. */
void
fr_weather_shift_highs (FrWeather *weather);

/**
 * FrWeatherUnknown:
 * @from: first date of dates in a row without both extremes
 * @to: last of them
 * @n_days: how many
 * @n_half: how many of them have one extreme
 */
typedef struct
{
  FrDate from;
  FrDate to;
  guint n_days;
  guint n_half;
} FrWeatherUnknown;

/* Days not known from one date to another, both included, whether they are left out or there without a value;
 * none when @to is before @from. (element-type FrWeatherUnknown) */
GArray *
fr_weather_unknown_days (const FrWeather *weather, FrDate from, FrDate to);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrWeatherJoined, fr_weather_joined_free)

G_END_DECLS
