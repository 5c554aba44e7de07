/* What one gathering, one pour or one look does to the containers. Mass and sugar are neither made nor lost: what leaves one place comes
 * to another, and what a look finds beyond the reckoning is kept as a flow and a line. */
#include "domain/plan/stock-private.h"

#include "domain/maths/sucrose.h"
#include "domain/plan/gathering.h"

#include <math.h>

/* A place that is not in the book is none that was said. */
static gint64
known_id (const FrStockReplay *replay, gint64 id)
{
  return fr_stock_container (replay->book, id) != NULL ? id : 0;
}

FrStockBin *
fr_stock_bin (FrStockReplay *replay, gint64 container)
{
  gint64 id = known_id (replay, container);
  FrStockBin bin = { .id = id,
                     .container = fr_stock_container (replay->book, id),
                     .oldest_utc = G_MININT64,
                     .used_ratio = NAN,
                     .spoiled_utc = G_MININT64,
                     .temp_c = NAN,
                     .ice_kg = NAN,
                     .temp_from = FR_STOCK_TEMP_UNKNOWN,
                     .warm_utc = replay->from_utc,
                     .known_utc = G_MININT64,
                     .clarity = "unknown",
                     .smell = "unknown",
                     .changed_utc = G_MININT64,
                     .since_utc = replay->from_utc };

  for (guint i = 0; i < replay->bins->len; i++)
    if (g_array_index (replay->bins, FrStockBin, i).id == id)
      return &g_array_index (replay->bins, FrStockBin, i);
  g_array_append_val (replay->bins, bin);
  return &g_array_index (replay->bins, FrStockBin, replay->bins->len - 1);
}

/* --- lines and flows --- */

static void
add_line (FrStockReplay *replay, FrStockLineCode code, const FrStockBin *bin, double computed_l, double volume_l,
          double sugar_kg, gint64 utc_s, const FrRecord *record)
{
  FrStockLine line = { code, utc_s, bin->since_utc, bin->id, computed_l, volume_l, sugar_kg, record };

  g_array_append_val (replay->lines, line);
}

static void
add_flow (FrStockReplay *replay, FrStockFlowKind kind, gint64 utc_s, gint64 from, gint64 to, double volume_l,
          FrStockMix mix, gboolean brix_assumed, const FrRecord *record)
{
  FrStockFlow flow
      = { kind, utc_s, from, to, volume_l, mix.mass_kg, mix.sugar_kg, brix_assumed, record };

  g_array_append_val (replay->flows, flow);
}

/* --- a container's state --- */

void
fr_stock_set_mix (FrStockBin *bin, FrStockMix mix)
{
  bin->mix = mix;
  bin->volume_l = fr_stock_mix_l (mix);
}

static void
set_empty (FrStockBin *bin)
{
  bin->brix_assumed = FALSE;
  bin->oldest_utc = G_MININT64;
  bin->used_ratio = NAN;
  bin->clarity = "unknown";
  bin->smell = "unknown";
}

static gboolean
is_empty (const FrStockBin *bin)
{
  return bin->volume_l < FR_STOCK_EMPTY_L;
}

/* After every event: what is left may be nothing. */
static void
settle (FrStockBin *bin, gint64 utc_s)
{
  bin->touched = TRUE;
  bin->changed_utc = utc_s;
  if (is_empty (bin))
    set_empty (bin);
}

/* The later of two in @order is the worse; what is unknown comes first and says nothing. */
static const char *
worse (const char *const *order, const char *one, const char *other)
{
  const char *found = order[0];

  for (guint i = 0; order[i] != NULL; i++)
    if (g_strcmp0 (order[i], one) == 0 || g_strcmp0 (order[i], other) == 0)
      found = order[i];
  return found;
}

static const char *const clarities[] = { "unknown", "clear", "hazy", "cloudy", "yellow", NULL };
static const char *const smells[] = { "unknown", "fresh", "other", "sour", "buddy", NULL };

/* What comes in: how much, and what is known of it. */
typedef struct
{
  FrStockMix mix;
  gboolean brix_assumed;
  gint64 oldest_utc;
  double used_ratio;
  gint64 spoiled_utc;
  const char *clarity;
  const char *smell;
  FrStockWarmth warmth;
} Coming;

/* The sweetness of sap that was not read. */
static double
usual_brix (FrStockReplay *replay, gint64 utc_s)
{
  return fr_stock_usual_brix (replay->readings, utc_s);
}

