/* Good trips under the pail. It begins with the better of two divisions: savings (Clarke and Wright 1964) and
 * the best cuts of the one-trip order (Beasley 1983; Prins 2004). Then, again and again, strings of stops are
 * taken out of trips that pass near one another and put back one by one where that costs least (ruin and
 * recreate by adjacent strings, Christiaens and Vanden Berghe 2020), looking only beside near neighbours; a
 * longer walk is let pass with a chance that falls (annealing). The chance comes from a fixed seed. Trips are
 * linked lists, and a log of what was unlinked and linked takes back what is refused. */
#include "domain/maths/round-private.h"

#include <stdlib.h>
#include <string.h>

#define SEED 0x7061696c73
#define NEAR 40
#define OUT 10 /* stops taken out at once, on average */
#define STRING_MAX 10
#define SPLIT_RATIO 0.5
#define SKIP_RATIO 0.01
#define WARM 0.3   /* of the mean leg, at first */
#define COLD 0.003 /* and at last */

/* Nodes: 0 is no stop; 1 to n - 1 are stops; n + r stands for the start in trip r. */
typedef struct
{
  const FrRoundGround *ground;
  guint n, k;
  guint *near; /* of stop s the row s - 1, of stops less one */
  guint *next, *prev, *trip;
  gint64 *load; /* by trip */
  guint *count; /* by trip */
  guint *empty, *empty_at, n_empty;
  GArray *log;
  guint n_trips; /* with something in it */
} Yard;

#define NO_TRIP G_MAXUINT

typedef struct
{
  guint stop, prev;
  gboolean was_in;
} Step;

static double
leg (const Yard *yard, guint a, guint b)
{
  return fr_round_leg_m (yard->ground, a < yard->n ? a : 0, b < yard->n ? b : 0);
}

static void
link_in (Yard *yard, guint stop, guint prev)
{
  const guint next = yard->next[prev], trip = prev < yard->n ? yard->trip[prev] : prev - yard->n;

  yard->next[prev] = stop;
  yard->prev[next] = stop;
  yard->next[stop] = next;
  yard->prev[stop] = prev;
  yard->trip[stop] = trip;
  yard->load[trip] += yard->ground->shares[stop];
  if (yard->count[trip]++ == 0)
    {
      const guint at = yard->empty_at[trip], last = yard->empty[--yard->n_empty];

      yard->empty[at] = last;
      yard->empty_at[last] = at;
    }
}

static void
link_out (Yard *yard, guint stop)
{
  const guint trip = yard->trip[stop];

  yard->next[yard->prev[stop]] = yard->next[stop];
  yard->prev[yard->next[stop]] = yard->prev[stop];
  yard->trip[stop] = NO_TRIP;
  yard->load[trip] -= yard->ground->shares[stop];
  if (--yard->count[trip] == 0)
    {
      yard->empty_at[trip] = yard->n_empty;
      yard->empty[yard->n_empty++] = trip;
    }
}

static double
insert_m (const Yard *yard, guint stop, guint prev)
{
  const guint next = yard->next[prev];

  return leg (yard, prev, stop) + leg (yard, stop, next) - leg (yard, prev, next);
}

static void
put_in (Yard *yard, guint stop, guint prev)
{
  const Step step = { stop, prev, FALSE };

  link_in (yard, stop, prev);
  g_array_append_val (yard->log, step);
}

/* The walk saved. */
static double
take_out (Yard *yard, guint stop)
{
  const Step step = { stop, yard->prev[stop], TRUE };

  link_out (yard, stop);
  g_array_append_val (yard->log, step);
  return insert_m (yard, stop, step.prev);
}

static void
undo (Yard *yard)
{
  for (guint i = yard->log->len; i-- > 0;)
    {
      const Step *step = &g_array_index (yard->log, Step, i);

      if (step->was_in)
        link_in (yard, step->stop, step->prev);
      else
        link_out (yard, step->stop);
    }
  g_array_set_size (yard->log, 0);
}

