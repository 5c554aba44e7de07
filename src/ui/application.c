/* The application. A book has one window; opening it again raises that window. Without a file the household's
 * own book is opened, in the data folder of the desktop. Another application id (for a demonstration) is set
 * before the program registers itself, so that both can run beside each other. */
#include "ui/application.h"

#include <glib/gi18n-lib.h>
#include <locale.h>

#include "domain/plan/bush.h"
#include "models/settings.h"
#include "ui/clock.h"
#include "ui/pictures.h"
#include "ui/time-entry.h"
#include "ui/window.h"

struct _FrApplication
{
  AdwApplication parent_instance;
  GSettings *settings;
  gboolean failed;
  char *pictures; /* folder to draw every page into, then leave; or NULL */
};

G_DEFINE_FINAL_TYPE (FrApplication, fr_application, ADW_TYPE_APPLICATION)

static char *
own_book_path (void)
{
  return g_build_filename (g_get_user_data_dir (), "frostrun", "book.frostrun", NULL);
}

static char
decimal_mark (void)
{
  const struct lconv *conventions = localeconv ();

  return conventions->decimal_point[0] == ',' ? ',' : '.';
}

/* A failure with no window to show it in. */
static void
refuse_to_open (FrApplication *self, const GError *error)
{
  GtkWidget *dialog;

  /* Nobody stands before a window that is only to be drawn. */
  if (self->pictures != NULL)
    {
      g_printerr ("%s\n", error->message);
      self->failed = TRUE;
      return;
    }
  dialog = adw_message_dialog_new (NULL, _ ("The book cannot be opened"), error->message);

  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _ ("_Close"));
  gtk_window_set_application (GTK_WINDOW (dialog), GTK_APPLICATION (self));
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
quit_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (GTK_APPLICATION (user_data)));

  for (GList *at = windows; at != NULL; at = at->next)
    gtk_window_close (GTK_WINDOW (at->data));
}

/* What a reminder's notice leads to. */
static void
show_season_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (user_data));

  if (!FR_IS_WINDOW (window))
    return;
  fr_window_show_page (FR_WINDOW (window), "season");
  gtk_window_present (window);
}

static void
about_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  adw_show_about_window (gtk_application_get_active_window (GTK_APPLICATION (user_data)), "application-name",
                         "Frostrun", "application-icon", "org.frostrun.Frostrun", "version", FR_VERSION,
                         "comments", _ ("Plans the nightly boil of a household that taps maples."),
                         "license-type", GTK_LICENSE_GPL_3_0, NULL);
}

static void
apply_color_scheme (const char *name)
{
  AdwColorScheme scheme = ADW_COLOR_SCHEME_DEFAULT;

  if (g_strcmp0 (name, "light") == 0)
    scheme = ADW_COLOR_SCHEME_FORCE_LIGHT;
  else if (g_strcmp0 (name, "dark") == 0)
    scheme = ADW_COLOR_SCHEME_FORCE_DARK;
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), scheme);
}

static void
color_scheme_cb (GSimpleAction *action, GVariant *value, gpointer user_data)
{
  FrApplication *self = FR_APPLICATION (user_data);
  const char *name = g_variant_get_string (value, NULL);

  g_simple_action_set_state (action, value);
  apply_color_scheme (name);
  if (self->settings != NULL)
    g_settings_set_string (self->settings, FR_SETTINGS_COLOR_SCHEME, name);
}

