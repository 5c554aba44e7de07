/* frostrun-cli season, reminders, checklist and calendar against a book of one cooker: every key of --json, values worked by hand, and a
 * sentence for everything that is wrong.
 *
 * By hand: 49 L came in, 30 of them were boiled on the evening of 8 March, 19 kWh read of 20 planned for $2.00, so $1.90. 30 L of 2 °Bx
 * weigh 1.0079 kg/L at 4 °C (see test-stock) and hold 0.6047 kg of sugar; a litre of syrup of 66.9 °Bx holds 0.8885 kg (see test-season
 * of the domain): 0.681 L. */
#include "books.h"
#include "spawn.h"

#include <gio/gio.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static char *folder, *book;

static Answer
ask (const char *command, const char *options)
{
  return run ("%s --book %s --now 2026-03-11T12:00 %s", NULL, command, book, options);
}

static Answer
ask_well (const char *command, const char *options)
{
  Answer answer = ask (command, options);

  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpint (answer.code, ==, 0);
  return answer;
}

static void
assert_holds (const char *text, const char *part)
{
  g_auto (GStrv) parts = g_strsplit (text, "\302\240", -1);
  g_autofree char *is = g_strjoinv (" ", parts);

  if (strstr (is, part) == NULL)
    g_error ("“%s” does not say “%s”", is, part);
}

#define KEYS(...) (const char *const[]){ __VA_ARGS__, NULL }
#define TALLY_KEYS                                                                                                     \
  "season", "until", "gathered_l", "sugar_kg", "ice_l", "waiting_l", "boiled_l", "syrup_l", "energy_kwh", "cost",      \
      "gathering_days", "nights", "priced_nights"
#define DAY_KEYS                                                                                                       \
  "date", "from", "to", "clock_change_s", "holiday", "low_c", "high_c", "expected_weather", "buds", "taps_set",        \
      "taps_pulled", "gatherings", "estimated", "gathered_l", "sugar_kg", "sugar_assumed", "ice_l", "expected_lo_l",   \
      "expected_l", "expected_hi_l", "store_l", "boils", "boil_planned", "boiled_l", "boiled_sugar_kg", "energy_kwh",  \
      "cost", "bottles", "bottled_l", "reminders", "note"

static JsonObject *
day_of (JsonObject *root, const char *date)
{
  JsonArray *days = json_object_get_array_member (root, "days");

  for (guint i = 0; i < json_array_get_length (days); i++)
    if (strcmp (json_object_get_string_member (json_array_get_object_element (days, i), "date"), date) == 0)
      return json_array_get_object_element (days, i);
  g_error ("no %s", date);
}

static void
test_season (void)
{
  g_auto (Answer) answer = ask_well ("season", "--json"), past = ask_well ("season", "--season 2025 --json"),
                  text = ask_well ("season", "");
  JsonObject *root = json_node_get_object (answer_root (&answer)), *tally, *day;

  has_keys (root, KEYS ("sentence", "reason", "tally", "now", "today", "capacity_l", "days", "levels", "prices", "past"));
  tally = json_object_get_object_member (root, "tally");
  has_keys (tally, KEYS (TALLY_KEYS));
  has_keys (json_object_get_object_member (root, "past"), KEYS (TALLY_KEYS));
  g_assert_cmpstr (json_object_get_string_member (root, "today"), ==, "2026-03-11");
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (tally, "gathered_l"), 49, 1e-9);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (tally, "waiting_l"), 19, 1e-6);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (tally, "boiled_l"), 30, 1e-9);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (tally, "cost"), 190, 1e-9);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (tally, "syrup_l"), 0.681, 1e-3);
  for (guint i = 0; i < json_array_get_length (json_object_get_array_member (root, "days")); i++)
    has_keys (json_array_get_object_element (json_object_get_array_member (root, "days"), i), KEYS (DAY_KEYS));
  day = day_of (root, "2026-03-08");
  g_assert_cmpint (json_object_get_int_member (day, "clock_change_s"), ==, 3600);
  g_assert_cmpstr (json_object_get_string_member (day, "to"), ==, "2026-03-09T04:00:00Z");
  g_assert_cmpint (json_object_get_int_member (day, "boils"), ==, 1);
  g_assert_cmpstr (json_object_get_string_member (day_of (root, "2026-03-11"), "note"), ==, "ran <all> day");
  g_assert_true (json_object_get_null_member (day_of (root, "2026-03-12"), "gathered_l"));
  g_assert_true (json_object_get_boolean_member (day_of (root, "2026-03-12"), "expected_weather"));
  g_assert_true (json_object_get_boolean_member (day_of (root, "2026-04-03"), "holiday"));
  has_keys (json_array_get_object_element (json_object_get_array_member (root, "levels"), 0), KEYS ("at", "volume_l"));
  has_keys (json_array_get_object_element (json_object_get_array_member (root, "prices"), 0),
            KEYS ("from", "to", "price", "level"));
  assert_holds (json_object_get_string_member (root, "sentence"), "49.0 L gathered, 19.0 L waiting, 0.68 L of syrup.");

  g_assert_cmpfloat_with_epsilon (answer_number (&past, "tally/gathered_l"), 40, 1e-9);
  assert_holds (text.out, "Season of 2026");
  assert_holds (text.out, "49.0 L gathered, 19.0 L waiting, 0.68 L of syrup.");
  assert_holds (text.out, "30.0 L boiled in 1 night for $1.90 of power.");
  assert_holds (text.out, "clocks go forward");
}

