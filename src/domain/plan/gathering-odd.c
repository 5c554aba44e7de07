/* A line against its neighbours. Of a session each tree says how much of a season's sap has flowed: what it
 * gave over what it gives in a season, less what it had left. The others' middle is what the tree should have
 * had; the spread of such logarithms, learned over the season and never from less than what thirty lines of
 * common spread would say, is the measure.
 *
 * Water in the bucket by a factor k makes litres k times and sweetness one kth: the best combination of both
 * logarithms, each by its spread, is one normal number (Neyman and Pearson 1933 for two known normals). */
#include "domain/plan/gathering-ask-private.h"

#include "domain/units/units.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MEDIAN_COSTS 1.5707963
#define LEVEL_APART_RATIO 0.8 /* of sessions at the least; common practice, no source, as all below */
#define BRIX_DRIFT_RATIO 0.05
#define LEAST_RATIO 0.02
#define LOW_RATIO 0.45
#define HIGH_RATIO 2.2
#define THIN_RATIO 1.35
#define LEAST_OFF_L 0.5 /* nobody looks for less */
#define EMPTY_RATIO 0.05
#define RAIN_M 1e-3

static gint
compare_doubles (gconstpointer a, gconstpointer b)
{
  const double *x = a, *y = b;

  return (*x > *y) - (*x < *y);
}

/* The sorted middle without one of the values. */
static double
median_without (const GArray *sorted, double value, guint *n_out)
{
  const double *values = (const double *)(gconstpointer)sorted->data;
  guint low = 0, high = sorted->len, n;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (values[middle] < value)
        low = middle + 1;
      else
        high = middle;
    }
  n = sorted->len > 0 ? sorted->len - 1 : 0;
  *n_out = n;
  if (n == 0)
    return NAN;
#define LEFT(i) values[(i) < low ? (i) : (i) + 1]
  return n % 2 == 1 ? LEFT (n / 2) : (LEFT (n / 2 - 1) + LEFT (n / 2)) / 2;
#undef LEFT
}

/* --- the session --- */

static gint
compare_twins (gconstpointer a, gconstpointer b)
{
  const FrSapRunLine *one = a, *two = b;

  if (one->scope != two->scope)
    return one->scope < two->scope ? -1 : 1;
  if (one->entry != two->entry)
    return one->entry < two->entry ? -1 : 1;
  if (one->tap != two->tap)
    return one->tap < two->tap ? -1 : 1;
  if (one->group != two->group)
    return one->group < two->group ? -1 : 1;
  if (one->volume_l != two->volume_l)
    return one->volume_l < two->volume_l ? -1 : 1;
  if (one->utc_s != two->utc_s)
    return one->utc_s < two->utc_s ? -1 : 1;
  return (one->id > two->id) - (one->id < two->id);
}

static double
level_ratio (const FrSapRunTaken *taken)
{
  return MAX (taken->taken_l / taken->pace_l - taken->backlog_ratio, 0);
}

static double
brix_off (const FrSapRunTaken *taken)
{
  return log (taken->sweet_brix_l / taken->sweet_l / taken->usual_brix);
}

static void
sum_up (FrAsker *asker)
{
  FrSapRun *run = &asker->run;

  fr_sap_run_weigh (run);
  g_array_set_size (asker->levels, 0);
  g_array_set_size (asker->offs, 0);
  for (guint i = 0; i < run->taken->len; i++)
    {
      const FrSapRunTaken *taken = &g_array_index (run->taken, FrSapRunTaken, i);
      double value = level_ratio (taken);

      g_array_append_val (asker->levels, value);
      if (!(taken->sweet_brix_l > 0))
        continue;
      value = brix_off (taken);
      g_array_append_val (asker->offs, value);
    }
  g_array_sort (asker->levels, compare_doubles);
  g_array_sort (asker->offs, compare_doubles);
  g_array_set_size (asker->twins, 0);
  g_array_append_vals (asker->twins, run->lines->data, run->lines->len);
  g_array_sort (asker->twins, compare_twins);
}

static const FrSapRunLine *
line_at (const FrAsker *asker, guint i)
{
  return &g_array_index (asker->lines, FrSapRunLine, i);
}

