/* The gathering round against brute force over all orders and divisions, GLPK's optimum, and closed forms.
 * What each found is printed at the end and kept in docs/checks.md. */
#include "domain/maths/round-private.h"

#include <glpk.h>

#include "found.h"
#include "table.h"

#define RANDOM_SMALL 100 /* of each kind */

typedef struct
{
  double start_x_m, start_y_m, pail_l;
  guint n;
  FrRoundStop *stops;
} Bush;

static void
bush_clear (Bush *bush)
{
  g_free (bush->stops);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Bush, bush_clear)

typedef enum
{
  SCATTERED,
  LATTICE, /* small whole numbers, so that many walks are equal, stops coincide and lie at the start */
} Kind;

static Bush
random_bush (GRand *rand, guint n, Kind kind, gboolean pail)
{
  Bush bush = { .pail_l = NAN, .n = n, .stops = g_new (FrRoundStop, n + 1) };

  if (kind == LATTICE)
    {
      if (pail)
        bush.pail_l = g_rand_int_range (rand, 2, 12);
      for (guint i = 0; i < n; i++)
        bush.stops[i] = (FrRoundStop){ g_rand_int_range (rand, -2, 3), g_rand_int_range (rand, -1, 2),
                                       g_rand_int_range (rand, 0, 7) };
      return bush;
    }
  bush.start_x_m = g_rand_double_range (rand, -50, 150);
  bush.start_y_m = g_rand_double_range (rand, -50, 150);
  if (pail)
    bush.pail_l = g_rand_double_range (rand, 8, 40);
  for (guint i = 0; i < n; i++)
    bush.stops[i] = (FrRoundStop){ g_rand_double_range (rand, 0, 100), g_rand_double_range (rand, 0, 100),
                                   g_rand_double_range (rand, 0, 18) };
  return bush;
}

static FrRound *
round_of (const Bush *bush)
{
  FrRoundCode code;
  FrRound *round
      = fr_round_new (bush->start_x_m, bush->start_y_m, bush->pail_l, bush->stops, bush->n, &code, NULL);

  g_assert_cmpint (code, ==, FR_ROUND_OK);
  g_assert_nonnull (round);
  return round;
}

static double
apart_m (const Bush *bush, gint a, gint b) /* -1 is the start */
{
  return hypot (
      (a < 0 ? bush->start_x_m : bush->stops[a].x_m) - (b < 0 ? bush->start_x_m : bush->stops[b].x_m),
      (a < 0 ? bush->start_y_m : bush->stops[a].y_m) - (b < 0 ? bush->start_y_m : bush->stops[b].y_m));
}

/* Whatever the answer, its figures must be those of its own trips, and every litre must have been carried. */
static void
assert_sound (const Bush *bush, const FrRound *round)
{
  g_autofree double *carried_l = g_new0 (double, bush->n + 1);
  g_autofree guint *visits = g_new0 (guint, bush->n + 1);
  double walk_m = 0, carry_l_m = 0;
  gboolean ordinary = FALSE;

  for (guint i = 0; i < round->n_trips; i++)
    {
      const FrRoundTrip *trip = &round->trips[i];
      double trip_m = 0, trip_l_m = 0, load_l = 0;
      gint here = -1;

      g_assert_cmpuint (trip->n_stops, >, 0);
      g_assert_false (trip->alone && ordinary); /* those come first */
      ordinary = !trip->alone;
      for (guint j = 0; j < trip->n_stops; j++)
        {
          const guint stop = trip->order[j];
          const double leg_m = apart_m (bush, here, (gint)stop);

          g_assert_cmpuint (stop, <, bush->n);
          trip_m += leg_m;
          trip_l_m += load_l * leg_m;
          if (trip->alone)
            load_l += bush->pail_l;
          else
            {
              load_l += bush->stops[stop].litres_l - carried_l[stop];
              visits[stop]++;
            }
          here = (gint)stop;
        }
      for (guint j = 0; j < trip->n_stops; j++)
        carried_l[trip->order[j]]
            = trip->alone ? carried_l[trip->order[j]] + bush->pail_l : bush->stops[trip->order[j]].litres_l;
      trip_m += apart_m (bush, here, -1);
      trip_l_m += load_l * apart_m (bush, here, -1);
      g_assert_cmpfloat_with_epsilon (trip->walk_m, trip_m, 1e-9 * (1 + trip_m));
      g_assert_cmpfloat_with_epsilon (trip->carry_l_m, trip_l_m, 1e-8 * (1 + trip_l_m));
      g_assert_cmpfloat_with_epsilon (trip->litres_l, load_l, 1e-8 * (1 + load_l));
      if (!isnan (bush->pail_l))
        g_assert_cmpfloat (load_l, <=, bush->pail_l * (1 + 1e-8));
      walk_m += trip_m;
      carry_l_m += trip_l_m;
    }
  for (guint i = 0; i < bush->n; i++)
    {
      g_assert_cmpuint (visits[i], ==, 1);
      g_assert_cmpfloat_with_epsilon (carried_l[i], bush->stops[i].litres_l, 1e-9 * (1 + carried_l[i]));
    }
  g_assert_cmpfloat_with_epsilon (round->walk_m, walk_m, 1e-9 * (1 + walk_m));
  g_assert_cmpfloat_with_epsilon (round->carry_l_m, carry_l_m, 1e-8 * (1 + carry_l_m));
  g_assert_cmpfloat (round->bound_m, <=, round->walk_m * (1 + 1e-12));
  g_assert_cmpfloat (round->bound_m, >=, 0);
  if (round->bound_m > 0)
    g_assert_cmpfloat_with_epsilon (round->gap_ratio, round->walk_m / round->bound_m - 1, 1e-9);
  if (round->is_exact)
    g_assert_cmpfloat (round->gap_ratio, <=, 1e-9 * 1.001);
}

