/* The season, its reminders and its checklist in words. The sentences are this project's own; what is held is that every fact is in them,
 * none is made up, that what is unknown is not called nothing, and that electricity and lead point to whoever is licensed or in charge. */
#include "words/chore-words.h"
#include "words/reminder-words.h"
#include "words/season-words.h"

#include "random-season.h"
#include "sentences.h"

#include <math.h>

static FrZoneTable *utc;

static FrSay
say_in (FrSystem system)
{
  return (FrSay){ .units = { .system = system, .decimal_mark = '.' }, .currency = "CAD", .zone = utc };
}

static gint64
at (gint month, gint day, gint hour)
{
  return (fr_date_to_days ((FrDate){ 2026, month, day }) * 24 + hour) * 3600;
}

/* Every kind of space as one blank, as a person reads it; markup dropped. */
static char *
plain (char *text)
{
  g_autofree char *without = text != NULL ? fr_say_plain (text) : g_strdup ("(none)");
  GString *out = g_string_new (NULL);

  for (const char *c = without; *c != '\0'; c = g_utf8_next_char (c))
    if (g_unichar_isspace (g_utf8_get_char (c)))
      g_string_append_c (out, ' ');
    else
      g_string_append_len (out, c, g_utf8_next_char (c) - c);
  g_free (text);
  return g_string_free (out, FALSE);
}

static void
assert_text (char *text, const char *wanted)
{
  g_autofree char *is = plain (text);

  g_assert_cmpstr (is, ==, wanted);
}

static void
assert_holds (const char *text, const char *part)
{
  g_autofree char *is = plain (g_strdup (text));

  if (strstr (is, part) == NULL)
    g_error ("“%s” does not say “%s”", is, part);
}

static RandomSeason *
some_season (void)
{
  RandomSeason *season = random_season_new_empty (2026, utc);
  FrGathering *one = random_season_add (season, FR_KIND_GATHERING), *two = random_season_add (season, FR_KIND_GATHERING);
  FrNight *night = random_season_add (season, FR_KIND_NIGHT);
  FrPour *pour = random_season_add (season, FR_KIND_POUR);
  FrTap *tap = random_season_add (season, FR_KIND_TAP);
  FrDay *day = random_season_add (season, FR_KIND_DAY);

  one->gathered_utc = at (3, 8, 17);
  one->volume_l.value = 125;
  one->reading_brix.value = 2.2;
  two->gathered_utc = at (3, 11, 16);
  two->volume_l.value = 22;
  two->reading_brix.value = 2.2;
  two->ice_l.value = 1.5;
  night->evening = g_strdup ("2026-03-09");
  night->start_utc = at (3, 9, 19);
  night->pan_l.value = 2.5;
  night->bucket_l.value = 113.5;
  night->sap_brix.value = 2.2;
  night->plan_energy_kwh.value = 80;
  night->plan_cost.value = 633;
  pour->poured_utc = at (3, 9, 18);
  random_season_text (&pour->reason, "boiled");
  pour->volume_l.value = 116;
  pour->night = 1;
  tap->season.value = 2026;
  tap->set_on = g_strdup ("2026-02-19");
  day->day = g_strdup ("2026-03-11");
  day->low_c.value = -4;
  day->high_c.value = 5;
  random_season_text (&day->buds, "swelling");
  return season;
}

