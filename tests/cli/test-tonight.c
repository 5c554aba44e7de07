/* tonight against a small book made here: the kept text word for word, the keys of --json, every option, and
 * what is refused with which exit code. */
#include "books.h"
#include "spawn.h"

#include "domain/records/kinds.h"
#include "store/store.h"

#include <gio/gio.h>
#include <math.h>
#include <string.h>

static char *folder, *book;

typedef struct
{
  FrKindId kind;
  const char *field;
  const char *text;
  double value;
} Entry;

/* A new record begins at every name. Prices: Ontario Energy Board, winter 2024/25. */
static const Entry entries[] = {
  { FR_KIND_HOUSEHOLD, "name", "Invented", 0 },
  { FR_KIND_HOUSEHOLD, "zone", "America/Toronto", 0 },
  { FR_KIND_HOUSEHOLD, "currency", "CAD", 0 },
  { FR_KIND_HOUSEHOLD, "units", "metric", 0 },
  { FR_KIND_HOUSEHOLD, "sweetness", "brix", 0 },
  { FR_KIND_HOUSEHOLD, "measures", "bucket = 11", 0 },
  { FR_KIND_HOUSEHOLD, "altitude_m", NULL, 250 },
  { FR_KIND_HOUSEHOLD, "syrup_brix", NULL, 66.9 },
  { FR_KIND_HOUSEHOLD, "jar_l", NULL, 0.25 },
  { FR_KIND_CIRCUIT, "name", "shed", 0 },
  { FR_KIND_CIRCUIT, "breaker_a", NULL, 40 },
  { FR_KIND_CIRCUIT, "volts_v", NULL, 120 },
  { FR_KIND_CIRCUIT, "other_load_w", NULL, 0 },
  { FR_KIND_CIRCUIT, "gfci", NULL, 1 },
  { FR_KIND_VESSEL, "name", "wide pot", 0 },
  { FR_KIND_VESSEL, "shape", "cylinder", 0 },
  { FR_KIND_VESSEL, "diameter_m", NULL, 0.3 },
  { FR_KIND_VESSEL, "height_m", NULL, 0.25 },
  { FR_KIND_VESSEL, "hold_l", NULL, 4 },
  { FR_KIND_VESSEL, "cutoff_l", NULL, 1.2 },
  { FR_KIND_VESSEL, "foam_ratio", NULL, 1 },
  { FR_KIND_VESSEL, "bucket_l", NULL, 22 },
  { FR_KIND_VESSEL, "feed", "level", 0 },
  { FR_KIND_COOKER, "name", "plate", 0 },
  { FR_KIND_COOKER, "power_w", NULL, 1800 },
  { FR_KIND_COOKER, "heat_ratio", NULL, 0.8 },
  { FR_KIND_COOKER, "heat_ratio_sd", NULL, 0.02 },
  { FR_KIND_COOKER, "ratio_holds_wall", NULL, 1 },
  { FR_KIND_COOKER, "vessel", NULL, 1 },
  { FR_KIND_COOKER, "circuit", NULL, 1 },
  { FR_KIND_COOKER, "place", "outdoors", 0 },
  { FR_KIND_COOKER, "cutoff_by", "weight", 0 },
  { FR_KIND_COOKER, "name", "ring", 0 },
  { FR_KIND_COOKER, "power_w", NULL, 1000 },
  { FR_KIND_COOKER, "heat_ratio", NULL, 0.7 },
  { FR_KIND_COOKER, "ratio_holds_wall", NULL, 1 },
  { FR_KIND_COOKER, "vessel", NULL, 1 },
  { FR_KIND_COOKER, "circuit", NULL, 1 },
  { FR_KIND_COOKER, "place", "outdoors", 0 },
  { FR_KIND_COOKER, "cutoff_by", "weight", 0 },
  { FR_KIND_TARIFF, "name", "clock", 0 },
  { FR_KIND_TARIFF, "periods",
    "11-01 04-30 weekday 19:00 07:00 7.6\n11-01 04-30 weekday 07:00 11:00 15.8\n11-01 04-30 weekday 11:00 "
    "17:00 12.2\n"
    "11-01 04-30 weekday 17:00 19:00 15.8\n11-01 04-30 weekend 00:00 24:00 7.6\n",
    0 },
  { FR_KIND_TARIFF, "in_use", NULL, 1 },
  { FR_KIND_GATHERING, "gathered_utc", NULL, 1739376000 }, /* 2025-02-12 11:00 there */
  { FR_KIND_GATHERING, "volume_l", NULL, 31 },
  { FR_KIND_GATHERING, "reading_brix", NULL, 2.2 },
  { FR_KIND_GATHERING, "instrument", "guess", 0 },
  { FR_KIND_GATHERING, "sap_c", NULL, 2 },
};

