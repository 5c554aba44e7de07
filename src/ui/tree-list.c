/* The list. Rows are recycled by the list view, so two thousand trees cost what is in sight; all that are
 * bound are filled anew when the book changes, for a change of a tree need not move its row. */
#include "ui/tree-list.h"

#include <glib/gi18n-lib.h>

#include "ui/pieces.h"
#include "ui/tree-row.h"
#include "ui/tree-selection.h"

struct _FrTreeList
{
  GtkBox parent_instance;
  FrSugarbush *bush;
  FrTreeSelection *selection;
  GtkWidget *search;
  GtkWidget *show;
  GtkWidget *count;
  GtkWidget *heads[4];
  GtkWidget *view;
  GtkWidget *nothing;
  GHashTable *bound; /* FrTreeRow */
  GSimpleActionGroup *actions;
  guint to_row_id;
};

G_DEFINE_FINAL_TYPE (FrTreeList, fr_tree_list, GTK_TYPE_BOX)

static guint open_signal;

/* By FrTreeSort. */
static const struct
{
  FrTreeSort sort;
  const char *code;
  const char *word;
  gboolean falling; /* what a first click means: the largest first */
} sorts[] = {
  { FR_TREE_SORT_NAME, "name", N_ ("_Name"), FALSE },
  { FR_TREE_SORT_SPECIES, "species", N_ ("_Species"), FALSE },
  { FR_TREE_SORT_SIZE, "size", N_ ("_Thickness"), TRUE },
  { FR_TREE_SORT_HEALTH, "health", N_ ("_Health"), FALSE },
  { FR_TREE_SORT_TAPS, "taps", N_ ("T_aps"), TRUE },
  { FR_TREE_SORT_YIELD, "yield", N_ ("_Sap This Season"), TRUE },
  { FR_TREE_SORT_ROUND, "round", N_ ("_Walking Order"), FALSE },
};

static const FrTreeSort head_sorts[4]
    = { FR_TREE_SORT_NAME, FR_TREE_SORT_SIZE, FR_TREE_SORT_TAPS, FR_TREE_SORT_YIELD };

/* What a head says of the order to people who do not see the arrow. */
static const char *
order_words (gboolean sorted, gboolean descending)
{
  if (!sorted)
    return _ ("Sort by this");
  return descending ? _ ("Sorted, falling") : _ ("Sorted, rising");
}

static void
update_heads (FrTreeList *self)
{
  const FrUnits *units = fr_book_get_units (fr_sugarbush_get_book (self->bush));
  gboolean descending = FALSE;
  FrTreeSort sort = fr_sugarbush_get_sort (self->bush, &descending);
  const char *texts[4]
      = { _ ("Tree"), fr_quantity_unit (FR_QUANTITY_LENGTH, units), _ ("Taps"),
          units->system == FR_SYSTEM_METRIC ? fr_quantity_unit (FR_QUANTITY_VOLUME, units) : _ ("gal") };
  const char *spoken[4] = { _ ("Tree"), _ ("Thickness"), _ ("Taps"), _ ("Sap this season") };

  for (guint i = 0; i < G_N_ELEMENTS (self->heads); i++)
    {
      gboolean sorted = head_sorts[i] == sort;
      GtkWidget *box = gtk_button_get_child (GTK_BUTTON (self->heads[i]));
      GtkWidget *label = gtk_widget_get_first_child (box), *arrow = gtk_widget_get_last_child (box);
      const char *order = order_words (sorted, descending);

      gtk_label_set_text (GTK_LABEL (label), texts[i]);
      gtk_widget_set_visible (arrow, sorted);
      gtk_image_set_from_icon_name (GTK_IMAGE (arrow), descending ? "pan-down-symbolic" : "pan-up-symbolic");
      gtk_widget_set_tooltip_text (self->heads[i], spoken[i]);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->heads[i]), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      spoken[i], GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, order,
                                      GTK_ACCESSIBLE_PROPERTY_SORT,
                                      !sorted      ? GTK_ACCESSIBLE_SORT_NONE
                                      : descending ? GTK_ACCESSIBLE_SORT_DESCENDING
                                                   : GTK_ACCESSIBLE_SORT_ASCENDING,
                                      -1);
    }
  for (guint i = 0; i < G_N_ELEMENTS (sorts); i++)
    if (sorts[i].sort == sort)
      g_simple_action_set_state (
          G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self->actions), "sort")),
          g_variant_new_string (sorts[i].code));
}

