/* What the bush's own emptyings leave of the members: units of each span handed to the filter of sap-learn.h.
 */
#include "domain/plan/forecast-private.h"

/* Whether all hours of the days (@from, @to] are known. */
gboolean
fr_forecast_run_is_known (const FrForecastRun *run, double from_days, gint to)
{
  const FrAirHours *air = run->question->air;
  guint hour = fr_forecast_gather_hour (run->question, 0);
  gint first = (gint)floor (from_days * 24) + (gint)hour, end = to * 24 + (gint)hour;

  if (first < 0 || end > (gint)air->n_hours)
    return FALSE;
  for (gint h = first; h < end; h++)
    if (isnan (air->temp_c[h]))
      return FALSE;
  return TRUE;
}

static void
learn (FrForecastBelief *belief, const FrForecastRun *run, FrSapLearn *learned)
{
  const FrForecastQuestion *question = run->question;
  const FrSapMembers *members = run->members;
  g_autofree double *units = g_new (double, members->n);
  double gathered_l = 0, foretold_l = 0;

  for (guint i = 0; i < question->n_gathered; i++)
    {
      const FrSapGathered *gathered = &question->gathered[i];
      gint to = (gint)(fr_date_to_days (gathered->date) - fr_date_to_days (question->air->first));
      double from = to - gathered->span_days;

      if (to > run->as_of || to >= run->n_weather || isnan (gathered->per_tap_l)
          || !fr_forecast_run_is_known (run, from, to))
        continue;
      for (guint m = 0; m < members->n; m++)
        {
          units[m] = fr_forecast_run_span_units (run, m, 0, from, to);
          foretold_l += members->members[m].weight_ratio * members->members[m].gain_l * units[m];
        }
      gathered_l += gathered->per_tap_l;
      fr_sap_learn_add (learned, units, gathered->per_tap_l, gathered->span_days);
      belief->n_learned++;
    }
  belief->ran_ratio = foretold_l > 0 ? gathered_l / foretold_l : NAN;
}

FrForecastBelief *
fr_forecast_belief_new (const FrForecastRun *run)
{
  static const double shares[3] = { 0.1, 0.5, 0.9 };
  FrForecastBelief *belief = g_new0 (FrForecastBelief, 1);
  const FrSapMembers *members = run->members;
  g_autoptr (FrSapLearn) learned = fr_sap_learn_new (members);
  double middle_gain_l = 0;

  for (guint m = 0; m < members->n; m++)
    middle_gain_l += members->members[m].weight_ratio * log (members->members[m].gain_l);
  middle_gain_l = exp (middle_gain_l);
  for (guint i = 0; i < 3; i++)
    belief->gain_before_l[i] = middle_gain_l * fr_sap_learn_gain_ratio (learned, shares[i]);
  learn (belief, run, learned);
  for (guint i = 0; i < 3; i++)
    belief->gain_after_l[i] = middle_gain_l * fr_sap_learn_gain_ratio (learned, shares[i]);
  belief->weights_ratio = g_new0 (double, members->n);
  belief->gains_l = g_malloc0_n (members->n, sizeof *belief->gains_l);
  for (guint m = 0; m < members->n; m++)
    {
      belief->weights_ratio[m] = fr_sap_learn_weight_ratio (learned, m);
      for (guint k = 0; k < FR_FORECAST_GAIN_NODES && belief->weights_ratio[m] >= FR_FORECAST_WEIGHT_MIN; k++)
        belief->gains_l[m][k] = fr_sap_learn_gain_l (learned, m, (k + 0.5) / FR_FORECAST_GAIN_NODES);
    }
  return belief;
}

void
fr_forecast_belief_free (FrForecastBelief *belief)
{
  if (!belief)
    return;
  g_free (belief->weights_ratio);
  g_free (belief->gains_l);
  g_free (belief);
}
