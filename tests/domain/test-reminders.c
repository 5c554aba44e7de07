/* What the data calls for: each rule by hand, at its edges and on the local calendar; and on random books that the answer is in order,
 * the same each time, and that putting one away takes that one alone. The rules are common practice and common sense, no source. */
#include "domain/plan/reminders.h"

#include "domain/plan/season.h"

#include "random-season.h"
#include "zones.h"

#include <math.h>
#include <string.h>

static FrZoneTable *toronto;

static gint64
at (gint month, gint day, gint hour)
{
  gint64 first, second;

  fr_zone_instant (toronto, (FrDate){ 2025, month, day }, hour * 3600, &first, &second);
  return first;
}

static GPtrArray *
ask (const RandomSeason *season, gint64 now_utc, FrReminders which)
{
  g_autoptr (FrStock) stock = fr_stock_new (&season->book, season->from_utc, now_utc);

  return fr_reminders_new (&season->book, stock, now_utc, which);
}

static const FrReminder *
find (GPtrArray *reminders, FrReminderCode code)
{
  for (guint i = 0; i < reminders->len; i++)
    if (((FrReminder *)reminders->pdata[i])->code == code)
      return reminders->pdata[i];
  return NULL;
}

static gboolean
stands (const RandomSeason *season, gint64 now_utc, FrReminderCode code)
{
  g_autoptr (GPtrArray) reminders = ask (season, now_utc, FR_REMINDERS_STANDING);

  return find (reminders, code) != NULL;
}

static FrTap *
tap (RandomSeason *season, const char *set_on)
{
  FrTap *made = random_season_add (season, FR_KIND_TAP);

  made->season.value = 2025;
  made->set_on = g_strdup (set_on);
  return made;
}

static FrDay *
day (RandomSeason *season, const char *date, double low_c, double high_c)
{
  FrDay *made = random_season_add (season, FR_KIND_DAY);

  made->day = g_strdup (date);
  made->low_c.value = low_c;
  made->high_c.value = high_c;
  return made;
}

static FrGathering *
gather (RandomSeason *season, gint64 utc_s, double volume_l, gint64 container)
{
  FrGathering *made = random_season_add (season, FR_KIND_GATHERING);

  made->gathered_utc = utc_s;
  made->volume_l.value = volume_l;
  made->reading_brix.value = 2;
  made->container = container;
  return made;
}

/* --- what waits --- */

/* A store by hand: only what it says is looked at. */
static void
test_keeping (void)
{
  static const struct
  {
    gint day, hour;
    double used_ratio;
    FrReminderCode code;
    FrUrgency urgency;
  } all[] = {
    { 11, 9, 1.1, FR_REMIND_SPOILED, FR_URGENCY_NOW },  { 11, 23, 0.9, FR_REMIND_BOIL_BY, FR_URGENCY_NOW },
    { 12, 1, 0.8, FR_REMIND_BOIL_BY, FR_URGENCY_SOON }, { 13, 23, 0.7, FR_REMIND_BOIL_BY, FR_URGENCY_SOON },
    { 14, 1, 0.5, FR_REMIND_BOIL_BY, FR_URGENCY_NOTE }, { 16, 1, 0.1, FR_REMIND_BOIL_BY, FR_URGENCY_LATER },
  };
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrContainer *can = random_season_add (season, FR_KIND_CONTAINER);

  g_strlcpy (can->record.uid, "c0ffee", sizeof can->record.uid);
  can->capacity_l.value = 60;
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      FrStockPlace place = { .container = i % 2 ? can : NULL, .volume_l = 9, .used_ratio = all[i].used_ratio };
      FrStock stock = { .n_places = 1, .places = &place, .volume_l = 9, .sugar_kg = NAN };
      g_autoptr (GPtrArray) told = NULL, all_of_them = NULL;
      const FrReminder *reminder;

      place.oldest_utc = at (3, 6, 17);
      place.spoils_utc = at (3, all[i].day, all[i].hour);
      told = fr_reminders_new (&season->book, &stock, at (3, 11, 16), FR_REMINDERS_STANDING);
      all_of_them = fr_reminders_new (&season->book, &stock, at (3, 11, 16), FR_REMINDERS_LATER);
      reminder = find (all_of_them, all[i].code);
      g_assert_nonnull (reminder);
      g_assert_cmpint (reminder->urgency, ==, all[i].urgency);
      g_assert_cmpint (find (told, all[i].code) == NULL, ==, all[i].urgency == FR_URGENCY_LATER);
      g_assert_null (find (all_of_them, all[i].code == FR_REMIND_SPOILED ? FR_REMIND_BOIL_BY : FR_REMIND_SPOILED));
      g_assert_cmpint (reminder->due_utc, ==, place.spoils_utc);
      g_assert_cmpfloat (reminder->age_s, ==, (5 * 24 - 1 - 1) * 3600.0); /* the clock went forward on the 9th */
      g_assert_cmpint (reminder->day.day, ==, MAX (11, all[i].day));
      g_assert_true (g_str_has_prefix (reminder->key, all[i].code == FR_REMIND_SPOILED ? "spoiled/" : "boil-by/"));
      g_assert_nonnull (strstr (reminder->key, i % 2 ? "c0ffee" : "none"));
    }
  {
    FrStockPlace empty = { .volume_l = 0.05, .used_ratio = 2, .spoils_utc = at (3, 1, 1), .oldest_utc = at (3, 1, 0) };
    FrStock stock = { .n_places = 1, .places = &empty, .sugar_kg = NAN };
    g_autoptr (GPtrArray) told = fr_reminders_new (&season->book, &stock, at (3, 11, 16), FR_REMINDERS_LATER);

    g_assert_null (find (told, FR_REMIND_SPOILED));
  }
}

