/* Learning the heat ratio. In a steady boil power × ratio − wall × (T − air) turns E kilograms of water into
 * vapour and warms what is fed, so each observation gives the ratio outright; several are combined by
 * weights. A whole night is fitted by following it with trial ratios. Combination: inverse variance with the
 * scatter's own width (Birge 1932); a prior is one more observation. Accuracy: exact for data made by the
 * same equations. */
#include "domain/maths/calibrate.h"

#include "domain/maths/solve.h"
#include "domain/maths/sucrose.h"
#include "domain/units/units.h"

#include <math.h>

#define NINE_IN_TEN 1.6449
#define UNKNOWN_HALF_RANGE 0.15
/* Mains voltage and wind make nights differ by about this much, however well one is measured: common
 * practice, no source. */
#define NIGHTS_DIFFER 0.01
#define MAX_RATIO 1.05

double
fr_heat_ratio_half_range (double heat_ratio, double heat_ratio_sd)
{
  return isnan (heat_ratio_sd) ? UNKNOWN_HALF_RANGE * heat_ratio : NINE_IN_TEN * heat_ratio_sd;
}

/* Litres that leave the level when @value of metres are gone; straight walls need no depth. */
static double
dropped_l (const FrVessel *vessel, const FrSeen *seen, double value)
{
  if (isnan (seen->from_depth_m))
    {
      if (vessel->shape != FR_SHAPE_CYLINDER && vessel->shape != FR_SHAPE_BOX)
        return NAN;
      return 1e3 * value * fr_vessel_surface_m2 (vessel, 0);
    }
  if (value > seen->from_depth_m)
    return NAN;
  return fr_vessel_volume_l (vessel, seen->from_depth_m)
         - fr_vessel_volume_l (vessel, seen->from_depth_m - value);
}

/* Heat that went into liquid and vapour, J, for an observed value. */
static double
useful_heat_j (const FrBoilTable *table, const FrVessel *vessel, const FrSeen *seen, double value)
{
  double slope, boil_c = fr_boil_table_temp_c (table, seen->brix, &slope), x = seen->brix / 100;
  double rho, rho_b, rho_t, fed_kg, v_w, v_s;

  switch (seen->kind)
    {
    case FR_SEEN_WEIGHT_LOST:
      return value * table->latent_j_per_kg;
    case FR_SEEN_LEVEL_DROP:
    case FR_SEEN_VOLUME_FED:
      /* Volume taken up by the next kilogram of water, and of sugar, in this liquid: V = m / ρ (100 S / m).
       */
      fr_sucrose_density_slopes (seen->brix, boil_c, &rho, &rho_b, &rho_t);
      rho_b += rho_t * slope;
      v_w = (1 + 100 * x * rho_b / rho) / rho;
      v_s = (1 - 100 * (1 - x) * rho_b / rho) / rho;
      if (seen->kind == FR_SEEN_LEVEL_DROP)
        return 1e-3 * dropped_l (vessel, seen, value) / v_w * table->latent_j_per_kg;
      fed_kg = 1e-3 * value * fr_sucrose_density_kg_m3 (seen->brix, seen->feed_c);
      /* The sugar stays, so that a held level gives off a little more vapour than the water fed. */
      return fed_kg * (1 - x + x * v_s / v_w) * table->latent_j_per_kg
             + fed_kg
                   * ((1 - x)
                          * (fr_water_enthalpy_j_per_kg (boil_c) - fr_water_enthalpy_j_per_kg (seen->feed_c))
                      + x
                            * (fr_sugar_enthalpy_j_per_kg (boil_c)
                               - fr_sugar_enthalpy_j_per_kg (seen->feed_c)));
    default:
      return NAN;
    }
}

static gboolean
is_sound (const FrSeen *seen)
{
  return seen->value > 0 && seen->value < 1e5 && seen->sd > 0 && seen->sd < 1e5 && seen->span_s >= 60
         && seen->span_s <= 30 * 86400.0 && seen->power_w >= 1 && seen->power_w <= 1e6 && seen->air_c >= -60
         && seen->air_c <= 60 && seen->brix >= 0 && seen->brix <= 70
         && (seen->kind != FR_SEEN_VOLUME_FED || (seen->feed_c >= -1 && seen->feed_c <= 110));
}

/* Kelvins the wall sees. */
static double
wall_difference (const FrBoilTable *table, const FrSeen *seen)
{
  return fr_boil_table_temp_c (table, seen->brix, NULL) - seen->air_c;
}

