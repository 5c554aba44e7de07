/* Why there is no plan tonight, and what would make one: a sentence and its remedy for each status. */
#include "words/plan-words-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

void
fr_no_plan_words (FrPlanWords *words, const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  g_autofree char *name = g_markup_escape_text (
      plan->fault_kit < input->n_kits ? input->kits[plan->fault_kit].name : _ ("cooker"), -1);
  g_autofree char *off_by = fr_say_clock (say, input->off_by_utc);

  switch (plan->status)
    {
    case FR_PLAN_NO_SAP:
      words->sentence = g_strdup (_ ("Nothing to boil tonight."));
      words->reason
          = g_strdup (_ ("Enter what is on hand, or write down a gathering, and the plan appears."));
      break;
    case FR_PLAN_NO_KIT:
      words->sentence = g_strdup (_ ("No cooker is chosen for tonight."));
      words->reason = g_strdup (_ ("Choose one, or describe a cooker and its pan under Kit and Prices."));
      break;
    case FR_PLAN_NO_HOURS:
      words->sentence = g_strdup (_ ("The hours leave no time to boil."));
      words->reason = g_strdup (_ ("Off by has to come after start, within five days."));
      break;
    case FR_PLAN_TOO_LITTLE:
      words->sentence = g_strdup (_ ("There is too little sap for any pan tonight."));
      words->reason = g_strdup (
          _ ("It would not stand above the cut-off level. Keep it cold and add the next gathering."));
      break;
    case FR_PLAN_TOO_LATE:
      words->sentence
          = g_strdup_printf (_ ("The %s cannot boil down even its own fill by <b>%s</b>."), name, off_by);
      if (plan->needs_start_utc != G_MININT64)
        {
          g_autofree char *start = fr_say_when (say, plan->needs_start_utc, input->start_utc);

          words->reason = g_strdup_printf (_ ("Started at %s the pan alone would be done in time."), start);
        }
      else
        words->reason = g_strdup (_ ("Fill it lower, or use a stronger cooker."));
      break;
    case FR_PLAN_TOO_SWEET:
      {
        g_autofree char *brix = fr_say_amount (say, input->max_brix, FR_QUANTITY_SWEETNESS, -1);

        words->sentence
            = g_strdup_printf (_ ("The fill of the %s alone would end thicker than <b>%s</b>."), name, brix);
        words->reason = g_strdup (_ ("Raise its cut-off level, fill it lower, or allow it to end thicker."));
        break;
      }
    case FR_PLAN_NEVER_BOILS:
      words->sentence
          = g_strdup_printf (_ ("The %s never comes to the boil: the wall loses all its heat."), name);
      words->reason = g_strdup (_ ("Wrap the pan, shelter it, or use a stronger cooker."));
      break;
    default:
      {
        g_autofree char *lo = fr_say_number (say, plan->fault_min, 2),
                        *hi = fr_say_number (say, plan->fault_max, 2);

        words->sentence = plan->status == FR_PLAN_BAD_KIT
                              ? g_strdup_printf (_ ("A number of the %s cannot be: %s."), name, plan->fault)
                              : g_strdup_printf (_ ("A number of the evening cannot be: %s."), plan->fault);
        words->reason = isnan (plan->fault_max)
                            ? g_strdup (_ ("Look at its dimensions under Kit and Prices."))
                            : g_strdup_printf (_ ("%s to %s is allowed."), lo, hi);
      }
    }
}