/* 116 L of 2.2 °Bx hold 116 · 1.0087 · 0.022 = 2.574 kg of sugar, 0.8885 kg in a litre of syrup (see test-season): 2.90 L. */
static void
test_answer (void)
{
  g_autoptr (RandomSeason) season = some_season ();
  g_autoptr (RandomSeason) empty = random_season_new_empty (2026, utc);
  g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, 2026, at (3, 11, 20));
  g_autoptr (FrSeasonView) none = fr_season_view_new (&empty->book, 2026, at (3, 11, 20));
  g_autoptr (FrSeasonView) old = fr_season_view_new (&empty->book, 2020, at (3, 11, 20));
  g_autoptr (FrSeasonView) first = fr_season_view_new (&season->book, 2026, at (3, 8, 20));
  FrSeasonTally past = fr_season_view_tally (view, (FrDate){ 2026, 3, 9 });
  FrSay say = say_in (FR_SYSTEM_METRIC), us = say_in (FR_SYSTEM_US);
  g_autofree char *markup = fr_season_sentence (view, &say);

  past.season = 2025;
  sentence_markup (markup);
  g_assert_true (g_str_has_prefix (markup, "<b>147"));
  assert_text (fr_season_sentence (view, &say), "147 L gathered, 31.0 L waiting, 2.90 L of syrup.");
  assert_text (fr_season_sentence (view, &us), "38.8 gal gathered, 8.2 gal waiting, 0.77 gal of syrup.");
  assert_text (fr_season_sentence (none, &say), "Nothing is written down of this season yet.");
  assert_text (fr_season_sentence (old, &say), "Nothing is written down of this season.");
  assert_text (fr_season_sentence (first, &say), "125 L gathered, 125 L waiting.");
  assert_text (fr_season_reason (view, &past, &say), "116 L boiled in 1 night for $6.33 of power. On this date in 2025 it was 125 L.");
  assert_text (fr_season_reason (view, NULL, &say), "116 L boiled in 1 night for $6.33 of power.");
  g_assert_null (fr_season_reason (none, NULL, &say));
  g_assert_null (fr_season_reason (first, NULL, &say));
}

static void
test_figures (void)
{
  g_autoptr (RandomSeason) season = some_season (), empty = random_season_new_empty (2025, utc);
  g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, 2026, at (3, 11, 20));
  g_autoptr (FrSeasonView) none = fr_season_view_new (&empty->book, 2025, at (3, 11, 20));
  FrSeasonTally past = fr_season_view_tally (view, (FrDate){ 2026, 3, 9 });
  FrSay say = say_in (FR_SYSTEM_METRIC);
  g_autoptr (GPtrArray) figures = fr_season_figures (&view->tally, &past, &say);
  g_autoptr (GPtrArray) unknown = fr_season_figures (&none->tally, &none->tally, &say);
  static const char *const numbers[] = { "147", "3.26", "31.0", "2.90", "$6.33" };

  g_assert_cmpuint (figures->len, ==, 5);
  for (guint i = 0; i < figures->len; i++)
    {
      const FrFigure *figure = figures->pdata[i];

      g_assert_cmpstr (figure->number, ==, numbers[i]);
      sentence_parts (figure->label);
      if (i != 2)
        assert_holds (figure->note, "in 2026");
    }
  g_assert_null (((FrFigure *)figures->pdata[2])->note);
  for (guint i = 0; i < unknown->len; i++)
    {
      g_assert_cmpstr (((FrFigure *)unknown->pdata[i])->number, ==, "–");
      g_assert_null (((FrFigure *)unknown->pdata[i])->note);
    }
}

