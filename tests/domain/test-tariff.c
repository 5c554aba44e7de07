/* Tariffs: what is refused and why, the price and its end at chosen instants, and every minute of random
 * tariffs against tariff-oracle.h. */
#include "domain/maths/tariff.h"

#include <math.h>
#include <string.h>

#include "tariff-oracle.h"
#include "tariffs.h"

#define H(HOURS) ((HOURS)*3600)

typedef struct
{
  const char *name;
  const char *periods;
  const char *holidays;
  FrTariffCode code;
  guint line;
  FrDays days;
  gint minute;
} Refused;

#define ALL(CLOCKS) "01-01 12-31 all " CLOCKS "\n"

static const Refused refused[] = {
  { "empty", "", NULL, FR_TARIFF_EMPTY, 0, FR_N_DAYS, 0 },
  { "only-remarks", "# winter\n\n  # more\n", NULL, FR_TARIFF_EMPTY, 0, FR_N_DAYS, 0 },
  { "gap-at-end", ALL ("00:00 23:00 1"), NULL, FR_TARIFF_GAP, 1, FR_DAYS_ALL, 1380 },
  { "gap-at-start", ALL ("01:00 24:00 1"), NULL, FR_TARIFF_GAP, 1, FR_DAYS_ALL, 0 },
  { "gap-between", "# x\n" ALL ("12:01 00:00 1") ALL ("00:00 12:00 2"), NULL, FR_TARIFF_GAP, 2, FR_DAYS_ALL,
    720 },
  { "overlap", ALL ("00:00 12:00 1") ALL ("11:59 24:00 2"), NULL, FR_TARIFF_OVERLAP, 2, FR_DAYS_ALL, 719 },
  { "overlap-across-midnight", ALL ("19:00 07:00 1") ALL ("06:00 19:00 2"), NULL, FR_TARIFF_OVERLAP, 2,
    FR_DAYS_ALL, 360 },
  { "same-twice", ALL ("00:00 24:00 1") ALL ("00:00 24:00 1"), NULL, FR_TARIFF_OVERLAP, 2, FR_DAYS_ALL, 0 },
  { "no-weekday", "01-01 12-31 weekend 00:00 24:00 1\n", NULL, FR_TARIFF_NO_DAYS, 1, FR_DAYS_WEEKDAY, 0 },
  { "no-saturday", "01-01 12-31 weekday 00:00 24:00 1\n01-01 12-31 sunday 00:00 24:00 1\n", NULL,
    FR_TARIFF_NO_DAYS, 1, FR_DAYS_SATURDAY, 0 },
  { "no-sunday", "01-01 12-31 weekday 00:00 24:00 1\n01-01 12-31 saturday 00:00 24:00 1\n", NULL,
    FR_TARIFF_NO_DAYS, 1, FR_DAYS_SUNDAY, 0 },
  { "second-season-lacks", "01-01 06-30 all 00:00 24:00 1\n07-01 12-31 weekday 00:00 24:00 1\n", NULL,
    FR_TARIFF_NO_DAYS, 2, FR_DAYS_SATURDAY, 0 },
  { "unused-list-has-gap",
    ALL ("00:00 23:00 1") "01-01 12-31 weekday 00:00 24:00 1\n01-01 12-31 weekend 00:00 24:00 1\n", NULL,
    FR_TARIFF_GAP, 1, FR_DAYS_ALL, 1380 },
  { "two-seasons", "11-01 04-30 all 00:00 24:00 1\n04-30 10-31 all 00:00 24:00 1\n", NULL,
    FR_TARIFF_TWO_SEASONS, 2, FR_N_DAYS, 0 },
  { "too-few-words", ALL ("00:00 24:00"), NULL, FR_TARIFF_BAD_LINE, 1, FR_N_DAYS, 0 },
  { "too-many-words", ALL ("00:00 24:00 1 2"), NULL, FR_TARIFF_BAD_LINE, 1, FR_N_DAYS, 0 },
  { "comma-price", ALL ("00:00 24:00 9,8"), NULL, FR_TARIFF_BAD_LINE, 1, FR_N_DAYS, 0 },
  { "exponent", ALL ("00:00 24:00 1e2"), NULL, FR_TARIFF_BAD_LINE, 1, FR_N_DAYS, 0 },
  { "nan", ALL ("00:00 24:00 nan"), NULL, FR_TARIFF_BAD_LINE, 1, FR_N_DAYS, 0 },
  { "point-without-digits", ALL ("00:00 24:00 9."), NULL, FR_TARIFF_BAD_LINE, 1, FR_N_DAYS, 0 },
  { "no-such-day-type", "01-01 12-31 monday 00:00 24:00 1\n", NULL, FR_TARIFF_BAD_LINE, 1, FR_N_DAYS, 0 },
  { "no-such-date", "\n02-30 12-31 all 00:00 24:00 1\n", NULL, FR_TARIFF_BAD_LINE, 2, FR_N_DAYS, 0 },
  { "no-such-clock", ALL ("00:00 24:30 1"), NULL, FR_TARIFF_BAD_LINE, 1, FR_N_DAYS, 0 },
  { "from-24", ALL ("24:00 12:00 1"), NULL, FR_TARIFF_BAD_LINE, 1, FR_N_DAYS, 0 },
  { "no-length", ALL ("07:00 07:00 1"), NULL, FR_TARIFF_BAD_LINE, 1, FR_N_DAYS, 0 },
  { "price-out-of-range", ALL ("00:00 24:00 10000000"), NULL, FR_TARIFF_BAD_NUMBER, 1, FR_N_DAYS, 0 },
  { "bad-holiday", ALL ("00:00 24:00 1"), "2025-12-25\n2025-02-30\n", FR_TARIFF_BAD_LINE, 2, FR_DAYS_HOLIDAY,
    0 },
};

