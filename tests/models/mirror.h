/* A copy of a list that knows only what "items-changed" tells: it stays equal as long as the list tells exactly what
 * changed. */
#pragma once

#include "models/record-list.h"

typedef struct
{
  GListModel *model;
  gulong handler;
  GPtrArray *items;
  guint n_signals;
  guint n_removed; /* rows told of, in all signals */
  guint n_added;
} Mirror;

static inline void
mirror_follow (GListModel *model, guint position, guint removed, guint added, gpointer user_data)
{
  Mirror *mirror = user_data;

  mirror->n_signals++;
  mirror->n_removed += removed;
  mirror->n_added += added;
  g_assert_cmpuint (position + removed, <=, mirror->items->len);
  for (guint i = 0; i < removed; i++)
    g_ptr_array_remove_index (mirror->items, position);
  for (guint i = 0; i < added; i++)
    g_ptr_array_insert (mirror->items, (gint)(position + i), g_list_model_get_item (model, position + i));
}

static inline void
mirror_begin (Mirror *mirror, GListModel *model)
{
  mirror->model = g_object_ref (model);
  mirror->items = g_ptr_array_new_with_free_func (g_object_unref);
  for (guint i = 0; i < g_list_model_get_n_items (model); i++)
    g_ptr_array_add (mirror->items, g_list_model_get_item (model, i));
  mirror->handler = g_signal_connect (model, "items-changed", G_CALLBACK (mirror_follow), mirror);
}

static inline void
mirror_assert (const Mirror *mirror)
{
  gint64 before = 0;

  g_assert_cmpuint (g_list_model_get_n_items (mirror->model), ==, mirror->items->len);
  for (guint i = 0; i < mirror->items->len; i++)
    {
      g_autoptr (FrRecordObject) item = g_list_model_get_item (mirror->model, i);

      g_assert_true (item == g_ptr_array_index (mirror->items, i));
      g_assert_cmpint (fr_record_object_get_record (item)->id, >, before);
      before = fr_record_object_get_record (item)->id;
    }
}

static inline void
mirror_end (Mirror *mirror)
{
  g_signal_handler_disconnect (mirror->model, mirror->handler);
  g_ptr_array_unref (mirror->items);
  g_object_unref (mirror->model);
}
