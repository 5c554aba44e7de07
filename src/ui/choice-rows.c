/* Choices, each with its words. */
#include "ui/choice-rows.h"

#include <glib/gi18n-lib.h>

#include "paint/sheet.h"

GtkWidget *
fr_choice_row_new (const char *title, const char *const *words, guint selected)
{
  GtkWidget *row = adw_combo_row_new ();
  g_autoptr (GtkStringList) model = gtk_string_list_new (words);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (model));
  adw_combo_row_set_selected (ADW_COMBO_ROW (row), selected);
  return row;
}

GtkWidget *
fr_paper_row_new (FrSystem system)
{
  const char *const papers[] = { _ ("A4"), _ ("Letter"), NULL };

  return fr_choice_row_new (_ ("Paper"), papers, system == FR_SYSTEM_US ? FR_SHEET_LETTER : FR_SHEET_A4);
}

GtkWidget *
fr_switch_row_new (const char *title, const char *note, GtkWidget **switch_out)
{
  GtkWidget *row = adw_action_row_new (), *made = gtk_switch_new ();

  gtk_widget_set_valign (made, GTK_ALIGN_CENTER);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  if (note != NULL)
    adw_action_row_set_subtitle (ADW_ACTION_ROW (row), note);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), made);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), made);
  gtk_accessible_update_property (GTK_ACCESSIBLE (made), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  *switch_out = made;
  return row;
}
