/* A libadwaita window with nothing in it but a header bar and a label: what start-up costs before a program
 * has done anything of its own. Like the program, it prints nothing; bench-start times both. */
#include <adwaita.h>

static void
activate_cb (GtkApplication *app)
{
  GtkWidget *window = adw_application_window_new (app), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), gtk_label_new ("Bare"));
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), box);
  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  g_autoptr (AdwApplication) app = adw_application_new ("org.frostrun.Bare", G_APPLICATION_NON_UNIQUE);

  g_signal_connect (app, "activate", G_CALLBACK (activate_cb), NULL);
  return g_application_run (G_APPLICATION (app), argc, argv);
}