static void
test_refused (gconstpointer data)
{
  const Refused *r = data;
  FrTariffProblem problem;
  g_autoptr (FrTariff) tariff = fr_tariff_parse (r->periods, r->holidays, 0, 0, &problem);

  g_assert_null (tariff);
  g_assert_cmpint (problem.code, ==, r->code);
  g_assert_cmpuint (problem.line, ==, r->line);
  g_assert_cmpint (problem.days, ==, r->days);
  g_assert_cmpint (problem.minute, ==, r->minute);
}

static void
test_two_seasons_date (void)
{
  FrTariffProblem problem;

  g_assert_null (fr_tariff_parse ("11-01 04-30 all 00:00 24:00 1\n04-30 10-31 all 00:00 24:00 1\n", NULL, 0,
                                  0, &problem));
  g_assert_cmpint (problem.date.year, ==, 0);
  g_assert_cmpint (problem.date.month, ==, 4);
  g_assert_cmpint (problem.date.day, ==, 30);
}

typedef struct
{
  double adder;
  double tax_ratio;
  gboolean sound;
} Numbers;

static const Numbers numbers[] = {
  { 0, 0, TRUE },      { -5, 0.13, TRUE },     { 0, -0.235, TRUE },    { 0, 1, TRUE },
  { 0, -0.999, TRUE }, { 0, -1, FALSE },       { 0, 1.01, FALSE },     { 0, NAN, FALSE },
  { NAN, 0, FALSE },   { INFINITY, 0, FALSE }, { 0, INFINITY, FALSE }, { 2e6, 0, FALSE },
};

static void
test_numbers (gconstpointer data)
{
  const Numbers *n = data;
  FrTariffProblem problem;
  g_autoptr (FrTariff) tariff
      = fr_tariff_parse (ALL ("00:00 24:00 10"), NULL, n->adder, n->tax_ratio, &problem);

  g_assert_cmpint (tariff != NULL, ==, n->sound);
  g_assert_cmpint (problem.code, ==, n->sound ? FR_TARIFF_OK : FR_TARIFF_BAD_NUMBER);
}

/* As an array, with what text cannot say. */
static void
test_bad_periods (void)
{
  const FrTariffPeriod good = { 1, 1, 12, 31, FR_DAYS_ALL, 0, 1440, 5 };
  FrTariffPeriod bad = good;
  FrTariffProblem problem;

  bad.price_per_kwh = NAN;
  g_assert_null (fr_tariff_new (&bad, 1, NULL, 0, 0, 0, &problem));
  g_assert_cmpint (problem.code, ==, FR_TARIFF_BAD_NUMBER);
  bad = good;
  bad.to_min = 1441;
  g_assert_null (fr_tariff_new (&bad, 1, NULL, 0, 0, 0, &problem));
  g_assert_cmpint (problem.code, ==, FR_TARIFF_BAD_LINE);
  bad = good;
  bad.days = FR_N_DAYS;
  g_assert_null (fr_tariff_new (&bad, 1, NULL, 0, 0, 0, &problem));
  g_assert_cmpint (problem.code, ==, FR_TARIFF_BAD_LINE);
  g_assert_null (fr_tariff_new (NULL, 0, NULL, 0, 0, 0, &problem));
  g_assert_cmpint (problem.code, ==, FR_TARIFF_EMPTY);
  g_assert_null (fr_tariff_new (&good, 1, &(FrDate){ 2025, 2, 29 }, 1, 0, 0, &problem));
  g_assert_cmpint (problem.days, ==, FR_DAYS_HOLIDAY);
  g_assert_null (fr_tariff_new (&bad, 1, NULL, 0, 0, 0, NULL));
}

