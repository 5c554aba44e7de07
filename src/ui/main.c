/* The window program. Everything else is in the library, which the tests link too. */
#include <glib/gi18n-lib.h>
#include <locale.h>

#include "ui/application.h"

int
main (int argc, char **argv)
{
  g_autoptr (FrApplication) application = NULL;
  const char *locale_dir = g_getenv ("FROSTRUN_LOCALEDIR");
  int status;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, locale_dir != NULL ? locale_dir : FR_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_application_name ("Frostrun");

  application = fr_application_new (G_APPLICATION_DEFAULT_FLAGS);
  status = g_application_run (G_APPLICATION (application), argc, argv);
  return fr_application_get_failed (application) ? 1 : status;
}
