/* The book's weather as series, and weather that comes in. The outside check of what comes in is a table of texts kept here, by the promises of
 * weather-arrivals.h: what the file knows wins, what it does not know stays. */
#include "domain/plan/book-weather.h"
#include "domain/plan/weather-arrivals.h"

#include "by-hand.h"

#include <math.h>
#include <string.h>

static const FrWeatherDay *
day_at (const FrWeather *weather, guint i)
{
  g_assert_cmpuint (i, <, weather->days->len);
  return &g_array_index (weather->days, FrWeatherDay, i);
}

static void
assert_day (const FrWeather *weather, guint i, const char *iso, double low_c, double high_c)
{
  const FrWeatherDay *day = day_at (weather, i);
  g_autofree char *date = fr_date_to_iso (day->date);

  g_assert_cmpstr (date, ==, iso);
  g_assert_true (day->low_c == low_c || (isnan (day->low_c) && isnan (low_c)));
  g_assert_true (day->high_c == high_c || (isnan (day->high_c) && isnan (high_c)));
}

static void
test_own (void)
{
  g_autoptr (GPtrArray) days = records_new ();
  g_autoptr (FrWeather) none = fr_own_weather (NULL), weather = NULL;

  g_assert_cmpuint (none->days->len, ==, 0);
  g_ptr_array_add (days, RECORD (FR_KIND_DAY, 1, "day", "2026-03-02", "low_c", "-3", "high_c", "4", "rain_m", "0.003"));
  g_ptr_array_add (days, RECORD (FR_KIND_DAY, 2, "day", "2026-03-01", "low_c", "-5.5"));
  g_ptr_array_add (days, RECORD (FR_KIND_DAY, 3, "day", "2026-03-03", "high_c", "6", "expected", "1"));
  g_ptr_array_add (days, RECORD (FR_KIND_DAY, 4, "day", "2026-03-04", "note", "fog"));
  g_ptr_array_add (days, RECORD (FR_KIND_DAY, 5, "day", "2026-03-05", "low_c", "1"));
  ((FrRecord *)days->pdata[4])->archived = TRUE;
  weather = fr_own_weather (days);
  g_assert_cmpint (weather->format, ==, FR_WEATHER_OWN);
  g_assert_cmpuint (weather->days->len, ==, 3);
  assert_day (weather, 0, "2026-03-01", -5.5, NAN);
  assert_day (weather, 1, "2026-03-02", -3, 4);
  assert_day (weather, 2, "2026-03-03", NAN, 6);
  g_assert_cmpfloat (day_at (weather, 1)->rain_m, ==, 0.003);
  g_assert_false (day_at (weather, 1)->is_forecast);
  g_assert_true (day_at (weather, 2)->is_forecast);
  g_assert_cmpint (day_at (weather, 0)->low_mark, ==, FR_WEATHER_PLAIN);
  g_assert_cmpint (day_at (weather, 0)->high_mark, ==, FR_WEATHER_ABSENT);
}

static FrRecord *
station_new (gint64 id)
{
  return RECORD (FR_KIND_STATION, id, "name", "Old mill", "source", "nws", "station_key", "XQ1", "latitude_deg", "44.3",
                 "longitude_deg", "-72.4", "altitude_m", "250", "reading_minute", "420", "attribution", "of the mill");
}

