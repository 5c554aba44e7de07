/* Zone tables: instants of local times against tests/tables/zone-instants.csv; every half hour of the tables'
 * years there and back; malformed tables. */
#include "domain/units/zone.h"

#include <string.h>

#include "table.h"
#include "zones.h"

static void
check_instant (const TestRow *row)
{
  static const char *const fits[] = { "once", "twice", "never" };
  g_autoptr (FrZoneTable) zone = test_zone (test_row_text (row, "zone"));
  FrDate date;
  gint minutes;
  gint64 first, second;
  FrZoneFit fit;

  g_assert_true (fr_date_parse (test_row_text (row, "date"), &date));
  g_assert_true (fr_clock_parse (test_row_text (row, "clock"), &minutes));
  fit = fr_zone_instant (zone, date, minutes * 60, &first, &second);
  g_assert_cmpstr (fits[fit], ==, test_row_text (row, "fit"));
  g_assert_cmpint (first, ==, (gint64)test_row_number (row, "first"));
  g_assert_cmpint (second, ==, (gint64)test_row_number (row, "second"));
}

/* What the wall clock shows at any instant must name that instant again, once or as one of two. */
static void
test_there_and_back (gconstpointer data)
{
  const TestZone *z = data;
  g_autoptr (FrZoneTable) zone = fr_zone_table_new (z->name, z->spans, z->n_spans);
  gint64 from = z->n_spans > 1 ? z->spans[1].from_utc - 40 * 86400 : 1735689600;
  gint64 until = z->n_spans > 1 ? z->spans[z->n_spans - 1].from_utc + 40 * 86400 : 1767225600;
  guint n_twice = 0;

  for (gint64 utc_s = from; utc_s < until; utc_s += 1800)
    {
      const FrLocalTime local = fr_zone_local (zone, utc_s);
      gint64 first, second;
      const FrZoneFit fit = fr_zone_instant (zone, local.date, local.second_of_day, &first, &second);

      g_assert_cmpint (fr_date_to_days (local.date) * 86400 + local.second_of_day - local.offset_s, ==,
                       utc_s);
      g_assert_cmpint (local.weekday, ==, fr_date_weekday (local.date));
      if (fit == FR_ZONE_NEVER || (first != utc_s && second != utc_s))
        g_error ("%s: %" G_GINT64_FORMAT, z->name, utc_s);
      g_assert_cmpint (first, <=, second);
      if (fit == FR_ZONE_TWICE)
        n_twice++;
      else
        g_assert_cmpint (first, ==, second);
    }
  /* Each autumn change repeats one clock hour: two half-hour marks, each met twice. */
  if (g_str_equal (z->name, "America/Toronto"))
    g_assert_cmpuint (n_twice, ==, 2 * 4);
  if (g_str_equal (z->name, "Asia/Kolkata"))
    g_assert_cmpuint (n_twice, ==, 0);
}

static void
test_local_shows (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const FrLocalTime before = fr_zone_local (zone, 1741503599);
  const FrLocalTime after = fr_zone_local (zone, 1741503600);

  g_assert_cmpint (before.second_of_day, ==, 7199);
  g_assert_cmpint (before.offset_s, ==, -18000);
  g_assert_cmpstr (before.abbreviation, ==, "EST");
  g_assert_cmpint (after.second_of_day, ==, 3 * 3600);
  g_assert_cmpint (after.offset_s, ==, -14400);
  g_assert_cmpstr (after.abbreviation, ==, "EDT");
  g_assert_cmpint (after.weekday, ==, 7);
}

static void
test_is_dst (void)
{
  g_autoptr (FrZoneTable) toronto = test_zone ("America/Toronto");
  g_autoptr (FrZoneTable) utc = fr_zone_table_new_utc ();

  g_assert_false (fr_zone_is_dst (toronto, G_MININT64));
  g_assert_false (fr_zone_is_dst (toronto, 1741503599));
  g_assert_true (fr_zone_is_dst (toronto, 1741503600));
  g_assert_true (fr_zone_is_dst (toronto, 1762063199));
  g_assert_false (fr_zone_is_dst (toronto, 1762063200));
  g_assert_false (fr_zone_is_dst (utc, 1741503600));
}

static void
test_before_1970 (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const FrLocalTime local = fr_zone_local (zone, -1);

  g_assert_cmpint (local.date.year, ==, 1969);
  g_assert_cmpint (local.date.month, ==, 12);
  g_assert_cmpint (local.date.day, ==, 31);
  g_assert_cmpint (local.second_of_day, ==, 18 * 3600 + 59 * 60 + 59);
}

