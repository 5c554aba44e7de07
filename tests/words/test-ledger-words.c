/* The account in words: every line and every cause says which entry, when and how much, in the household's units, and only that it may
 * be so; and over random seasons no text is broken. */
#include "domain/zones.h"
#include "seasons.h"
#include "sentences.h"
#include "words/ledger-words.h"

static FrZoneTable *toronto;
static FrSay metric, us;

static void
has (const char *text, const char *part)
{
  g_auto (GStrv) parts = g_strsplit (text != NULL ? text : "", "\302\240", -1);
  g_autofree char *plain = g_strjoinv (" ", parts);

  if (strstr (plain, part) == NULL)
    g_error ("“%s” does not hold “%s”", plain, part);
}

static void
test_season (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  g_autoptr (FrLedger) ledger = fr_ledger_new (&season->book, 2025, G_MAXINT64);
  g_autofree char *none = fr_ledger_sentence (ledger, &metric), *nothing = fr_ledger_reason (ledger, &metric), *some = NULL,
                  *plain = NULL, *reason = NULL, *gallons = NULL;

  g_assert_cmpstr (none, ==, "No sap came in.");
  g_assert_null (nothing);
  season_can (season, 60)->name = g_strdup ("Can <1> & more");
  season_gather (season, season_hour (season, 5, 16), 20, 2, 1)->ice_l.value = 3;
  season_pour (season, season_hour (season, 6, 18), "boiled", 12, 1, 0);
  season_pour (season, season_hour (season, 6, 19), "drunk", 0.5, 1, 0);
  g_clear_pointer (&ledger, fr_ledger_free);
  ledger = fr_ledger_new (&season->book, 2025, G_MAXINT64);
  some = fr_ledger_sentence (ledger, &metric);
  sentence_markup (some);
  plain = fr_say_plain (some);
  has (plain, "20.0 L came in, 12.0 L went to the boil, 7.5 L are there.");
  reason = fr_ledger_reason (ledger, &metric);
  sentence (reason);
  has (reason, "3.0 L thrown out as ice, 0.5 L drunk.");
  gallons = fr_ledger_sentence (ledger, &us);
  has (gallons, "5.3 gal");
}

/* One line of each kind. */
static void
test_lines (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  g_autoptr (FrLedger) ledger = NULL;
  static const char *const says[] = { "found in “Jug”", "more were poured into “Jug” than it holds",
                                      "more were taken out of “Jug” than were in it", "a boil that no night tells of",
                                      "more were taken out of containers than the night says",
                                      "no sap was taken out of a container", "cannot be worked out" };
  gboolean seen[G_N_ELEMENTS (says)] = { FALSE };
  FrNight *differs;
  FrGathering *deep;

  season_can (season, 30)->name = g_strdup ("Jug");
  season_gather (season, season_hour (season, 4, 16), 28, 2, 1);
  season_dip (season, season_hour (season, 5, 9), 25, NAN, 1);
  season_gather (season, season_hour (season, 5, 16), 10, 2, 1);
  differs = season_night (season, 6, 3, 27, 2);
  season_night (season, 8, 3, 20, 2);
  season_pour (season, season_hour (season, 6, 18), "boiled", 33, 1, 0)->night = differs->record.id;
  season_pour (season, season_hour (season, 8, 18), "boiled", 9, 1, 0);
  deep = season_gather (season, season_hour (season, 9, 16), NAN, 2, 1);
  random_season_text (&deep->measured_by, "depth");
  deep->depth_m.value = 2;
  ledger = fr_ledger_new (&season->book, 2025, G_MAXINT64);
  for (guint i = 0; i < ledger->n_lines; i++)
    {
      g_autofree char *text = fr_ledger_line_sentence (&ledger->lines[i], ledger, &metric);

      sentence (text);
      for (guint k = 0; k < G_N_ELEMENTS (says); k++)
        seen[k] |= strstr (text, says[k]) != NULL;
    }
  for (guint k = 0; k < G_N_ELEMENTS (says); k++)
    if (!seen[k])
      g_error ("no line says “%s”", says[k]);
}