static void
test_full (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrContainer *can = random_season_add (season, FR_KIND_CONTAINER);
  g_autoptr (GPtrArray) told = NULL, over = NULL;
  g_autofree char *key = NULL;

  can->capacity_l.value = 20;
  gather (season, at (3, 10, 17), 17.9, 1);
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_FULL));
  gather (season, at (3, 11, 9), 0.2, 1);
  told = ask (season, at (3, 11, 12), FR_REMINDERS_STANDING);
  g_assert_cmpint (find (told, FR_REMIND_FULL)->urgency, ==, FR_URGENCY_SOON);
  g_assert_cmpfloat_with_epsilon (find (told, FR_REMIND_FULL)->volume_l, 18.1, 1e-9);
  g_assert_cmpfloat (find (told, FR_REMIND_FULL)->capacity_l, ==, 20);
  key = g_strdup (find (told, FR_REMIND_FULL)->key);
  /* More sap is another reason. */
  gather (season, at (3, 11, 10), 3, 1);
  over = ask (season, at (3, 11, 12), FR_REMINDERS_STANDING);
  g_assert_cmpint (find (over, FR_REMIND_FULL)->urgency, ==, FR_URGENCY_NOW);
  g_assert_cmpstr (find (over, FR_REMIND_FULL)->key, !=, key);
  g_assert_nonnull (find (over, FR_REMIND_LEDGER)); /* 21.1 L in 20 */
}

/* --- frost --- */

static void
test_frost (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrTap *one = tap (season, "2025-03-05"), *two = tap (season, "2025-03-06");
  FrDay *today = day (season, "2025-03-11", -3, 6), *tomorrow = day (season, "2025-03-12", -5, 4);
  FrGathering *gathering;
  g_autoptr (GPtrArray) told = ask (season, at (3, 11, 12), FR_REMINDERS_STANDING);
  const FrReminder *frost = find (told, FR_REMIND_FROST);

  g_assert_nonnull (frost);
  g_assert_cmpuint (frost->n, ==, 2);
  g_assert_cmpfloat (frost->temp_c, ==, -5);
  g_assert_true (isnan (frost->age_s) && frost->record == &tomorrow->record);
  g_assert_cmpint (frost->due_utc, ==, at (3, 11, 18));
  g_assert_cmpint (frost->urgency, ==, FR_URGENCY_NOW);
  g_assert_cmpstr (frost->key, ==, "frost/2025-03-11");

  /* A mild night; freezing itself is not below. */
  tomorrow->low_c.value = 0;
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_FROST));
  tomorrow->low_c.value = -0.5;
  g_assert_true (stands (season, at (3, 11, 12), FR_REMIND_FROST));
  /* Without tomorrow's, only what somebody expects of today. */
  tomorrow->record.archived = TRUE;
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_FROST));
  today->expected = TRUE;
  g_assert_true (stands (season, at (3, 11, 12), FR_REMIND_FROST));

  /* Emptied today; or yesterday, and nothing has thawed since. */
  gathering = gather (season, at (3, 11, 9), 8, 0);
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_FROST));
  gathering->gathered_utc = at (3, 10, 17);
  g_assert_true (stands (season, at (3, 11, 12), FR_REMIND_FROST));
  day (season, "2025-03-10", -9, -1);
  today->high_c.value = -1;
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_FROST));
  today->high_c.value = NAN;
  g_assert_true (stands (season, at (3, 11, 12), FR_REMIND_FROST));

  /* Nothing hangs. */
  one->pulled_on = g_strdup ("2025-03-10");
  two->pulled_on = g_strdup ("2025-03-11");
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_FROST));
  two->record.archived = TRUE;
  one->record.archived = TRUE;
  tap (season, "2025-03-11"); /* set today: empty */
  gathering->record.archived = TRUE;
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_FROST));
}

