/* Weather into a book: of the book only its sources and the days that the file speaks of are read, however many seasons it has; all comes in as
 * one change that the window can undo. */
#include "cli/cli-weather-import.h"

#include "cli/cli-evening.h"
#include "cli/cli-read.h"
#include "cli/cli-trees.h"
#include "domain/plan/book-weather.h"
#include "domain/records/household-units.h"
#include "domain/plan/weather-days.h"
#include "formats/json-output.h"
#include "formats/zone-source.h"
#include "store/store.h"
#include "words/weather-arrival-words.h"

#include <string.h>

#define DAYS_SHOWN 20
#define ZONE_FROM_YEAR 1900
#define ZONE_TO_YEAR 2100

static const char *const fate_codes[FR_N_WEATHER_FATES] = { "new", "changes", "same", "empty", "refused" };

typedef struct
{
  FrStore *store;
  GPtrArray *households, *stations, *days, *outlooks;
  FrWeather *weather;
  const FrStation *station;
  char *name; /* for a new one */
  FrUnits units;
  FrMeasure *measures;
  guint n_measures;
  gint64 now_utc;
  FrWeatherPreview *preview;
  gboolean is_written;
} Import;

/* --- answers --- */

static void
print_sentence (GString *out, char *sentence)
{
  if (sentence != NULL)
    g_string_append_printf (out, "%s\n", sentence);
  g_free (sentence);
}

/* Of many days only those that someone may want to look at. */
static void
print_days (GString *out, const Import *import)
{
  guint n = 0;

  for (guint i = 0; i < import->preview->rows->len; i++)
    {
      const FrWeatherRow *row = &g_array_index (import->preview->rows, FrWeatherRow, i);
      g_autofree char *sentence = NULL, *iso = NULL;

      if (row->fate != FR_WEATHER_CHANGES && row->fate != FR_WEATHER_UNKEPT)
        continue;
      if (n++ >= DAYS_SHOWN)
        continue;
      sentence = fr_weather_arrival_row_sentence (row, &import->units);
      iso = fr_date_to_iso (row->date);
      g_string_append_printf (out, "%s  %s: %s\n", n == 1 ? "\n" : "", iso, sentence);
    }
  if (n > DAYS_SHOWN)
    g_string_append_printf (out, "  and %u more\n", n - DAYS_SHOWN);
}

static void
print_text (GString *out, const Import *import, gboolean dry_run)
{
  print_sentence (out, fr_weather_arrival_summary (import->preview));
  print_sentence (out, fr_weather_arrival_station_sentence (import->preview, &import->units));
  print_sentence (out, fr_weather_arrival_other_sentence (import->preview, import->weather));
  print_sentence (out, fr_weather_arrival_outlook_sentence (import->preview, &import->units));
  print_sentence (out, fr_weather_arrival_hours_sentence (import->preview));
  if (dry_run)
    g_string_append (out, "Nothing is written: this is a dry run.\n");
  else if (!import->is_written)
    g_string_append (out, "There is nothing to write.\n");
  print_days (out, import);
}

static void
print_json (GString *out, const Import *import)
{
  const FrWeatherPreview *preview = import->preview;
  g_autofree char *text = NULL;
  FrOutput output;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_string (&output, "kind", "weather");
  fr_output_boolean (&output, "written", import->is_written);
  fr_output_string (&output, "format", fr_weather_format_code (import->weather->format));
  fr_output_string (&output, "station", preview->station_after->name);
  fr_output_string (&output, "station_fate", fate_codes[preview->station_fate]);
  fr_output_boolean (&output, "other_station", preview->is_other_station);
  for (guint i = 0; i < FR_N_WEATHER_FATES; i++)
    fr_output_number (&output, fate_codes[i], preview->n[i]);
  fr_output_string (&output, "forecast", preview->outlook_fate == FR_WEATHER_BARE ? "none" : fate_codes[preview->outlook_fate]);
  fr_output_number (&output, "hours_left", preview->n_hours_left);
  fr_output_array (&output, "days");
  for (guint i = 0; i < preview->rows->len; i++)
    {
      const FrWeatherRow *row = &g_array_index (preview->rows, FrWeatherRow, i);
      g_autofree char *sentence = NULL, *iso = NULL;

      if (row->fate == FR_WEATHER_SAME || row->fate == FR_WEATHER_NEW)
        continue;
      sentence = fr_weather_arrival_row_sentence (row, &import->units);
      iso = fr_date_to_iso (row->date);
      fr_output_object (&output, NULL);
      fr_output_string (&output, "date", iso);
      fr_output_string (&output, "fate", fate_codes[row->fate]);
      fr_output_string (&output, "sentence", sentence);
      fr_output_end_object (&output);
    }
  fr_output_end_array (&output);
  fr_output_end_object (&output);
  text = fr_output_finish (&output);
  g_string_append (out, text);
}