static void
yard_init (Yard *yard, const FrRoundGround *ground)
{
  const guint n = ground->n_points, n_nodes = 2 * n;

  *yard = (Yard){ .ground = ground, .n = n, .k = MIN (NEAR, n - 2) };
  yard->near = fr_round_near (ground->x_m + 1, ground->y_m + 1, n - 1, yard->k);
  yard->next = g_new (guint, n_nodes);
  yard->prev = g_new (guint, n_nodes);
  yard->trip = g_new (guint, n);
  yard->load = g_new0 (gint64, n);
  yard->count = g_new0 (guint, n);
  yard->empty = g_new (guint, n);
  yard->empty_at = g_new (guint, n);
  yard->log = g_array_new (FALSE, FALSE, sizeof (Step));
  for (guint i = 0; i < n; i++)
    {
      yard->next[n + i] = yard->prev[n + i] = n + i;
      yard->trip[i] = NO_TRIP;
      yard->empty[i] = yard->empty_at[i] = i;
    }
  yard->n_empty = n;
}

static void
yard_clear (Yard *yard)
{
  g_free (yard->near);
  g_free (yard->next);
  g_free (yard->prev);
  g_free (yard->trip);
  g_free (yard->load);
  g_free (yard->count);
  g_free (yard->empty);
  g_free (yard->empty_at);
  g_array_unref (yard->log);
}

static void
yard_fill (Yard *yard, const FrRoundParts *parts)
{
  for (guint trip = 0; trip < parts->n_trips; trip++)
    for (guint i = parts->first[trip]; i < parts->first[trip + 1]; i++)
      link_in (yard, parts->order[i], i == parts->first[trip] ? yard->n + trip : parts->order[i - 1]);
}

static void
yard_read (const Yard *yard, FrRoundParts *parts)
{
  g_autofree guint *order = g_new (guint, yard->n);

  parts->n_trips = 0;
  for (guint trip = 0; trip < yard->n; trip++)
    {
      guint n = 0;

      for (guint stop = yard->next[yard->n + trip]; stop < yard->n; stop = yard->next[stop])
        order[n++] = stop;
      if (n > 0)
        fr_round_parts_add (parts, order, n);
    }
}

/* The best places to cut one order into trips, by dynamic programming. */
static void
cut_order (const FrRoundGround *ground, const guint *order, FrRoundParts *parts)
{
  const guint n = ground->n_points - 1;
  g_autofree double *best_m = g_new (double, n + 1);
  g_autofree guint *from = g_new (guint, n + 1);
  g_autofree guint *cuts = g_new (guint, n + 1);
  guint n_cuts = 0;

  best_m[0] = 0;
  for (guint i = 1; i <= n; i++)
    best_m[i] = INFINITY;
  for (guint i = 0; i < n; i++)
    {
      double walk_m = fr_round_leg_m (ground, 0, order[i]);
      gint64 load = 0;

      for (guint j = i; j < n && (load += ground->shares[order[j]]) <= FR_ROUND_FULL; j++)
        {
          if (j > i)
            walk_m += fr_round_leg_m (ground, order[j - 1], order[j]);
          if (best_m[i] + walk_m + fr_round_leg_m (ground, order[j], 0) < best_m[j + 1])
            {
              best_m[j + 1] = best_m[i] + walk_m + fr_round_leg_m (ground, order[j], 0);
              from[j + 1] = i;
            }
        }
    }
  for (guint i = n; i > 0; i = from[i])
    cuts[n_cuts++] = i;
  while (n_cuts-- > 0)
    fr_round_parts_add (parts, order + from[cuts[n_cuts]], cuts[n_cuts] - from[cuts[n_cuts]]);
}

typedef struct
{
  double saved_m;
  guint a, b;
} Saving;

static int
compare_savings (const void *a, const void *b)
{
  const Saving *one = a, *two = b;

  if (one->saved_m != two->saved_m)
    return one->saved_m > two->saved_m ? -1 : 1;
  if (one->a != two->a)
    return one->a < two->a ? -1 : 1;
  return one->b < two->b ? -1 : one->b > two->b;
}

