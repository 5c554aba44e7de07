/* Reading the trace: pixels to time and back by the frame of the last drawing, and what the lines say at one
 * moment. Straight between two samples, which is also how the lines are drawn; exact at the samples. */
#include "paint/trace.h"

#include <math.h>

double
fr_trace_x_from_time (const FrTraceFrame *frame, double time_s)
{
  return frame->plot_x_px + frame->plot_width_px * (time_s - frame->from_s) / (frame->to_s - frame->from_s);
}

gboolean
fr_trace_time_from_x (const FrTraceFrame *frame, double x_px, double *time_s)
{
  double ratio = (x_px - frame->plot_x_px) / frame->plot_width_px;

  if (frame->plot_width_px <= 0 || isnan (x_px) || x_px < frame->plot_x_px - 6
      || x_px > frame->plot_x_px + frame->plot_width_px + 6)
    return FALSE;
  *time_s = frame->from_s + CLAMP (ratio, 0, 1) * (frame->to_s - frame->from_s);
  return TRUE;
}

static double
read_at (const FrTraceLine *line, const double *values, gsize after, double part_ratio, gboolean held)
{
  if (values == NULL)
    return NAN;
  if (held || part_ratio == 0)
    return values[after];
  return values[after] + (values[after + 1] - values[after]) * part_ratio;
}

FrTraceMoment
fr_trace_moment_at (const FrTraceLine *line, double time_s)
{
  FrTraceMoment m = { time_s, NAN, NAN, NAN, NAN };
  gsize n = line->n_samples;

  if (n == 0 || !(time_s >= line->time_s[0]) || !(time_s <= line->time_s[n - 1]))
    return m;
  /* The last sample at or before the moment: at a step the later one counts. */
  gsize low = 0, high = n;
  while (high - low > 1)
    {
      gsize middle = low + (high - low) / 2;
      if (line->time_s[middle] <= time_s)
        low = middle;
      else
        high = middle;
    }
  double part = low + 1 < n && line->time_s[low + 1] > line->time_s[low]
                    ? (time_s - line->time_s[low]) / (line->time_s[low + 1] - line->time_s[low])
                    : 0;
  m.level_shown = read_at (line, line->level_shown, low, part, FALSE);
  m.brix = read_at (line, line->brix, low, part, FALSE);
  m.feed_l = read_at (line, line->feed_l, low, part, FALSE);
  m.power_w = read_at (line, line->power_w, low, part, TRUE);
  return m;
}
