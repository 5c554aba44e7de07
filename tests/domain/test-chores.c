/* The kit's checklist: cases by hand. What has to be done to which piece is common practice, no source; that metal with seams from before
 * 1995 may hold lead is published by food authorities (chores.h). */
#include "domain/plan/chores.h"

#include "random-season.h"
#include "zones.h"

#include <math.h>
#include <string.h>

static FrZoneTable *toronto;

static gint64
noon (gint month, gint day)
{
  gint64 first, second;

  fr_zone_instant (toronto, (FrDate){ 2025, month, day }, 12 * 3600, &first, &second);
  return first;
}

static FrContainer *
container (RandomSeason *season, const char *name, const char *material, double made_in)
{
  FrContainer *made = random_season_add (season, FR_KIND_CONTAINER);

  made->name = g_strdup (name);
  made->capacity_l.value = 20;
  random_season_text (&made->material, material);
  made->made_in.value = made_in;
  return made;
}

static const FrChoreItem *
find (GArray *items, FrChoreTask task, const FrRecord *kit)
{
  for (guint i = 0; i < items->len; i++)
    {
      const FrChoreItem *item = &g_array_index (items, FrChoreItem, i);

      if (item->task == task && item->kit == kit)
        return item;
    }
  return NULL;
}

static void
assert_state (const RandomSeason *season, gint64 now_utc, FrChoreTask task, gconstpointer kit, FrChoreState state)
{
  g_autoptr (GArray) items = fr_chores (&season->book, 2025, now_utc);
  const FrChoreItem *item = find (items, task, kit);

  g_assert_nonnull (item);
  g_assert_cmpint (item->state, ==, state);
  g_assert_cmpint (item->done != NULL, ==, state == FR_CHORE_DONE || state == FR_CHORE_NOT_NEEDED);
}

static void
test_material (void)
{
  static const struct
  {
    const char *material;
    double made_in;
    gboolean asked;
    FrChoreWhy why;
  } all[] = {
    { "unknown", NAN, TRUE, FR_CHORE_WHY_UNKNOWN_METAL },
    { "food_plastic", 1970, FALSE, 0 },
    { "other_plastic", 2020, TRUE, FR_CHORE_WHY_NOT_FOOD },
    { "stainless", NAN, FALSE, 0 },
    { "stainless", 1995, FALSE, 0 },
    { "stainless", 1994, TRUE, FR_CHORE_WHY_OLD },
    { "enamel", 1960, TRUE, FR_CHORE_WHY_OLD },
    { "glass", 1900, FALSE, 0 },
    { "aluminium", 1980, TRUE, FR_CHORE_WHY_OLD },
    { "galvanised", 2020, TRUE, FR_CHORE_WHY_GALVANISED },
    { "soldered", NAN, TRUE, FR_CHORE_WHY_SOLDERED },
  };
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrVesselRecord *good = random_season_add (season, FR_KIND_VESSEL), *old = random_season_add (season, FR_KIND_VESSEL);
  g_autoptr (GArray) items = NULL;

  old->solder = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    container (season, "can", all[i].material, all[i].made_in);
  items = fr_chores (&season->book, 2025, noon (3, 1));
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      const FrChoreItem *item = find (items, FR_CHORE_MATERIAL, season->book.containers->pdata[i]);

      g_assert_cmpint (item != NULL, ==, all[i].asked);
      if (item != NULL)
        g_assert_cmpint (item->why, ==, all[i].why);
      g_assert_nonnull (find (items, FR_CHORE_WASH, season->book.containers->pdata[i]));
    }
  g_assert_null (find (items, FR_CHORE_MATERIAL, &good->record));
  g_assert_cmpint (find (items, FR_CHORE_MATERIAL, &old->record)->why, ==, FR_CHORE_WHY_UNKNOWN_METAL);
}

