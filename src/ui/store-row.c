/* A row of the store. The bar is a level, so it reads without colour; over the rim it is full and a sentence
 * says so. */
#include "ui/store-row.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "ui/field-labels.h"
#include "ui/pieces.h"
#include "words/season-words.h"
#include "words/stock-words.h"

#define BAR_PX 132

struct _FrStoreRow
{
  GtkListBoxRow parent_instance;
  GtkWidget *name;
  GtkWidget *place;
  GtkWidget *bar;
  GtkWidget *fill;
  GtkWidget *litres;
  GtkWidget *note;
  GtkWidget *keeps_box;
  GtkWidget *keeps_icon;
  GtkWidget *keeps;
  GtkWidget *boil;
  GtkWidget *look;
  GtkWidget *menu;
};

G_DEFINE_FINAL_TYPE (FrStoreRow, fr_store_row, GTK_TYPE_LIST_BOX_ROW)

static GtkWidget *
button_new (const char *label)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  return button;
}

static void
fr_store_row_class_init (FrStoreRowClass *klass)
{
}

static void
fr_store_row_init (FrStoreRow *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *top = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12),
            *names = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *level = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3),
            *foot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  self->name = fr_wrapped_text (NULL, "value");
  self->place = fr_wrapped_text (NULL, "note");
  gtk_widget_set_hexpand (names, TRUE);
  gtk_widget_set_valign (names, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (names), self->name);
  gtk_box_append (GTK_BOX (names), self->place);
  self->bar = gtk_level_bar_new ();
  gtk_widget_set_size_request (self->bar, BAR_PX, -1);
  gtk_widget_add_css_class (self->bar, "store-level");
  self->fill = gtk_label_new (NULL);
  gtk_widget_add_css_class (self->fill, "note");
  gtk_widget_set_valign (level, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (level), self->bar);
  gtk_box_append (GTK_BOX (level), self->fill);
  self->litres = gtk_label_new (NULL);
  gtk_label_set_width_chars (GTK_LABEL (self->litres), 8);
  gtk_label_set_xalign (GTK_LABEL (self->litres), 1);
  gtk_widget_add_css_class (self->litres, "store-litres");
  gtk_box_append (GTK_BOX (top), names);
  gtk_box_append (GTK_BOX (top), level);
  gtk_box_append (GTK_BOX (top), self->litres);
  self->note = fr_wrapped_text (NULL, "soft");
  self->keeps_box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  self->keeps_icon = gtk_image_new_from_icon_name ("dialog-warning-symbolic");
  gtk_widget_add_css_class (self->keeps_icon, "caution");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->keeps_icon), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Caution"), -1);
  self->keeps = fr_wrapped_text (NULL, NULL);
  gtk_widget_set_hexpand (self->keeps, TRUE);
  gtk_widget_set_hexpand (self->keeps_box, TRUE);
  gtk_box_append (GTK_BOX (self->keeps_box), self->keeps_icon);
  gtk_box_append (GTK_BOX (self->keeps_box), self->keeps);
  self->boil = button_new (_ ("Boil…"));
  self->look = button_new (_ ("Look In…"));
  self->menu = gtk_menu_button_new ();
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (self->menu), "view-more-symbolic");
  gtk_widget_set_valign (self->menu, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (foot), self->keeps_box);
  gtk_box_append (GTK_BOX (foot), self->boil);
  gtk_box_append (GTK_BOX (foot), self->look);
  gtk_box_append (GTK_BOX (foot), self->menu);
  gtk_box_append (GTK_BOX (box), top);
  gtk_box_append (GTK_BOX (box), self->note);
  gtk_box_append (GTK_BOX (box), foot);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (self), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (self), FALSE);
  gtk_list_box_row_set_selectable (GTK_LIST_BOX_ROW (self), FALSE);
  gtk_widget_set_focusable (GTK_WIDGET (self), FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (self), "store-row");
}

GtkWidget *
fr_store_row_new (void)
{
  return g_object_new (FR_TYPE_STORE_ROW, NULL);
}

