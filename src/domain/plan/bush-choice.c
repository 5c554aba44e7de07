/* The tapping plan of the bush: from its trees and limits to maths/tap-choice.h and back.
 *
 * A tree may be chosen when the guideline gives it a tap. One that must be tapped is, with a single tap where
 * the guideline gives it none; only a dead tree and one whose owner refused are left out all the same. Taps
 * that are set already do not bind the plan: it is the season's plan, and what came of it stands beside it.
 */
#include "domain/maths/tap-choice.h"
#include "domain/plan/bush-private.h"

#include <math.h>
#include <stdlib.h>

#define ROUNDING 1e-9
#define CURVE_MORE 5 /* the curve goes half as far again as the buckets, and at least so much further */
#define CURVE_MAX 2000
#define CURVE_POINTS 100

/* --- what there is to choose from --- */

static gboolean
is_must (const FrBushTree *row)
{
  return g_strcmp0 (row->tree->choice, "must") == 0 && g_strcmp0 (row->tree->health, "dead") != 0
         && !(row->reasons & FR_TREE_REFUSED);
}

static guint
most_taps (const FrBushTree *row)
{
  const guint allowed = row->taps_max > 0 ? (guint)row->taps_max : 0;

  return MIN (MAX (allowed, is_must (row) ? 1 : 0), FR_TAP_CHOICE_TAPS_MAX);
}

static double
or_else (double value, double otherwise)
{
  return isnan (value) ? otherwise : value;
}

static FrTapLimits
limits_of (const FrBush *bush)
{
  const FrTapping *tapping = bush->book.tapping;
  FrTapLimits limits
      = { 0, FR_TAP_CHOICE_NO_LIMIT, NAN, fr_bush_season_days (bush), fr_bush_peak_ratio (bush) };

  if (tapping == NULL)
    return limits;
  limits.buckets = (guint)or_else (tapping->buckets.value, 0);
  if (!isnan (tapping->max_trees.value))
    limits.trees_max = (guint)tapping->max_trees.value;
  limits.boil_l_per_day = tapping->peak_boil_l.value;
  return limits;
}

typedef struct
{
  guint row;
  gboolean must;
  double sugar_kg;
} Candidate;

static gint
best_first (gconstpointer a, gconstpointer b)
{
  const Candidate *one = a, *two = b;

  if (one->must != two->must)
    return one->must ? -1 : 1;
  if (one->sugar_kg != two->sugar_kg)
    return one->sugar_kg < two->sugar_kg ? 1 : -1;
  return (one->row > two->row) - (one->row < two->row);
}

static gint
by_row (gconstpointer a, gconstpointer b)
{
  const Candidate *one = a, *two = b;

  return (one->row > two->row) - (one->row < two->row);
}

static void
offer_init (FrBushOffer *offer, const FrBush *bush)
{
  g_autofree Candidate *candidates = g_new (Candidate, bush->n_rows + 1);

  *offer = (FrBushOffer){ bush, 0, NULL, NULL, limits_of (bush) };
  for (guint i = 0; i < bush->n_rows; i++)
    if (most_taps (&bush->rows[i]) > 0)
      candidates[offer->n++]
          = (Candidate){ i, is_must (&bush->rows[i]),
                         fr_sap_sugar_kg (bush->rows[i].expected_l, bush->rows[i].expected_brix) };
  /* More than can be chosen among: those that give least are not chosen anyway. */
  if (offer->n > FR_TAP_CHOICE_TREES_MAX)
    {
      qsort (candidates, offer->n, sizeof *candidates, best_first);
      offer->n = FR_TAP_CHOICE_TREES_MAX;
      qsort (candidates, offer->n, sizeof *candidates, by_row);
    }
  offer->rows = g_new (guint, offer->n + 1);
  offer->trees = g_new0 (FrTapTree, offer->n + 1);
  for (guint i = 0; i < offer->n; i++)
    {
      const FrBushTree *row = &bush->rows[candidates[i].row];

      offer->rows[i] = candidates[i].row;
      offer->trees[i] = (FrTapTree){ .taps_max = most_taps (row),
                                     .litres_per_tap_l = fr_bush_per_tap_l (bush, candidates[i].row),
                                     .brix = row->expected_brix,
                                     .must = candidates[i].must };
    }
}

static void
offer_clear (FrBushOffer *offer)
{
  g_free (offer->rows);
  g_free (offer->trees);
}

/* --- the plan --- */

/* Sugar against buckets. Where there are very many, every so manieth is worked out and the rest lies on
 * straight lines between. */