/* Every stop a trip of its own; then ends are joined, the greatest saving first. */
static void
join_savings (Yard *yard, FrRoundParts *parts)
{
  const FrRoundGround *ground = yard->ground;
  const guint n = ground->n_points, row = yard->k;
  g_autofree Saving *savings = g_new (Saving, (gsize)(n - 1) * row + 1);
  g_autofree guint *beside = g_new0 (guint, 2 * (gsize)n); /* of a stop in its chain; 0 the start */
  g_autofree guint *chain = g_new (guint, n), *order = g_new (guint, n);
  g_autofree gint64 *load = g_memdup2 (ground->shares, n * sizeof *ground->shares);
  guint n_savings = 0;

  for (guint a = 1; a < n; a++)
    {
      chain[a] = a;
      for (guint i = 0; i < row; i++)
        {
          const guint b = yard->near[(a - 1) * row + i] + 1;

          savings[n_savings++] = (Saving){ leg (yard, 0, a) + leg (yard, 0, b) - leg (yard, a, b), a, b };
        }
    }
  qsort (savings, n_savings, sizeof *savings, compare_savings);
  for (guint i = 0; i < n_savings; i++)
    {
      const guint a = savings[i].a, b = savings[i].b;
      guint root_a = a, root_b = b;

      if (beside[2 * a + 1] != 0 || beside[2 * b + 1] != 0)
        continue;
      while (chain[root_a] != root_a)
        root_a = chain[root_a] = chain[chain[root_a]];
      while (chain[root_b] != root_b)
        root_b = chain[root_b] = chain[chain[root_b]];
      if (root_a == root_b || load[root_a] + load[root_b] > FR_ROUND_FULL)
        continue;
      chain[root_b] = root_a;
      load[root_a] += load[root_b];
      beside[2 * a + (beside[2 * a] != 0)] = b;
      beside[2 * b + (beside[2 * b] != 0)] = a;
    }
  for (guint a = 1; a < n; a++)
    if (beside[2 * a + 1] == 0 && chain[a] != 0) /* an end not walked from yet; chain 0 marks walked */
      {
        guint n_order = 0, from = 0;

        for (guint here = a; here != 0;)
          {
            const guint next = beside[2 * here] != from ? beside[2 * here] : beside[2 * here + 1];

            order[n_order++] = here;
            chain[here] = 0;
            from = here;
            here = next;
          }
        fr_round_parts_add (parts, order, n_order);
      }
}

/* Takes out a string of about @length stops around @stop, or one with a gap in it that stays. */
static double
take_string (Yard *yard, guint stop, guint length, FrChance *chance, GArray *out)
{
  const guint count = yard->count[yard->trip[stop]];
  guint kept = 0, behind = 0, ahead = 0, first = stop, shift;
  double saved_m = 0;

  if (length > 1 && length < count && fr_chance_ratio (chance) < SPLIT_RATIO)
    for (kept = 1; length + kept < count && fr_chance_ratio (chance) < SKIP_RATIO;)
      kept++;
  for (guint s = yard->prev[stop]; s < yard->n && behind + 1 < length + kept; s = yard->prev[s])
    behind++;
  for (guint s = yard->next[stop]; s < yard->n && ahead + 1 < length + kept; s = yard->next[s])
    ahead++;
  shift = length + kept - 1 - ahead; /* at least so many must lie behind; the string fits, so it is no wrap */
  shift += fr_chance_below (chance, behind - shift + 1);
  while (shift-- > 0)
    first = yard->prev[first];
  shift = kept > 0 ? 1 + fr_chance_below (chance, length - 1) : 0; /* the gap comes after so many */
  for (guint i = 0, s = first; i < length + kept; i++)
    {
      const guint next = yard->next[s];

      if (kept == 0 || i < shift || i >= shift + kept)
        {
          saved_m += take_out (yard, s);
          g_array_append_val (out, s);
        }
      s = next;
    }
  return saved_m;
}

static double
ruin (Yard *yard, FrChance *chance, guint *ruined, guint mark, GArray *out)
{
  const guint n_trips = yard->n - yard->n_empty, seed = 1 + fr_chance_below (chance, yard->n - 1);
  const double mean = (double)(yard->n - 1) / n_trips, longest = MIN (STRING_MAX, mean);
  guint strings = (guint)(1 + fr_chance_ratio (chance) * (4.0 * OUT / (1 + longest) - 1));
  double saved_m = 0;

  for (guint i = 0; i <= yard->k && strings > 0; i++)
    {
      const guint stop = i == 0 ? seed : yard->near[(seed - 1) * yard->k + i - 1] + 1,
                  trip = yard->trip[stop];

      if (trip == NO_TRIP || ruined[trip] == mark)
        continue;
      ruined[trip] = mark;
      saved_m += take_string (yard, stop,
                              1 + fr_chance_below (chance, (guint)MIN (longest, yard->count[trip])),
                              chance, out);
      strings--;
    }
  return saved_m;
}

