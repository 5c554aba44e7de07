/* frostrun-cli bush, trunk, tap-plan and round against a book of five trees: every key of --json, values
 * worked by hand, the text for people word for word, and a sentence for everything that is wrong. */
#include "books.h"
#include "spawn.h"

#include <gio/gio.h>
#include <math.h>
#include <string.h>

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static char *folder, *book;

static Answer
ask (const char *command, const char *options)
{
  return run ("%s --book %s --now 2026-03-15T12:00 %s", NULL, command, book, options);
}

#define TREE_KEYS                                                                                            \
  "name", "species", "group", "health", "x_m", "y_m", "diameter_m", "girth_m", "measured_on",                \
      "growth_m_per_year", "taps_by_size", "taps_max", "do_not_tap", "reasons", "taps_set", "taps_planned",  \
      "season_l", "season_brix", "season_sugar_kg", "gathered_l", "gathered_brix", "estimated_l",              \
      "estimated_sugar_kg", "last_season", "last_l", "rank", "n_ranked", "trend_ratio", "expected_l", "expected_low_l", "expected_high_l", "expected_brix"

static void
test_bush (void)
{
  static const char *const keys[] = { "season", "guideline", "trees", NULL }, *const tree_keys[]
                                                                              = { TREE_KEYS, NULL };
  g_auto (Answer) answer = ask ("bush", "--json");
  JsonObject *root, *tree;
  JsonArray *trees;

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpint (answer.code, ==, 0);
  root = json_node_get_object (answer_root (&answer));
  has_keys (root, keys);
  g_assert_cmpint (json_object_get_int_member (root, "season"), ==, 2026);
  trees = json_object_get_array_member (root, "trees");
  g_assert_cmpuint (json_array_get_length (trees), ==, 5);
  for (guint i = 0; i < 5; i++)
    has_keys (json_array_get_object_element (trees, i), tree_keys);
  tree = json_array_get_object_element (trees, 0);
  g_assert_cmpstr (json_object_get_string_member (tree, "name"), ==, "Elbow");
  NEAR (json_object_get_double_member (tree, "diameter_m"), 1.5 / G_PI, 1e-12);
  g_assert_cmpint (json_object_get_int_member (tree, "taps_max"), ==, 2); /* 47.7 cm is over 18 in */
  g_assert_cmpint (json_object_get_int_member (tree, "taps_planned"), ==, 1);
  g_assert_true (json_object_get_null_member (tree, "season_l"));
  g_assert_cmpint (json_object_get_int_member (tree, "last_season"), ==, 2025);
  NEAR (json_object_get_double_member (tree, "last_l"), 40, 1e-12);
  /* 1.01 kg in 2025 against a mean of 0.60 and 0.23 kg. */
  g_assert_cmpint (json_object_get_int_member (tree, "rank"), ==, 1);
  g_assert_cmpint (json_object_get_int_member (tree, "n_ranked"), ==, 2);
  tree = json_array_get_object_element (trees, 1);
  g_assert_cmpstr (json_object_get_string_member (tree, "group"), ==, "soft");
  g_assert_cmpint (json_object_get_int_member (tree, "taps_max"), ==, 1); /* weak */
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (tree, "reasons")), ==, 2);
  /* 12 L × 1.0057 kg/L (1.9 °Bx at 20 °C) × 1.9 %. */
  NEAR (json_object_get_double_member (tree, "season_sugar_kg"), 0.2293, 0.0001);
  tree = json_array_get_object_element (trees, 2);
  g_assert_true (json_object_get_boolean_member (tree, "do_not_tap"));
  g_assert_cmpint (json_object_get_int_member (tree, "taps_max"), ==, 0);
  tree = json_array_get_object_element (trees, 3);
  g_assert_true (json_object_get_null_member (tree, "taps_max"));
  g_assert_true (json_object_get_null_member (tree, "rank"));
}

static void
test_season (void)
{
  g_auto (Answer) answer = ask ("bush", "--season 2025 --json");

  g_assert_cmpint (answer.code, ==, 0);
  NEAR (answer_number (&answer, "season"), 2025, 1e-12);
  NEAR (answer_number (&answer, "trees/0/season_l"), 40, 1e-12);
  NEAR (answer_number (&answer, "trees/0/taps_set"), 1, 1e-12);
  NEAR (answer_number (&answer, "trees/0/taps_planned"), 0, 1e-12);
}

/* The search's own example: 150 cm round, a hole due east at 80 cm; and a planned one on the far side, kept
 * clear of too: due north and south are 37.5 cm from both, two and a half times 15 cm. */
static void
test_trunk (void)
{
  static const char *const keys[]
      = { "season",       "sentence", "reason", "sideways_m", "up_down_m", "min_height_m",
          "max_height_m", "holes",    "places", "seasons",    TREE_KEYS,   NULL };
  g_auto (Answer) answer = ask ("trunk", "--tree Elbow --json");

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpint (answer.code, ==, 0);
  has_keys (json_node_get_object (answer_root (&answer)), keys);
  g_assert_nonnull (strstr (answer_string (&answer, "sentence"), "The planned tap goes at 270°"));
  NEAR (answer_number (&answer, "holes/0/angle_deg"), 90, 1e-12);
  g_assert_cmpstr (answer_string (&answer, "holes/0/state"), ==, "open");
  g_assert_cmpstr (answer_string (&answer, "holes/1/state"), ==, "planned");
  NEAR (answer_number (&answer, "places/0/angle_deg"), 180, 1e-6);
  NEAR (answer_number (&answer, "places/0/clearance_ratio"), 2.5, 1e-9);
  NEAR (answer_number (&answer, "seasons/0/volume_l"), 40, 1e-12);
  NEAR (answer_number (&answer, "seasons/0/rank"), 1, 1e-12);
}

