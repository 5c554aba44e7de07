/* Everything a plan can say, in every system of units, with names that are trouble for markup. What the words
 * should be like (verb first, no exclamation marks, no praise) is the project's own rule. */
#include "../domain/evenings.h"
#include "sentences.h"

#include "words/plan-words.h"

static FrZoneTable *zone;
static FrTariff *tariff;

static FrSay
say_in (FrSystem system, char decimal_mark, gboolean twelve_hour)
{
  return (FrSay){ { .system = system, .decimal_mark = decimal_mark }, "CAD", zone, twelve_hour };
}

static void
assert_figure (const FrFigure *figure)
{
  sentence_parts (figure->label);
  sentence_parts (figure->number);
  g_assert_nonnull (figure->unit);
  if (figure->note != NULL)
    sentence_parts (figure->note);
}

static void
assert_words (const FrPlanWords *words)
{
  sentence_parts (words->date);
  sentence_markup (words->sentence);
  sentence (words->reason);
  if (words->range != NULL)
    sentence (words->range);
  if (words->break_even != NULL)
    sentence (words->break_even);
  if (words->price_note != NULL)
    sentence (words->price_note);
  g_assert_cmpuint (words->figures->len, <=, 5);
  for (guint i = 0; i < words->figures->len; i++)
    assert_figure (words->figures->pdata[i]);
  for (guint i = 0; i < words->cookers->len; i++)
    {
      const FrCookerWords *cooker = words->cookers->pdata[i];

      sentence_parts (cooker->name);
      sentence_markup (cooker->pour);
      sentence (cooker->when);
    }
  for (guint i = 0; i < words->rest->len; i++)
    sentence (words->rest->pdata[i]);
  for (guint i = 0; i < words->costs->len; i++)
    {
      const FrCostWords *cost = words->costs->pdata[i];

      sentence_parts (cost->label);
      sentence_parts (cost->cost);
      g_assert_true (isnan (cost->ratio) || (cost->ratio >= 0 && cost->ratio <= 1));
    }
  for (guint i = 0; i < words->feeds->len; i++)
    {
      const FrFeedWords *feed = words->feeds->pdata[i];

      assert_figure (feed->setting);
      for (guint k = 0; k < feed->lines->len; k++)
        assert_figure (feed->lines->pdata[k]);
      for (guint k = 0; k < feed->warnings->len; k++)
        sentence (feed->warnings->pdata[k]);
    }
  for (guint i = 0; i < words->cautions->len; i++)
    sentence (((const FrCautionWords *)words->cautions->pdata[i])->text);
}

/* The input's plan in all ways of writing; the metric words are handed back. */
static FrPlanWords *
words_of (const FrPlanInput *input, FrPlanStatus status)
{
  g_autoptr (FrPlan) plan = fr_plan_new (input);
  FrSay metric = say_in (FR_SYSTEM_METRIC, '.', FALSE);

  g_assert_cmpstr (fr_plan_status_code (plan->status), ==, fr_plan_status_code (status));
  for (FrSystem system = FR_SYSTEM_METRIC; system <= FR_SYSTEM_IMPERIAL; system++)
    {
      FrSay say = say_in (system, ',', system == FR_SYSTEM_US);
      g_autoptr (FrPlanWords) words = NULL;

      say.units.baume = system == FR_SYSTEM_IMPERIAL;
      words = fr_plan_words_new (plan, input, &say);
      assert_words (words);
    }
  {
    FrPlanWords *words = fr_plan_words_new (plan, input, &metric);

    assert_words (words);
    return words;
  }
}

static FrPlanInput
named (double sap_l)
{
  FrPlanInput input = evening_input (zone, sap_l);

  g_strlcpy (input.kits[0].name, "Ann & Bo’s <big> pot", sizeof input.kits[0].name);
  input.tariff = tariff;
  return input;
}

