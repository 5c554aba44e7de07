/* frostrun-cli tap-plan: answers by hand, the text for people, the example in the manual as it stands, limits
 * that leave no choice, and a sentence for everything that is wrong. What is best is tested in tests/domain
 * against a solver. */
#include "spawn.h"

#include <math.h>
#include <string.h>

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static Answer
ask (const char *input)
{
  Answer answer = cli_run ("tap-plan - --json", input, -1);

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpint (answer.code, ==, 1e-12);
  return answer;
}

static gboolean
is (const Answer *answer, const char *key)
{
  return json_object_get_boolean_member (json_node_get_object (answer_root (answer)), key);
}

/* Three buckets would take all 115 L, but 9 L a day × 35 / 3 are 105: of 85, 75 and 70 L the first has most
 * sugar. Density at 20 °C of 2 and 4 °Bx 1005.96 and 1013.83 kg/m³ (ICUMSA); the slope between is a straight
 * line to 0.01. */
static void
example_holds (const char *input)
{
  g_auto (Answer) answer = ask (input);
  double one_kg = 40 * 1.00635 * 0.021, two_kg = 45 * 1.00518 * 0.018;

  g_assert_cmpstr (answer_string (&answer, "status"), ==, "ok");
  NEAR (answer_number (&answer, "sugar_kg"), one_kg + two_kg, 1e-4);
  NEAR (answer_number (&answer, "litres"), 85, 1e-12);
  NEAR (answer_number (&answer, "peak_litres_per_day"), 85.0 / 35 * 3, 1e-12);
  NEAR (answer_number (&answer, "next_bucket_kg"), 0, 1e-12);
  g_assert_true (is (&answer, "kitchen_limits"));
  g_assert_true (is (&answer, "exact"));
  NEAR (answer_number (&answer, "kitchen_limits_from_buckets"), 3, 1e-12);
  NEAR (answer_number (&answer, "bound_kg"), answer_number (&answer, "sugar_kg"), 1e-12);
  g_assert_cmpstr (answer_string (&answer, "trees/0/name"), ==, "T1");
  NEAR (answer_number (&answer, "trees/0/taps"), 1, 1e-12);
  g_assert_cmpstr (answer_string (&answer, "trees/1/name"), ==, "T2");
  NEAR (answer_number (&answer, "trees/1/taps"), 1, 1e-12);
}

static void
test_example (void)
{
  g_autofree char *kept = kept_text ("tap-plan.json");

  example_holds (kept);
}

static void
test_manual (void)
{
  g_autofree char *page = g_build_filename (g_getenv ("FROSTRUN_DATA"), "frostrun-cli.1", NULL), *text = NULL,
                  *input = NULL;
  const char *begin;

  g_assert_true (g_file_get_contents (page, &text, NULL, NULL));
  begin = strstr (text, "{\"buckets\"");
  g_assert_nonnull (begin);
  input = g_strndup (begin, (gsize)(strstr (begin, "\n.EE") - begin));
  example_holds (input);
}

static void
test_text (void)
{
  g_autofree char *kept = kept_text ("tap-plan.json"), *expected = kept_text ("tap-plan.txt");
  g_auto (Answer) answer = cli_run ("tap-plan -", kept, -1);

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpstr (answer.out, ==, expected);
}

/* Without a kitchen the third bucket is worth the second tap, 30 L; a peak day is told when days and ratio
 * are. */
static void
test_next (void)
{
  g_autofree char *kept = kept_text ("tap-plan.json"), *any = with (kept, "9", "null"),
                  *two = with (any, "\"buckets\": 3", "\"buckets\": 2"),
                  *bare = with (two, "\"season_days\": 35,", ""),
                  *zero = with (kept, "\"buckets\": 3", "\"buckets\": 0"),
                  *none = with (zero, "40, 30", "40, 30, 20");
  g_auto (Answer) answer = ask (two);
  g_auto (Answer) without = ask (bare);
  g_auto (Answer) nothing = ask (none);

  NEAR (answer_number (&answer, "next_bucket_kg"), 30 * 1.00635 * 0.021, 1e-4);
  g_assert_false (is (&answer, "kitchen_limits"));
  g_assert_true (isnan (answer_number (&answer, "kitchen_limits_from_buckets")));
  g_assert_true (isnan (answer_number (&without, "peak_litres_per_day")));
  NEAR (answer_number (&nothing, "sugar_kg"), 0, 1e-12);
  NEAR (answer_number (&nothing, "next_bucket_kg"), 40 * 1.00635 * 0.021, 1e-4);
}

