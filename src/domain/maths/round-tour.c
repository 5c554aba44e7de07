/* A good order for one trip of any size. From the nearest-neighbour order, edges are exchanged (2-opt, Croes
 * 1958) and short runs of stops moved, either way round (Or 1976), as long as that shortens the trip, looking
 * only at near neighbours and only where something changed. Then, again and again, two runs that follow one
 * another are swapped somewhere (a local double bridge, Martin, Otto and Felten 1991), the search is repeated
 * around it, and what got longer is undone. Every change is a reversal of a piece of the tour in an array, of
 * the shorter side, so that undoing is reversing again.
 *
 * At 200 random stops about 1 % over the shortest, at 2,000 about 3 %: docs/physics/round.md. */
#include "domain/maths/round-private.h"

#include <string.h>

#define NEAR 10
#define RUN 3   /* the longest run of stops moved at once */
#define KICK 50 /* the longest run swapped */
#define SEED 0x726f756e64
#define ROUNDING 1e-12

typedef struct
{
  guint from, to;
  guint8 turned;
} Flip;

typedef struct
{
  guint n, k;
  double *x_m, *y_m;
  guint *near;
  guint *at; /* the node at each place */
  guint *place;
  guint8 mirrored; /* the array reads against the tour */
  guint8 turned;   /* and the search looks at the tour against its direction */
  GArray *flips;
  guint *queue; /* nodes to look at, a ring */
  guint8 *queued;
  guint head, n_queued;
  double least_m; /* a gain to be believed */
} Tour;

static double
leg (const Tour *tour, guint a, guint b)
{
  const double dx = tour->x_m[a] - tour->x_m[b], dy = tour->y_m[a] - tour->y_m[b];

  return sqrt (dx * dx + dy * dy);
}

static guint
step (const Tour *tour, guint node, gboolean back)
{
  const guint place = tour->place[node];

  if ((tour->mirrored ^ tour->turned ^ back) != 0)
    return tour->at[place == 0 ? tour->n - 1 : place - 1];
  return tour->at[place + 1 == tour->n ? 0 : place + 1];
}

static guint
after (const Tour *tour, guint node)
{
  return step (tour, node, 0);
}

static guint
before (const Tour *tour, guint node)
{
  return step (tour, node, 1);
}

/* Turns the path that leads forward from one node to another, so that it reads backward. */
static void
flip (Tour *tour, guint from, guint to)
{
  const guint n = tour->n;
  const gboolean against = (tour->mirrored ^ tour->turned) != 0;
  const Flip done = { from, to, tour->turned };
  guint i = tour->place[against ? to : from], j = tour->place[against ? from : to];
  guint length = (j + n - i) % n + 1;

  g_array_append_val (tour->flips, done);
  if (2 * length > n) /* the rest instead, and read everything the other way */
    {
      const guint start = (j + 1) % n;

      j = (i + n - 1) % n;
      i = start;
      length = n - length;
      tour->mirrored ^= 1;
    }
  for (guint swaps = length / 2; swaps > 0; swaps--)
    {
      const guint a = tour->at[i], b = tour->at[j];

      tour->at[i] = b;
      tour->place[b] = i;
      tour->at[j] = a;
      tour->place[a] = j;
      i = i + 1 == n ? 0 : i + 1;
      j = j == 0 ? n - 1 : j - 1;
    }
}

static void
undo (Tour *tour)
{
  const guint8 turned = tour->turned;

  for (guint i = tour->flips->len; i-- > 0;)
    {
      const Flip *done = &g_array_index (tour->flips, Flip, i);
      const guint from = done->to, to = done->from;

      tour->turned = done->turned;
      flip (tour, from, to);
      g_array_set_size (tour->flips, i);
    }
  tour->turned = turned;
}

static void
look_at (Tour *tour, guint node)
{
  if (tour->queued[node])
    return;
  tour->queued[node] = TRUE;
  tour->queue[(tour->head + tour->n_queued++) % tour->n] = node;
}

