/* frostrun-cli stock and ledger against a book of two containers and two days: every key of --json, values worked by hand, the text for
 * people word for word, and a sentence for everything that is wrong.
 *
 * By hand, sap of 2 °Bx 1.0079 kg/L, of 2.4 °Bx 1.0095 kg/L at 4 °C (sugar manual's polynomial): the jug takes 20 L of 2 °Bx at 8 in the
 * morning of the 12th, gives 10 L to the boil, is found to hold 8 L and takes 4 L of 2.4 °Bx: 12 L with 0.2582 kg of sugar, 2.133 °Bx. The
 * barrel takes 12 L of 2.4 °Bx and 5 L whose sweetness was not read, which is taken from the nearest reading, and gives 4 L. The fridge
 * allows 48 h, of which 28 are used. */
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
  return run ("%s --book %s %s", NULL, command, book, options);
}

static JsonObject *
element (const Answer *answer, const char *array, guint index)
{
  JsonArray *list = json_object_get_array_member (json_node_get_object (answer_root (answer)), array);

  g_assert_cmpuint (index, <, json_array_get_length (list));
  return json_array_get_object_element (list, index);
}

static void
test_stock (void)
{
  static const char *const keys[] = { "from", "at", "volume_l", "mass_kg", "sugar_kg", "capacity_l", "oldest", "first",
                                      "containers", "lines", NULL },
                           *const place_keys[]
                           = { "container", "place",  "capacity_l",   "volume_l", "mass_kg",    "sugar_kg", "brix",
                               "brix_assumed", "liquid_brix", "temp_c", "temp_from", "ice_ratio", "oldest", "used_ratio",
                               "spoils", "changed", "clarity", "smell", NULL },
                           *const line_keys[] = { "code", "at", "since", "container", "computed_l", "volume_l", "sugar_kg",
                                                  "record", NULL };
  g_auto (Answer) answer = ask ("stock", "--at 2026-03-13T12:00 --json");
  JsonObject *place, *line;

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpint (answer.code, ==, 0);
  has_keys (json_node_get_object (answer_root (&answer)), keys);
  NEAR (answer_number (&answer, "volume_l"), 25, 1e-5);
  NEAR (answer_number (&answer, "capacity_l"), 100, 1e-12);
  g_assert_cmpstr (answer_string (&answer, "at"), ==, "2026-03-13T16:00:00Z");
  g_assert_cmpstr (answer_string (&answer, "from"), ==, "2025-08-01T04:00:00Z");
  g_assert_cmpstr (answer_string (&answer, "first/code"), ==, "oldest");
  g_assert_cmpstr (answer_string (&answer, "first/container/name"), ==, "Fridge jug");
  place = element (&answer, "containers", 0);
  has_keys (place, place_keys);
  NEAR (json_object_get_double_member (place, "volume_l"), 12, 1e-5);
  NEAR (json_object_get_double_member (place, "sugar_kg"), 0.2582, 1e-4);
  NEAR (json_object_get_double_member (place, "brix"), 2.133, 1e-3);
  NEAR (json_object_get_double_member (place, "used_ratio"), 28.0 / 48, 1e-9);
  g_assert_cmpstr (json_object_get_string_member (place, "spoils"), ==, "2026-03-14T12:00:00Z");
  g_assert_cmpstr (json_object_get_string_member (place, "temp_from"), ==, "typed");
  place = element (&answer, "containers", 1);
  NEAR (json_object_get_double_member (place, "brix"), 2.4, 1e-9);
  g_assert_true (json_object_get_boolean_member (place, "brix_assumed"));
  g_assert_cmpstr (json_object_get_string_member (place, "spoils"), ==, "2026-03-15T11:00:00Z");
  line = element (&answer, "lines", 0);
  has_keys (line, line_keys);
  g_assert_cmpstr (json_object_get_string_member (line, "code"), ==, "found");
  NEAR (json_object_get_double_member (line, "volume_l"), -2, 1e-9);
  g_assert_cmpstr (json_object_get_string_member (json_object_get_object_member (line, "record"), "uid"), ==,
                   "00000000000000080000000000000001");
}

/* Earlier, and in another season, there is less or nothing. */
static void
test_times (void)
{
  g_auto (Answer) earlier = ask ("stock", "--at 2026-03-12T09:00 --json");
  g_auto (Answer) other = ask ("stock", "--season 2025 --json");
  g_auto (Answer) account = ask ("ledger", "--season 2025");

  NEAR (answer_number (&earlier, "volume_l"), 20, 1e-9);
  NEAR (answer_number (&other, "volume_l"), 0, 1e-12);
  g_assert_cmpstr (answer_string (&other, "at"), ==, "2025-08-01T03:59:59Z");
  g_assert_cmpint (account.code, ==, 0);
  g_assert_true (g_str_has_prefix (account.out, "Season 2025: No sap came in.\n"));
}

