/* Keeping the tapping plan to the longest walk.
 *
 * The longest walk is kept to by a heuristic, since choice and round depend on each other: while the round
 * through the chosen trees is too long, the tree with the least sugar for the metres it costs is put aside
 * and the choice is made again without it; at the end those put aside are tried once more, the best first.
 * Nothing proves that no better choice keeps to the walk, so the plan then says that it is not exact; its
 * bound is that without the walk and still holds. The round is that of an average day. */
#include "domain/plan/bush-private.h"

#include <math.h>
#include <stdlib.h>

#define ROUNDING 1e-9
#define OTHERS_STEPS 20 /* choices made again with other trees for those put aside */
#define PUT_BACK_MAX 20 /* trees tried once more; fewer where each try takes long */

FrBushRound *
fr_bush_offer_round (const FrBushOffer *offer, const guint *taps)
{
  g_autofree guint *by_rows = g_new0 (guint, offer->bush->n_rows + 1);

  for (guint i = 0; i < offer->n; i++)
    by_rows[offer->rows[i]] = taps[i];
  return fr_bush_round_through (offer->bush, by_rows, 1);
}

static double
sugar_of (const FrBushOffer *offer, guint i, guint taps)
{
  double litres_l = 0;

  for (guint k = 0; k < taps; k++)
    litres_l += offer->trees[i].litres_per_tap_l[k];
  return fr_sap_sugar_kg (litres_l, offer->trees[i].brix);
}

/* Marks, and takes out of the round, what brings least for its metres, until the round is short enough or
 * only trees that must be tapped are left. How many that were. */
static guint
put_aside (FrBushOffer *offer, FrBushRound *round, guint *taps, double walk_max_m)
{
  g_autofree double *saved_m = g_new (double, offer->bush->n_rows + 1);
  double walk_m = round->walk_m;
  guint n = 0;

  while (walk_m > walk_max_m * (1 + ROUNDING))
    {
      guint worst = offer->n;
      double worst_kg_per_m = INFINITY;

      fr_bush_round_savings (offer->bush, round, saved_m);
      for (guint i = 0; i < offer->n; i++)
        {
          const double kg_per_m = taps[i] > 0 && saved_m[offer->rows[i]] > 0
                                      ? sugar_of (offer, i, taps[i]) / saved_m[offer->rows[i]]
                                      : INFINITY;

          if (!offer->trees[i].must && kg_per_m < worst_kg_per_m)
            {
              worst = i;
              worst_kg_per_m = kg_per_m;
            }
        }
      if (worst == offer->n)
        break;
      n++;
      walk_m -= saved_m[offer->rows[worst]];
      offer->trees[worst].never = TRUE;
      taps[worst] = 0;
      fr_bush_round_remove (round, offer->bush->rows[offer->rows[worst]].id);
    }
  return n;
}

typedef struct
{
  guint index;
  double kg_per_m;
} Aside;

static gint
best_per_metre (gconstpointer a, gconstpointer b)
{
  const Aside *one = a, *two = b;

  if (one->kg_per_m != two->kg_per_m)
    return one->kg_per_m < two->kg_per_m ? 1 : -1;
  return (one->index > two->index) - (one->index < two->index);
}

/* Whether a choice keeps to the walk; its round is handed out. */
static gboolean
is_short (const FrBushOffer *offer, const FrTapChoice *choice, double walk_max_m, FrBushRound **round_out)
{
  *round_out = fr_bush_offer_round (offer, choice->taps);
  return *round_out == NULL || (*round_out)->walk_m <= walk_max_m * (1 + ROUNDING);
}

/* Tries those put aside once more where they fit, the one with the most sugar for its metres first. */
static void
put_back (FrBushOffer *offer, FrTapChoice *choice, FrBushRound **round, double walk_max_m)
{
  g_autofree Aside *aside = g_new (Aside, offer->n + 1);
  guint n = 0;

  for (guint i = 0; i < offer->n; i++)
    if (offer->trees[i].never)
      {
        FrTreeWorth worth;
        double more_m;

        if (*round == NULL)
          more_m = NAN;
        else
          more_m = fr_bush_worth_in (offer->bush, *round, offer->bush->rows[offer->rows[i]].id, 1, &worth)
                       ? worth.detour_m
                       : NAN;
        if (!isnan (more_m) && (*round)->walk_m + more_m <= walk_max_m)
          aside[n++] = (Aside){ i, sugar_of (offer, i, 1) / MAX (more_m, 1e-3) };
      }
  qsort (aside, n, sizeof *aside, best_per_metre);
  for (guint k = 0; k < MIN (n, CLAMP (2000 / offer->n, 2, PUT_BACK_MAX)); k++)
    {
      FrTapChoice other = { 0 };
      FrBushRound *other_round = NULL;

      offer->trees[aside[k].index].never = FALSE;
      if (fr_tap_choice (offer->trees, offer->n, &offer->limits, &other) == FR_TAP_CHOICE_OK
          && other.sugar_kg > choice->sugar_kg * (1 + ROUNDING)
          && is_short (offer, &other, walk_max_m, &other_round))
        {
          const FrTapChoice old = *choice;

          *choice = other;
          other = old;
          fr_bush_round_free (g_steal_pointer (round));
          *round = g_steal_pointer (&other_round);
        }
      else
        offer->trees[aside[k].index].never = TRUE;
      fr_bush_round_free (other_round);
      fr_tap_choice_clear (&other);
    }
}

/* Makes the choice again until its round is short enough. After a while no other trees may come in for those
 * put aside, so that it comes to an end. */
FrTapChoiceCode
fr_bush_keep_walk (FrBushOffer *offer, FrTapChoice *choice, FrBushRound **round, double walk_max_m)
{
  for (guint step = 0;; step++)
    {
      g_autofree guint *taps = g_memdup2 (choice->taps, offer->n * sizeof *taps);
      FrTapChoiceCode code;

      /* Only what must be tapped is left: it stands, however long. */
      if (put_aside (offer, *round, taps, walk_max_m) == 0)
        return FR_TAP_CHOICE_OK;
      for (guint i = 0; step >= OTHERS_STEPS && i < offer->n; i++)
        offer->trees[i].never = taps[i] == 0;
      fr_tap_choice_clear (choice);
      code = fr_tap_choice (offer->trees, offer->n, &offer->limits, choice);
      fr_bush_round_free (g_steal_pointer (round));
      if (code != FR_TAP_CHOICE_OK)
        return code;
      if (is_short (offer, choice, walk_max_m, round))
        {
          put_back (offer, choice, round, walk_max_m);
          return FR_TAP_CHOICE_OK;
        }
    }
}
