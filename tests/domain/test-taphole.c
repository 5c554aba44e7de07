/* Where the hole goes: hand-worked cases, and the search against brute force written apart from it. On random
 * trunks a fine grid never finds more than the search, nor the search more than the grid's step allows. On
 * trunks whose holes lie on a lattice the best place lies on the half lattice, where counting through it
 * gives the very optimum and every tie. */
#include "domain/maths/taphole.h"

#include <math.h>
#include <string.h>

#include "found.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static FrHole
hole (double angle_deg, double height_m)
{
  return (FrHole){ angle_deg, height_m, NAN, NAN, NAN };
}

/* Girth 150 cm, 15 cm sideways, 30 cm up or down, 60 to 120 cm: the issue's own trunk. */
static const FrTrunk plain = { 1.5, 0.15, 0.3, 0.6, 1.2 };

/* The definition as it stands in the issue. */
static double
clearance (const FrTrunk *trunk, const FrHole *holes, guint n, double angle_deg, double height_m)
{
  double least = INFINITY;

  for (guint i = 0; i < n; i++)
    {
      double turn = fmod (fabs (angle_deg - holes[i].angle_deg), 360);

      if (turn > 180)
        turn = 360 - turn;
      least = fmin (least, fmax (trunk->girth_m * turn / 360 / trunk->sideways_m,
                                 fabs (height_m - holes[i].height_m) / trunk->up_down_m));
    }
  return least;
}

/* ---- by hand ---- */

/* The other side is 75 cm of bark away, 5 times 15 cm; no height within the range is as far (40 cm, 1.33
 * times). */
static void
test_one_hole (void)
{
  const FrHole one = hole (90, 0.8);
  FrTaphole place;

  g_assert_true (fr_taphole_find (&plain, &one, 1, &place));
  NEAR (place.angle_deg, 270, 1e-9);
  NEAR (place.height_m, 0.9, 1e-12);
  NEAR (place.clearance_ratio, 5, 1e-12);
  g_assert_true (place.keeps_rule);
  g_assert_true (place.in_range);
  g_assert_cmpint (place.nearest, ==, 0);
  NEAR (place.sideways_m, 0.75, 1e-12);
  NEAR (place.up_down_m, 0.1, 1e-12);
  g_assert_cmpint (place.stain, ==, FR_STAIN_CLEAR);
  g_assert_cmpint (place.stain_of, ==, -1);
}

static void
test_no_holes (void)
{
  FrTaphole place;

  g_assert_true (fr_taphole_find (&plain, NULL, 0, &place));
  g_assert_cmpfloat (place.angle_deg, ==, 180);
  NEAR (place.height_m, 0.9, 1e-12);
  g_assert_true (isnan (place.clearance_ratio));
  g_assert_true (place.keeps_rule);
  g_assert_cmpint (place.nearest, ==, -1);
}

/* Holes north and south at the middle height: east and west are 37.5 cm off, 2.5 times; both are as near to
 * south; the smaller angle is east. */
static void
test_tie_angle (void)
{
  const FrHole two[] = { hole (0, 0.9), hole (180, 0.9) };
  FrTaphole place;

  g_assert_true (fr_taphole_find (&plain, two, 2, &place));
  NEAR (place.angle_deg, 90, 1e-9);
  NEAR (place.height_m, 0.9, 1e-12);
  NEAR (place.clearance_ratio, 2.5, 1e-12);
}

/* East and west: north and south tie, and south wins. */
static void
test_tie_south (void)
{
  const FrHole two[] = { hole (90, 0.9), hole (270, 0.9) };
  FrTaphole place;

  g_assert_true (fr_taphole_find (&plain, two, 2, &place));
  NEAR (place.angle_deg, 180, 1e-9);
  NEAR (place.clearance_ratio, 2.5, 1e-12);
}

/* A thin trunk: the way round is 20 cm, so the other side is 10 cm off, 0.67 times. One hole in the middle
 * height; top and bottom of the range are 30 cm off, once: they tie, at any angle, so south and then the
 * lower. */
