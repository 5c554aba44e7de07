/* What does not add up, line by line: for each difference the entries among which its cause is looked for, and what nights, other looks and
 * other containers say beside them. Whether a night's figures fit what left the containers is asked of each night alone. */
#include "domain/plan/ledger-private.h"
#include "domain/plan/stock-private.h"

#include "domain/plan/gathering.h"

#include <math.h>

/* A pour without a night may belong to one that begins within so long. Common sense: sap is poured on the day of the boil. */
#define SAME_BOIL_S (18 * 3600)
/* How alike an entry of another container and a difference have to be, so that it may have been meant for this one. */
#define ITEMS_MAX 300         /* entries of one gap that are weighed: a day or two of a large bush, weeks of a small one */
#define ELSEWHERE_RATIO 0.1
/* With less in a container the reckoned sweetness of what is in it is mostly error. */
#define LITTLE_L 5.0

const FrPour *
fr_ledger_boil_of (const FrStockFlow *flow)
{
  return flow->kind == FR_FLOW_BOILED ? (const FrPour *)flow->record : NULL;
}

/* The night a pour belongs to by its own word, NULL none. */
static const FrLedgerNight *
night_of (const FrLedger *ledger, const FrPour *pour)
{
  for (guint i = 0; i < ledger->n_nights && pour->night != 0; i++)
    if (ledger->nights[i].night->record.id == pour->night)
      return &ledger->nights[i];
  return NULL;
}

/* The night without pours that begins nearest to it. */
static const FrNight *
likely_night (const FrLedger *ledger, gint64 utc_s)
{
  const FrNight *nearest = NULL;
  gint64 away_s = SAME_BOIL_S;

  for (guint i = 0; i < ledger->n_nights; i++)
    if (ledger->nights[i].n_pours == 0 && ABS (ledger->nights[i].night->start_utc - utc_s) <= away_s)
      {
        nearest = ledger->nights[i].night;
        away_s = ABS (nearest->start_utc - utc_s);
      }
  return nearest;
}

/* --- differences in a container --- */

static FrLedgerItem
item_of (const FrStockFlow *flow, int sign)
{
  return (FrLedgerItem){ flow->record, flow->utc_s, sign, flow->volume_l };
}

/* The look that measured an amount in the container at an instant. */
static const FrDip *
look_at (const FrSeasonBook *book, gint64 container, gint64 utc_s, double *volume_out)
{
  const FrDip *found = NULL;

  for (guint i = 0; book->dips != NULL && i < book->dips->len; i++)
    {
      const FrDip *dip = book->dips->pdata[i];
      double volume_l;

      if (dip->record.archived || dip->found_utc != utc_s
          || fr_stock_container (book, dip->container) != fr_stock_container (book, container))
        continue;
      volume_l = fr_dip_l (dip, fr_stock_container (book, container), FR_STOCK_SAP_BRIX);
      if (!isnan (volume_l))
        {
          found = dip;
          *volume_out = volume_l;
        }
    }
  return found;
}

static gboolean
is_between (const FrStockFlow *flow, const FrStockLine *line, gint64 from_utc)
{
  return flow->utc_s <= line->utc_s && (flow->utc_s > line->since_utc || line->since_utc == from_utc);
}

/* What the nights between say beyond what left, and what they left in a bucket. */
static void
ask_nights (FrLedgerGap *gap, const FrLedger *ledger)
{
  for (guint i = 0; i < ledger->n_nights; i++)
    {
      const FrLedgerNight *night = &ledger->nights[i];
      double more_l = night->told.volume_l - night->poured.volume_l;

      if (night->night->start_utc <= gap->since_utc || night->night->start_utc > gap->utc_s)
        continue;
      if (more_l > FR_STOCK_NOTHING_L && !(gap->told_more_l > more_l))
        {
          gap->told_more_l = more_l;
          gap->told_night = night->night;
        }
      if (night->night->bucket_left_l.value > 0)
        {
          gap->back_l = night->night->bucket_left_l.value;
          gap->back_night = night->night;
        }
    }
}

/* An entry that was written for one of two containers and meant for the other, where another is off by about as much the other way. */
static void
ask_elsewhere (FrLedgerGap *gap, const FrStock *stock, const FrStockLine *line, gint64 from_utc)
{
  const double near_l = ELSEWHERE_RATIO * fabs (line->volume_l);

  for (guint i = 0; i < stock->n_lines; i++)
    {
      const FrStockLine *other = &stock->lines[i];

      if (other->code != FR_LINE_FOUND || other->container == line->container
          || !(fabs (other->volume_l + line->volume_l) <= near_l))
        continue;
      for (guint k = 0; k < stock->n_flows; k++)
        {
          const FrStockFlow *flow = &stock->flows[k];
          int there = (flow->to == other->container) - (flow->from == other->container),
              here = (flow->to == line->container) - (flow->from == line->container);
          double off_l = (there - here) * flow->volume_l;

          if (flow->kind != FR_FLOW_FOUND && flow->kind != FR_FLOW_MOVED && is_between (flow, other, from_utc)
              && is_between (flow, line, from_utc) && fabs (off_l - line->volume_l) <= near_l)
            {
              gap->elsewhere = flow->record;
              gap->elsewhere_l = off_l;
            }
        }
    }
}

