/* Undo and redo through every edit of the sugarbush page, driven at random against a plain model, with
 * another program writing to the same file and the book closed and opened in between; after each step the
 * book must hold just the model's rows, and every fifty steps the file too. From a build with sanitizers:
 *   ninja -C build-asan tests/long/soak-bush && build-asan/tests/long/soak-bush [steps] [seed]
 * It ends with a line of figures and fails at the first difference, whose step the seed repeats. */
#include <stdlib.h>

#include "../models/bush-soak.h"

int
main (int argc, char **argv)
{
  guint steps = argc > 1 ? (guint)atoi (argv[1]) : 10000;
  guint32 seed = argc > 2 ? (guint32)atoi (argv[2]) : 1;
  BushSoak counts;

  bush_soak (steps, seed, TRUE, &counts);
  g_print ("%u steps: %u edits, %u without effect, %u refused; %u undone, %u redone, %u with nothing to take "
           "back, %u "
           "blocked; %u writes beside, %u steps lost to them, %u edits met one unawares, %u of them turned "
           "away; opened anew "
           "%u times; up to %u trees\n",
           steps, counts.changed, counts.nothing, counts.refused, counts.undone, counts.redone, counts.empty,
           counts.blocked, counts.beside, counts.lost, counts.stale, counts.turned, counts.reopened,
           counts.most_trees);
  return 0;
}