/* --- brute force: every order, and before each stop the choice of going by the start --- */

typedef struct
{
  const Bush *bush;
  double *left_l; /* of each stop's ordinary visit */
  double limit_m; /* no longer walk counts */
  double least_m, least_l_m;
} Brute;

static void
brute_from (Brute *brute, guint visited, gint here, double load_l, double walk_m, double carry_l_m)
{
  const Bush *bush = brute->bush;
  const double home_m = apart_m (bush, here, -1);

  if (walk_m + home_m > brute->limit_m)
    return;
  if (visited == (1u << bush->n) - 1)
    {
      brute->least_m = MIN (brute->least_m, walk_m + home_m);
      brute->least_l_m = MIN (brute->least_l_m, carry_l_m + load_l * home_m);
      return;
    }
  for (guint next = 0; next < bush->n; next++)
    if ((visited & 1u << next) == 0)
      {
        const double litres_l = brute->left_l[next], leg_m = apart_m (bush, here, (gint)next),
                     from_start_m = apart_m (bush, -1, (gint)next);

        if (isnan (bush->pail_l) || load_l + litres_l <= bush->pail_l * (1 + 1e-9))
          brute_from (brute, visited | 1u << next, (gint)next, load_l + litres_l, walk_m + leg_m,
                      carry_l_m + load_l * leg_m);
        if (here >= 0 && !isnan (bush->pail_l))
          brute_from (brute, visited | 1u << next, (gint)next, litres_l, walk_m + home_m + from_start_m,
                      carry_l_m + load_l * home_m);
      }
}

/* The least walk, then the least litre-metres among walks within 1e-9 of it. @known_m: of some answer, to cut
 * off what is longer by more than a hundredth; the search is wider than that, so a shorter walk would be
 * found. */
static void
brute_force (const Bush *bush, double known_m, double *walk_out_m, double *carry_out_l_m)
{
  double alone_m = 0, alone_l_m = 0;
  g_autofree double *left_l = g_new (double, bush->n + 1);
  Brute brute = { .bush = bush, .left_l = left_l, .least_m = INFINITY, .least_l_m = INFINITY };

  for (guint i = 0; i < bush->n; i++)
    for (left_l[i] = bush->stops[i].litres_l; left_l[i] > bush->pail_l * (1 + 1e-9);
         left_l[i] -= bush->pail_l)
      {
        alone_m += 2 * apart_m (bush, -1, (gint)i);
        alone_l_m += bush->pail_l * apart_m (bush, -1, (gint)i);
      }
  brute.limit_m = (known_m - alone_m) * 1.01 + 1e-9;
  brute_from (&brute, 0, -1, 0, 0, 0);
  brute.limit_m = brute.least_m * (1 + 1e-9) + 1e-12;
  brute.least_l_m = INFINITY;
  brute_from (&brute, 0, -1, 0, 0, 0);
  *walk_out_m = brute.least_m + alone_m;
  *carry_out_l_m = brute.least_l_m + alone_l_m;
}