static void
test_typical (void)
{
  FrPlanInput input = named (31);
  g_autoptr (FrPlanWords) words = words_of (&input, FR_PLAN_OK);
  g_autofree char *plain = fr_say_plain (words->sentence);

  g_assert_cmpstr (words->date, ==, "Wednesday 12 February");
  /* Verb, quantity, place, time. */
  g_assert_true (g_str_has_prefix (plain, "Pour 4.0\u00a0L into the pan and "));
  g_assert_true (g_str_has_suffix (plain, " into the bucket. Start at 19:00."));
  g_assert_nonnull (strstr (words->reason, "before the price doubles"));
  g_assert_nonnull (strstr (words->reason, "; at the day’s price $"));
  g_assert_cmpuint (words->rest->len, ==, 3); /* what stays, longer, a second */
  g_assert_nonnull (strstr (words->rest->pdata[0], " stays. At "));
  g_assert_cmpuint (words->costs->len, ==, 2);
  g_assert_cmpuint (words->cookers->len, ==, 0);
}

static void
test_units (void)
{
  FrPlanInput input = named (31);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  FrSay us = say_in (FR_SYSTEM_US, '.', TRUE), comma = say_in (FR_SYSTEM_METRIC, ',', FALSE);
  g_autoptr (FrPlanWords) in_us = fr_plan_words_new (plan, &input, &us),
                          in_comma = fr_plan_words_new (plan, &input, &comma);

  g_assert_nonnull (strstr (in_us->sentence, "gal</b> into the pan"));
  g_assert_nonnull (strstr (in_us->sentence, "<b>7:00 PM</b>"));
  g_assert_nonnull (strstr (in_us->reason, " AM"));
  g_assert_nonnull (strstr (in_comma->sentence, "<b>4,0"));
  g_assert_nonnull (strstr (in_comma->reason, ",")); /* 0,44 L */
  g_assert_null (strstr (in_comma->reason, "$1."));
}

