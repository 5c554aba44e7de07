/* Invented evenings for the tests of the plan. Sizes and powers of a household's kit: common practice, no
 * source. */
#pragma once

#include "domain/plan/plan.h"
#include "tariffs.h"
#include "zones.h"

#include <math.h>
#include <string.h>

/* 2025-02-12 19:00 in Toronto, a Wednesday of winter: 2025-02-13 00:00 UTC. */
#define EVENING_UTC 1739404800

static inline FrPlanKit
evening_kit (const char *name, double power_w)
{
  FrPlanKit kit = {
    .vessel = { .shape = FR_SHAPE_CYLINDER, .a_m = 0.15, .height_m = 0.25 },
    .power_w = power_w,
    .heat_ratio = 0.8,
    .heat_ratio_sd = 0.02,
    .wall_w_per_k = 1,
    .hold_l = 4,
    .cutoff_l = 1.2,
    .min_level_l = 1,
    .foam_ratio = 1,
    .bucket_l = NAN,
    .head_m = NAN,
    .hole_m = NAN,
    .rest_l = NAN,
    .rest_brix = NAN,
    .rest_c = NAN,
    .circuit_id = 1,
    .breaker_a = 40,
    .volts_v = 120,
    .gfci = TRUE,
    .cutoff_by = FR_CUTOFF_BY_WEIGHT,
  };

  g_strlcpy (kit.name, name, sizeof kit.name);
  g_strlcpy (kit.pan_name, "wide pot", sizeof kit.pan_name);
  g_strlcpy (kit.circuit_name, "Shed left", sizeof kit.circuit_name);
  return kit;
}

/* Sap enough that the time limits the one cooker; eleven hours fifty. */
static inline FrPlanInput
evening_input (const FrZoneTable *zone, double sap_l)
{
  FrPlanInput input = {
    .sap_l = sap_l,
    .sap_brix = 2.2,
    .sap_c = 2,
    .oldest_utc = EVENING_UTC - 86400,
    .spoils_utc = G_MININT64,
    .now_utc = EVENING_UTC - 7200,
    .n_kits = 1,
    .start_utc = EVENING_UTC,
    .off_by_utc = EVENING_UTC + 42600,
    .max_brix = 60,
    .air_c = -2,
    .air_low_c = NAN,
    .altitude_m = 250,
    .water_boils_c = NAN,
    .zone = zone,
    .fuel_price_per_kg = NAN,
    .fuel_mj_per_kg = NAN,
    .fuel_heat_ratio = NAN,
    .syrup_brix = 66.9,
    .jar_l = 0.25,
  };

  input.kits[0] = evening_kit ("Hot plate", 1800);
  return input;
}

static inline gboolean
evening_has (const FrPlan *plan, FrCautionCode code)
{
  for (guint i = 0; i < plan->n_cautions; i++)
    if (plan->cautions[i].code == code)
      return TRUE;
  return FALSE;
}

static inline const FrOption *
evening_option (const FrPlan *plan, FrOptionCode code)
{
  for (guint i = 0; i < plan->n_options; i++)
    if (plan->options[i].code == code)
      return &plan->options[i];
  return NULL;
}