/* Where the session that begins there ends. */
static guint
end_of (const FrAsker *asker, guint from)
{
  guint end = from + 1;

  while (end < asker->lines->len
         && line_at (asker, end)->utc_s - line_at (asker, end - 1)->utc_s <= FR_GATHERING_SESSION_S
         && !fr_sap_run_is_new_season (&asker->run, line_at (asker, end)->utc_s))
    end++;
  return end;
}

static void
begin (FrAsker *asker, gint64 utc_s)
{
  if (fr_sap_run_is_new_season (&asker->run, utc_s))
    fr_sap_run_begin_season (&asker->run, utc_s);
  fr_sap_run_begin_session (&asker->run, utc_s);
}

/* Leaves all sessions behind that are over before @utc_s. */
static void
seek (FrAsker *asker, gint64 utc_s)
{
  if (asker->at > 0 && line_at (asker, asker->at - 1)->utc_s + FR_GATHERING_SESSION_S >= utc_s)
    {
      asker->at = 0;
      asker->run.season = 0;
    }
  while (asker->at < asker->lines->len)
    {
      guint end;

      if (line_at (asker, asker->at)->utc_s >= utc_s)
        break;
      begin (asker, line_at (asker, asker->at)->utc_s);
      end = end_of (asker, asker->at);
      if (line_at (asker, end - 1)->utc_s + FR_GATHERING_SESSION_S >= utc_s)
        break;
      for (guint i = asker->at; i < end; i++)
        fr_sap_run_add (&asker->run, line_at (asker, i));
      fr_sap_run_weigh (&asker->run);
      fr_sap_run_end_session (&asker->run);
      asker->at = end;
    }
}

void
fr_asker_sit (FrAsker *asker, gint64 utc_s, const FrSapRunLine *line, gint64 without)
{
  FrSapRun *run = &asker->run;
  gint64 last_utc = G_MININT64;
  gboolean added = line == NULL;

  if (asker->is_books && line == NULL && utc_s >= asker->from_utc && utc_s <= asker->to_utc)
    return;
  seek (asker, utc_s);
  asker->is_books = line == NULL;
  for (guint i = asker->at;; i++)
    {
      const FrSapRunLine *next = i < asker->lines->len ? line_at (asker, i) : NULL;

      if (!added && (next == NULL || next->utc_s >= line->utc_s))
        {
          next = line;
          added = TRUE;
          i--;
        }
      if (next == NULL
          || (last_utc != G_MININT64
              && (next->utc_s - last_utc > FR_GATHERING_SESSION_S
                  || fr_sap_run_is_new_season (run, next->utc_s))))
        break;
      if (last_utc == G_MININT64)
        {
          begin (asker, next->utc_s);
          asker->from_utc = next->utc_s;
        }
      last_utc = next->utc_s;
      if (next == line || next->id != without)
        fr_sap_run_add (run, next);
    }
  asker->to_utc = last_utc;
  sum_up (asker);
}

/* --- far off --- */

/* A line's odds: its logarithm against what was to be expected, and the spread of such. */
typedef struct
{
  guint n;
  double expected_l;
  double value_l;
  double off;
  double spread;
  guint n_brix;
  double usual_brix;
  double brix;
  double brix_off;
  double brix_spread;
} Odds;

static double
square (double value)
{
  return value * value;
}

/* The others' level and how unsure it is; with few of them, the season's sessions so far weigh in. */
static gboolean
find_level (const FrAsker *asker, const FrSapRunTaken *taken, double *level_out, double *spread_out,
            guint *n_out)
{
  const FrSapRun *run = &asker->run;
  double level = median_without (asker->levels, level_ratio (taken), n_out), precision = 0, log_level = 0;

  if (*n_out > 0 && level > 0)
    {
      precision = *n_out / (MEDIAN_COSTS * square (run->spread_ratio));
      log_level = precision * log (level);
    }
  else if (*n_out > 0)
    {
      *level_out = 0;
      *spread_out = 0;
      return TRUE;
    }
  if (run->n_levels >= 3)
    {
      const double apart = MAX (sqrt (run->level_apart_ratio / (run->n_levels - 1)), LEVEL_APART_RATIO);

      log_level += run->level_log_ratio / square (apart);
      precision += 1 / square (apart);
    }
  if (!(precision > 0))
    return FALSE;
  *level_out = exp (log_level / precision);
  *spread_out = 1 / sqrt (precision);
  return TRUE;
}

