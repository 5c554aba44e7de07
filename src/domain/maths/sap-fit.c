/* Fitting by importance: an even sequence over the prior, weights by Student's t on the logarithm of litres.
 *
 * What is plausible, as median and sd of a logarithm (the thaw point as mean and sd in K):
 *
 *   lag 3.5 h, 0.5      sapwood of a trunk a hand or two wide, by its thermal diffusivity of about 1.5e-7 m²/s
 *   thaw point −0.8, 0.5  sap freezes at −0.1 to −0.3 °C; the sun warms bark above the air
 *   rest 0.2 K           fixed: supercooling of sap in wood, common sense, no source
 *   charge 4 h, 0.6     one night's frost fills a tree most of the way
 *   drain 0.003, 0.6    per K and hour: a thawed tree goes on for some days (sap-flow reference form: 0.0025)
 *   cap 4 K, 0.6        a warm afternoon runs little faster than a mild one
 *   ice 300 K h, 0.5    about a week of hard frost to freeze sapwood through
 *   age 150 d, 0.4      measured bucket seasons hardly show the hole drying; producers speak of weeks
 *   end 60 K d, 0.5     seasons were seen to end between 2 and 52 degree days above 5 °C and later: wide
 *   scatter 0.65, 0.3   of the logarithm of litres
 *   gathering hour 8 to 17, not known of the seasons it was fitted on
 *
 * A season's gain: flat over 0.2 to 250 L, then its middle of all seasons is the member's; seasons lie GAIN_APART
 * (sd of a logarithm) from it, as season totals of 19 to 57 L a tap are what is usual. Common sense where no source
 * is named. */
#include "domain/maths/sap-fit.h"

#include "domain/maths/chance.h"

#include <math.h>

#define DIMENSIONS 9
#define REST_K 0.2
#define GAIN_APART 0.7
#define GAIN_KNOWN 0.01 /* where there is none to learn */
#define GAIN_STEPS 36
#define GAIN_LOG_LO -1.6
#define GAIN_LOG_STEP 0.2
#define SCATTERS 7
#define FREEDOM 5.0

static const double scatters[SCATTERS] = { 0.40, 0.50, 0.60, 0.70, 0.80, 0.95, 1.10 };

FrSapShape
fr_sap_fit_draw (guint at, guint *gather_hour_out)
{
  /* The root of x^(d+1) = x + 1: its powers give the most even additive sequence known in d dimensions. */
  double root = 1.5, z[DIMENSIONS - 1];
  double share = 0, factor = 1;

  for (guint i = 0; i < 64; i++)
    root = pow (1 + root, 1.0 / (DIMENSIONS + 1));
  for (guint d = 0; d < DIMENSIONS; d++)
    {
      factor /= root;
      share = fmod (0.5 + (at + 1.0) * factor, 1);
      if (d < DIMENSIONS - 1)
        z[d] = fr_normal_quantile_ratio (share);
    }
  *gather_hour_out = FR_SAP_HOUR_LO + (guint)(share * FR_SAP_HOURS);
  return (FrSapShape){ .lag_h = 3.5 * exp (0.5 * z[0]),
                       .thaw_c = -0.8 + 0.5 * z[1],
                       .rest_k = REST_K,
                       .charge_h = 4 * exp (0.6 * z[2]),
                       .drain_per_k_h = 0.003 * exp (0.6 * z[3]),
                       .cap_k = 6 * exp (0.7 * z[4]),
                       .ice_k_h = 300 * exp (0.5 * z[5]),
                       .age_days = 150 * exp (0.4 * z[6]),
                       .end_k_days = 60 * exp (0.5 * z[7]) };
}

/* Units of each span, from a season's hours. */
static void
span_units (const FrSapFitSeason *season, const FrSapShape *shape, guint gather_hour, double *hours, double *units_out)
{
  FrSapState state = fr_sap_state ();

  fr_sap_run (shape, &state, season->air_c, season->n_hours, hours);
  for (guint i = 0; i < season->n_spans; i++)
    {
      units_out[i] = 0;
      for (guint h = season->spans[i].from_hour + gather_hour; h < season->spans[i].to_hour + gather_hour; h++)
        units_out[i] += hours[h] * fr_sap_age_ratio (shape, ((double)h - season->tapped_hour) / 24);
    }
}