typedef struct
{
  double key;
  guint stop;
} Wait;

static int
compare_waits (const void *a, const void *b)
{
  const Wait *one = a, *two = b;

  if (one->key != two->key)
    return one->key < two->key ? -1 : 1;
  return one->stop < two->stop ? -1 : one->stop > two->stop;
}

static double
recreate (Yard *yard, FrChance *chance, const GArray *out, Wait *waits)
{
  const guint way = fr_chance_below (chance, 11);
  double added_m = 0;

  for (guint i = 0; i < out->len; i++)
    {
      const guint stop = g_array_index (out, guint, i);
      const double away_m = leg (yard, 0, stop);

      waits[i].stop = stop;
      waits[i].key = way < 4    ? fr_chance_ratio (chance)
                     : way < 8  ? -(double)yard->ground->shares[stop]
                     : way < 10 ? -away_m
                                : away_m;
    }
  qsort (waits, out->len, sizeof *waits, compare_waits);
  for (guint i = 0; i < out->len; i++)
    {
      const guint stop = waits[i].stop;
      const gint64 room = FR_ROUND_FULL - yard->ground->shares[stop];
      guint best = yard->n + yard->empty[0]; /* there is one more trip than stops */
      double best_m = 2 * leg (yard, 0, stop);

      for (guint j = 0; j < yard->k; j++)
        {
          const guint v = yard->near[(stop - 1) * yard->k + j] + 1;

          if (yard->trip[v] == NO_TRIP || yard->load[yard->trip[v]] > room
              || fr_chance_bits (chance) < (guint64)(SKIP_RATIO * 0x1p64))
            continue;
          for (guint side = 0; side < 2; side++)
            {
              const guint prev = side == 0 ? yard->prev[v] : v;
              const double cost_m = insert_m (yard, stop, prev);

              if (cost_m < best_m)
                {
                  best_m = cost_m;
                  best = prev;
                }
            }
        }
      put_in (yard, stop, best);
      added_m += best_m;
    }
  return added_m;
}

void
fr_round_trips (const FrRoundGround *ground, const guint *tour, guint steps, FrRoundParts *parts_out)
{
  const guint n = ground->n_points;
  FrChance chance = { SEED + n };
  FrRoundParts joined;
  g_autoptr (GArray) out = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree guint *ruined = g_new0 (guint, n);
  g_autofree Wait *waits = g_new (Wait, n);
  double walk_m, least_m, warmth_m, cooling_ratio;
  Yard yard;

  g_return_if_fail (n > 2);

  yard_init (&yard, ground);
  fr_round_parts_init (&joined, ground);
  cut_order (ground, tour, parts_out);
  join_savings (&yard, &joined);
  walk_m = fr_round_parts_walk_m (parts_out, ground);
  least_m = fr_round_parts_walk_m (&joined, ground);
  yard_fill (&yard, least_m < walk_m ? &joined : parts_out);
  fr_round_parts_clear (&joined);
  least_m = walk_m = MIN (walk_m, least_m);
  yard_read (&yard, parts_out);

  warmth_m = WARM * walk_m / n;
  cooling_ratio = steps > 1 ? pow (COLD / WARM, 1.0 / steps) : 1;
  for (guint i = 1; i <= steps; i++, warmth_m *= cooling_ratio)
    {
      double change_m;

      g_array_set_size (yard.log, 0);
      g_array_set_size (out, 0);
      change_m = -ruin (&yard, &chance, ruined, i, out);
      change_m += recreate (&yard, &chance, out, waits);
      if (change_m >= -warmth_m * log (1 - fr_chance_ratio (&chance)))
        {
          undo (&yard);
          continue;
        }
      walk_m += change_m;
      if (walk_m < least_m * (1 - 1e-12))
        {
          least_m = walk_m;
          yard_read (&yard, parts_out);
        }
    }
  yard_clear (&yard);
}