static void
test_station (void)
{
  g_autoptr (FrRecord) station = station_new (7);
  g_autoptr (GPtrArray) days = records_new ();
  g_autoptr (FrWeather) weather = NULL;

  g_ptr_array_add (days, RECORD (FR_KIND_STATION_DAY, 1, "station", "7", "day", "2026-03-02", "low_c", "-4", "low_mark",
                                 "estimated", "high_mark", "refused", "snow_m", "0.3", "sun_j_per_m2", "9e6"));
  g_ptr_array_add (days, RECORD (FR_KIND_STATION_DAY, 2, "station", "8", "day", "2026-03-03", "low_c", "-4"));
  g_ptr_array_add (days, RECORD (FR_KIND_STATION_DAY, 3, "station", "7", "day", "2026-03-01", "low_c", "-6", "high_c", "2"));
  weather = fr_station_weather ((FrStation *)station, days);
  g_assert_cmpint (weather->format, ==, FR_WEATHER_NWS_GRID);
  g_assert_cmpstr (weather->place_name, ==, "Old mill");
  g_assert_cmpstr (weather->station, ==, "XQ1");
  g_assert_cmpstr (weather->attribution, ==, "of the mill");
  g_assert_cmpfloat (weather->latitude_deg, ==, 44.3);
  g_assert_cmpfloat (weather->longitude_deg, ==, -72.4);
  g_assert_cmpfloat (weather->altitude_m, ==, 250);
  g_assert_cmpint (weather->reading_minute, ==, 420);
  g_assert_cmpuint (weather->days->len, ==, 2);
  assert_day (weather, 0, "2026-03-01", -6, 2);
  assert_day (weather, 1, "2026-03-02", -4, NAN);
  g_assert_cmpint (day_at (weather, 1)->low_mark, ==, FR_WEATHER_ESTIMATED);
  g_assert_cmpint (day_at (weather, 1)->high_mark, ==, FR_WEATHER_REFUSED);
  g_assert_cmpfloat (day_at (weather, 1)->snow_m, ==, 0.3);
  g_assert_cmpfloat (day_at (weather, 1)->sun_j_per_m2, ==, 9e6);
  g_assert_cmpuint (weather->n_estimated, ==, 1);
  g_assert_cmpuint (weather->n_refused, ==, 1);
  /* What a file is and what source it makes are the same for each service. */
  for (FrWeatherFormat format = FR_WEATHER_MET_COMPACT; format <= FR_WEATHER_OPEN_METEO; format++)
    if (format != FR_WEATHER_NWS_POINT)
      {
        set (station, "source", fr_station_source_of (format));
        g_assert_cmpint (fr_station_format ((FrStation *)station), ==, format);
      }
  g_assert_cmpstr (fr_station_source_of (FR_WEATHER_ECCC_DAILY), ==, "file");
}

static void
test_outlooks (void)
{
  g_autoptr (FrRecord) station = station_new (7);
  g_autoptr (GPtrArray) outlooks = records_new ();
  g_autoptr (FrWeather) weather = NULL, bare = NULL;
  const FrOutlook *latest;

  g_assert_null (fr_latest_outlook (NULL, 0, 5000));
  g_ptr_array_add (outlooks, RECORD (FR_KIND_OUTLOOK, 1, "station", "7", "issued_utc", "1000", "body", "from 2026-03-19\nlow -1"));
  g_ptr_array_add (outlooks, RECORD (FR_KIND_OUTLOOK, 2, "station", "8", "issued_utc", "2000", "body", "from 2026-03-19\nlow -2"));
  g_ptr_array_add (outlooks, RECORD (FR_KIND_OUTLOOK, 3, "station", "7", "issued_utc", "3000", "fetched_utc", "3100", "body",
                                     "from 2026-03-19\nlow -3 1\nhours 3600 3600 2"));
  g_ptr_array_add (outlooks, RECORD (FR_KIND_OUTLOOK, 4, "station", "8", "issued_utc", "3000", "fetched_utc", "3050", "body",
                                     "from 2026-03-19\nlow -4"));
  g_ptr_array_add (outlooks, RECORD (FR_KIND_OUTLOOK, 5, "station", "7", "issued_utc", "4000", "body", "from 2026-03-19\nlow -5"));
  ((FrRecord *)outlooks->pdata[4])->archived = TRUE;
  g_assert_null (fr_latest_outlook (outlooks, 0, 999));
  g_assert_cmpint (fr_latest_outlook (outlooks, 0, 1000)->record.id, ==, 1);
  g_assert_cmpint (fr_latest_outlook (outlooks, 0, 2999)->record.id, ==, 2);
  g_assert_cmpint (fr_latest_outlook (outlooks, 7, 2999)->record.id, ==, 1);
  g_assert_cmpint (fr_latest_outlook (outlooks, 8, 9000)->record.id, ==, 4);
  latest = fr_latest_outlook (outlooks, 0, 9000);
  g_assert_cmpint (latest->record.id, ==, 3);
  weather = fr_outlook_weather (latest, (FrStation *)station);
  g_assert_true (weather->has_issued);
  g_assert_cmpint (weather->issued_utc, ==, 3000);
  g_assert_cmpstr (weather->place_name, ==, "Old mill");
  g_assert_cmpuint (weather->days->len, ==, 2);
  assert_day (weather, 1, "2026-03-20", 1, NAN);
  g_assert_true (day_at (weather, 0)->is_forecast);
  g_assert_cmpuint (weather->hours->len, ==, 1);
  g_assert_cmpint (g_array_index (weather->hours, FrWeatherHour, 0).utc_s, ==, 3600);
  bare = fr_outlook_weather (latest, NULL);
  g_assert_cmpuint (bare->days->len, ==, 2);
  g_assert_null (bare->place_name);
}

