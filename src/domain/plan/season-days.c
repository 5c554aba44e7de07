/* Weather, taps and sap put into the days of a season. What came in and how sweet it was is the store's own account (stock.h), so that
 * the calendar and the store cannot disagree; a gathering dated after the moment seen is no sap in store yet and is read by itself. */
#include "domain/plan/season-private.h"

#include "domain/plan/gathering.h"
#include "domain/plan/stock-private.h"

#include <math.h>

static void
add (double *sum, double value)
{
  if (!isnan (value))
    *sum = (isnan (*sum) ? 0 : *sum) + value;
}

static FrSeasonDay *
day_of (FrSeasonView *view, FrDate date)
{
  int index = date.year != 0 ? fr_season_index (view, date) : -1;

  return index >= 0 ? &view->days[index] : NULL;
}

static void
fill_taps (FrSeasonView *view, GPtrArray *taps)
{
  for (guint i = 0; taps != NULL && i < taps->len; i++)
    {
      const FrTap *tap = taps->pdata[i];
      FrDate set;
      FrSeasonDay *day;

      if (!fr_season_tap (tap, view->season, &set))
        continue;
      if ((day = day_of (view, set)) != NULL)
        day->taps_set++;
      if ((day = day_of (view, fr_season_date (tap->pulled_on))) != NULL)
        day->taps_pulled++;
    }
}

void
fr_season_fill_weather (FrSeasonView *view, const FrSeasonBook *book)
{
  for (guint i = 0; book->days != NULL && i < book->days->len; i++)
    {
      const FrDay *record = book->days->pdata[i];
      FrSeasonDay *day = record->record.archived ? NULL : day_of (view, fr_season_date (record->day));

      if (day == NULL)
        continue;
      day->day = record;
      day->low_c = record->low_c.value;
      day->high_c = record->high_c.value;
      day->is_expected_weather = record->expected && !(isnan (day->low_c) && isnan (day->high_c));
      day->buds = record->buds;
    }
  fill_taps (view, book->taps);
}

/* What the store says of each gathering, by its record. */
static GHashTable *
flows_by_gathering (const FrStock *stock)
{
  GHashTable *flows = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < stock->n_flows; i++)
    if (stock->flows[i].kind == FR_FLOW_GATHERED)
      g_hash_table_insert (flows, (gpointer)stock->flows[i].record, &stock->flows[i]);
  return flows;
}

static void
add_gathering (FrSeasonDay *day, const FrGathering *gathering, const FrStockFlow *flow, const FrSeasonBook *book)
{
  day->n_gatherings++;
  day->n_estimated += g_strcmp0 (gathering->scope, "bush") == 0 || g_strcmp0 (gathering->scope, "group") == 0;
  add (&day->ice_l, gathering->ice_l.value);
  if (flow != NULL)
    {
      add (&day->gathered_l, flow->volume_l);
      add (&day->sugar_kg, flow->sugar_kg);
      day->is_sugar_assumed = day->is_sugar_assumed || flow->brix_assumed;
    }
  else
    {
      const FrContainer *bucket = fr_stock_container (book, gathering->bucket);

      add (&day->gathered_l, fr_gathering_l (gathering, bucket, FR_STOCK_SAP_BRIX));
    }
}

static void
fill_store (FrSeasonView *view)
{
  guint level = 0;
  double volume_l = NAN;

  for (guint i = 0; i < view->n_days && view->days[i].from_utc <= view->now_utc; i++)
    {
      for (; level < view->n_levels && view->levels[level].utc_s < view->days[i].to_utc; level++)
        volume_l = view->levels[level].volume_l;
      view->days[i].store_l = volume_l;
    }
}

void
fr_season_fill_sap (FrSeasonView *view, const FrSeasonBook *book)
{
  g_autoptr (GHashTable) flows = flows_by_gathering (view->stock);

  for (guint i = 0; book->gatherings != NULL && i < book->gatherings->len; i++)
    {
      const FrGathering *gathering = book->gatherings->pdata[i];
      FrSeasonDay *day = gathering->record.archived || gathering->gathered_utc == G_MININT64
                             ? NULL
                             : day_of (view, fr_zone_local (book->zone, gathering->gathered_utc).date);

      if (day != NULL)
        add_gathering (day, gathering, g_hash_table_lookup (flows, gathering), book);
    }
  fill_store (view);
}