static void
new_book (const char *path, gboolean with_household)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrStore) store = fr_store_open (path, TRUE, &error);
  g_autoptr (FrChange) change = fr_change_new ("set-up", NULL);
  g_autoptr (FrRecord) record = NULL;
  guint n[FR_N_KINDS] = { 0 };

  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      const Entry *entry = &entries[i];
      const FrField *field = fr_kind_field (fr_kind (entry->kind), entry->field);

      if (entry->kind == FR_KIND_HOUSEHOLD && !with_household)
        continue;
      if (record == NULL || record->kind->id != entry->kind || strcmp (entry->field, "name") == 0)
        {
          if (record != NULL)
            fr_change_add (change, NULL, record);
          g_clear_pointer (&record, fr_record_free);
          record = fr_record_new (entry->kind);
          record->id = ++n[entry->kind];
          g_snprintf (record->uid, sizeof record->uid, "%016x%016x", (guint)entry->kind + 1, n[entry->kind]);
        }
      if (entry->text != NULL)
        fr_record_set_text (record, field, entry->text);
      else if (field->type == FR_FIELD_AMOUNT)
        fr_record_set_amount (record, field, entry->value, NULL);
      else
        fr_record_set_int (record, field, (gint64)entry->value);
    }
  fr_change_add (change, NULL, record);
  fr_store_apply (store, change, FR_ORIGIN_CLI, 1739376000, &error);
  g_assert_no_error (error);
}

/* tonight on the book as if it were the afternoon of 12 February 2025. */
static Answer
tonight (const char *options)
{
  return run ("tonight --book %s --now 2025-02-12T16:00 %s", NULL, book, options);
}

static void
expect_refusal (const char *arguments, int code, const char *sentence)
{
  g_auto (Answer) answer = cli_run (arguments, NULL, 0);
  g_autofree char *wanted = g_strdup_printf ("frostrun-cli: %s\n", sentence);

  g_assert_cmpstr (answer.err, ==, wanted);
  g_assert_cmpstr (answer.out, ==, "");
  g_assert_cmpint (answer.code, ==, code);
}

static void
expect_no (const char *options, const char *sentence)
{
  g_autofree char *line = g_strdup_printf ("tonight --book %s --now 2025-02-12T16:00 %s", book, options);

  expect_refusal (line, 1, sentence);
}

static void
test_kept (void)
{
  g_auto (Answer) answer = tonight ("--cooker plate");
  g_autofree char *kept = kept_text ("tonight.txt");

  g_assert_cmpint (answer.code, ==, 0);
  g_assert_cmpstr (answer.err, ==, "");
  g_assert_cmpstr (answer.out, ==, kept);
}