static gboolean
find_odds (const FrAsker *asker, const FrSapRunTaken *taken, Odds *odds)
{
  const FrSapRun *run = &asker->run;
  double level, spread, brix_level;

  *odds = (Odds){ .value_l = taken->taken_l, .brix = NAN, .usual_brix = NAN };
  if (!find_level (asker, taken, &level, &spread, &odds->n))
    return FALSE;
  odds->expected_l = taken->pace_l * (level + taken->backlog_ratio);
  if (!(odds->expected_l > 0))
    return FALSE;
  odds->off = log (MAX (odds->value_l, LEAST_RATIO * odds->expected_l) / odds->expected_l);
  odds->spread
      = sqrt (square (fr_sap_run_reading_sd_ratio (run, odds->expected_l)) + square (taken->pace_sd_ratio)
              + square (spread * level / (level + taken->backlog_ratio)));
  if (!(taken->sweet_brix_l > 0))
    return TRUE;
  brix_level = median_without (asker->offs, brix_off (taken), &odds->n_brix);
  brix_level = odds->n_brix > 0
                   ? run->brix_level_ratio
                         + (brix_level - run->brix_level_ratio) * odds->n_brix / (odds->n_brix + 2.0)
                   : run->brix_level_ratio;
  odds->brix = taken->sweet_brix_l / taken->sweet_l;
  odds->usual_brix = taken->usual_brix * exp (brix_level);
  odds->brix_off = log (odds->brix / odds->usual_brix);
  odds->brix_spread = sqrt (square (run->brix_spread_ratio) * (1 + MEDIAN_COSTS / (odds->n_brix + 1))
                            + square (taken->usual_brix_sd_ratio) + square (BRIX_DRIFT_RATIO));
  return TRUE;
}

static gboolean
is_watered (const Odds *odds)
{
  const double litres = 1 / square (odds->spread), sweetness = 1 / square (odds->brix_spread);
  const double water = (odds->off * litres - odds->brix_off * sweetness) / (litres + sweetness);

  return !isnan (odds->brix) && odds->brix_off < -2 * odds->brix_spread && odds->off > -odds->spread
         && water > log (THIN_RATIO) && water * sqrt (litres + sweetness) > FR_ASK_FAR;
}

/* Whether a slip by that factor is likelier than what happens to trees and pails: that spreads over some
 * three units of the logarithm and is thrice as common; a slip lies within the spread about its own
 * logarithm. */
static gboolean
is_slip (const Odds *odds, double factor)
{
  const double away = (odds->off - log (factor)) / odds->spread;

  return odds->value_l > 0 && exp (-square (away) / 2) / (sqrt (2 * G_PI) * odds->spread) > 1;
}

/* Gallons, pounds and inches where litres, kilograms and centimetres were meant, or the point a place off;
 * @low: too little was written. */
static void
because_slip (FrQuestion *question, const Odds *odds, gboolean low)
{
  static const double units[] = { FR_LITRES_PER_US_GALLON, FR_LITRES_PER_IMPERIAL_GALLON, 1 / FR_KG_PER_POUND,
                                  100 * FR_METRES_PER_INCH };

  if (is_slip (odds, low ? 0.1 : 10))
    fr_question_because (question, FR_CAUSE_POINT);
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (is_slip (odds, low ? 1 / units[i] : units[i]))
      fr_question_because (question, FR_CAUSE_UNIT);
}

static void
because_water (FrQuestion *question, double rain_m)
{
  const gboolean dry = !isnan (rain_m) && rain_m < RAIN_M;

  fr_question_because (question, dry ? FR_CAUSE_MELT : FR_CAUSE_RAIN);
  fr_question_because (question, dry ? FR_CAUSE_RAIN : FR_CAUSE_MELT);
}

/* One empty bucket among full ones was tipped; what is a third every day is a leak or a hole that dries up.
 */
static void
because_low (FrQuestion *question, const Odds *odds, const FrSapRunTaken *taken)
{
  const double ratio = odds->value_l / odds->expected_l;
  const gboolean was_low = taken->pace_l < 0.6 * taken->expected_l && taken->unit->weight_ratio > 1;

  because_slip (question, odds, TRUE);
  if (was_low)
    fr_question_because (question, FR_CAUSE_DRY_HOLE);
  if (ratio < EMPTY_RATIO && !was_low)
    fr_question_because (question, FR_CAUSE_TIPPED);
  fr_question_because (question, FR_CAUSE_LEAK);
  fr_question_because (question, FR_CAUSE_DRY_HOLE);
  fr_question_because (question, FR_CAUSE_TIPPED);
}

