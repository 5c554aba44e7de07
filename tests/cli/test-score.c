/* frostrun-cli score: the measured seasons as their tables say, and a season of one's own. What can be worked out from the tables
 * alone (shares of runs, what always collecting hits, "as the last time") is worked out here again. */
#include "spawn.h"

#include <math.h>
#include <string.h>

typedef struct
{
  guint n;
  double per_day_l[64];
  double days[64];
} Table;

static char *
data_path (const char *name)
{
  return g_build_filename (g_getenv ("FROSTRUN_SAP"), name, NULL);
}

static Table
read_table (const char *name)
{
  g_autofree char *path = data_path (name), *text = NULL;
  g_auto (GStrv) lines = NULL;
  Table table = { 0 };

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 1; lines[i] != NULL && *lines[i] != '\0'; i++)
    {
      g_auto (GStrv) cells = g_strsplit (lines[i], ",", -1);

      table.days[table.n] = g_ascii_strtod (cells[2], NULL);
      table.days[table.n] = g_ascii_strtod (cells[2], NULL);
      table.per_day_l[table.n] = g_ascii_strtod (cells[1], NULL) / table.days[table.n];
      table.n++;
    }
  return table;
}

static JsonObject *
part (JsonNode *root, guint at)
{
  return json_array_get_object_element (json_object_get_array_member (json_node_get_object (root), "seasons"), at);
}

static JsonObject *
row (JsonObject *part_, const char *column, const char *model)
{
  return json_object_get_object_member (json_object_get_object_member (json_object_get_object_member (part_, column), "models"), model);
}

static double
score (JsonObject *row_, const char *name)
{
  return json_object_get_double_member (json_object_get_object_member (row_, name), "value");
}

/* The reference counts 31 runs of 45 emptyings: who always collects is right in 0.69 of them, 23/29 and 8/16 by season. */
static void
test_measured (void)
{
  static const char *const files[] = { "whately-2013-gathered.csv", "whately-2014-gathered.csv" };
  static const guint runs[] = { 23, 8 };
  g_auto (Answer) answer = run ("score --json --courses 0", "");
  JsonNode *root;
  guint n = 0, n_runs = 0;

  g_assert_cmpint (answer.code, ==, 0);
  root = answer_root (&answer);
  g_assert_true (json_object_get_boolean_member (json_node_get_object (root), "fitted_on_other_seasons"));
  for (guint s = 0; s < 2; s++)
    {
      Table table = read_table (files[s]);
      JsonObject *own = row (part (root, s), "observed", "program"), *last = row (part (root, s), "observed", "last");
      double error_l = 0, error_first_l;
      guint ran = 0;

      for (guint i = 0; i < table.n; i++)
        {
          ran += table.per_day_l[i] >= 0.5;
          if (i > 0)
            error_l += fabs (table.per_day_l[i] - table.per_day_l[i - 1]) * table.days[i];
        }
      g_assert_cmpint (json_object_get_int_member (own, "emptyings"), ==, table.n);
      g_assert_cmpint (json_object_get_int_member (own, "runs"), ==, ran);
      g_assert_cmpuint (ran, ==, runs[s]);
      g_assert_cmpfloat_with_epsilon (score (own, "critical_success_index_always"), (double)ran / table.n, 1e-9);
      g_assert_cmpfloat_with_epsilon (score (own, "brier_base_rate"), (double)ran / table.n * (1 - (double)ran / table.n), 1e-9);
      /* The first has none before it; the mean of the other season stands in, up to 2 L a day off. */
      error_first_l = score (last, "mean_absolute_error_l") * table.n - error_l;
      g_assert_cmpfloat (error_first_l, >, -0.3);
      g_assert_cmpfloat (error_first_l, <, 2 * table.days[0]);
      n += table.n;
      n_runs += ran;
    }
  g_assert_cmpuint (n, ==, 45);
  g_assert_cmpuint (n_runs, ==, 31);
  g_assert_cmpfloat_with_epsilon (score (row (part (root, 2), "observed", "constant"), "critical_success_index_always"), 31.0 / 45, 1e-9);
  g_assert_cmpfloat_with_epsilon (score (row (part (root, 2), "observed", "constant"), "mean_absolute_error_of_constant"), 1, 1e-9);
}

/* One of them as a season of one's own: all figures there, a sentence first, and what was fitted on is said. */
static void
test_own (void)
{
  g_autofree char *days = data_path ("whately-2014-days.csv"), *gathered = data_path ("whately-2014-gathered.csv");
  g_autofree char *arguments = g_strdup_printf ("score --weather %s --gathered %s --tapped 2014-02-20 --courses 2", days, gathered);
  g_autofree char *json = g_strconcat (arguments, " --json", NULL);
  g_auto (Answer) words = run ("%s", "", arguments), answer = run ("%s", "", json), again = run ("%s", "", json);
  JsonNode *root;
  JsonObject *own;

  g_assert_cmpint (words.code, ==, 0);
  g_assert_true (g_str_has_prefix (words.out, "Had the weather been known beforehand, the forecast "));
  g_assert_nonnull (strstr (words.out, "fitted on Whately 2013 and 2014"));
  g_assert_nonnull (strstr (words.out, "Observed weather with drawn forecast errors"));
  g_assert_cmpstr (answer.out, ==, again.out);
  root = answer_root (&answer);
  own = row (part (root, 0), "drawn_errors", "program");
  g_assert_cmpint (json_object_get_int_member (own, "emptyings"), ==, 16);
  g_assert_cmpint (json_array_get_length (json_object_get_array_member (
                       json_object_get_object_member (part (root, 0), "observed"), "emptyings")),
                   ==, 16);
  g_assert_cmpfloat (score (own, "inside_p10_p90"), >=, 0);
  g_assert_cmpfloat (score (own, "inside_p10_p90"), <=, 1);
}

static void
test_complaints (void)
{
  g_autofree char *days = data_path ("whately-2014-days.csv");
  g_auto (Answer) alone = run ("score --gathered x.csv", ""), ungathered = run ("score --weather %s", "", days),
                  big = run ("score --error-first 99", "");

  g_assert_cmpint (alone.code, ==, 1);
  g_assert_nonnull (strstr (alone.err, "--weather"));
  g_assert_cmpint (ungathered.code, ==, 1);
  g_assert_nonnull (strstr (ungathered.err, "--gathered"));
  g_assert_cmpint (big.code, ==, 1);
  g_assert_nonnull (strstr (big.err, "0 to 20"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/score/measured", test_measured);
  g_test_add_func ("/score/own", test_own);
  g_test_add_func ("/score/complaints", test_complaints);
  return g_test_run ();
}
