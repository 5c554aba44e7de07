/* Sugar solution against the published tables of density, boiling point, specific heat and freezing point. */
#include "domain/maths/sucrose.h"

#include "domain/maths/water.h"
#include "domain/units/baume.h"
#include "found.h"
#include "table.h"

#define ATMOSPHERE_PA 101325.0

static void
check_density (const TestRow *row)
{
  double brix = test_row_number (row, "brix"), density = fr_sucrose_density_kg_m3 (brix, 20);
  double crc = test_row_number_or_nan (row, "crc_kg_m3"), nbs = test_row_number_or_nan (row, "nbs_apparent");
  double water = fr_sucrose_density_kg_m3 (0, 20);

  found_near ("ICUMSA density at 20 °C, kg/m3", density, test_row_number (row, "density_kg_m3"), 0.02);
  if (!isnan (crc) && brix <= 70)
    found_near ("CRC density to 70 °Bx, kg/m3", density, crc, 0.3);
  found_near ("specific gravity", density / water, test_row_number (row, "sg"), 1.5e-5);
  if (!isnan (nbs))
    /* Apparent: weighed in air of 1.2 kg/m3. */
    found_near ("NBS C440 apparent gravity to 40 °Bx", (density - 1.2) / (water - 1.2), nbs, 1.3e-4);
  found_near ("Baumé", fr_baume_from_brix (brix), test_row_number (row, "baume"), 0.01);
}

static void
check_density_temp (const TestRow *row)
{
  found_near ("ICUMSA density by temperature, kg/m3",
              fr_sucrose_density_kg_m3 (test_row_number (row, "brix"), test_row_number (row, "temp_c")),
              test_row_number (row, "density_kg_m3"), 0.02);
}

static void
test_density_slopes (void)
{
  for (double brix = 0.5; brix <= 79.5; brix += 1.5)
    for (double temp_c = 0; temp_c <= 112; temp_c += 4)
      {
        double density, per_brix, per_kelvin;

        fr_sucrose_density_slopes (brix, temp_c, &density, &per_brix, &per_kelvin);
        g_assert_cmpfloat (density, ==, fr_sucrose_density_kg_m3 (brix, temp_c));
        found_near (
            "slope of density with °Bx, relative",
            (fr_sucrose_density_kg_m3 (brix + 1e-3, temp_c) - fr_sucrose_density_kg_m3 (brix - 1e-3, temp_c))
                / 2e-3 / per_brix,
            1, 1e-6);
        found_near (
            "slope of density with temperature, kg/(m3 K)",
            (fr_sucrose_density_kg_m3 (brix, temp_c + 1e-3) - fr_sucrose_density_kg_m3 (brix, temp_c - 1e-3))
                / 2e-3,
            per_kelvin, 1e-6);
      }
}

/* More sugar is denser, everywhere the boil goes, also where it is continued beyond what was published. */
static void
test_density_rises (void)
{
  for (double temp_c = -1; temp_c <= 115; temp_c += 1)
    for (double brix = 0; brix < 80; brix += 0.5)
      g_assert_cmpfloat (fr_sucrose_density_kg_m3 (brix + 0.5, temp_c), >,
                         fr_sucrose_density_kg_m3 (brix, temp_c));
  g_assert_false (fr_sucrose_density_is_extrapolated (75, 100));
  g_assert_true (fr_sucrose_density_is_extrapolated (75.1, 100));
  g_assert_true (fr_sucrose_density_is_extrapolated (60, 100.1));
  g_assert_true (fr_sucrose_density_is_extrapolated (2, -0.1));
}

static void
check_elevation (const TestRow *row)
{
  double pressure_pa = 1e3 * test_row_number (row, "pressure_kpa"), brix = test_row_number (row, "brix");
  double elevation_k = fr_sucrose_elevation_k (brix, pressure_pa);

  found_near ("boiling point elevation, K", elevation_k, test_row_number (row, "elevation_k"), 0.002);
  if (brix <= 80)
    found_near ("°Bx from elevation and back, °Bx", fr_sucrose_brix_from_elevation (elevation_k, pressure_pa),
                brix, 1e-6);
}

static void
check_classic (const TestRow *row)
{
  found_near ("classic elevation table to 75 °Bx, K",
              fr_sucrose_elevation_k (test_row_number (row, "brix"), ATMOSPHERE_PA),
              test_row_number (row, "elevation_k"), 0.3);
}

static void
check_inverse (const TestRow *row)
{
  found_near ("°Bx from elevation, °Bx",
              fr_sucrose_brix_from_elevation (test_row_number (row, "elevation_f") / 1.8, ATMOSPHERE_PA),
              test_row_number (row, "brix"), 0.011);
}

