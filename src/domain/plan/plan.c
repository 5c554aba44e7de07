/* The plan as a whole: check the evening, share the sap, then prices, options and cautions, each in its own file. */
#include "domain/plan/plan-private.h"

#include "domain/maths/sap-keeping.h"
#include "domain/maths/sucrose.h"
#include "domain/maths/water.h"

#include <math.h>
#include <string.h>

static const char *const status_codes[] = { "ok",       "no_sap",   "no_kit",    "no_hours", "too_little",
                                            "too_late", "too_sweet", "never_boils", "bad_kit",  "bad_input" };
static const char *const caution_codes[FR_N_CAUTIONS]
    = { "circuit_over", "no_cutoff", "runs_over",    "rim",  "min_level", "solder",       "steam",           "foam",
        "frost",        "circuit_near", "left_off", "no_gfci",   "age", "thick", "uncalibrated", "breaker_unknown", "flame", "attend", "steam_ok" };

const char *
fr_plan_status_code (FrPlanStatus status)
{
  g_return_val_if_fail ((guint) status < G_N_ELEMENTS (status_codes), NULL);
  return status_codes[status];
}

const char *
fr_caution_code (FrCautionCode code)
{
  g_return_val_if_fail ((guint) code < FR_N_CAUTIONS, NULL);
  return caution_codes[code];
}

/* Sap typed in by hand has no past but its age. */
static double
keeps_s (double sap_c)
{
  FrKeepingTable table;
  guint line;

  g_return_val_if_fail (fr_keeping_table_parse (FR_KEEPING_CUSTOM_TEXT, &table, &line), NAN);
  return 3600 * fr_keeping_allowed_h (&table, sap_c);
}

static gboolean
check_input (FrPlanning *planning)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  const struct
  {
    const char *name;
    double value, min, max;
    gboolean may_miss;
  } rules[] = {
    { "sap_l", input->sap_l, 0, 100000, FALSE },
    { "sap_brix", input->sap_brix, 0.1, 30, FALSE },
    { "sap_c", input->sap_c, -1, 60, FALSE },
    { "max_brix", input->max_brix, 5, 70, FALSE },
    { "air_c", input->air_c, -60, 60, FALSE },
    { "air_low_c", input->air_low_c, -60, 60, TRUE },
    { "altitude_m", input->altitude_m, -430, 6000, FALSE },
    { "water_boils_c", input->water_boils_c, 70, 103.5, TRUE },
    { "syrup_brix", input->syrup_brix, 60, 75, FALSE },
    { "jar_l", input->jar_l, 0.01, 100, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rules); i++)
    if (!(rules[i].may_miss && isnan (rules[i].value))
        && !(rules[i].value >= rules[i].min && rules[i].value <= rules[i].max))
      {
        plan->status = FR_PLAN_BAD_INPUT;
        g_strlcpy (plan->fault, rules[i].name, sizeof plan->fault);
        plan->fault_min = rules[i].min;
        plan->fault_max = rules[i].max;
        return FALSE;
      }
  return TRUE;
}

static void
sum_up (FrPlanning *planning)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  double sugar_kg = 0, dry_s = NAN, end_s = 0, early_s = 0, late_s = 0;

  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanShare *share = &plan->shares[i];

      if (!share->used)
        continue;
      plan->used_l += share->pan_l + share->bucket_l;
      plan->left_kg += share->run.left_kg;
      plan->left_l += share->run.left_l;
      sugar_kg += share->run.sugar_out_kg;
      plan->finish_kg += share->finish_kg;
      /* A cooker too weak to finish leaves it unknown. */
      plan->finish_s = isnan (share->finish_s) || isnan (plan->finish_s) ? NAN : MAX (plan->finish_s, share->finish_s);
      plan->syrup_l += share->syrup_l;
      plan->energy_kwh += share->energy_kwh;
      end_s = MAX (end_s, share->run.time_s);
      early_s = MAX (early_s, share->early_s);
      late_s = MAX (late_s, share->late_s);
      if (!isnan (share->run.feed_dry_s) && !(share->run.feed_dry_s <= dry_s))
        dry_s = share->run.feed_dry_s;
    }
  plan->over_l = MAX (0, input->sap_l - plan->used_l);
  plan->left_brix = 100 * sugar_kg / plan->left_kg;
  plan->jars = plan->syrup_l / input->jar_l;
  plan->dry_utc = isnan (dry_s) ? G_MININT64 : input->start_utc + (gint64) lround (dry_s);
  plan->end_utc = input->start_utc + (gint64) lround (end_s);
  plan->early_utc = input->start_utc + (gint64) lround (early_s);
  plan->late_utc = input->start_utc + (gint64) lround (late_s);
}

FrPlan *
fr_plan_new (const FrPlanInput *input)
{
  FrPlan *plan = g_new0 (FrPlan, 1);
  FrPlanning planning = { .input = input, .plan = plan };
  guint n_on = 0;

  plan->fault_kit = G_MAXUINT;
  plan->cost_minor = plan->price_before = plan->price_after = plan->fuel_break_even_per_kg = NAN;
  plan->keep_until_utc = plan->dry_utc = plan->end_utc = plan->early_utc = plan->late_utc = plan->rise_utc
      = plan->needs_start_utc = G_MININT64;
  for (guint i = 0; i < G_N_ELEMENTS (plan->start_cost_minor); i++)
    plan->start_cost_minor[i] = NAN;

  /* No sap at all is an answer of its own. */
  if (input->sap_l == 0 || isnan (input->sap_l))
    {
      plan->status = FR_PLAN_NO_SAP;
      return plan;
    }
  for (guint i = 0; i < input->n_kits; i++)
    n_on += !input->kits[i].off;
  if (n_on == 0)
    {
      plan->status = FR_PLAN_NO_KIT;
      return plan;
    }
  if (!check_input (&planning))
    return plan;
  if (input->off_by_utc <= input->start_utc || input->off_by_utc - input->start_utc > 5 * 86400)
    {
      plan->status = FR_PLAN_NO_HOURS;
      return plan;
    }
  plan->pressure_pa = isnan (input->water_boils_c) ? fr_pressure_from_altitude_pa (input->altitude_m)
                                                   : fr_saturation_pressure_pa (input->water_boils_c);
  if (!fr_boil_table_init (&planning.table, plan->pressure_pa))
    {
      plan->status = FR_PLAN_BAD_INPUT;
      g_strlcpy (plan->fault, "altitude_m", sizeof plan->fault);
      plan->fault_min = -430;
      plan->fault_max = 6000;
      return plan;
    }
  plan->water_boils_c = planning.table.water_boils_c;
  plan->finish_c = fr_boil_table_temp_c (&planning.table, input->syrup_brix, NULL);
  if (input->spoils_utc != G_MININT64)
    plan->keep_until_utc = input->spoils_utc;
  else if (input->oldest_utc != G_MININT64 && !isnan (input->sap_c))
    plan->keep_until_utc = input->oldest_utc + (gint64) keeps_s (input->sap_c);

  fr_planning_share (&planning);
  if (plan->status != FR_PLAN_OK)
    return plan;
  sum_up (&planning);
  fr_planning_money (&planning);
  fr_planning_options (&planning);
  fr_planning_cautions (&planning);
  for (guint i = 0; i < plan->n_shares; i++)
    plan->shares[i].boil.table = NULL;
  return plan;
}

void
fr_plan_free (FrPlan *plan)
{
  if (plan == NULL)
    return;
  for (guint i = 0; i < plan->n_shares; i++)
    fr_boil_run_clear (&plan->shares[i].run);
  g_free (plan->spans);
  g_free (plan);
}
