/* Questions at entry. Each says what was read and what would fit, then the likeliest causes and what to
 * do; none says that an entry is wrong. */
#include "words/ask-words.h"

#include "domain/maths/instrument.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "words/season-words.h"

/* By FrAskCause, as they follow "Perhaps ". */
static const char *const causes[FR_N_CAUSES] = {
  [FR_CAUSE_RAIN] = N_ ("rain in the bucket"),
  [FR_CAUSE_MELT] = N_ ("melted snow or ice in the bucket"),
  [FR_CAUSE_LEAK] = N_ ("a leak at the spout or through the bucket"),
  [FR_CAUSE_DRY_HOLE] = N_ ("a hole that runs dry"),
  [FR_CAUSE_TIPPED] = N_ ("a bucket tipped by a squirrel or the wind"),
  [FR_CAUSE_UNIT] = N_ ("another unit"),
  [FR_CAUSE_POINT] = N_ ("the decimal point"),
  [FR_CAUSE_OTHER_TREE] = N_ ("another tree’s sap"),
  [FR_CAUSE_MISSED_LINE] = N_ ("something before it that was not written down"),
  [FR_CAUSE_TYPED_TWICE] = N_ ("typed twice"),
  [FR_CAUSE_CONCENTRATE] = N_ ("concentrate or syrup"),
  [FR_CAUSE_FROZEN] = N_ ("part of it frozen, which leaves the rest sweeter"),
  [FR_CAUSE_INSTRUMENT] = N_ ("an instrument that was not set to zero, or a warm sample"),
  [FR_CAUSE_DATE] = N_ ("another date"),
  [FR_CAUSE_TAP_UNWRITTEN] = N_ ("a tap whose day was not written down"),
  [FR_CAUSE_CONTAINER] = N_ ("another container"),
  [FR_CAUSE_SIZE] = N_ ("a container that holds more than is written"),
};

/* By FrAskCode: what to do about it. */
static const char *const remedies[FR_N_ASKS] = {
  [FR_ASK_FUTURE] = N_ ("Check the day."),
  [FR_ASK_NO_TAP] = N_ ("Write the tap’s day down, or check the day and the tree."),
  [FR_ASK_NOT_SAP] = N_ ("Check the reading."),
  [FR_ASK_SWEET] = N_ ("Check the reading."),
  [FR_ASK_WATERY] = N_ ("Check the reading."),
  [FR_ASK_TWICE] = N_ ("Keep it if it was another pail."),
  [FR_ASK_OVER_BUCKETS] = N_ ("Check the amount, or write down what is missing."),
  [FR_ASK_THIN] = N_ ("Look under its lid."),
  [FR_ASK_FAR_ABOVE] = N_ ("Check the amount and the tree."),
  [FR_ASK_FAR_BELOW] = N_ ("Look at its spout and bucket."),
  [FR_ASK_OVERFLOW] = N_ ("Choose another container, or write down what left this one."),
  [FR_ASK_NEGATIVE] = N_ ("Write down what came in, or choose another container."),
  [FR_ASK_CLOCK_SKIPPED] = N_ ("Choose a time before or after it."),
};

/* What a reading needs that cannot be made good. */
static const char *
reading_fact (FrReadingCode code)
{
  switch (code)
    {
    case FR_READING_NEEDS_TEMPERATURE:
      return _ ("This instrument’s reading needs the sample’s temperature. Write it down, or choose the instrument "
                "that was used.");
    case FR_READING_WARM_SAMPLE:
      return _ ("The sample is too cold for this instrument. Warm it and read it again.");
    case FR_READING_COOL_SAMPLE:
      return _ ("The sample is too hot for this instrument. Cool it and read it again.");
    default:
      return _ ("The reading lies off this instrument’s scale. Check the number and the instrument.");
    }
}

static char *
amount (const FrQuestion *question, double own_l, const FrSay *say)
{
  g_autofree char *litres = fr_season_litres (say, question->value_l);

  if (isnan (own_l) || fabs (own_l - question->value_l) < 0.05
      || (question->code != FR_ASK_FAR_ABOVE && question->code != FR_ASK_FAR_BELOW
          && question->code != FR_ASK_THIN && question->code != FR_ASK_OVER_BUCKETS))
    return g_steal_pointer (&litres);
  /* Translators: litres, of several entries for the same tree */
  return g_strdup_printf (_ ("%s, with what came before,"), litres);
}