static void
test_day (void)
{
  g_autoptr (RandomSeason) season = some_season ();
  g_autoptr (FrSeasonView) view = fr_season_view_new (&season->book, 2026, at (3, 11, 20));
  FrSay say = say_in (FR_SYSTEM_METRIC), us = say_in (FR_SYSTEM_US);
  const FrSeasonDay *day = fr_season_view_day (view, (FrDate){ 2026, 3, 11 });
  FrSeasonDay odd = *day;

  assert_text (fr_season_day_note (view, day, &say), "Day 20 since tapping · −4 to 5 °C");
  assert_text (fr_season_day_note (view, day, &us), "Day 20 since tapping · 25 to 41 °F");
  g_assert_null (fr_season_day_note (view, fr_season_view_day (view, (FrDate){ 2026, 2, 14 }), &say));
  {
    g_autofree char *spoken = plain (fr_season_day_spoken (view, day, &say));

    assert_holds (spoken, "Wednesday");
    assert_holds (spoken, ". Today. −4 to 5 °C. 22.0 L gathered at 2.2 °Bx. 1.5 L of ice thrown out. 31.0 L in store. Buds swelling.");
    sentence (spoken);
  }
  /* A day that is not known is not called empty. */
  {
    g_autofree char *spoken = plain (fr_season_day_spoken (view, fr_season_view_day (view, (FrDate){ 2026, 3, 20 }), &say));

    g_assert_null (strstr (spoken, "othing"));
    sentence (spoken);
  }
  {
    g_autofree char *spoken = plain (fr_season_day_spoken (view, fr_season_view_day (view, (FrDate){ 2026, 3, 9 }), &say));

    assert_holds (spoken, "Nothing gathered. 9.0 L in store. 116 L boiled for $6.33 of power.");
  }
  odd.clock_change_s = 3600;
  odd.is_holiday = TRUE;
  odd.is_boil_planned = TRUE;
  odd.n_boils = 1;
  odd.boiled_l = 25;
  odd.cost_minor = 200;
  odd.is_expected_weather = TRUE;
  odd.high_c = NAN;
  odd.gathered_l = odd.sugar_kg = NAN;
  odd.n_gatherings = 1;
  odd.taps_pulled = 2;
  odd.n_reminders = 3;
  odd.n_bottles = 4;
  odd.expected_lo_l = 8;
  odd.expected_hi_l = 22;
  {
    g_autofree char *spoken = plain (fr_season_day_spoken (view, &odd, &say));
    static const char *const parts[]
        = { "Down to −4 °C expected.", "Gathered, not measured.", "8 to 22 L expected, 8 in 10 inside.", "Boil of 25.0 L planned for $2.00 of power.",
            "4 bottles filled.", "Clocks go forward.", "Holiday, other prices.", "2 taps pulled.", "3 reminders." };

    for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
      assert_holds (spoken, parts[i]);
    sentence (spoken);
  }
}

/* --- reminders --- */

static FrReminder
reminder (FrReminderCode code)
{
  return (FrReminder){ .code = code, .due_utc = G_MININT64, .volume_l = NAN, .capacity_l = NAN, .temp_c = NAN, .age_s = NAN };
}

static void
check_reminder (const FrReminder *one, const char *title, const char *const *parts)
{
  static const FrSystem systems[] = { FR_SYSTEM_US, FR_SYSTEM_IMPERIAL, FR_SYSTEM_METRIC };

  for (guint i = 0; i < G_N_ELEMENTS (systems); i++)
    {
      FrSay say = say_in (systems[i]);
      g_autoptr (FrReminderWords) words = fr_reminder_words_new (one, at (3, 12, 9), &say);
      g_autofree char *all = g_strdup_printf ("%s %s", words->sentence, words->why);

      sentence_parts (words->title);
      sentence (words->sentence);
      sentence (words->why);
      assert_holds (words->title, title);
      for (guint k = 0; systems[i] == FR_SYSTEM_METRIC && parts[k] != NULL; k++)
        assert_holds (all, parts[k]);
    }
}

#define PARTS(...) (const char *const[]){ __VA_ARGS__, NULL }

