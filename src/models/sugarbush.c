/* The sugarbush of one season as the page shows it. Every change of the book makes the bush anew, which takes
 * a few milliseconds for 2,000 trees; rows, selection and the pointed-at tree are carried over by the trees'
 * numbers. The records the bush looks at are held as long as it lives, so that it stays whole while the book
 * is already moving. */
#include "models/sugarbush-private.h"

#include "formats/zone-source.h"

#define ZONE_YEARS_BACK 25 /* gatherings of as many seasons are told by their days */

enum
{
  SIGNAL_CHANGED,
  SIGNAL_SELECTION_CHANGED,
  SIGNAL_HOVER_CHANGED,
  SIGNAL_ANSWERED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (FrSugarbush, fr_sugarbush, G_TYPE_OBJECT)

static const FrKindId bush_kinds[FR_BUSH_KINDS]
    = { FR_KIND_TREE,    FR_KIND_GIRTH,  FR_KIND_TAP,    FR_KIND_YIELD,
        FR_KIND_FEATURE, FR_KIND_GROUND, FR_KIND_TAPPING, FR_KIND_GATHERING, FR_KIND_CONTAINER };

static void
disown (gpointer id, gpointer item, gpointer unused)
{
  FR_TREE_ITEM (item)->owner = NULL;
}

static void
fr_sugarbush_finalize (GObject *object)
{
  FrSugarbush *self = FR_SUGARBUSH (object);

  g_signal_handler_disconnect (self->book, self->book_handler);
  g_hash_table_foreach (self->items, disown, NULL);
  g_clear_object (&self->rows);
  g_clear_pointer (&self->items, g_hash_table_unref);
  fr_sugarbush_answers_clear (self);
  fr_sugarbush_gathered_clear (self);
  fr_sugarbush_drop_bush (self, g_steal_pointer (&self->bush));
  for (guint k = 0; k < FR_BUSH_KINDS; k++)
    {
      g_signal_handler_disconnect (self->held[k].list, self->held[k].handler);
      g_clear_pointer (&self->held[k].objects, g_ptr_array_unref);
      g_clear_pointer (&self->held[k].records, g_ptr_array_unref);
    }
  g_clear_pointer (&self->selected, g_array_unref);
  g_clear_pointer (&self->words, g_strfreev);
  g_clear_pointer (&self->zone, fr_zone_table_free);
  g_clear_pointer (&self->zone_name, g_free);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_sugarbush_parent_class)->finalize (object);
}

static void
fr_sugarbush_class_init (FrSugarbushClass *klass)
{
  static const char *const names[N_SIGNALS] = { "changed", "selection-changed", "hover-changed", "answered" };

  G_OBJECT_CLASS (klass)->finalize = fr_sugarbush_finalize;
  for (guint i = 0; i < N_SIGNALS; i++)
    signals[i]
        = g_signal_new (names[i], FR_TYPE_SUGARBUSH, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_sugarbush_init (FrSugarbush *self)
{
  self->items = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, g_object_unref);
  self->rows = fr_tree_rows_new ();
  self->selected = g_array_new (FALSE, FALSE, sizeof (gint64));
  fr_sugarbush_answers_init (self);
}

/* A book that has no household yet, or whose zone this machine does not know, has no day of its own; what is
 * wrong with the zone is said by the household's editor. The day is then that of UTC, which moves no result
 * but the age of holes, and by a day at most. Whether the zone is another than before. */
static gboolean
find_today (FrSugarbush *self)
{
  const FrHousehold *household = fr_book_get_household (self->book);
  const char *name = household != NULL ? household->zone : NULL;
  int year = fr_date_from_days (self->now_utc / 86400).year;
  const gboolean moved = g_strcmp0 (name, self->zone_name) != 0;

  if (moved)
    {
      g_clear_pointer (&self->zone, fr_zone_table_free);
      g_free (self->zone_name);
      self->zone_name = g_strdup (name);
      if (name != NULL)
        self->zone = fr_zone_table_load (name, year - ZONE_YEARS_BACK, year + 2, NULL);
    }
  self->today = self->zone != NULL ? fr_zone_local (self->zone, self->now_utc).date
                                   : fr_date_from_days (self->now_utc / 86400);
  if (!self->season_chosen)
    self->season = fr_season_of (self->today);
  return moved;
}

/* The bush that is there still looks at what was held, so it is not let go before there is another. */
static void
list_changed (gboolean *stale)
{
  *stale = TRUE;
}

static void
hold (FrBushHeld *held)
{
  guint n = fr_record_list_get_size (held->list);

  held->objects = g_ptr_array_new_full (n, g_object_unref);
  held->records = g_ptr_array_sized_new (n);
  for (guint i = 0; i < n; i++)
    {
      FrRecordObject *object = g_list_model_get_item (G_LIST_MODEL (held->list), i);

      g_ptr_array_add (held->objects, object);
      g_ptr_array_add (held->records, (gpointer)fr_record_object_get_record (object));
    }
}

static gconstpointer
single_of (const FrBushHeld *held)
{
  return held->records->len > 0 ? g_ptr_array_index (held->records, 0) : NULL;
}

/* The items of the bush's trees: known ones stay the same objects. The first records held are the trees, by
 * rising number, as the bush has them. */
static void
update_items (FrSugarbush *self)
{
  GHashTable *items = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, g_object_unref);
  GPtrArray *trees = self->held[0].objects;
  guint at = 0; /* both by rising number */

  for (guint i = 0; i < fr_bush_n_trees (self->bush); i++)
    {
      gint64 id = fr_bush_tree_at (self->bush, i)->id;
      FrTreeItem *item = g_hash_table_lookup (self->items, &id);

      if (item != NULL)
        g_hash_table_steal (self->items, &id);
      else
        item = fr_tree_item_new (self, id);
      while (fr_record_object_get_record (g_ptr_array_index (trees, at))->id != id)
        at++;
      fr_tree_item_set_record (item, g_ptr_array_index (trees, at));
      g_hash_table_insert (items, &item->id, item);
    }
  g_hash_table_foreach (self->items, disown, NULL); /* those left are no longer there */
  g_hash_table_unref (self->items);
  self->items = items;
}