/* --- the trees --- */

static void
test_taps (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrStoring *storing = (FrStoring *)fr_record_new (FR_KIND_STORING);
  FrTap *first = tap (season, "2025-02-01");
  g_autoptr (GPtrArray) told = NULL, ahead = NULL, later = NULL;
  const FrReminder *reminder;

  tap (season, "2025-02-01");
  tap (season, "2025-02-08");
  /* Six weeks after 1 February is 15 March. */
  g_assert_false (stands (season, at (3, 15, 0) - 1, FR_REMIND_TAPS));
  told = ask (season, at (3, 15, 0), FR_REMINDERS_STANDING);
  reminder = find (told, FR_REMIND_TAPS);
  g_assert_nonnull (reminder);
  g_assert_cmpuint (reminder->n, ==, 2);
  g_assert_cmpuint (reminder->weeks, ==, 6);
  g_assert_cmpint (reminder->urgency, ==, FR_URGENCY_NOTE);
  g_assert_cmpint (reminder->due_utc, ==, at (3, 15, 0));
  g_assert_cmpstr (reminder->key, ==, "taps/2025/2025-02-01");
  later = ask (season, at (3, 22, 12), FR_REMINDERS_STANDING);
  g_assert_cmpuint (find (later, FR_REMIND_TAPS)->n, ==, 3);
  /* Before, the calendar knows when. */
  ahead = ask (season, at (3, 1, 12), FR_REMINDERS_LATER);
  g_assert_cmpint (find (ahead, FR_REMIND_TAPS)->urgency, ==, FR_URGENCY_LATER);
  g_assert_cmpuint (find (ahead, FR_REMIND_TAPS)->n, ==, 2);
  g_assert_cmpint (find (ahead, FR_REMIND_TAPS)->day.day, ==, 15);

  season->book.storing = storing;
  storing->tap_weeks.value = 4;
  g_assert_true (stands (season, at (3, 1, 12), FR_REMIND_TAPS));
  first->pulled_on = g_strdup ("2025-02-20");
  g_assert_true (stands (season, at (3, 1, 12), FR_REMIND_TAPS));
  first->season.value = 2024;
  g_assert_true (stands (season, at (3, 1, 12), FR_REMIND_TAPS));
}