static void
test_tie_lower (void)
{
  const FrTrunk thin = { 0.2, 0.15, 0.3, 0.6, 1.2 };
  const FrHole one = hole (37, 0.9);
  FrTaphole place;

  g_assert_true (fr_taphole_find (&thin, &one, 1, &place));
  NEAR (place.clearance_ratio, 1, 1e-12);
  NEAR (place.angle_deg, 180, 1e-9);
  NEAR (place.height_m, 0.6, 1e-12);
  g_assert_true (place.keeps_rule);
}

/* Two holes 20° apart across north, at 350 and 10: the middle of the long way is south; and two at 100 and
 * 260, whose long way goes over north. */
static void
test_wrap (void)
{
  const FrHole north[] = { hole (350, 0.9), hole (10, 0.9) }, south[] = { hole (100, 0.9), hole (260, 0.9) };
  FrTaphole place;

  g_assert_true (fr_taphole_find (&plain, north, 2, &place));
  NEAR (place.angle_deg, 180, 1e-9);
  NEAR (place.clearance_ratio, 10 * 170.0 / 360, 1e-12);
  g_assert_true (fr_taphole_find (&plain, south, 2, &place));
  NEAR (fmin (place.angle_deg, 360 - place.angle_deg), 0, 1e-9);
  g_assert_cmpfloat (place.angle_deg, <, 360);
  NEAR (place.clearance_ratio, 10 * 100.0 / 360, 1e-12);
}

/* Angles count round the circle: −90 and 630 are both 270. */
static void
test_turns (void)
{
  FrTaphole place, same;
  const FrHole one = hole (630, 0.8), other = hole (-90, 0.8);

  g_assert_true (fr_taphole_find (&plain, &one, 1, &place));
  g_assert_true (fr_taphole_find (&plain, &other, 1, &same));
  NEAR (place.angle_deg, 90, 1e-9);
  NEAR (same.angle_deg, 90, 1e-9);
  g_assert_true (fr_taphole_clearance (&plain, &one, 1, -360, 0.8, &place));
  g_assert_cmpfloat (place.angle_deg, ==, 0);
  g_assert_true (fr_taphole_clearance (&plain, &one, 1, -1e-300, 0.8, &place));
  g_assert_cmpfloat (place.angle_deg, ==, 0);
}

/* A range of no height. Holes at 0 and 120 on it: the middle of the long way is 240, 120° off, 50 of 15 cm.
 */
static void
test_one_height (void)
{
  const FrTrunk flat = { 1.5, 0.15, 0.3, 0.9, 0.9 };
  const FrHole two[] = { hole (0, 0.9), hole (120, 0.9) };
  FrTaphole place;

  g_assert_true (fr_taphole_find (&flat, two, 2, &place));
  NEAR (place.angle_deg, 240, 1e-9);
  NEAR (place.clearance_ratio, 50.0 / 15, 1e-12);
}

/* A row every 12 cm of bark all round at three heights leaves at best half of that, 6 cm of 15, beside;
 * between rows 30 cm apart 15 of 30, once half. */
static void
test_full (void)
{
  FrHole holes[36];
  guint n = 0;
  FrTaphole place;

  for (guint row = 0; row < 3; row++)
    for (guint k = 0; k < 12; k++)
      holes[n++] = hole (30.0 * k, 0.6 + 0.3 * row);
  g_assert_true (fr_taphole_find (&plain, holes, n, &place));
  NEAR (place.clearance_ratio, 0.5, 1e-12);
  g_assert_false (place.keeps_rule);
  NEAR (fabs (place.height_m - 0.9), 0.15, 1e-9);
  NEAR (place.angle_deg, 180, 1e-9);
  NEAR (place.height_m, 0.75, 1e-9);
  g_assert_cmpint (place.stain, !=, FR_STAIN_CLEAR);
  for (guint k = 0; k < 12; k++)
    holes[k].height_m = holes[12 + k].height_m = holes[24 + k].height_m = 0.9;
  for (guint k = 0; k < 24; k++)
    holes[k].angle_deg = 30.0 * (k % 12) + 15; /* twice the same row, between the third */
  g_assert_true (fr_taphole_find (&plain, holes, n, &place));
  NEAR (place.clearance_ratio, 1, 1e-12); /* 30 cm above or below the only row */
}

