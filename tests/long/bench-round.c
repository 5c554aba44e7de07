/* The gathering round at 200, 1,000, 2,000 and 5,000 random stops: gap to the bound and processor time; not
 * part of the tests. From a build folder: ninja tests/long/bench-round && tests/long/bench-round [SEEDS] */
#include "domain/maths/round.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double
processor_s (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void
measure (guint n, double pail_l, guint seeds)
{
  double gap_sum = 0, gap_most = 0, time_sum_s = 0, time_most_s = 0;

  for (guint seed = 0; seed < seeds; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autofree FrRoundStop *stops = g_new (FrRoundStop, n);
      g_autoptr (FrRound) round = NULL;
      double from_s;

      for (guint i = 0; i < n; i++)
        stops[i] = (FrRoundStop){ g_rand_double_range (rand, 0, 400), g_rand_double_range (rand, 0, 400),
                                  g_rand_double_range (rand, 1, 10) };
      from_s = processor_s ();
      round = fr_round_new (200, 0, pail_l, stops, n, NULL, NULL);
      from_s = processor_s () - from_s;
      gap_sum += round->gap_ratio;
      gap_most = MAX (gap_most, round->gap_ratio);
      time_sum_s += from_s;
      time_most_s = MAX (time_most_s, from_s);
    }
  printf ("%5u stops, pail %4.0f L: gap mean %5.2f %%, most %5.2f %%; time mean %.2f s, most %.2f s\n", n,
          pail_l, 100 * gap_sum / seeds, 100 * gap_most, time_sum_s / seeds, time_most_s);
}

int
main (int argc, char **argv)
{
  static const guint sizes[] = { 30, 200, 1000, 2000, 5000 };
  static const double pails_l[] = { NAN, 20, 60, 200 };
  const guint seeds = argc > 1 ? (guint)MAX (1, atoi (argv[1])) : 5;

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (guint j = 0; j < G_N_ELEMENTS (pails_l); j++)
      measure (sizes[i], pails_l[j], seeds);
  return 0;
}
