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
add_reading (GArray *readings, gint64 utc_s, double brix, double volume_l)
{
  FrStockReading reading = { utc_s, volume_l, volume_l * brix };

  if (isnan (brix) || !(volume_l > 0))
    return;
  if (readings->len > 0)
    {
      const FrStockReading *last = &g_array_index (readings, FrStockReading, readings->len - 1);

      reading.sum_l += last->sum_l;
      reading.sum_brix_l += last->sum_brix_l;
    }
  g_array_append_val (readings, reading);
}

static void
add_gatherings (GArray *readings, const FrSeasonBook *book, const GArray *events)
{
  for (guint i = 0; i < events->len; i++)
    {
      const FrStockEvent *event = &g_array_index (events, FrStockEvent, i);
      const FrGathering *gathering = (const FrGathering *)event->record;

      if (event->record->kind->id == FR_KIND_GATHERING && !isnan (event->brix))
        add_reading (readings, event->utc_s, event->brix,
                     fr_gathering_at_l (gathering, fr_stock_container (book, gathering->bucket), event->brix));
    }
}

static void
add_others (GArray *readings, const GArray *events)
{
  for (guint i = 0; i < events->len; i++)
    {
      const FrStockEvent *event = &g_array_index (events, FrStockEvent, i);

      if (event->record->kind->id == FR_KIND_DIP
          || (event->record->kind->id == FR_KIND_POUR
              && strcmp (((const FrPour *)event->record)->reason, "ice") != 0))
        add_reading (readings, event->utc_s, event->brix, 1);
    }
}

GArray *
fr_stock_readings (const FrSeasonBook *book, const GArray *events)
{
  GArray *readings = g_array_new (FALSE, FALSE, sizeof (FrStockReading));

  add_gatherings (readings, book, events);
  if (readings->len == 0)
    add_others (readings, events);
  return readings;
}

/* The first reading that is not before an instant, or their number. */
static guint
first_from (const GArray *readings, gint64 utc_s)
{
  guint low = 0, high = readings->len;

  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (g_array_index (readings, FrStockReading, middle).utc_s < utc_s)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

double
fr_stock_usual_brix (const GArray *readings, gint64 utc_s)
{
  const FrStockReading *at = (const FrStockReading *)(const void *)readings->data, *last;
  gint64 reach_s = G_MAXINT64;
  guint near, from, to;

  if (readings->len == 0)
    return NAN;
  near = first_from (readings, utc_s);
  if (near < readings->len)
    reach_s = at[near].utc_s - utc_s;
  if (near > 0)
    reach_s = MIN (reach_s, utc_s - at[near - 1].utc_s);
  reach_s += NEAR_S;
  from = first_from (readings, utc_s - reach_s);
  to = first_from (readings, utc_s + reach_s + 1);
  last = &at[to - 1]; /* there is one: the nearest */
  if (from == 0)
    return last->sum_brix_l / last->sum_l;
  return (last->sum_brix_l - at[from - 1].sum_brix_l) / (last->sum_l - at[from - 1].sum_l);
}
