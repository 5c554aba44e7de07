/* How warm the sap in store is, and how long it keeps: that the containers, places and days of a season come to the bodies and tables
 * of the maths, which have tests of their own, and what is done at each event. Closed forms: cooling of a lump, and hours over hours
 * allowed. The tables are the household's: 72 h to 2 °C, 48 to 4, 24 to 10, 12 above; published: seven days at 3 °C. */
#include "domain/plan/stock.h"

#include "found.h"
#include "seasons.h"
#include "zones.h"

#include <string.h>

#define HOUR_S 3600

static FrZoneTable *toronto;

static RandomSeason *
season_in (const char *place)
{
  RandomSeason *season = random_season_new_empty (2025, toronto);

  random_season_text (&season_can (season, 60)->place, place);
  return season;
}

static FrStock *
stock_at (const RandomSeason *season, gint64 utc_s)
{
  return fr_stock_new (&season->book, season->from_utc, utc_s);
}

/* 12 h at 3.5 °C of 48 allowed; then on at the same. */
static void
test_fridge (void)
{
  g_autoptr (RandomSeason) season = season_in ("fridge");
  gint64 begin = season_hour (season, 5, 9);
  g_autoptr (FrStock) stock = NULL;
  const FrStockPlace *place;

  season_gather (season, begin, 20, 2, 1)->sap_c.value = 3.5;
  stock = stock_at (season, begin + 12 * HOUR_S);
  place = fr_stock_place (stock, 1);
  g_assert_cmpfloat_with_epsilon (place->temp_c, 3.5, 1e-6);
  g_assert_cmpint (place->temp_from, ==, FR_STOCK_TEMP_TYPED);
  g_assert_cmpfloat (place->ice_ratio, ==, 0);
  g_assert_cmpfloat_with_epsilon (place->used_ratio, 0.25, 1e-9);
  g_assert_cmpint (ABS (place->spoils_utc - (begin + 48 * HOUR_S)), <=, 1);
  g_assert_cmpfloat (place->liquid_brix, ==, place->brix);

  /* And when it is over, when it was. */
  g_clear_pointer (&stock, fr_stock_free);
  stock = stock_at (season, begin + 100 * HOUR_S);
  g_assert_cmpfloat_with_epsilon (fr_stock_place (stock, 1)->used_ratio, 100 / 48.0, 1e-9);
  g_assert_cmpint (ABS (fr_stock_place (stock, 1)->spoils_utc - (begin + 48 * HOUR_S)), <=, 1);
}

/* Nothing was measured and no weather is known: as if warm, 12 h. In a fridge what was not measured has its temperature. */
static void
test_unknown (void)
{
  g_autoptr (RandomSeason) season = season_in ("outdoors"), cold = season_in ("fridge");
  gint64 begin = season_hour (season, 5, 9);
  g_autoptr (FrStock) stock = NULL, fridge = NULL;
  const FrStockPlace *place;

  season_gather (season, begin, 20, 2, 1);
  stock = stock_at (season, begin + 6 * HOUR_S);
  place = fr_stock_place (stock, 1);
  g_assert_true (isnan (place->temp_c));
  g_assert_true (isnan (place->ice_ratio));
  g_assert_cmpint (place->temp_from, ==, FR_STOCK_TEMP_UNKNOWN);
  g_assert_cmpfloat_with_epsilon (place->used_ratio, 0.5, 1e-9);
  g_assert_cmpint (place->spoils_utc, ==, begin + 12 * HOUR_S);
  season_gather (cold, begin, 20, 2, 1);
  fridge = stock_at (cold, begin + HOUR_S);
  g_assert_cmpfloat_with_epsilon (fr_stock_place (fridge, 1)->temp_c, 3.5, 1e-6);
  g_assert_cmpint (fr_stock_place (fridge, 1)->temp_from, ==, FR_STOCK_TEMP_PLACE);
}

/* A temperature typed without weather holds for a day of 72 h allowed, and is then unknown: 12 h. Ahead it stays as it last was. */
static void
test_held (void)
{
  g_autoptr (RandomSeason) season = season_in ("outdoors");
  gint64 begin = season_hour (season, 5, 9);
  g_autoptr (FrStock) now = NULL, later = NULL;

  season_gather (season, begin, 20, 2, 1)->sap_c.value = 1;
  now = stock_at (season, begin);
  g_assert_cmpfloat (fr_stock_place (now, 1)->used_ratio, ==, 0);
  g_assert_cmpint (ABS (fr_stock_place (now, 1)->spoils_utc - (begin + 72 * HOUR_S)), <=, 1);
  later = stock_at (season, begin + 30 * HOUR_S);
  g_assert_true (isnan (fr_stock_place (later, 1)->temp_c));
  g_assert_cmpfloat_with_epsilon (fr_stock_place (later, 1)->used_ratio, 24 / 72.0 + 6 / 12.0, 1e-9);
  g_assert_cmpint (ABS (fr_stock_place (later, 1)->spoils_utc - (begin + 32 * HOUR_S)), <=, 1);
}