static void
test_buds (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrDay *tight = day (season, "2025-03-20", -2, 8), *swelling = day (season, "2025-03-28", 1, 12);
  FrDay *again = day (season, "2025-03-30", 2, 14), *unseen = day (season, "2025-03-31", 2, 14);
  FrTap *one = tap (season, "2025-03-01");
  FrGathering *sap;
  g_autoptr (GPtrArray) told = NULL, open = NULL;

  random_season_text (&tight->buds, "tight");
  random_season_text (&swelling->buds, "swelling");
  random_season_text (&again->buds, "swelling");
  g_assert_false (stands (season, at (3, 27, 12), FR_REMIND_BUDS));
  told = ask (season, at (3, 31, 12), FR_REMINDERS_STANDING);
  g_assert_true (find (told, FR_REMIND_BUDS)->record == &swelling->record);
  g_assert_cmpstr (find (told, FR_REMIND_BUDS)->key, ==, "buds/2025/swelling");
  g_assert_cmpint (find (told, FR_REMIND_BUDS)->urgency, ==, FR_URGENCY_NOTE);
  random_season_text (&unseen->buds, "open");
  open = ask (season, at (3, 31, 12), FR_REMINDERS_STANDING);
  g_assert_cmpstr (find (open, FR_REMIND_BUDS)->buds, ==, "open");
  g_assert_cmpint (find (open, FR_REMIND_BUDS)->urgency, ==, FR_URGENCY_SOON);

  sap = gather (season, at (3, 30, 16), 4, 0);
  g_assert_false (stands (season, at (3, 31, 12), FR_REMIND_BUDDY));
  random_season_text (&sap->smell, "buddy");
  g_assert_true (stands (season, at (3, 31, 12), FR_REMIND_BUDDY));
  one->pulled_on = g_strdup ("2025-03-31"); /* all is over */
  g_assert_false (stands (season, at (3, 31, 12), FR_REMIND_BUDDY));
  g_assert_false (stands (season, at (3, 31, 12), FR_REMIND_BUDS));
}

/* --- work --- */

static void
test_findings (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrNight *night = random_season_add (season, FR_KIND_NIGHT);

  night->evening = g_strdup ("2025-03-11");
  night->start_utc = at (3, 11, 19);
  night->plan_end_utc = at (3, 12, 7);
  g_assert_false (stands (season, at (3, 12, 7) - 1, FR_REMIND_FINDINGS));
  g_assert_true (stands (season, at (3, 12, 7), FR_REMIND_FINDINGS));
  g_assert_true (stands (season, at (3, 25, 12), FR_REMIND_FINDINGS));
  g_assert_false (stands (season, at (3, 26, 12), FR_REMIND_FINDINGS));
  night->meter_kwh.value = 19;
  g_assert_false (stands (season, at (3, 12, 9), FR_REMIND_FINDINGS));
  night->meter_kwh.value = NAN;
  night->end_utc = at (3, 12, 6);
  g_assert_false (stands (season, at (3, 12, 9), FR_REMIND_FINDINGS));
}

static void
test_checklist (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrContainer *can = random_season_add (season, FR_KIND_CONTAINER), *other = random_season_add (season, FR_KIND_CONTAINER);
  g_autoptr (GPtrArray) told = NULL, one_left = NULL, three = NULL;
  g_autofree char *key = NULL;
  FrChore *chore;

  random_season_text (&can->material, "glass");
  random_season_text (&other->material, "glass");
  random_season_text (&can->name, "A");
  random_season_text (&other->name, "B");
  g_strlcpy (other->record.uid, "b", sizeof other->record.uid);
  told = ask (season, at (2, 1, 12), FR_REMINDERS_STANDING);
  g_assert_cmpuint (told->len, ==, 1); /* one for both cans */
  g_assert_cmpuint (find (told, FR_REMIND_CHORE)->n, ==, 2);
  g_assert_true (find (told, FR_REMIND_CHORE)->record == &can->record);
  g_assert_cmpint (find (told, FR_REMIND_CHORE)->urgency, ==, FR_URGENCY_NOTE);
  key = g_strdup (find (told, FR_REMIND_CHORE)->key);
  g_assert_cmpstr (key, ==, "chore/2025/wash/b");
  /* The one in use comes first. */
  gather (season, at (2, 28, 12), 3, 2);
  chore = random_season_add (season, FR_KIND_CHORE);
  g_clear_pointer (&told, g_ptr_array_unref);
  told = ask (season, at (3, 1, 12), FR_REMINDERS_STANDING);
  g_assert_true (find (told, FR_REMIND_CHORE)->record == &other->record);
  g_assert_cmpint (find (told, FR_REMIND_CHORE)->urgency, ==, FR_URGENCY_SOON);
  fr_chore_item_write (&find (told, FR_REMIND_CHORE)->item, 2025, (FrDate){ 2025, 3, 1 }, "done", chore);
  one_left = ask (season, at (3, 1, 12), FR_REMINDERS_STANDING);
  g_assert_true (find (one_left, FR_REMIND_CHORE)->record == &can->record);
  g_assert_cmpstr (find (one_left, FR_REMIND_CHORE)->key, ==, key); /* doing one brings none back */
  random_season_add (season, FR_KIND_CONTAINER);
  three = ask (season, at (3, 1, 12), FR_REMINDERS_STANDING);
  g_assert_cmpstr (find (three, FR_REMIND_CHORE)->key, !=, key);
}

