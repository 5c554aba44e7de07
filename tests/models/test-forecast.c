/* The forecast of an open book: it comes by itself, follows changes, keeps the old answer meanwhile, and asks past seasons once. What it says
 * is tested in the domain. */
#include <math.h>

#include "edits.h"
#include "models/forecast.h"
#include "models/season-edit.h"

/* 2027-03-11 20:20 UTC; the books here have no household, so days are those of UTC. */
#define NOW_UTC 1804796400

static gint64 now_utc = NOW_UTC;

static gint64
clock_now (const FrZoneTable *zone)
{
  return now_utc;
}

static void
write_day (FrBook *book, FrDate date, double low_c, double high_c)
{
  g_autoptr (FrRecord) record = fr_record_new (FR_KIND_DAY);
  g_autoptr (FrChange) change = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *iso = fr_date_to_iso (date);

  fr_edit_set_text (record, "day", iso);
  fr_amount_set (&((FrDay *)record)->low_c, low_c, NULL);
  fr_amount_set (&((FrDay *)record)->high_c, high_c, NULL);
  change = fr_season_edit_day (book, (const FrDay *)record, &error);
  g_assert_no_error (error);
  g_assert_true (fr_book_apply (book, change, &error));
}

static void
write_days (FrBook *book, FrDate first, guint n)
{
  for (guint i = 0; i < n; i++)
    write_day (book, fr_date_add_days (first, (gint)i), i % 3 == 0 ? -2 : -6, i % 3 == 0 ? 1 : 6);
}

static void
settle (FrForecaster *forecaster)
{
  fr_forecaster_get (forecaster);
  while (fr_forecaster_is_pending (forecaster))
    g_main_context_iteration (NULL, TRUE);
}

static void
count_cb (guint *n)
{
  (*n)++;
}

static void
test_follows (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrForecaster) forecaster = fr_forecaster_new (book, clock_now);
  const FrForecast *before;
  guint n = 0;

  g_signal_connect_swapped (forecaster, "changed", G_CALLBACK (count_cb), &n);
  write_days (book, (FrDate){ 2027, 3, 1 }, 14);
  g_assert_false (fr_forecaster_is_pending (forecaster)); /* nobody asked */
  g_assert_null (fr_forecaster_get (forecaster));
  g_assert_true (fr_forecaster_is_pending (forecaster));
  settle (forecaster);
  g_assert_cmpuint (n, ==, 1);
  before = fr_forecaster_get (forecaster);
  g_assert_cmpuint (before->n_days, >, 0);
  g_assert_nonnull (fr_forecast_day (before, (FrDate){ 2027, 3, 13 }));
  g_assert_null (fr_forecast_day (before, (FrDate){ 2027, 3, 16 }));
  /* Three changes close on each other are one question; the old answer stays until then. */
  write_days (book, (FrDate){ 2027, 3, 15 }, 3);
  g_assert_true (fr_forecaster_get (forecaster) == before);
  g_assert_true (fr_forecaster_is_pending (forecaster));
  settle (forecaster);
  g_assert_cmpuint (n, ==, 2);
  g_assert_cmpuint (fr_forecaster_get_serial (forecaster), ==, 2);
  g_assert_nonnull (fr_forecast_day (fr_forecaster_get (forecaster), (FrDate){ 2027, 3, 16 }));
}

/* A change while an answer is being made: that answer is not shown. */
static void
test_overtaken (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrForecaster) forecaster = fr_forecaster_new (book, clock_now);
  guint n = 0;

  write_days (book, (FrDate){ 2027, 3, 1 }, 14);
  g_signal_connect_swapped (forecaster, "changed", G_CALLBACK (count_cb), &n);
  fr_forecaster_get (forecaster);
  while (g_main_context_iteration (NULL, FALSE)) /* the question goes out */
    ;
  write_days (book, (FrDate){ 2027, 3, 15 }, 1);
  settle (forecaster);
  g_assert_cmpuint (n, ==, 1);
  g_assert_nonnull (fr_forecast_day (fr_forecaster_get (forecaster), (FrDate){ 2027, 3, 14 }));
}

/* Two whole springs before make the season's end known: 150 days from midwinter (forecast.h). */
static void
test_past (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrForecaster) forecaster = fr_forecaster_new (book, clock_now);
  const FrForecast *forecast;

  write_days (book, (FrDate){ 2025, 1, 20 }, 110);
  write_days (book, (FrDate){ 2026, 1, 20 }, 110);
  write_days (book, (FrDate){ 2027, 3, 1 }, 14);
  settle (forecaster);
  forecast = fr_forecaster_get (forecaster);
  g_assert_cmpuint (forecast->n_past, ==, 2);
  g_assert_cmpint (fr_date_to_days (forecast->days[forecast->n_days - 1].date), ==,
                   fr_date_to_days ((FrDate){ 2027, 1, 1 }) + FR_SEASON_DAYS - 1);
  g_assert_false (isnan (forecast->over_probability));
}

/* With the hour the answer is another; within it nothing is asked. */
static void
test_clock (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrForecaster) forecaster = fr_forecaster_new (book, clock_now);

  write_days (book, (FrDate){ 2027, 3, 1 }, 18);
  settle (forecaster);
  g_assert_cmpint (fr_forecaster_get (forecaster)->as_of.day, ==, 11);
  now_utc += 60;
  fr_forecaster_refresh (forecaster);
  g_assert_false (fr_forecaster_is_pending (forecaster));
  now_utc += 86400;
  fr_forecaster_refresh (forecaster);
  settle (forecaster);
  g_assert_cmpint (fr_forecaster_get (forecaster)->as_of.day, ==, 12);
  now_utc = NOW_UTC;
}

/* The window may close while an answer is on its way. */
static void
test_gone (void)
{
  g_autoptr (FrBook) book = book_new ();
  FrForecaster *forecaster = fr_forecaster_new (book, clock_now);
  gint64 end_us;

  write_days (book, (FrDate){ 2027, 3, 1 }, 14);
  fr_forecaster_get (forecaster);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_object_add_weak_pointer (G_OBJECT (forecaster), (gpointer *)&forecaster);
  g_object_unref (forecaster);
  g_assert_null (forecaster);
  for (end_us = g_get_monotonic_time () + 2 * G_USEC_PER_SEC; g_get_monotonic_time () < end_us; g_usleep (20000))
    g_main_context_iteration (NULL, FALSE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forecaster/follows", test_follows);
  g_test_add_func ("/forecaster/overtaken", test_overtaken);
  g_test_add_func ("/forecaster/past", test_past);
  g_test_add_func ("/forecaster/clock", test_clock);
  g_test_add_func ("/forecaster/gone", test_gone);
  return g_test_run ();
}