static void
test_brute_force (gconstpointer data)
{
  const guint which = GPOINTER_TO_UINT (data);
  g_autoptr (GRand) rand = g_rand_new_with_seed (411 + which);

  for (guint i = 0; i < RANDOM_SMALL; i++)
    {
      const guint n = 1 + i % 8;
      g_auto (Bush) bush = random_bush (rand, n, which % 2 == 0 ? SCATTERED : LATTICE, which / 2 == 1);
      g_autoptr (FrRound) round = round_of (&bush);
      double walk_m, carry_l_m;

      assert_sound (&bush, round);
      brute_force (&bush, round->walk_m, &walk_m, &carry_l_m);
      found_near ("walk against brute force to 8 stops, relative", round->walk_m / MAX (1, walk_m),
                  walk_m / MAX (1, walk_m), 1e-9);
      found_near ("litre-metres against brute force to 8 stops, relative",
                  round->carry_l_m / MAX (1, carry_l_m), carry_l_m / MAX (1, carry_l_m), 1e-9);
      g_assert_true (round->is_exact);
    }
}

/* --- the inside: bound and search where the optimum is known --- */

/* The ordinary stops of a bush, as the search sees them; litres at most a pail. */
static FrRoundGround
ground_of (const Bush *bush)
{
  const guint n = bush->n + 1;
  FrRoundGround ground = { .n_points = n, .one_trip = isnan (bush->pail_l) };

  ground.x_m = g_new0 (double, n);
  ground.y_m = g_new0 (double, n);
  ground.litres_l = g_new0 (double, n);
  ground.shares = g_new0 (gint64, n);
  for (guint i = 1; i < n; i++)
    {
      ground.x_m[i] = bush->stops[i - 1].x_m - bush->start_x_m;
      ground.y_m[i] = bush->stops[i - 1].y_m - bush->start_y_m;
      ground.litres_l[i] = bush->stops[i - 1].litres_l;
      if (!ground.one_trip)
        ground.shares[i] = llround (ground.litres_l[i] / bush->pail_l * FR_ROUND_PAIL_SHARES);
    }
  return ground;
}

/* The search knows no small rounds; where the exact method knows the answer, the search must come near it and
 * the bound must not pass it. */
static void
test_against_exact (gconstpointer data)
{
  const gboolean pail = GPOINTER_TO_INT (data);
  g_autoptr (GRand) rand = g_rand_new_with_seed (97);
  double worst_ratio = 1, sum_ratio = 0;

  for (guint i = 0; i < 300; i++)
    {
      const guint n = 4 + i % 6;
      g_auto (Bush) bush = random_bush (rand, n, i % 3 == 2 ? LATTICE : SCATTERED, pail);
      FrRoundGround ground;
      FrRoundParts exact;
      double exact_m, bound_m;

      if (pail)
        bush.pail_l = MAX (bush.pail_l, 18);
      ground = ground_of (&bush);
      fr_round_parts_init (&exact, &ground);
      fr_round_exact (&ground, &exact);
      exact_m = fr_round_parts_walk_m (&exact, &ground);
      if (exact_m > 0)
        {
          bound_m = fr_round_bound_m (&ground, exact_m * 1.03, 300);
          g_assert_cmpfloat (bound_m, <=, exact_m * (1 + 1e-12));
          worst_ratio = MIN (worst_ratio, bound_m / exact_m);
          sum_ratio += exact_m / bound_m - 1;
        }
      if (!pail)
        {
          g_autofree guint *order = g_new (guint, n);

          for (guint j = 0; j < n; j++)
            order[j] = j + 1;
          fr_round_tour (&ground, order, n, 100 * n);
          found_near ("search against the exact one, one trip of 4 to 9 stops, relative",
                      fr_round_trip_walk_m (&ground, order, n) / MAX (1, exact_m), exact_m / MAX (1, exact_m),
                      1e-9);
        }
      fr_round_parts_clear (&exact);
      fr_round_ground_clear (&ground);
    }
  printf ("# found: bound below the exact %s: mean %.2f %%, worst %.2f %%\n", pail ? "trips" : "trip",
          100 * sum_ratio / 300, 100 * (1 / worst_ratio - 1));
}

static void
test_more_stops_than_exact (void)
{
  /* From 13 stops on it is the search; the same stops, one of them twice, are known from 12. */
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  for (guint i = 0; i < 30; i++)
    {
      g_auto (Bush) bush = random_bush (rand, FR_ROUND_EXACT_STOPS + 1, SCATTERED, i % 2 == 1);
      const guint last = FR_ROUND_EXACT_STOPS;
      g_autoptr (FrRound) more = NULL, exact = NULL;

      bush.stops[last] = bush.stops[last - 1];
      bush.stops[last].litres_l = 0;
      more = round_of (&bush);
      assert_sound (&bush, more);
      bush.n--;
      exact = round_of (&bush);
      assert_sound (&bush, exact);
      g_assert_cmpfloat (more->bound_m, <=, exact->walk_m * (1 + 1e-9));
      if (i % 2 == 1)
        found_near ("search against the exact one, trips past 13 to 16 stops, ratio",
                    more->walk_m / exact->walk_m, 1, 0.005);
      else
        found_near ("search against the exact one, a trip past 13 stops, ratio", more->walk_m / exact->walk_m,
                    1, 1e-9);
    }
}

