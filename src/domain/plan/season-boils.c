/* Kept nights as the season counts them: sap poured, its sugar, energy and money.
 *
 * A night's record tells what stood in the pan at the start, which may be part sap and part what the last boil left; only its °Bx shows
 * that. Sugar is mass times °Bx, mass by the density at FR_STOCK_C as everywhere in the store. Energy that was read costs what the plan's
 * cost for each kWh: the same hours, and the prices of that time, which the tariff in use today need not have. */
#include "domain/plan/season-private.h"

#include "domain/maths/sucrose.h"

#include <math.h>

/* °Bx by which a pan is sweeter than its sap at the least when something of an earlier boil is in it: readings of one sap differ by
 * less. Common sense, no source. */
#define SWEETER_BRIX 0.5
/* Syrup of a household that did not say: as published for most of North America; the same as in evening.c. */
#define SYRUP_BRIX 66.9
#define SYRUP_C 20.0

double
fr_season_syrup_sugar_kg (const FrHousehold *household)
{
  double brix = household != NULL && !isnan (household->syrup_brix.value) ? household->syrup_brix.value : SYRUP_BRIX;

  return 1e-5 * brix * fr_sucrose_density_kg_m3 (brix, SYRUP_C);
}

gboolean
fr_season_night_has_findings (const FrNight *night)
{
  return night->end_utc != G_MININT64 || !isnan (night->left_l.value) || !isnan (night->left_brix.value)
         || !isnan (night->left_boil_c.value) || !isnan (night->bucket_left_l.value) || !isnan (night->meter_kwh.value);
}

gint64
fr_season_night_end_utc (const FrNight *night)
{
  const gint64 all[] = { night->end_utc, night->plan_end_utc, night->off_by_utc };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    if (all[i] != G_MININT64)
      return all[i];
  return night->start_utc;
}

double
fr_season_brix (double volume_l, double sugar_kg)
{
  double brix = 0;

  if (!(volume_l > 0) || !(sugar_kg >= 0))
    return NAN;
  /* Density hardly follows sweetness: each step is nearer by a factor of hundreds. */
  for (guint i = 0; i < 4; i++)
    brix = 1e5 * sugar_kg / (volume_l * fr_sucrose_density_kg_m3 (MIN (brix, FR_BRIX_MAX), FR_STOCK_C));
  return brix;
}

static double
or_zero (double value)
{
  return isnan (value) ? 0 : value;
}

static double
energy_cost_minor (const FrNight *night, double energy_kwh)
{
  double plan_kwh = night->plan_energy_kwh.value;

  if (isnan (night->meter_kwh.value) || !(plan_kwh > 0))
    return night->plan_cost.value;
  return night->plan_cost.value * energy_kwh / plan_kwh;
}

void
fr_season_boil (const FrNight *night, double store_l, gint64 now_utc, FrSeasonBoil *boil_out)
{
  double brix = night->sap_brix.value, bucket_l = or_zero (night->bucket_l.value);
  double density = 1e-3 * fr_sucrose_density_kg_m3 (isnan (brix) ? 0 : brix, FR_STOCK_C);
  gboolean is_rest = night->pan_brix.value > brix + SWEETER_BRIX;

  boil_out->evening = fr_season_date (night->evening);
  boil_out->is_planned = night->start_utc > now_utc;
  if (!is_rest)
    boil_out->volume_l = or_zero (night->pan_l.value) + bucket_l;
  else
    boil_out->volume_l = isnan (store_l) ? bucket_l : store_l;
  boil_out->sugar_kg = (boil_out->volume_l - or_zero (night->bucket_left_l.value)) * density * brix / 100;
  boil_out->energy_kwh = isnan (night->meter_kwh.value) ? night->plan_energy_kwh.value : night->meter_kwh.value;
  boil_out->cost_minor = energy_cost_minor (night, boil_out->energy_kwh);
}

/* --- into the days --- */

static void
add (double *sum, double value)
{
  if (!isnan (value))
    *sum = or_zero (*sum) + value;
}

/* Litres that left the store for each night, by its id. */
static GHashTable *
poured_by_night (const FrStock *stock)
{
  GHashTable *poured = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);

  for (guint i = 0; i < stock->n_flows; i++)
    {
      const FrStockFlow *flow = &stock->flows[i];
      gint64 night = flow->kind == FR_FLOW_BOILED ? ((const FrPour *)flow->record)->night : 0;
      double *sum = g_hash_table_lookup (poured, &night);

      if (night == 0)
        continue;
      if (sum == NULL)
        {
          sum = g_new0 (double, 1);
          g_hash_table_insert (poured, g_memdup2 (&night, sizeof night), sum);
        }
      *sum += flow->volume_l;
    }
  return poured;
}

static void
add_night (FrSeasonView *view, const FrNight *night, GHashTable *poured)
{
  const double *store_l = g_hash_table_lookup (poured, &night->record.id);
  FrSeasonBoil boil;
  FrSeasonDay *day;
  int index;

  fr_season_boil (night, store_l != NULL ? *store_l : NAN, view->now_utc, &boil);
  index = fr_season_index (view, boil.evening);
  if (index < 0)
    return;
  day = &view->days[index];
  day->is_boil_planned = boil.is_planned && (day->n_boils == 0 || day->is_boil_planned);
  day->n_boils++;
  add (&day->boiled_l, boil.volume_l);
  add (&day->boiled_sugar_kg, boil.sugar_kg);
  add (&day->energy_kwh, boil.energy_kwh);
  add (&day->cost_minor, boil.cost_minor);
}

/* Sap that was boiled without a kept night: on a stove, over wood. */
static void
add_other_boils (FrSeasonView *view, const FrSeasonBook *book)
{
  int last = -1;

  for (guint i = 0; i < view->stock->n_flows; i++)
    {
      const FrStockFlow *flow = &view->stock->flows[i];
      FrSeasonDay *day;
      int index;

      if (flow->kind != FR_FLOW_BOILED || fr_season_find (book->nights, ((const FrPour *)flow->record)->night) != NULL)
        continue;
      index = fr_season_index (view, fr_season_evening (book->zone, flow->utc_s));
      if (index < 0)
        continue;
      day = &view->days[index];
      day->is_boil_planned = FALSE;
      day->n_boils += index != last;
      last = index;
      add (&day->boiled_l, flow->volume_l);
      add (&day->boiled_sugar_kg, flow->sugar_kg);
    }
}

void
fr_season_fill_boils (FrSeasonView *view, const FrSeasonBook *book)
{
  g_autoptr (GHashTable) poured = poured_by_night (view->stock);

  for (guint i = 0; book->nights != NULL && i < book->nights->len; i++)
    if (!((const FrRecord *)book->nights->pdata[i])->archived)
      add_night (view, book->nights->pdata[i], poured);
  add_other_boils (view, book);
}
