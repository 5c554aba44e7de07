/* A normal linear model solved by its arrow shape: each tree's effect meets only level and slope, so it is
 * eliminated by itself, and what is left is two by two.
 *
 * With weights w = 1/sd², of one tree's readings: sums of w, w x and w y, x = (1, day). Its effect u has
 * precision p = 1/tree_sd² + Σw; eliminated, it leaves Σ w x x' − (Σ w x)(Σ w x)' / p in the information of
 * (level, slope). Exact up to rounding, 1e-12 of a °Bx for the readings of a season.
 *
 * Strays: the distance of a reading from what the rest says of it is its residual over sd √(1 − h), h the
 * share of its error's variance that the fit keeps; so no fit without it has to be made (ordinary
 * leave-one-out algebra; holds with a prior as well). */
#include "domain/maths/sap-sugar.h"

#include <math.h>

/* Sums over readings of one tree, or of the mix. */
typedef struct
{
  double w, wd, wdd, wy, wdy;
} Sums;

struct _FrSapSugar
{
  FrSapSugarPrior prior;
  guint n_trees;
  guint n;
  guint n_used;
  FrSapSugarReading *readings;
  gboolean *is_stray;
  Sums *trees;
  double mean[2]; /* level, slope */
  double cov[2][2];
};

FrSapSugarPrior
fr_sap_sugar_prior (void)
{
  return (FrSapSugarPrior){ 2.2, 0.5, -0.014, 0.010, 0.35 };
}

static void
add (Sums *sums, const FrSapSugarReading *reading)
{
  double w = 1 / (reading->brix_sd * reading->brix_sd), d = reading->at_days;

  sums->w += w;
  sums->wd += w * d;
  sums->wdd += w * d * d;
  sums->wy += w * reading->brix;
  sums->wdy += w * d * reading->brix;
}

static double
tree_precision (const FrSapSugar *sugar, const Sums *sums)
{
  return sums->w + 1 / (sugar->prior.tree_brix_sd * sugar->prior.tree_brix_sd);
}

static void
solve (FrSapSugar *sugar)
{
  const FrSapSugarPrior *prior = &sugar->prior;
  Sums bush = { 0 };
  double a = 1 / (prior->level_brix_sd * prior->level_brix_sd);
  double c = 1 / (prior->slope_brix_per_day_sd * prior->slope_brix_per_day_sd);
  double b = 0, y = a * prior->level_brix, dy = c * prior->slope_brix_per_day, det;

  for (guint i = 0; i < sugar->n_trees; i++)
    sugar->trees[i] = (Sums){ 0 };
  sugar->n_used = 0;
  for (guint i = 0; i < sugar->n; i++)
    if (!sugar->is_stray[i])
      {
        add (sugar->readings[i].tree == FR_SUGAR_BUSH ? &bush : &sugar->trees[sugar->readings[i].tree],
             &sugar->readings[i]);
        sugar->n_used++;
      }
  a += bush.w;
  b += bush.wd;
  c += bush.wdd;
  y += bush.wy;
  dy += bush.wdy;
  for (guint t = 0; t < sugar->n_trees; t++)
    {
      const Sums *sums = &sugar->trees[t];
      double p = tree_precision (sugar, sums);

      a += sums->w - sums->w * sums->w / p;
      b += sums->wd - sums->w * sums->wd / p;
      c += sums->wdd - sums->wd * sums->wd / p;
      y += sums->wy - sums->w * sums->wy / p;
      dy += sums->wdy - sums->wd * sums->wy / p;
    }
  det = a * c - b * b;
  sugar->cov[0][0] = c / det;
  sugar->cov[0][1] = sugar->cov[1][0] = -b / det;
  sugar->cov[1][1] = a / det;
  sugar->mean[0] = (c * y - b * dy) / det;
  sugar->mean[1] = (a * dy - b * y) / det;
}