/* Each status, with what it proposes. */
static void
test_no_plan (void)
{
  FrPlanInput input = named (20);

#define EXPECT(STATUS, SENTENCE, REASON, ...)                                                                \
  {                                                                                                          \
    FrPlanInput in = input;                                                                                  \
    g_autoptr (FrPlanWords) words = NULL;                                                                    \
    g_autofree char *plain = NULL;                                                                           \
    __VA_ARGS__;                                                                                             \
    words = words_of (&in, FR_PLAN_##STATUS);                                                                \
    plain = fr_say_plain (words->sentence);                                                                  \
    g_assert_cmpstr (plain, ==, SENTENCE);                                                                   \
    if (strstr (words->reason, REASON) == NULL)                                                              \
      g_error ("“%s” lacks “%s”", words->reason, REASON);                                                    \
    g_assert_cmpuint (words->figures->len, ==, 0);                                                           \
  }
  EXPECT (NO_SAP, "Nothing to boil tonight.", "Enter what is on hand", in.sap_l = 0)
  EXPECT (NO_KIT, "There is no cooker yet.", "Describe one", in.n_kits = 0)
  EXPECT (NO_KIT, "No cooker is chosen for tonight.", "Turn one on", in.kits[0].off = TRUE)
  EXPECT (NO_KIT, "Leave the Ann & Bo’s <big> pot off on this circuit.", "on Shed left, where",
          in.kits[0].off = TRUE;
          in.kits[0].breaker_a = 15)
  EXPECT (NO_HOURS, "The hours leave no time to boil.", "after start", in.off_by_utc = in.start_utc)
  EXPECT (TOO_LITTLE, "There is too little sap for any pan tonight.", "next gathering", in.sap_l = 1)
  EXPECT (TOO_LATE, "The Ann & Bo’s <big> pot cannot boil down even its own fill by 20:00.", "Switch on at ",
          in.off_by_utc = in.start_utc + 3600)
  /* Too late for starting earlier: then longer. */
  EXPECT (TOO_LATE, "The Ann & Bo’s <big> pot cannot boil down even its own fill by 20:00.",
          "Allow it until 20:45", in.off_by_utc = in.start_utc + 3600;
          in.now_utc = in.start_utc)
  EXPECT (TOO_SWEET, "The fill of the Ann & Bo’s <big> pot alone would end thicker than 30\u00a0°Bx.",
          "Raise its cut-off", in.sap_brix = 25;
          in.max_brix = 30)
  EXPECT (NEVER_BOILS, "The Ann & Bo’s <big> pot never comes to the boil: the wall loses all its heat.",
          "Wrap the pan", in.kits[0].power_w = 120)
  EXPECT (BAD_INPUT, "Enter the sweetness of the sap.", "A number is needed. 0.1\u00a0°Bx to 30",
          in.sap_brix = NAN)
  EXPECT (BAD_INPUT, "Look at the sweetness of the sap.", "45\u00a0°Bx is past any sap or concentrate. 0.1",
          in.sap_brix = 45)
  EXPECT (BAD_INPUT, "Enter the temperature of the sap.", "60", in.sap_c = NAN)
  EXPECT (BAD_KIT, "Look at the Ann & Bo’s <big> pot: the cut-off level.", "5.0\u00a0L is too much.",
          in.kits[0].cutoff_l = 5)
  EXPECT (BAD_KIT, "Look at the Ann & Bo’s <big> pot: the part of the power that heats.", "100",
          in.kits[0].heat_ratio = 1.5)
  EXPECT (BAD_KIT, "Look at the pan of the Ann & Bo’s <big> pot.", "dimensions", in.kits[0].vessel.a_m = NAN)
#undef EXPECT
}

static void
test_several (void)
{
  FrPlanInput input = named (30);
  g_autoptr (FrPlanWords) words = NULL;

  input.n_kits = 4;
  input.kits[1] = evening_kit ("Wok", 1200);
  input.kits[2] = evening_kit ("Weak", 120); /* cannot boil */
  input.kits[3] = evening_kit ("Slow", 260);
  words = words_of (&input, FR_PLAN_OK);
  g_assert_true (g_str_has_prefix (words->sentence, "Share <b>"));
  g_assert_nonnull (strstr (words->sentence, "among 2 cookers and start at <b>19:00</b>: "));
  g_assert_nonnull (strstr (words->sentence, "Bo’s &lt;big&gt; pot, and "));
  g_assert_cmpuint (words->cookers->len, ==, 4);
  g_assert_cmpstr (((FrCookerWords *)words->cookers->pdata[2])->when, ==,
                   "It never comes to the boil: the wall loses all its heat.");
  g_assert_cmpstr (((FrCookerWords *)words->cookers->pdata[3])->when, ==,
                   "It cannot boil down even its own fill by 06:50.");
  g_assert_cmpuint (words->feeds->len, ==, 2);
  g_assert_cmpstr (((FrFeedWords *)words->feeds->pdata[1])->title, ==, "Wok");
}

static void
test_small_cases (void)
{
  FrPlanInput input = named (0.06);
  g_autoptr (FrPlanWords) rest_only = NULL, syrup = NULL, no_price = NULL, half = NULL, fuel = NULL;
  FrTariffProblem problem;
  g_autoptr (FrTariff) summer = fr_tariff_parse ("05-01 10-31 all 00:00 24:00 9\n", NULL, 0, 0, &problem);

  /* Hardly any sap, a pan that holds enough. */
  input.kits[0].rest_l = 4;
  input.kits[0].rest_brix = 20;
  input.kits[0].rest_c = 5;
  rest_only = words_of (&input, FR_PLAN_OK);
  g_assert_true (
      g_str_has_prefix (rest_only->sentence, "Boil what is in the pan from last night. Start at "));

  input = named (60);
  input.max_brix = 70;
  input.sap_brix = 8;
  syrup = words_of (&input, FR_PLAN_OK);
  g_assert_nonnull (strstr (syrup->reason, "It is syrup by then: "));

  input = named (20);
  input.tariff = summer;
  no_price = words_of (&input, FR_PLAN_OK);
  g_assert_cmpstr (no_price->price_note, ==,
                   "The prices say nothing of Wednesday 12 February, so the cost is not known.");
  g_assert_null (strstr (no_price->reason, "Cost"));

  /* Long before the rise, nothing is said of it. */
  input = named (3);
  half = words_of (&input, FR_PLAN_OK);
  g_assert_null (strstr (half->reason, "price doubles"));

  input = named (20);
  input.fuel_price_per_kg = 250;
  input.fuel_mj_per_kg = 50.35;
  input.fuel_heat_ratio = 0.4;
  g_strlcpy (input.fuel_name, "Propane", sizeof input.fuel_name);
  fuel = words_of (&input, FR_PLAN_OK);
  g_assert_nonnull (strstr (fuel->break_even, "a kilogram."));
}

/* Every caution, option and way of a set feed, by itself and with numbers as a plan gives them. */
static void
test_every_code (void)
{
  FrPlanInput input = named (20);
  FrSay say = say_in (FR_SYSTEM_METRIC, '.', FALSE);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);

  g_strlcpy (input.fuel_name, "Propane", sizeof input.fuel_name);
  for (FrCautionCode code = 0; code < FR_N_CAUTIONS; code++)
    {
      FrCaution caution = { code, FR_SEVERITY_WARN, 0, 3, 5 };
      g_autofree char *text = NULL;

      if (code == FR_CAUTION_ATTEND)
        caution.a = (double)input.start_utc + 3600;
      text = fr_caution_sentence (&caution, &input, &say);
      sentence (text);
      g_assert_cmpuint (g_utf8_strlen (text, -1), <, 170);
    }
  for (FrOptionCode code = 0; code <= FR_OPTION_HIGHER_CUTOFF; code++)
    for (guint money = 0; money < 4; money++)
      {
        static const double extras[] = { NAN, 0.2, 120, -80 };
        g_autoptr (FrPlanWords) words = NULL;

        plan->over_l = 5;
        plan->n_options = 1;
        plan->options[0] = (FrOption){ code, 0, input.start_utc + 7200, 900, 1.85, extras[money] };
        words = fr_plan_words_new (plan, &input, &say);
        assert_words (words);
        g_assert_cmpuint (words->rest->len, ==, 2);
      }
  for (FrTariffCode code = FR_TARIFF_BAD_LINE; code <= FR_TARIFF_EMPTY; code++)
    for (guint line = 0; line < 2; line++)
      {
        FrTariffProblem problem = { code, line, FR_N_DAYS, 0, { 2025, 5, 1 } };
        g_autofree char *text = fr_price_problem_sentence (&problem);

        sentence (text);
      }
}

