/* frostrun-cli taphole: the issue's own example worked by hand, answers that hold against the definition in
 * the issue, the text for people, the examples in manual and documentation as they stand, and a sentence for
 * everything that is wrong. */
#include "spawn.h"

#include <math.h>
#include <string.h>

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static const char *const answer_keys[]
    = { "angle_deg", "height_cm", "clearance_ratio", "keeps_rule", "reason" };

static Answer
ask (const char *input)
{
  Answer answer = cli_run ("taphole - --json", input, -1);

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpint (answer.code, ==, 0);
  return answer;
}

static void
expect (const Answer *answer, double angle_deg, double height_cm, double ratio, gboolean keeps,
        const char *reason)
{
  JsonObject *object = json_node_get_object (answer_root (answer));

  g_assert_cmpuint (json_object_get_size (object), ==, G_N_ELEMENTS (answer_keys));
  for (guint i = 0; i < G_N_ELEMENTS (answer_keys); i++)
    g_assert_true (json_object_has_member (object, answer_keys[i]));
  NEAR (json_object_get_double_member (object, "angle_deg"), angle_deg, 1e-6);
  NEAR (json_object_get_double_member (object, "height_cm"), height_cm, 1e-6);
  if (isnan (ratio))
    g_assert_true (json_object_get_null_member (object, "clearance_ratio"));
  else
    NEAR (json_object_get_double_member (object, "clearance_ratio"), ratio, 1e-8);
  g_assert_cmpint (json_object_get_boolean_member (object, "keeps_rule"), ==, keeps);
  g_assert_nonnull (strstr (json_object_get_string_member (object, "reason"), reason));
}

/* By hand: the far side is 75 cm off, 5 times 15 cm, at any height; the middle of 60 to 120 is 90. */
static void
test_example (void)
{
  g_autofree char *kept = kept_text ("taphole.json");
  g_auto (Answer) answer = ask (kept);

  expect (&answer, 270, 90, 5, TRUE, "5.0 times");
  /* Whole numbers are told as whole numbers. */
  g_assert_nonnull (strstr (answer.out, "\"angle_deg\": 270,"));
  g_assert_nonnull (strstr (answer.out, "\"height_cm\": 90,"));
}

