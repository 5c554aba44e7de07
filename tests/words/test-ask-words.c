/* What is asked, word for word: the fact, what it may come from, and what to do. */
#include "words/ask-words.h"

#include "domain/maths/instrument.h"

#include "sentences.h"

#include <math.h>

static FrSay
metric (void)
{
  return (FrSay){ .units = { .decimal_mark = '.' } };
}

static FrQuestion
question (FrAskCode code)
{
  return (FrQuestion){ .code = code,
                       .value_l = 8,
                       .usual_l = 4,
                       .limit_l = 6,
                       .brix = 1.1,
                       .usual_brix = 2.2,
                       .rain_m = NAN,
                       .utc_s = 1772976600,
                       .other_utc_s = 1772978400 };
}

/* No-break spaces as blanks. */
static char *
plain (char *text)
{
  GString *out = g_string_new (text);

  g_free (text);
  g_string_replace (out, "\xC2\xA0", " ", 0);
  return g_string_free (out, FALSE);
}

static void
because (FrQuestion *asked, FrAskCause one, FrAskCause two, FrAskCause three)
{
  asked->n_causes = 3;
  asked->causes[0] = one;
  asked->causes[1] = two;
  asked->causes[2] = three;
}

static void
test_rain (void)
{
  FrQuestion asked = question (FR_ASK_THIN);
  FrSay say = metric ();
  g_autofree char *text = NULL;

  because (&asked, FR_CAUSE_RAIN, FR_CAUSE_MELT, FR_CAUSE_INSTRUMENT);
  text = plain (fr_question_sentence (&asked, NULL, 8, &say));
  g_assert_cmpstr (text, ==,
                   "8.0 L at 1.1 °Bx is much and thin beside its neighbours; about 4.0 L at 2.2 °Bx would be "
                   "its share. Perhaps "
                   "rain in the bucket, melted snow or ice in the bucket, or an instrument that was not set "
                   "to zero, or a warm "
                   "sample? Look under its lid.");
}

static void
test_low (void)
{
  FrQuestion asked = question (FR_ASK_FAR_BELOW);
  FrSay say = metric ();
  g_autofree char *text = NULL;

  asked.value_l = 0.5;
  because (&asked, FR_CAUSE_LEAK, FR_CAUSE_DRY_HOLE, FR_CAUSE_TIPPED);
  text = plain (fr_question_sentence (&asked, NULL, 0.5, &say));
  g_assert_true (g_str_has_suffix (
      text, "Perhaps a leak at the spout or through the bucket, a hole that runs dry, or a bucket "
            "tipped by a squirrel or the wind? Look at its spout and bucket."));
}

static void
test_containers (void)
{
  FrQuestion asked = question (FR_ASK_OVERFLOW);
  FrSay say = metric ();
  g_autofree char *over = plain (fr_question_sentence (&asked, "Tub", 3, &say)), *out = NULL, *nowhere = NULL;

  g_assert_cmpstr (over, ==,
                   "That makes 8.0 L in “Tub”, which holds 6.0 L. Choose another container, or write down "
                   "what left this one.");
  asked.code = FR_ASK_NEGATIVE;
  out = plain (fr_question_sentence (&asked, "Tub", NAN, &say));
  g_assert_cmpstr (
      out, ==,
      "8.0 L is more than there was in “Tub”, 6.0 L. Write down what came in, or choose another container.");
  nowhere = plain (fr_question_sentence (&asked, NULL, NAN, &say));
  sentence (nowhere);
}

/* In the household's own degrees. */
static void
test_sweetness (void)
{
  FrQuestion asked = question (FR_ASK_SWEET);
  FrSay say = metric ();
  g_autofree char *brix = NULL, *baume = NULL;

  asked.brix = 9;
  brix = plain (fr_question_sentence (&asked, NULL, NAN, &say));
  g_assert_cmpstr (brix, ==,
                   "9.0 °Bx is more than trees give; 0.5 °Bx to 8.0 °Bx is usual. Check the reading.");
  say.units.baume = TRUE;
  baume = plain (fr_question_sentence (&asked, NULL, NAN, &say));
  g_assert_nonnull (strstr (baume, "°Bé"));
  g_assert_null (strstr (baume, "°Bx"));
}

static void
test_every (void)
{
  g_autoptr (FrZoneTable) zone = fr_zone_table_new_utc ();
  FrSay say = metric ();

  say.zone = zone;
  for (guint code = 0; code < FR_N_ASKS; code++)
    for (guint cause = 0; cause <= FR_N_CAUSES; cause++)
      {
        FrQuestion asked = question (code);
        g_autofree char *text = NULL;

        asked.n_causes = cause < FR_N_CAUSES;
        asked.causes[0] = cause;
        asked.day = cause % 2 == 0 ? "2026-03-01" : NULL;
        asked.reading = FR_READING_WARM_SAMPLE + cause % 4;
        text = fr_question_sentence (&asked, cause % 2 == 0 ? "Tub" : NULL, cause % 2 == 0 ? NAN : 2, &say);
        sentence_parts (text);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ask-words/rain", test_rain);
  g_test_add_func ("/ask-words/low", test_low);
  g_test_add_func ("/ask-words/containers", test_containers);
  g_test_add_func ("/ask-words/sweetness", test_sweetness);
  g_test_add_func ("/ask-words/every", test_every);
  return g_test_run ();
}