/* --- the work --- */

/* What the file calls its source; at worst its own name. */
static char *
name_of (const FrWeather *weather, const char *file)
{
  g_autofree char *base = NULL, *text = NULL;
  char *dot;

  if (weather->place_name != NULL && *weather->place_name != '\0')
    return g_strdup (weather->place_name);
  if (weather->station != NULL && *weather->station != '\0')
    return g_strdup (weather->station);
  if (strcmp (file, "-") == 0)
    return g_strdup ("Weather");
  base = g_path_get_basename (file);
  text = g_utf8_make_valid (base, -1);
  dot = strrchr (text, '.');
  if (dot != NULL && dot != text)
    *dot = '\0';
  return g_steal_pointer (&text);
}

static gboolean
open_book (Import *import, const FrCliWeatherImport *wanted, GError **error)
{
  import->store = fr_cli_open_book (wanted->book, error);
  if (import->store == NULL)
    return FALSE;
  import->households = fr_store_load (import->store, FR_KIND_HOUSEHOLD, error);
  import->stations = import->households != NULL ? fr_store_load (import->store, FR_KIND_STATION, error) : NULL;
  if (import->stations == NULL)
    return FALSE;
  if (import->households->len > 0)
    import->units = fr_household_units (import->households->pdata[0], fr_cli_decimal_mark (), &import->measures,
                                        &import->n_measures);
  return TRUE;
}

/* Clocks of a file that does not say otherwise are the household's, and so are the days that hours belong to. */
static gboolean
read_weather (Import *import, const FrCliWeatherImport *wanted, const char *file, GError **error)
{
  const char *zone = import->households->len > 0 ? ((FrHousehold *)import->households->pdata[0])->zone : NULL;
  FrCliWeatherChoice choice = wanted->choice;
  g_autoptr (FrZoneTable) table = NULL;

  if (choice.zone == NULL)
    choice.zone = (char *)zone;
  import->weather = fr_cli_weather_read (file, &choice, error);
  if (import->weather == NULL)
    return FALSE;
  table = zone != NULL ? fr_zone_table_load (zone, ZONE_FROM_YEAR, ZONE_TO_YEAR, NULL) : NULL;
  fr_weather_fill_days (import->weather, table);
  return TRUE;
}

static gboolean
find_station (Import *import, const FrCliWeatherImport *wanted, const char *file, GError **error)
{
  guint n = 0;

  import->name = wanted->station != NULL ? g_strdup (wanted->station) : name_of (import->weather, file);
  if (wanted->station == NULL && import->weather->station != NULL)
    import->station = fr_station_find (import->stations, import->weather->station, &n);
  if (n == 0)
    import->station = fr_station_find (import->stations, import->name, &n);
  return n <= 1 || fr_cli_wrong (error, "the book has %u sources of weather named “%s”; give them different names first", n, import->name);
}

static gboolean
look (Import *import, GError **error)
{
  FrRecordSpan span;

  if (!fr_weather_span (import->weather, import->now_utc, &span))
    return fr_cli_wrong (error, "there is no weather in the file");
  import->days = fr_store_load_span (import->store, FR_KIND_STATION_DAY, &span, error);
  import->outlooks = import->days != NULL ? fr_store_load_span (import->store, FR_KIND_OUTLOOK, &span, error) : NULL;
  if (import->outlooks == NULL)
    return FALSE;
  import->preview = fr_weather_preview (import->weather, import->station, import->name, import->days, import->outlooks,
                                        import->now_utc);
  return TRUE;
}