FrCalibrateStatus
fr_calibrate_one (const FrBoilTable *table, const FrVessel *vessel, double wall_w_per_k, const FrSeen *seen,
                  FrSeenRatio *ratio_out)
{
  double heat_w, step = 1e-4 * seen->value;

  if (!is_sound (seen) || !(wall_w_per_k >= 0 && wall_w_per_k <= 1000))
    return FR_CALIBRATE_BAD_INPUT;
  heat_w = useful_heat_j (table, vessel, seen, seen->value) / seen->span_s;
  if (isnan (heat_w))
    return FR_CALIBRATE_BAD_INPUT;
  ratio_out->heat_ratio = (heat_w + wall_w_per_k * wall_difference (table, seen)) / seen->power_w;
  ratio_out->heat_ratio_sd
      = seen->sd / step * (heat_w - useful_heat_j (table, vessel, seen, seen->value - step) / seen->span_s)
        / seen->power_w;
  ratio_out->outlier = FALSE;
  return ratio_out->heat_ratio > MAX_RATIO ? FR_CALIBRATE_TOO_MUCH_HEAT : FR_CALIBRATE_OK;
}

/* Weighted mean of those not set aside, leaving out @but (or none when it is n). */
static gboolean
mean_of (const FrSeenRatio *each, guint n, guint but, double *mean_out, double *sd_out, double *chi2_out,
         guint *used_out)
{
  double weight = 0, sum = 0;

  *used_out = 0;
  for (guint i = 0; i < n; i++)
    if (i != but && !each[i].outlier)
      {
        double w = 1 / (each[i].heat_ratio_sd * each[i].heat_ratio_sd);

        weight += w;
        sum += w * each[i].heat_ratio;
        (*used_out)++;
      }
  if (*used_out == 0)
    return FALSE;
  *mean_out = sum / weight;
  *sd_out = 1 / sqrt (weight);
  *chi2_out = 0;
  for (guint i = 0; i < n; i++)
    if (i != but && !each[i].outlier)
      {
        double z = (each[i].heat_ratio - *mean_out) / each[i].heat_ratio_sd;

        *chi2_out += z * z;
      }
  return TRUE;
}

/* Sets aside, one at a time, the observation that stands farthest from the mean of the others, while at least
 * three count. */
static void
set_aside (FrSeenRatio *each, guint n)
{
  for (;;)
    {
      double worst = 3, mean, sd, chi2;
      guint which = n, used;

      for (guint i = 0; i < n; i++)
        {
          double off;

          if (each[i].outlier || !mean_of (each, n, i, &mean, &sd, &chi2, &used) || used < 2)
            continue;
          off = fabs (each[i].heat_ratio - mean);
          if (off > 0.02 && off / hypot (each[i].heat_ratio_sd, sd) > worst)
            {
              worst = off / hypot (each[i].heat_ratio_sd, sd);
              which = i;
            }
        }
      if (which == n)
        return;
      each[which].outlier = TRUE;
    }
}

/* Ratio and wall together from straight-line regression: useful power = ratio × power − wall × difference.
 * TRUE when the data carry both. */
static gboolean
try_wall (const FrBoilTable *table, const FrSeen *seen, const FrSeenRatio *each, guint n, double held_w_per_k,
          FrCalibration *out)
{
  double pp = 0, pd = 0, dd = 0, pu = 0, du = 0, det, wall, wall_sd, ratio;
  guint used = 0;

  for (guint i = 0; i < n; i++)
    {
      double d = wall_difference (table, &seen[i]), p = seen[i].power_w;
      double useful = each[i].heat_ratio * p - held_w_per_k * d, w = 1 / pow (each[i].heat_ratio_sd * p, 2);

      if (each[i].outlier)
        continue;
      used++;
      pp += w * p * p;
      pd -= w * p * d;
      dd += w * d * d;
      pu += w * p * useful;
      du -= w * d * useful;
    }
  det = pp * dd - pd * pd;
  if (used < 3 || !(det > 1e-9 * pp * dd))
    return FALSE;
  ratio = (dd * pu - pd * du) / det;
  wall = (pp * du - pd * pu) / det;
  wall_sd = sqrt (pp / det);
  if (!(wall_sd < wall / 3 && ratio > 0 && ratio <= MAX_RATIO)
      || !(wall_sd < held_w_per_k / 3 || fabs (wall - held_w_per_k) > 3 * wall_sd))
    return FALSE;
  /* Two numbers that do not explain every observation explain none. */
  for (guint i = 0; i < n; i++)
    {
      double d = wall_difference (table, &seen[i]), p = seen[i].power_w;
      double useful = each[i].heat_ratio * p - held_w_per_k * d;

      if (!each[i].outlier && fabs (useful - (ratio * p - wall * d)) > 3 * each[i].heat_ratio_sd * p)
        return FALSE;
    }
  out->heat_ratio = ratio;
  out->heat_ratio_sd = sqrt (dd / det);
  out->wall_w_per_k = wall;
  out->wall_w_per_k_sd = wall_sd;
  out->n_used = used;
  return TRUE;
}