static void
test_day_codes (void)
{
  FrDays days;

  for (guint i = 0; i < FR_N_DAYS; i++)
    {
      g_assert_true (fr_days_from_code (fr_days_code ((FrDays)i), &days));
      g_assert_cmpint (days, ==, i);
    }
  g_assert_null (fr_days_code (FR_N_DAYS));
  g_assert_false (fr_days_from_code ("Weekday", &days));
  g_assert_false (fr_days_from_code (NULL, &days));
}

typedef struct
{
  const char *name;
  const char *zone;
  const char *periods;
  const char *holidays;
  gint64 utc_s;
  double listed;
  gint64 until_utc;
} Moment;

/* Toronto, winter: 2025-01-06 is a Monday and 00:00 there is 1736139600 UTC. */
#define MONDAY 1736139600
#define TORONTO "America/Toronto"
/* Local midnights of the nights with a change, in UTC (zone database 2026f). */
#define SPRING 1741496400
#define AUTUMN 1762056000
#define GAP_EDGE "01-01 12-31 all 00:00 02:30 1\n01-01 12-31 all 02:30 24:00 2\n"
#define HOUR_EDGE "01-01 12-31 all 00:00 01:30 1\n01-01 12-31 all 01:30 24:00 2\n"
#define LEAP_EDGE "03-01 02-28 all 00:00 24:00 1\n02-29 02-29 all 00:00 24:00 2\n"
#define FAMILY                                                                                               \
  "01-01 12-31 weekday 00:00 24:00 1\n01-01 12-31 saturday 00:00 24:00 2\n01-01 12-31 sunday 00:00 24:00 "   \
  "3\n"

static const Moment moments[] = {
  { "monday-off", TORONTO, WINTER_2025, NULL, MONDAY, 9.8, MONDAY + H (7) },
  { "monday-before-seven", TORONTO, WINTER_2025, NULL, MONDAY + H (7) - 1, 9.8, MONDAY + H (7) },
  { "monday-on", TORONTO, WINTER_2025, NULL, MONDAY + H (7), 20.3, MONDAY + H (11) },
  { "monday-mid", TORONTO, WINTER_2025, NULL, MONDAY + H (12), 15.7, MONDAY + H (17) },
  { "monday-evening", TORONTO, WINTER_2025, NULL, MONDAY + H (19), 9.8, MONDAY + H (24) },
  { "sunday", TORONTO, WINTER_2025, NULL, MONDAY - H (10), 9.8, MONDAY },
  { "holiday-as-weekend", TORONTO, WINTER_2025, "2025-01-06", MONDAY + H (8), 9.8, MONDAY + H (24) },
  { "holiday-as-sunday", TORONTO, FAMILY, "2025-01-06, 2025-01-04", MONDAY + H (8), 3, MONDAY + H (24) },
  { "holiday-on-a-saturday", TORONTO, FAMILY, "2025-01-06, 2025-01-04", MONDAY - H (40), 3, MONDAY - H (24) },
  { "saturday", TORONTO, FAMILY, NULL, MONDAY - H (40), 2, MONDAY - H (24) },
  { "own-holiday-list", TORONTO, FAMILY "01-01 12-31 holiday 00:00 24:00 -4\n", "2025-01-06", MONDAY, -4,
    MONDAY + H (24) },
  { "season-wraps", TORONTO, WINTER_2025 "05-01 10-31 all 00:00 24:00 1\n", NULL, MONDAY - H (24 * 6 + 1),
    9.8, MONDAY - H (24 * 6) },
  { "spring-edge-in-the-jump", TORONTO, GAP_EDGE, NULL, SPRING, 1, SPRING + H (2) },
  { "spring-after-the-jump", TORONTO, GAP_EDGE, NULL, SPRING + H (2), 2, SPRING + H (23) },
  { "spring-last-second", TORONTO, GAP_EDGE, NULL, SPRING + H (2) - 1, 1, SPRING + H (2) },
  { "autumn-first-pass", TORONTO, HOUR_EDGE, NULL, AUTUMN, 1, AUTUMN + 5400 },
  { "autumn-first-pass-later", TORONTO, HOUR_EDGE, NULL, AUTUMN + 5400, 2, AUTUMN + H (2) },
  { "autumn-second-pass", TORONTO, HOUR_EDGE, NULL, AUTUMN + H (2), 1, AUTUMN + H (2) + 1800 },
  { "autumn-second-pass-later", TORONTO, HOUR_EDGE, NULL, AUTUMN + H (2) + 1800, 2, AUTUMN + H (25) },
  { "same-price-joins", TORONTO, ALL ("00:00 05:00 7") ALL ("05:00 06:00 7") ALL ("06:00 00:00 8"), NULL,
    MONDAY, 7, MONDAY + H (6) },
  { "leap-day", "Asia/Kolkata", LEAP_EDGE, NULL, 1709145000 + H (1), 2,
    1709145000 + H (24) }, /* 2024-02-29 */
  { "day-before-leap-day", "Asia/Kolkata", LEAP_EDGE, NULL, 1709145000 - 1, 1, 1709145000 },
  { "no-leap-day", "Asia/Kolkata", LEAP_EDGE, NULL, 1740767400 - 1, 1, 1740767400 }, /* 2025-02-28 to 03-01 */
  { "edge-on-leap-day", "Asia/Kolkata", "03-01 02-29 all 00:00 24:00 1\n", NULL, 1709145000, 1,
    1709145000 + H (24) },
  /* Samoa had no 2011-12-30: the day of the 29th ends at the jump. */
  { "day-left-out", "Pacific/Apia", ALL ("00:00 24:00 6"), NULL, 1325239200 - H (2), 6, 1325239200 },
};

