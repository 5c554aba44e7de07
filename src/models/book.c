/* The open book. Kinds are held whole but for the growing ones: kit and nights are hundreds of records at most, a
 * large sugarbush with its taps and yields some ten thousands. What is kept each time sap is gathered becomes
 * more without end; of that one season is held (book-season.c). */
#include "models/book-private.h"

#include "domain/records/household-units.h"

#include <string.h>

enum
{
  SIGNAL_CHANGED,
  SIGNAL_UNDO_CHANGED,
  SIGNAL_MOVED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (FrBook, fr_book, G_TYPE_OBJECT)

static void
update_units (FrBook *self)
{
  fr_measures_free (self->measures, self->n_measures);
  self->units = fr_household_units (fr_book_get_household (self), self->decimal_mark, &self->measures,
                                    &self->n_measures);
}

gboolean
fr_book_load (FrBook *self, const FrRecordSpan *season, gboolean whole_too, GError **error)
{
  GPtrArray *loaded[FR_N_KINDS] = { NULL };
  gboolean ok = TRUE;

  for (guint k = 0; k < FR_N_KINDS && ok; k++)
    {
      if (fr_book_is_growing (k))
        loaded[k] = fr_store_load_span (self->store, k, season, error);
      else if (whole_too)
        loaded[k] = fr_store_load (self->store, k, error);
      else
        continue;
      ok = loaded[k] != NULL;
    }
  if (ok)
    fr_book_forget_far (self, NULL);
  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      if (ok && loaded[k] != NULL)
        fr_record_list_load (self->lists[k], loaded[k]);
      g_clear_pointer (&loaded[k], g_ptr_array_unref);
    }
  if (ok)
    update_units (self);
  return ok;
}

static void
fr_book_finalize (GObject *object)
{
  FrBook *self = FR_BOOK (object);

  for (guint k = 0; k < FR_N_KINDS; k++)
    g_clear_object (&self->lists[k]);
  fr_book_forget_far (self, NULL);
  g_clear_pointer (&self->far, g_hash_table_unref);
  g_clear_pointer (&self->undo, fr_undo_free);
  g_clear_pointer (&self->store, fr_store_close);
  fr_measures_free (self->measures, self->n_measures);
  G_OBJECT_CLASS (fr_book_parent_class)->finalize (object);
}

static void
fr_book_class_init (FrBookClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_book_finalize;

  signals[SIGNAL_CHANGED]
      = g_signal_new ("changed", FR_TYPE_BOOK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_UNDO_CHANGED]
      = g_signal_new ("undo-changed", FR_TYPE_BOOK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_MOVED] = g_signal_new ("moved", FR_TYPE_BOOK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                        G_TYPE_NONE, 2, G_TYPE_STRING, G_TYPE_UINT);
}

static void
fr_book_init (FrBook *self)
{
  self->decimal_mark = '.';
  self->units.decimal_mark = '.';
  self->undo = fr_undo_new ();
  self->far = fr_book_far_new ();
  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      self->lists[k] = fr_record_list_new ((FrKindId)k);
      self->changed_utc[k] = G_MININT64;
    }
}

FrBook *
fr_book_open (const char *path, GError **error)
{
  g_autoptr (FrBook) self = g_object_new (FR_TYPE_BOOK, NULL);

  self->store = fr_store_open (path, TRUE, error);
  if (self->store == NULL)
    return NULL;
  self->data_version = fr_store_data_version (self->store);
  if (!fr_book_load (self, &self->span, TRUE, error) || !fr_book_begin_season (self, error))
    return NULL;
  return g_steal_pointer (&self);
}

const char *
fr_book_get_path (FrBook *self)
{
  return fr_store_path (self->store);
}

FrRecordList *
fr_book_get_list (FrBook *self, FrKindId kind)
{
  g_return_val_if_fail ((guint)kind < FR_N_KINDS, NULL);
  return self->lists[kind];
}

const FrRecord *
fr_book_find (FrBook *self, FrKindId kind, gint64 id)
{
  const FrRecord *record = fr_record_list_find (fr_book_get_list (self, kind), id);

  return record != NULL || !fr_book_is_growing (kind) ? record : fr_book_find_far (self, kind, id);
}

const FrHousehold *
fr_book_get_household (FrBook *self)
{
  FrRecordList *list = self->lists[FR_KIND_HOUSEHOLD];

  return fr_record_list_get_size (list) > 0 ? (const FrHousehold *)fr_record_list_get (list, 0) : NULL;
}

const FrUnits *
fr_book_get_units (FrBook *self)
{
  return &self->units;
}

void
fr_book_set_decimal_mark (FrBook *self, char mark)
{
  g_return_if_fail (mark == '.' || mark == ',');
  self->decimal_mark = mark;
  self->units.decimal_mark = mark;
}

void
fr_book_new_uid (char uid_out[33])
{
  for (guint i = 0; i < 4; i++)
    g_snprintf (uid_out + 8 * i, 9, "%08x", g_random_int ());
}

FrRecord *
fr_book_new_record (FrBook *self, FrKindId kind, guint nth, GError **error)
{
  gint64 id = fr_store_next_id (self->store, kind, error);
  FrRecord *record;

  if (id <= 0)
    return NULL;
  record = fr_record_new (kind);
  record->id = id + nth;
  fr_book_new_uid (record->uid);
  return record;
}

