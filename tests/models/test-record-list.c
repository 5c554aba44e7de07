/* The list of one kind tells exactly which rows changed: a mirror that only follows "items-changed" stays
 * equal. */
#include "models/record-list.h"
#include "sample-records.h"

typedef struct
{
  GPtrArray *items;
  guint n_signals;
} Mirror;

static void
follow (GListModel *model, guint position, guint removed, guint added, gpointer user_data)
{
  Mirror *mirror = user_data;

  mirror->n_signals++;
  g_assert_cmpuint (position + removed, <=, mirror->items->len);
  for (guint i = 0; i < removed; i++)
    g_ptr_array_remove_index (mirror->items, position);
  for (guint i = 0; i < added; i++)
    g_ptr_array_insert (mirror->items, (gint)(position + i), g_list_model_get_item (model, position + i));
}

static void
assert_mirrored (GListModel *model, const Mirror *mirror)
{
  gint64 before = 0;

  g_assert_cmpuint (g_list_model_get_n_items (model), ==, mirror->items->len);
  for (guint i = 0; i < mirror->items->len; i++)
    {
      g_autoptr (FrRecordObject) item = g_list_model_get_item (model, i);

      g_assert_true (item == g_ptr_array_index (mirror->items, i));
      g_assert_cmpint (fr_record_object_get_record (item)->id, >, before);
      before = fr_record_object_get_record (item)->id;
    }
}

static void
test_follows (void)
{
  g_autoptr (FrRecordList) list = fr_record_list_new (FR_KIND_VESSEL);
  Mirror mirror = { g_ptr_array_new_with_free_func (g_object_unref), 0 };
  GRand *dice = g_rand_new_with_seed (7);

  g_signal_connect (list, "items-changed", G_CALLBACK (follow), &mirror);
  for (guint i = 0; i < 500; i++)
    {
      gint64 id = g_rand_int_range (dice, 1, 20);

      if (g_rand_boolean (dice))
        {
          g_autoptr (FrRecord) record = sample_full (FR_KIND_VESSEL, id);

          fr_record_set_int (record, fr_kind_field (record->kind, "solder"), g_rand_boolean (dice));
          fr_record_list_put (list, record);
          g_assert_true (fr_record_equal (fr_record_list_find (list, id), record));
        }
      else
        {
          fr_record_list_remove (list, id);
          g_assert_null (fr_record_list_find (list, id));
        }
      assert_mirrored (G_LIST_MODEL (list), &mirror);
    }
  g_rand_free (dice);
  g_ptr_array_unref (mirror.items);
}

static void
test_same_again_is_silent (void)
{
  g_autoptr (FrRecordList) list = fr_record_list_new (FR_KIND_FUEL);
  Mirror mirror = { g_ptr_array_new_with_free_func (g_object_unref), 0 };
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);

  g_ptr_array_add (records, sample_full (FR_KIND_FUEL, 1));
  g_ptr_array_add (records, sample_sparse (FR_KIND_FUEL, 2));
  g_signal_connect (list, "items-changed", G_CALLBACK (follow), &mirror);
  fr_record_list_load (list, records);
  g_assert_cmpuint (mirror.n_signals, ==, 2);
  fr_record_list_load (list, records);
  g_assert_cmpuint (mirror.n_signals, ==, 2);
  g_ptr_array_remove_index (records, 0);
  fr_record_list_load (list, records);
  g_assert_cmpuint (mirror.n_signals, ==, 3);
  assert_mirrored (G_LIST_MODEL (list), &mirror);
  g_ptr_array_unref (mirror.items);
}

static void
test_object (void)
{
  g_autoptr (FrRecord) record = sample_full (FR_KIND_COOKER, 4);
  g_autoptr (FrRecordObject) object = fr_record_object_new (record);
  g_autofree char *label = NULL;
  gint64 id = 0;
  gboolean archived = TRUE;

  g_object_get (object, "id", &id, "label", &label, "archived", &archived, NULL);
  g_assert_cmpint (id, ==, 4);
  g_assert_cmpstr (label, ==, fr_record_label (record));
  g_assert_cmpint (archived, ==, record->archived);
  g_assert_true (fr_record_object_get_record (object) != record);
  g_assert_true (fr_record_equal (fr_record_object_get_record (object), record));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/record-list/follows", test_follows);
  g_test_add_func ("/record-list/same-again-is-silent", test_same_again_is_silent);
  g_test_add_func ("/record-list/object", test_object);
  return g_test_run ();
}
