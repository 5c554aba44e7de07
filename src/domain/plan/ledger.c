/* The season's account, from the flows of the stock (stock.c) and the nights. Sums are conservation of mass. */
#include "domain/plan/ledger-private.h"
#include "domain/plan/stock-private.h"

#include "domain/maths/sucrose.h"

#include <math.h>
#include <stdlib.h>

/* --- sums --- */

static void
add_sum (FrLedgerSum *sum, int sign, double volume_l, double mass_kg, double sugar_kg)
{
  sum->volume_l += sign * volume_l;
  sum->mass_kg += sign * mass_kg;
  sum->sugar_kg += sign * sugar_kg;
}

static void
add_flow (FrLedgerAccount *account, const FrStockFlow *flow, gboolean inside)
{
  FrLedgerSum *sum = &account->flows[flow->kind];

  if (flow->kind == FR_FLOW_FOUND && flow->mass_kg < 0)
    sum = &account->found_less;
  else if (flow->kind == FR_FLOW_MOVED && inside)
    sum = &account->moved_in;
  add_sum (sum, 1, flow->volume_l, flow->mass_kg, flow->sugar_kg);
}

/* What has come in less what has left, litre by litre. */
static double
litres_in (const FrLedgerAccount *account)
{
  double litres_l = account->flows[FR_FLOW_GATHERED].volume_l + account->flows[FR_FLOW_FOUND].volume_l
                    + account->found_less.volume_l + account->moved_in.volume_l;

  for (guint kind = FR_FLOW_MOVED; kind < FR_FLOW_FOUND; kind++)
    litres_l -= account->flows[kind].volume_l;
  return litres_l;
}

static gint64
id_of (const FrContainer *container)
{
  return container != NULL ? container->record.id : 0;
}

static gint
by_container (gconstpointer a, gconstpointer b)
{
  gint64 one = id_of (((const FrLedgerAccount *)a)->container), other = id_of (((const FrLedgerAccount *)b)->container);

  return one < other ? -1 : one > other;
}

static void
fill_accounts (FrLedger *ledger)
{
  const FrStock *stock = ledger->stock;

  ledger->n_accounts = stock->n_places;
  ledger->accounts = g_new0 (FrLedgerAccount, stock->n_places);
  for (guint i = 0; i < stock->n_places; i++)
    {
      FrLedgerAccount *account = &ledger->accounts[i];
      const FrStockPlace *place = &stock->places[i];

      account->container = place->container;
      account->there = (FrLedgerSum){ place->volume_l, place->mass_kg, place->sugar_kg };
      for (guint k = 0; k < stock->n_flows; k++)
        {
          const FrStockFlow *flow = &stock->flows[k];

          if (flow->from == id_of (place->container))
            add_flow (account, flow, FALSE);
          if (flow->to == id_of (place->container))
            add_flow (account, flow, TRUE);
        }
      account->mixing_l = account->there.volume_l - litres_in (account);
    }
  for (guint k = 0; k < stock->n_flows; k++)
    if (stock->flows[k].kind != FR_FLOW_MOVED)
      add_flow (&ledger->all, &stock->flows[k], FALSE);
  ledger->all.there = (FrLedgerSum){ stock->volume_l, stock->mass_kg, stock->sugar_kg };
  ledger->all.mixing_l = stock->volume_l - litres_in (&ledger->all);
  if (ledger->n_accounts > 1)
    qsort (ledger->accounts, ledger->n_accounts, sizeof *ledger->accounts, by_container);
}

/* Ice that was thrown out at the trees. */
static void
add_tree_ice (FrLedger *ledger, const FrStockFlow *flow)
{
  const FrGathering *gathering = (const FrGathering *)flow->record;
  double brix = gathering->ice_brix.value, litres_l = gathering->ice_l.value, mass_kg;

  if (!(litres_l > 0))
    return;
  if (!(brix >= 0 && brix <= FR_BRIX_MAX))
    brix = fmin (FR_STOCK_ICE_BRIX, isnan (flow->sugar_kg) || flow->mass_kg <= 0 ? INFINITY
                                                                                : 100 * flow->sugar_kg / flow->mass_kg);
  mass_kg = 1e-3 * litres_l * fr_sucrose_density_kg_m3 (brix, FR_STOCK_C);
  add_sum (&ledger->tree_ice, 1, litres_l, mass_kg, mass_kg * brix / 100);
}

