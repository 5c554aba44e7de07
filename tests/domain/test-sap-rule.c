/* Rules of thumb on days written by hand: lows and highs on both sides of each threshold, nights that count and no longer count, and
 * hours that are not known. */
#include "domain/maths/sap-rule.h"

#include <math.h>

#define DAYS 6

/* Each day's hours lie at its low until noon and at its high after it. */
static void
lay (const double (*days)[2], double *air_c)
{
  for (guint h = 0; h < DAYS * 24; h++)
    air_c[h] = days[h / 24][h % 24 >= 12];
}

static double
units (FrSapRule rule, const double *air_c, gint day)
{
  return fr_sap_rule_units (rule, air_c, DAYS * 24, (day + 1) * 24);
}

static void
test_days (void)
{
  static const double days[DAYS][2] = { { -1.2, 2.3 }, { -1.1, 5 }, { -5, 2.2 }, { -0.1, 0.1 }, { 0, 9 }, { 3, 9 } };
  static const gboolean classic[DAYS] = { TRUE, FALSE, FALSE, FALSE, FALSE, FALSE };
  static const gboolean zero[DAYS] = { TRUE, TRUE, TRUE, TRUE, FALSE, FALSE };
  double air_c[DAYS * 24];

  lay (days, air_c);
  for (gint d = 0; d < DAYS; d++)
    {
      g_assert_cmpfloat (units (FR_SAP_RULE_CONSTANT, air_c, d), ==, 1);
      g_assert_cmpfloat (units (FR_SAP_RULE_FREEZE_THAW, air_c, d), ==, classic[d]);
      g_assert_cmpfloat (units (FR_SAP_RULE_ZERO, air_c, d), ==, zero[d]);
    }
}

/* One night of frost counts on its own day and the three after it, and only where it is mild. */
static void
test_nights (void)
{
  static const double days[DAYS][2] = { { -4, -1 }, { 1, 5 }, { 1, 5 }, { 1, 5 }, { 1, 5 }, { 1, 5 } };
  static const gboolean runs[DAYS] = { FALSE, TRUE, TRUE, TRUE, FALSE, FALSE };
  double air_c[DAYS * 24];

  lay (days, air_c);
  for (gint d = 0; d < DAYS; d++)
    g_assert_cmpfloat (units (FR_SAP_RULE_NIGHTS, air_c, d), ==, runs[d]);
}

/* Twelve mild hours are half a day; 1.0 °C is not above it; a day may end at any hour. */
static void
test_thaw_hours (void)
{
  static const double days[DAYS][2] = { { 0, 2 }, { 0, 1 }, { 5, 5 }, { 0, 0 }, { 0, 2 }, { 0, 2 } };
  static const double shares[DAYS] = { 0.5, 0, 1, 0, 0.5, 0.5 };
  double air_c[DAYS * 24];

  lay (days, air_c);
  for (gint d = 0; d < DAYS; d++)
    g_assert_cmpfloat (units (FR_SAP_RULE_THAW_HOURS, air_c, d), ==, shares[d]);
  g_assert_cmpfloat_with_epsilon (fr_sap_rule_units (FR_SAP_RULE_THAW_HOURS, air_c, DAYS * 24, 2 * 24 + 6), 6.0 / 24, 1e-12);
}

/* What is not known says nothing, before the first hour, after the last and between. */
static void
test_unknown (void)
{
  double air_c[DAYS * 24];

  for (guint h = 0; h < DAYS * 24; h++)
    air_c[h] = NAN;
  for (FrSapRule rule = FR_SAP_RULE_FREEZE_THAW; rule < FR_N_SAP_RULES; rule++)
    for (gint end = -30; end <= DAYS * 24 + 60; end += 30)
      g_assert_cmpfloat (fr_sap_rule_units (rule, air_c, DAYS * 24, end), ==, 0);
  air_c[30] = -6;
  air_c[40] = 8;
  g_assert_cmpfloat (units (FR_SAP_RULE_FREEZE_THAW, air_c, 1), ==, 1);
  g_assert_cmpfloat_with_epsilon (units (FR_SAP_RULE_THAW_HOURS, air_c, 1), 1.0 / 24, 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-rule/days", test_days);
  g_test_add_func ("/sap-rule/nights", test_nights);
  g_test_add_func ("/sap-rule/thaw-hours", test_thaw_hours);
  g_test_add_func ("/sap-rule/unknown", test_unknown);
  return g_test_run ();
}
