/* Sharing: a total goes to its trees in proportion to what each was to be expected to have in its bucket: its
 * pace times what has flowed since the session before, and what it had left from before that. The last part
 * is whatever the others leave, so that the parts add up to the total. */
#include "domain/plan/gathering-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct _FrGatheringSharer
{
  FrSapRun run;
  FrBush *own_bush;
  FrGatheredTotals *sums; /* by entry, of the season at hand */
  GArray *totals;
  GArray *parts; /* or NULL: not asked for */
  double unshared_l;
  guint n_unknown;
};

static void
sharer_init (FrGatheringSharer *sharer, const FrBush *bush, gboolean by_kind)
{
  fr_sap_run_init (&sharer->run, bush, by_kind);
  sharer->sums = g_new0 (FrGatheredTotals, bush->n_entries + 1);
  sharer->totals = g_array_new (FALSE, FALSE, sizeof (FrGatheredTotals));
}

/* --- one session --- */

static void
add_part (FrGatheringSharer *sharer, const FrSapRunLine *line, guint entry, guint tap, double volume_l,
          gboolean tree_estimated, gboolean tap_estimated)
{
  const FrBush *bush = sharer->run.bush;
  const FrGatheringPart part = {
    .gathering = line->id,
    .tree = bush->entries[entry].id,
    .tap = tap != FR_SAP_RUN_NONE ? bush->taps[tap]->record.id : 0,
    .volume_l = volume_l,
    .sugar_kg = fr_gathering_sugar_kg (volume_l, line->brix),
    .tree_estimated = tree_estimated,
    .tap_estimated = tap_estimated,
  };

  if (sharer->parts != NULL)
    g_array_append_val (sharer->parts, part);
}

/* A tree's part over its taps, by what each gave when it was measured apart. */
static void
split_tree (FrGatheringSharer *sharer, const FrSapRunLine *line, guint entry, double volume_l,
            gboolean estimated)
{
  FrSapRun *run = &sharer->run;
  const guint n = fr_sap_run_n_taps (run, entry);
  double sum_l = 0, left_l = volume_l;
  guint left = n;

  if (sharer->parts == NULL)
    return;
  if (n == 0)
    {
      add_part (sharer, line, entry, FR_SAP_RUN_NONE, volume_l, estimated, FALSE);
      return;
    }
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = run->bush->tap_starts[entry]; i < run->bush->tap_starts[entry + 1]; i++)
      if (fr_sap_run_is_set (run, run->bush->taps[i]))
        {
          double pace_l, backlog_l, part_l;

          fr_sap_run_tap_pace (run, entry, i, &pace_l, &backlog_l);
          if (pass == 0)
            {
              sum_l += pace_l;
              continue;
            }
          part_l = --left > 0 ? volume_l * pace_l / sum_l : left_l;
          left_l -= part_l;
          add_part (sharer, line, entry, i, part_l, estimated, n > 1);
        }
}

static void
add_estimate (FrGatheringSharer *sharer, const FrSapRunLine *line, guint entry, double volume_l)
{
  FrGatheredTotals *sum = &sharer->sums[entry];

  sum->n_estimated++;
  sum->estimated_l += volume_l;
  if (!isnan (line->brix))
    {
      sum->estimated_sweet_l += volume_l;
      sum->estimated_sugar_kg += fr_gathering_sugar_kg (volume_l, line->brix);
    }
  split_tree (sharer, line, entry, volume_l, TRUE);
}