/* --- nights --- */

static FrLedgerSum
told_by (const FrNight *night)
{
  const double volume_l[] = { night->pan_l.value, night->bucket_l.value },
               brix[] = { night->pan_brix.value, night->sap_brix.value };
  FrLedgerSum told = { 0 };

  for (guint i = 0; i < 2; i++)
    if (volume_l[i] > 0)
      {
        gboolean known = brix[i] >= 0 && brix[i] <= FR_BRIX_MAX;
        double mass_kg = 1e-3 * volume_l[i]
                         * fr_sucrose_density_kg_m3 (known ? brix[i] : FR_STOCK_SAP_BRIX, FR_STOCK_C);

        add_sum (&told, 1, volume_l[i], mass_kg, mass_kg * (known ? brix[i] : NAN) / 100);
      }
  return told;
}

static gint
by_start (gconstpointer a, gconstpointer b)
{
  const FrNight *one = ((const FrLedgerNight *)a)->night, *other = ((const FrLedgerNight *)b)->night;

  if (one->start_utc != other->start_utc)
    return one->start_utc < other->start_utc ? -1 : 1;
  return one->record.id < other->record.id ? -1 : one->record.id > other->record.id;
}

static void
fill_nights (FrLedger *ledger, const FrSeasonBook *book)
{
  GArray *nights = g_array_new (FALSE, TRUE, sizeof (FrLedgerNight));

  for (guint i = 0; book->nights != NULL && i < book->nights->len; i++)
    {
      FrLedgerNight night = { .night = book->nights->pdata[i] };

      if (night.night->record.archived || night.night->start_utc < ledger->from_utc
          || night.night->start_utc > ledger->at_utc)
        continue;
      night.told = told_by (night.night);
      for (guint k = 0; k < ledger->stock->n_flows; k++)
        {
          const FrStockFlow *flow = &ledger->stock->flows[k];

          if (fr_ledger_boil_of (flow) == NULL || fr_ledger_boil_of (flow)->night != night.night->record.id)
            continue;
          night.n_pours++;
          add_sum (&night.poured, 1, flow->volume_l, flow->mass_kg, flow->sugar_kg);
        }
      g_array_append_val (nights, night);
    }
  g_array_sort (nights, by_start);
  ledger->n_nights = nights->len;
  ledger->nights = (FrLedgerNight *)(void *)g_array_free (nights, FALSE);
}

FrLedger *
fr_ledger_new (const FrSeasonBook *book, guint season, gint64 now_utc)
{
  FrLedger *ledger = g_new0 (FrLedger, 1);
  g_autoptr (FrLedgerUsual) usual = NULL;
  gint64 day_utc, end_utc;

  ledger->season = season;
  fr_day_span_utc (book->zone, fr_season_first_day (season), &ledger->from_utc, &day_utc);
  fr_day_span_utc (book->zone, fr_season_last_day (season), &day_utc, &end_utc);
  ledger->at_utc = MIN (now_utc, end_utc - 1);
  ledger->stock = fr_stock_new (book, ledger->from_utc, ledger->at_utc);
  for (guint k = 0; k < ledger->stock->n_flows; k++)
    if (ledger->stock->flows[k].kind == FR_FLOW_GATHERED)
      add_tree_ice (ledger, &ledger->stock->flows[k]);
  usual = fr_ledger_usual_new (ledger->stock, book->zone);
  fill_accounts (ledger);
  fill_nights (ledger, book);
  fr_ledger_fill_lines (ledger, book, usual);
  return ledger;
}

void
fr_ledger_free (FrLedger *ledger)
{
  if (ledger == NULL)
    return;
  g_free (ledger->accounts);
  g_free (ledger->nights);
  g_free (ledger->lines);
  fr_stock_free (ledger->stock);
  g_free (ledger);
}
