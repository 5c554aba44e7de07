/* Changes obey the algebra their header promises: an inverse undoes, two inverses are the change again,
 * joining is doing one after the other. Checked by applying them to a small book held in a table, for every
 * field of every kind. */
#include "sample-records.h"

#include <string.h>

/* A book in memory: records by kind and id. Applying asserts each before-image, as the store does. */
static GHashTable *
book_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify)fr_record_free);
}

static char *
key_of (const FrRecord *record)
{
  return g_strdup_printf ("%s %" G_GINT64_FORMAT, record->kind->name, record->id);
}

static void
book_apply (GHashTable *book, const FrChange *change)
{
  for (guint i = 0; i < change->steps->len; i++)
    {
      const FrStep *step = g_ptr_array_index (change->steps, i);
      g_autofree char *key = key_of (step->before != NULL ? step->before : step->after);
      const FrRecord *stored = g_hash_table_lookup (book, key);
      g_assert_true (step->before == NULL ? stored == NULL : fr_record_equal (stored, step->before));
      if (step->after != NULL)
        g_hash_table_replace (book, g_strdup (key), fr_record_copy (step->after));
      else
        g_hash_table_remove (book, key);
    }
}

static void
assert_books_equal (GHashTable *a, GHashTable *b)
{
  GHashTableIter iter;
  gpointer key, record;

  g_assert_cmpuint (g_hash_table_size (a), ==, g_hash_table_size (b));
  g_hash_table_iter_init (&iter, a);
  while (g_hash_table_iter_next (&iter, &key, &record))
    g_assert_true (fr_record_equal (record, g_hash_table_lookup (b, key)));
}

static void
test_every_field (gconstpointer data)
{
  g_autoptr (FrRecord) before = sample_full (GPOINTER_TO_INT (data), 1);

  for (guint i = 0; i < before->kind->n_fields; i++)
    {
      g_autoptr (FrRecord) after = fr_record_copy (before);
      sample_mutate (after, &before->kind->fields[i]);
      g_autoptr (FrChange) change = fr_change_new ("edit", "it");
      fr_change_add (change, before, after);
      g_assert_cmpuint (change->steps->len, ==, 1);

      g_autoptr (FrChange) inverse = fr_change_invert (change);
      const FrStep *step = g_ptr_array_index (inverse->steps, 0);
      g_assert_true (fr_record_equal (step->before, after));
      g_assert_true (fr_record_equal (step->after, before));
      g_assert_cmpstr (inverse->label, ==, "edit");
      g_assert_cmpstr (inverse->subject, ==, "it");

      g_autoptr (FrChange) nothing = fr_change_join (change, inverse);
      g_assert_true (fr_change_is_empty (nothing));
    }
}

static void
test_no_change_left_out (void)
{
  g_autoptr (FrRecord) record = sample_full (FR_KIND_FUEL, 1);
  g_autoptr (FrRecord) same = fr_record_copy (record);
  g_autoptr (FrChange) change = fr_change_new ("edit", NULL);
  fr_change_add (change, record, same);
  g_assert_true (fr_change_is_empty (change));
}

static void
test_images_are_copies (void)
{
  g_autoptr (FrChange) change = fr_change_new ("add", NULL);
  FrRecord *record = sample_full (FR_KIND_FUEL, 1);
  fr_change_add (change, NULL, record);
  sample_mutate (record, &record->kind->fields[0]);
  const FrStep *step = g_ptr_array_index (change->steps, 0);
  g_assert_false (fr_record_equal (step->after, record));
  fr_record_free (record);
  g_assert_cmpstr (fr_record_label (step->after), ==, "Gas bottle");
}

/* Records without an id are each their own. */
static void
test_unnumbered_stay_apart (void)
{
  g_autoptr (FrRecord) record = sample_full (FR_KIND_FUEL, 0);
  g_autoptr (FrChange) change = fr_change_new ("add", NULL);
  fr_change_add (change, NULL, record);
  fr_change_add (change, NULL, record);
  g_assert_cmpuint (change->steps->len, ==, 2);
}