static void
test_moment (gconstpointer data)
{
  const Moment *m = data;
  g_autoptr (FrZoneTable) zone = test_zone (m->zone);
  FrTariffProblem problem;
  g_autoptr (FrTariff) tariff = fr_tariff_parse (m->periods, m->holidays, 1.5, -0.2, &problem);
  double listed, full;
  gint64 until_utc;

  g_assert_nonnull (tariff);
  g_assert_true (fr_tariff_price (tariff, zone, m->utc_s, &listed, &full, &until_utc, &problem));
  g_assert_cmpfloat (listed, ==, m->listed);
  g_assert_cmpfloat_with_epsilon (full, (m->listed + 1.5) * 0.8, 1e-12);
  g_assert_cmpint (until_utc, ==, m->until_utc);
  g_assert_cmpint (problem.code, ==, FR_TARIFF_OK);
}

static void
test_no_season (void)
{
  g_autoptr (FrZoneTable) zone = test_zone (TORONTO);
  FrTariffProblem problem;
  g_autoptr (FrTariff) tariff = fr_tariff_parse (WINTER_2025, NULL, 0, 0, &problem);
  double listed, full;
  gint64 until_utc;
  FrDate open;

  g_assert_nonnull (tariff);
  /* 2025-05-01 00:00 EDT, the first second after the winter season; a second before there is a price. */
  g_assert_true (fr_tariff_price (tariff, zone, 1746072000 - 1, &listed, &full, &until_utc, &problem));
  g_assert_false (fr_tariff_price (tariff, zone, 1746072000, &listed, &full, &until_utc, &problem));
  g_assert_cmpint (problem.code, ==, FR_TARIFF_NO_SEASON);
  g_assert_cmpint (problem.date.month, ==, 5);
  g_assert_cmpint (problem.date.day, ==, 1);
  g_assert_cmpint (problem.date.year, ==, 2025);
  g_assert_true (isnan (listed) && isnan (full));
  g_assert_true (fr_tariff_has_open_date (tariff, &open));
  g_assert_cmpint (open.month * 100 + open.day, ==, 501);
  g_assert_false (fr_tariff_price (tariff, zone, G_MAXINT64, &listed, &full, &until_utc, NULL));
}

static void
test_leap_day_open (void)
{
  g_autoptr (FrTariff) full_year = fr_tariff_parse (ALL ("00:00 24:00 1"), NULL, 0, 0, NULL);
  g_autoptr (FrTariff) tariff = fr_tariff_parse ("03-01 02-28 all 00:00 24:00 1\n", NULL, 0, 0, NULL);
  FrDate open;

  g_assert_false (fr_tariff_has_open_date (full_year, &open));
  g_assert_cmpint (open.month, ==, 0);
  g_assert_true (fr_tariff_has_open_date (tariff, &open));
  g_assert_cmpint (open.month * 100 + open.day, ==, 229);
}

static void
test_copy (void)
{
  g_autoptr (FrZoneTable) zone = test_zone (TORONTO);
  FrTariff *tariff = fr_tariff_parse (WINTER_2025, "2025-01-06", 1, 0, NULL);
  g_autoptr (FrTariff) copy = fr_tariff_copy (tariff);
  double listed, full;
  gint64 until_utc;

  fr_tariff_free (tariff);
  g_assert_true (fr_tariff_price (copy, zone, MONDAY + H (8), &listed, &full, &until_utc, NULL));
  g_assert_cmpfloat (full, ==, 10.8);
  g_assert_null (fr_tariff_copy (NULL));
}

