/* The choice when kitchen or trees limit it too. The linear relaxation gives each tree a first choice and
 * every other choice a loss (its reduced cost, 0 or more); a choice of all trees falls short of the bound by
 * the sum of its losses. So the best choice differs from the first choices only where losses are small. Trees
 * enter in order of their least loss, alternately into two lists of partial choices; from a list goes what
 * loses more than a known choice falls short of the bound, and what another beats in the same number of
 * buckets and trees with no more litres. Then the lists are paired: for each of one the best of the other
 * that still fits. When every tree that could matter is in a list the answer is proven; when the lists get
 * longer than the effort allows, what is left out gives the bound.
 *
 * After Pisinger's cores for multiple-choice knapsacks (1995) and Horowitz and Sahni's two lists (1974). */
#include "domain/maths/tap-choice-private.h"

#include <math.h>
#include <string.h>

/* Proof is to a little less than what counts as equal. */
#define PROOF_RATIO (0.9 * FR_TAP_CHOICE_CLOSE_RATIO)
#define TIE_RATIO 1e-12
#define NOBODY G_MAXUINT

/* A partial choice: how it differs from the first choices. */
typedef struct
{
  gint64 sugar, litres;
  gint32 buckets, trees;
  double lost_kg;
  guint change; /* the last one, NOBODY for none */
} State;

typedef struct
{
  guint before; /* change, or NOBODY */
  guint tree;
  guint taps;
} Change;

/* Another choice of a tree, against its first. */
typedef struct
{
  gint64 sugar, litres;
  gint32 buckets, trees;
  double lost_kg;
  guint taps;
} Other;

typedef struct
{
  const FrChoiceTrees *trees;
  const FrChoiceLimits *limits;
  double bound_kg;
  double *lost_kg;   /* of each tree and taps, laid out as FrChoiceTrees.sugar */
  guint *first;      /* first choice of each tree */
  guint *order;      /* trees by least loss */
  double *least_kg;  /* loss of each tree's next best choice */
  gint64 *aside;     /* order among trees of the same loss */
  FrChoicePlan base; /* the first choices, within the limits or not */
  FrChoicePlan *best;
  guint64 work, work_most;
} Search;

static double
gap_kg (const Search *search)
{
  double best_kg = fr_choice_kg (search->trees, (double)search->best->sugar);

  return search->bound_kg - best_kg * (1 + PROOF_RATIO);
}

/* Changes one tree's taps in @plan if that stays within the limits. */
static gboolean
try_taps (const Search *search, FrChoicePlan *plan, guint tree, guint taps)
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
fill (const Search *search, FrChoicePlan *plan, gboolean by_tree)
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
use_ties (Search *search)
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
  const Search *search = data;
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
find_margin (Search *search)
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
begin_with_something (Search *search)
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
search_begin (Search *search, double most_l)
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
  search->bound_kg = fr_choice_prices (trees, search->limits, value_kg, litres_l, most_l, price_kg);
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
search_end (Search *search)
{
  g_free (search->lost_kg);
  g_free (search->first);
  g_free (search->order);
  g_free (search->least_kg);
  g_free (search->aside);
}

/* By buckets, trees, litres; more sugar first. */
static int
compare_states (const State *a, const State *b)
{
  if (a->buckets != b->buckets)
    return a->buckets < b->buckets ? -1 : 1;
  if (a->trees != b->trees)
    return a->trees < b->trees ? -1 : 1;
  if (a->litres != b->litres)
    return a->litres < b->litres ? -1 : 1;
  return a->sugar > b->sugar ? -1 : a->sugar < b->sugar;
}

static gboolean
same_class (const State *a, const State *b)
{
  return a->buckets == b->buckets && a->trees == b->trees;
}

/* Puts @state behind the others unless one of them is as good. */
static void
keep (GArray *list, const State *state, gboolean any_litres)
{
  State *last = list->len == 0 ? NULL : &g_array_index (list, State, list->len - 1);

  if (last == NULL || !same_class (last, state))
    g_array_append_val (list, *state);
  else if (state->sugar > last->sugar)
    {
      /* Litres matter only for which of two equals is taken; the one with more sugar stands for its class. */
      if (any_litres)
        *last = *state;
      else
        g_array_append_val (list, *state);
    }
}

/* A tree's other choices that lose less than @gap. */
static guint
others_of (const Search *search, guint tree, double gap, Other others[FR_TAP_CHOICE_TAPS_MAX + 1])
{
  const FrChoiceTrees *trees = search->trees;
  guint at = trees->first[tree], first = search->first[tree], n = 0;

  for (guint j = trees->least[tree]; j <= trees->taps[tree]; j++)
    if (j == first || search->lost_kg[at + j] < gap)
      others[n++] = (Other){ trees->sugar[at + j] - trees->sugar[at + first],
                             trees->litres[at + j] - trees->litres[at + first],
                             (gint32)j - (gint32)first,
                             (gint32)(j > 0) - (gint32)(first > 0),
                             search->lost_kg[at + j],
                             j };
  return n;
}

