/* Days, weekdays and clock texts against known days (tests/tables/calendar.csv) and against GLib's own
 * calendar. */
#include "domain/units/calendar.h"
#include "table.h"

static FrDate
must_parse (const char *text)
{
  FrDate date;

  if (!fr_date_parse (text, &date))
    g_error ("no date: %s", text);
  return date;
}

static void
check_known_day (const TestRow *row)
{
  const char *text = test_row_text (row, "date");
  const FrDate date = must_parse (text);
  const gint64 days = (gint64)test_row_number (row, "days");
  g_autofree char *back = fr_date_to_iso (fr_date_from_days (days));

  g_assert_cmpint (fr_date_to_days (date), ==, days);
  g_assert_cmpstr (back, ==, text);
  g_assert_cmpint (fr_date_weekday (date), ==, (gint)test_row_number (row, "weekday"));
}

/* Every day of years 1 to 9999 there and back; weekday and count against GDate. */
static void
test_every_day (void)
{
  const gint64 first = fr_date_to_days ((FrDate){ 1, 1, 1 });
  const gint64 last = fr_date_to_days ((FrDate){ 9999, 12, 31 });
  FrDate before = fr_date_from_days (first);
  GDate other;

  g_date_clear (&other, 1);
  for (gint64 days = first + 1; days <= last; days++)
    {
      const FrDate date = fr_date_from_days (days);

      if (!fr_date_is_valid (date) || fr_date_to_days (date) != days || fr_date_compare (before, date) != -1)
        g_error ("day %" G_GINT64_FORMAT, days);
      if (days % 61 == 0)
        {
          g_date_set_julian (&other, (guint32)(days - first + 1));
          g_assert_cmpint (date.year, ==, g_date_get_year (&other));
          g_assert_cmpint (date.month, ==, (gint)g_date_get_month (&other));
          g_assert_cmpint (date.day, ==, g_date_get_day (&other));
          g_assert_cmpint (fr_date_weekday (date), ==, (gint)g_date_get_weekday (&other));
        }
      before = date;
    }
  g_assert_cmpint (last - first + 1, ==,
                   3652059); /* 24 cycles of 146,097 days, 399 years of 365, 96 leap days */
}

static void
test_ends (void)
{
  const gint64 last = fr_date_to_days ((FrDate){ 9999, 12, 31 });

  g_assert_cmpint (fr_date_from_days (last + 1).year, ==, 0);
  g_assert_cmpint (fr_date_from_days (fr_date_to_days ((FrDate){ 1, 1, 1 }) - 1).year, ==, 0);
  g_assert_cmpint (fr_date_from_days (G_MAXINT64).year, ==, 0);
  g_assert_cmpint (fr_date_from_days (G_MININT64).year, ==, 0);
  g_assert_cmpint (fr_date_to_days ((FrDate){ 0, 0, 0 }), ==, G_MININT64);
  g_assert_cmpint (fr_date_weekday ((FrDate){ 0, 0, 0 }), ==, 0);
  g_assert_cmpint (fr_date_add_days ((FrDate){ 9999, 12, 31 }, 1).year, ==, 0);
  g_assert_cmpint (fr_date_add_days ((FrDate){ 2025, 2, 29 }, 1).year, ==, 0);
}

static void
test_add_days (void)
{
  g_autofree char *leap = fr_date_to_iso (fr_date_add_days (must_parse ("2024-02-28"), 1));
  g_autofree char *plain = fr_date_to_iso (fr_date_add_days (must_parse ("2025-02-28"), 1));
  g_autofree char *year = fr_date_to_iso (fr_date_add_days (must_parse ("2026-01-01"), -1));

  g_assert_cmpstr (leap, ==, "2024-02-29");
  g_assert_cmpstr (plain, ==, "2025-03-01");
  g_assert_cmpstr (year, ==, "2025-12-31");
}

static void
test_compare (void)
{
  g_assert_cmpint (fr_date_compare (must_parse ("2025-03-09"), must_parse ("2025-03-09")), ==, 0);
  g_assert_cmpint (fr_date_compare (must_parse ("2025-03-09"), must_parse ("2024-12-31")), ==, 1);
  g_assert_cmpint (fr_date_compare (must_parse ("2025-03-09"), must_parse ("2025-04-01")), ==, -1);
  g_assert_cmpint (fr_date_compare (must_parse ("2025-03-09"), must_parse ("2025-03-08")), ==, 1);
}

static const char *const no_dates[]
    = { "",           "2025-02-29", "1900-02-29", "2025-13-01", "2025-00-10",  "2025-04-31",  "2025-1-01",
        "2025-01-1",  "2025/01/01", "0000-01-01", "+025-01-01", "2025-01-01 ", " 2025-01-01", "20250101",
        "2025-01-0a", "-001-01-01" };

static void
test_no_date (gconstpointer data)
{
  FrDate date = { 7, 7, 7 };

  g_assert_false (fr_date_parse (data, &date));
  g_assert_cmpint (date.year, ==, 0);
}

static void
test_null (void)
{
  FrDate date;
  gint minutes;
  g_autofree char *none = fr_date_to_iso ((FrDate){ 0, 0, 0 });

  g_assert_false (fr_date_parse (NULL, &date));
  g_assert_false (fr_clock_parse (NULL, &minutes));
  g_assert_cmpstr (none, ==, "");
}

typedef struct
{
  const char *text;
  gint minutes; /* -1: no clock time */
} Clock;

static const Clock clocks[] = {
  { "00:00", 0 },     { "7:00", 420 }, { "07:00", 420 }, { "23:59", 1439 },
  { "24:00", 1440 },  { "24:01", -1 }, { "25:00", -1 },  { "12:60", -1 },
  { "1200", -1 },     { "12:0", -1 },  { ":30", -1 },    { "-1:30", -1 },
  { "12:30:00", -1 }, { "12.30", -1 }, { " 7:00", -1 },  { "", -1 },
};

static void
test_clock (gconstpointer data)
{
  const Clock *clock = data;
  gint minutes = 99;

  g_assert_cmpint (fr_clock_parse (clock->text, &minutes), ==, clock->minutes >= 0);
  g_assert_cmpint (minutes, ==, clock->minutes);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  test_table_add ("calendar.csv", "/calendar/known-day", check_known_day);
  g_test_add_func ("/calendar/every-day", test_every_day);
  g_test_add_func ("/calendar/ends", test_ends);
  g_test_add_func ("/calendar/add-days", test_add_days);
  g_test_add_func ("/calendar/compare", test_compare);
  g_test_add_func ("/calendar/null", test_null);
  for (guint i = 0; i < G_N_ELEMENTS (no_dates); i++)
    {
      g_autofree char *path = g_strdup_printf ("/calendar/no-date/%u", i);

      g_test_add_data_func (path, no_dates[i], test_no_date);
    }
  for (guint i = 0; i < G_N_ELEMENTS (clocks); i++)
    {
      g_autofree char *path = g_strdup_printf ("/calendar/clock/%u", i);

      g_test_add_data_func (path, &clocks[i], test_clock);
    }
  return g_test_run ();
}
