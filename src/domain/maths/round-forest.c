/* The least forest of a number of trees, and the cheapest legs to the start, under prices: what is left of a
 * round when its trips are cut off from the start, and the cut-off legs, each by itself. The tree is Prim's
 * (1957), with a heap over near legs or plainly over all; a forest of k trees is the tree less its k - 1
 * dearest edges. Two trips are one more tree less and two legs to the start more, so k is raised as long as
 * that is cheaper. */
#include "domain/maths/round-forest.h"

#include <stdlib.h>
#include <string.h>

#define NEAR 10

static double
plain_leg_m (const FrRoundForest *forest, guint a, guint b)
{
  return fr_round_leg_m (forest->ground, a + 1, b + 1);
}

static void
mark_set (FrRoundForest *forest, const FrRoundSet *set)
{
  forest->last_mark++;
  for (guint i = 0; i < set->n; i++)
    forest->mark[set->stops[i]] = forest->last_mark;
}

/* A heap of the stops that touch the tree, by key. */
static void
heap_put (FrRoundForest *forest, guint at, guint stop)
{
  forest->heap[at] = stop;
  forest->heap_at[stop] = at;
}

static void
heap_rise (FrRoundForest *forest, guint at)
{
  const guint stop = forest->heap[at];

  for (; at > 0 && forest->key_m[forest->heap[(at - 1) / 2]] > forest->key_m[stop]; at = (at - 1) / 2)
    heap_put (forest, at, forest->heap[(at - 1) / 2]);
  heap_put (forest, at, stop);
}

static guint
heap_take (FrRoundForest *forest)
{
  const guint least = forest->heap[0], stop = forest->heap[--forest->n_heap];
  guint at = 0;

  for (guint child = 1; child < forest->n_heap; child = 2 * at + 1)
    {
      if (child + 1 < forest->n_heap
          && forest->key_m[forest->heap[child + 1]] < forest->key_m[forest->heap[child]])
        child++;
      if (forest->key_m[forest->heap[child]] >= forest->key_m[stop])
        break;
      heap_put (forest, at, forest->heap[child]);
      at = child;
    }
  heap_put (forest, at, stop);
  return least;
}

/* What the sets add to each near leg. */
static void
price_edges (FrRoundForest *forest)
{
  memset (forest->more_m, 0, forest->first[forest->n] * sizeof (double));
  for (guint i = 0; i < forest->sets->len; i++)
    {
      const FrRoundSet *set = forest->sets->pdata[i];

      if (set->price_m <= 0)
        continue;
      mark_set (forest, set);
      for (guint j = 0; j < set->n; j++)
        for (guint e = forest->first[set->stops[j]]; e < forest->first[set->stops[j] + 1]; e++)
          if (forest->mark[forest->to[e]] == forest->last_mark)
            forest->more_m[e] += set->price_m;
    }
}

/* The least spanning tree of the stops over the near legs, with prices (Prim). */
void
fr_round_forest_near (FrRoundForest *forest)
{
  guint n_found = 0;

  price_edges (forest);
  for (guint i = 0; i < forest->n; i++)
    {
      forest->key_m[i] = INFINITY;
      forest->done[i] = FALSE;
    }
  forest->key_m[0] = 0;
  forest->parent[0] = 0;
  forest->n_heap = 1;
  heap_put (forest, 0, 0);
  while (forest->n_heap > 0)
    {
      const guint a = heap_take (forest);

      forest->found[n_found++] = a;
      forest->done[a] = TRUE;
      for (guint e = forest->first[a]; e < forest->first[a + 1]; e++)
        {
          const guint b = forest->to[e];
          const double key_m = forest->leg_m[e] + forest->more_m[e] + forest->price_m[a] + forest->price_m[b];

          if (forest->done[b] || key_m >= forest->key_m[b])
            continue;
          if (isinf (forest->key_m[b]))
            heap_put (forest, forest->n_heap++, b);
          forest->key_m[b] = key_m;
          forest->parent[b] = a;
          heap_rise (forest, forest->heap_at[b]);
        }
    }
}

/* The same over all legs. What the sets add to a leg is summed only where the leg would be the least without
 * it. */
