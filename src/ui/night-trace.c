/* Columns and texts for the painter. Levels become depths in the shown unit here, since only the vessel knows
 * them. */
#include "ui/night-trace.h"

#include <math.h>

#define MARK_DECIMAL_LENGTH 2

struct _FrNightTrace
{
  FrTraceWords *words;
  double *columns[5]; /* time, level, brix, feed, power */
  FrTraceLine line;
  FrTraceTick *ticks;
  FrTracePrice *prices;
  FrTraceEvent *events;
  FrTraceLimit *limits;
  FrTraceSpan nights[2];
  char decimal_mark[MARK_DECIMAL_LENGTH];
  FrTraceView view;
};

void
fr_night_trace_free (FrNightTrace *self)
{
  if (self == NULL)
    return;
  fr_trace_words_free (self->words);
  for (guint i = 0; i < G_N_ELEMENTS (self->columns); i++)
    g_free (self->columns[i]);
  g_free (self->ticks);
  g_free (self->prices);
  g_free (self->events);
  g_free (self->limits);
  g_free (self);
}

static void
fill_line (FrNightTrace *self, const FrPlanShare *share, const FrPlanKit *kit, const FrSay *say)
{
  const FrBoilRun *run = &share->run;
  double capacity_l = fr_vessel_capacity_l (&kit->vessel);
  gsize n = run->n_trace + 1; /* one more so that the power falls to nothing at the end */

  for (guint i = 0; i < G_N_ELEMENTS (self->columns); i++)
    self->columns[i] = g_new (double, n);
  for (guint i = 0; i < run->n_trace; i++)
    {
      const FrTracePoint *point = &run->trace[i];

      self->columns[0][i] = point->time_s;
      self->columns[1][i]
          = fr_quantity_to_shown (fr_vessel_depth_m (&kit->vessel, MIN (point->volume_l, capacity_l)),
                                  FR_QUANTITY_LENGTH, &say->units);
      self->columns[2][i] = fr_quantity_to_shown (point->brix, FR_QUANTITY_SWEETNESS, &say->units);
      self->columns[3][i] = point->feed_left_l;
      self->columns[4][i] = point->power_w;
    }
  for (guint i = 0; i < 4; i++)
    self->columns[i][n - 1] = self->columns[i][n - 2];
  self->columns[4][n - 1] = 0;
  self->line = (FrTraceLine){
    .n_samples = n,
    .time_s = self->columns[0],
    .level_shown = self->columns[1],
    .brix = self->columns[2],
    .feed_l = share->bucket_l > 0 ? self->columns[3] : NULL,
    .power_w = self->columns[4],
    .level_label = self->words->level_label,
    .level_label_short = self->words->level_label_short,
    .brix_label = self->words->brix_label,
    .brix_end_label = self->words->brix_end_label,
    .feed_label = self->words->feed_label,
    .power_label = self->words->power_label,
  };
}

static void
fill_marks (FrNightTrace *self)
{
  const FrTraceWords *words = self->words;
  static const FrTraceEventKind kinds[]
      = { FR_TRACE_EVENT_FLAG, FR_TRACE_EVENT_MINOR, FR_TRACE_EVENT_PRICE_RISE };

  self->ticks = g_new0 (FrTraceTick, words->hours->len + 1);
  for (guint i = 0; i < words->hours->len; i++)
    {
      const FrHourMark *hour = &g_array_index (words->hours, FrHourMark, i);

      self->ticks[i] = (FrTraceTick){ hour->time_s, hour->label, hour->label_short, hour->clock_change };
    }
  self->prices = g_new0 (FrTracePrice, words->prices->len + 1);
  for (guint i = 0; i < words->prices->len; i++)
    {
      const FrPriceMark *price = &g_array_index (words->prices, FrPriceMark, i);

      self->prices[i]
          = (FrTracePrice){ price->from_s, price->to_s,       price->price, (FrPriceStep)price->step,
                            price->label,  price->label_long, price->cost };
    }
  self->events = g_new0 (FrTraceEvent, words->marks->len + 1);
  for (guint i = 0; i < words->marks->len; i++)
    {
      const FrMark *mark = &g_array_index (words->marks, FrMark, i);

      self->events[i] = (FrTraceEvent){ mark->time_s, kinds[mark->kind], mark->strong,
                                        mark->word,   mark->word_short,  mark->weight };
    }
  self->limits = g_new0 (FrTraceLimit, words->limits->len + 1);
  for (guint i = 0; i < words->limits->len; i++)
    {
      const FrLimitMark *limit = &g_array_index (words->limits, FrLimitMark, i);

      self->limits[i] = (FrTraceLimit){ limit->of_brix ? FR_TRACE_LIMIT_BRIX : FR_TRACE_LIMIT_LEVEL,
                                        limit->shown, limit->label };
    }
}

FrNightTrace *
fr_night_trace_new (const FrPlan *plan, const FrPlanInput *input, guint share, const FrSay *say)
{
  FrNightTrace *self = g_new0 (FrNightTrace, 1);
  const FrTraceWords *words;
  gboolean drawn = plan->status == FR_PLAN_OK && share < plan->n_shares && plan->shares[share].used
                   && plan->shares[share].run.n_trace > 0;

  self->words = fr_trace_words_new (plan, input, share, say);
  words = self->words;
  self->decimal_mark[0] = say->units.decimal_mark;
  if (drawn)
    fill_line (self, &plan->shares[share], &input->kits[plan->shares[share].kit], say);
  fill_marks (self);
  self->view = (FrTraceView){
    .from_s = words->from_s,
    .to_s = words->to_s,
    .lines = &self->line,
    .n_lines = drawn ? 1 : 0,
    .chosen = 0,
    .ticks = self->ticks,
    .n_ticks = words->hours->len,
    .prices = self->prices,
    .n_prices = words->prices->len,
    .events = self->events,
    .n_events = words->marks->len,
    .limits = self->limits,
    .n_limits = words->limits->len,
    .level_unit = words->level_unit,
    .brix_unit = words->brix_unit,
    .bucket_name = words->bucket_name,
    .power_name = words->power_name,
    .price_name = words->price_name,
    .empty_sentence = words->empty_sentence,
    .decimal_mark = self->decimal_mark,
    .selected_s = NAN,
  };
  return self;
}

FrTraceView *
fr_night_trace_view (FrNightTrace *self)
{
  return &self->view;
}

const FrTraceWords *
fr_night_trace_words (FrNightTrace *self)
{
  return self->words;
}
