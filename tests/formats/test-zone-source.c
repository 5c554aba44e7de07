/* Zone tables from the machine's database.
 *
 * Source of every moment: IANA time zone database, release 2026f, read once with another reader (Python's
 * zoneinfo) and written down here; 2060 by the rule in force (second Sunday of March and first of November,
 * 02:00 local). */
#include "formats/zone-source.h"

#include <string.h>

typedef struct
{
  gint64 utc_s;
  int before_s;
  int after_s;
  const char *before;
  const char *after;
} Change;

static void
check_changes (const char *zone, int year, const Change *changes, guint n)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrZoneTable) table = fr_zone_table_load (zone, year, year, &error);
  gint64 at = fr_date_to_days ((FrDate){ year, 1, 1 }) * 86400;
  gint64 end = fr_date_to_days ((FrDate){ year + 1, 1, 1 }) * 86400;
  gint64 next = at;

  g_assert_no_error (error);
  g_assert_cmpstr (fr_zone_table_name (table), ==, zone);
  for (guint i = 0; i < n; i++)
    {
      FrLocalTime local;

      g_assert_true (fr_zone_next_change (table, at, &next));
      g_assert_cmpint (next, ==, changes[i].utc_s);
      local = fr_zone_local (table, next - 1);
      g_assert_cmpint (local.offset_s, ==, changes[i].before_s);
      g_assert_cmpstr (local.abbreviation, ==, changes[i].before);
      local = fr_zone_local (table, next);
      g_assert_cmpint (local.offset_s, ==, changes[i].after_s);
      g_assert_cmpstr (local.abbreviation, ==, changes[i].after);
      at = next;
    }
  /* and no others that year */
  g_assert_false (fr_zone_next_change (table, at, &next) && next < end);
}

static void
test_toronto (void)
{
  static const Change changes[] = {
    { 1741503600, -18000, -14400, "EST", "EDT" }, /* 2025-03-09 07:00 UTC */
    { 1762063200, -14400, -18000, "EDT", "EST" }, /* 2025-11-02 06:00 UTC */
  };

  check_changes ("America/Toronto", 2025, changes, G_N_ELEMENTS (changes));
}

static void
test_toronto_2060 (void)
{
  static const Change changes[] = {
    { 2846473200, -18000, -14400, "EST", "EDT" },
    { 2867032800, -14400, -18000, "EDT", "EST" },
  };

  check_changes ("America/Toronto", 2060, changes, G_N_ELEMENTS (changes));
}

static void
test_paris (void)
{
  static const Change changes[] = {
    { 1743296400, 3600, 7200, "CET", "CEST" },
    { 1761440400, 7200, 3600, "CEST", "CET" },
  };

  check_changes ("Europe/Paris", 2025, changes, G_N_ELEMENTS (changes));
}

static void
test_kolkata (void)
{
  g_autoptr (FrZoneTable) table = fr_zone_table_load ("Asia/Kolkata", 2025, 2025, NULL);

  check_changes ("Asia/Kolkata", 2025, NULL, 0);
  g_assert_cmpint (fr_zone_local (table, 1741503600).offset_s, ==, 19800);
  g_assert_cmpstr (fr_zone_local (table, 1741503600).abbreviation, ==, "IST");
}

static void
test_lord_howe (void)
{
  static const Change changes[] = {
    { 1743865200, 39600, 37800, "+11", "+1030" },
    { 1759591800, 37800, 39600, "+1030", "+11" },
  };

  check_changes ("Australia/Lord_Howe", 2025, changes, G_N_ELEMENTS (changes));
}

static void
test_st_johns (void)
{
  static const Change changes[] = {
    { 1741498200, -12600, -9000, "NST", "NDT" },
    { 1762057800, -9000, -12600, "NDT", "NST" },
  };

  check_changes ("America/St_Johns", 2025, changes, G_N_ELEMENTS (changes));
}

/* A month of winter time within the year, in Ramadan; too short for coarse sampling. */
static void
test_casablanca (void)
{
  static const Change changes[] = {
    { 1740276000, 3600, 0, "+01", "+00" },
    { 1743904800, 0, 3600, "+00", "+01" },
  };

  check_changes ("Africa/Casablanca", 2025, changes, G_N_ELEMENTS (changes));
}

/* The day that Samoa left out. */
static void
test_apia (void)
{
  static const Change changes[] = {
    { 1301752800, -36000, -39600, "-10", "-11" },
    { 1316872800, -39600, -36000, "-11", "-10" },
    { 1325239200, -36000, 50400, "-10", "+14" },
  };

  check_changes ("Pacific/Apia", 2011, changes, G_N_ELEMENTS (changes));
}

