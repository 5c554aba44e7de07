/* The choice of trees to tap: input checked, trees in whole units, the table or the search asked, the answer
 * in litres and kilograms. Sugar of a tap = litres × density at 20 °C × °Bx / 100. Exact to a part in 1e9,
 * see tap-choice-search.c for when it says that it is not; litres over the kitchen by a part in 1e10 fit.
 */
#include "domain/maths/tap-choice-private.h"

#include "domain/maths/sucrose.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define LITRES_MAX 1e6 /* of one tap in a season */

static const char *const codes[FR_N_TAP_CHOICE_CODES] = {
  "ok",       "must_and_never", "must_without_taps", "too_few_buckets", "too_few_trees", "kitchen_too_small",
  "bad_input"
};

const char *
fr_tap_choice_code (FrTapChoiceCode code)
{
  g_return_val_if_fail ((guint)code < FR_N_TAP_CHOICE_CODES, NULL);
  return codes[code];
}

double
fr_sap_sugar_kg (double litres_l, double brix)
{
  return litres_l * fr_sucrose_density_kg_m3 (brix, 20) * brix * 1e-5;
}

void
fr_tap_choice_clear (FrTapChoice *choice)
{
  g_clear_pointer (&choice->taps, g_free);
}

static void
trees_clear (FrChoiceTrees *trees)
{
  g_free (trees->which);
  g_free (trees->taps);
  g_free (trees->least);
  g_free (trees->first);
  g_free (trees->sugar);
  g_free (trees->litres);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FrChoiceTrees, trees_clear)

static gboolean
in_range (double value, double lo, double hi)
{
  return value >= lo && value <= hi; /* FALSE for NAN */
}

static FrTapChoiceCode
check_tree (const FrTapTree *tree)
{
  if (tree->must && tree->never)
    return FR_TAP_CHOICE_MUST_AND_NEVER;
  if (tree->must && tree->taps_max == 0)
    return FR_TAP_CHOICE_MUST_WITHOUT_TAPS;
  if (tree->never || tree->taps_max == 0)
    return FR_TAP_CHOICE_OK;
  if (tree->taps_max > FR_TAP_CHOICE_TAPS_MAX || tree->litres_per_tap_l == NULL
      || !in_range (tree->brix, 0, FR_BRIX_MAX))
    return FR_TAP_CHOICE_BAD_INPUT;
  for (guint j = 0; j < tree->taps_max; j++)
    if (!in_range (tree->litres_per_tap_l[j], 0, LITRES_MAX))
      return FR_TAP_CHOICE_BAD_INPUT;
  return FR_TAP_CHOICE_OK;
}

/* Litres of a season that the kitchen takes, INFINITY without a limit; NAN when the limits make no sense. */
static double
season_most_l (const FrTapLimits *limits)
{
  if (isnan (limits->boil_l_per_day))
    return INFINITY;
  if (!in_range (limits->boil_l_per_day, 0, 1e9) || !in_range (limits->season_days, 1e-3, 1e6)
      || !in_range (limits->peak_ratio, 1e-3, 1e6))
    return NAN;
  return limits->boil_l_per_day * limits->season_days / limits->peak_ratio;
}

/* A power of two of which @sum is under 2^60. */
static double
unit_for (double sum)
{
  int exponent;

  if (!(sum > 0))
    return 1;
  frexp (sum, &exponent);
  return ldexp (1.0, exponent - 60);
}

/* Whether all the litres are whole thousandths, as people write them. */
static gboolean
is_written (const FrTapTree *trees, const FrChoiceTrees *all)
{
  for (guint i = 0; i < all->n; i++)
    for (guint j = 0; j < all->taps[i]; j++)
      {
        double thousandths = trees[all->which[i]].litres_per_tap_l[j] * 1000;

        if (fabs (thousandths - round (thousandths)) > 1e-12 * thousandths)
          return FALSE;
      }
  return TRUE;
}

static gint64
common_step (gint64 a, gint64 b)
{
  while (b != 0)
    {
      gint64 rest = a % b;

      a = b;
      b = rest;
    }
  return a;
}

