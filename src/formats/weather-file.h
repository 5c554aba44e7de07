/* Weather out of a file or a service's answer: one door for all formats.
 *
 *   g_autoptr (GError) error = NULL;
 *   g_autoptr (FrWeather) weather = fr_weather_read (bytes, length, NULL, &error);
 *
 * Which format it is shows in what is in it. Days are local dates as they are written, hours instants in UTC; both are
 * in order, each once. UTF-8, with or without a mark of the byte order, at most 20 MiB (JSON 16).
 *
 * A plain table names its columns; what they mean is guessed from the names unless @choice says it. Of a table that
 * holds several places one has to be chosen. */
#pragma once

#include "domain/maths/weather.h"
#include "domain/units/zone.h"
#include "formats/input-error.h"

G_BEGIN_DECLS

#define FR_WEATHER_SIZE_MAX (20 * 1024 * 1024)

/* Temperatures that are taken for a mistake: beyond ± this. */
#define FR_WEATHER_TEMP_MAX_C 90.0

/* What a column of a plain table is for. */
typedef enum
{
  FR_WEATHER_COLUMN_NONE, /* not read */
  FR_WEATHER_COLUMN_DATE, /* the day, or day and clock */
  FR_WEATHER_COLUMN_CLOCK,
  FR_WEATHER_COLUMN_LOW,
  FR_WEATHER_COLUMN_HIGH,
  FR_WEATHER_COLUMN_TEMP, /* at a moment */
  FR_WEATHER_COLUMN_RAIN,
  FR_WEATHER_COLUMN_SNOW, /* depth lying */
  FR_WEATHER_COLUMN_SUN,  /* a day's sum on level ground */
  FR_N_WEATHER_COLUMNS
} FrWeatherColumn;

typedef enum
{
  FR_WEATHER_UNIT_UNTOLD,
  FR_WEATHER_UNIT_C,
  FR_WEATHER_UNIT_F,
  FR_WEATHER_UNIT_MM,
  FR_WEATHER_UNIT_CM,
  FR_WEATHER_UNIT_M,
  FR_WEATHER_UNIT_IN,
  FR_WEATHER_UNIT_MJ_PER_M2,
  FR_WEATHER_UNIT_KWH_PER_M2,
  FR_N_WEATHER_UNITS
} FrWeatherUnit;

/**
 * FrWeatherColumns:
 * How to take a file, beyond what it says itself. { 0 } leaves everything to be guessed.
 * @names: of the column for each use, or its number as "#3"; NULL is guessed, "-" is none
 * @units: of it, or FR_WEATHER_UNIT_UNTOLD: told by the head, else °C, mm and MJ/m²
 * @where_column: with @where_value takes only rows with that value there; NULL takes all
 * @zone: (not owned): of clocks without an offset, and of the days that a service's extremes fall on; or NULL
 */
typedef struct
{
  char *names[FR_N_WEATHER_COLUMNS];
  FrWeatherUnit units[FR_N_WEATHER_COLUMNS];
  char *where_column;
  char *where_value;
  const FrZoneTable *zone;
} FrWeatherColumns;

void
fr_weather_columns_clear (FrWeatherColumns *columns);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrWeatherColumns, fr_weather_columns_clear)

/* Reads "date=day,low=tmin:f,high=#4:f,rain=-" into @columns: a use, the column's name or number and, if need be, a unit. */
gboolean
fr_weather_columns_parse (FrWeatherColumns *columns, const char *text, GError **error);
/* Reads "location=Seattle". */
gboolean
fr_weather_columns_parse_where (FrWeatherColumns *columns, const char *text, GError **error);

/* "date", "low", …; "none" for what is not read. And back. */
const char *
fr_weather_column_code (FrWeatherColumn use);
gboolean
fr_weather_column_from_code (const char *code, FrWeatherColumn *use_out);
/* "c", "mm", …; "" when untold. */
const char *
fr_weather_unit_code (FrWeatherUnit unit);

/**
 * FrWeatherFound:
 * A column of a plain table and what it is taken for.
 * @name: as the head has it; "" when the table has no head
 * @example: its first cell with something in it
 * @unit: that its numbers are taken in; FR_WEATHER_UNIT_UNTOLD for what has none
 * @is_unit_told: by the head or the choice; else the usual one is taken
 * @is_mark: it holds the source's marks for the values of @use
 */
typedef struct
{
  char *name;
  char *example;
  FrWeatherColumn use;
  FrWeatherUnit unit;
  gboolean is_unit_told;
  gboolean is_mark;
} FrWeatherFound;

/* (element-type FrWeatherFound): the columns of a plain table in their order, for a person to choose from; NULL with a
 * sentence when the bytes are no table. Of a format that needs no choosing the list is empty. */
GPtrArray *
fr_weather_list_columns (const char *bytes, gsize length, const FrWeatherColumns *choice, GError **error);

/* NULL with FR_INPUT_ERROR: a sentence with what is wrong, where, and what to do. */
FrWeather *
fr_weather_read (const char *bytes, gsize length, const FrWeatherColumns *choice, GError **error);

G_END_DECLS
