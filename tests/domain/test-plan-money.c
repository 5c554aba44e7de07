/* Prices of the plan: nights over both clock changes summed minute by minute from tables written by hand, the
 * same sap at other hours and on a fuel, and the hours that are offered. */
#include "evenings.h"
#include "tariff-oracle.h"

#include "domain/maths/cost.h"

/* Ontario, winter 2024/25: Ontario Energy Board, release of 18 October 2024, ¢/kWh. Here all year round. */
static const FrTariffPeriod ontario[] = {
  { 1, 1, 12, 31, FR_DAYS_WEEKDAY, 1140, 420, 7.6 },  { 1, 1, 12, 31, FR_DAYS_WEEKDAY, 420, 660, 15.8 },
  { 1, 1, 12, 31, FR_DAYS_WEEKDAY, 660, 1020, 12.2 }, { 1, 1, 12, 31, FR_DAYS_WEEKDAY, 1020, 1140, 15.8 },
  { 1, 1, 12, 31, FR_DAYS_WEEKEND, 0, 1440, 7.6 },
};

/* Invented: every two hours another price, so that a clock change shows in every sum. */
static const FrTariffPeriod steps[] = {
  { 1, 1, 12, 31, FR_DAYS_ALL, 0, 60, 5 },       { 1, 1, 12, 31, FR_DAYS_ALL, 60, 120, 11 },
  { 1, 1, 12, 31, FR_DAYS_ALL, 120, 150, 23 },   { 1, 1, 12, 31, FR_DAYS_ALL, 150, 180, 31 },
  { 1, 1, 12, 31, FR_DAYS_ALL, 180, 420, 3 },    { 1, 1, 12, 31, FR_DAYS_ALL, 420, 1140, 40 },
  { 1, 1, 12, 31, FR_DAYS_ALL, 1140, 1440, 17 },
};

static FrTariff *
tariff_of (const FrTariffPeriod *periods, guint n)
{
  FrTariffProblem problem;
  FrTariff *tariff = fr_tariff_new (periods, n, NULL, 0, 0, 0, &problem);

  g_assert_nonnull (tariff);
  return tariff;
}

/* Minor units for @power_w over @span_s, minute by minute. */
static double
slow_cost (const Oracle *oracle, double power_w, gint64 start_utc, double span_s)
{
  double sum = 0;

  g_assert_cmpint (start_utc % 60, ==, 0);
  for (gint64 at = 0; (double)at < span_s; at += 60)
    sum += power_w / 1000 * MIN (60, span_s - (double)at) / 3600 * oracle_price (oracle, start_utc + at);
  return sum;
}

static const TestZone *
zone_at (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (test_zones); i++)
    if (g_str_equal (name, test_zones[i].name))
      return &test_zones[i];
  g_error ("no test zone %s", name);
}

typedef struct
{
  const char *zone;
  gint64 start_utc; /* 19:00 of the evening before */
  gint hours;       /* elapsed from 19:00 to 07:00 */
} Change;

/* Instants of the changes: zones.h, from the IANA time zone database. */
static const Change changes[] = {
  { "America/Toronto", 1741503600 - 7 * 3600, 11 },    { "America/Toronto", 1762063200 - 7 * 3600, 13 },
  { "Europe/Paris", 1743296400 - 7 * 3600, 11 },       { "Europe/Paris", 1761440400 - 8 * 3600, 13 },
  { "Australia/Adelaide", 1759595400 - 7 * 3600, 11 }, { "Australia/Adelaide", 1743870600 - 8 * 3600, 13 },
};

