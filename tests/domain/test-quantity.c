/* Reading and writing numbers with units.
 *
 * Most readings are rows of tables/quantity.csv, with their sources there; each row is a test of its own.
 * Here are what a table cannot say: bytes that are not text, round trips, how values are written, what an
 * entry reopens with, and own measures. */
#include "domain/units/baume.h"
#include "domain/units/quantity.h"
#include "domain/units/units.h"

#include <locale.h>
#include <math.h>
#include <string.h>

#define NARROW "\u00a0"

static const FrMeasure measures[] = {
  { (char *)"bucket", 11 },
  { (char *)"Crémaillère", 7.5 },
  { (char *)"big pots", 6 },
  { (char *)"lady", 1.5 },
};

static const FrUnits metric = { FR_SYSTEM_METRIC, FALSE, '.', measures, G_N_ELEMENTS (measures) };
static const FrUnits metric_comma = { FR_SYSTEM_METRIC, FALSE, ',', measures, G_N_ELEMENTS (measures) };
static const FrUnits us = { FR_SYSTEM_US, FALSE, '.', measures, G_N_ELEMENTS (measures) };
static const FrUnits imperial = { FR_SYSTEM_IMPERIAL, FALSE, '.', measures, G_N_ELEMENTS (measures) };
static const FrUnits us_baume = { FR_SYSTEM_US, TRUE, '.', NULL, 0 };

static const char *const kind_names[FR_N_QUANTITIES] = {
  "plain",     "volume", "mass", "temperature", "difference", "length", "altitude", "pressure", "power",
  "sweetness", "ratio",  "span", "current",     "voltage",    "energy", "price",    "loss",     "heat",
  "distance",  "angle"
};

static const char *const problem_names[]
    = { "OK", "EMPTY", "NOT_A_NUMBER", "UNKNOWN_UNIT", "AMBIGUOUS_GROUP", "MIXED", "TOO_LONG" };

static int
index_of (const char *name, const char *const *names, int n)
{
  for (int i = 0; i < n; i++)
    if (strcmp (names[i], name) == 0)
      return i;
  g_error ("no such name in the table: %s", name);
}

/* One row of the table. */
static void
test_row (gconstpointer data)
{
  const char *line = data;
  g_auto (GStrv) fields = g_strsplit (line, ";", -1);
  FrUnits units = metric;
  FrQuantityKind kind;
  FrQuantityProblem problem = FR_QUANTITY_OK;
  double value = 0;
  gsize at = 0;
  gboolean read;
  char *expected;

  g_assert_cmpuint (g_strv_length (fields), >=, 5);
  for (guint i = 0; i < 5; i++)
    g_strstrip (fields[i]);
  kind = (FrQuantityKind)index_of (fields[1], kind_names, FR_N_QUANTITIES);
  units.system = (FrSystem)index_of (fields[2], (const char *const[]){ "metric", "us", "imperial" }, 3);
  units.decimal_mark = fields[3][0];
  read = fr_quantity_parse (fields[0], kind, &units, &value, &problem, &at);
  expected = strchr (fields[4], '@');
  if (expected)
    {
      *expected++ = 0;
      g_assert_cmpstr (problem_names[problem], ==, fields[4]);
      g_assert_cmpuint (at, ==, g_ascii_strtoull (expected, NULL, 10));
      g_assert_true (isnan (value));
      g_assert_true (read == (problem == FR_QUANTITY_EMPTY));
    }
  else
    {
      double wanted = g_ascii_strtod (fields[4], &expected);

      g_assert_true (*fields[4] && *expected == 0);
      g_assert_cmpstr (problem_names[problem], ==, "OK");
      g_assert_true (read);
      g_assert_cmpfloat_with_epsilon (value, wanted, 1e-9 * fabs (wanted) + 1e-300);
      g_assert_false (signbit (value) && value == 0);
    }
}