/* --- what comes in --- */

static void
next_uid (char uid_out[33])
{
  static guint64 n;

  g_snprintf (uid_out, 33, "%032" G_GINT64_MODIFIER "x", ++n);
}

static void
add_day (FrWeather *weather, const char *iso, double low_c, FrWeatherMark low_mark, double high_c, FrWeatherMark high_mark)
{
  FrDate date;
  FrWeatherDay day;

  g_assert_true (fr_date_parse (iso, &date));
  day = fr_weather_day (date);
  day.low_c = low_c;
  day.high_c = high_c;
  day.low_mark = low_mark;
  day.high_mark = high_mark;
  g_array_append_val (weather->days, day);
}

/* The records of a change taken over into @kinds as a store would. */
static void
take_over (GPtrArray *const *kinds, const FrChange *change)
{
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = change->steps->pdata[i];
      GPtrArray *records = kinds[fr_step_record (step)->kind->id];
      guint at = 0;

      while (at < records->len && ((FrRecord *)records->pdata[at])->id != fr_step_record (step)->id)
        at++;
      if (step->before == NULL)
        {
          g_assert_cmpuint (at, ==, records->len);
          g_ptr_array_add (records, fr_record_copy (step->after));
          continue;
        }
      g_assert_cmpuint (at, <, records->len);
      g_assert_true (fr_record_equal (records->pdata[at], step->before));
      g_ptr_array_remove_index (records, at);
      if (step->after != NULL)
        g_ptr_array_insert (records, at, fr_record_copy (step->after));
    }
}

typedef struct
{
  GPtrArray *kinds[FR_N_KINDS]; /* those of weather */
} Held;

static void
held_init (Held *held)
{
  memset (held, 0, sizeof *held);
  for (FrKindId kind = FR_KIND_STATION; kind <= FR_KIND_OUTLOOK; kind++)
    held->kinds[kind] = records_new ();
}

static void
held_clear (Held *held)
{
  for (FrKindId kind = FR_KIND_STATION; kind <= FR_KIND_OUTLOOK; kind++)
    g_ptr_array_unref (held->kinds[kind]);
}

static FrStation *
held_station (const Held *held)
{
  return held->kinds[FR_KIND_STATION]->len > 0 ? held->kinds[FR_KIND_STATION]->pdata[0] : NULL;
}

/* Previews, takes over and gives the change. */
static FrChange *
bring_in (Held *held, const FrWeather *weather, gint64 fetched_utc, FrWeatherPreview **preview_out)
{
  gint64 next_ids[FR_N_KINDS];
  FrWeatherPreview *preview
      = fr_weather_preview (weather, held_station (held), "Old mill", held->kinds[FR_KIND_STATION_DAY],
                            held->kinds[FR_KIND_OUTLOOK], fetched_utc);
  FrChange *change;

  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    next_ids[kind] = held->kinds[kind] != NULL ? held->kinds[kind]->len + 1 : 1;
  change = fr_weather_preview_change (preview, "import-weather", "mill.csv", next_ids, next_uid);
  g_assert_cmpstr (change->label, ==, "import-weather");
  for (guint i = 0; i < change->steps->len; i++)
    {
      g_autoptr (GArray) problems = fr_record_check (((FrStep *)change->steps->pdata[i])->after);

      g_assert_cmpuint (problems->len, ==, 0);
    }
  take_over (held->kinds, change);
  if (preview_out != NULL)
    *preview_out = preview;
  else
    fr_weather_preview_free (preview);
  return change;
}

