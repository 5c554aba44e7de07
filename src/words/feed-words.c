/* The feed in words: the one number to set, other ways to set or check it, and what a bit off or a trip would
 * do. */
#include "words/plan-words-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

FrFigure *
fr_figure_new (char *label, char *number, const char *unit, char *note)
{
  FrFigure *figure = g_new0 (FrFigure, 1);

  figure->label = label;
  figure->number = number;
  figure->unit = g_strdup (unit);
  figure->note = note;
  return figure;
}

FrFigure *
fr_figure_of_amount (const FrSay *say, const char *label, double value, FrQuantityKind kind, int decimals,
                     char *note)
{
  char *number;
  const char *unit;

  fr_quantity_format (value, kind, &say->units, decimals, &number, &unit);
  return fr_figure_new (g_strdup (label), number, unit, note);
}

static char *
case_sentence (const FrPlanFeedCase *one, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *percent = fr_say_number (say, fabs (100 * (one->flow_ratio - 1)), 0);
  g_autofree char *set = one->flow_ratio == 1  ? g_strdup (_ ("Set so"))
                         : one->flow_ratio > 1 ? g_strdup_printf (_ ("%s %% too fast"), percent)
                                               : g_strdup_printf (_ ("%s %% too slow"), percent);
  g_autofree char *clock = NULL;

  if (!isnan (one->rim_s))
    {
      clock = fr_say_clock (say, input->start_utc + (gint64)one->rim_s);
      return g_strdup_printf (_ ("%s, it runs over the rim at %s."), set, clock);
    }
  if (!isnan (one->foam_s))
    {
      clock = fr_say_clock (say, input->start_utc + (gint64)one->foam_s);
      return g_strdup_printf (_ ("%s, it stands in the foam’s room from %s."), set, clock);
    }
  clock = fr_say_clock (say, input->start_utc + (gint64)one->end_s);
  if (one->ended_by == FR_END_CUTOFF && isnan (one->dry_s))
    return g_strdup_printf (_ ("%s, the pan cuts off early at %s with sap still in the bucket."), set, clock);
  if (one->ended_by == FR_END_CUTOFF)
    return g_strdup_printf (_ ("%s, the pan cuts off at %s."), set, clock);
  return g_strdup_printf (_ ("%s, the boil is not done by %s."), set, clock);
}

void
fr_feed_words_add (GPtrArray *feeds, const FrPlan *plan, const FrPlanInput *input, const FrPlanShare *share,
                   gboolean titled, const FrSay *say)
{
  const FrPlanFeed *feed = &share->feed;
  const FrPlanKit *kit = &input->kits[share->kit];
  FrFeedWords *words;
  char *minutes;
  int seconds;

  /* A bucket that is empty before the boil has no rate to set. */
  if (!isfinite (feed->ml_per_min) || !isfinite (feed->s_per_100ml))
    return;
  words = g_new0 (FrFeedWords, 1);
  words->title = titled ? g_strdup (kit->name) : NULL;
  words->lines = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_figure_free);
  words->warnings = g_ptr_array_new_with_free_func (g_free);
  words->setting
      = fr_figure_new (g_strdup (kit->feed == FR_FEED_LEVEL ? _ ("The boil draws") : _ ("Set the feed to")),
                       fr_say_number (say, feed->ml_per_min, 0), "ml/min", NULL);
  seconds = (int)lround (feed->s_per_100ml);
  minutes = g_strdup_printf ("%d:%02d", seconds / 60, seconds % 60);
  g_ptr_array_add (words->lines, fr_figure_new (g_strdup (_ ("100 ml in")), minutes, _ ("min"), NULL));
  if (feed->drops_per_min <= 300)
    g_ptr_array_add (words->lines,
                     fr_figure_new (g_strdup (_ ("Drops")), fr_say_number (say, feed->drops_per_min, 0),
                                    _ ("a minute"), NULL));
  if (!isnan (feed->hole_m))
    {
      g_autofree char *head = fr_say_amount (say, kit->head_m, FR_QUANTITY_LENGTH, 0);

      g_ptr_array_add (words->lines, fr_figure_new (g_strdup_printf (_ ("Hole at %s"), head),
                                                    fr_say_number (say, feed->hole_m * 1e3, 1), "mm", NULL));
    }
  g_ptr_array_add (words->lines, fr_figure_of_amount (say, _ ("In the pan at cut-off"), feed->trip_mass_kg,
                                                      FR_QUANTITY_MASS, 2, NULL));
  for (guint i = 0; i < feed->n_cases; i++)
    g_ptr_array_add (words->warnings, case_sentence (&feed->cases[i], input, say));
  if (!isnan (feed->trip_rim_s))
    {
      g_autofree char *trips = fr_say_clock (say, input->start_utc + (gint64)feed->trip_worst_s);
      g_autofree char *over = fr_say_clock (say, input->start_utc + (gint64)feed->trip_rim_s);

      g_ptr_array_add (
          words->warnings,
          g_strdup_printf (_ ("If the power trips at %s the feed runs on and the pan runs over at "
                              "%s."),
                           trips, over));
    }
  g_ptr_array_add (feeds, words);
}
