/* From the book's records to an evening's input, and from a plan back to records to keep. */
#include "domain/plan/evening.h"

#include "domain/maths/sucrose.h"
#include "domain/plan/bush.h"
#include "domain/plan/stock.h"
#include "domain/records/vessel-shape.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DEFAULT_MAX_BRIX 60.0
#define DEFAULT_AIR_C 0.0
#define DEFAULT_SAP_C 4.0 /* as cold sap is kept; common sense, no source */
#define PENDING_WITHIN_S 86400 /* a night kept for later than this is not tonight's */
#define NOT_WORTH_KEEPING_L 0.2

static double
or_else (double value, double otherwise)
{
  return isnan (value) ? otherwise : value;
}

/* --- sap --- */

/* The store as it is now: nothing of another season is left over. */
static FrStock *
stock_now (const FrSeasonBook *book, gint64 now_utc)
{
  FrDate today = fr_zone_local (book->zone, now_utc).date;
  gint64 from_utc, to_utc;

  fr_day_span_utc (book->zone, fr_season_first_day (fr_season_of (today)), &from_utc, &to_utc);
  return fr_stock_new (book, from_utc, now_utc);
}

/* A few millilitres are rounding, not sap. */
static double
waiting_l (const FrStockPlace *place)
{
  return place->volume_l > 0.005 ? place->volume_l : 0;
}

FrSapOnHand
fr_evening_sap (const FrSeasonBook *book, gint64 now_utc)
{
  FrSapOnHand sap = { 0, NAN, NAN, G_MININT64, G_MININT64, 0 };
  g_autoptr (FrStock) stock = stock_now (book, now_utc);
  double sugar_kg = 0, mass_kg = 0, heat = 0, warm_kg = 0;

  for (guint i = 0; i < stock->n_places; i++)
    {
      const FrStockPlace *place = &stock->places[i];

      if (!(waiting_l (place) > 0))
        continue;
      sap.n_places++;
      sap.volume_l += place->volume_l;
      if (!isnan (place->sugar_kg))
        {
          mass_kg += place->mass_kg;
          sugar_kg += place->sugar_kg;
        }
      if (!isnan (place->temp_c))
        {
          heat += place->mass_kg * place->temp_c;
          warm_kg += place->mass_kg;
        }
      if (place->oldest_utc != G_MININT64
          && (sap.oldest_utc == G_MININT64 || place->oldest_utc < sap.oldest_utc))
        sap.oldest_utc = place->oldest_utc;
      if (place->spoils_utc != G_MININT64
          && (sap.spoils_utc == G_MININT64 || place->spoils_utc < sap.spoils_utc))
        sap.spoils_utc = place->spoils_utc;
    }
  if (mass_kg > 0)
    sap.brix = 100 * sugar_kg / mass_kg;
  if (warm_kg > 0)
    sap.temp_c = heat / warm_kg;
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
fr_evening_kit (const FrSeasonBook *book, const FrCooker *cooker, FrPlanKit *kit_out)
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

const FrTariffRecord *
fr_evening_tariff (GPtrArray *tariffs)
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
fr_evening_input (const FrSeasonBook *book, const FrZoneTable *zone, gint64 now_utc, FrPlanInput *input_out,
                  FrTariff **tariff_out, FrTariffProblem *tariff_problem_out)
{
  FrSapOnHand sap;
  const FrTariffRecord *tariff = fr_evening_tariff (book->tariffs);

  memset (input_out, 0, sizeof *input_out);
  memset (tariff_problem_out, 0, sizeof *tariff_problem_out);
  *tariff_out = NULL;
  if (book->household == NULL)
    return FALSE;
  sap = fr_evening_sap (book, now_utc);
  input_out->sap_l = sap.volume_l;
  input_out->sap_brix = sap.brix;
  input_out->sap_c = or_else (sap.temp_c, DEFAULT_SAP_C);
  input_out->oldest_utc = sap.oldest_utc;
  input_out->spoils_utc = sap.spoils_utc;
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

static FrRecord *
pour (gint64 container, gint64 night, gint64 poured_utc, double volume_l)
{
  FrPour *pour = (FrPour *)fr_record_new (FR_KIND_POUR);

  pour->poured_utc = poured_utc;
  g_free (pour->reason);
  pour->reason = g_strdup ("boiled");
  pour->container = container;
  pour->night = night;
  set (&pour->volume_l, volume_l);
  return &pour->record;
}

/* What may be spoiled goes last: somebody has to look at it first. */
static gint64
turn_of (const FrStockPlace *place)
{
  return place->used_ratio < 1 && place->spoils_utc != G_MININT64 ? place->spoils_utc : G_MAXINT64;
}

static int
by_turn (gconstpointer a, gconstpointer b)
{
  const FrStockPlace *one = *(const FrStockPlace *const *)a, *other = *(const FrStockPlace *const *)b;

  if (turn_of (one) != turn_of (other))
    return turn_of (one) < turn_of (other) ? -1 : 1;
  return one < other ? -1 : 1; /* the oldest first, as they stand */
}

/* The first to spoil first, which is what the store advises too (stock.h). */
static const FrStockPlace **
places_in_order (const FrStock *stock)
{
  const FrStockPlace **order = g_new (const FrStockPlace *, stock->n_places);

  for (guint i = 0; i < stock->n_places; i++)
    order[i] = &stock->places[i];
  if (stock->n_places > 1)
    qsort (order, stock->n_places, sizeof *order, by_turn);
  return order;
}

FrChange *
fr_evening_keep (const FrPlan *plan, const FrPlanInput *input, const FrSeasonBook *book, gint64 next_night_id,
                 gint64 next_pour_id, void (*new_uid) (char uid_out[33]))
{
  FrChange *change = fr_change_new ("keep-night", NULL);
  g_autoptr (FrStock) stock = stock_now (book, input->now_utc);
  /* What stays for rounding goes the same way: nobody keeps a cupful. */
  double more_l = plan->over_l < NOT_WORTH_KEEPING_L ? input->sap_l - plan->used_l : 0, left_l = NAN;
  g_autofree const FrStockPlace **order = places_in_order (stock);
  guint place = 0;

  g_return_val_if_fail (plan->status == FR_PLAN_OK, change);
  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanShare *share = &plan->shares[i];
      g_autoptr (FrRecord) night = NULL;
      double want_l = share->pan_l + share->bucket_l + more_l;

      if (!share->used)
        continue;
      more_l = 0;
      night = fr_record_new (FR_KIND_NIGHT);
      night->id = next_night_id++;
      new_uid (night->uid);
      fill_night ((FrNight *)night, plan, input, share);
      fr_change_add (change, NULL, night);
      while (want_l > 1e-9 && place < stock->n_places)
        {
          const FrStockPlace *from = order[place];
          g_autoptr (FrRecord) taken = NULL;
          double part_l;

          if (isnan (left_l))
            left_l = waiting_l (from);
          part_l = MIN (want_l, left_l);
          if (part_l > 0)
            {
              taken = pour (from->container != NULL ? from->container->record.id : 0, night->id, input->now_utc, part_l);
              taken->id = next_pour_id++;
              new_uid (taken->uid);
              fr_change_add (change, NULL, taken);
              want_l -= part_l;
              left_l -= part_l;
            }
          if (!(left_l > 1e-9))
            {
              left_l = NAN;
              place++;
            }
        }
    }
  return change;
}