static void
test_more_places (void)
{
  g_auto (Answer) answer = ask ("trunk", "--tree Elbow --places 3 --json");

  g_assert_cmpint (answer.code, ==, 0);
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *path = g_strdup_printf ("places/%u/clearance_ratio", i);

      g_assert_cmpfloat (answer_number (&answer, path), >, 1);
    }
}

/* Three buckets: two on the sound tree, one on the weak one; the sapling and the two nobody measured get
 * none. */
static void
test_plan (void)
{
  static const char *const keys[] = { "season",
                                      "status",
                                      "sentence",
                                      "sugar_kg",
                                      "sugar_low_kg",
                                      "sugar_high_kg",
                                      "litres",
                                      "peak_litres_per_day",
                                      "buckets_used",
                                      "trees_used",
                                      "next_bucket_kg",
                                      "kitchen_limits",
                                      "kitchen_limits_from_buckets",
                                      "walk_limits",
                                      "walk_m",
                                      "trees_without_place",
                                      "exact",
                                      "bound_kg",
                                      "trees",
                                      "sugar_by_buckets_kg",
                                      NULL };
  const double taps[] = { 2, 1, 0, 0, 0 };
  g_auto (Answer) answer = ask ("tap-plan", "--json");

  g_assert_cmpstr (answer.err, ==, "");
  has_keys (json_node_get_object (answer_root (&answer)), keys);
  g_assert_cmpstr (answer_string (&answer, "status"), ==, "ok");
  for (guint i = 0; i < G_N_ELEMENTS (taps); i++)
    {
      g_autofree char *path = g_strdup_printf ("trees/%u/taps", i);

      NEAR (answer_number (&answer, path), taps[i], 1e-12);
    }
  NEAR (answer_number (&answer, "sugar_by_buckets_kg/3"), answer_number (&answer, "sugar_kg"), 1e-9);
  NEAR (answer_number (&answer, "peak_litres_per_day"), answer_number (&answer, "litres") / 30 * 3, 1e-9);
}

/* From the middle of the three placed trees, (20/3, 20/3), past (10, 0) and (10, 10). */
static void
test_round (void)
{
  static const char *const keys[]
      = { "season",    "sentence",     "trips",   "start_is_drawn", "start_x_m",
          "start_y_m", "walk_m",       "bound_m", "exact",          "trees_without_place",
          "litres",    "litre_metres", NULL };
  const double walk_m = 10 + hypot (10.0 / 3, 20.0 / 3) + hypot (10.0 / 3, 10.0 / 3);
  g_auto (Answer) planned = ask ("round", "--json");
  double planned_l;

  g_assert_cmpstr (planned.err, ==, "");
  has_keys (json_node_get_object (answer_root (&planned)), keys);
  NEAR (answer_number (&planned, "walk_m"), walk_m, 1e-9);
  planned_l = answer_number (&planned, "trips/0/1/litres");
  {
    g_auto (Answer) peak = ask ("round", "--which set --peak --json");

    NEAR (answer_number (&peak, "walk_m"), 2 * hypot (10.0 / 3, 10.0 / 3), 1e-9);
    /* The peak ratio is 3. */
    NEAR (answer_number (&peak, "litres"), 3 * planned_l, 1e-9);
  }
}

static void
expect_text (const char *command, const char *options, const char *name)
{
  g_auto (Answer) answer = ask (command, options);
  g_autofree char *kept = kept_text (name);

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpint (answer.code, ==, 0);
  g_assert_cmpstr (answer.out, ==, kept);
}

static void
test_text (void)
{
  expect_text ("bush", "", "bush.txt");
  expect_text ("trunk", "--tree Elbow", "trunk.txt");
  expect_text ("tap-plan", "", "bush-tap-plan.txt");
  expect_text ("round", "", "bush-round.txt");
}

static void
test_refused (void)
{
  static const struct
  {
    const char *command, *options, *says;
  } wrong[] = {
    { "trunk", "", "trunk needs --tree NAME" },
    { "trunk", "--tree Nobody", "the book has no tree “Nobody”" },
    { "trunk", "--tree Twin", "2 trees are called “Twin”" },
    { "trunk", "--tree Elbow --places 0", "--places “0” has to be a whole number from 1 to 16" },
    { "bush", "--season spring", "--season “spring” has to be a whole number from 1600 to 2400" },
    { "bush", "--season 1599", "from 1600 to 2400" },
    { "bush", "--now yesterday", "is no time" },
    { "round", "--which all", "--which “all” has to be set or planned" },
    { "tap-plan", "trees.json", "tap-plan does not take “trees.json”" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_auto (Answer) answer = ask (wrong[i].command, wrong[i].options);

      g_assert_cmpint (answer.code, ==, 1);
      g_assert_cmpstr (answer.out, ==, "");
      if (strstr (answer.err, wrong[i].says) == NULL)
        g_error ("“%s” does not say “%s”", answer.err, wrong[i].says);
    }
}

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  folder = make_folder ();
  book = g_build_filename (folder, "bush.frostrun", NULL);
  make_book (book, "bush-book.json", "2026-03-15T12:00:00-04:00");
  g_test_add_func ("/cli-bush/bush", test_bush);
  g_test_add_func ("/cli-bush/season", test_season);
  g_test_add_func ("/cli-bush/trunk", test_trunk);
  g_test_add_func ("/cli-bush/more-places", test_more_places);
  g_test_add_func ("/cli-bush/plan", test_plan);
  g_test_add_func ("/cli-bush/round", test_round);
  g_test_add_func ("/cli-bush/text", test_text);
  g_test_add_func ("/cli-bush/refused", test_refused);
  result = g_test_run ();
  drop_folder (folder);
  g_free (book);
  return result;
}