/* For each scatter: the logarithm of how likely the season was over all gains, and the gain's mean logarithm. */
static void
weigh_season (const FrSapFitSeason *season, const double *units, double *log_out, double *gain_log_out)
{
  double products[SCATTERS][GAIN_STEPS];

  for (guint k = 0; k < SCATTERS; k++)
    for (guint g = 0; g < GAIN_STEPS; g++)
      products[k][g] = 1;
  for (guint i = 0; i < season->n_spans; i++)
    {
      double span_days = (season->spans[i].to_hour - season->spans[i].from_hour) / 24.0;
      double seen = log (season->spans[i].per_tap_l / span_days + FR_SAP_NOISE_L);

      for (guint g = 0; g < GAIN_STEPS; g++)
        {
          double gain_l = exp (GAIN_LOG_LO + GAIN_LOG_STEP * g);
          double off = seen - log (gain_l * units[i] / span_days + FR_SAP_NOISE_L);

          for (guint k = 0; k < SCATTERS; k++)
            products[k][g] *= 1 + off * off / (scatters[k] * scatters[k] * FREEDOM);
        }
    }
  for (guint k = 0; k < SCATTERS; k++)
    {
      double logs[GAIN_STEPS], largest = -INFINITY, sum = 0, mean = 0;

      for (guint g = 0; g < GAIN_STEPS; g++)
        {
          logs[g] = -(FREEDOM + 1) / 2 * log (products[k][g]);
          largest = fmax (largest, logs[g]);
        }
      for (guint g = 0; g < GAIN_STEPS; g++)
        {
          double weight = exp (logs[g] - largest);

          sum += weight;
          mean += weight * (GAIN_LOG_LO + GAIN_LOG_STEP * g);
        }
      log_out[k] += largest + log (sum / GAIN_STEPS) - season->n_spans * log (scatters[k]);
      gain_log_out[k] += mean / sum;
    }
}

static double
scatter_log_prior (guint k)
{
  return -0.5 * pow (log (scatters[k] / 0.65) / 0.3, 2);
}

/* Every (i + ½)/n of the weight falls on a member. */
static void
keep (FrSapMember *tried, const double *logs, gsize n_tried, guint n_members, FrSapFit *fit)
{
  FrSapMember *kept = g_new (FrSapMember, n_members);
  double largest = -INFINITY, sum = 0, squares = 0, passed = 0;
  guint n_kept = 0;

  for (gsize i = 0; i < n_tried; i++)
    largest = fmax (largest, logs[i]);
  for (gsize i = 0; i < n_tried; i++)
    {
      double weight = exp (logs[i] - largest);

      sum += weight;
      squares += weight * weight;
    }
  for (gsize i = 0; i < n_tried; i++)
    {
      passed += exp (logs[i] - largest);
      while (n_kept < n_members && passed * n_members >= (n_kept + 0.5) * sum)
        {
          kept[n_kept] = tried[i];
          kept[n_kept++].weight_ratio = 1.0 / n_members;
        }
    }
  while (n_kept < n_members) /* by rounding at the very end */
    {
      kept[n_kept] = tried[n_tried - 1];
      kept[n_kept++].weight_ratio = 1.0 / n_members;
    }
  fit->members.n = n_members;
  fit->members.members = kept;
  fit->log_probability = largest + log (sum / ((double)n_tried / SCATTERS));
  fit->n_effective = (guint)lround (sum * sum / squares);
}

FrSapFit *
fr_sap_fit (const FrSapFitSeason *seasons, guint n_seasons, guint n_draws, guint n_members)
{
  FrSapFit *fit = g_new0 (FrSapFit, 1);
  gsize n_tried = (gsize)n_draws * SCATTERS;
  g_autofree FrSapMember *tried = g_new (FrSapMember, n_tried);
  g_autofree double *logs = g_new (double, n_tried);
  g_autofree double *hours = NULL, *units = NULL;
  guint most_hours = 0, most_spans = 0;
  double scatter_log_all = 0;

  g_return_val_if_fail (n_seasons > 0 && n_draws > 0 && n_members > 0, NULL);
  for (guint i = 0; i < n_seasons; i++)
    {
      most_hours = MAX (most_hours, seasons[i].n_hours);
      most_spans = MAX (most_spans, seasons[i].n_spans);
    }
  for (guint k = 0; k < SCATTERS; k++)
    scatter_log_all += exp (scatter_log_prior (k));
  scatter_log_all = log (scatter_log_all);
  hours = g_new (double, most_hours);
  units = g_new (double, most_spans);
  for (guint i = 0; i < n_draws; i++)
    {
      guint gather_hour;
      FrSapShape shape = fr_sap_fit_draw (i, &gather_hour);
      double log_season[SCATTERS] = { 0 }, gain_log[SCATTERS] = { 0 };

      for (guint s = 0; s < n_seasons; s++)
        {
          span_units (&seasons[s], &shape, gather_hour, hours, units);
          weigh_season (&seasons[s], units, log_season, gain_log);
        }
      for (guint k = 0; k < SCATTERS; k++)
        {
          tried[i * SCATTERS + k] = (FrSapMember){ .shape = shape,
                                                   .gain_l = exp (gain_log[k] / n_seasons),
                                                   .scatter_ratio = scatters[k] };
          logs[i * SCATTERS + k] = log_season[k] + scatter_log_prior (k) - scatter_log_all;
        }
    }
  keep (tried, logs, n_tried, n_members, fit);
  fit->members.gain_spread_ratio = GAIN_APART * sqrt (1 + 1.0 / n_seasons);
  return fit;
}

