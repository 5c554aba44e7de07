/* Random sugarbushes out to each kind of file and into an empty book: the same trees come back, field by
 * field; reading the file once more changes nothing; writing again gives the same text. What is compared is
 * what went in, so nothing of the writers has to be believed. */
#include "formats/arrival-file.h"
#include "random-bush.h"

#include <string.h>

#define BUSHES 200

static void
round_trip (FrArrivalFile kind, guint seed, guint n_trees)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  g_autoptr (RandomBush) bush = random_bush_new (random, n_trees);
  g_autoptr (RandomBush) got = random_bush_new_empty ();
  g_autoptr (GError) error = NULL;
  g_autoptr (FrChange) first = NULL;
  g_autoptr (FrChange) second = NULL;
  g_autoptr (FrChange) third = NULL;
  guint n_left_out = 0;
  FrArrivalFile seen;
  g_autofree char *text = fr_arrival_file_write (kind, &bush->book, FALSE, &n_left_out, &error),
                  *again = NULL;
  g_autoptr (FrArrivals) arrivals = NULL;

  g_assert_no_error (error);
  arrivals = fr_arrival_file_read (text, strlen (text), &seen, &error);
  if (error != NULL)
    g_test_message ("%s", text);
  g_assert_no_error (error);
  g_assert_cmpint (seen, ==, kind);
  first = random_bush_import (got, arrivals, FALSE, FALSE);
  random_bush_assert_same (bush, got, kind == FR_ARRIVAL_FILE_TREES_CSV, kind != FR_ARRIVAL_FILE_GPX, 0);
  second = random_bush_import (got, arrivals, FALSE, FALSE);
  g_assert_true (fr_change_is_empty (second));
  third = random_bush_import (got, arrivals, TRUE, FALSE);
  g_assert_true (fr_change_is_empty (third));
  again = fr_arrival_file_write (kind, &got->book, FALSE, &n_left_out, &error);
  if (kind == FR_ARRIVAL_FILE_GPX && got->trees->len > 0)
    g_assert_cmpstr (text, ==, again);
}

static void
test_kind (gconstpointer data)
{
  for (guint i = 0; i < BUSHES; i++)
    round_trip (GPOINTER_TO_UINT (data), i, 1 + i % 12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint kind = 0; kind < FR_N_ARRIVAL_FILES; kind++)
    {
      g_autofree char *path = g_strdup_printf ("/round-trip/%s", fr_arrival_file_code (kind));

      g_test_add_data_func (path, GUINT_TO_POINTER (kind), test_kind);
    }
  return g_test_run ();
}
