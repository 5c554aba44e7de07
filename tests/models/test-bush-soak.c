/* Some hundreds of random steps over every edit of the sugarbush against a plain model;
 * tests/long/soak-bush.c does ten thousand. */
#include "bush-soak.h"

static void
test_steps (gconstpointer seed)
{
  BushSoak counts;

  bush_soak (250, GPOINTER_TO_UINT (seed), FALSE, &counts);
  /* it is no test when hardly anything happened */
  g_assert_cmpuint (counts.changed, >, 60);
  g_assert_cmpuint (counts.refused, >, 20);
  g_assert_cmpuint (counts.undone, >, 20);
  g_assert_cmpuint (counts.beside, >, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/bush-soak/seed-1", GUINT_TO_POINTER (1), test_steps);
  g_test_add_data_func ("/bush-soak/seed-2", GUINT_TO_POINTER (2), test_steps);
  return g_test_run ();
}