static void
fill_curve (FrBushPlan *plan, const FrBushOffer *offer, guint musts)
{
  g_autofree guint *buckets = NULL;
  g_autofree double *sugar_kg = NULL;
  guint taps = 0, last, step, n = 0;

  for (guint i = 0; i < offer->n; i++)
    taps += offer->trees[i].taps_max;
  last = MIN (MIN (taps, CURVE_MAX), MAX (offer->limits.buckets * 3 / 2, offer->limits.buckets + CURVE_MORE));
  step = last / CURVE_POINTS + 1;
  buckets = g_new (guint, last + 1);
  sugar_kg = g_new (double, last + 1);
  for (guint i = musts; i < last; i += step)
    buckets[n++] = i;
  buckets[n++] = last;
  fr_tap_choice_curve (offer->trees, offer->n, &offer->limits, buckets, n, sugar_kg, NULL);
  g_array_set_size (plan->curve, last + 1);
  for (guint i = 0; i <= buckets[0]; i++)
    g_array_index (plan->curve, double, i) = i < buckets[0] ? NAN : sugar_kg[0];
  for (guint k = 1; k < n; k++)
    for (guint i = buckets[k - 1] + 1; i <= buckets[k]; i++)
      g_array_index (plan->curve, double, i)
          = sugar_kg[k]
            - (sugar_kg[k] - sugar_kg[k - 1]) * (buckets[k] - i) / (double)(buckets[k] - buckets[k - 1]);
}

static void
fill_plan (FrBushPlan *plan, const FrBushOffer *offer, const FrTapChoice *choice, const FrBushRound *round)
{
  for (guint i = 0; i < offer->n; i++)
    g_array_index (plan->taps, guint, offer->rows[i]) = choice->taps[i];
  plan->n_taps = choice->buckets_used;
  plan->n_trees = choice->trees_used;
  plan->sugar_kg = choice->sugar_kg;
  plan->volume_l = choice->litres_l;
  plan->peak_l = choice->peak_l;
  plan->next_bucket_kg = choice->next_bucket_kg;
  plan->kitchen_limits = choice->kitchen_limits;
  if (choice->kitchen_limits_from != FR_TAP_CHOICE_NO_LIMIT
      && choice->kitchen_limits_from <= offer->limits.buckets)
    plan->kitchen_from_buckets = choice->kitchen_limits_from;
  plan->is_exact = choice->is_exact && !plan->walk_limits;
  plan->walk_m = round != NULL ? round->walk_m : NAN;
  plan->n_unplaced = round != NULL ? round->n_unplaced : 0;
  fr_bush_sugar_span (offer->bush, (const guint *)plan->taps->data, &plan->sugar_low_kg,
                      &plan->sugar_high_kg);
}

static FrBushPlanCode
code_from (FrTapChoiceCode code)
{
  switch (code)
    {
    case FR_TAP_CHOICE_OK:
      return FR_BUSH_PLAN_OK;
    case FR_TAP_CHOICE_TOO_FEW_BUCKETS:
    case FR_TAP_CHOICE_TOO_FEW_TREES:
    case FR_TAP_CHOICE_KITCHEN_TOO_SMALL:
      return FR_BUSH_PLAN_TOO_MANY_MUST;
    case FR_TAP_CHOICE_MUST_AND_NEVER:
    case FR_TAP_CHOICE_MUST_WITHOUT_TAPS:
    case FR_TAP_CHOICE_BAD_INPUT:
    case FR_N_TAP_CHOICE_CODES:
    default:
      g_return_val_if_reached (FR_BUSH_PLAN_NO_TREES);
    }
}

static void
choose (FrBushPlan *plan, FrBushOffer *offer)
{
  const FrTapping *tapping = offer->bush->book.tapping;
  const double walk_max_m = tapping != NULL ? tapping->walk_m.value : NAN;
  FrTapChoice choice = { 0 };
  FrBushRound *round = NULL;
  FrTapChoiceCode code = fr_tap_choice (offer->trees, offer->n, &offer->limits, &choice);

  plan->musts = choice.musts;
  if (code == FR_TAP_CHOICE_OK)
    {
      plan->bound_kg = choice.bound_kg;
      fill_curve (plan, offer, choice.musts);
      round = fr_bush_offer_round (offer, choice.taps);
      if (round != NULL && round->walk_m > walk_max_m * (1 + ROUNDING))
        {
          plan->walk_limits = TRUE;
          code = fr_bush_keep_walk (offer, &choice, &round, walk_max_m);
        }
    }
  plan->code = code_from (code);
  if (plan->code == FR_BUSH_PLAN_OK)
    fill_plan (plan, offer, &choice, round);
  fr_tap_choice_clear (&choice);
  fr_bush_round_free (round);
}

FrBushPlan *
fr_bush_plan (const FrBush *bush)
{
  FrBushPlan *plan = g_new0 (FrBushPlan, 1);
  FrBushOffer offer;

  g_return_val_if_fail (bush != NULL, plan);

  plan->sugar_kg = plan->sugar_low_kg = plan->sugar_high_kg = plan->volume_l = NAN;
  plan->peak_l = plan->next_bucket_kg = plan->walk_m = plan->bound_kg = NAN;
  plan->taps = g_array_new (FALSE, TRUE, sizeof (guint));
  g_array_set_size (plan->taps, bush->n_rows);
  plan->curve = g_array_new (FALSE, TRUE, sizeof (double));
  offer_init (&offer, bush);
  if (offer.limits.buckets == 0)
    plan->code = FR_BUSH_PLAN_NO_BUCKETS;
  else if (offer.n == 0)
    plan->code = FR_BUSH_PLAN_NO_TREES;
  else
    choose (plan, &offer);
  offer_clear (&offer);
  return plan;
}

void
fr_bush_plan_free (FrBushPlan *plan)
{
  if (plan == NULL)
    return;
  g_array_unref (plan->taps);
  g_array_unref (plan->curve);
  g_free (plan);
}