/* A table of many years holds the same changes as tables of single ones. */
static void
test_many_years (void)
{
  g_autoptr (FrZoneTable) all = fr_zone_table_load ("America/Toronto", 1990, 2040, NULL);

  for (int year = 1990; year <= 2040; year++)
    {
      g_autoptr (FrZoneTable) one = fr_zone_table_load ("America/Toronto", year, year, NULL);
      gint64 at = fr_date_to_days ((FrDate){ year, 1, 1 }) * 86400;
      gint64 a, b;

      for (int i = 0; i < 2; i++)
        {
          g_assert_true (fr_zone_next_change (all, at, &a));
          g_assert_true (fr_zone_next_change (one, at, &b));
          g_assert_cmpint (a, ==, b);
          at = a;
        }
    }
}

static void
test_night_over_change (void)
{
  g_autoptr (FrZoneTable) table = fr_zone_table_load ("America/Toronto", 2025, 2025, NULL);
  gint64 evening, morning, other;

  g_assert_cmpint (fr_zone_instant (table, (FrDate){ 2025, 3, 8 }, 23 * 3600, &evening, &other), ==,
                   FR_ZONE_ONCE);
  g_assert_cmpint (fr_zone_instant (table, (FrDate){ 2025, 3, 9 }, 7 * 3600, &morning, &other), ==,
                   FR_ZONE_ONCE);
  g_assert_cmpint (morning - evening, ==, 7 * 3600); /* the short night */
  g_assert_cmpint (fr_zone_instant (table, (FrDate){ 2025, 3, 9 }, 9000, &evening, &other), ==,
                   FR_ZONE_NEVER);
  g_assert_cmpint (fr_zone_instant (table, (FrDate){ 2025, 11, 2 }, 5400, &evening, &other), ==,
                   FR_ZONE_TWICE);
  g_assert_cmpint (other - evening, ==, 3600);
}

static void
test_unknown (gconstpointer name)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrZoneTable) table = fr_zone_table_load (name, 2025, 2026, &error);

  g_assert_null (table);
  g_assert_error (error, FR_ZONE_SOURCE_ERROR, FR_ZONE_SOURCE_ERROR_UNKNOWN);
}

static void
test_plain_names (void)
{
  static const char *const names[]
      = { "UTC", "EST5EDT", "Etc/GMT+5", "Etc/UTC", "America/Argentina/Buenos_Aires" };
  static const int offsets_s[] = { 0, -18000, -18000, 0, -10800 };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (FrZoneTable) table = fr_zone_table_load (names[i], 2025, 2025, &error);

      g_assert_no_error (error);
      g_assert_cmpint (fr_zone_local (table, 1737000000).offset_s, ==, offsets_s[i]); /* 2025-01-16 */
    }
}

int
main (int argc, char **argv)
{
  static const char *const unknown[] = { "Nowhere/Land",
                                         "",
                                         "America",
                                         "america/toronto",
                                         "America/Toronto ",
                                         "EST5EDT4,M3.2.0,M11.1.0",
                                         "XYZ3",
                                         "+05:00",
                                         "localtime",
                                         "posixrules",
                                         "leapseconds",
                                         "zone.tab",
                                         "/etc/passwd",
                                         "../passwd",
                                         "Am\xff/\xc3",
                                         "America/../UTC",
                                         "right/UTC",
                                         "Utc" };

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/zone-source/toronto", test_toronto);
  g_test_add_func ("/zone-source/toronto-2060", test_toronto_2060);
  g_test_add_func ("/zone-source/paris", test_paris);
  g_test_add_func ("/zone-source/kolkata", test_kolkata);
  g_test_add_func ("/zone-source/lord-howe", test_lord_howe);
  g_test_add_func ("/zone-source/st-johns", test_st_johns);
  g_test_add_func ("/zone-source/casablanca", test_casablanca);
  g_test_add_func ("/zone-source/apia", test_apia);
  g_test_add_func ("/zone-source/many-years", test_many_years);
  g_test_add_func ("/zone-source/night-over-change", test_night_over_change);
  g_test_add_func ("/zone-source/plain-names", test_plain_names);
  g_test_add_data_func ("/zone-source/unknown/null", NULL, test_unknown);
  for (guint i = 0; i < G_N_ELEMENTS (unknown); i++)
    {
      g_autofree char *name = g_strdup_printf ("/zone-source/unknown/%02u", i);

      g_test_add_data_func (name, unknown[i], test_unknown);
    }
  return g_test_run ();
}