static void
add_table (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("G_TEST_SRCDIR"), "tables", "quantity.csv", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) lines = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i]; i++)
    if (lines[i][0] && lines[i][0] != '#')
      {
        g_auto (GStrv) fields = g_strsplit (lines[i], ";", 3);
        g_autofree char *words = g_strdelimit (g_strdup (fields[0]), "/", '|');
        g_autofree char *name
            = g_strdup_printf ("/quantity/table/%03u %s(%s)", i + 1, words, g_strstrip (fields[1]));

        g_test_add_data_func_full (name, g_strdup (lines[i]), test_row, g_free);
      }
}

static FrQuantityProblem
problem_of (const char *text, gsize *at)
{
  FrQuantityProblem problem;
  double value;

  g_assert_false (fr_quantity_parse (text, FR_QUANTITY_VOLUME, &metric, &value, &problem, at));
  g_assert_true (isnan (value));
  return problem;
}

static void
test_bytes (void)
{
  g_autofree char *zeros = g_strnfill (200, '0');
  g_autofree char *long_text = g_strnfill (100000, '1');
  double value;
  gsize at;

  g_assert_cmpint (problem_of ("3 l \xff", &at), ==, FR_QUANTITY_NOT_A_NUMBER);
  g_assert_cmpuint (at, ==, 4);
  g_assert_cmpint (problem_of ("\xc3", &at), ==, FR_QUANTITY_NOT_A_NUMBER);
  g_assert_cmpuint (at, ==, 0);
  g_assert_cmpint (problem_of ("3 \xed\xa0\x80", &at), ==, FR_QUANTITY_NOT_A_NUMBER); /* a surrogate */
  g_assert_cmpint (problem_of (long_text, &at), ==, FR_QUANTITY_TOO_LONG);
  g_assert_cmpuint (at, ==, 200);
  g_assert_true (fr_quantity_parse (zeros, FR_QUANTITY_VOLUME, &metric, &value, NULL, NULL));
  g_assert_cmpfloat (value, ==, 0);
  /* a long text whose 200th byte is in the middle of a character */
  memset (zeros, 'x', 199);
  {
    g_autofree char *cut = g_strdup_printf ("%.199s\u00e9\u00e9", zeros);

    g_assert_cmpint (problem_of (cut, &at), ==, FR_QUANTITY_TOO_LONG);
    g_assert_cmpuint (at, ==, 199);
  }
}

static void
test_empty (void)
{
  static const char *const blanks[] = { NULL, "", " ", "\t\n", "\u202f\u00a0" };
  FrQuantityProblem problem;
  double value;

  for (guint i = 0; i < G_N_ELEMENTS (blanks); i++)
    {
      value = 1;
      g_assert_true (fr_quantity_parse (blanks[i], FR_QUANTITY_VOLUME, &metric, &value, &problem, NULL));
      g_assert_cmpint (problem, ==, FR_QUANTITY_EMPTY);
      g_assert_true (isnan (value));
    }
  /* spaces around and inside, of any kind, do not count */
  g_assert_true (fr_quantity_parse (" \u00a03\u202fL ", FR_QUANTITY_VOLUME, &us, &value, &problem, NULL));
  g_assert_cmpfloat (value, ==, 3);
}

/* The household without units is metric with a point, as the command line is without a book. */
static void
test_no_units (void)
{
  double value;

  g_assert_true (fr_quantity_parse ("2.5", FR_QUANTITY_VOLUME, NULL, &value, NULL, NULL));
  g_assert_cmpfloat (value, ==, 2.5);
  g_assert_cmpstr (fr_quantity_unit (FR_QUANTITY_VOLUME, NULL), ==, "L");
}

static void
check_string (double value, FrQuantityKind kind, const FrUnits *units, int decimals, const char *expected)
{
  g_autofree char *text = fr_quantity_to_string (value, kind, units, decimals);

  g_assert_cmpstr (text, ==, expected);
}

