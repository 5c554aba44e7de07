/* Weather into the open book and out of it, over all seasons: random files come in twice, are taken back and brought again. What the book then
 * holds is held against a plain list of what each file said, walked from the last to the first. */
#include <math.h>
#include <string.h>

#include "edits.h"
#include "models/weather-transfer.h"

/* 2027-03-11 20:20 UTC. */
#define NOW_UTC 1804796400

static FrWeather *
random_file (GRand *rand)
{
  FrWeather *weather = fr_weather_new (FR_WEATHER_GHCND_DLY);
  gint64 day = fr_date_to_days ((FrDate){ 2024, 1, 1 }) + g_rand_int_range (rand, 0, 900);

  weather->station = g_strdup ("XQ1");
  for (guint i = 0; i < 120; i++, day += g_rand_int_range (rand, 1, 5))
    {
      FrWeatherDay one = fr_weather_day (fr_date_from_days (day));

      if (g_rand_int_range (rand, 0, 4) > 0)
        {
          one.low_c = g_rand_int_range (rand, -200, 0) / 10.0;
          one.low_mark = g_rand_boolean (rand) ? FR_WEATHER_PLAIN : FR_WEATHER_ESTIMATED;
        }
      if (g_rand_int_range (rand, 0, 4) > 0)
        {
          one.high_c = g_rand_int_range (rand, 1, 200) / 10.0;
          one.high_mark = FR_WEATHER_PLAIN;
        }
      g_array_append_val (weather->days, one);
    }
  return weather;
}

/* What the last file says that says anything; NAN when none does. */
static void
said (const GPtrArray *files, FrDate date, double *low_c, double *high_c)
{
  *low_c = *high_c = NAN;
  for (guint i = files->len; i-- > 0;)
    for (guint d = 0; d < ((FrWeather *)files->pdata[i])->days->len; d++)
      {
        const FrWeatherDay *day = &g_array_index (((FrWeather *)files->pdata[i])->days, FrWeatherDay, d);

        if (fr_date_compare (day->date, date) != 0)
          continue;
        *low_c = isnan (*low_c) ? day->low_c : *low_c;
        *high_c = isnan (*high_c) ? day->high_c : *high_c;
      }
}

static gboolean
alike (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

static void
assert_holds (FrBook *book, gint64 station, const GPtrArray *files)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrWeather) history = fr_book_read_weather (book, station, &error);
  guint n = 0;

  g_assert_no_error (error);
  for (gint64 day = fr_date_to_days ((FrDate){ 2024, 1, 1 }); day < fr_date_to_days ((FrDate){ 2028, 12, 31 }); day++)
    {
      FrDate date = fr_date_from_days (day);
      const FrWeatherDay *kept = fr_weather_find_day (history, date);
      double low_c, high_c;

      said (files, date, &low_c, &high_c);
      g_assert_true ((kept == NULL) == (isnan (low_c) && isnan (high_c)));
      if (kept == NULL)
        continue;
      g_assert_true (alike (kept->low_c, low_c) && alike (kept->high_c, high_c));
      n++;
    }
  g_assert_cmpuint (history->days->len, ==, n);
}

static FrChange *
change_of (FrBook *book, const FrWeather *weather, const char *station, gint64 now_utc)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrWeatherImport) import = fr_weather_import_new (book, weather, station, "file", NULL, now_utc, &error);
  FrChange *change;

  g_assert_no_error (error);
  change = fr_weather_import_change (import, "import-weather", "mill.dly", &error);
  g_assert_no_error (error);
  return change;
}

static void
test_random (void)
{
  GRand *rand = g_rand_new_with_seed (53);

  for (guint round = 0; round < 4; round++)
    {
      g_autoptr (FrBook) book = book_new ();
      g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_weather_free);
      g_autoptr (GError) error = NULL;

      for (guint i = 0; i < 5; i++)
        {
          FrWeather *weather = random_file (rand);
          g_autoptr (FrChange) change = change_of (book, weather, "Mill", NOW_UTC), again = NULL;

          g_assert_nonnull (change);
          g_assert_true (fr_book_apply (book, change, &error));
          g_assert_no_error (error);
          again = change_of (book, weather, NULL, NOW_UTC + 60); /* found by its key too */
          g_assert_null (again);
          /* One undo takes all of it back, one redo brings all of it again. */
          g_assert_true (fr_book_undo (book, &error));
          assert_holds (book, 1, files);
          g_assert_true (fr_book_redo (book, &error));
          g_assert_no_error (error);
          g_ptr_array_add (files, weather);
          assert_holds (book, 1, files);
          g_assert_cmpuint (count (book, FR_KIND_STATION), ==, 1);
          again = change_of (book, weather, "Mill", NOW_UTC + 60);
          g_assert_null (again);
        }
      /* All the way back. */
      for (guint i = 5; i-- > 0;)
        {
          g_ptr_array_remove_index (files, i);
          g_assert_true (fr_book_undo (book, &error));
          g_assert_no_error (error);
          assert_holds (book, 1, files);
        }
      g_assert_cmpuint (count (book, FR_KIND_STATION), ==, 0);
      g_assert_null (fr_book_peek_undo (book));
    }
  g_rand_free (rand);
}

