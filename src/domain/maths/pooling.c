/* Partial pooling. One mean: precisions add up (Gelman et al., Bayesian Data Analysis, section 2.5). A bush:
 * the normal equations of level and seasons with the trees integrated out, whose inverse is their joint
 * uncertainty; then each tree given them. The standard deviations between trees and of the rest by
 * expectation and maximisation (Dempster, Laird and Rubin 1977; Laird and Ware 1982), which on balanced data
 * ends at the analysis of variance. */
#include "domain/maths/pooling.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define ROUNDS_MAX 500
#define SETTLED 1e-9 /* relative change of a variance */

FrPooled
fr_pool (FrNormal prior, const FrNormal *observed, guint n)
{
  double precision = 1 / (prior.sd * prior.sd), own = 0, sum = 0;
  FrPooled pooled = { prior.value, prior.sd, prior.sd, 0, n };

  if (n == 0 || prior.sd == 0)
    return pooled;
  for (guint i = 0; i < n; i++)
    {
      double one = 1 / (observed[i].sd * observed[i].sd);

      own += one;
      sum += one * observed[i].value;
    }
  /* With an infinite sd the prior's value, which may be unknown, has no part in it. */
  if (precision > 0)
    sum += precision * prior.value;
  pooled.value = sum / (precision + own);
  pooled.sd = pooled.alone_sd = 1 / sqrt (precision + own);
  pooled.weight_ratio = own / (precision + own);
  return pooled;
}

/* What was seen of one tree: per season how often, and their sum. */
typedef struct
{
  guint n;
  guint from, to; /* its part of Job.counts */
  double sum;
  double squares;
} Tree;

typedef struct
{
  guint season;
  guint n;
  double sum;
} Count;

/* Unknowns 0 level, 1 … seasons; matrices are dimension × dimension, row by row. */
typedef struct
{
  const FrPoolPrior *prior;
  const double *apart_sd;
  Tree *trees;
  guint n_trees;
  GArray *counts;
  guint dimension;
  double *matrix; /* becomes the covariance */
  double *mean;
  double tree_var, rest_var;
} Job;

static int
compare_seen (gconstpointer a, gconstpointer b)
{
  const FrPoolSeen *x = a, *y = b;

  if (x->tree != y->tree)
    return x->tree < y->tree ? -1 : 1;
  return x->season < y->season ? -1 : x->season > y->season;
}

/* Observations by tree and season, less the prior's level. */
static void
count_seen (Job *job, const FrPoolSeen *seen, guint n_seen)
{
  g_autofree FrPoolSeen *sorted = g_new (FrPoolSeen, n_seen + 1);

  if (n_seen > 0)
    memcpy (sorted, seen, n_seen * sizeof *sorted);
  qsort (sorted, n_seen, sizeof *sorted, compare_seen);
  for (guint i = 0; i < n_seen; i++)
    {
      double value = sorted[i].value - job->prior->level.value;
      Tree *tree = &job->trees[sorted[i].tree];
      Count *last;

      if (i == 0 || compare_seen (&sorted[i - 1], &sorted[i]) != 0)
        {
          Count count = { sorted[i].season, 0, 0 };

          if (tree->n == 0)
            tree->from = job->counts->len;
          g_array_append_val (job->counts, count);
          tree->to = job->counts->len;
        }
      last = &g_array_index (job->counts, Count, job->counts->len - 1);
      last->n++;
      last->sum += value;
      tree->n++;
      tree->sum += value;
      tree->squares += value * value;
    }
}

static double
tree_variance (const Job *job, guint tree)
{
  double apart = job->apart_sd == NULL ? 0 : job->apart_sd[tree];

  return job->tree_var + apart * apart;
}

/* Turns a symmetric positive definite matrix into its inverse, in place (Gauss and Jordan; no pivots are
 * needed). */
static void
invert (double *m, guint n)
{
  for (guint k = 0; k < n; k++)
    {
      double pivot = 1 / m[k * n + k];

      m[k * n + k] = 1;
      for (guint j = 0; j < n; j++)
        m[k * n + j] *= pivot;
      for (guint i = 0; i < n; i++)
        if (i != k && m[i * n + k] != 0)
          {
            double factor = m[i * n + k];

            m[i * n + k] = 0;
            for (guint j = 0; j < n; j++)
              m[i * n + j] -= factor * m[k * n + j];
          }
    }
}

/* Level and seasons with the trees integrated out, at the present variances. A season is unknown 1 + its
 * number, or none when seasons do not differ. */