static void
test_new_source (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_GHCND_DLY);
  g_autoptr (FrChange) first = NULL, second = NULL;
  FrWeatherPreview *preview;
  const FrStationDay *day;
  Held held;

  held_init (&held);
  weather->station = g_strdup ("XQ1");
  weather->latitude_deg = 44;
  weather->longitude_deg = -72;
  weather->reading_minute = 420;
  add_day (weather, "2026-03-01", -3, FR_WEATHER_PLAIN, 5, FR_WEATHER_ESTIMATED);
  add_day (weather, "2026-03-02", NAN, FR_WEATHER_ABSENT, NAN, FR_WEATHER_REFUSED);
  add_day (weather, "2026-03-03", -1, FR_WEATHER_PLAIN, NAN, FR_WEATHER_REFUSED);
  first = bring_in (&held, weather, 0, &preview);
  g_assert_cmpint (preview->station_fate, ==, FR_WEATHER_NEW);
  g_assert_cmpint (preview->outlook_fate, ==, FR_WEATHER_BARE);
  g_assert_cmpuint (preview->n[FR_WEATHER_NEW], ==, 2);
  g_assert_cmpuint (preview->n[FR_WEATHER_BARE], ==, 1);
  g_assert_cmpuint (first->steps->len, ==, 3);
  g_assert_cmpstr (held_station (&held)->name, ==, "Old mill");
  g_assert_cmpstr (held_station (&held)->source, ==, "file");
  g_assert_cmpstr (held_station (&held)->station_key, ==, "XQ1");
  g_assert_cmpfloat (held_station (&held)->reading_minute.value, ==, 420);
  g_assert_cmpstr (held_station (&held)->shift_highs, ==, "unknown");
  day = held.kinds[FR_KIND_STATION_DAY]->pdata[0];
  g_assert_cmpint (day->station, ==, held_station (&held)->record.id);
  g_assert_cmpstr (day->high_mark, ==, "estimated");
  day = held.kinds[FR_KIND_STATION_DAY]->pdata[1];
  g_assert_cmpstr (day->day, ==, "2026-03-03");
  g_assert_cmpstr (day->high_mark, ==, "refused");
  fr_weather_preview_free (preview);

  second = bring_in (&held, weather, 50, &preview);
  g_assert_true (fr_change_is_empty (second));
  g_assert_cmpuint (preview->n[FR_WEATHER_SAME], ==, 2);
  g_assert_false (preview->is_other_station);
  fr_weather_preview_free (preview);

  /* Another key is asked about. */
  g_free (weather->station);
  weather->station = g_strdup ("XQ2");
  preview = fr_weather_preview (weather, held_station (&held), NULL, NULL, NULL, 0);
  g_assert_true (preview->is_other_station);
  fr_weather_preview_free (preview);
  held_clear (&held);
}

/* What cannot be kept is told of and stays out; the rest may come in. */
static void
test_unkept (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV), lone = fr_weather_new (FR_WEATHER_CSV);
  g_autoptr (FrChange) change = NULL, later = NULL;
  FrWeatherPreview *preview;
  Held held;

  held_init (&held);
  add_day (weather, "2026-03-01", 4, FR_WEATHER_PLAIN, 3, FR_WEATHER_PLAIN);
  add_day (weather, "2026-03-02", 4, FR_WEATHER_PLAIN, 300, FR_WEATHER_PLAIN);
  add_day (weather, "2026-03-03", 4, FR_WEATHER_PLAIN, 5, FR_WEATHER_PLAIN);
  change = bring_in (&held, weather, 0, &preview);
  g_assert_false (fr_weather_preview_is_kept (preview));
  g_assert_cmpuint (preview->n[FR_WEATHER_UNKEPT], ==, 2);
  g_assert_cmpint (g_array_index (preview->rows, FrWeatherRow, 0).problem.code, ==, FR_PROBLEM_CONFLICT);
  g_assert_cmpint (g_array_index (preview->rows, FrWeatherRow, 1).problem.code, ==, FR_PROBLEM_ABOVE);
  g_assert_cmpuint (held.kinds[FR_KIND_STATION_DAY]->len, ==, 1);
  fr_weather_preview_free (preview);

  /* A high below the low that the book has. */
  add_day (lone, "2026-03-03", NAN, FR_WEATHER_ABSENT, 3, FR_WEATHER_PLAIN);
  later = bring_in (&held, lone, 0, &preview);
  g_assert_cmpuint (preview->n[FR_WEATHER_UNKEPT], ==, 1);
  g_assert_true (fr_change_is_empty (later));
  fr_weather_preview_free (preview);
  held_clear (&held);
}

