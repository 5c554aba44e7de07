/* How short a round can be at best. Drop from any round the legs from and to the start: what is left of k
 * trips past n stops is a forest of n - k legs, and the dropped legs are 2k. The cheapest forest (a least
 * spanning tree less its k - 1 longest edges) and the 2k cheapest legs to the start cannot cost more. Each
 * stop is then given a price per leg that ends there, twice which is paid back, because a round has two at
 * each stop; prices change no round's cost but lift the forest's, and are raised where it has too many legs
 * and lowered where too few (Held and Karp 1970, 1971; with many trips Fisher 1994). The step is Polyak's. k
 * is at least what the pail needs: the bin-packing bound L2 of Martello and Toth 1990; and trips that fit
 * into one pail together need never be apart, so it is at most twice the pails in all.
 *
 * The ascent looks at near legs only; what is returned was evaluated over all legs, so that it is a bound.
 * Legs that matter and were missing are added, and it goes on. With a pail there is also the sum of 2 x
 * litres / pail x distance, which counts each stop's share of a trip (Haimovich and Rinnooy Kan 1985). */
#include "domain/maths/round-private.h"

#include <stdlib.h>
#include <string.h>

#define NEAR 8
#define ROUNDS 6
#define PATIENCE 12
#define SAFETY 1e-12 /* of what summing up may have rounded */

typedef struct
{
  guint a, b;
} Edge;

typedef struct
{
  const FrRoundGround *ground;
  guint n; /* stops; stop i is point i + 1 */
  guint trips_min, trips_max;
  double *start_m; /* stop to start */
  GArray *edges;
  guint *first, *to; /* the same edges by stop */
  double *leg_m;
  double *price_m;
  gint *ends; /* of the last forest and legs to the start, at each stop */
  /* of the tree: */
  guint *parent;
  double *key_m;
  guint8 *done;
  guint *heap, *heap_at, n_heap;
  guint *by_start, *by_edge; /* sorted */
} Bound;

static double
plain_leg_m (const Bound *bound, guint a, guint b)
{
  return fr_round_leg_m (bound->ground, a + 1, b + 1);
}

/* A heap of the stops that touch the tree, by key. */
static void
heap_put (Bound *bound, guint at, guint stop)
{
  bound->heap[at] = stop;
  bound->heap_at[stop] = at;
}

static void
heap_rise (Bound *bound, guint at)
{
  const guint stop = bound->heap[at];

  for (; at > 0 && bound->key_m[bound->heap[(at - 1) / 2]] > bound->key_m[stop]; at = (at - 1) / 2)
    heap_put (bound, at, bound->heap[(at - 1) / 2]);
  heap_put (bound, at, stop);
}

static guint
heap_take (Bound *bound)
{
  const guint least = bound->heap[0], stop = bound->heap[--bound->n_heap];
  guint at = 0;

  for (guint child = 1; child < bound->n_heap; child = 2 * at + 1)
    {
      if (child + 1 < bound->n_heap
          && bound->key_m[bound->heap[child + 1]] < bound->key_m[bound->heap[child]])
        child++;
      if (bound->key_m[bound->heap[child]] >= bound->key_m[stop])
        break;
      heap_put (bound, at, bound->heap[child]);
      at = child;
    }
  heap_put (bound, at, stop);
  return least;
}

/* The least spanning tree of the stops over the near legs, with prices (Prim). */
static void
near_tree (Bound *bound)
{
  for (guint i = 0; i < bound->n; i++)
    {
      bound->key_m[i] = INFINITY;
      bound->done[i] = FALSE;
    }
  bound->key_m[0] = 0;
  bound->parent[0] = 0;
  bound->n_heap = 1;
  heap_put (bound, 0, 0);
  while (bound->n_heap > 0)
    {
      const guint a = heap_take (bound);

      bound->done[a] = TRUE;
      for (guint e = bound->first[a]; e < bound->first[a + 1]; e++)
        {
          const guint b = bound->to[e];
          const double key_m = bound->leg_m[e] + bound->price_m[a] + bound->price_m[b];

          if (bound->done[b] || key_m >= bound->key_m[b])
            continue;
          if (isinf (bound->key_m[b]))
            heap_put (bound, bound->n_heap++, b);
          bound->key_m[b] = key_m;
          bound->parent[b] = a;
          heap_rise (bound, bound->heap_at[b]);
        }
    }
}

