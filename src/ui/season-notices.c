/* Which reminders were told is kept with the window's state, by book. The service is watched for, since GLib
 * would complain of each notice that nobody takes. */
#include "ui/season-notices.h"

#include "models/settings.h"
#include "words/reminder-words.h"

#define SERVICE "org.freedesktop.Notifications"
/* A book changes row by row while somebody types; who types needs no notice. */
#define WAIT_S 3

struct _FrSeasonNotices
{
  GObject parent_instance;
  GApplication *application; /* not a reference: it owns the window that owns this */
  FrSeason *season;
  GSettings *settings;
  char *book; /* what tells this book's notices from another's */
  guint watch_id;
  guint wait_id;
  gboolean served;
};

G_DEFINE_FINAL_TYPE (FrSeasonNotices, fr_season_notices, G_TYPE_OBJECT)

static char *
id_of (FrSeasonNotices *self, const FrReminder *reminder)
{
  return g_strdup_printf ("%s-%s", self->book, reminder->key);
}

static void
send (FrSeasonNotices *self, const FrReminder *reminder, const char *id)
{
  g_autoptr (FrReminderWords) words
      = fr_reminder_words_new (reminder, fr_season_get_now (self->season), fr_season_get_say (self->season));
  g_autoptr (GNotification) notice = g_notification_new (words->title);

  g_notification_set_body (notice, words->sentence);
  g_notification_set_default_action (notice, "app.show-season");
  if (reminder->urgency == FR_URGENCY_NOW)
    g_notification_set_priority (notice, G_NOTIFICATION_PRIORITY_HIGH);
  g_application_send_notification (self->application, id, notice);
}

/* What stands and is soon to be done is told once; what stands no more is taken back. */
static void
tell (FrSeasonNotices *self)
{
  GPtrArray *reminders = fr_season_get_present (self->season)->reminders;
  g_auto (GStrv) told = g_settings_get_strv (self->settings, FR_SETTINGS_REMINDERS_TOLD);
  g_autoptr (GPtrArray) now = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < reminders->len; i++)
    {
      const FrReminder *reminder = reminders->pdata[i];
      g_autofree char *id = NULL;

      if (reminder->urgency < FR_URGENCY_SOON || reminder->dismissed)
        continue;
      id = id_of (self, reminder);
      if (!g_strv_contains ((const char *const *)told, id))
        send (self, reminder, id);
      g_ptr_array_add (now, g_steal_pointer (&id));
    }
  for (guint i = 0; told[i] != NULL; i++)
    {
      if (!g_str_has_prefix (told[i], self->book)) /* another book's */
        g_ptr_array_add (now, g_strdup (told[i]));
      else if (!g_ptr_array_find_with_equal_func (now, told[i], g_str_equal, NULL))
        g_application_withdraw_notification (self->application, told[i]);
    }
  g_ptr_array_add (now, NULL);
  if (!g_strv_equal ((const char *const *)told, (const char *const *)now->pdata))
    g_settings_set_strv (self->settings, FR_SETTINGS_REMINDERS_TOLD, (const char *const *)now->pdata);
}

static gboolean
wait_cb (gpointer user_data)
{
  FrSeasonNotices *self = FR_SEASON_NOTICES (user_data);

  self->wait_id = 0;
  if (self->served && g_settings_get_boolean (self->settings, FR_SETTINGS_NOTIFY))
    tell (self);
  return G_SOURCE_REMOVE;
}

static void
look (FrSeasonNotices *self)
{
  g_clear_handle_id (&self->wait_id, g_source_remove);
  self->wait_id = g_timeout_add_seconds (WAIT_S, wait_cb, self);
}

static void
appeared_cb (GDBusConnection *connection, const char *name, const char *owner, gpointer user_data)
{
  FR_SEASON_NOTICES (user_data)->served = TRUE;
  look (FR_SEASON_NOTICES (user_data));
}

static void
vanished_cb (GDBusConnection *connection, const char *name, gpointer user_data)
{
  FR_SEASON_NOTICES (user_data)->served = FALSE;
}

static void
fr_season_notices_dispose (GObject *object)
{
  FrSeasonNotices *self = FR_SEASON_NOTICES (object);

  g_clear_handle_id (&self->wait_id, g_source_remove);
  g_clear_handle_id (&self->watch_id, g_bus_unwatch_name);
  g_clear_object (&self->season);
  g_clear_object (&self->settings);
  g_clear_pointer (&self->book, g_free);
  G_OBJECT_CLASS (fr_season_notices_parent_class)->dispose (object);
}

static void
fr_season_notices_class_init (FrSeasonNoticesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_season_notices_dispose;
}

static void
fr_season_notices_init (FrSeasonNotices *self)
{
}

FrSeasonNotices *
fr_season_notices_new (GApplication *application, FrSeason *season, GSettings *settings)
{
  FrSeasonNotices *self = g_object_new (FR_TYPE_SEASON_NOTICES, NULL);
  const char *path = fr_book_get_path (fr_season_get_book (season));

  self->application = application;
  self->season = g_object_ref (season);
  if (settings == NULL)
    return self;
  self->settings = g_object_ref (settings);
  self->book = g_compute_checksum_for_string (G_CHECKSUM_SHA256, path, -1);
  self->book[8] = '\0';
  g_signal_connect_object (season, "changed", G_CALLBACK (look), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (settings, "changed::" FR_SETTINGS_NOTIFY, G_CALLBACK (look), self,
                           G_CONNECT_SWAPPED);
  self->watch_id = g_bus_watch_name (G_BUS_TYPE_SESSION, SERVICE, G_BUS_NAME_WATCHER_FLAGS_AUTO_START,
                                     appeared_cb, vanished_cb, self, NULL);
  return self;
}
