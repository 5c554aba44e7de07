/* The kept points of a run: looked up by time, and let go. Between points, which lie at most five minutes apart,
 * everything runs straight; the power steps. */
#include "domain/maths/boil-run.h"

#include <math.h>

void
fr_boil_run_clear (FrBoilRun *run)
{
  g_clear_pointer (&run->trace, g_free);
  run->n_trace = 0;
}

FrTracePoint
fr_boil_run_at (const FrBoilRun *run, double time_s)
{
  FrTracePoint a, b;
  guint lo = 0, hi = run->n_trace - 1;
  double u;

  g_return_val_if_fail (run->n_trace > 0, ((FrTracePoint){ NAN, NAN, NAN, NAN, NAN, NAN }));
  if (!(time_s > run->trace[0].time_s))
    return run->trace[0];
  if (time_s >= run->trace[hi].time_s)
    return run->trace[hi];
  while (hi - lo > 1)
    {
      guint middle = (lo + hi) / 2;

      if (run->trace[middle].time_s <= time_s)
        lo = middle;
      else
        hi = middle;
    }
  a = run->trace[lo];
  b = run->trace[hi];
  u = b.time_s > a.time_s ? (time_s - a.time_s) / (b.time_s - a.time_s) : 0;
  return (FrTracePoint){ time_s,
                         a.volume_l + u * (b.volume_l - a.volume_l),
                         a.brix + u * (b.brix - a.brix),
                         a.temp_c + u * (b.temp_c - a.temp_c),
                         a.feed_left_l + u * (b.feed_left_l - a.feed_left_l),
                         a.power_w };
}