/* Girth 5 cm, spacing of a big tree. */
static void
test_tiny (void)
{
  const FrTrunk twig = { 0.05, 0.15, 0.3, 0.6, 1.2 };
  const FrHole two[] = { hole (0, 0.6), hole (10, 1.2) };
  FrTaphole place;

  g_assert_true (fr_taphole_find (&twig, two, 2, &place));
  NEAR (place.clearance_ratio, 1, 1e-12);
  NEAR (place.height_m, 0.9, 1e-12);
  NEAR (place.angle_deg, 180, 1e-9);
}

/* Eight seasons of one hole each, found one after the other under the default spacing (6 in and 12 in) on a
 * girth of 110 cm: each keeps it. */
static void
test_eight_seasons (void)
{
  const FrTrunk trunk = { 1.10, 0.1524, 0.3048, 0.6096, 1.2192 };
  FrHole holes[8];

  for (guint n = 0; n < 8; n++)
    {
      FrTaphole place;

      g_assert_true (fr_taphole_find (&trunk, holes, n, &place));
      g_assert_true (place.keeps_rule);
      g_assert_true (place.in_range);
      g_test_message ("%u: %.1f° %.1f cm, %.3f", n, place.angle_deg, 100 * place.height_m,
                      place.clearance_ratio);
      if (n > 0)
        g_assert_cmpfloat (clearance (&trunk, holes, n, place.angle_deg, place.height_m), >=, 1 - 1e-9);
      holes[n] = hole (place.angle_deg, place.height_m);
    }
}

/* Half a spacing above the old hole: its column (23 cm as modelled) reaches there; 35 cm above it does not,
 * but the place is still in line; 8 cm beside, clear. */
static void
test_columns (void)
{
  const FrHole two[] = { hole (180, 0.8), hole (0, 0.8) };
  FrTaphole place;

  g_assert_true (fr_taphole_clearance (&plain, two, 2, 180, 0.95, &place));
  g_assert_cmpint (place.stain, ==, FR_STAIN_INSIDE);
  g_assert_cmpint (place.stain_of, ==, 0);
  g_assert_false (place.keeps_rule);
  NEAR (place.up_down_m, 0.15, 1e-12);
  g_assert_true (fr_taphole_clearance (&plain, two, 2, 0.5, 1.15, &place));
  g_assert_cmpint (place.stain, ==, FR_STAIN_IN_LINE);
  g_assert_cmpint (place.stain_of, ==, 1);
  g_assert_true (place.keeps_rule);
  g_assert_true (fr_taphole_clearance (&plain, two, 2, 20, 0.8, &place));
  g_assert_cmpint (place.stain, ==, FR_STAIN_CLEAR);
  g_assert_true (fr_taphole_clearance (&plain, two, 2, 90, 1.3, &place));
  g_assert_false (place.in_range);
  g_assert_true (place.keeps_rule);
}

