/* The calendar file: worked out here, in some milliseconds (a tenth of a second or two for the largest season), and written by a thread,
 * since a folder that is synced or far away may take its time. One write is under way at most; a change meanwhile makes another after
 * it. */
#include "models/calendar-keeper.h"

#include <glib/gi18n-lib.h>

#include "domain/plan/bush.h"
#include "formats/calendar-file.h"
#include "formats/calendar-keep.h"
#include "formats/zone-source.h"
#include "words/calendar-words.h"

#define DELAY_MS 1000
#define UID_CHARS 8

struct _FrCalendarKeeper
{
  GObject parent_instance;
  FrBook *book;
  FrTonightClock clock;
  guint timer;
  gboolean writing;
  char *problem;
};

enum
{
  SIGNAL_PROBLEM_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (FrCalendarKeeper, fr_calendar_keeper, G_TYPE_OBJECT)

static void
set_problem (FrCalendarKeeper *self, const GError *error)
{
  /* Translators: what went wrong, as a part of a sentence */
  char *problem = error != NULL ? g_strdup_printf (_ ("The calendar file is not up to date: %s."), error->message) : NULL;

  if (g_strcmp0 (problem, self->problem) == 0)
    {
      g_free (problem);
      return;
    }
  g_free (self->problem);
  self->problem = problem;
  g_signal_emit (self, signals[SIGNAL_PROBLEM_CHANGED], 0);
}

/* --- the text --- */

static char *
text_of (const FrSeasonBook *book, FrBook *source, gint64 now_utc, GError **error)
{
  gint64 changed_utc[FR_N_KINDS];
  g_autoptr (FrSeasonView) view = NULL;
  g_autoptr (FrSeasonEvents) events = NULL;
  g_autoptr (FrCalendarWords) words = NULL;
  FrSay say = { *fr_book_get_units (source), book->household->currency, book->zone, fr_say_locale_is_twelve_hour () };

  if (!fr_book_last_changes (source, changed_utc, error))
    return NULL;
  view = fr_season_view_new (book, fr_season_of (fr_zone_local (book->zone, now_utc).date), now_utc);
  events = fr_season_events_new (book, view, changed_utc);
  words = fr_calendar_words_new (events, book, &say);
  return fr_calendar_file_write (words->events, words->n, book->zone, words->name);
}

/* The whole file as it should be; NULL without @error where no day can be told: the household's own editor says why. */
static char *
make_text (FrCalendarKeeper *self, GError **error)
{
  const FrHousehold *household = fr_book_get_household (self->book);
  const int year = household != NULL ? fr_date_from_days (self->clock (NULL) / 86400).year : 0;
  g_autoptr (FrZoneTable) zone
      = household != NULL ? fr_zone_table_load (household->zone, year - 2, year + 2, NULL) : NULL;
  FrSeasonBook book;
  gint64 now_utc;
  char *text;

  if (zone == NULL)
    return NULL;
  now_utc = self->clock (zone);
  if (!fr_book_other_season_book (self->book, &book, fr_season_of (fr_zone_local (zone, now_utc).date), zone, error))
    return NULL;
  text = text_of (&book, self->book, now_utc, error);
  fr_book_season_book_clear (&book);
  return text;
}

/* --- the file --- */

typedef struct
{
  char *path;
  char *text;
} Writing;

static void
writing_free (gpointer data)
{
  Writing *writing = data;

  g_free (writing->path);
  g_free (writing->text);
  g_free (writing);
}

static void
write_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Writing *writing = data;
  g_autoptr (GError) error = NULL;

