/* Two choices, and where to. */
#include "ui/season-print.h"

#include <glib/gi18n-lib.h>

#include "ui/dialog-frame.h"
#include "ui/pieces.h"
#include "ui/save-file.h"
#include "ui/season-paper.h"

struct _FrSeasonPrint
{
  AdwWindow parent_instance;
  FrWindow *window;
  FrSeason *season;
  GtkWidget *paper;
  GtkWidget *months;
};

G_DEFINE_FINAL_TYPE (FrSeasonPrint, fr_season_print, ADW_TYPE_WINDOW)

GBytes *
fr_season_print_make (FrSeasonPrint *self, guint *n_pages, GError **error)
{
  return fr_season_paper_pdf (self->season,
                              (FrSheetSize)adw_combo_row_get_selected (ADW_COMBO_ROW (self->paper)),
                              gtk_switch_get_active (GTK_SWITCH (self->months)), n_pages, error);
}

static void
response_cb (GtkNativeDialog *native, int response, gpointer user_data)
{
  FrSeasonPrint *self = FR_SEASON_PRINT (user_data);

  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));
      g_autoptr (GBytes) pdf = fr_season_print_make (self, NULL, &error);

      if (pdf == NULL)
        fr_window_show_error (self->window, error);
      else if (fr_save_file (self->window, file, g_bytes_get_data (pdf, NULL), g_bytes_get_size (pdf)))
        gtk_window_close (GTK_WINDOW (self));
    }
  g_object_unref (native);
}

static void
save_cb (FrSeasonPrint *self)
{
  GtkFileChooserNative *native = gtk_file_chooser_native_new (
      _ ("Save as PDF"), GTK_WINDOW (self), GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  g_autofree char *name = g_strdup_printf ("season-%u.pdf", fr_season_get_season (self->season));

  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (native), name);
  g_signal_connect_object (native, "response", G_CALLBACK (response_cb), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}

static void
fr_season_print_dispose (GObject *object)
{
  g_clear_object (&FR_SEASON_PRINT (object)->season);
  G_OBJECT_CLASS (fr_season_print_parent_class)->dispose (object);
}

static void
fr_season_print_class_init (FrSeasonPrintClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_season_print_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_season_print_init (FrSeasonPrint *self)
{
}

GtkWidget *
fr_season_print_new (FrWindow *window, FrSeason *season)
{
  FrSeasonPrint *self = g_object_new (FR_TYPE_SEASON_PRINT, "transient-for", window, NULL);
  const char *const papers[] = { _ ("A4"), _ ("Letter"), NULL }; /* by FrSheetSize */
  g_autoptr (GtkStringList) model = gtk_string_list_new (papers);
  GtkWidget *list = gtk_list_box_new (), *row = adw_action_row_new (), *save;
  GtkBox *inner;

  self->window = window;
  self->season = g_object_ref (season);
  save = fr_dialog_frame_build (ADW_WINDOW (self), _ ("Print"), 460, 270, G_CALLBACK (save_cb), self, &inner);
  gtk_button_set_label (GTK_BUTTON (save), _ ("_Save…"));
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "boxed-list");
  self->paper = adw_combo_row_new ();
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->paper), _ ("Paper"));
  adw_combo_row_set_model (ADW_COMBO_ROW (self->paper), G_LIST_MODEL (model));
  adw_combo_row_set_selected (ADW_COMBO_ROW (self->paper),
                              fr_season_get_say (season)->units.system == FR_SYSTEM_US ? FR_SHEET_LETTER
                                                                                       : FR_SHEET_A4);
  self->months = gtk_switch_new ();
  gtk_widget_set_valign (self->months, GTK_ALIGN_CENTER);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ ("A page for each month"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->months), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("A page for each month"), -1);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), self->months);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), self->months);
  gtk_list_box_append (GTK_LIST_BOX (list), self->paper);
  gtk_list_box_append (GTK_LIST_BOX (list), row);
  gtk_box_append (inner, list);
  gtk_box_append (
      inner, fr_wrapped_text (_ ("The season’s answer and its picture, then its days as a table."), "soft"));
  return GTK_WIDGET (self);
}
