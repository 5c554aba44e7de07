/* What is done now and then on the page: measuring many trees, the ground, files in and out. A menu button in
 * the header bar holds it, and a file let go over the page is read as one chosen there. */
#include "ui/sugarbush-page-private.h"

#include <glib/gi18n-lib.h>

#include "ui/export-dialog.h"
#include "ui/import-dialog.h"
#include "ui/measured-dialog.h"
#include "ui/window.h"

static FrWindow *
window_of (FrSugarbushPage *self)
{
  return fr_window_of (GTK_WIDGET (self));
}

static void
measure_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  gtk_window_present (GTK_WINDOW (fr_measured_dialog_new (window_of (self), self->bush)));
}

static void
ground_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  fr_sugarbush_page_show_view (self, "map");
  fr_map_pane_show_ground (self->map, !fr_map_pane_shows_ground (self->map));
}

static void
import_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  gtk_window_present (GTK_WINDOW (fr_import_dialog_new (window_of (self), self->bush, NULL)));
}

static void
export_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  gtk_window_present (GTK_WINDOW (fr_export_dialog_new (window_of (self), self->bush)));
}

static const GActionEntry entries[] = {
  { .name = "measure", .activate = measure_cb },
  { .name = "ground", .activate = ground_cb },
  { .name = "import", .activate = import_cb },
  { .name = "export", .activate = export_cb },
};

static gboolean
drop_cb (GtkDropTarget *target, const GValue *value, double x, double y, gpointer user_data)
{
  FrSugarbushPage *self = FR_SUGARBUSH_PAGE (user_data);

  gtk_window_present (
      GTK_WINDOW (fr_import_dialog_new (window_of (self), self->bush, g_value_get_object (value))));
  return TRUE;
}

static GMenuModel *
menu_model (void)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) plan = g_menu_new ();
  g_autoptr (GMenu) files = g_menu_new ();

  g_menu_append (plan, _ ("Add by _Tape and Compass…"), "bush.measure");
  g_menu_append (plan, _ ("_Ground"), "bush.ground");
  g_menu_append (files, _ ("_Import Trees…"), "bush.import");
  g_menu_append (files, _ ("_Export Trees…"), "bush.export");
  g_menu_append (files, _ ("_Print…"), "bush.print");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (plan));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (files));
  return G_MENU_MODEL (menu);
}

GtkWidget *
fr_sugarbush_menu_new (FrSugarbushPage *self)
{
  GtkWidget *button = gtk_menu_button_new ();
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_FILE, GDK_ACTION_COPY);
  g_autoptr (GMenuModel) menu = menu_model ();

  g_action_map_add_action_entries (G_ACTION_MAP (self->actions), entries, G_N_ELEMENTS (entries), self);
  g_signal_connect (target, "drop", G_CALLBACK (drop_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (button), "view-more-symbolic");
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), menu);
  gtk_widget_set_tooltip_text (button, _ ("Sugarbush Menu"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Sugarbush menu"), -1);
  return button;
}