/* A shorter way by a new edge from @a to a near neighbour, in place of the edge from its predecessor; the
 * gain, or 0. */
static double
better_at (Tour *tour, guint a)
{
  const guint p = before (tour, a);
  const double freed_m = leg (tour, p, a);
  guint end = a;

  for (guint i = 0; i < tour->k; i++) /* 2-opt: p a ... pc c becomes p pc ... a c */
    {
      const guint c = tour->near[a * tour->k + i], pc = before (tour, c);
      const double added_m = leg (tour, a, c);
      double gain_m;

      if (added_m >= freed_m)
        break;
      gain_m = freed_m + leg (tour, pc, c) - added_m - leg (tour, p, pc);
      if (pc != a && gain_m > tour->least_m)
        {
          flip (tour, a, pc);
          look_at (tour, p);
          look_at (tour, a);
          look_at (tour, pc);
          look_at (tour, c);
          return gain_m;
        }
    }
  for (guint run = 1; run <= RUN && run + 2 < tour->n; run++, end = after (tour, end)) /* the run a to end */
    {
      const guint q = after (tour, end), first_place = tour->place[a];
      const gboolean against = (tour->mirrored ^ tour->turned) != 0;
      const double out_m = freed_m + leg (tour, end, q) - leg (tour, p, q);

      for (guint i = 0; i < tour->k; i++)
        {
          const guint c = tour->near[a * tour->k + i], place = tour->place[c];
          const guint ahead
              = (against ? first_place + tour->n - place : place + tour->n - first_place) % tour->n;
          const double added_m = leg (tour, a, c);

          if (added_m >= out_m)
            break;
          if (ahead < run) /* in the run itself */
            continue;
          if (c != p)
            {
              const guint nc = after (tour, c);
              const double gain_m = out_m - added_m - leg (tour, end, nc) + leg (tour, c, nc);

              if (gain_m > tour->least_m) /* p [a..end] [q..c] nc becomes p q..c a..end nc */
                {
                  flip (tour, a, c);
                  flip (tour, c, q);
                  flip (tour, end, a);
                  look_at (tour, p);
                  look_at (tour, q);
                  look_at (tour, a);
                  look_at (tour, end);
                  look_at (tour, c);
                  look_at (tour, nc);
                  return gain_m;
                }
            }
          if (c != q)
            {
              const guint pc = before (tour, c);
              const double gain_m = out_m - added_m - leg (tour, end, pc) + leg (tour, pc, c);

              if (gain_m > tour->least_m) /* p [a..end] [q..pc] c becomes p q..pc end..a c */
                {
                  flip (tour, a, pc);
                  flip (tour, pc, q);
                  look_at (tour, p);
                  look_at (tour, q);
                  look_at (tour, a);
                  look_at (tour, end);
                  look_at (tour, c);
                  look_at (tour, pc);
                  return gain_m;
                }
            }
        }
    }
  return 0;
}

/* Empties the queue; the gain. */
static double
settle (Tour *tour)
{
  double sum_m = 0;

  while (tour->n_queued > 0)
    {
      const guint node = tour->queue[tour->head];
      double gain_m;

      tour->head = (tour->head + 1) % tour->n;
      tour->n_queued--;
      tour->queued[node] = FALSE;
      do
        {
          gain_m = better_at (tour, node);
          if (gain_m <= 0)
            {
              tour->turned ^= 1;
              gain_m = better_at (tour, node);
            }
          sum_m += gain_m;
        }
      while (gain_m > 0);
    }
  return sum_m;
}