/* The earlier of two instants that may be unknown. */
static gint64
earlier (gint64 one_utc, gint64 other_utc)
{
  if (one_utc == G_MININT64 || other_utc == G_MININT64)
    return MAX (one_utc, other_utc);
  return MIN (one_utc, other_utc);
}

static void
come_in (FrStockReplay *replay, FrStockBin *bin, const Coming *coming, gint64 utc_s, const FrRecord *record)
{
  FrStockMix before = bin->mix;
  double before_l = bin->volume_l, after_l;
  gboolean was_known = !isnan (bin->mix.sugar_kg);

  fr_stock_set_mix (bin, (FrStockMix){ before.mass_kg + coming->mix.mass_kg,
                                       before.sugar_kg + coming->mix.sugar_kg });
  bin->brix_assumed |= coming->brix_assumed;
  bin->oldest_utc = earlier (bin->oldest_utc, coming->oldest_utc);
  bin->used_ratio = fmax (bin->used_ratio, coming->used_ratio);
  bin->spoiled_utc = earlier (bin->spoiled_utc, coming->spoiled_utc);
  bin->clarity = worse (clarities, bin->clarity, coming->clarity);
  bin->smell = worse (smells, bin->smell, coming->smell);
  fr_stock_warm_mix (bin, before, before_l, &coming->warmth, utc_s);
  settle (bin, utc_s);
  after_l = bin->volume_l;
  if (was_known && isnan (bin->mix.sugar_kg))
    add_line (replay, FR_LINE_NO_SUGAR, bin, before_l, NAN, NAN, utc_s, record);
  if (bin->container != NULL && after_l > bin->container->capacity_l.value + FR_STOCK_NOTHING_L)
    add_line (replay, FR_LINE_OVERFLOW, bin, after_l, bin->container->capacity_l.value - after_l, NAN, utc_s,
              record);
}

/* --- the three kinds of events --- */

void
fr_stock_apply_gathering (FrStockReplay *replay, const FrGathering *gathering, double read_brix)
{
  FrStockBin *bin = fr_stock_bin (replay, gathering->container);
  double brix = isnan (read_brix) ? usual_brix (replay, gathering->gathered_utc) : read_brix,
         volume_l = fr_gathering_at_l (gathering, fr_stock_container (replay->book, gathering->bucket),
                                    isnan (brix) ? FR_STOCK_SAP_BRIX : brix);
  Coming coming = { .mix = fr_stock_mix_of (volume_l, brix),
                    .brix_assumed = isnan (read_brix),
                    .oldest_utc = gathering->gathered_utc,
                    .used_ratio = 0,
                    .spoiled_utc = G_MININT64,
                    .clarity = gathering->clarity,
                    .smell = gathering->smell };

  if (isnan (volume_l))
    {
      add_line (replay, FR_LINE_NO_AMOUNT, bin, bin->volume_l, NAN, NAN, gathering->gathered_utc,
                &gathering->record);
      return;
    }
  add_flow (replay, FR_FLOW_GATHERED, gathering->gathered_utc, FR_STOCK_OUTSIDE, bin->id, volume_l, coming.mix,
            coming.brix_assumed, &gathering->record);
  fr_stock_warm_near (replay, bin, gathering->gathered_utc);
  coming.warmth = fr_stock_warmth_gathered (replay, bin, coming.mix, gathering->sap_c.value, gathering->gathered_utc);
  come_in (replay, bin, &coming, gathering->gathered_utc, &gathering->record);
}

static FrStockFlowKind
flow_of (const char *reason)
{
  static const char *const reasons[FR_N_FLOWS]
      = { [FR_FLOW_MOVED] = "moved",     [FR_FLOW_BOILED] = "boiled",   [FR_FLOW_ICE] = "ice",
          [FR_FLOW_SPILLED] = "spilled", [FR_FLOW_SPOILED] = "spoiled", [FR_FLOW_DRUNK] = "drunk" };

  for (guint i = 0; i < FR_N_FLOWS; i++)
    if (g_strcmp0 (reasons[i], reason) == 0)
      return (FrStockFlowKind)i;
  return FR_FLOW_SPILLED; /* a code of a later version: it is gone */
}

