/* The bush itself: the book's records sorted once by tree.
 *
 * Sorting is by counting, since a bush of 2,000 trees with ten seasons has some 60,000 records and is made
 * anew after every change: each record finds its tree by halving a plain array of ids, and within a tree
 * there are so few that they are put in order by insertion. */
#include "domain/plan/bush-private.h"

#include <math.h>
#include <stdlib.h>

#define SEASON_BEGINS_MONTH 8

guint
fr_season_of (FrDate day)
{
  g_return_val_if_fail (fr_date_is_valid (day), 0);

  return (guint)day.year + (day.month >= SEASON_BEGINS_MONTH);
}

gint64
fr_bush_season_end (guint season)
{
  return fr_date_to_days ((FrDate){ (gint)season, SEASON_BEGINS_MONTH, 1 }) - 1;
}

FrTreeGroup
fr_tree_group (const char *species)
{
  static const struct
  {
    const char *species;
    FrTreeGroup group;
  } groups[] = {
    { "sugar", FR_TREE_HARD },  { "black", FR_TREE_HARD },      { "red", FR_TREE_SOFT },
    { "silver", FR_TREE_SOFT }, { "birch", FR_TREE_NOT_MAPLE }, { "walnut", FR_TREE_NOT_MAPLE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (groups); i++)
    if (g_strcmp0 (species, groups[i].species) == 0)
      return groups[i].group;
  return FR_TREE_OTHER;
}

gboolean
fr_bush_season_of (const FrAmount *season, guint *season_out)
{
  if (!(season->value >= 1 && season->value <= 9999))
    return FALSE;
  *season_out = (guint)season->value;
  return TRUE;
}

/* --- the records by tree --- */

gboolean
fr_bush_entry (const FrBush *bush, gint64 tree, guint *entry_out)
{
  const gint64 first = bush->n_entries > 0 ? bush->entries[0].id : 0;
  guint low = 0, high = bush->n_entries;

  /* Where no tree was ever deleted, ids have no gaps; after a few were, the place is not far below. */
  if (tree < first)
    high = 0;
  else if (tree - first < high)
    {
      high = (guint)(tree - first) + 1;
      if (bush->entries[high - 1].id == tree)
        low = high - 1;
    }
  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (bush->entries[middle].id < tree)
        low = middle + 1;
      else
        high = middle;
    }
  *entry_out = low;
  return low < bush->n_entries && bush->entries[low].id == tree;
}

static gint
entry_compare (gconstpointer a, gconstpointer b)
{
  const FrBushEntry *one = a, *two = b;

  return (one->id > two->id) - (one->id < two->id);
}

typedef gboolean (*Comes) (gconstpointer one, gconstpointer two);

static gboolean
tap_comes_later (gconstpointer a, gconstpointer b)
{
  const FrTap *one = a, *two = b;

  if (one->season.value != two->season.value)
    return one->season.value > two->season.value;
  return one->record.id > two->record.id;
}

/* ISO days of four-figure years stand in the order of time. */
static gboolean
girth_comes_later (gconstpointer a, gconstpointer b)
{
  const FrGirth *one = a, *two = b;
  gint order = g_strcmp0 (one->measured_on, two->measured_on);

  return order != 0 ? order > 0 : one->record.id > two->record.id;
}

static void
insertion_sort (gconstpointer *items, guint n, Comes comes_later)
{
  for (guint i = 1; i < n; i++)
    {
      gconstpointer item = items[i];
      guint k = i;

      for (; k > 0 && comes_later (items[k - 1], item); k--)
        items[k] = items[k - 1];
      items[k] = item;
    }
}

/* All records of one kind that are not archived and whose tree is there, by tree. @tree_offset: where the id
 * of the tree lies in the record. */
static gconstpointer *
by_tree (const FrBush *bush, GPtrArray *records, gsize tree_offset, Comes comes_later, guint **starts_out)
{
  const guint n = records != NULL ? records->len : 0, none = bush->n_entries;
  guint *starts = g_new0 (guint, bush->n_entries + 2);
  g_autofree guint *entries = g_new (guint, n + 1);
  gconstpointer *sorted = g_new0 (gconstpointer, n + 1);

  /* Counted one place further on, so that after the second pass starts[i] is where entry i begins. */
  for (guint i = 0; i < n; i++)
    {
      const FrRecord *record = records->pdata[i];
      guint entry;

      if (record->archived
          || !fr_bush_entry (bush, *(const gint64 *)((const char *)record + tree_offset), &entry))
        entry = none;
      else
        starts[entry + 2]++;
      entries[i] = entry;
    }
  for (guint i = 2; i < bush->n_entries + 2; i++)
    starts[i] += starts[i - 1];
  for (guint i = 0; i < n; i++)
    if (entries[i] != none)
      sorted[starts[entries[i] + 1]++] = records->pdata[i];
  for (guint i = 0; i < bush->n_entries; i++)
    insertion_sort (sorted + starts[i], starts[i + 1] - starts[i], comes_later);
  *starts_out = starts;
  return sorted;
}

