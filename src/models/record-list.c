/* All records of one kind as a GListModel, sorted by id. A sorted pointer array with binary search is enough:
 * additions come at the end, and some ten thousands of taps are the most. */
#include "models/record-list.h"

struct _FrRecordList
{
  GObject parent_instance;
  FrKindId kind;
  GPtrArray *items; /* FrRecordObject, by rising id */
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

void
fr_record_list_load (FrRecordList *self, GPtrArray *records)
{
  g_autoptr (GHashTable) keep = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; i < records->len; i++)
    g_hash_table_add (keep, &((FrRecord *)g_ptr_array_index (records, i))->id);
  for (guint i = self->items->len; i-- > 0;)
    {
      gint64 id = id_at (self, i);

      if (!g_hash_table_contains (keep, &id))
        fr_record_list_remove (self, id);
    }
  for (guint i = 0; i < records->len; i++)
    fr_record_list_put (self, g_ptr_array_index (records, i));
}

void
fr_record_list_put (FrRecordList *self, const FrRecord *record)
{
  guint position = place_of (self, record->id);
  gboolean replaces = position < self->items->len && id_at (self, position) == record->id;

  if (replaces)
    {
      FrRecordObject *old = g_ptr_array_index (self->items, position);

      if (fr_record_equal (fr_record_object_get_record (old), record))
        return;
      g_ptr_array_index (self->items, position) = fr_record_object_new (record);
      g_object_unref (old);
    }
  else
    g_ptr_array_insert (self->items, (gint)position, fr_record_object_new (record));
  g_list_model_items_changed (G_LIST_MODEL (self), position, replaces ? 1 : 0, 1);
}

void
fr_record_list_remove (FrRecordList *self, gint64 id)
{
  guint position = place_of (self, id);

  if (position >= self->items->len || id_at (self, position) != id)
    return;
  g_ptr_array_remove_index (self->items, position);
  g_list_model_items_changed (G_LIST_MODEL (self), position, 1, 0);
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