static void
make_bush (FrSugarbush *self)
{
  GPtrArray *old[2 * FR_BUSH_KINDS] = { NULL };
  const gboolean trees_moved = self->held[0].stale || self->held[1].stale || self->held[2].stale,
                 containers_moved = self->held[8].stale;
  const gboolean zone_moved = find_today (self);
  FrBush *before;

  fr_sugarbush_forget_answers (self);
  for (guint k = 0; k < FR_BUSH_KINDS; k++)
    {
      FrBushHeld *held = &self->held[k];

      if (!held->stale)
        continue;
      old[2 * k] = held->objects;
      old[2 * k + 1] = held->records;
      hold (held);
      held->stale = FALSE;
    }
  fr_sugarbush_sum_gathered (self, containers_moved || zone_moved, trees_moved);
  self->records = (FrBushBook){ .trees = self->held[0].records,
                                .girths = self->held[1].records,
                                .taps = self->held[2].records,
                                .yields = self->held[3].records,
                                .features = self->held[4].records,
                                .ground = single_of (&self->held[5]),
                                .tapping = single_of (&self->held[6]),
                                .gatherings = self->held[7].records,
                                .containers = self->held[8].records,
                                .zone = self->zone,
                                .gathered = self->gathered };
  before = self->bush;
  self->bush = fr_bush_renew (before, &self->records, self->season, self->today);
  fr_sugarbush_drop_bush (self, before);
  for (guint i = 0; i < G_N_ELEMENTS (old); i++)
    g_clear_pointer (&old[i], g_ptr_array_unref);
  update_items (self);
  fr_sugarbush_find_most (self);
}

static void
order_rows (FrSugarbush *self)
{
  g_autoptr (GPtrArray) wanted = g_ptr_array_sized_new (fr_bush_n_trees (self->bush));

  for (guint i = 0; i < fr_bush_n_trees (self->bush); i++)
    {
      const FrBushTree *tree = fr_bush_tree_at (self->bush, i);
      FrTreeItem *item = g_hash_table_lookup (self->items, &tree->id);

      if (fr_tree_passes (item, tree, self->show, self->words))
        g_ptr_array_add (wanted, item);
    }
  fr_tree_sort (wanted, self->bush, self->sort, self->descending,
                self->sort == FR_TREE_SORT_ROUND ? fr_sugarbush_get_round (self, FR_ROUND_PLANNED, 1) : NULL);
  fr_tree_rows_set (self->rows, wanted);
}

static void
tell_items (FrSugarbush *self)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < fr_tree_rows_get_size (self->rows); i++)
    g_ptr_array_add (items, g_object_ref (fr_tree_rows_get (self->rows, i)));
  for (guint i = 0; i < items->len; i++)
    fr_tree_item_tell (g_ptr_array_index (items, i));
}

