/* The library's own switcher gives every view the width of the widest and an icon, which a header bar of 800
 * px with buttons beside it has no room for. */
#include "ui/view-tabs.h"

struct _FrViewTabs
{
  GtkBox parent_instance;
  AdwViewStack *stack;
  GPtrArray *buttons; /* in the order of the stack's pages */
};

G_DEFINE_FINAL_TYPE (FrViewTabs, fr_view_tabs, GTK_TYPE_BOX)

static GtkWidget *
view_at (FrViewTabs *self, guint position)
{
  g_autoptr (GtkSelectionModel) pages = adw_view_stack_get_pages (self->stack);
  g_autoptr (AdwViewStackPage) page = g_list_model_get_item (G_LIST_MODEL (pages), position);

  return page != NULL ? adw_view_stack_page_get_child (page) : NULL;
}

static void
shown_cb (FrViewTabs *self)
{
  GtkWidget *shown = adw_view_stack_get_visible_child (self->stack);

  for (guint i = 0; i < self->buttons->len; i++)
    if (view_at (self, i) == shown)
      gtk_toggle_button_set_active (self->buttons->pdata[i], TRUE);
}

static void
toggled_cb (FrViewTabs *self, GtkToggleButton *button)
{
  guint position;

  if (gtk_toggle_button_get_active (button) && g_ptr_array_find (self->buttons, button, &position))
    adw_view_stack_set_visible_child (self->stack, view_at (self, position));
}

static void
fr_view_tabs_dispose (GObject *object)
{
  FrViewTabs *self = FR_VIEW_TABS (object);

  g_clear_pointer (&self->buttons, g_ptr_array_unref);
  g_clear_object (&self->stack);
  G_OBJECT_CLASS (fr_view_tabs_parent_class)->dispose (object);
}

static void
fr_view_tabs_class_init (FrViewTabsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_view_tabs_dispose;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
fr_view_tabs_init (FrViewTabs *self)
{
  self->buttons = g_ptr_array_new ();
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (GTK_WIDGET (self), "view-tabs");
}

GtkWidget *
fr_view_tabs_new (AdwViewStack *stack)
{
  FrViewTabs *self = g_object_new (FR_TYPE_VIEW_TABS, "spacing", 4, NULL);
  g_autoptr (GtkSelectionModel) pages = adw_view_stack_get_pages (stack);

  self->stack = g_object_ref (stack);
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (pages)); i++)
    {
      g_autoptr (AdwViewStackPage) page = g_list_model_get_item (G_LIST_MODEL (pages), i);
      GtkWidget *button = gtk_toggle_button_new_with_label (adw_view_stack_page_get_title (page));

      if (i > 0)
        gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), self->buttons->pdata[0]);
      gtk_widget_add_css_class (button, "flat");
      gtk_box_append (GTK_BOX (self), button);
      g_ptr_array_add (self->buttons, button);
    }
  shown_cb (self);
  for (guint i = 0; i < self->buttons->len; i++)
    g_signal_connect_object (self->buttons->pdata[i], "toggled", G_CALLBACK (toggled_cb), self,
                             G_CONNECT_SWAPPED);
  g_signal_connect_object (stack, "notify::visible-child", G_CALLBACK (shown_cb), self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}

void
fr_view_tabs_step (AdwViewStack *stack, int by)
{
  g_autoptr (GtkSelectionModel) pages = adw_view_stack_get_pages (stack);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (pages));

  for (guint i = 0; i < n; i++)
    if (gtk_selection_model_is_selected (pages, i))
      {
        gtk_selection_model_select_item (pages, (i + n + (guint)by) % n, TRUE);
        return;
      }
}
