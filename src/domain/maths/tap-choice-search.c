/* The choice when kitchen or trees limit it too. The linear relaxation gives each tree a first choice and
 * every other choice a loss (its reduced cost, 0 or more); a choice of all trees falls short of the bound by
 * the sum of its losses. So the best choice differs from the first choices only where losses are small, and
 * tap-choice-lists.c looks for it there. When every tree that could matter was looked at the answer is
 * proven; when that took too much, the least loss that was left out gives the bound. The idea of a core is
 * Pisinger's for multiple-choice knapsacks (1995). */
#include "domain/maths/tap-choice-private.h"

#include <math.h>
#include <string.h>

#define TIE_RATIO 1e-12

/* Changes one tree's taps in @plan if that stays within the limits. */
static gboolean
try_taps (const FrChoiceSearch *search, FrChoicePlan *plan, guint tree, guint taps)
{
  const FrChoiceTrees *trees = search->trees;
  guint at = trees->first[tree], had = plan->taps[tree], buckets = plan->buckets - had + taps,
        used = plan->trees - (had > 0) + (taps > 0);
  gint64 litres = plan->litres - trees->litres[at + had] + trees->litres[at + taps];

  if (buckets > search->limits->buckets || used > search->limits->trees || litres > search->limits->litres)
    return FALSE;
  plan->sugar += trees->sugar[at + taps] - trees->sugar[at + had];
  plan->litres = litres;
  plan->buckets = buckets;
  plan->trees = used;
  plan->taps[tree] = taps;
  return TRUE;
}

/* A step of a tree to one of its equals: litres for each bucket, for the next tap or for the whole tree. */
typedef struct
{
  gint64 litres;
  guint tree, taps;
} Step;

static int
compare_steps (gconstpointer a, gconstpointer b)
{
  const Step *x = a, *y = b;

  if (x->litres != y->litres)
    return x->litres > y->litres ? -1 : 1;
  if (x->tree != y->tree)
    return x->tree < y->tree ? -1 : 1;
  return x->taps < y->taps ? -1 : x->taps > y->taps;
}

static void
fill (const FrChoiceSearch *search, FrChoicePlan *plan, gboolean by_tree)
{
  const FrChoiceTrees *trees = search->trees;
  g_autoptr (GArray) steps = g_array_new (FALSE, FALSE, sizeof (Step));

  fr_choice_plan_sum (trees, plan);
  for (guint i = 0; i < trees->n; i++)
    for (guint j = plan->taps[i] + 1; j <= trees->taps[i]; j++)
      {
        const gint64 *litres = trees->litres + trees->first[i];
        Step step = { by_tree ? litres[j] : litres[j] - litres[j - 1], i, j };

        if (search->lost_kg[trees->first[i] + j] <= TIE_RATIO * search->bound_kg)
          g_array_append_val (steps, step);
      }
  g_array_sort (steps, compare_steps);
  for (guint k = 0; k < steps->len; k++)
    {
      const Step *step = &g_array_index (steps, Step, k);

      if (step->taps > plan->taps[step->tree])
        try_taps (search, plan, step->tree, step->taps);
    }
}

/* Where several choices of a tree are as good at these prices, as in a bush of one sweetness that only the
 * kitchen limits, the first choices are taken so that together they come near the limits: the best choice
 * then differs from them in few trees. */
static void
use_ties (FrChoiceSearch *search)
{
  const FrChoiceTrees *trees = search->trees;
  g_autofree guint *by_tree = g_new (guint, trees->n + 1);
  FrChoicePlan other = { .taps = by_tree };

  memcpy (by_tree, search->first, trees->n * sizeof *by_tree);
  search->base.taps = search->first;
  fill (search, &search->base, FALSE);
  fill (search, &other, TRUE);
  if (other.sugar > search->base.sugar)
    {
      memcpy (search->first, by_tree, trees->n * sizeof *by_tree);
      other.taps = search->first;
      search->base = other;
    }
}

