/* A round in sentences. Feet and gallons by the exact foot (0.3048 m) and US gallon (3.785411784 L). */
#include "sentences.h"
#include "words/round-words.h"

static const FrSay metric = { .units = { .decimal_mark = '.' } };
static const FrSay american = { .units = { .system = FR_SYSTEM_US, .decimal_mark = '.' } };

static FrRoundTrip trips[] = {
  { .n_stops = 1, .walk_m = 100, .litres_l = 20, .carry_l_m = 1000, .alone = TRUE },
  { .n_stops = 2, .walk_m = 312.4, .litres_l = 18, .carry_l_m = 1200 },
};

static void
check (char *text, const char *wanted)
{
  g_auto (GStrv) parts = g_strsplit (text != NULL ? text : "", "\u00a0", -1);
  g_autofree char *plain = text != NULL ? g_strjoinv (" ", parts) : NULL;

  g_assert_cmpstr (plain, ==, wanted);
  if (text != NULL)
    sentence_parts (text);
  g_free (text);
}

static void
test_walk (void)
{
  FrRound round = {
    .n_trips = 2, .trips = trips, .walk_m = 412.4, .carry_l_m = 2200, .bound_m = 403.2, .gap_ratio = 0.02211
  };

  check (fr_round_sentence (&round, &metric), "Walk 412 m in 2 trips; carry 38 L.");
  check (fr_round_sentence (&round, &american), "Walk 1353 ft in 2 trips; carry 10.0 gal.");
  check (fr_round_proof (&round, &metric), "At most 2.3 % longer than the shortest there can be.");
  check (fr_round_carry (round.carry_l_m, &metric), "2200 litre-metres");
  check (fr_round_carry (round.carry_l_m, &american), "1907 gallon-feet");
  round.gap_ratio = 1e-7;
  check (fr_round_proof (&round, &metric), "At most 0.1 % longer than the shortest there can be.");
  round.is_exact = TRUE;
  check (fr_round_proof (&round, &metric), "No order is shorter.");
  round.n_trips = 1;
  round.walk_m = 12.34;
  check (fr_round_sentence (&round, &metric), "Walk 12.3 m in 1 trip; carry 20 L.");
  trips[0].litres_l = 0;
  check (fr_round_sentence (&round, &metric), "Walk 12.3 m in 1 trip.");
  trips[0].litres_l = 20;
  round.n_trips = 0;
  check (fr_round_sentence (&round, &metric), "There is nowhere to go.");
  check (fr_round_proof (&round, &metric), NULL);
}

static void
test_trips (void)
{
  check (fr_round_trip_words (&trips[0], &metric), "100 m, 20 L, a full pail");
  check (fr_round_trip_words (&trips[1], &metric), "312 m, 18.0 L");
}

static void
test_refusals (void)
{
  for (guint code = 0; code < FR_N_ROUND_CODES; code++)
    for (guint named = 0; named < 2; named++)
      {
        g_autofree char *text = fr_round_refusal ((FrRoundCode)code, named == 1 ? "A7" : NULL, &metric);

        if (code == FR_ROUND_OK)
          g_assert_null (text);
        else
          sentence (text);
      }
  check (fr_round_refusal (FR_ROUND_BAD_LITRES, "A7", &metric),
         "How much there is to fetch at A7 must be known, and at most 1000000 L.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/round-words/walk", test_walk);
  g_test_add_func ("/round-words/trips", test_trips);
  g_test_add_func ("/round-words/refusals", test_refusals);
  return g_test_run ();
}
