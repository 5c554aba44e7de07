/* A tariff's making: periods sorted into seasons, and each season into one list of slices a day type.
 *
 * A list must run from 00:00 to 24:00 without a hole or an overlap and no day may lie in two seasons; that is
 * checked here once, so that a look-up (tariff-price.c) always finds exactly one slice. */
#include "domain/maths/tariff-private.h"

#include <math.h>
#include <stdlib.h>

#define PRICE_LIMIT 1e6 /* minor units per kWh; beyond that it is a slip of the keyboard */

void
fr_tariff_problem_set (FrTariffProblem *problem, FrTariffCode code, guint line)
{
  *problem = (FrTariffProblem){ code, line, FR_N_DAYS, 0, { 0, 0, 0 } };
}

static int
compare_slices (const void *a, const void *b)
{
  const Slice *left = a, *right = b;

  if (left->from_min != right->from_min)
    return left->from_min < right->from_min ? -1 : 1;
  /* Lines rise in the text, so that of two equal slices the later is the one complained of. */
  return left->line < right->line ? -1 : left->line > right->line;
}

static gboolean
price_is_sound (double price)
{
  return isfinite (price) && fabs (price) <= PRICE_LIMIT;
}

static gboolean
year_day_is_valid (gint month, gint day)
{
  return fr_date_is_valid ((FrDate){ 2000, month, day }); /* a leap year, so that 02-29 may be an edge */
}

static gboolean
period_is_sound (const FrTariffPeriod *period, guint line, FrTariffProblem *problem_out)
{
  fr_tariff_problem_set (problem_out, FR_TARIFF_BAD_LINE, line);
  if (!year_day_is_valid (period->from_month, period->from_day)
      || !year_day_is_valid (period->to_month, period->to_day))
    return FALSE;
  if ((guint)period->days >= FR_N_DAYS)
    return FALSE;
  if (period->from_min < 0 || period->from_min >= DAY_MIN || period->to_min < 0 || period->to_min > DAY_MIN
      || period->from_min == period->to_min)
    return FALSE;
  if (!price_is_sound (period->price_per_kwh))
    {
      fr_tariff_problem_set (problem_out, FR_TARIFF_BAD_NUMBER, line);
      return FALSE;
    }
  fr_tariff_problem_set (problem_out, FR_TARIFF_OK, 0);
  return TRUE;
}

static Season *
find_season (GArray *seasons, const FrTariffPeriod *period, guint line)
{
  Season season = { fr_tariff_day_number (period->from_month, period->from_day),
                    fr_tariff_day_number (period->to_month, period->to_day), line };

  for (guint i = 0; i < seasons->len; i++)
    {
      Season *known = &g_array_index (seasons, Season, i);

      if (known->from_day == season.from_day && known->to_day == season.to_day)
        return known;
    }
  g_array_append_val (seasons, season);
  return &g_array_index (seasons, Season, seasons->len - 1);
}

static void
add_slice (DayList *list, gint from_min, gint to_min, double price_per_kwh, guint line)
{
  if (from_min == to_min)
    return;
  list->slices = g_renew (Slice, list->slices, list->n_slices + 1);
  list->slices[list->n_slices++] = (Slice){ from_min, to_min, price_per_kwh, line };
}

static gboolean
list_covers_day (DayList *list, const Season *season, FrDays days, FrTariffProblem *problem_out)
{
  gint covered_to = 0;

  qsort (list->slices, list->n_slices, sizeof *list->slices, compare_slices);
  for (guint i = 0; i < list->n_slices; i++)
    {
      const Slice *slice = &list->slices[i];

      if (slice->from_min > covered_to)
        break;
      if (slice->from_min < covered_to)
        {
          fr_tariff_problem_set (problem_out, FR_TARIFF_OVERLAP, slice->line);
          problem_out->days = days;
          problem_out->minute = slice->from_min;
          return FALSE;
        }
      covered_to = slice->to_min;
    }
  if (covered_to == DAY_MIN)
    return TRUE;
  fr_tariff_problem_set (problem_out, FR_TARIFF_GAP, season->first_line);
  problem_out->days = days;
  problem_out->minute = covered_to;
  return FALSE;
}

static gboolean
season_is_complete (Season *season, FrTariffProblem *problem_out)
{
  static const FrDays needed[] = { FR_DAYS_WEEKDAY, FR_DAYS_SATURDAY, FR_DAYS_SUNDAY, FR_DAYS_HOLIDAY };

  for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
    if (fr_tariff_list_for (season, needed[i]) == FR_N_DAYS)
      {
        fr_tariff_problem_set (problem_out, FR_TARIFF_NO_DAYS, season->first_line);
        problem_out->days = needed[i];
        return FALSE;
      }
  for (guint days = 0; days < FR_N_DAYS; days++)
    if (season->lists[days].n_slices > 0
        && !list_covers_day (&season->lists[days], season, (FrDays)days, problem_out))
      return FALSE;
  return TRUE;
}

