/* One file dialog for both; the plan is written as it stands when the answer comes. */
#include "ui/tonight-save.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "ui/save-file.h"
#include "ui/tonight-export.h"

static FrTonight *
tonight_of (GtkNativeDialog *dialog)
{
  return g_object_get_data (G_OBJECT (dialog), "tonight");
}

static void
page_response_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  FrWindow *window = fr_window_of (GTK_WIDGET (user_data));

  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) pdf
          = fr_tonight_pdf (tonight_of (dialog), g_object_get_data (G_OBJECT (dialog), "household"), &error);

      if (pdf == NULL)
        fr_window_show_error (window, error);
      else
        fr_save_file (window, file, g_bytes_get_data (pdf, NULL), g_bytes_get_size (pdf));
    }
  g_object_unref (dialog);
}

static void
alarms_response_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *text = fr_tonight_ics (tonight_of (dialog), fr_tonight_get_now (tonight_of (dialog)));

      if (text != NULL)
        fr_save_file (fr_window_of (GTK_WIDGET (user_data)), file, text, strlen (text));
    }
  g_object_unref (dialog);
}

static GtkFileChooserNative *
ask_where (GtkWidget *page, FrTonight *tonight, const char *title, const char *ending, GCallback response)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      title, GTK_WINDOW (fr_window_of (page)), GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  const FrPlanInput *input = fr_tonight_get_input (tonight);
  g_autofree char *day = fr_date_to_iso (fr_zone_local (input->zone, input->start_utc).date);
  g_autofree char *name = g_strdup_printf ("boil-%s.%s", day, ending);

  g_object_set_data_full (G_OBJECT (dialog), "tonight", g_object_ref (tonight), g_object_unref);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  g_signal_connect_object (dialog, "response", response, page, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
  return dialog;
}

void
fr_tonight_save_page (GtkWidget *page, FrTonight *tonight, const char *household)
{
  GtkFileChooserNative *dialog
      = ask_where (page, tonight, _ ("Save the Page for the Shed"), "pdf", G_CALLBACK (page_response_cb));

  g_object_set_data_full (G_OBJECT (dialog), "household", g_strdup (household), g_free);
}

void
fr_tonight_save_alarms (GtkWidget *page, FrTonight *tonight)
{
  ask_where (page, tonight, _ ("Save the Alarms for the Phone"), "ics", G_CALLBACK (alarms_response_cb));
}
