/* From the book's records to an evening's input, and from a plan back to records to keep. */
#include "domain/plan/evening.h"

#include "domain/maths/sucrose.h"
#include "domain/plan/sweetness.h"
#include "domain/records/vessel-shape.h"

#include <math.h>
#include <string.h>

#define DEFAULT_MAX_BRIX 60.0
#define DEFAULT_AIR_C 0.0
#define PENDING_WITHIN_S 86400 /* a night kept for later than this is not tonight's */
#define NOT_WORTH_KEEPING_L 0.2

static double
or_else (double value, double otherwise)
{
  return isnan (value) ? otherwise : value;
}

/* --- sap --- */

double
fr_lot_brix (const FrSapLot *lot)
{
  return fr_sweetness_brix (lot->instrument, lot->reading_brix.value, lot->sample_c.value);
}

static double
lot_left_l (const FrSapLot *lot)
{
  double left_l = lot->volume_l.value - or_else (lot->used_l.value, 0);

  return left_l > 0.005 ? left_l : 0; /* a few millilitres are rounding, not sap */
}

FrSapOnHand
fr_evening_sap (GPtrArray *lots)
{
  FrSapOnHand sap = { 0, NAN, NAN, G_MININT64, 0 };
  double sugar = 0, mass = 0, heat = 0, warm_l = 0;

  for (guint i = 0; i < lots->len; i++)
    {
      const FrSapLot *lot = lots->pdata[i];
      double left_l = lot_left_l (lot), brix = fr_lot_brix (lot);

      if (lot->record.archived || !(left_l > 0))
        continue;
      sap.n_lots++;
      sap.volume_l += left_l;
      if (!isnan (brix))
        {
          double kg = 1e-3 * left_l * fr_sucrose_density_kg_m3 (brix, or_else (lot->store_c.value, 4));

          mass += kg;
          sugar += kg * brix;
        }
      if (!isnan (lot->store_c.value))
        {
          heat += left_l * lot->store_c.value;
          warm_l += left_l;
        }
      if (lot->collected_utc != G_MININT64
          && (sap.oldest_utc == G_MININT64 || lot->collected_utc < sap.oldest_utc))
        sap.oldest_utc = lot->collected_utc;
    }
  if (mass > 0)
    sap.brix = sugar / mass;
  if (warm_l > 0)
    sap.temp_c = heat / warm_l;
  return sap;
}

/* --- kit --- */

static const FrRecord *
find (GPtrArray *records, gint64 id)
{
  if (records == NULL || id == 0)
    return NULL;
  for (guint i = 0; i < records->len; i++)
    {
      const FrRecord *record = records->pdata[i];

      if (record->id == id && !record->archived)
        return record;
    }
  return NULL;
}

static guint
code_at (const char *code, const char *const *codes, guint n)
{
  for (guint i = 0; i < n; i++)
    if (g_strcmp0 (code, codes[i]) == 0)
      return i;
  return 0;
}

