/* One look for every dialog that ends in Keep. */
#include "ui/dialog-frame.h"

#include <glib/gi18n-lib.h>

#define CANCEL_KEY "fr-cancel-button"
#define KEEP_KEY "fr-keep-button"

void
fr_dialog_frame_class_init (GtkWidgetClass *widget_class)
{
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}

GtkWidget *
fr_dialog_frame_build_plain (AdwWindow *window, const char *title, int width_px, int height_px, GtkBox **inner_out)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0),
            *inner = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *header = adw_header_bar_new (), *scroller = gtk_scrolled_window_new ();

  gtk_widget_set_margin_top (inner, 18);
  gtk_widget_set_margin_bottom (inner, 24);
  gtk_widget_set_margin_start (inner, 24);
  gtk_widget_set_margin_end (inner, 24);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), inner);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (box), header);
  gtk_box_append (GTK_BOX (box), scroller);
  adw_window_set_content (window, box);
  gtk_window_set_title (GTK_WINDOW (window), title);
  gtk_window_set_default_size (GTK_WINDOW (window), width_px, height_px);
  gtk_window_set_modal (GTK_WINDOW (window), TRUE);
  *inner_out = GTK_BOX (inner);
  return header;
}

GtkWidget *
fr_dialog_frame_build (AdwWindow *window, const char *title, int width_px, int height_px, GCallback keep,
                       gpointer data, GtkBox **inner_out)
{
  GtkWidget *header = fr_dialog_frame_build_plain (window, title, width_px, height_px, inner_out);
  GtkWidget *cancel_button = gtk_button_new_with_mnemonic (_ ("_Cancel"));
  GtkWidget *keep_button = gtk_button_new_with_mnemonic (_ ("_Keep"));

  gtk_widget_add_css_class (keep_button, "suggested-action");
  g_signal_connect_swapped (keep_button, "clicked", keep, data);
  g_signal_connect_swapped (cancel_button, "clicked", G_CALLBACK (gtk_window_close), window);
  adw_header_bar_set_show_end_title_buttons (ADW_HEADER_BAR (header), FALSE);
  adw_header_bar_set_show_start_title_buttons (ADW_HEADER_BAR (header), FALSE);
  adw_header_bar_pack_start (ADW_HEADER_BAR (header), cancel_button);
  adw_header_bar_pack_end (ADW_HEADER_BAR (header), keep_button);
  g_object_set_data (G_OBJECT (window), CANCEL_KEY, cancel_button);
  g_object_set_data (G_OBJECT (window), KEEP_KEY, keep_button);
  return keep_button;
}

void
fr_dialog_frame_name_buttons (AdwWindow *window, const char *cancel, const char *keep)
{
  if (cancel != NULL)
    gtk_button_set_label (GTK_BUTTON (g_object_get_data (G_OBJECT (window), CANCEL_KEY)), cancel);
  if (keep != NULL)
    gtk_button_set_label (GTK_BUTTON (g_object_get_data (G_OBJECT (window), KEEP_KEY)), keep);
}