static char *
fact (const FrQuestion *question, const char *container, double own_l, const FrSay *say)
{
  g_autofree char *value = amount (question, own_l, say), *usual = fr_season_litres (say, question->usual_l);
  g_autofree char *limit = fr_season_litres (say, question->limit_l);
  g_autofree char *brix = fr_say_amount (say, question->brix, FR_QUANTITY_SWEETNESS, -1);
  g_autofree char *least = fr_say_amount (say, FR_ASK_LEAST_BRIX, FR_QUANTITY_SWEETNESS, -1);
  g_autofree char *most = fr_say_amount (say, FR_ASK_MOST_BRIX, FR_QUANTITY_SWEETNESS, -1);
  g_autofree char *usual_brix = fr_say_amount (say, question->usual_brix, FR_QUANTITY_SWEETNESS, -1);
  g_autofree char *when
      = question->utc_s != G_MININT64 && say->zone != NULL ? fr_say_when (say, question->utc_s, 0) : NULL;
  g_autofree char *other_when = question->other_utc_s != G_MININT64 && say->zone != NULL
                                    ? fr_say_when (say, question->other_utc_s, 0)
                                    : NULL;

  switch (question->code)
    {
    case FR_ASK_FUTURE:
      return g_strdup (_ ("That moment is still to come."));
    case FR_ASK_NO_TAP:
      if (question->day != NULL)
        /* Translators: a date as written down */
        return g_strdup_printf (_ ("No tap was set here on that day; the nearest one written down is of %s."),
                                question->day);
      return g_strdup (_ ("No tap was set here on that day."));
    case FR_ASK_READING:
      return g_strdup (reading_fact (question->reading));
    case FR_ASK_NOT_SAP:
      /* Translators: a sweetness */
      return g_strdup_printf (_ ("%s is past any raw sap."), brix);
    case FR_ASK_SWEET:
      /* Translators: sweetness as read; from, to */
      return g_strdup_printf (_ ("%s is more than trees give; %s to %s is usual."), brix, least, most);
    case FR_ASK_WATERY:
      return g_strdup_printf (_ ("%s is hardly more than water; %s to %s is usual."), brix, least, most);
    case FR_ASK_TWICE:
      if (other_when == NULL)
        return g_strdup (_ ("The same is written down already."));
      /* Translators: a date and clock time */
      return g_strdup_printf (_ ("The same is written down already, for %s."), other_when);
    case FR_ASK_OVER_BUCKETS:
      /* Translators: litres gathered, litres the buckets hold */
      return g_strdup_printf (_ ("%s is more than what hangs there holds, %s."), value, limit);
    case FR_ASK_THIN:
      /* Translators: litres and sweetness as written; litres and sweetness as usual */
      return g_strdup_printf (
          _ ("%s at %s is much and thin beside its neighbours; about %s at %s would be its share."), value,
          brix, usual, usual_brix);
    case FR_ASK_FAR_ABOVE:
      return g_strdup_printf (_ ("%s is far more than its share beside its neighbours, about %s."), value,
                              usual);
    case FR_ASK_FAR_BELOW:
      return g_strdup_printf (_ ("%s is far less than its share beside its neighbours, about %s."), value,
                              usual);
    case FR_ASK_OVERFLOW:
      /* Translators: litres, a container's name, litres it holds */
      return g_strdup_printf (_ ("That makes %s in “%s”, which holds %s."), value,
                              container != NULL ? container : _ ("the container"), limit);
    case FR_ASK_NEGATIVE:
      if (container == NULL)
        return g_strdup_printf (_ ("%s is more than there was without a container, %s."), value, limit);
      return g_strdup_printf (_ ("%s is more than there was in “%s”, %s."), value, container, limit);
    case FR_ASK_CLOCK_SKIPPED:
      return g_strdup (_ ("The clock was put forward over that time."));
    case FR_ASK_CLOCK_TWICE:
      return g_strdup_printf (_ ("The clock showed that time twice; the first is taken, %s."),
                              when != NULL ? when : "");
    case FR_N_ASKS:
    default:
      return NULL;
    }
}

char *
fr_question_sentence (const FrQuestion *question, const char *container, double own_l, const FrSay *say)
{
  g_autofree char *what = fact (question, container, own_l, say);
  g_autoptr (GString) all = g_string_new (what);

  if (what == NULL)
    return NULL;
  for (guint i = 0; i < question->n_causes; i++)
    /* Translators: what something may come from, "rain in the bucket" */
    g_string_append_printf (all, i == 0 ? _ (" Perhaps %s") : i + 1 < question->n_causes ? ", %s" : _ (", or %s"),
                            _ (causes[question->causes[i]]));
  if (question->n_causes > 0)
    g_string_append_c (all, '?');
  if (remedies[question->code] != NULL)
    g_string_append_printf (all, " %s", _ (remedies[question->code]));
  return g_strdup (all->str);
}
