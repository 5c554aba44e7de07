/* The season's events in order of time, and what is in the containers after the last. Each event is in stock-events.c. */
#include "domain/plan/stock-private.h"

#include "domain/maths/sucrose.h"
#include "domain/plan/gathering.h"

#include <math.h>

static FrStockEvent
event_of (const FrRecord *record)
{
  if (record->kind->id == FR_KIND_GATHERING)
    return (FrStockEvent){ ((const FrGathering *)record)->gathered_utc, record, NAN };
  if (record->kind->id == FR_KIND_POUR)
    return (FrStockEvent){ ((const FrPour *)record)->poured_utc, record, NAN };
  return (FrStockEvent){ ((const FrDip *)record)->found_utc, record, NAN };
}

static double
brix_of (const FrRecord *record)
{
  if (record->kind->id == FR_KIND_GATHERING)
    return fr_gathering_brix ((const FrGathering *)record);
  if (record->kind->id == FR_KIND_POUR)
    return fr_pour_brix ((const FrPour *)record);
  return fr_dip_brix ((const FrDip *)record);
}

static void
add_events (GArray *events, const GPtrArray *records, gint64 from_utc, gint64 at_utc)
{
  for (guint i = 0; records != NULL && i < records->len; i++)
    {
      const FrRecord *record = records->pdata[i];
      FrStockEvent event = event_of (record);

      if (record->archived || event.utc_s < from_utc || event.utc_s > at_utc)
        continue;
      event.brix = brix_of (record);
      g_array_append_val (events, event);
    }
}

/* The kinds' numbers are in the order wanted: gathering, pour, dip. */
G_STATIC_ASSERT (FR_KIND_GATHERING < FR_KIND_POUR && FR_KIND_POUR < FR_KIND_DIP);

static gint
by_time (gconstpointer a, gconstpointer b)
{
  const FrStockEvent *one = a, *other = b;

  if (one->utc_s != other->utc_s)
    return one->utc_s < other->utc_s ? -1 : 1;
  if (one->record->kind != other->record->kind)
    return one->record->kind->id < other->record->kind->id ? -1 : 1;
  return one->record->id < other->record->id ? -1 : one->record->id > other->record->id;
}

static GArray *
sorted_events (const FrSeasonBook *book, gint64 from_utc, gint64 at_utc)
{
  GArray *events = g_array_new (FALSE, FALSE, sizeof (FrStockEvent));

  add_events (events, book->gatherings, from_utc, at_utc);
  add_events (events, book->pours, from_utc, at_utc);
  add_events (events, book->dips, from_utc, at_utc);
  g_array_sort (events, by_time);
  return events;
}

static void
apply (FrStockReplay *replay, const FrStockEvent *event)
{
  if (event->record->kind->id == FR_KIND_GATHERING)
    fr_stock_apply_gathering (replay, (const FrGathering *)event->record, event->brix);
  else if (event->record->kind->id == FR_KIND_POUR)
    fr_stock_apply_pour (replay, (const FrPour *)event->record, event->brix);
  else
    fr_stock_apply_dip (replay, (const FrDip *)event->record, event->brix);
}

static double
volume_of_all (const GArray *bins)
{
  double volume_l = 0;

  for (guint i = 0; i < bins->len; i++)
    volume_l += g_array_index (bins, FrStockBin, i).volume_l;
  return volume_l;
}

static gboolean
is_store_in_use (const FrContainer *container)
{
  return container != NULL && !container->record.archived && g_strcmp0 (container->role, "store") == 0;
}

static void
replay_all (FrStockReplay *replay, const GArray *events, GArray *levels, gint64 at_utc)
{
  for (guint i = 0; replay->book->containers != NULL && i < replay->book->containers->len; i++)
    if (is_store_in_use (replay->book->containers->pdata[i]))
      fr_stock_bin (replay, ((const FrRecord *)replay->book->containers->pdata[i])->id);
  for (guint i = 0; i < events->len; i++)
    {
      const FrStockEvent *event = &g_array_index (events, FrStockEvent, i);
      FrStockLevel level = { event->utc_s, 0 };

      apply (replay, event);
      level.volume_l = volume_of_all (replay->bins);
      g_array_append_val (levels, level);
    }
  for (guint i = 0; i < replay->bins->len; i++)
    fr_stock_warm_to (replay, &g_array_index (replay->bins, FrStockBin, i), at_utc);
}

/* --- the answer --- */

static FrStockPlace
place_of (FrStockReplay *replay, const FrStockBin *bin)
{
  double brix = fr_stock_mix_brix (bin->mix), liquid_kg = bin->mix.mass_kg - (isnan (bin->ice_kg) ? 0 : bin->ice_kg);

  if (!(brix >= 0 && brix <= FR_BRIX_MAX))
    brix = NAN; /* empty, unknown, or what cannot be: there is a line */
  return (FrStockPlace){ .container = bin->container,
                         .mass_kg = bin->mix.mass_kg,
                         .sugar_kg = bin->mix.sugar_kg,
                         .volume_l = bin->volume_l,
                         .brix = brix,
                         .liquid_brix = brix * bin->mix.mass_kg / liquid_kg,
                         .brix_assumed = bin->brix_assumed,
                         .temp_c = bin->temp_c,
                         .temp_from = bin->temp_from,
                         .ice_ratio = bin->ice_kg / bin->mix.mass_kg,
                         .oldest_utc = bin->oldest_utc,
                         .used_ratio = bin->used_ratio,
                         .spoils_utc = fr_stock_spoils_utc (replay, bin),
                         .changed_utc = bin->changed_utc,
                         .clarity = bin->clarity,
                         .smell = bin->smell };
}