static void
test_causes (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  FrGathering *gathering = season_gather (season, season_hour (season, 5, 16), 20, 2, 0);
  FrNight *night = season_night (season, 6, 3, 27, 2);
  const FrLedgerLine line = { .code = FR_LEDGER_FOUND, .volume_l = -3, .error_l = 0.8 };
  const struct
  {
    FrLedgerCause cause;
    const char *says;
  } causes[] = {
    { { .code = FR_LEDGER_CAUSE_MEASURING }, "about 0.8 L here" },
    { { .code = FR_LEDGER_CAUSE_UNIT, .record = &gathering->record, .slip = FR_SLIP_US_GAL },
      "The gathering of Wednesday 5 March, 16:00, may have been in US gallons and kept as litres." },
    { { .code = FR_LEDGER_CAUSE_UNIT, .record = &gathering->record, .slip = FR_SLIP_TEN_LESS },
      "a tenth of it" },
    { { .code = FR_LEDGER_CAUSE_MISSED }, "A gathering may not have been written down." },
    { { .code = FR_LEDGER_CAUSE_DOUBLE, .record = &gathering->record }, "may have been written down twice" },
    { { .code = FR_LEDGER_CAUSE_BOILED_MORE, .record = &night->record, .volume_l = -4 },
      "More may have gone to the boil of Thursday 6 March than was written down: the night says 4.0 L "
      "more." },
    { { .code = FR_LEDGER_CAUSE_BOILED_MORE, .volume_l = NAN },
      "More may have gone to the boil than was written down." },
    { { .code = FR_LEDGER_CAUSE_SPILLED }, "spilled" },
    { { .code = FR_LEDGER_CAUSE_ICE }, "Ice may have been thrown out" },
    { { .code = FR_LEDGER_CAUSE_WATER }, "Rain" },
    { { .code = FR_LEDGER_CAUSE_POURED_BACK, .record = &night->record, .volume_l = 2 },
      "2.0 L, may have been poured back" },
    { { .code = FR_LEDGER_CAUSE_OTHER_PLACE, .record = &gathering->record }, "another container" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (causes); i++)
    {
      g_autofree char *text = fr_ledger_cause_sentence (&line, &causes[i].cause, &metric);

      sentence (text);
      has (text, causes[i].says);
    }
  for (guint slip = 0; slip < FR_N_SLIPS; slip++)
    {
      FrLedgerCause cause = { .code = FR_LEDGER_CAUSE_UNIT, .record = &night->record, .slip = slip };
      g_autofree char *text = fr_ledger_cause_sentence (&line, &cause, &metric);

      sentence (text);
      has (text, "The boil of Thursday 6 March, 19:00,");
    }
}

static void
test_chances (void)
{
  const FrLedgerCause sure = { .chance_ratio = 1 }, some = { .chance_ratio = 0.634 };
  g_autofree char *first = fr_ledger_chance_words (&sure, &metric), *second = fr_ledger_chance_words (&some, &metric);

  has (first, "99 %");
  has (second, "63 %");
}

static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (77);

  for (guint i = 0; i < 20; i++)
    {
      g_autoptr (RandomSeason) season
          = i % 2 ? random_season_new_kept (random, 2025, toronto) : random_season_new (random, 2025, toronto);
      g_autoptr (FrLedger) ledger = fr_ledger_new (&season->book, 2025, season_hour (season, 28, 0));
      g_autofree char *all = fr_ledger_sentence (ledger, &us), *reason = fr_ledger_reason (ledger, &us);

      sentence_markup (all);
      if (reason != NULL)
        sentence (reason);
      for (guint k = 0; k < ledger->n_lines; k++)
        {
          g_autofree char *text = fr_ledger_line_sentence (&ledger->lines[k], ledger, &us);

          sentence (text);
          for (guint c = 0; c < ledger->lines[k].n_causes; c++)
            {
              g_autofree char *cause = fr_ledger_cause_sentence (&ledger->lines[k], &ledger->lines[k].causes[c], &us);

              sentence (cause);
            }
        }
    }
}

int
main (int argc, char **argv)
{
  int failed;

  g_test_init (&argc, &argv, NULL);
  toronto = test_zone ("America/Toronto");
  metric = (FrSay){ .units = { .decimal_mark = '.' }, .zone = toronto };
  us = (FrSay){ .units = { .system = FR_SYSTEM_US, .decimal_mark = '.' }, .zone = toronto, .twelve_hour = TRUE };
  g_test_add_func ("/ledger-words/season", test_season);
  g_test_add_func ("/ledger-words/lines", test_lines);
  g_test_add_func ("/ledger-words/causes", test_causes);
  g_test_add_func ("/ledger-words/chances", test_chances);
  g_test_add_func ("/ledger-words/random", test_random);
  failed = g_test_run ();
  fr_zone_table_free (toronto);
  return failed;
}
