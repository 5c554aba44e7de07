/* How short a round can be at best. Drop from any round the legs from and to the start: what is left of k
 * trips past n stops is a forest of n - k legs, and the dropped legs are 2k. The cheapest forest and the 2k
 * cheapest legs to the start cannot cost more (round-forest.c). Prices make that bound meet real rounds
 * better:
 *
 *  - each leg that ends at a stop costs that stop's price, twice which is paid back, because a round has two
 * at each stop. It is raised where there are too many and lowered where too few (Held and Karp 1970, 1971;
 * Fisher 1994);
 *  - a set of stops whose litres need r pails has at most as many legs inside as stops less r (Laporte,
 * Nobert and Desrochers 1985). Trees of the forest, and their branches, that hold more than a pail are such
 * sets; their legs get dearer until the forest falls apart there, and what a round may have of them is paid
 * back (Martinhon, Lucena and Maculan 2004).
 *
 * The steps are Polyak's, the direction partly the last one's (Volgenant and Jonker 1982). k is at least what
 * bin packing needs (bound L2, Martello and Toth 1990); and two trips that fit into one pail need never be
 * apart, so k is below twice the pails in all.
 *
 * The ascent looks at near legs only; what is returned was evaluated over all legs, so that it is a bound.
 * Legs that matter and were missing are added, and it goes on. With a pail there is also the sum of 2 x
 * litres / pail x distance, which counts each stop's share of a trip (Haimovich and Rinnooy Kan 1985). */
#include "domain/maths/round-forest.h"

#include <stdlib.h>
#include <string.h>

#define ROUNDS 4
#define PATIENCE 12
#define RINGS 16
#define RING_STEPS 60000 /* by the number of stops: with many sets a step takes longer */
#define PAIL_STEPS 100000
#define STEPS_MIN 60
#define SAFETY 1e-12 /* of what summing up may have rounded */

/* A round of steps: the forest, every set met so far by its key, and the best prices. */
typedef struct
{
  FrRoundForest *forest;
  GHashTable *met;
  gint64 *load, *tree_load; /* of the branch and of the tree at each stop */
  guint *branch, *tree;     /* the stop whose branch each is in, n for none, and the root of its tree */
  guint *first, *sorted;    /* room to sort stops in */
  GPtrArray *best_sets;
  GArray *best_set_prices;
  double *best_price_m;
  double *drift;
} Ascent;

static void
set_free (gpointer data)
{
  FrRoundSet *set = data;

  g_free (set->stops);
  g_free (set);
}

/* The pails a load needs at least. */
static guint
pails_of (gint64 load)
{
  return load <= FR_ROUND_FULL ? 1 : (guint)((load + FR_ROUND_FULL - 1) / FR_ROUND_FULL);
}

/* Some stops become a set with a price to come, or are found to be one. */
static FrRoundSet *
meet_set (Ascent *ascent, const guint *stops, guint n, gint64 load)
{
  FrRoundSet *set;
  guint64 key = 0;

  for (guint i = 0; i < n; i++)
    {
      FrChance mix = { stops[i] };

      key += fr_chance_bits (&mix);
    }
  set = g_hash_table_lookup (ascent->met, &key);
  if (set == NULL)
    {
      set = g_new0 (FrRoundSet, 1);
      set->key = key;
      set->n = n;
      set->stops = g_memdup2 (stops, n * sizeof *stops);
      set->pails = pails_of (load);
      g_hash_table_insert (ascent->met, &set->key, set);
    }
  if (!set->listed)
    {
      set->listed = TRUE;
      set->over = (gint)set->pails - 1;
      g_ptr_array_add (ascent->forest->sets, set);
    }
  return set;
}

/* The stops of each label that is over a pail become a set; they hang together in the forest. */
static void
meet_labels (Ascent *ascent, const guint *label, const gint64 *load)
{
  const FrRoundForest *forest = ascent->forest;
  const guint n = forest->n;
  guint *first = ascent->first, *sorted = ascent->sorted;

  memset (first, 0, (n + 1) * sizeof *first);
  for (guint i = 0; i < n; i++)
    first[label[i]]++;
  for (guint i = 1; i <= n; i++)
    first[i] += first[i - 1];
  for (guint i = n; i-- > 0;)
    sorted[--first[label[i]]] = i;
  for (guint name = 0; name < n; name++)
    {
      const guint size = first[name + 1] - first[name];

      if (size > 1 && load[name] > FR_ROUND_FULL)
        meet_set (ascent, sorted + first[name], size, load[name]);
    }
}