static void
sort_by (FrTreeList *self, FrTreeSort sort)
{
  gboolean descending = FALSE;

  if (fr_sugarbush_get_sort (self->bush, &descending) == sort)
    descending = !descending;
  else
    for (guint i = 0; i < G_N_ELEMENTS (sorts); i++)
      if (sorts[i].sort == sort)
        descending = sorts[i].falling;
  fr_sugarbush_set_sort (self->bush, sort, descending);
}

static void
sort_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  for (guint i = 0; i < G_N_ELEMENTS (sorts); i++)
    if (g_strcmp0 (sorts[i].code, g_variant_get_string (parameter, NULL)) == 0)
      sort_by (FR_TREE_LIST (user_data), sorts[i].sort);
}

static void
head_clicked_cb (FrTreeList *self, GtkWidget *head)
{
  for (guint i = 0; i < G_N_ELEMENTS (self->heads); i++)
    if (self->heads[i] == head)
      sort_by (self, head_sorts[i]);
}

static void
filter_cb (FrTreeList *self)
{
  fr_sugarbush_set_filter (self->bush, (FrTreeShow)gtk_drop_down_get_selected (GTK_DROP_DOWN (self->show)),
                           gtk_editable_get_text (GTK_EDITABLE (self->search)));
}

static void
search_stop_cb (FrTreeList *self)
{
  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  filter_cb (self);
  fr_tree_list_grab (self, GTK_INVALID_LIST_POSITION);
}

static void
update_count (FrTreeList *self)
{
  const FrBush *bush = fr_sugarbush_get_bush (self->bush);
  guint shown = g_list_model_get_n_items (G_LIST_MODEL (self->selection));
  guint all = bush != NULL ? fr_bush_n_trees (bush) : 0;
  g_autofree char *text = shown == all ? g_strdup_printf ("%u", all)
                                       /* Translators: trees shown, of all there are */
                                       : g_strdup_printf (_ ("%u of %u"), shown, all);

  gtk_label_set_text (GTK_LABEL (self->count), text);
  gtk_widget_set_visible (self->nothing, shown == 0 && all > 0);
}

static void
changed_cb (FrTreeList *self)
{
  GHashTableIter iter;
  gpointer row;

  g_hash_table_iter_init (&iter, self->bound);
  while (g_hash_table_iter_next (&iter, &row, NULL))
    fr_tree_row_set (row, self->bush, fr_tree_row_get_tree (row));
  update_heads (self);
  update_count (self);
}

/* The current tree is brought into sight, unless the list itself chose it. */
static void
selection_changed_cb (FrTreeList *self)
{
  gint64 current = fr_sugarbush_get_current (self->bush);
  GtkWidget *focus = gtk_widget_get_focus_child (self->view);
  guint at = 0;

  if (current == 0 || focus != NULL)
    return;
  if (fr_sugarbush_find_row (self->bush, current, &at))
    gtk_widget_activate_action (self->view, "list.scroll-to-item", "u", at);
}

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  gtk_list_item_set_child (item, fr_tree_row_new ());
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  FrTreeList *self = FR_TREE_LIST (user_data);
  GtkWidget *row = gtk_list_item_get_child (item);

  fr_tree_row_set (FR_TREE_ROW (row), self->bush, fr_tree_item_get_id (gtk_list_item_get_item (item)));
  g_hash_table_add (self->bound, row);
}

static void
unbind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  g_hash_table_remove (FR_TREE_LIST (user_data)->bound, gtk_list_item_get_child (item));
}

static void
activate_cb (FrTreeList *self, guint position)
{
  gint64 tree = fr_tree_selection_tree_at (self->selection, position);

  if (tree != 0 && !fr_sugarbush_is_selected (self->bush, tree))
    fr_sugarbush_select (self->bush, tree);
  g_signal_emit (self, open_signal, 0);
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
        gpointer user_data)
{
  FrTreeList *self = FR_TREE_LIST (user_data);

  switch (keyval)
    {
    case GDK_KEY_Delete:
    case GDK_KEY_KP_Delete:
      return gtk_widget_activate_action (self->view, "bush.delete", NULL);
    case GDK_KEY_F2:
      return gtk_widget_activate_action (self->view, "bush.rename", NULL);
    case GDK_KEY_Escape:
      if (fr_sugarbush_n_selected (self->bush) == 0)
        return FALSE;
      fr_sugarbush_select (self->bush, 0);
      return TRUE;
    default:
      return FALSE;
    }
}

/* When the row it last stood on is gone GTK 4.8 gives the focus to the list as a whole, where no key does
 * anything; it belongs on a row. */
static gboolean
to_row_cb (gpointer user_data)
{
  FrTreeList *self = FR_TREE_LIST (user_data);
  GtkWidget *first = gtk_widget_get_first_child (self->view);

  self->to_row_id = 0;
  if (gtk_widget_has_focus (self->view) && first != NULL)
    gtk_widget_grab_focus (first);
  return G_SOURCE_REMOVE;
}