FrCalibrateStatus
fr_calibrate (const FrBoilTable *table, const FrVessel *vessel, double wall_w_per_k, const FrSeen *seen,
              guint n_seen, FrSeenRatio *each_out, FrCalibration *out, guint *which_out)
{
  double chi2;

  *out = (FrCalibration){ NAN, NAN, wall_w_per_k, NAN, 0 };
  *which_out = 0;
  if (n_seen == 0)
    return FR_CALIBRATE_NONE;
  for (guint i = 0; i < n_seen; i++)
    {
      FrCalibrateStatus status = fr_calibrate_one (table, vessel, wall_w_per_k, &seen[i], &each_out[i]);

      if (status != FR_CALIBRATE_OK)
        {
          *which_out = i;
          return status;
        }
    }
  /* Before any is called an outlier: a wrong wall alone drives weak and strong power apart. */
  if (try_wall (table, seen, each_out, n_seen, wall_w_per_k, out))
    return FR_CALIBRATE_OK;
  set_aside (each_out, n_seen);
  if (!mean_of (each_out, n_seen, n_seen, &out->heat_ratio, &out->heat_ratio_sd, &chi2, &out->n_used))
    return FR_CALIBRATE_NONE;
  if (!try_wall (table, seen, each_out, n_seen, wall_w_per_k, out) && out->n_used > 1)
    out->heat_ratio_sd *= sqrt (MAX (1, chi2 / (out->n_used - 1)));
  return FR_CALIBRATE_OK;
}

/* --- a whole night --- */

typedef enum
{
  LOOK_ENERGY,
  LOOK_LEFT_KG,
  LOOK_FED_KG,
  LOOK_BRIX
} Look;

typedef struct
{
  FrBoil boil;
  Look look;
  double target;
} Fit;

static double
look_at (Fit *fit, double heat_ratio)
{
  FrBoilRun run;

  fit->boil.heat_ratio = heat_ratio;
  if (fr_boil_run (&fit->boil, FALSE, &run) != FR_BOIL_OK || run.ended_by == FR_END_NEVER_BOILS)
    return NAN;
  switch (fit->look)
    {
    case LOOK_ENERGY:
      return run.energy_kwh;
    case LOOK_LEFT_KG:
      return run.left_kg;
    case LOOK_FED_KG:
      return run.fed_kg;
    default:
      return run.left_brix;
    }
}

static double
fit_gap (double heat_ratio, gpointer data)
{
  Fit *fit = data;

  return look_at (fit, heat_ratio) - fit->target;
}

/* The ratio that gives @target and its sd from the slope there; FALSE when no ratio does, or it hardly
 * depends on it. */
static gboolean
fit_one (const FrBoil *boil, Look look, double target, double target_sd, double *ratio_out, double *sd_out)
{
  Fit fit = { *boil, look, target };
  double lo = 0.05, hi = 1.0, slope;

  /* A cooker too weak to boil at all has no answer; raise the lower end until it has. */
  while (lo < hi && isnan (look_at (&fit, lo)))
    lo += 0.05;
  if (!(lo < hi) || !fr_solve_root (fit_gap, &fit, lo, hi, 1e-7, ratio_out))
    return FALSE;
  slope = (look_at (&fit, MIN (1, *ratio_out + 1e-3)) - look_at (&fit, *ratio_out - 1e-3))
          / (MIN (1, *ratio_out + 1e-3) - *ratio_out + 1e-3);
  if (!(fabs (slope) > 1e-6))
    return FALSE;
  *sd_out = target_sd / fabs (slope);
  return *sd_out < 0.5;
}

static double
energy_sd_kwh (const FrMorning *morning)
{
  return isnan (morning->energy_kwh_sd) ? 0.01 * morning->energy_kwh : morning->energy_kwh_sd;
}

static double
feed_left_sd_l (const FrBoil *boil, const FrMorning *morning)
{
  return isnan (morning->feed_left_l_sd) ? 0.01 * boil->feed_l : morning->feed_left_l_sd;
}

/* More than the dregs. */
static gboolean
has_feed_left (const FrBoil *boil, const FrMorning *morning)
{
  return morning->feed_left_l > 2 * feed_left_sd_l (boil, morning);
}

/* Whether time rather than the cut-off ended the night: sap stands in the bucket, or the meter ran as long as
 * the power was on; without a meter, more is left than a pan that cut off would hold. Far more is proof by
 * itself. */