static void
add_item (GMenu *menu, const char *label, const char *action, GVariant *target)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

  g_menu_item_set_action_and_target_value (item, action, target);
  g_menu_append_item (menu, item);
}

static void
set_buttons (FrStoreRow *self, gint64 id, const char *name, gboolean empty)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  g_autoptr (GVariant) target = g_variant_ref_sink (g_variant_new_int64 (id));
  /* Translators: a container's name */
  g_autofree char *boil = g_strdup_printf (_ ("Boil from %s"), name);
  g_autofree char *look = g_strdup_printf (_ ("Look into %s"), name);
  g_autofree char *more = g_strdup_printf (_ ("More on %s"), name);

  gtk_actionable_set_action_target_value (GTK_ACTIONABLE (self->boil), target);
  gtk_actionable_set_action_target_value (GTK_ACTIONABLE (self->look), target);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->boil), "season.boil"); /* after what it asks for */
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->look), "season.look");
  gtk_widget_set_visible (self->boil, !empty);
  add_item (menu, _ ("Move…"), "season.move", target);
  add_item (menu, _ ("Ice Out…"), "season.ice", target);
  add_item (menu, _ ("Spilled, Spoiled or Drunk…"), "season.lost", target);
  if (id != 0)
    add_item (menu, _ ("Change the Container…"), "season.edit-container", target);
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (self->menu), G_MENU_MODEL (menu));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->boil), GTK_ACCESSIBLE_PROPERTY_LABEL, boil, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->look), GTK_ACCESSIBLE_PROPERTY_LABEL, look, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->menu), GTK_ACCESSIBLE_PROPERTY_LABEL, more, -1);
}

void
fr_store_row_set (FrStoreRow *self, const FrStockPlace *place, const FrStock *stock, const FrSay *say)
{
  const FrContainer *container = place->container;
  const char *name = container != NULL ? container->name : _ ("Place not said");
  double capacity_l = container != NULL ? container->capacity_l.value : NAN;
  FrKeeps keeps = fr_stock_place_keeps (place, stock->at_utc);
  gboolean empty = keeps == FR_KEEPS_EMPTY && !(place->volume_l < 0);
  g_autofree char *number = NULL, *note = fr_stock_place_note (place, stock, say);
  g_autofree char *keeping = fr_stock_place_keeping (place, stock->at_utc, say);
  g_autofree char *spoken = fr_stock_place_spoken (place, name, stock, say);
  g_autofree char *markup = NULL;
  const char *unit = "";

  gtk_label_set_text (GTK_LABEL (self->name), name);
  fr_set_text (self->place, container != NULL ? fr_code_word ("place", container->place) : NULL);
  fr_quantity_format (place->volume_l, FR_QUANTITY_VOLUME, &say->units, -1, &number, &unit);
  markup = g_markup_printf_escaped ("<b>%s</b> %s", number, unit);
  gtk_label_set_markup (GTK_LABEL (self->litres), markup);
  gtk_widget_set_visible (gtk_widget_get_parent (self->bar), capacity_l > 0);
  if (capacity_l > 0)
    {
      g_autofree char *holds = fr_season_litres (say, capacity_l);
      /* Translators: what a container can hold */
      g_autofree char *fill = g_strdup_printf (_ ("of %s"), holds);

      gtk_level_bar_set_value (GTK_LEVEL_BAR (self->bar), CLAMP (place->volume_l / capacity_l, 0, 1));
      gtk_label_set_text (GTK_LABEL (self->fill), fill);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->bar), GTK_ACCESSIBLE_PROPERTY_LABEL, fill, -1);
    }
  fr_set_text (self->note, empty ? _ ("Empty") : note);
  fr_set_text (self->keeps, keeping);
  gtk_widget_set_visible (self->keeps_icon, keeps == FR_KEEPS_SOON || keeps == FR_KEEPS_PAST);
  if (keeps == FR_KEEPS_PAST)
    gtk_widget_add_css_class (self->keeps, "strong");
  else
    gtk_widget_remove_css_class (self->keeps, "strong");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  set_buttons (self, container != NULL ? container->record.id : 0, name, empty);
}
