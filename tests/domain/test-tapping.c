/* Taps by guideline against the published rows (tests/tables/tapping.csv), and what is taken off them. The
 * reductions are worked by hand from the rules as they stand in docs/physics/tapping.md. */
#include "domain/maths/tapping.h"

#include <math.h>
#include <string.h>

#include "domain/units/quantity.h"
#include "domain/units/units.h"
#include "table.h"

#define IN FR_METRES_PER_INCH
#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static const FrGuideline *
guideline (const char *code)
{
  FrGuidelineId id = FR_N_GUIDELINES;

  g_assert_true (fr_guideline_from_code (code, &id));
  g_assert_cmpstr (fr_guideline (id)->code, ==, code);
  return fr_guideline (id);
}

/* A sound maple of @diameter_in that grows well. */
static FrTapFacts
maple (double diameter_in)
{
  return (FrTapFacts){
    .dbh_m = diameter_in * IN, .is_maple = TRUE, .health = FR_HEALTH_HEALTHY, .growth_m_per_year = 0.005
  };
}

static void
check_row (const TestRow *row)
{
  const FrGuideline *rule = guideline (test_row_text (row, "guideline"));
  const char *text = test_row_text (row, "value");
  const gboolean exact = g_str_has_prefix (text, "pi*"),
                 girth = g_str_equal (test_row_text (row, "kind"), "girth");
  const double value_in = exact ? G_PI * g_ascii_strtod (text + 3, NULL) : test_row_number (row, "value");
  const double diameter_m = girth ? fr_diameter_from_girth_m (value_in * IN) : value_in * IN;
  FrTapFacts facts = maple (1);
  FrTapVerdict verdict;

  g_assert_true (girth || g_str_equal (test_row_text (row, "kind"), "diameter"));
  g_assert_cmpfloat (fr_guideline_taps (rule, diameter_m), ==, test_row_number (row, "taps"));
  facts.dbh_m = diameter_m;
  verdict = fr_tap_verdict (&facts, rule);
  g_assert_true (verdict.size_known && verdict.max_known);
  g_assert_cmpfloat (verdict.taps_by_size, ==, test_row_number (row, "taps"));
  g_assert_cmpuint (verdict.taps_max, ==, verdict.taps_by_size);
  g_assert_cmpuint (verdict.reasons, ==, verdict.taps_max == 0 ? FR_TAP_TOO_SMALL : 0);
}

/* What is typed, in inches, centimetres or as a girth, reaches the bound. 12 in = 30.48 cm by definition. */
static void
test_typed (void)
{
  const FrUnits us = { FR_SYSTEM_US, FALSE, '.', NULL, 0 };
  static const char *const texts[] = { "12 in", "12", "30.48 cm", "0.3048 m", "1 ft" };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      FrQuantityProblem problem;
      double diameter_m, again_m;
      gsize at;

      g_assert_true (fr_quantity_parse (texts[i], FR_QUANTITY_LENGTH, &us, &diameter_m, &problem, &at));
      g_assert_cmpuint (fr_guideline_taps (guideline ("conservative"), diameter_m), ==, 1);
      again_m = fr_diameter_from_girth_m (fr_girth_from_diameter_m (diameter_m));
      g_assert_cmpuint (fr_guideline_taps (guideline ("conservative"), again_m), ==, 1);
    }
}

/* Printed equivalents: 12 in = 37.7, 18 = 56.5, 25 = 78.5 in of girth. */
static void
test_girth (void)
{
  NEAR (fr_girth_from_diameter_m (12 * IN) / IN, 37.7, 0.05);
  NEAR (fr_girth_from_diameter_m (18 * IN) / IN, 56.5, 0.05);
  NEAR (fr_girth_from_diameter_m (25 * IN) / IN, 78.5, 0.05);
  NEAR (fr_diameter_from_girth_m (G_PI), 1, 1e-15);
}

