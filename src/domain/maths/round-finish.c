/* The last touches to trips found by search. Each short trip is put in its best order, a longer one searched
 * once more by itself. Then, with the walk as it is: a stop that lies on a later leg of its trip anyway waits
 * until then, for its litres are carried less far; the trip goes the way round that carries less; and where a
 * leg passes over the start the pail is emptied there. Other orders of the same walk are not looked for here.
 */
#include "domain/maths/round-private.h"

#include <string.h>

#define SHORT_TRIP 9 /* stops; put in order exactly */
#define KICKS 20     /* a stop, on a longer one */
#define ON_THE_WAY 1e-13

static gboolean
is_on_leg (const FrRoundGround *ground, guint stop, guint from, guint to)
{
  const double straight_m = fr_round_leg_m (ground, from, to);

  return fr_round_leg_m (ground, from, stop) + fr_round_leg_m (ground, stop, to)
         <= straight_m * (1 + ON_THE_WAY);
}

/* Puts each stop that is on the way twice where it is passed last. */
static void
wait_with_stops (const FrRoundGround *ground, guint *order, guint n)
{
  for (guint i = 0, looks = n; looks > 0 && i + 1 < n;
       looks--) /* stops at one place could pass one another for ever */
    {
      const guint stop = order[i];
      guint to = i;

      if (is_on_leg (ground, stop, i > 0 ? order[i - 1] : 0, order[i + 1]))
        for (guint j = n - 1; j > i && to == i; j--)
          if (is_on_leg (ground, stop, order[j], j + 1 < n ? order[j + 1] : 0))
            to = j;
      memmove (order + i, order + i + 1, (to - i) * sizeof *order);
      order[to] = stop;
      i += to == i;
    }
}

static void
lighten (const FrRoundGround *ground, guint *order, guint n)
{
  g_autofree guint *back = g_new (guint, n);

  for (guint i = 0; i < n; i++)
    back[i] = order[n - 1 - i];
  wait_with_stops (ground, order, n);
  wait_with_stops (ground, back, n);
  if (fr_round_trip_carry_l_m (ground, back, n) < fr_round_trip_carry_l_m (ground, order, n))
    memcpy (order, back, n * sizeof *order);
}

static void
shorten (const FrRoundGround *ground, guint *order, guint n)
{
  g_autofree guint *other = g_memdup2 (order, n * sizeof *order);

  fr_round_tour (ground, other, n, KICKS * n);
  if (fr_round_trip_walk_m (ground, other, n) < fr_round_trip_walk_m (ground, order, n))
    memcpy (order, other, n * sizeof *order);
}

void
fr_round_finish (const FrRoundGround *ground, FrRoundParts *parts)
{
  FrRoundParts whole = *parts;

  fr_round_parts_init (parts, ground);
  for (guint i = 0; i < whole.n_trips; i++)
    {
      guint *order = whole.order + whole.first[i], n = whole.first[i + 1] - whole.first[i], from = 0;
      gint64 load = 0;

      if (n <= SHORT_TRIP)
        fr_round_exact_trip (ground, order, n);
      else if (whole.n_trips > 1)
        shorten (ground, order, n);
      for (guint j = 1; j <= n; j++)
        {
          load += ground->shares[order[j - 1]];
          if (j == n || (load > 0 && is_on_leg (ground, 0, order[j - 1], order[j])))
            {
              lighten (ground, order + from, j - from);
              fr_round_parts_add (parts, order + from, j - from);
              from = j;
              load = 0;
            }
        }
    }
  fr_round_parts_clear (&whole);
}
