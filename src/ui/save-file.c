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
