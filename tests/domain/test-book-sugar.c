/* Sweetness of a book: which gatherings count, whose they are and on which day, against the filter fed by
 * hand. */
#include "domain/plan/book-sugar.h"

#include "found.h"
#include "random-season.h"

#include "zones.h"

static FrGathering *
gathering (RandomSeason *season, gint month, gint day, const char *scope, gint64 tree, double brix,
           const char *instrument)
{
  FrGathering *record = random_season_add (season, FR_KIND_GATHERING);

  /* 15:00 UTC is 11:00 in Toronto in summer time, 10:00 in winter. */
  record->gathered_utc = (fr_date_to_days ((FrDate){ 2026, month, day }) * 24 + 15) * 3600;
  random_season_text (&record->scope, scope);
  record->tree = g_str_equal (scope, "tree") ? tree : 0;
  record->tap = g_str_equal (scope, "tap") ? tree : 0;
  record->reading_brix.value = brix;
  random_season_text (&record->instrument, instrument);
  return record;
}

static void
test_by_hand (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  g_autoptr (RandomSeason) season = random_season_new_empty (2026, zone);
  const gint64 now_utc = fr_date_to_days ((FrDate){ 2026, 4, 2 }) * 86400;
  FrTap *tap = random_season_add (season, FR_KIND_TAP);
  /* 16 March is 74 days after 1 January: day 0. Trees 4 and 9 are the numbers 0 and 1. */
  const FrSapSugarReading readings[] = { { -6, FR_SUGAR_BUSH, 2.4, 0.2 },
                                         { 0, 1, 2.9, 0.2 },
                                         { 4, 0, 1.8, 0.2 },
                                         { 9, 1, 2.6, 0.6 },
                                         { 12, FR_SUGAR_BUSH, 2.0, hypot (0.2, 0.35 / 2) } };
  const FrSapSugarPrior prior = fr_sap_sugar_prior ();
  g_autoptr (FrSapSugar) wanted = fr_sap_sugar_new (&prior, 2, readings, G_N_ELEMENTS (readings));
  g_autoptr (FrBookSugar) sugar = NULL;
  FrGathering *absurd;

  tap->tree = 9;
  gathering (season, 3, 10, "bush", 0, 2.4, "refractometer_atc");
  gathering (season, 3, 16, "tree", 9, 2.9, "refractometer_atc");
  gathering (season, 3, 20, "tree", 4, 1.8, "refractometer_atc");
  gathering (season, 3, 25, "tap", tap->record.id, 2.6, "guess");
  gathering (season, 3, 28, "group", 0, 2.0, "refractometer_atc");
  /* These do not count: the year before, nothing read, put away, later than now, an instrument that needs a temperature. */
  gathering (season, 3, 11, "bush", 0, 3.1, "refractometer_atc")->gathered_utc -= (gint64)365 * 86400;
  gathering (season, 3, 11, "bush", 0, NAN, "refractometer_atc");
  gathering (season, 3, 12, "bush", 0, 3.1, "refractometer_atc")->record.archived = TRUE;
  gathering (season, 4, 3, "bush", 0, 3.1, "refractometer_atc");
  gathering (season, 3, 13, "bush", 0, 3.1, "refractometer");
  absurd = gathering (season, 3, 14, "bush", 0, 22, "refractometer_atc");
  sugar = fr_book_sugar_new (&season->book, FALSE, now_utc);
  g_assert_cmpuint (sugar->n_readings, ==, 6);
  g_assert_cmpuint (sugar->n_strays, ==, 1);
  g_assert_true (sugar->strays[0] == &absurd->record);
  g_assert_cmpuint (sugar->n_trees, ==, 2);
  for (gint day = -40; day < 50; day += 7)
    {
      FrDate date = fr_date_add_days ((FrDate){ 2026, 3, 16 }, day);

      found_near ("mix of a day, °Bx", fr_book_sugar_on (sugar, date, 0).mean_brix,
                  fr_sap_sugar_on (wanted, day, FR_SUGAR_BUSH).mean_brix, 1e-12);
      found_near ("tree of a day, °Bx", fr_book_sugar_on (sugar, date, 4).mean_brix,
                  fr_sap_sugar_on (wanted, day, 0).mean_brix, 1e-12);
      found_near ("tree of a day, °Bx", fr_book_sugar_on (sugar, date, 9).mean_brix,
                  fr_sap_sugar_on (wanted, day, 1).mean_brix, 1e-12);
      found_near ("tree without a reading, sd, °Bx", fr_book_sugar_on (sugar, date, 5).brix_sd,
                  fr_sap_sugar_on (wanted, day, 2).brix_sd, 1e-12);
    }
}

static void
test_empty (void)
{
  g_autoptr (FrZoneTable) zone = test_zone ("America/Toronto");
  g_autoptr (RandomSeason) season = random_season_new_empty (2026, zone);
  g_autoptr (FrBookSugar) north
      = fr_book_sugar_new (&season->book, FALSE, fr_date_to_days ((FrDate){ 2026, 3, 20 }) * 86400);
  g_autoptr (FrBookSugar) south
      = fr_book_sugar_new (&season->book, TRUE, fr_date_to_days ((FrDate){ 2026, 9, 20 }) * 86400);

  g_assert_cmpuint (north->n_readings, ==, 0);
  found_near ("nothing read, north, °Bx", fr_book_sugar_on (north, (FrDate){ 2026, 3, 16 }, 0).mean_brix, 2.2,
              1e-12);
  /* 74 days after 1 July. */
  found_near ("nothing read, south, °Bx", fr_book_sugar_on (south, (FrDate){ 2026, 9, 13 }, 0).mean_brix, 2.2,
              1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/book-sugar/by-hand", test_by_hand);
  g_test_add_func ("/book-sugar/empty", test_empty);
  return found_run ();
}