static void
test_sap_reminders (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2026, utc);
  FrContainer *crock = random_season_add (season, FR_KIND_CONTAINER);
  FrReminder one = reminder (FR_REMIND_BOIL_BY);
  FrStockLine line = { .code = FR_LINE_FOUND, .utc_s = at (3, 11, 9), .volume_l = -3 };

  random_season_text (&crock->name, "cellar crock");
  one.record = &crock->record;
  one.volume_l = 9;
  one.due_utc = at (3, 15, 18);
  one.age_s = 2 * 86400;
  check_reminder (&one, "Boil “cellar crock” by Sunday 18:00", PARTS ("9.0 L", "5 days old", "local food rules"));
  one.age_s = NAN;
  check_reminder (&one, "Boil “cellar crock”", PARTS ("9.0 L", "Sunday 18:00"));
  one.code = FR_REMIND_SPOILED;
  one.due_utc = at (3, 11, 18);
  one.age_s = 6 * 86400;
  check_reminder (&one, "Past its time: “cellar crock”", PARTS ("9.0 L", "Wednesday 18:00", "6 days old", "Pour away", "local food rules"));
  one.record = NULL;
  one.due_utc = G_MININT64;
  one.age_s = NAN;
  check_reminder (&one, "the sap without a container", PARTS ("9.0 L", "local food rules"));

  one = reminder (FR_REMIND_FROST);
  one.temp_c = -5;
  one.n = 14;
  one.due_utc = at (3, 12, 18);
  check_reminder (&one, "frost", PARTS ("18:00", "−5 °C", "14 taps", "No gathering is written down yet"));
  one.n = 1;
  one.age_s = 26 * 3600;
  check_reminder (&one, "frost", PARTS ("1 tap.", "26 h ago"));

  one = reminder (FR_REMIND_FULL);
  one.record = &crock->record;
  one.volume_l = 18.1;
  one.capacity_l = 20;
  check_reminder (&one, "Nearly full: “cellar crock”", PARTS ("18.1 L", "20.0 L"));
  one.volume_l = 21;
  check_reminder (&one, "Full: “cellar crock”", PARTS ("21.0 L", "20.0 L"));

  one = reminder (FR_REMIND_LEDGER);
  one.line = &line;
  one.n = 2;
  for (guint code = 0; code < FR_N_LINES; code++)
    {
      line.code = code;
      one.volume_l = line.volume_l = code < FR_LINE_NO_SUGAR ? -3 : NAN;
      check_reminder (&one, "account", PARTS ("2 lines"));
      if (code < FR_LINE_NO_SUGAR)
        check_reminder (&one, "account", PARTS ("3.0 L", "11"));
    }
  line.code = FR_LINE_FOUND;
  one.volume_l = -3;
  check_reminder (&one, "account", PARTS ("less was found"));
  one.volume_l = 3;
  check_reminder (&one, "account", PARTS ("more was found"));
}

static void
test_work_reminders (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2026, utc);
  FrTap *tap = random_season_add (season, FR_KIND_TAP);
  FrDay *day = random_season_add (season, FR_KIND_DAY);
  FrGathering *gathering = random_season_add (season, FR_KIND_GATHERING);
  FrDip *dip = random_season_add (season, FR_KIND_DIP);
  FrNight *night = random_season_add (season, FR_KIND_NIGHT);
  FrContainer *crock = random_season_add (season, FR_KIND_CONTAINER);
  FrReminder one = reminder (FR_REMIND_TAPS);

  tap->set_on = g_strdup ("2026-01-29");
  day->day = g_strdup ("2026-03-28");
  gathering->gathered_utc = at (3, 10, 17);
  dip->found_utc = at (3, 11, 17);
  night->evening = g_strdup ("2026-03-09");
  random_season_text (&crock->name, "crock");
  one.record = &tap->record;
  one.n = 14;
  one.weeks = 6;
  check_reminder (&one, "are 6 weeks", PARTS ("14 taps", "29"));
  one.due_utc = at (3, 13, 5);
  check_reminder (&one, "will be 6 weeks", PARTS ("14 taps", "13 March"));
  one = reminder (FR_REMIND_BUDS);
  one.record = &day->record;
  one.buds = "swelling";
  check_reminder (&one, "swelling", PARTS ("28", "Smell"));
  one.buds = "open";
  check_reminder (&one, "open", PARTS ("28", "Pull the taps"));
  one = reminder (FR_REMIND_BUDDY);
  one.record = &gathering->record;
  check_reminder (&one, "buddy", PARTS ("10"));
  one.record = &dip->record;
  check_reminder (&one, "buddy", PARTS ("11"));
  one = reminder (FR_REMIND_FINDINGS);
  one.record = &night->record;
  check_reminder (&one, "boil", PARTS ("9"));
  one = reminder (FR_REMIND_FILTERS);
  one.n = 2;
  one.n_wanted = 7;
  check_reminder (&one, "Order filters", PARTS ("2 left", "7 nights"));
  one.code = FR_REMIND_BOTTLES;
  one.volume_l = 3.4;
  check_reminder (&one, "Order bottles", PARTS ("2 left", "7 are wanted", "3.4 L"));
  one = reminder (FR_REMIND_CHORE);
  one.item = (FrChoreItem){ .task = FR_CHORE_WASH, .kit = &crock->record, .state = FR_CHORE_DUE };
  one.n = 1;
  check_reminder (&one, "Wash", PARTS ("Wash: crock."));
  one.n = 3;
  check_reminder (&one, "Wash", PARTS ("Wash: crock and 2 more."));
}