static void
test_unsound (void)
{
  const FrTrunk trunks[]
      = { { 0, 0.15, 0.3, 0.6, 1.2 },    { NAN, 0.15, 0.3, 0.6, 1.2 },      { 1.5, 0, 0.3, 0.6, 1.2 },
          { 1.5, 0.15, -1, 0.6, 1.2 },   { 1.5, 0.15, 0.3, 1.3, 1.2 },      { 1.5, 0.15, 0.3, NAN, 1.2 },
          { 1.5, 0.15, 0.3, 0.6, NAN },  { INFINITY, 0.15, 0.3, 0.6, 1.2 }, { 1.5, 0.15, 0.3, 0.6, INFINITY },
          { 1.5, INFINITY, 1, 0.6, 1.2 } };
  const FrHole nowhere = hole (NAN, 0.8), high = hole (0, INFINITY);
  FrTaphole place, places[2];

  for (guint i = 0; i < G_N_ELEMENTS (trunks); i++)
    {
      g_assert_false (fr_trunk_is_sound (&trunks[i]));
      g_assert_false (fr_taphole_find (&trunks[i], NULL, 0, &place));
      g_assert_false (fr_taphole_find_several (&trunks[i], NULL, 0, 2, places));
      g_assert_false (fr_taphole_clearance (&trunks[i], NULL, 0, 0, 1, &place));
    }
  g_assert_false (fr_taphole_find (&plain, &nowhere, 1, &place));
  g_assert_false (fr_taphole_find (&plain, &high, 1, &place));
  g_assert_false (fr_taphole_clearance (&plain, NULL, 0, NAN, 1, &place));
}

/* ---- brute force ---- */

static double
between (GRand *chance, double low, double high)
{
  return g_rand_double_range (chance, low, high);
}

/* A grid of half degrees and half centimetres. Halfway between its points a clearance is at most a quarter
 * degree or quarter centimetre off. */
static void
test_grid (void)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (1848);

  for (guint run = 0; run < 250; run++)
    {
      const double low_m = between (chance, 0.3, 0.9);
      const FrTrunk trunk = { between (chance, 0.2, 3), between (chance, 0.03, 0.3),
                              between (chance, 0.1, 0.7), low_m, low_m + between (chance, 0, 0.8) };
      const guint n = 1 + g_rand_int_range (chance, 0, run % 20 == 0 ? 60 : 20);
      const double step_ratio
          = fmax (trunk.girth_m * 0.25 / 360 / trunk.sideways_m, 0.0025 / trunk.up_down_m);
      FrHole holes[61];
      FrTaphole place;
      double best = -1;

      for (guint i = 0; i < n; i++)
        holes[i] = hole (between (chance, 0, 360), between (chance, low_m - 0.2, trunk.max_height_m + 0.2));
      if (n > 4)
        holes[1] = holes[2]; /* the same hole entered twice */
      g_assert_true (fr_taphole_find (&trunk, holes, n, &place));
      for (double height_m = trunk.min_height_m; height_m < trunk.max_height_m + 0.005; height_m += 0.005)
        for (guint a = 0; a < 720; a++)
          best = fmax (best, clearance (&trunk, holes, n, 0.5 * a, fmin (height_m, trunk.max_height_m)));
      g_assert_true (place.in_range);
      NEAR (clearance (&trunk, holes, n, place.angle_deg, place.height_m), place.clearance_ratio, 1e-12);
      found_near ("grid over the search, ratio", fmax (best - place.clearance_ratio, 0), 0, 1e-10);
      found_near ("search over the grid, of what its step allows",
                  fmax (place.clearance_ratio - best, 0) / step_ratio, 0, 1 + 1e-9);
    }
}

/* Girth 360 cm and 15 cm make one unit of 15°, 24 units round; 5 cm up make one. Holes on whole units; places
 * on half units hold the optimum and its ties. */
