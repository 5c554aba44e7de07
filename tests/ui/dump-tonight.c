/* dump-tonight BOOK NOW PDF: prints every label of the window's first page and of its header, and writes the
 * page for the shed; for same-words.py. */
#include "models/tonight.h"
#include "ui/clock.h"
#include "ui/tonight-export.h"
#include "window-tools.h"

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (FrApplication) app = NULL;
  g_autoptr (FrTonight) tonight = NULL;
  g_autoptr (GBytes) pdf = NULL;
  g_autofree char *texts = NULL;
  GtkWindow *window;
  FrBook *book;

  if (argc != 4 || !fr_clock_hold (argv[2]))
    return 1;
  gtk_init ();
  adw_init ();
  app = fr_application_new (G_APPLICATION_NON_UNIQUE);
  if (!g_application_register (G_APPLICATION (app), NULL, &error)
      || !fr_application_open_book (app, argv[1], &error))
    g_error ("%s", error->message);
  window = gtk_application_get_active_window (GTK_APPLICATION (app));
  act (FR_WINDOW (window), "win.page", "tonight");
  settle ();
  texts = label_texts (GTK_WIDGET (window));
  g_print ("%s", texts);
  book = fr_window_get_book (FR_WINDOW (window));
  tonight = fr_tonight_new (book, fr_clock_now);
  pdf = fr_tonight_pdf (tonight, fr_book_get_household (book)->name, &error);
  if (pdf == NULL
      || !g_file_set_contents (argv[3], g_bytes_get_data (pdf, NULL), (gssize)g_bytes_get_size (pdf), &error))
    g_error ("%s", error->message);
  gtk_window_destroy (window);
  settle ();
  return 0;
}