void
fr_round_forest_whole (FrRoundForest *forest)
{
  const guint n = forest->n, n_sets = forest->sets->len;
  guint *left = forest->heap, n_left = 0, here = 0;
  g_autofree guint *first = g_new0 (guint, n + 1), *in = NULL, *here_in = g_new0 (guint, n_sets + 1);

  for (guint i = 0; i < n_sets; i++)
    for (guint j = 0; j < ((FrRoundSet *)forest->sets->pdata[i])->n; j++)
      first[((FrRoundSet *)forest->sets->pdata[i])->stops[j]]++;
  for (guint i = 1; i <= n; i++)
    first[i] += first[i - 1];
  in = g_new (guint, first[n] + 1); /* the sets that a stop is in */
  for (guint i = 0; i < n_sets; i++)
    for (guint j = 0; j < ((FrRoundSet *)forest->sets->pdata[i])->n; j++)
      in[--first[((FrRoundSet *)forest->sets->pdata[i])->stops[j]]] = i;

  forest->parent[0] = 0;
  forest->found[0] = 0;
  for (guint i = 1; i < n; i++)
    {
      forest->key_m[i] = INFINITY;
      forest->parent[i] = 0;
      left[n_left++] = i;
    }
  for (guint step = 1; n_left > 0; step++)
    {
      guint at = 0;

      for (guint i = first[here]; i < first[here + 1]; i++)
        here_in[in[i]] = step;
      for (guint i = 0; i < n_left; i++)
        {
          const guint b = left[i];
          double key_m = plain_leg_m (forest, here, b) + forest->price_m[here] + forest->price_m[b];

          for (guint j = first[b]; j < first[b + 1] && key_m < forest->key_m[b]; j++)
            if (here_in[in[j]] == step)
              key_m += ((FrRoundSet *)forest->sets->pdata[in[j]])->price_m;
          if (key_m < forest->key_m[b])
            {
              forest->key_m[b] = key_m;
              forest->second[b] = forest->parent[b];
              forest->parent[b] = here;
            }
          if (forest->key_m[b] < forest->key_m[left[at]])
            at = i;
        }
      here = forest->found[step] = left[at];
      left[at] = left[--n_left];
    }
}

static int
compare_by_start (const void *a, const void *b, void *data)
{
  const FrRoundForest *forest = data;
  const guint one = *(const guint *)a, two = *(const guint *)b;
  const double one_m = forest->start_m[one] + forest->price_m[one],
               two_m = forest->start_m[two] + forest->price_m[two];

  return one_m != two_m ? (one_m < two_m ? -1 : 1) : one < two ? -1 : one > two;
}

static int
compare_by_edge (const void *a, const void *b, void *data)
{
  const FrRoundForest *forest = data;
  const guint one = *(const guint *)a, two = *(const guint *)b;
  const double one_m = forest->key_m[one], two_m = forest->key_m[two];

  return one_m != two_m ? (one_m > two_m ? -1 : 1) : one < two ? -1 : one > two;
}

/* How many legs of the forest too many each set has; what their prices pay back. */
static double
count_sets (FrRoundForest *forest)
{
  double back_m = 0;

  for (guint i = 0; i < forest->sets->len; i++)
    {
      FrRoundSet *set = forest->sets->pdata[i];

      mark_set (forest, set);
      set->over = (gint)set->pails - (gint)set->n;
      for (guint j = 0; j < set->n; j++)
        if (forest->kept[set->stops[j]] && forest->mark[forest->parent[set->stops[j]]] == forest->last_mark)
          set->over++;
      back_m += set->price_m * (set->n - set->pails);
    }
  return back_m;
}

double
fr_round_forest_worth_m (FrRoundForest *forest)
{
  const guint n = forest->n;
  double sum_m = 0;

  for (guint i = 0; i < n; i++)
    forest->ends[i] = 0;
  forest->kept[0] = FALSE;
  for (guint i = 1; i < n; i++)
    {
      sum_m += forest->key_m[i];
      forest->kept[i] = TRUE;
    }
  for (guint i = 0; i < n; i++)
    sum_m -= 2 * forest->price_m[i];
  if (forest->trips_max == 1 && n > 1) /* two legs to different stops */
    {
      guint one = 0, two = 1;

      if (compare_by_start (&one, &two, forest) > 0)
        one = 1, two = 0;
      for (guint i = 2; i < n; i++)
        if (compare_by_start (&i, &one, forest) < 0)
          two = one, one = i;
        else if (compare_by_start (&i, &two, forest) < 0)
          two = i;
      forest->ends[one]++;
      forest->ends[two]++;
      sum_m += forest->start_m[one] + forest->price_m[one] + forest->start_m[two] + forest->price_m[two];
    }
  else
    {
      qsort_r (forest->by_start, n, sizeof (guint), compare_by_start, forest);
      qsort_r (forest->by_edge, n - 1, sizeof (guint), compare_by_edge, forest);
      for (guint k = 0; k < forest->trips_max; k++) /* the trip k + 1 */
        {
          const guint stop = forest->by_start[k];
          double more_m = 2 * (forest->start_m[stop] + forest->price_m[stop]);

          if (k > 0)
            more_m -= forest->key_m[forest->by_edge[k - 1]];
          if (k >= forest->trips_min && more_m >= 0)
            break;
          sum_m += more_m;
          forest->ends[stop] += 2;
          if (k > 0)
            forest->kept[forest->by_edge[k - 1]] = FALSE;
        }
    }
  for (guint i = 1; i < n; i++)
    if (forest->kept[i])
      {
        forest->ends[i]++;
        forest->ends[forest->parent[i]]++;
      }
  return sum_m - count_sets (forest);
}

