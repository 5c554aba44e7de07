/* Plan and fact side by side, and what follows for the cooker. */
#include "words/morning-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

static void
line_free (FrMorningLine *line)
{
  g_free (line->what);
  g_free (line->plan);
  g_free (line->fact);
  g_free (line);
}

void
fr_morning_words_free (FrMorningWords *words)
{
  if (words == NULL)
    return;
  g_ptr_array_unref (words->lines);
  g_ptr_array_unref (words->whys);
  g_free (words->learned);
  g_free (words);
}

static void
add_line (FrMorningWords *words, const char *what, char *plan, char *fact)
{
  FrMorningLine *line = g_new0 (FrMorningLine, 1);

  line->what = g_strdup (what);
  line->plan = plan;
  line->fact = fact;
  g_ptr_array_add (words->lines, line);
}

static char *
why_sentence (FrWhy why, double a, const FrSay *say)
{
  g_autofree char *percent = fr_say_number (say, fabs (100 * (a - 1)), 0);

  switch (why)
    {
    case FR_WHY_LESS_HEAT:
      return g_strdup_printf (_ ("The cooker gave %s %% less heat than assumed, so the boil took longer."),
                              percent);
    case FR_WHY_MORE_HEAT:
      return g_strdup_printf (
          _ ("The cooker gave %s %% more heat than assumed, so the boil was done sooner."), percent);
    case FR_WHY_SWEETER:
      return g_strdup_printf (
          _ ("There is %s %% more sugar in the pan than was poured in: the sap was sweeter, or more of it."),
          percent);
    case FR_WHY_LESS_SWEET:
      return g_strdup_printf (_ ("%s %% of the sugar poured in is missing: the sap was less sweet, or less "
                                 "of it, or some was lost."),
                              percent);
    case FR_WHY_AS_PLANNED:
      return g_strdup (_ ("It went as planned."));
    default:
      return g_strdup (_ ("What was found does not tell how much heat the cooker gave. A meter reading does, "
                          "or the time it went "
                          "off."));
    }
}

/* What was not found has no unit either. */
static char *
found (double value, FrQuantityKind kind, int decimals, const FrSay *say)
{
  return isnan (value) ? g_strdup ("–") : fr_say_amount (say, value, kind, decimals);
}

FrMorningWords *
fr_morning_words_new (const FrMorningReport *report, const FrNight *night, const FrPlanKit *kit,
                      const FrSay *say)
{
  FrMorningWords *words = g_new0 (FrMorningWords, 1);

  words->lines = g_ptr_array_new_with_free_func ((GDestroyNotify)line_free);
  words->whys = g_ptr_array_new_with_free_func (g_free);
  add_line (words, _ ("Off at"), fr_say_clock (say, night->start_utc + (gint64)lround (report->plan_end_s)),
            isnan (report->fact_end_s)
                ? g_strdup ("–")
                : fr_say_clock (say, night->start_utc + (gint64)lround (report->fact_end_s)));
  add_line (words, _ ("Thickness"), fr_say_amount (say, report->plan_brix, FR_QUANTITY_SWEETNESS, 1),
            found (report->fact_brix, FR_QUANTITY_SWEETNESS, 1, say));
  add_line (words, _ ("Left, cooled"), fr_say_amount (say, report->plan_left_l, FR_QUANTITY_VOLUME, 2),
            found (report->fact_left_l, FR_QUANTITY_VOLUME, 2, say));
  add_line (words, _ ("Electricity"), fr_say_amount (say, report->plan_energy_kwh, FR_QUANTITY_ENERGY, 1),
            found (report->fact_energy_kwh, FR_QUANTITY_ENERGY, 1, say));
  for (guint i = 0; i < report->n_why; i++)
    g_ptr_array_add (words->whys, why_sentence (report->why[i], report->why_a[i], say));
  if (report->has_learned)
    {
      g_autofree char *was = fr_say_amount (say, night->heat_ratio.value, FR_QUANTITY_RATIO, 1);
      g_autofree char *is = fr_say_amount (say, report->learned.heat_ratio, FR_QUANTITY_RATIO, 1);
      g_autofree char *half = fr_say_number (
          say, 100 * fr_heat_ratio_half_range (report->learned.heat_ratio, report->learned.heat_ratio_sd), 1);

      words->learned = g_strdup_printf (
          report->learned.prior_dropped
              ? _ ("The heat of the %s goes from %s to %s ± %s. It contradicts what was assumed, so "
                   "this night alone counts.")
              : _ ("The heat of the %s goes from %s to %s ± %s, nine times in ten."),
          kit->name, was, is, half);
    }
  else
    words->learned = g_strdup_printf (_ ("The heat of the %s stays as it is."), kit->name);
  return words;
}
