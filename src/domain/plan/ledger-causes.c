/* Why a difference may be there: every entry since the last sound moment is asked, in turn, how far the reckoning would be off if it had
 * been written in another unit, twice, or not at all, and that is held against the difference by Bayes' rule.
 *
 * Chance of a cause = how often it happens × how well it fits the difference (a normal distribution as wide as measuring is off by) ×
 * what else speaks for it: an amount that is usual only after the slip is undone, a day without a gathering among days with one, two
 * entries alike on one day, a night that says it boiled more, sugar that stayed while litres went. How often each happens and how wide
 * the spreads are is common sense, no source; tests/domain/test-ledger.c says how often the first named is right. */
#include "domain/plan/ledger-private.h"

#include <math.h>
#include <stdlib.h>

/* How often, before anything is known: for each entry, or each stretch between looks. */
#define MEASURING_CHANCE 1.0
#define MISSED_CHANCE 0.01 /* beside those that are seen to be wanting */
#define TWICE_CHANCE 5.0   /* for two entries wholly alike within a few hours: that is hardly ever so by chance */
#define BOILED_CHANCE 0.03
#define TOLD_BY_CHANCE 0.05 /* that a night's figures are off for a reason of their own */
#define SPILLED_CHANCE 0.02
#define ICE_CHANCE 0.01
#define WATER_CHANCE 0.003
#define RAIN_L 5.0 /* a pailful */
#define BACK_CHANCE 0.3
#define ELSEWHERE_CHANCE 0.1

#define READ_RATIO 0.003 /* sugar by a reading against the reckoning by others, of the mass */
#define TWICE_S (8 * 3600)
#define LEAST_CHANCE 0.01
#define FEW 3 /* fewer gatherings do not tell what is usual */

/* Student's distribution of three degrees of freedom, of the logarithm: amounts vary, and now and then by a lot. */
static double
fits (const FrLedgerSpread *spread, double volume_l)
{
  double z = log (volume_l / spread->middle_l) / spread->spread_ratio;

  return 2 / (G_PI * sqrt (3)) / ((1 + z * z / 3) * (1 + z * z / 3)) / spread->spread_ratio;
}

static gint64
container_id (const FrLedgerGap *gap)
{
  return gap->container != NULL ? gap->container->record.id : 0;
}

/* --- weighing --- */

typedef struct
{
  const FrLedgerGap *gap;
  const FrLedgerUsual *usual;
  double error_l;
  double sum[FR_N_LEDGER_CAUSES];
  double best[FR_N_LEDGER_CAUSES];
  FrLedgerCause cause[FR_N_LEDGER_CAUSES];
} Weigh;

static double
normal (double x, double mean, double sd)
{
  double z = (x - mean) / sd;

  return exp (-0.5 * z * z) / (sd * sqrt (2 * G_PI));
}

/* Of a difference that is known to one side only, half is taken to end just there (containers are emptied), half to be anywhere. */
static double
fit_of (const FrLedgerGap *gap, double volume_l, double sd)
{
  double d = gap->difference_l, near = normal (d, volume_l, sd);

  if (gap->side == 0)
    return near;
  return 0.5 * near + 0.5 * 0.5 * erfc (gap->side * (d - volume_l) / sd / G_SQRT2) / fmax (fabs (d), 5);
}

/* The same for an amount of which only a usual size is known: what measuring is off by widens it. */
static double
fit_of_spread (const Weigh *weigh, const FrLedgerSpread *spread)
{
  const FrLedgerGap *gap = weigh->gap;
  double d = fabs (gap->difference_l), wide = weigh->error_l / spread->middle_l, near;
  FrLedgerSpread wider = { spread->n, spread->middle_l,
                           sqrt (spread->spread_ratio * spread->spread_ratio + log1p (wide * wide)) };

  near = fits (&wider, d) / d;
  if (gap->side == 0)
    return near;
  return 0.5 * near + 0.5 * 0.5 * erfc (log (d / spread->middle_l) / wider.spread_ratio / G_SQRT2) / fmax (d, 5);
}

