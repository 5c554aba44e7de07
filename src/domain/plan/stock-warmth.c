/* How warm the sap in a container is, how much of it is ice, and how much of its keeping time that has used up: the body of
 * maths/sap-body.c through the air of its place, from event to event, and on to the last day whose weather is known.
 *
 * Decisions (common sense, no source): sap poured in whose temperature was not taken is as cold as the air outdoors then, or as the
 * place's, but liquid. Where the air is not known a temperature is held for a day and then unknown; sap of unknown temperature ages as
 * if it were warm. What leaves takes its temperature along, and what stays keeps it, with the ice that belongs to it. A thermometer
 * is not believed to half a kelvin below freezing: ice is taken from what was noted of it, or from what was followed. */
#include "domain/plan/stock-private.h"

#include "domain/maths/sucrose.h"

#include <math.h>

#define STEP_S 7200
/* Pails poured in one after another are not followed each by itself. */
#define NEAR_S 600
#define HELD_S (24 * 3600)
#define AHEAD_S (30 * 24 * 3600)
#define WARM_C 20.0
/* A temperature typed just at a row's edge is in the row, whatever mixing does to its last digit. */
#define ROUNDING_K 1e-6
#define THERMOMETER_K 0.5
/* What liquid under ice can be at most, for ice noted to be nearly all of it. */
#define UNDER_ICE_BRIX 60.0

/* --- the season's air and the household's table --- */

static gint
by_date (gconstpointer a, gconstpointer b)
{
  return fr_date_compare (((const FrDaySpan *)a)->date, ((const FrDaySpan *)b)->date);
}

static GArray *
day_spans (const FrSeasonBook *book)
{
  GArray *days = g_array_new (FALSE, FALSE, sizeof (FrDaySpan));

  for (guint i = 0; book->days != NULL && i < book->days->len; i++)
    {
      const FrDay *day = book->days->pdata[i];
      FrDaySpan span = { { 0 }, day->low_c.value, day->high_c.value };

      if (!day->record.archived && day->day != NULL && fr_date_parse (day->day, &span.date)
          && span.low_c <= span.high_c)
        g_array_append_val (days, span);
    }
  g_array_sort (days, by_date);
  for (guint i = days->len; i > 1; i--)
    if (by_date (&g_array_index (days, FrDaySpan, i - 1), &g_array_index (days, FrDaySpan, i - 2)) == 0)
      g_array_remove_index (days, i - 1);
  return days;
}

/* Rows for what is warmer than a table speaks of: the careful one's, but none that keeps longer than the table's own last. */
static void
complete_table (FrKeepingTable *table, const FrKeepingTable *careful)
{
  for (guint i = 0; i < careful->n_rows && table->n_rows < FR_KEEPING_ROWS_MAX; i++)
    {
      FrKeepingRow row = careful->rows[i], last = table->rows[table->n_rows - 1];

      if (row.up_to_c <= last.up_to_c)
        continue;
      row.allowed_h = MIN (row.allowed_h, last.allowed_h);
      table->rows[table->n_rows++] = row;
    }
}

gboolean
fr_stock_keeping (const FrStoring *storing, FrKeepingTable *table_out)
{
  FrKeepingTable careful;
  const char *text = FR_KEEPING_CUSTOM_TEXT;
  gboolean readable;
  guint line;

  fr_keeping_table_parse (FR_KEEPING_CUSTOM_TEXT, &careful, &line);
  if (storing != NULL && g_strcmp0 (storing->keeping, "published") == 0)
    text = FR_KEEPING_PUBLISHED_TEXT;
  else if (storing != NULL && g_strcmp0 (storing->keeping, "own") == 0)
    text = storing->own_rows;
  readable = fr_keeping_table_parse (text, table_out, &line);
  if (readable)
    complete_table (table_out, &careful);
  else
    *table_out = careful;
  return readable;
}

void
fr_stock_warmth_init (FrStockReplay *replay, gint64 at_utc)
{
  fr_stock_keeping (replay->book->storing, &replay->keeping);
  for (guint i = 0; i < replay->keeping.n_rows; i++)
    replay->keeping.rows[i].up_to_c += ROUNDING_K;
  replay->days = day_spans (replay->book);
  replay->until_utc = at_utc + AHEAD_S;
}

void
fr_stock_warmth_clear (FrStockReplay *replay)
{
  g_array_unref (replay->days);
  for (guint i = 0; i < FR_N_SAP_PLACES; i++)
    g_clear_pointer (&replay->air[i], g_array_unref);
}