/* @list with one tree more, or NULL when it would be longer than @most. Each of the tree's choices shifts the
 * whole list, which stays in order, so the new one is a merger. */
static GArray *
grown (Search *search, const GArray *list, guint tree, double gap, guint most, GArray *changes)
{
  Other others[FR_TAP_CHOICE_TAPS_MAX + 1];
  guint heads[FR_TAP_CHOICE_TAPS_MAX + 1] = { 0 }, n = others_of (search, tree, gap, others),
                                       n_changes = changes->len;
  gboolean any_litres = search->limits->litres == G_MAXINT64;
  GArray *out = g_array_sized_new (FALSE, FALSE, sizeof (State), MIN (most, n * list->len) + 1);

  for (;;)
    {
      State next = { 0 };
      guint from = n;

      for (guint k = 0; k < n; k++)
        {
          State one;

          /* What loses too much with this choice is passed over. */
          while (heads[k] < list->len
                 && !(g_array_index (list, State, heads[k]).lost_kg + others[k].lost_kg < gap))
            heads[k]++;
          if (heads[k] == list->len)
            continue;
          one = g_array_index (list, State, heads[k]);
          one.sugar += others[k].sugar;
          one.litres += others[k].litres;
          one.buckets += others[k].buckets;
          one.trees += others[k].trees;
          one.lost_kg += others[k].lost_kg;
          if (from == n || compare_states (&one, &next) < 0)
            {
              next = one;
              from = k;
            }
        }
      if (from == n)
        return out;
      heads[from]++;
      search->work++;
      if (others[from].taps != search->first[tree])
        {
          Change change = { next.change, tree, others[from].taps };

          next.change = changes->len;
          g_array_append_val (changes, change);
        }
      keep (out, &next, any_litres);
      if (out->len > most)
        {
          g_array_set_size (changes, n_changes);
          g_array_unref (out);
          return NULL;
        }
    }
}

static void
take_changes (const GArray *changes, guint change, guint *taps)
{
  for (; change != NOBODY; change = g_array_index (changes, Change, change).before)
    {
      const Change *one = &g_array_index (changes, Change, change);

      taps[one->tree] = one->taps;
    }
}

/* Whether the sums are a better choice than @best: more sugar, else fewer buckets, trees, litres. */
static gboolean
beats (const FrChoicePlan *best, gint64 sugar, gint64 buckets, gint64 trees, gint64 litres)
{
  if (sugar != best->sugar)
    return sugar > best->sugar;
  if (buckets != best->buckets)
    return buckets < best->buckets;
  if (trees != best->trees)
    return trees < best->trees;
  return litres < best->litres;
}

/* A partial choice of the first list, with what it leaves to the second. */
typedef struct
{
  gint32 buckets, trees; /* at most so many of the second list */
  guint at;
} Half;

static int
compare_halves (gconstpointer a, gconstpointer b, gpointer data)
{
  const Half *x = a, *y = b;
  const State *states = data;

  if (x->buckets != y->buckets)
    return x->buckets < y->buckets ? -1 : 1;
  if (x->trees != y->trees)
    return x->trees < y->trees ? -1 : 1;
  if (states[x->at].litres != states[y->at].litres)
    return states[x->at].litres > states[y->at].litres ? -1 : 1;
  return x->at < y->at ? -1 : x->at > y->at;
}

static int
compare_litres (gconstpointer a, gconstpointer b)
{
  const State *x = a, *y = b;

  if (x->litres != y->litres)
    return x->litres < y->litres ? -1 : 1;
  return compare_states (x, y);
}

/* What is left for the second list, as far as it matters: more than it ever takes is as good as what it
 * takes. */
static GArray *
halves_of (const Search *search, const GArray *first, const GArray *second)
{
  GArray *halves = g_array_sized_new (FALSE, FALSE, sizeof (Half), first->len);
  gint32 buckets_most = G_MININT32, trees_most = G_MININT32;
  gint64 buckets = (gint64)search->limits->buckets - search->base.buckets,
         trees = (gint64)search->limits->trees - search->base.trees;

  for (guint i = 0; i < second->len; i++)
    {
      buckets_most = MAX (buckets_most, g_array_index (second, State, i).buckets);
      trees_most = MAX (trees_most, g_array_index (second, State, i).trees);
    }
  for (guint i = 0; i < first->len; i++)
    {
      const State *one = &g_array_index (first, State, i);
      Half half = { (gint32)MIN (buckets - one->buckets, buckets_most),
                    (gint32)MIN (trees - one->trees, trees_most), i };

      g_array_append_val (halves, half);
    }
  g_array_sort_with_data (halves, compare_halves, first->data);
  return halves;
}

