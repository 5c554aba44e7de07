/* Options and files of the forecast. */
#include "cli/cli-forecast-ask.h"

#include "cli/cli-read.h"
#include "cli/cli-weather.h"
#include "domain/maths/tree-yield.h"
#include "domain/plan/tap-date.h"
#include "formats/gathered-csv.h"
#include "formats/json-text.h"

#include <math.h>

#define SIZE_MAX_BYTES (20 * 1024 * 1024)
#define SEED 20260319
#define DRAWS 8
#define TAPS_MAX 100000
#define COURSES 8
#define COURSES_MAX 64
#define SEED_MAX 1000000000

static struct
{
  char *weather, *columns, *where, *zone, *book, *now;
  char *taps, *tapped, *dbh_cm, *species, *gathered, *as_of, *gather_hour, *latitude_deg;
  char **seasons;
  char *error_first, *error_week, *error_memory, *courses, *seed;
} said;

/* Options that forecast and score share. */
#define ASKED                                                                                                           \
  { "weather", 0, 0, G_OPTION_ARG_FILENAME, &said.weather, "Any file that `weather` reads; of several years the last is foretold", "FILE" }, \
  { "taps", 0, 0, G_OPTION_ARG_STRING, &said.taps, "How many taps there are; 1 when not given", "N" }, \
  { "tapped", 0, 0, G_OPTION_ARG_STRING, &said.tapped, "The day they were set; when not given, before the first emptying, or not yet", "DATE" }, \
  { "tap-dbh-cm", 0, 0, G_OPTION_ARG_STRING, &said.dbh_cm, "Diameter of the trees at breast height", "CM" }, \
  { "species", 0, 0, G_OPTION_ARG_STRING, &said.species, "sugar, black, red, silver …", "NAME" }, \
  { "gathered", 0, 0, G_OPTION_ARG_FILENAME, &said.gathered, "Table date,litres_per_tap[,days] of what was emptied", "FILE" }, \
  { "as-of", 0, 0, G_OPTION_ARG_STRING, &said.as_of, "Up to the gathering hour of this date weather is observed, after it forecast", "DATE" }, \
  { "gather-hour", 0, 0, G_OPTION_ARG_STRING, &said.gather_hour, "Of the day, 0 to 23, at which buckets are emptied", "H" }, \
  { "latitude-deg", 0, 0, G_OPTION_ARG_STRING, &said.latitude_deg, "Of the place; below 0 in the south", "L" }, \
  { "seasons", 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &said.seasons, "Weather of other years of the place; may be given more than once", "FILE" }, \
  { "columns", 0, 0, G_OPTION_ARG_STRING, &said.columns, "As for `weather`", "LIST" }, \
  { "where", 0, 0, G_OPTION_ARG_STRING, &said.where, "As for `weather`", "COLUMN=VALUE" }, \
  { "zone", 0, 0, G_OPTION_ARG_STRING, &said.zone, "As for `weather`", "ZONE" }

const GOptionEntry fr_forecast_entries[] = {
  ASKED,
  { "book", 0, 0, G_OPTION_ARG_FILENAME, &said.book, "A book, which knows all of this itself", "FILE" },
  { "now", 0, 0, G_OPTION_ARG_STRING, &said.now, "With --book: as if it were then, local time", "2026-03-19T18:30" },
  { NULL }
};

const GOptionEntry fr_tap_date_entries[] = { ASKED, { NULL } };

const GOptionEntry fr_score_entries[] = {
  ASKED,
  { "error-first", 0, 0, G_OPTION_ARG_STRING, &said.error_first, "Standard deviation of drawn errors on the first day, K", "K" },
  { "error-week", 0, 0, G_OPTION_ARG_STRING, &said.error_week, "The same on the seventh", "K" },
  { "error-memory", 0, 0, G_OPTION_ARG_STRING, &said.error_memory, "Correlation of a day's error with the next day's, 0 to 0.99", "R" },
  { "courses", 0, 0, G_OPTION_ARG_STRING, &said.courses, "How often errors are drawn", "N" },
  { "seed", 0, 0, G_OPTION_ARG_STRING, &said.seed, "Of what is drawn; the same seed gives the same scores", "N" },
  { NULL }
};

const FrSay fr_cli_forecast_say = { .units = { .system = FR_SYSTEM_METRIC, .decimal_mark = '.' } };

void
fr_cli_forecast_line (GString *answer, char *text)
{
  g_autofree char *markup = text;
  g_autofree char *plain = markup != NULL ? fr_say_plain (markup) : NULL;

  if (plain != NULL)
    g_string_append_printf (answer, "%s\n", plain);
}

