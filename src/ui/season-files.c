/* Choosing, reading and writing the tables of a season. What cannot be read or written is told by the window.
 */
#include "ui/season-files.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "models/sap-transfer.h"
#include "ui/sap-import-dialog.h"

/* What a chooser is for. */
typedef struct
{
  FrWindow *window;
  FrSeason *season;
  gboolean stock;
} Asked;

static void
asked_free (Asked *asked)
{
  g_object_unref (asked->window);
  g_object_unref (asked->season);
  g_free (asked);
}

static GtkFileChooserNative *
chooser_new (FrWindow *window, const char *title, GtkFileChooserAction action, const char *accept)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (title, GTK_WINDOW (window), action, accept, _ ("_Cancel"));
  g_autoptr (GtkFileFilter) tables = gtk_file_filter_new ();

  gtk_file_filter_set_name (tables, _ ("Tables (CSV)"));
  gtk_file_filter_add_pattern (tables, "*.csv");
  gtk_file_filter_add_pattern (tables, "*.CSV");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), tables);
  return dialog;
}

static void
import_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  Asked *asked = user_data;
  g_autoptr (GError) error = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *base = g_file_get_basename (file), *name = g_filename_display_name (base),
                      *text = NULL;
      gsize length = 0;
      GtkWidget *preview = NULL;

      if (g_file_load_contents (file, NULL, &text, &length, NULL, &error))
        preview = fr_sap_import_dialog_new (asked->window, asked->season, text, length, name, &error);
      if (preview != NULL)
        gtk_window_present (GTK_WINDOW (preview));
      else
        fr_window_show_error (asked->window, error);
    }
  gtk_native_dialog_destroy (dialog);
  g_object_unref (dialog);
  asked_free (asked);
}

void
fr_season_import (FrWindow *window, FrSeason *season)
{
  GtkFileChooserNative *dialog
      = chooser_new (window, _ ("Import Gatherings or Stock"), GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Import"));
  Asked *asked = g_new0 (Asked, 1);

  *asked = (Asked){ g_object_ref (window), g_object_ref (season), FALSE };
  g_signal_connect (dialog, "response", G_CALLBACK (import_cb), asked);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
export_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  Asked *asked = user_data;
  g_autoptr (GError) error = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *text = fr_sap_export (fr_season_get_book (asked->season), asked->stock);

      if (g_file_replace_contents (file, text, strlen (text), NULL, FALSE, G_FILE_CREATE_NONE, NULL, NULL,
                                   &error))
        {
          g_autofree char *base = g_file_get_basename (file), *name = g_filename_display_name (base);
          /* Translators: the name of a file */
          g_autofree char *sentence = g_strdup_printf (_ ("Written: %s"), name);

          fr_window_tell (asked->window, sentence);
        }
      else
        fr_window_show_error (asked->window, error);
    }
  gtk_native_dialog_destroy (dialog);
  g_object_unref (dialog);
  asked_free (asked);
}

void
fr_season_export (FrWindow *window, FrSeason *season, gboolean stock)
{
  GtkFileChooserNative *dialog = chooser_new (window, stock ? _ ("Export Stock") : _ ("Export Gatherings"),
                                              GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Export"));
  Asked *asked = g_new0 (Asked, 1);
  /* Translators: names of files, with the year of the season */
  g_autofree char *name
      = g_strdup_printf (stock ? _ ("stock-%u.csv") : _ ("gatherings-%u.csv"), fr_season_get_season (season));

  *asked = (Asked){ g_object_ref (window), g_object_ref (season), stock };
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  g_signal_connect (dialog, "response", G_CALLBACK (export_cb), asked);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}
