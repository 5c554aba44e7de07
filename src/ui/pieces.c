#include "ui/pieces.h"

#include <glib/gi18n-lib.h>

GtkWidget *
fr_wrapped_text (const char *words, const char *css_class)
{
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

void
fr_set_text (GtkWidget *label, const char *words)
{
  gtk_label_set_text (GTK_LABEL (label), words != NULL ? words : "");
  gtk_widget_set_visible (label, words != NULL && *words != '\0');
}

GtkWidget *
fr_icon_button_new (const char *icon, const char *name, GCallback clicked, gpointer object)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect_object (button, "clicked", clicked, object, G_CONNECT_SWAPPED);
  return button;
}

GtkWidget *
fr_print_button_new (const char *action)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("document-print-symbolic");

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_tooltip_text (button, _ ("Print… (Ctrl+P)"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Print…"), -1);
  return button;
}

GtkWidget *
fr_card_new (const char *heading)
{
  GtkWidget *outer = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8), *title = gtk_label_new (heading);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_widget_add_css_class (title, "card-heading");
  gtk_widget_add_css_class (outer, "card");
  gtk_widget_add_css_class (outer, "panel");
  gtk_box_append (GTK_BOX (outer), title);
  gtk_box_append (GTK_BOX (outer), content);
  g_object_set_data (G_OBJECT (outer), "content", content);
  return outer;
}

GtkBox *
fr_card_content (GtkWidget *card)
{
  return GTK_BOX (g_object_get_data (G_OBJECT (card), "content"));
}

GtkBox *
fr_card_emptied (GtkWidget *card)
{
  GtkBox *content = fr_card_content (card);

  fr_box_empty (content);
  return content;
}

void
fr_box_empty (GtkBox *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

GtkWidget *
fr_caution_row_new (const char *sentence, FrSeverity severity)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10), *words = fr_wrapped_text (sentence, NULL);
  gboolean passed = severity == FR_SEVERITY_PASSED, danger = severity == FR_SEVERITY_DANGER;
  GtkWidget *icon
      = gtk_image_new_from_icon_name (passed ? "object-select-symbolic" : "dialog-warning-symbolic");

  gtk_widget_set_valign (icon, GTK_ALIGN_START);
  gtk_widget_add_css_class (icon, passed ? "passed" : danger ? "danger" : "caution");
  gtk_accessible_update_property (GTK_ACCESSIBLE (icon), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  passed   ? _ ("Checked")
                                  : danger ? _ ("Danger")
                                           : _ ("Caution"),
                                  -1);
  if (danger)
    gtk_widget_add_css_class (words, "strong");
  gtk_widget_set_hexpand (words, TRUE); /* or it wraps before the edge */
  gtk_box_append (GTK_BOX (box), icon);
  gtk_box_append (GTK_BOX (box), words);
  return box;
}

gboolean
fr_words_are_shown (GListModel *shown, GtkStringList *words)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (words));

  if (shown == NULL || g_list_model_get_n_items (shown) != n)
    return FALSE;
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GtkStringObject) one = g_list_model_get_item (shown, i);

      if (!g_str_equal (gtk_string_object_get_string (one), gtk_string_list_get_string (words, i)))
        return FALSE;
    }
  return TRUE;
}

static gboolean
one_stop_key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state,
                 gpointer user_data)
{
  GtkWidget *view = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller));
  GtkRoot *root = gtk_widget_get_root (view);
  gboolean back = keyval == GDK_KEY_ISO_Left_Tab || (state & GDK_SHIFT_MASK) != 0;

  if ((keyval != GDK_KEY_Tab && keyval != GDK_KEY_KP_Tab && keyval != GDK_KEY_ISO_Left_Tab)
      || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  gtk_widget_set_can_focus (view, FALSE);
  g_signal_emit_by_name (root, "move-focus", back ? GTK_DIR_TAB_BACKWARD : GTK_DIR_TAB_FORWARD);
  gtk_widget_set_can_focus (view, TRUE);
  return TRUE;
}

void
fr_list_is_one_stop (GtkWidget *view)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_signal_connect (keys, "key-pressed", G_CALLBACK (one_stop_key_cb), NULL);
  gtk_widget_add_controller (view, keys);
}