/* The same over all legs. */
static void
whole_tree (Bound *bound)
{
  guint *left = bound->heap, n_left = 0, here = 0;

  bound->parent[0] = 0;
  for (guint i = 1; i < bound->n; i++)
    {
      bound->key_m[i] = INFINITY;
      left[n_left++] = i;
    }
  while (n_left > 0)
    {
      guint at = 0;

      for (guint i = 0; i < n_left; i++)
        {
          const guint b = left[i];
          const double key_m = plain_leg_m (bound, here, b) + bound->price_m[here] + bound->price_m[b];

          if (key_m < bound->key_m[b])
            {
              bound->key_m[b] = key_m;
              bound->parent[b] = here;
            }
          if (bound->key_m[b] < bound->key_m[left[at]])
            at = i;
        }
      here = left[at];
      left[at] = left[--n_left];
    }
}

static int
compare_by_start (const void *a, const void *b, void *data)
{
  const Bound *bound = data;
  const guint one = *(const guint *)a, two = *(const guint *)b;
  const double one_m = bound->start_m[one] + bound->price_m[one],
               two_m = bound->start_m[two] + bound->price_m[two];

  return one_m != two_m ? (one_m < two_m ? -1 : 1) : one < two ? -1 : one > two;
}

static int
compare_by_edge (const void *a, const void *b, void *data)
{
  const Bound *bound = data;
  const guint one = *(const guint *)a, two = *(const guint *)b;
  const double one_m = bound->key_m[one], two_m = bound->key_m[two];

  return one_m != two_m ? (one_m > two_m ? -1 : 1) : one < two ? -1 : one > two;
}

/* What the tree there is now is worth as a bound; counts the ends. */
static double
worth_m (Bound *bound)
{
  const guint n = bound->n;
  double sum_m = 0;

  for (guint i = 0; i < n; i++)
    bound->ends[i] = 0;
  for (guint i = 1; i < n; i++)
    {
      sum_m += bound->key_m[i];
      bound->ends[i]++;
      bound->ends[bound->parent[i]]++;
    }
  for (guint i = 0; i < n; i++)
    sum_m -= 2 * bound->price_m[i];
  if (bound->trips_max == 1 && n > 1) /* two legs to different stops */
    {
      guint one = 0, two = 1;

      if (compare_by_start (&one, &two, bound) > 0)
        one = 1, two = 0;
      for (guint i = 2; i < n; i++)
        if (compare_by_start (&i, &one, bound) < 0)
          two = one, one = i;
        else if (compare_by_start (&i, &two, bound) < 0)
          two = i;
      bound->ends[one]++;
      bound->ends[two]++;
      return sum_m + bound->start_m[one] + bound->price_m[one] + bound->start_m[two] + bound->price_m[two];
    }
  qsort_r (bound->by_start, n, sizeof (guint), compare_by_start, bound);
  qsort_r (bound->by_edge, n - 1, sizeof (guint), compare_by_edge, bound);
  for (guint k = 0; k < bound->trips_max; k++) /* the trip k + 1 */
    {
      const guint stop = bound->by_start[k];
      double more_m = 2 * (bound->start_m[stop] + bound->price_m[stop]);

      if (k > 0)
        more_m -= bound->key_m[bound->by_edge[k - 1]];
      if (k >= bound->trips_min && more_m >= 0)
        break;
      sum_m += more_m;
      bound->ends[stop] += 2;
      if (k > 0)
        {
          bound->ends[bound->by_edge[k - 1]]--;
          bound->ends[bound->parent[bound->by_edge[k - 1]]]--;
        }
    }
  return sum_m;
}