/* Text and array say the same. */
static void
test_white_space (void)
{
  g_autoptr (FrZoneTable) zone = test_zone (TORONTO);
  g_autoptr (FrTariff) tariff
      = fr_tariff_parse ("\t01-01  12-31\tall 0:00 24:00  -1.25 \r\n", " \n# none\n", 0, 0, NULL);
  double listed, full;
  gint64 until_utc;

  g_assert_nonnull (tariff);
  g_assert_true (fr_tariff_price (tariff, zone, MONDAY, &listed, &full, &until_utc, NULL));
  g_assert_cmpfloat (listed, ==, -1.25);
}

/* Five days round every change of the zone, minute by minute: the price is the oracle's, and it ends where
 * the oracle first says another, or at local midnight. */
static void
test_random (gconstpointer data)
{
  const TestZone *z = data;
  g_autoptr (FrZoneTable) zone = fr_zone_table_new (z->name, z->spans, z->n_spans);
  g_autoptr (GRand) rand = g_rand_new_with_seed (20250309);

  for (guint round = 0; round < 12; round++)
    {
      FrTariffPeriod periods[ORACLE_MAX_PERIODS];
      const gint64 change = z->n_spans > 1 ? z->spans[1 + round % (z->n_spans - 1)].from_utc : 1741496400;
      const gint64 begin = change - change % 60 - H (36);
      FrDate holidays[2];
      Oracle oracle = { periods, 0, holidays, 2, z->spans, z->n_spans };
      g_autoptr (FrTariff) tariff = NULL;
      gint64 until_utc = begin;
      double listed = NAN, full;
      GDate date, before;
      gint minute;

      oracle.n_periods = oracle_random_periods (rand, periods);
      holidays[0] = fr_zone_local (zone, change - H (g_rand_int_range (rand, 0, 30))).date;
      holidays[1] = (FrDate){ 2000, 1, 1 };
      tariff = fr_tariff_new (periods, oracle.n_periods, holidays, 2, 0, 0, NULL);
      g_assert_nonnull (tariff);
      oracle_local (&oracle, begin, &before, &minute);
      for (gint64 utc_s = begin; utc_s < begin + H (84); utc_s += 60)
        {
          const double wanted = oracle_price (&oracle, utc_s);

          oracle_local (&oracle, utc_s, &date, &minute);
          if (utc_s > begin && (g_date_compare (&date, &before) != 0 || wanted != listed))
            {
              if (until_utc != utc_s)
                g_error ("%s round %u: holds to %" G_GINT64_FORMAT ", oracle says %" G_GINT64_FORMAT, z->name,
                         round, until_utc, utc_s);
            }
          if (!fr_tariff_price (tariff, zone, utc_s, &listed, &full, &until_utc, NULL) || listed != wanted)
            g_error ("%s round %u at %" G_GINT64_FORMAT ": %g, oracle says %g", z->name, round, utc_s, listed,
                     wanted);
          if (until_utc <= utc_s)
            g_error ("%s round %u at %" G_GINT64_FORMAT ": ends before it begins", z->name, round, utc_s);
          before = date;
        }
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tariff/refused/%s", refused[i].name);

      g_test_add_data_func (path, &refused[i], test_refused);
    }
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tariff/numbers/%u", i);

      g_test_add_data_func (path, &numbers[i], test_numbers);
    }
  for (guint i = 0; i < G_N_ELEMENTS (moments); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tariff/moment/%s", moments[i].name);

      g_test_add_data_func (path, &moments[i], test_moment);
    }
  for (guint i = 0; i < G_N_ELEMENTS (test_zones); i++)
    {
      g_autofree char *path = g_strdup_printf ("/tariff/random/%s", strchr (test_zones[i].name, '/') + 1);

      g_test_add_data_func (path, &test_zones[i], test_random);
    }
  g_test_add_func ("/tariff/two-seasons-date", test_two_seasons_date);
  g_test_add_func ("/tariff/bad-periods", test_bad_periods);
  g_test_add_func ("/tariff/day-codes", test_day_codes);
  g_test_add_func ("/tariff/no-season", test_no_season);
  g_test_add_func ("/tariff/leap-day-open", test_leap_day_open);
  g_test_add_func ("/tariff/copy", test_copy);
  g_test_add_func ("/tariff/white-space", test_white_space);
  return g_test_run ();
}