static void
share_total (FrGatheringSharer *sharer, const FrSapRunLine *line)
{
  g_autoptr (GArray) trees = fr_sap_run_trees_of (&sharer->run, line);
  g_autofree double *weights_l = g_new (double, trees->len + 1);
  g_autofree double *backlogs_l = g_new (double, trees->len + 1);
  double pace_l = 0, backlog_l = 0, flowed_ratio, sum_l = 0, left_l = line->volume_l;

  if (trees->len == 0)
    {
      sharer->unshared_l += line->volume_l;
      return;
    }
  for (guint i = 0; i < trees->len; i++)
    {
      fr_sap_run_pace (&sharer->run, g_array_index (trees, guint, i), &weights_l[i], &backlogs_l[i]);
      pace_l += weights_l[i];
      backlog_l += backlogs_l[i];
    }
  flowed_ratio = MAX (line->volume_l - backlog_l, 0) / pace_l;
  for (guint i = 0; i < trees->len; i++)
    {
      weights_l[i] = weights_l[i] * flowed_ratio + backlogs_l[i];
      sum_l += weights_l[i];
    }
  for (guint i = 0; i < trees->len; i++)
    {
      const double part_l = i + 1 == trees->len ? left_l
                            : sum_l > 0         ? line->volume_l * weights_l[i] / sum_l
                                                : 0;

      left_l -= part_l;
      add_estimate (sharer, line, g_array_index (trees, guint, i), part_l);
    }
}

static void
add_measured (FrGatheringSharer *sharer, const FrSapRunLine *line)
{
  FrGatheredTotals *sum = &sharer->sums[line->entry];

  sum->n_measured++;
  sum->measured_l += line->volume_l;
  if (!isnan (line->brix))
    {
      sum->measured_sweet_l += line->volume_l;
      sum->measured_sugar_kg += fr_gathering_sugar_kg (line->volume_l, line->brix);
    }
  if (line->scope == FR_SAP_RUN_TAP)
    add_part (sharer, line, line->entry, line->tap, line->volume_l, FALSE, FALSE);
  else
    split_tree (sharer, line, line->entry, line->volume_l, FALSE);
}

static void
end_session (FrGatheringSharer *sharer)
{
  FrSapRun *run = &sharer->run;

  if (run->lines->len == 0)
    return;
  fr_sap_run_weigh (run);
  for (guint i = 0; i < run->lines->len; i++)
    {
      const FrSapRunLine *line = &g_array_index (run->lines, FrSapRunLine, i);

      if (line->entry == FR_SAP_RUN_NONE)
        share_total (sharer, line);
      else
        add_measured (sharer, line);
    }
  fr_sap_run_end_session (run);
  g_array_set_size (run->lines, 0);
}

static void
end_season (FrGatheringSharer *sharer)
{
  const FrBush *bush = sharer->run.bush;

  end_session (sharer);
  for (guint i = 0; i < bush->n_entries; i++)
    {
      FrGatheredTotals *sum = &sharer->sums[i];

      if (sum->n_measured + sum->n_estimated == 0)
        continue;
      sum->tree = bush->entries[i].id;
      sum->season = sharer->run.season;
      g_array_append_val (sharer->totals, *sum);
      *sum = (FrGatheredTotals){ 0 };
    }
}

static gint
by_tree_and_season (gconstpointer a, gconstpointer b)
{
  const FrGatheredTotals *one = a, *two = b;

  if (one->tree != two->tree)
    return one->tree < two->tree ? -1 : 1;
  return (one->season > two->season) - (one->season < two->season);
}

static GArray *
finish (FrGatheringSharer *sharer)
{
  end_season (sharer);
  g_array_sort (sharer->totals, by_tree_and_season);
  fr_sap_run_clear (&sharer->run);
  g_free (sharer->sums);
  return sharer->totals;
}

/* --- one after the other --- */

FrGatheringSharer *
fr_gathering_sharer_new (const FrBushBook *book)
{
  FrGatheringSharer *sharer = g_new0 (FrGatheringSharer, 1);

  sharer->own_bush = fr_bush_new_bare (book);
  sharer_init (sharer, sharer->own_bush, TRUE);
  return sharer;
}

void
fr_gathering_sharer_add (FrGatheringSharer *sharer, const FrGathering *gathering)
{
  FrSapRun *run = &sharer->run;
  FrSapRunLine line;

  if (gathering->record.archived)
    return;
  if (!fr_sap_run_read (run, gathering, &line))
    {
      sharer->n_unknown++;
      return;
    }
  if (fr_sap_run_is_new_season (run, line.utc_s))
    {
      end_season (sharer);
      fr_sap_run_begin_season (run, line.utc_s);
    }
  if (fr_sap_run_is_new_session (run, line.utc_s))
    {
      end_session (sharer);
      fr_sap_run_begin_session (run, line.utc_s);
    }
  fr_sap_run_add (run, &line);
}