static void
test_lattice (void)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (1907);

  for (guint run = 0; run < 1500; run++)
    {
      const guint low = g_rand_int_range (chance, 10, 16), tall = 2 * g_rand_int_range (chance, 0, 7);
      const FrTrunk trunk = { 3.6, 0.15, 0.05, 0.05 * low, 0.05 * (low + tall) };
      const double middle_m = 0.05 * (low + tall / 2);
      const guint n = 1 + g_rand_int_range (chance, 0, 30);
      FrHole holes[31];
      FrTaphole place;
      double best = -1, angle_deg = NAN, height_m = NAN;

      for (guint i = 0; i < n; i++)
        holes[i] = hole (15.0 * g_rand_int_range (chance, 0, 24),
                         0.05 * g_rand_int_range (chance, (gint)low - 3, (gint)(low + tall) + 4));
      for (guint h = 0; h <= 2 * tall; h++)
        for (guint a = 0; a < 48; a++)
          {
            const double up_m = 0.05 * low + 0.025 * h, turn_deg = 7.5 * a,
                         ratio = clearance (&trunk, holes, n, turn_deg, up_m);
            const double more = ratio - best, off = fabs (up_m - middle_m) - fabs (height_m - middle_m),
                         turn = fabs (turn_deg - 180) - fabs (angle_deg - 180);
            gboolean wins = more > 1e-9;

            if (fabs (more) <= 1e-9) /* the order of ties, then the smaller angle, then the lower */
              wins = off < -1e-9
                     || (off < 1e-9
                         && (turn < -1e-9
                             || (turn < 1e-9
                                 && (turn_deg < angle_deg || (turn_deg == angle_deg && up_m < height_m)))));
            if (wins)
              {
                best = ratio;
                angle_deg = turn_deg;
                height_m = up_m;
              }
          }
      g_assert_true (fr_taphole_find (&trunk, holes, n, &place));
      found_near ("lattice: ratio", place.clearance_ratio, best, 1e-10);
      found_near ("lattice: height, m", place.height_m, height_m, 1e-10);
      found_near ("lattice: angle, °",
                  fmin (fabs (place.angle_deg - angle_deg), 360 - fabs (place.angle_deg - angle_deg)), 0,
                  1e-8);
    }
}

/* ---- several ---- */

static double
least_of (const FrTrunk *trunk, const FrHole *holes, guint n, const FrTaphole *places, guint want)
{
  double least = INFINITY;
  FrHole all[64];

  for (guint i = 0; i < want; i++)
    {
      guint m = n;

      if (n > 0)
        memcpy (all, holes, n * sizeof *holes);
      for (guint j = 0; j < want; j++)
        if (j != i)
          all[m++] = hole (places[j].angle_deg, places[j].height_m);
      NEAR (places[i].clearance_ratio, clearance (trunk, all, m, places[i].angle_deg, places[i].height_m),
            1e-12);
      least = fmin (least, places[i].clearance_ratio);
    }
  return least;
}

/* No holes: k places stand evenly round the trunk, 10 units apart by k, as no height is as far. One is as
 * alone. */
static void
test_several_bare (void)
{
  FrTaphole places[FR_TAPHOLES_MAX];

  for (guint want = 2; want <= FR_TAPHOLES_MAX; want++)
    {
      g_assert_true (fr_taphole_find_several (&plain, NULL, 0, want, places));
      NEAR (least_of (&plain, NULL, 0, places, want), 10.0 / want, 1e-5);
      for (guint i = 0; i < want; i++)
        {
          NEAR (places[i].height_m, 0.9, 1e-9);
          g_assert_true (i == 0 || places[i].angle_deg > places[i - 1].angle_deg);
          g_assert_cmpint (places[i].nearest, >=, 0);
          g_assert_cmpint (places[i].nearest, !=, (gint)i);
          NEAR (fmin (fabs (places[i].angle_deg - places[places[i].nearest].angle_deg),
                      360 - fabs (places[i].angle_deg - places[places[i].nearest].angle_deg))
                    * 1.5 / 360,
                places[i].sideways_m, 1e-9);
        }
    }
  g_assert_true (fr_taphole_find_several (&plain, NULL, 0, 1, places));
  g_assert_true (isnan (places[0].clearance_ratio));
}

/* One old hole at north: with two more the trunk is best parted in three, 120° each. */
static void
test_several_one (void)
{
  const FrHole one = hole (0, 0.9);
  FrTaphole places[2];

  g_assert_true (fr_taphole_find_several (&plain, &one, 1, 2, places));
  NEAR (places[0].angle_deg, 120, 1e-3);
  NEAR (places[1].angle_deg, 240, 1e-3);
  NEAR (places[0].clearance_ratio, 10.0 / 3, 1e-5);
}

