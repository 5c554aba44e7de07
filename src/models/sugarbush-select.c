/* Which trees are selected, which of them is current, and which one is pointed at. */
#include "models/sugarbush-private.h"

/* Rounds of the selection only. */
static void
forget_selected_rounds (FrSugarbush *self)
{
  for (guint i = self->rounds->len; i-- > 0;)
    if (g_array_index (self->rounds, KeptRound, i).which == FR_ROUND_SELECTED)
      g_array_remove_index (self->rounds, i);
}

/* Where a tree stands among the selected, or would. */
static gboolean
find_selected (FrSugarbush *self, gint64 tree, guint *place_out)
{
  guint low = 0, high = self->selected->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (g_array_index (self->selected, gint64, middle) < tree)
        low = middle + 1;
      else
        high = middle;
    }
  *place_out = low;
  return low < self->selected->len && g_array_index (self->selected, gint64, low) == tree;
}

gboolean
fr_sugarbush_carry_selection (FrSugarbush *self)
{
  guint n = self->selected->len;
  gint64 current = self->current;

  for (guint i = n; i-- > 0;)
    if (!g_hash_table_contains (self->items, &g_array_index (self->selected, gint64, i)))
      g_array_remove_index (self->selected, i);
  if (!g_hash_table_contains (self->items, &self->current))
    self->current
        = self->selected->len > 0 ? g_array_index (self->selected, gint64, self->selected->len - 1) : 0;
  return n != self->selected->len || current != self->current;
}

/* Takes over another selection; tells when it is another. */
static void
become (FrSugarbush *self, GArray *selected, gint64 current)
{
  gboolean same = current == self->current && selected->len == self->selected->len;

  for (guint i = 0; same && i < selected->len; i++)
    same = g_array_index (selected, gint64, i) == g_array_index (self->selected, gint64, i);
  if (same)
    {
      g_array_unref (selected);
      return;
    }
  forget_selected_rounds (self);
  g_array_unref (self->selected);
  self->selected = selected;
  self->current = current;
  g_signal_emit_by_name (self, "selection-changed");
}

gboolean
fr_sugarbush_is_selected (FrSugarbush *self, gint64 tree)
{
  guint place;

  return find_selected (self, tree, &place);
}

guint
fr_sugarbush_n_selected (FrSugarbush *self)
{
  return self->selected->len;
}

const gint64 *
fr_sugarbush_get_selected (FrSugarbush *self)
{
  return (const gint64 *)(gpointer)self->selected->data;
}

gint64
fr_sugarbush_get_current (FrSugarbush *self)
{
  return self->current;
}

static gboolean
is_there (FrSugarbush *self, gint64 tree)
{
  return g_hash_table_contains (self->items, &tree);
}

void
fr_sugarbush_select (FrSugarbush *self, gint64 tree)
{
  fr_sugarbush_select_many (self, &tree, tree != 0 ? 1 : 0);
}

void
fr_sugarbush_select_also (FrSugarbush *self, gint64 tree)
{
  GArray *selected;
  guint place;

  if (!is_there (self, tree))
    return;
  selected = g_array_copy (self->selected);
  if (!find_selected (self, tree, &place))
    g_array_insert_val (selected, place, tree);
  become (self, selected, tree);
}

void
fr_sugarbush_toggle (FrSugarbush *self, gint64 tree)
{
  GArray *selected;
  guint place;

  if (!find_selected (self, tree, &place))
    {
      fr_sugarbush_select_also (self, tree);
      return;
    }
  selected = g_array_copy (self->selected);
  g_array_remove_index (selected, place);
  become (self, selected,
          self->current != tree ? self->current
          : selected->len > 0   ? g_array_index (selected, gint64, MIN (place, selected->len - 1))
                                : 0);
}

static gint
compare_ids (gconstpointer one, gconstpointer two)
{
  gint64 a = *(const gint64 *)one, b = *(const gint64 *)two;

  return (a > b) - (a < b);
}

void
fr_sugarbush_select_many (FrSugarbush *self, const gint64 *trees, guint n)
{
  GArray *selected = g_array_sized_new (FALSE, FALSE, sizeof (gint64), n);
  gint64 current = 0;

  for (guint i = 0; i < n; i++)
    {
      if (!is_there (self, trees[i]))
        continue;
      g_array_append_val (selected, trees[i]);
      if (current == 0 || trees[i] == self->current)
        current = trees[i];
    }
  g_array_sort (selected, compare_ids);
  for (guint i = selected->len; i-- > 1;)
    if (g_array_index (selected, gint64, i) == g_array_index (selected, gint64, i - 1))
      g_array_remove_index (selected, i);
  become (self, selected, current);
}

void
fr_sugarbush_select_shown (FrSugarbush *self)
{
  guint n = fr_tree_rows_get_size (self->rows);
  g_autofree gint64 *trees = g_new (gint64, n + 1);

  for (guint i = 0; i < n; i++)
    trees[i] = fr_tree_rows_get (self->rows, i)->id;
  fr_sugarbush_select_many (self, trees, n);
}

gint64
fr_sugarbush_get_hovered (FrSugarbush *self)
{
  return self->hovered;
}

void
fr_sugarbush_set_hovered (FrSugarbush *self, gint64 tree)
{
  gint64 now = is_there (self, tree) ? tree : 0;

  if (self->hovered == now)
    return;
  self->hovered = now;
  g_signal_emit_by_name (self, "hover-changed");
}
