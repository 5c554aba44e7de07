/* What a bucket, a tree and a litre of boiling are worth at the margin: the dual of the choice's linear
 * relaxation, by Dantzig and Wolfe's decomposition (1960). The master has one row a limit and one for the
 * mixture, so its basis is four by four; a new column is the best choice at the present prices, tree by tree.
 * Any prices give a true bound; the best that were met are returned, so that rounding and the cap on rounds
 * cost sharpness, never truth. */
#include "domain/maths/tap-choice-private.h"

#include <math.h>
#include <string.h>

#define ROWS 4
#define LIMITS 3
#define ROUNDS_MAX 400
#define STALLED_MAX 40

/* A mixture's member, or the unused part of a limit: what it takes of each row, each limit being 1. */
typedef struct
{
  double value;
  double takes[ROWS];
} Column;

typedef struct
{
  const FrChoiceTrees *trees;
  const double *value, *litres;
  double limit[LIMITS]; /* buckets, trees, litres; 1 in place of 0 */
} Job;

/* Solves the four by four system m x = b, or its transpose. FALSE when it is singular. */
static gboolean
solve_small (const Column basis[ROWS], gboolean transposed, const double b[ROWS], double x_out[ROWS])
{
  double m[ROWS][ROWS + 1];

  for (guint r = 0; r < ROWS; r++)
    {
      for (guint c = 0; c < ROWS; c++)
        m[r][c] = transposed ? basis[r].takes[c] : basis[c].takes[r];
      m[r][ROWS] = b[r];
    }
  for (guint k = 0; k < ROWS; k++)
    {
      guint pivot = k;

      for (guint r = k + 1; r < ROWS; r++)
        if (fabs (m[r][k]) > fabs (m[pivot][k]))
          pivot = r;
      if (!(fabs (m[pivot][k]) > 1e-14))
        return FALSE;
      for (guint c = k; c <= ROWS; c++)
        {
          double swap = m[k][c];

          m[k][c] = m[pivot][c];
          m[pivot][c] = swap;
        }
      for (guint r = 0; r < ROWS; r++)
        if (r != k && m[r][k] != 0)
          {
            double factor = m[r][k] / m[k][k];

            for (guint c = k; c <= ROWS; c++)
              m[r][c] -= factor * m[k][c];
          }
    }
  for (guint k = 0; k < ROWS; k++)
    x_out[k] = m[k][ROWS] / m[k][k];
  return TRUE;
}

/* The best choice at these prices (per whole limit) as a column; its value less prices is returned. */
static double
price_trees (const Job *job, const double price[LIMITS], Column *column_out)
{
  const FrChoiceTrees *trees = job->trees;
  double per_bucket = price[0] / job->limit[0], per_tree = price[1] / job->limit[1],
         per_litre = price[2] / job->limit[2], sum = 0;

  memset (column_out, 0, sizeof *column_out);
  for (guint i = 0; i < trees->n; i++)
    {
      guint at = trees->first[i], best = 0;
      double most = -INFINITY;

      for (guint j = trees->least[i]; j <= trees->taps[i]; j++)
        {
          double worth = job->value[at + j] - per_litre * job->litres[at + j] - per_bucket * j
                         - (j > 0 ? per_tree : 0);

          if (worth > most)
            {
              most = worth;
              best = j;
            }
        }
      sum += most;
      column_out->value += job->value[at + best];
      column_out->takes[0] += best;
      column_out->takes[1] += best > 0;
      column_out->takes[2] += job->litres[at + best];
    }
  for (guint r = 0; r < LIMITS; r++)
    column_out->takes[r] /= job->limit[r];
  column_out->takes[ROWS - 1] = 1;
  return sum;
}

/* The member that leaves the basis when @entering comes in, or ROWS. */
static guint
leaving (const Column basis[ROWS], const double share[ROWS], const Column *entering)
{
  double direction[ROWS], least = INFINITY;
  guint row = ROWS;

  if (!solve_small (basis, FALSE, entering->takes, direction))
    return ROWS;
  for (guint r = 0; r < ROWS; r++)
    if (direction[r] > 1e-11)
      {
        double ratio = MAX (0, share[r]) / direction[r];

        if (ratio < least)
          {
            least = ratio;
            row = r;
          }
      }
  return row;
}

double
fr_choice_bound_kg (const FrChoiceTrees *trees, const FrChoiceLimits *limits, const double *value_kg,
                    const double *litres_l, double most_l, double price_kg_out[3])
{
  Job job = { trees, value_kg, litres_l, { limits->buckets, limits->trees, most_l } };
  double whole[ROWS] = { 1, 1, 1, 1 }, best_bound = INFINITY, reached = -INFINITY;
  Column basis[ROWS] = { 0 };
  guint stalled = 0;

  for (guint r = 0; r < LIMITS; r++)
    if (!(job.limit[r] > 0))
      {
        job.limit[r] = 1;
        whole[r] = 0;
      }
  /* Start with all limits unused but for what the musts take, which is the least there is of everything. */
  for (guint r = 0; r < LIMITS; r++)
    basis[r].takes[r] = 1;
  for (guint i = 0; i < trees->n; i++)
    {
      basis[ROWS - 1].value += value_kg[trees->first[i] + trees->least[i]];
      basis[ROWS - 1].takes[0] += trees->least[i];
      basis[ROWS - 1].takes[1] += trees->least[i];
      basis[ROWS - 1].takes[2] += litres_l[trees->first[i] + trees->least[i]];
    }
  for (guint r = 0; r < LIMITS; r++)
    basis[ROWS - 1].takes[r] /= job.limit[r];
  basis[ROWS - 1].takes[ROWS - 1] = 1;
  memset (price_kg_out, 0, LIMITS * sizeof *price_kg_out);

  for (guint round = 0; round < ROUNDS_MAX && stalled < STALLED_MAX; round++)
    {
      double values[ROWS], y[ROWS], share[ROWS], value = 0, bound;
      guint out, slack = ROWS;
      Column entering;

      for (guint r = 0; r < ROWS; r++)
        values[r] = basis[r].value;
      if (!solve_small (basis, TRUE, values, y) || !solve_small (basis, FALSE, whole, share))
        break;
      for (guint r = 0; r < ROWS; r++)
        value += values[r] * share[r];
      /* A limit with a price below nothing is used less first. */
      for (guint r = 0; r < LIMITS; r++)
        if (y[r] < -1e-13 * fabs (value) && (slack == ROWS || y[r] < y[slack]))
          slack = r;
      if (slack < ROWS)
        {
          memset (&entering, 0, sizeof entering);
          entering.takes[slack] = 1;
        }
      else
        {
          double price[LIMITS], sum;

          for (guint r = 0; r < LIMITS; r++)
            price[r] = MAX (0, y[r]);
          sum = price_trees (&job, price, &entering);
          bound = sum + price[0] * whole[0] + price[1] * whole[1] + price[2] * whole[2];
          if (bound < best_bound)
            {
              best_bound = bound;
              for (guint r = 0; r < LIMITS; r++)
                price_kg_out[r] = price[r] / job.limit[r];
            }
          if (sum - y[ROWS - 1] <= 1e-12 * (fabs (value) + fabs (sum))
              || best_bound - value <= 1e-12 * fabs (value))
            break;
        }
      stalled = value > reached ? 0 : stalled + 1;
      reached = MAX (reached, value);
      out = leaving (basis, share, &entering);
      if (out == ROWS)
        break;
      basis[out] = entering;
    }
  return best_bound;
}