/* Over the whole season: knots are few. */
static const GArray *
air_at (FrStockReplay *replay, FrSapPlace place)
{
  if (replay->air[place] == NULL)
    {
      replay->air[place] = g_array_new (FALSE, FALSE, sizeof (FrAirKnot));
      if (replay->book->zone != NULL)
        fr_place_air (place, (const FrDaySpan *)(const void *)replay->days->data, replay->days->len,
                      replay->book->zone, replay->from_utc, replay->until_utc, replay->air[place]);
    }
  return replay->air[place];
}

/* Sap whose place was not said is taken to stand outdoors. */
static FrSapPlace
place_of (const FrStockBin *bin)
{
  FrSapPlace place = FR_SAP_PLACE_OUTDOORS;

  if (bin->container != NULL)
    fr_sap_place_from_code (bin->container->place, &place);
  return place;
}

static gboolean
has_own_air (FrSapPlace place)
{
  return place >= FR_SAP_PLACE_FRIDGE;
}

static FrSapHold
hold_of (const FrStockBin *bin)
{
  FrInsulation insulation = FR_INSULATION_BARE;

  if (bin->container != NULL)
    fr_insulation_from_code (bin->container->insulation, &insulation);
  return fr_sap_hold (bin->volume_l, insulation);
}

/* --- bodies --- */

/* A mix as a body: one whose sugar is not known, or cannot be, has the nearest that can. */
static FrSapBody
body_of (FrStockMix mix, double temp_c)
{
  double sugar_kg = isnan (mix.sugar_kg) ? mix.mass_kg * FR_STOCK_SAP_BRIX / 100 : mix.sugar_kg;

  return fr_sap_body_at (mix.mass_kg, CLAMP (sugar_kg, 0, mix.mass_kg * UNDER_ICE_BRIX / 100), temp_c);
}

/* The same with the ice known, which needs no looking for. */
static FrSapBody
body_with (FrStockMix mix, double temp_c, double ice_kg)
{
  FrSapBody body = body_of (mix, 0);

  body.temp_c = temp_c;
  body.ice_kg = ice_kg;
  return body;
}

/* No colder than it freezes. */
static double
liquid_c (FrStockMix mix, double temp_c)
{
  FrSapBody body;

  if (isnan (temp_c) || temp_c >= 0 || !(mix.mass_kg > 0)) /* nothing freezes above */
    return temp_c;
  body = body_of (mix, 0);
  return MAX (temp_c, fr_sap_freezing_c (fr_sap_body_brix (&body)));
}

static gboolean
holds_sap (const FrStockBin *bin)
{
  return bin->volume_l >= FR_STOCK_EMPTY_L;
}

static void
set_body (FrStockBin *bin, const FrSapBody *body)
{
  bin->temp_c = body->temp_c;
  bin->ice_kg = body->ice_kg;
}

/* --- through time --- */

/* A stretch through air that is all known or all unknown. */
typedef struct
{
  gint64 to_utc;
  const FrAirKnot *knots; /* from the last at or before its begin on */
  guint n_knots;
  gboolean known;
} Stretch;

static Stretch
stretch_from (const GArray *air, gint64 from_utc, gint64 to_utc)
{
  const FrAirKnot *knots = (const FrAirKnot *)(const void *)air->data;
  Stretch stretch = { to_utc, knots, air->len, FALSE };
  guint low = 0, high = air->len;

  if (air->len == 0)
    return stretch;
  while (low < high) /* the first after the begin */
    if (knots[(low + high) / 2].utc_s <= from_utc)
      low = (low + high) / 2 + 1;
    else
      high = (low + high) / 2;
  stretch.knots = knots + (low > 0 ? low - 1 : 0);
  stretch.n_knots = air->len - (guint)(stretch.knots - knots);
  stretch.known = !isnan (fr_air_temp_c (stretch.knots, stretch.n_knots, from_utc))
                  && (low == air->len || !isnan (knots[low].temp_c));
  for (guint i = low; i < air->len && knots[i].utc_s < to_utc; i++)
    if (stretch.known ? isnan (knots[i].temp_c) || (i + 1 < air->len && isnan (knots[i + 1].temp_c))
                      : !isnan (knots[i].temp_c))
      {
        stretch.to_utc = knots[i].utc_s;
        break;
      }
  return stretch;
}

static void
note (GArray *trace, gint64 utc_s, double temp_c)
{
  FrSapBodyMoment moment = { utc_s, temp_c, NAN };

  g_array_append_val (trace, moment);
}

