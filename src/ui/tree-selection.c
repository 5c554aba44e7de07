/* What a list view asks for comes in as rows and goes out as trees: one row alone selects that tree alone,
 * also when others are filtered away; anything else keeps what is not shown. */
#include "ui/tree-selection.h"

struct _FrTreeSelection
{
  GObject parent_instance;
  FrSugarbush *bush;
  GListModel *rows;
};

static GType
get_item_type (GListModel *model)
{
  return FR_TYPE_TREE_ITEM;
}

static guint
get_n_items (GListModel *model)
{
  FrTreeSelection *self = FR_TREE_SELECTION (model);

  return self->rows != NULL ? g_list_model_get_n_items (self->rows) : 0;
}

static gpointer
get_item (GListModel *model, guint position)
{
  FrTreeSelection *self = FR_TREE_SELECTION (model);

  return self->rows != NULL ? g_list_model_get_item (self->rows, position) : NULL;
}

static void
list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

gint64
fr_tree_selection_tree_at (FrTreeSelection *self, guint position)
{
  g_autoptr (FrTreeItem) item = get_item (G_LIST_MODEL (self), position);

  return item != NULL ? fr_tree_item_get_id (item) : 0;
}

static gboolean
is_selected (GtkSelectionModel *model, guint position)
{
  FrTreeSelection *self = FR_TREE_SELECTION (model);
  gint64 tree = fr_tree_selection_tree_at (self, position);

  return tree != 0 && fr_sugarbush_is_selected (self->bush, tree);
}

static GtkBitset *
get_selection_in_range (GtkSelectionModel *model, guint position, guint n)
{
  GtkBitset *selected = gtk_bitset_new_empty ();

  for (guint i = position; i < position + n; i++)
    if (is_selected (model, i))
      gtk_bitset_add (selected, i);
  return selected;
}

static gboolean
set_selection (GtkSelectionModel *model, GtkBitset *selected, GtkBitset *mask)
{
  FrTreeSelection *self = FR_TREE_SELECTION (model);
  guint n_rows = get_n_items (G_LIST_MODEL (model)), n_before;
  gboolean all = gtk_bitset_get_size (mask) >= n_rows;
  const gint64 *before = fr_sugarbush_get_selected (self->bush);
  g_autoptr (GArray) trees = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GHashTable) asked = NULL;

  if (gtk_bitset_get_size (mask) == 1)
    {
      gint64 tree = fr_tree_selection_tree_at (self, gtk_bitset_get_nth (mask, 0));
      gboolean on = gtk_bitset_contains (selected, gtk_bitset_get_nth (mask, 0));

      /* A list of one row: selecting it says the same with and without the others. */
      if (all && on)
        fr_sugarbush_select (self->bush, tree);
      else if (on)
        fr_sugarbush_select_also (self->bush, tree);
      else if (fr_sugarbush_is_selected (self->bush, tree))
        fr_sugarbush_toggle (self->bush, tree);
      return TRUE;
    }
  if (all && gtk_bitset_get_size (selected) == 1)
    {
      fr_sugarbush_select (self->bush, fr_tree_selection_tree_at (self, gtk_bitset_get_minimum (selected)));
      return TRUE;
    }

  /* Trees whose rows were not asked about stay as they are. */
  asked = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  for (guint i = 0; i < n_rows; i++)
    if (gtk_bitset_contains (mask, i))
      {
        gint64 tree = fr_tree_selection_tree_at (self, i);

        g_hash_table_add (asked, g_memdup2 (&tree, sizeof tree));
        if (gtk_bitset_contains (selected, i))
          g_array_append_val (trees, tree);
      }
  n_before = all ? 0 : fr_sugarbush_n_selected (self->bush);
  for (guint i = 0; i < n_before; i++)
    if (!g_hash_table_contains (asked, &before[i]))
      g_array_append_val (trees, before[i]);
  fr_sugarbush_select_many (self->bush, (const gint64 *)(gpointer)trees->data, trees->len);
  return TRUE;
}

static void
selection_model_init (GtkSelectionModelInterface *iface)
{
  iface->is_selected = is_selected;
  iface->get_selection_in_range = get_selection_in_range;
  iface->set_selection = set_selection;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (FrTreeSelection, fr_tree_selection, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init)
                                   G_IMPLEMENT_INTERFACE (GTK_TYPE_SELECTION_MODEL, selection_model_init))

static void
items_changed_cb (FrTreeSelection *self, guint position, guint removed, guint added)
{
  g_list_model_items_changed (G_LIST_MODEL (self), position, removed, added);
}

static void
selection_changed_cb (FrTreeSelection *self)
{
  guint n = get_n_items (G_LIST_MODEL (self));

  if (n > 0)
    gtk_selection_model_selection_changed (GTK_SELECTION_MODEL (self), 0, n);
}

static void
fr_tree_selection_dispose (GObject *object)
{
  FrTreeSelection *self = FR_TREE_SELECTION (object);

  g_clear_object (&self->rows);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_tree_selection_parent_class)->dispose (object);
}

static void
fr_tree_selection_class_init (FrTreeSelectionClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tree_selection_dispose;
}

static void
fr_tree_selection_init (FrTreeSelection *self)
{
}

FrTreeSelection *
fr_tree_selection_new (FrSugarbush *bush)
{
  FrTreeSelection *self = g_object_new (FR_TYPE_TREE_SELECTION, NULL);

  self->bush = g_object_ref (bush);
  self->rows = g_object_ref (fr_sugarbush_get_rows (bush));
  g_signal_connect_object (self->rows, "items-changed", G_CALLBACK (items_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "selection-changed", G_CALLBACK (selection_changed_cb), self,
                           G_CONNECT_SWAPPED);
  return self;
}
