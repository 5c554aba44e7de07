/* Cost of power: whole runs from published prices (tests/tables/cost-runs.csv), nights with a clock change,
 * random traces minute by minute against tariff-oracle.h, and the same heat from a fuel. */
#include "domain/maths/cost.h"

#include <math.h>
#include <string.h>

#include "domain/units/money.h"
#include "domain/units/units.h"
#include "found.h"
#include "table.h"
#include "tariff-oracle.h"
#include "tariffs.h"

static const struct
{
  const char *name;
  const char *periods;
} rates[] = {
  { "winter-2024", WINTER_2024 },       { "winter-2025", WINTER_2025 },
  { "overnight-2024", OVERNIGHT_2024 }, { "overnight-2025", OVERNIGHT_2025 },
  { "colorado-2021", COLORADO_2021 },   { "off-peak-2025", OFF_PEAK_2025 },
};

/* 2022-03-13 09:00 UTC; zone database 2026f. */
static const FrZoneSpan denver_spans[]
    = { { G_MININT64, -25200, FALSE, "MST" }, { 1647162000, -21600, TRUE, "MDT" } };

static FrTariff *
rate (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (rates); i++)
    if (g_str_equal (rates[i].name, name))
      return fr_tariff_parse (rates[i].periods, NULL, 0, 0, NULL);
  g_error ("no rate %s", name);
}

static FrZoneTable *
zone_of (const char *name)
{
  if (g_str_equal (name, "America/Denver"))
    return fr_zone_table_new (name, denver_spans, G_N_ELEMENTS (denver_spans));
  return test_zone (name);
}

static gint64
instant (const FrZoneTable *zone, const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "T", 2);
  FrDate date;
  gint minutes;
  gint64 first, second;

  g_assert_true (fr_date_parse (parts[0], &date));
  g_assert_true (fr_clock_parse (parts[1], &minutes));
  g_assert_cmpint (fr_zone_instant (zone, date, minutes * 60, &first, &second), ==, FR_ZONE_ONCE);
  return first;
}

static void
check_run (const TestRow *row)
{
  g_autoptr (FrTariff) tariff = rate (test_row_text (row, "tariff"));
  g_autoptr (FrZoneTable) zone = zone_of (test_row_text (row, "zone"));
  const gint64 start_utc = instant (zone, test_row_text (row, "start"));
  const gint64 end_utc = instant (zone, test_row_text (row, "end"));
  const FrPowerStep steps[]
      = { { 0, test_row_number (row, "power_w") }, { (double)(end_utc - start_utc), 0 } };
  FrTariffProblem problem;
  FrCost cost;

  g_assert_true (fr_cost_of_power (tariff, zone, start_utc, steps, 2, &cost, &problem));
  found_near (test_row_number (row, "tolerance") < 0.01 ? "nights of 7 to 9 h, minor units"
              : test_row_number (row, "tolerance") < 0.1
                  ? "published weeks and nights, one decimal, minor units"
                  : "a published month, minor units",
              cost.cost_minor, test_row_number (row, "cost"), test_row_number (row, "tolerance"));
  test_row_near (row, "energy", cost.energy_kwh, test_row_number (row, "energy_kwh"), 1e-9);
  fr_cost_clear (&cost);
}

/* Eight elapsed hours from 23:00 on the spring night end at 08:00, an hour into the dearer price. */
static void
test_spring_bands (void)
{
  g_autoptr (FrTariff) tariff = rate ("overnight-2025");
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const FrPowerStep steps[] = { { 0, 1800 }, { 8 * 3600, 0 } };
  FrCost cost;

  g_assert_true (fr_cost_of_power (tariff, zone, instant (zone, "2025-03-08T23:00"), steps, 2, &cost, NULL));
  g_assert_cmpuint (cost.n_bands, ==, 2);
  g_assert_cmpfloat (cost.bands[0].listed_per_kwh, ==, 3.9);
  g_assert_cmpfloat_with_epsilon (cost.bands[0].hours_h, 7, 1e-12);
  g_assert_cmpfloat (cost.bands[1].listed_per_kwh, ==, 9.8);
  g_assert_cmpfloat_with_epsilon (cost.bands[1].hours_h, 1, 1e-12);
  g_assert_cmpint (fr_money_round (cost.cost_minor), ==, 67); /* 1.8 x (7 x 3.9 + 9.8) = 66.78 */
  fr_cost_clear (&cost);
}