/* Lost or boiled: little more often than much. */
static double
fit_of_loss (const FrLedgerGap *gap)
{
  double scale_l = fmax (5, 0.3 * fabs (gap->computed_l)), far = 1 + fabs (gap->difference_l) / scale_l;

  return 1 / (far * far * scale_l);
}

/* Mostly as the normal distribution has it, now and then far off. */
static double
mostly (double x, double mean, double sd)
{
  return 0.9 * normal (x, mean, sd) + 0.1 * normal (x, mean, 10 * sd);
}

/* What the sugar that was read says of litres that brought so much of it along. */
static double
sugar_fit (const FrLedgerGap *gap, double brought_ratio)
{
  double sd = READ_RATIO * fmax (gap->measured_l, 1) + 0.001;

  if (isnan (gap->sugar_kg) || isnan (gap->mix_ratio) || gap->side != 0)
    return 1;
  return mostly (gap->sugar_kg, brought_ratio * gap->difference_l, sd) * sd;
}

static void
add (Weigh *weigh, FrLedgerCauseCode code, double weight, const FrRecord *record, const FrRecord *other,
     FrLedgerSlip slip, double volume_l)
{
  FrLedgerCause cause = { code, 0, record, other, slip, volume_l };
  double all = weight
               * sugar_fit (weigh->gap, code == FR_LEDGER_CAUSE_ICE     ? FR_STOCK_ICE_BRIX / 100
                                        : code == FR_LEDGER_CAUSE_WATER ? 0
                                                                        : weigh->gap->mix_ratio);

  if (!(all > 0))
    return;
  weigh->sum[code] += all;
  if (all > weigh->best[code])
    {
      weigh->best[code] = all;
      weigh->cause[code] = cause;
    }
}

static double
together (double one, double other)
{
  return sqrt (one * one + other * other);
}

/* --- the causes --- */

/* A night that says more was boiled than left speaks for whatever made too little leave for it. */
static double
told_fit (const Weigh *weigh)
{
  const FrLedgerGap *gap = weigh->gap;
  double sd = together (weigh->error_l, 0.05 * gap->told_more_l), apart_l = gap->difference_l + gap->told_more_l;

  return gap->told_more_l > 0 ? fmax (gap->told_more_l, 5) * normal (apart_l, 0, sd) / TOLD_BY_CHANCE : 1;
}

static gboolean
is_told_of (const FrLedgerGap *gap, const FrRecord *record)
{
  return gap->told_night != NULL && record->kind->id == FR_KIND_POUR
         && ((const FrPour *)record)->night == gap->told_night->record.id;
}

/* What a night says of a pour for it, beside that more or less left: told and poured may agree, so that a slip is unlikely. */
static double
night_fit (const Weigh *weigh, const FrRecord *record, double told)
{
  if (record->kind->id != FR_KIND_POUR || ((const FrPour *)record)->night == 0)
    return 1;
  return is_told_of (weigh->gap, record) ? told : TOLD_BY_CHANCE;
}

static void
weigh_item_slips (Weigh *weigh, const FrLedgerItem *item)
{
  const FrLedgerGap *gap = weigh->gap;
  FrLedgerSpread spread = { 0 };
  double told = told_fit (weigh);

  if (item->record->kind->id == FR_KIND_GATHERING && item->volume_l > 0)
    spread = fr_ledger_usual_amount (weigh->usual, (const FrGathering *)item->record);
  for (guint slip = 0; slip < FR_N_SLIPS; slip++)
    {
      double meant = fr_ledger_meant_l (gap->book, item->record, slip, item->volume_l),
             off_l = item->sign * (meant - item->volume_l), more_usual;

      if (!(meant > 0) || (gap->container != NULL && meant > 1.2 * gap->container->capacity_l.value))
        continue;
      more_usual = spread.n < FEW ? 1 : fits (&spread, meant) / fits (&spread, item->volume_l);
      add (weigh, FR_LEDGER_CAUSE_UNIT,
           fr_ledger_slip_chance_ratio (item->record, slip) * more_usual
               * (gap->is_night ? 1 : night_fit (weigh, item->record, told))
               * fit_of (gap, off_l, together (weigh->error_l, fr_ledger_error_l (item->record, meant))),
           item->record, NULL, slip, off_l);
    }
}