/* The lists hold one season, and a history all of them; the household's own days are a history too. */
static void
test_history (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_CSV), own = NULL, seen = NULL, none = NULL;
  g_autoptr (FrChange) change = NULL, days = fr_change_new ("add-day", NULL);
  g_autoptr (GError) error = NULL;

  for (gint year = 2019; year <= 2027; year++)
    {
      FrWeatherDay day = fr_weather_day ((FrDate){ year, 3, 1 });
      g_autoptr (FrRecord) record = fr_book_new_record (book, FR_KIND_DAY, year - 2019, &error);
      g_autofree char *iso = g_strdup_printf ("%d-03-02", year);

      day.low_c = year - 2030;
      day.low_mark = FR_WEATHER_PLAIN;
      g_array_append_val (weather->days, day);
      fr_edit_set_text (record, "day", iso);
      fr_amount_set (&((FrDay *)record)->high_c, year - 2015, NULL);
      fr_change_add (days, NULL, record);
    }
  change = change_of (book, weather, NULL, NOW_UTC);
  g_assert_true (fr_book_apply (book, change, &error) && fr_book_apply (book, days, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (count (book, FR_KIND_STATION_DAY), ==, 1);
  g_assert_cmpuint (count (book, FR_KIND_DAY), ==, 1);
  seen = fr_book_read_weather (book, 1, &error);
  own = fr_book_read_weather (book, 0, &error);
  none = fr_book_read_weather (book, 77, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (seen->days->len, ==, 9);
  g_assert_cmpuint (own->days->len, ==, 9);
  g_assert_cmpuint (none->days->len, ==, 0);
  g_assert_cmpstr (seen->place_name, ==, "file");
  g_assert_cmpint (own->format, ==, FR_WEATHER_OWN);
  for (guint i = 0; i < 9; i++)
    {
      g_assert_cmpfloat (g_array_index (seen->days, FrWeatherDay, i).low_c, ==, -11.0 + i);
      g_assert_cmpfloat (g_array_index (own->days, FrWeatherDay, i).high_c, ==, 4.0 + i);
    }
  /* Another season in the lists; the history is the same. */
  g_assert_true (fr_book_set_season (book, 2020, NULL, &error));
  {
    FrSeasonBook records;
    g_autoptr (FrWeather) again = fr_book_read_weather (book, 1, &error);

    g_assert_cmpuint (again->days->len, ==, 9);
    fr_book_season_book (book, &records, NULL);
    g_assert_cmpuint (records.station_days->len, ==, 1);
    g_assert_cmpstr (((FrStationDay *)records.station_days->pdata[0])->day, ==, "2020-03-01");
    g_assert_cmpuint (records.stations->len, ==, 1);
    fr_book_season_book_clear (&records);
    g_assert_true (fr_book_other_season_book (book, &records, 2023, NULL, &error));
    g_assert_cmpstr (((FrStationDay *)records.station_days->pdata[0])->day, ==, "2023-03-01");
    g_assert_cmpuint (records.outlooks->len, ==, 0);
    fr_book_season_book_clear (&records);
  }
}

/* A forecast of a service: kept once an answer, taken back by one step. */
static void
test_forecast (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_OPEN_METEO);
  g_autoptr (FrChange) first = NULL, same_again = NULL, other = NULL;
  g_autoptr (GError) error = NULL;
  FrWeatherHour hour = { NOW_UTC + 3600, 3600, 2.5, TRUE };
  const FrOutlook *latest;

  g_array_append_val (weather->hours, hour);
  first = change_of (book, weather, NULL, NOW_UTC);
  g_assert_true (fr_book_apply (book, first, &error));
  same_again = change_of (book, weather, NULL, NOW_UTC + 3600);
  g_assert_null (same_again);
  g_array_index (weather->hours, FrWeatherHour, 0).temp_c = 3;
  other = change_of (book, weather, NULL, NOW_UTC + 3600);
  g_assert_true (fr_book_apply (book, other, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (count (book, FR_KIND_OUTLOOK), ==, 2);
  latest = fr_latest_outlook (fr_record_list_get_records (fr_book_get_list (book, FR_KIND_OUTLOOK)), 0, NOW_UTC + 3599);
  g_assert_cmpint (latest->issued_utc, ==, NOW_UTC);
  latest = fr_latest_outlook (fr_record_list_get_records (fr_book_get_list (book, FR_KIND_OUTLOOK)), 0, NOW_UTC + 3600);
  g_assert_cmpint (latest->issued_utc, ==, NOW_UTC + 3600);
  g_assert_true (fr_book_undo (book, &error));
  g_assert_cmpuint (count (book, FR_KIND_OUTLOOK), ==, 1);
}

/* What a service sends hour by hour for a day: eight are kept, the last of each three hours, and what a person did stays the next step of
 * undo. */
static void
test_kept_beside (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrChange) edit = fr_change_new ("add-day", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrRecord) day = fr_book_new_record (book, FR_KIND_DAY, 0, &error);
  const gint64 midnight_utc = 1804723200; /* 2027-03-11T00:00:00Z */
  FrRecordList *outlooks = fr_book_get_list (book, FR_KIND_OUTLOOK);

  fr_edit_set_text (day, "day", "2027-03-10");
  fr_change_add (edit, NULL, day);
  g_assert_true (fr_book_apply (book, edit, &error));
  for (gint i = 0; i < 24; i++)
    {
      g_autoptr (FrWeather) weather = fr_weather_new (FR_WEATHER_MET_COMPACT);
      FrWeatherHour hour = { midnight_utc + 86400, 3600, i, TRUE };

      g_array_append_val (weather->hours, hour);
      weather->has_issued = TRUE;
      weather->issued_utc = midnight_utc + i * 3600 + 100;
      for (guint twice = 0; twice < 2; twice++)
        {
          g_assert_true (fr_book_keep_forecast (book, weather, "MET Norway", midnight_utc + i * 3600 + 200 + twice, &error));
          g_assert_no_error (error);
        }
      g_assert_cmpuint (fr_record_list_get_size (outlooks), ==, i / 3 + 1);
      g_assert_cmpint (((FrOutlook *)fr_record_list_get (outlooks, i / 3))->issued_utc, ==, weather->issued_utc);
    }
  for (guint i = 0; i < 8; i++)
    g_assert_cmpint (((FrOutlook *)fr_record_list_get (outlooks, i))->issued_utc, ==, midnight_utc + (3 * i + 2) * 3600 + 100);
  g_assert_cmpuint (count (book, FR_KIND_STATION), ==, 1);
  g_assert_cmpstr (((FrStation *)last (book, FR_KIND_STATION))->source, ==, "met-norway");
  g_assert_cmpstr (fr_book_peek_undo (book)->label, ==, "add-day");
  g_assert_true (fr_book_undo (book, &error));
  g_assert_cmpuint (count (book, FR_KIND_DAY), ==, 0);
  g_assert_cmpuint (count (book, FR_KIND_OUTLOOK), ==, 8);
  g_assert_true (fr_book_redo (book, &error));
  g_assert_no_error (error);
}

/* A step of undo about a record that changed beside it can no longer be taken, and is gone. */
static void
test_beside_drops_what_cannot_be (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrChange) add = fr_change_new ("add-station", NULL), beside = fr_change_new ("edit-station", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (FrRecord) station = fr_book_new_record (book, FR_KIND_STATION, 0, &error), after = NULL;

  fr_edit_set_text (station, "name", "Mill");
  fr_change_add (add, NULL, station);
  g_assert_true (fr_book_apply (book, add, &error));
  after = fr_record_copy (station);
  fr_edit_set_text (after, "note", "by itself");
  fr_change_add (beside, station, after);
  g_assert_true (fr_book_apply_beside (book, beside, &error));
  g_assert_no_error (error);
  g_assert_null (fr_book_peek_undo (book));
  g_assert_cmpstr (((FrStation *)last (book, FR_KIND_STATION))->note, ==, "by itself");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/weather-transfer/random", test_random);
  g_test_add_func ("/weather-transfer/history", test_history);
  g_test_add_func ("/weather-transfer/forecast", test_forecast);
  g_test_add_func ("/weather-transfer/kept-beside", test_kept_beside);
  g_test_add_func ("/weather-transfer/beside-drops-what-cannot-be", test_beside_drops_what_cannot_be);
  return g_test_run ();
}
