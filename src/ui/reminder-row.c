/* A reminder's words, and the one thing that can be done with it here. */
#include "ui/reminder-row.h"

#include <glib/gi18n-lib.h>

#include "models/season-edit.h"
#include "ui/pieces.h"
#include "ui/window.h"
#include "words/reminder-words.h"

static void
dismiss_cb (GtkWidget *button, gpointer user_data)
{
  FrSeason *season = FR_SEASON (user_data);
  GError *error = NULL;
  FrChange *change
      = fr_season_edit_dismiss (fr_season_get_book (season), g_object_get_data (G_OBJECT (button), "key"),
                                fr_season_get_now (season), &error);

  fr_window_finish (fr_window_of (button), change, error);
}

GtkWidget *
fr_reminder_row_new (FrSeason *season, const FrReminder *reminder)
{
  g_autoptr (FrReminderWords) words
      = fr_reminder_words_new (reminder, fr_season_get_now (season), fr_season_get_say (season));
  GtkWidget *row = adw_expander_row_new (), *why = gtk_list_box_row_new ();
  GtkWidget *icon = gtk_image_new_from_icon_name ("alarm-symbolic"),
            *text = fr_wrapped_text (words->why, "soft");
  GtkWidget *button = gtk_button_new_from_icon_name ("window-close-symbolic");
  g_autofree char *title = g_markup_escape_text (words->sentence, -1);
  /* Translators: what a reminder is about */
  g_autofree char *name = g_strdup_printf (_ ("Put away: %s"), words->title);

  if (reminder->urgency >= FR_URGENCY_SOON)
    gtk_widget_add_css_class (icon, "caution");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, _ ("Put Away"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data_full (G_OBJECT (button), "key", g_strdup (reminder->key), g_free);
  g_signal_connect_object (button, "clicked", G_CALLBACK (dismiss_cb), season, 0);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (why), text);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (why), FALSE);
  gtk_widget_add_css_class (why, "why");
  adw_expander_row_add_prefix (ADW_EXPANDER_ROW (row), icon);
  adw_expander_row_add_action (ADW_EXPANDER_ROW (row), button);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (row), why);
  return row;
}
