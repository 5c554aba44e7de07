/* Small rounds, exactly. The shortest trip past each set of stops is found by dynamic programming over (set,
 * last stop) (Held and Karp 1962; Bellman 1962), forward from the start, so that the load on each leg, and
 * with it the litre-metres, are known on the way. A second one over sets then finds the best division into
 * trips. Costs are compared by walk, then litre-metres, then number of trips; that order is additive, so both
 * recursions stay exact. Walks within TIE of one another are equal, since sums of the same legs in another
 * order differ in their last digits; over the at most 25 comparisons that build on one another this stays
 * under 1e-9. */
#include "domain/maths/round-private.h"

#include <string.h>

#define TIE 1e-11
#define NOBODY G_MAXUINT8

typedef struct
{
  double walk_m;
  double carry_l_m;
  guint trips;
} Cost;

static const Cost hopeless = { INFINITY, INFINITY, 0 };

static gboolean
is_better (Cost a, Cost b)
{
  if (isinf (a.walk_m) || isinf (b.walk_m))
    return a.walk_m < b.walk_m;
  if (a.walk_m < b.walk_m - TIE * b.walk_m)
    return TRUE;
  if (a.walk_m > b.walk_m + TIE * b.walk_m)
    return FALSE;
  if (a.carry_l_m < b.carry_l_m - TIE * b.carry_l_m)
    return TRUE;
  return a.carry_l_m <= b.carry_l_m + TIE * b.carry_l_m && a.trips < b.trips;
}

/* The sets and what is known of each; bit i of a set is points[i]. */
typedef struct
{
  const FrRoundGround *ground;
  const guint *points;
  guint n;
  double *leg_m;    /* (n + 1)², the start last */
  double *litres_l; /* by set */
  gint64 *shares;   /* by set */
  Cost *best;       /* by set × last */
  guint8 *before;   /* the same: the stop before the last */
} Sets;

static void
sets_init (Sets *sets, const FrRoundGround *ground, const guint *points, guint n)
{
  const guint n_sets = 1u << n;

  *sets = (Sets){ .ground = ground, .points = points, .n = n };
  sets->leg_m = g_new (double, (n + 1) * (n + 1));
  sets->litres_l = g_new0 (double, n_sets);
  sets->shares = g_new0 (gint64, n_sets);
  sets->best = g_new (Cost, (gsize)n_sets * n);
  sets->before = g_new (guint8, (gsize)n_sets * n);
  for (guint i = 0; i <= n; i++)
    for (guint j = 0; j <= n; j++)
      sets->leg_m[i * (n + 1) + j] = fr_round_leg_m (ground, i < n ? points[i] : 0, j < n ? points[j] : 0);
  for (guint set = 1; set < n_sets; set++)
    {
      const guint low = (guint)g_bit_nth_lsf (set, -1);

      sets->litres_l[set] = sets->litres_l[set & (set - 1)] + ground->litres_l[points[low]];
      sets->shares[set] = sets->shares[set & (set - 1)] + ground->shares[points[low]];
    }
}

static void
sets_clear (Sets *sets)
{
  g_free (sets->leg_m);
  g_free (sets->litres_l);
  g_free (sets->shares);
  g_free (sets->best);
  g_free (sets->before);
}

static double
leg (const Sets *sets, guint a, guint b)
{
  return sets->leg_m[a * (sets->n + 1) + b];
}

static gboolean
fits (const Sets *sets, guint set)
{
  return sets->shares[set] <= FR_ROUND_FULL;
}

/* Fills best and before: the best way from the start through a set to its last. */
static void
walk_all (Sets *sets)
{
  const guint n = sets->n;

  for (guint set = 1; set < 1u << n; set++)
    for (guint last = 0; last < n; last++)
      {
        const guint rest = set & ~(1u << last);
        Cost best = hopeless;
        guint8 from = NOBODY;

        if ((set & 1u << last) != 0 && fits (sets, set))
          {
            if (rest == 0)
              best = (Cost){ leg (sets, n, last), 0, 0 };
            for (guint k = 0; k < n; k++)
              if ((rest & 1u << k) != 0)
                {
                  const Cost *way = &sets->best[(gsize)rest * n + k];
                  const double leg_m = leg (sets, k, last);
                  const Cost cost = { way->walk_m + leg_m, way->carry_l_m + sets->litres_l[rest] * leg_m, 0 };

                  if (is_better (cost, best))
                    {
                      best = cost;
                      from = (guint8)k;
                    }
                }
          }
        sets->best[(gsize)set * n + last] = best;
        sets->before[(gsize)set * n + last] = from;
      }
}