/* The temperature held while it may be, then unknown. */
static void
run_unknown (FrStockBin *bin, gint64 from_utc, gint64 to_utc, GArray *trace)
{
  gint64 held_utc = CLAMP (bin->known_utc == G_MININT64 ? from_utc : bin->known_utc + HELD_S, from_utc, to_utc);

  note (trace, from_utc, bin->temp_c);
  note (trace, held_utc, bin->temp_c);
  if (held_utc < to_utc)
    {
      bin->temp_c = bin->ice_kg = NAN;
      bin->temp_from = FR_STOCK_TEMP_UNKNOWN;
      note (trace, held_utc, NAN);
      note (trace, to_utc, NAN);
    }
}

static void
run_known (FrStockBin *bin, const Stretch *stretch, gint64 from_utc, GArray *trace)
{
  FrSapHold hold = hold_of (bin);
  FrSapBody body = body_with (bin->mix, bin->temp_c, bin->ice_kg);

  if (isnan (bin->temp_c))
    {
      body = body_of (bin->mix,
                      liquid_c (bin->mix, fr_air_temp_c (stretch->knots, stretch->n_knots, from_utc)));
      bin->temp_from = has_own_air (place_of (bin)) ? FR_STOCK_TEMP_PLACE : FR_STOCK_TEMP_MODELLED;
    }
  fr_sap_body_run (&body, &hold, stretch->knots, stretch->n_knots, from_utc, stretch->to_utc, STEP_S, trace);
  set_body (bin, &body);
  bin->known_utc = stretch->to_utc;
}

static void
run (FrStockReplay *replay, FrStockBin *bin, gint64 from_utc, gint64 to_utc, GArray *trace)
{
  const GArray *air = air_at (replay, place_of (bin));

  while (from_utc < to_utc)
    {
      Stretch stretch = stretch_from (air, from_utc, to_utc);

      if (stretch.known)
        run_known (bin, &stretch, from_utc, trace);
      else
        run_unknown (bin, from_utc, stretch.to_utc, trace);
      from_utc = stretch.to_utc;
    }
}

void
fr_stock_warm_to (FrStockReplay *replay, FrStockBin *bin, gint64 utc_s)
{
  g_autoptr (GArray) trace = g_array_new (FALSE, FALSE, sizeof (FrSapBodyMoment));
  gint64 spoils_utc;

  if (holds_sap (bin) && bin->warm_utc < utc_s)
    {
      run (replay, bin, bin->warm_utc, utc_s, trace);
      if (bin->spoiled_utc == G_MININT64
          && fr_keeping_spoils_utc (&replay->keeping, bin->used_ratio, trace, WARM_C, &spoils_utc)
          && spoils_utc <= utc_s)
        bin->spoiled_utc = spoils_utc;
      bin->used_ratio += fr_keeping_used_ratio (&replay->keeping, trace, WARM_C);
    }
  bin->warm_utc = utc_s;
}

void
fr_stock_warm_near (FrStockReplay *replay, FrStockBin *bin, gint64 utc_s)
{
  if (!holds_sap (bin) || utc_s - bin->warm_utc >= NEAR_S)
    fr_stock_warm_to (replay, bin, utc_s);
}

gint64
fr_stock_spoils_utc (FrStockReplay *replay, const FrStockBin *bin)
{
  g_autoptr (GArray) trace = g_array_new (FALSE, FALSE, sizeof (FrSapBodyMoment));
  const GArray *air = air_at (replay, place_of (bin));
  FrStockBin ahead = *bin;
  gint64 last_utc = bin->warm_utc, spoils_utc;

  if (!holds_sap (bin))
    return G_MININT64;
  if (bin->spoiled_utc != G_MININT64)
    return bin->spoiled_utc;
  for (guint i = 0; i < air->len; i++)
    if (!isnan (g_array_index (air, FrAirKnot, i).temp_c))
      last_utc = MAX (last_utc, MIN (g_array_index (air, FrAirKnot, i).utc_s, replay->until_utc));
  if (last_utc > ahead.warm_utc)
    run (replay, &ahead, ahead.warm_utc, last_utc, trace);
  else
    note (trace, ahead.warm_utc, ahead.temp_c);
  return fr_keeping_spoils_utc (&replay->keeping, bin->used_ratio, trace, WARM_C, &spoils_utc) ? spoils_utc
                                                                                               : G_MININT64;
}

/* --- at events --- */

void
fr_stock_warm_left (FrStockBin *bin)
{
  FrSapBody body = body_of (bin->mix, bin->temp_c);

  if (holds_sap (bin))
    set_body (bin, &body);
  else
    {
      bin->temp_c = bin->ice_kg = NAN;
      bin->temp_from = FR_STOCK_TEMP_UNKNOWN;
      bin->known_utc = bin->spoiled_utc = G_MININT64;
    }
}

