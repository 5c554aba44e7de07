/* The season's state over the open book: what is shown follows every change, the season of today stays at
 * hand while another is looked at, the selected day keeps inside. What the views compute is tested in the
 * domain. */
#include <math.h>
#include <string.h>

#include "edits.h"
#include "models/season-edit.h"
#include "models/season.h"

/* 2027-03-11 20:20 UTC; the books here have no household, so days are those of UTC. */
#define NOW_UTC 1804796400
#define DAY_S 86400

static gint64 now_utc = NOW_UTC;

static gint64
clock_now (const FrZoneTable *zone)
{
  return now_utc;
}

static void
gather (FrBook *book, gint64 utc_s, double volume_l)
{
  g_autoptr (FrRecord) record = fr_record_new (FR_KIND_GATHERING);
  g_autoptr (FrChange) change = NULL;
  g_autoptr (GError) error = NULL;

  ((FrGathering *)record)->gathered_utc = utc_s;
  fr_amount_set (&((FrGathering *)record)->volume_l, volume_l, NULL);
  change = fr_season_edit_keep (book, record, &error);
  g_assert_true (fr_book_apply (book, change, &error));
}

static void
count_cb (guint *n)
{
  (*n)++;
}

static void
test_follows_the_book (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrSeason) season = fr_season_new (book, clock_now);
  guint n = 0;
  const FrSeasonDay *day;

  g_signal_connect_swapped (season, "changed", G_CALLBACK (count_cb), &n);
  g_assert_cmpuint (fr_season_get_season (season), ==, 2027);
  g_assert_true (isnan (fr_season_get_view (season)->tally.gathered_l));
  gather (book, NOW_UTC - 3600, 22);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpfloat_with_epsilon (fr_season_get_view (season)->tally.gathered_l, 22, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_season_get_view (season)->stock->volume_l, 22, 1e-9);
  g_assert_true (fr_season_get_present (season) == fr_season_get_view (season));
  day = fr_season_view_day (fr_season_get_view (season), fr_season_get_today (season));
  g_assert_cmpuint (day->n_gatherings, ==, 1);
  g_assert_null (fr_season_get_past (season));
}

static void
test_other_season (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrSeason) season = fr_season_new (book, clock_now);
  g_autoptr (GError) error = NULL;

  gather (book, NOW_UTC - 3600, 22);
  gather (book, NOW_UTC - 365 * DAY_S, 9);   /* the same date a year before */
  gather (book, NOW_UTC - 360 * DAY_S, 100); /* five days later in that season */
  g_assert_cmpfloat_with_epsilon (fr_season_get_view (season)->tally.gathered_l, 22, 1e-9);
  g_assert_nonnull (fr_season_get_past (season));
  g_assert_cmpfloat_with_epsilon (fr_season_get_past (season)->gathered_l, 9, 1e-9);

  g_assert_true (fr_season_set_season (season, 2026, &error));
  g_assert_false (fr_season_is_present (season));
  g_assert_cmpint (fr_season_get_day (season).year, ==, 2026);
  g_assert_cmpfloat_with_epsilon (fr_season_get_view (season)->tally.gathered_l, 109, 1e-9);
  /* What waits now is still that of this season. */
  g_assert_cmpfloat_with_epsilon (fr_season_get_present (season)->stock->volume_l, 22, 1e-9);
  fr_season_set_day (season, (FrDate){ 2027, 3, 1 });
  g_assert_cmpint (fr_season_get_day (season).year, ==, 2026);
  g_assert_true (fr_season_set_season (season, 2027, &error));
  g_assert_cmpint (fr_date_compare (fr_season_get_day (season), fr_season_get_today (season)), ==, 0);
}

static double
past_l (FrSeason *season)
{
  return fr_season_get_past_view (season)->tally.gathered_l;
}