void
fr_cli_forecast_clear (FrCliForecast *forecast)
{
  g_clear_pointer (&forecast->weather, fr_weather_free);
  g_clear_pointer (&forecast->air, fr_air_hours_free);
  g_clear_pointer (&forecast->past, g_ptr_array_unref);
  g_clear_pointer (&forecast->gathered, g_array_unref);
}

const char *
fr_cli_forecast_book (const char **now_out)
{
  *now_out = said.now;
  return said.book;
}

static gboolean
number_option (const char *option, const char *text, double least, double most, double *value_out, GError **error)
{
  char *end = NULL;
  double value;

  if (text == NULL)
    return TRUE;
  value = g_ascii_strtod (text, &end);
  if (end == text || *end != '\0' || !(value >= least && value <= most))
    {
      g_autofree char *quoted = fr_json_quote (text);

      return fr_cli_wrong (error, "%s: “%s” has to be a number from %g to %g", option, quoted, least, most);
    }
  *value_out = value;
  return TRUE;
}

static gboolean
date_option (const char *option, const char *text, FrDate *date_out, GError **error)
{
  if (text == NULL || fr_date_parse (text, date_out))
    return TRUE;
  g_autofree char *quoted = fr_json_quote (text);

  return fr_cli_wrong (error, "%s: “%s” is not a date such as 2026-03-19", option, quoted);
}

static gboolean
species_option (double dbh_cm, double *ratio_out, GError **error)
{
  const FrSapSpecies *species = fr_sap_species (said.species);

  if (said.species != NULL && g_strcmp0 (species->code, said.species) != 0)
    {
      g_autofree char *quoted = fr_json_quote (said.species);

      return fr_cli_wrong (error, "--species: “%s” is not known; sugar, black, red, silver … or other", quoted);
    }
  *ratio_out = fr_size_yield_ratio (dbh_cm / 100);
  if (said.species != NULL)
    *ratio_out *= species->tap_l / fr_sap_species ("sugar")->tap_l;
  return TRUE;
}

/* The last day that was observed; of a file that only tells ahead the first. */
static FrDate
default_as_of (const FrWeather *weather)
{
  FrDate last = { 0 };

  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);

      if (!day->is_forecast || last.year == 0)
        last = day->date;
    }
  if (weather->days->len > 0)
    return last;
  for (guint i = 0; i < weather->hours->len; i++)
    {
      const FrWeatherHour *hour = &g_array_index (weather->hours, FrWeatherHour, i);

      if (!hour->is_forecast || last.year == 0)
        last = fr_date_from_days (hour->utc_s / 86400);
    }
  return last;
}

/* Holes that gave sap were drilled before it. */
static FrDate
first_span_start (const GArray *gathered)
{
  const FrSapGathered *first = &g_array_index (gathered, FrSapGathered, 0);

  return fr_date_add_days (first->date, -(gint)ceil (first->span_days));
}

static FrWeather *
read_weather (const char *path, GError **error)
{
  const FrCliWeatherChoice choice = { said.columns, said.where, said.zone };

  FrWeather *weather = fr_cli_weather_read (path, &choice, error);

  if (weather == NULL)
    g_prefix_error (error, "%s: ", path);
  return weather;
}

static gboolean
read_past (FrCliForecast *forecast, FrDate midwinter, gint offset_s, GError **error)
{
  fr_past_airs (forecast->weather, midwinter, offset_s, forecast->past);
  for (guint i = 0; said.seasons != NULL && said.seasons[i] != NULL; i++)
    {
      g_autoptr (FrWeather) weather = read_weather (said.seasons[i], error);

      if (weather == NULL)
        return FALSE;
      fr_past_airs (weather, midwinter, offset_s, forecast->past);
    }
  return TRUE;
}

static gboolean
read_gathered (FrCliForecast *forecast, GError **error)
{
  g_autoptr (GBytes) bytes = NULL;
  gsize length = 0;
  const char *text;

  if (said.gathered == NULL)
    {
      forecast->gathered = g_array_new (FALSE, FALSE, sizeof (FrSapGathered));
      return TRUE;
    }
  bytes = fr_cli_read_bytes (said.gathered, SIZE_MAX_BYTES, error);
  text = bytes != NULL ? g_bytes_get_data (bytes, &length) : NULL;
  forecast->gathered = bytes != NULL ? fr_gathered_read (text != NULL ? text : "", length, error) : NULL;
  if (forecast->gathered == NULL)
    g_prefix_error (error, "%s: ", said.gathered);
  return forecast->gathered != NULL;
}

