/* One way to write what a person asked to keep outside the book. */
#include "ui/save-file.h"

#include <glib/gi18n-lib.h>

gboolean
fr_save_file (FrWindow *window, GFile *file, const char *contents, gsize length)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = NULL, *sentence = NULL;

  if (!g_file_replace_contents (file, contents, length, NULL, FALSE, G_FILE_CREATE_NONE, NULL, NULL, &error))
    {
      fr_window_show_error (window, error);
      return FALSE;
    }
  name = g_file_get_basename (file);
  sentence = g_strdup_printf (_ ("Saved as “%s”"), name);
  fr_window_tell (window, sentence);
  return TRUE;
}

typedef struct
{
  FrWindow *window;
  FrMakePdf make;
} Wish;

static void
response_cb (GtkNativeDialog *native, int response, gpointer user_data)
{
  GtkWindow *dialog = GTK_WINDOW (user_data);
  const Wish *wish = g_object_get_data (G_OBJECT (native), "wish");

  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));
      g_autoptr (GBytes) pdf = wish->make (dialog, &error);

      if (pdf == NULL)
        fr_window_show_error (wish->window, error);
      else if (fr_save_file (wish->window, file, g_bytes_get_data (pdf, NULL), g_bytes_get_size (pdf)))
        gtk_window_close (dialog);
    }
  g_object_unref (native);
}

void
fr_save_pdf (FrWindow *window, GtkWindow *dialog, const char *name, FrMakePdf make)
{
  GtkFileChooserNative *native = gtk_file_chooser_native_new (
      _ ("Save as PDF"), dialog, GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  Wish wish = { window, make };

  g_object_set_data_full (G_OBJECT (native), "wish", g_memdup2 (&wish, sizeof wish), g_free);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (native), name);
  g_signal_connect_object (native, "response", G_CALLBACK (response_cb), dialog, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}