/* How sweet what leaves is. @own_out: otherwise than the mix. */
static double
leaving_brix (FrStockReplay *replay, const FrStockBin *bin, const FrPour *pour, double read_brix, gboolean *own_out,
              gboolean *assumed_out)
{
  double mix_brix = fr_stock_mix_brix (bin->mix);

  *assumed_out = bin->brix_assumed;
  if (bin->volume_l < FR_STOCK_NOTHING_L)
    {
      mix_brix = usual_brix (replay, pour->poured_utc);
      *assumed_out = TRUE;
    }
  *own_out = TRUE;
  if (!isnan (read_brix))
    *assumed_out = FALSE;
  else if (g_strcmp0 (pour->reason, "ice") == 0 && mix_brix > FR_STOCK_ICE_BRIX)
    read_brix = FR_STOCK_ICE_BRIX;
  else
    *own_out = FALSE;
  return isnan (read_brix) ? mix_brix : read_brix;
}

/* Lines for what cannot be left in a container. */
static void
check_left (FrStockReplay *replay, const FrStockBin *bin, FrStockMix before, gboolean own_brix,
            const FrPour *pour)
{
  double before_l = fr_stock_mix_l (before), after_l = bin->volume_l, most_kg;

  if (after_l < -FR_STOCK_NOTHING_L)
    {
      add_line (replay, FR_LINE_NEGATIVE, bin, before_l, MIN (before_l, 0) - after_l,
                fmin (before.sugar_kg, 0) - bin->mix.sugar_kg, pour->poured_utc, &pour->record);
      return;
    }
  most_kg = bin->mix.mass_kg * FR_BRIX_MAX / 100;
  if (own_brix && bin->mix.sugar_kg < -FR_STOCK_NOTHING_KG)
    add_line (replay, FR_LINE_SUGAR, bin, before_l, NAN, -bin->mix.sugar_kg, pour->poured_utc, &pour->record);
  else if (own_brix && bin->mix.sugar_kg > most_kg + FR_STOCK_NOTHING_KG)
    add_line (replay, FR_LINE_SUGAR, bin, before_l, NAN, most_kg - bin->mix.sugar_kg, pour->poured_utc,
              &pour->record);
}

/* What is known of the sap that leaves; of what was not there, that it is no older than now. */
static void
take_along (const FrStockBin *bin, Coming *coming, gint64 utc_s)
{
  coming->oldest_utc = bin->oldest_utc == G_MININT64 ? utc_s : bin->oldest_utc;
  coming->used_ratio = isnan (bin->used_ratio) ? 0 : bin->used_ratio;
  coming->spoiled_utc = bin->spoiled_utc;
  coming->clarity = bin->clarity;
  coming->smell = bin->smell;
  coming->warmth = fr_stock_warmth_of (bin, coming->mix);
}

void
fr_stock_apply_pour (FrStockReplay *replay, const FrPour *pour, double read_brix)
{
  FrStockBin *bin = fr_stock_bin (replay, pour->container);
  FrStockFlowKind kind = flow_of (pour->reason);
  gboolean own_brix, assumed;
  double brix = leaving_brix (replay, bin, pour, read_brix, &own_brix, &assumed);
  FrStockMix before = bin->mix;
  Coming coming = { .mix = fr_stock_mix_of (pour->volume_l.value, brix), .brix_assumed = assumed };

  if (isnan (pour->volume_l.value))
    {
      add_line (replay, FR_LINE_NO_AMOUNT, bin, fr_stock_mix_l (before), NAN, NAN, pour->poured_utc,
                &pour->record);
      return;
    }
  fr_stock_warm_near (replay, bin, pour->poured_utc);
  take_along (bin, &coming, pour->poured_utc);
  fr_stock_set_mix (bin, (FrStockMix){ before.mass_kg - coming.mix.mass_kg,
                                       before.sugar_kg - coming.mix.sugar_kg });
  fr_stock_warm_left (bin);
  settle (bin, pour->poured_utc);
  add_flow (replay, kind, pour->poured_utc, bin->id,
            kind == FR_FLOW_MOVED ? known_id (replay, pour->target) : FR_STOCK_OUTSIDE, pour->volume_l.value,
            coming.mix, assumed, &pour->record);
  check_left (replay, bin, before, own_brix, pour);
  if (kind == FR_FLOW_MOVED)
    {
      bin = fr_stock_bin (replay, pour->target);
      fr_stock_warm_near (replay, bin, pour->poured_utc);
      come_in (replay, bin, &coming, pour->poured_utc, &pour->record);
    }
}