/* And on the autumn night they end at 06:00. */
static void
test_autumn_bands (void)
{
  g_autoptr (FrTariff) tariff = rate ("overnight-2025");
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const FrPowerStep steps[] = { { 0, 1800 }, { 10 * 3600, 0 } };
  FrCost cost;

  g_assert_true (fr_cost_of_power (tariff, zone, instant (zone, "2025-11-01T23:00"), steps, 2, &cost, NULL));
  g_assert_cmpuint (cost.n_bands, ==, 2);
  g_assert_cmpfloat_with_epsilon (cost.bands[0].hours_h, 9, 1e-12);
  g_assert_cmpfloat_with_epsilon (cost.bands[1].hours_h, 1, 1e-12);
  g_assert_cmpint (fr_money_round (cost.cost_minor), ==, 81); /* 1.8 x (9 x 3.9 + 9.8) = 80.82 */
  fr_cost_clear (&cost);
}

/* Bands of one price join though another lies between; a pause costs nothing and needs no price. */
static void
test_bands_join (void)
{
  g_autoptr (FrTariff) tariff = rate ("winter-2025");
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const FrPowerStep steps[] = { { 0, 1000 }, { 3600, 0 }, { 7200, 500 }, { 86400, 0 } };
  FrCost cost;

  g_assert_true (fr_cost_of_power (tariff, zone, instant (zone, "2026-01-12T00:00"), steps, 4, &cost, NULL));
  g_assert_cmpuint (cost.n_bands, ==, 3);
  g_assert_cmpfloat (cost.bands[0].listed_per_kwh, ==, 9.8);
  g_assert_cmpfloat (cost.bands[1].listed_per_kwh, ==, 20.3);
  g_assert_cmpfloat (cost.bands[2].listed_per_kwh, ==, 15.7);
  g_assert_cmpfloat_with_epsilon (cost.bands[0].hours_h, 11, 1e-9); /* 00-01, 02-07, 19-24 */
  g_assert_cmpfloat_with_epsilon (cost.bands[0].energy_kwh, 6, 1e-9);
  g_assert_cmpfloat_with_epsilon (cost.bands[1].energy_kwh, 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (cost.bands[2].energy_kwh, 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (cost.cost_minor, 6 * 9.8 + 3 * 20.3 + 3 * 15.7, 1e-9);
  fr_cost_clear (&cost);
}

/* Adder before tax; a rebate is a negative tax, a negative price pays. */
static void
test_adder_and_tax (void)
{
  g_autoptr (FrZoneTable) zone = fr_zone_table_new_utc ();
  g_autoptr (FrTariff) taxed = fr_tariff_parse (OFF_PEAK_2025, NULL, 3.04, 0.13, NULL);
  g_autoptr (FrTariff) rebated = fr_tariff_parse ("01-01 12-31 all 00:00 24:00 -2\n", NULL, 0, -0.235, NULL);
  const FrPowerStep steps[] = { { 0, 2000 }, { 1800, 0 } };
  FrCost cost;

  g_assert_true (fr_cost_of_power (taxed, zone, 0, steps, 2, &cost, NULL));
  g_assert_cmpfloat_with_epsilon (cost.cost_minor, 20 * 1.13, 1e-9);
  g_assert_cmpfloat_with_epsilon (cost.bands[0].full_per_kwh, 22.6, 1e-9);
  g_assert_cmpfloat (cost.bands[0].listed_per_kwh, ==, 16.96);
  fr_cost_clear (&cost);
  g_assert_true (fr_cost_of_power (rebated, zone, 0, steps, 2, &cost, NULL));
  g_assert_cmpfloat_with_epsilon (cost.cost_minor, -1.53, 1e-9);
  fr_cost_clear (&cost);
}

static void
test_no_season (void)
{
  g_autoptr (FrTariff) tariff = rate ("winter-2025");
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  const gint64 start_utc = instant (zone, "2025-04-30T23:00");
  const FrPowerStep within[] = { { 0, 1000 }, { 3600, 0 }, { 7200, 0 } };
  const FrPowerStep beyond[] = { { 0, 1000 }, { 3601, 0 } };
  FrTariffProblem problem;
  FrCost cost;

  g_assert_true (fr_cost_of_power (tariff, zone, start_utc, within, 3, &cost, &problem));
  fr_cost_clear (&cost);
  g_assert_false (fr_cost_of_power (tariff, zone, start_utc, beyond, 2, &cost, &problem));
  g_assert_cmpint (problem.code, ==, FR_TARIFF_NO_SEASON);
  g_assert_cmpint (problem.date.day, ==, 1);
  g_assert_true (isnan (cost.cost_minor) && cost.bands == NULL);
  g_assert_false (fr_cost_of_power (tariff, zone, G_MAXINT64, within, 3, &cost, &problem));
  g_assert_cmpint (problem.code, ==, FR_TARIFF_NO_SEASON);
}

typedef struct
{
  const char *name;
  guint n_steps;
  FrPowerStep steps[3];
  guint line; /* 0: sound */
} Steps;

static const Steps step_cases[] = {
  { "none", 0, { { 0 } }, 1 },
  { "sound", 2, { { 0, 1000 }, { 10.5, 0 } }, 0 },
  { "nothing-on", 1, { { 0, 0 } }, 0 },
  { "late-start", 2, { { 1, 1000 }, { 10, 0 } }, 1 },
  { "never-off", 2, { { 0, 1000 }, { 10, 500 } }, 2 },
  { "same-time", 3, { { 0, 1000 }, { 10, 500 }, { 10, 0 } }, 3 },
  { "backwards", 3, { { 0, 1000 }, { 10, 500 }, { 5, 0 } }, 3 },
  { "negative-power", 3, { { 0, 1000 }, { 10, -5 }, { 15, 0 } }, 2 },
  { "unknown-power", 3, { { 0, 1000 }, { 10, NAN }, { 15, 0 } }, 2 },
  { "unknown-time", 2, { { 0, 1000 }, { NAN, 0 } }, 2 },
  { "endless", 2, { { 0, 1000 }, { INFINITY, 0 } }, 2 },
};

static void
test_steps (gconstpointer data)
{
  const Steps *s = data;
  g_autoptr (FrTariff) tariff = rate ("off-peak-2025");
  g_autoptr (FrZoneTable) zone = fr_zone_table_new_utc ();
  FrTariffProblem problem;
  FrCost cost;

  g_assert_cmpint (fr_cost_of_power (tariff, zone, 0, s->steps, s->n_steps, &cost, &problem), ==,
                   s->line == 0);
  g_assert_cmpint (problem.code, ==, s->line == 0 ? FR_TARIFF_OK : FR_TARIFF_BAD_NUMBER);
  g_assert_cmpuint (problem.line, ==, s->line);
  fr_cost_clear (&cost);
}

/* Random tariffs and traces on whole minutes, from a night with a change: every minute priced alone by the
 * oracle. */
static void
test_random (gconstpointer data)
{
  const TestZone *z = data;
  g_autoptr (FrZoneTable) zone = fr_zone_table_new (z->name, z->spans, z->n_spans);
  g_autoptr (GRand) rand = g_rand_new_with_seed (19410128);

  for (guint round = 0; round < 40; round++)
    {
      FrTariffPeriod periods[ORACLE_MAX_PERIODS];
      const FrDate holiday = fr_zone_local (zone, z->spans[z->n_spans - 1].from_utc).date;
      Oracle oracle = { periods, 0, &holiday, z->n_spans > 1 ? 1 : 0, z->spans, z->n_spans };
      const gint64 change = z->n_spans > 1 ? z->spans[1 + round % (z->n_spans - 1)].from_utc : 1741496400;
      const gint64 start_utc = change - change % 60 - 60 * g_rand_int_range (rand, 0, 1500);
      const double adder = g_rand_int_range (rand, -200, 600) / 100.0;
      const double tax_ratio = g_rand_int_range (rand, -90, 101) / 100.0;
      g_autoptr (FrTariff) tariff = NULL;
      FrPowerStep steps[8];
      double cost_minor = 0, energy_kwh = 0, hours_h = 0;
      double band_cost = 0, band_energy = 0, band_hours = 0;
      FrCost cost;

      oracle.n_periods = oracle_random_periods (rand, periods);
      tariff = fr_tariff_new (periods, oracle.n_periods, &holiday, oracle.n_holidays, adder, tax_ratio, NULL);
      g_assert_nonnull (tariff);
      for (guint i = 0; i < 8; i++)
        {
          steps[i].after_s = i == 0 ? 0 : steps[i - 1].after_s + 60 * g_rand_int_range (rand, 1, 400);
          steps[i].power_w
              = i == 7 || g_rand_int_range (rand, 0, 4) == 0 ? 0 : g_rand_double_range (rand, 1, 3000);
        }
      for (guint i = 0; i < 7; i++)
        for (double at_s = steps[i].after_s; at_s < steps[i + 1].after_s; at_s += 60)
          {
            const double kwh = steps[i].power_w / 60000;

            energy_kwh += kwh;
            hours_h += steps[i].power_w > 0 ? 1.0 / 60 : 0;
            cost_minor += kwh * (oracle_price (&oracle, start_utc + (gint64)at_s) + adder) * (1 + tax_ratio);
          }
      g_assert_true (fr_cost_of_power (tariff, zone, start_utc, steps, 8, &cost, NULL));
      for (guint i = 0; i < cost.n_bands; i++)
        {
          band_cost += cost.bands[i].cost_minor;
          band_energy += cost.bands[i].energy_kwh;
          band_hours += cost.bands[i].hours_h;
          for (guint j = 0; j < i; j++)
            g_assert_cmpfloat (cost.bands[i].listed_per_kwh, !=, cost.bands[j].listed_per_kwh);
        }
      g_assert_cmpfloat_with_epsilon (cost.cost_minor, cost_minor, 1e-9 * (1 + energy_kwh * 100));
      g_assert_cmpfloat_with_epsilon (cost.energy_kwh, energy_kwh, 1e-9);
      g_assert_cmpfloat_with_epsilon (band_cost, cost.cost_minor, 1e-9);
      g_assert_cmpfloat_with_epsilon (band_energy, cost.energy_kwh, 1e-9);
      g_assert_cmpfloat_with_epsilon (band_hours, hours_h, 1e-9);
      fr_cost_clear (&cost);
    }
}

/* A run cut at any fraction of a second costs what its two halves cost. */
static void
test_halves (void)
{
  g_autoptr (FrTariff) tariff = rate ("overnight-2025");
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  g_autoptr (GRand) rand = g_rand_new_with_seed (86);
  const gint64 start_utc = instant (zone, "2025-03-08T23:00");

  for (guint i = 0; i < 200; i++)
    {
      const double cut_s = g_rand_double_range (rand, 0.25, 35999.75);
      const FrPowerStep whole[] = { { 0, 1800 }, { 36000, 0 } };
      const FrPowerStep first[] = { { 0, 1800 }, { cut_s, 0 } };
      const FrPowerStep rest[] = { { 0, 0 }, { cut_s, 1800 }, { 36000, 0 } };
      FrCost costs[3];

      g_assert_true (fr_cost_of_power (tariff, zone, start_utc, whole, 2, &costs[0], NULL));
      g_assert_true (fr_cost_of_power (tariff, zone, start_utc, first, 2, &costs[1], NULL));
      g_assert_true (fr_cost_of_power (tariff, zone, start_utc, rest, 3, &costs[2], NULL));
      g_assert_cmpfloat_with_epsilon (costs[0].cost_minor, costs[1].cost_minor + costs[2].cost_minor, 1e-9);
      for (guint j = 0; j < 3; j++)
        fr_cost_clear (&costs[j]);
    }
}

/* Propane for one US gallon of syrup from 2 % sap, 411,500 Btu of useful heat: 18.0, 12.9 and 9.0 US gal at
 * 25, 35 and 50 % (worked from the US energy agency's 91,452 Btu/US gal; 4.24 lb/US gal, trade). HHV 50.2
 * MJ/kg from the same two figures. Tolerance 0.5 %: the source has three digits. */
static void
test_propane_mass (void)
{
  static const double cases[][2] = { { 0.25, 18.0 }, { 0.35, 12.9 }, { 0.50, 9.0 } };
  const double useful_heat_j = 411500 * FR_JOULES_PER_BTU;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const double mass_kg = fr_fuel_mass_kg (useful_heat_j, 50.2, cases[i][0]);
      const double wanted_kg = cases[i][1] * 4.24 * FR_KG_PER_POUND;

      g_assert_cmpfloat_with_epsilon (mass_kg / wanted_kg, 1, 0.005);
    }
}

/* At the break-even price both cost the same; with electricity at 0.17 USD/kWh and 85 % (24.1 USD) and
 * propane at 35 % (12.9 US gal) that is 1.87 USD per US gal. Same source and tolerance as above. */
static void
test_break_even (void)
{
  const double useful_heat_j = 411500 * FR_JOULES_PER_BTU;
  const double electric_minor = useful_heat_j / FR_JOULES_PER_KWH / 0.85 * 17;
  const double per_kg = fr_fuel_break_even_per_kg (electric_minor, useful_heat_j, 50.2, 0.35);

  g_assert_cmpfloat_with_epsilon (electric_minor, 2410, 12);
  g_assert_cmpfloat_with_epsilon (per_kg * 4.24 * FR_KG_PER_POUND / 187, 1, 0.005);
  g_assert_cmpfloat_with_epsilon (fr_fuel_mass_kg (useful_heat_j, 50.2, 0.35) * per_kg, electric_minor, 1e-9);
}

static void
test_no_fuel (void)
{
  g_assert_true (isnan (fr_fuel_mass_kg (1e6, 50, 0)));
  g_assert_true (isnan (fr_fuel_mass_kg (1e6, 50, 1.01)));
  g_assert_true (isnan (fr_fuel_mass_kg (1e6, 0, 0.3)));
  g_assert_true (isnan (fr_fuel_mass_kg (-1, 50, 0.3)));
  g_assert_true (isnan (fr_fuel_mass_kg (NAN, 50, 0.3)));
  g_assert_true (isnan (fr_fuel_break_even_per_kg (100, 0, 50, 0.3)));
  g_assert_true (isnan (fr_fuel_break_even_per_kg (NAN, 1e6, 50, 0.3)));
  g_assert_cmpfloat (fr_fuel_mass_kg (0, 50, 0.3), ==, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  test_table_add ("cost-runs.csv", "/cost/run", check_run);
  for (guint i = 0; i < G_N_ELEMENTS (step_cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/cost/steps/%s", step_cases[i].name);

      g_test_add_data_func (path, &step_cases[i], test_steps);
    }
  for (guint i = 0; i < G_N_ELEMENTS (test_zones); i++)
    {
      g_autofree char *path = g_strdup_printf ("/cost/random/%s", strchr (test_zones[i].name, '/') + 1);

      g_test_add_data_func (path, &test_zones[i], test_random);
    }
  g_test_add_func ("/cost/spring-bands", test_spring_bands);
  g_test_add_func ("/cost/autumn-bands", test_autumn_bands);
  g_test_add_func ("/cost/bands-join", test_bands_join);
  g_test_add_func ("/cost/adder-and-tax", test_adder_and_tax);
  g_test_add_func ("/cost/no-season", test_no_season);
  g_test_add_func ("/cost/halves", test_halves);
  g_test_add_func ("/cost/fuel/propane-mass", test_propane_mass);
  g_test_add_func ("/cost/fuel/break-even", test_break_even);
  g_test_add_func ("/cost/fuel/none", test_no_fuel);
  return found_run ();
}
