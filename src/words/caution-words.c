/* Cautions: each a fact and its remedy. They warn at the point of decision and defer to local rules and
 * licensed practice; none of them tells anyone that it is safe to leave a boil alone. */
#include "words/plan-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

char *
fr_caution_sentence (const FrCaution *caution, const FrPlanInput *input, const FrSay *say)
{
  const FrPlanKit *kit = caution->kit < input->n_kits ? &input->kits[caution->kit] : NULL;
  const char *name = kit != NULL ? kit->name : "",
             *circuit = kit != NULL && kit->circuit_name[0] != '\0' ? kit->circuit_name : _ ("its circuit");
  g_autofree char *a_amps = fr_say_amount (say, caution->a, FR_QUANTITY_CURRENT, 1);
  g_autofree char *b_amps = fr_say_amount (say, caution->b, FR_QUANTITY_CURRENT, 1);
  g_autofree char *text = NULL, *other = NULL;

  switch (caution->code)
    {
    case FR_CAUTION_CIRCUIT_OVER:
      return g_strdup_printf (
          _ ("%s on %s, where %s is the most for hours on end. Use another circuit or less power; an "
             "electrician can say what the wiring bears."),
          a_amps, circuit, b_amps);
    case FR_CAUTION_LEFT_OFF:
      return g_strdup_printf (_ ("The %s stays off: on %s it would make %s, where %s is the most for hours "
                                 "on end. It needs a circuit that bears it."),
                              name, circuit, a_amps, b_amps);
    case FR_CAUTION_CIRCUIT_NEAR:
      return g_strdup_printf (_ ("%s of %s on %s. Nothing else may run on it."), a_amps, b_amps, circuit);
    case FR_CAUTION_BREAKER_UNKNOWN:
      return g_strdup_printf (
          _ ("The circuit of the %s is not known. Look at its breaker: hours of load may use 80 %% of it."),
          name);
    case FR_CAUTION_NO_GFCI:
      return g_strdup_printf (_ ("%s has no ground-fault protection. Outdoors and in the wet it needs one."),
                              circuit);
    case FR_CAUTION_FLAME:
      return g_strdup_printf (
          _ ("%s burns outdoors only, never in a house, shed or garage: carbon monoxide kills unnoticed."),
          input->fuel_name);
    case FR_CAUTION_NO_CUTOFF:
      return g_strdup_printf (
          _ ("Nothing cuts the power of the %s. Somebody has to stand by before the bucket is dry."), name);
    case FR_CAUTION_RUNS_OVER:
      text = fr_say_clock (say, input->start_utc + (gint64)caution->a);
      other = fr_say_clock (say, input->start_utc + (gint64)caution->b);
      return g_strdup_printf (_ ("If the power trips at %s the feed of the %s runs on and the pan runs over "
                                 "at %s. Use a feed that "
                                 "stops by itself."),
                              text, name, other);
    case FR_CAUTION_RIM:
      text = fr_say_clock (say, input->start_utc + (gint64)caution->a);
      return g_strdup_printf (_ ("The %s would reach its rim at %s. Fill it lower."), name, text);
    case FR_CAUTION_MIN_LEVEL:
      text = fr_say_amount (say, caution->a, FR_QUANTITY_VOLUME, 2);
      other = fr_say_amount (say, caution->b, FR_QUANTITY_VOLUME, 2);
      return g_strdup_printf (
          _ ("The cut-off of the %s at %s leaves the element bare below %s. Raise the cut-off."), name, text,
          other);
    case FR_CAUTION_SOLDER:
      return g_strdup_printf (
          _ ("The %s may hold lead: old solder, galvanised or unknown metal. Boil in food-grade stainless."),
          kit->pan_name);
    case FR_CAUTION_STEAM:
      text = fr_say_amount (say, caution->a, FR_QUANTITY_MASS, 0);
      return g_strdup_printf (
          _ ("%s of steam goes into the room of the %s. Extract it to the outside or boil outdoors."), text,
          name);
    case FR_CAUTION_FOAM:
      text = fr_say_amount (say, caution->a, FR_QUANTITY_LENGTH, 1);
      other = fr_say_amount (say, caution->b, FR_QUANTITY_LENGTH, 1);
      return g_strdup_printf (
          _ ("Only %s free above the sap in the %s, where foam wants %s. Hold the level lower."), text, name,
          other);
    case FR_CAUTION_FROST:
      text = fr_say_amount (say, caution->a, FR_QUANTITY_TEMPERATURE, 0);
      return g_strdup_printf (_ ("%s tonight. Wrap the feed line or it freezes and the pan runs dry."), text);
    case FR_CAUTION_AGE:
      text = fr_say_span (caution->a);
      return g_strdup_printf (
          _ ("The oldest sap is %s past its time. Smell it; pour away what is cloudy or sour."), text);
    case FR_CAUTION_THICK:
      text = fr_say_amount (say, caution->a, FR_QUANTITY_SWEETNESS, 0);
      return g_strdup_printf (
          _ ("%s at the end is near syrup, which scorches in minutes. Be there at the cut-off."), text);
    case FR_CAUTION_UNCALIBRATED:
      return g_strdup_printf (_ ("How much heat the %s gives was never measured: its times may be 15 %% off. "
                                 "Test it with water for ten minutes."),
                              name);
    case FR_CAUTION_ATTEND:
      /* Within a day of switching on the clock alone says it. */
      text = (gint64)caution->a - input->start_utc < 86400
                 ? fr_say_clock (say, (gint64)caution->a)
                 : fr_say_when (say, (gint64)caution->a, input->start_utc);
      return g_strdup_printf (
          _ ("Somebody stays within call while it boils, with a smoke alarm that works. Look next at %s."),
          text);
    case FR_CAUTION_STEAM_OK:
      return g_strdup (_ ("Steam goes outdoors, no flame."));
    default:
      g_return_val_if_reached (NULL);
    }
}
