/* The drawing's texts: what each mark is called, and the whole night in one spoken sentence. */
#include "words/trace-words.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define AROUND_S 2700 /* shown before switch-on and after the end */

static void
mark_clear (FrMark *mark)
{
  g_free (mark->strong);
  g_free (mark->word);
  g_free (mark->word_short);
}

static void
hour_clear (FrHourMark *hour)
{
  g_free (hour->label);
  g_free (hour->label_short);
}

static void
price_clear (FrPriceMark *price)
{
  g_free (price->label);
  g_free (price->label_long);
  g_free (price->cost);
}

static void
limit_clear (FrLimitMark *limit)
{
  g_free (limit->label);
}

static GArray *
array_of (gsize size, GDestroyNotify clear)
{
  GArray *array = g_array_new (FALSE, TRUE, (guint)size);

  g_array_set_clear_func (array, clear);
  return array;
}

void
fr_trace_words_free (FrTraceWords *words)
{
  if (words == NULL)
    return;
  g_free (words->level_unit);
  g_free (words->brix_unit);
  g_free (words->level_label);
  g_free (words->level_label_short);
  g_free (words->brix_label);
  g_free (words->brix_end_label);
  g_free (words->feed_label);
  g_free (words->power_label);
  g_free (words->bucket_name);
  g_free (words->power_name);
  g_free (words->price_name);
  g_free (words->empty_sentence);
  g_free (words->spoken);
  g_array_unref (words->marks);
  g_array_unref (words->hours);
  g_array_unref (words->prices);
  g_array_unref (words->limits);
  g_free (words);
}

static void
add_mark (FrTraceWords *words, FrMarkKind kind, double time_s, char *strong, const char *word,
          const char *word_short, int weight)
{
  FrMark mark = { kind, time_s, strong, g_strdup (word), g_strdup (word_short), weight };

  g_array_append_val (words->marks, mark);
}

static char *
power_text (const FrSay *say, double power_w)
{
  g_autofree char *number = NULL;

  if (power_w < 1000)
    return fr_say_amount (say, power_w, FR_QUANTITY_POWER, 0);
  number = fr_say_number (say, power_w / 1000, fabs (power_w / 100 - round (power_w / 100)) < 0.05 ? 1 : 2);
  return g_strdup_printf ("%s kW", number);
}

/* "02→03", "2→3" on a clock of twelve hours; with minutes where the jump is no whole hour's. */
static char *
jump_label (const FrSay *say, gint from_second, gint to_second)
{
  gint from_hour = from_second / 3600, to_hour = to_second / 3600;

  if (say->twelve_hour)
    {
      from_hour = (from_hour + 11) % 12 + 1;
      to_hour = (to_hour + 11) % 12 + 1;
    }
  if (from_second % 3600 != 0 || to_second % 3600 != 0)
    return g_strdup_printf (say->twelve_hour ? "%d:%02d→%d:%02d" : "%02d:%02d→%02d:%02d", from_hour,
                            from_second / 60 % 60, to_hour, to_second / 60 % 60);
  return g_strdup_printf (say->twelve_hour ? "%d→%d" : "%02d→%02d", from_hour, to_hour);
}

/* Every whole hour of the local clock, and where it jumps. */
static void
add_hours (FrTraceWords *words, const FrPlanInput *input, const FrSay *say)
{
  gint64 from_utc = input->start_utc + (gint64)words->from_s, to_utc = input->start_utc + (gint64)words->to_s;
  gint64 change_utc = G_MAXINT64;

  if (!fr_zone_next_change (input->zone, from_utc, &change_utc) || change_utc > to_utc)
    change_utc = G_MAXINT64;
  for (gint64 at = from_utc; at <= to_utc; at++)
    {
      gint second = fr_zone_local (input->zone, at).second_of_day % 3600;
      FrHourMark hour = { 0 };

      if (at == change_utc)
        {
          FrLocalTime then = fr_zone_local (input->zone, at), last = fr_zone_local (input->zone, at - 1);
          /* What the clock would have shown had it not jumped. */
          gint old_second = (then.second_of_day - (then.offset_s - last.offset_s) + 86400) % 86400;

          hour.time_s = (double)(at - input->start_utc);
          hour.clock_change = TRUE;
          hour.label = jump_label (say, old_second, then.second_of_day);
          g_array_append_val (words->hours, hour);
          at += 60;
          continue;
        }
      if (second != 0)
        {
          at += (at < change_utc ? MIN (3600 - second, change_utc - at) : 3600 - second) - 1;
          continue;
        }
      hour.time_s = (double)(at - input->start_utc);
      hour.label = fr_say_clock (say, at);
      hour.label_short = fr_say_hour (say, at);
      g_array_append_val (words->hours, hour);
      at += 60;
    }
}