/* --- GLPK --- */

typedef struct
{
  const Bush *bush;
  glp_prob *problem;
} Outside;

static gint
column (const Bush *bush, gint a, gint b) /* a < b, a may be -1: columns from 1 */
{
  const gint n = (gint)bush->n + 1;

  a++;
  b++;
  return a * n - a * (a + 1) / 2 + (b - a - 1) + 1;
}

static void
add_row (const Outside *out, const gboolean *in_set, gint n_in_set, gint type, double lo, double hi)
{
  /* Legs inside a set. */
  const gint n = (gint)out->bush->n, row = glp_add_rows (out->problem, 1);
  g_autofree gint *columns = g_new (gint, n * n + 1);
  g_autofree double *ones = g_new (double, n *n + 1);
  gint length = 0;

  for (gint a = 0; a < n; a++)
    for (gint b = a + 1; b < n; b++)
      if (in_set[a] && in_set[b])
        {
          columns[++length] = column (out->bush, a, b);
          ones[length] = 1;
        }
  glp_set_row_bnds (out->problem, row, type, lo, hi);
  glp_set_mat_row (out->problem, row, length, columns, ones);
}

/* The optimum by branch and bound over legs, with a row for every set of stops that is not joined to the
 * start by as many legs as its litres need pails: solved again until none is broken (Dantzig, Fulkerson and
 * Johnson 1954; Laporte, Nobert and Desrochers 1985). */
static double
glpk_optimum_m (const Bush *bush)
{
  const gint n = (gint)bush->n;
  Outside out = { bush, glp_create_prob () };
  glp_iocp how;
  double walk_m = NAN;

  glp_term_out (GLP_OFF);
  glp_set_obj_dir (out.problem, GLP_MIN);
  glp_add_cols (out.problem, (n + 1) * n / 2);
  for (gint a = -1; a < n; a++)
    for (gint b = a + 1; b < n; b++)
      {
        const gint at = column (bush, a, b);

        glp_set_obj_coef (out.problem, at, apart_m (bush, a, b));
        glp_set_col_kind (out.problem, at, GLP_IV);
        glp_set_col_bnds (out.problem, at, GLP_DB, 0, a < 0 && !isnan (bush->pail_l) ? 2 : 1);
      }
  for (gint a = isnan (bush->pail_l) ? -1 : 0; a < n;
       a++) /* two legs at every stop, and on one trip at the start */
    {
      const gint row = glp_add_rows (out.problem, 1);
      g_autofree gint *columns = g_new (gint, n + 2);
      g_autofree double *ones = g_new (double, n + 2);
      gint length = 0;

      for (gint b = -1; b < n; b++)
        if (b != a)
          {
            columns[++length] = column (bush, MIN (a, b), MAX (a, b));
            ones[length] = 1;
          }
      glp_set_row_bnds (out.problem, row, GLP_FX, 2, 2);
      glp_set_mat_row (out.problem, row, length, columns, ones);
    }
  glp_init_iocp (&how);
  how.presolve = GLP_ON;
  how.msg_lev = GLP_MSG_OFF;
  for (gboolean broken = TRUE; broken;)
    {
      g_autofree gint *part = g_new (gint, n);

      g_assert_cmpint (glp_intopt (out.problem, &how), ==, 0);
      g_assert_cmpint (glp_mip_status (out.problem), ==, GLP_OPT);
      walk_m = glp_mip_obj_val (out.problem);
      broken = FALSE;
      for (gint a = 0; a < n; a++)
        part[a] = a;
      for (gint again = 1; again;) /* the stops that hang together without the start */
        {
          again = 0;
          for (gint a = 0; a < n; a++)
            for (gint b = a + 1; b < n; b++)
              if (glp_mip_col_val (out.problem, column (bush, a, b)) > 0.5 && part[a] != part[b])
                {
                  part[a] = part[b] = MIN (part[a], part[b]);
                  again = 1;
                }
        }
      for (gint root = 0; root < n; root++)
        {
          g_autofree gboolean *in_set = g_new0 (gboolean, n);
          gint size = 0, legs = 0, needed;
          double litres_l = 0;

          for (gint a = 0; a < n; a++)
            if (part[a] == root)
              {
                in_set[a] = TRUE;
                size++;
                litres_l += bush->stops[a].litres_l;
              }
          if (size == 0)
            continue;
          for (gint a = 0; a < n; a++)
            for (gint b = a + 1; b < n; b++)
              if (in_set[a] && in_set[b])
                legs += (gint)lround (glp_mip_col_val (out.problem, column (bush, a, b)));
          needed = isnan (bush->pail_l) ? 1 : MAX (1, (gint)ceil (litres_l / bush->pail_l - 1e-9));
          if (size - legs < needed)
            {
              add_row (&out, in_set, size, GLP_UP, 0, size - needed);
              broken = TRUE;
            }
        }
    }
  glp_delete_prob (out.problem);
  return walk_m;
}