static void
solve_level (Job *job)
{
  guint n = job->dimension;
  double *m = job->matrix;
  g_autofree double *right = g_new0 (double, n);

  memset (m, 0, n * n * sizeof *m);
  m[0] = isfinite (job->prior->level.sd) ? 1 / (job->prior->level.sd * job->prior->level.sd) : 0;
  for (guint t = 1; t < n; t++)
    m[t * n + t] = 1 / (job->prior->season_sd * job->prior->season_sd);
  for (guint i = 0; i < job->n_trees; i++)
    {
      const Tree *tree = &job->trees[i];
      double variance = tree_variance (job, i), shared = variance / (job->rest_var + tree->n * variance);

      if (tree->n == 0)
        continue;
      /* (rest I + variance J)⁻¹ = (I − shared J) / rest */
      m[0] += (tree->n - shared * tree->n * tree->n) / job->rest_var;
      right[0] += (1 - shared * tree->n) * tree->sum / job->rest_var;
      for (guint c = tree->from; c < tree->to && n > 1; c++)
        {
          const Count *count = &g_array_index (job->counts, Count, c);
          guint t = 1 + count->season;
          double with_level = (count->n - shared * count->n * tree->n) / job->rest_var;

          m[t] += with_level;
          m[t * n] += with_level;
          m[t * n + t] += count->n / job->rest_var;
          right[t] += (count->sum - shared * count->n * tree->sum) / job->rest_var;
          for (guint d = tree->from; d < tree->to; d++)
            {
              const Count *other = &g_array_index (job->counts, Count, d);

              m[t * n + 1 + other->season] -= shared * count->n * other->n / job->rest_var;
            }
        }
    }
  if (m[0] == 0)
    {
      /* Nothing prior and nothing seen: the level is unknown. */
      memset (m, 0, n * n * sizeof *m);
      for (guint t = 0; t < n; t++)
        m[t * n + t] = t == 0 ? INFINITY : job->prior->season_sd * job->prior->season_sd;
      memset (job->mean, 0, n * sizeof *job->mean);
      return;
    }
  invert (m, n);
  for (guint i = 0; i < n; i++)
    {
      job->mean[i] = 0;
      for (guint j = 0; j < n; j++)
        job->mean[i] += m[i * n + j] * right[j];
    }
}

/* A tree's difference to level and seasons, and its square as expected; the variance that level and seasons
 * lend to its mean; and the squares of the rest as expected, summed over its observations. */
typedef struct
{
  double weight;
  double off, off_squared;
  double level_var;
  double spread;
} Given;

/* @all FALSE: only what the tree's own posterior needs. */
static Given
given_level (const Job *job, guint index, gboolean all)
{
  const Tree *tree = &job->trees[index];
  guint n = job->dimension;
  const double *cov = job->matrix, *mean = job->mean;
  double variance = tree_variance (job, index), alone, seasons_mean = 0, level_seasons = 0,
         seasons_seasons = 0;
  Given out = { 0 };

  if (tree->n == 0)
    return (Given){ 0, 0, variance, cov[0], 0 };
  out.weight = tree->n * variance / (job->rest_var + tree->n * variance);
  alone = (1 - out.weight) * variance;
  for (guint c = tree->from; c < tree->to && n > 1; c++)
    {
      const Count *one = &g_array_index (job->counts, Count, c);
      double share = (double)one->n / tree->n;

      seasons_mean += share * mean[1 + one->season];
      level_seasons += share * cov[1 + one->season];
      for (guint d = tree->from; d < tree->to; d++)
        {
          const Count *two = &g_array_index (job->counts, Count, d);

          seasons_seasons += share * two->n / tree->n * cov[(1 + one->season) * n + 1 + two->season];
        }
    }
  out.off = out.weight * (tree->sum / tree->n - mean[0] - seasons_mean);
  /* Its mean is weight × own + (1 − weight) level − weight × seasons. */
  out.level_var = (1 - out.weight) * (1 - out.weight) * cov[0]
                  - 2 * out.weight * (1 - out.weight) * level_seasons
                  + out.weight * out.weight * seasons_seasons;
  if (!all)
    return out;
  out.off_squared
      = out.off * out.off + alone + out.weight * out.weight * (cov[0] + 2 * level_seasons + seasons_seasons);
  /* Each observation less level, season and tree, squared, and what is unknown of those three. */
  {
    double base = mean[0] + out.off;

    out.spread
        = tree->squares - 2 * base * tree->sum + tree->n * base * base + tree->n * (alone + out.level_var);
    for (guint c = tree->from; c < tree->to && n > 1; c++)
      {
        const Count *one = &g_array_index (job->counts, Count, c);
        guint t = 1 + one->season;
        double cross = (1 - out.weight) * cov[t];

        for (guint d = tree->from; d < tree->to; d++)
          {
            const Count *two = &g_array_index (job->counts, Count, d);

            cross -= out.weight * two->n / tree->n * cov[t * n + 1 + two->season];
          }
        out.spread += one->n * (mean[t] * mean[t] + cov[t * n + t] + 2 * cross)
                      - 2 * mean[t] * (one->sum - one->n * base);
      }
  }
  return out;
}