static void
add_prices (FrTraceWords *words, const FrPlan *plan, const FrPlanInput *input, double power_w,
            const FrSay *say)
{
  double lowest = INFINITY, highest = -INFINITY, from_s = words->from_s;
  guint widest = 0;
  double width = 0;

  for (guint i = 0; i < plan->n_spans; i++)
    {
      lowest = MIN (lowest, plan->spans[i].full_per_kwh);
      highest = MAX (highest, plan->spans[i].full_per_kwh);
    }
  for (guint i = 0; i < plan->n_spans; i++)
    {
      const FrPriceSpan *span = &plan->spans[i];
      FrPriceMark mark = { 0 };
      g_autofree char *minor = NULL;

      mark.from_s = MAX (from_s, (double)(span->from_utc - input->start_utc));
      mark.to_s = MIN (words->to_s, (double)(span->to_utc - input->start_utc));
      if (!(mark.to_s > mark.from_s))
        continue;
      mark.price = span->full_per_kwh;
      mark.step = span->full_per_kwh <= lowest + 1e-9 ? 0 : span->full_per_kwh >= highest - 1e-9 ? 2 : 1;
      if (!(highest > lowest + 1e-9))
        mark.step = 0;
      mark.label = fr_say_number (say, span->full_per_kwh, 1);
      /* One whole cent an hour says enough. */
      minor = fr_say_number (say, span->full_per_kwh * power_w / 1000, 0);
      mark.cost = g_strdup_printf (_ ("%s %s an hour"), minor, fr_money_minor_sign (say->currency));
      g_array_append_val (words->prices, mark);
      if (mark.to_s - mark.from_s > width)
        {
          width = mark.to_s - mark.from_s;
          widest = words->prices->len - 1;
        }
    }
  for (guint i = 0; i < words->prices->len; i++)
    {
      FrPriceMark *mark = &g_array_index (words->prices, FrPriceMark, i);

      if (i == widest)
        {
          g_autofree char *price = fr_say_price (say, mark->price);

          mark->label_long = g_strdup_printf ("%s/kWh", price);
        }
      else
        g_clear_pointer (&mark->cost, g_free);
    }
}

static void
add_marks (FrTraceWords *words, const FrPlan *plan, const FrPlanInput *input, const FrPlanShare *share,
           const FrSay *say)
{
  const FrBoilRun *run = &share->run;

  add_mark (words, FR_MARK_FLAG, 0, fr_say_clock (say, input->start_utc), _ ("Switch on"), _ ("On"), 3);
  if (!isnan (run->boils_s))
    add_mark (words, FR_MARK_MINOR, run->boils_s, fr_say_clock (say, input->start_utc + (gint64)run->boils_s),
              _ ("Boils"), NULL, 9);
  if (!isnan (run->feed_dry_s))
    add_mark (words, FR_MARK_FLAG, run->feed_dry_s,
              fr_say_clock (say, input->start_utc + (gint64)lround (run->feed_dry_s)), _ ("Bucket dry"),
              _ ("Dry"), 2);
  add_mark (words, FR_MARK_FLAG, run->time_s,
            fr_say_clock (say, input->start_utc + (gint64)lround (run->time_s)),
            run->ended_by == FR_END_CUTOFF ? _ ("Cut-off") : _ ("Off"), NULL, 1);
  if (plan->rise_utc != G_MININT64 && (double)(plan->rise_utc - input->start_utc) < words->to_s)
    {
      double ratio = plan->price_after / plan->price_before;

      add_mark (words, FR_MARK_RISE, (double)(plan->rise_utc - input->start_utc),
                fr_say_clock (say, plan->rise_utc),
                plan->price_before > 0 && ratio >= 1.9 && ratio <= 2.15 ? _ ("Price doubles")
                                                                        : _ ("Price rises"),
                _ ("Price"), 4);
    }
}

static void
add_limits (FrTraceWords *words, const FrPlanInput *input, const FrPlanShare *share, const FrSay *say)
{
  const FrPlanKit *kit = &input->kits[share->kit];
  g_autofree char *cutoff = fr_say_amount (say, share->level_cutoff_m, FR_QUANTITY_LENGTH, 1);
  FrLimitMark mark
      = { FALSE, fr_quantity_to_shown (share->level_cutoff_m, FR_QUANTITY_LENGTH, &say->units), NULL };

  mark.label = g_strdup_printf (_ ("Cut-off level %s"), cutoff);
  g_array_append_val (words->limits, mark);
  if (kit->min_level_l > kit->cutoff_l)
    {
      double depth_m
          = fr_vessel_depth_m (&kit->vessel, MIN (kit->min_level_l, fr_vessel_capacity_l (&kit->vessel)));
      g_autofree char *least = fr_say_amount (say, depth_m, FR_QUANTITY_LENGTH, 1);

      mark.shown = fr_quantity_to_shown (depth_m, FR_QUANTITY_LENGTH, &say->units);
      mark.label = g_strdup_printf (_ ("Element bare below %s"), least);
      g_array_append_val (words->limits, mark);
    }
}

