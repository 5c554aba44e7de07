/* Keeping a plan and the morning after, through the book's door and back again. */
#include "book-tools.h"

#include "domain/plan/evening.h"

#include <math.h>

static void
new_uid (char uid_out[33])
{
  static guint n;

  g_snprintf (uid_out, 33, "%031xf", ++n);
}

static void
test_keep_and_undo (void)
{
  static const FrZoneSpan utc[] = { { G_MININT64, 0, FALSE, "UTC" } };
  g_autoptr (FrZoneTable) zone = fr_zone_table_new ("UTC", utc, 1);
  g_autoptr (FrStore) store = tools_open (":memory:");
  g_autoptr (FrChange) book_change = sample_book (1), keep = NULL, morning = NULL, undo_morning = NULL,
                       undo_keep = NULL;
  g_autoptr (GPtrArray) before = NULL, kept = NULL, after = NULL, pours = NULL;
  GPtrArray *kinds[FR_N_KINDS];
  g_autoptr (FrPlan) plan = NULL;
  g_autoptr (FrTariff) tariff = NULL;
  g_autoptr (FrRecord) night = NULL, found = NULL, cooker = NULL;
  FrTariffProblem problem;
  FrPlanInput input;
  FrMorningReport report;
  FrSeasonBook book;

  tools_apply (store, book_change);
  before = tools_snapshot (store);
  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    kinds[kind] = fr_store_load (store, kind, NULL);
  book = (FrSeasonBook){ .household = kinds[FR_KIND_HOUSEHOLD]->pdata[0],
                         .zone = zone,
                         .circuits = kinds[FR_KIND_CIRCUIT],
                         .vessels = kinds[FR_KIND_VESSEL],
                         .cookers = kinds[FR_KIND_COOKER],
                         .tariffs = kinds[FR_KIND_TARIFF],
                         .fuels = kinds[FR_KIND_FUEL],
                         .nights = kinds[FR_KIND_NIGHT],
                         .containers = kinds[FR_KIND_CONTAINER],
                         .gatherings = kinds[FR_KIND_GATHERING],
                         .pours = kinds[FR_KIND_POUR],
                         .dips = kinds[FR_KIND_DIP] };
  g_assert_true (fr_evening_input (&book, zone, NOW_UTC + 60, &input, &tariff, &problem));
  g_assert_cmpuint (input.n_kits, ==, 1);
  g_assert_nonnull (tariff);
  /* The sample's own night has the cooker; here it is free. */
  g_assert_true (input.kits[0].off);
  input.kits[0].off = FALSE;
  plan = fr_plan_new (&input);
  g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
  keep = fr_evening_keep (plan, &input, &book, fr_store_next_id (store, FR_KIND_NIGHT, NULL),
                          fr_store_next_id (store, FR_KIND_POUR, NULL), new_uid);
  tools_apply (store, keep);
  kept = tools_snapshot (store);
  g_assert_cmpuint (kept->len, ==, before->len + 2);
  pours = fr_store_load (store, FR_KIND_POUR, NULL);
  book.pours = pours;
  g_assert_cmpfloat (fabs (fr_evening_sap (&book, NOW_UTC + 60).volume_l - plan->over_l), <, 0.2);

  /* The same once more is refused: its night is there already. */
  tools_refuse (store, keep, FR_STORE_ERROR_CONFLICT);

  night = tools_find (store, FR_KIND_NIGHT, 2);
  cooker = tools_find (store, FR_KIND_COOKER, 1);
  found = fr_record_copy (night);
  fr_amount_set (&((FrNight *)found)->meter_kwh, 1.05 * plan->energy_kwh, NULL);
  g_assert_true (fr_morning_report ((FrNight *)found, &input.kits[0], input.altitude_m, &report));
  g_assert_true (report.has_learned);
  morning = fr_morning_change ((FrNight *)night, (FrNight *)found, (FrCooker *)cooker, &report);
  tools_apply (store, morning);

  undo_morning = fr_change_invert (morning);
  tools_apply (store, undo_morning);
  after = tools_snapshot (store);
  tools_assert_same (after, kept);
  g_clear_pointer (&after, g_ptr_array_unref);
  undo_keep = fr_change_invert (keep);
  tools_apply (store, undo_keep);
  after = tools_snapshot (store);
  tools_assert_same (after, before);
  for (guint kind = 0; kind < FR_N_KINDS; kind++)
    g_ptr_array_unref (kinds[kind]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/keep-night/keep-and-undo", test_keep_and_undo);
  return g_test_run ();
}