static void
view_focus_cb (FrTreeList *self)
{
  if (gtk_widget_has_focus (self->view) && self->to_row_id == 0)
    self->to_row_id = g_idle_add_full (G_PRIORITY_HIGH, to_row_cb, self, NULL); /* before the next key */
}

static gboolean
search_key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
               gpointer user_data)
{
  if (keyval != GDK_KEY_Down)
    return FALSE;
  return fr_tree_list_grab (FR_TREE_LIST (user_data), GTK_INVALID_LIST_POSITION);
}

static void
fr_tree_list_dispose (GObject *object)
{
  FrTreeList *self = FR_TREE_LIST (object);

  g_clear_handle_id (&self->to_row_id, g_source_remove);
  if (self->view != NULL)
    gtk_list_view_set_model (GTK_LIST_VIEW (self->view), NULL);
  self->view = NULL;
  g_clear_object (&self->selection);
  g_clear_object (&self->actions);
  g_clear_object (&self->bush);
  G_OBJECT_CLASS (fr_tree_list_parent_class)->dispose (object);
}

static void
fr_tree_list_finalize (GObject *object)
{
  g_hash_table_unref (FR_TREE_LIST (object)->bound);
  G_OBJECT_CLASS (fr_tree_list_parent_class)->finalize (object);
}

static void
fr_tree_list_class_init (FrTreeListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_tree_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = fr_tree_list_finalize;
  open_signal
      = g_signal_new ("open", FR_TYPE_TREE_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fr_tree_list_init (FrTreeList *self)
{
  static const GActionEntry entries[]
      = { { .name = "sort", .activate = sort_cb, .parameter_type = "s", .state = "'name'" } };

  self->bound = g_hash_table_new (NULL, NULL);
  self->actions = g_simple_action_group_new ();
  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "trees", G_ACTION_GROUP (self->actions));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (GTK_WIDGET (self), "tree-list");
}

static void
add_search (FrTreeList *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->search = gtk_search_entry_new ();
  g_object_set (self->search, "placeholder-text", _ ("Name, species, owner"), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->search), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Search trees"), -1);
  gtk_widget_add_css_class (self->search, "tree-search");
  g_signal_connect_object (self->search, "search-changed", G_CALLBACK (filter_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->search, "stop-search", G_CALLBACK (search_stop_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (search_key_cb), self);
  gtk_widget_add_controller (self->search, keys);
  gtk_box_append (GTK_BOX (self), self->search);
}

static void
add_filter (FrTreeList *self)
{
  /* By FrTreeShow. */
  const char *const shows[]
      = { _ ("All trees"),    _ ("Tapped"), _ ("Not tapped"), _ ("May be tapped"), _ ("To watch"),
          _ ("Not measured"), NULL };
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *order = gtk_menu_button_new ();
  g_autoptr (GMenu) menu = g_menu_new ();

  self->show = gtk_drop_down_new_from_strings (shows);
  gtk_widget_set_hexpand (self->show, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->show), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Show"), -1);
  g_signal_connect_object (self->show, "notify::selected", G_CALLBACK (filter_cb), self, G_CONNECT_SWAPPED);
  self->count = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->count, "note");
  for (guint i = 0; i < G_N_ELEMENTS (sorts); i++)
    {
      g_autofree char *action = g_strconcat ("trees.sort::", sorts[i].code, NULL);

      g_menu_append (menu, _ (sorts[i].word), action);
    }
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (order), "view-sort-descending-symbolic");
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (order), G_MENU_MODEL (menu));
  gtk_widget_set_tooltip_text (order, _ ("Sort By"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (order), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Sort by"), -1);
  gtk_widget_add_css_class (order, "flat");
  gtk_widget_add_css_class (line, "tree-filter");
  gtk_box_append (GTK_BOX (line), self->show);
  gtk_box_append (GTK_BOX (line), self->count);
  gtk_box_append (GTK_BOX (line), order);
  gtk_box_append (GTK_BOX (self), line);
}

static void
add_heads (FrTreeList *self)
{
  static const int widths_px[4] = { -1, FR_TREE_ROW_SIZE_PX, FR_TREE_ROW_TAPS_PX, FR_TREE_ROW_LITRES_PX };
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);

  for (guint i = 0; i < G_N_ELEMENTS (self->heads); i++)
    {
      GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

      self->heads[i] = g_object_new (GTK_TYPE_BUTTON, "accessible-role", GTK_ACCESSIBLE_ROLE_COLUMN_HEADER,
                                     "has-frame", FALSE, NULL);
      gtk_box_append (GTK_BOX (box), gtk_label_new (NULL));
      gtk_box_append (GTK_BOX (box), gtk_image_new ());
      gtk_widget_set_halign (box, i == 0 ? GTK_ALIGN_START : GTK_ALIGN_END);
      gtk_button_set_child (GTK_BUTTON (self->heads[i]), box);
      gtk_widget_set_size_request (self->heads[i], fr_tree_row_width (GTK_WIDGET (self), widths_px[i]), -1);
      gtk_widget_set_hexpand (self->heads[i], i == 0);
      g_signal_connect_object (self->heads[i], "clicked", G_CALLBACK (head_clicked_cb), self,
                               G_CONNECT_SWAPPED);
      gtk_box_append (GTK_BOX (line), self->heads[i]);
    }
  gtk_widget_add_css_class (line, "tree-heads");
  gtk_box_append (GTK_BOX (self), line);
}

static void
add_view (FrTreeList *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkWidget *scroller = gtk_scrolled_window_new (), *overlay = gtk_overlay_new ();

  g_signal_connect_object (factory, "setup", G_CALLBACK (setup_cb), self, 0);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind_cb), self, 0);
  g_signal_connect_object (factory, "unbind", G_CALLBACK (unbind_cb), self, 0);
  self->selection = fr_tree_selection_new (self->bush);
  self->view = gtk_list_view_new (g_object_ref (GTK_SELECTION_MODEL (self->selection)), factory);
  gtk_widget_add_css_class (self->view, "tree-rows");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->view), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Trees"),
                                  -1);
  g_signal_connect_object (self->view, "activate", G_CALLBACK (activate_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->view, "notify::has-focus", G_CALLBACK (view_focus_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), self);
  gtk_widget_add_controller (self->view, keys);
  fr_list_is_one_stop (self->view);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), self->view);
  gtk_widget_set_vexpand (scroller, TRUE);
  self->nothing = gtk_label_new (_ ("No tree is like this."));
  gtk_widget_add_css_class (self->nothing, "soft");
  gtk_widget_set_valign (self->nothing, GTK_ALIGN_START);
  gtk_widget_set_margin_top (self->nothing, 24);
  gtk_overlay_set_child (GTK_OVERLAY (overlay), scroller);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), self->nothing);
  gtk_box_append (GTK_BOX (self), overlay);
}