/* Source: an Ontario producers' newsletter of 2013: 104.2 °C (219.5 °F) at 67 °Bx at sea level. */
static void
test_ontario (void)
{
  found_near ("Ontario 67 °Bx, °C", fr_sucrose_boil_temp_c (67, ATMOSPHERE_PA), 104.2, 0.05);
}

/* Source: finishing temperatures printed by the trade: 7.1 to 7.3 °F over water for 66 °Bx, 7.5 °F for 66.9
 * °Bx (from memory). */
static void
test_trade_finish (void)
{
  double at_66_f = 1.8 * fr_sucrose_elevation_k (66, ATMOSPHERE_PA);

  g_assert_cmpfloat (at_66_f, >=, 7.1);
  g_assert_cmpfloat (at_66_f, <=, 7.3);
  found_near ("trade finish of 66.9 °Bx, °F", 1.8 * fr_sucrose_elevation_k (66.9, ATMOSPHERE_PA), 7.5, 0.1);
}

/* The boiling point is where the vapour pressure, activity times that of water, equals the air's: put back
 * into the equation of Starzak and Peacock written out here once more. */
static void
test_boil_closes (void)
{
  for (double pressure_pa = 60e3; pressure_pa <= 110e3; pressure_pa += 10e3)
    for (double brix = 0; brix <= 80; brix += 4)
      {
        double t = fr_sucrose_boil_temp_c (brix, pressure_pa);
        double n_s = brix / 342.3, n_w = (100 - brix) / 18.01528, x = n_s / (n_s + n_w);
        double gamma
            = exp (-17638.0 / (8.314462618 * (t + 273.15)) * (1 - 1.0038 * x - 0.24653 * x * x) * x * x);

        found_near ("vapour pressure at the boil, relative",
                    (1 - x) * gamma * fr_saturation_pressure_pa (t) / pressure_pa, 1, 1e-9);
      }
}

static void
check_heat (const TestRow *row)
{
  found_near ("specific heat, kJ/(kg K)",
              1e-3
                  * fr_sucrose_specific_heat (test_row_number (row, "brix"), test_row_number (row, "temp_c")),
              test_row_number (row, "heat_kj_per_kg_k"), 0.006);
}

/* Water and sugar enthalpies add up to the solution's, and their slopes to its specific heat. */
static void
test_enthalpy (void)
{
  for (double brix = 0; brix <= 80; brix += 5)
    for (double temp_c = 0; temp_c <= 110; temp_c += 5)
      {
        double s = brix / 100, up = temp_c + 0.01, down = temp_c - 0.01;
        double by_difference
            = ((1 - s) * (fr_water_enthalpy_j_per_kg (up) - fr_water_enthalpy_j_per_kg (down))
               + s * (fr_sugar_enthalpy_j_per_kg (up) - fr_sugar_enthalpy_j_per_kg (down)))
              / 0.02;

        found_near ("enthalpy slope, J/(kg K)", by_difference, fr_sucrose_specific_heat (brix, temp_c), 1e-4);
        found_near ("heat slopes add up, J/(kg K)",
                    (1 - s) * fr_water_heat_slope (temp_c) + s * fr_sugar_heat_slope (temp_c),
                    fr_sucrose_specific_heat (brix, temp_c), 1e-9);
      }
}

/* Source: IF97 liquid enthalpy from 5 °C to the boil at 101.325 kPa, 418.99 − 21.12 = 397.87 kJ/kg. The
 * constant 4186.8 of the sugar formula stands 0.06 % off. */
static void
test_sensible_heat (void)
{
  found_near ("sensible heat of water 5 °C to the boil, kJ/kg",
              1e-3 * (fr_water_enthalpy_j_per_kg (99.9743) - fr_water_enthalpy_j_per_kg (5)), 397.87, 0.5);
}

static void
check_freezing (const TestRow *row)
{
  found_near ("freezing point, K", fr_sucrose_freezing_c (test_row_number (row, "brix")),
              test_row_number (row, "freezes_c"), test_row_number (row, "tolerance_k"));
}

/* Blagden's and Raoult's law for thin solutions: 1.86 K kg/mol (from memory) of sucrose's 342.3 g/mol; at 1 °Bx the next
 * term is half a per cent. */
static void
test_freezing_thin (void)
{
  for (double brix = 0.1; brix < 1.05; brix += 0.1)
    found_near ("freezing point of thin sap against 1.86 K kg/mol, relative",
                fr_sucrose_freezing_c (brix) / (-1.86 * 1000 * brix / (342.3 * (100 - brix))), 1, 0.01);
  g_assert_cmpfloat (fr_sucrose_freezing_c (0), ==, 0);
}