/* All pairs on a coarse grid. What the method misses is at most what is promised. */
static void
test_several_pairs (void)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (1921);

  for (guint run = 0; run < 60; run++)
    {
      const FrTrunk trunk = { between (chance, 0.6, 2), 0.1524, 0.3048, 0.6, between (chance, 0.6, 1.4) };
      const guint n = g_rand_int_range (chance, 0, 12), rows = 9, columns = 48, all = rows * columns;
      g_autofree double *alone = g_new (double, all);
      FrHole holes[12];
      FrTaphole places[2];
      double best = 0, least;

      for (guint i = 0; i < n; i++)
        holes[i] = hole (between (chance, 0, 360), between (chance, 0.6, 1.3));
#define SPOT_A(p) (360.0 / columns * ((p) % columns))
#define SPOT_H(p) (0.6 + (trunk.max_height_m - 0.6) * ((p) / columns) / (rows - 1))
      for (guint p = 0; p < all; p++)
        alone[p] = clearance (&trunk, holes, n, SPOT_A (p), SPOT_H (p));
      for (guint p = 0; p < all; p++)
        {
          const FrHole first = hole (SPOT_A (p), SPOT_H (p));

          for (guint q = 0; alone[p] > best && q < p; q++)
            if (alone[q] > best)
              best = fmax (best, fmin (fmin (alone[p], alone[q]),
                                       clearance (&trunk, &first, 1, SPOT_A (q), SPOT_H (q))));
        }
      g_assert_true (fr_taphole_find_several (&trunk, holes, n, 2, places));
      least = least_of (&trunk, holes, n, places, 2);
      found_near ("pairs: missed by the method, of the grid's best", fmax (best / least - 1, 0), 0, 0.01);
    }
}

/* All triples on a coarser grid. */
static void
test_several_triples (void)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (1934);

  for (guint run = 0; run < 40; run++)
    {
      const FrTrunk trunk = { between (chance, 0.6, 2), 0.1524, 0.3048, 0.6, between (chance, 0.6, 1.4) };
      const guint n = g_rand_int_range (chance, 0, 10), rows = 5, columns = 24, all = rows * columns;
      g_autofree double *alone = g_new (double, all), *apart = g_new (double, all *all);
      FrHole holes[10];
      FrTaphole places[3];
      double best = 0, least;

      for (guint i = 0; i < n; i++)
        holes[i] = hole (between (chance, 0, 360), between (chance, 0.6, 1.3));
      for (guint p = 0; p < all; p++)
        {
          const FrHole first = hole (SPOT_A (p), SPOT_H (p));

          alone[p] = clearance (&trunk, holes, n, SPOT_A (p), SPOT_H (p));
          for (guint q = 0; q < all; q++)
            apart[p * all + q] = clearance (&trunk, &first, 1, SPOT_A (q), SPOT_H (q));
        }
      for (guint p = 0; p < all; p++)
        for (guint q = 0; alone[p] > best && q < p; q++)
          for (guint r = 0; fmin (alone[q], apart[p * all + q]) > best && r < q; r++)
            best = fmax (best,
                         fmin (fmin (fmin (alone[p], alone[q]), alone[r]),
                               fmin (fmin (apart[p * all + q], apart[p * all + r]), apart[q * all + r])));
      g_assert_true (fr_taphole_find_several (&trunk, holes, n, 3, places));
      least = least_of (&trunk, holes, n, places, 3);
      found_near ("triples: missed by the method, of the grid's best", fmax (best / least - 1, 0), 0, 0.01);
    }
}

/* One height alone: a gap g between neighbours takes g/r - 1 places r apart, rounded down, so the best r is
 * the largest g/m for which the gaps take as many as are wanted. */