static void
test_glpk_one_trip (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1954);

  for (guint i = 0; i < 18; i++)
    {
      g_auto (Bush) bush = random_bush (rand, 12 + i % 9, SCATTERED, FALSE);
      g_autoptr (FrRound) round = round_of (&bush);
      const double optimum_m = glpk_optimum_m (&bush);

      assert_sound (&bush, round);
      found_near ("one trip of 12 to 20 stops against GLPK's optimum, ratio", round->walk_m / optimum_m, 1,
                  1e-9);
      g_assert_cmpfloat (round->bound_m, <=, optimum_m * (1 + 1e-9));
    }
}

static void
test_glpk_pail (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1985);

  for (guint i = 0; i < 20; i++)
    {
      g_auto (Bush) bush = random_bush (rand, i < 12 ? 6 + i % 4 : 13 + i % 4, SCATTERED, TRUE);
      g_autoptr (FrRound) round = NULL;
      double optimum_m;

      bush.pail_l = i < 12 ? 40 : 80;
      round = round_of (&bush);
      optimum_m = glpk_optimum_m (&bush);
      assert_sound (&bush, round);
      if (round->is_exact)
        found_near ("trips past 6 to 9 stops against GLPK's optimum, ratio", round->walk_m / optimum_m, 1,
                    1e-9);
      else
        found_near ("trips past 13 to 16 stops against GLPK's optimum, ratio", round->walk_m / optimum_m, 1,
                    0.005);
      g_assert_cmpfloat (round->bound_m, <=, optimum_m * (1 + 1e-9));
    }
}

/* --- closed forms --- */

/* Stops in convex position with the start among them: round the polygon. */
static void
test_circle (void)
{
  for (guint n = 5; n <= 80; n *= 4)
    {
      g_auto (Bush) bush = { .start_x_m = 100, .pail_l = NAN, .n = n - 1, .stops = g_new (FrRoundStop, n) };
      g_autoptr (FrRound) round = NULL;

      for (guint i = 1; i < n;
           i++) /* not in the order of the circle: 7 has no factor in common with 5 x 4^k */
        bush.stops[i - 1] = (FrRoundStop){ 100 * cos (2 * G_PI * (i * 7 % n) / n),
                                           100 * sin (2 * G_PI * (i * 7 % n) / n), 1 };
      round = round_of (&bush);
      assert_sound (&bush, round);
      found_near ("stops on a circle, relative", round->walk_m / (200 * n * sin (G_PI / n)), 1, 1e-9);
      g_assert_true (round->is_exact);
    }
}

/* The start inside: the circle less one side, and two radii. */
static void
test_wheel (void)
{
  const guint n = 100;
  g_auto (Bush) bush = { .pail_l = NAN, .n = n, .stops = g_new (FrRoundStop, n) };
  g_autoptr (FrRound) round = NULL;
  const double side_m = 200 * sin (G_PI / n);

  for (guint i = 0; i < n; i++)
    bush.stops[i]
        = (FrRoundStop){ 100 * cos (2 * G_PI * (i * 7 % n) / n), 100 * sin (2 * G_PI * (i * 7 % n) / n), 1 };
  round = round_of (&bush);
  assert_sound (&bush, round);
  found_near ("a wheel, relative", round->walk_m / ((n - 1) * side_m + 200), 1, 1e-9);
}

/* An even square lattice has a tour of unit legs only, as many as points. */
static void
test_lattice (void)
{
  const guint side = 14;
  g_auto (Bush) bush = { .pail_l = NAN, .n = side * side - 1, .stops = g_new (FrRoundStop, side * side) };
  g_autoptr (FrRound) round = NULL;

  for (guint i = 1; i < side * side; i++)
    bush.stops[i - 1] = (FrRoundStop){ i % side, i / side, 1 };
  round = round_of (&bush);
  assert_sound (&bush, round);
  found_near ("a lattice of 14 x 14, ratio", round->walk_m / (side * side), 1, 0.015);
  g_assert_cmpfloat (round->bound_m, <=, side * side * (1 + 1e-12));
  found_near ("its bound, ratio", round->bound_m / (side * side), 1, 1e-3);
}