static void
boil (RandomSeason *season, gint year, const char *day_of_year, double sap_l)
{
  FrNight *night = random_season_add (season, FR_KIND_NIGHT);

  night->evening = g_strdup_printf ("%d-%s", year, day_of_year);
  night->start_utc = at (3, 1, 19);
  night->meter_kwh.value = 20;
  night->pan_l.value = sap_l;
  night->sap_brix.value = 2;
}

/* 4 °C, 2 °Bx: 1.0079 kg/L; syrup of 66.9 °Bx holds 0.8885 kg a litre (see test-season). */
static void
test_orders (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrStoring *storing = (FrStoring *)fr_record_new (FR_KIND_STORING);
  FrHousehold *household = (FrHousehold *)fr_record_new (FR_KIND_HOUSEHOLD);
  g_autoptr (GPtrArray) told = NULL, past = NULL;
  const FrReminder *reminder;

  season->book.storing = storing;
  season->book.household = household;
  gather (season, at (3, 8, 17), 50, 0);
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_FILTERS)); /* nobody counts */
  storing->filters.value = 2;
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_FILTERS)); /* one night so far as is known */
  /* 50 L at 20 L a night are three nights. */
  boil (season, 2025, "03-09", 20);
  told = ask (season, at (3, 11, 12), FR_REMINDERS_STANDING);
  reminder = find (told, FR_REMIND_FILTERS);
  g_assert_nonnull (reminder);
  g_assert_cmpuint (reminder->n, ==, 2);
  g_assert_cmpuint (reminder->n_wanted, ==, 3);
  g_assert_cmpstr (reminder->key, ==, "filters/2025/2");
  /* Earlier seasons tell better: after 11 March one had three nights, the other two, one of them at two cookers. */
  boil (season, 2023, "03-11", 40);
  boil (season, 2023, "03-12", 40);
  boil (season, 2023, "03-20", 40);
  boil (season, 2023, "04-02", 40);
  boil (season, 2024, "03-15", 40);
  boil (season, 2024, "03-15", 10);
  boil (season, 2024, "03-30", 30);
  g_assert_true (stands (season, at (3, 11, 12), FR_REMIND_FILTERS));
  storing->filters.value = 3;
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_FILTERS)); /* 2.5 nights */

  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_BOTTLES));
  storing->bottles.value = 11;
  household->jar_l.value = 0.25;
  past = ask (season, at (3, 11, 12), FR_REMINDERS_STANDING);
  reminder = find (past, FR_REMIND_BOTTLES);
  g_assert_nonnull (reminder);
  /* 50 L wait, and 120 and 80 L followed. */
  g_assert_cmpfloat_with_epsilon (reminder->volume_l, (50 + 100) * 1.0079 * 0.02 / 0.8885, 5e-3);
  g_assert_cmpuint (reminder->n_wanted, ==, 14);
  storing->bottles.value = 14;
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_BOTTLES));
}

static void
test_ledger (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrDip *dip;
  g_autoptr (GPtrArray) told = NULL;

  gather (season, at (3, 8, 17), 20, 0);
  dip = random_season_add (season, FR_KIND_DIP);
  dip->found_utc = at (3, 9, 9);
  dip->volume_l.value = 18.1; /* less than a tenth off */
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_LEDGER));
  dip->volume_l.value = 17;
  told = ask (season, at (3, 11, 12), FR_REMINDERS_STANDING);
  g_assert_cmpfloat_with_epsilon (find (told, FR_REMIND_LEDGER)->volume_l, -3, 1e-9);
  g_assert_cmpuint (find (told, FR_REMIND_LEDGER)->n, ==, 1);
  g_assert_true (find (told, FR_REMIND_LEDGER)->record == &dip->record);
  dip->volume_l.value = 0.5;
  ((FrGathering *)season->book.gatherings->pdata[0])->volume_l.value = 1.3; /* a small amount is a small matter */
  g_assert_false (stands (season, at (3, 11, 12), FR_REMIND_LEDGER));
}