/* The mix's sweetness, NAN when there is too little in the container to have one, or when it is one that cannot be. */
static double
sound_brix (const FrStockBin *bin)
{
  double brix = fr_stock_mix_brix (bin->mix);

  return bin->volume_l >= FR_STOCK_NOTHING_L && brix >= 0 && brix <= FR_BRIX_MAX ? brix : NAN;
}

/* What a look finds: so many litres if they were measured, at a sweetness that was read, or is the mix's, or usual. */
static FrStockMix
found_mix (FrStockBin *bin, double read_brix, double mix_brix, double usual, double volume_l)
{
  if (isnan (volume_l) && (isnan (read_brix) || isnan (fr_stock_mix_brix (bin->mix))))
    return bin->mix;
  if (!isnan (read_brix))
    bin->brix_assumed = FALSE;
  else if (isnan (mix_brix))
    bin->brix_assumed = TRUE;
  if (isnan (volume_l))
    return (FrStockMix){ bin->mix.mass_kg, bin->mix.mass_kg * read_brix / 100 };
  return fr_stock_mix_of (volume_l, !isnan (read_brix) ? read_brix : !isnan (mix_brix) ? mix_brix : usual);
}

static gboolean
is_measured (const FrDip *dip)
{
  if (g_strcmp0 (dip->measured_by, "depth") == 0)
    return !isnan (dip->depth_m.value);
  if (g_strcmp0 (dip->measured_by, "weight") == 0)
    return !isnan (dip->weight_kg.value);
  return !isnan (dip->volume_l.value);
}

static void
look_at (FrStockBin *bin, const FrDip *dip)
{
  if (g_strcmp0 (dip->clarity, "unknown") != 0)
    bin->clarity = dip->clarity;
  if (g_strcmp0 (dip->smell, "unknown") != 0)
    bin->smell = dip->smell;
}

void
fr_stock_apply_dip (FrStockReplay *replay, const FrDip *dip, double liquid_brix)
{
  FrStockBin *bin = fr_stock_bin (replay, dip->container);
  double ice_ratio = isnan (dip->ice_ratio.value) ? 0 : dip->ice_ratio.value,
         read_brix = liquid_brix * (1 - ice_ratio), mix_brix = sound_brix (bin),
         usual = usual_brix (replay, dip->found_utc),
         brix = !isnan (read_brix) ? read_brix : !isnan (mix_brix) ? mix_brix : usual,
         before_l = bin->volume_l,
         volume_l = fr_dip_l (dip, bin->container, isnan (brix) ? FR_STOCK_SAP_BRIX : brix);
  FrStockMix before = bin->mix, found = found_mix (bin, read_brix, mix_brix, usual, volume_l), more;
  double more_l = volume_l - before_l;

  if (is_measured (dip) && isnan (volume_l))
    add_line (replay, FR_LINE_NO_AMOUNT, bin, before_l, NAN, NAN, dip->found_utc, &dip->record);
  more = (FrStockMix){ found.mass_kg - before.mass_kg, found.sugar_kg - before.sugar_kg };
  if (fabs (more_l) > FR_STOCK_NOTHING_L || fabs (more.sugar_kg) > FR_STOCK_NOTHING_KG)
    add_line (replay, FR_LINE_FOUND, bin, before_l, more_l, more.sugar_kg, dip->found_utc, &dip->record);
  if (more.mass_kg != 0 || more.sugar_kg < 0 || more.sugar_kg > 0)
    add_flow (replay, FR_FLOW_FOUND, dip->found_utc, FR_STOCK_OUTSIDE, bin->id, isnan (more_l) ? 0 : more_l,
              more, bin->brix_assumed, &dip->record);
  fr_stock_warm_to (replay, bin, dip->found_utc);
  fr_stock_set_mix (bin, found);
  if (bin->oldest_utc == G_MININT64)
    {
      bin->oldest_utc = dip->found_utc;
      bin->used_ratio = 0;
    }
  look_at (bin, dip);
  fr_stock_warm_dip (bin, dip);
  settle (bin, dip->found_utc);
  if (!isnan (volume_l))
    bin->since_utc = dip->found_utc;
  if (bin->container != NULL && volume_l > bin->container->capacity_l.value + FR_STOCK_NOTHING_L)
    add_line (replay, FR_LINE_OVERFLOW, bin, volume_l, bin->container->capacity_l.value - volume_l, NAN,
              dip->found_utc, &dip->record);
}
