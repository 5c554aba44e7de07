/* Partial pooling against closed forms, textbook examples and made-up bushes. */
#include "domain/maths/pooling.h"

#include "found.h"

/* A random number of a normal distribution, mean 0, sd 1 (Box and Muller). */
static double
normal (GRand *rand)
{
  return sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
}

/* By hand: prior 10 ± 2, seen 14 ± 1 and 12 ± 2: precisions 1/4, 1, 1/4 add up to 3/2; mean (10/4 + 14 +
 * 12/4) / (3/2). */
static void
test_normal (void)
{
  const FrNormal seen[] = { { 14, 1 }, { 12, 2 } };
  FrPooled pooled = fr_pool ((FrNormal){ 10, 2 }, seen, 2);

  found_near ("normal and normal, by hand", pooled.value, 13, 1e-12);
  found_near ("normal and normal, by hand", pooled.sd, sqrt (2.0 / 3), 1e-12);
  found_near ("normal and normal, by hand", pooled.weight_ratio, 5.0 / 6, 1e-12);
}

/* Rubin 1981, as in Gelman et al., Bayesian Data Analysis, section 5.5 (from memory): eight schools, whose
 * pooled mean is 7.7 with a standard error of 4.1. */
static void
test_schools (void)
{
  const FrNormal schools[]
      = { { 28, 15 }, { 8, 10 }, { -3, 16 }, { 7, 11 }, { -1, 9 }, { 1, 11 }, { 18, 10 }, { 12, 18 } };
  FrPooled pooled = fr_pool ((FrNormal){ NAN, INFINITY }, schools, 8);

  found_near ("eight schools, pooled mean", pooled.value, 7.7, 0.05);
  found_near ("eight schools, its standard error", pooled.sd, 4.1, 0.05);
  found_near ("nothing known before: all weight on what was seen", pooled.weight_ratio, 1, 1e-12);
}

static void
test_limits (void)
{
  const FrNormal seen[] = { { 14, 1 } };
  FrPooled none = fr_pool ((FrNormal){ 10, 2 }, NULL, 0), sure = fr_pool ((FrNormal){ 10, 0 }, seen, 1),
           unknown = fr_pool ((FrNormal){ NAN, INFINITY }, NULL, 0);
  FrNormal many[10000];

  g_assert_cmpfloat (none.value, ==, 10);
  g_assert_cmpfloat (none.sd, ==, 2);
  g_assert_cmpfloat (none.weight_ratio, ==, 0);
  g_assert_cmpfloat (sure.value, ==, 10);
  g_assert_true (isnan (unknown.value));
  for (guint i = 0; i < G_N_ELEMENTS (many); i++)
    many[i] = (FrNormal){ i % 2 == 0 ? 13 : 15, 1 };
  found_near ("much history: the own mean", fr_pool ((FrNormal){ 10, 2 }, many, G_N_ELEMENTS (many)).value,
              14, 1e-3);
}

/* Davies 1947, yields of dyestuff from six batches of five. Restricted likelihood as mixed-model programs
 * print it (from memory): standard deviations 42.00 and 49.51, mean 1527.50, standard error 19.38;
 * conditional modes -17.61, 0.39, 28.56, -23.08, 56.73, -45.00. */