static void
fr_application_startup (GApplication *application)
{
  FrApplication *self = FR_APPLICATION (application);
  GtkApplication *app = GTK_APPLICATION (application);
  static const GActionEntry actions[] = {
    { .name = "quit", .activate = quit_cb },
    { .name = "about", .activate = about_cb },
    { .name = "show-season", .activate = show_season_cb },
    { .name = "color-scheme", .parameter_type = "s", .state = "'default'", .change_state = color_scheme_cb },
  };
  static const struct
  {
    const char *action;
    const char *keys[3];
  } accels[] = {
    { "app.quit", { "<Control>q" } },        { "win.undo", { "<Control>z" } },
    { "win.redo", { "<Shift><Control>z" } }, { "win.sidebar", { "F9" } },
    { "win.open-book", { "<Control>o" } },   { "win.page::tonight", { "<Control>1" } },
    { "win.page::sugarbush", { "<Control>2" } }, { "win.page::season", { "<Control>3" } },
    { "win.page::kit", { "<Control>4" } },
    { "win.show-help-overlay", { "F1", "<Control>question" } },
    { "bush.find", { "<Control>f" } }, { "bush.add-tree", { "<Control>n" } },
    { "bush.print", { "<Control>p" } },
    { "season.print", { "<Control>p" } },
    { "season.add-gathering", { "<Control>n" } }, { "season.import", { "<Control>i" } },
    { "season.add-air", { "<Control>d" } },
    { "season.import-weather", { "<Shift><Control>o" } },
    { "season.export::gatherings", { "<Control>e" } },
    { "season.day-before", { "<Alt>Left" } }, { "season.day-after", { "<Alt>Right" } }, { "season.next-view", { "<Control>Page_Down" } },
    { "season.previous-view", { "<Control>Page_Up" } },
    { "bush.next-view", { "<Control>Page_Down" } }, { "bush.previous-view", { "<Control>Page_Up" } },
    { "bush.measure", { "<Shift><Control>n" } }, { "bush.ground", { "<Control>g" } },
    { "bush.import", { "<Control>i" } },     { "bush.export", { "<Control>e" } },
    { "window.close", { "<Control>w" } },
  };

  G_APPLICATION_CLASS (fr_application_parent_class)->startup (application);
  g_action_map_add_action_entries (G_ACTION_MAP (self), actions, G_N_ELEMENTS (actions), self);
  for (guint i = 0; i < G_N_ELEMENTS (accels); i++)
    gtk_application_set_accels_for_action (app, accels[i].action, accels[i].keys);

  self->settings = fr_settings_new ();
  if (self->settings != NULL)
    {
      g_autofree char *name = g_settings_get_string (self->settings, FR_SETTINGS_COLOR_SCHEME);

      g_action_group_change_action_state (G_ACTION_GROUP (self), "color-scheme", g_variant_new_string (name));
    }
  gtk_icon_theme_add_resource_path (gtk_icon_theme_get_for_display (gdk_display_get_default ()),
                                    "/org/frostrun/Frostrun/icons");
}

static void
fr_application_activate (GApplication *application)
{
  FrApplication *self = FR_APPLICATION (application);
  g_autofree char *path = own_book_path ();
  g_autoptr (GError) error = NULL;

  if (!fr_application_open_book (self, path, &error))
    refuse_to_open (self, error);
}

static void
fr_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  FrApplication *self = FR_APPLICATION (application);

  for (int i = 0; i < n_files; i++)
    {
      g_autofree char *path = g_file_get_path (files[i]);
      g_autoptr (GError) error = NULL;

      if (path == NULL)
        g_set_error_literal (&error, FR_STORE_ERROR, FR_STORE_ERROR_CANNOT_OPEN,
                             _ ("A book has to be a file on this computer."));
      else if (fr_application_open_book (self, path, &error))
        continue;
      refuse_to_open (self, error);
    }
}

static gboolean
take_pictures_cb (gpointer user_data)
{
  FrApplication *self = FR_APPLICATION (user_data);
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (self));
  g_autoptr (GError) error = NULL;

  if (!fr_pictures_take (FR_WINDOW (window), self->pictures, &error))
    {
      g_printerr ("%s\n", error->message);
      self->failed = TRUE;
    }
  g_application_quit (G_APPLICATION (self));
  return G_SOURCE_REMOVE;
}

