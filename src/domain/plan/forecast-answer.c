/* The next run days on end, what they bring, and what stands around them. */
#include "domain/plan/forecast-answer.h"

#include <math.h>

/* Hours of thaw that a day of frost may have; common sense, no source. */
#define FROZEN_THAW_H 3.0
/* Over so many days what hangs in the buckets is added up at most: after that somebody has emptied them
 * unwritten. */
#define HANGING_D 7

static gboolean
is_known (const FrForecastDay *day)
{
  return day->is_ahead && !day->is_beyond && !isnan (day->run_probability);
}

static gboolean
is_run_day (const FrForecastDay *day)
{
  return day->is_ahead && day->run_probability >= FR_RUN_DAY_PROBABILITY;
}

FrSpell
fr_forecast_day_spell (const FrForecastDay *day)
{
  if (isnan (day->thaw_h) || isnan (day->frozen_h))
    return FR_SPELL_UNKNOWN;
  if (day->thaw_h < FROZEN_THAW_H && day->frozen_h > 0)
    return day->low_c <= FR_HARD_FREEZE_C ? FR_SPELL_HARD_FREEZE : FR_SPELL_FREEZE;
  return day->frozen_h == 0 ? FR_SPELL_WARM : FR_SPELL_SLACK;
}

/* Of the known days in [@from, @end): frost or warmth when most of them are so. */
static FrSpell
spell_of (const FrForecast *forecast, guint from, guint end)
{
  guint n[FR_N_SPELLS] = { 0 }, n_known = 0;

  for (guint i = from; i < end; i++)
    if (is_known (&forecast->days[i]))
      {
        n[fr_forecast_day_spell (&forecast->days[i])]++;
        n_known++;
      }
  if (n_known == 0)
    return FR_SPELL_UNKNOWN;
  if (2 * (n[FR_SPELL_FREEZE] + n[FR_SPELL_HARD_FREEZE]) >= n_known)
    return n[FR_SPELL_HARD_FREEZE] > 0 ? FR_SPELL_HARD_FREEZE : FR_SPELL_FREEZE;
  return 2 * n[FR_SPELL_WARM] >= n_known ? FR_SPELL_WARM : FR_SPELL_SLACK;
}

static double
hanging_l (const FrForecast *forecast)
{
  double sum_l = 0;
  guint n_days = 0;
  gint at = (gint)forecast->n_days - 1;

  while (at >= 0 && forecast->days[at].is_ahead)
    at--;
  for (; at >= 0; at--)
    {
      const FrForecastDay *day = &forecast->days[at];

      if (!isnan (day->gathered_l))
        return sum_l;
      if (n_days++ >= HANGING_D || isnan (day->per_tap.middle_l))
        return NAN;
      sum_l += day->per_tap.middle_l * forecast->n_taps;
    }
  /* Down to the first day of the first tap. */
  return forecast->n_days > 0 && n_days > 0 ? sum_l : NAN;
}

/* What comes after as_of by the end of a day, and what hangs already. */
static FrLitres
expected_by (const FrForecast *forecast, const FrForecastDay *day, double hanging)
{
  double more_l = (isnan (hanging) ? 0 : hanging) - forecast->gathered_l;
  const FrLitres *so_far = &day->so_far;

  return (FrLitres){ so_far->lo_l + more_l,         so_far->quarter_lo_l + more_l, so_far->middle_l + more_l,
                     so_far->quarter_hi_l + more_l, so_far->hi_l + more_l,         so_far->mean_l + more_l };
}

static FrRoom
room_of (const FrForecastAnswer *answer)
{
  if (isnan (answer->free_l) || isnan (answer->expected.hi_l) || answer->is_per_tap)
    return FR_ROOM_UNKNOWN;
  if (answer->expected.hi_l <= answer->free_l)
    return FR_ROOM_ENOUGH;
  return answer->expected.middle_l <= answer->free_l ? FR_ROOM_TIGHT : FR_ROOM_SHORT;
}

/* Counts days ahead; returns the number of the last known one, or −1. */
static gint
look_ahead (const FrForecast *forecast, FrForecastAnswer *answer)
{
  gint last = -1;

  for (guint i = 0; i < forecast->n_days; i++)
    if (is_known (&forecast->days[i]))
      {
        last = (gint)i;
        answer->n_known++;
      }
  for (gint i = 0; i < last; i++)
    answer->n_gaps += forecast->days[i].is_ahead && isnan (forecast->days[i].run_probability);
  if (last >= 0)
    answer->known_until = forecast->days[last].date;
  return last;
}

static FrAnswerCode
code_of (const FrForecast *forecast, const FrForecastAnswer *answer, gboolean is_tapped)
{
  /* Without any day there is nothing to tell a date by. */
  if (!is_tapped)
    return forecast->n_days == 0 ? FR_ANSWER_NO_WEATHER : FR_ANSWER_NOT_TAPPED;
  if (answer->n_run_days > 0)
    return FR_ANSWER_EMPTY;
  /* Also long after the season, when nobody looks at the weather any more. */
  if (answer->over_probability >= FR_OVER_PROBABILITY)
    return FR_ANSWER_OVER;
  if (answer->n_known == 0)
    return FR_ANSWER_NO_WEATHER;
  return answer->hanging_l >= FR_RUN_L * forecast->n_taps ? FR_ANSWER_HANGING : FR_ANSWER_WAIT;
}

void
fr_forecast_answer (const FrAnswerQuestion *question, FrForecastAnswer *answer)
{
  const FrForecast *forecast = question->forecast;
  guint at = 0, end, until;
  gint known;

  *answer = (FrForecastAnswer){ .today = question->today,
                                .gather_hour = question->gather_hour,
                                .expected = { NAN, NAN, NAN, NAN, NAN, NAN },
                                .hanging_l = question->is_tapped ? hanging_l (forecast) : NAN,
                                .free_l = question->free_l,
                                .is_after_boil = question->is_after_boil,
                                .over_probability = forecast->over_probability,
                                .off_flavour_probability = forecast->off_flavour_probability };
  known = look_ahead (forecast, answer);
  while (at < forecast->n_days && !(is_known (&forecast->days[at]) && is_run_day (&forecast->days[at])))
    at++;
  for (end = at;
       end < forecast->n_days && is_known (&forecast->days[end]) && is_run_day (&forecast->days[end]); end++)
    {
      if (answer->n_run_days++ == 0)
        answer->first = forecast->days[end].date;
      answer->last = forecast->days[end].date;
    }
  if (answer->n_run_days == 0)
    for (end = 0; end < forecast->n_days && !forecast->days[end].is_ahead; end++)
      ;
  until = end;
  while (until < forecast->n_days && !is_run_day (&forecast->days[until]))
    until++;
  answer->spell = spell_of (forecast, end, until);
  if (until < forecast->n_days)
    {
      answer->next_run = forecast->days[until].date;
      answer->is_next_by_past = forecast->days[until].is_beyond;
    }
  answer->code = code_of (forecast, answer, question->is_tapped);
  if (known >= 0)
    {
      const FrForecastDay *by = answer->n_run_days > 0 ? &forecast->days[end - 1] : &forecast->days[known];

      answer->is_per_tap = isnan (by->bush.middle_l);
      answer->expected = expected_by (forecast, by, answer->hanging_l);
    }
  answer->room = room_of (answer);
}