static void
test_no_choice (void)
{
  g_autofree char *kept = kept_text ("tap-plan.json"),
                  *must = with (kept, "\"must\": false", "\"must\": true");
  const struct
  {
    const char *from, *to, *status, *part;
  } cases[] = {
    { "\"buckets\": 3", "\"buckets\": 0", "too_few_buckets", "Get 1 more" },
    { "\"max_trees\": null", "\"max_trees\": 0", "too_few_trees", "at most 0" },
    { "9", "3.4", "kitchen_too_small", "3.4" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *input = with (must, cases[i].from, cases[i].to);
      g_auto (Answer) answer = ask (input);
      g_auto (Answer) text = cli_run ("tap-plan -", input, -1);

      g_assert_cmpstr (answer_string (&answer, "status"), ==, cases[i].status);
      g_assert_nonnull (strstr (answer_string (&answer, "sentence"), cases[i].part));
      g_assert_true (isnan (answer_number (&answer, "sugar_kg")));
      g_assert_true (isnan (answer_number (&answer, "trees/1/taps")));
      g_assert_cmpint (text.code, ==, 1e-12);
      g_assert_nonnull (strstr (text.out, cases[i].part));
    }
}

typedef struct
{
  const char *name, *from, *to, *sentence;
} Wrong;

static const Wrong wrongs[] = {
  { "no-buckets", "\"buckets\": 3, ", "", "buckets is missing; give a number from 0 to 100000" },
  { "half-bucket", "\"buckets\": 3", "\"buckets\": 2.5", "buckets is 2.5; it must be a whole number" },
  { "buckets-below", "\"buckets\": 3", "\"buckets\": -3", "buckets is -3; it must be from 0 to 100000" },
  { "key", "\"buckets\"", "\"bucket\"", "bucket is no key here; did you mean buckets?" },
  { "boil-below", "9", "-9", "boil_litres_per_day is -9; it must be from 0 to 1000000" },
  { "no-days", "\"season_days\": 35,", "", "season_days is missing; give a number from 1 to 366" },
  { "no-peak", "\"peak_ratio\": 3, ", "", "peak_ratio is missing; give a number from 1 to 100" },
  { "peak", "\"peak_ratio\": 3", "\"peak_ratio\": 0.3", "peak_ratio is 0.3; it must be from 1 to 100" },
  { "half-tree", "\"max_trees\": null", "\"max_trees\": 1.5", "max_trees is 1.5; it must be a whole number" },
  { "no-name", "\"name\": \"T2\", ", "", "trees[1].name is missing; give the tree's name" },
  { "half-tap", "\"taps_max\": 2", "\"taps_max\": 1.5",
    "trees[0].taps_max is 1.5; it must be a whole number" },
  { "taps", "\"taps_max\": 2", "\"taps_max\": 11", "trees[0].taps_max is 11; it must be from 0 to 10" },
  { "short", "[40, 30]", "[40]",
    "trees[0].litres_per_tap has 1 entry; it must have one for each of the 2 that taps_max allows" },
  { "litres-below", "30]", "-30]", "trees[0].litres_per_tap[1] is -30; it must be from 0 to 10000" },
  { "litres-word", "30]", "\"30\"]",
    "trees[0].litres_per_tap[1] is text; it must be a number from 0 to 10000" },
  { "brix", "1.8", "118", "trees[1].brix is 118; it must be from 0 to 25" },
  { "switch", "\"must\": false", "\"must\": 0", "trees[0].must must be true or false" },
  { "both", "\"must\": false, \"never\": false", "\"must\": true, \"never\": true",
    "trees[0].must is true and so is never; one of them must be false" },
  { "must-none", "\"taps_max\": 1, \"litres_per_tap\": [45]", "\"taps_max\": 0, \"must\": true",
    "trees[1].must is true, but taps_max is 0; allow a tap or make it false" },
  { "tree-key", "\"never\"", "\"newer\"", "trees[0].newer is no key here; did you mean never?" },
};

static void
test_wrong (gconstpointer data)
{
  const Wrong *wrong = data;
  g_autofree char *kept = kept_text ("tap-plan.json"), *input = with (kept, wrong->from, wrong->to),
                  *expected = g_strdup_printf ("frostrun-cli: standard input: %s\n", wrong->sentence);
  g_auto (Answer) answer = cli_run ("tap-plan - --json", input, -1);

  g_assert_cmpstr (answer.err, ==, expected);
  g_assert_cmpstr (answer.out, ==, "");
  g_assert_cmpint (answer.code, ==, 1);
}

/* As many trees as are taken answer at once; one more is refused. */
static void
test_many (void)
{
  for (guint n = 5000; n <= 5001; n++)
    {
      g_autoptr (GString) input = g_string_new ("{\"buckets\":900,\"trees\":[");

      for (guint i = 0; i < n; i++)
        g_string_append_printf (input,
                                "%s{\"name\":\"T%u\",\"taps_max\":2,\"litres_per_tap\":[%u,%u],\"brix\":2}",
                                i > 0 ? "," : "", i, 30 + 7 * i % 31, 20 + 11 * i % 17);
      g_string_append (input, "]}");
      if (n == 5000)
        {
          g_auto (Answer) answer = ask (input->str);

          g_assert_true (is (&answer, "exact"));
          NEAR (answer_number (&answer, "buckets_used"), 900, 1e-12);
        }
      else
        {
          g_auto (Answer) answer = cli_run ("tap-plan -", input->str, -1);

          g_assert_cmpstr (answer.err, ==,
                           "frostrun-cli: standard input: trees has 5001 entries; it must have 0 to 5000\n");
        }
    }
}

int
main (int argc, char **argv)
{
  g_setenv ("LC_ALL", "C.UTF-8", TRUE);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cli/tap-plan/example", test_example);
  g_test_add_func ("/cli/tap-plan/manual", test_manual);
  g_test_add_func ("/cli/tap-plan/text", test_text);
  g_test_add_func ("/cli/tap-plan/next", test_next);
  g_test_add_func ("/cli/tap-plan/no-choice", test_no_choice);
  g_test_add_func ("/cli/tap-plan/many", test_many);
  for (guint i = 0; i < G_N_ELEMENTS (wrongs); i++)
    {
      g_autofree char *path = g_strconcat ("/cli/tap-plan/wrong/", wrongs[i].name, NULL);

      g_test_add_data_func (path, &wrongs[i], test_wrong);
    }
  return g_test_run ();
}
