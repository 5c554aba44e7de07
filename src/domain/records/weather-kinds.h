/* The kinds that weather is kept in: where it comes from, its days, what was told ahead, and how the household has it told. The descriptors
 * are in weather-kinds.c. What the household itself writes down at breakfast is FrDay, in season-kinds.h. */
#pragma once

#include "domain/records/record.h"

G_BEGIN_DECLS

/* A source of weather for one place: a weather station whose files are read, or a service's forecast for the household's own place. */
typedef struct
{
  FrRecord record;
  char *name;
  char *source; /* code: file, met-norway, nws, open-meteo, other */
  char *station_key; /* the source's own key for it, such as "USC00437612" */
  FrAmount latitude_deg; /* north positive */
  FrAmount longitude_deg; /* east positive */
  FrAmount altitude_m;
  FrAmount reading_minute; /* of the day at which its lowest and highest are read; unknown = at midnight or not told */
  char *shift_highs; /* code: unknown, no, yes (yes: the high read on a morning is written down as the day before's) */
  FrAmount low_offset_k; /* to add to its lows to be at the household; unknown = learned from days that both have */
  FrAmount high_offset_k;
  char *attribution; /* what the source asks to be said of it */
  char *note;
} FrStation;

/* What a station saw on one day, as its source has it: no offset added, no high moved. A book holds at most one of a station and date, beside
 * those put away. */
typedef struct
{
  FrRecord record;
  gint64 station;
  char *day;
  FrAmount low_c;
  FrAmount high_c;
  FrAmount rain_m; /* rain and melted snow */
  FrAmount snow_m; /* lying */
  FrAmount sun_j_per_m2; /* of the whole day on level ground */
  char *low_mark; /* code of FrWeatherMark: plain, absent, estimated, refused */
  char *high_mark;
} FrStationDay;

/* What a source told ahead at one instant. A book holds at most one of a station and instant, beside those put away. */
typedef struct
{
  FrRecord record;
  gint64 station;
  gint64 issued_utc; /* when the source made it; where it does not say, when it was fetched */
  gint64 fetched_utc;
  char *body; /* days and hours as text; see outlook-text.h */
} FrOutlook;

/* How this household has the weather told: one record a book. */
typedef struct
{
  FrRecord record;
  char *service; /* code: off, met-norway, nws, open-meteo */
  char *base_address; /* asked in place of the service's own */
  char *contact; /* sent with each question, so that the service can write to whoever asks */
  FrAmount gather_minute; /* of the day at which buckets are usually emptied */
  FrAmount error_first_k; /* standard deviation of a forecast temperature on its first day; unknown = 1.5 */
  FrAmount error_week_k; /* on its seventh; unknown = 3.5 */
  FrAmount error_memory_ratio; /* correlation of the error from one day to the next; unknown = the program's own */
} FrForecasting;

G_END_DECLS