/* --- all together --- */

static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (7);

  for (guint i = 0; i < 60; i++)
    {
      g_autoptr (RandomSeason) season = random_season_new (random, 2025, toronto);
      gint64 now_utc = at (2, 20, 0) + 3600 * g_rand_int_range (random, 0, 40 * 24);
      g_autoptr (GPtrArray) once = NULL, twice = NULL, without = NULL, shown = NULL;
      g_autoptr (GHashTable) keys = g_hash_table_new (g_str_hash, g_str_equal);
      FrDismissal *away;
      guint n_away;

      for (guint t = 0; t < 5; t++)
        tap (season, t % 2 ? "2025-02-12" : "2025-02-15");
      for (guint k = 0; k < season->book.containers->len; k++)
        g_snprintf (((FrRecord *)season->book.containers->pdata[k])->uid, 33, "%032x", k);
      once = ask (season, now_utc, FR_REMINDERS_LATER);
      twice = ask (season, now_utc, FR_REMINDERS_LATER);
      g_assert_cmpuint (once->len, ==, twice->len);
      g_assert_cmpuint (once->len, >, 0);
      for (guint k = 0; k < once->len; k++)
        {
          const FrReminder *one = once->pdata[k], *other = twice->pdata[k];

          g_assert_cmpstr (one->key, ==, other->key);
          g_assert_true (g_hash_table_add (keys, one->key));
          g_assert_cmpuint (strlen (one->key), <=, 200); /* fits a dismissal */
          g_assert_false (one->dismissed);
          if (k > 0)
            g_assert_cmpint (((FrReminder *)once->pdata[k - 1])->urgency, >=, one->urgency);
        }
      n_away = (guint)g_rand_int_range (random, 0, (gint32)once->len);
      away = random_season_add (season, FR_KIND_DISMISSAL);
      away->about = g_strdup (((FrReminder *)once->pdata[n_away])->key);
      without = ask (season, now_utc, FR_REMINDERS_LATER);
      shown = ask (season, now_utc, FR_REMINDERS_LATER | FR_REMINDERS_DISMISSED);
      g_assert_cmpuint (without->len, ==, once->len - 1);
      g_assert_cmpuint (shown->len, ==, once->len);
      for (guint k = 0; k < once->len; k++)
        {
          g_assert_cmpint (((FrReminder *)shown->pdata[k])->dismissed, ==, k == n_away);
          if (k != n_away)
            g_assert_cmpstr (((FrReminder *)without->pdata[k - (k > n_away)])->key, ==, ((FrReminder *)once->pdata[k])->key);
        }
    }
}

/* The calendar counts those that stand at their day. */
static void
test_view (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  g_autoptr (FrSeasonView) view = NULL;
  guint n = 0;

  tap (season, "2025-02-01");
  day (season, "2025-03-21", -5, 4);
  view = fr_season_view_new (&season->book, 2025, at (3, 20, 12));
  for (guint i = 0; i < view->n_days; i++)
    n += view->days[i].n_reminders;
  g_assert_cmpuint (view->reminders->len, ==, 2); /* frost tonight, old taps */
  g_assert_cmpuint (n, ==, 2);
  g_assert_cmpuint (view->days[view->today].n_reminders, ==, 2);
}

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  toronto = test_zone ("America/Toronto");
  g_test_add_func ("/reminders/keeping", test_keeping);
  g_test_add_func ("/reminders/full", test_full);
  g_test_add_func ("/reminders/frost", test_frost);
  g_test_add_func ("/reminders/taps", test_taps);
  g_test_add_func ("/reminders/buds", test_buds);
  g_test_add_func ("/reminders/findings", test_findings);
  g_test_add_func ("/reminders/checklist", test_checklist);
  g_test_add_func ("/reminders/orders", test_orders);
  g_test_add_func ("/reminders/ledger", test_ledger);
  g_test_add_func ("/reminders/random", test_random);
  g_test_add_func ("/reminders/view", test_view);
  result = g_test_run ();
  fr_zone_table_free (toronto);
  return result;
}