static gboolean
ended_by_time (const FrBoil *boil, const FrMorning *morning, double left_kg)
{
  FrBoil to_cutoff = *boil;
  FrBoilRun run;
  double full_kwh = boil->power_w * boil->after_s / FR_JOULES_PER_KWH;

  if (isnan (boil->after_s))
    return FALSE;
  if (isnan (boil->cutoff_l) || has_feed_left (boil, morning))
    return TRUE;
  to_cutoff.after_s = NAN;
  if (fr_boil_run (&to_cutoff, FALSE, &run) != FR_BOIL_OK)
    return FALSE;
  if (!isnan (left_kg) && left_kg > 1.5 * run.left_kg)
    return TRUE;
  if (!isnan (morning->energy_kwh))
    return morning->energy_kwh > 0.99 * full_kwh - 2 * energy_sd_kwh (morning);
  if (!isnan (left_kg))
    return left_kg > 1.1 * run.left_kg;
  return !isnan (morning->left_brix) && morning->left_brix < 0.8 * run.left_brix;
}

typedef struct
{
  double weight;
  double sum;
} Mean;

static void
mean_add (Mean *mean, double value, double sd)
{
  mean->weight += 1 / (sd * sd);
  mean->sum += value / (sd * sd);
}

gboolean
fr_calibrate_from_night (const FrBoil *boil, double prior_sd, const FrMorning *morning,
                         FrLearned *learned_out)
{
  double prior = boil->heat_ratio, ratio, sd, left_kg = NAN, both;
  FrBoilRun planned;
  Mean night = { 0 };

  *learned_out = (FrLearned){ NAN, NAN, NAN, NAN, NAN, FALSE };
  if (fr_boil_run (boil, FALSE, &planned) != FR_BOIL_OK)
    return FALSE;

  if (!isnan (morning->left_l))
    left_kg = 1e-3 * morning->left_l
              * fr_sucrose_density_kg_m3 (isnan (morning->left_brix) ? planned.left_brix : morning->left_brix,
                                          morning->left_c);
  if (ended_by_time (boil, morning, left_kg))
    {
      FrBoil to_time = *boil;

      /* The meter then only says how long the power was on; how far the pan came tells of the heat. */
      to_time.cutoff_l = NAN;
      if (has_feed_left (boil, morning))
        {
          double per_l = 1e-3 * fr_sucrose_density_kg_m3 (boil->feed_brix, boil->feed_c);

          if (fit_one (&to_time, LOOK_FED_KG, (boil->feed_l - morning->feed_left_l) * per_l,
                       feed_left_sd_l (boil, morning) * per_l, &ratio, &sd))
            mean_add (&night, ratio, sd);
        }
      else if (!isnan (left_kg)
               && fit_one (&to_time, LOOK_LEFT_KG, left_kg,
                           left_kg
                               * (isnan (morning->left_l_sd) ? 0.01 : morning->left_l_sd / morning->left_l),
                           &ratio, &sd))
        mean_add (&night, ratio, sd);
      if (!isnan (morning->left_brix)
          && fit_one (&to_time, LOOK_BRIX, morning->left_brix,
                      isnan (morning->left_brix_sd) ? 0.03 * morning->left_brix : morning->left_brix_sd,
                      &ratio, &sd))
        mean_add (&night, ratio, sd);
    }
  else
    {
      FrBoil to_cutoff = *boil;

      to_cutoff.after_s = NAN;
      if (!isnan (left_kg) && !isnan (morning->left_brix))
        learned_out->sugar_ratio = left_kg * morning->left_brix / 100 / planned.sugar_in_kg;
      if (!isnan (morning->energy_kwh)
          && fit_one (&to_cutoff, LOOK_ENERGY, morning->energy_kwh, energy_sd_kwh (morning), &ratio, &sd))
        mean_add (&night, ratio, sd);
    }
  if (!(night.weight > 0))
    return FALSE;
  learned_out->night_ratio = night.sum / night.weight;
  learned_out->night_ratio_sd = hypot (1 / sqrt (night.weight), NIGHTS_DIFFER * learned_out->night_ratio);
  night = (Mean){ 0 };
  mean_add (&night, learned_out->night_ratio, learned_out->night_ratio_sd);
  /* A ratio that was never measured is no knowledge to weigh the night with. */
  if (!isnan (prior_sd))
    {
      both = hypot (prior_sd, learned_out->night_ratio_sd);
      learned_out->prior_dropped = fabs (prior - learned_out->night_ratio) > 3 * both;
      if (!learned_out->prior_dropped)
        mean_add (&night, prior, prior_sd);
    }
  learned_out->heat_ratio = night.sum / night.weight;
  learned_out->heat_ratio_sd = 1 / sqrt (night.weight);
  return TRUE;
}