/* --- checklist --- */

static void
test_chores (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2026, utc);
  FrContainer *crock = random_season_add (season, FR_KIND_CONTAINER);
  FrChore *done = random_season_add (season, FR_KIND_CHORE);
  static const FrChoreWhy lead[] = { FR_CHORE_WHY_UNKNOWN_METAL, FR_CHORE_WHY_GALVANISED, FR_CHORE_WHY_SOLDERED, FR_CHORE_WHY_OLD };
  static const FrChoreWhy power[] = { FR_CHORE_WHY_SEASON, FR_CHORE_WHY_NO_PROTECTION, FR_CHORE_WHY_NO_CIRCUIT };
  g_autoptr (GHashTable) titles = g_hash_table_new (g_str_hash, g_str_equal);
  FrChoreItem item = { .kit = &crock->record, .used_on = { 2026, 3, 1 } };

  random_season_text (&crock->name, "crock");
  done->done_on = g_strdup ("2026-02-27");
  for (guint task = 0; task < FR_N_CHORES; task++)
    {
      g_autofree char *title = NULL, *text = NULL;

      item.task = task;
      title = fr_chore_item_title (&item);
      text = fr_chore_item_sentence (&item);
      sentence (text);
      assert_holds (title, "crock");
      g_assert_true (g_hash_table_add (titles, (gpointer)fr_chore_title (task)));
      g_assert_true (g_str_has_prefix (title, fr_chore_title (task)));
      for (guint state = 0; state <= FR_CHORE_LATE; state++)
        {
          g_autofree char *words = NULL;

          item.state = state;
          item.done = state == FR_CHORE_DONE ? done : NULL;
          words = fr_chore_state_words (&item);
          sentence_parts (words);
          if (state == FR_CHORE_DONE)
            assert_holds (words, "27");
          if (state == FR_CHORE_LATE)
            assert_holds (words, "1 March");
        }
    }
  item.task = FR_CHORE_MATERIAL;
  for (guint i = 0; i < G_N_ELEMENTS (lead); i++)
    {
      g_autofree char *text = NULL;

      item.why = lead[i];
      text = fr_chore_item_sentence (&item);
      sentence (text);
      assert_holds (text, "ead");
      assert_holds (text, "local food authority");
    }
  item.why = FR_CHORE_WHY_NOT_FOOD;
  {
    g_autofree char *text = fr_chore_item_sentence (&item);

    sentence (text);
    assert_holds (text, "food-grade");
  }
  item.task = FR_CHORE_GROUND_FAULT;
  for (guint i = 0; i < G_N_ELEMENTS (power); i++)
    {
      g_autofree char *text = NULL;

      item.why = power[i];
      text = fr_chore_item_sentence (&item);
      sentence (text);
      assert_holds (text, "licensed electrician");
    }
  item.task = FR_CHORE_WATER_TEST;
  item.why = FR_CHORE_WHY_NEVER_MEASURED;
  {
    g_autofree char *text = fr_chore_item_sentence (&item);

    sentence (text);
    assert_holds (text, "stay with it");
  }
}

int
main (int argc, char *argv[])
{
  int result;

  g_test_init (&argc, &argv, NULL);
  utc = fr_zone_table_new_utc ();
  g_test_add_func ("/season-words/answer", test_answer);
  g_test_add_func ("/season-words/figures", test_figures);
  g_test_add_func ("/season-words/day", test_day);
  g_test_add_func ("/season-words/sap-reminders", test_sap_reminders);
  g_test_add_func ("/season-words/work-reminders", test_work_reminders);
  g_test_add_func ("/season-words/chores", test_chores);
  result = g_test_run ();
  fr_zone_table_free (utc);
  return result;
}