/* All on one line: out to the ends and back, however many. */
static void
test_line (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);

  for (guint n = 2; n <= 200; n += 66)
    {
      g_auto (Bush) bush = { .pail_l = NAN, .n = n, .stops = g_new (FrRoundStop, n) };
      g_autoptr (FrRound) round = NULL;
      double least = 0, most = 0;

      for (guint i = 0; i < n; i++)
        {
          const double along = g_rand_double_range (rand, -30, 70);

          bush.stops[i] = (FrRoundStop){ 0.6 * along, 0.8 * along, 1 };
          least = MIN (least, along);
          most = MAX (most, along);
        }
      round = round_of (&bush);
      assert_sound (&bush, round);
      found_near ("stops on a line, one trip, relative", round->walk_m / (2 * (most - least)), 1, 1e-9);
    }
}

/* On a ray with equal loads the best trips take the farthest pailful first: twice the distance of every
 * fourth from the far end. No trip with k stops beyond a point serves more than a pailful of them, so that at
 * least ceil (k / 4) pass it. */
static void
test_ray (void)
{
  for (guint n = 10; n <= 90; n += 40)
    {
      g_auto (Bush) bush = { .pail_l = 20, .n = n, .stops = g_new (FrRoundStop, n) };
      g_autoptr (FrRound) round = NULL;
      double wanted_m = 0;

      for (guint i = 0; i < n; i++)
        bush.stops[i] = (FrRoundStop){ 0, 1 + i, 5 };
      for (gint i = (gint)n; i > 0; i -= 4)
        wanted_m += 2 * i;
      round = round_of (&bush);
      assert_sound (&bush, round);
      found_near ("stops on a ray, pails of four, ratio", round->walk_m / wanted_m, 1,
                  n <= 12 ? 1e-9 : 0.003);
      g_assert_cmpfloat (round->bound_m, <=, wanted_m * (1 + 1e-12));
    }
}

/* A pail for each stop: there and back to each, and the bound says so. */
static void
test_pail_each (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);
  g_auto (Bush) bush = random_bush (rand, 150, SCATTERED, FALSE);
  g_autoptr (FrRound) round = NULL;
  double wanted_m = 0;

  bush.pail_l = 10;
  for (guint i = 0; i < bush.n; i++)
    {
      bush.stops[i].litres_l = 10;
      wanted_m += 2 * apart_m (&bush, -1, (gint)i);
    }
  round = round_of (&bush);
  assert_sound (&bush, round);
  g_assert_true (round->is_exact);
  found_near ("a pail for each stop, relative", round->walk_m / wanted_m, 1, 1e-12);
}

/* --- large --- */

static void
test_large (gconstpointer data)
{
  const gboolean pail = GPOINTER_TO_INT (data);
  g_autoptr (GRand) rand = g_rand_new_with_seed (2026);
  double worst_ratio = 0;

  for (guint seed = 0; seed < 5; seed++)
    {
      g_auto (Bush) bush = random_bush (rand, 200, SCATTERED, FALSE);
      g_autoptr (FrRound) round = NULL;

      if (pail)
        bush.pail_l = 20 + 50 * seed;
      round = round_of (&bush);
      assert_sound (&bush, round);
      g_assert_cmpfloat (round->bound_m, >, 0);
      worst_ratio = MAX (worst_ratio, round->gap_ratio);
      if (pail)
        printf ("# found: 200 stops, pail of %.0f L: gap %.1f %%\n", bush.pail_l, 100 * round->gap_ratio);
      else
        found_near ("200 stops on one trip over the bound", round->gap_ratio, 0, 0.05);
    }
  if (pail)
    g_assert_cmpfloat (worst_ratio, <, 0.35);
}

static void
test_same_again (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  g_auto (Bush) bush = random_bush (rand, 60, SCATTERED, TRUE);
  g_autoptr (FrRound) one = round_of (&bush), two = round_of (&bush);

  g_assert_cmpuint (one->n_trips, ==, two->n_trips);
  for (guint i = 0; i < one->n_trips; i++)
    g_assert_cmpmem (one->trips[i].order, one->trips[i].n_stops * sizeof (guint), two->trips[i].order,
                     two->trips[i].n_stops * sizeof (guint));
}

/* --- odd --- */