static void
test_several_row (void)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (1955);

  for (guint run = 0; run < 100; run++)
    {
      const FrTrunk trunk = { between (chance, 0.6, 2), 0.1524, 0.3048, 0.9, 0.9 };
      const guint n = 1 + g_rand_int_range (chance, 0, 8), want = 2 + run % 3;
      FrHole holes[8];
      double at_deg[9], gaps[8], best = 0;
      FrTaphole places[FR_TAPHOLES_MAX];

      for (guint i = 0; i < n; i++)
        at_deg[i] = between (chance, 0, 360);
      for (guint i = 0; i < n; i++) /* in order */
        for (guint j = i + 1; j < n; j++)
          if (at_deg[j] < at_deg[i])
            {
              const double swap = at_deg[i];

              at_deg[i] = at_deg[j];
              at_deg[j] = swap;
            }
      at_deg[n] = at_deg[0] + 360;
      for (guint i = 0; i < n; i++)
        {
          holes[i] = hole (at_deg[i], 0.9);
          gaps[i] = trunk.girth_m * (at_deg[i + 1] - at_deg[i]) / 360 / trunk.sideways_m;
        }
      for (guint i = 0; i < n; i++)
        for (guint m = 2; m <= want + 1; m++)
          {
            const double radius = gaps[i] / m;
            guint room = 0;

            for (guint k = 0; k < n; k++)
              if (gaps[k] >= 2 * radius * (1 - 1e-12))
                room += (guint)floor (gaps[k] / radius + 1e-9) - 1;
            if (room >= want)
              best = fmax (best, radius);
          }
      g_assert_true (fr_taphole_find_several (&trunk, holes, n, want, places));
      found_near ("one row: least clearance, of the best", least_of (&trunk, holes, n, places, want) / best,
                  1, 1e-5);
    }
}

/* As many holes as in sixty seasons, and how long it takes. */
static void
test_quick (void)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (60);
  FrHole holes[60];
  FrTaphole place, places[4];
  double best_s = INFINITY, several_s = INFINITY;

  for (guint i = 0; i < 60; i++)
    holes[i] = hole (between (chance, 0, 360), between (chance, 0.6, 1.2));
  for (guint run = 0; run < 10; run++)
    {
      g_test_timer_start ();
      g_assert_true (fr_taphole_find (&plain, holes, 60, &place));
      best_s = fmin (best_s, g_test_timer_elapsed ());
    }
  g_test_timer_start ();
  g_assert_true (fr_taphole_find_several (&plain, holes, 60, 4, places));
  several_s = g_test_timer_elapsed ();
  g_test_message ("60 holes: one place %.2f ms, four %.0f ms", 1e3 * best_s, 1e3 * several_s);
  g_assert_cmpfloat (best_s, <, 0.05); /* ten times what is promised, for a busy machine and a sanitizer */
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/taphole/hand/one", test_one_hole);
  g_test_add_func ("/taphole/hand/none", test_no_holes);
  g_test_add_func ("/taphole/hand/tie-angle", test_tie_angle);
  g_test_add_func ("/taphole/hand/tie-south", test_tie_south);
  g_test_add_func ("/taphole/hand/tie-lower", test_tie_lower);
  g_test_add_func ("/taphole/hand/wrap", test_wrap);
  g_test_add_func ("/taphole/hand/turns", test_turns);
  g_test_add_func ("/taphole/hand/one-height", test_one_height);
  g_test_add_func ("/taphole/hand/full", test_full);
  g_test_add_func ("/taphole/hand/tiny", test_tiny);
  g_test_add_func ("/taphole/hand/eight-seasons", test_eight_seasons);
  g_test_add_func ("/taphole/hand/columns", test_columns);
  g_test_add_func ("/taphole/unsound", test_unsound);
  g_test_add_func ("/taphole/brute/grid", test_grid);
  g_test_add_func ("/taphole/brute/lattice", test_lattice);
  g_test_add_func ("/taphole/several/bare", test_several_bare);
  g_test_add_func ("/taphole/several/one", test_several_one);
  g_test_add_func ("/taphole/several/pairs", test_several_pairs);
  g_test_add_func ("/taphole/several/triples", test_several_triples);
  g_test_add_func ("/taphole/several/row", test_several_row);
  g_test_add_func ("/taphole/quick", test_quick);
  return found_run ();
}
