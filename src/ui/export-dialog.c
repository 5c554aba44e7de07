/* The file is made whole before the old one of its name goes. */
#include "ui/export-dialog.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "models/bush-transfer.h"
#include "ui/choice-rows.h"
#include "ui/dialog-frame.h"
#include "ui/pieces.h"

struct _FrExportDialog
{
  AdwWindow parent_instance;
  FrWindow *window; /* the dialog is transient for it and goes first */
  FrSugarbush *bush;
  GtkWidget *kind;
  GtkWidget *which;
  GtkWidget *paths;
  GtkWidget *paths_row;
  GtkWidget *problem;
};

G_DEFINE_FINAL_TYPE (FrExportDialog, fr_export_dialog, ADW_TYPE_WINDOW)

static const struct
{
  const char *code;
  const char *ending;
  const char *words;
  const char *note;
  gboolean draws; /* has room for what is drawn on the ground */
} kinds[] = {
  { "gpx", "gpx", N_ ("GPX"), N_ ("For receivers and walking maps"), TRUE },
  { "geojson", "geojson", N_ ("GeoJSON"), N_ ("For map programs"), TRUE },
  { "trees-csv", "csv", N_ ("CSV"), N_ ("For a spreadsheet"), FALSE },
};

static guint
kind_of (FrExportDialog *self)
{
  FrArrivalFile at = (FrArrivalFile)adw_combo_row_get_selected (ADW_COMBO_ROW (self->kind));

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (strcmp (kinds[i].code, fr_arrival_file_code (at)) == 0)
      return i;
  g_return_val_if_reached (0);
}

gboolean
fr_export_dialog_write (FrExportDialog *self, GFile *file)
{
  FrBook *book = fr_sugarbush_get_book (self->bush);
  gboolean only = adw_combo_row_get_selected (ADW_COMBO_ROW (self->which)) == 1;
  g_autoptr (GError) error = NULL;
  guint n_left_out = 0;
  g_autofree char *text = fr_bush_export (
      book, (FrArrivalFile)adw_combo_row_get_selected (ADW_COMBO_ROW (self->kind)),
      only ? fr_sugarbush_get_selected (self->bush) : NULL, only ? fr_sugarbush_n_selected (self->bush) : 0,
      kinds[kind_of (self)].draws && gtk_switch_get_active (GTK_SWITCH (self->paths)), &n_left_out, &error);
  g_autoptr (GFile) of_book = g_file_new_for_path (fr_book_get_path (book));
  g_autofree char *name = NULL, *told = NULL;

  if (text != NULL && g_file_equal (file, of_book))
    g_set_error_literal (&error, G_IO_ERROR, G_IO_ERROR_EXISTS,
                         _ ("That is the book itself. Choose another name."));
  if (text == NULL || error != NULL
      || !g_file_replace_contents (file, text, strlen (text), NULL, FALSE, G_FILE_CREATE_NONE, NULL, NULL,
                                   &error))
    {
      fr_set_text (self->problem, error->message);
      return FALSE;
    }
  name = g_file_get_basename (file);
  if (n_left_out > 0 && strcmp (kinds[kind_of (self)].code, "gpx") == 0)
    told = g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE, "Saved as “%s”, without %u tree that has no place on the plan",
                     "Saved as “%s”, without %u trees that have no place on the plan", n_left_out),
        name, n_left_out);
  else
    told = g_strdup_printf (_ ("Saved as “%s”"), name);
  fr_window_tell (self->window, told);
  gtk_window_close (GTK_WINDOW (self));
  return TRUE;
}

static void
chosen_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

      fr_export_dialog_write (FR_EXPORT_DIALOG (user_data), file);
    }
  g_object_unref (dialog);
}

static void
export_cb (FrExportDialog *self)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      _ ("Export Trees"), GTK_WINDOW (self), GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  g_autofree char *name = g_strdup_printf ("%s.%s", _ ("trees"), kinds[kind_of (self)].ending);

  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  g_signal_connect_object (dialog, "response", G_CALLBACK (chosen_cb), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
kind_cb (FrExportDialog *self)
{
  adw_action_row_set_subtitle (ADW_ACTION_ROW (self->kind), _ (kinds[kind_of (self)].note));
  gtk_widget_set_visible (self->paths_row, kinds[kind_of (self)].draws);
  fr_set_text (self->problem, NULL);
}

static void
fr_export_dialog_dispose (GObject *object)
{
  g_clear_object (&FR_EXPORT_DIALOG (object)->bush);
  G_OBJECT_CLASS (fr_export_dialog_parent_class)->dispose (object);
}

static void
fr_export_dialog_class_init (FrExportDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_export_dialog_dispose;
  fr_dialog_frame_class_init (GTK_WIDGET_CLASS (klass));
}

static void
fr_export_dialog_init (FrExportDialog *self)
{
}

static GtkWidget *
combo (const char *title, GtkStringList *words)
{
  GtkWidget *row = adw_combo_row_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (words));
  return row;
}

static GtkWidget *
build (FrExportDialog *self)
{
  GtkWidget *group = adw_preferences_group_new ();
  guint n = fr_sugarbush_n_selected (self->bush);
  g_autoptr (GtkStringList) files = gtk_string_list_new (NULL);
  g_autoptr (GtkStringList) trees = gtk_string_list_new (NULL);
  g_autofree char *selected
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "The %u selected", "The %u selected", n), n);

  for (guint i = 0; i < FR_N_ARRIVAL_FILES; i++)
    for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
      if (strcmp (kinds[k].code, fr_arrival_file_code ((FrArrivalFile)i)) == 0)
        gtk_string_list_append (files, _ (kinds[k].words));
  gtk_string_list_append (trees, _ ("All trees"));
  if (n > 0)
    gtk_string_list_append (trees, selected);
  self->kind = combo (_ ("File"), files);
  self->which = combo (_ ("Trees"), trees);
  adw_combo_row_set_selected (ADW_COMBO_ROW (self->which), n > 1 ? 1 : 0);
  self->paths_row = fr_switch_row_new (_ ("With the ground’s drawings"), NULL, &self->paths);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->kind);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->which);
  adw_preferences_group_add (ADW_PREFERENCES_GROUP (group), self->paths_row);
  g_signal_connect_object (self->kind, "notify::selected", G_CALLBACK (kind_cb), self, G_CONNECT_SWAPPED);
  return group;
}

GtkWidget *
fr_export_dialog_new (FrWindow *window, FrSugarbush *bush)
{
  FrExportDialog *self = g_object_new (FR_TYPE_EXPORT_DIALOG, "transient-for", window, NULL);
  GtkBox *inner;

  self->window = window;
  self->bush = g_object_ref (bush);
  fr_dialog_frame_build (ADW_WINDOW (self), _ ("Export Trees"), 460, 360, G_CALLBACK (export_cb), self,
                         &inner);
  fr_dialog_frame_name_buttons (ADW_WINDOW (self), NULL, _ ("_Export…"));
  self->problem = fr_wrapped_text (NULL, "problem");
  gtk_box_append (inner, build (self));
  gtk_box_append (inner, fr_wrapped_text (_ ("Girths, taps and seasons go with their trees."), "soft"));
  gtk_box_append (inner, self->problem);
  kind_cb (self);
  return GTK_WIDGET (self);
}
