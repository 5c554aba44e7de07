/* What the gatherings say of the trees' seasons. Before anything is expected of the trees, all of it is
 * summed with shares from species, size and crown; then the bush's own season is shared out by what is
 * expected of each tree. */
#include "domain/plan/gathering-private.h"

#include <math.h>

/* More of a season than this in totals of several trees, and its own lines say too little of a tree. Common
 * sense, no source: seasons of one tree differ by more (maths/tree-yield.c). */
#define ESTIMATED_RATIO 0.1

/* Whether nothing more will be gathered: all holes pulled, and there were some. */
static gboolean
is_over (const FrBush *bush)
{
  gboolean any = FALSE;

  if (bush->day == fr_bush_season_end (bush->season))
    return TRUE;
  for (guint i = 0; i < bush->tap_starts[bush->n_entries]; i++)
    {
      const FrTap *tap = bush->taps[i];

      if (tap->season.value != bush->season || tap->set_on == NULL)
        continue;
      if (tap->pulled_on == NULL)
        return FALSE;
      any = TRUE;
    }
  return any;
}

static gint
by_tree_and_season (gconstpointer a, gconstpointer b)
{
  const FrGatheredTotals *one = a, *two = b;

  if (one->tree != two->tree)
    return one->tree < two->tree ? -1 : 1;
  return (one->season > two->season) - (one->season < two->season);
}

/* Those of the book that its gatherings do not tell of. */
static void
add_given (FrBush *bush)
{
  const GArray *given = bush->book.gathered;
  g_autoptr (GHashTable) told = g_hash_table_new (NULL, NULL);
  gboolean any = FALSE;

  if (given == NULL || given->len == 0)
    return;
  for (guint i = 0; i < bush->gathered->len; i++)
    g_hash_table_add (told, GUINT_TO_POINTER (g_array_index (bush->gathered, FrGatheredTotals, i).season));
  for (guint i = 0; i < given->len; i++)
    {
      const FrGatheredTotals *one = &g_array_index (given, FrGatheredTotals, i);

      if (g_hash_table_contains (told, GUINT_TO_POINTER (one->season)))
        continue;
      g_array_append_vals (bush->gathered, one, 1);
      any = TRUE;
    }
  if (any)
    g_array_sort (bush->gathered, by_tree_and_season);
}

void
fr_bush_gather (FrBush *bush)
{
  bush->is_over = is_over (bush);
  if (bush->book.gatherings == NULL || bush->book.gatherings->len == 0)
    bush->gathered = g_array_new (FALSE, FALSE, sizeof (FrGatheredTotals));
  else
    {
      for (guint i = 0; i < bush->n_entries; i++)
        bush->entries[i].diameter_m = fr_bush_diameter_m (bush, i);
      bush->gathered = fr_gathering_totals (bush);
    }
  add_given (bush);
}

/* Sweetness of so many litres with so much sugar. */
static double
brix_of (double volume_l, double sugar_kg)
{
  double brix = 1;

  /* The density hardly moves with it: each step leaves less than a hundredth of what was off. */
  for (guint i = 0; i < 8 && brix > 0; i++)
    brix *= sugar_kg / fr_gathering_sugar_kg (volume_l, brix);
  return brix;
}

void
fr_bush_add_gathered (const FrBush *bush, FrTreeSeason *season, const FrGatheredTotals *totals)
{
  const double whole_l = totals->measured_l + totals->estimated_l;

  if (totals->n_estimated > 0)
    season->estimated_l = totals->estimated_l;
  if (totals->n_measured == 0)
    return;
  season->gathered_l = totals->measured_l;
  if (totals->measured_sweet_l > 0)
    season->gathered_brix = brix_of (totals->measured_sweet_l, totals->measured_sugar_kg);
  if (isnan (season->brix))
    season->brix = season->gathered_brix;
  if (!isnan (season->volume_l) || totals->estimated_l > ESTIMATED_RATIO * whole_l)
    return;
  season->volume_l = totals->measured_l;
  season->running = season->season == bush->season && !bush->is_over;
}

static FrTreeSeason *
season_of (FrBush *bush, guint entry)
{
  for (guint k = bush->season_starts[entry]; k < bush->season_starts[entry + 1]; k++)
    if (g_array_index (bush->seasons, FrTreeSeason, k).season == bush->season)
      return &g_array_index (bush->seasons, FrTreeSeason, k);
  return NULL;
}

static void
set_estimate (FrBush *bush, guint entry, const FrGatheredTotals *totals)
{
  FrTreeSeason *season = season_of (bush, entry);
  FrBushTree *row;

  if (season != NULL)
    season->estimated_l = totals->estimated_l;
  /* A row is the bush's own until it is shown. */
  row = (FrBushTree *)fr_bush_find (bush, totals->tree);
  if (row == NULL)
    return;
  row->estimated_l = totals->estimated_l;
  row->estimated_sugar_kg = totals->estimated_sweet_l > 0 ? totals->estimated_sugar_kg : NAN;
}

void
fr_bush_share_season (FrBush *bush)
{
  gboolean any = FALSE;
  FrGatheringShares *shares;

  for (guint i = 0; i < bush->gathered->len && !any; i++)
    {
      const FrGatheredTotals *one = &g_array_index (bush->gathered, FrGatheredTotals, i);

      any = one->season == bush->season && one->n_estimated > 0;
    }
  if (!any)
    return;
  shares = fr_gathering_shares_new (bush, bush->season);
  for (guint i = 0; i < shares->totals->len; i++)
    {
      const FrGatheredTotals *one = &g_array_index (shares->totals, FrGatheredTotals, i);
      guint entry;

      if (one->n_estimated > 0 && fr_bush_entry (bush, one->tree, &entry))
        set_estimate (bush, entry, one);
    }
  fr_gathering_shares_free (shares);
}