/* Oldest sap first, what is empty last; then by id. */
static gint
by_age (gconstpointer a, gconstpointer b)
{
  const FrStockBin *one = a, *other = b;
  gint64 first = one->oldest_utc == G_MININT64 ? G_MAXINT64 : one->oldest_utc,
         second = other->oldest_utc == G_MININT64 ? G_MAXINT64 : other->oldest_utc;

  if (first != second)
    return first < second ? -1 : 1;
  return one->id < other->id ? -1 : one->id > other->id;
}

static void
fill_places (FrStock *stock, FrStockReplay *replay)
{
  GArray *bins = replay->bins;
  double capacity_l = 0;
  gboolean known = FALSE;

  g_array_sort (bins, by_age);
  stock->places = g_new (FrStockPlace, bins->len);
  for (guint i = 0; i < bins->len; i++)
    {
      const FrStockBin *bin = &g_array_index (bins, FrStockBin, i);

      if (!bin->touched && !is_store_in_use (bin->container))
        continue;
      stock->places[stock->n_places] = place_of (replay, bin);
      stock->mass_kg += bin->mix.mass_kg;
      stock->sugar_kg += bin->mix.sugar_kg;
      stock->volume_l += stock->places[stock->n_places].volume_l;
      stock->n_places++;
      if (bin->oldest_utc != G_MININT64
          && (stock->oldest_utc == G_MININT64 || bin->oldest_utc < stock->oldest_utc))
        stock->oldest_utc = bin->oldest_utc;
      if (is_store_in_use (bin->container))
        {
          known = TRUE;
          capacity_l += bin->container->capacity_l.value;
        }
    }
  stock->capacity_l = known ? capacity_l : NAN;
}

/* Places stand oldest first. */
static void
choose_first (FrStock *stock)
{
  int oldest = -1;
  guint n = 0;

  stock->first = -1;
  for (guint i = 0; i < stock->n_places; i++)
    {
      const FrStockPlace *place = &stock->places[i];

      if (place->oldest_utc == G_MININT64 || !(place->used_ratio < 1))
        continue;
      n++;
      if (oldest < 0)
        oldest = (int)i;
      if (stock->first < 0 || place->spoils_utc < stock->places[stock->first].spoils_utc)
        stock->first = (int)i;
    }
  if (n > 1)
    stock->first_code = stock->first == oldest ? FR_FIRST_OLDEST : FR_FIRST_SPOILS;
  else
    stock->first_code = n == 1 ? FR_FIRST_ONLY : FR_FIRST_NONE;
}

FrStock *
fr_stock_new (const FrSeasonBook *book, gint64 from_utc, gint64 at_utc)
{
  FrStock *stock = g_new0 (FrStock, 1);
  g_autoptr (GArray) events = sorted_events (book, from_utc, at_utc), readings = fr_stock_readings (book, events),
                     bins = g_array_new (FALSE, FALSE, sizeof (FrStockBin));
  GArray *levels = g_array_new (FALSE, FALSE, sizeof (FrStockLevel)),
         *lines = g_array_new (FALSE, FALSE, sizeof (FrStockLine)),
         *flows = g_array_new (FALSE, FALSE, sizeof (FrStockFlow));
  FrStockReplay replay = { .book = book, .from_utc = from_utc, .readings = readings, .bins = bins, .lines = lines, .flows = flows };

  stock->from_utc = from_utc;
  stock->at_utc = at_utc;
  stock->oldest_utc = G_MININT64;
  fr_stock_warmth_init (&replay, at_utc);
  replay_all (&replay, events, levels, at_utc);
  fill_places (stock, &replay);
  choose_first (stock);
  fr_stock_warmth_clear (&replay);
  stock->n_levels = levels->len;
  stock->levels = (FrStockLevel *)(void *)g_array_free (levels, FALSE);
  stock->n_lines = lines->len;
  stock->lines = (FrStockLine *)(void *)g_array_free (lines, FALSE);
  stock->n_flows = flows->len;
  stock->flows = (FrStockFlow *)(void *)g_array_free (flows, FALSE);
  return stock;
}

void
fr_stock_free (FrStock *stock)
{
  if (stock == NULL)
    return;
  g_free (stock->places);
  g_free (stock->levels);
  g_free (stock->lines);
  g_free (stock->flows);
  g_free (stock);
}

const FrStockPlace *
fr_stock_place (const FrStock *stock, gint64 container)
{
  for (guint i = 0; i < stock->n_places; i++)
    {
      const FrContainer *there = stock->places[i].container;

      if (there != NULL ? there->record.id == container : container == 0)
        return &stock->places[i];
    }
  return NULL;
}
