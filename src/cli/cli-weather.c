/* frostrun-cli weather: what is read from a file of weather. */
#include "cli/cli-weather.h"

#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "formats/csv-time.h"
#include "formats/json-text.h"
#include "formats/weather-json.h"
#include "formats/zone-source.h"
#include "words/weather-file-words.h"

#include <math.h>

#define FIRST_YEAR 1900
#define LAST_YEAR 2100
#define GAPS_SHOWN 12

static FrCliWeatherChoice said;

const GOptionEntry fr_weather_entries[]
    = { { "columns", 0, 0, G_OPTION_ARG_STRING, &said.columns,
          "What columns are for: date, time, low, high, temp, rain, snow, sun; #2 is a place, :f :in :cm a unit, - none", "LIST" },
        { "where", 0, 0, G_OPTION_ARG_STRING, &said.where, "Only rows with this value, in a table of several places",
          "COLUMN=VALUE" },
        { "zone", 0, 0, G_OPTION_ARG_STRING, &said.zone,
          "Of clocks that do not say it: America/Toronto, or an offset such as -05:00", "ZONE" },
        { NULL } };

static FrZoneTable *
zone_of (const char *text, GError **error)
{
  g_autofree char *quoted = fr_json_quote (text);
  FrZoneTable *table;
  gint offset_s;

  if (fr_csv_read_offset (text, &offset_s))
    {
      FrZoneSpan span = { .from_utc = G_MININT64, .offset_s = offset_s };

      g_strlcpy (span.abbreviation, text, sizeof span.abbreviation);
      return fr_zone_table_new (text, &span, 1);
    }
  table = fr_zone_table_load (text, FIRST_YEAR, LAST_YEAR, NULL);
  if (table == NULL)
    fr_cli_wrong (error, "--zone “%s” is neither an IANA name such as America/Toronto nor an offset such as -05:00", quoted);
  return table;
}

/* @zone_out is what @columns_out borrows. */
static gboolean
choose (const FrCliWeatherChoice *choice, FrWeatherColumns *columns_out, FrZoneTable **zone_out, GError **error)
{
  if (choice == NULL)
    return TRUE;
  if (choice->zone != NULL)
    {
      *zone_out = zone_of (choice->zone, error);
      if (*zone_out == NULL)
        return FALSE;
      columns_out->zone = *zone_out;
    }
  return (choice->columns == NULL || fr_weather_columns_parse (columns_out, choice->columns, error))
         && (choice->where == NULL || fr_weather_columns_parse_where (columns_out, choice->where, error));
}

/* @found_out, if not NULL: the columns of a plain table, else NULL. */
static FrWeather *
read_file (const char *path, const FrCliWeatherChoice *choice, GPtrArray **found_out, GError **error)
{
  g_autoptr (FrZoneTable) zone = NULL;
  g_auto (FrWeatherColumns) columns = { 0 };
  g_autoptr (GBytes) bytes = fr_cli_read_bytes (path, FR_WEATHER_SIZE_MAX, error);
  gsize length = 0;
  const char *text = bytes != NULL ? g_bytes_get_data (bytes, &length) : NULL;
  FrWeather *weather;

  if (bytes == NULL || !choose (choice, &columns, &zone, error))
    return NULL;
  weather = fr_weather_read (text != NULL ? text : "", length, &columns, error);
  if (weather != NULL && weather->format == FR_WEATHER_CSV && found_out != NULL)
    *found_out = fr_weather_list_columns (text, length, &columns, error);
  return weather;
}

FrWeather *
fr_cli_weather_read (const char *path, const FrCliWeatherChoice *choice, GError **error)
{
  return read_file (path, choice, NULL, error);
}

/* --- text --- */

static char *
instant_text (gint64 utc_s)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_utc (utc_s);

  return time != NULL ? g_date_time_format (time, "%Y-%m-%d %H:%M UTC") : g_strdup ("–");
}

static void
print_span (FrPrint *print, const FrWeather *weather)
{
  const guint n_days = weather->days->len, n_hours = weather->hours->len;

  if (n_days > 0)
    {
      g_autofree char *first = fr_date_to_iso (g_array_index (weather->days, FrWeatherDay, 0).date),
                      *last = fr_date_to_iso (g_array_index (weather->days, FrWeatherDay, n_days - 1).date),
                      *both = g_strdup_printf ("%s to %s", first, last);

      fr_print_words (print, "Days from", both);
    }
  if (n_hours > 0)
    {
      g_autofree char *first = instant_text (g_array_index (weather->hours, FrWeatherHour, 0).utc_s),
                      *last = instant_text (g_array_index (weather->hours, FrWeatherHour, n_hours - 1).utc_s),
                      *both = g_strdup_printf ("%s to %s", first, last);

      fr_print_words (print, "Hours from", both);
    }
}