static void
test_set_feed (void)
{
  for (guint hole = 0; hole < 2; hole++)
    for (double radius_m = 0.1; radius_m < 0.2; radius_m += 0.02)
      {
        FrPlanInput input = named (25);
        g_autoptr (FrPlanWords) words = NULL;

        input.kits[0].feed = hole ? FR_FEED_HOLE : FR_FEED_STREAM;
        input.kits[0].head_m = 0.6;
        input.kits[0].vessel.a_m = radius_m;
        words = words_of (&input, FR_PLAN_OK);
        g_assert_cmpuint (((FrFeedWords *)words->feeds->pdata[0])->warnings->len, >=, 3);
      }
}

int
main (int argc, char **argv)
{
  FrTariffProblem problem;
  int failed;

  g_test_init (&argc, &argv, NULL);
  zone = test_zone ("America/Toronto");
  tariff = fr_tariff_parse (WINTER_2024, NULL, 0, 0, &problem);
  g_assert_nonnull (tariff);
  g_test_add_func ("/plan-words/typical", test_typical);
  g_test_add_func ("/plan-words/units", test_units);
  g_test_add_func ("/plan-words/no-plan", test_no_plan);
  g_test_add_func ("/plan-words/several", test_several);
  g_test_add_func ("/plan-words/small-cases", test_small_cases);
  g_test_add_func ("/plan-words/every-code", test_every_code);
  g_test_add_func ("/plan-words/set-feed", test_set_feed);
  failed = g_test_run ();
  fr_tariff_free (tariff);
  fr_zone_table_free (zone);
  return failed;
}
