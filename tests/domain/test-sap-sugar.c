/* Sweetness learned, against the whole normal model solved as one dense matrix, and against a brute grid of
 * the posterior, both written here apart. */
#include "domain/maths/sap-sugar.h"

#include "found.h"

#define TREES 6
#define MOST 40

typedef struct
{
  FrSapSugarReading readings[MOST];
  guint n;
} Ask;

static double
normal (GRand *rand)
{
  return sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
}

/* A bush as the model has it; tree 5 is never read. */
static void
ask_random (Ask *ask, GRand *rand, guint n)
{
  double level = 2.2 + 0.5 * normal (rand), slope = -0.014 + 0.01 * normal (rand), trees[TREES];

  for (guint t = 0; t < TREES; t++)
    trees[t] = 0.35 * normal (rand);
  ask->n = n;
  for (guint i = 0; i < n; i++)
    {
      FrSapSugarReading *reading = &ask->readings[i];

      *reading
          = (FrSapSugarReading){ g_rand_double_range (rand, -25, 30), g_rand_int_range (rand, -1, TREES - 1),
                                 0, g_rand_double_range (rand, 0.1, 0.4) };
      reading->brix = level + slope * reading->at_days + (reading->tree >= 0 ? trees[reading->tree] : 0)
                      + CLAMP (normal (rand), -2, 2) * reading->brix_sd;
    }
}

/* --- the dense model: level, slope and every tree at once --- */

#define P (2 + TREES)

typedef struct
{
  double mean[P];
  double cov[P][P];
} Dense;

static void
invert (double m[P][P], double inverse[P][P])
{
  for (guint i = 0; i < P; i++)
    for (guint j = 0; j < P; j++)
      inverse[i][j] = i == j;
  for (guint col = 0; col < P; col++)
    {
      guint best = col;

      for (guint row = col; row < P; row++)
        if (fabs (m[row][col]) > fabs (m[best][col]))
          best = row;
      for (guint j = 0; j < P; j++)
        {
          double a = m[col][j], b = inverse[col][j];

          m[col][j] = m[best][j];
          inverse[col][j] = inverse[best][j];
          m[best][j] = a;
          inverse[best][j] = b;
        }
      for (guint row = 0; row < P; row++)
        {
          double by = m[row][col] / m[col][col];

          for (guint j = 0; j < P && row != col; j++)
            {
              m[row][j] -= by * m[col][j];
              inverse[row][j] -= by * inverse[col][j];
            }
        }
    }
  for (guint i = 0; i < P; i++)
    for (guint j = 0; j < P; j++)
      inverse[i][j] /= m[i][i];
}

/* @without: a reading left out, −1 for none. */
static void
dense (const Ask *ask, gint without, Dense *out)
{
  double information[P][P] = { { 0 } }, right[P] = { 0 };

  information[0][0] = 1 / (0.5 * 0.5);
  right[0] = 2.2 / (0.5 * 0.5);
  information[1][1] = 1 / (0.01 * 0.01);
  right[1] = -0.014 / (0.01 * 0.01);
  for (guint t = 0; t < TREES; t++)
    information[2 + t][2 + t] = 1 / (0.35 * 0.35);
  for (guint i = 0; i < ask->n; i++)
    {
      const FrSapSugarReading *reading = &ask->readings[i];
      double row[P] = { 1, reading->at_days };

      if ((gint)i == without)
        continue;
      if (reading->tree >= 0)
        row[2 + reading->tree] = 1;
      for (guint j = 0; j < P; j++)
        {
          right[j] += row[j] * reading->brix / (reading->brix_sd * reading->brix_sd);
          for (guint k = 0; k < P; k++)
            information[j][k] += row[j] * row[k] / (reading->brix_sd * reading->brix_sd);
        }
    }
  invert (information, out->cov);
  for (guint i = 0; i < P; i++)
    {
      out->mean[i] = 0;
      for (guint j = 0; j < P; j++)
        out->mean[i] += out->cov[i][j] * right[j];
    }
}

static FrSugarBrix
dense_on (const Dense *model, double at_days, gint tree)
{
  double row[P] = { 1, at_days }, mean = 0, variance = 0;

  if (tree >= 0)
    row[2 + tree] = 1;
  for (guint i = 0; i < P; i++)
    {
      mean += row[i] * model->mean[i];
      for (guint j = 0; j < P; j++)
        variance += row[i] * model->cov[i][j] * row[j];
    }
  return (FrSugarBrix){ mean, sqrt (variance) };
}

static void
test_dense (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  const FrSapSugarPrior prior = fr_sap_sugar_prior ();

  for (guint round = 0; round < 60; round++)
    {
      Ask ask;
      Dense model;
      g_autoptr (FrSapSugar) sugar = NULL;
      double slope_sd;

      ask_random (&ask, rand, round % MOST);
      dense (&ask, -1, &model);
      sugar = fr_sap_sugar_new (&prior, TREES, ask.readings, ask.n);
      if (fr_sap_sugar_n_used (sugar) < ask.n)
        continue;
      found_near ("level, °Bx", fr_sap_sugar_level (sugar).mean_brix, model.mean[0], 1e-11);
      found_near ("slope, °Bx a day", fr_sap_sugar_slope_brix_per_day (sugar, &slope_sd), model.mean[1],
                  1e-12);
      found_near ("sd of the slope, °Bx a day", slope_sd, sqrt (model.cov[1][1]), 1e-12);
      for (gint tree = FR_SUGAR_BUSH; tree < TREES; tree++)
        for (double day = -30; day <= 40; day += 17.5)
          {
            FrSugarBrix wanted = dense_on (&model, day, tree), is = fr_sap_sugar_on (sugar, day, tree);

            found_near ("sap of a day, °Bx", is.mean_brix, wanted.mean_brix, 1e-11);
            found_near ("sd of it, °Bx", is.brix_sd, wanted.brix_sd, 1e-11);
          }
      for (gint tree = 0; tree < TREES; tree++)
        {
          found_near ("a tree's own, °Bx", fr_sap_sugar_tree (sugar, tree).mean_brix, model.mean[2 + tree],
                      1e-11);
          found_near ("sd of it, °Bx", fr_sap_sugar_tree (sugar, tree).brix_sd,
                      sqrt (model.cov[2 + tree][2 + tree]), 1e-11);
        }
    }
}