static void
test_ledger (void)
{
  static const char *const keys[] = { "season", "from", "at", "all", "tree_ice", "containers", "nights", "lines", NULL },
                           *const account_keys[] = { "container", "gathered", "moved_out", "boiled", "ice", "spilled",
                                                     "spoiled", "drunk", "found_more", "moved_in", "found_less", "there",
                                                     "mixing_l", NULL },
                           *const night_keys[] = { "evening", "uid", "start", "pours", "told", "poured", NULL },
                           *const line_keys[]
                           = { "code", "at", "since", "container", "computed_l", "volume_l", "sugar_kg", "error_l",
                               "record", "night", "causes", NULL },
                           *const cause_keys[] = { "code", "chance_ratio", "record", "other", "slip", "volume_l", NULL };
  g_auto (Answer) answer = ask ("ledger", "--at 2026-03-13T12:00 --json");
  JsonObject *line, *cause;

  g_assert_cmpint (answer.code, ==, 0);
  has_keys (json_node_get_object (answer_root (&answer)), keys);
  NEAR (answer_number (&answer, "season"), 2026, 1e-12);
  NEAR (answer_number (&answer, "all/gathered/volume_l"), 37, 1e-12);
  NEAR (answer_number (&answer, "all/boiled/volume_l"), 10, 1e-12);
  NEAR (answer_number (&answer, "all/found_less/volume_l"), -2, 1e-9);
  NEAR (answer_number (&answer, "all/there/volume_l"), 25, 1e-5);
  NEAR (answer_number (&answer, "tree_ice/volume_l"), 3, 1e-12);
  /* Sugar adds up: what came in less the boil less what was missing. */
  NEAR (answer_number (&answer, "all/there/sugar_kg"),
        answer_number (&answer, "all/gathered/sugar_kg") - answer_number (&answer, "all/boiled/sugar_kg")
            + answer_number (&answer, "all/found_less/sugar_kg"),
        1e-12);
  has_keys (element (&answer, "containers", 0), account_keys);
  has_keys (element (&answer, "nights", 0), night_keys);
  line = element (&answer, "lines", 0);
  has_keys (line, line_keys);
  cause = json_array_get_object_element (json_object_get_array_member (line, "causes"), 0);
  has_keys (cause, cause_keys);
  g_assert_cmpstr (json_object_get_string_member (cause, "code"), ==, "measuring");
}

static void
same_text (const char *command, const char *name)
{
  g_auto (Answer) answer = ask (command, "--at 2026-03-13T12:00");
  g_autofree char *kept = kept_text (name);

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpstr (answer.out, ==, kept);
}

static void
test_texts (void)
{
  same_text ("stock", "stock.txt");
  same_text ("ledger", "ledger.txt");
}

static void
complains (const char *command, const char *options, const char *sentence)
{
  g_auto (Answer) answer = ask (command, options);

  g_assert_cmpint (answer.code, ==, 1);
  g_assert_cmpstr (answer.out, ==, "");
  g_assert_cmpstr (answer.err, ==, sentence);
}

static void
test_wrong (void)
{
  complains ("stock", "--at noon", "frostrun-cli: --at “noon” is no time; write 19:00 or 2026-03-11T19:00\n");
  complains ("stock", "--at 0001-01-01T00:00",
             "frostrun-cli: --at “0001-01-01T00:00” has to lie in the years 1600 to 2400\n");
  complains ("stock", "--at 9999-12-31T23:59",
             "frostrun-cli: --at “9999-12-31T23:59” has to lie in the years 1600 to 2400\n");
  complains ("stock", "--at 2026-03-08T02:30",
             "frostrun-cli: --at “2026-03-08T02:30” does not exist that night: the clock goes from 01:59 to 03:00; take one "
             "of these\n");
  complains ("ledger", "--season 26", "frostrun-cli: --season “26” has to be a whole number from 2001 to 2059\n");
  complains ("ledger", "extra", "frostrun-cli: ledger does not take “extra”; see frostrun-cli ledger --help\n");
}

/* A book without weather says that it cannot tell. */
static void
test_kitchen (void)
{
  g_auto (Answer) none = ask ("kitchen", "--at 2026-03-13T12:00 --json"), text = ask ("kitchen", "--at 2026-03-13T12:00");
  JsonObject *root = json_node_get_object (answer_root (&none));

  g_assert_cmpint (none.code, ==, 0);
  g_assert_true (json_object_get_null_member (root, "middle"));
  g_assert_cmpint (text.code, ==, 0);
  g_assert_nonnull (strstr (text.out, "."));
  g_assert_null (strstr (text.out, "<b>"));
}

int
main (int argc, char **argv)
{
  int failed;

  g_test_init (&argc, &argv, NULL);
  folder = make_folder ();
  book = g_build_filename (folder, "season.frostrun", NULL);
  make_book (book, "stock-book.json", "2026-03-13T12:00:00-04:00");
  g_test_add_func ("/stock/json", test_stock);
  g_test_add_func ("/stock/times", test_times);
  g_test_add_func ("/ledger/json", test_ledger);
  g_test_add_func ("/stock/texts", test_texts);
  g_test_add_func ("/stock/wrong", test_wrong);
  g_test_add_func ("/cli/stock/kitchen", test_kitchen);
  failed = g_test_run ();
  drop_folder (folder);
  g_free (book);
  return failed;
}