static int
compare_edges (const void *a, const void *b)
{
  const Edge *one = a, *two = b;

  return one->a != two->a ? (one->a < two->a ? -1 : 1) : one->b < two->b ? -1 : one->b > two->b;
}

static void
add_edge (Bound *bound, guint a, guint b)
{
  const Edge edge = { MIN (a, b), MAX (a, b) };

  g_array_append_val (bound->edges, edge);
}

/* Adds the legs of the tree over all legs; TRUE when one was new. */
static gboolean
take_over_tree (Bound *bound)
{
  const guint known = bound->edges->len, n = bound->n;
  guint kept = 0, *fill;
  Edge *edges;

  for (guint i = 1; i < n; i++)
    add_edge (bound, i, bound->parent[i]);
  edges = (Edge *)(gpointer)bound->edges->data;
  qsort (edges, bound->edges->len, sizeof *edges, compare_edges);
  for (guint i = 0; i < bound->edges->len; i++)
    if (i == 0 || compare_edges (&edges[i], &edges[kept - 1]) != 0)
      edges[kept++] = edges[i];
  g_array_set_size (bound->edges, kept);

  bound->to = g_renew (guint, bound->to, 2 * kept + 1);
  bound->leg_m = g_renew (double, bound->leg_m, 2 * kept + 1);
  memset (bound->first, 0, (n + 1) * sizeof (guint));
  for (guint i = 0; i < kept; i++)
    {
      bound->first[edges[i].a]++;
      bound->first[edges[i].b]++;
    }
  for (guint i = 1; i <= n; i++)
    bound->first[i] += bound->first[i - 1];
  fill = bound->first; /* counted down to each one's first */
  for (guint i = 0; i < kept; i++)
    {
      const double leg_m = plain_leg_m (bound, edges[i].a, edges[i].b);

      bound->to[--fill[edges[i].a]] = edges[i].b;
      bound->leg_m[fill[edges[i].a]] = leg_m;
      bound->to[--fill[edges[i].b]] = edges[i].a;
      bound->leg_m[fill[edges[i].b]] = leg_m;
    }
  return kept > known;
}

/* Raises the bound over the near legs; leaves the best prices found. */
static void
ascend (Bound *bound, double walk_m, guint steps)
{
  const guint n = bound->n;
  g_autofree double *best_price_m = g_memdup2 (bound->price_m, n * sizeof (double));
  g_autofree double *drift = g_new0 (double, n);
  double best_m = -INFINITY, scale = 1;
  guint waiting = 0;

  for (guint i = 0; i < steps && scale > 1e-4; i++)
    {
      double value_m, square = 0;

      near_tree (bound);
      value_m = worth_m (bound);
      if (value_m > best_m)
        {
          if (value_m > best_m + 1e-5 * fabs (walk_m))
            waiting = 0;
          best_m = value_m;
          memcpy (best_price_m, bound->price_m, n * sizeof (double));
        }
      if (++waiting > PATIENCE)
        {
          scale *= 0.7;
          waiting = 0;
        }
      for (guint j = 0; j < n; j++)
        {
          drift[j] = 0.6 * (bound->ends[j] - 2) + 0.4 * drift[j];
          square += drift[j] * drift[j];
        }
      if (!(square > 0) || !(walk_m > value_m))
        break;
      for (guint j = 0; j < n; j++)
        bound->price_m[j] += scale * (walk_m - value_m) / square * drift[j];
    }
  memcpy (bound->price_m, best_price_m, n * sizeof (double));
}

static int
compare_shares (const void *a, const void *b)
{
  const gint64 one = *(const gint64 *)a, two = *(const gint64 *)b;

  return one > two ? -1 : one < two;
}

/* L2: with loads over F - a each in a pail of its own, those over F / 2 each in another, the rest down to a
 * fills up. */