/* The season before is not made anew for what is typed today, but for whatever it is made from. */
static void
test_past_is_kept (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrSeason) season = fr_season_new (book, clock_now);
  g_autoptr (FrRecord) bucket = fr_record_new (FR_KIND_CONTAINER), lighter = NULL;
  g_autoptr (FrRecord) weighed = fr_record_new (FR_KIND_GATHERING);
  g_autoptr (GError) failure = NULL;
  const FrSeasonView *past, *present;
  double before_l;

  fr_record_set_text (bucket, fr_kind_field (bucket->kind, "name"), "Pail");
  fr_amount_set (&((FrContainer *)bucket)->capacity_l, 12, NULL);
  fr_amount_set (&((FrContainer *)bucket)->empty_kg, 1, NULL);
  TAKE ("add-container", fr_season_edit_keep (book, bucket, &error));
  ((FrGathering *)weighed)->gathered_utc = NOW_UTC - 365 * DAY_S;
  fr_record_set_text (weighed, fr_kind_field (weighed->kind, "measured_by"), "weight");
  ((FrGathering *)weighed)->bucket = last (book, FR_KIND_CONTAINER)->id;
  fr_amount_set (&((FrGathering *)weighed)->weight_kg, 11, NULL);
  {
    g_autoptr (FrChange) change = fr_season_edit_keep (book, weighed, &failure);

    g_assert_true (fr_book_apply (book, change, &failure));
  }
  past = fr_season_get_past_view (season);
  before_l = past_l (season);
  g_assert_cmpfloat_with_epsilon (before_l, 10, 0.2);
  gather (book, NOW_UTC - 3600, 22);
  g_assert_true (fr_season_get_past_view (season) == past);
  g_assert_cmpfloat_with_epsilon (fr_season_get_view (season)->tally.gathered_l, 22, 1e-9);

  /* a bucket weighed anew, and a line more in that season */
  lighter = fr_record_copy (last (book, FR_KIND_CONTAINER));
  fr_amount_set (&((FrContainer *)lighter)->empty_kg, 0.5, NULL);
  TAKE ("edit-container", fr_season_edit_keep (book, lighter, &error));
  g_assert_cmpfloat_with_epsilon (past_l (season), before_l * 1.05, 1e-9);
  gather (book, NOW_UTC - 365 * DAY_S, 3);
  g_assert_cmpfloat_with_epsilon (past_l (season), before_l * 1.05 + 3, 1e-9);
  g_assert_true (fr_book_undo (book, &failure));
  g_assert_cmpfloat_with_epsilon (past_l (season), before_l * 1.05, 1e-9);

  /* the same the other way round */
  g_assert_true (fr_season_set_season (season, 2026, &failure));
  present = fr_season_get_present (season);
  gather (book, NOW_UTC - 365 * DAY_S, 5);
  g_assert_true (fr_season_get_present (season) == present);
  g_assert_cmpfloat_with_epsilon (fr_season_get_view (season)->tally.gathered_l, before_l * 1.05 + 5, 1e-9);
  gather (book, NOW_UTC - 1800, 4);
  g_assert_cmpfloat_with_epsilon (fr_season_get_present (season)->tally.gathered_l, 26, 1e-9);
}

static void
test_the_clock (void)
{
  g_autoptr (FrBook) book = book_new ();
  g_autoptr (FrSeason) season = fr_season_new (book, clock_now);
  guint n = 0;

  g_signal_connect_swapped (season, "changed", G_CALLBACK (count_cb), &n);
  now_utc = NOW_UTC + 30;
  fr_season_refresh (season);
  g_assert_cmpuint (n, ==, 0);
  now_utc = NOW_UTC + DAY_S;
  fr_season_refresh (season);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpint (fr_season_get_day (season).day, ==, 12); /* who looked at today still does */
  fr_season_set_day (season, (FrDate){ 2027, 3, 2 });
  now_utc = NOW_UTC + 2 * DAY_S;
  fr_season_refresh (season);
  g_assert_cmpint (fr_season_get_day (season).day, ==, 2);
  /* In August another season begins. */
  now_utc = NOW_UTC + 160 * DAY_S;
  fr_season_refresh (season);
  g_assert_cmpuint (fr_season_get_season (season), ==, 2028);
  now_utc = NOW_UTC;
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/season/follows-the-book", test_follows_the_book);
  g_test_add_func ("/season/other-season", test_other_season);
  g_test_add_func ("/season/past-is-kept", test_past_is_kept);
  g_test_add_func ("/season/the-clock", test_the_clock);
  return g_test_run ();
}
