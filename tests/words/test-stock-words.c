/* The store and a round of gathering in words: what is first, what is past its time and what to do then,
 * numbers in the household's units; and over random seasons no text is broken. */
#include "domain/zones.h"
#include "seasons.h"
#include "sentences.h"
#include "words/gather-words.h"
#include "words/stock-words.h"

#include <math.h>

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
test_empty (void)
{
  g_autoptr (RandomSeason) season = random_season_new_empty (2025, toronto);
  g_autoptr (FrStock) stock = fr_stock_new (&season->book, season->from_utc, season->to_utc);
  g_autofree char *sentence_text = fr_stock_sentence (stock, &metric),
                  *reason = fr_stock_reason (stock, &metric);

  g_assert_cmpstr (sentence_text, ==, "No sap waits.");
  g_assert_null (reason);
}

static void
test_places (void)
{
  FrContainer can = { .record.kind = fr_kind (FR_KIND_CONTAINER), .name = (char *)"Can <1> & more" };
  const gint64 now_utc = 1741636800; /* 2025-03-10 20:00 UTC, a Monday, 16:00 in Toronto */
  FrStockPlace places[] = { { .container = &can,
                              .volume_l = 22,
                              .brix = 2.2,
                              .liquid_brix = 2.4,
                              .temp_c = 2,
                              .temp_from = FR_STOCK_TEMP_MODELLED,
                              .ice_ratio = 0.1,
                              .oldest_utc = now_utc - 2 * 86400,
                              .used_ratio = 0.5,
                              .spoils_utc = now_utc + 3 * 86400 },
                            { .volume_l = 9,
                              .brix = NAN,
                              .temp_c = NAN,
                              .ice_ratio = NAN,
                              .oldest_utc = now_utc - 3600,
                              .used_ratio = NAN,
                              .spoils_utc = G_MININT64 } };
  FrStock stock = { .at_utc = now_utc,
                    .n_places = 2,
                    .places = places,
                    .volume_l = 31,
                    .sugar_kg = 0.68,
                    .capacity_l = 60,
                    .first = 0,
                    .first_code = FR_FIRST_OLDEST };
  g_autofree char *all = fr_stock_sentence (&stock, &metric), *plain = NULL, *reason = NULL, *note = NULL,
                  *rest = NULL;
  g_autofree char *keeps = NULL, *gallons = NULL, *past = NULL, *past_plain = NULL, *what_then = NULL,
                  *spoken = NULL;

  sentence_markup (all);
  plain = fr_say_plain (all);
  has (plain, "31.0 L in store. Boil from “Can <1> & more” first: it keeps until Thursday 16:00.");
  reason = fr_stock_reason (&stock, &metric);
  sentence (reason);
  has (reason, "It has the oldest sap.");
  has (reason, "room for 29.0 L more");
  gallons = fr_stock_sentence (&stock, &us);
  has (gallons, "8.2 gal");
  note = fr_stock_place_note (&places[0], &stock, &metric);
  has (note, "Oldest from Saturday, 2.2 °Bx, 2 °C as worked out from the weather, 10 % of it ice and the "
             "rest at 2.4 °Bx");
  rest = fr_stock_place_note (&places[1], &stock, &metric);
  g_assert_cmpstr (rest, ==, "Gathered today"); /* what is not known is not said */
  g_assert_cmpint (fr_stock_place_keeps (&places[0], now_utc), ==, FR_KEEPS_WELL);
  keeps = fr_stock_place_keeping (&places[0], now_utc, &metric);
  sentence (keeps);
  spoken = fr_stock_place_spoken (&places[0], "Can", &stock, &metric);
  sentence_parts (spoken);

  /* Past its time it is said first, with what to do and whose rules come first; it is not advised for the
   * boil. */
  places[0].used_ratio = 1.2;
  places[0].spoils_utc = now_utc - 86400;
  g_assert_cmpint (fr_stock_place_keeps (&places[0], now_utc), ==, FR_KEEPS_PAST);
  past = fr_stock_sentence (&stock, &metric);
  past_plain = fr_say_plain (past);
  has (past_plain, "Look at “Can <1> & more” before anything else");
  g_assert_null (strstr (past_plain, "Boil from"));
  what_then = fr_stock_place_keeping (&places[0], now_utc, &metric);
  sentence (what_then);
  has (what_then, "local food rules come first");
}

static void
test_round (void)
{
  g_autofree char *none = fr_gathered_markup (&metric, FR_GATHERED_TREES, 11, 0, 0);
  g_autofree char *some = fr_gathered_markup (&metric, FR_GATHERED_TREES, 11, 9, 18.25);
  g_autofree char *all = fr_gathered_markup (&us, FR_GATHERED_TAPS, 14, 14, 18.25);
  g_autofree char *bush = fr_gathered_markup (&metric, FR_GATHERED_BUSH, 1, 1, 22);
  g_autofree char *nobody = fr_gathered_markup (&metric, FR_GATHERED_GROUPS, 0, 0, 0);
  g_autofree char *reason = fr_gathered_reason (&metric, 2.2, 0.4, 2),
                  *nothing = fr_gathered_reason (&metric, NAN, NAN, 0);
  g_autofree char *some_plain = fr_say_plain (some), *all_plain = fr_say_plain (all);

  g_assert_cmpstr (none, ==, "Nothing is written down yet.");
  sentence_markup (some);
  has (some_plain, "from 9 of 11 trees.");
  has (all_plain, "4.8 gal from 14 taps.");
  sentence_markup (bush);
  sentence (nobody);
  sentence (reason);
  has (reason, "At 2.2 °Bx, with 0.40 kg of sugar in it. 2 rows are typed and not written down yet.");
  g_assert_null (nothing);
}

static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (31);

  for (guint i = 0; i < 40; i++)
    {
      g_autoptr (RandomSeason) season = random_season_new (random, 2025, toronto);
      g_autoptr (FrStock) stock
          = fr_stock_new (&season->book, season->from_utc,
                          season->from_utc + (season->to_utc - season->from_utc) / 40 * (20 + i / 2));
      const FrSay *say = i % 2 ? &metric : &us;
      g_autofree char *all = fr_stock_sentence (stock, say), *reason = fr_stock_reason (stock, say);

      sentence_markup (all);
      if (reason != NULL)
        sentence (reason);
      for (guint p = 0; p < stock->n_places; p++)
        {
          g_autofree char *note = fr_stock_place_note (&stock->places[p], stock, say);
          g_autofree char *keeps = fr_stock_place_keeping (&stock->places[p], stock->at_utc, say);
          g_autofree char *spoken = fr_stock_place_spoken (&stock->places[p], "Can", stock, say);

          if (note != NULL)
            sentence_parts (note);
          if (keeps != NULL)
            sentence (keeps);
          sentence_parts (spoken);
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
  us = (FrSay){ .units = { .system = FR_SYSTEM_US, .decimal_mark = '.' },
                .zone = toronto,
                .twelve_hour = TRUE };
  g_test_add_func ("/stock-words/empty", test_empty);
  g_test_add_func ("/stock-words/places", test_places);
  g_test_add_func ("/stock-words/round", test_round);
  g_test_add_func ("/stock-words/random", test_random);
  failed = g_test_run ();
  fr_zone_table_free (toronto);
  return failed;
}
