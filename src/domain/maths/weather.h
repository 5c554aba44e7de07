/* The weather of one place from one source, as it was read: days, hours, and what was left out in reading.
 *
 * Made by the readers of files and of services, from the book's own days, and by joining several. Temperatures in
 * °C, water in m, instants UTC seconds, days local dates of the place. Unknown is NAN. */
#pragma once

#include "domain/units/calendar.h"

G_BEGIN_DECLS

/* What the source says of a value. */
typedef enum
{
  FR_WEATHER_PLAIN,     /* nothing */
  FR_WEATHER_ABSENT,    /* there is none: the value is NAN */
  FR_WEATHER_ESTIMATED, /* estimated, corrected or uncertain, and used */
  FR_WEATHER_REFUSED,   /* failed the source's own checks: the value is NAN */
  FR_N_WEATHER_MARKS
} FrWeatherMark;

/**
 * FrWeatherDay:
 * @date: of the place's own clock
 * @low_c: lowest of the day, or NAN
 * @high_c: highest of the day, or NAN
 * @rain_m: water fallen as rain or snow, 0 for a trace, or NAN
 * @snow_m: depth of snow lying, or NAN
 * @sun_j_per_m2: of the whole day on level ground, or NAN
 * @is_forecast: told ahead by the source, not observed
 */
typedef struct
{
  FrDate date;
  double low_c;
  double high_c;
  double rain_m;
  double snow_m;
  double sun_j_per_m2;
  FrWeatherMark low_mark;
  FrWeatherMark high_mark;
  gboolean is_forecast;
} FrWeatherDay;

/**
 * FrWeatherHour:
 * @utc_s: the moment of the value
 * @span_s: how long until the source's next value should come: 3,600 or 21,600, of a logger also other
 * @temp_c: at that moment, or NAN
 * @is_forecast: told ahead by the source, not observed
 */
typedef struct
{
  gint64 utc_s;
  gint span_s;
  double temp_c;
  gboolean is_forecast;
} FrWeatherHour;

/* How the series was written; in words: fr_weather_format_code. */
typedef enum
{
  FR_WEATHER_CSV,         /* plain table with named columns */
  FR_WEATHER_GHCND_DLY,   /* GHCN-Daily, fixed width */
  FR_WEATHER_GHCND_ROWS,  /* GHCN-Daily, an element a row, no header (by_year, by_station) */
  FR_WEATHER_GHCND_TABLE, /* GHCN-Daily, a day a row, quoted header (access) */
  FR_WEATHER_ECCC_DAILY,  /* Environment and Climate Change Canada, daily CSV */
  FR_WEATHER_MET_COMPACT, /* MET Norway Locationforecast 2.0 compact JSON */
  FR_WEATHER_NWS_GRID,    /* US National Weather Service, raw gridpoint JSON */
  FR_WEATHER_NWS_POINT,   /* the same service's answer that tells which gridpoint: no weather in it */
  FR_WEATHER_OPEN_METEO,  /* Open-Meteo forecast JSON */
  FR_WEATHER_OWN,         /* the household's own thermometer */
  FR_WEATHER_JOINED,      /* several, by fr_weather_join */
  FR_N_WEATHER_FORMATS
} FrWeatherFormat;

/**
 * FrWeather:
 * @place_name: of the station or place as the source names it, or NULL
 * @station: the source's key for it, or NULL
 * @attribution: what the source asks to be said of it, or NULL
 * @latitude_deg: north positive, or NAN
 * @longitude_deg: east positive, or NAN
 * @altitude_m: or NAN
 * @has_issued: whether @issued_utc is known
 * @issued_utc: when the source made the forecast
 * @reading_minute: of the day at which the station's extremes are read, 1,440 at its end, or -1 when not told
 * @days: (element-type FrWeatherDay): dates rising, each once, not necessarily one after the other
 * @hours: (element-type FrWeatherHour): instants rising, each once
 * @n_absent: extremes the source had no value for
 * @n_estimated: extremes kept though the source marks them
 * @n_refused: values left out because the source's own checks failed, or a day's low was above its high
 * @n_trace: days with a trace of rain
 * @n_duplicates: days and hours that gave way to a later one of the same date or instant
 * @next_link: where an FR_WEATHER_NWS_POINT answer says the weather is, or NULL
 */
typedef struct
{
  FrWeatherFormat format;
  char *place_name;
  char *station;
  char *attribution;
  char *next_link;
  double latitude_deg;
  double longitude_deg;
  double altitude_m;
  gboolean has_issued;
  gint64 issued_utc;
  gint reading_minute;
  GArray *days;
  GArray *hours;
  guint n_absent;
  guint n_estimated;
  guint n_refused;
  guint n_trace;
  guint n_duplicates;
} FrWeather;

/* A fixed word for files and JSON, such as "ghcnd-dly". */
const char *
fr_weather_format_code (FrWeatherFormat format);
gboolean
fr_weather_format_from_code (const char *code, FrWeatherFormat *format_out);
const char *
fr_weather_mark_code (FrWeatherMark mark);

/* Empty, with all unknown. */
FrWeather *
fr_weather_new (FrWeatherFormat format);
FrWeather *
fr_weather_copy (const FrWeather *weather);
void
fr_weather_free (FrWeather *weather);

/* A day with all unknown and both marks absent. */
FrWeatherDay
fr_weather_day (FrDate date);

/* Puts days and hours in order; of two at one date or instant the later one given stays, and the number that gave
 * way is returned. */
guint
fr_weather_sort (FrWeather *weather);

/* The day of that date, or NULL; @weather is in order. The pointer holds until days are added. */
const FrWeatherDay *
fr_weather_find_day (const FrWeather *weather, FrDate date);

/**
 * FrWeatherGap:
 * @before: the last day that is there
 * @after: the next one
 * @n_days: between them, at least 1
 */
typedef struct
{
  FrDate before;
  FrDate after;
  guint n_days;
} FrWeatherGap;

/* (element-type FrWeatherGap): where dates are left out; @weather is in order. Free with g_array_unref. */
GArray *
fr_weather_gaps (const FrWeather *weather);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrWeather, fr_weather_free)

G_END_DECLS