/* The best trip past a set, and its last stop. */
static Cost
close_trip (const Sets *sets, guint set, guint *last_out)
{
  const guint n = sets->n;
  Cost best = hopeless;

  *last_out = 0;
  for (guint last = 0; last < n; last++)
    if ((set & 1u << last) != 0)
      {
        const Cost *way = &sets->best[(gsize)set * n + last];
        const double leg_m = leg (sets, last, n);
        const Cost cost = { way->walk_m + leg_m, way->carry_l_m + sets->litres_l[set] * leg_m, 1 };

        if (is_better (cost, best))
          {
            best = cost;
            *last_out = last;
          }
      }
  return best;
}

/* Writes the points of a set's best trip; returns how many. */
static guint
trace_trip (const Sets *sets, guint set, guint *order_out)
{
  guint last, n = 0;

  close_trip (sets, set, &last);
  for (guint left = set; left != 0; n++)
    left &= left - 1;
  for (guint i = n; i-- > 0;)
    {
      const guint before = sets->before[(gsize)set * sets->n + last];

      order_out[i] = sets->points[last];
      set &= ~(1u << last);
      last = before;
    }
  return n;
}

void
fr_round_exact_trip (const FrRoundGround *ground, guint *order, guint n)
{
  g_autofree guint *points = g_memdup2 (order, n * sizeof *order);
  Sets sets;

  g_return_if_fail (n > 0 && n <= FR_ROUND_EXACT_STOPS);

  sets_init (&sets, ground, points, n);
  walk_all (&sets);
  trace_trip (&sets, (1u << n) - 1, order);
  sets_clear (&sets);
}

void
fr_round_exact (const FrRoundGround *ground, FrRoundParts *parts_out)
{
  const guint n = ground->n_points - 1, all = (1u << n) - 1;
  guint points[FR_ROUND_EXACT_STOPS], order[FR_ROUND_EXACT_STOPS];
  g_autofree Cost *trip = NULL, *best = NULL;
  g_autofree guint *first = NULL; /* the trip of a set's lowest stop */
  Sets sets;

  g_return_if_fail (n <= FR_ROUND_EXACT_STOPS);

  if (n == 0)
    return;
  for (guint i = 0; i < n; i++)
    points[i] = i + 1;
  sets_init (&sets, ground, points, n);
  walk_all (&sets);
  if (ground->one_trip)
    {
      trace_trip (&sets, all, order);
      fr_round_parts_add (parts_out, order, n);
      sets_clear (&sets);
      return;
    }

  trip = g_new (Cost, all + 1);
  best = g_new0 (Cost, all + 1);
  first = g_new0 (guint, all + 1);
  for (guint set = 1; set <= all; set++)
    {
      const guint low = set & -set, others = set & ~low;
      guint unused;

      trip[set] = fits (&sets, set) ? close_trip (&sets, set, &unused) : hopeless;
      best[set] = hopeless;
      for (guint part = others;; part = (part - 1) & others)
        {
          const Cost *one = &trip[part | low], *rest = &best[others & ~part];
          const Cost cost = { one->walk_m + rest->walk_m, one->carry_l_m + rest->carry_l_m, 1 + rest->trips };

          if (is_better (cost, best[set]))
            {
              best[set] = cost;
              first[set] = part | low;
            }
          if (part == 0)
            break;
        }
    }
  for (guint set = all; set != 0; set &= ~first[set])
    fr_round_parts_add (parts_out, order, trace_trip (&sets, first[set], order));
  sets_clear (&sets);
}