static int
compare_trees (gconstpointer a, gconstpointer b, gpointer data)
{
  const FrChoiceSearch *search = data;
  guint x = *(const guint *)a, y = *(const guint *)b;

  if (search->least_kg[x] != search->least_kg[y])
    return search->least_kg[x] < search->least_kg[y] ? -1 : 1;
  if (search->aside[x] != search->aside[y])
    return search->aside[x] < search->aside[y] ? -1 : 1;
  return x < y ? -1 : x > y;
}

/* Trees that lose nothing come in the order of how far from the margin they are, which is the least tap of
 * the first choices: swapping their taps changes litres little and buckets not at all. Those that have taps
 * to give and those that have none take turns, for one without the other finds no swap. */
static void
find_margin (FrChoiceSearch *search)
{
  const FrChoiceTrees *trees = search->trees;
  gint64 margin = G_MAXINT64;
  guint turns[2] = { 0, 0 };

  for (guint i = 0; i < trees->n; i++)
    {
      const gint64 *litres = trees->litres + trees->first[i];
      guint taps = search->first[i];

      if (taps > trees->least[i] && search->least_kg[i] == 0)
        margin = MIN (margin, litres[taps] - litres[taps - 1]);
    }
  for (guint i = 0; i < trees->n; i++)
    {
      const gint64 *litres = trees->litres + trees->first[i];
      guint taps = search->first[i];

      if (taps > trees->least[i])
        search->aside[i] = ABS (litres[taps] - litres[taps - 1] - margin);
      else
        search->aside[i]
            = taps < trees->taps[i] ? ABS (litres[taps + 1] - litres[taps] - margin) : G_MAXINT64;
    }
  g_qsort_with_data (search->order, (gint)trees->n, sizeof *search->order, compare_trees, search);
  for (guint k = 0; k < trees->n; k++)
    {
      guint i = search->order[k], gives = search->first[i] > trees->least[i];

      search->aside[i] = 2 * (gint64)turns[gives]++ + gives;
    }
}

static int
compare_gains (gconstpointer a, gconstpointer b, gpointer data)
{
  const double *gain_kg = data;
  guint x = *(const guint *)a, y = *(const guint *)b;

  if (gain_kg[x] != gain_kg[y])
    return gain_kg[x] > gain_kg[y] ? -1 : 1;
  return x < y ? -1 : x > y;
}

/* A choice to begin with: the first choices of those trees first that lose most without, then whatever still
 * fits. */
static void
begin_with_something (FrChoiceSearch *search)
{
  const FrChoiceTrees *trees = search->trees;
  g_autofree guint *order = g_new (guint, trees->n + 1), *taps = g_new (guint, trees->n + 1);
  g_autofree double *gain_kg = g_new (double, trees->n + 1);
  FrChoicePlan plan = { .taps = taps };

  for (guint i = 0; i < trees->n; i++)
    {
      order[i] = i;
      taps[i] = trees->least[i];
      gain_kg[i] = search->lost_kg[trees->first[i] + trees->least[i]];
    }
  fr_choice_plan_sum (trees, &plan);
  g_qsort_with_data (order, (gint)trees->n, sizeof *order, compare_gains, gain_kg);
  for (guint k = 0; k < trees->n; k++)
    try_taps (search, &plan, order[k], search->first[order[k]]);
  for (guint k = 0; k < trees->n; k++)
    for (guint j = trees->taps[order[k]]; j > taps[order[k]]; j--)
      if (try_taps (search, &plan, order[k], j))
        break;
  if (plan.sugar > search->best->sugar)
    {
      memcpy (search->best->taps, taps, trees->n * sizeof *taps);
      plan.taps = search->best->taps;
      *search->best = plan;
    }
}