FrStockWarmth
fr_stock_warmth_gathered (FrStockReplay *replay, const FrStockBin *bin, FrStockMix mix, double sap_c, gint64 utc_s)
{
  FrSapPlace place = place_of (bin);
  FrStockWarmth warmth = { { 0 }, FR_STOCK_TEMP_TYPED, utc_s };
  double temp_c = sap_c;

  if (isnan (temp_c))
    {
      const GArray *outdoors = air_at (replay, FR_SAP_PLACE_OUTDOORS), *own = air_at (replay, place);

      temp_c = fr_air_temp_c ((const FrAirKnot *)(const void *)outdoors->data, outdoors->len, utc_s);
      warmth.from = FR_STOCK_TEMP_MODELLED;
      if (isnan (temp_c))
        {
          temp_c = fr_air_temp_c ((const FrAirKnot *)(const void *)own->data, own->len, utc_s);
          warmth.from = isnan (temp_c) ? FR_STOCK_TEMP_UNKNOWN : FR_STOCK_TEMP_PLACE;
        }
    }
  if (isnan (temp_c))
    warmth.known_utc = G_MININT64;
  warmth.body = body_of (mix, liquid_c (mix, temp_c));
  return warmth;
}

FrStockWarmth
fr_stock_warmth_of (const FrStockBin *bin, FrStockMix leaving)
{
  return (FrStockWarmth){ body_of (leaving, bin->temp_c), bin->temp_from, bin->known_utc };
}

void
fr_stock_warm_mix (FrStockBin *bin, FrStockMix before, double before_l, const FrStockWarmth *coming, gint64 utc_s)
{
  FrSapBody body = body_with (before, bin->temp_c, bin->ice_kg);
  gboolean alone = before_l < FR_STOCK_EMPTY_L;

  if (alone)
    bin->warm_utc = utc_s;
  if (!holds_sap (bin))
    {
      fr_stock_warm_left (bin);
      return;
    }
  if (alone)
    body = body_of (bin->mix, coming->body.temp_c);
  else
    fr_sap_body_mix (&body, &coming->body);
  bin->known_utc = alone ? coming->known_utc : MIN (bin->known_utc, coming->known_utc);
  if (isnan (body.temp_c))
    bin->temp_from = FR_STOCK_TEMP_UNKNOWN;
  else if (alone || bin->temp_from == coming->from)
    bin->temp_from = coming->from;
  else
    bin->temp_from = FR_STOCK_TEMP_MODELLED;
  set_body (bin, &body);
}

/* By the ice that was noted: the liquid beside it holds all the sugar, and freezes at its temperature. */
static void
set_ice (FrStockBin *bin, double ice_ratio)
{
  FrSapBody body = body_of (bin->mix, 0);
  double most_ratio = 1 - 100 * body.sugar_kg / UNDER_ICE_BRIX / body.mass_kg,
         ratio = MIN (ice_ratio, MAX (most_ratio, 0));

  body.ice_kg = ratio * body.mass_kg;
  body.temp_c = fr_sap_freezing_c (100 * body.sugar_kg / (body.mass_kg - body.ice_kg));
  set_body (bin, &body);
}

void
fr_stock_warm_dip (FrStockBin *bin, const FrDip *dip)
{
  double ice_ratio = dip->ice_ratio.value, temp_c = dip->temp_c.value, liquid = liquid_c (bin->mix, temp_c);
  FrSapBody body;

  bin->warm_utc = dip->found_utc;
  fr_stock_warm_left (bin);
  if (!holds_sap (bin) || (isnan (temp_c) && isnan (ice_ratio)))
    return;
  if (ice_ratio > 0 && bin->mix.mass_kg > 0)
    set_ice (bin, ice_ratio);
  else if (isnan (temp_c)) /* no ice: as it was, but thawed */
    {
      if (!(bin->ice_kg > 0))
        return;
      body = body_of (bin->mix, liquid_c (bin->mix, bin->temp_c));
      set_body (bin, &body);
    }
  else
    {
      gboolean slush = isnan (ice_ratio) && temp_c < liquid && bin->ice_kg > 0 && temp_c >= liquid - THERMOMETER_K;

      body = body_of (bin->mix, isnan (ice_ratio) && temp_c < liquid - THERMOMETER_K ? temp_c : liquid);
      if (!slush)
        set_body (bin, &body);
    }
  bin->temp_from = FR_STOCK_TEMP_TYPED;
  bin->known_utc = dip->found_utc;
}
