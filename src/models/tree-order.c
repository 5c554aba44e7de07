/* How the sugarbush's list is ordered and filtered. Unknown stands last, whichever way the order runs; trees
 * alike in what is sorted by stand by name, then by number. */
#include "models/sugarbush-private.h"

#include <math.h>
#include <string.h>

typedef struct
{
  FrTreeItem *item;
  double first;
  double second;
  const char *name_key;
  gint way; /* 1 rising, −1 falling */
  gboolean name_falls;
} Key;

static double
code_index (const char *field, const char *code)
{
  const FrField *known = fr_kind_field (fr_kind (FR_KIND_TREE), field);

  for (guint i = 0; known->codes[i] != NULL; i++)
    if (g_strcmp0 (known->codes[i], code) == 0)
      return i;
  return NAN;
}

static void
fill_key (Key *key, const FrBushTree *tree, FrTreeSort sort, GHashTable *steps)
{
  key->first = key->second = 0;
  switch (sort)
    {
    case FR_TREE_SORT_NAME:
      break;
    case FR_TREE_SORT_SPECIES:
      key->first = code_index ("species", tree->tree->species);
      break;
    case FR_TREE_SORT_SIZE:
      key->first = tree->diameter_m;
      break;
    case FR_TREE_SORT_HEALTH:
      key->first
          = strcmp (tree->tree->health, "unknown") == 0 ? NAN : code_index ("health", tree->tree->health);
      break;
    case FR_TREE_SORT_TAPS:
      key->first = tree->taps_set + tree->taps_planned;
      key->second = tree->taps_max >= 0 ? tree->taps_max : NAN;
      break;
    case FR_TREE_SORT_YIELD:
      key->first = tree->season_l;
      key->second = tree->last_l;
      break;
    case FR_TREE_SORT_ROUND:
      key->first = steps != NULL && g_hash_table_contains (steps, &tree->id)
                       ? GPOINTER_TO_UINT (g_hash_table_lookup (steps, &tree->id))
                       : NAN;
      break;
    }
}

static gint
compare_numbers (double a, double b, gint way)
{
  if (isnan (a) || isnan (b))
    return isnan (a) - isnan (b);
  return way * ((a > b) - (a < b));
}

static gint
compare_keys (gconstpointer one, gconstpointer two)
{
  const Key *a = one, *b = two;
  gint order = compare_numbers (a->first, b->first, a->way);

  if (order == 0)
    order = compare_numbers (a->second, b->second, a->way);
  if (order == 0)
    order = strcmp (a->name_key, b->name_key) * (a->name_falls ? -1 : 1);
  if (order == 0)
    order = (a->item->id > b->item->id) - (a->item->id < b->item->id);
  return order;
}

void
fr_tree_sort (GPtrArray *items, const FrBush *bush, FrTreeSort sort, gboolean descending,
              const FrBushRound *round)
{
  g_autofree Key *keys = g_new (Key, items->len + 1);
  g_autoptr (GHashTable) steps = g_hash_table_new (g_int64_hash, g_int64_equal);

  /* A tree visited twice stands where it is visited first. */
  for (guint i = round != NULL ? round->stops->len : 0; i-- > 0;)
    g_hash_table_replace (steps, &g_array_index (round->stops, FrBushStop, i).tree, GUINT_TO_POINTER (i));
  for (guint i = 0; i < items->len; i++)
    {
      FrTreeItem *item = g_ptr_array_index (items, i);

      keys[i].item = item;
      keys[i].name_key = fr_tree_item_name_key (item);
      keys[i].way = descending ? -1 : 1;
      keys[i].name_falls = descending && sort == FR_TREE_SORT_NAME;
      fill_key (&keys[i], fr_bush_find (bush, item->id), sort, steps);
    }
  qsort (keys, items->len, sizeof *keys, compare_keys);
  for (guint i = 0; i < items->len; i++)
    g_ptr_array_index (items, i) = keys[i].item;
}

/* By what was noted, for the reasons of a tree whose size is unknown say no more than that. */
static gboolean
needs_watching (const FrTree *tree)
{
  return tree->dead_limbs || tree->wires || tree->lean || g_strcmp0 (tree->health, "weak") == 0
         || g_strcmp0 (tree->health, "failing") == 0 || g_strcmp0 (tree->health, "dead") == 0;
}

static gboolean
shows (const FrBushTree *tree, FrTreeShow show)
{
  switch (show)
    {
    case FR_TREE_SHOW_TAPPED:
      return tree->taps_set + tree->taps_planned > 0;
    case FR_TREE_SHOW_UNTAPPED:
      return tree->taps_set + tree->taps_planned == 0;
    case FR_TREE_SHOW_MAY_TAP:
      return tree->taps_max > 0;
    case FR_TREE_SHOW_WATCH:
      return needs_watching (tree->tree);
    case FR_TREE_SHOW_UNMEASURED:
      return isnan (tree->diameter_m);
    case FR_TREE_SHOW_ALL:
    default:
      return TRUE;
    }
}

gboolean
fr_tree_passes (FrTreeItem *item, const FrBushTree *tree, FrTreeShow show, char *const *words)
{
  if (!shows (tree, show))
    return FALSE;
  for (guint i = 0; words != NULL && words[i] != NULL; i++)
    if (strstr (fr_tree_item_haystack (item), words[i]) == NULL)
      return FALSE;
  return TRUE;
}