static guint
pails_needed (const FrRoundGround *ground)
{
  const guint n = ground->n_points - 1;
  const gint64 full = FR_ROUND_FULL;
  g_autofree gint64 *load = g_memdup2 (ground->shares + 1, n * sizeof (gint64)); /* falling */
  g_autofree gint64 *sum = g_new0 (gint64, n + 1);
  guint big = 0, own = 0, needed = 1;

  qsort (load, n, sizeof (gint64), compare_shares);
  for (guint i = 0; i < n; i++)
    sum[i + 1] = sum[i] + load[i];
  while (big < n && 2 * load[big] > full)
    big++;
  for (guint last = n; last-- > MIN (big, n - 1);) /* a is load[last], rising; then over all */
    {
      const gint64 a = 2 * load[last] > full ? 0 : load[last];
      gint64 over;

      if (last + 1 == n)
        own = big;
      while (own > 0 && load[own - 1] <= full - a)
        own--; /* grows again below, as a rises */
      while (own < big && load[own] > full - a)
        own++;
      over = sum[MAX (last + 1, big)] - sum[big] - ((gint64)(big - own) * full - (sum[big] - sum[own]));
      needed = MAX (needed, big + (over > 0 ? (guint)((over + full - 1) / full) : 0));
    }
  return needed;
}

double
fr_round_bound_m (const FrRoundGround *ground, double walk_m, guint steps)
{
  const guint n = ground->n_points - 1;
  g_autofree guint *near = NULL;
  const guint k = MIN (NEAR, n - 1);
  gint64 load = 0;
  double best_m = 0, radial_m = 0;
  Bound bound = { .ground = ground, .n = n, .trips_min = 1, .trips_max = 1 };

  g_return_val_if_fail (n > 0, 0);

  for (guint i = 1; i <= n; i++)
    {
      load += ground->shares[i];
      radial_m += 2 * fr_round_leg_m (ground, 0, i) * ((double)ground->shares[i] / FR_ROUND_FULL);
    }
  if (!ground->one_trip && load > FR_ROUND_FULL)
    {
      bound.trips_min = pails_needed (ground);
      bound.trips_max
          = MIN (n, MAX (bound.trips_min, (guint)(2 * (load / (double)FR_ROUND_PAIL_SHARES)) + 1));
    }
  bound.start_m = g_new (double, n);
  bound.edges = g_array_new (FALSE, FALSE, sizeof (Edge));
  bound.first = g_new0 (guint, n + 1);
  bound.price_m = g_new0 (double, n);
  bound.ends = g_new (gint, n);
  bound.parent = g_new (guint, n);
  bound.key_m = g_new (double, n);
  bound.done = g_new (guint8, n);
  bound.heap = g_new (guint, n);
  bound.heap_at = g_new (guint, n);
  bound.by_start = g_new (guint, n);
  bound.by_edge = g_new (guint, n);
  near = fr_round_near (ground->x_m + 1, ground->y_m + 1, n, k);
  for (guint i = 0; i < n; i++)
    {
      bound.start_m[i] = fr_round_leg_m (ground, 0, i + 1);
      bound.by_start[i] = i;
      bound.by_edge[i] = i + 1; /* the edge to its parent; the last is not used */
      for (guint j = 0; j < k; j++)
        add_edge (&bound, i, near[(gsize)i * k + j]);
    }
  whole_tree (&bound);
  best_m = worth_m (&bound);
  take_over_tree (&bound);
  for (guint round = 0; round < ROUNDS; round++)
    {
      ascend (&bound, walk_m, round == 0 ? steps : steps / 4);
      whole_tree (&bound);
      best_m = MAX (best_m, worth_m (&bound));
      if (!take_over_tree (&bound))
        break;
    }
  best_m = MAX (best_m, radial_m) * (1 - SAFETY);

  g_free (bound.start_m);
  g_array_unref (bound.edges);
  g_free (bound.first);
  g_free (bound.to);
  g_free (bound.leg_m);
  g_free (bound.price_m);
  g_free (bound.ends);
  g_free (bound.parent);
  g_free (bound.key_m);
  g_free (bound.done);
  g_free (bound.heap);
  g_free (bound.heap_at);
  g_free (bound.by_start);
  g_free (bound.by_edge);
  return best_m;
}