/* The house precisions are our own choice, given in quantity.h; conversions from NIST SP 811. */
static void
test_writing (void)
{
  check_string (22.5, FR_QUANTITY_VOLUME, &metric, -1, "22.5" NARROW "L");
  check_string (22.5, FR_QUANTITY_VOLUME, &metric_comma, -1, "22,5" NARROW "L");
  check_string (0.25, FR_QUANTITY_VOLUME, &metric, -1, "0.25" NARROW "L");
  check_string (22.5, FR_QUANTITY_VOLUME, &us, -1, "5.94" NARROW "gal");
  check_string (22.5, FR_QUANTITY_VOLUME, &imperial, 1, "4.9" NARROW "gal");
  check_string (1500, FR_QUANTITY_VOLUME, &metric, -1, "1500.0" NARROW "L");
  check_string (-4.6, FR_QUANTITY_TEMPERATURE, &metric, -1, "\u22125" NARROW "°C");
  check_string (-0.4, FR_QUANTITY_TEMPERATURE, &metric, -1, "0" NARROW "°C");
  check_string (104.24, FR_QUANTITY_TEMPERATURE, &metric, 1, "104.2" NARROW "°C");
  check_string (100, FR_QUANTITY_TEMPERATURE, &us, -1, "212" NARROW "°F");
  check_string (5, FR_QUANTITY_DIFFERENCE, &us, -1, "9.0" NARROW "°F");
  check_string (2.15, FR_QUANTITY_SWEETNESS, &metric, -1,
                "2.1" NARROW "°Bx"); /* 2.15 is a little less in binary */
  check_string (31.3, FR_QUANTITY_SWEETNESS, &metric, -1, "31" NARROW "°Bx");
  check_string (9.96, FR_QUANTITY_SWEETNESS, &metric, -1, "10" NARROW "°Bx");
  check_string (0.18, FR_QUANTITY_LENGTH, &metric, -1, "18.0" NARROW "cm");
  check_string (0.0032, FR_QUANTITY_LENGTH, &metric, -1, "0.32" NARROW "cm");
  check_string (1.25, FR_QUANTITY_MASS, &metric, -1, "1.25" NARROW "kg");
  check_string (97772.6, FR_QUANTITY_PRESSURE, &metric, -1, "978" NARROW "hPa");
  check_string (101325, FR_QUANTITY_PRESSURE, &us, -1, "29.92" NARROW "inHg");
  check_string (0.85, FR_QUANTITY_RATIO, &metric, -1, "85" NARROW "%");
  check_string (0.055, FR_QUANTITY_RATIO, &metric_comma, -1, "5,5" NARROW "%");
  check_string (1799.6, FR_QUANTITY_POWER, &metric, -1, "1800" NARROW "W");
  check_string (12.5, FR_QUANTITY_CURRENT, &metric, -1, "12.5" NARROW "A");
  check_string (15, FR_QUANTITY_CURRENT, &metric, -1, "15" NARROW "A");
  check_string (9.8, FR_QUANTITY_PRICE, &metric, -1, "9.8");
  check_string (28.53125, FR_QUANTITY_PRICE, &metric, -1, "28.53125");
  check_string (5, FR_QUANTITY_PLAIN, &metric, -1, "5");
  check_string (2.5, FR_QUANTITY_PLAIN, &metric, -1, "2.5");
  check_string (INFINITY, FR_QUANTITY_PLAIN, &metric, -1, "\u221e");
}

static void
test_unknown (void)
{
  for (guint kind = 0; kind < FR_N_QUANTITIES; kind++)
    {
      g_autofree char *number = NULL;
      g_autofree char *entry = fr_quantity_entry_text (NAN, "3", (FrQuantityKind)kind, &metric);
      const char *unit = NULL;

      fr_quantity_format (NAN, (FrQuantityKind)kind, &metric, -1, &number, &unit);
      g_assert_cmpstr (number, ==, "\u2013");
      g_assert_cmpstr (unit, ==, fr_quantity_unit ((FrQuantityKind)kind, &metric));
      g_assert_cmpstr (entry, ==, "");
    }
}