static void
search_begin (FrChoiceSearch *search, double most_l)
{
  const FrChoiceTrees *trees = search->trees;
  guint n_entries = trees->n == 0 ? 0 : trees->first[trees->n - 1] + trees->taps[trees->n - 1] + 1;
  g_autofree double *value_kg = g_new (double, n_entries + 1), *litres_l = g_new (double, n_entries + 1);
  double price_kg[3];

  for (guint k = 0; k < n_entries; k++)
    {
      value_kg[k] = (double)trees->sugar[k] * trees->sugar_unit_kg;
      litres_l[k] = (double)trees->litres[k] * trees->litres_unit_l;
    }
  search->bound_kg = fr_choice_bound_kg (trees, search->limits, value_kg, litres_l, most_l, price_kg);
  /* The sum was rounded a few thousand times. */
  search->bound_kg *= 1 + 1e-13;
  search->lost_kg = g_new (double, n_entries + 1);
  search->first = g_new (guint, trees->n + 1);
  search->order = g_new (guint, trees->n + 1);
  search->least_kg = g_new (double, trees->n + 1);
  search->aside = g_new (gint64, trees->n + 1);
  for (guint i = 0; i < trees->n; i++)
    {
      double *lost_kg = search->lost_kg + trees->first[i], most_kg = -INFINITY;
      guint at = trees->first[i];

      for (guint j = trees->least[i]; j <= trees->taps[i]; j++)
        {
          lost_kg[j] = value_kg[at + j] - price_kg[2] * litres_l[at + j] - price_kg[0] * j
                       - (j > 0 ? price_kg[1] : 0);
          most_kg = MAX (most_kg, lost_kg[j]);
        }
      for (guint j = trees->taps[i] + 1; j-- > trees->least[i];)
        {
          lost_kg[j] = most_kg - lost_kg[j];
          /* Of equals the fewest taps, for now. */
          if (lost_kg[j] <= TIE_RATIO * search->bound_kg)
            search->first[i] = j;
        }
    }
  use_ties (search);
  for (guint i = 0; i < trees->n; i++)
    {
      search->order[i] = i;
      search->least_kg[i] = INFINITY;
      for (guint j = trees->least[i]; j <= trees->taps[i]; j++)
        if (j != search->first[i])
          search->least_kg[i] = MIN (search->least_kg[i], search->lost_kg[trees->first[i] + j]);
      if (search->least_kg[i] <= TIE_RATIO * search->bound_kg)
        search->least_kg[i] = 0;
    }
  find_margin (search);
  g_qsort_with_data (search->order, (gint)trees->n, sizeof *search->order, compare_trees, search);
}

static void
search_end (FrChoiceSearch *search)
{
  g_free (search->lost_kg);
  g_free (search->first);
  g_free (search->order);
  g_free (search->least_kg);
  g_free (search->aside);
}

void
fr_choice_search (const FrChoiceTrees *trees, const FrChoiceLimits *limits, guint effort, FrChoicePlan *plan)
{
  /* Short looks first: a better choice found early leaves less to look at. The last is for those that are all
   * but proven, as when any of a thousand million choices would do if only its litres came near enough to the
   * limit. */
  static const struct
  {
    guint most, trees;
    double gap_ratio;
  } rounds[] = {
    { 250, 10, 1 }, { 2500, 25, 1 }, { 20000, 60, 1 }, { 60000, G_MAXUINT, 1 }, { 250000, G_MAXUINT, 1e-5 }
  };
  static const guint64 works[] = { 500000, 2000000, 6000000 };
  FrChoiceSearch search = { .trees = trees, .limits = limits, .best = plan, .work_most = works[effort] };
  double most_l = (limits->litres == G_MAXINT64 ? 0x1p60 : (double)limits->litres) * trees->litres_unit_l;
  double left_out_kg = INFINITY, sugar_kg;

  search_begin (&search, most_l);
  begin_with_something (&search);
  for (guint round = 0; round < (effort == 0 ? 3 : G_N_ELEMENTS (rounds)); round++)
    {
      if (fr_choice_gap_kg (&search) > rounds[round].gap_ratio * search.bound_kg)
        break;
      left_out_kg = fr_choice_look_kg (&search, rounds[round].most, rounds[round].trees);
      /* With a better choice known, what was left out may not matter any more. */
      if (!(left_out_kg < fr_choice_gap_kg (&search)))
        break;
    }
  sugar_kg = fr_choice_kg (trees, (double)plan->sugar);
  plan->exact = !(left_out_kg < fr_choice_gap_kg (&search));
  plan->bound_kg = plan->exact ? sugar_kg : MAX (sugar_kg, search.bound_kg - left_out_kg);
  search_end (&search);
}
