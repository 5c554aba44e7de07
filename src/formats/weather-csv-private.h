/* A plain table of weather while it is read. */
#pragma once

#include "formats/weather-private.h"

G_BEGIN_DECLS

/* Of dates with the year last. */
typedef enum
{
  FR_WEATHER_ORDER_UNKNOWN,
  FR_WEATHER_ORDER_DAY_FIRST,
  FR_WEATHER_ORDER_MONTH_FIRST,
  FR_WEATHER_ORDER_BOTH
} FrWeatherOrder;

typedef struct
{
  GPtrArray *rows; /* FrCsvRow *, borrowed: those of the place, without the head */
  GPtrArray *names;
  const FrWeatherColumns *choice;
  FrWeatherUse use;
  FrWeather *weather;
  FrWeatherOrder order;
  GError **error;
} FrWeatherTable;

typedef struct
{
  FrDate date;
  gint second; /* −1: no clock */
  gint offset_s;
  gboolean has_offset;
} FrWeatherWhen;

/* "" where the row or the table has none. Free it. */
char *
fr_weather_table_cell (const FrWeatherTable *table, const FrCsvRow *row, gint index);
/* Sets the sentence for a cell; always FALSE. */
gboolean
fr_weather_table_fail (const FrWeatherTable *table, const FrCsvRow *row, gint index, const char *sentence);

/* FALSE with the sentence when the table holds several places. */
gboolean
fr_weather_table_check_place (const FrWeatherTable *table);

/* By all dates of the table. */
FrWeatherOrder
fr_weather_table_order (const FrWeatherTable *table);
/* Day and clock of a row; FALSE with the sentence. */
gboolean
fr_weather_table_when (const FrWeatherTable *table, const FrCsvRow *row, FrWeatherWhen *when_out);
/* The instant; @before_utc is that of the row before, for the hour in autumn that comes twice. FALSE with the sentence. */
gboolean
fr_weather_table_instant (const FrWeatherTable *table, const FrCsvRow *row, const FrWeatherWhen *when, gint64 before_utc, gint64 *utc_out);

G_END_DECLS