static void
test_join (void)
{
  g_autoptr (FrRecord) first = sample_full (FR_KIND_FUEL, 1);
  g_autoptr (FrRecord) second = fr_record_copy (first);
  g_autoptr (FrRecord) third = fr_record_copy (first);
  sample_mutate (second, &first->kind->fields[0]);
  sample_mutate (third, &first->kind->fields[2]);

  g_autoptr (FrChange) a = fr_change_new ("first", NULL);
  g_autoptr (FrChange) b = fr_change_new ("second", NULL);
  fr_change_add (a, first, second);
  fr_change_add (b, second, third);
  g_autoptr (FrChange) joined = fr_change_join (a, b);
  g_assert_cmpuint (joined->steps->len, ==, 1);
  const FrStep *step = g_ptr_array_index (joined->steps, 0);
  g_assert_true (fr_record_equal (step->before, first));
  g_assert_true (fr_record_equal (step->after, third));
  g_assert_cmpstr (joined->label, ==, "first");

  /* Added, then deleted: nothing. Deleted, then added again: nothing. */
  g_autoptr (FrChange) added = fr_change_new ("add", NULL);
  g_autoptr (FrChange) deleted = fr_change_new ("delete", NULL);
  fr_change_add (added, NULL, first);
  fr_change_add (deleted, first, NULL);
  g_autoptr (FrChange) none = fr_change_join (added, deleted);
  g_autoptr (FrChange) none_too = fr_change_join (deleted, added);
  g_assert_true (fr_change_is_empty (none));
  g_assert_true (fr_change_is_empty (none_too));
}

/* A random step on a random record: add what is missing, else edit or delete it. */
static void
random_change (GRand *rand, GHashTable *book, FrChange *change)
{
  g_autoptr (FrRecord) fresh
      = sample_full (g_rand_int_range (rand, 0, FR_N_KINDS), g_rand_int_range (rand, 1, 4));
  g_autofree char *key = key_of (fresh);
  const FrRecord *stored = g_hash_table_lookup (book, key);
  if (stored == NULL)
    fr_change_add (change, NULL, fresh);
  else if (g_rand_int_range (rand, 0, 4) == 0)
    fr_change_add (change, stored, NULL);
  else
    {
      g_autoptr (FrRecord) after = fr_record_copy (stored);
      sample_mutate (after, &after->kind->fields[g_rand_int_range (rand, 0, after->kind->n_fields)]);
      fr_change_add (change, stored, after);
    }
}

static void
test_random_books (void)
{
  GRand *rand = g_rand_new_with_seed (7);

  for (int round = 0; round < 200; round++)
    {
      g_autoptr (GHashTable) book = book_new ();
      g_autoptr (GHashTable) twin = book_new ();
      g_autoptr (FrChange) all = fr_change_new ("all", NULL);
      int n = g_rand_int_range (rand, 1, 30);
      for (int i = 0; i < n; i++)
        {
          g_autoptr (FrChange) one = fr_change_new ("one", NULL);
          random_change (rand, book, one);
          book_apply (book, one);
          FrChange *joined = fr_change_join (all, one);
          fr_change_free (all);
          all = joined;
        }
      book_apply (twin, all);
      assert_books_equal (book, twin);

      g_autoptr (FrChange) inverse = fr_change_invert (all);
      g_autoptr (FrChange) again = fr_change_invert (inverse);
      g_autoptr (FrChange) copy = fr_change_copy (all);
      book_apply (twin, inverse);
      g_assert_cmpuint (g_hash_table_size (twin), ==, 0);
      book_apply (twin, again);
      assert_books_equal (book, twin);
      g_assert_cmpuint (copy->steps->len, ==, all->steps->len);
    }
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (int kind = 0; kind < FR_N_KINDS; kind++)
    {
      g_autofree char *path = g_strdup_printf ("/change/every-field/%s", fr_kind (kind)->name);
      g_test_add_data_func (path, GINT_TO_POINTER (kind), test_every_field);
    }
  g_test_add_func ("/change/no-change-left-out", test_no_change_left_out);
  g_test_add_func ("/change/images-are-copies", test_images_are_copies);
  g_test_add_func ("/change/unnumbered-stay-apart", test_unnumbered_stay_apart);
  g_test_add_func ("/change/join", test_join);
  g_test_add_func ("/change/random-books", test_random_books);
  return g_test_run ();
}
