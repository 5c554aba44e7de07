/* Two lists of partial choices. Trees enter in order of their least loss, one list and the other in turn;
 * from a list goes what loses more than a known choice falls short of the bound, and what another beats in
 * the same number of buckets and trees with no more litres. Then the lists are paired: for each of one the
 * best of the other that still fits. After Horowitz and Sahni (1974), whose two lists of a thousand stand for
 * a million choices. */
#include "domain/maths/tap-choice-private.h"

#include <math.h>
#include <string.h>

/* Proof is to a little less than what counts as equal. */
#define PROOF_RATIO (0.9 * FR_TAP_CHOICE_CLOSE_RATIO)
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

double
fr_choice_gap_kg (const FrChoiceSearch *search)
{
  double best_kg = fr_choice_kg (search->trees, (double)search->best->sugar);

  return search->bound_kg - best_kg * (1 + PROOF_RATIO);
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
others_of (const FrChoiceSearch *search, guint tree, double gap, Other others[FR_TAP_CHOICE_TAPS_MAX + 1])
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
grown (FrChoiceSearch *search, const GArray *list, guint tree, double gap, guint most, GArray *changes)
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
halves_of (const FrChoiceSearch *search, const GArray *first, const GArray *second)
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
pair (FrChoiceSearch *search, const GArray *first, GArray *second, const GArray *changes)
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

double
fr_choice_look_kg (FrChoiceSearch *search, guint most, guint trees_most)
{
  GArray *lists[2]
      = { g_array_new (FALSE, FALSE, sizeof (State)), g_array_new (FALSE, FALSE, sizeof (State)) };
  g_autoptr (GArray) changes = g_array_new (FALSE, FALSE, sizeof (Change));
  const State nothing = { 0, 0, 0, 0, 0, NOBODY };
  double gap = fr_choice_gap_kg (search), left_out_kg = INFINITY;

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
