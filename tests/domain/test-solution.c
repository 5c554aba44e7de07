/* Mass balance against the trade's published yields and against examples worked out by hand. */
#include "domain/maths/solution.h"

#include "domain/maths/sucrose.h"
#include "domain/maths/water.h"
#include "domain/units/units.h"
#include "found.h"
#include "table.h"

#define GALLON FR_LITRES_PER_US_GALLON

static void
check_ratio (const TestRow *row)
{
  static const struct
  {
    const char *column;
    double brix;
  } syrups[] = { { "ratio_655", 65.5 }, { "ratio_660", 66 }, { "ratio_665", 66.5 },
                 { "ratio_669", 66.9 }, { "ratio_670", 67 }, { "ratio_689", 68.9 } };
  double sap = test_row_number (row, "sap_brix");

  for (guint i = 0; i < G_N_ELEMENTS (syrups); i++)
    found_near ("sap to syrup by balance", fr_sap_per_syrup (sap, syrups[i].brix, 20),
                test_row_number (row, syrups[i].column), 0.006);
  found_near ("water off for syrup", fr_water_per_syrup (sap, 66, 20), test_row_number (row, "water_660"),
              0.006);
  found_near ("water off for syrup", fr_water_per_syrup (sap, 66.9, 20), test_row_number (row, "water_669"),
              0.006);
  found_near ("rule of 86", fr_sap_per_syrup_rule_86 (sap), test_row_number (row, "rule_86"), 0.006);
  found_near ("rule of 87.1", fr_sap_per_syrup_rule_87 (sap), test_row_number (row, "rule_87"), 0.006);
}

/* Sources: UNH Extension: 2 °Bx 43.0, 2.5 °Bx 34.4, 3 °Bx 28.7 gallons of sap; North American Maple Syrup
 * Producers Manual: 42 gallons of water off at 2 °Bx; UVM (Perkins and Isselhardt 2013): 87.1 gallons at 1
 * °Bx for 66.0 and 88.2 for 66.9 °Bx; a producer's season at 1.2 °Bx: about 72 to 1; University of Wisconsin:
 * about 39 gallons of water a gallon. */
static void
test_published_yields (void)
{
  found_near ("UNH yields by rule", fr_sap_per_syrup_rule_86 (2), 43.0, 0.05);
  found_near ("UNH yields by rule", fr_sap_per_syrup_rule_86 (2.5), 34.4, 0.05);
  found_near ("UNH yields by rule", fr_sap_per_syrup_rule_86 (3), 28.7, 0.05);
  found_near ("UNH yields by balance for 65.5 °Bx, relative", fr_sap_per_syrup (2, 65.5, 20) / 43.0, 1,
              0.005);
  found_near ("UNH yields by balance for 65.5 °Bx, relative", fr_sap_per_syrup (2.5, 65.5, 20) / 34.4, 1,
              0.005);
  found_near ("UNH yields by balance for 65.5 °Bx, relative", fr_sap_per_syrup (3, 65.5, 20) / 28.7, 1,
              0.0065);
  found_near ("NAMSP water for 65.5 °Bx, relative", fr_water_per_syrup (2, 65.5, 20) / 42, 1, 0.01);
  found_near ("UVM yields at 1 °Bx, relative", fr_sap_per_syrup (1, 66.0, 20) / 87.1, 1, 0.006);
  found_near ("UVM yields at 1 °Bx, relative", fr_sap_per_syrup (1, 66.9, 20) / 88.2, 1, 0.006);
  found_near ("a season at 1.2 °Bx, relative", fr_sap_per_syrup (1.2, 66.0, 20) / 72, 1, 0.01);
}

/* Source: Ohio State University Extension, evaporator series: 400,000 Btu for a gallon of syrup from 2 °Bx
 * sap. */
static void
test_ohio_heat (void)
{
  double sap_kg = GALLON * 1e-3 * fr_sap_per_syrup (2, 66, 20) * fr_sucrose_density_kg_m3 (2, 20);
  FrSolution sap = { sap_kg, 2 };
  double water_kg = fr_solution_water_off_kg (sap, 66), cold_c = fr_celsius_from_fahrenheit (40);
  double boils_c = fr_saturation_temp_c (101325);
  double joules = water_kg
                  * (fr_water_enthalpy_j_per_kg (boils_c) - fr_water_enthalpy_j_per_kg (cold_c)
                     + fr_latent_heat_j_per_kg (101325));

  found_near ("Ohio State 400,000 Btu a gallon, relative", joules / FR_JOULES_PER_BTU / 400000, 1, 0.03);
}

typedef struct
{
  const char *name;
  double volume, brix, with_brix, target_brix;
  double adds; /* same unit of volume as @volume */
  double tolerance;
} Blend;

