/* Continuous load against the breaker: tests/tables/circuit.csv, and what makes no sense. */
#include "domain/maths/circuit.h"

#include <math.h>

#include "table.h"

static void
near_or_both_unknown (const TestRow *row, const char *column, double got, double tolerance)
{
  const double wanted = test_row_number_or_nan (row, column);

  if (isnan (wanted))
    g_assert_true (isnan (got));
  else
    test_row_near (row, column, got, wanted, tolerance);
}

static void
check_circuit (const TestRow *row)
{
  static const char *const verdicts[] = { "ok", "near", "over", "unknown" };
  const double breaker_a = test_row_number_or_nan (row, "breaker_a");
  const double volts_v = test_row_number_or_nan (row, "volts_v");
  g_auto (GStrv) words = g_strsplit (test_row_text (row, "loads_w"), "+", -1);
  double loads_w[4];
  const guint n_loads = g_strv_length (words);
  FrCircuitLoad load;

  g_assert_cmpuint (n_loads, <=, G_N_ELEMENTS (loads_w));
  for (guint i = 0; i < n_loads; i++)
    loads_w[i] = g_str_equal (words[i], "?") ? NAN : g_ascii_strtod (words[i], NULL);
  load = fr_circuit_load (breaker_a, volts_v, loads_w, n_loads, test_row_number_or_nan (row, "other_w"));
  g_assert_cmpstr (verdicts[load.code], ==, test_row_text (row, "verdict"));
  near_or_both_unknown (row, "used_a", load.used_a, 0.05);
  near_or_both_unknown (row, "allowed_a", load.allowed_a, 0.05);
  near_or_both_unknown (row, "allowed_w", fr_circuit_allowed_w (breaker_a, volts_v), 5);
  if (!isnan (load.used_a) && !isnan (load.allowed_a))
    g_assert_cmpfloat_with_epsilon (load.load_ratio, load.used_a / load.allowed_a, 1e-12);
  else
    g_assert_true (isnan (load.load_ratio));
}

/* Ohm: the resistance stays, so an element of 1,800 W for 120 V gives 1,800 x 0.95² at 114 V. */
static void
test_low_volts (void)
{
  g_assert_cmpfloat_with_epsilon (fr_circuit_power_at_volts_w (1800, 120, 114), 1624.5, 1e-9);
  g_assert_cmpfloat (fr_circuit_power_at_volts_w (1800, 120, 120), ==, 1800);
  g_assert_true (isnan (fr_circuit_power_at_volts_w (1800, 0, 114)));
  g_assert_true (isnan (fr_circuit_power_at_volts_w (NAN, 120, 114)));
}

static void
test_nonsense (void)
{
  const double negative_w = -100, endless_w = INFINITY;

  g_assert_cmpint (fr_circuit_load (15, 120, &negative_w, 1, 0).code, ==, FR_CIRCUIT_UNKNOWN);
  g_assert_cmpint (fr_circuit_load (15, 120, &endless_w, 1, 0).code, ==, FR_CIRCUIT_UNKNOWN);
  g_assert_cmpint (fr_circuit_load (0, 120, NULL, 0, 0).code, ==, FR_CIRCUIT_UNKNOWN);
  g_assert_cmpint (fr_circuit_load (15, -120, NULL, 0, 0).code, ==, FR_CIRCUIT_UNKNOWN);
  g_assert_true (isnan (fr_circuit_allowed_w (0, 120)));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  test_table_add ("circuit.csv", "/circuit/load", check_circuit);
  g_test_add_func ("/circuit/low-volts", test_low_volts);
  g_test_add_func ("/circuit/nonsense", test_nonsense);
  return g_test_run ();
}