static void
test_far_ends (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("Australia/Adelaide");

  g_assert_cmpint (fr_zone_local (zone, G_MAXINT64).date.year, ==, 0);
  g_assert_cmpint (fr_zone_local (zone, G_MININT64).date.year, ==, 0);
}

static void
test_next_change (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  gint64 change;

  g_assert_true (fr_zone_next_change (zone, 1741503599, &change));
  g_assert_cmpint (change, ==, 1741503600);
  g_assert_true (fr_zone_next_change (zone, 1741503600, &change));
  g_assert_cmpint (change, ==, 1762063200);
  g_assert_false (fr_zone_next_change (zone, 1772953200, &change));
  g_assert_cmpint (change, ==, G_MAXINT64);
}

/* A zone that changes its name but not its offset does not move a clock. */
static void
test_renamed (void)
{
  const FrZoneSpan spans[] = { { G_MININT64, 3600, FALSE, "AAA" }, { 1000000, 3600, FALSE, "BBB" } };
  g_autoptr (FrZoneTable) zone = fr_zone_table_new ("Test/Renamed", spans, 2);
  const FrDate date = { 1970, 1, 12 };
  gint64 change, first, second;

  g_assert_false (fr_zone_next_change (zone, 0, &change));
  g_assert_cmpstr (fr_zone_local (zone, 999999).abbreviation, ==, "AAA");
  g_assert_cmpstr (fr_zone_local (zone, 1000000).abbreviation, ==, "BBB");
  g_assert_cmpint (fr_zone_instant (zone, date, 14 * 3600 + 46 * 60 + 40, &first, &second), ==, FR_ZONE_ONCE);
  g_assert_cmpint (first, ==, 1000000);
}

static void
test_utc (void)
{
  g_autoptr (FrZoneTable) zone = fr_zone_table_new_utc ();
  const FrLocalTime local = fr_zone_local (zone, 1000000000); /* 2001-09-09 01:46:40 UTC */

  g_assert_cmpstr (fr_zone_table_name (zone), ==, "UTC");
  g_assert_cmpint (local.offset_s, ==, 0);
  g_assert_cmpint (local.second_of_day, ==, 3600 + 46 * 60 + 40);
  g_assert_cmpint (local.date.day, ==, 9);
}

static void
test_copy (void)
{
  FrZoneTable *zone = test_zone ("Europe/Paris");
  g_autoptr (FrZoneTable) copy = fr_zone_table_copy (zone);

  fr_zone_table_free (zone);
  g_assert_cmpstr (fr_zone_table_name (copy), ==, "Europe/Paris");
  g_assert_cmpint (fr_zone_local (copy, 1743296400).offset_s, ==, 7200);
  g_assert_null (fr_zone_table_copy (NULL));
}

static void
test_malformed (void)
{
  const FrZoneSpan late[] = { { 0, 0, FALSE, "A" } };
  const FrZoneSpan unsorted[]
      = { { G_MININT64, 0, FALSE, "A" }, { 20, 0, FALSE, "A" }, { 20, 3600, FALSE, "B" } };
  const FrZoneSpan wide[] = { { G_MININT64, 86400, FALSE, "A" } };
  FrZoneSpan endless[] = { { G_MININT64, 0, FALSE, "" } };

  memset (endless[0].abbreviation, 'x', sizeof endless[0].abbreviation);
  g_assert_null (fr_zone_table_new ("x", late, 1));
  g_assert_null (fr_zone_table_new ("x", unsorted, 3));
  g_assert_null (fr_zone_table_new ("x", wide, 1));
  g_assert_null (fr_zone_table_new ("x", endless, 1));
  g_assert_null (fr_zone_table_new ("x", NULL, 0));
  g_assert_null (fr_zone_table_new (NULL, unsorted, 1));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  test_table_add ("zone-instants.csv", "/zone/instant", check_instant);
  for (guint i = 0; i < G_N_ELEMENTS (test_zones); i++)
    {
      g_autofree char *path
          = g_strdup_printf ("/zone/there-and-back/%s", strchr (test_zones[i].name, '/') + 1);

      g_test_add_data_func (path, &test_zones[i], test_there_and_back);
    }
  g_test_add_func ("/zone/local-shows", test_local_shows);
  g_test_add_func ("/zone/is-dst", test_is_dst);
  g_test_add_func ("/zone/before-1970", test_before_1970);
  g_test_add_func ("/zone/far-ends", test_far_ends);
  g_test_add_func ("/zone/next-change", test_next_change);
  g_test_add_func ("/zone/renamed", test_renamed);
  g_test_add_func ("/zone/utc", test_utc);
  g_test_add_func ("/zone/copy", test_copy);
  g_test_add_func ("/zone/malformed", test_malformed);
  return g_test_run ();
}
