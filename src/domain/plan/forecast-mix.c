/* Quantiles of a mixture of log-normals: bins of the logarithm, one row for each scatter that members have, and the
 * normal distribution laid over each bin. A bin is 5 % of the litres wide, against scatters of
 * 20 % and more, so that what rounding to its middle adds to their square is below a hundredth. */
#include "domain/plan/forecast-private.h"

#include <math.h>

#define BINS FR_FORECAST_STEPS
#define BIN 0.05
/* How far a normal distribution is followed, in its own sd. */
#define FAR 6.0

struct _FrForecastMix
{
  guint n_scatters;
  double *scatters;
  guint *scatter_of; /* of each member */
  double *bins;      /* [scatter][BINS] */
  double below[BINS + 1]; /* share below the upper end of each bin */
  double spread_ratio;
  double noise_l;
  double all;
};

FrForecastMix *
fr_forecast_mix_new (const FrSapMembers *members)
{
  FrForecastMix *mix = g_new0 (FrForecastMix, 1);

  mix->scatters = g_new (double, members->n);
  mix->scatter_of = g_new (guint, members->n);
  for (guint m = 0; m < members->n; m++)
    {
      guint i = 0;

      while (i < mix->n_scatters && mix->scatters[i] != members->members[m].scatter_ratio)
        i++;
      if (i == mix->n_scatters)
        mix->scatters[mix->n_scatters++] = members->members[m].scatter_ratio;
      mix->scatter_of[m] = i;
    }
  mix->bins = g_new0 (double, mix->n_scatters *BINS);
  return mix;
}

void
fr_forecast_mix_free (FrForecastMix *mix)
{
  if (!mix)
    return;
  g_free (mix->scatters);
  g_free (mix->scatter_of);
  g_free (mix->bins);
  g_free (mix);
}

void
fr_forecast_mix_begin (FrForecastMix *mix, double spread_ratio, double noise_l)
{
  for (guint i = 0; i < mix->n_scatters * BINS; i++)
    mix->bins[i] = 0;
  mix->spread_ratio = spread_ratio;
  mix->noise_l = noise_l;
  mix->all = 0;
}

/* Shared between the two bins whose middles lie around it, so that no litres are moved on the whole. */
void
fr_forecast_mix_add (FrForecastMix *mix, guint member, double litres_l, double weight_ratio)
{
  double place = CLAMP (log1p (litres_l / mix->noise_l) / BIN - 0.5, -0.5, BINS - 1.5);
  gint bin = (gint)floor (place);
  double *bins = mix->bins + mix->scatter_of[member] * BINS;

  bins[bin + 1] += weight_ratio * (place - bin);
  bins[MAX (bin, 0)] += weight_ratio * (1 - (place - bin));
  mix->all += weight_ratio;
}

/* Litres at the upper end of a number of bins. */
static double
litres_at (const FrForecastMix *mix, double bins)
{
  return mix->noise_l * expm1 (bins * BIN);
}

static double
quantile_l (const FrForecastMix *mix, double share_ratio)
{
  guint lo = 0, hi = BINS;

  if (mix->below[0] >= share_ratio)
    return 0;
  while (hi - lo > 1)
    {
      guint middle = (lo + hi) / 2;

      if (mix->below[middle] < share_ratio)
        lo = middle;
      else
        hi = middle;
    }
  return litres_at (mix, lo + (share_ratio - mix->below[lo]) / fmax (mix->below[hi] - mix->below[lo], 1e-300));
}

static void
lay_normal (FrForecastMix *mix, const double *bins, double sd)
{
  gint reach = (gint)ceil (FAR * sd / BIN) + 1;
  g_autofree double *normal = g_new (double, 2 * reach + 1);

  /* What a bin's middle puts below the upper end of the one @at bins above it. */
  for (gint at = -reach; at <= reach; at++)
    normal[at + reach] = fr_normal_below_ratio ((at - 0.5) * BIN / sd);
  for (gint b = 0; b < BINS; b++)
    {
      gint full = MIN (b + reach, BINS + 1);

      if (bins[b] == 0)
        continue;
      for (gint at = MAX (b - reach, 0); at < full; at++)
        mix->below[at] += bins[b] * normal[at - b + reach];
      for (gint at = full; at <= BINS; at++)
        mix->below[at] += bins[b];
    }
}

FrLitres
fr_forecast_mix_litres (FrForecastMix *mix)
{
  FrLitres litres = { NAN, NAN, NAN, NAN, NAN, NAN };

  if (!(mix->all > 0))
    return litres;
  for (guint i = 0; i <= BINS; i++)
    mix->below[i] = 0;
  for (guint i = 0; i < mix->n_scatters; i++)
    lay_normal (mix, mix->bins + i * BINS, mix->scatters[i] * mix->spread_ratio);
  for (guint i = 0; i <= BINS; i++)
    mix->below[i] /= mix->all;
  litres.lo_l = quantile_l (mix, 0.1);
  litres.quarter_lo_l = quantile_l (mix, 0.25);
  litres.middle_l = quantile_l (mix, 0.5);
  litres.quarter_hi_l = quantile_l (mix, 0.75);
  litres.hi_l = quantile_l (mix, 0.9);
  litres.mean_l = 0;
  for (guint i = 0; i < BINS; i++)
    litres.mean_l += (mix->below[i + 1] - mix->below[i]) * litres_at (mix, i + 0.5);
  return litres;
}

double
fr_forecast_mix_reach_probability (const FrForecastMix *mix, double litres_l)
{
  double place = log1p (litres_l / mix->noise_l) / BIN;
  guint bin = MIN ((guint)place, BINS - 1);

  if (!(mix->all > 0))
    return NAN;
  return 1 - (mix->below[bin] + (place - bin) * (mix->below[bin + 1] - mix->below[bin]));
}

void
fr_forecast_mix_steps (const FrForecastMix *mix, double *at_l_out, double *below_ratio_out)
{
  for (guint i = 0; i <= BINS; i++)
    {
      at_l_out[i] = litres_at (mix, i);
      below_ratio_out[i] = mix->all > 0 ? mix->below[i] : NAN;
    }
}