static void
test_reminders (void)
{
  static const char *const standing[] = { "boil_by", "frost", "full", "chore", "chore", "chore", "chore" };
  g_auto (Answer) answer = ask_well ("reminders", "--json"), all = ask_well ("reminders", "--all --json"),
                  text = ask_well ("reminders", "");
  JsonArray *reminders = json_object_get_array_member (json_node_get_object (answer_root (&answer)), "reminders");
  guint n_dismissed = 0;

  g_assert_cmpuint (json_array_get_length (reminders), ==, G_N_ELEMENTS (standing));
  for (guint i = 0; i < G_N_ELEMENTS (standing); i++)
    {
      JsonObject *one = json_array_get_object_element (reminders, i);

      has_keys (one, KEYS ("code", "key", "urgency", "dismissed", "due", "day", "about", "task", "buds", "n", "wanted", "weeks",
                           "volume_l", "capacity_l", "temp_c", "age_s", "title", "sentence", "why"));
      g_assert_cmpstr (json_object_get_string_member (one, "code"), ==, standing[i]);
    }
  has_keys (json_object_get_object_member (json_array_get_object_element (reminders, 0), "about"), KEYS ("kind", "uid", "name"));
  g_assert_cmpfloat (json_object_get_double_member (json_array_get_object_element (reminders, 1), "temp_c"), ==, -6);
  reminders = json_object_get_array_member (json_node_get_object (answer_root (&all)), "reminders");
  for (guint i = 0; i < json_array_get_length (reminders); i++)
    n_dismissed += json_object_get_boolean_member (json_array_get_object_element (reminders, i), "dismissed");
  g_assert_cmpuint (n_dismissed, ==, 1);
  assert_holds (text.out, "!! Gather by 18:00: −6 °C is expected tonight");
  assert_holds (text.out, "licensed electrician");
}

static void
test_checklist (void)
{
  g_auto (Answer) answer = ask_well ("checklist", "--json"), text = ask_well ("checklist", "");
  JsonArray *items = json_object_get_array_member (json_node_get_object (answer_root (&answer)), "items");
  guint n_done = 0, n_late = 0;

  for (guint i = 0; i < json_array_get_length (items); i++)
    {
      JsonObject *item = json_array_get_object_element (items, i);
      const char *state = json_object_get_string_member (item, "state");

      has_keys (item, KEYS ("task", "kit", "state", "why", "done_on", "who", "used_on", "title", "sentence"));
      n_done += strcmp (state, "done") == 0;
      n_late += strcmp (state, "late") == 0;
      if (strcmp (state, "done") == 0)
        g_assert_cmpstr (json_object_get_string_member (item, "who"), ==, "Ada");
    }
  /* Washed: the crock. In use: pot, plate, crock, shed; to wash, test, look at twice, and test. */
  g_assert_cmpuint (n_done, ==, 1);
  g_assert_cmpuint (n_late, ==, 5);
  assert_holds (text.out, "Cellar crock: done Friday 27 February");
  assert_holds (text.out, "local food authority");
}