static void
test_codes (void)
{
  static const char *const spacings[] = { "six_twelve", "six_twentyfour", "four_twelve", "two_six", "own" };
  static const double sideways_in[] = { 6, 6, 4, 2, NAN }, up_down_in[] = { 12, 24, 12, 6, NAN };
  FrGuidelineId id = FR_GUIDELINE_FACTS;
  FrSpacingId spacing = FR_SPACING_OWN;
  FrHealth health;

  g_assert_false (fr_guideline_from_code ("cautious", &id));
  g_assert_false (fr_guideline_from_code (NULL, &id));
  g_assert_cmpint (id, ==, FR_GUIDELINE_FACTS);
  g_assert_false (fr_spacing_from_code ("", &spacing));
  g_assert_false (fr_health_from_code ("ill", &health));
  g_assert_true (fr_health_from_code ("failing", &health));
  g_assert_cmpint (health, ==, FR_HEALTH_FAILING);
  for (guint i = 0; i < FR_N_GUIDELINES; i++)
    {
      g_assert_cmpint (fr_guideline (i)->id, ==, i);
      g_assert_cmpuint (strlen (fr_guideline (i)->source), >, 20);
      g_assert_cmpint (fr_guideline (i)->advised_against, ==, i == FR_GUIDELINE_TRADITIONAL);
      for (guint r = 1; r < fr_guideline (i)->n_rows; r++)
        g_assert_true (fr_guideline (i)->rows[r].from_m > fr_guideline (i)->rows[r - 1].from_m
                       && fr_guideline (i)->rows[r].taps == fr_guideline (i)->rows[r - 1].taps + 1);
    }
  for (guint i = 0; i < FR_N_SPACINGS; i++)
    {
      const FrSpacing *one;

      g_assert_true (fr_spacing_from_code (spacings[i], &spacing));
      one = fr_spacing (spacing);
      g_assert_cmpint (one->id, ==, i);
      g_assert_cmpuint (strlen (one->source), >, 10);
      if (isnan (sideways_in[i]))
        g_assert_true (isnan (one->sideways_m) && isnan (one->up_down_m));
      else
        {
          NEAR (one->sideways_m / IN, sideways_in[i], 1e-12);
          NEAR (one->up_down_m / IN, up_down_in[i], 1e-12);
        }
    }
  NEAR (FR_TAP_HEIGHT_MIN_M, 2 * FR_METRES_PER_FOOT, 1e-15);
  NEAR (FR_TAP_HEIGHT_MAX_M, 4 * FR_METRES_PER_FOOT, 1e-15);
  NEAR (FR_GROWTH_MIN_M_PER_YEAR, 0.1 * IN, 1e-15);
  NEAR (FR_BORE_M, 5.0 / 16 * IN, 1e-15);
}

static void
expect (const FrTapFacts *facts, const char *code, gint by_size, gint most, guint reasons)
{
  const FrTapVerdict verdict = fr_tap_verdict (facts, guideline (code));

  g_assert_cmpint (verdict.size_known ? (gint)verdict.taps_by_size : -1, ==, by_size);
  g_assert_cmpint (verdict.max_known ? (gint)verdict.taps_max : -1, ==, most);
  g_assert_cmpuint (verdict.reasons, ==, reasons);
}

