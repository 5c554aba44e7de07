/* The gap is rounded up, so that "at most" stays true. */
#include "words/round-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define SHORT_M 20 /* below, a tenth is said */
#define MUCH 20    /* of the shown unit of volume; from there on, no tenth */

static char *
say_walk (double walk_m, const FrSay *say)
{
  return fr_say_amount (say, walk_m, FR_QUANTITY_DISTANCE, walk_m < SHORT_M ? 1 : 0);
}

static char *
say_litres (double litres_l, const FrSay *say)
{
  return fr_say_amount (say, litres_l, FR_QUANTITY_VOLUME,
                        fr_quantity_to_shown (litres_l, FR_QUANTITY_VOLUME, &say->units) < MUCH ? -1 : 0);
}

char *
fr_round_sentence (const FrRound *round, const FrSay *say)
{
  g_autofree char *walk = say_walk (round->walk_m, say), *litres = NULL;
  double litres_l = 0;

  if (round->n_trips == 0)
    return g_strdup (_ ("There is nowhere to go."));
  for (guint i = 0; i < round->n_trips; i++)
    litres_l += round->trips[i].litres_l;
  if (litres_l <= 0)
    return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "Walk %s in %u trip.", "Walk %s in %u trips.", round->n_trips), walk,
        round->n_trips);
  litres = say_litres (litres_l, say);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Walk %s in %u trip; carry %s.",
                                       "Walk %s in %u trips; carry %s.", round->n_trips),
                          walk, round->n_trips, litres);
}

char *
fr_round_proof (const FrRound *round, const FrSay *say)
{
  g_autofree char *gap = NULL;

  if (round->n_trips == 0)
    return NULL;
  if (round->is_exact)
    return g_strdup (_ ("No order is shorter."));
  gap = fr_say_amount (say, ceil (round->gap_ratio * 1000) / 1000, FR_QUANTITY_RATIO, 1);
  return g_strdup_printf (_ ("At most %s longer than the shortest there can be."), gap);
}

char *
fr_round_carry (double carry_l_m, const FrSay *say)
{
  const double shown = carry_l_m * fr_quantity_to_shown (1, FR_QUANTITY_VOLUME, &say->units)
                       * fr_quantity_to_shown (1, FR_QUANTITY_DISTANCE, &say->units);
  g_autofree char *number = fr_say_number (say, shown, 0);

  if (say->units.system == FR_SYSTEM_METRIC)
    return g_strdup_printf (_ ("%s litre-metres"), number);
  return g_strdup_printf (_ ("%s gallon-feet"), number);
}

char *
fr_round_trip_words (const FrRoundTrip *trip, const FrSay *say)
{
  g_autofree char *walk = say_walk (trip->walk_m, say), *litres = say_litres (trip->litres_l, say);

  if (trip->alone)
    return g_strdup_printf (_ ("%s, %s, a full pail"), walk, litres);
  return g_strdup_printf (_ ("%s, %s"), walk, litres);
}

char *
fr_round_refusal (FrRoundCode code, const char *stop, const FrSay *say)
{
  const char *who = stop != NULL ? stop : _ ("A stop");
  g_autofree char *most = NULL;

  switch (code)
    {
    case FR_ROUND_BAD_START:
      return g_strdup (_ ("The place where the walk starts is not on the plan."));
    case FR_ROUND_BAD_PAIL:
      return g_strdup (_ ("The pail must hold more than nothing."));
    case FR_ROUND_BAD_PLACE:
      most = fr_say_amount (say, FR_ROUND_AWAY_MAX_M, FR_QUANTITY_DISTANCE, 0);
      return g_strdup_printf (_ ("%s has no place on the plan within %s of the start."), who, most);
    case FR_ROUND_BAD_LITRES:
      most = fr_say_amount (say, FR_ROUND_LITRES_MAX_L, FR_QUANTITY_VOLUME, 0);
      return g_strdup_printf (_ ("How much there is to fetch at %s must be known, and at most %s."),
                              stop != NULL ? stop : _ ("a stop"), most);
    case FR_ROUND_TOO_MANY_STOPS:
      return g_strdup_printf (_ ("A round has at most %d stops."), FR_ROUND_STOPS_MAX);
    case FR_ROUND_TOO_MANY_TRIPS:
      return g_strdup_printf (_ ("With so small a pail %s would take too many trips."),
                              stop != NULL ? stop : _ ("a stop"));
    case FR_ROUND_OK:
    case FR_N_ROUND_CODES:
    default:
      return NULL;
    }
}