/* The entries of the gap, of very many the latest. */
static void
fill_items (FrLedgerGap *gap, const FrLedger *ledger, const FrStockLine *line)
{
  for (guint k = 0; k < ledger->stock->n_flows; k++)
    {
      const FrStockFlow *flow = &ledger->stock->flows[k];
      int sign = (flow->to == line->container) - (flow->from == line->container);
      FrLedgerItem item = item_of (flow, sign);

      if (flow->utc_s > line->utc_s || (flow->kind == FR_FLOW_FOUND && flow->record == line->record))
        break;
      if (sign == 0)
        continue;
      if (flow->kind != FR_FLOW_FOUND && is_between (flow, line, ledger->from_utc))
        g_array_append_val (gap->items, item);
      if (flow->record == line->record)
        break;
    }
  if (gap->items->len > ITEMS_MAX)
    g_array_remove_range (gap->items, 0, gap->items->len - ITEMS_MAX);
}

/* Sugar that was read where there was enough sap for its reckoning to mean something; and what the season's sap holds. */
static void
fill_sugar (FrLedgerGap *gap, const FrLedger *ledger, const FrStockLine *line)
{
  const FrLedgerSum *gathered = &ledger->all.flows[FR_FLOW_GATHERED];

  if (line->code != FR_LINE_FOUND || isnan (fr_dip_brix ((const FrDip *)line->record)) || !(gathered->mass_kg > 0)
      || !(line->computed_l > LITTLE_L))
    return;
  gap->sugar_kg = line->sugar_kg;
  gap->mix_ratio = gathered->sugar_kg / gathered->mass_kg;
}

static void
fill_since (FrLedgerGap *gap, const FrLedger *ledger, const FrSeasonBook *book, const FrStockLine *line)
{
  gap->since_record = (const FrRecord *)look_at (book, line->container, line->since_utc, &gap->since_l);
  gap->since_computed_l = gap->since_l; /* without a line it was as reckoned */
  for (guint i = 0; i < ledger->stock->n_lines && gap->since_record != NULL; i++)
    if (ledger->stock->lines[i].record == gap->since_record && ledger->stock->lines[i].code == FR_LINE_FOUND)
      gap->since_computed_l = ledger->stock->lines[i].computed_l;
}

/* What the next look that measured an amount finds. */
static double
next_difference_l (const FrLedger *ledger, const FrSeasonBook *book, const FrStockLine *line)
{
  const FrDip *next = NULL;
  double ignored_l;

  for (guint i = 0; book->dips != NULL && i < book->dips->len; i++)
    {
      const FrDip *dip = book->dips->pdata[i];

      if (!dip->record.archived && dip->found_utc > line->utc_s && dip->found_utc <= ledger->at_utc
          && (next == NULL || dip->found_utc < next->found_utc)
          && look_at (book, line->container, dip->found_utc, &ignored_l) == dip)
        next = dip;
    }
  for (guint i = 0; i < ledger->stock->n_lines && next != NULL; i++)
    if (ledger->stock->lines[i].record == &next->record && ledger->stock->lines[i].code == FR_LINE_FOUND)
      return ledger->stock->lines[i].volume_l;
  return next != NULL ? 0 : NAN;
}

static void
explain_stock_line (const FrLedger *ledger, const FrSeasonBook *book, const FrLedgerUsual *usual,
                    const FrStockLine *from, FrLedgerLine *line)
{
  g_autoptr (GArray) items = g_array_new (FALSE, FALSE, sizeof (FrLedgerItem));
  FrLedgerGap gap = { .book = book,
                      .since_utc = from->since_utc,
                      .utc_s = from->utc_s,
                      .items = items,
                      .container = fr_stock_container (book, from->container),
                      .since_l = NAN,
                      .record = from->record,
                      .measured_l = from->computed_l + from->volume_l,
                      .computed_l = from->computed_l,
                      .next_l = next_difference_l (ledger, book, from),
                      .difference_l = from->volume_l,
                      .side = from->code == FR_LINE_NEGATIVE ? 1 : from->code == FR_LINE_OVERFLOW ? -1 : 0,
                      .sugar_kg = NAN,
                      .mix_ratio = NAN,
                      .told_more_l = NAN,
                      .back_l = NAN };

  fill_items (&gap, ledger, from);
  fill_since (&gap, ledger, book, from);
  fill_sugar (&gap, ledger, from);
  ask_nights (&gap, ledger);
  ask_elsewhere (&gap, ledger->stock, from, ledger->from_utc);
  fr_ledger_explain (&gap, usual, line);
}

