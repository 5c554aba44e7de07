/* Records of one kind as a GListModel, sorted by id. A sorted pointer array with binary search is enough:
 * additions come at the end, and some ten thousands of taps are the most. */
#include "models/record-list.h"

struct _FrRecordList
{
  GObject parent_instance;
  FrKindId kind;
  GPtrArray *items;   /* FrRecordObject, by rising id */
  GPtrArray *records; /* the same as records; made when asked for, NULL since the last change */
};

static void
fr_record_list_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (FrRecordList, fr_record_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, fr_record_list_model_init))

static gint64
id_at (FrRecordList *self, guint position)
{
  return fr_record_object_get_record (g_ptr_array_index (self->items, position))->id;
}

/* The first position whose id is not under @id. */
static guint
place_of (FrRecordList *self, gint64 id)
{
  guint low = 0;
  guint high = self->items->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (id_at (self, middle) < id)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

static GType
fr_record_list_get_item_type (GListModel *model)
{
  return FR_TYPE_RECORD_OBJECT;
}

static guint
fr_record_list_get_n_items (GListModel *model)
{
  return FR_RECORD_LIST (model)->items->len;
}

static gpointer
fr_record_list_get_item (GListModel *model, guint position)
{
  FrRecordList *self = FR_RECORD_LIST (model);

  return position < self->items->len ? g_object_ref (g_ptr_array_index (self->items, position)) : NULL;
}

static void
fr_record_list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = fr_record_list_get_item_type;
  iface->get_n_items = fr_record_list_get_n_items;
  iface->get_item = fr_record_list_get_item;
}

static void
fr_record_list_finalize (GObject *object)
{
  g_ptr_array_unref (FR_RECORD_LIST (object)->items);
  g_clear_pointer (&FR_RECORD_LIST (object)->records, g_ptr_array_unref);
  G_OBJECT_CLASS (fr_record_list_parent_class)->finalize (object);
}

static void
fr_record_list_class_init (FrRecordListClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fr_record_list_finalize;
}

static void
fr_record_list_init (FrRecordList *self)
{
  self->items = g_ptr_array_new_with_free_func (g_object_unref);
}

FrRecordList *
fr_record_list_new (FrKindId kind)
{
  FrRecordList *self = g_object_new (FR_TYPE_RECORD_LIST, NULL);

  self->kind = kind;
  return self;
}

FrKindId
fr_record_list_get_kind (FrRecordList *self)
{
  return self->kind;
}

static void
tell (FrRecordList *self, guint position, guint removed, guint added)
{
  g_clear_pointer (&self->records, g_ptr_array_unref);
  g_list_model_items_changed (G_LIST_MODEL (self), position, removed, added);
}

/* The id at a place of the list, or of what is loaded; past the end it is above all. */
static gint64
id_or_end (FrRecordList *self, guint position)
{
  return position < self->items->len ? id_at (self, position) : G_MAXINT64;
}

static gint64
loaded_id_or_end (GPtrArray *records, guint position)
{
  return position < records->len ? ((const FrRecord *)g_ptr_array_index (records, position))->id : G_MAXINT64;
}

static gboolean
same_at (FrRecordList *self, guint position, GPtrArray *records, guint loaded)
{
  return position < self->items->len && loaded < records->len
         && fr_record_equal (fr_record_list_get (self, position), g_ptr_array_index (records, loaded));
}

/* Goes through both in order of their ids. Rows that come mostly come at the end, where inserting is cheap. */
void
fr_record_list_load (FrRecordList *self, GPtrArray *records)
{
  guint at = 0, next = 0;

  while (at < self->items->len || next < records->len)
    {
      guint start = at, removed = 0, first = next;

      while ((at + removed < self->items->len || next < records->len)
             && !same_at (self, at + removed, records, next))
        {
          gint64 here = id_or_end (self, at + removed), loaded = loaded_id_or_end (records, next);

          removed += here <= loaded;
          next += loaded <= here;
        }
      if (removed > 0)
        g_ptr_array_remove_range (self->items, start, removed);
      for (guint i = first; i < next; i++)
        g_ptr_array_insert (self->items, (gint)at++, fr_record_object_new (g_ptr_array_index (records, i)));
      if (removed > 0 || next > first)
        tell (self, start, removed, next - first);
      at++; /* past the row that is the same */
      next++;
    }
}

void
fr_record_list_put (FrRecordList *self, const FrRecord *record)
{
  guint position = place_of (self, record->id);
  gboolean replaces = position < self->items->len && id_at (self, position) == record->id;
  g_autoptr (FrRecord) copy = NULL;

  if (replaces && fr_record_equal (fr_record_list_get (self, position), record))
    return;
  copy = fr_record_copy (record);
  if (replaces)
    g_ptr_array_remove_index (self->items, position);
  g_ptr_array_insert (self->items, (gint)position, fr_record_object_new (copy));
  tell (self, position, replaces ? 1 : 0, 1);
}

void
fr_record_list_remove (FrRecordList *self, gint64 id)
{
  guint position = place_of (self, id);

  if (position >= self->items->len || id_at (self, position) != id)
    return;
  g_ptr_array_remove_index (self->items, position);
  tell (self, position, 1, 0);
}

const FrRecord *
fr_record_list_find (FrRecordList *self, gint64 id)
{
  guint position = place_of (self, id);

  if (position >= self->items->len || id_at (self, position) != id)
    return NULL;
  return fr_record_list_get (self, position);
}

guint
fr_record_list_get_size (FrRecordList *self)
{
  return self->items->len;
}

const FrRecord *
fr_record_list_get (FrRecordList *self, guint position)
{
  g_return_val_if_fail (position < self->items->len, NULL);
  return fr_record_object_get_record (g_ptr_array_index (self->items, position));
}

GPtrArray *
fr_record_list_get_records (FrRecordList *self)
{
  g_return_val_if_fail (FR_IS_RECORD_LIST (self), NULL);

  if (self->records == NULL)
    {
      self->records = g_ptr_array_new_full (self->items->len, (GDestroyNotify)fr_record_free);
      for (guint i = 0; i < self->items->len; i++)
        g_ptr_array_add (self->records, fr_record_hold (fr_record_list_get (self, i)));
    }
  return self->records;
}