gboolean
fr_evening_kit (const FrEveningBook *book, const FrCooker *cooker, FrPlanKit *kit_out)
{
  static const char *const places[] = { "outdoors", "shed", "indoors" };
  static const char *const cutoffs[] = { "weight", "thermostat", "float", "timer", "none" };
  const FrVesselRecord *vessel = (const FrVesselRecord *)find (book->vessels, cooker->vessel);
  const FrCircuit *circuit = (const FrCircuit *)find (book->circuits, cooker->circuit);
  FrCover cover = FR_COVER_BARE;

  memset (kit_out, 0, sizeof *kit_out);
  if (vessel == NULL || !fr_vessel_record_shape (vessel, &kit_out->vessel) || isnan (cooker->power_w.value)
      || isnan (cooker->heat_ratio.value) || isnan (vessel->hold_l.value) || isnan (vessel->cutoff_l.value))
    return FALSE;
  g_strlcpy (kit_out->name, cooker->name != NULL ? cooker->name : "", sizeof kit_out->name);
  g_strlcpy (kit_out->pan_name, vessel->name != NULL ? vessel->name : "", sizeof kit_out->pan_name);
  kit_out->cooker_id = cooker->record.id;
  kit_out->power_w = cooker->power_w.value;
  kit_out->heat_ratio = cooker->heat_ratio.value;
  kit_out->heat_ratio_sd = cooker->heat_ratio_sd.value;
  kit_out->reflux_ratio = or_else (cooker->reflux_ratio.value, 0);
  fr_cover_from_code (vessel->cover, &cover);
  if (cooker->ratio_holds_wall)
    kit_out->wall_w_per_k = 0;
  else
    kit_out->wall_w_per_k
        = or_else (vessel->wall_w_per_k.value, fr_vessel_wall_w_per_k (&kit_out->vessel, cover));
  kit_out->hold_l = vessel->hold_l.value;
  kit_out->cutoff_l = vessel->cutoff_l.value;
  kit_out->min_level_l = vessel->min_level_l.value;
  kit_out->foam_ratio = vessel->foam_ratio.value;
  kit_out->bucket_l = vessel->bucket_l.value;
  fr_feed_from_code (vessel->feed, &kit_out->feed);
  kit_out->head_m = vessel->head_m.value;
  kit_out->hole_m = vessel->hole_m.value;
  kit_out->rest_l = kit_out->rest_brix = kit_out->rest_c = NAN;
  kit_out->poured_pan_l = kit_out->poured_brix = kit_out->poured_c = kit_out->poured_bucket_l = NAN;
  kit_out->solder = vessel->solder;
  kit_out->place = code_at (cooker->place, places, G_N_ELEMENTS (places));
  kit_out->cutoff_by = code_at (cooker->cutoff_by, cutoffs, G_N_ELEMENTS (cutoffs));
  kit_out->breaker_a = kit_out->volts_v = NAN;
  if (circuit != NULL)
    {
      kit_out->circuit_id = circuit->record.id;
      g_strlcpy (kit_out->circuit_name, circuit->name != NULL ? circuit->name : "",
                 sizeof kit_out->circuit_name);
      kit_out->breaker_a = circuit->breaker_a.value;
      kit_out->volts_v = circuit->volts_v.value;
      kit_out->other_load_w = or_else (circuit->other_load_w.value, 0);
      kit_out->gfci = circuit->gfci;
    }
  return TRUE;
}

/* --- the whole evening --- */

/* A cooker with a kept night before it, or going on, is busy. */
static void
rest_busy (FrPlanInput *input, GPtrArray *nights)
{
  for (guint i = 0; nights != NULL && i < nights->len; i++)
    {
      const FrNight *night = nights->pdata[i];

      if (night->record.archived || night->plan_end_utc == G_MININT64 || night->plan_end_utc <= input->now_utc
          || night->start_utc >= input->now_utc + PENDING_WITHIN_S)
        continue;
      for (guint k = 0; k < input->n_kits; k++)
        if (input->kits[k].cooker_id == night->cooker)
          input->kits[k].off = TRUE;
    }
}

/* Nobody is advised to overload a circuit: a cooker that would, with those before it, is off until a person
 * turns it on. */
static void
spare_circuits (FrPlanInput *input)
{
  for (guint i = 0; i < input->n_kits; i++)
    {
      FrPlanKit *kit = &input->kits[i];
      double loads_w[FR_PLAN_KITS_MAX] = { kit->power_w };
      guint n = 1;

      for (guint k = 0; k < i; k++)
        if (!input->kits[k].off && kit->circuit_id != 0 && input->kits[k].circuit_id == kit->circuit_id)
          loads_w[n++] = input->kits[k].power_w;
      kit->off = fr_circuit_load (kit->breaker_a, kit->volts_v, loads_w, n, kit->other_load_w).code
                 == FR_CIRCUIT_OVER;
    }
}

static const FrTariffRecord *
tariff_in_use (GPtrArray *tariffs)
{
  for (guint i = 0; tariffs != NULL && i < tariffs->len; i++)
    {
      const FrTariffRecord *tariff = tariffs->pdata[i];

      if (tariff->in_use && !tariff->record.archived)
        return tariff;
    }
  return NULL;
}