static void
test_dyestuff (void)
{
  const double yields[6][5] = { { 1545, 1440, 1440, 1520, 1580 }, { 1540, 1555, 1490, 1560, 1495 },
                                { 1595, 1550, 1605, 1510, 1560 }, { 1445, 1440, 1595, 1465, 1545 },
                                { 1595, 1630, 1515, 1635, 1625 }, { 1520, 1455, 1450, 1480, 1445 } };
  const double modes[] = { -17.61, 0.39, 28.56, -23.08, 56.73, -45.00 };
  const FrPoolPrior prior = { { 1500, INFINITY }, 30, 0, 30, 0 };
  g_auto (FrPoolBush) bush = { 0 };
  FrPoolSeen seen[30];

  for (guint i = 0; i < 30; i++)
    seen[i] = (FrPoolSeen){ i % 6, 0, yields[i % 6][i / 6] };
  fr_pool_bush (&prior, seen, 30, 6, 1, NULL, &bush);
  found_near ("dyestuff, between batches", bush.tree_sd, 42.00, 0.01);
  found_near ("dyestuff, within", bush.rest_sd, 49.51, 0.01);
  found_near ("dyestuff, mean", bush.level.value, 1527.5, 1e-6);
  found_near ("dyestuff, its standard error", bush.level.sd, 19.38, 0.01);
  for (guint i = 0; i < 6; i++)
    found_near ("dyestuff, conditional modes", bush.trees[i].value - bush.level.value, modes[i], 0.01);
}

/* Balanced data of one kind: restricted likelihood is the analysis of variance, (MSB − MSW) / n (any
 * textbook). */
static void
test_balanced (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);

  for (guint k = 0; k < 20; k++)
    {
      enum
      {
        TREES = 12,
        EACH = 4
      };
      const FrPoolPrior prior = { { 0, INFINITY }, 1, 0, 1, 0 };
      g_auto (FrPoolBush) bush = { 0 };
      FrPoolSeen seen[TREES * EACH];
      double all = 0, between = 0, within = 0, means[TREES] = { 0 };

      for (guint i = 0; i < TREES; i++)
        {
          double tree = 2 * normal (rand);

          for (guint j = 0; j < EACH; j++)
            {
              seen[i * EACH + j] = (FrPoolSeen){ i, 0, 10 + tree + normal (rand) };
              means[i] += seen[i * EACH + j].value / EACH;
            }
          all += means[i] / TREES;
        }
      for (guint i = 0; i < TREES; i++)
        {
          between += EACH * (means[i] - all) * (means[i] - all) / (TREES - 1);
          for (guint j = 0; j < EACH; j++)
            within += (seen[i * EACH + j].value - means[i]) * (seen[i * EACH + j].value - means[i])
                      / (TREES * (EACH - 1));
        }
      fr_pool_bush (&prior, seen, TREES * EACH, TREES, 1, NULL, &bush);
      found_near ("balanced: between trees, variance", bush.tree_sd * bush.tree_sd, (between - within) / EACH,
                  1e-5);
      found_near ("balanced: the rest, variance", bush.rest_sd * bush.rest_sd, within, 1e-5);
      for (guint i = 0; i < TREES; i++)
        found_near ("balanced: each tree", bush.trees[i].value,
                    all + (1 - within / between) * (means[i] - all), 1e-5);
    }
}

#define SEEN 14

/* Solves m x = b by Gauss with pivots; m and b are used up. */
static void
solve (double m[SEEN][SEEN], double *b, guint n)
{
  for (guint k = 0; k < n; k++)
    {
      guint pivot = k;

      for (guint i = k; i < n; i++)
        if (fabs (m[i][k]) > fabs (m[pivot][k]))
          pivot = i;
      for (guint j = 0; j < n; j++)
        {
          double swap = m[k][j];

          m[k][j] = m[pivot][j];
          m[pivot][j] = swap;
        }
      {
        double swap = b[k];

        b[k] = b[pivot];
        b[pivot] = swap;
      }
      for (guint i = 0; i < n; i++)
        if (i != k)
          {
            double factor = m[i][k] / m[k][k];

            for (guint j = k; j < n; j++)
              m[i][j] -= factor * m[k][j];
            b[i] -= factor * b[k];
          }
    }
  for (guint k = 0; k < n; k++)
    b[k] /= m[k][k];
}

/* The joint posterior another way: condition the normal vector of (tree, observations) on the observations by
 * their full covariance. The sds are held by a prior that is worth more than any data. */