static void
test_forecast_comes_in (void)
{
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_MET_COMPACT);
  FrWeatherHour hours[] = { { 0, 3600, 1.5, FALSE }, { 3600, 3600, 2.5, TRUE } };
  g_autoptr (FrChange) first = NULL, again = NULL, revised = NULL, undated = NULL, undated_again = NULL;
  const FrOutlook *outlook;
  FrWeatherPreview *preview;
  FrRecordSpan span;
  Held held;

  held_init (&held);
  g_array_append_vals (weather->hours, hours, 2);
  weather->has_issued = TRUE;
  weather->issued_utc = 3000;
  first = bring_in (&held, weather, 3500, &preview);
  g_assert_cmpuint (preview->n_hours_left, ==, 1);
  g_assert_cmpint (preview->outlook_fate, ==, FR_WEATHER_NEW);
  fr_weather_preview_free (preview);
  g_assert_cmpuint (held.kinds[FR_KIND_OUTLOOK]->len, ==, 1);
  outlook = held.kinds[FR_KIND_OUTLOOK]->pdata[0];
  g_assert_cmpint (outlook->issued_utc, ==, 3000);
  g_assert_cmpint (outlook->fetched_utc, ==, 3500);
  g_assert_cmpstr (outlook->body, ==, "hours 3600 3600 2.5\n");
  g_assert_cmpstr (held_station (&held)->source, ==, "met-norway");
  again = bring_in (&held, weather, 7000, NULL);
  g_assert_true (fr_change_is_empty (again));
  g_array_index (weather->hours, FrWeatherHour, 1).temp_c = 3;
  revised = bring_in (&held, weather, 7000, NULL);
  g_assert_cmpuint (revised->steps->len, ==, 1);
  g_assert_cmpuint (held.kinds[FR_KIND_OUTLOOK]->len, ==, 1);

  /* One that does not say when it was made: then as it is fetched; the same again is the same. */
  weather->has_issued = FALSE;
  g_array_index (weather->hours, FrWeatherHour, 1).temp_c = 4;
  undated = bring_in (&held, weather, 8000, NULL);
  g_assert_cmpint (((FrOutlook *)held.kinds[FR_KIND_OUTLOOK]->pdata[1])->issued_utc, ==, 8000);
  undated_again = bring_in (&held, weather, 90000, NULL);
  g_assert_true (fr_change_is_empty (undated_again));
  g_assert_true (fr_weather_span (weather, 90000, &span));
  g_assert_cmpint (span.from_utc, <=, 8000);
  g_assert_cmpint (span.to_utc, >, 90000);
  held_clear (&held);
}

/* --- random ones against a table of texts --- */

static const char *const names[] = { "low_c", "high_c", "rain_m", "snow_m", "sun_j_per_m2" };

static char *
key_of (FrDate date, const char *name)
{
  g_autofree char *iso = fr_date_to_iso (date);

  return g_strconcat (iso, " ", name, NULL);
}

static double
some (GRand *rand, double from, double to)
{
  return g_rand_int_range (rand, 0, 3) == 0 ? NAN : from + g_rand_int_range (rand, 0, 9) / 8.0 * (to - from);
}

static FrWeather *
random_weather (GRand *rand)
{
  FrWeather *weather = fr_weather_new (FR_WEATHER_CSV);

  for (gint64 day = 20000 + g_rand_int_range (rand, 0, 20); day < 20060; day += g_rand_int_range (rand, 1, 4))
    {
      FrWeatherDay one = fr_weather_day (fr_date_from_days (day));

      one.low_c = some (rand, -20, 0);
      one.high_c = some (rand, 0, 20);
      one.rain_m = some (rand, 0, 0.02);
      one.snow_m = some (rand, 0, 1);
      one.sun_j_per_m2 = some (rand, 0, 2e7);
      one.low_mark = isnan (one.low_c) ? (g_rand_boolean (rand) ? FR_WEATHER_ABSENT : FR_WEATHER_REFUSED)
                                       : (g_rand_boolean (rand) ? FR_WEATHER_PLAIN : FR_WEATHER_ESTIMATED);
      one.high_mark = isnan (one.high_c) ? FR_WEATHER_ABSENT : FR_WEATHER_PLAIN;
      g_array_append_val (weather->days, one);
    }
  return weather;
}

