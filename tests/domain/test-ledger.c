/* The season's account: sums by hand and by the flows they are made of; nights; and the causes of differences, by hand where one is
 * plain, and by planting mistakes into seasons as they happened to a careful household (tests/random-season-kept.c): how often the
 * cause named first is the mistake that was made. */
#include "domain/plan/ledger.h"

#include "found.h"
#include "seasons.h"
#include "zones.h"

#define SEASONS 900

static FrZoneTable *toronto;

static FrLedger *
ledger_of (const RandomSeason *season)
{
  return fr_ledger_new (&season->book, season->season, G_MAXINT64);
}

static const FrLedgerLine *
line_at (const FrLedger *ledger, const FrRecord *record, FrLedgerCode code)
{
  for (guint i = 0; i < ledger->n_lines; i++)
    if (ledger->lines[i].record == record && ledger->lines[i].code == code)
      return &ledger->lines[i];
  return NULL;
}

/* --- sums --- */

/* By hand: 20 + 15 L come in, 10 are moved, 12 boiled, 1 spilled, 0.5 drunk; a look finds 2 L less, another 1 L more; 3 L of ice were
 * left at the trees, taken as 0.5 °Bx. Sap of 2 °Bx weighs 1.0079 kg/L at 4 °C. */
static void
test_sums (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  g_autoptr (FrLedger) ledger = NULL;
  const FrLedgerAccount *first, *second;

  season_can (season, 60);
  season_can (season, 60);
  season_gather (season, season_hour (season, 5, 16), 20, 2, 1)->ice_l.value = 3;
  season_gather (season, season_hour (season, 5, 16), 15, 2, 2);
  season_pour (season, season_hour (season, 6, 8), "moved", 10, 1, 2);
  season_pour (season, season_hour (season, 6, 18), "boiled", 12, 2, 0);
  season_pour (season, season_hour (season, 6, 18), "spilled", 1, 2, 0);
  season_pour (season, season_hour (season, 6, 18), "drunk", 0.5, 2, 0);
  season_dip (season, season_hour (season, 7, 9), 8, NAN, 1);
  season_dip (season, season_hour (season, 7, 9), 12.5, NAN, 2);
  ledger = ledger_of (season);
  g_assert_cmpuint (ledger->n_accounts, ==, 2);
  first = &ledger->accounts[0];
  second = &ledger->accounts[1];
  g_assert_cmpint (first->container->record.id, ==, 1);
  g_assert_cmpfloat (first->flows[FR_FLOW_GATHERED].volume_l, ==, 20);
  g_assert_cmpfloat (first->flows[FR_FLOW_MOVED].volume_l, ==, 10);
  g_assert_cmpfloat_with_epsilon (first->found_less.volume_l, -2, 1e-9);
  g_assert_cmpfloat (first->flows[FR_FLOW_FOUND].volume_l, ==, 0);
  g_assert_cmpfloat (second->moved_in.volume_l, ==, 10);
  g_assert_cmpfloat (second->flows[FR_FLOW_BOILED].volume_l, ==, 12);
  g_assert_cmpfloat_with_epsilon (second->flows[FR_FLOW_FOUND].volume_l, 1, 1e-9);
  g_assert_cmpfloat_with_epsilon (second->there.volume_l, 12.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (second->mixing_l, 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (ledger->all.flows[FR_FLOW_GATHERED].sugar_kg, 35 * 1.0079 * 0.02, 1e-4);
  g_assert_cmpfloat (ledger->all.flows[FR_FLOW_MOVED].volume_l, ==, 0);
  g_assert_cmpfloat_with_epsilon (ledger->all.there.volume_l, 20.5, 1e-9);
  g_assert_cmpfloat (ledger->tree_ice.volume_l, ==, 3);
  g_assert_cmpfloat_with_epsilon (ledger->tree_ice.sugar_kg, 3 * 1.002 * 0.005, 1e-4);
  /* The two looks are lines; a boil on the stove needs no night. */
  g_assert_cmpuint (ledger->n_lines, ==, 2);
}

static double
signed_sum (const FrLedgerAccount *account, gboolean sugar)
{
  const FrLedgerSum *in[] = { &account->flows[FR_FLOW_GATHERED], &account->flows[FR_FLOW_FOUND], &account->found_less,
                              &account->moved_in };
  double sum = 0;

  for (guint i = 0; i < G_N_ELEMENTS (in); i++)
    sum += sugar ? in[i]->sugar_kg : in[i]->mass_kg;
  for (guint kind = FR_FLOW_MOVED; kind <= FR_FLOW_DRUNK; kind++)
    sum -= sugar ? account->flows[kind].sugar_kg : account->flows[kind].mass_kg;
  return sum;
}

/* Conservation of mass and sugar in 60 seasons of anything, and chances that are chances. */
static void
test_adds_up (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (5);
  guint n_lines = 0;

  for (guint i = 0; i < 60; i++)
    {
      g_autoptr (RandomSeason) season = random_season_new (random, 2025, toronto);
      g_autoptr (FrLedger) ledger = ledger_of (season);
      double there_l = 0;

      for (guint k = 0; k <= ledger->n_accounts; k++)
        {
          const FrLedgerAccount *account = k < ledger->n_accounts ? &ledger->accounts[k] : &ledger->all;

          found_near ("mass of an account, kg", signed_sum (account, FALSE), account->there.mass_kg, 1e-9);
          if (!isnan (account->there.sugar_kg))
            found_near ("sugar of an account, kg", signed_sum (account, TRUE), account->there.sugar_kg, 1e-9);
          there_l += k < ledger->n_accounts ? account->there.volume_l : 0;
        }
      found_near ("litres of all accounts", there_l, ledger->all.there.volume_l, 1e-9);
      for (guint k = 0; k < ledger->n_lines; k++)
        {
          const FrLedgerLine *line = &ledger->lines[k];
          double sum = 0;

          g_assert_true (k == 0 || line->utc_s >= ledger->lines[k - 1].utc_s);
          g_assert_nonnull (line->record);
          n_lines++;
          for (guint c = 0; c < line->n_causes; c++)
            {
              g_assert_true (c == 0 || line->causes[c].chance_ratio <= line->causes[c - 1].chance_ratio);
              sum += line->causes[c].chance_ratio;
            }
          g_assert_cmpfloat (sum, <=, 1 + 1e-9);
          if (line->code <= FR_LEDGER_OVERFLOW && !isnan (line->volume_l))
            g_assert_cmpfloat (sum, >, 0.9);
        }
    }
  g_assert_cmpuint (n_lines, >, 600);
}

/* Litres are not conserved when sap of different sweetness is mixed, but for a household's they are: by the sugar manual's densities
 * ten litres of 1 and ten of 4 °Bx make 0.05 mL more or less. */
static void
test_mixing (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  g_autoptr (FrLedger) ledger = NULL;

  season_can (season, 60);
  season_gather (season, season_hour (season, 5, 16), 10, 1, 1);
  season_gather (season, season_hour (season, 6, 16), 10, 4, 1);
  ledger = ledger_of (season);
  g_assert_cmpfloat (fabs (ledger->all.mixing_l), <, 1e-4);
  g_assert_cmpfloat (ledger->all.mixing_l, !=, 0);
  g_assert_cmpuint (ledger->n_lines, ==, 0);
}

/* --- nights --- */

static void
test_nights (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  g_autoptr (FrLedger) ledger = NULL;
  FrNight *fits, *differs, *alone;
  FrPour *lost;

  season_can (season, 200);
  season_gather (season, season_hour (season, 4, 16), 150, 2, 1);
  fits = season_night (season, 5, 3, 27, 2);
  differs = season_night (season, 7, 3, 30, 2);
  alone = season_night (season, 9, 3, 20, 2);
  season_night (season, 11, 3, 20, 2)->record.archived = TRUE;
  season_pour (season, season_hour (season, 5, 18), "boiled", 30, 1, 0)->night = fits->record.id;
  season_pour (season, season_hour (season, 7, 18), "boiled", 3.3, 1, 0)->night = differs->record.id;
  lost = season_pour (season, season_hour (season, 9, 18), "boiled", 23, 1, 0);
  season_pour (season, season_hour (season, 20, 18), "boiled", 8, 1, 0); /* on the stove: nothing to tell */
  ledger = ledger_of (season);
  g_assert_cmpuint (ledger->n_nights, ==, 3);
  g_assert_true (ledger->nights[0].night == fits);
  g_assert_cmpfloat (ledger->nights[0].told.volume_l, ==, 30);
  g_assert_cmpfloat (ledger->nights[0].poured.volume_l, ==, 30);
  g_assert_cmpfloat_with_epsilon (ledger->nights[0].told.sugar_kg, 30 * 1.0079 * 0.02, 1e-4);
  g_assert_cmpuint (ledger->nights[2].n_pours, ==, 0);
  g_assert_cmpuint (ledger->n_lines, ==, 3);
  g_assert_cmpint (ledger->lines[0].code, ==, FR_LEDGER_NIGHT_DIFFERS);
  g_assert_cmpfloat_with_epsilon (ledger->lines[0].volume_l, 29.7, 1e-9);
  /* 3.3 for 33: ten times as much was meant. */
  g_assert_cmpint (ledger->lines[0].causes[0].code, ==, FR_LEDGER_CAUSE_UNIT);
  g_assert_cmpint (ledger->lines[0].causes[0].slip, ==, FR_SLIP_TEN_MORE);
  g_assert_true (ledger->lines[0].causes[0].record == season->book.pours->pdata[1]);
  g_assert_cmpint (ledger->lines[1].code, ==, FR_LEDGER_POUR_ALONE);
  g_assert_true (ledger->lines[1].record == &lost->record);
  g_assert_true (ledger->lines[1].night == alone);
  g_assert_cmpint (ledger->lines[2].code, ==, FR_LEDGER_NIGHT_ALONE);
  g_assert_true (ledger->lines[2].record == &alone->record);

  /* A household that keeps no sap in the book is not told about its nights. */
  g_ptr_array_set_size (season->book.gatherings, 0);
  g_ptr_array_set_size (season->book.pours, 0);
  g_clear_pointer (&ledger, fr_ledger_free);
  ledger = ledger_of (season);
  g_assert_cmpuint (ledger->n_lines, ==, 0);
}

/* --- causes --- */

/* Twelve litres each afternoon into one can. */
static RandomSeason *
even_season (void)
{
  RandomSeason *season = random_season_new_empty (2025, toronto);

  season_can (season, 300);
  season_can (season, 300);
  for (guint day = 3; day <= 14; day++)
    season_gather (season, season_hour (season, day, 16), day % 2 ? 11.6 : 12.4, 2, 1);
  return season;
}

static FrLedgerCause
first_cause (const RandomSeason *season, const FrDip *look)
{
  g_autoptr (FrLedger) ledger = ledger_of (season);
  const FrLedgerLine *line = line_at (ledger, &look->record, FR_LEDGER_FOUND);

  g_assert_nonnull (line);
  return line->causes[0];
}

static void
test_plain_causes (void)
{
  g_autoptr (RandomSeason) season = even_season ();
  FrDip *look = season_dip (season, season_hour (season, 14, 18), 143, NAN, 1);
  FrGathering *of_the_8th = season->book.gatherings->pdata[5], *again;
  FrLedgerCause cause = first_cause (season, look);

  g_assert_cmpint (cause.code, ==, FR_LEDGER_CAUSE_MEASURING); /* 1 L of 144 */
  /* 12.4 L written as the number of gallons, 3.28. */
  of_the_8th->volume_l.value = 3.28;
  look->volume_l.value = 144;
  cause = first_cause (season, look);
  g_assert_cmpint (cause.code, ==, FR_LEDGER_CAUSE_UNIT);
  g_assert_cmpint (cause.slip, ==, FR_SLIP_US_GAL);
  g_assert_true (cause.record == &of_the_8th->record);
  g_assert_cmpfloat_with_epsilon (cause.volume_l, 9.14, 0.01);
  /* Not written at all. */
  of_the_8th->record.archived = TRUE;
  g_assert_cmpint (first_cause (season, look).code, ==, FR_LEDGER_CAUSE_MISSED);
  /* Written twice. */
  of_the_8th->record.archived = FALSE;
  of_the_8th->volume_l.value = 12.4;
  again = season_gather (season, season_hour (season, 8, 17), 12.4, 2, 1);
  cause = first_cause (season, look);
  g_assert_cmpint (cause.code, ==, FR_LEDGER_CAUSE_DOUBLE);
  g_assert_true (cause.record == &again->record);
  g_assert_true (cause.other == &of_the_8th->record);
  again->record.archived = TRUE;
  /* The look itself, in gallons. */
  look->volume_l.value = 38;
  cause = first_cause (season, look);
  g_assert_cmpint (cause.code, ==, FR_LEDGER_CAUSE_UNIT);
  g_assert_true (cause.record == &look->record);
  g_assert_cmpint (cause.slip, ==, FR_SLIP_US_GAL);
}

/* What the nights say counts: more boiled than left, and what was left in a bucket. */
static void
test_night_causes (void)
{
  g_autoptr (RandomSeason) season = even_season ();
  FrNight *night = season_night (season, 10, 3, 60, 2);
  FrPour *boiled = season_pour (season, season_hour (season, 10, 18), "boiled", 41, 1, 0);
  FrDip *look = season_dip (season, season_hour (season, 14, 18), 81, NAN, 1);
  FrLedgerCause cause;

  boiled->night = night->record.id;
  cause = first_cause (season, look);
  g_assert_cmpint (cause.code, ==, FR_LEDGER_CAUSE_BOILED_MORE);
  g_assert_true (cause.record == &night->record);
  boiled->volume_l.value = 63;
  night->bucket_left_l.value = 22;
  look->volume_l.value = 103;
  cause = first_cause (season, look);
  g_assert_cmpint (cause.code, ==, FR_LEDGER_CAUSE_POURED_BACK);
  g_assert_true (cause.record == &night->record);
}

/* Sugar tells ice and rain from sap. 144 L of 2 °Bx hold 2.90 kg: a third of it thrown out as ice of 0.5 °Bx leaves 2.7 kg in 94 L,
 * 2.8 °Bx; 14 L of rain leave 158 L of 1.84. Only read, what is far off is
 * water or ice, and a tenth off is the reading. */
static void
test_sugar_causes (void)
{
  g_autoptr (RandomSeason) season = even_season ();
  FrDip *look = season_dip (season, season_hour (season, 14, 18), 94, 2.8, 1);

  g_assert_cmpint (first_cause (season, look).code, ==, FR_LEDGER_CAUSE_ICE);
  look->volume_l.value = 158;
  look->reading_brix.value = 1.84;
  g_assert_cmpint (first_cause (season, look).code, !=, FR_LEDGER_CAUSE_ICE);
  look->volume_l.value = NAN;
  look->reading_brix.value = 0.4;
  g_assert_cmpint (first_cause (season, look).code, ==, FR_LEDGER_CAUSE_WATER);
  look->reading_brix.value = 3.6;
  g_assert_cmpint (first_cause (season, look).code, ==, FR_LEDGER_CAUSE_ICE);
  look->reading_brix.value = 2.1;
  g_assert_cmpint (first_cause (season, look).code, ==, FR_LEDGER_CAUSE_MEASURING);
}

/* Written for the other can: one finds 12 L too little, the other as much too much. */
static void
test_other_place (void)
{
  g_autoptr (RandomSeason) season = even_season ();
  FrGathering *wrong = season->book.gatherings->pdata[7];
  g_autoptr (FrLedger) ledger = NULL;
  const FrLedgerLine *line;
  gboolean named = FALSE;
  FrLedgerCause cause;
  FrDip *look, *other;

  for (guint day = 3; day <= 14; day++)
    season_gather (season, season_hour (season, day, 17), 20, 2, 2);
  look = season_dip (season, season_hour (season, 14, 18), 144 - wrong->volume_l.value, NAN, 1);
  other = season_dip (season, season_hour (season, 14, 18), 240 + wrong->volume_l.value, NAN, 2);
  cause = first_cause (season, look);
  g_assert_cmpint (cause.code, ==, FR_LEDGER_CAUSE_OTHER_PLACE);
  ledger = ledger_of (season);
  line = line_at (ledger, &other->record, FR_LEDGER_FOUND);
  /* Within what measuring 250 L is off by, but thought of. */
  for (guint i = 0; i < line->n_causes; i++)
    named |= line->causes[i].code == FR_LEDGER_CAUSE_OTHER_PLACE;
  g_assert_true (named);
}

/* A depth of 2.5 m, a weight less than the pail's: amounts that cannot be, with what was meant. */
static void
test_no_amount (void)
{
  g_autoptr (RandomSeason) season = even_season ();
  FrContainer *pail = season_can (season, 20);
  FrGathering *deep = season_gather (season, season_hour (season, 10, 17), NAN, NAN, 1);
  g_autoptr (FrLedger) ledger = NULL;
  const FrLedgerLine *line;

  pail->diameter_m.value = 0.25;
  pail->height_m.value = 0.4;
  random_season_text (&deep->measured_by, "depth");
  deep->bucket = pail->record.id;
  deep->depth_m.value = 2.5;
  ledger = ledger_of (season);
  line = line_at (ledger, &deep->record, FR_LEDGER_NO_AMOUNT);
  g_assert_nonnull (line);
  g_assert_cmpint (line->causes[0].code, ==, FR_LEDGER_CAUSE_UNIT);
  g_assert_cmpint (line->causes[0].slip, ==, FR_SLIP_TEN_LESS);
  g_assert_cmpfloat_with_epsilon (line->causes[0].volume_l, 12.27, 0.01); /* π/4 · 25² · 25 cm³ */
}

/* Source: NIST SP 811 (from memory). */
static void
test_slips (void)
{
  g_assert_cmpfloat_with_epsilon (fr_ledger_slip_ratio (FR_SLIP_US_GAL), 3.785411784, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_ledger_slip_ratio (FR_SLIP_IMP_GAL), 4.54609, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_ledger_slip_ratio (FR_SLIP_LB), 0.45359237, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_ledger_slip_ratio (FR_SLIP_INCH), 2.54, 1e-12);
  for (guint slip = FR_SLIP_US_GAL; slip <= FR_SLIP_IMP_GAL; slip++)
    g_assert_cmpfloat_with_epsilon (fr_ledger_slip_ratio (slip) * fr_ledger_slip_ratio (slip + 2), 1, 1e-12);
}

/* --- mistakes planted --- */

static const FrLedgerCauseCode meant[RANDOM_N_MISTAKES]
    = { FR_LEDGER_CAUSE_UNIT, FR_LEDGER_CAUSE_MISSED, FR_LEDGER_CAUSE_DOUBLE };
static const char *const called[RANDOM_N_MISTAKES] = { "unit slip", "missed gathering", "double entry" };

/* The first line on which it shows: the entry's own where its amount cannot be, else the look's. */
static const FrLedgerLine *
shows (const FrLedger *ledger, const FrDip *look, const FrRecord *wrong)
{
  const FrLedgerLine *line = wrong != NULL ? line_at (ledger, wrong, FR_LEDGER_NO_AMOUNT) : NULL;

  return line != NULL ? line : line_at (ledger, &look->record, FR_LEDGER_FOUND);
}

static void
test_planted (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (20260211);
  guint n[RANDOM_N_MISTAKES] = { 0 }, right[RANDOM_N_MISTAKES] = { 0 }, entry[RANDOM_N_MISTAKES] = { 0 }, all = 0, ok = 0;

  for (guint i = 0; i < SEASONS; i++)
    {
      RandomMistake mistake = i % RANDOM_N_MISTAKES;
      g_autoptr (RandomSeason) season = random_season_new_kept (random, 2025, toronto);
      const FrRecord *wrong;
      const FrDip *look = random_season_plant (random, season, mistake, &wrong);
      g_autoptr (FrLedger) ledger = ledger_of (season);
      const FrLedgerLine *line;

      g_assert_nonnull (look);
      line = shows (ledger, look, wrong);
      n[mistake]++;
      if (line == NULL || line->n_causes == 0 || line->causes[0].code != meant[mistake])
        continue;
      right[mistake]++;
      entry[mistake] += wrong == NULL || line->causes[0].record == wrong || line->causes[0].other == wrong;
    }
  for (guint m = 0; m < RANDOM_N_MISTAKES; m++)
    {
      printf ("# found: cause named first is the %s: %.1f %% of %u seasons (the very entry too: %.1f %%)\n", called[m],
              100.0 * right[m] / n[m], n[m], 100.0 * entry[m] / n[m]);
      g_assert_cmpfloat ((double)right[m] / n[m], >=, 0.8);
      all += n[m];
      ok += right[m];
    }
  g_assert_cmpuint (all, >=, 500);
  g_assert_cmpfloat ((double)ok / all, >=, 0.8);
}

/* A careful household's own differences are said to be what they are. */
static void
test_careful (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (20260212);
  guint n = 0, n_measuring = 0;
  double squares = 0;

  for (guint i = 0; i < 100; i++)
    {
      g_autoptr (RandomSeason) season = random_season_new_kept (random, 2025, toronto);
      g_autoptr (FrLedger) ledger = ledger_of (season);

      for (guint k = 0; k < ledger->n_lines; k++)
        if (ledger->lines[k].code == FR_LEDGER_FOUND && !isnan (ledger->lines[k].volume_l))
          {
            n++;
            n_measuring += ledger->lines[k].causes[0].code == FR_LEDGER_CAUSE_MEASURING;
            squares += pow (ledger->lines[k].volume_l / ledger->lines[k].error_l, 2);
          }
    }
  printf ("# found: differences without a mistake: measuring named first for %.1f %% of %u; %.2f standard errors\n",
          100.0 * n_measuring / n, n, sqrt (squares / n));
  g_assert_cmpfloat ((double)n_measuring / n, >=, 0.9);
  g_assert_cmpfloat (sqrt (squares / n), >, 0.7);
  g_assert_cmpfloat (sqrt (squares / n), <, 1.3);
}

int
main (int argc, char **argv)
{
  int failed;

  g_test_init (&argc, &argv, NULL);
  toronto = test_zone ("America/Toronto");
  g_test_add_func ("/ledger/sums", test_sums);
  g_test_add_func ("/ledger/adds-up", test_adds_up);
  g_test_add_func ("/ledger/mixing", test_mixing);
  g_test_add_func ("/ledger/nights", test_nights);
  g_test_add_func ("/ledger/plain-causes", test_plain_causes);
  g_test_add_func ("/ledger/night-causes", test_night_causes);
  g_test_add_func ("/ledger/sugar-causes", test_sugar_causes);
  g_test_add_func ("/ledger/other-place", test_other_place);
  g_test_add_func ("/ledger/no-amount", test_no_amount);
  g_test_add_func ("/ledger/slips", test_slips);
  g_test_add_func ("/ledger/planted", test_planted);
  g_test_add_func ("/ledger/careful", test_careful);
  failed = found_run ();
  fr_zone_table_free (toronto);
  return failed;
}
