/* Amounts of money. Digits by ISO 4217 and customary signs from memory; rounding by hand. */
#include "domain/units/money.h"

#include <locale.h>
#include <math.h>

#define NO_BREAK "\u00a0"

static void
test_round (void)
{
  g_assert_cmpint (fr_money_round (0.5), ==, 1);
  g_assert_cmpint (fr_money_round (1.5), ==, 2);
  g_assert_cmpint (fr_money_round (2.5), ==, 3); /* away from zero, not to even */
  g_assert_cmpint (fr_money_round (-0.5), ==, -1);
  g_assert_cmpint (fr_money_round (-2.5), ==, -3);
  g_assert_cmpint (fr_money_round (0.49999999999999994), ==,
                   0); /* where adding a half first would go wrong */
  g_assert_cmpint (fr_money_round (1660.8), ==, 1661);
  g_assert_cmpint (fr_money_round (0), ==, 0);
  g_assert_cmpint (fr_money_round (-0.2), ==, 0);
}

static void
test_unknown (void)
{
  g_autofree char *text = fr_money_to_string (G_MININT64, "CAD", '.');

  g_assert_cmpint (fr_money_round (NAN), ==, G_MININT64);
  g_assert_cmpint (fr_money_round (INFINITY), ==, G_MININT64);
  g_assert_cmpint (fr_money_round (-1e300), ==, G_MININT64);
  g_assert_cmpstr (text, ==, "\u2013");
}

static void
check (gint64 minor, const char *currency, char mark, const char *expected)
{
  g_autofree char *text = fr_money_to_string (minor, currency, mark);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_string (void)
{
  check (200, "CAD", '.', "$2.00");
  check (200, "EUR", ',', "2,00" NO_BREAK "€");
  check (-35, "CAD", '.', "\u2212$0.35");
  check (-35, "SEK", ',', "\u22120,35" NO_BREAK "kr");
  check (5, "GBP", '.', "£0.05");
  check (0, "USD", '.', "$0.00");
  check (200, "JPY", '.', "¥200");
  check (1234567, "USD", '.', "$12345.67"); /* no group marks */
  check (1234, "BHD", '.', "1.234" NO_BREAK "BHD");
  check (-7, "KWD", '.', "\u22120.007" NO_BREAK "KWD");
  check (1050, "CHF", '.', "10.50" NO_BREAK "CHF");
  check (1050, "XYZ", '.', "10.50" NO_BREAK "XYZ");
  check (1050, NULL, '.', "10.50");
  check (G_MAXINT64, "USD", '.', "$92233720368547758.07");
  check (G_MININT64 + 1, "USD", '.', "\u2212$92233720368547758.07");
}

static void
test_digits (void)
{
  g_assert_cmpint (fr_money_digits ("CAD"), ==, 2);
  g_assert_cmpint (fr_money_digits ("JPY"), ==, 0);
  g_assert_cmpint (fr_money_digits ("BHD"), ==, 3);
  g_assert_cmpint (fr_money_digits ("XYZ"), ==, 2);
  g_assert_cmpint (fr_money_digits (NULL), ==, 2);
}

static void
test_signs (void)
{
  g_assert_cmpstr (fr_money_sign ("CAD"), ==, "$");
  g_assert_cmpstr (fr_money_sign ("EUR"), ==, "€");
  g_assert_cmpstr (fr_money_sign ("XYZ"), ==, "XYZ");
  g_assert_cmpstr (fr_money_sign (NULL), ==, "");
  g_assert_cmpstr (fr_money_minor_sign ("CAD"), ==, "¢");
  g_assert_cmpstr (fr_money_minor_sign ("EUR"), ==, "ct");
  g_assert_cmpstr (fr_money_minor_sign ("GBP"), ==, "p");
  g_assert_cmpstr (fr_money_minor_sign ("SEK"), ==, "SEK/100");
  g_assert_cmpstr (fr_money_minor_sign ("XYZ"), ==, "XYZ/100");
  g_assert_cmpstr (fr_money_minor_sign ("KWD"), ==, "KWD/1000");
  g_assert_cmpstr (fr_money_minor_sign ("JPY"), ==, "¥");
  g_assert_cmpstr (fr_money_minor_sign ("UGX"), ==, "UGX");
  g_assert_cmpstr (fr_money_minor_sign ("not a code"), ==, "");
  g_assert_cmpstr (fr_money_minor_sign (NULL), ==, "");
}

static void
test_codes (void)
{
  g_assert_true (fr_money_is_code ("CAD"));
  g_assert_false (fr_money_is_code ("cad"));
  g_assert_false (fr_money_is_code ("CA"));
  g_assert_false (fr_money_is_code ("CADE"));
  g_assert_false (fr_money_is_code ("CA$"));
  g_assert_false (fr_money_is_code (""));
  g_assert_false (fr_money_is_code (NULL));
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/money/round", test_round);
  g_test_add_func ("/money/unknown", test_unknown);
  g_test_add_func ("/money/string", test_string);
  g_test_add_func ("/money/digits", test_digits);
  g_test_add_func ("/money/signs", test_signs);
  g_test_add_func ("/money/codes", test_codes);
  return g_test_run ();
}