  if (fr_calendar_file_keep (writing->path, writing->text, NULL, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

static void
written (GObject *object, GAsyncResult *result, gpointer data)
{
  g_autoptr (FrCalendarKeeper) self = data;
  g_autoptr (GError) error = NULL;

  g_task_propagate_boolean (G_TASK (result), &error);
  self->writing = FALSE;
  set_problem (self, error);
}

static gboolean
update (gpointer data)
{
  FrCalendarKeeper *self = data;
  g_autofree char *path = NULL;
  g_autoptr (GTask) task = NULL;
  g_autoptr (GError) error = NULL;
  Writing *writing;
  char *text;

  if (self->writing)
    return G_SOURCE_CONTINUE; /* asks again in a second */
  self->timer = 0;
  path = fr_calendar_keeper_get_path (self);
  text = path != NULL ? make_text (self, &error) : NULL;
  if (text == NULL)
    {
      set_problem (self, error);
      return G_SOURCE_REMOVE;
    }
  writing = g_new (Writing, 1);
  writing->path = g_steal_pointer (&path);
  writing->text = text;
  /* Not the task's own object: the thread would let go of it last. */
  task = g_task_new (NULL, NULL, written, g_object_ref (self));
  g_task_set_task_data (task, writing, writing_free);
  self->writing = TRUE;
  g_task_run_in_thread (task, write_in_thread);
  return G_SOURCE_REMOVE;
}

/* --- the keeper --- */

void
fr_calendar_keeper_refresh (FrCalendarKeeper *self)
{
  g_return_if_fail (FR_IS_CALENDAR_KEEPER (self));

  /* Not put off by further changes: whoever types all evening has it up to date all the same. */
  if (self->timer == 0)
    self->timer = g_timeout_add (DELAY_MS, update, self);
}

void
fr_calendar_keeper_finish (FrCalendarKeeper *self)
{
  g_return_if_fail (FR_IS_CALENDAR_KEEPER (self));

  while (self->writing)
    g_main_context_iteration (NULL, TRUE);
  if (self->timer == 0)
    return;
  g_clear_handle_id (&self->timer, g_source_remove);
  update (self);
  while (self->writing)
    g_main_context_iteration (NULL, TRUE);
}

char *
fr_calendar_keeper_get_path (FrCalendarKeeper *self)
{
  const FrHousehold *household;
  FrRecordList *list;
  const char *folder;
  g_autofree char *folder_path = NULL, *name = NULL;

  g_return_val_if_fail (FR_IS_CALENDAR_KEEPER (self), NULL);

  household = fr_book_get_household (self->book);
  list = fr_book_get_list (self->book, FR_KIND_STORING);
  folder = fr_record_list_get_size (list) > 0 ? ((const FrStoring *)fr_record_list_get (list, 0))->calendar_folder : NULL;
  if (household == NULL || folder == NULL)
    return NULL;
  folder_path = g_filename_from_utf8 (folder, -1, NULL, NULL, NULL);
  if (folder_path == NULL)
    folder_path = g_strdup (folder);
  name = g_strdup_printf ("frostrun-%.*s.ics", UID_CHARS, household->record.uid);
  return g_build_filename (folder_path, name, NULL);
}

const char *
fr_calendar_keeper_get_problem (FrCalendarKeeper *self)
{
  g_return_val_if_fail (FR_IS_CALENDAR_KEEPER (self), NULL);
  return self->problem;
}

static void
fr_calendar_keeper_dispose (GObject *object)
{
  FrCalendarKeeper *self = FR_CALENDAR_KEEPER (object);

  g_clear_handle_id (&self->timer, g_source_remove);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (fr_calendar_keeper_parent_class)->dispose (object);
}

static void
fr_calendar_keeper_finalize (GObject *object)
{
  g_free (FR_CALENDAR_KEEPER (object)->problem);
  G_OBJECT_CLASS (fr_calendar_keeper_parent_class)->finalize (object);
}

static void
fr_calendar_keeper_class_init (FrCalendarKeeperClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = fr_calendar_keeper_dispose;
  G_OBJECT_CLASS (klass)->finalize = fr_calendar_keeper_finalize;
  signals[SIGNAL_PROBLEM_CHANGED] = g_signal_new ("problem-changed", FR_TYPE_CALENDAR_KEEPER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                                  NULL, G_TYPE_NONE, 0);
}

static void
fr_calendar_keeper_init (FrCalendarKeeper *self)
{
}

FrCalendarKeeper *
fr_calendar_keeper_new (FrBook *book, FrTonightClock clock)
{
  FrCalendarKeeper *self;

  g_return_val_if_fail (FR_IS_BOOK (book) && clock != NULL, NULL);

  self = g_object_new (FR_TYPE_CALENDAR_KEEPER, NULL);
  self->book = g_object_ref (book);
  self->clock = clock;
  g_signal_connect_object (book, "changed", G_CALLBACK (fr_calendar_keeper_refresh), self, G_CONNECT_SWAPPED);
  fr_calendar_keeper_refresh (self);
  return self;
}
