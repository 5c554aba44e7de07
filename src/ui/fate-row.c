/* The rows of trees, of gatherings and of stock that a file brings look alike; what they are about differs. */
#include "ui/fate-row.h"

#include "ui/pieces.h"

void
fr_fate_row_setup (GtkListItem *item)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10), *check = gtk_check_button_new ();
  GtkWidget *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *title = fr_wrapped_text (NULL, "strong"), *sentence = fr_wrapped_text (NULL, "soft");

  gtk_widget_set_valign (check, GTK_ALIGN_START);
  gtk_widget_set_hexpand (texts, TRUE);
  gtk_box_append (GTK_BOX (texts), title);
  gtk_box_append (GTK_BOX (texts), sentence);
  gtk_box_append (GTK_BOX (row), check);
  gtk_box_append (GTK_BOX (row), texts);
  gtk_widget_add_css_class (row, "arrival");
  g_object_set_data (G_OBJECT (item), "check", check);
  g_object_set_data (G_OBJECT (item), "title", title);
  g_object_set_data (G_OBJECT (item), "sentence", sentence);
  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_child (item, row);
}

void
fr_fate_row_bind (GtkListItem *item, const char *title, const char *sentence, gboolean may_choose, gboolean ticked,
                  gboolean caution, GCallback toggled)
{
  GtkWidget *check = g_object_get_data (G_OBJECT (item), "check");
  GtkWidget *title_label = g_object_get_data (G_OBJECT (item), "title");

  gtk_label_set_text (GTK_LABEL (title_label), title);
  gtk_label_set_text (GTK_LABEL (g_object_get_data (G_OBJECT (item), "sentence")), sentence);
  gtk_widget_set_sensitive (check, may_choose);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), ticked);
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, title,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
  if (caution)
    gtk_widget_add_css_class (title_label, "caution");
  else
    gtk_widget_remove_css_class (title_label, "caution");
  g_signal_connect (check, "toggled", toggled, item);
}

void
fr_fate_row_unbind (GtkListItem *item, GCallback toggled)
{
  g_signal_handlers_disconnect_by_func (g_object_get_data (G_OBJECT (item), "check"), toggled, item);
}