static void
trees_init (FrChoiceTrees *out, const FrTapTree *trees, guint n_trees)
{
  double litres_l = 0, sugar_kg = 0;
  guint n_entries = 0;

  memset (out, 0, sizeof *out);
  out->which = g_new (guint, n_trees + 1);
  out->taps = g_new (guint, n_trees + 1);
  out->least = g_new (guint, n_trees + 1);
  out->first = g_new (guint, n_trees + 1);
  for (guint i = 0; i < n_trees; i++)
    {
      const FrTapTree *tree = &trees[i];

      if (tree->never || tree->taps_max == 0)
        continue;
      out->which[out->n] = i;
      out->taps[out->n] = tree->taps_max;
      out->least[out->n] = tree->must ? 1 : 0;
      out->first[out->n] = n_entries;
      out->musts += tree->must ? 1 : 0;
      out->taps_in_all += tree->taps_max;
      n_entries += tree->taps_max + 1;
      out->n++;
      for (guint j = 0; j < tree->taps_max; j++)
        {
          litres_l += tree->litres_per_tap_l[j];
          sugar_kg += fr_sap_sugar_kg (tree->litres_per_tap_l[j], tree->brix);
        }
    }
  out->litres_unit_l = is_written (trees, out) ? 1e-3 : unit_for (litres_l);
  out->sugar_unit_kg = unit_for (sugar_kg);
  out->sugar = g_new0 (gint64, n_entries + 1);
  out->litres = g_new0 (gint64, n_entries + 1);
  for (guint i = 0; i < out->n; i++)
    {
      const FrTapTree *tree = &trees[out->which[i]];
      guint at = out->first[i];

      for (guint j = 0; j < tree->taps_max; j++, at++)
        {
          double tap_l = tree->litres_per_tap_l[j];
          gint64 litres = llrint (tap_l / out->litres_unit_l);

          out->litres_step = common_step (out->litres_step, litres);
          out->litres[at + 1] = out->litres[at] + litres;
          out->sugar[at + 1]
              = out->sugar[at] + llrint (fr_sap_sugar_kg (tap_l, tree->brix) / out->sugar_unit_kg);
        }
    }
}

/* One tap on each tree that must be tapped, else none. */
static void
least_plan (const FrChoiceTrees *trees, FrChoicePlan *plan)
{
  memcpy (plan->taps, trees->least, trees->n * sizeof *plan->taps);
  fr_choice_plan_sum (trees, plan);
}

/* The best choice within @limits, from the table when that is within them and by search when not. @plan comes
 * with a choice within the limits. */
static void
choose (const FrChoiceTrees *trees, const FrChoiceTable *table, const FrChoiceLimits *limits, guint effort,
        FrChoicePlan *plan)
{
  g_autofree guint *taps = g_new (guint, trees->n + 1);
  FrChoicePlan free_choice = { .taps = taps };

  fr_choice_table_plan (table, limits->buckets, &free_choice);
  if (free_choice.trees <= limits->trees && free_choice.litres <= limits->litres)
    {
      memcpy (plan->taps, taps, trees->n * sizeof *taps);
      free_choice.taps = plan->taps;
      *plan = free_choice;
    }
  else
    fr_choice_search (trees, limits, effort, plan);
}

/* Takes away taps that bring nothing. */
static void
strip (const FrChoiceTrees *trees, FrChoicePlan *plan)
{
  for (guint i = 0; i < trees->n; i++)
    while (plan->taps[i] > trees->least[i]
           && trees->sugar[trees->first[i] + plan->taps[i]]
                  == trees->sugar[trees->first[i] + plan->taps[i] - 1])
      plan->taps[i]--;
  fr_choice_plan_sum (trees, plan);
}

/* Checks everything; @out and *limits_out are ready to be asked when it returns OK. */
static FrTapChoiceCode
begin (const FrTapTree *trees, guint n_trees, const FrTapLimits *limits, FrChoiceTrees *out,
       FrChoiceLimits *limits_out, FrTapChoice *choice)
{
  double most_l = season_most_l (limits), musts_l = 0;

  choice->tree = n_trees;
  if (isnan (most_l) || n_trees > FR_TAP_CHOICE_TREES_MAX)
    return FR_TAP_CHOICE_BAD_INPUT;
  for (guint i = 0; i < n_trees; i++)
    {
      FrTapChoiceCode code = check_tree (&trees[i]);

      if (code != FR_TAP_CHOICE_OK)
        {
          choice->tree = i;
          return code;
        }
      if (trees[i].must)
        musts_l += trees[i].litres_per_tap_l[0];
    }
  trees_init (out, trees, n_trees);
  choice->musts = out->musts;
  choice->musts_peak_l = musts_l / limits->season_days * limits->peak_ratio;
  *limits_out = (FrChoiceLimits){ MIN (limits->buckets, out->taps_in_all), MIN (limits->trees_max, out->n),
                                  G_MAXINT64 };
  if (isfinite (most_l))
    {
      double most = most_l * (1 + FR_TAP_CHOICE_FITS_RATIO) / out->litres_unit_l;

      /* A kitchen for more than every tap gives is no limit, and the last part of a step cannot be used. */
      if (most < 0x1p61)
        limits_out->litres = (gint64)most;
      if (most < 0x1p61 && out->litres_step > 0)
        limits_out->litres -= limits_out->litres % out->litres_step;
    }
  if (out->musts > limits->buckets)
    return FR_TAP_CHOICE_TOO_FEW_BUCKETS;
  if (out->musts > limits->trees_max)
    return FR_TAP_CHOICE_TOO_FEW_TREES;
  if (musts_l > most_l * (1 + FR_TAP_CHOICE_FITS_RATIO))
    return FR_TAP_CHOICE_KITCHEN_TOO_SMALL;
  return FR_TAP_CHOICE_OK;
}