static void
test_json (void)
{
  static const char *const needed[] = {
    "sentence",
    "reason",
    "status",
    "start",
    "off_by",
    "water_boils_c",
    "finish_c",
    "used_l",
    "over_l",
    "keep_until",
    "dry",
    "off",
    "off_early",
    "off_late",
    "left_kg",
    "left_l",
    "left_brix",
    "finish_kg",
    "finish_s",
    "syrup_l",
    "jars",
    "energy_kwh",
    "cost_minor",
    "price_rises",
    "cookers",
    "ways",
    "options",
    "cautions",
    "cost_by_start_hour_minor",
    "fuel_break_even_per_kg_minor",
  };
  g_auto (Answer) answer = tonight ("--json");
  JsonObject *root;

  g_assert_cmpint (answer.code, ==, 0);
  root = json_node_get_object (answer_root (&answer));
  for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
    if (!json_object_has_member (root, needed[i]))
      g_error ("no %s", needed[i]);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (root, "cookers")), ==, 2);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (root, "cost_by_start_hour_minor")),
                    ==, 24);
  g_assert_cmpstr (answer_string (&answer, "status"), ==, "ok");
  g_assert_cmpstr (answer_string (&answer, "start"), ==, "2025-02-13T00:00:00Z");
  g_assert_cmpstr (answer_string (&answer, "off_by"), ==, "2025-02-13T11:50:00Z");
  g_assert_cmpstr (answer_string (&answer, "price_rises"), ==, "2025-02-13T12:00:00Z");
  g_assert_cmpfloat (fabs (answer_number (&answer, "used_l") + answer_number (&answer, "over_l") - 31), <,
                     1e-9);
  /* The sentence is plain. */
  g_assert_null (strchr (answer_string (&answer, "sentence"), '<'));
}

static double
used_with (const char *options)
{
  g_autofree char *line = g_strdup_printf ("--json %s", options);
  g_auto (Answer) answer = tonight (line);

  g_assert_cmpint (answer.code, ==, 0);
  return answer_number (&answer, "used_l");
}

static void
test_options (void)
{
  double all_l = used_with ("--cooker plate");
  g_auto (Answer) times = tonight ("--json --start 20:00 --off-by 05:00");
  g_auto (Answer) sweet = tonight ("--json --cooker plate --brix 6 --no-thicker-than 30");
  g_auto (Answer) other_day = tonight ("--json --start 2025-02-14T19:00");
  g_auto (Answer) midnight = tonight ("--json --start 00:30");
  g_auto (Answer) none = tonight ("--sap 0");
  g_auto (Answer) frost = tonight ("--low -8");
  g_auto (Answer) boils = tonight ("--json --water-boils 98");

  g_assert_cmpfloat (used_with ("--cooker plate --sap 10"), <=, 10);
  g_assert_cmpfloat (fabs (used_with ("--cooker plate --sap 1.5") - 1.5), <, 1e-9);
  g_assert_cmpfloat (used_with ("--cooker plate --cooker ring"), >, all_l + 5);
  g_assert_cmpfloat (used_with ("--cooker plate --off-by 05:00"), <, all_l - 2);
  /* An own measure: four buckets are more than a night takes. */
  g_assert_cmpfloat (fabs (used_with ("--cooker plate --sap 4bucket") - all_l), <, 1e-9);
  g_assert_cmpfloat (used_with ("--cooker plate --sap-temp 20"), >, all_l);
  g_assert_cmpstr (answer_string (&times, "start"), ==, "2025-02-13T01:00:00Z");
  g_assert_cmpstr (answer_string (&times, "off_by"), ==, "2025-02-13T10:00:00Z");
  g_assert_cmpfloat (answer_number (&sweet, "left_brix"), <=, 30);
  g_assert_cmpfloat (answer_number (&sweet, "left_brix"), >, 29);
  g_assert_cmpstr (answer_string (&other_day, "start"), ==, "2025-02-15T00:00:00Z");
  g_assert_cmpstr (answer_string (&other_day, "off_by"), ==, "2025-02-15T11:50:00Z");
  g_assert_cmpstr (answer_string (&midnight, "start"), ==, "2025-02-13T05:30:00Z");
  g_assert_cmpint (none.code, ==, 0);
  g_assert_nonnull (strstr (none.out, "Nothing to boil tonight."));
  g_assert_nonnull (strstr (frost.out, "Wrap the feed line"));
  g_assert_cmpfloat (fabs (answer_number (&boils, "water_boils_c") - 98), <, 1e-6);
}