static void
test_odd (gconstpointer data)
{
  const guint n = GPOINTER_TO_UINT (data) & 0xffff;
  const gboolean pail = (GPOINTER_TO_UINT (data) & 0x10000) != 0;
  g_auto (Bush) bush = {
    .start_x_m = 5, .start_y_m = 5, .pail_l = pail ? 7 : NAN, .n = n, .stops = g_new (FrRoundStop, n + 1)
  };

  for (guint shape = 0; shape < 5; shape++)
    {
      g_autoptr (FrRound) round = NULL;

      for (guint i = 0; i < n; i++)
        switch (shape)
          {
          case 0: /* all at the start */
            bush.stops[i] = (FrRoundStop){ 5, 5, i % 4 };
            break;
          case 1: /* all at one place */
            bush.stops[i] = (FrRoundStop){ 8, 9, i % 4 };
            break;
          case 2: /* two places and nothing to carry */
            bush.stops[i] = (FrRoundStop){ i % 2 == 0 ? 8 : -20, 5, 0 };
            break;
          case 3: /* either side of the start */
            bush.stops[i] = (FrRoundStop){ i % 2 == 0 ? 5 + i : 5.0 - i, 5, 1 };
            break;
          default: /* far off and tiny */
            bush.stops[i] = (FrRoundStop){ 9e5 + 1e-6 * i, -9e5, 0.001 };
          }
      round = round_of (&bush);
      assert_sound (&bush, round);
      if (shape == 0)
        g_assert_cmpfloat (round->walk_m, ==, 0);
      if (shape == 1 && !pail)
        g_assert_cmpfloat_with_epsilon (round->walk_m, n > 0 ? 10 : 0, 1e-9);
      if (shape == 2 && n > 1)
        g_assert_cmpfloat_with_epsilon (round->walk_m, 56, 1e-9);
      if (n == 0)
        g_assert_true (round->is_exact && round->n_trips == 0 && round->bound_m == 0);
    }
}

static void
test_thousands_at_one_place (void)
{
  g_auto (Bush) bush = { .pail_l = NAN, .n = 5000, .stops = g_new (FrRoundStop, 5000) };
  g_autoptr (FrRound) round = NULL;

  for (guint i = 0; i < bush.n; i++)
    bush.stops[i] = (FrRoundStop){ 3, 4, 0.5 };
  round = round_of (&bush);
  assert_sound (&bush, round);
  g_assert_cmpfloat_with_epsilon (round->walk_m, 10, 1e-9);
  g_assert_cmpfloat_with_epsilon (round->carry_l_m, 2500 * 5, 1e-6);
}

/* One trip past both sides of the start is as long as two, but the pail is emptied half way. */
static void
test_empties_on_the_way (void)
{
  g_auto (Bush) bush = { .pail_l = 1000, .n = 40, .stops = g_new (FrRoundStop, 40) };
  g_autoptr (FrRound) round = NULL;

  for (guint i = 0; i < 40; i++)
    bush.stops[i] = (FrRoundStop){ i < 20 ? 1 + (double)i : 19 - (double)i, 0, 2 };
  round = round_of (&bush);
  assert_sound (&bush, round);
  g_assert_cmpuint (round->n_trips, ==, 2);
  g_assert_cmpfloat_with_epsilon (round->walk_m, 80, 1e-9);
  g_assert_cmpfloat_with_epsilon (round->carry_l_m, 2 * 2 * 20 * 21 / 2, 1e-9); /* each litre straight home */
}

/* 45 L and a pail of 20: two full ones, then 5 L; exactly 40 L: one full one, then 20 L. */
static void
test_alone (void)
{
  FrRoundStop stops[] = { { 3, 4, 45 }, { 0, 2, 40 }, { 1, 0, 0.3 } };
  Bush bush = { .pail_l = 20, .n = 2, .stops = stops };
  g_autoptr (FrRound) round = round_of (&bush);
  g_autoptr (FrRound) tenths = NULL;

  assert_sound (&bush, round);
  g_assert_cmpuint (round->n_trips, ==, 5);
  g_assert_true (round->trips[0].alone && round->trips[1].alone && round->trips[2].alone);
  g_assert_cmpuint (round->trips[0].order[0], ==, 0);
  g_assert_cmpuint (round->trips[2].order[0], ==, 1);
  g_assert_cmpfloat_with_epsilon (round->trips[2].walk_m, 4, 1e-12);
  g_assert_cmpfloat_with_epsilon (round->walk_m, 3 * 10 + 2 * 4, 1e-9);

  bush = (Bush){ .pail_l = 0.1, .n = 1, .stops = stops + 2 }; /* 0.3 / 0.1 is over 3 in doubles */
  tenths = round_of (&bush);
  assert_sound (&bush, tenths);
  g_assert_cmpuint (tenths->n_trips, ==, 3);
}