gboolean
fr_cli_forecast_ask (FrCliForecast *forecast, GError **error)
{
  guint n_taps = 1;
  double dbh_cm = NAN, gather_hour = -1, latitude_deg = NAN, yield_ratio = 1;
  FrDate tapped = { 0 }, as_of = { 0 }, midwinter;
  gint offset_s;
  FrForecastQuestion *question = &forecast->question;

  if (said.weather == NULL)
    return fr_cli_wrong (error, "--weather FILE has to be given");
  if (!fr_cli_whole_option ("--taps", said.taps, 1, TAPS_MAX, &n_taps, error)
      || !number_option ("--tap-dbh-cm", said.dbh_cm, 5, 300, &dbh_cm, error)
      || !number_option ("--gather-hour", said.gather_hour, 0, 23, &gather_hour, error)
      || !number_option ("--latitude-deg", said.latitude_deg, -90, 90, &latitude_deg, error)
      || !date_option ("--tapped", said.tapped, &tapped, error) || !date_option ("--as-of", said.as_of, &as_of, error)
      || !species_option (dbh_cm, &yield_ratio, error))
    return FALSE;
  forecast->weather = read_weather (said.weather, error);
  if (forecast->weather == NULL || !read_gathered (forecast, error))
    return FALSE;
  if (isnan (latitude_deg))
    latitude_deg = forecast->weather->latitude_deg;
  question->is_south = latitude_deg < 0;
  question->as_of = as_of.year ? as_of : default_as_of (forecast->weather);
  if (question->as_of.year == 0)
    return fr_cli_wrong (error, "%s: no day has a temperature", said.weather);
  midwinter = fr_midwinter (question->as_of, question->is_south);
  if (tapped.year == 0 && forecast->gathered->len > 0)
    tapped = first_span_start (forecast->gathered);
  if (as_of.year == 0 && tapped.year == 0
      && fr_date_to_days (question->as_of) - fr_date_to_days (midwinter) > FR_TAP_DATE_TO_D)
    question->as_of = fr_date_add_days (midwinter, FR_TAP_DATE_FROM_D);
  offset_s = fr_standard_offset_s (forecast->weather->longitude_deg);
  forecast->air = fr_season_air (forecast->weather, midwinter, offset_s);
  forecast->past = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_air_hours_free);
  if (forecast->air->n_hours == 0)
    {
      g_autofree char *iso = fr_date_to_iso (question->as_of);

      return fr_cli_wrong (error, "%s: no day of the season of %s has a temperature", said.weather, iso);
    }
  if (!read_past (forecast, midwinter, offset_s, error))
    return FALSE;
  forecast->group = (FrTapGroup){ tapped, n_taps, yield_ratio };
  question->air = forecast->air;
  question->gather_hour = (gint)gather_hour;
  question->n_groups = 1;
  question->groups = &forecast->group;
  question->tapped = tapped;
  question->n_gathered = forecast->gathered->len;
  question->gathered = (const FrSapGathered *)forecast->gathered->data;
  question->errors = fr_forecast_error_usual ();
  question->n_past = forecast->past->len;
  question->past = (const FrAirHours *const *)forecast->past->pdata;
  question->n_draws = DRAWS;
  question->seed = SEED;
  return TRUE;
}

gboolean
fr_cli_score_ask (FrCliScoreChoice *choice_out, GError **error)
{
  FrForecastError errors = fr_forecast_error_usual ();
  guint courses = COURSES, seed = SEED;

  if (!number_option ("--error-first", said.error_first, 0, 20, &errors.first_sd_k, error)
      || !number_option ("--error-week", said.error_week, 0, 20, &errors.last_sd_k, error)
      || !number_option ("--error-memory", said.error_memory, 0, 0.99, &errors.day_ratio, error)
      || !fr_cli_whole_option ("--courses", said.courses, 0, COURSES_MAX, &courses, error)
      || !fr_cli_whole_option ("--seed", said.seed, 0, SEED_MAX, &seed, error))
    return FALSE;
  if (said.weather == NULL && (said.gathered != NULL || said.tapped != NULL || said.as_of != NULL))
    return fr_cli_wrong (error, "a season of your own is scored with --weather FILE beside --gathered FILE and --tapped DATE");
  *choice_out = (FrCliScoreChoice){ said.weather, said.gathered, errors, courses, seed };
  return TRUE;
}
