/* What the readers of weather share. */
#pragma once

#include "formats/csv.h"
#include "formats/weather-file.h"

G_BEGIN_DECLS

/* --- cells --- */

/* @cell without blanks around, and without the apostrophe that guards it from spreadsheets. Free it. */
char *
fr_weather_cell_text (const char *cell);
/* Nothing, or one of the words and numbers by which tables say that there is no value. */
gboolean
fr_weather_cell_is_absent (const char *text);
/* Digits with a point or a comma before decimals; the real minus too. */
gboolean
fr_weather_cell_number (const char *text, double *value_out);
/* Into °C, m or J/m². */
double
fr_weather_unit_to_inner (double value, FrWeatherUnit unit);

/* Sets "line 5: …"; always FALSE. */
gboolean
fr_weather_fail (GError **error, guint line, const char *format, ...) G_GNUC_PRINTF (3, 4);
/* Sets "line 5, column “tmin”: …"; always FALSE. */
gboolean
fr_weather_fail_cell (GError **error, guint line, const char *column, const char *format, ...) G_GNUC_PRINTF (4, 5);

/* TRUE for a temperature within ±FR_WEATHER_TEMP_MAX_C; else FALSE with the sentence for that cell. */
gboolean
fr_weather_check_temp (double temp_c, const char *text, guint line, const char *column, GError **error);

/* Sets the sentence alone; always FALSE. */
gboolean
fr_weather_wrong (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* --- building --- */

/* Days and hours in order, each once; an impossible day (low above high) is refused; everything counted. */
void
fr_weather_finish (FrWeather *weather);

/* --- columns of plain tables --- */

/**
 * FrWeatherUse:
 * @index: of the column for each use, or −1
 */
typedef struct
{
  gint index[FR_N_WEATHER_COLUMNS];
  gint flag[FR_N_WEATHER_COLUMNS]; /* of the column with the source's mark for it, or −1 */
  FrWeatherUnit unit[FR_N_WEATHER_COLUMNS];
  gboolean is_unit_told[FR_N_WEATHER_COLUMNS];
  gint where;
  gboolean has_offset; /* the head says it of the clock */
  gint offset_s;
} FrWeatherUse;

/* @names: (element-type char *): of the columns; @first: the first row of data, to tell dates by what stands there. */
gboolean
fr_weather_use_columns (GPtrArray *names, const FrCsvRow *first, const FrWeatherColumns *choice, FrWeatherUse *use_out,
                        GError **error);
/* The names of the columns, and how many rows stand before the data: the head, and what is above it. Free with g_ptr_array_unref. */
GPtrArray *
fr_weather_table_names (GPtrArray *rows, guint *n_head_out);

/* "tmin", or "#3" for column 3 of a table without a head. Free it. */
char *
fr_weather_column_name (GPtrArray *names, gint index);
/* The first 20 of them for a sentence. Free it. */
char *
fr_weather_list_names (GPtrArray *names);

/* Bits of the units that go with a use. */
guint
fr_weather_units_of (FrWeatherColumn use);
/* "c", "°F", "inches", …; lower case. */
gboolean
fr_weather_unit_from_word (const char *word, FrWeatherUnit *unit_out);

/* Whether it begins as a day does, in any order. */
gboolean
fr_weather_looks_like_date (const char *text);

/* --- GHCN-Daily --- */

/* A station's elements on their way into days. */
typedef struct
{
  FrWeather *weather;
  const FrWeatherColumns *choice;
  GHashTable *places;   /* date as days → place in the list of days, from 1 */
  GHashTable *readings; /* minute of the day → how many extremes were read then */
  GHashTable *rain_readings;
  GError **error;
} FrGhcnd;

/* Where an element stands, for sentences. */
typedef struct
{
  guint line;
  FrDate date;
  const char *element; /* "TMAX"; others than the four that are of use are passed over */
} FrGhcndSpot;

FrWeather *
fr_ghcnd_begin (FrGhcnd *ghcnd, FrWeatherFormat format, const FrWeatherColumns *choice, GError **error);
/* Whether the row is of the station that was chosen, or of the only one; *wanted_out FALSE passes it over. FALSE with a sentence when
 * there are several and none is chosen. */
gboolean
fr_ghcnd_station (FrGhcnd *ghcnd, const char *station, guint line, gboolean *wanted_out);
/* @value: a whole number in the element's tenths, −9999 for none; blank marks as ' '; @clock "0700" or "". */
gboolean
fr_ghcnd_put (FrGhcnd *ghcnd, const FrGhcndSpot *spot, gint value, char m_mark, char q_mark, const char *clock);
/* @weather in order and counted, or NULL with a sentence when there is nothing in it. */
FrWeather *
fr_ghcnd_end (FrGhcnd *ghcnd, FrWeather *weather);
void
fr_ghcnd_clear (FrGhcnd *ghcnd);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrGhcnd, fr_ghcnd_clear)

/* A whole number with blanks before it, of so many characters; TRUE with −9999 for blanks alone. */
gboolean
fr_ghcnd_whole (const char *text, gsize length, gint *value_out);

/* The next line of a text, without its end; FALSE at the end. */
gboolean
fr_weather_next_line (const char **at, const char *end, GString *line_out);

/* --- readers --- */

gboolean
fr_ghcnd_dly_looks_like (const char *line);
FrWeather *
fr_ghcnd_dly_read (const char *text, gsize length, const FrWeatherColumns *choice, GError **error);
gboolean
fr_ghcnd_rows_looks_like (const char *line);
FrWeather *
fr_ghcnd_rows_read (const char *text, gsize length, const FrWeatherColumns *choice, GError **error);
gboolean
fr_ghcnd_table_looks_like (GPtrArray *rows);
FrWeather *
fr_ghcnd_table_read (GPtrArray *rows, const FrWeatherColumns *choice, GError **error);
/* The row of the head, or −1. */
gint
fr_eccc_head (GPtrArray *rows);
FrWeather *
fr_eccc_read (GPtrArray *rows, gint head, const FrWeatherColumns *choice, GError **error);

FrWeather *
fr_weather_csv_read (GPtrArray *rows, const FrWeatherColumns *choice, GError **error);

G_END_DECLS
