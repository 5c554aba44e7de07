/* Sentences under entries: each says what is wrong and what is allowed, in the household's units. The
 * expected wording is the rule of docs/DESIGN.md ("Words"): no exclamation mark, no "please", a full stop at
 * the end. */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "domain/records/kinds.h"
#include "words/entry-words.h"

static const FrUnits metric = { .system = FR_SYSTEM_METRIC, .decimal_mark = '.' };
static const FrUnits us = { .system = FR_SYSTEM_US, .decimal_mark = '.' };

/* Narrow no-break spaces are typography; the checks compare words. */
static char *
plain (char *sentence)
{
  g_auto (GStrv) parts = NULL;
  char *joined;

  g_assert_nonnull (sentence);
  parts = g_strsplit (sentence, "\u00a0", -1);
  joined = g_strjoinv (" ", parts);
  g_free (sentence);
  return joined;
}

static char *
read_problem (const char *typed, FrQuantityKind kind, const FrUnits *units)
{
  FrQuantityProblem problem = FR_QUANTITY_OK;
  gsize at = 0;
  double value = 0;

  g_assert_false (fr_quantity_parse (typed, kind, units, &value, &problem, &at));
  g_assert_true (isnan (value));
  return plain (fr_entry_sentence (problem, typed, at, kind, units));
}

static void
test_unread (void)
{
  g_autofree char *word = read_problem ("abc", FR_QUANTITY_VOLUME, &metric);
  g_autofree char *unit = read_problem ("3 kg", FR_QUANTITY_VOLUME, &metric);
  g_autofree char *group = read_problem ("1,500", FR_QUANTITY_POWER, &metric);

  g_assert_nonnull (strstr (word, "abc"));
  g_assert_nonnull (strstr (word, "For example: 2.5, 3 gal 1 qt."));
  g_assert_nonnull (strstr (unit, "kg"));
  g_assert_nonnull (strstr (group, "Type 1500 for the thousand"));
}

static void
test_unit_names_the_bare_number (void)
{
  g_autofree char *sentence = read_problem ("3 parsecs", FR_QUANTITY_VOLUME, &us);

  g_assert_cmpstr (sentence, ==, "“parsecs” is no unit for this. A bare number means gal.");
}

static void
test_ok_says_nothing (void)
{
  g_assert_null (fr_entry_sentence (FR_QUANTITY_OK, "3", 0, FR_QUANTITY_VOLUME, &metric));
  g_assert_null (fr_entry_sentence (FR_QUANTITY_EMPTY, "", 0, FR_QUANTITY_VOLUME, &metric));
}

static char *
checked (FrRecord *record, const char *name, const FrUnits *units)
{
  const FrField *field = fr_kind_field (record->kind, name);
  g_autoptr (GArray) problems = fr_record_check (record);

  for (guint i = 0; i < problems->len; i++)
    {
      const FrProblem *problem = &g_array_index (problems, FrProblem, i);

      if (problem->field == field)
        return plain (fr_record_sentence (problem, record, units));
    }
  g_error ("nothing wrong with %s", name);
}

static FrCooker *
cooker_new (double power_w, double heat_ratio)
{
  FrCooker *cooker = (FrCooker *)fr_record_new (FR_KIND_COOKER);

  cooker->name = g_strdup ("Plate");
  fr_amount_set (&cooker->power_w, power_w, NULL);
  fr_amount_set (&cooker->heat_ratio, heat_ratio, NULL);
  cooker->vessel = 1;
  return cooker;
}

static void
test_range_in_words (void)
{
  FrCooker *cooker = cooker_new (30000, 0.85);
  g_autofree char *sentence = checked (&cooker->record, "power_w", &metric);

  g_assert_cmpstr (sentence, ==,
                   "30000 W is more than any household circuit gives. 50 W to 20000 W is allowed.");
  fr_record_free (&cooker->record);
}

static void
test_range_in_shown_unit (void)
{
  FrHousehold *household = (FrHousehold *)fr_record_new (FR_KIND_HOUSEHOLD);
  g_autofree char *sentence = NULL;

  household->name = g_strdup ("Lane");
  household->zone = g_strdup ("Etc/UTC");
  household->currency = g_strdup ("EUR");
  fr_amount_set (&household->altitude_m, 9000, NULL);
  sentence = checked (&household->record, "altitude_m", &us);
  /* 6000 m and −430 m in feet of 0.3048 m, by definition */
  g_assert_nonnull (strstr (sentence, "is higher than anyone lives."));
  g_assert_nonnull (strstr (sentence, "−1411 ft to 19685 ft is allowed."));
  fr_record_free (&household->record);
}

static void
test_missing (void)
{
  FrCooker *cooker = cooker_new (NAN, 0.85);
  g_autofree char *power = NULL;
  g_autofree char *pan = NULL;
  g_autofree char *name = NULL;

  cooker->vessel = 0;
  g_clear_pointer (&cooker->name, g_free);
  power = checked (&cooker->record, "power_w", &metric);
  pan = checked (&cooker->record, "vessel", &metric);
  name = checked (&cooker->record, "name", &metric);
  g_assert_cmpstr (power, ==, "A number is needed. 50 W to 20000 W is allowed.");
  g_assert_cmpstr (pan, ==, "One has to be chosen.");
  g_assert_cmpstr (name, ==, "This cannot be empty.");
  fr_record_free (&cooker->record);
}

static FrVesselRecord *
pot_new (void)
{
  FrVesselRecord *pot = (FrVesselRecord *)fr_record_new (FR_KIND_VESSEL);

  pot->name = g_strdup ("Pot");
  fr_amount_set (&pot->diameter_m, 0.2, NULL);
  fr_amount_set (&pot->height_m, 0.1, NULL);
  fr_amount_set (&pot->hold_l, 1.5, NULL);
  return pot;
}