static void
because_high (FrQuestion *question, const Odds *odds, double rain_m)
{
  because_slip (question, odds, FALSE);
  if (isnan (odds->brix) && rain_m >= RAIN_M)
    fr_question_because (question, FR_CAUSE_RAIN);
  fr_question_because (question, FR_CAUSE_OTHER_TREE);
  fr_question_because (question, FR_CAUSE_UNIT);
  if (isnan (odds->brix))
    fr_question_because (question, FR_CAUSE_RAIN);
  fr_question_because (question, FR_CAUSE_MISSED_LINE);
}

static void
ask_odd (const FrSapRunTaken *taken, const Odds *odds, double rain_m, GArray *questions)
{
  const double far_off = odds->off / odds->spread;
  FrQuestion question = fr_question (FR_ASK_THIN);

  question.value_l = odds->value_l;
  question.usual_l = odds->expected_l;
  question.brix = odds->brix;
  question.usual_brix = odds->usual_brix;
  question.rain_m = rain_m;
  question.n_compared = odds->n;
  if (is_watered (odds))
    {
      because_water (&question, rain_m);
      fr_question_because (&question, FR_CAUSE_INSTRUMENT);
    }
  else if (far_off > FR_ASK_FAR && odds->value_l > HIGH_RATIO * odds->expected_l
           && odds->value_l - odds->expected_l > LEAST_OFF_L)
    {
      question.code = FR_ASK_FAR_ABOVE;
      because_high (&question, odds, rain_m);
    }
  else if (far_off < -FR_ASK_FAR && odds->value_l < LOW_RATIO * odds->expected_l
           && odds->expected_l - odds->value_l > LEAST_OFF_L)
    {
      question.code = FR_ASK_FAR_BELOW;
      because_low (&question, odds, taken);
    }
  else
    return;
  g_array_append_val (questions, question);
}

/* --- said twice --- */

static gboolean
is_same_said (const FrSapRunLine *one, const FrSapRunLine *two)
{
  return one->scope == two->scope && one->entry == two->entry && one->tap == two->tap
         && one->group == two->group && one->volume_l == two->volume_l
         && (isnan (one->brix) || isnan (two->brix) || one->brix == two->brix);
}

/* Of two the later is asked about; a new one is later than all. */
static gboolean
ask_twice (const FrAsker *asker, const FrSapRunLine *line, GArray *questions)
{
  guint low = 0, high = asker->twins->len;
  FrSapRunLine first = *line;
  FrQuestion question = fr_question (FR_ASK_TWICE);

  if (!(line->volume_l > 0))
    return FALSE;
  first.utc_s = G_MININT64;
  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (compare_twins (&g_array_index (asker->twins, FrSapRunLine, middle), &first) < 0)
        low = middle + 1;
      else
        high = middle;
    }
  for (; low < asker->twins->len; low++)
    {
      const FrSapRunLine *twin = &g_array_index (asker->twins, FrSapRunLine, low);

      if (twin->volume_l != line->volume_l || twin->entry != line->entry)
        return FALSE;
      if (twin->id == line->id)
        {
          if (line->id != 0)
            return FALSE;
          continue;
        }
      if (is_same_said (twin, line))
        break;
    }
  if (low == asker->twins->len)
    return FALSE;
  question.other = g_array_index (asker->twins, FrSapRunLine, low).id;
  question.other_utc_s = g_array_index (asker->twins, FrSapRunLine, low).utc_s;
  question.value_l = line->volume_l;
  fr_question_because (&question, FR_CAUSE_TYPED_TWICE);
  fr_question_because (&question, FR_CAUSE_OTHER_TREE);
  g_array_append_val (questions, question);
  return TRUE;
}

void
fr_asker_compare (FrAsker *asker, const FrSapRunLine *line, GArray *questions, double rain_m)
{
  const FrSapRunTaken *taken;
  Odds odds;

  if (ask_twice (asker, line, questions) || line->entry == FR_SAP_RUN_NONE)
    return;
  taken = fr_sap_run_taken (&asker->run, line);
  if (find_odds (asker, taken, &odds))
    ask_odd (taken, &odds, rain_m, questions);
}