/* Of members that were all kept, each with the logarithm of its weight. */
static FrSapFit *
fit_of (FrSapMember *members, const double *logs, guint n)
{
  FrSapFit *fit = g_new0 (FrSapFit, 1);
  double largest = -INFINITY, sum = 0, squares = 0;

  for (guint i = 0; i < n; i++)
    largest = fmax (largest, logs[i]);
  for (guint i = 0; i < n; i++)
    sum += exp (logs[i] - largest);
  for (guint i = 0; i < n; i++)
    {
      members[i].weight_ratio = exp (logs[i] - largest) / sum;
      squares += members[i].weight_ratio * members[i].weight_ratio;
    }
  fit->members.n = n;
  fit->members.members = members;
  fit->log_probability = largest + log (sum / n);
  fit->n_effective = (guint)lround (1 / squares);
  return fit;
}

FrSapFit *
fr_sap_fit_rule (FrSapRule rule, const FrSapFitSeason *seasons, guint n_seasons)
{
  /* A forecast takes member m to be emptied at an hour that goes by m. */
  guint n = SCATTERS * FR_SAP_HOURS;
  FrSapMember *members = g_new0 (FrSapMember, n);
  g_autofree double *logs = g_new (double, n);
  FrSapFit *fit;

  g_return_val_if_fail (rule != FR_SAP_RULE_TREE && n_seasons > 0, NULL);
  for (guint hour = 0; hour < FR_SAP_HOURS; hour++)
    {
      double log_season[SCATTERS] = { 0 }, gain_log[SCATTERS] = { 0 };

      for (guint s = 0; s < n_seasons; s++)
        {
          const FrSapFitSeason *season = &seasons[s];
          g_autofree double *units = g_new0 (double, MAX (season->n_spans, 1));

          for (guint i = 0; i < season->n_spans; i++)
            for (guint end = season->spans[i].to_hour; end > season->spans[i].from_hour; end -= 24)
              units[i] += fr_sap_rule_units (rule, season->air_c, (gint)season->n_hours, (gint)(end + FR_SAP_HOUR_LO + hour));
          weigh_season (season, units, log_season, gain_log);
        }
      for (guint k = 0; k < SCATTERS; k++)
        {
          members[k * FR_SAP_HOURS + hour] = (FrSapMember){ .shape.age_days = INFINITY,
                                                            .gain_l = exp (gain_log[k] / n_seasons),
                                                            .scatter_ratio = scatters[k] };
          logs[k * FR_SAP_HOURS + hour] = log_season[k] + scatter_log_prior (k);
        }
    }
  fit = fit_of (members, logs, n);
  fit->members.rule = rule;
  fit->members.gain_spread_ratio = GAIN_APART * sqrt (1 + 1.0 / n_seasons);
  return fit;
}

FrSapFit *
fr_sap_fit_scatter (const double *apart_ratio, guint n, double per_day_l)
{
  FrSapMember *members = g_new0 (FrSapMember, SCATTERS);
  double logs[SCATTERS];
  FrSapFit *fit;

  for (guint k = 0; k < SCATTERS; k++)
    {
      members[k] = (FrSapMember){ .shape.age_days = INFINITY, .gain_l = per_day_l, .scatter_ratio = scatters[k] };
      logs[k] = scatter_log_prior (k) - n * log (scatters[k]);
      for (guint i = 0; i < n; i++)
        logs[k] -= (FREEDOM + 1) / 2 * log1p (apart_ratio[i] * apart_ratio[i] / (scatters[k] * scatters[k] * FREEDOM));
    }
  fit = fit_of (members, logs, SCATTERS);
  fit->members.rule = FR_SAP_RULE_CONSTANT;
  fit->members.gain_spread_ratio = GAIN_KNOWN;
  return fit;
}

void
fr_sap_fit_free (FrSapFit *fit)
{
  if (!fit)
    return;
  g_free ((gpointer)fit->members.members);
  g_free (fit);
}