/* Bayes' rule added up over a grid of level, slope and one tree, with no algebra at all. */
static void
test_grid (void)
{
  const FrSapSugarReading readings[]
      = { { -10, 0, 2.9, 0.2 }, { 3, FR_SUGAR_BUSH, 2.0, 0.15 }, { 12, 0, 2.4, 0.2 } };
  const FrSapSugarPrior prior = fr_sap_sugar_prior ();
  g_autoptr (FrSapSugar) sugar = fr_sap_sugar_new (&prior, 1, readings, 3);
  FrSugarBrix is = fr_sap_sugar_on (sugar, 20, 0);
  double sum = 0, first = 0, second = 0;

  for (double level = 1; level <= 3.4; level += 0.02)
    for (double slope = -0.06; slope <= 0.032; slope += 0.001)
      for (double tree = -1.4; tree <= 1.8; tree += 0.02)
        {
          double chance
              = pow ((level - 2.2) / 0.5, 2) + pow ((slope + 0.014) / 0.01, 2) + pow (tree / 0.35, 2);
          double brix = level + 20 * slope + tree;

          for (guint i = 0; i < 3; i++)
            chance += pow (
                (readings[i].brix - level - slope * readings[i].at_days - (readings[i].tree == 0 ? tree : 0))
                    / readings[i].brix_sd,
                2);
          chance = exp (-chance / 2);
          sum += chance;
          first += chance * brix;
          second += chance * brix * brix;
        }
  found_near ("grid posterior, mean, °Bx", is.mean_brix, first / sum, 1e-4);
  found_near ("grid posterior, sd, °Bx", is.brix_sd, sqrt (second / sum - first / sum * (first / sum)), 1e-4);
}

/* One absurd reading among any others is out, no other is, and the answer is as if it had never been written;
 * what lies within 4 sd of the rest, as a dense model without it says, is never called a stray. */
static void
test_stray (void)
{
  static const double absurd_brix[] = { 22, 0.05, 9 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (12);
  const FrSapSugarPrior prior = fr_sap_sugar_prior ();
  guint n_caught = 0;

  for (guint round = 0; round < 60; round++)
    {
      Ask ask;
      g_autoptr (FrSapSugar) without = NULL, with = NULL;
      guint at;
      Dense rest;
      FrSugarBrix expected;
      double away_sd;

      ask_random (&ask, rand, 1 + round % (MOST - 1));
      without = fr_sap_sugar_new (&prior, TREES, ask.readings, ask.n);
      if (fr_sap_sugar_n_used (without) < ask.n)
        continue;
      at = ask.n++;
      ask.readings[at] = (FrSapSugarReading){ 5, (gint)(round % TREES) - 1, absurd_brix[round % 3], 0.2 };
      dense (&ask, (gint)at, &rest);
      expected = dense_on (&rest, 5, ask.readings[at].tree);
      away_sd = fabs (ask.readings[at].brix - expected.mean_brix) / hypot (expected.brix_sd, 0.2);
      with = fr_sap_sugar_new (&prior, TREES, ask.readings, ask.n);
      if (away_sd < 4)
        {
          g_assert_false (fr_sap_sugar_is_stray (with, at));
          continue;
        }
      n_caught++;
      g_assert_true (fr_sap_sugar_is_stray (with, at));
      g_assert_cmpuint (fr_sap_sugar_n_used (with), ==, ask.n - 1);
      for (gint tree = FR_SUGAR_BUSH; tree < TREES; tree++)
        found_near ("as if it had not been, °Bx", fr_sap_sugar_on (with, 20, tree).mean_brix,
                    fr_sap_sugar_on (without, 20, tree).mean_brix, 1e-12);
    }
  g_assert_cmpuint (n_caught, >, 30);
}

/* Nothing read: the prior, by hand. */
static void
test_prior (void)
{
  const FrSapSugarPrior prior = fr_sap_sugar_prior ();
  g_autoptr (FrSapSugar) sugar = fr_sap_sugar_new (&prior, 1, NULL, 0);

  found_near ("nothing read, °Bx", fr_sap_sugar_on (sugar, 10, FR_SUGAR_BUSH).mean_brix, 2.06, 1e-12);
  found_near ("nothing read, sd, °Bx", fr_sap_sugar_on (sugar, 10, FR_SUGAR_BUSH).brix_sd, hypot (0.5, 0.1),
              1e-12);
  found_near ("nothing read of a tree, sd, °Bx", fr_sap_sugar_on (sugar, 0, 0).brix_sd, hypot (0.5, 0.35),
              1e-12);
  found_near ("nothing read of a tree that is not known, sd, °Bx", fr_sap_sugar_on (sugar, 0, 7).brix_sd,
              hypot (0.5, 0.35), 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sap-sugar/dense", test_dense);
  g_test_add_func ("/sap-sugar/grid", test_grid);
  g_test_add_func ("/sap-sugar/stray", test_stray);
  g_test_add_func ("/sap-sugar/prior", test_prior);
  return found_run ();
}