static void
test_reductions (void)
{
  FrTapFacts facts = maple (26);

  expect (&facts, "facts", 3, 3, 0);
  facts.health = FR_HEALTH_UNKNOWN;
  facts.growth_m_per_year = NAN;
  expect (&facts, "facts", 3, 3, 0); /* unknown takes nothing off */
  facts.health = FR_HEALTH_WEAK;
  expect (&facts, "facts", 3, 1, FR_TAP_WEAK);
  facts.growth_m_per_year = 0.002;
  expect (&facts, "facts", 3, 1, FR_TAP_WEAK | FR_TAP_GREW_SLOWLY);
  facts.health = FR_HEALTH_HEALTHY;
  expect (&facts, "facts", 3, 2, FR_TAP_GREW_SLOWLY);
  facts.growth_m_per_year = 0.1 * IN; /* the bound itself is enough */
  expect (&facts, "facts", 3, 3, 0);
  facts.growth_m_per_year = -0.001;
  expect (&facts, "conservative", 2, 1, FR_TAP_GREW_SLOWLY);
  facts = maple (13);
  facts.growth_m_per_year = 0.001;
  expect (&facts, "conservative", 1, 0, FR_TAP_GREW_SLOWLY);
  facts.health = FR_HEALTH_FAILING;
  expect (&facts, "conservative", 1, 0, FR_TAP_GREW_SLOWLY | FR_TAP_FAILING);
  facts = maple (30);
  facts.health = FR_HEALTH_DEAD;
  expect (&facts, "traditional", 4, 0, FR_TAP_DEAD);
}

/* The second tap of this guideline asks for good growth; what is not known is not good. */
static void
test_one_tap (void)
{
  FrTapFacts facts = maple (22);

  expect (&facts, "one_tap", 2, 2, 0);
  facts.growth_m_per_year = NAN;
  expect (&facts, "one_tap", 2, 1, FR_TAP_GROWTH_UNKNOWN);
  facts.growth_m_per_year = 0.001;
  expect (&facts, "one_tap", 2, 1, FR_TAP_GREW_SLOWLY);
  facts = maple (12);
  facts.growth_m_per_year = NAN;
  expect (&facts, "one_tap", 1, 1, 0);
}

static void
test_past (void)
{
  const guint three_then_two[] = { 2, 2, 3 }, long_ago[] = { 2, 2, 2, 5 }, nothing[] = { 0, 0, 0 };
  FrTapFacts facts = maple (19);

  facts.past_taps = three_then_two;
  facts.n_past_taps = 3;
  expect (&facts, "conservative", 2, 1, FR_TAP_HEAVILY_TAPPED);
  facts.growth_m_per_year = 0;
  expect (&facts, "conservative", 2, 0, FR_TAP_HEAVILY_TAPPED | FR_TAP_GREW_SLOWLY);
  facts.growth_m_per_year = 0.004;
  facts.n_past_taps = 2;
  expect (&facts, "conservative", 2, 2, 0);
  facts.past_taps = long_ago;
  facts.n_past_taps = 4;
  expect (&facts, "conservative", 2, 2, 0);
  facts.past_taps = nothing;
  facts.n_past_taps = 3;
  expect (&facts, "conservative", 2, 2, 0);
}

/* Unknown stays unknown, unless the tree is not to be tapped whatever it is. */
static void
test_unknown (void)
{
  FrTapFacts facts = maple (NAN);

  expect (&facts, "conservative", -1, -1, FR_TAP_SIZE_UNKNOWN);
  facts.refused = TRUE;
  expect (&facts, "conservative", -1, 0, FR_TAP_SIZE_UNKNOWN | FR_TAP_REFUSED);
  facts = maple (20);
  facts.is_maple = FALSE;
  expect (&facts, "conservative", -1, -1, FR_TAP_NOT_A_MAPLE);
  facts.never = TRUE;
  expect (&facts, "conservative", -1, 0, FR_TAP_NOT_A_MAPLE | FR_TAP_NEVER);
  facts = maple (8);
  expect (&facts, "facts", 0, 0, FR_TAP_TOO_SMALL);
  facts.health = FR_HEALTH_WEAK;
  expect (&facts, "facts", 0, 0, FR_TAP_TOO_SMALL | FR_TAP_WEAK);
}