static void
test_clock_changes (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      const TestZone *in = zone_at (changes[i].zone);
      g_autoptr (FrZoneTable) zone = test_zone (in->name);
      g_autoptr (FrTariff) tariff = tariff_of (steps, G_N_ELEMENTS (steps));
      const Oracle oracle = { steps, G_N_ELEMENTS (steps), NULL, 0, in->spans, in->n_spans };
      FrPlanInput input = evening_input (zone, 60);
      g_autoptr (FrPlan) plan = NULL;
      gint64 morning, second;
      FrDate date;
      double slow;

      input.start_utc = changes[i].start_utc;
      g_assert_cmpint (fr_zone_local (zone, input.start_utc).second_of_day % 3600, ==, 0);
      input.now_utc = input.start_utc - 3600;
      date = fr_date_add_days (fr_zone_local (zone, input.start_utc).date, 1);
      g_assert_cmpint (fr_zone_instant (zone, date, 7 * 3600, &morning, &second), ==, FR_ZONE_ONCE);
      if (fr_zone_local (zone, input.start_utc).second_of_day == 19 * 3600)
        g_assert_cmpint (morning - input.start_utc, ==, 3600 * changes[i].hours);
      input.off_by_utc = morning;
      input.tariff = tariff;
      input.oldest_utc = G_MININT64;
      plan = fr_plan_new (&input);
      g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
      g_assert_cmpint (plan->end_utc, ==, input.start_utc + (gint64)lround (plan->shares[0].run.time_s));
      g_assert_cmpint (plan->late_utc, <=, morning);
      /* The night is used up to the bucket's rounding: a tenth of a litre is five minutes. */
      g_assert_cmpint (plan->late_utc, >, morning - 330);
      slow = slow_cost (&oracle, 1800, input.start_utc, plan->shares[0].run.time_s);
      g_assert_cmpfloat (fabs (plan->cost_minor - slow), <, 1e-6);
      /* The same sap at every other hour. */
      for (guint hour = 0; hour < 24; hour++)
        g_assert_cmpfloat (fabs (plan->start_cost_minor[hour]
                                 - slow_cost (&oracle, 1800, input.start_utc + 3600 * (gint64)hour,
                                              plan->shares[0].run.time_s)),
                           <, 1e-6);
    }
}

static void
test_ways (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  g_autoptr (FrTariff) tariff = tariff_of (ontario, G_N_ELEMENTS (ontario));
  const Oracle oracle
      = { ontario, G_N_ELEMENTS (ontario), NULL, 0, toronto_spans, G_N_ELEMENTS (toronto_spans) };
  FrPlanInput input = evening_input (zone, 40);
  g_autoptr (FrPlan) plan = NULL, early = NULL;

  input.tariff = tariff;
  plan = fr_plan_new (&input);
  g_assert_cmpint (plan->rise_utc, ==, EVENING_UTC + 12 * 3600);
  g_assert_cmpfloat (plan->price_before, ==, 7.6);
  g_assert_cmpfloat (plan->price_after, ==, 15.8);
  g_assert_cmpuint (plan->n_ways, ==, 2);
  g_assert_cmpint (plan->ways[0].code, ==, FR_WAY_TONIGHT);
  g_assert_cmpint (plan->ways[1].code, ==, FR_WAY_DAY);
  g_assert_cmpfloat (
      fabs (plan->ways[1].cost_minor - slow_cost (&oracle, 1800, plan->rise_utc, plan->shares[0].run.time_s)),
      <, 1e-6);
  g_assert_cmpfloat (plan->ways[1].cost_minor, >, 1.5 * plan->cost_minor);

  /* Begun in the dear hours, the cheap ones are told. */
  input.start_utc -= 2 * 3600;
  input.sap_l = 10;
  early = fr_plan_new (&input);
  g_assert_cmpint (early->ways[1].code, ==, FR_WAY_BEST);
  g_assert_cmpint (early->ways[1].start_utc, ==, EVENING_UTC);
  g_assert_cmpfloat (early->ways[1].cost_minor, <, early->cost_minor);
}

/* The fuel gives what the liquid took; followed from the trace by the balance of heat in and heat lost to the
 * wall. */
static void
test_fuel (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  g_autoptr (FrTariff) tariff = tariff_of (ontario, G_N_ELEMENTS (ontario));

  for (guint n = 0; n < 6; n++)
    {
      FrPlanInput input = evening_input (zone, 8 + 4 * n);
      FrPlanKit *kit = &input.kits[0];
      g_autoptr (FrPlan) plan = NULL, again = NULL;
      const FrBoilRun *run;
      const FrWay *fuel = NULL;
      double heat_j = 0, fuel_kg;

      input.tariff = tariff;
      /* Propane: 50.35 MJ/kg, higher heating value (an open reference; household burners reach about 40 %,
       * common practice). */
      input.fuel_mj_per_kg = 50.35;
      input.fuel_heat_ratio = 0.4;
      input.fuel_price_per_kg = 210;
      kit->wall_w_per_k = 0.3 * n;
      if (n % 2 == 1)
        {
          kit->rest_l = 1;
          kit->rest_brix = 25;
          kit->rest_c = 60;
        }
      plan = fr_plan_new (&input);
      g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
      run = &plan->shares[0].run;
      for (guint i = 1; i < run->n_trace; i++)
        {
          const FrTracePoint *a = &run->trace[i - 1], *b = &run->trace[i];

          heat_j += (b->time_s - a->time_s)
                    * (kit->power_w * kit->heat_ratio
                       - kit->wall_w_per_k * ((a->temp_c + b->temp_c) / 2 - input.air_c));
        }
      for (guint i = 0; i < plan->n_ways; i++)
        if (plan->ways[i].code == FR_WAY_FUEL)
          fuel = &plan->ways[i];
      g_assert_nonnull (fuel);
      fuel_kg = heat_j / (50.35e6 * 0.4);
      g_assert_cmpfloat (fabs (fuel->fuel_kg / fuel_kg - 1), <, 0.005);
      g_assert_cmpfloat (fabs (fuel->cost_minor - 210 * fuel->fuel_kg), <, 1e-9);

      /* At the break-even price both cost the same. */
      input.fuel_price_per_kg = plan->fuel_break_even_per_kg;
      again = fr_plan_new (&input);
      g_assert_cmpint (again->ways[again->n_ways - 1].code, ==, FR_WAY_FUEL);
      g_assert_cmpfloat (fabs (again->ways[again->n_ways - 1].cost_minor - again->cost_minor), <, 1e-6);
    }
}