static gboolean
yield_comes_later (gconstpointer a, gconstpointer b)
{
  const FrYield *one = a, *two = b;

  if (one->season.value != two->season.value)
    return one->season.value > two->season.value;
  return one->record.id > two->record.id;
}

void
fr_bush_index (FrBush *bush)
{
  GPtrArray *trees = bush->book.trees;

  bush->n_entries = trees != NULL ? trees->len : 0;
  bush->entries = g_new0 (FrBushEntry, bush->n_entries + 1);
  for (guint i = 0; i < bush->n_entries; i++)
    {
      const FrTree *tree = trees->pdata[i];

      bush->entries[i] = (FrBushEntry){ tree->record.id, tree, NAN, NAN };
    }
  qsort (bush->entries, bush->n_entries, sizeof *bush->entries, entry_compare);
  bush->taps = (const FrTap **)by_tree (bush, bush->book.taps, G_STRUCT_OFFSET (FrTap, tree), tap_comes_later,
                                        &bush->tap_starts);
  bush->girths = (const FrGirth **)by_tree (bush, bush->book.girths, G_STRUCT_OFFSET (FrGirth, tree),
                                            girth_comes_later, &bush->girth_starts);
  bush->yields = (const FrYield **)by_tree (bush, bush->book.yields, G_STRUCT_OFFSET (FrYield, tree),
                                            yield_comes_later, &bush->yield_starts);
}

/* --- the bush --- */

FrBush *
fr_bush_new_bare (const FrBushBook *book)
{
  FrBush *bush = g_new0 (FrBush, 1);

  bush->book = *book;
  bush->season = 9999;
  bush->day = fr_bush_season_end (bush->season);
  fr_bush_index (bush);
  for (guint i = 0; i < bush->n_entries; i++)
    bush->entries[i].diameter_m = fr_bush_diameter_m (bush, i);
  return bush;
}

FrBush *
fr_bush_renew (const FrBush *old, const FrBushBook *book, guint season, FrDate today)
{
  FrBush *bush;

  g_return_val_if_fail (book != NULL && season >= 1 && season <= 9999 && fr_date_is_valid (today), NULL);

  bush = g_new0 (FrBush, 1);
  bush->book = *book;
  bush->season = season;
  bush->day = MIN (fr_date_to_days (today), fr_bush_season_end (season));
  fr_bush_index (bush);
  fr_bush_gather (bush);
  fr_bush_make_seasons (bush);
  fr_bush_make_rows (bush);
  fr_bush_rank_rows (bush);
  fr_bush_make_expectations (bush, old);
  fr_bush_share_season (bush);
  return bush;
}

FrBush *
fr_bush_new (const FrBushBook *book, guint season, FrDate today)
{
  return fr_bush_renew (NULL, book, season, today);
}

void
fr_bush_free (FrBush *bush)
{
  if (bush == NULL)
    return;
  g_free (bush->entries);
  g_free (bush->taps);
  g_free (bush->tap_starts);
  g_free (bush->girths);
  g_free (bush->girth_starts);
  g_free (bush->yields);
  g_free (bush->yield_starts);
  g_clear_pointer (&bush->gathered, g_array_unref);
  g_clear_pointer (&bush->seasons, g_array_unref);
  g_free (bush->season_starts);
  g_free (bush->worth_kg_or_l);
  g_clear_pointer (&bush->means, g_array_unref);
  g_free (bush->rows);
  g_free (bush->row_entries);
  g_free (bush->past_trees);
  g_free (bush->past_seasons);
  g_free (bush->expected);
  g_free (bush->tap_litres_l);
  fr_bush_round_free (bush->worth_round);
  g_free (bush);
}

guint
fr_bush_get_season (const FrBush *bush)
{
  g_return_val_if_fail (bush != NULL, 0);

  return bush->season;
}

guint
fr_bush_n_trees (const FrBush *bush)
{
  g_return_val_if_fail (bush != NULL, 0);

  return bush->n_rows;
}

const FrBushTree *
fr_bush_tree_at (const FrBush *bush, guint index)
{
  g_return_val_if_fail (bush != NULL && index < bush->n_rows, NULL);

  return &bush->rows[index];
}

const FrBushTree *
fr_bush_find (const FrBush *bush, gint64 tree)
{
  guint low = 0, high;

  g_return_val_if_fail (bush != NULL, NULL);

  high = bush->n_rows;
  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (bush->rows[middle].id < tree)
        low = middle + 1;
      else
        high = middle;
    }
  return low < bush->n_rows && bush->rows[low].id == tree ? &bush->rows[low] : NULL;
}