static gint
fr_application_handle_local_options (GApplication *application, GVariantDict *options)
{
  const char *id = NULL;
  const char *now = NULL;
  FrApplication *self = FR_APPLICATION (application);

  if (g_variant_dict_contains (options, "version"))
    {
      g_print ("frostrun %s\n", FR_VERSION);
      return 0;
    }
  if (g_variant_dict_lookup (options, "application-id", "&s", &id))
    {
      if (!g_application_id_is_valid (id))
        {
          g_printerr (_ ("“%s” is no application id. For example: org.frostrun.Frostrun.Demo\n"), id);
          return 1;
        }
      g_application_set_application_id (application, id);
    }
  if (g_variant_dict_lookup (options, "now", "&s", &now) && !fr_clock_hold (now))
    {
      g_printerr (_ ("“%s” is no date and clock time. For example: 2027-03-11T18:30\n"), now);
      return 1;
    }
  g_variant_dict_lookup (options, "pictures", "^ay", &self->pictures);
  return -1;
}

static void
fr_application_finalize (GObject *object)
{
  g_free (FR_APPLICATION (object)->pictures);
  g_clear_object (&FR_APPLICATION (object)->settings);
  G_OBJECT_CLASS (fr_application_parent_class)->finalize (object);
}

static void
fr_application_class_init (FrApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fr_application_finalize;
  application_class->startup = fr_application_startup;
  application_class->activate = fr_application_activate;
  application_class->open = fr_application_open;
  application_class->handle_local_options = fr_application_handle_local_options;
}

static void
fr_application_init (FrApplication *self)
{
  static const GOptionEntry options[] = {
    { "version", 0, 0, G_OPTION_ARG_NONE, NULL, N_ ("Print the version and leave"), NULL },
    { "application-id", 0, 0, G_OPTION_ARG_STRING, NULL, N_ ("Run under another application id"), N_ ("ID") },
    { "now", 0, 0, G_OPTION_ARG_STRING, NULL, N_ ("Take this local time for now"), N_ ("TIME") },
    { "pictures", 0, 0, G_OPTION_ARG_FILENAME, NULL, N_ ("Draw every page into FOLDER and leave"),
      N_ ("FOLDER") },
    { NULL },
  };

  g_application_add_main_option_entries (G_APPLICATION (self), options);
  g_application_set_option_context_parameter_string (G_APPLICATION (self), _ ("[BOOK]"));
  g_application_set_option_context_summary (
      G_APPLICATION (self), _ ("Plans the nightly boil. Without BOOK your own book is opened."));
}

FrApplication *
fr_application_new (GApplicationFlags flags)
{
  return g_object_new (FR_TYPE_APPLICATION, "application-id", "org.frostrun.Frostrun", "resource-base-path",
                       "/org/frostrun/Frostrun", "flags", flags | G_APPLICATION_HANDLES_OPEN, NULL);
}

gboolean
fr_application_get_failed (FrApplication *self)
{
  return self->failed;
}

gboolean
fr_application_open_book (FrApplication *self, const char *path, GError **error)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (FrBook) book = NULL;
  g_autoptr (FrZoneTable) zone = NULL;

  for (GList *at = gtk_application_get_windows (GTK_APPLICATION (self)); at != NULL; at = at->next)
    if (FR_IS_WINDOW (at->data))
      {
        g_autoptr (GFile) other = g_file_new_for_path (fr_book_get_path (fr_window_get_book (at->data)));

        if (g_file_equal (file, other))
          {
            gtk_window_present (GTK_WINDOW (at->data));
            return TRUE;
          }
      }

  book = fr_book_open (path, error);
  if (book == NULL)
    return FALSE;
  zone = fr_book_zone (book, fr_clock_local (NULL).date.year);
  if (!fr_book_set_season (book, fr_season_of (fr_clock_local (zone).date), zone, error)) /* a held clock's */
    return FALSE;
  fr_book_set_decimal_mark (book, decimal_mark ());
  gtk_window_present (GTK_WINDOW (fr_window_new (GTK_APPLICATION (self), book, self->settings)));
  if (self->pictures != NULL)
    g_timeout_add (500, take_pictures_cb, self);
  return TRUE;
}