/* The look itself: what was meant is about what was reckoned, and the next look finds as much the other way. */
static void
weigh_look_slips (Weigh *weigh)
{
  const FrLedgerGap *gap = weigh->gap;

  for (guint slip = 0; slip < FR_N_SLIPS && gap->side == 0; slip++)
    {
      double meant = fr_ledger_meant_l (gap->book, gap->record, slip, gap->measured_l),
             sd = together (weigh->error_l, fr_ledger_error_l (gap->record, meant)), grown = meant / gap->measured_l,
             next = isnan (gap->next_l) ? 1
                                        : normal (gap->next_l, meant - gap->measured_l, sd) / mostly (gap->next_l, 0, sd);

      /* Its chance as a chance of what was kept, not of what was meant. */
      if (meant > 0)
        add (weigh, FR_LEDGER_CAUSE_UNIT,
             fr_ledger_slip_chance_ratio (gap->record, slip) * next * normal (meant, gap->computed_l, sd)
                 * fmin (grown, 50),
             gap->record, NULL, slip, gap->measured_l - meant);
    }
}

/* The look before: it then was off by as much the other way. */
static void
weigh_since_slips (Weigh *weigh)
{
  const FrLedgerGap *gap = weigh->gap;

  for (guint slip = 0; slip < FR_N_SLIPS && gap->since_record != NULL; slip++)
    {
      double meant = fr_ledger_meant_l (gap->book, gap->since_record, slip, gap->since_l),
             off_l = meant - gap->since_l, sd = together (weigh->error_l, fr_ledger_error_l (gap->since_record, meant));

      if (meant > 0)
        add (weigh, FR_LEDGER_CAUSE_UNIT,
             fr_ledger_slip_chance_ratio (gap->since_record, slip) * fit_of (gap, off_l, sd)
                 * normal (gap->since_computed_l, meant, sd)
                 / mostly (gap->since_computed_l, gap->since_l, sd),
             gap->since_record, NULL, slip, off_l);
    }
}

static double
reading_of (const FrRecord *record)
{
  return record->kind->id == FR_KIND_GATHERING ? ((const FrGathering *)record)->reading_brix.value
                                                : ((const FrPour *)record)->reading_brix.value;
}

static gboolean
is_of_same (const FrRecord *one, const FrRecord *other)
{
  const FrGathering *a = (const FrGathering *)one, *b = (const FrGathering *)other;

  if (one->kind != other->kind)
    return FALSE;
  if (one->kind->id == FR_KIND_POUR)
    return g_strcmp0 (((const FrPour *)one)->reason, ((const FrPour *)other)->reason) == 0;
  return g_strcmp0 (a->scope, b->scope) == 0 && a->tree == b->tree && a->tap == b->tap
         && g_strcmp0 (a->stand, b->stand) == 0;
}

/* How much two entries look like one written twice. */
static double
twice_ratio (const FrLedgerItem *one, const FrLedgerItem *other)
{
  double apart = fabs (one->volume_l - other->volume_l) / fmax (other->volume_l, 0.1), first, second, ratio;

  if (!is_of_same (one->record, other->record) || apart > 0.05)
    return 0;
  ratio = apart < 1e-6 ? 1 : 0.3;
  first = reading_of (one->record);
  second = reading_of (other->record);
  return !isnan (first) && !isnan (second) && fabs (first - second) > 0.05 ? 0.2 * ratio : ratio;
}

static void
weigh_twice (Weigh *weigh)
{
  const GArray *items = weigh->gap->items;

  for (guint i = 0; i < items->len; i++)
    for (guint k = i + 1; k < items->len; k++)
      {
        const FrLedgerItem *one = &g_array_index (items, FrLedgerItem, i),
                           *other = &g_array_index (items, FrLedgerItem, k);
        double off_l = -other->sign * other->volume_l;

        if (other->utc_s - one->utc_s > TWICE_S)
          break;
        add (weigh, FR_LEDGER_CAUSE_DOUBLE,
             TWICE_CHANCE * twice_ratio (one, other) * fit_of (weigh->gap, off_l, weigh->error_l),
             other->record, one->record, 0, off_l);
      }
}

