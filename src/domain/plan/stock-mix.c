/* Litres, °Bx and kilograms of sap in store, and the readings that stand in for those that were not taken. Density: maths/sucrose.c
 * at FR_STOCK_C. That sap of one season and week is much alike in sweetness is common practice, no source; measured at one site it
 * fell by 0.014 °Bx a day over a season, so that half a day further off makes no difference. */
#include "domain/plan/stock-private.h"

#include "domain/maths/sucrose.h"
#include "domain/plan/gathering.h"

#include <math.h>
#include <string.h>

#define NEAR_S (12 * 3600)
/* A mix of less has no sweetness: its numbers are rounding. */
#define ROUNDING_KG 1e-9

static double
density (double brix)
{
  return fr_sucrose_density_kg_m3 (isnan (brix) ? FR_STOCK_SAP_BRIX : CLAMP (brix, 0, FR_BRIX_MAX), FR_STOCK_C);
}

FrStockMix
fr_stock_mix_of (double volume_l, double brix)
{
  double mass_kg = 1e-3 * volume_l * density (brix);

  return (FrStockMix){ mass_kg, mass_kg * brix / 100 };
}

double
fr_stock_mix_l (FrStockMix mix)
{
  return 1e3 * mix.mass_kg / density (fabs (mix.mass_kg) > ROUNDING_KG ? 100 * mix.sugar_kg / mix.mass_kg : 0);
}

double
fr_stock_mix_brix (FrStockMix mix)
{
  return mix.mass_kg > ROUNDING_KG ? 100 * mix.sugar_kg / mix.mass_kg : NAN;
}

const FrContainer *
fr_stock_container (const FrSeasonBook *book, gint64 id)
{
  guint low = 0, high = book->containers != NULL ? book->containers->len : 0;

  while (low < high)
    {
      guint middle = (low + high) / 2;
      const FrRecord *record = book->containers->pdata[middle];

      if (record->id == id)
        return (const FrContainer *)record;
      if (record->id < id)
        low = middle + 1;
      else
        high = middle;
    }
  return NULL;
}

static void
add_reading (GArray *readings, gint64 utc_s, double brix, double volume_l, gint64 from_utc, gint64 at_utc)
{
  FrStockReading reading = { utc_s, brix, volume_l };

  if (utc_s >= from_utc && utc_s <= at_utc && !isnan (brix) && volume_l > 0)
    g_array_append_val (readings, reading);
}

static void
add_gatherings (GArray *readings, const FrSeasonBook *book, gint64 from_utc, gint64 at_utc)
{
  for (guint i = 0; book->gatherings != NULL && i < book->gatherings->len; i++)
    {
      const FrGathering *gathering = book->gatherings->pdata[i];
      double brix = gathering->record.archived ? NAN : fr_gathering_brix (gathering);

      add_reading (readings, gathering->gathered_utc, brix,
                   fr_gathering_l (gathering, fr_stock_container (book, gathering->bucket), brix), from_utc,
                   at_utc);
    }
}

static void
add_others (GArray *readings, const FrSeasonBook *book, gint64 from_utc, gint64 at_utc)
{
  for (guint i = 0; book->dips != NULL && i < book->dips->len; i++)
    {
      const FrDip *dip = book->dips->pdata[i];

      add_reading (readings, dip->found_utc, dip->record.archived ? NAN : fr_dip_brix (dip), 1, from_utc,
                   at_utc);
    }
  for (guint i = 0; book->pours != NULL && i < book->pours->len; i++)
    {
      const FrPour *pour = book->pours->pdata[i];

      if (strcmp (pour->reason, "ice") != 0)
        add_reading (readings, pour->poured_utc, pour->record.archived ? NAN : fr_pour_brix (pour), 1,
                     from_utc, at_utc);
    }
}

static gint
by_time (gconstpointer a, gconstpointer b)
{
  const FrStockReading *one = a, *other = b;

  return one->utc_s < other->utc_s ? -1 : one->utc_s > other->utc_s;
}

GArray *
fr_stock_readings (const FrSeasonBook *book, gint64 from_utc, gint64 at_utc)
{
  GArray *readings = g_array_new (FALSE, FALSE, sizeof (FrStockReading));

  add_gatherings (readings, book, from_utc, at_utc);
  if (readings->len == 0)
    add_others (readings, book, from_utc, at_utc);
  g_array_sort (readings, by_time);
  return readings;
}

double
fr_stock_usual_brix (const GArray *readings, gint64 utc_s)
{
  const FrStockReading *at = (const FrStockReading *)(const void *)readings->data;
  guint low = 0, high = readings->len;
  gint64 reach_s = G_MAXINT64;
  double sum = 0, litres_l = 0;

  if (readings->len == 0)
    return NAN;
  while (low < high) /* the first that is not before */
    if (at[(low + high) / 2].utc_s < utc_s)
      low = (low + high) / 2 + 1;
    else
      high = (low + high) / 2;
  if (low < readings->len)
    reach_s = at[low].utc_s - utc_s;
  if (low > 0)
    reach_s = MIN (reach_s, utc_s - at[low - 1].utc_s);
  reach_s += NEAR_S;
  while (low > 0 && utc_s - at[low - 1].utc_s <= reach_s)
    low--;
  for (guint i = low; i < readings->len && at[i].utc_s - utc_s <= reach_s; i++)
    {
      sum += at[i].brix * at[i].volume_l;
      litres_l += at[i].volume_l;
    }
  return sum / litres_l;
}