/* By hand, with the rule on the trunk. */
static void
test_cases (void)
{
  static const struct
  {
    const char *holes;
    double angle_deg, height_cm, ratio;
    gboolean keeps;
    const char *reason;
  } cases[] = {
    { "", 180, 90, NAN, TRUE, "no old hole" },
    { "{\"angle_deg\":0,\"height_cm\":90},{\"angle_deg\":180,\"height_cm\":90}", 90, 90, 2.5, TRUE,
      "2.5 times" },
    { "{\"angle_deg\":90,\"height_cm\":90},{\"angle_deg\":270,\"height_cm\":90}", 180, 90, 2.5, TRUE,
      "2.5 times" },
    { "{\"angle_deg\":350,\"height_cm\":90},{\"angle_deg\":10,\"height_cm\":90}", 180, 90, 10 * 170.0 / 360,
      TRUE, "4.7 times" },
    { "{\"angle_deg\":360,\"height_cm\":90},{\"angle_deg\":0,\"height_cm\":90}", 180, 90, 5, TRUE,
      "5.0 times" },
    /* a hole far above: the lowest height is the farthest, 940 of 30 cm, at any angle */
    { "{\"angle_deg\":10,\"height_cm\":1000}", 180, 60, 940.0 / 30, TRUE, "31.3 times" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *input = g_strdup_printf ("{\"girth_cm\":150,\"rule\":{\"sideways_cm\":15,\"up_down_"
                                                "cm\":30,\"min_height_cm\":60,\"max_height_cm\":120},"
                                                "\"holes\":[%s]}",
                                                cases[i].holes);
      g_auto (Answer) answer = ask (input);

      expect (&answer, cases[i].angle_deg, cases[i].height_cm, cases[i].ratio, cases[i].keeps,
              cases[i].reason);
    }
}

/* Holes all round at the only height, 15 cm apart: halfway is 7.5 cm, half of what is asked, and is told. */
static void
test_full (void)
{
  g_autoptr (GString) input = g_string_new ("{\"girth_cm\":150,\"rule\":{\"sideways_cm\":15,\"up_down_cm\":"
                                            "30,\"min_height_cm\":90,\"max_height_cm\":90},\"holes\":[");

  for (guint i = 0; i < 10; i++)
    g_string_append_printf (input, "%s{\"angle_deg\":%u,\"height_cm\":90}", i > 0 ? "," : "", 36 * i);
  g_string_append (input, "]}");
  {
    g_auto (Answer) answer = ask (input->str);

    expect (&answer, 162, 90, 0.5, FALSE, "No place keeps the asked distance: the best has 0.50 of it.");
  }
}

/* Without a rule: 6 in and 12 in, 2 to 4 ft, so the middle is 3 ft. */
static void
test_usual_rule (void)
{
  g_auto (Answer) bare = ask ("{\"girth_cm\":100,\"holes\":[]}");
  g_auto (Answer) one
      = ask ("{\"girth_cm\":100,\"rule\":null,\"holes\":[{\"angle_deg\":45,\"height_cm\":91.44}]}");

  expect (&bare, 180, 91.44, NAN, TRUE, "south side");
  expect (&one, 225, 91.44, 50 / 15.24, TRUE, "north-east side");
}

static void
test_text (void)
{
  g_autofree char *kept = kept_text ("taphole.json"), *expected = kept_text ("taphole.txt");
  g_auto (Answer) answer = cli_run ("taphole -", kept, -1);

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpstr (answer.out, ==, expected);
}

/* The manual shows the very input that is kept here. */
static void
test_manual (void)
{
  g_autofree char *page = g_build_filename (g_getenv ("FROSTRUN_DATA"), "frostrun-cli.1", NULL), *text = NULL,
                  *input = NULL;
  const char *begin, *end;

  g_assert_true (g_file_get_contents (page, &text, NULL, NULL));
  begin = strstr (text, "{\"girth_cm\"");
  g_assert_nonnull (begin);
  end = strstr (begin, "\n.EE");
  g_assert_nonnull (end);
  input = g_strndup (begin, end - begin);
  {
    g_auto (Answer) answer = ask (input);

    expect (&answer, 270, 90, 5, TRUE, "5.0 times");
  }
}

typedef struct
{
  const char *name, *from, *to, *sentence;
} Wrong;

static const Wrong wrongs[] = {
  { "no-girth", "\"girth_cm\":150,", "", "girth_cm is missing; give a number from 1 to 2000" },
  { "girth-zero", "150", "0", "girth_cm is 0; it must be from 1 to 2000" },
  { "girth-text", "150", "\"150\"", "girth_cm is text; it must be a number from 1 to 2000" },
  { "girth-huge", "150", "1e999", "girth_cm is too large for a number; it must be from 1 to 2000" },
  { "key", "girth_cm", "girt_cm", "girt_cm is no key here; did you mean girth_cm?" },
  { "key-of-rule", "sideways_cm", "sideway_cm", "rule.sideway_cm is no key here; did you mean sideways_cm?" },
  { "key-of-hole", "\"angle_deg\"", "\"angel_deg\"",
    "holes[0].angel_deg is no key here; did you mean angle_deg?" },
  { "rule-list", "{\"sideways_cm\":15,\"up_down_cm\":30,\"min_height_cm\":60,\"max_height_cm\":120}",
    "[15,30]", "rule is a list; it must be an object in { }" },
  { "no-sideways", "\"sideways_cm\":15,", "", "rule.sideways_cm is missing; give a number from 0.5 to 200" },
  { "sideways", "\"sideways_cm\":15", "\"sideways_cm\":0",
    "rule.sideways_cm is 0; it must be from 0.5 to 200" },
  { "up-down", "\"up_down_cm\":30", "\"up_down_cm\":-30",
    "rule.up_down_cm is -30; it must be from 0.5 to 400" },
  { "min-height", "\"min_height_cm\":60", "\"min_height_cm\":-1",
    "rule.min_height_cm is -1; it must be from 0 to 1000" },
  { "heights", "\"max_height_cm\":120", "\"max_height_cm\":50",
    "rule.max_height_cm is 50; it must be from 60 to 1000" },
  { "no-max", ",\"max_height_cm\":120", "", "rule.max_height_cm is missing; give a number from 60 to 1000" },
  { "no-holes", ",\"holes\":[{\"angle_deg\":90,\"height_cm\":80}]", "",
    "holes is missing; give a list in [ ] of 0 to 500" },
  { "hole-number", "{\"angle_deg\":90,\"height_cm\":80}", "90",
    "holes[0] is a number; it must be an object in { }" },
  { "no-angle", "\"angle_deg\":90,", "", "holes[0].angle_deg is missing; give a number from 0 to 360" },
  { "angle", "\"angle_deg\":90", "\"angle_deg\":361", "holes[0].angle_deg is 361; it must be from 0 to 360" },
  { "no-height", ",\"height_cm\":80", "", "holes[0].height_cm is missing; give a number from 0 to 1000" },
  { "height", "\"height_cm\":80", "\"height_cm\":-80",
    "holes[0].height_cm is -80; it must be from 0 to 1000" },
};

static void
test_wrong (gconstpointer data)
{
  const Wrong *wrong = data;
  g_autofree char *kept = kept_text ("taphole.json"), *input = with (kept, wrong->from, wrong->to),
                  *expected = g_strdup_printf ("frostrun-cli: standard input: %s\n", wrong->sentence);
  g_auto (Answer) answer = cli_run ("taphole - --json", input, -1);

  g_assert_cmpstr (answer.err, ==, expected);
  g_assert_cmpstr (answer.out, ==, "");
  g_assert_cmpint (answer.code, ==, 1);
}

/* More holes than any trunk has had are refused; as many as are taken answer at once. */
static void
test_many (void)
{
  for (guint n = 500; n <= 501; n++)
    {
      g_autoptr (GString) input = g_string_new ("{\"girth_cm\":150,\"holes\":[");

      for (guint i = 0; i < n; i++)
        g_string_append_printf (input, "%s{\"angle_deg\":%u,\"height_cm\":%u}", i > 0 ? "," : "", 7 * i % 360,
                                60 + 11 * i % 61);
      g_string_append (input, "]}");
      if (n == 500)
        {
          g_auto (Answer) answer = ask (input->str);

          g_assert_cmpfloat (answer_number (&answer, "clearance_ratio"), <, 1);
        }
      else
        {
          g_auto (Answer) answer = cli_run ("taphole -", input->str, -1);

          g_assert_cmpstr (answer.err, ==,
                           "frostrun-cli: standard input: holes has 501 entries; it must have 0 to 500\n");
        }
    }
}

int
main (int argc, char **argv)
{
  g_setenv ("LC_ALL", "C.UTF-8", TRUE);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cli/taphole/example", test_example);
  g_test_add_func ("/cli/taphole/cases", test_cases);
  g_test_add_func ("/cli/taphole/full", test_full);
  g_test_add_func ("/cli/taphole/usual-rule", test_usual_rule);
  g_test_add_func ("/cli/taphole/text", test_text);
  g_test_add_func ("/cli/taphole/manual", test_manual);
  g_test_add_func ("/cli/taphole/many", test_many);
  for (guint i = 0; i < G_N_ELEMENTS (wrongs); i++)
    {
      g_autofree char *path = g_strconcat ("/cli/taphole/wrong/", wrongs[i].name, NULL);

      g_test_add_data_func (path, &wrongs[i], test_wrong);
    }
  return g_test_run ();
}