static double
value_of (const FrWeatherDay *day, guint name)
{
  const double values[] = { day->low_c, day->high_c, day->rain_m, day->snow_m, day->sun_j_per_m2 };

  return values[name];
}

/* What is known of each day and value, by text, after files came in one after the other. */
static void
remember (GHashTable *table, const FrWeather *weather)
{
  for (guint i = 0; i < weather->days->len; i++)
    for (guint n = 0; n < G_N_ELEMENTS (names); n++)
      {
        double value = value_of (day_at (weather, i), n);

        if (!isnan (value))
          g_hash_table_insert (table, key_of (day_at (weather, i)->date, names[n]), g_strdup_printf ("%.17g", value));
      }
}

static void
compare (GHashTable *table, const GPtrArray *days)
{
  guint n_known = 0;

  for (guint i = 0; i < days->len; i++)
    for (guint n = 0; n < G_N_ELEMENTS (names); n++)
      {
        FrRecord *record = days->pdata[i];
        double value = fr_record_amount (record, fr_kind_field (record->kind, names[n]))->value;
        g_autofree char *key = g_strconcat (((FrStationDay *)record)->day, " ", names[n], NULL);
        g_autofree char *text = isnan (value) ? NULL : g_strdup_printf ("%.17g", value);

        g_assert_cmpstr (g_hash_table_lookup (table, key), ==, text);
        n_known += text != NULL;
      }
  g_assert_cmpuint (n_known, ==, g_hash_table_size (table));
}

static void
test_random (void)
{
  GRand *rand = g_rand_new_with_seed (41);

  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (GHashTable) table = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
      Held held;

      held_init (&held);
      for (guint file = 0; file < 4; file++)
        {
          g_autoptr (FrWeather) weather = random_weather (rand);
          g_autoptr (FrChange) change = bring_in (&held, weather, 0, NULL), again = NULL, back = NULL, whole = NULL;
          guint n_before = held.kinds[FR_KIND_STATION_DAY]->len, n_new = 0;

          remember (table, weather);
          compare (table, held.kinds[FR_KIND_STATION_DAY]);
          again = bring_in (&held, weather, 100, NULL);
          g_assert_true (fr_change_is_empty (again));
          /* And back, and once more. */
          for (guint i = 0; i < change->steps->len; i++)
            n_new += ((FrStep *)change->steps->pdata[i])->before == NULL
                     && ((FrStep *)change->steps->pdata[i])->after->kind->id == FR_KIND_STATION_DAY;
          back = fr_change_invert (change);
          take_over (held.kinds, back);
          g_assert_cmpuint (held.kinds[FR_KIND_STATION_DAY]->len, ==, n_before - n_new);
          take_over (held.kinds, change);
          compare (table, held.kinds[FR_KIND_STATION_DAY]);
        }
      /* Read as a series it is the table again. */
      {
        g_autoptr (FrWeather) series = fr_station_weather (held_station (&held), held.kinds[FR_KIND_STATION_DAY]);
        g_autoptr (GHashTable) other = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

        remember (other, series);
        g_assert_cmpuint (g_hash_table_size (other), ==, g_hash_table_size (table));
        compare (other, held.kinds[FR_KIND_STATION_DAY]);
      }
      held_clear (&held);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/book-weather/own", test_own);
  g_test_add_func ("/book-weather/station", test_station);
  g_test_add_func ("/book-weather/outlooks", test_outlooks);
  g_test_add_func ("/weather-arrivals/new-source", test_new_source);
  g_test_add_func ("/weather-arrivals/unkept", test_unkept);
  g_test_add_func ("/weather-arrivals/forecast", test_forecast_comes_in);
  g_test_add_func ("/weather-arrivals/random", test_random);
  return g_test_run ();
}
