/* Fifteen years of a source's days in one change, beside a bare SQLite that writes the same rows into the same tables; the same file again; and
 * the history read back, beside a bare read of the columns. Days are invented, of two sines.
 *
 *   ninja -C build tests/long/bench-weather && build/tests/long/bench-weather [DAYS] */
#include <math.h>
#include <stdlib.h>

#include "bench-tools.h"
#include "domain/plan/book-weather.h"
#include "domain/plan/weather-arrivals.h"
#include "store/store.h"

#define RUNS 7
#define NOW_UTC 1774000000

static FrWeather *
some_days (guint n)
{
  FrWeather *weather = fr_weather_new (FR_WEATHER_CSV);

  for (guint i = 0; i < n; i++)
    {
      FrWeatherDay day = fr_weather_day (fr_date_from_days (11364 + i));
      double mean_c = 8 - 14 * cos (2 * G_PI * i / 365.25) + 5 * sin (i / 3.7);

      day.low_c = round (10 * (mean_c - 5)) / 10;
      day.high_c = round (10 * (mean_c + 5)) / 10;
      day.rain_m = i % 3 == 0 ? 0.0042 : 0;
      day.sun_j_per_m2 = 1e5 * (i % 200);
      day.low_mark = day.high_mark = FR_WEATHER_PLAIN;
      g_array_append_val (weather->days, day);
    }
  return weather;
}

static void
new_uid (char uid_out[33])
{
  for (guint i = 0; i < 4; i++)
    g_snprintf (uid_out + 8 * i, 9, "%08x", g_random_int ());
}

/* As the command line imports; how many steps were written. */
static guint
bring_in (FrStore *store, const FrWeather *weather)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) stations = fr_store_load (store, FR_KIND_STATION, &error), days = NULL, outlooks = NULL;
  g_autoptr (FrWeatherPreview) preview = NULL;
  g_autoptr (FrChange) change = NULL;
  gint64 next_ids[FR_N_KINDS] = { 0 };
  FrRecordSpan span;

  fr_weather_span (weather, NOW_UTC, &span);
  days = fr_store_load_span (store, FR_KIND_STATION_DAY, &span, &error);
  outlooks = fr_store_load_span (store, FR_KIND_OUTLOOK, &span, &error);
  preview = fr_weather_preview (weather, stations->len > 0 ? stations->pdata[0] : NULL, "Mill", days, outlooks, NOW_UTC);
  for (FrKindId kind = FR_KIND_STATION; kind <= FR_KIND_OUTLOOK; kind++)
    next_ids[kind] = fr_store_next_id (store, kind, &error);
  change = fr_weather_preview_change (preview, "import-weather", "bench", next_ids, new_uid);
  g_assert_true (fr_store_apply (store, change, FR_ORIGIN_IMPORT, NOW_UTC, &error));
  g_assert_no_error (error);
  return change->steps->len;
}

static void
run_sql (sqlite3 *db, const char *sql)
{
  g_assert_cmpint (sqlite3_exec (db, sql, NULL, NULL, NULL), ==, SQLITE_OK);
}

/* The same rows, with a statement compiled once, in one transaction. */
static void
write_bare (sqlite3 *db, const FrWeather *weather)
{
  sqlite3_stmt *insert = NULL;

  run_sql (db, "BEGIN IMMEDIATE");
  run_sql (db, "INSERT INTO station (id, uid, archived, name, source, shift_highs) VALUES "
               "(1, '00000000000000000000000000000001', 0, 'Mill', 'file', 'unknown')");
  g_assert_cmpint (sqlite3_prepare_v2 (db,
                                       "INSERT INTO station_day (id, uid, archived, station, day, low_c, high_c, rain_m, snow_m,"
                                       " sun_j_per_m2, low_mark, high_mark) VALUES (?1, ?2, 0, 1, ?3, ?4, ?5, ?6, NULL, ?7,"
                                       " 'plain', 'plain')",
                                       -1, &insert, NULL),
                   ==, SQLITE_OK);
  for (guint i = 0; i < weather->days->len; i++)
    {
      const FrWeatherDay *day = &g_array_index (weather->days, FrWeatherDay, i);
      char uid[33];

      new_uid (uid);
      sqlite3_bind_int64 (insert, 1, i + 1);
      sqlite3_bind_text (insert, 2, uid, -1, SQLITE_TRANSIENT);
      sqlite3_bind_text (insert, 3, fr_date_to_iso (day->date), -1, g_free);
      sqlite3_bind_double (insert, 4, day->low_c);
      sqlite3_bind_double (insert, 5, day->high_c);
      sqlite3_bind_double (insert, 6, day->rain_m);
      sqlite3_bind_double (insert, 7, day->sun_j_per_m2);
      g_assert_cmpint (sqlite3_step (insert), ==, SQLITE_DONE);
      sqlite3_reset (insert);
    }
  sqlite3_finalize (insert);
  run_sql (db, "COMMIT");
}

