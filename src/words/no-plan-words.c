/* Why there is no plan tonight, and what would make one: a sentence and its remedy for each status. */
#include "words/plan-words-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "domain/maths/circuit.h"

/* What a person calls the members that can be at fault, and how their range is written. */
static const struct
{
  const char *member;
  const char *what;
  FrQuantityKind kind;
} faults[] = {
  { "sap_l", N_ ("the amount of sap"), FR_QUANTITY_VOLUME },
  { "sap_brix", N_ ("the sweetness of the sap"), FR_QUANTITY_SWEETNESS },
  { "sap_c", N_ ("how cold the sap is"), FR_QUANTITY_TEMPERATURE },
  { "max_brix", N_ ("how thick it may end"), FR_QUANTITY_SWEETNESS },
  { "air_c", N_ ("the air at the pan"), FR_QUANTITY_TEMPERATURE },
  { "air_low_c", N_ ("the night’s low"), FR_QUANTITY_TEMPERATURE },
  { "altitude_m", N_ ("the altitude"), FR_QUANTITY_ALTITUDE },
  { "water_boils_c", N_ ("what water boils at today"), FR_QUANTITY_TEMPERATURE },
  { "syrup_brix", N_ ("what counts as syrup"), FR_QUANTITY_SWEETNESS },
  { "jar_l", N_ ("the size of a jar"), FR_QUANTITY_VOLUME },
  { "hold_l", N_ ("the level that is held"), FR_QUANTITY_VOLUME },
  { "cutoff_l", N_ ("the cut-off level"), FR_QUANTITY_VOLUME },
  { "bucket_l", N_ ("the size of the bucket"), FR_QUANTITY_VOLUME },
  { "rest_l", N_ ("what is left from last night"), FR_QUANTITY_VOLUME },
  { "rest_brix", N_ ("the sweetness of what is left from last night"), FR_QUANTITY_SWEETNESS },
  { "rest_c", N_ ("the temperature of what is left from last night"), FR_QUANTITY_TEMPERATURE },
  { "start_c", N_ ("the temperature in the pan"), FR_QUANTITY_TEMPERATURE },
  { "power_w", N_ ("the power"), FR_QUANTITY_POWER },
  { "heat_ratio", N_ ("the part of the power that heats"), FR_QUANTITY_RATIO },
  { "reflux_ratio", N_ ("the part of the steam that drips back"), FR_QUANTITY_RATIO },
  { "wall_w_per_k", N_ ("the loss through the wall"), FR_QUANTITY_LOSS },
};

static void
say_fault (FrPlanWords *words, const FrPlan *plan, const char *name, const FrSay *say)
{
  const char *what = plan->fault;
  FrQuantityKind kind = FR_QUANTITY_PLAIN;
  g_autofree char *lo = NULL, *hi = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (faults); i++)
    if (strcmp (faults[i].member, plan->fault) == 0)
      {
        what = _ (faults[i].what);
        kind = faults[i].kind;
      }
  if (isnan (plan->fault_max))
    {
      words->sentence = g_strdup_printf (_ ("Look at the pan of the %s."), name);
      words->reason = g_strdup (_ ("Its dimensions do not make a pan; they are under Kit and Prices."));
      return;
    }
  words->sentence = plan->status == FR_PLAN_BAD_KIT ? g_strdup_printf (_ ("Look at the %s: %s."), name, what)
                                                    : g_strdup_printf (_ ("Look at %s."), what);
  lo = fr_say_amount (say, plan->fault_min, kind, -1);
  hi = fr_say_amount (say, plan->fault_max, kind, -1);
  words->reason = g_strdup_printf (_ ("It is needed, between %s and %s."), lo, hi);
}

/* All cookers are off: because the circuit of the first could not bear it, or because nobody chose one. */
static void
say_no_kit (FrPlanWords *words, const FrPlanInput *input, const FrSay *say)
{
  const FrPlanKit *kit = &input->kits[0];

  if (input->n_kits > 0)
    {
      FrCircuitLoad load
          = fr_circuit_load (kit->breaker_a, kit->volts_v, &kit->power_w, 1, kit->other_load_w);

      if (load.code == FR_CIRCUIT_OVER)
        {
          g_autofree char *name = g_markup_escape_text (kit->name, -1);
          g_autofree char *used = fr_say_amount (say, load.used_a, FR_QUANTITY_CURRENT, 1);
          g_autofree char *allowed = fr_say_amount (say, load.allowed_a, FR_QUANTITY_CURRENT, 1);

          words->sentence = g_strdup_printf (_ ("Leave the %s off on this circuit."), name);
          words->reason = g_strdup_printf (_ ("It would make %s on %s, where %s is the most for hours on "
                                              "end. Use another circuit or less power."),
                                           used, kit->circuit_name, allowed);
          return;
        }
      words->sentence = g_strdup (_ ("No cooker is chosen for tonight."));
      words->reason = g_strdup (_ ("Choose one."));
      return;
    }
  words->sentence = g_strdup (_ ("There is no cooker yet."));
  words->reason = g_strdup (_ ("Describe one and its pan under Kit and Prices."));
}

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
      say_no_kit (words, input, say);
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
      if (plan->needs_start_utc != G_MININT64 && plan->needs_start_utc >= input->now_utc)
        {
          g_autofree char *start = fr_say_when (say, plan->needs_start_utc, input->start_utc);

          words->reason = g_strdup_printf (_ ("Switch on at %s and the pan alone is done in time."), start);
        }
      else if (plan->needs_start_utc != G_MININT64)
        {
          gint64 end_utc = input->start_utc + (input->off_by_utc - plan->needs_start_utc);
          g_autofree char *end = fr_say_when (say, end_utc + 299 - (end_utc + 299) % 300, input->start_utc);

          words->reason
              = g_strdup_printf (_ ("Allow it until %s, fill it lower, or use a stronger cooker."), end);
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
      say_fault (words, plan, name, say);
    }
}