/* A tariff that ends with the season: the night has its price although the skyline beyond has none, and the
 * other way round. */
static void
test_open_days (void)
{
  static const FrTariffPeriod winter[] = { { 11, 1, 2, 12, FR_DAYS_ALL, 0, 1440, 8 } };
  static const FrTariffPeriod later[] = { { 2, 13, 4, 30, FR_DAYS_ALL, 0, 1440, 8 } };
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  g_autoptr (FrTariff) ends = tariff_of (winter, 1), begins = tariff_of (later, 1);
  FrPlanInput input = evening_input (zone, 3);
  g_autoptr (FrPlan) plan = NULL, without = NULL;

  input.tariff = ends;
  input.off_by_utc = EVENING_UTC + 4 * 3600; /* done before midnight */
  plan = fr_plan_new (&input);
  g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
  g_assert_true (isfinite (plan->cost_minor));
  g_assert_cmpint (plan->price_problem.code, ==, FR_TARIFF_OK);
  g_assert_cmpuint (plan->n_spans, ==, 1);
  g_assert_true (isnan (plan->start_cost_minor[10]));

  input.tariff = begins;
  without = fr_plan_new (&input);
  g_assert_true (isnan (without->cost_minor));
  g_assert_cmpint (without->price_problem.code, ==, FR_TARIFF_NO_SEASON);
  g_assert_cmpuint (without->n_spans, ==, 1); /* after midnight */
}

static void
test_no_tariff (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("Asia/Kolkata");
  FrPlanInput input = evening_input (zone, 20);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);

  g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
  g_assert_true (isnan (plan->cost_minor) && isnan (plan->shares[0].cost_minor)
                 && isnan (plan->start_cost_minor[0]));
  g_assert_cmpint (plan->price_problem.code, ==, FR_TARIFF_OK);
  g_assert_cmpint (plan->rise_utc, ==, G_MININT64);
}

/* --- the hours offered --- */

static gint64
local_utc (const FrZoneTable *zone, const char *day, gint hour, gint minute)
{
  FrDate date;
  gint64 first, second;

  g_assert_true (fr_date_parse (day, &date));
  g_assert_cmpint (fr_zone_instant (zone, date, hour * 3600 + minute * 60, &first, &second), !=,
                   FR_ZONE_NEVER);
  return first;
}

typedef struct
{
  const char *now_day;
  gint now_hour, now_minute;
  const char *start_day;
  gint start_hour, start_minute;
  const char *off_day;
  gint off_hour, off_minute;
} Hours;

static void
expect_hours (const FrTariff *tariff, const Hours *wanted, guint n)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");

  for (guint i = 0; i < n; i++)
    {
      const Hours *w = &wanted[i];
      gint64 start, off;

      fr_plan_default_hours (tariff, zone, local_utc (zone, w->now_day, w->now_hour, w->now_minute), &start,
                             &off);
      g_assert_cmpint (start, ==, local_utc (zone, w->start_day, w->start_hour, w->start_minute));
      g_assert_cmpint (off, ==, local_utc (zone, w->off_day, w->off_hour, w->off_minute));
    }
}