/* Finds the trees of the forest with more than a pail, and the least branches of them with more than one. */
static void
find_sets (Ascent *ascent)
{
  const FrRoundForest *forest = ascent->forest;
  const guint n = forest->n;

  memset (ascent->tree_load, 0, n * sizeof (gint64));
  for (guint i = 0; i < n; i++)
    {
      const guint stop = forest->found[i];

      ascent->tree[stop] = forest->kept[stop] ? ascent->tree[forest->parent[stop]] : stop;
      ascent->load[stop] = forest->ground->shares[stop + 1];
      ascent->tree_load[ascent->tree[stop]] += ascent->load[stop];
    }
  for (guint i = n; i-- > 0;) /* from the leaves; a branch over a pail is cut off */
    {
      const guint stop = forest->found[i];

      ascent->branch[stop] = ascent->load[stop] > FR_ROUND_FULL ? stop : n;
      if (ascent->branch[stop] == n && forest->kept[stop])
        ascent->load[forest->parent[stop]] += ascent->load[stop];
    }
  for (guint i = 0; i < n; i++)
    {
      const guint stop = forest->found[i];

      if (ascent->branch[stop] == n && forest->kept[stop])
        ascent->branch[stop] = ascent->branch[forest->parent[stop]];
    }
  meet_labels (ascent, ascent->branch, ascent->load);
  meet_labels (ascent, ascent->tree, ascent->tree_load);
}

static int
compare_far (const void *a, const void *b, void *data)
{
  const FrRoundForest *forest = data;
  const guint one = *(const guint *)a, two = *(const guint *)b;

  if (forest->start_m[one] != forest->start_m[two])
    return forest->start_m[one] > forest->start_m[two] ? -1 : 1;
  return one < two ? -1 : one > two;
}

/* Prices to begin with that give about the bound by shares of trips: the sets of all stops beyond some
 * distances, each priced by twice the way in to the next, and each stop's price less by its distance. */
static void
begin_with_rings (Ascent *ascent)
{
  FrRoundForest *forest = ascent->forest;
  const guint n = forest->n, rings = MIN (n, RINGS);
  guint *far = ascent->sorted;
  FrRoundSet *outer = NULL;
  gint64 load = 0;

  for (guint i = 0; i < n; i++)
    far[i] = i;
  qsort_r (far, n, sizeof *far, compare_far, forest);
  for (guint ring = 0, from = 0; ring < rings; ring++)
    {
      const guint to = (guint)((guint64)(ring + 1) * n / rings);
      const double away_m = forest->start_m[far[to - 1]];

      for (; from < to; from++)
        {
          load += forest->ground->shares[far[from] + 1];
          forest->price_m[far[from]] = -away_m;
        }
      if (outer != NULL)
        outer->price_m -= 2 * away_m;
      outer = meet_set (ascent, far, to, load);
      outer->price_m = 2 * away_m;
    }
}

static void
keep_best (Ascent *ascent)
{
  FrRoundForest *forest = ascent->forest;

  memcpy (ascent->best_price_m, forest->price_m, forest->n * sizeof (double));
  g_ptr_array_set_size (ascent->best_sets, 0);
  g_array_set_size (ascent->best_set_prices, 0);
  for (guint i = 0; i < forest->sets->len; i++)
    {
      FrRoundSet *set = forest->sets->pdata[i];

      g_ptr_array_add (ascent->best_sets, set);
      g_array_append_val (ascent->best_set_prices, set->price_m);
    }
}

static void
take_best (Ascent *ascent)
{
  FrRoundForest *forest = ascent->forest;

  memcpy (forest->price_m, ascent->best_price_m, forest->n * sizeof (double));
  for (guint i = 0; i < forest->sets->len; i++)
    {
      FrRoundSet *set = forest->sets->pdata[i];

      set->price_m = 0;
      set->listed = FALSE;
    }
  g_ptr_array_set_size (forest->sets, 0);
  for (guint i = 0; i < ascent->best_sets->len; i++)
    {
      FrRoundSet *set = ascent->best_sets->pdata[i];

      set->price_m = g_array_index (ascent->best_set_prices, double, i);
      set->listed = TRUE;
      g_ptr_array_add (forest->sets, set);
    }
}