static FrLedgerLine
line_of (const FrLedger *ledger, const FrSeasonBook *book, const FrLedgerUsual *usual, const FrStockLine *from)
{
  FrLedgerLine line = { .code = (FrLedgerCode)from->code,
                        .utc_s = from->utc_s,
                        .since_utc = from->since_utc,
                        .container = from->container,
                        .computed_l = from->computed_l,
                        .volume_l = from->volume_l,
                        .sugar_kg = from->sugar_kg,
                        .error_l = NAN,
                        .record = from->record };

  if (from->code == FR_LINE_NO_AMOUNT)
    fr_ledger_explain_amount (book, usual, &line);
  else if (from->code == FR_LINE_FOUND || from->code == FR_LINE_NEGATIVE || from->code == FR_LINE_OVERFLOW)
    explain_stock_line (ledger, book, usual, from, &line);
  return line;
}

/* --- nights and lines --- */

static void
add_night_line (const FrLedger *ledger, const FrSeasonBook *book, const FrLedgerUsual *usual, const FrLedgerNight *night,
                GArray *lines)
{
  g_autoptr (GArray) items = g_array_new (FALSE, FALSE, sizeof (FrLedgerItem));
  double more_l = night->told.volume_l - night->poured.volume_l;
  FrLedgerLine line = { .code = night->n_pours == 0 ? FR_LEDGER_NIGHT_ALONE : FR_LEDGER_NIGHT_DIFFERS,
                        .utc_s = night->night->start_utc,
                        .since_utc = night->night->start_utc,
                        .computed_l = night->poured.volume_l,
                        .volume_l = more_l,
                        .sugar_kg = night->told.sugar_kg - night->poured.sugar_kg,
                        .error_l = NAN,
                        .record = &night->night->record };
  FrLedgerGap gap = { .book = book,
                      .since_utc = line.since_utc,
                      .utc_s = line.utc_s,
                      .items = items,
                      .since_l = NAN,
                      .since_computed_l = NAN,
                      .record = line.record,
                      .measured_l = night->told.volume_l,
                      .computed_l = line.computed_l,
                      .next_l = NAN,
                      .difference_l = more_l,
                      .sugar_kg = NAN,
                      .mix_ratio = NAN,
                      .told_more_l = NAN,
                      .back_l = NAN,
                      .is_night = TRUE };

  if (fabs (more_l) <= FR_STOCK_NOTHING_L)
    return;
  for (guint k = 0; k < ledger->stock->n_flows; k++)
    {
      const FrPour *pour = fr_ledger_boil_of (&ledger->stock->flows[k]);
      FrLedgerItem item = item_of (&ledger->stock->flows[k], 1);

      if (pour != NULL && pour->night == night->night->record.id)
        g_array_append_val (items, item);
    }
  if (night->n_pours > 0)
    fr_ledger_explain (&gap, usual, &line);
  g_array_append_val (lines, line);
}

static gint
by_time (gconstpointer a, gconstpointer b)
{
  const FrLedgerLine *one = a, *other = b;

  if (one->utc_s != other->utc_s)
    return one->utc_s < other->utc_s ? -1 : 1;
  if (one->code != other->code)
    return one->code < other->code ? -1 : 1;
  return one->record->id < other->record->id ? -1 : one->record->id > other->record->id;
}

void
fr_ledger_fill_lines (FrLedger *ledger, const FrSeasonBook *book, const FrLedgerUsual *usual)
{
  const FrStock *stock = ledger->stock;
  GArray *lines = g_array_new (FALSE, TRUE, sizeof (FrLedgerLine));

  for (guint i = 0; i < stock->n_lines; i++)
    {
      FrLedgerLine line = line_of (ledger, book, usual, &stock->lines[i]);

      g_array_append_val (lines, line);
    }
  for (guint i = 0; i < ledger->n_nights && fr_ledger_usual_n (usual) > 0; i++)
    add_night_line (ledger, book, usual, &ledger->nights[i], lines);
  for (guint k = 0; k < stock->n_flows; k++)
    {
      const FrStockFlow *flow = &stock->flows[k];
      FrLedgerLine line = { .code = FR_LEDGER_POUR_ALONE,
                            .utc_s = flow->utc_s,
                            .since_utc = flow->utc_s,
                            .container = flow->from,
                            .computed_l = 0,
                            .volume_l = flow->volume_l,
                            .sugar_kg = flow->sugar_kg,
                            .error_l = NAN,
                            .record = flow->record };

      if (fr_ledger_boil_of (flow) == NULL || night_of (ledger, fr_ledger_boil_of (flow)) != NULL)
        continue;
      /* A pot on the stove needs no night; a night that lacks its sap is another matter. */
      line.night = likely_night (ledger, flow->utc_s);
      if (line.night != NULL)
        g_array_append_val (lines, line);
    }
  g_array_sort (lines, by_time);
  ledger->n_lines = lines->len;
  ledger->lines = (FrLedgerLine *)(void *)g_array_free (lines, FALSE);
}