static void
test_refused (void)
{
  expect_no ("--start 25:00", "--start “25:00” is no time; write 19:00 or 2026-03-11T19:00");
  expect_no ("--start 2025-03-09T02:30", "--start “2025-03-09T02:30” does not exist that night: the clock "
                                         "goes from 01:59 to 03:00; take one of these");
  expect_no (
      "--start 2025-03-08T19:00 --off-by 02:30",
      "--off-by “02:30” does not exist that night: the clock goes from 01:59 to 03:00; take one of these");
  expect_no ("--sap -3", "--sap “-3” cannot be read as an amount in L");
  expect_no ("--sap 3kg", "--sap “3kg” cannot be read as an amount in L");
  expect_no ("--cooker stove", "the book has no complete cooker named “stove”");
  expect_no ("--brix 99", "Look at the sweetness of the sap. 99\u00a0°Bx is past any sap or concentrate. "
                          "0.1\u00a0°Bx to 30\u00a0°Bx is allowed.");
  expect_no ("--start 2025-02-12T19:00 --off-by 2025-02-12T18:00",
             "The hours leave no time to boil. Off by has to come after start, within five days.");
}

/* The jump is over by the time it is asked: the next night is meant. */
static void
test_after_the_jump (void)
{
  g_autofree char *line = g_strdup_printf (
      "tonight --json --book %s --now 2025-03-09T16:00 --start 02:30 --off-by 06:50", book);
  g_auto (Answer) answer = cli_run (line, NULL, 0);

  g_assert_cmpint (answer.code, ==, 0);
  g_assert_cmpstr (answer_string (&answer, "start"), ==, "2025-03-10T06:30:00Z");
}

static void
test_books (void)
{
  g_autofree char *missing = g_build_filename (folder, "none.frostrun", NULL),
                  *other = g_build_filename (folder, "x.txt", NULL),
                  *bare = g_build_filename (folder, "bare.frostrun", NULL);
  g_autofree char *of_missing = g_strdup_printf ("tonight --book %s", missing),
                  *of_other = g_strdup_printf ("tonight --book %s", other),
                  *of_bare = g_strdup_printf ("tonight --book %s", bare);
  g_autofree char *no_book = g_strdup_printf ("There is no book “%s”.", missing);
  g_autofree char *no_such
      = g_strdup_printf ("“%s” is not a book of this program. It was left as it is.", other);

  g_assert_true (g_file_set_contents (other, "not a book at all, only words", -1, NULL));
  new_book (bare, FALSE);
  expect_refusal (of_missing, 2, no_book);
  g_assert_false (g_file_test (missing, G_FILE_TEST_EXISTS));
  expect_refusal (of_other, 2, no_such);
  expect_refusal (of_bare, 1,
                  "the book has no household yet; open it once in the window and fill in place and zone");
}

int
main (int argc, char **argv)
{
  int failed;

  g_setenv ("LC_ALL", "C.UTF-8", TRUE);
  g_test_init (&argc, &argv, NULL);
  folder = make_folder ();
  book = g_build_filename (folder, "book.frostrun", NULL);
  new_book (book, TRUE);
  g_test_add_func ("/tonight/kept", test_kept);
  g_test_add_func ("/tonight/json", test_json);
  g_test_add_func ("/tonight/options", test_options);
  g_test_add_func ("/tonight/refused", test_refused);
  g_test_add_func ("/tonight/after-the-jump", test_after_the_jump);
  g_test_add_func ("/tonight/books", test_books);
  failed = g_test_run ();
  drop_folder (folder);
  g_free (book);
  return failed;
}