static void
weigh_missed (Weigh *weigh)
{
  const FrLedgerGap *gap = weigh->gap;
  g_autoptr (GArray) wanting = NULL;
  FrLedgerSpread spread;

  if (!(gap->difference_l > 0))
    return;
  spread = fr_ledger_usual_into (weigh->usual, container_id (gap));
  if (spread.n == 0)
    spread = (FrLedgerSpread){ 1, 10, 1.2 }; /* a pail or so */
  add (weigh, FR_LEDGER_CAUSE_MISSED, MISSED_CHANCE * fit_of_spread (weigh, &spread), NULL, NULL, 0, NAN);
  wanting = fr_ledger_usual_wanting (weigh->usual, container_id (gap), gap->since_utc, gap->utc_s);
  for (guint i = 0; i < wanting->len; i++)
    {
      const FrLedgerWanting *one = &g_array_index (wanting, FrLedgerWanting, i);

      add (weigh, FR_LEDGER_CAUSE_MISSED, one->chance_ratio * fit_of_spread (weigh, &one->amount), NULL, NULL,
           0, NAN);
    }
}

static void
weigh_rest (Weigh *weigh)
{
  const FrLedgerGap *gap = weigh->gap;

  add (weigh, FR_LEDGER_CAUSE_MEASURING, MEASURING_CHANCE * fit_of (gap, 0, weigh->error_l), NULL, NULL, 0,
       NAN);
  if (gap->is_night)
    {
      add (weigh, FR_LEDGER_CAUSE_BOILED_MORE, BOILED_CHANCE * fit_of_loss (gap), gap->record, NULL, 0, NAN);
      return;
    }
  if (gap->told_more_l > 0)
    add (weigh, FR_LEDGER_CAUSE_BOILED_MORE, BOILED_CHANCE * fit_of_loss (gap) * told_fit (weigh),
         &gap->told_night->record, NULL, 0, -gap->told_more_l);
  if (gap->back_l > 0)
    add (weigh, FR_LEDGER_CAUSE_POURED_BACK,
         BACK_CHANCE * fit_of (gap, gap->back_l, together (weigh->error_l, 0.05 * gap->back_l)),
         &gap->back_night->record, NULL, 0, gap->back_l);
  if (gap->elsewhere != NULL)
    add (weigh, FR_LEDGER_CAUSE_OTHER_PLACE,
         ELSEWHERE_CHANCE * fit_of (gap, gap->elsewhere_l, weigh->error_l), gap->elsewhere, NULL, 0,
         gap->elsewhere_l);
  if (gap->difference_l < 0)
    {
      add (weigh, FR_LEDGER_CAUSE_BOILED_MORE, BOILED_CHANCE * fit_of_loss (gap), NULL, NULL, 0, NAN);
      add (weigh, FR_LEDGER_CAUSE_SPILLED, SPILLED_CHANCE * fit_of_loss (gap), NULL, NULL, 0, NAN);
      add (weigh, FR_LEDGER_CAUSE_ICE, ICE_CHANCE * fit_of_loss (gap), NULL, NULL, 0, NAN);
    }
  else
    add (weigh, FR_LEDGER_CAUSE_WATER, WATER_CHANCE * exp (-gap->difference_l / RAIN_L) / RAIN_L, NULL, NULL,
         0, NAN);
}

static gint
by_chance (gconstpointer a, gconstpointer b)
{
  double one = ((const FrLedgerCause *)a)->chance_ratio, other = ((const FrLedgerCause *)b)->chance_ratio;

  return one > other ? -1 : one < other;
}

static void
rank (const Weigh *weigh, FrLedgerLine *line)
{
  double all = 0;
  guint n = 0;

  for (guint code = 0; code < FR_N_LEDGER_CAUSES; code++)
    all += weigh->sum[code];
  for (guint code = 0; code < FR_N_LEDGER_CAUSES; code++)
    if (weigh->sum[code] > 0)
      {
        line->causes[n] = weigh->cause[code];
        line->causes[n++].chance_ratio = weigh->sum[code] / all;
      }
  qsort (line->causes, n, sizeof *line->causes, by_chance);
  while (n > 1 && line->causes[n - 1].chance_ratio < LEAST_CHANCE)
    n--;
  line->n_causes = n;
}