static void
test_hours_known (void)
{
  static const Hours night[] = {
    { "2025-02-12", 16, 0, "2025-02-12", 19, 0, "2025-02-13", 6, 50 }, /* a Wednesday */
    { "2025-02-12", 21, 2, "2025-02-12", 21, 5, "2025-02-13", 6, 50 }, /* already inside */
    { "2025-02-13", 5, 0, "2025-02-13", 19, 0, "2025-02-14", 6, 50 },  /* too little of it left */
    { "2025-02-14", 16, 0, "2025-02-14", 19, 0, "2025-02-15", 6, 50 }, /* Friday: cheap until Monday */
    { "2025-02-15", 12, 0, "2025-02-15", 19, 0, "2025-02-16", 6, 50 }, /* Saturday noon */
    { "2025-02-16", 16, 0, "2025-02-16", 19, 0, "2025-02-17", 6, 50 }, /* Sunday */
    { "2025-02-16", 20, 0, "2025-02-16", 20, 0, "2025-02-17", 6, 50 },
    { "2025-03-08", 16, 0, "2025-03-08", 19, 0, "2025-03-09", 6, 50 }, /* over the spring change */
    { "2025-11-01", 16, 0, "2025-11-01", 19, 0, "2025-11-02", 6, 50 }, /* over the autumn change */
  };
  static const Hours clock[] = {
    { "2025-02-12", 16, 0, "2025-02-12", 19, 0, "2025-02-13", 6, 50 },
    { "2025-02-12", 23, 1, "2025-02-12", 23, 5, "2025-02-13", 6, 50 },
    { "2025-02-13", 2, 0, "2025-02-13", 2, 0, "2025-02-13", 6, 50 },
    { "2025-02-13", 4, 0, "2025-02-13", 19, 0, "2025-02-14", 6, 50 },
  };
  /* Cheap by day: the clock's own evening lies outside. */
  static const FrTariffPeriod sunny[]
      = { { 1, 1, 12, 31, FR_DAYS_ALL, 240, 1110, 5 }, { 1, 1, 12, 31, FR_DAYS_ALL, 1110, 240, 30 } };
  static const Hours day[] = { { "2025-02-12", 20, 0, "2025-02-13", 4, 0, "2025-02-13", 18, 20 } };
  g_autoptr (FrTariff) tariff = tariff_of (ontario, G_N_ELEMENTS (ontario));
  g_autoptr (FrTariff) by_day = tariff_of (sunny, G_N_ELEMENTS (sunny));

  expect_hours (tariff, night, G_N_ELEMENTS (night));
  expect_hours (NULL, clock, G_N_ELEMENTS (clock));
  expect_hours (by_day, day, G_N_ELEMENTS (day));
}

/* At every quarter of an hour around both changes and over ordinary weeks, whatever the prices. */
static void
test_hours_always (void)
{
  static const char *const zones[]
      = { "America/Toronto", "Australia/Adelaide", "Asia/Kolkata", "Australia/Lord_Howe" };
  GRand *rand = g_rand_new_with_seed (7);

  for (guint n = 0; n < 60; n++)
    {
      g_autoptr (FrZoneTable) zone = test_zone (zones[n % G_N_ELEMENTS (zones)]);
      FrTariffPeriod periods[ORACLE_MAX_PERIODS];
      guint n_periods = oracle_random_periods (rand, periods);
      g_autoptr (FrTariff) tariff = n % 10 == 0
                                        ? NULL
                                        : tariff_of (n % 10 == 1 ? ontario : periods,
                                                     n % 10 == 1 ? G_N_ELEMENTS (ontario) : n_periods);
      gint64 from = (n % 3 == 0   ? 1741300000
                     : n % 3 == 1 ? 1743700000
                                  : 1761900000)
                    + g_rand_int_range (rand, 0, 900);

      for (gint64 now = from; now < from + 5 * 86400; now += 3600)
        {
          gint64 start, off;

          fr_plan_default_hours (tariff, zone, now, &start, &off);
          g_assert_cmpint (start, >=, now);
          g_assert_cmpint (start, <, now + 2 * 86400);
          g_assert_cmpint (off - start, >=, 3 * 3600 - 600);
          g_assert_cmpint (off - start, <=, 15 * 3600);
        }
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan-money/clock-changes", test_clock_changes);
  g_test_add_func ("/plan-money/ways", test_ways);
  g_test_add_func ("/plan-money/fuel", test_fuel);
  g_test_add_func ("/plan-money/open-days", test_open_days);
  g_test_add_func ("/plan-money/no-tariff", test_no_tariff);
  g_test_add_func ("/plan-money/hours-known", test_hours_known);
  g_test_add_func ("/plan-money/hours-always", test_hours_always);
  return g_test_run ();
}