/* Closed form: T = air + (T0 − air) exp (−t U A / (m c)). A full round bucket as wide as high, 20 L: 0.2942 m wide, 0.408 m² with its
 * bottom and surface; bare 10 W/(m² K), in felt 1.3 (energy handbooks). Sap of 2 °Bx: 20.16 kg of 4137 J/(kg K). Indoors 20 °C. */
static void
test_warming (void)
{
  static const char *const wraps[] = { "bare", "wrapped" };
  static const double w_per_m2_k[] = { 10, 1.3 };

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (RandomSeason) season = season_in ("indoors");
      gint64 begin = season_hour (season, 5, 9);
      g_autoptr (FrStock) stock = NULL;

      random_season_text (&((FrContainer *)season->book.containers->pdata[0])->insulation, wraps[i]);
      season_gather (season, begin, 20, 2, 1)->sap_c.value = 3;
      stock = stock_at (season, begin + 5 * HOUR_S);
      found_near ("a bucket that warms, K", fr_stock_place (stock, 1)->temp_c,
                  20 - 17 * exp (-5 * HOUR_S * w_per_m2_k[i] * 0.408 / (20.16 * 4137)), 0.02);
    }
}

/* Heat of mixing: 10 L at 2 and 30 L at 6 °C are 5 °C together, the specific heat being the same. What has used the most counts. */
static void
test_mix (void)
{
  g_autoptr (RandomSeason) season = season_in ("fridge");
  gint64 begin = season_hour (season, 5, 9);
  g_autoptr (FrStock) stock = NULL;

  random_season_text (&season_can (season, 60)->place, "fridge");
  season_gather (season, begin, 10, 2, 1)->sap_c.value = 3.5;
  season_gather (season, begin + 24 * HOUR_S, 30, 2, 2)->sap_c.value = 6;
  season_dip (season, begin + 24 * HOUR_S, NAN, NAN, 1)->temp_c.value = 2;
  season_pour (season, begin + 24 * HOUR_S, "moved", 10, 1, 2);
  stock = stock_at (season, begin + 24 * HOUR_S);
  /* The look at that instant comes after the pour: it is the temperature before that is poured, 3.5. */
  g_assert_cmpfloat_with_epsilon (fr_stock_place (stock, 2)->temp_c, (30 * 6 + 10 * 3.5) / 40, 0.01);
  g_assert_cmpfloat_with_epsilon (fr_stock_place (stock, 2)->used_ratio, 0.5, 1e-9);
  g_assert_true (isnan (fr_stock_place (stock, 1)->temp_c));
  g_assert_true (isnan (fr_stock_place (stock, 1)->used_ratio));
  g_assert_cmpint (fr_stock_place (stock, 1)->spoils_utc, ==, G_MININT64);
}

/* 48 h at 4 °C are 48 h after two lots of 4 °C were mixed, too. */
static void
test_edge_of_row (void)
{
  g_autoptr (RandomSeason) season = season_in ("outdoors");
  gint64 begin = season_hour (season, 5, 9);
  g_autoptr (FrStock) stock = NULL;

  season_gather (season, begin, 12, 2.4, 1)->sap_c.value = 4;
  season_gather (season, begin, 5, 2.4, 1)->sap_c.value = 4;
  stock = stock_at (season, begin + 12 * HOUR_S);
  g_assert_cmpfloat_with_epsilon (fr_stock_place (stock, 1)->used_ratio, 12 / 48.0, 1e-9);
}

/* A night of −12 °C freezes some of it; sugar stays in the liquid, whose freezing point is the temperature: 2 °Bx at −0.12 °C, 3 at
 * −0.17 (ideal cryoscopy −0.111 and −0.168). */