/* Only the sweetness was read: it was read a little wrong, or some of it is ice that was not read, or water came in. */
static void
weigh_sugar (Weigh *weigh)
{
  const FrLedgerGap *gap = weigh->gap;
  double sd = READ_RATIO * fmax (gap->computed_l, 1) + 0.001, scale = fmax (0.3 * gap->mix_ratio * gap->computed_l, sd),
         rest = 1 / (scale * pow (1 + fabs (gap->sugar_kg) / scale, 2));

  weigh->sum[FR_LEDGER_CAUSE_MEASURING] = MEASURING_CHANCE * normal (gap->sugar_kg, 0, sd);
  weigh->cause[FR_LEDGER_CAUSE_MEASURING]
      = (FrLedgerCause){ .code = FR_LEDGER_CAUSE_MEASURING, .volume_l = NAN };
  if (gap->sugar_kg > 0)
    weigh->sum[FR_LEDGER_CAUSE_ICE] = ICE_CHANCE * rest;
  else
    weigh->sum[FR_LEDGER_CAUSE_WATER] = WATER_CHANCE * rest;
  weigh->cause[FR_LEDGER_CAUSE_ICE] = (FrLedgerCause){ .code = FR_LEDGER_CAUSE_ICE, .volume_l = NAN };
  weigh->cause[FR_LEDGER_CAUSE_WATER] = (FrLedgerCause){ .code = FR_LEDGER_CAUSE_WATER, .volume_l = NAN };
}

void
fr_ledger_explain (const FrLedgerGap *gap, const FrLedgerUsual *usual, FrLedgerLine *line)
{
  Weigh weigh = { .gap = gap, .usual = usual };
  double variance = 0.05 * 0.05;

  line->error_l = NAN;
  line->n_causes = 0;
  if (isnan (gap->difference_l))
    {
      if (!isnan (gap->sugar_kg))
        {
          weigh_sugar (&weigh);
          rank (&weigh, line);
        }
      return;
    }
  for (guint i = 0; i < gap->items->len; i++)
    {
      const FrLedgerItem *item = &g_array_index (gap->items, FrLedgerItem, i);
      double one = fr_ledger_error_l (item->record, item->volume_l);

      variance += one * one;
    }
  variance += pow (fr_ledger_error_l (gap->since_record, gap->since_l), 2);
  if (gap->side == 0)
    variance += pow (fr_ledger_error_l (gap->record, gap->measured_l), 2);
  weigh.error_l = line->error_l = sqrt (variance);
  for (guint i = 0; i < gap->items->len; i++)
    weigh_item_slips (&weigh, &g_array_index (gap->items, FrLedgerItem, i));
  weigh_look_slips (&weigh);
  weigh_since_slips (&weigh);
  weigh_twice (&weigh);
  if (!gap->is_night)
    weigh_missed (&weigh);
  weigh_rest (&weigh);
  rank (&weigh, line);
}

void
fr_ledger_explain_amount (const FrSeasonBook *book, const FrLedgerUsual *usual, FrLedgerLine *line)
{
  const FrLedgerGap gap = { .difference_l = NAN, .sugar_kg = NAN };
  Weigh weigh = { .gap = &gap, .usual = usual };
  FrLedgerSpread spread = { 0 };

  if (line->record->kind->id == FR_KIND_GATHERING)
    spread = fr_ledger_usual_into (usual, ((const FrGathering *)line->record)->container);
  else if (line->computed_l > 0)
    spread = (FrLedgerSpread){ FEW, line->computed_l, 0.2 };
  for (guint slip = 0; slip < FR_N_SLIPS; slip++)
    {
      double meant = fr_ledger_meant_l (book, line->record, slip, NAN);

      if (meant > 0)
        add (&weigh, FR_LEDGER_CAUSE_UNIT,
             fr_ledger_slip_chance_ratio (line->record, slip) * (spread.n < FEW ? 1 : fits (&spread, meant)),
             line->record, NULL, slip, meant);
    }
  rank (&weigh, line);
}