/* One step up; FALSE when there is none. */
static gboolean
move_prices (Ascent *ascent, double step_m)
{
  FrRoundForest *forest = ascent->forest;
  double square = 0;
  guint kept = 0;

  for (guint i = 0; i < forest->n; i++)
    {
      ascent->drift[i] = 0.6 * (forest->ends[i] - 2) + 0.4 * ascent->drift[i];
      square += ascent->drift[i] * ascent->drift[i];
    }
  for (guint i = 0; i < forest->sets->len; i++)
    {
      const FrRoundSet *set = forest->sets->pdata[i];

      square += (double)set->over * set->over;
    }
  if (!(square > 0) || !(step_m > 0))
    return FALSE;
  step_m /= square;
  for (guint i = 0; i < forest->n; i++)
    forest->price_m[i] += step_m * ascent->drift[i];
  for (guint i = 0; i < forest->sets->len; i++)
    {
      FrRoundSet *set = forest->sets->pdata[i];

      set->price_m = MAX (0, set->price_m + step_m * set->over);
      set->listed = set->price_m > 0;
      if (set->listed)
        forest->sets->pdata[kept++] = set;
    }
  g_ptr_array_set_size (forest->sets, (gint)kept);
  return TRUE;
}

/* Raises the bound over the near legs; leaves the best prices found. */
static void
ascend (Ascent *ascent, double walk_m, guint steps, double scale)
{
  FrRoundForest *forest = ascent->forest;
  double best_m = -INFINITY;
  guint waiting = 0;

  memset (ascent->drift, 0, forest->n * sizeof (double));
  for (guint i = 0; i < steps && scale > 1e-4; i++)
    {
      double value_m;

      fr_round_forest_near (forest);
      value_m = fr_round_forest_worth_m (forest);
      if (value_m > best_m)
        {
          if (value_m > best_m + 1e-5 * walk_m)
            waiting = 0;
          best_m = value_m;
          keep_best (ascent);
        }
      if (++waiting > PATIENCE)
        {
          scale *= 0.7;
          waiting = 0;
        }
      if (forest->trips_max > 1)
        find_sets (ascent);
      if (!move_prices (ascent, scale * (walk_m - value_m)))
        break;
    }
  take_best (ascent);
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
  gint64 load = 0;
  guint trips_min = 1, trips_max = 1;
  double best_m, radial_m = 0;
  FrRoundForest forest;
  Ascent ascent = { .forest = &forest };

  g_return_val_if_fail (n > 0, 0);

  for (guint i = 1; i <= n; i++)
    {
      load += ground->shares[i];
      radial_m += 2 * fr_round_leg_m (ground, 0, i) * ((double)ground->shares[i] / FR_ROUND_FULL);
    }
  if (!ground->one_trip && load > FR_ROUND_FULL)
    {
      trips_min = pails_needed (ground);
      trips_max = MIN (n, MAX (trips_min, (guint)(2 * (load / (double)FR_ROUND_PAIL_SHARES)) + 1));
    }
  fr_round_forest_init (&forest, ground, trips_min, trips_max);
  ascent.met = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, set_free);
  ascent.load = g_new (gint64, n);
  ascent.tree_load = g_new (gint64, n);
  ascent.first = g_new (guint, n + 1);
  ascent.sorted = g_new (guint, n);
  ascent.branch = g_new (guint, n);
  ascent.tree = g_new (guint, n);
  ascent.best_sets = g_ptr_array_new ();
  ascent.best_set_prices = g_array_new (FALSE, FALSE, sizeof (double));
  ascent.best_price_m = g_new (double, n);
  ascent.drift = g_new (double, n);

  fr_round_forest_whole (&forest);
  best_m = fr_round_forest_worth_m (&forest);
  fr_round_forest_learn (&forest);
  if (radial_m > best_m)
    begin_with_rings (&ascent);
  if (trips_max > 1)
    steps = CLAMP ((radial_m > best_m ? RING_STEPS : PAIL_STEPS) / n, STEPS_MIN, steps);
  for (guint round = 0; round < ROUNDS; round++)
    {
      ascend (&ascent, walk_m, round == 0 ? steps : steps / 3, round == 0 ? 1 : 0.3);
      fr_round_forest_whole (&forest);
      best_m = MAX (best_m, fr_round_forest_worth_m (&forest));
      if (!fr_round_forest_learn (&forest))
        break;
    }

  fr_round_forest_clear (&forest);
  g_hash_table_unref (ascent.met);
  g_free (ascent.load);
  g_free (ascent.tree_load);
  g_free (ascent.first);
  g_free (ascent.sorted);
  g_free (ascent.branch);
  g_free (ascent.tree);
  g_ptr_array_unref (ascent.best_sets);
  g_array_unref (ascent.best_set_prices);
  g_free (ascent.best_price_m);
  g_free (ascent.drift);
  return MAX (best_m, radial_m) * (1 - SAFETY);
}
