/* Rows of a price plan and back. The texts are the layout that maths/tariff.h describes. */
#include "models/price-rows.h"

#include <math.h>

static const char *plan = "11-01 04-30 weekday 19:00 07:00 9.8\n"
                          "11-01 04-30 weekday 07:00 19:00 20.3\n"
                          "11-01 04-30 weekend 00:00 24:00 9.8\n"
                          "05-01 10-31 all 00:00 24:00 -1.25\n";

static void
test_round_trip (void)
{
  guint bad_line = 0;
  g_autoptr (GArray) rows = fr_price_rows_parse (plan, &bad_line);
  g_autofree char *text = NULL;
  FrTariffProblem problem;
  g_autoptr (FrTariff) tariff = NULL;

  g_assert_nonnull (rows);
  g_assert_cmpuint (rows->len, ==, 4);
  g_assert_cmpint (g_array_index (rows, FrTariffPeriod, 2).to_min, ==, 1440);
  text = fr_price_rows_text (rows);
  g_assert_cmpstr (text, ==, plan);
  tariff = fr_tariff_parse (text, "", 0, 0, &problem);
  g_assert_nonnull (tariff);
}

static void
test_spaces_and_comments (void)
{
  guint bad_line = 0;
  g_autoptr (GArray) rows
      = fr_price_rows_parse ("# winter\n\n  11-01\t04-30  all 00:00   24:00 12 \r\n", &bad_line);
  g_autofree char *text = NULL;

  g_assert_nonnull (rows);
  text = fr_price_rows_text (rows);
  g_assert_cmpstr (text, ==, "11-01 04-30 all 00:00 24:00 12\n");
}

static void
test_bad_lines (void)
{
  static const char *const bad[] = { "11-01 04-30 all 00:00 24:00",       "11-01 04-30 all 00:00 24:00 9 9",
                                     "13-01 04-30 all 00:00 24:00 9",     "11-01 04-31 all 00:00 24:00 9",
                                     "11-01 04-30 monday 00:00 24:00 9",  "11-01 04-30 all 00:00 25:00 9",
                                     "11-01 04-30 all 00:00 24:00 cheap", "11-01 04-30 all 00:00 24:00 nan",
                                     "11-01 04-30 all 00:00 24:00 inf" };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *text = g_strconcat ("# one\n", bad[i], "\n", NULL);
      guint bad_line = 0;

      g_assert_null (fr_price_rows_parse (text, &bad_line));
      g_assert_cmpuint (bad_line, ==, 2);
    }
}

static void
test_unknown_price_is_held_back (void)
{
  guint bad_line = 0;
  g_autoptr (GArray) rows = fr_price_rows_parse (plan, &bad_line);

  g_array_index (rows, FrTariffPeriod, 1).price_per_kwh = NAN;
  g_assert_null (fr_price_rows_text (rows));
}

static void
test_season (void)
{
  guint bad_line = 0;
  g_autoptr (GArray) rows = fr_price_rows_parse (plan, &bad_line);

  g_assert_true (fr_price_rows_same_season (&g_array_index (rows, FrTariffPeriod, 0),
                                            &g_array_index (rows, FrTariffPeriod, 2)));
  g_assert_false (fr_price_rows_same_season (&g_array_index (rows, FrTariffPeriod, 2),
                                             &g_array_index (rows, FrTariffPeriod, 3)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/price-rows/round-trip", test_round_trip);
  g_test_add_func ("/price-rows/spaces-and-comments", test_spaces_and_comments);
  g_test_add_func ("/price-rows/bad-lines", test_bad_lines);
  g_test_add_func ("/price-rows/unknown-price-is-held-back", test_unknown_price_is_held_back);
  g_test_add_func ("/price-rows/season", test_season);
  return g_test_run ();
}