GtkWidget *
fr_tree_list_new (FrSugarbush *bush)
{
  FrTreeList *self = g_object_new (FR_TYPE_TREE_LIST, NULL);

  self->bush = g_object_ref (bush);
  add_search (self);
  add_filter (self);
  add_heads (self);
  add_view (self);
  g_signal_connect_object (bush, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (bush, "selection-changed", G_CALLBACK (selection_changed_cb), self,
                           G_CONNECT_SWAPPED);
  changed_cb (self);
  return GTK_WIDGET (self);
}

void
fr_tree_list_find (FrTreeList *self)
{
  gtk_widget_grab_focus (self->search);
  gtk_editable_select_region (GTK_EDITABLE (self->search), 0, -1);
}

/* The row of a list item's widget: what the factory put into it. */
static FrTreeRow *
row_of (GtkWidget *item)
{
  GtkWidget *row = gtk_widget_get_first_child (item);

  return FR_IS_TREE_ROW (row) ? FR_TREE_ROW (row) : NULL;
}

guint
fr_tree_list_focus_row (FrTreeList *self)
{
  GtkWidget *item = gtk_widget_get_focus_child (self->view);
  FrTreeRow *row = item != NULL ? row_of (item) : NULL;
  guint position = 0;

  return row != NULL && fr_sugarbush_find_row (self->bush, fr_tree_row_get_tree (row), &position)
             ? position
             : GTK_INVALID_LIST_POSITION;
}

gboolean
fr_tree_list_grab (FrTreeList *self, guint position)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->selection));
  gint64 tree;

  if (n == 0)
    return FALSE;
  if (position == GTK_INVALID_LIST_POSITION)
    {
      gtk_widget_grab_focus (self->view);
      return TRUE;
    }
  position = MIN (position, n - 1);
  tree = fr_tree_selection_tree_at (self->selection, position);
  gtk_widget_activate_action (self->view, "list.scroll-to-item", "u", position);
  for (GtkWidget *item = gtk_widget_get_first_child (self->view); item != NULL;
       item = gtk_widget_get_next_sibling (item))
    if (row_of (item) != NULL && fr_tree_row_get_tree (row_of (item)) == tree && gtk_widget_grab_focus (item))
      return TRUE;
  gtk_widget_grab_focus (self->view);
  return TRUE;
}