/* One step towards the likeliest variances; TRUE when they stay as they are. */
static gboolean
improve (Job *job)
{
  double worth = job->prior->worth, tree_sum = worth * job->prior->tree_sd * job->prior->tree_sd,
         rest_sum = worth * job->prior->rest_sd * job->prior->rest_sd, trees = worth, observations = worth,
         tree_var, rest_var;
  gboolean settled;

  for (guint i = 0; i < job->n_trees; i++)
    {
      Given given;
      double part;

      if (job->trees[i].n == 0)
        continue;
      given = given_level (job, i, TRUE);
      rest_sum += given.spread;
      observations += job->trees[i].n;
      /* Of a tree that may be further off than others only its part is one of the differences between trees.
       */
      part = job->tree_var > 0 ? job->tree_var / tree_variance (job, i) : 0;
      tree_sum += part * part * given.off_squared + (1 - part) * job->tree_var;
      trees++;
    }
  tree_var = trees > 0 ? tree_sum / trees : job->tree_var;
  rest_var = observations > 0 ? rest_sum / observations : job->rest_var;
  settled = fabs (tree_var - job->tree_var) <= SETTLED * job->tree_var
            && fabs (rest_var - job->rest_var) <= SETTLED * job->rest_var;
  job->tree_var = tree_var;
  job->rest_var = rest_var;
  return settled;
}

void
fr_pool_bush (const FrPoolPrior *prior, const FrPoolSeen *seen, guint n_seen, guint n_trees, guint n_seasons,
              const double *apart_sd, FrPoolBush *bush_out)
{
  Job job = { .prior = prior, .apart_sd = apart_sd, .n_trees = n_trees };

  g_return_if_fail (n_seasons <= FR_POOL_SEASONS_MAX && prior->rest_sd > 0);
  job.trees = g_new0 (Tree, n_trees + 1);
  job.counts = g_array_new (FALSE, FALSE, sizeof (Count));
  job.dimension = prior->season_sd > 0 ? 1 + n_seasons : 1;
  job.matrix = g_new0 (double, job.dimension *job.dimension);
  job.mean = g_new0 (double, job.dimension);
  job.tree_var = prior->tree_sd * prior->tree_sd;
  job.rest_var = prior->rest_sd * prior->rest_sd;
  count_seen (&job, seen, n_seen);

  solve_level (&job);
  for (guint round = 0; round < ROUNDS_MAX && n_seen > 0 && !improve (&job); round++)
    solve_level (&job);

  memset (bush_out, 0, sizeof *bush_out);
  bush_out->level = (FrNormal){ prior->level.value + job.mean[0], sqrt (job.matrix[0]) };
  bush_out->tree_sd = sqrt (job.tree_var);
  bush_out->rest_sd = sqrt (job.rest_var);
  bush_out->n_trees = n_trees;
  bush_out->n_seasons = n_seasons;
  bush_out->trees = g_new0 (FrPooled, n_trees + 1);
  bush_out->seasons = g_new0 (FrNormal, n_seasons + 1);
  for (guint i = 0; i < n_trees; i++)
    {
      Given given = given_level (&job, i, FALSE);
      double alone_var = (1 - given.weight) * tree_variance (&job, i);

      bush_out->n_seen += job.trees[i].n > 0;
      bush_out->trees[i] = (FrPooled){ bush_out->level.value + given.off, sqrt (alone_var + given.level_var),
                                       sqrt (alone_var), given.weight, job.trees[i].n };
    }
  for (guint t = 0; t < n_seasons && job.dimension > 1; t++)
    bush_out->seasons[t] = (FrNormal){ job.mean[1 + t], sqrt (job.matrix[(1 + t) * job.dimension + 1 + t]) };
  g_free (job.trees);
  g_array_unref (job.counts);
  g_free (job.matrix);
  g_free (job.mean);
}

void
fr_pool_bush_clear (FrPoolBush *bush)
{
  g_clear_pointer (&bush->trees, g_free);
  g_clear_pointer (&bush->seasons, g_free);
}