/* What keeps it out, and what would let it in. */
static gboolean
tell_open (const Import *import, const FrCliWeatherImport *wanted, GError **error)
{
  const FrWeatherPreview *preview = import->preview;
  g_autofree char *other = fr_weather_arrival_other_sentence (preview, import->weather);
  g_autofree char *station = preview->station_fate == FR_WEATHER_UNKEPT
                                 ? fr_weather_arrival_station_sentence (preview, &import->units)
                                 : NULL;

  if (station != NULL)
    return fr_cli_wrong (error, "%s", station);
  if (other != NULL && !wanted->confirm)
    return fr_cli_wrong (error, "%s With --confirm it comes in all the same.", other);
  for (guint i = 0; i < preview->rows->len && !wanted->without_refused; i++)
    {
      const FrWeatherRow *row = &g_array_index (preview->rows, FrWeatherRow, i);
      g_autofree char *sentence = NULL, *iso = NULL;

      if (row->fate != FR_WEATHER_UNKEPT)
        continue;
      sentence = fr_weather_arrival_row_sentence (row, &import->units);
      iso = fr_date_to_iso (row->date);
      return fr_cli_wrong (error, "%s: %s See --dry-run and --without-refused.", iso, sentence);
    }
  if (preview->outlook_fate == FR_WEATHER_UNKEPT && !wanted->without_refused)
    {
      g_autofree char *sentence = fr_weather_arrival_outlook_sentence (preview, &import->units);

      return fr_cli_wrong (error, "%s See --without-refused.", sentence);
    }
  return TRUE;
}

static gboolean
apply (Import *import, const FrCliWeatherImport *wanted, const char *file, GError **error)
{
  g_autofree char *base = strcmp (file, "-") == 0 ? NULL : g_path_get_basename (file);
  g_autofree char *subject = base != NULL ? g_utf8_make_valid (base, -1) : NULL;
  g_autoptr (FrChange) change = NULL;
  gint64 next_ids[FR_N_KINDS] = { 0 };

  if (!tell_open (import, wanted, error))
    return FALSE;
  for (FrKindId kind = FR_KIND_STATION; kind <= FR_KIND_OUTLOOK; kind++)
    {
      next_ids[kind] = fr_store_next_id (import->store, kind, error);
      if (next_ids[kind] <= 0)
        return FALSE;
    }
  change = fr_weather_preview_change (import->preview, "import-weather", subject, next_ids, fr_cli_new_uid);
  import->is_written = !fr_change_is_empty (change);
  return fr_store_apply (import->store, change, FR_ORIGIN_IMPORT, import->now_utc, error);
}

static void
clear (Import *import)
{
  fr_weather_preview_free (import->preview);
  fr_weather_free (import->weather);
  g_clear_pointer (&import->households, g_ptr_array_unref);
  g_clear_pointer (&import->stations, g_ptr_array_unref);
  g_clear_pointer (&import->days, g_ptr_array_unref);
  g_clear_pointer (&import->outlooks, g_ptr_array_unref);
  fr_measures_free (import->measures, import->n_measures);
  g_free (import->name);
  fr_store_close (import->store);
}

gboolean
fr_cli_weather_import (const FrCliWeatherImport *wanted, const FrCommandOptions *options, const char *file,
                       GString *answer, GError **error)
{
  Import import = { .now_utc = g_get_real_time () / G_USEC_PER_SEC, .units = { .decimal_mark = '.' } };
  gboolean ok = open_book (&import, wanted, error) && read_weather (&import, wanted, file, error)
                && find_station (&import, wanted, file, error) && look (&import, error)
                && (wanted->dry_run || apply (&import, wanted, file, error));

  if (ok && options->json)
    print_json (answer, &import);
  else if (ok)
    print_text (answer, &import, wanted->dry_run);
  clear (&import);
  return ok;
}