gboolean
fr_evening_input (const FrEveningBook *book, const FrZoneTable *zone, gint64 now_utc, FrPlanInput *input_out,
                  FrTariff **tariff_out, FrTariffProblem *tariff_problem_out)
{
  FrSapOnHand sap = fr_evening_sap (book->lots);
  const FrTariffRecord *tariff = tariff_in_use (book->tariffs);

  memset (input_out, 0, sizeof *input_out);
  memset (tariff_problem_out, 0, sizeof *tariff_problem_out);
  *tariff_out = NULL;
  if (book->household == NULL)
    return FALSE;
  input_out->sap_l = sap.volume_l;
  input_out->sap_brix = sap.brix;
  input_out->sap_c = sap.temp_c;
  input_out->oldest_utc = sap.oldest_utc;
  input_out->now_utc = now_utc;
  input_out->max_brix = DEFAULT_MAX_BRIX;
  input_out->air_c = DEFAULT_AIR_C;
  input_out->air_low_c = NAN;
  input_out->altitude_m = or_else (book->household->altitude_m.value, 0);
  input_out->water_boils_c = NAN;
  input_out->zone = zone;
  input_out->syrup_brix = or_else (book->household->syrup_brix.value, 66.9);
  input_out->jar_l = book->household->jar_l.value;
  input_out->fuel_price_per_kg = input_out->fuel_mj_per_kg = input_out->fuel_heat_ratio = NAN;

  for (guint i = 0; i < book->cookers->len && input_out->n_kits < FR_PLAN_KITS_MAX; i++)
    {
      const FrCooker *cooker = book->cookers->pdata[i];

      if (!cooker->record.archived && fr_evening_kit (book, cooker, &input_out->kits[input_out->n_kits]))
        input_out->n_kits++;
    }
  spare_circuits (input_out);
  rest_busy (input_out, book->nights);
  for (guint i = 0; book->fuels != NULL && i < book->fuels->len; i++)
    {
      const FrFuel *fuel = book->fuels->pdata[i];

      if (fuel->record.archived)
        continue;
      g_strlcpy (input_out->fuel_name, fuel->name != NULL ? fuel->name : "", sizeof input_out->fuel_name);
      input_out->fuel_price_per_kg = fuel->price_per_kg.value;
      input_out->fuel_mj_per_kg = fuel->heat_mj_per_kg.value;
      input_out->fuel_heat_ratio = fuel->heat_ratio.value;
      input_out->fuel_flame = fuel->flame;
      break;
    }
  if (tariff != NULL)
    *tariff_out
        = fr_tariff_parse (tariff->periods, tariff->holidays, or_else (tariff->adder_per_kwh.value, 0),
                           or_else (tariff->tax_ratio.value, 0), tariff_problem_out);
  input_out->tariff = *tariff_out;
  fr_plan_default_hours (input_out->tariff, zone, now_utc, &input_out->start_utc, &input_out->off_by_utc);
  return TRUE;
}

/* --- a night that was kept --- */

const FrNight *
fr_evening_pending (GPtrArray *nights, gint64 now_utc)
{
  const FrNight *latest = NULL;

  for (guint i = 0; i < nights->len; i++)
    {
      const FrNight *night = nights->pdata[i];

      if (!night->record.archived && night->plan_end_utc != G_MININT64 && night->plan_end_utc > now_utc
          && night->start_utc < now_utc + PENDING_WITHIN_S
          && (latest == NULL || night->plan_end_utc > latest->plan_end_utc))
        latest = night;
    }
  return latest;
}

gboolean
fr_evening_as_kept (FrPlanInput *input, GPtrArray *nights, const FrNight *pending)
{
  guint n_on = 0;

  input->sap_l = 0;
  for (guint i = 0; i < input->n_kits; i++)
    {
      FrPlanKit *kit = &input->kits[i];

      kit->off = TRUE;
      for (guint k = 0; k < nights->len; k++)
        {
          const FrNight *night = nights->pdata[k];

          if (night->record.archived || night->cooker != kit->cooker_id
              || night->start_utc != pending->start_utc || isnan (night->pan_l.value))
            continue;
          kit->off = FALSE;
          kit->poured_pan_l = night->pan_l.value;
          kit->poured_brix = or_else (night->pan_brix.value, night->sap_brix.value);
          kit->poured_c = or_else (night->pan_c.value, night->sap_c.value);
          kit->poured_bucket_l = or_else (night->bucket_l.value, 0);
          kit->heat_ratio = or_else (night->heat_ratio.value, kit->heat_ratio);
          input->sap_l += kit->poured_pan_l + kit->poured_bucket_l;
        }
      n_on += !kit->off;
    }
  input->kept = n_on > 0;
  input->start_utc = pending->start_utc;
  if (pending->off_by_utc != G_MININT64)
    input->off_by_utc = pending->off_by_utc;
  input->sap_brix = or_else (pending->sap_brix.value, input->sap_brix);
  input->sap_c = or_else (pending->sap_c.value, input->sap_c);
  input->air_c = or_else (pending->air_c.value, input->air_c);
  input->water_boils_c = pending->water_boils_c.value;
  input->max_brix = or_else (pending->max_brix.value, input->max_brix);
  return input->kept;
}

