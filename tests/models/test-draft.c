/* What an editor holds, by table: a gesture on a field, what is read, what is wrong, and what would be kept.
 */
#include <math.h>

#include "domain/records/kinds.h"
#include "models/draft.h"

static const FrUnits metric = { .system = FR_SYSTEM_METRIC, .decimal_mark = '.' };
static const FrUnits us = { .system = FR_SYSTEM_US, .decimal_mark = '.' };

static FrRecord *
pot_new (void)
{
  FrVesselRecord *pot = (FrVesselRecord *)fr_record_new (FR_KIND_VESSEL);

  pot->record.id = 1;
  pot->name = g_strdup ("Pot");
  fr_amount_set (&pot->diameter_m, 0.28, "28");
  fr_amount_set (&pot->height_m, 0.12, NULL);
  fr_amount_set (&pot->hold_l, 2.5, NULL);
  return &pot->record;
}

static const FrField *
field (const FrDraft *draft, const char *name)
{
  return fr_kind_field (fr_draft_get_current (draft)->kind, name);
}

static double
value_of (const FrDraft *draft, const char *name)
{
  return fr_record_amount ((FrRecord *)fr_draft_get_current (draft), field (draft, name))->value;
}

static void
test_table (void)
{
  static const struct
  {
    const char *field;
    const char *typed;
    gboolean in_us;
    double value; /* NAN: unknown */
    FrQuantityProblem entry;
    int record; /* FrProblemCode, −1 none */
    gboolean kept;
  } rows[] = {
    /* 3 gal 1 qt of 3.785411784 L (NIST SP 811): 3.25 × 3.785411784 = 12.3026 L, more than the pot's 7.39 L
     */
    { "hold_l", "3 gal 1 qt", TRUE, 12.302588298, FR_QUANTITY_OK, FR_PROBLEM_CONFLICT, FALSE },
    { "hold_l", "3", FALSE, 3, FR_QUANTITY_OK, -1, TRUE },
    { "hold_l", " 3 ", FALSE, 3, FR_QUANTITY_OK, -1, TRUE },
    { "hold_l", "", FALSE, NAN, FR_QUANTITY_OK, FR_PROBLEM_MISSING, FALSE },
    { "hold_l", "three", FALSE, 2.5, FR_QUANTITY_NOT_A_NUMBER, -1, FALSE },
    { "hold_l", "3 kg", FALSE, 2.5, FR_QUANTITY_UNKNOWN_UNIT, -1, FALSE },
    { "hold_l", "20000", FALSE, 20000, FR_QUANTITY_OK, FR_PROBLEM_ABOVE, FALSE },
    { "cutoff_l", "0.8", FALSE, 0.8, FR_QUANTITY_OK, -1, TRUE },
    { "cutoff_l", "9", FALSE, 9, FR_QUANTITY_OK, FR_PROBLEM_CONFLICT, FALSE },
    { "diameter_m", "11 in", FALSE, 0.2794, FR_QUANTITY_OK, -1, TRUE }, /* 11 × 25.4 mm */
    { "bucket_l", "", FALSE, NAN, FR_QUANTITY_OK, -1, FALSE },          /* it was empty already */
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (FrRecord) pot = pot_new ();
      g_autoptr (FrDraft) draft = fr_draft_new (pot, FALSE);
      g_autoptr (FrChange) change = NULL;
      FrDraftProblem problem = { 0 };
      gboolean wrong;

      fr_draft_type (draft, field (draft, rows[i].field), rows[i].typed, rows[i].in_us ? &us : &metric);
      g_test_message ("%s: %s", rows[i].field, rows[i].typed);
      if (isnan (rows[i].value))
        g_assert_true (isnan (value_of (draft, rows[i].field)));
      else
        g_assert_cmpfloat_with_epsilon (value_of (draft, rows[i].field), rows[i].value, 1e-9);
      wrong = fr_draft_problem (draft, field (draft, rows[i].field), &problem);
      g_assert_cmpint (wrong, ==, rows[i].entry != FR_QUANTITY_OK || rows[i].record >= 0);
      g_assert_cmpint (problem.entry, ==, rows[i].entry);
      if (rows[i].record >= 0)
        g_assert_cmpint (problem.record.code, ==, rows[i].record);
      change = fr_draft_change (draft, "edit-vessel");
      g_assert_cmpint (change != NULL, ==, rows[i].kept);
      if (rows[i].entry != FR_QUANTITY_OK)
        g_assert_cmpstr (fr_draft_unread (draft, field (draft, rows[i].field)), ==, rows[i].typed);
      else
        g_assert_null (fr_draft_unread (draft, field (draft, rows[i].field)));
    }
}

static void
test_typed_text_is_kept (void)
{
  g_autoptr (FrRecord) pot = pot_new ();
  g_autoptr (FrDraft) draft = fr_draft_new (pot, FALSE);
  g_autoptr (FrChange) change = NULL;
  const FrStep *step;

  fr_draft_type (draft, field (draft, "diameter_m"), "11 in", &metric);
  change = fr_draft_change (draft, "edit-vessel");
  g_assert_cmpuint (change->steps->len, ==, 1);
  step = g_ptr_array_index (change->steps, 0);
  g_assert_cmpstr (((FrVesselRecord *)step->after)->diameter_m.typed, ==, "11 in");
  g_assert_cmpstr (((FrVesselRecord *)step->before)->diameter_m.typed, ==, "28");
  g_assert_cmpstr (change->subject, ==, "Pot");
}

