/* When pans that share the sap end together, and what each then gets.
 *
 * Litres over time are nearly straight for a pan once it boils; the line is drawn again through what the run
 * there says until the ends agree within half a minute. */
#include "domain/plan/plan-private.h"

#include <math.h>

#define TOGETHER_S 30.0

/* One pan's litres over its time, known at two points and taken as straight between and beyond: once it
 * boils, evaporation hardly changes. The point is moved to where the answer lies until the run there agrees.
 */
typedef struct
{
  double least_l, most_l;
  double low_l, low_s, high_l, high_s;
} Line;

static double
line_at_l (const Line *line, double time_s)
{
  double slope = (line->high_l - line->low_l) / (line->high_s - line->low_s);

  return MIN (line->most_l, line->low_l + slope * (time_s - line->low_s));
}

static double
lines_sum_l (double time_s, gpointer data)
{
  GArray *lines = data;
  double sum = 0;

  for (guint i = 0; i < lines->len; i++)
    sum += line_at_l (&g_array_index (lines, Line, i), time_s);
  return sum;
}

/* Where the lines together give @total_l, never a drop more; they rise, so halving finds it. */
static double
common_end_s (GArray *lines, double total_l)
{
  double lo = 0, hi = 0;

  for (guint i = 0; i < lines->len; i++)
    hi = MAX (hi, g_array_index (lines, Line, i).high_s);
  while (lines_sum_l (lo, lines) > total_l)
    lo -= hi;
  while (hi - lo > 0.01)
    {
      double mid = (lo + hi) / 2;

      if (lines_sum_l (mid, lines) < total_l)
        lo = mid;
      else
        hi = mid;
    }
  return lo;
}

double
fr_planning_together_s (const FrPlanning *planning, int side, const double *least_l, const double *most_l,
                        double total_l, double *litres_l_out)
{
  const FrPlan *plan = planning->plan;
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (Line));
  guint owner[FR_PLAN_KITS_MAX];
  double sum_l = 0, end_s = NAN;

  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanKit *kit = &planning->input->kits[plan->shares[i].kit];
      Line line = { least_l[i], most_l[i], least_l[i], NAN, most_l[i], NAN };

      litres_l_out[i] = 0;
      if (!(most_l[i] > 0))
        continue;
      sum_l += most_l[i];
      line.low_l = MIN (line.low_l, 0.9 * line.high_l);
      if (!(line.low_l + fr_planning_rest_l (kit) > kit->cutoff_l))
        line.low_l = MIN (line.high_l, kit->cutoff_l * 1.01 - fr_planning_rest_l (kit));
      line.high_l = MIN (line.high_l, MAX (total_l, 1.2 * line.low_l));
      line.low_s = fr_planning_span_s (planning, kit, line.low_l, side);
      line.high_s = fr_planning_span_s (planning, kit, line.high_l, side);
      if (!(line.high_s > line.low_s))
        return NAN;
      owner[lines->len] = i;
      g_array_append_val (lines, line);
    }
  if (!(sum_l >= total_l - 1e-9) || lines->len == 0)
    return NAN;
  for (guint round = 0; round < 8; round++)
    {
      double worst_s = 0;

      end_s = common_end_s (lines, total_l);
      for (guint k = 0; k < lines->len; k++)
        {
          Line *line = &g_array_index (lines, Line, k);
          double litres_l = litres_l_out[owner[k]] = line_at_l (line, end_s), found_s;

          if (litres_l < line->low_l || litres_l >= line->most_l - 1e-9)
            continue;
          found_s = fr_planning_span_s (planning, &planning->input->kits[plan->shares[owner[k]].kit],
                                        litres_l, side);
          if (isnan (found_s))
            return NAN;
          worst_s = MAX (worst_s, fabs (found_s - end_s));
          /* The nearer of the two ends of the line moves there. */
          if (litres_l - line->low_l > 0.5 * (line->high_l - line->low_l))
            {
              line->high_l = litres_l;
              line->high_s = found_s;
            }
          else if (litres_l > line->low_l)
            {
              line->low_l = litres_l;
              line->low_s = found_s;
            }
          if (!(line->high_s > line->low_s))
            return NAN;
        }
      if (worst_s < TOGETHER_S)
        break;
    }
  for (guint k = 0; k < lines->len; k++)
    {
      const Line *line = &g_array_index (lines, Line, k);

      /* One at its most ends when it does. */
      if (litres_l_out[owner[k]] >= line->most_l - 1e-9)
        end_s = MAX (end_s, fr_planning_span_s (planning, &planning->input->kits[plan->shares[owner[k]].kit],
                                                line->most_l, side));
    }
  return end_s;
}