static void
test_calendar (void)
{
  g_auto (Answer) ics = ask_well ("calendar", "--format ics"), again = ask_well ("calendar", "--format ics"),
                  json = ask_well ("calendar", "--json"), same = ask_well ("calendar", "--format json"),
                  days = ask_well ("calendar", "--json --from 2026-03-07 --to 2026-03-08"),
                  years = ask_well ("calendar", "--json --from 2025-03-01 --to 2026-07-31"),
                  before = ask_well ("calendar", "--json --to 2025-12-31");
  g_autofree char *path = g_build_filename (folder, "sap.ics", NULL), *options = g_strdup_printf ("--format ics -o %s", path),
                  *written = NULL;
  g_auto (Answer) kept = ask_well ("calendar", options);
  guint n_ics = 0;

  g_assert_true (g_str_has_prefix (ics.out, "BEGIN:VCALENDAR\r\n"));
  g_assert_cmpstr (ics.out, ==, again.out);
  g_assert_cmpstr (json.out, ==, same.out);
  for (const char *p = strstr (ics.out, "BEGIN:VEVENT"); p != NULL; p = strstr (p + 1, "BEGIN:VEVENT"))
    n_ics++;
  /* Taps; two days of sap; the boil, over, so without alarms; the crock; frost; the clock; Good Friday. The old taps were put away. */
  g_assert_cmpuint (n_ics, ==, 8);
  g_assert_cmpuint (
      json_array_get_length (json_object_get_array_member (json_node_get_object (answer_root (&json)), "events")), ==, 8);
  g_assert_cmpuint (
      json_array_get_length (json_object_get_array_member (json_node_get_object (answer_root (&days)), "events")), ==, 3);
  /* 2025: taps set and pulled, a day of sap, the clock. */
  g_assert_cmpuint (
      json_array_get_length (json_object_get_array_member (json_node_get_object (answer_root (&years)), "events")), ==, 12);
  g_assert_cmpuint (
      json_array_get_length (json_object_get_array_member (json_node_get_object (answer_root (&before)), "events")), ==, 0);
  /* The evening after the clock went forward, by the new clock: 23:00 and 10:30 UTC (IANA time zone database). */
  g_assert_nonnull (strstr (ics.out, "DTSTART;TZID=America/Toronto:20260308T190000\r\n"));
  g_assert_nonnull (strstr (ics.out, "DTEND;TZID=America/Toronto:20260309T063000\r\n"));
  assert_holds (kept.out, "8 events are in ");
  g_assert_true (g_file_get_contents (path, &written, NULL, NULL));
  g_assert_cmpstr (written, ==, ics.out);
  g_unlink (path);
}

static void
test_refused (void)
{
  static const struct
  {
    const char *command;
    const char *options;
    const char *says;
  } wrong[] = {
    { "season", "--season spring", "--season “spring” has to be a whole number from 2001 to 2059" },
    { "season", "--now yesterday", "is no time" },
    { "reminders", "it", "reminders does not take “it”" },
    { "checklist", "--season 99", "from 2001 to 2059" },
    { "calendar", "", "--format is missing; give ics or json" },
    { "calendar", "--format vcs", "--format “vcs” must be ics or json" },
    { "calendar", "--format ics --json", "does not go with ics" },
    { "calendar", "--json --from 2026-02-30", "--from “2026-02-30” is no day" },
    { "calendar", "--json --from 2026-03-02 --to 2026-03-01", "lies before" },
    { "calendar", "--json --to 9999-03-01", "2000 to 2059" },
  };
  g_autofree char *onto = g_strdup_printf ("--format ics -o %s", book);
  g_auto (Answer) itself = ask ("calendar", onto);

  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_auto (Answer) answer = ask (wrong[i].command, wrong[i].options);

      g_assert_cmpint (answer.code, ==, 1);
      g_assert_cmpstr (answer.out, ==, "");
      assert_holds (answer.err, wrong[i].says);
    }
  g_assert_cmpint (itself.code, ==, 1);
  assert_holds (itself.err, "is the book itself");
}

/* What came in is the book's, whether or not any weather is. */
static void
test_forecast (void)
{
  g_auto (Answer) answer = ask_well ("forecast", "--json"), text = ask_well ("forecast", ""),
                  wrong = run ("forecast --book %s --now yesterday", NULL, book);
  JsonObject *season = json_object_get_object_member (json_node_get_object (answer_root (&answer)), "season");

  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (season, "gathered_l"), 49, 1e-9);
  assert_holds (text.out, "Gathered");
  g_assert_cmpint (wrong.code, !=, 0);
  assert_holds (wrong.err, "--now");
}

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  folder = make_folder ();
  book = g_build_filename (folder, "season.frostrun", NULL);
  make_book (book, "season-book.json", "2026-03-11T12:00:00-04:00");
  g_test_add_func ("/cli-season/season", test_season);
  g_test_add_func ("/cli-season/reminders", test_reminders);
  g_test_add_func ("/cli-season/checklist", test_checklist);
  g_test_add_func ("/cli-season/calendar", test_calendar);
  g_test_add_func ("/cli-season/forecast", test_forecast);
  g_test_add_func ("/cli-season/refused", test_refused);
  result = g_test_run ();
  drop_folder (folder);
  g_free (book);
  return result;
}