/* The best pair from two lists that is within the limits becomes the best choice when it is better. Those of
 * the first list that leave the same to the second go together, most litres first, so that what of the second
 * still fits only grows, and its best is known. Puts the second list in order of litres. */
static void
pair (Search *search, const GArray *first, GArray *second, const GArray *changes)
{
  g_autoptr (GArray) halves = halves_of (search, first, second);
  const State *states = (const State *)(gconstpointer)first->data, *others, *fits = NULL,
              *found[2] = { NULL, NULL };
  FrChoicePlan best = *search->best;
  double enough = search->bound_kg / (1 + PROOF_RATIO) / search->trees->sugar_unit_kg;
  guint next = 0;

  g_array_sort (second, compare_litres);
  others = (const State *)(gconstpointer)second->data;
  for (guint i = 0; i < halves->len && (double)best.sugar < enough; i++)
    {
      const Half *half = &g_array_index (halves, Half, i);
      const State *one = &states[half->at];
      gint64 left, sums[4];

      if (i > 0 && (half[-1].buckets != half->buckets || half[-1].trees != half->trees))
        {
          next = 0;
          fits = NULL;
        }
      left = search->limits->litres - search->base.litres - one->litres;
      for (; next < second->len && others[next].litres <= left; next++)
        if (others[next].buckets <= half->buckets && others[next].trees <= half->trees
            && (fits == NULL || others[next].sugar > fits->sugar))
          fits = &others[next];
      if (fits == NULL)
        continue;
      sums[0] = search->base.sugar + one->sugar + fits->sugar;
      sums[1] = (gint64)search->base.buckets + one->buckets + fits->buckets;
      sums[2] = (gint64)search->base.trees + one->trees + fits->trees;
      sums[3] = search->base.litres + one->litres + fits->litres;
      if (beats (&best, sums[0], sums[1], sums[2], sums[3]))
        {
          best.sugar = sums[0];
          best.buckets = (guint)sums[1];
          best.trees = (guint)sums[2];
          best.litres = sums[3];
          found[0] = one;
          found[1] = fits;
        }
    }
  if (found[0] == NULL)
    return;
  memcpy (best.taps, search->first, search->trees->n * sizeof *best.taps);
  take_changes (changes, found[0]->change, best.taps);
  take_changes (changes, found[1]->change, best.taps);
  *search->best = best;
}

/* One round: lists of at most @most, of at most @trees_most trees. Returns the least loss of a tree that was
 * left out, INFINITY when none.
 */
static double
look (Search *search, guint most, guint trees_most)
{
  GArray *lists[2]
      = { g_array_new (FALSE, FALSE, sizeof (State)), g_array_new (FALSE, FALSE, sizeof (State)) };
  g_autoptr (GArray) changes = g_array_new (FALSE, FALSE, sizeof (Change));
  const State nothing = { 0, 0, 0, 0, 0, NOBODY };
  double gap = gap_kg (search), left_out_kg = INFINITY;

  g_array_append_val (lists[0], nothing);
  g_array_append_val (lists[1], nothing);
  for (guint k = 0; k < search->trees->n; k++)
    {
      guint tree = search->order[k], shorter = lists[1]->len < lists[0]->len;
      GArray *longer = NULL;

      if (!(search->least_kg[tree] < gap))
        break;
      if (k < trees_most && search->work < search->work_most)
        longer = grown (search, lists[shorter], tree, gap, most, changes);
      if (longer == NULL)
        {
          left_out_kg = search->least_kg[tree];
          break;
        }
      g_array_unref (lists[shorter]);
      lists[shorter] = longer;
    }
  pair (search, lists[0], lists[1], changes);
  g_array_unref (lists[0]);
  g_array_unref (lists[1]);
  return left_out_kg;
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
  Search search = { .trees = trees, .limits = limits, .best = plan, .work_most = works[effort] };
  double most_l = (limits->litres == G_MAXINT64 ? 0x1p60 : (double)limits->litres) * trees->litres_unit_l;
  double left_out_kg = INFINITY, sugar_kg;

  search_begin (&search, most_l);
  begin_with_something (&search);
  for (guint round = 0; round < (effort == 0 ? 3 : G_N_ELEMENTS (rounds)); round++)
    {
      if (gap_kg (&search) > rounds[round].gap_ratio * search.bound_kg)
        break;
      left_out_kg = look (&search, rounds[round].most, rounds[round].trees);
      /* With a better choice known, what was left out may not matter any more. */
      if (!(left_out_kg < gap_kg (&search)))
        break;
    }
  sugar_kg = fr_choice_kg (trees, (double)plan->sugar);
  plan->exact = !(left_out_kg < gap_kg (&search));
  plan->bound_kg = plan->exact ? sugar_kg : MAX (sugar_kg, search.bound_kg - left_out_kg);
  search_end (&search);
}