/* Swaps two neighbouring runs somewhere; what it costs. */
static double
kick (Tour *tour, FrChance *chance)
{
  const guint longest = MIN (KICK, (tour->n - 2) / 2), one = 1 + fr_chance_below (chance, longest),
              two = 1 + fr_chance_below (chance, longest);
  const guint p = tour->at[fr_chance_below (chance, tour->n)], a = after (tour, p);
  guint b = a, c, d, q;

  for (guint i = 1; i < one; i++)
    b = after (tour, b);
  c = d = after (tour, b);
  for (guint i = 1; i < two; i++)
    d = after (tour, d);
  q = after (tour, d);
  flip (tour, a, d); /* p [a..b] [c..d] q becomes p c..d a..b q */
  flip (tour, d, c);
  flip (tour, b, a);
  look_at (tour, p);
  look_at (tour, a);
  look_at (tour, b);
  look_at (tour, c);
  look_at (tour, d);
  look_at (tour, q);
  return leg (tour, p, c) + leg (tour, d, a) + leg (tour, b, q) - leg (tour, p, a) - leg (tour, b, c)
         - leg (tour, d, q);
}

/* From node 0 always to the nearest that is left. */
static void
begin (Tour *tour)
{
  const guint n = tour->n;
  g_autofree guint *left = g_new (guint, n), *left_at = g_new (guint, n);
  guint n_left = n, here = 0;

  for (guint i = 0; i < n; i++)
    left[i] = left_at[i] = i;
  for (guint place = 0;; place++)
    {
      guint next = n;
      double least_m = INFINITY;

      tour->at[place] = here;
      tour->place[here] = place;
      left[left_at[here]] = left[--n_left];
      left_at[left[n_left]] = left_at[here];
      left_at[here] = n;
      if (n_left == 0)
        return;
      for (guint i = 0; i < tour->k && next == n; i++)
        if (left_at[tour->near[here * tour->k + i]] < n)
          next = tour->near[here * tour->k + i];
      for (guint i = 0; i < n_left && next == n; i++)
        least_m = MIN (least_m, leg (tour, here, left[i]));
      for (guint i = 0; next == n; i++)
        if (leg (tour, here, left[i]) <= least_m)
          next = left[i];
      here = next;
    }
}

void
fr_round_tour (const FrRoundGround *ground, guint *order, guint n_stops, guint kicks)
{
  const guint n = n_stops + 1;
  FrChance chance = { SEED + n };
  g_autofree guint *points = g_new (guint, n);
  double size_m = 0;
  Tour tour = { .n = n, .k = MIN (NEAR, n - 1) };

  if (n_stops < 4) /* a run of one, its two neighbours, and one more */
    {
      if (n_stops > 0)
        fr_round_exact_trip (ground, order, n_stops);
      return;
    }
  points[0] = 0;
  memcpy (points + 1, order, n_stops * sizeof *order);
  tour.x_m = g_new (double, n);
  tour.y_m = g_new (double, n);
  for (guint i = 0; i < n; i++)
    {
      tour.x_m[i] = ground->x_m[points[i]];
      tour.y_m[i] = ground->y_m[points[i]];
      size_m = MAX (size_m, MAX (fabs (tour.x_m[i]), fabs (tour.y_m[i])));
    }
  tour.least_m = size_m * ROUNDING;
  tour.near = fr_round_near (tour.x_m, tour.y_m, n, tour.k);
  tour.at = g_new (guint, n);
  tour.place = g_new (guint, n);
  tour.queue = g_new (guint, n);
  tour.queued = g_new0 (guint8, n);
  tour.flips = g_array_new (FALSE, FALSE, sizeof (Flip));

  begin (&tour);
  for (guint place = 0; place < n; place++)
    look_at (&tour, tour.at[place]);
  settle (&tour);
  for (guint i = 0; i < kicks; i++)
    {
      double lost_m;

      g_array_set_size (tour.flips, 0);
      lost_m = kick (&tour, &chance);
      lost_m -= settle (&tour);
      if (lost_m > 0)
        undo (&tour);
    }

  for (guint i = 0, node = after (&tour, 0); i < n_stops; i++, node = after (&tour, node))
    order[i] = points[node];
  g_free (tour.x_m);
  g_free (tour.y_m);
  g_free (tour.near);
  g_free (tour.at);
  g_free (tour.place);
  g_free (tour.queue);
  g_free (tour.queued);
  g_array_unref (tour.flips);
}