/* @level_ratio, @slope_ratio: how much of level and slope goes into the answer beside the tree's effect. */
static FrSugarBrix
answer (const FrSapSugar *sugar, double level_ratio, double slope_ratio, gint tree)
{
  double x[2] = { level_ratio, slope_ratio }, mean = 0, variance = 0;

  if (tree >= 0 && tree < (gint)sugar->n_trees)
    {
      const Sums *sums = &sugar->trees[tree];
      double p = tree_precision (sugar, sums);

      /* The effect given level and slope is (Σwy − Σw level − Σwd slope) / p ± 1/√p. */
      mean += sums->wy / p;
      variance += 1 / p;
      x[0] -= sums->w / p;
      x[1] -= sums->wd / p;
    }
  else if (tree != FR_SUGAR_BUSH)
    variance += sugar->prior.tree_brix_sd * sugar->prior.tree_brix_sd;
  for (guint i = 0; i < 2; i++)
    {
      mean += x[i] * sugar->mean[i];
      for (guint j = 0; j < 2; j++)
        variance += x[i] * sugar->cov[i][j] * x[j];
    }
  return (FrSugarBrix){ mean, sqrt (variance) };
}

/* The furthest of all, when it is a stray. */
static gboolean
find_stray (const FrSapSugar *sugar, guint *stray_out)
{
  double furthest_sd = FR_SUGAR_STRAY_SD;
  gboolean found = FALSE;

  for (guint i = 0; i < sugar->n; i++)
    {
      const FrSapSugarReading *reading = &sugar->readings[i];
      FrSugarBrix fitted;
      double kept_ratio, away_sd;

      if (sugar->is_stray[i])
        continue;
      fitted = fr_sap_sugar_on (sugar, reading->at_days, reading->tree);
      kept_ratio = fitted.brix_sd * fitted.brix_sd / (reading->brix_sd * reading->brix_sd);
      away_sd = fabs (reading->brix - fitted.mean_brix) / (reading->brix_sd * sqrt (1 - kept_ratio));
      if (away_sd > furthest_sd)
        {
          furthest_sd = away_sd;
          *stray_out = i;
          found = TRUE;
        }
    }
  return found;
}

FrSapSugar *
fr_sap_sugar_new (const FrSapSugarPrior *prior, guint n_trees, const FrSapSugarReading *readings, guint n)
{
  FrSapSugar *sugar = g_new0 (FrSapSugar, 1);
  guint stray;

  sugar->prior = *prior;
  sugar->n_trees = n_trees;
  sugar->n = n;
  sugar->readings = g_memdup2 (readings, n * sizeof *readings);
  sugar->is_stray = g_new0 (gboolean, n);
  sugar->trees = g_new0 (Sums, n_trees);
  solve (sugar);
  while (find_stray (sugar, &stray))
    {
      sugar->is_stray[stray] = TRUE;
      solve (sugar);
    }
  return sugar;
}

void
fr_sap_sugar_free (FrSapSugar *sugar)
{
  if (!sugar)
    return;
  g_free (sugar->readings);
  g_free (sugar->is_stray);
  g_free (sugar->trees);
  g_free (sugar);
}

FrSugarBrix
fr_sap_sugar_on (const FrSapSugar *sugar, double at_days, gint tree)
{
  return answer (sugar, 1, at_days, tree);
}

FrSugarBrix
fr_sap_sugar_tree (const FrSapSugar *sugar, gint tree)
{
  return answer (sugar, 0, 0, tree);
}

FrSugarBrix
fr_sap_sugar_level (const FrSapSugar *sugar)
{
  return answer (sugar, 1, 0, FR_SUGAR_BUSH);
}

double
fr_sap_sugar_slope_brix_per_day (const FrSapSugar *sugar, double *brix_per_day_sd_out)
{
  if (brix_per_day_sd_out != NULL)
    *brix_per_day_sd_out = sqrt (sugar->cov[1][1]);
  return sugar->mean[1];
}

gboolean
fr_sap_sugar_is_stray (const FrSapSugar *sugar, guint reading)
{
  return sugar->is_stray[reading];
}

guint
fr_sap_sugar_n_used (const FrSapSugar *sugar)
{
  return sugar->n_used;
}
