/* The measured seasons that ship, against the figures of their source; the members that ship, against a new fit; tables of gatherings. */
#include "formats/measured-seasons.h"

#include <math.h>
#include <string.h>

/* Source: maple_sap of the R package macleish 0.3.10 (CC0), gallons of the whole site: its column sums to 675 in 2013 and to 255 in 2014,
 * of which 2 came before the first emptying whose span is known. */
static void
test_totals (void)
{
  static const double gallons[] = { 675, 253 };
  static const guint n[] = { 29, 16 };

  g_assert_cmpuint (fr_n_measured_seasons (), ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      g_auto (FrMeasuredSeason) season = { 0 };
      double litres = 0;

      fr_measured_season (i, &season);
      g_assert_cmpuint (season.gathered->len, ==, n[i]);
      g_assert_cmpuint (season.weather->days->len, ==, 135);
      for (guint g = 0; g < season.gathered->len; g++)
        litres += g_array_index (season.gathered, FrSapGathered, g).per_tap_l;
      g_assert_cmpfloat_with_epsilon (litres * 50 / 3.785411784, gallons[i], 0.6);
    }
}

/* What ships is what the fit gives on what ships: no constant by hand. Four digits are printed. */
static void
test_members (void)
{
  g_autoptr (FrSapFit) fit = fr_measured_fit (-1);
  const FrSapMembers *ours = fr_sap_members ();

  g_assert_cmpuint (ours->n, ==, fit->members.n);
  g_assert_cmpfloat_with_epsilon (ours->gain_spread_ratio, fit->members.gain_spread_ratio, 1e-3);
  for (guint i = 0; i < ours->n; i++)
    {
      const double *a = (const double *)&ours->members[i], *b = (const double *)&fit->members.members[i];

      for (guint k = 0; k < sizeof (FrSapMember) / sizeof (double); k++)
        g_assert_cmpfloat_with_epsilon (a[k], b[k], 6e-4 * fabs (b[k]) + 1e-12);
    }
}

/* A season left out leaves no trace: the fit without it is another one. */
static void
test_without (void)
{
  g_autoptr (FrSapFit) first = fr_measured_fit (0), second = fr_measured_fit (1);
  guint n_same = 0;

  for (guint i = 0; i < first->members.n; i++)
    n_same += first->members.members[i].shape.lag_h == second->members.members[i].shape.lag_h;
  g_assert_cmpuint (n_same, <, first->members.n / 4);
  g_assert_cmpfloat_with_epsilon (first->members.gain_spread_ratio, 0.7 * sqrt (2), 1e-12);
  g_assert_cmpfloat_with_epsilon (second->members.gain_spread_ratio, 0.7 * sqrt (2), 1e-12);
}

static GArray *
read_text (const char *text, GError **error)
{
  return fr_gathered_read (text, strlen (text), error);
}

static void
test_table (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) gathered
      = read_text ("litres_per_tap;date;who\n1.5;2026-03-01;A\n;2026-03-03;B\n0;2026-03-07;\n", &error);
  const FrSapGathered *rows;

  g_assert_no_error (error);
  rows = (const FrSapGathered *)gathered->data;
  g_assert_cmpuint (gathered->len, ==, 3);
  g_assert_cmpfloat (rows[0].span_days, ==, 1);
  g_assert_cmpfloat (rows[1].span_days, ==, 2);
  g_assert_true (isnan (rows[1].per_tap_l));
  g_assert_cmpfloat (rows[2].span_days, ==, 4);
  g_assert_cmpfloat (rows[2].per_tap_l, ==, 0);
}

static void
test_refused (void)
{
  static const struct
  {
    const char *text, *part;
  } cases[] = {
    { "", "empty" },
    { "date,litres\n2026-03-01,1\n", "litres_per_tap" },
    { "date,litres_per_tap\n2026-02-30,1\n", "2026-02-30" },
    { "date,litres_per_tap\n2026-03-01,-1\n", "out of range" },
    { "date,litres_per_tap\n2026-03-01,1e9\n", "out of range" },
    { "date,litres_per_tap\n2026-03-01,much\n", "much" },
    { "date,litres_per_tap,days\n2026-03-01,1,0\n", "out of range" },
    { "date,litres_per_tap\n2026-03-02,1\n2026-03-01,1\n", "line 3" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (read_text (cases[i].text, &error));
      g_assert_nonnull (error);
      if (strstr (error->message, cases[i].part) == NULL)
        g_test_fail_printf ("“%s” does not say “%s”", error->message, cases[i].part);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/measured-seasons/totals", test_totals);
  g_test_add_func ("/measured-seasons/members", test_members);
  g_test_add_func ("/measured-seasons/without", test_without);
  g_test_add_func ("/gathered-csv/table", test_table);
  g_test_add_func ("/gathered-csv/refused", test_refused);
  return g_test_run ();
}
