/* The open book. Every kind is held whole: kit and nights are hundreds of records at most, a large sugarbush
 * with its taps and yields some ten thousands. */
#include "models/book.h"

#include "domain/records/household-units.h"

#include <math.h>

#include "models/undo.h"

struct _FrBook
{
  GObject parent_instance;
  FrStore *store;
  FrRecordList *lists[FR_N_KINDS];
  FrUndo *undo;
  gint64 data_version;
  FrUnits units;
  FrMeasure *measures;
  guint n_measures;
  char decimal_mark;
};

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

/* Reads every kind and lets the lists tell what differs. All is read before any list moves, so that a failure
 * leaves the book as it was. */
static gboolean
load_lists (FrBook *self, GError **error)
{
  GPtrArray *loaded[FR_N_KINDS] = { NULL };
  gboolean ok = TRUE;

  for (guint k = 0; k < FR_N_KINDS && ok; k++)
    {
      loaded[k] = fr_store_load (self->store, (FrKindId)k, error);
      ok = loaded[k] != NULL;
    }
  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      if (ok)
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
  for (guint k = 0; k < FR_N_KINDS; k++)
    self->lists[k] = fr_record_list_new ((FrKindId)k);
}

FrBook *
fr_book_open (const char *path, GError **error)
{
  g_autoptr (FrBook) self = g_object_new (FR_TYPE_BOOK, NULL);

  self->store = fr_store_open (path, TRUE, error);
  if (self->store == NULL)
    return NULL;
  self->data_version = fr_store_data_version (self->store);
  if (!load_lists (self, error))
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
  return fr_record_list_find (fr_book_get_list (self, kind), id);
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

FrRecord *
fr_book_new_record (FrBook *self, FrKindId kind, guint nth, GError **error)
{
  gint64 id = fr_store_next_id (self->store, kind, error);
  FrRecord *record;

  if (id <= 0)
    return NULL;
  record = fr_record_new (kind);
  record->id = id + nth;
  for (guint i = 0; i < 4; i++)
    g_snprintf (record->uid + 8 * i, 9, "%08x", g_random_int ());
  return record;
}

gboolean
fr_book_is_used (FrBook *self, const FrRecord *record)
{
  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      const FrKind *kind = fr_kind ((FrKindId)k);
      FrRecordList *list = self->lists[k];

      for (guint f = 0; f < kind->n_fields; f++)
        {
          if (kind->fields[f].type != FR_FIELD_REF || kind->fields[f].ref_kind != record->kind->id)
            continue;
          for (guint i = 0; i < fr_record_list_get_size (list); i++)
            if (fr_record_int (fr_record_list_get (list, i), &kind->fields[f]) == record->id)
              return TRUE;
        }
    }
  return FALSE;
}

/* What the lists held before they were read anew, to tell which records moved. */
typedef struct
{
  FrBook *self;
  GPtrArray *before[FR_N_KINDS]; /* FrRecordObject */
} Snapshot;

static const FrRecord *
snapshot_find (const Snapshot *snapshot, const FrRecord *record)
{
  GPtrArray *items = snapshot->before[record->kind->id];

  guint low = 0, high = items->len;

  while (low < high) /* by rising id, as the lists are */
    {
      guint middle = low + (high - low) / 2;
      const FrRecord *old = fr_record_object_get_record (g_ptr_array_index (items, middle));

      if (old->id == record->id)
        return old;
      if (old->id < record->id)
        low = middle + 1;
      else
        high = middle;
    }
  return NULL;
}

static gboolean
record_moved (const FrRecord *record, gpointer user_data)
{
  const Snapshot *snapshot = user_data;
  const FrRecord *old = snapshot_find (snapshot, record);
  const FrRecord *now = fr_book_find (snapshot->self, record->kind->id, record->id);

  if (old == NULL || now == NULL)
    return old != now;
  return !fr_record_equal (old, now);
}

gboolean
fr_book_refresh (FrBook *self, GError **error)
{
  gint64 version = fr_store_data_version (self->store);
  Snapshot snapshot = { .self = self };
  gboolean ok;

  if (version == self->data_version)
    return TRUE;
  for (guint k = 0; k < FR_N_KINDS; k++)
    {
      snapshot.before[k] = g_ptr_array_new_with_free_func (g_object_unref);
      for (guint i = 0; i < fr_record_list_get_size (self->lists[k]); i++)
        g_ptr_array_add (snapshot.before[k], g_list_model_get_item (G_LIST_MODEL (self->lists[k]), i));
    }
  ok = load_lists (self, error);
  if (ok)
    {
      guint n = fr_undo_drop (self->undo, record_moved, &snapshot);

      self->data_version = version;
      g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
      g_signal_emit (self, signals[SIGNAL_UNDO_CHANGED], 0);
      g_signal_emit (self, signals[SIGNAL_MOVED], 0, n > 0 ? "book-moved-undo-lost" : "book-moved", n);
    }
  for (guint k = 0; k < FR_N_KINDS; k++)
    g_ptr_array_unref (snapshot.before[k]);
  return ok;
}

/* Stores a change and brings the lists to it. */
static gboolean
store_and_tell (FrBook *self, const FrChange *change, GError **error)
{
  if (!fr_store_apply (self->store, change, FR_ORIGIN_WINDOW, g_get_real_time () / G_USEC_PER_SEC, error))
    return FALSE;
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);

      if (step->after != NULL)
        fr_record_list_put (self->lists[step->after->kind->id], step->after);
      else
        fr_record_list_remove (self->lists[step->before->kind->id], step->before->id);
    }
  update_units (self);
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