/* Source: Pearson's square by mass with the ICUMSA density, worked out apart from this code. Volumes at 20
 * °C. */
static const Blend blends[] = {
  { "gallon-70-with-sap", 1, 70, 2, 66.9, 0.0640, 0.00006 },
  { "five-gallons-69-with-sap", 5, 69, 2, 66.9, 0.2157, 0.00006 },
  { "ten-gallons-68.5-with-water", 10, 68.5, 0, 66.9, 0.3206, 0.00006 },
  { "ten-gallons-64-with-69", 10, 64, 69, 66.9, 13.493, 0.0006 },
  { "litres-68.9-with-sap", 20, 68.9, 2, 66, 1.208, 0.0006 },
};

static void
test_blend (gconstpointer data)
{
  const Blend *blend = data;
  FrSolution have = fr_solution_from_volume (blend->volume, blend->brix, 20), add, both;

  add = (FrSolution){ fr_solution_to_add_kg (have, blend->with_brix, blend->target_brix), blend->with_brix };
  found_near ("blending", fr_solution_volume_l (add, 20), blend->adds, blend->tolerance);
  both = fr_solution_mix (have, add);
  g_assert_cmpfloat_with_epsilon (both.brix, blend->target_brix, 1e-12 * 100);
  g_assert_cmpfloat_with_epsilon (fr_solution_sugar_kg (both),
                                  fr_solution_sugar_kg (have) + fr_solution_sugar_kg (add), 1e-12 * 100);
}

/* Source: as above: a gallon of 70 °Bx takes 0.2436 kg of sap and comes to 4.024 L; 64 with 69 °Bx is 49.61
 * kg to 68.51 kg. */
static void
test_blend_masses (void)
{
  FrSolution have = fr_solution_from_volume (GALLON, 70, 20), add = { NAN, 2 };

  add.mass_kg = fr_solution_to_add_kg (have, 2, 66.9);
  found_near ("blending by mass, kg", add.mass_kg, 0.2436, 0.00006);
  found_near ("blended volume, L", fr_solution_volume_l (fr_solution_mix (have, add), 20), 4.024, 0.0006);
  have = fr_solution_from_volume (10 * GALLON, 64, 20);
  found_near ("blending by mass, kg", have.mass_kg, 49.61, 0.006);
  found_near ("blending by mass, kg", fr_solution_to_add_kg (have, 69, 66.9), 68.51, 0.006);
}

typedef struct
{
  double brix, water_gal, left_gal, tolerance;
} Boiled;