/* Whether a larger kitchen gives more sugar from @buckets. @known is the best choice within @limits. */
static gboolean
kitchen_limits_at (const FrChoiceTrees *trees, const FrChoiceTable *table, FrChoiceLimits limits,
                   guint buckets, const FrChoicePlan *known, FrChoicePlan *any, FrChoicePlan *with)
{
  FrChoiceLimits any_limits = limits;
  guint all_buckets = limits.buckets;

  limits.buckets = any_limits.buckets = buckets;
  any_limits.litres = G_MAXINT64;
  if (limits.trees >= buckets && fr_choice_table_litres (table, buckets) <= limits.litres)
    return FALSE;
  least_plan (trees, any);
  choose (trees, table, &any_limits, 1, any);
  if (any->litres <= limits.litres)
    return FALSE;
  if (buckets != all_buckets)
    {
      least_plan (trees, with);
      /* A short search will do: it is another with as much sugar that is looked for, and few are. */
      choose (trees, table, &limits, 0, with);
      known = with;
    }
  /* Another choice may have as much sugar in fewer litres. */
  return (double)known->sugar < (double)any->sugar * (1 - FR_TAP_CHOICE_CLOSE_RATIO);
}

static int
compare_descending (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x > y ? -1 : x < y;
}

/* @n amounts, sorted and summed from the largest on. */
static void
sum_largest (gint64 *amounts, guint n)
{
  qsort (amounts, n, sizeof *amounts, compare_descending);
  for (guint i = 1; i < n; i++)
    amounts[i] += amounts[i - 1];
}

/* The least number of buckets where the kitchen limits, one number after another, since more buckets may well
 * need fewer litres. Passed over is what cannot bring so many litres whatever is chosen. */
static guint
kitchen_limits_from (const FrChoiceTrees *trees, const FrChoiceTable *table, const FrChoiceLimits *limits,
                     const FrChoicePlan *known)
{
  g_autofree gint64 *by_tap = g_new0 (gint64, trees->taps_in_all + 1),
                    *by_tree = g_new0 (gint64, trees->n + 1);
  g_autofree guint *any_taps = g_new (guint, trees->n + 1), *with_taps = g_new (guint, trees->n + 1);
  FrChoicePlan any = { .taps = any_taps }, with = { .taps = with_taps };
  guint n = 0;

  if (limits->litres == G_MAXINT64 || limits->trees == 0)
    return FR_TAP_CHOICE_NO_LIMIT;
  for (guint i = 0; i < trees->n; i++)
    {
      const gint64 *litres = trees->litres + trees->first[i];

      by_tree[i] = litres[trees->taps[i]];
      for (guint j = 1; j <= trees->taps[i]; j++)
        by_tap[n++] = litres[j] - litres[j - 1];
    }
  sum_largest (by_tap, n);
  sum_largest (by_tree, trees->n);
  if (by_tree[limits->trees - 1] <= limits->litres)
    return FR_TAP_CHOICE_NO_LIMIT;
  for (guint b = MAX (1, trees->musts); b <= n; b++)
    if (by_tap[b - 1] > limits->litres && kitchen_limits_at (trees, table, *limits, b, known, &any, &with))
      return b;
  return FR_TAP_CHOICE_NO_LIMIT;
}

/* The plan in the caller's terms: sums in litres and kilograms of what was given. */
static void
answer (const FrChoiceTrees *trees, const FrChoicePlan *plan, const FrTapTree *given, guint n_given,
        const FrTapLimits *limits, FrTapChoice *out)
{
  out->taps = g_new0 (guint, n_given + 1);
  for (guint i = 0; i < trees->n; i++)
    {
      const FrTapTree *tree = &given[trees->which[i]];

      out->taps[trees->which[i]] = plan->taps[i];
      for (guint j = 0; j < plan->taps[i]; j++)
        {
          out->litres_l += tree->litres_per_tap_l[j];
          out->sugar_kg += fr_sap_sugar_kg (tree->litres_per_tap_l[j], tree->brix);
        }
    }
  out->peak_l = out->litres_l / limits->season_days * limits->peak_ratio;
  out->trees_used = plan->trees;
  out->buckets_used = plan->buckets;
  out->is_exact = plan->exact;
  out->bound_kg = plan->exact ? out->sugar_kg : MAX (out->sugar_kg, plan->bound_kg);
}