static void
test_conflicts (void)
{
  FrVesselRecord *pot = pot_new ();
  g_autofree char *too_full = NULL;
  g_autofree char *cutoff = NULL;
  g_autofree char *level = NULL;

  /* π 0.1² 0.1 m³ = 3.14 L */
  fr_amount_set (&pot->hold_l, 4, NULL);
  too_full = checked (&pot->record, "hold_l", &metric);
  g_assert_cmpstr (too_full, ==, "The pan only holds 3.1 L to the rim. Hold less, with room for foam.");

  fr_amount_set (&pot->hold_l, 1.5, NULL);
  fr_amount_set (&pot->cutoff_l, 2, NULL);
  cutoff = checked (&pot->record, "cutoff_l", &metric);
  g_assert_nonnull (strstr (cutoff, "Less than 1.5 L, which the feed holds, is allowed."));

  fr_amount_set (&pot->cutoff_l, NAN, NULL);
  fr_amount_set (&pot->min_level_l, 2, NULL);
  level = checked (&pot->record, "min_level_l", &metric);
  g_assert_nonnull (strstr (level, "The feed holds only 1.5 L."));
  fr_record_free (&pot->record);
}

static void
test_structured_texts (void)
{
  FrVesselRecord *pot = pot_new ();
  g_autofree char *rows = NULL;

  fr_record_set_text (&pot->record, fr_kind_field (pot->record.kind, "shape"), "table");
  pot->rows = g_strdup ("1 0.5\n2 half\n");
  rows = checked (&pot->record, "rows", &metric);
  g_assert_true (g_str_has_prefix (rows, "Line 2 cannot be read or does not rise."));
  fr_record_free (&pot->record);
}

/* Every problem of every field of every kind gets a sentence, and each keeps the manners. */
static void
check_manners (const char *sentence)
{
  g_assert_nonnull (sentence);
  g_assert_cmpuint (strlen (sentence), >, 10);
  g_assert_true (g_str_has_suffix (sentence, "."));
  g_assert_null (strchr (sentence, '!'));
  g_assert_null (strstr (sentence, "lease"));
  g_assert_null (strstr (sentence, "(null)"));
}

static void
test_manners (void)
{
  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      const FrKind *kind = fr_kind ((FrKindId)k);
      g_autoptr (FrRecord) record = fr_record_new ((FrKindId)k);

      for (guint f = 0; f < kind->n_fields; f++)
        for (guint code = FR_PROBLEM_MISSING; code <= FR_PROBLEM_CONFLICT; code++)
          {
            FrProblem problem
                = { .code = (FrProblemCode)code, .field = &kind->fields[f], .limit = 12, .line = 3 };
            g_autofree char *sentence = NULL;

            if (kind->fields[f].type != FR_FIELD_AMOUNT
                && (code == FR_PROBLEM_BELOW || code == FR_PROBLEM_ABOVE)
                && kind->fields[f].type != FR_FIELD_TIME)
              continue;
            /* the only conflicts that name an amount come with it */
            if (code == FR_PROBLEM_CONFLICT)
              for (guint other = 0; other < kind->n_fields; other++)
                if (kind->fields[other].type == FR_FIELD_AMOUNT)
                  problem.other = &kind->fields[other];
            sentence = fr_record_sentence (&problem, record, &us);
            check_manners (sentence);
          }
    }
  for (guint problem = FR_QUANTITY_NOT_A_NUMBER; problem <= FR_QUANTITY_TOO_LONG; problem++)
    for (guint kind = 0; kind < FR_N_QUANTITIES; kind++)
      {
        g_autofree char *sentence
            = fr_entry_sentence ((FrQuantityProblem)problem, "1,500 q", 6, (FrQuantityKind)kind, &metric);

        check_manners (sentence);
      }
}

static void
test_changes (void)
{
  static const char *const verbs[] = { "add", "edit", "delete", "archive", "restore" };
  g_autofree char *named = fr_change_sentence ("edit-vessel", "Wide pot");
  g_autofree char *percent = fr_change_sentence ("edit-vessel", "100%s pot");

  g_assert_cmpstr (named, ==, "Pan “Wide pot” changed");
  g_assert_cmpstr (percent, ==, "Pan “100%s pot” changed");
  for (guint k = 0; k < FR_N_KINDS; k++)
    for (guint v = 0; v < G_N_ELEMENTS (verbs); v++)
      {
        g_autofree char *label = g_strconcat (verbs[v], "-", fr_kind ((FrKindId)k)->name, NULL);
        g_autofree char *sentence = fr_change_sentence (label, NULL);

        if (k == FR_KIND_HOUSEHOLD && v > 1)
          continue; /* there is always one */
        g_assert_cmpstr (sentence, !=, "Changed");
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/entry-words/unread", test_unread);
  g_test_add_func ("/entry-words/unit-names-the-bare-number", test_unit_names_the_bare_number);
  g_test_add_func ("/entry-words/ok-says-nothing", test_ok_says_nothing);
  g_test_add_func ("/entry-words/range-in-words", test_range_in_words);
  g_test_add_func ("/entry-words/range-in-shown-unit", test_range_in_shown_unit);
  g_test_add_func ("/entry-words/missing", test_missing);
  g_test_add_func ("/entry-words/conflicts", test_conflicts);
  g_test_add_func ("/entry-words/structured-texts", test_structured_texts);
  g_test_add_func ("/entry-words/manners", test_manners);
  g_test_add_func ("/entry-words/changes", test_changes);
  return g_test_run ();
}