GArray *
fr_gathering_sharer_finish (FrGatheringSharer *sharer)
{
  GArray *totals = finish (sharer);

  fr_bush_free (sharer->own_bush);
  g_free (sharer);
  return totals;
}

/* --- all together --- */

static gint
by_time (gconstpointer a, gconstpointer b)
{
  const FrGathering *one = *(const FrGathering *const *)a, *two = *(const FrGathering *const *)b;

  if (one->gathered_utc != two->gathered_utc)
    return one->gathered_utc < two->gathered_utc ? -1 : 1;
  return (one->record.id > two->record.id) - (one->record.id < two->record.id);
}

GPtrArray *
fr_gatherings_by_time (GPtrArray *gatherings)
{
  GPtrArray *sorted = g_ptr_array_sized_new (gatherings != NULL ? gatherings->len : 0);
  gboolean in_order = TRUE;

  for (guint i = 0; gatherings != NULL && i < gatherings->len; i++)
    {
      g_ptr_array_add (sorted, gatherings->pdata[i]);
      in_order = in_order && (i == 0 || by_time (&sorted->pdata[i - 1], &sorted->pdata[i]) <= 0);
    }
  if (!in_order)
    qsort (sorted->pdata, sorted->len, sizeof (gpointer), by_time);
  return sorted;
}

GArray *
fr_gathering_totals (const FrBush *bush)
{
  g_autoptr (GPtrArray) gatherings = fr_gatherings_by_time (bush->book.gatherings);
  FrGatheringSharer sharer = { .parts = NULL };

  sharer_init (&sharer, bush, TRUE);
  for (guint i = 0; i < gatherings->len; i++)
    fr_gathering_sharer_add (&sharer, gatherings->pdata[i]);
  return finish (&sharer);
}

FrGatheringShares *
fr_gathering_shares_new (const FrBush *bush, guint season)
{
  FrGatheringShares *shares = g_new0 (FrGatheringShares, 1);
  FrGatheringSharer sharer = { .parts = g_array_new (FALSE, FALSE, sizeof (FrGatheringPart)) };
  g_autoptr (GPtrArray) gatherings = NULL;

  g_return_val_if_fail (bush != NULL && season >= 1 && season <= 9999, shares);

  gatherings = fr_gatherings_by_time (bush->book.gatherings);
  sharer_init (&sharer, bush, FALSE);
  for (guint i = 0; i < gatherings->len; i++)
    {
      const FrGathering *gathering = gatherings->pdata[i];

      if (fr_sap_run_is_new_season (&sharer.run, gathering->gathered_utc))
        {
          end_season (&sharer);
          fr_sap_run_begin_season (&sharer.run, gathering->gathered_utc);
        }
      if (sharer.run.season == season)
        fr_gathering_sharer_add (&sharer, gathering);
    }
  shares->totals = finish (&sharer);
  shares->parts = sharer.parts;
  shares->unshared_l = sharer.unshared_l;
  shares->n_unknown = sharer.n_unknown;
  shares->index = g_hash_table_new (g_int64_hash, g_int64_equal);
  for (guint i = 0; i < shares->parts->len; i++)
    {
      FrGatheringPart *part = &g_array_index (shares->parts, FrGatheringPart, i);

      if (i == 0 || part[-1].gathering != part->gathering)
        g_hash_table_insert (shares->index, &part->gathering, part);
    }
  return shares;
}

void
fr_gathering_shares_free (FrGatheringShares *shares)
{
  if (shares == NULL)
    return;
  g_hash_table_unref (shares->index);
  g_array_unref (shares->parts);
  g_array_unref (shares->totals);
  g_free (shares);
}

const FrGatheringPart *
fr_gathering_shares_of (const FrGatheringShares *shares, gint64 gathering, guint *n_out)
{
  const FrGatheringPart *first = g_hash_table_lookup (shares->index, &gathering),
                        *end = (const FrGatheringPart *)(gpointer)shares->parts->data + shares->parts->len;

  *n_out = 0;
  while (first != NULL && first + *n_out < end && first[*n_out].gathering == gathering)
    ++*n_out;
  return first;
}