gboolean
fr_book_refers (FrBook *self, FrKindId by, FrKindId to, gint64 id)
{
  g_autoptr (GError) error = NULL;
  gboolean refers;

  if (fr_store_refers (self->store, by, to, id, &refers, &error))
    return refers;
  /* What cannot be looked up must not be deleted; the next change says what is wrong with the file. */
  g_warning ("%s", error->message);
  return TRUE;
}

gboolean
fr_book_is_used (FrBook *self, const FrRecord *record)
{
  for (guint k = 0; k < FR_N_KINDS; k++)
    if (fr_book_refers (self, k, record->kind->id, record->id))
      return TRUE;
  return FALSE;
}

/* Whether a record is no longer what a step of undo needs. */
typedef struct
{
  FrBook *self;
  GError *error; /* the first */
} Look;

static gboolean
record_moved (const FrRecord *record, const FrRecord *expected, gpointer user_data)
{
  Look *look = user_data;
  const FrRecord *held = fr_record_list_find (look->self->lists[record->kind->id], record->id);
  g_autoptr (FrRecord) stored = NULL;

  if (held != NULL || !fr_book_is_growing (record->kind->id))
    return !fr_record_equal (held, expected);
  if (!fr_store_find (look->self->store, record->kind->id, record->id, &stored,
                      look->error == NULL ? &look->error : NULL))
    return TRUE;
  return !fr_record_equal (stored, expected);
}

gboolean
fr_book_refresh (FrBook *self, GError **error)
{
  gint64 version = fr_store_data_version (self->store);
  Look look = { .self = self };
  guint n;

  if (version == self->data_version)
    return TRUE;
  if (!fr_book_load (self, &self->span, TRUE, error))
    return FALSE;
  n = fr_undo_drop (self->undo, record_moved, &look);
  self->data_version = version;
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
  g_signal_emit (self, signals[SIGNAL_UNDO_CHANGED], 0);
  g_signal_emit (self, signals[SIGNAL_MOVED], 0, n > 0 ? "book-moved-undo-lost" : "book-moved", n);
  if (look.error == NULL)
    return TRUE;
  g_propagate_error (error, look.error);
  return FALSE;
}

void
fr_book_tell_changed (FrBook *self)
{
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

/* Stores a change and brings the lists to it. */
static gboolean
store_and_tell (FrBook *self, const FrChange *change, GError **error)
{
  if (!fr_store_apply (self->store, change, FR_ORIGIN_WINDOW, g_get_real_time () / G_USEC_PER_SEC, error))
    return FALSE;
  fr_book_forget_far (self, change);
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);
      const FrRecord *known = fr_step_record (step);
      FrRecordList *list = self->lists[known->kind->id];

      if (step->after != NULL && fr_record_in_span (step->after, &self->span))
        fr_record_list_put (list, step->after);
      else
        fr_record_list_remove (list, known->id);
    }
  update_units (self);
  return TRUE;
}

gboolean
fr_book_last_changes (FrBook *self, gint64 utc_out[FR_N_KINDS], GError **error)
{
  if (!fr_store_last_changes (self->store, &self->diary_row, self->changed_utc, error))
    return FALSE;
  memcpy (utc_out, self->changed_utc, sizeof self->changed_utc);
  return TRUE;
}

gboolean
fr_book_apply (FrBook *self, const FrChange *change, GError **error)
{
  if (fr_change_is_empty (change))
    return TRUE;
  if (!fr_book_refresh (self, error) || !store_and_tell (self, change, error))
    return FALSE;
  fr_undo_push (self->undo, change);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
  g_signal_emit (self, signals[SIGNAL_UNDO_CHANGED], 0);
  return TRUE;
}

gboolean
fr_book_apply_beside (FrBook *self, const FrChange *change, GError **error)
{
  Look look = { .self = self };

  if (fr_change_is_empty (change))
    return TRUE;
  if (!fr_book_refresh (self, error) || !store_and_tell (self, change, error))
    return FALSE;
  fr_undo_drop (self->undo, record_moved, &look);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
  g_signal_emit (self, signals[SIGNAL_UNDO_CHANGED], 0);
  if (look.error == NULL)
    return TRUE;
  g_propagate_error (error, look.error);
  return FALSE;
}

gboolean
fr_book_undo (FrBook *self, GError **error)
{
  const FrChange *change;
  g_autoptr (FrChange) inverse = NULL;

  if (!fr_book_refresh (self, error))
    return FALSE;
  change = fr_undo_peek_undo (self->undo); /* after the refresh: it may have dropped steps */
  if (change == NULL)
    return TRUE;
  inverse = fr_change_invert (change);
  if (!store_and_tell (self, inverse, error))
    return FALSE;
  fr_undo_undone (self->undo);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
  g_signal_emit (self, signals[SIGNAL_UNDO_CHANGED], 0);
  return TRUE;
}

gboolean
fr_book_redo (FrBook *self, GError **error)
{
  const FrChange *change;

  if (!fr_book_refresh (self, error))
    return FALSE;
  change = fr_undo_peek_redo (self->undo);
  if (change == NULL)
    return TRUE;
  if (!store_and_tell (self, change, error))
    return FALSE;
  fr_undo_redone (self->undo);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
  g_signal_emit (self, signals[SIGNAL_UNDO_CHANGED], 0);
  return TRUE;
}

const FrChange *
fr_book_peek_undo (FrBook *self)
{
  return fr_undo_peek_undo (self->undo);
}

const FrChange *
fr_book_peek_redo (FrBook *self)
{
  return fr_undo_peek_redo (self->undo);
}