static int
compare_edges (const void *a, const void *b)
{
  const FrRoundEdge *one = a, *two = b;

  return one->a != two->a ? (one->a < two->a ? -1 : 1) : one->b < two->b ? -1 : one->b > two->b;
}

static void
add_edge (FrRoundForest *forest, guint a, guint b)
{
  const FrRoundEdge edge = { MIN (a, b), MAX (a, b) };

  g_array_append_val (forest->edges, edge);
}

/* Adds the legs of the tree over all legs; TRUE when one was new. */
gboolean
fr_round_forest_learn (FrRoundForest *forest)
{
  const guint known = forest->edges->len, n = forest->n;
  guint kept = 0, *fill;
  FrRoundEdge *edges;

  for (guint i = 1; i < n; i++)
    {
      add_edge (forest, i, forest->parent[i]);
      if (forest->second[i] != i)
        add_edge (forest, i, forest->second[i]);
    }
  edges = (FrRoundEdge *)(gpointer)forest->edges->data;
  qsort (edges, forest->edges->len, sizeof *edges, compare_edges);
  for (guint i = 0; i < forest->edges->len; i++)
    if (i == 0 || compare_edges (&edges[i], &edges[kept - 1]) != 0)
      edges[kept++] = edges[i];
  g_array_set_size (forest->edges, kept);

  forest->to = g_renew (guint, forest->to, 2 * kept + 1);
  forest->leg_m = g_renew (double, forest->leg_m, 2 * kept + 1);
  forest->more_m = g_renew (double, forest->more_m, 2 * kept + 1);
  memset (forest->first, 0, (n + 1) * sizeof (guint));
  for (guint i = 0; i < kept; i++)
    {
      forest->first[edges[i].a]++;
      forest->first[edges[i].b]++;
    }
  for (guint i = 1; i <= n; i++)
    forest->first[i] += forest->first[i - 1];
  fill = forest->first; /* counted down to each one's first */
  for (guint i = 0; i < kept; i++)
    {
      const double leg_m = plain_leg_m (forest, edges[i].a, edges[i].b);

      forest->to[--fill[edges[i].a]] = edges[i].b;
      forest->leg_m[fill[edges[i].a]] = leg_m;
      forest->to[--fill[edges[i].b]] = edges[i].a;
      forest->leg_m[fill[edges[i].b]] = leg_m;
    }
  return kept > known;
}

void
fr_round_forest_init (FrRoundForest *forest, const FrRoundGround *ground, guint trips_min, guint trips_max)
{
  const guint n = ground->n_points - 1, k = MIN (NEAR, n - 1);
  g_autofree guint *near = fr_round_near (ground->x_m + 1, ground->y_m + 1, n, k);

  *forest = (FrRoundForest){ .ground = ground, .n = n, .trips_min = trips_min, .trips_max = trips_max };
  forest->start_m = g_new (double, n);
  forest->price_m = g_new0 (double, n);
  forest->sets = g_ptr_array_new ();
  forest->edges = g_array_new (FALSE, FALSE, sizeof (FrRoundEdge));
  forest->first = g_new0 (guint, n + 1);
  forest->parent = g_new (guint, n);
  forest->second = g_new0 (guint, n);
  forest->found = g_new (guint, n);
  forest->key_m = g_new0 (double, n);
  forest->kept = g_new (guint8, n);
  forest->ends = g_new (gint, n);
  forest->by_start = g_new (guint, n);
  forest->by_edge = g_new (guint, n);
  forest->done = g_new (guint8, n);
  forest->heap = g_new (guint, n);
  forest->heap_at = g_new (guint, n);
  forest->mark = g_new0 (guint, n);
  for (guint i = 0; i < n; i++)
    {
      forest->start_m[i] = fr_round_leg_m (ground, 0, i + 1);
      forest->by_start[i] = i;
      forest->by_edge[i] = i + 1; /* the edge to its parent; the last is not used */
      for (guint j = 0; j < k; j++)
        add_edge (forest, i, near[(gsize)i * k + j]);
    }
}

void
fr_round_forest_clear (FrRoundForest *forest)
{
  g_free (forest->start_m);
  g_free (forest->price_m);
  g_ptr_array_unref (forest->sets);
  g_array_unref (forest->edges);
  g_free (forest->first);
  g_free (forest->to);
  g_free (forest->leg_m);
  g_free (forest->more_m);
  g_free (forest->parent);
  g_free (forest->second);
  g_free (forest->found);
  g_free (forest->key_m);
  g_free (forest->kept);
  g_free (forest->ends);
  g_free (forest->by_start);
  g_free (forest->by_edge);
  g_free (forest->done);
  g_free (forest->heap);
  g_free (forest->heap_at);
  g_free (forest->mark);
}