static void
test_refused (void)
{
  const struct
  {
    double start_x_m, pail_l;
    FrRoundStop stop;
    FrRoundCode code;
  } cases[] = {
    { NAN, NAN, { 1, 1, 1 }, FR_ROUND_BAD_START },
    { INFINITY, NAN, { 1, 1, 1 }, FR_ROUND_BAD_START },
    { 0, 0, { 1, 1, 1 }, FR_ROUND_BAD_PAIL },
    { 0, -5, { 1, 1, 1 }, FR_ROUND_BAD_PAIL },
    { 0, INFINITY, { 1, 1, 1 }, FR_ROUND_BAD_PAIL },
    { 0, 10, { NAN, 1, 1 }, FR_ROUND_BAD_PLACE },
    { 0, 10, { 1, -INFINITY, 1 }, FR_ROUND_BAD_PLACE },
    { 0, 10, { 1e300, 1, 1 }, FR_ROUND_BAD_PLACE },
    { -1e300, 10, { 1, 1, 1 }, FR_ROUND_BAD_PLACE },
    { 0, 10, { 1, 1, NAN }, FR_ROUND_BAD_LITRES },
    { 0, 10, { 1, 1, -1 }, FR_ROUND_BAD_LITRES },
    { 0, 10, { 1, 1, 1e300 }, FR_ROUND_BAD_LITRES },
    { 0, 1e-3, { 1, 1, 1e6 }, FR_ROUND_TOO_MANY_TRIPS },
    { 0, 1e-320, { 1, 1, 1 }, FR_ROUND_TOO_MANY_TRIPS },
  };
  g_autofree FrRoundStop *many = g_new0 (FrRoundStop, FR_ROUND_STOPS_MAX + 1);
  FrRoundCode code;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      FrRoundStop stops[2] = { { 1, 1, 0 }, cases[i].stop };
      guint stop;

      g_assert_null (fr_round_new (cases[i].start_x_m, 0, cases[i].pail_l, stops, 2, &code, &stop));
      g_assert_cmpint (code, ==, cases[i].code);
      if (cases[i].start_x_m == 0 && code >= FR_ROUND_BAD_PLACE)
        g_assert_cmpuint (stop, ==, 1);
    }
  g_assert_null (fr_round_new (0, 0, NAN, many, FR_ROUND_STOPS_MAX + 1, &code, NULL));
  g_assert_cmpint (code, ==, FR_ROUND_TOO_MANY_STOPS);
}

int
main (int argc, char *argv[])
{
  static const char *const kinds[] = { "scattered", "lattice", "scattered-pail", "lattice-pail" };
  static const guint odd[] = { 0, 1, 2, 3, 13, 400 };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strdup_printf ("/round/brute-force/%s", kinds[i]);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_brute_force);
    }
  g_test_add_data_func ("/round/against-exact/one-trip", GINT_TO_POINTER (FALSE), test_against_exact);
  g_test_add_data_func ("/round/against-exact/pail", GINT_TO_POINTER (TRUE), test_against_exact);
  g_test_add_func ("/round/more-stops-than-exact", test_more_stops_than_exact);
  g_test_add_func ("/round/glpk/one-trip", test_glpk_one_trip);
  g_test_add_func ("/round/glpk/pail", test_glpk_pail);
  g_test_add_func ("/round/closed/circle", test_circle);
  g_test_add_func ("/round/closed/wheel", test_wheel);
  g_test_add_func ("/round/closed/lattice", test_lattice);
  g_test_add_func ("/round/closed/line", test_line);
  g_test_add_func ("/round/closed/ray", test_ray);
  g_test_add_func ("/round/closed/pail-each", test_pail_each);
  g_test_add_data_func ("/round/large/one-trip", GINT_TO_POINTER (FALSE), test_large);
  g_test_add_data_func ("/round/large/pail", GINT_TO_POINTER (TRUE), test_large);
  g_test_add_func ("/round/same-again", test_same_again);
  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    for (guint pail = 0; pail < 2; pail++)
      {
        g_autofree char *path = g_strdup_printf ("/round/odd/%u%s", odd[i], pail == 1 ? "-pail" : "");

        g_test_add_data_func (path, GUINT_TO_POINTER (odd[i] | pail << 16), test_odd);
      }
  g_test_add_func ("/round/odd/thousands-at-one-place", test_thousands_at_one_place);
  g_test_add_func ("/round/empties-on-the-way", test_empties_on_the_way);
  g_test_add_func ("/round/alone", test_alone);
  g_test_add_func ("/round/refused", test_refused);
  return found_run ();
}
