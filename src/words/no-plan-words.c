/* Why there is no plan tonight, and what would make one: a sentence and its remedy for each status. */
#include "words/plan-words-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "domain/maths/circuit.h"
#include "words/entry-words.h"

/* What a person calls the members that can be at fault, how they are written, and where they stand. */
static const struct
{
  const char *member;
  const char *what;
  FrQuantityKind kind;
  gboolean of_kit;
  gsize offset;
} faults[] = {
#define OF_EVENING(m) FALSE, G_STRUCT_OFFSET (FrPlanInput, m)
#define OF_KIT(m) TRUE, G_STRUCT_OFFSET (FrPlanKit, m)
  { "sap_l", N_ ("the amount of sap"), FR_QUANTITY_VOLUME, OF_EVENING (sap_l) },
  { "sap_brix", N_ ("the sweetness of the sap"), FR_QUANTITY_SWEETNESS, OF_EVENING (sap_brix) },
  { "sap_c", N_ ("the temperature of the sap"), FR_QUANTITY_TEMPERATURE, OF_EVENING (sap_c) },
  { "max_brix", N_ ("how thick it may end"), FR_QUANTITY_SWEETNESS, OF_EVENING (max_brix) },
  { "air_c", N_ ("the air at the pan"), FR_QUANTITY_TEMPERATURE, OF_EVENING (air_c) },
  { "air_low_c", N_ ("the night’s low"), FR_QUANTITY_TEMPERATURE, OF_EVENING (air_low_c) },
  { "altitude_m", N_ ("the altitude"), FR_QUANTITY_ALTITUDE, OF_EVENING (altitude_m) },
  { "water_boils_c", N_ ("what water boils at today"), FR_QUANTITY_TEMPERATURE, OF_EVENING (water_boils_c) },
  { "syrup_brix", N_ ("what counts as syrup"), FR_QUANTITY_SWEETNESS, OF_EVENING (syrup_brix) },
  { "jar_l", N_ ("the size of a jar"), FR_QUANTITY_VOLUME, OF_EVENING (jar_l) },
  { "hold_l", N_ ("the level that is held"), FR_QUANTITY_VOLUME, OF_KIT (hold_l) },
  { "cutoff_l", N_ ("the cut-off level"), FR_QUANTITY_VOLUME, OF_KIT (cutoff_l) },
  { "bucket_l", N_ ("the size of the bucket"), FR_QUANTITY_VOLUME, OF_KIT (bucket_l) },
  { "rest_l", N_ ("what is left from last night"), FR_QUANTITY_VOLUME, OF_KIT (rest_l) },
  { "rest_brix", N_ ("the sweetness of what is left from last night"), FR_QUANTITY_SWEETNESS,
    OF_KIT (rest_brix) },
  { "rest_c", N_ ("the temperature of what is left from last night"), FR_QUANTITY_TEMPERATURE,
    OF_KIT (rest_c) },
  { "start_c", N_ ("the temperature in the pan"), FR_QUANTITY_TEMPERATURE, OF_KIT (rest_c) },
  { "power_w", N_ ("the power"), FR_QUANTITY_POWER, OF_KIT (power_w) },
  { "heat_ratio", N_ ("the part of the power that heats"), FR_QUANTITY_RATIO, OF_KIT (heat_ratio) },
  { "reflux_ratio", N_ ("the part of the steam that drips back"), FR_QUANTITY_RATIO, OF_KIT (reflux_ratio) },
  { "wall_w_per_k", N_ ("the loss through the wall"), FR_QUANTITY_LOSS, OF_KIT (wall_w_per_k) },
#undef OF_EVENING
#undef OF_KIT
};

static double
fault_value (gsize i, const FrPlan *plan, const FrPlanInput *input)
{
  if (!faults[i].of_kit)
    return G_STRUCT_MEMBER (double, input, faults[i].offset);
  if (plan->fault_kit >= input->n_kits)
    return NAN;
  return G_STRUCT_MEMBER (double, &input->kits[plan->fault_kit], faults[i].offset);
}

char *
fr_plan_fault_sentence (const FrPlan *plan, const FrPlanInput *input, const FrSay *say)
{
  if ((plan->status != FR_PLAN_BAD_INPUT && plan->status != FR_PLAN_BAD_KIT) || isnan (plan->fault_max))
    return NULL;
  for (gsize i = 0; i < G_N_ELEMENTS (faults); i++)
    if (strcmp (faults[i].member, plan->fault) == 0)
      return fr_amount_sentence (plan->fault, fault_value (i, plan, input), plan->fault_min, plan->fault_max,
                                 faults[i].kind, &say->units);
  return NULL;
}

static void
say_fault (FrPlanWords *words, const FrPlan *plan, const FrPlanInput *input, const char *name,
           const FrSay *say)
{
  const char *what = plan->fault;
  gboolean missing = FALSE;

  if (isnan (plan->fault_max))
    {
      words->sentence = g_strdup_printf (_ ("Look at the pan of the %s."), name);
      words->reason = g_strdup (_ ("Its dimensions do not make a pan; they are under Kit and Prices."));
      return;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (faults); i++)
    if (strcmp (faults[i].member, plan->fault) == 0)
      {
        what = _ (faults[i].what);
        missing = isnan (fault_value (i, plan, input));
      }
  if (missing && g_str_has_prefix (plan->fault, "rest_"))
    words->sentence = g_strdup_printf (_ ("Enter %s."), what);
  else if (plan->status == FR_PLAN_BAD_KIT)
    words->sentence = g_strdup_printf (_ ("Look at the %s: %s."), name, what);
  else
    words->sentence = g_strdup_printf (missing ? _ ("Enter %s.") : _ ("Look at %s."), what);
  words->reason = fr_plan_fault_sentence (plan, input, say);
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
      words->reason = g_strdup (_ ("Turn one on under Kit."));
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
      say_fault (words, plan, input, name, say);
    }
}

gboolean
fr_plan_words_wait (const FrPlan *plan)
{
  return plan->status == FR_PLAN_NO_SAP || plan->status == FR_PLAN_TOO_LITTLE;
}

void
fr_plan_words_add_ahead (FrPlanWords *words, const FrPlan *plan, const char *ahead_markup)
{
  char **text = fr_plan_words_wait (plan) ? &words->sentence : &words->range;
  g_autofree char *before = *text, *plain = fr_say_plain (ahead_markup);

  *text = before != NULL ? g_strconcat (before, " ", text == &words->sentence ? ahead_markup : plain, NULL) : NULL;
}
