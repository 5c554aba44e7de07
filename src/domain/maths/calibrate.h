/* Learning a cooker's heat ratio from what it did. */
#pragma once

#include "domain/maths/boil-run.h"
#include "domain/maths/vessel.h"

G_BEGIN_DECLS

typedef enum
{
  FR_SEEN_LEVEL_DROP, /* m, boiling without feed; needs the vessel */
  FR_SEEN_VOLUME_FED, /* L at feed_c, boiling at a held level */
  FR_SEEN_WEIGHT_LOST /* kg, boiling without feed */
} FrSeenKind;

/**
 * FrSeen:
 * One observation of a steady boil, from boiling to still boiling.
 */
typedef struct
{
  FrSeenKind kind;
  double value;
  double sd;           /* of value, over 0 */
  double span_s;
  double power_w;
  double air_c;
  double feed_c;       /* VOLUME_FED only */
  double brix;         /* of the liquid; 0 for plain water */
  double from_depth_m; /* LEVEL_DROP: depth at the beginning, NAN allowed for straight walls */
} FrSeen;

typedef struct
{
  double heat_ratio;
  double heat_ratio_sd;
  gboolean outlier; /* set aside: over 3 sd and over 2 % from the rest */
} FrSeenRatio;

typedef struct
{
  double heat_ratio;
  double heat_ratio_sd;
  double wall_w_per_k;      /* as held, or as found when the data carry it */
  double wall_w_per_k_sd;   /* NAN when held */
  guint n_used;
} FrCalibration;

typedef enum
{
  FR_CALIBRATE_OK,
  FR_CALIBRATE_BAD_INPUT,      /* *which_out: an observation is out of range or needs from_depth_m */
  FR_CALIBRATE_TOO_MUCH_HEAT,  /* *which_out: it boiled off more than its power can (ratio over 1.05): value or power is off */
  FR_CALIBRATE_NONE
} FrCalibrateStatus;

/* The part of the power that reached the liquid by one observation, wall held. */
FrCalibrateStatus fr_calibrate_one (const FrBoilTable *table, const FrVessel *vessel, double wall_w_per_k,
                                    const FrSeen *seen, FrSeenRatio *ratio_out);

/* Several together: weighted by their uncertainty, outliers (found by leaving each out in turn) set aside. The wall is
 * held unless three or more observations fix it to a third of itself and either contradict what was held by over 3 sd or
 * fix it to a third of that too; a wall that noise alone would suggest is not taken.
 * When what remains scatters more than its sds allow, the answer's sd is widened by that much. */
FrCalibrateStatus fr_calibrate (const FrBoilTable *table, const FrVessel *vessel, double wall_w_per_k,
                                const FrSeen *seen, guint n_seen, FrSeenRatio *each_out, FrCalibration *out,
                                guint *which_out);

/**
 * FrMorning:
 * What was found the morning after a planned night; NAN for what was not looked at.
 */
typedef struct
{
  double left_l;      /* hot or cold as stood: at left_c */
  double left_l_sd;
  double left_c;
  double left_brix;
  double left_brix_sd;
  double energy_kwh;
  double energy_kwh_sd;
  double feed_left_l; /* still in the bucket, at the feed's temperature; 0 is an empty bucket */
  double feed_left_l_sd;
} FrMorning;

/* A morning nobody has looked at yet. */
#define FR_MORNING_UNKNOWN { NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN }

typedef struct
{
  double heat_ratio;    /* prior and night together */
  double heat_ratio_sd;
  double night_ratio;   /* by this night alone */
  double night_ratio_sd;
  double sugar_ratio;   /* sugar found over sugar poured in, NAN unless both litres and °Bx are known */
  gboolean prior_dropped; /* the night contradicts what was assumed by over 3 sd: the night alone is taken */
} FrLearned;

/* Fits the ratio so that the run of @boil agrees with the morning. One night is not taken for more than 1 % sure, since mains and
 * wind differ; with a @prior_sd both are weighed, with NAN (never measured) the night alone counts. FALSE when nothing that tells
 * about the heat was found. */
gboolean fr_calibrate_from_night (const FrBoil *boil, double prior_sd, const FrMorning *morning,
                                  FrLearned *learned_out);

/* Half the width of nine-times-in-ten for a ratio: 1.645 sd, or 15 % of it when uncalibrated. */
double fr_heat_ratio_half_range (double heat_ratio, double heat_ratio_sd);

G_END_DECLS