static gboolean
read_history (FrStore *store, guint n)
{
  static const FrRecordSpan ever = { G_MININT64, G_MAXINT64, { 1, 1, 1 }, { 9999, 12, 31 } };
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV);
  FrWeatherTaking taking = { weather, 1 };

  fr_store_each (store, FR_KIND_STATION_DAY, &ever, fr_station_day_fields, fr_weather_take, &taking, NULL);
  fr_weather_sort (weather);
  return weather->days->len == n;
}

int
main (int argc, char **argv)
{
  const guint n = argc > 1 ? (guint)atoi (argv[1]) : 5345;
  g_autoptr (FrWeather) weather = some_days (n);
  double write_s = INFINITY, bare_s = INFINITY, again_s = INFINITY, read_s = INFINITY, bare_read_s = INFINITY;

  for (guint i = 0; i < RUNS; i++)
    {
      g_autofree char *folder = g_dir_make_tmp ("bench-weather-XXXXXX", NULL), *bare_folder = g_dir_make_tmp ("bench-weather-XXXXXX", NULL);
      g_autofree char *path = g_build_filename (folder, "book", NULL), *bare_path = g_build_filename (bare_folder, "book", NULL);
      FrStore *store = fr_store_open (path, TRUE, NULL);
      sqlite3 *bare;
      gint64 start = bench_cpu_us ();

      g_assert_cmpuint (bring_in (store, weather), ==, n + 1);
      write_s = MIN (write_s, bench_since_s (start));
      start = bench_cpu_us ();
      g_assert_cmpuint (bring_in (store, weather), ==, 0);
      again_s = MIN (again_s, bench_since_s (start));
      start = bench_cpu_us ();
      g_assert_true (read_history (store, n));
      read_s = MIN (read_s, bench_since_s (start));
      fr_store_close (store);

      fr_store_close (fr_store_open (bare_path, TRUE, NULL)); /* the same tables */
      bare = bench_open_bare (bare_path);
      run_sql (bare, "PRAGMA journal_mode = WAL; PRAGMA foreign_keys = ON");
      start = bench_cpu_us ();
      write_bare (bare, weather);
      bare_s = MIN (bare_s, bench_since_s (start));
      start = bench_cpu_us ();
      g_assert_cmpuint (bench_read_bare (bare, "SELECT id, archived, station, day, low_c, high_c, rain_m, snow_m, sun_j_per_m2,"
                                               " low_mark, high_mark FROM station_day WHERE day BETWEEN '0001-01-01' AND"
                                               " '9999-12-31' ORDER BY day"),
                        ==, n);
      bare_read_s = MIN (bare_read_s, bench_since_s (start));
      sqlite3_close (bare);
      bench_remove_book (folder, path);
      bench_remove_book (bare_folder, bare_path);
    }
  g_print ("%u days into a book          %6.1f ms, %.1f times a bare write\n", n, write_s * 1e3, write_s / bare_s);
  g_print ("a bare SQLite                 %6.1f ms\n", bare_s * 1e3);
  g_print ("the same file again           %6.1f ms, %.1f bare reads\n", again_s * 1e3, again_s / bare_read_s);
  g_print ("the history read              %6.1f ms, %.1f bare reads\n", read_s * 1e3, read_s / bare_read_s);
  g_print ("a bare read of the columns    %6.1f ms\n", bare_read_s * 1e3);
  return 0;
}