/* Warnings change no number, and a tree that must not be tapped keeps what its size allows. */
static void
test_warnings (void)
{
  FrTapFacts facts = maple (18);

  facts.dead_limbs = facts.wires = facts.lean = facts.roadside = TRUE;
  expect (&facts, "conservative", 2, 2, FR_TAP_DEAD_LIMBS | FR_TAP_WIRES | FR_TAP_LEAN | FR_TAP_ROADSIDE);
  facts.refused = TRUE;
  expect (&facts, "conservative", 2, 0,
          FR_TAP_REFUSED | FR_TAP_DEAD_LIMBS | FR_TAP_WIRES | FR_TAP_LEAN | FR_TAP_ROADSIDE);
}

/* Least squares by hand: years 0, 2, 4, 6, sizes 30, 31, 31, 34 cm: means 3 and 31.5; Sxy = 4.5 + 0.5 − 0.5
 * + 7.5 = 12, Sxx = 20: 0.6 cm a year. */
static void
test_growth (void)
{
  const double years[] = { 2018, 2020, 2022, 2024, 2023 }, size_m[] = { 0.30, 0.31, 0.31, 0.34, NAN };
  const double close[] = { 2024, 2025.5, 2025.9 }, same[] = { 2020, 2020 };

  NEAR (fr_growth_m_per_year (years, size_m, 4), 0.006, 1e-12);
  NEAR (fr_growth_m_per_year (years, size_m, 5), 0.006, 1e-12); /* the unknown one is passed over */
  NEAR (fr_growth_m_per_year (years, size_m, 2), 0.005, 1e-12);
  g_assert_true (isnan (fr_growth_m_per_year (years, size_m, 1)));
  g_assert_true (isnan (fr_growth_m_per_year (NULL, NULL, 0)));
  g_assert_true (isnan (fr_growth_m_per_year (close, size_m, 3)));
  g_assert_true (isnan (fr_growth_m_per_year (same, size_m, 2)));
}

/* "2-3 years" in healthy trees (University of Vermont Extension): three is taken. */
static void
test_holes (void)
{
  g_assert_cmpint (fr_hole_closing (TRUE, 0.5, FR_HEALTH_WEAK), ==, FR_CLOSING_SEEN);
  g_assert_cmpint (fr_hole_closing (FALSE, 2.9, FR_HEALTH_HEALTHY), ==, FR_CLOSING_NOT_YET);
  g_assert_cmpint (fr_hole_closing (FALSE, 3, FR_HEALTH_HEALTHY), ==, FR_CLOSING_LIKELY);
  g_assert_cmpint (fr_hole_closing (FALSE, 3, FR_HEALTH_UNKNOWN), ==, FR_CLOSING_LIKELY);
  g_assert_cmpint (fr_hole_closing (FALSE, 8, FR_HEALTH_WEAK), ==, FR_CLOSING_UNSURE);
  g_assert_cmpint (fr_hole_closing (FALSE, 8, FR_HEALTH_FAILING), ==, FR_CLOSING_UNSURE);
  g_assert_cmpint (fr_hole_closing (FALSE, NAN, FR_HEALTH_HEALTHY), ==, FR_CLOSING_UNSURE);
  g_assert_true (fr_hole_is_open (FR_CLOSING_NOT_YET) && fr_hole_is_open (FR_CLOSING_UNSURE));
  g_assert_false (fr_hole_is_open (FR_CLOSING_SEEN) || fr_hole_is_open (FR_CLOSING_LIKELY));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  test_table_add ("tapping.csv", "/tapping/row", check_row);
  g_test_add_func ("/tapping/typed", test_typed);
  g_test_add_func ("/tapping/girth", test_girth);
  g_test_add_func ("/tapping/codes", test_codes);
  g_test_add_func ("/tapping/reductions", test_reductions);
  g_test_add_func ("/tapping/one-tap", test_one_tap);
  g_test_add_func ("/tapping/past", test_past);
  g_test_add_func ("/tapping/unknown", test_unknown);
  g_test_add_func ("/tapping/warnings", test_warnings);
  g_test_add_func ("/tapping/growth", test_growth);
  g_test_add_func ("/tapping/holes", test_holes);
  return g_test_run ();
}
