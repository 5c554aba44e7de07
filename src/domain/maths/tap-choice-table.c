/* The choice when only buckets limit it. Trees whose taps give less and less go into one sorted list of taps,
 * which is the best choice for every number of buckets at once; the others are added one after another by
 * dynamic programming over that list. Exact. Among equal sugar the fewest litres, which is how much kitchen
 * the best choice needs. */
#include "domain/maths/tap-choice-private.h"

typedef struct
{
  guint tree;
  gint64 sugar, litres; /* of this one tap */
} Tap;

/* Sugar with at most so many buckets, and its litres. */
typedef struct
{
  gint64 sugar, litres;
} Best;

struct _FrChoiceTable
{
  const FrChoiceTrees *trees;
  guint n; /* buckets beyond the musts, 0 to n */
  GArray *taps;
  guint *odd; /* trees that are not in the list */
  guint n_odd;
  guint8 *chosen; /* taps beyond the least of each odd tree, n + 1 a tree */
  Best *best;
};

void
fr_choice_plan_sum (const FrChoiceTrees *trees, FrChoicePlan *plan)
{
  plan->sugar = plan->litres = 0;
  plan->buckets = plan->trees = 0;
  for (guint i = 0; i < trees->n; i++)
    {
      guint at = trees->first[i] + plan->taps[i];

      plan->sugar += trees->sugar[at];
      plan->litres += trees->litres[at];
      plan->buckets += plan->taps[i];
      plan->trees += plan->taps[i] > 0;
    }
}

static int
compare_taps (gconstpointer a, gconstpointer b)
{
  const Tap *x = a, *y = b;

  if (x->sugar != y->sugar)
    return x->sugar > y->sugar ? -1 : 1;
  if (x->litres != y->litres)
    return x->litres < y->litres ? -1 : 1;
  return x->tree < y->tree ? -1 : x->tree > y->tree;
}

/* Whether each tap beyond the least gives no more than the one before. */
static gboolean
falls (const FrChoiceTrees *trees, guint tree)
{
  const gint64 *sugar = trees->sugar + trees->first[tree];

  for (guint j = trees->least[tree] + 2; j <= trees->taps[tree]; j++)
    if (sugar[j] - sugar[j - 1] > sugar[j - 1] - sugar[j - 2])
      return FALSE;
  return TRUE;
}

static gboolean
is_better (Best a, Best b)
{
  return a.sugar > b.sugar || (a.sugar == b.sugar && a.litres < b.litres);
}

/* Best with one tree more: for every number of buckets the best split between it and those before. */
static void
add_odd (FrChoiceTable *table, guint tree, guint8 *chosen)
{
  const FrChoiceTrees *trees = table->trees;
  guint least = trees->least[tree], more = trees->taps[tree] - least;
  const gint64 *sugar = trees->sugar + trees->first[tree] + least,
               *litres = trees->litres + trees->first[tree] + least;

  /* Downwards, so that what is read has not been written yet. */
  for (guint b = table->n + 1; b-- > 0;)
    {
      Best best = table->best[b];

      chosen[b] = 0;
      best.sugar += sugar[0];
      best.litres += litres[0];
      for (guint j = 1; j <= MIN (more, b); j++)
        {
          Best with = table->best[b - j];

          with.sugar += sugar[j];
          with.litres += litres[j];
          if (is_better (with, best))
            {
              best = with;
              chosen[b] = (guint8)j;
            }
        }
      table->best[b] = best;
    }
}

FrChoiceTable *
fr_choice_table_new (const FrChoiceTrees *trees)
{
  FrChoiceTable *table = g_new0 (FrChoiceTable, 1);
  Best sum = { 0, 0 };

  table->trees = trees;
  table->n = trees->taps_in_all - trees->musts;
  table->taps = g_array_new (FALSE, FALSE, sizeof (Tap));
  table->odd = g_new (guint, trees->n + 1);
  table->best = g_new (Best, table->n + 1);
  for (guint i = 0; i < trees->n; i++)
    {
      guint at = trees->first[i];

      if (!falls (trees, i))
        {
          table->odd[table->n_odd++] = i;
          continue;
        }
      sum.sugar += trees->sugar[at + trees->least[i]];
      sum.litres += trees->litres[at + trees->least[i]];
      for (guint j = trees->least[i] + 1; j <= trees->taps[i]; j++)
        {
          Tap tap = { i, trees->sugar[at + j] - trees->sugar[at + j - 1],
                      trees->litres[at + j] - trees->litres[at + j - 1] };

          if (tap.sugar > 0)
            g_array_append_val (table->taps, tap);
        }
    }
  g_array_sort (table->taps, compare_taps);
  for (guint b = 0; b <= table->n; b++)
    {
      if (b > 0 && b <= table->taps->len)
        {
          const Tap *tap = &g_array_index (table->taps, Tap, b - 1);

          sum.sugar += tap->sugar;
          sum.litres += tap->litres;
        }
      table->best[b] = sum;
    }
  table->chosen = g_malloc ((gsize)table->n_odd * (table->n + 1) + 1);
  for (guint k = 0; k < table->n_odd; k++)
    add_odd (table, table->odd[k], table->chosen + (gsize)k * (table->n + 1));
  return table;
}

void
fr_choice_table_free (FrChoiceTable *table)
{
  if (table == NULL)
    return;
  g_array_unref (table->taps);
  g_free (table->odd);
  g_free (table->chosen);
  g_free (table->best);
  g_free (table);
}

static guint
beyond_musts (const FrChoiceTable *table, guint buckets)
{
  g_return_val_if_fail (buckets >= table->trees->musts, 0);
  return MIN (buckets - table->trees->musts, table->n);
}

gint64
fr_choice_table_sugar (const FrChoiceTable *table, guint buckets)
{
  return table->best[beyond_musts (table, buckets)].sugar;
}

gint64
fr_choice_table_litres (const FrChoiceTable *table, guint buckets)
{
  return table->best[beyond_musts (table, buckets)].litres;
}

void
fr_choice_table_plan (const FrChoiceTable *table, guint buckets, FrChoicePlan *plan)
{
  const FrChoiceTrees *trees = table->trees;
  guint left = beyond_musts (table, buckets);

  for (guint i = 0; i < trees->n; i++)
    plan->taps[i] = trees->least[i];
  for (guint k = table->n_odd; k-- > 0;)
    {
      guint8 chosen = table->chosen[(gsize)k * (table->n + 1) + left];

      plan->taps[table->odd[k]] += chosen;
      left -= chosen;
    }
  for (guint t = 0; t < MIN (left, table->taps->len); t++)
    plan->taps[g_array_index (table->taps, Tap, t).tree]++;
  fr_choice_plan_sum (trees, plan);
  plan->bound_kg = fr_choice_kg (trees, (double)plan->sugar);
  plan->exact = TRUE;
}