static void
test_joint (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (8);

  for (guint k = 0; k < 50; k++)
    {
      enum
      {
        TREES = 5,
        SEASONS = 4
      };
      const FrPoolPrior prior = { { 3, 0.7 }, 0.5, 0.4, 0.3, 1e15 };
      double apart_sd[TREES] = { 0, 0.6, 0, 0, 0.2 };
      g_auto (FrPoolBush) bush = { 0 };
      FrPoolSeen seen[SEEN];

      for (guint i = 0; i < SEEN; i++)
        seen[i] = (FrPoolSeen){ (guint)g_rand_int_range (rand, 0, TREES - 1),
                                (guint)g_rand_int_range (rand, 0, SEASONS), 3 + normal (rand) };
      fr_pool_bush (&prior, seen, SEEN, TREES, SEASONS, apart_sd, &bush);
      for (guint tree = 0; tree < TREES; tree++)
        {
          double cov[SEEN][SEEN], cross[SEEN], x[SEEN], own = 0.25 + apart_sd[tree] * apart_sd[tree],
                                                        mean = 3, variance = 0.49 + own;

          for (guint part = 0; part < 2; part++)
            {
              for (guint i = 0; i < SEEN; i++)
                {
                  for (guint j = 0; j < SEEN; j++)
                    cov[i][j] = 0.49 + (seen[i].season == seen[j].season ? 0.16 : 0) + (i == j ? 0.09 : 0)
                                + (seen[i].tree == seen[j].tree
                                       ? 0.25 + apart_sd[seen[i].tree] * apart_sd[seen[i].tree]
                                       : 0);
                  cross[i] = 0.49 + (seen[i].tree == tree ? own : 0);
                  x[i] = part == 0 ? seen[i].value - 3 : cross[i];
                }
              solve (cov, x, SEEN);
              for (guint i = 0; i < SEEN; i++)
                *(part == 0 ? &mean : &variance) += (part == 0 ? 1 : -1) * cross[i] * x[i];
            }
          found_near ("level, seasons and trees together: mean", bush.trees[tree].value, mean, 1e-9);
          found_near ("the same: sd", bush.trees[tree].sd, sqrt (variance), 1e-9);
        }
    }
}

static void
test_no_history (void)
{
  const FrPoolPrior prior = { { 3, 0.7 }, 0.5, 0.4, 0.3, 6 };
  const FrPoolSeen one = { 0, 0, 5 };
  g_auto (FrPoolBush) none = { 0 };
  g_auto (FrPoolBush) single = { 0 };

  fr_pool_bush (&prior, NULL, 0, 2, 0, NULL, &none);
  found_near ("no history: the prior", none.trees[1].value, 3, 1e-12);
  found_near ("no history: the prior", none.trees[1].sd, sqrt (0.49 + 0.25), 1e-12);
  g_assert_cmpfloat (none.trees[1].weight_ratio, ==, 0);
  g_assert_cmpuint (none.n_seen, ==, 0);
  /* One tree's one season moves the others a little, itself more, and leaves it surer. */
  fr_pool_bush (&prior, &one, 1, 2, 1, NULL, &single);
  g_assert_cmpfloat (single.trees[1].value, >, 3);
  g_assert_cmpfloat (single.trees[0].value, >, single.trees[1].value);
  g_assert_cmpfloat (single.trees[0].value, <, 5);
  g_assert_cmpfloat (single.trees[0].sd, <, single.trees[1].sd);
  g_assert_cmpuint (single.trees[0].n, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pooling/normal", test_normal);
  g_test_add_func ("/pooling/schools", test_schools);
  g_test_add_func ("/pooling/limits", test_limits);
  g_test_add_func ("/pooling/dyestuff", test_dyestuff);
  g_test_add_func ("/pooling/balanced", test_balanced);
  g_test_add_func ("/pooling/joint", test_joint);
  g_test_add_func ("/pooling/no-history", test_no_history);
  return found_run ();
}