static void
test_spans_written (void)
{
  check_string (6960, FR_QUANTITY_SPAN, &metric, -1, "1" NARROW "h" NARROW "56" NARROW "min");
  check_string (3900, FR_QUANTITY_SPAN, &metric, -1, "1" NARROW "h" NARROW "05" NARROW "min");
  check_string (28800, FR_QUANTITY_SPAN, &metric, -1, "8" NARROW "h");
  check_string (3599, FR_QUANTITY_SPAN, &metric, -1, "1" NARROW "h"); /* never "60 min" */
  check_string (7199, FR_QUANTITY_SPAN, &metric, -1, "2" NARROW "h"); /* never "1 h 60" */
  check_string (1500, FR_QUANTITY_SPAN, &metric, -1, "25" NARROW "min");
  check_string (45, FR_QUANTITY_SPAN, &metric, -1, "45" NARROW "s");
  check_string (59.7, FR_QUANTITY_SPAN, &metric, -1, "1" NARROW "min");
  check_string (0, FR_QUANTITY_SPAN, &metric, -1, "0" NARROW "h");
  check_string (-5400, FR_QUANTITY_SPAN, &metric, -1, "\u22121" NARROW "h" NARROW "30" NARROW "min");
  check_string (5400, FR_QUANTITY_SPAN, &metric_comma, 2, "1,50" NARROW "h");
  check_string (1e18, FR_QUANTITY_SPAN, &metric, -1, "277777777777778" NARROW "h");
}

static double
sample (FrQuantityKind kind, guint i)
{
  /* spread over six decades, with ends that are not round */
  double size = pow (10, (double)(i % 7) - 2) * (1 + (i * 37 % 89) / 97.0);

  if (kind == FR_QUANTITY_SWEETNESS)
    return 0.01 + i * 75.0 / 97;
  if (kind == FR_QUANTITY_TEMPERATURE || kind == FR_QUANTITY_DIFFERENCE || kind == FR_QUANTITY_ALTITUDE)
    return i % 2 ? -size / 3 : size;
  return size;
}

/* Whatever is written can be read, and says the same to the precision written. */
static void
test_round_trip (gconstpointer data)
{
  FrQuantityKind kind = (FrQuantityKind)GPOINTER_TO_INT (data);
  const FrUnits *const households[] = { &metric, &metric_comma, &us, &imperial, &us_baume };

  for (guint h = 0; h < G_N_ELEMENTS (households); h++)
    for (guint i = 0; i < 97; i++)
      for (int decimals = -1; decimals <= 6; decimals++)
        {
          const FrUnits *units = households[h];
          double value = sample (kind, i), back, step;
          g_autofree char *text = fr_quantity_to_string (value, kind, units, decimals);
          const char *point = strpbrk (text, ".,");

          g_assert_true (fr_quantity_parse (text, kind, units, &back, NULL, NULL));
          step = point ? pow (10, -(double)strspn (point + 1, "0123456789")) : 1;
          if (kind == FR_QUANTITY_SPAN && decimals < 0)
            step = value < 59.5 ? 1.0 / 3600 : 1.0 / 60;
          g_assert_cmpfloat_with_epsilon (
              fr_quantity_to_shown (back, kind, units), fr_quantity_to_shown (value, kind, units),
              step * 0.5 + 1e-9 * fabs (fr_quantity_to_shown (value, kind, units)));
          g_assert_cmpfloat_with_epsilon (
              fr_quantity_from_shown (fr_quantity_to_shown (value, kind, units), kind, units), value,
              1e-12 * (fabs (value) + 40));
        }
}

/* An entry written out means the value itself, or differs by at most half a hundredth of the last digit that
 * is shown. */
