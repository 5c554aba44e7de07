/* Weighing members and gains by what was emptied.
 *
 * The logarithm of (litres a tap and day + FR_SAP_NOISE_L) scatters around that of gain × units, as Student's t with
 * 5 degrees of freedom at the member's own scatter; the gain is a season's, log-normal before. Kept on a grid of
 * FR_SAP_GAIN_STEPS steps from e^−3 to e^3 of the member's gain, a sum over which stands for the integral: with steps
 * of 0.1 in the logarithm against scatters above 0.3 the error is far below what entries are good for (the test holds
 * it against a fine grid). */
#include "domain/maths/sap-learn.h"

#include <math.h>
#include <string.h>

#define REACH 3.0
#define FREEDOM 5.0

struct _FrSapLearn
{
  const FrSapMembers *members;
  double *log_belief; /* a row of FR_SAP_GAIN_STEPS for each member */
  double *belief;     /* the same, all together 1 */
  gboolean is_fresh;  /* belief follows log_belief */
  double log_start;   /* of the sum of the beliefs before any entry */
};

static double
step_log (guint step)
{
  return REACH * (2.0 * step / (FR_SAP_GAIN_STEPS - 1) - 1);
}

static double
log_sum (const double *logs, gsize n)
{
  double largest = -INFINITY, sum = 0;

  for (gsize i = 0; i < n; i++)
    largest = fmax (largest, logs[i]);
  for (gsize i = 0; i < n; i++)
    sum += exp (logs[i] - largest);
  return largest + log (sum);
}

static gsize
size_of (const FrSapLearn *learn)
{
  return (gsize)learn->members->n * FR_SAP_GAIN_STEPS;
}

FrSapLearn *
fr_sap_learn_new (const FrSapMembers *members)
{
  FrSapLearn *learn = g_new0 (FrSapLearn, 1);

  learn->members = members;
  learn->log_belief = g_new (double, size_of (learn));
  learn->belief = g_new (double, size_of (learn));
  for (guint m = 0; m < members->n; m++)
    for (guint s = 0; s < FR_SAP_GAIN_STEPS; s++)
      learn->log_belief[m * FR_SAP_GAIN_STEPS + s]
          = log (members->members[m].weight_ratio) - 0.5 * pow (step_log (s) / members->gain_spread_ratio, 2);
  learn->log_start = log_sum (learn->log_belief, size_of (learn));
  return learn;
}

void
fr_sap_learn_free (FrSapLearn *learn)
{
  if (!learn)
    return;
  g_free (learn->log_belief);
  g_free (learn->belief);
  g_free (learn);
}

void
fr_sap_learn_add (FrSapLearn *learn, const double *units, double per_tap_l, double span_days)
{
  double seen = log (per_tap_l / span_days + FR_SAP_NOISE_L);

  g_return_if_fail (per_tap_l >= 0 && span_days > 0);
  learn->is_fresh = FALSE;
  for (guint m = 0; m < learn->members->n; m++)
    {
      const FrSapMember *member = &learn->members->members[m];
      double *row = learn->log_belief + m * FR_SAP_GAIN_STEPS;

      for (guint s = 0; s < FR_SAP_GAIN_STEPS; s++)
        {
          double told = log (member->gain_l * exp (step_log (s)) * units[m] / span_days + FR_SAP_NOISE_L);
          double off = (seen - told) / member->scatter_ratio;

          row[s] -= log (member->scatter_ratio) + (FREEDOM + 1) / 2 * log1p (off * off / FREEDOM);
        }
    }
}

static const double *
belief (const FrSapLearn *learn_)
{
  FrSapLearn *learn = (FrSapLearn *)learn_; /* what is known does not change, only its form */

  if (!learn->is_fresh)
    {
      double all = log_sum (learn->log_belief, size_of (learn));

      for (gsize i = 0; i < size_of (learn); i++)
        learn->belief[i] = exp (learn->log_belief[i] - all);
      learn->is_fresh = TRUE;
    }
  return learn->belief;
}

double
fr_sap_learn_log_probability (const FrSapLearn *learn)
{
  return log_sum (learn->log_belief, size_of (learn)) - learn->log_start;
}

double
fr_sap_learn_weight_ratio (const FrSapLearn *learn, guint member)
{
  const double *row = belief (learn) + member * FR_SAP_GAIN_STEPS;
  double sum = 0;

  for (guint s = 0; s < FR_SAP_GAIN_STEPS; s++)
    sum += row[s];
  return sum;
}

/* Each step's belief lies evenly half a step to both its sides. */
static double
share_log (const double *row, double share_ratio)
{
  double all = 0, below = 0, width = 2 * REACH / (FR_SAP_GAIN_STEPS - 1);

  for (guint s = 0; s < FR_SAP_GAIN_STEPS; s++)
    all += row[s];
  for (guint s = 0; s < FR_SAP_GAIN_STEPS; s++)
    {
      if (row[s] > 0 && below + row[s] >= share_ratio * all)
        return step_log (s) + width * ((share_ratio * all - below) / row[s] - 0.5);
      below += row[s];
    }
  return REACH;
}

double
fr_sap_learn_gain_l (const FrSapLearn *learn, guint member, double share_ratio)
{
  return learn->members->members[member].gain_l
         * exp (share_log (belief (learn) + member * FR_SAP_GAIN_STEPS, share_ratio));
}

double
fr_sap_learn_gain_ratio (const FrSapLearn *learn, double share_ratio)
{
  const double *all = belief (learn);
  double together[FR_SAP_GAIN_STEPS] = { 0 };

  for (guint m = 0; m < learn->members->n; m++)
    for (guint s = 0; s < FR_SAP_GAIN_STEPS; s++)
      together[s] += all[m * FR_SAP_GAIN_STEPS + s];
  return exp (share_log (together, share_ratio));
}
