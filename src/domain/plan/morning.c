/* The morning after: what was found against what was planned, why, and what the cooker's heat ratio becomes.
 */
#include "domain/plan/evening.h"

#include "domain/maths/sucrose.h"
#include "domain/maths/water.h"
#include "domain/units/units.h"

#include <math.h>
#include <string.h>

#define LEFT_SD_L 0.05     /* a jug is read to about this */
#define BRIX_SD_SHARE 0.02 /* dilution, cooling and reading of thick liquid */
#define METER_SD_KWH 0.02  /* a plug meter shows hundredths */
#define LEFT_AT_C 20.0     /* litres found are read after it has cooled */

/* The night as it was poured. */
static FrBoil
boil_of_night (const FrNight *night, const FrPlanKit *kit, const FrBoilTable *table)
{
  return (FrBoil){
    .table = table,
    .air_c = night->air_c.value,
    .power_w = kit->power_w,
    .heat_ratio = night->heat_ratio.value,
    .wall_w_per_k = kit->wall_w_per_k,
    .reflux_ratio = kit->reflux_ratio,
    .start_l = night->pan_l.value,
    .start_brix = night->pan_brix.value,
    .start_c = night->pan_c.value,
    .feed_kind = FR_FEED_LEVEL,
    .feed_l = night->bucket_l.value,
    .feed_brix = night->sap_brix.value,
    .feed_c = night->sap_c.value,
    .hold_l = kit->hold_l,
    .cutoff_l = kit->cutoff_l,
    .after_s = (double)(night->off_by_utc - night->start_utc),
    .stop_brix = NAN,
    .trip_s = NAN,
    .rim_l = NAN,
    .foam_l = NAN,
    .min_l = NAN,
  };
}

static void
say_why (FrMorningReport *report, FrWhy why, double a)
{
  report->why[report->n_why] = why;
  report->why_a[report->n_why++] = a;
}

static void
find_why (FrMorningReport *report, const FrPlanKit *kit, double assumed_ratio)
{
  const FrLearned *learned = &report->learned;
  double half = fr_heat_ratio_half_range (assumed_ratio, kit->heat_ratio_sd);

  if (report->has_learned
      && fabs (learned->night_ratio - assumed_ratio) > MAX (0.02 * assumed_ratio, 0.25 * half))
    say_why (report, learned->night_ratio < assumed_ratio ? FR_WHY_LESS_HEAT : FR_WHY_MORE_HEAT,
             learned->night_ratio / assumed_ratio);
  if (!isnan (learned->sugar_ratio) && fabs (learned->sugar_ratio - 1) > 0.05)
    say_why (report, learned->sugar_ratio > 1 ? FR_WHY_SWEETER : FR_WHY_LESS_SWEET, learned->sugar_ratio);
  if (report->n_why == 0)
    say_why (report, report->has_learned ? FR_WHY_AS_PLANNED : FR_WHY_NOT_ENOUGH, NAN);
}

gboolean
fr_morning_report (const FrNight *night, const FrPlanKit *kit, double altitude_m, FrMorningReport *report_out)
{
  FrMorningReport *report = report_out;
  FrBoilTable table;
  FrBoil boil;
  FrBoilRun planned;
  FrMorning morning = FR_MORNING_UNKNOWN;
  double pressure_pa = isnan (night->water_boils_c.value)
                           ? fr_pressure_from_altitude_pa (altitude_m)
                           : fr_saturation_pressure_pa (night->water_boils_c.value);

  memset (report, 0, sizeof *report);
  report->fact_brix = report->fact_left_l = report->fact_end_s = report->fact_energy_kwh = NAN;
  if (!fr_boil_table_init (&table, pressure_pa))
    return FALSE;
  boil = boil_of_night (night, kit, &table);
  if (fr_boil_run (&boil, FALSE, &planned) != FR_BOIL_OK)
    return FALSE;
  report->plan_end_s = planned.time_s;
  report->plan_brix = planned.left_brix;
  report->plan_left_l = planned.left_20c_l;
  report->plan_energy_kwh = planned.energy_kwh;

  report->fact_left_l = morning.left_l = night->left_l.value;
  morning.left_c = LEFT_AT_C;
  morning.left_l_sd = LEFT_SD_L;
  report->fact_brix = night->left_brix.value;
  if (isnan (report->fact_brix) && !isnan (night->left_boil_c.value))
    report->fact_brix
        = fr_sucrose_brix_from_elevation (night->left_boil_c.value - table.water_boils_c, pressure_pa);
  morning.left_brix = report->fact_brix;
  morning.left_brix_sd = BRIX_SD_SHARE * report->fact_brix;
  morning.feed_left_l = night->bucket_left_l.value;
  morning.feed_left_l_sd = LEFT_SD_L;
  report->fact_energy_kwh = morning.energy_kwh = night->meter_kwh.value;
  morning.energy_kwh_sd = METER_SD_KWH;
  if (isnan (morning.energy_kwh) && night->end_utc != G_MININT64 && night->end_utc > night->start_utc)
    {
      /* Seen off at a known time: the same as a reading, as sure as a few minutes. */
      morning.energy_kwh = kit->power_w * (double)(night->end_utc - night->start_utc) / FR_JOULES_PER_KWH;
      morning.energy_kwh_sd = kit->power_w * 180 / FR_JOULES_PER_KWH;
    }
  if (!isnan (morning.energy_kwh))
    {
      report->fact_end_s = morning.energy_kwh * FR_JOULES_PER_KWH / kit->power_w;
      /* On for longer than the hours allowed: then it was not the clock that ended it. */
      if (report->fact_end_s
          > 1.01 * boil.after_s + 2 * morning.energy_kwh_sd * FR_JOULES_PER_KWH / kit->power_w)
        boil.after_s = NAN;
    }
  /* A night that has taught already is not held against what it taught. */
  report->has_learned = fr_calibrate_from_night (
      &boil, isnan (night->learned_ratio.value) ? kit->heat_ratio_sd : NAN, &morning, &report->learned);
  find_why (report, kit, boil.heat_ratio);
  return TRUE;
}

FrChange *
fr_morning_change (const FrNight *night_before, const FrNight *night_after, const FrCooker *cooker,
                   const FrMorningReport *report)
{
  FrChange *change = fr_change_new ("morning-after", cooker->name);
  g_autoptr (FrRecord) night = fr_record_copy (&night_after->record);

  if (report->has_learned)
    {
      g_autoptr (FrRecord) learned = fr_record_copy (&cooker->record);

      fr_amount_set (&((FrNight *)night)->learned_ratio, report->learned.night_ratio, NULL);
      fr_amount_set (&((FrNight *)night)->learned_ratio_sd, report->learned.night_ratio_sd, NULL);
      fr_amount_set (&((FrCooker *)learned)->heat_ratio, report->learned.heat_ratio, NULL);
      fr_amount_set (&((FrCooker *)learned)->heat_ratio_sd, report->learned.heat_ratio_sd, NULL);
      fr_change_add (change, &cooker->record, learned);
    }
  fr_change_add (change, &night_before->record, night);
  return change;
}