static void
test_entry_round_trip (gconstpointer data)
{
  FrQuantityKind kind = (FrQuantityKind)GPOINTER_TO_INT (data);
  const FrUnits *const households[] = { &metric, &metric_comma, &us, &imperial, &us_baume };

  for (guint h = 0; h < G_N_ELEMENTS (households); h++)
    for (guint i = 0; i < 97; i++)
      {
        const FrUnits *units = households[h];
        double value = sample (kind, i), shown = fr_quantity_to_shown (value, kind, units), back, again_back,
               step;
        g_autofree char *text = fr_quantity_entry_text (value, NULL, kind, units);
        g_autofree char *number = NULL;
        g_autofree char *again = NULL;
        const char *unit, *point;

        g_assert_true (fr_quantity_parse (text, kind, units, &back, NULL, NULL));
        fr_quantity_format (value, kind, units, -1, &number, &unit);
        point = strpbrk (number, ".,");
        step = point ? pow (10, -(double)strlen (point + 1)) : 1;
        if (kind == FR_QUANTITY_SPAN)
          step = 0.1 / 3600;
        g_assert_cmpfloat_with_epsilon (fr_quantity_to_shown (back, kind, units), shown,
                                        step * 0.0050001 + 1e-9 * fabs (shown));
        /* saving what was written and opening it again moves nothing further */
        again = fr_quantity_entry_text (back, NULL, kind, units);
        g_assert_true (fr_quantity_parse (again, kind, units, &again_back, NULL, NULL));
        g_assert_cmpfloat_with_epsilon (again_back, back, 1e-9 * fabs (back) + 1e-300);
      }
}

/* The same for numbers nobody chose; --seed repeats a run. */
static void
test_random_trips (gconstpointer data)
{
  FrQuantityKind kind = (FrQuantityKind)GPOINTER_TO_INT (data);

  for (guint i = 0; i < 2000; i++)
    {
      FrUnits units = metric;
      int decimals = g_test_rand_int_range (0, 8);
      double value, shown, back;
      g_autofree char *text = NULL;

      units.system = (FrSystem)g_test_rand_int_range (0, 3);
      units.decimal_mark = g_test_rand_bit () ? ',' : '.';
      units.baume = g_test_rand_bit ();
      value = pow (10, g_test_rand_double_range (-6, 6));
      if (kind == FR_QUANTITY_SWEETNESS)
        value = g_test_rand_double_range (0, 75);
      else if (kind == FR_QUANTITY_TEMPERATURE)
        value = g_test_rand_double_range (-40, 120);
      text = fr_quantity_to_string (value, kind, &units, decimals);
      g_assert_true (fr_quantity_parse (text, kind, &units, &back, NULL, NULL));
      shown = fr_quantity_to_shown (value, kind, &units);
      g_assert_cmpfloat_with_epsilon (fr_quantity_to_shown (back, kind, &units), shown,
                                      0.5 * pow (10, -decimals) + 1e-9 * fabs (shown));
    }
}