FrTraceWords *
fr_trace_words_new (const FrPlan *plan, const FrPlanInput *input, guint share_at, const FrSay *say)
{
  FrTraceWords *words = g_new0 (FrTraceWords, 1);
  const FrPlanShare *share
      = plan->status == FR_PLAN_OK && share_at < plan->n_shares && plan->shares[share_at].used
            ? &plan->shares[share_at]
            : NULL;
  double end_s = (double)(input->off_by_utc - input->start_utc);

  words->marks = array_of (sizeof (FrMark), (GDestroyNotify)mark_clear);
  words->hours = array_of (sizeof (FrHourMark), (GDestroyNotify)hour_clear);
  words->prices = array_of (sizeof (FrPriceMark), (GDestroyNotify)price_clear);
  words->limits = array_of (sizeof (FrLimitMark), (GDestroyNotify)limit_clear);
  words->level_unit = g_strdup (fr_quantity_unit (FR_QUANTITY_LENGTH, &say->units));
  words->brix_unit = g_strdup (fr_quantity_unit (FR_QUANTITY_SWEETNESS, &say->units));
  words->bucket_name = g_strdup (_ ("Bucket"));
  words->power_name = g_strdup (_ ("Power"));
  words->price_name = g_strdup (_ ("Price"));
  words->empty_sentence = g_strdup (_ ("The night appears here once there is a plan."));
  if (share != NULL)
    end_s = MAX (end_s, share->run.time_s);
  if (!(end_s > 0 && end_s < 6 * 86400.0))
    end_s = 12 * 3600;
  words->from_s = -AROUND_S;
  words->to_s = end_s + AROUND_S;
  add_hours (words, input, say);
  if (share == NULL)
    {
      words->spoken = g_strdup (words->empty_sentence);
      return words;
    }
  {
    const FrPlanKit *kit = &input->kits[share->kit];
    g_autofree char *level = fr_say_amount (say, share->level_hold_m, FR_QUANTITY_LENGTH, 1);
    g_autofree char *start = fr_say_clock (say, input->start_utc);
    g_autofree char *end = fr_say_clock (say, input->start_utc + (gint64)lround (share->run.time_s));
    g_autofree char *left = fr_say_amount (say, share->run.left_l, FR_QUANTITY_VOLUME, 1);

    words->level_label = share->bucket_l > 0 ? g_strdup_printf (_ ("Level %s, held by the feed"), level)
                                             : g_strdup (_ ("Level"));
    words->level_label_short = share->bucket_l > 0 ? g_strdup_printf (_ ("Level %s"), level) : NULL;
    words->brix_label = g_strdup (_ ("Sweetness in the pan"));
    words->brix_end_label = fr_say_amount (say, share->run.left_brix, FR_QUANTITY_SWEETNESS, -1);
    words->feed_label = fr_say_amount (say, share->bucket_l, FR_QUANTITY_VOLUME, -1);
    words->power_label = power_text (say, kit->power_w);
    words->spoken
        = share->bucket_l > 0 ? g_strdup_printf (
              _ ("The %s from %s to %s: the level is held at %s until the bucket is dry, then falls "
                 "to %s at %s."),
              kit->name, start, end, level, left, words->brix_end_label)
                              : g_strdup_printf (_ ("The %s from %s to %s: the level falls to %s at %s."),
                                                 kit->name, start, end, left, words->brix_end_label);
    add_marks (words, plan, input, share, say);
    add_prices (words, plan, input, kit->power_w, say);
    add_limits (words, input, share, say);
  }
  return words;
}

char *
fr_trace_read_out (const FrPlan *plan, const FrPlanInput *input, guint share_at, double time_s,
                   const FrSay *say)
{
  const FrPlanShare *share;
  const FrPlanKit *kit;
  g_autofree char *clock = NULL, *level = NULL, *brix = NULL, *feed = NULL, *power = NULL;
  FrTracePoint point;

  if (plan->status != FR_PLAN_OK || share_at >= plan->n_shares || !plan->shares[share_at].used)
    return NULL;
  share = &plan->shares[share_at];
  kit = &input->kits[share->kit];
  clock = fr_say_clock (say, input->start_utc + (gint64)lround (time_s));
  if (time_s < 0 || time_s > share->run.time_s)
    return g_strdup_printf (_ ("%s: off"), clock);
  point = fr_boil_run_at (&share->run, time_s);
  level = fr_say_amount (
      say, fr_vessel_depth_m (&kit->vessel, MIN (point.volume_l, fr_vessel_capacity_l (&kit->vessel))),
      FR_QUANTITY_LENGTH, 1);
  brix = fr_say_amount (say, point.brix, FR_QUANTITY_SWEETNESS, 1);
  feed = fr_say_amount (say, point.feed_left_l, FR_QUANTITY_VOLUME, 1);
  power = power_text (say, point.power_w);
  return g_strdup_printf (_ ("%s: level %s, %s, %s in the bucket, %s"), clock, level, brix, feed, power);
}