/* Source: as above: a gallon of 60, 50 and 64 °Bx boiled to 66.9. */
static void
test_boiled_down (void)
{
  static const Boiled rows[]
      = { { 60, 0.133, 0.869, 0.0006 }, { 50, 0.311, 0.692, 0.0006 }, { 64, 0.0569, 0.944, 0.0006 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      FrSolution have = fr_solution_from_volume (1, rows[i].brix, 20), left = { NAN, 66.9 };
      double off_kg = fr_solution_water_off_kg (have, 66.9);

      left.mass_kg = have.mass_kg - off_kg;
      found_near ("boiled to 66.9 °Bx, gallons", 1e3 * off_kg / fr_sucrose_density_kg_m3 (0, 20),
                  rows[i].water_gal, rows[i].tolerance);
      found_near ("boiled to 66.9 °Bx, gallons", fr_solution_volume_l (left, 20), rows[i].left_gal,
                  rows[i].tolerance);
      g_assert_cmpfloat_with_epsilon (fr_solution_sugar_kg (left), fr_solution_sugar_kg (have), 1e-12);
    }
  found_near ("boiled to 66.9 °Bx, kg",
              fr_solution_water_off_kg (fr_solution_from_volume (GALLON, 60, 20), 66.9), 0.5023, 0.00006);
}

/* Source: membrane arithmetic of a small-farms extension bulletin (Cornell 2017): 2 to 4 °Bx takes half the
 * water, to 8 three quarters, to 10 four fifths; what is left to boil is then 0.485 and 0.227 of what it was.
 */
static void
test_membrane (void)
{
  g_assert_cmpfloat_with_epsilon (fr_solution_water_share (2, 4), 0.5, 1e-15);
  g_assert_cmpfloat_with_epsilon (fr_solution_water_share (2, 8), 0.75, 1e-15);
  g_assert_cmpfloat_with_epsilon (fr_solution_water_share (2, 10), 0.8, 1e-15);
  found_near ("boiling left after a membrane",
              fr_water_per_syrup (4, 66, 20) / fr_water_per_syrup (2, 66, 20), 0.485, 0.001);
  found_near ("boiling left after a membrane",
              fr_water_per_syrup (8, 66, 20) / fr_water_per_syrup (2, 66, 20), 0.227, 0.001);
}

/* Source: mass balance worked out by hand, at 0 °C: 20 L of 2 °Bx less ice that melts to 8 L of 0.5 °Bx
 * leaves 12.14 kg of 2.99 °Bx, and 9.9 % of the sugar is lost. */
static void
test_ice (void)
{
  FrSolution sap = fr_solution_from_volume (20, 2, 0), ice = fr_solution_from_volume (8, 0.5, 0);
  FrSolution rest = fr_solution_without_ice (sap, ice);

  found_near ("ice taken out, kg", rest.mass_kg, 12.14, 0.006);
  found_near ("ice taken out, °Bx", rest.brix, 2.99, 0.006);
  found_near ("sugar lost with ice", 1 - fr_solution_sugar_kg (rest) / fr_solution_sugar_kg (sap), 0.099,
              0.0006);
}

/* Random chains: mixing, thickening, thinning back conserve both sugar and water. */
static void
test_conserved (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (86);

  for (guint i = 0; i < 2000; i++)
    {
      FrSolution a = { g_rand_double_range (rand, 0.1, 50), g_rand_double_range (rand, 0.5, 60) };
      FrSolution b = { g_rand_double_range (rand, 0.1, 50), g_rand_double_range (rand, 0, 60) };
      FrSolution both = fr_solution_mix (a, b), thick = { NAN, g_rand_double_range (rand, 61, 79) },
                 water = { NAN, 0 };
      FrSolution back;

      found_near ("sugar kept in mixing, relative",
                  fr_solution_sugar_kg (both) / (fr_solution_sugar_kg (a) + fr_solution_sugar_kg (b)), 1,
                  1e-14);
      thick.mass_kg = both.mass_kg - fr_solution_water_off_kg (both, thick.brix);
      water.mass_kg = fr_solution_to_add_kg (thick, 0, both.brix);
      back = fr_solution_mix (thick, water);
      found_near ("thickened and thinned back, relative", back.mass_kg / both.mass_kg, 1, 1e-12);
      found_near ("thickened and thinned back, relative", back.brix / both.brix, 1, 1e-12);
      found_near ("volume and back, relative",
                  fr_solution_from_volume (fr_solution_volume_l (both, 15), both.brix, 15).mass_kg
                      / both.mass_kg,
                  1, 1e-14);
    }
}

static void
test_impossible_is_unknown (void)
{
  FrSolution sap = { 10, 2 };

  g_assert_true (isnan (fr_solution_water_off_kg (sap, 1)));
  g_assert_true (isnan (fr_solution_water_off_kg (sap, 81)));
  g_assert_true (isnan (fr_solution_water_off_kg (sap, NAN)));
  g_assert_true (isnan (fr_solution_to_add_kg (sap, 3, 5)));
  g_assert_true (isnan (fr_solution_to_add_kg (sap, 1, 1)));
  g_assert_true (isnan (fr_solution_to_add_kg (sap, NAN, 1)));
  g_assert_true (isnan (fr_solution_without_ice (sap, (FrSolution){ 11, 0 }).mass_kg));
  g_assert_true (isnan (fr_solution_without_ice (sap, (FrSolution){ 5, 5 }).mass_kg));
  g_assert_true (isnan (fr_solution_from_volume (-1, 2, 20).mass_kg));
  g_assert_true (isnan (fr_sap_per_syrup (0, 66, 20)));
  g_assert_true (isnan (fr_sap_per_syrup (70, 66, 20)));
  g_assert_true (isnan (fr_water_per_syrup (NAN, 66, 20)));
  g_assert_true (isnan (fr_sap_per_syrup_rule_86 (0)));
  g_assert_true (isnan (fr_sap_per_syrup_rule_87 (-1)));
  g_assert_cmpfloat (fr_solution_to_add_kg (sap, 0, 2), ==, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  test_table_add ("sap-ratio.csv", "/solution/ratio", check_ratio);
  g_test_add_func ("/solution/published-yields", test_published_yields);
  g_test_add_func ("/solution/ohio-heat", test_ohio_heat);
  for (guint i = 0; i < G_N_ELEMENTS (blends); i++)
    {
      g_autofree char *path = g_strdup_printf ("/solution/blend/%s", blends[i].name);

      g_test_add_data_func (path, &blends[i], test_blend);
    }
  g_test_add_func ("/solution/blend-masses", test_blend_masses);
  g_test_add_func ("/solution/boiled-down", test_boiled_down);
  g_test_add_func ("/solution/membrane", test_membrane);
  g_test_add_func ("/solution/ice", test_ice);
  g_test_add_func ("/solution/conserved", test_conserved);
  g_test_add_func ("/solution/impossible-is-unknown", test_impossible_is_unknown);
  return found_run ();
}