static void
test_freezing (void)
{
  g_autoptr (RandomSeason) season = season_in ("outdoors");
  g_autoptr (FrStock) stock = NULL;
  const FrStockPlace *place;
  FrPour *pour;
  double ice_kg;

  for (guint day = 4; day < 9; day++)
    season_day (season, day, -12, 1);
  season_gather (season, season_hour (season, 5, 15), 20, 2, 1);
  stock = stock_at (season, season_hour (season, 6, 8));
  place = fr_stock_place (stock, 1);
  g_assert_cmpint (place->temp_from, ==, FR_STOCK_TEMP_MODELLED);
  g_assert_cmpfloat (place->ice_ratio, >, 0.1);
  g_assert_cmpfloat (place->ice_ratio, <, 0.7);
  g_assert_cmpfloat_with_epsilon (place->liquid_brix * (1 - place->ice_ratio), 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (place->brix, 2, 1e-9);
  found_near ("freezing point of what is liquid, K", place->temp_c, -1.86 * 1000 * place->liquid_brix / (100 - place->liquid_brix) / 342.3,
              0.02 * place->liquid_brix);

  /* Liquid poured off at its own reading leaves the ice behind, and the temperature as it is. */
  ice_kg = place->ice_ratio * place->mass_kg;
  pour = season_pour (season, season_hour (season, 6, 8), "boiled", 5, 1, 0);
  pour->reading_brix.value = place->liquid_brix;
  g_clear_pointer (&stock, fr_stock_free);
  stock = stock_at (season, season_hour (season, 6, 8));
  found_near ("ice left behind, kg", fr_stock_place (stock, 1)->ice_ratio * fr_stock_place (stock, 1)->mass_kg, ice_kg,
              1e-6);
}

/* What a look notes holds: a third of it ice, and the liquid beside it is half as sweet again as the whole. */
static void
test_dip_ice (void)
{
  g_autoptr (RandomSeason) season = season_in ("fridge");
  gint64 begin = season_hour (season, 5, 9);
  g_autoptr (FrStock) stock = NULL;
  FrDip *look;

  season_gather (season, begin, 20, 2, 1);
  look = season_dip (season, begin + HOUR_S, NAN, NAN, 1);
  look->ice_ratio.value = 1.0 / 3;
  stock = stock_at (season, begin + HOUR_S);
  g_assert_cmpfloat_with_epsilon (fr_stock_place (stock, 1)->ice_ratio, 1.0 / 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (fr_stock_place (stock, 1)->liquid_brix, 3, 1e-9);
  g_assert_cmpint (fr_stock_place (stock, 1)->temp_from, ==, FR_STOCK_TEMP_TYPED);

  /* A thermometer a little below zero does not freeze sap that was liquid. */
  look->ice_ratio.value = NAN;
  look->temp_c.value = -0.4;
  g_clear_pointer (&stock, fr_stock_free);
  stock = stock_at (season, begin + HOUR_S);
  g_assert_cmpfloat (fr_stock_place (stock, 1)->ice_ratio, ==, 0);
  look->temp_c.value = -3;
  g_clear_pointer (&stock, fr_stock_free);
  stock = stock_at (season, begin + HOUR_S);
  g_assert_cmpfloat (fr_stock_place (stock, 1)->ice_ratio, >, 0.8);
}

/* Days that are only expected count ahead: a warm spell makes an end sooner than frost does. */
static void
test_expected_days (void)
{
  gint64 spoils[2];

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (RandomSeason) season = season_in ("outdoors");
      g_autoptr (FrStock) stock = NULL;

      season_day (season, 5, -3, 4);
      for (guint day = 6; day < 10; day++)
        season_day (season, day, i == 0 ? -6 : 8, i == 0 ? 1 : 18)->expected = TRUE;
      season_gather (season, season_hour (season, 5, 16), 20, 2, 1);
      stock = stock_at (season, season_hour (season, 5, 20));
      spoils[i] = fr_stock_place (stock, 1)->spoils_utc;
    }
  /* By hand: 72 h at most in the cold; in the warm spell under 48 h. */
  g_assert_cmpint (spoils[0], >, spoils[1] + 24 * HOUR_S);
}

static void
test_tables (void)
{
  FrStoring *storing = (FrStoring *)fr_record_new (FR_KIND_STORING);
  FrKeepingTable table;

  g_assert_true (fr_stock_keeping (NULL, &table));
  g_assert_cmpfloat (fr_keeping_allowed_h (&table, 1), ==, 72);
  random_season_text (&storing->keeping, "published");
  g_assert_true (fr_stock_keeping (storing, &table));
  g_assert_cmpfloat (fr_keeping_allowed_h (&table, 3), ==, 168);
  g_assert_cmpfloat (fr_keeping_allowed_h (&table, 3.5), ==, 48);
  g_assert_cmpfloat (fr_keeping_allowed_h (&table, 25), ==, 12);
  random_season_text (&storing->keeping, "own");
  random_season_text (&storing->own_rows, "3 30\n6 20\n");
  g_assert_true (fr_stock_keeping (storing, &table));
  g_assert_cmpfloat (fr_keeping_allowed_h (&table, 2), ==, 30);
  g_assert_cmpfloat (fr_keeping_allowed_h (&table, 8), ==, 20);
  g_assert_cmpfloat (fr_keeping_allowed_h (&table, 25), ==, 12);
  random_season_text (&storing->own_rows, "warm: a day");
  g_assert_false (fr_stock_keeping (storing, &table));
  g_assert_cmpfloat (fr_keeping_allowed_h (&table, 1), ==, 72);
  fr_record_free (&storing->record);
}

/* The oldest first, unless another spoils sooner; never what may be spoiled already. */
static void
test_first (void)
{
  g_autoptr (RandomSeason) season = season_in ("fridge");
  gint64 begin = season_hour (season, 5, 9);
  g_autoptr (FrStock) stock = stock_at (season, begin);

  random_season_text (&season_can (season, 60)->place, "indoors");
  random_season_text (&season_can (season, 60)->place, "fridge");
  g_assert_cmpint (stock->first_code, ==, FR_FIRST_NONE);
  g_assert_cmpint (stock->first, ==, -1);
  season_gather (season, begin, 20, 2, 1)->sap_c.value = 3.5;
  g_clear_pointer (&stock, fr_stock_free);
  stock = stock_at (season, begin);
  g_assert_cmpint (stock->first_code, ==, FR_FIRST_ONLY);
  season_gather (season, begin + 6 * HOUR_S, 20, 2, 3)->sap_c.value = 3.5;
  g_clear_pointer (&stock, fr_stock_free);
  stock = stock_at (season, begin + 8 * HOUR_S);
  g_assert_cmpint (stock->first_code, ==, FR_FIRST_OLDEST);
  g_assert_cmpint (stock->places[stock->first].container->record.id, ==, 1);
  season_gather (season, begin + 7 * HOUR_S, 20, 2, 2)->sap_c.value = 12;
  g_clear_pointer (&stock, fr_stock_free);
  stock = stock_at (season, begin + 8 * HOUR_S);
  g_assert_cmpint (stock->first_code, ==, FR_FIRST_SPOILS);
  g_assert_cmpint (stock->places[stock->first].container->record.id, ==, 2);
  g_clear_pointer (&stock, fr_stock_free);
  stock = stock_at (season, begin + 40 * HOUR_S);
  g_assert_cmpint (stock->first_code, ==, FR_FIRST_OLDEST);
}

/* Random seasons: what is known is possible, and sugar is where the liquid is. */
static void
test_possible (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (42);
  guint n_ice = 0, n_known = 0;

  for (guint i = 0; i < 60; i++)
    {
      g_autoptr (RandomSeason) season = random_season_new (random, 2025, toronto);
      gint64 now = season_hour (season, 1, 0) + 24 * HOUR_S * g_rand_int_range (random, -5, 30);
      g_autoptr (FrStock) stock = stock_at (season, now);

      for (guint k = 0; k < stock->n_places; k++)
        {
          const FrStockPlace *place = &stock->places[k];

          if (place->volume_l < FR_STOCK_EMPTY_L)
            {
              g_assert_true (isnan (place->temp_c) && isnan (place->used_ratio));
              continue;
            }
          g_assert_cmpfloat (place->used_ratio, >=, 0);
          g_assert_cmpint (place->spoils_utc, >, place->oldest_utc);
          g_assert_cmpint (place->used_ratio >= 1, ==, place->spoils_utc <= now);
          if (isnan (place->temp_c))
            continue;
          n_known++;
          n_ice += place->ice_ratio > 0;
          g_assert_cmpfloat (place->temp_c, >, -20);
          g_assert_cmpfloat (place->temp_c, <, 21);
          g_assert_cmpfloat (place->ice_ratio, >=, 0);
          g_assert_cmpfloat (place->ice_ratio, <=, 1);
          if (!isnan (place->brix) && place->brix < 20)
            found_near ("sugar is where the liquid is, °Bx", place->liquid_brix * (1 - place->ice_ratio), place->brix, 1e-9);
        }
    }
  g_assert_cmpuint (n_known, >, 50);
  g_assert_cmpuint (n_ice, >, 10);
}

int
main (int argc, char **argv)
{
  int failed;

  g_test_init (&argc, &argv, NULL);
  toronto = test_zone ("America/Toronto");
  g_test_add_func ("/stock-warmth/fridge", test_fridge);
  g_test_add_func ("/stock-warmth/unknown", test_unknown);
  g_test_add_func ("/stock-warmth/held", test_held);
  g_test_add_func ("/stock-warmth/warming", test_warming);
  g_test_add_func ("/stock-warmth/mix", test_mix);
  g_test_add_func ("/stock-warmth/edge-of-row", test_edge_of_row);
  g_test_add_func ("/stock-warmth/freezing", test_freezing);
  g_test_add_func ("/stock-warmth/dip-ice", test_dip_ice);
  g_test_add_func ("/stock-warmth/expected-days", test_expected_days);
  g_test_add_func ("/stock-warmth/tables", test_tables);
  g_test_add_func ("/stock-warmth/first", test_first);
  g_test_add_func ("/stock-warmth/possible", test_possible);
  failed = found_run ();
  fr_zone_table_free (toronto);
  return failed;
}