/* Source: NBS Circular C440 (from memory): 66.0 °Bx is 35.55 °Bé and 66.9 °Bx is 36.0 °Bé. */
static void
test_baume (void)
{
  found_near ("C440 Baumé of 66.0 °Bx", fr_baume_from_brix (66.0), 35.55, 0.03);
  found_near ("C440 Baumé of 66.9 °Bx", fr_baume_from_brix (66.9), 36.0, 0.03);
  for (double brix = 0; brix <= 80; brix += 0.5)
    found_near ("Baumé and back, °Bx", fr_brix_from_baume (fr_baume_from_brix (brix)), brix, 1e-8);
  /* The floor below keeps its own copy of the 20 °C row. */
  for (double brix = 0; brix <= 80; brix += 0.5)
    found_near ("gravity of both floors", fr_gravity_ratio_from_brix (brix),
                fr_sucrose_density_kg_m3 (brix, 20) / fr_sucrose_density_kg_m3 (0, 20), 1e-6);
}

/* Source: Bubnik and Kadlec 1995 worked out apart from this code: 64.45 at 0 °C, 66.72 at 20 °C; the CRC
 * Handbook's solubility table (as transcribed) stands up to 0.4 off near 20 °C: 67.09 at 20, 70.42 at
 * 40, 72.25 at 50 °C. */
static void
test_saturation (void)
{
  found_near ("solubility, °Bx", fr_sucrose_saturation_brix (0), 64.45, 0.006);
  found_near ("solubility, °Bx", fr_sucrose_saturation_brix (20), 66.72, 0.006);
  found_near ("CRC solubility, °Bx", fr_sucrose_saturation_brix (0), 64.18, 0.4);
  found_near ("CRC solubility, °Bx", fr_sucrose_saturation_brix (20), 67.09, 0.4);
  found_near ("CRC solubility, °Bx", fr_sucrose_saturation_brix (40), 70.42, 0.4);
  found_near ("CRC solubility, °Bx", fr_sucrose_saturation_brix (50), 72.25, 0.4);
}

static void
test_outside_is_unknown (void)
{
  g_assert_true (isnan (fr_sucrose_density_kg_m3 (-0.1, 20)));
  g_assert_true (isnan (fr_sucrose_density_kg_m3 (80.1, 20)));
  g_assert_true (isnan (fr_sucrose_density_kg_m3 (NAN, 20)));
  g_assert_true (isnan (fr_sucrose_density_kg_m3 (10, 116)));
  g_assert_true (isnan (fr_sucrose_boil_temp_c (-1, ATMOSPHERE_PA)));
  g_assert_true (isnan (fr_sucrose_boil_temp_c (10, 10e3)));
  g_assert_true (isnan (fr_sucrose_boil_temp_c (NAN, ATMOSPHERE_PA)));
  g_assert_true (isnan (fr_sucrose_brix_from_elevation (-0.1, ATMOSPHERE_PA)));
  g_assert_true (isnan (fr_sucrose_brix_from_elevation (10, ATMOSPHERE_PA)));
  g_assert_true (isnan (fr_sucrose_specific_heat (81, 20)));
  g_assert_true (isnan (fr_sucrose_freezing_c (80.1)));
  g_assert_true (isnan (fr_sucrose_saturation_brix (101)));
  g_assert_cmpfloat (fr_sucrose_boil_temp_c (0, ATMOSPHERE_PA), ==, fr_saturation_temp_c (ATMOSPHERE_PA));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  test_table_add ("sucrose-density.csv", "/sucrose/density", check_density);
  test_table_add ("sucrose-density-temp.csv", "/sucrose/density-temp", check_density_temp);
  g_test_add_func ("/sucrose/density/slopes", test_density_slopes);
  g_test_add_func ("/sucrose/density/rises", test_density_rises);
  test_table_add ("sucrose-elevation.csv", "/sucrose/elevation", check_elevation);
  test_table_add ("sucrose-elevation-classic.csv", "/sucrose/elevation-classic", check_classic);
  test_table_add ("sucrose-elevation-inverse.csv", "/sucrose/elevation-inverse", check_inverse);
  g_test_add_func ("/sucrose/elevation/ontario", test_ontario);
  g_test_add_func ("/sucrose/elevation/trade-finish", test_trade_finish);
  g_test_add_func ("/sucrose/elevation/closes", test_boil_closes);
  test_table_add ("sucrose-heat.csv", "/sucrose/heat", check_heat);
  g_test_add_func ("/sucrose/heat/enthalpy", test_enthalpy);
  g_test_add_func ("/sucrose/heat/sensible", test_sensible_heat);
  test_table_add ("sucrose-freezing.csv", "/sucrose/freezing", check_freezing);
  g_test_add_func ("/sucrose/freezing/thin", test_freezing_thin);
  g_test_add_func ("/sucrose/baume", test_baume);
  g_test_add_func ("/sucrose/saturation", test_saturation);
  g_test_add_func ("/sucrose/outside-is-unknown", test_outside_is_unknown);
  return found_run ();
}