/* --- keeping --- */

static void
set (FrAmount *amount, double value)
{
  fr_amount_set (amount, value, NULL);
}

static void
fill_night (FrNight *night, const FrPlan *plan, const FrPlanInput *input, const FrPlanShare *share)
{
  const FrPlanKit *kit = &input->kits[share->kit];
  char *evening = fr_date_to_iso (fr_zone_local (input->zone, input->start_utc - 6 * 3600).date);

  /* A night belongs to the date of its evening: a start at one in the morning is still last evening's. */
  g_free (night->evening);
  night->evening = evening;
  night->cooker = kit->cooker_id;
  night->start_utc = input->start_utc;
  night->off_by_utc = input->off_by_utc;
  set (&night->pan_l, share->boil.start_l);
  set (&night->pan_brix, share->boil.start_brix);
  set (&night->pan_c, share->boil.start_c);
  set (&night->bucket_l, share->bucket_l);
  set (&night->sap_brix, input->sap_brix);
  set (&night->sap_c, input->sap_c);
  set (&night->air_c, input->air_c);
  set (&night->water_boils_c, input->water_boils_c);
  set (&night->max_brix, input->max_brix);
  set (&night->heat_ratio, kit->heat_ratio);
  night->plan_dry_utc = isnan (share->run.feed_dry_s)
                            ? G_MININT64
                            : input->start_utc + (gint64)lround (share->run.feed_dry_s);
  night->plan_end_utc = input->start_utc + (gint64)lround (share->run.time_s);
  set (&night->plan_left_l, share->run.left_l);
  set (&night->plan_brix, share->run.left_brix);
  set (&night->plan_energy_kwh, share->energy_kwh);
  set (&night->plan_cost, share->cost_minor);
}

static gint
by_age (gconstpointer a, gconstpointer b)
{
  const FrSapLot *one = *(const FrSapLot *const *)a, *two = *(const FrSapLot *const *)b;

  return (one->collected_utc > two->collected_utc) - (one->collected_utc < two->collected_utc);
}

static void
take_sap (FrChange *change, GPtrArray *lots, double take_l)
{
  g_autoptr (GPtrArray) oldest = g_ptr_array_new ();

  for (guint i = 0; i < lots->len; i++)
    if (!((FrRecord *)lots->pdata[i])->archived)
      g_ptr_array_add (oldest, lots->pdata[i]);
  g_ptr_array_sort (oldest, by_age);
  for (guint i = 0; i < oldest->len && take_l > 1e-9; i++)
    {
      const FrSapLot *lot = oldest->pdata[i];
      double part_l = MIN (take_l, lot_left_l (lot));
      g_autoptr (FrRecord) after = NULL;

      if (!(part_l > 0))
        continue;
      after = fr_record_copy (&lot->record);
      set (&((FrSapLot *)after)->used_l, or_else (lot->used_l.value, 0) + part_l);
      fr_change_add (change, &lot->record, after);
      take_l -= part_l;
    }
}

FrChange *
fr_evening_keep (const FrPlan *plan, const FrPlanInput *input, GPtrArray *lots, gint64 next_night_id,
                 void (*new_uid) (char uid_out[33]))
{
  FrChange *change = fr_change_new ("keep-night", NULL);

  g_return_val_if_fail (plan->status == FR_PLAN_OK, change);
  for (guint i = 0; i < plan->n_shares; i++)
    if (plan->shares[i].used)
      {
        g_autoptr (FrRecord) night = fr_record_new (FR_KIND_NIGHT);

        night->id = next_night_id++;
        new_uid (night->uid);
        fill_night ((FrNight *)night, plan, input, &plan->shares[i]);
        fr_change_add (change, NULL, night);
      }
  /* What stays for rounding goes the same way: nobody keeps a cupful. */
  take_sap (change, lots, plan->over_l < NOT_WORTH_KEEPING_L ? input->sap_l : plan->used_l);
  return change;
}