static gboolean
seasons_are_apart (const FrTariff *tariff, FrTariffProblem *problem_out)
{
  const gint64 first = fr_date_to_days ((FrDate){ 2000, 1, 1 });

  for (gint i = 0; i < 366; i++)
    {
      const FrDate date = fr_date_from_days (first + i);
      const Season *last;

      if (fr_tariff_count_seasons (tariff, date.month, date.day, &last) > 1)
        {
          fr_tariff_problem_set (problem_out, FR_TARIFF_TWO_SEASONS, last->first_line);
          problem_out->date = (FrDate){ 0, date.month, date.day };
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
take_holidays (FrTariff *tariff, const FrDate *holidays, guint n_holidays, FrTariffProblem *problem_out)
{
  tariff->n_holidays = n_holidays;
  tariff->holidays = g_new (gint64, n_holidays);
  for (guint i = 0; i < n_holidays; i++)
    {
      if (!fr_date_is_valid (holidays[i]))
        {
          fr_tariff_problem_set (problem_out, FR_TARIFF_BAD_LINE, i + 1);
          problem_out->days = FR_DAYS_HOLIDAY;
          return FALSE;
        }
      tariff->holidays[i] = fr_date_to_days (holidays[i]);
    }
  if (n_holidays > 0)
    qsort (tariff->holidays, n_holidays, sizeof *tariff->holidays, fr_tariff_compare_days);
  return TRUE;
}

FrTariff *
fr_tariff_build (const FrTariffPeriod *periods, const guint *lines, guint n_periods, const FrDate *holidays,
                 guint n_holidays, double adder_per_kwh, double tax_ratio, FrTariffProblem *problem_out)
{
  g_autoptr (FrTariff) tariff = g_new0 (FrTariff, 1);
  GArray *seasons = g_array_new (FALSE, FALSE, sizeof (Season));
  gboolean sound = TRUE;

  fr_tariff_problem_set (problem_out, n_periods == 0 ? FR_TARIFF_EMPTY : FR_TARIFF_OK, 0);
  if (!price_is_sound (adder_per_kwh) || !(tax_ratio > -1 && tax_ratio <= 1))
    fr_tariff_problem_set (problem_out, FR_TARIFF_BAD_NUMBER, 0);
  sound = problem_out->code == FR_TARIFF_OK;
  tariff->adder_per_kwh = adder_per_kwh;
  tariff->tax_ratio = tax_ratio;

  for (guint i = 0; sound && i < n_periods; i++)
    {
      const FrTariffPeriod *period = &periods[i];
      const guint line = lines != NULL ? lines[i] : i + 1;
      DayList *list;

      sound = period_is_sound (period, line, problem_out);
      if (!sound)
        break;
      list = &find_season (seasons, period, line)->lists[period->days];
      if (period->from_min < period->to_min)
        add_slice (list, period->from_min, period->to_min, period->price_per_kwh, line);
      else
        {
          add_slice (list, period->from_min, DAY_MIN, period->price_per_kwh, line);
          add_slice (list, 0, period->to_min, period->price_per_kwh, line);
        }
    }
  /* Handed over before anything can fail, so that the clean-up finds every slice. */
  tariff->n_seasons = seasons->len;
  tariff->seasons = (Season *)g_array_free (seasons, FALSE);
  for (guint i = 0; sound && i < tariff->n_seasons; i++)
    sound = season_is_complete (&tariff->seasons[i], problem_out);
  if (!sound || !seasons_are_apart (tariff, problem_out)
      || !take_holidays (tariff, holidays, n_holidays, problem_out))
    return NULL;
  return g_steal_pointer (&tariff);
}

FrTariff *
fr_tariff_new (const FrTariffPeriod *periods, guint n_periods, const FrDate *holidays, guint n_holidays,
               double adder_per_kwh, double tax_ratio, FrTariffProblem *problem_out)
{
  FrTariffProblem problem;
  FrTariff *tariff;

  g_return_val_if_fail (periods != NULL || n_periods == 0, NULL);
  g_return_val_if_fail (holidays != NULL || n_holidays == 0, NULL);

  tariff
      = fr_tariff_build (periods, NULL, n_periods, holidays, n_holidays, adder_per_kwh, tax_ratio, &problem);
  if (problem_out != NULL)
    *problem_out = problem;
  return tariff;
}

FrTariff *
fr_tariff_copy (const FrTariff *tariff)
{
  FrTariff *copy;

  if (tariff == NULL)
    return NULL;
  copy = g_memdup2 (tariff, sizeof *tariff);
  copy->holidays = g_memdup2 (tariff->holidays, tariff->n_holidays * sizeof *tariff->holidays);
  copy->seasons = g_memdup2 (tariff->seasons, tariff->n_seasons * sizeof *tariff->seasons);
  for (guint i = 0; i < copy->n_seasons; i++)
    for (guint days = 0; days < FR_N_DAYS; days++)
      {
        DayList *list = &copy->seasons[i].lists[days];

        list->slices = g_memdup2 (list->slices, list->n_slices * sizeof *list->slices);
      }
  return copy;
}

void
fr_tariff_free (FrTariff *tariff)
{
  if (tariff == NULL)
    return;
  for (guint i = 0; i < tariff->n_seasons; i++)
    for (guint days = 0; days < FR_N_DAYS; days++)
      g_free (tariff->seasons[i].lists[days].slices);
  g_free (tariff->seasons);
  g_free (tariff->holidays);
  g_free (tariff);
}