static void
test_power (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrCircuit *safe = random_season_add (season, FR_KIND_CIRCUIT), *bare = random_season_add (season, FR_KIND_CIRCUIT);
  FrCooker *known = random_season_add (season, FR_KIND_COOKER), *loose = random_season_add (season, FR_KIND_COOKER);
  g_autoptr (GArray) items = NULL;

  safe->gfci = TRUE;
  known->circuit = safe->record.id;
  known->heat_ratio_sd.value = 0.02;
  items = fr_chores (&season->book, 2025, noon (3, 1));
  g_assert_cmpint (find (items, FR_CHORE_GROUND_FAULT, &safe->record)->why, ==, FR_CHORE_WHY_SEASON);
  g_assert_cmpint (find (items, FR_CHORE_GROUND_FAULT, &bare->record)->why, ==, FR_CHORE_WHY_NO_PROTECTION);
  g_assert_null (find (items, FR_CHORE_GROUND_FAULT, &known->record));
  g_assert_cmpint (find (items, FR_CHORE_GROUND_FAULT, &loose->record)->why, ==, FR_CHORE_WHY_NO_CIRCUIT);
  g_assert_cmpint (find (items, FR_CHORE_WATER_TEST, &known->record)->why, ==, FR_CHORE_WHY_SEASON);
  g_assert_cmpint (find (items, FR_CHORE_WATER_TEST, &loose->record)->why, ==, FR_CHORE_WHY_NEVER_MEASURED);
  g_assert_null (find (items, FR_CHORE_WASH, &known->record));
  g_assert_null (find (items, FR_CHORE_WATER_TEST, &safe->record));
}

/* Later in autumn, due from January, late once sap was in it, and after the season to be cleaned. */
static void
test_year (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrContainer *can = container (season, "Can", "stainless", 2010), *spare = container (season, "Spare", "glass", NAN);
  FrVesselRecord *pan = random_season_add (season, FR_KIND_VESSEL);
  FrCooker *cooker = random_season_add (season, FR_KIND_COOKER);
  FrCircuit *circuit = random_season_add (season, FR_KIND_CIRCUIT);
  FrTap *tap = random_season_add (season, FR_KIND_TAP), *second = random_season_add (season, FR_KIND_TAP);
  FrGathering *gathering;
  FrNight *night;

  cooker->vessel = pan->record.id;
  cooker->circuit = circuit->record.id;
  assert_state (season, noon (1, 1) - 60 * 86400, FR_CHORE_WASH, can, FR_CHORE_LATER);
  assert_state (season, noon (1, 1), FR_CHORE_WASH, can, FR_CHORE_DUE);
  tap->season.value = second->season.value = 2025;
  tap->set_on = g_strdup ("2025-02-20");
  second->set_on = g_strdup ("2025-02-21");
  gathering = random_season_add (season, FR_KIND_GATHERING);
  gathering->gathered_utc = noon (3, 1);
  gathering->volume_l.value = 5;
  gathering->container = can->record.id;
  assert_state (season, noon (2, 28), FR_CHORE_WASH, can, FR_CHORE_DUE);
  assert_state (season, noon (3, 1), FR_CHORE_WASH, can, FR_CHORE_LATE);
  assert_state (season, noon (3, 1), FR_CHORE_WASH, spare, FR_CHORE_DUE);
  night = random_season_add (season, FR_KIND_NIGHT);
  night->evening = g_strdup ("2025-03-02");
  night->cooker = cooker->record.id;
  assert_state (season, noon (3, 1), FR_CHORE_WATER_TEST, cooker, FR_CHORE_DUE);
  assert_state (season, noon (3, 2), FR_CHORE_WATER_TEST, cooker, FR_CHORE_LATE);
  assert_state (season, noon (3, 2), FR_CHORE_WASH, pan, FR_CHORE_LATE);
  assert_state (season, noon (3, 2), FR_CHORE_GROUND_FAULT, circuit, FR_CHORE_LATE);
  {
    g_autoptr (GArray) items = fr_chores (&season->book, 2025, noon (3, 5));

    g_assert_cmpint (fr_date_compare (find (items, FR_CHORE_WASH, &can->record)->used_on, (FrDate){ 2025, 3, 1 }), ==, 0);
    g_assert_null (find (items, FR_CHORE_DRY, &spare->record)); /* never in use */
    g_assert_null (find (items, FR_CHORE_DRY, &cooker->record));
  }
  assert_state (season, noon (4, 10), FR_CHORE_DRY, can, FR_CHORE_LATER);
  tap->pulled_on = g_strdup ("2025-04-08");
  assert_state (season, noon (4, 10), FR_CHORE_DRY, can, FR_CHORE_LATER); /* one still hangs */
  second->pulled_on = g_strdup ("2025-04-11");
  assert_state (season, noon (4, 10), FR_CHORE_DRY, can, FR_CHORE_LATER);
  assert_state (season, noon (4, 11), FR_CHORE_DRY, can, FR_CHORE_DUE);
  assert_state (season, noon (4, 11), FR_CHORE_RINSE, pan, FR_CHORE_DUE);
  assert_state (season, noon (4, 11), FR_CHORE_WASH, spare, FR_CHORE_LATER);

  /* Where nobody writes taps down: three weeks after the last sap, here 2 March. */
  tap->record.archived = second->record.archived = TRUE;
  assert_state (season, noon (3, 22), FR_CHORE_DRY, can, FR_CHORE_LATER);
  assert_state (season, noon (3, 23), FR_CHORE_DRY, can, FR_CHORE_DUE);
}