FrTapChoiceCode
fr_tap_choice (const FrTapTree *trees, guint n_trees, const FrTapLimits *limits, FrTapChoice *choice_out)
{
  g_auto (FrChoiceTrees) all = { 0 };
  g_autoptr (FrChoiceTable) table = NULL;
  g_autofree guint *taps = NULL, *next_taps = NULL, *any_taps = NULL, *with_taps = NULL;
  FrChoicePlan plan = { 0 }, next = { 0 }, any = { 0 }, with = { 0 };
  FrChoiceLimits at, at_next;

  memset (choice_out, 0, sizeof *choice_out);
  choice_out->sugar_kg = choice_out->litres_l = choice_out->peak_l = choice_out->bound_kg
      = choice_out->next_bucket_kg = NAN;
  choice_out->kitchen_limits_from = FR_TAP_CHOICE_NO_LIMIT;
  choice_out->code = begin (trees, n_trees, limits, &all, &at, choice_out);
  if (choice_out->code != FR_TAP_CHOICE_OK)
    return choice_out->code;
  table = fr_choice_table_new (&all);
  plan.taps = taps = g_new (guint, all.n + 1);
  next.taps = next_taps = g_new (guint, all.n + 1);
  any.taps = any_taps = g_new (guint, all.n + 1);
  with.taps = with_taps = g_new (guint, all.n + 1);

  least_plan (&all, &plan);
  choose (&all, table, &at, 2, &plan);
  /* The best choice is one of those with a bucket more, so that the difference cannot be negative. */
  next = plan;
  next.taps = next_taps;
  memcpy (next_taps, taps, all.n * sizeof *taps);
  at_next = at;
  if (limits->buckets < all.taps_in_all)
    {
      at_next.buckets++;
      choose (&all, table, &at_next, plan.exact ? 2 : 1, &next);
    }
  choice_out->kitchen_limits = kitchen_limits_at (&all, table, at, at.buckets, &plan, &any, &with);
  choice_out->kitchen_limits_from = kitchen_limits_from (&all, table, &at, &plan);
  choice_out->next_is_exact = plan.exact && next.exact;
  strip (&all, &plan);
  choice_out->sugar_kg = choice_out->litres_l = 0;
  answer (&all, &plan, trees, n_trees, limits, choice_out);
  choice_out->next_bucket_kg = fr_choice_kg (&all, (double)(next.sugar - plan.sugar));
  return FR_TAP_CHOICE_OK;
}

FrTapChoiceCode
fr_tap_choice_curve (const FrTapTree *trees, guint n_trees, const FrTapLimits *limits, const guint *buckets,
                     guint n, double *sugar_kg_out, double *any_kitchen_kg_out)
{
  g_auto (FrChoiceTrees) all = { 0 };
  g_autoptr (FrChoiceTable) table = NULL;
  g_autofree guint *taps = NULL, *any_taps = NULL;
  FrChoicePlan plan = { 0 }, any = { 0 };
  FrTapLimits widest = *limits;
  FrTapChoice unused = { 0 };
  FrTapChoiceCode code;
  FrChoiceLimits at;

  widest.buckets = FR_TAP_CHOICE_NO_LIMIT;
  code = begin (trees, n_trees, &widest, &all, &at, &unused);
  if (code != FR_TAP_CHOICE_OK)
    return code;
  table = fr_choice_table_new (&all);
  plan.taps = taps = g_new (guint, all.n + 1);
  any.taps = any_taps = g_new (guint, all.n + 1);
  least_plan (&all, &plan);
  least_plan (&all, &any);
  for (guint k = 0; k < n; k++)
    {
      FrChoiceLimits any_kitchen;

      g_return_val_if_fail (k == 0 || buckets[k] >= buckets[k - 1], FR_TAP_CHOICE_BAD_INPUT);
      sugar_kg_out[k] = NAN;
      if (any_kitchen_kg_out != NULL)
        any_kitchen_kg_out[k] = NAN;
      if (buckets[k] < all.musts)
        continue;
      /* Each point begins with the choice of the one before, so that the curve never falls. */
      at.buckets = MIN (buckets[k], all.taps_in_all);
      any_kitchen = at;
      any_kitchen.litres = G_MAXINT64;
      choose (&all, table, &at, 0, &plan);
      sugar_kg_out[k] = fr_choice_kg (&all, (double)plan.sugar);
      if (any_kitchen_kg_out == NULL)
        continue;
      choose (&all, table, &any_kitchen, 0, &any);
      any_kitchen_kg_out[k] = fr_choice_kg (&all, (double)any.sugar);
    }
  return FR_TAP_CHOICE_OK;
}
