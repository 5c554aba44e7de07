/* The choice of trees in words: what to hang, and for everything that rules a choice out its numbers and a
 * remedy, in the household's units. */
#include "sentences.h"
#include "words/tap-plan-words.h"

#include <math.h>

static const FrSay METRIC = { .units = { .decimal_mark = '.' } };
static const FrSay US = { .units = { .system = FR_SYSTEM_US, .decimal_mark = '.' } };

static void
has (const char *text, const char *part)
{
  g_auto (GStrv) parts = g_strsplit (text != NULL ? text : "", "\302\240", -1);
  g_autofree char *plain = g_strjoinv (" ", parts);

  if (strstr (plain, part) == NULL)
    g_error ("“%s” does not hold “%s”", plain, part);
}

static const double litres_l[] = { 40, 30 };

static void
test_choice (void)
{
  const FrTapTree trees[] = { { 2, litres_l, 2, FALSE, FALSE }, { 1, litres_l, 2, FALSE, FALSE } };
  /* The next bucket is the second tap: 30 L × 1.00596 kg/L × 2 % = 0.60 kg; 9 L a day are 105 L a season. */
  const FrTapLimits open = { 2, FR_TAP_CHOICE_NO_LIMIT, NAN, 35, 3 },
                    kitchen = { 3, FR_TAP_CHOICE_NO_LIMIT, 9, 35, 3 };
  g_auto (FrTapChoice) choice = { 0 };
  g_auto (FrTapChoice) limited = { 0 };
  g_autoptr (FrBushPlanWords) words = NULL;
  g_autoptr (FrBushPlanWords) tight = NULL;
  g_autofree char *plain = NULL;

  fr_tap_choice (trees, 2, &open, &choice);
  words = fr_tap_choice_words_new (&choice, &open, &METRIC);
  plain = fr_say_plain (words->sentence);
  g_assert_cmpstr (plain, ==, "Hang 2 buckets on 2 trees.");
  sentence (words->reason);
  has (words->reason, "1.61 kg");
  has (words->notes->pdata[0], "0.60 kg");
  g_assert_null (fr_tap_choice_refusal (&choice, &open, NULL, &METRIC));
  fr_tap_choice (trees, 2, &kitchen, &limited);
  tight = fr_tap_choice_words_new (&limited, &kitchen, &METRIC);
  g_assert_cmpuint (tight->notes->len, ==, 2);
  has (tight->notes->pdata[1], "The kitchen is the limit");
  for (guint i = 0; i < tight->notes->len; i++)
    sentence (tight->notes->pdata[i]);
}

static void
test_refusals (void)
{
  const FrTapTree must[] = { { 1, litres_l, 2, TRUE, FALSE }, { 1, litres_l, 2, TRUE, FALSE } };
  const FrTapTree both = { 1, litres_l, 2, TRUE, TRUE }, none = { 0, NULL, 2, TRUE, FALSE };
  const struct
  {
    const FrTapTree *trees;
    guint n;
    FrTapLimits limits;
    const FrSay *say;
    const char *first, *second;
  } cases[] = {
    { &both,
      1,
      { 2, 2, NAN, 35, 3 },
      &METRIC,
      "“T7” must be tapped and must never be",
      "take one of the two back" },
    { &none, 1, { 2, 2, NAN, 35, 3 }, &METRIC, "“T7”", "Allow it one" },
    { must, 2, { 1, 2, NAN, 35, 3 }, &METRIC, "2 trees must be tapped", "Get 1 more" },
    { must, 1, { 0, 1, NAN, 35, 3 }, &METRIC, "1 tree must be tapped", "Get 1 more" },
    { must, 2, { 2, 1, NAN, 35, 3 }, &METRIC, "at most 1", "Allow more" },
    /* 80 L / 35 × 3 = 6.9 L, or 1.81 US gal of 3.785 L; 5 L are 1.32. */
    { must, 2, { 2, 2, 5, 35, 3 }, &METRIC, "6.9 L on a peak day", "boils 5.0 L" },
    { must, 2, { 2, 2, 5, 35, 3 }, &US, "1.81 gal on a peak day", "boils 1.32 gal" },
    { must, 2, { 2, 2, -5, 35, 3 }, &METRIC, "outside its range", "no plan" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (FrTapChoice) choice = { 0 };
      g_autofree char *text = NULL;

      fr_tap_choice (cases[i].trees, cases[i].n, &cases[i].limits, &choice);
      text = fr_tap_choice_refusal (&choice, &cases[i].limits, "T7", cases[i].say);
      sentence (text);
      has (text, cases[i].first);
      has (text, cases[i].second);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/words/tap-plan/choice", test_choice);
  g_test_add_func ("/words/tap-plan/refusals", test_refusals);
  return g_test_run ();
}
