/* The list of one kind tells exactly which rows changed: a mirror that only follows "items-changed" stays
 * equal. */
#include "domain/records/kinds.h"
#include "mirror.h"
#include "sample-records.h"

static void
test_follows (void)
{
  g_autoptr (FrRecordList) list = fr_record_list_new (FR_KIND_VESSEL);
  Mirror mirror = { 0 };
  GRand *dice = g_rand_new_with_seed (7);

  mirror_begin (&mirror, G_LIST_MODEL (list));
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
      mirror_assert (&mirror);
    }
  g_rand_free (dice);
  mirror_end (&mirror);
}

static void
test_same_again_is_silent (void)
{
  g_autoptr (FrRecordList) list = fr_record_list_new (FR_KIND_FUEL);
  Mirror mirror = { 0 };
  g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);

  g_ptr_array_add (records, sample_full (FR_KIND_FUEL, 1));
  g_ptr_array_add (records, sample_sparse (FR_KIND_FUEL, 2));
  mirror_begin (&mirror, G_LIST_MODEL (list));
  fr_record_list_load (list, records);
  g_assert_cmpuint (mirror.n_signals, ==, 1); /* both at once */
  fr_record_list_load (list, records);
  g_assert_cmpuint (mirror.n_signals, ==, 1);
  g_ptr_array_remove_index (records, 0);
  fr_record_list_load (list, records);
  g_assert_cmpuint (mirror.n_signals, ==, 2);
  mirror_assert (&mirror);
  mirror_end (&mirror);
}

/* Any list after any other: what differs is told and nothing else, and what was held before stays. */
static void
test_loads (void)
{
  g_autoptr (FrRecordList) list = fr_record_list_new (FR_KIND_FUEL);
  Mirror mirror = { 0 };
  GRand *dice = g_rand_new_with_seed (8);
  double had[40] = { 0 }; /* the price of each id; 0: not there */

  mirror_begin (&mirror, G_LIST_MODEL (list));
  for (guint round = 0; round < 300; round++)
    {
      g_autoptr (GPtrArray) records = g_ptr_array_new_with_free_func ((GDestroyNotify)fr_record_free);
      g_autoptr (GPtrArray) before = g_ptr_array_ref (fr_record_list_get_records (list));
      double keep_ratio = g_rand_double (dice), move_ratio = g_rand_double (dice);
      guint n_before = before->len, n_removed = 0, n_added = 0;

      mirror.n_removed = mirror.n_added = 0;
      g_assert_true (fr_record_list_get_records (list) == before);
      for (guint id = 1; id < G_N_ELEMENTS (had); id++)
        {
          double has = g_rand_double (dice) >= keep_ratio                   ? 0
                       : had[id] == 0 || g_rand_double (dice) < move_ratio ? g_rand_int_range (dice, 1, 1000)
                                                                            : had[id];

          n_removed += had[id] != 0 && has != had[id];
          n_added += has != 0 && has != had[id];
          had[id] = has;
          if (has == 0)
            continue;
          g_ptr_array_add (records, sample_full (FR_KIND_FUEL, id));
          fr_amount_set (&((FrFuel *)records->pdata[records->len - 1])->price_per_kg, has, NULL);
        }
      fr_record_list_load (list, records);
      mirror_assert (&mirror);
      g_assert_cmpuint (mirror.n_removed, ==, n_removed);
      g_assert_cmpuint (mirror.n_added, ==, n_added);
      g_assert_cmpuint (before->len, ==, n_before);
      for (guint i = 0; i < before->len; i++)
        g_assert_cmpint (((const FrRecord *)before->pdata[i])->id, >, 0);
      g_assert_cmpuint (fr_record_list_get_records (list)->len, ==, records->len);
      for (guint i = 0; i < records->len; i++)
        g_assert_true (fr_record_equal (fr_record_list_get_records (list)->pdata[i], records->pdata[i]));
    }
  g_rand_free (dice);
  mirror_end (&mirror);
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
  g_assert_true (fr_record_equal (fr_record_object_get_record (object), record));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/record-list/follows", test_follows);
  g_test_add_func ("/record-list/same-again-is-silent", test_same_again_is_silent);
  g_test_add_func ("/record-list/loads", test_loads);
  g_test_add_func ("/record-list/object", test_object);
  return g_test_run ();
}