static void
test_the_rest_is_kept (void)
{
  g_autoptr (FrRecord) pot = pot_new ();
  g_autoptr (FrDraft) draft = fr_draft_new (pot, FALSE);
  g_autoptr (FrChange) change = NULL;
  const FrStep *step;

  fr_draft_type (draft, field (draft, "cutoff_l"), "9", &metric);    /* over the level held */
  fr_draft_type (draft, field (draft, "bucket_l"), "what", &metric); /* not read */
  fr_draft_type (draft, field (draft, "name"), "Wide pot", &metric);
  change = fr_draft_change (draft, "edit-vessel");
  g_assert_nonnull (change);
  step = g_ptr_array_index (change->steps, 0);
  g_assert_cmpstr (((FrVesselRecord *)step->after)->name, ==, "Wide pot");
  g_assert_true (isnan (((FrVesselRecord *)step->after)->cutoff_l.value));

  fr_draft_rebase (draft, step->after);
  g_assert_cmpfloat (value_of (draft, "cutoff_l"), ==, 9);
  g_assert_cmpstr (fr_draft_unread (draft, field (draft, "bucket_l")), ==, "what");
  g_assert_cmpuint (fr_draft_n_problems (draft), ==, 2);
  g_assert_true (fr_draft_is_dirty (draft));

  fr_draft_restore (draft, field (draft, "cutoff_l"));
  fr_draft_restore (draft, field (draft, "bucket_l"));
  g_assert_cmpuint (fr_draft_n_problems (draft), ==, 0);
  g_assert_false (fr_draft_is_dirty (draft));
  g_assert_null (fr_draft_change (draft, "edit-vessel"));
}

/* Another shape asks for another measure: nothing is kept until it is there, then both are, in one change. */
static void
test_shape_waits_for_its_measure (void)
{
  g_autoptr (FrRecord) pot = pot_new ();
  g_autoptr (FrDraft) draft = fr_draft_new (pot, FALSE);
  g_autoptr (FrChange) change = NULL;
  FrDraftProblem problem;
  const FrStep *step;

  fr_draft_choose_text (draft, field (draft, "shape"), "cone");
  g_assert_true (fr_draft_problem (draft, field (draft, "top_diameter_m"), &problem));
  g_assert_cmpint (problem.record.code, ==, FR_PROBLEM_MISSING);
  g_assert_null (fr_draft_change (draft, "edit-vessel"));
  fr_draft_type (draft, field (draft, "top_diameter_m"), "32", &metric);
  change = fr_draft_change (draft, "edit-vessel");
  g_assert_nonnull (change);
  step = g_ptr_array_index (change->steps, 0);
  g_assert_cmpstr (((FrVesselRecord *)step->after)->shape, ==, "cone");
  g_assert_cmpfloat (((FrVesselRecord *)step->after)->top_diameter_m.value, ==, 0.32);
}

static void
test_new_record_is_whole_or_not_at_all (void)
{
  g_autoptr (FrRecord) fuel = fr_record_new (FR_KIND_FUEL);
  g_autoptr (FrDraft) draft = NULL;
  g_autoptr (FrChange) change = NULL;

  fuel->id = 3;
  draft = fr_draft_new (fuel, TRUE);
  g_assert_true (fr_draft_is_new (draft));
  g_assert_null (fr_draft_change (draft, "add-fuel"));
  fr_draft_type (draft, field (draft, "name"), "Bottle", &metric);
  fr_draft_type (draft, field (draft, "price_per_kg"), "290", &metric);
  fr_draft_type (draft, field (draft, "heat_mj_per_kg"), "50.2", &metric);
  fr_draft_type (draft, field (draft, "heat_ratio"), "35 %", &metric);
  g_assert_cmpuint (fr_draft_n_problems (draft), ==, 0);
  change = fr_draft_change (draft, "add-fuel");
  g_assert_nonnull (change);
  g_assert_null (((FrStep *)g_ptr_array_index (change->steps, 0))->before);
  fr_draft_rebase (draft, fr_draft_get_current (draft));
  g_assert_false (fr_draft_is_new (draft));
}

/* Another program changed one field while another one is being edited here. */
static void
test_rebase_takes_what_is_new (void)
{
  g_autoptr (FrRecord) pot = pot_new ();
  g_autoptr (FrRecord) elsewhere = pot_new ();
  g_autoptr (FrDraft) draft = fr_draft_new (pot, FALSE);

  fr_draft_type (draft, field (draft, "cutoff_l"), "9", &metric);
  fr_amount_set (&((FrVesselRecord *)elsewhere)->height_m, 0.2, NULL);
  fr_draft_rebase (draft, elsewhere);
  g_assert_cmpfloat (value_of (draft, "height_m"), ==, 0.2);
  g_assert_cmpfloat (value_of (draft, "cutoff_l"), ==, 9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draft/table", test_table);
  g_test_add_func ("/draft/typed-text-is-kept", test_typed_text_is_kept);
  g_test_add_func ("/draft/the-rest-is-kept", test_the_rest_is_kept);
  g_test_add_func ("/draft/shape-waits-for-its-measure", test_shape_waits_for_its_measure);
  g_test_add_func ("/draft/new-record-is-whole-or-not-at-all", test_new_record_is_whole_or_not_at_all);
  g_test_add_func ("/draft/rebase-takes-what-is-new", test_rebase_takes_what_is_new);
  return g_test_run ();
}