void
fr_sugarbush_rebuild (FrSugarbush *self)
{
  gboolean moved;
  gboolean unhovered;

  make_bush (self);
  moved = fr_sugarbush_carry_selection (self);
  unhovered = self->hovered != 0 && !g_hash_table_contains (self->items, &self->hovered);
  if (unhovered)
    self->hovered = 0;
  order_rows (self);
  tell_items (self);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
  if (moved)
    g_signal_emit (self, signals[SIGNAL_SELECTION_CHANGED], 0);
  if (unhovered)
    g_signal_emit (self, signals[SIGNAL_HOVER_CHANGED], 0);
}

FrSugarbush *
fr_sugarbush_new (FrBook *book, gint64 now_utc)
{
  g_return_val_if_fail (FR_IS_BOOK (book), NULL);

  FrSugarbush *self = g_object_new (FR_TYPE_SUGARBUSH, NULL);
  self->book = g_object_ref (book);
  self->now_utc = now_utc;
  for (guint k = 0; k < FR_BUSH_KINDS; k++)
    {
      FrBushHeld *held = &self->held[k];

      held->list = fr_book_get_list (book, bush_kinds[k]);
      held->stale = TRUE;
      held->handler
          = g_signal_connect_swapped (held->list, "items-changed", G_CALLBACK (list_changed), &held->stale);
    }
  self->book_handler = g_signal_connect_swapped (book, "changed", G_CALLBACK (fr_sugarbush_rebuild), self);
  make_bush (self);
  order_rows (self);
  return self;
}

void
fr_sugarbush_tell_answered (FrSugarbush *self)
{
  g_signal_emit (self, signals[SIGNAL_ANSWERED], 0);
}

FrBook *
fr_sugarbush_get_book (FrSugarbush *self)
{
  return self->book;
}

const FrBush *
fr_sugarbush_get_bush (FrSugarbush *self)
{
  return self->bush;
}

FrDate
fr_sugarbush_get_today (FrSugarbush *self)
{
  return self->today;
}

void
fr_sugarbush_set_now (FrSugarbush *self, gint64 now_utc)
{
  FrDate day = self->today;

  self->now_utc = now_utc;
  find_today (self);
  if (fr_date_compare (day, self->today) != 0)
    fr_sugarbush_rebuild (self);
}

guint
fr_sugarbush_get_season (FrSugarbush *self)
{
  return self->season;
}

void
fr_sugarbush_set_season (FrSugarbush *self, guint season)
{
  guint before = self->season;

  g_return_if_fail (season >= 1 && season <= 9999);
  self->season_chosen = season != fr_season_of (self->today);
  self->season = season;
  if (season != before)
    fr_sugarbush_rebuild (self);
}

GListModel *
fr_sugarbush_get_rows (FrSugarbush *self)
{
  return G_LIST_MODEL (self->rows);
}

void
fr_sugarbush_set_sort (FrSugarbush *self, FrTreeSort sort, gboolean descending)
{
  if (self->sort == sort && !self->descending == !descending)
    return;
  self->sort = sort;
  self->descending = descending;
  order_rows (self);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

FrTreeSort
fr_sugarbush_get_sort (FrSugarbush *self, gboolean *descending_out)
{
  if (descending_out != NULL)
    *descending_out = self->descending;
  return self->sort;
}

static gboolean
same_words (char *const *a, char *const *b)
{
  return a == NULL || b == NULL ? a == b : g_strv_equal ((const char *const *)a, (const char *const *)b);
}

void
fr_sugarbush_set_filter (FrSugarbush *self, FrTreeShow show, const char *words)
{
  g_auto (GStrv) parts = fr_tree_words (words);

  if (self->show == show && same_words (self->words, parts))
    return;
  self->show = show;
  g_strfreev (self->words);
  self->words = g_steal_pointer (&parts);
  order_rows (self);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

FrTreeShow
fr_sugarbush_get_show (FrSugarbush *self)
{
  return self->show;
}

gboolean
fr_sugarbush_is_shown (FrSugarbush *self, gint64 tree)
{
  FrTreeItem *item = g_hash_table_lookup (self->items, &tree);

  return item != NULL && fr_tree_passes (item, fr_bush_find (self->bush, tree), self->show, self->words);
}

FrTreeItem *
fr_sugarbush_find_item (FrSugarbush *self, gint64 tree)
{
  return g_hash_table_lookup (self->items, &tree);
}

gboolean
fr_sugarbush_find_row (FrSugarbush *self, gint64 tree, guint *position_out)
{
  for (guint i = 0; i < fr_tree_rows_get_size (self->rows); i++)
    if (fr_tree_rows_get (self->rows, i)->id == tree)
      {
        *position_out = i;
        return TRUE;
      }
  return FALSE;
}