static void
test_done (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrContainer *can = container (season, "Can", "galvanised", 1980), *other = container (season, "Other", "glass", NAN);
  FrVesselRecord *pan = random_season_add (season, FR_KIND_VESSEL); /* the same number as the can's */
  g_autoptr (GArray) items = fr_chores (&season->book, 2025, noon (3, 1));
  FrChore *chore = random_season_add (season, FR_KIND_CHORE);
  g_autoptr (GArray) problems = NULL;

  fr_chore_item_write (find (items, FR_CHORE_WASH, &can->record), 2025, (FrDate){ 2025, 2, 27 }, "done", chore);
  problems = fr_record_check (&chore->record);
  g_assert_cmpuint (problems->len, ==, 0);
  g_assert_cmpstr (chore->done_on, ==, "2025-02-27");
  g_assert_cmpint (chore->container, ==, can->record.id);
  assert_state (season, noon (3, 1), FR_CHORE_WASH, can, FR_CHORE_DONE);
  assert_state (season, noon (3, 1), FR_CHORE_WASH, other, FR_CHORE_DUE);
  assert_state (season, noon (3, 1), FR_CHORE_WASH, pan, FR_CHORE_DUE);
  random_season_text (&chore->outcome, "not_needed");
  assert_state (season, noon (3, 1), FR_CHORE_WASH, can, FR_CHORE_NOT_NEEDED);
  /* A wash is of its season, what a thing is made of stays. */
  chore->season.value = 2024;
  assert_state (season, noon (3, 1), FR_CHORE_WASH, can, FR_CHORE_DUE);
  random_season_text (&chore->task, "material");
  assert_state (season, noon (3, 1), FR_CHORE_MATERIAL, can, FR_CHORE_NOT_NEEDED);
  chore->season.value = 2026;
  assert_state (season, noon (3, 1), FR_CHORE_MATERIAL, can, FR_CHORE_DUE);
  chore->season.value = 2024;
  chore->record.archived = TRUE;
  assert_state (season, noon (3, 1), FR_CHORE_MATERIAL, can, FR_CHORE_DUE);
}

/* Every code is one of the book's. */
static void
test_codes (void)
{
  const FrField *field = fr_kind_field (fr_kind (FR_KIND_CHORE), "task");

  g_assert_cmpuint (g_strv_length ((char **)field->codes), ==, FR_N_CHORES);
  for (guint i = 0; i < FR_N_CHORES; i++)
    g_assert_true (g_strv_contains (field->codes, fr_chore_code (i)));
  g_assert_true (fr_chore_is_cleaning (FR_CHORE_DRY) && !fr_chore_is_cleaning (FR_CHORE_WASH));
}

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  toronto = test_zone ("America/Toronto");
  g_test_add_func ("/chores/material", test_material);
  g_test_add_func ("/chores/power", test_power);
  g_test_add_func ("/chores/year", test_year);
  g_test_add_func ("/chores/done", test_done);
  g_test_add_func ("/chores/codes", test_codes);
  result = g_test_run ();
  fr_zone_table_free (toronto);
  return result;
}