static void
check_entry (double value, const char *typed, FrQuantityKind kind, const FrUnits *units, const char *expected)
{
  g_autofree char *text = fr_quantity_entry_text (value, typed, kind, units);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_entry (void)
{
  double value;

  g_assert_true (fr_quantity_parse ("3 gal 1 qt", FR_QUANTITY_VOLUME, &us, &value, NULL, NULL));
  check_entry (value, "3 gal 1 qt", FR_QUANTITY_VOLUME, &us, "3 gal 1 qt");
  /* the household went over to imperial gallons: the words would now lie, 12.302588298 / 4.54609 = 2.70619 */
  check_entry (value, "3 gal 1 qt", FR_QUANTITY_VOLUME, &imperial, "2.7062");
  check_entry (22, "2 buckets", FR_QUANTITY_VOLUME, &metric, "2 buckets");
  check_entry (24, "2 buckets", FR_QUANTITY_VOLUME, &metric, "24"); /* the bucket was measured anew */
  check_entry (1.5, "1½ l", FR_QUANTITY_VOLUME, &metric, "1½ l");
  check_entry (1.5, "1,500", FR_QUANTITY_VOLUME, &metric_comma, "1,500");
  check_entry (1.5, "1,500", FR_QUANTITY_VOLUME, &metric,
               "1.5"); /* the mark was changed: no longer readable */
  check_entry (1.5, "nonsense", FR_QUANTITY_VOLUME, &metric, "1.5");
  check_entry (1.5, "", FR_QUANTITY_VOLUME, &metric, "1.5");
  check_entry (1.5, NULL, FR_QUANTITY_VOLUME, &metric_comma, "1,5");
  check_entry (0.07, NULL, FR_QUANTITY_LENGTH, &metric, "7");
  check_entry (0.85, NULL, FR_QUANTITY_RATIO, &metric, "85");
  check_entry (-5, NULL, FR_QUANTITY_TEMPERATURE, &metric, "\u22125");
  check_entry (FR_LITRES_PER_US_GALLON * 2.5, NULL, FR_QUANTITY_VOLUME, &us, "2.5");
  check_entry (6960, NULL, FR_QUANTITY_SPAN, &metric, "1 h 56 min");
  check_entry (28800, NULL, FR_QUANTITY_SPAN, &metric, "8 h");
  check_entry (90.5, NULL, FR_QUANTITY_SPAN, &metric_comma, "1 min 30,5 s");
  check_entry (0, NULL, FR_QUANTITY_SPAN, &metric, "0");
  check_entry (0, NULL, FR_QUANTITY_VOLUME, &us, "0");
  check_entry (1234.5, NULL, FR_QUANTITY_PLAIN, &metric, "1234.5");
}

/* Trade table, NBS Circular C440 (1942), from memory: 66.0 °Bx = 35.55 °Bé, 66.9 °Bx = 36.0; and the column
 * of a handbook's concentrative-properties table (CRC) turned into 145 − 145 / SG: 10 → 5.57, 20 → 11.11, 30
 * → 16.57, 50 → 27.28, 60 → 32.49, 70 → 37.56. */
static void
test_baume (void)
{
  static const double rows[][2]
      = { { 0, 0 },      { 10, 5.57 },  { 20, 11.11 },  { 30, 16.57 }, { 50, 27.28 },
          { 60, 32.49 }, { 66, 35.55 }, { 66.9, 36.0 }, { 70, 37.56 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double value;
      g_autofree char *text = g_strdup_printf ("%.6f °Bé", fr_baume_from_brix (rows[i][0]));

      g_assert_cmpfloat_with_epsilon (fr_baume_from_brix (rows[i][0]), rows[i][1], 0.03);
      g_assert_cmpfloat_with_epsilon (fr_brix_from_baume (rows[i][1]), rows[i][0], 0.06);
      g_assert_true (fr_quantity_parse (text, FR_QUANTITY_SWEETNESS, &metric, &value, NULL, NULL));
      g_assert_cmpfloat_with_epsilon (value, rows[i][0], 1e-5);
    }
  check_string (66.9, FR_QUANTITY_SWEETNESS, &us_baume, -1, "36.0" NARROW "°Bé");
  check_string (120, FR_QUANTITY_SWEETNESS, &us_baume, -1, "\u2013" NARROW "°Bé");
  check_entry (36, "36", FR_QUANTITY_SWEETNESS, &metric, "36");
  check_entry (120, NULL, FR_QUANTITY_SWEETNESS, &us_baume, "120 °Bx");
  check_entry (100, NULL, FR_QUANTITY_SWEETNESS, &us_baume, "100 °Bx"); /* 51.735 would be off the scale */
  g_assert_true (isnan (fr_brix_from_baume (51.8)));
  g_assert_true (isnan (fr_brix_from_baume (NAN)));
  g_assert_true (isnan (fr_baume_from_brix (100.1)));
  g_assert_cmpfloat (fr_brix_from_baume (0), ==, 0);
}

static void
test_measures (void)
{
  FrMeasure *read = NULL;
  guint n = 99, line = 99;

  g_assert_true (fr_measures_parse ("bucket = 11.4\r\n\n  jug=3,5 L\nbig pot = ½ l\n", &read, &n, &line));
  g_assert_cmpuint (n, ==, 3);
  g_assert_cmpuint (line, ==, 0);
  g_assert_cmpstr (read[0].name, ==, "bucket");
  g_assert_cmpfloat (read[0].litres_l, ==, 11.4);
  g_assert_cmpstr (read[1].name, ==, "jug");
  g_assert_cmpfloat (read[1].litres_l, ==, 3.5);
  g_assert_cmpstr (read[2].name, ==, "big pot");
  g_assert_cmpfloat (read[2].litres_l, ==, 0.5);
  {
    FrUnits units = { FR_SYSTEM_METRIC, FALSE, '.', read, n };
    double value;

    g_assert_true (
        fr_quantity_parse ("2 buckets 1 jug 1 big pot", FR_QUANTITY_VOLUME, &units, &value, NULL, NULL));
    g_assert_cmpfloat_with_epsilon (value, 26.8, 1e-12);
  }
  fr_measures_free (read, n);
  g_assert_true (fr_measures_parse (NULL, &read, &n, &line));
  g_assert_cmpuint (n, ==, 0);
  fr_measures_free (read, n);
}

static void
test_measures_refused (void)
{
  static const struct
  {
    const char *text;
    guint line;
  } bad[] = {
    { "bucket", 1 },
    { "bucket = ", 1 },
    { "bucket = eleven", 1 },
    { "bucket = 0", 1 },
    { "bucket = -3", 1 },
    { "bucket = 10001", 1 },
    { "bucket = 11,400", 1 }, /* a question */
    { " = 11", 1 },
    { "jug = 3\nbucket = x", 2 },
    { "jug = 3\n\nJUGS = 4", 3 }, /* twice */
    { "cup = 0.3", 1 },           /* a unit already */
    { "L = 2", 1 },
    { "can 2 = 2", 1 }, /* where would the number end */
    { "jug = 3\nb\xff = 3", 2 },
    { "a½ = 3", 1 },
    { "jug = 3 = 4", 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      FrMeasure *read = (FrMeasure *)&bad;
      guint n = 9, line = 0;

      g_assert_false (fr_measures_parse (bad[i].text, &read, &n, &line));
      g_assert_null (read);
      g_assert_cmpuint (n, ==, 0);
      g_assert_cmpuint (line, ==, bad[i].line);
    }
}

/* Says whether the run under a comma locale was one; the table's rows are the check. */
static void
test_comma_locale (void)
{
  const char *wanted = g_getenv ("LC_ALL");

  if (wanted && g_str_has_prefix (wanted, "de_DE") && strcmp (localeconv ()->decimal_point, ",") != 0)
    g_test_skip ("the locale de_DE.UTF-8 is not installed");
}

int
main (int argc, char **argv)
{
  /* whatever the environment says; a comma locale must not change a thing */
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  add_table ();
  g_test_add_func ("/quantity/bytes", test_bytes);
  g_test_add_func ("/quantity/empty", test_empty);
  g_test_add_func ("/quantity/no-units", test_no_units);
  g_test_add_func ("/quantity/writing", test_writing);
  g_test_add_func ("/quantity/unknown", test_unknown);
  g_test_add_func ("/quantity/spans-written", test_spans_written);
  g_test_add_func ("/quantity/entry", test_entry);
  g_test_add_func ("/quantity/baume", test_baume);
  g_test_add_func ("/quantity/measures", test_measures);
  g_test_add_func ("/quantity/measures-refused", test_measures_refused);
  g_test_add_func ("/quantity/comma-locale", test_comma_locale);
  for (int kind = 0; kind < FR_N_QUANTITIES; kind++)
    {
      g_autofree char *trip = g_strdup_printf ("/quantity/round-trip/%s", kind_names[kind]);
      g_autofree char *entry = g_strdup_printf ("/quantity/entry-round-trip/%s", kind_names[kind]);
      g_autofree char *random = g_strdup_printf ("/quantity/random-trips/%s", kind_names[kind]);

      g_test_add_data_func (random, GINT_TO_POINTER (kind), test_random_trips);
      g_test_add_data_func (trip, GINT_TO_POINTER (kind), test_round_trip);
      g_test_add_data_func (entry, GINT_TO_POINTER (kind), test_entry_round_trip);
    }
  return g_test_run ();
}