static void
print_counts (FrPrint *print, const FrWeather *weather)
{
  guint n_forecast = 0, n_unknown = 0;

  for (guint i = 0; i < weather->days->len; i++)
    n_forecast += g_array_index (weather->days, FrWeatherDay, i).is_forecast;
  for (guint i = 0; i < weather->hours->len; i++)
    {
      n_forecast += g_array_index (weather->hours, FrWeatherHour, i).is_forecast;
      n_unknown += isnan (g_array_index (weather->hours, FrWeatherHour, i).temp_c);
    }
  fr_print_number (print, "Days", weather->days->len, 0, "");
  fr_print_number (print, "Hours", weather->hours->len, 0, "");
  fr_print_number (print, "Hours absent", n_unknown, 0, "without a temperature");
  fr_print_number (print, "Told ahead", n_forecast, 0, "days and hours");
  fr_print_number (print, "Absent", weather->n_absent, 0, "lows and highs");
  fr_print_number (print, "Estimated", weather->n_estimated, 0, "lows and highs, kept");
  fr_print_number (print, "Refused", weather->n_refused, 0, "values, left out");
  fr_print_number (print, "With a trace of rain", weather->n_trace, 0, "days");
  fr_print_number (print, "Twice", weather->n_duplicates, 0, "days or hours; the later one stayed");
}

static void
print_gaps (FrPrint *print, const FrWeather *weather)
{
  g_autoptr (GArray) gaps = fr_weather_gaps (weather);

  for (guint i = 0; i < gaps->len && i < GAPS_SHOWN; i++)
    {
      const FrWeatherGap *gap = &g_array_index (gaps, FrWeatherGap, i);
      g_autofree char *before = fr_date_to_iso (gap->before), *after = fr_date_to_iso (gap->after),
                      *words = g_strdup_printf ("%u %s between %s and %s", gap->n_days, gap->n_days == 1 ? "day" : "days", before, after);

      fr_print_words (print, i == 0 ? "Gaps" : "", words);
    }
  if (gaps->len > GAPS_SHOWN)
    {
      g_autofree char *rest = g_strdup_printf ("and %u more", gaps->len - GAPS_SHOWN);

      fr_print_words (print, "", rest);
    }
}

static void
print_columns (FrPrint *print, GPtrArray *found)
{
  for (guint i = 0; found != NULL && i < found->len; i++)
    {
      const FrWeatherFound *one = found->pdata[i];
      g_autofree char *name = one->name[0] != '\0' ? fr_json_quote (one->name) : g_strdup_printf ("#%u", i + 1),
                      *words = g_strdup_printf ("%s: %s%s%s%s%s", name, one->is_mark ? "marks of " : "",
                                                one->use != FR_WEATHER_COLUMN_NONE ? fr_weather_column_code (one->use) : "not read",
                                                one->unit != FR_WEATHER_UNIT_UNTOLD ? ", " : "", fr_weather_unit_code (one->unit),
                                                one->unit != FR_WEATHER_UNIT_UNTOLD && !one->is_unit_told ? " (not told, assumed)" : "");

      fr_print_words (print, i == 0 ? "Columns" : "", words);
    }
}

/* What a file says, made fit for a terminal. */
static void
print_foreign (FrPrint *print, const char *what, const char *text)
{
  g_autofree char *quoted = text != NULL ? fr_json_quote (text) : NULL;

  if (quoted != NULL)
    fr_print_words (print, what, quoted);
}

static void
print_weather (const FrWeather *weather, GPtrArray *found, GString *answer)
{
  g_autoptr (FrPrint) print = fr_print_new ();

  fr_print_words (print, "Format", fr_weather_format_name (weather->format));
  print_foreign (print, "Place", weather->place_name);
  print_foreign (print, "Station", weather->station);
  if (!isnan (weather->latitude_deg))
    {
      fr_print_number (print, "Latitude", weather->latitude_deg, 4, "°");
      fr_print_number (print, "Longitude", weather->longitude_deg, 4, "°");
    }
  if (!isnan (weather->altitude_m))
    fr_print_number (print, "Altitude", weather->altitude_m, 0, "m");
  if (weather->has_issued)
    {
      g_autofree char *issued = instant_text (weather->issued_utc);

      fr_print_words (print, "Issued", issued);
    }
  if (weather->reading_minute >= 0)
    {
      g_autofree char *clock = g_strdup_printf ("%02d:%02d", weather->reading_minute / 60, weather->reading_minute % 60);

      fr_print_words (print, "Extremes read at", clock);
    }
  print_foreign (print, "The weather is at", weather->next_link);
  print_span (print, weather);
  print_counts (print, weather);
  print_gaps (print, weather);
  print_columns (print, found);
  if (weather->attribution != NULL)
    fr_print_words (print, "Source", weather->attribution);
  fr_print_finish (print, answer);
}

gboolean
fr_run_weather (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (FrWeather) weather = read_file (file, &said, &found, error);
  g_autofree char *json = NULL;

  if (weather == NULL)
    return FALSE;
  json = options->json ? fr_weather_to_json (weather, found) : NULL;
  if (json != NULL)
    g_string_append (answer, json);
  else
    print_weather (weather, found, answer);
  return TRUE;
}
