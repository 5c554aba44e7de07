/* Every member over the weather: the hours that were observed once, the hours to come once for each course the weather
 * may take.
 *
 * A course: errors are drawn for the lows and highs of the days to come and laid over the forecast's hours, none at the
 * moment from which it is a forecast, straight between; where the forecast ends, a past season goes on from the same
 * distance to midwinter, each in turn. */
#include "domain/plan/forecast-private.h"

#include "domain/plan/season-air.h"

#include <math.h>
#include <string.h>

#define COURSES 64
#define LOW_HOUR 6
#define HIGH_HOUR 15
#define TAPPED_HOUR 12

guint
fr_forecast_gather_hour (const FrForecastQuestion *question, guint member)
{
  return question->gather_hour >= 0 ? (guint)question->gather_hour : FR_SAP_HOUR_LO + member % FR_SAP_HOURS;
}

guint
fr_forecast_n_taps (const FrForecastQuestion *question)
{
  guint n_taps = 0;

  for (guint i = 0; i < question->n_groups; i++)
    n_taps += question->groups[i].n_taps;
  return n_taps > 0 ? n_taps : 1;
}

static gint
day_of (const FrForecastQuestion *question, FrDate date)
{
  return (gint)(fr_date_to_days (date) - fr_date_to_days (question->air->first));
}

/* What one tap of the bush gives on a day against a new tap in a middling tree: the mean over all taps. */
static void
put_ages (const FrForecastQuestion *question, const FrSapShape *shape, gint n_days, double *ages)
{
  FrTapGroup alone = { question->tapped.year ? question->tapped : question->as_of, 1, 1 };
  guint n_groups = question->n_groups ? question->n_groups : 1;
  const FrTapGroup *groups = question->n_groups ? question->groups : &alone;
  double n_taps = fr_forecast_n_taps (question);

  memset (ages, 0, n_days * sizeof *ages);
  for (guint g = 0; g < n_groups; g++)
    {
      gint tapped = day_of (question, groups[g].tapped.year ? groups[g].tapped : question->as_of);

      /* The yield of day d is taken halfway through it, and the hole is drilled at noon. */
      for (gint d = MAX (tapped + 1, 0); d < n_days; d++)
        ages[d] += (double)groups[g].n_taps / n_taps * groups[g].yield_ratio * fr_sap_age_ratio (shape, d - 0.5 - tapped);
    }
}

/* Adds hours [from, from + n) to their days. */
static void
put_hours (const double *hours, gint from, gint n, gint gather_hour, gint n_days, double *units)
{
  for (gint i = 0; i < n; i++)
    {
      gint day = (from + i + 24 - gather_hour) / 24;

      if (day >= 0 && day < n_days)
        units[day] += hours[i];
    }
}

/* The hour at which a past season's midwinter begins, which is the one before its last day. */
static gint64
past_winter (const FrAirHours *past, gboolean is_south)
{
  FrDate last = fr_date_add_days (past->first, (gint)(past->n_hours / 24) - 1);

  return fr_air_hours_midnight (past, fr_midwinter (last, is_south));
}

double
fr_forecast_error_at_k (const double *low_k, const double *high_k, gint n_days, gint from, gint h)
{
  gint day = h / 24, hour = h % 24;
  gint before = hour < LOW_HOUR ? (day - 1) * 24 + HIGH_HOUR : hour < HIGH_HOUR ? day * 24 + LOW_HOUR : day * 24 + HIGH_HOUR;
  gint after = hour < LOW_HOUR ? day * 24 + LOW_HOUR : hour < HIGH_HOUR ? day * 24 + HIGH_HOUR : (day + 1) * 24 + LOW_HOUR;
  double at_before = before < from ? 0 : (before % 24 == LOW_HOUR ? low_k : high_k)[before / 24];
  double at_after = after / 24 >= n_days ? at_before : (after % 24 == LOW_HOUR ? low_k : high_k)[after / 24];

  before = MAX (before, from);
  return at_before + (at_after - at_before) * (h - before) / MAX (after - before, 1);
}

/* Air from @from to the season's end, of one course, after which the past season @past stands in. */
static void
put_course (const FrForecastRun *run, guint course, guint past, gint from, double *air_c)
{
  const FrForecastQuestion *question = run->question;
  const FrAirHours *air = question->air;
  const double *low_k = run->low_k + (gsize)course * run->n_days, *high_k = run->high_k + (gsize)course * run->n_days;
  FrDate midwinter = fr_midwinter (question->as_of, question->is_south);
  gint64 winter = fr_air_hours_midnight (air, midwinter);
  gint n_known = MIN ((gint)air->n_hours, run->n_days * 24);

  for (gint h = from; h < n_known; h++)
    air_c[h] = air->temp_c[h] + fr_forecast_error_at_k (low_k, high_k, run->n_days, from, h);
  for (gint h = MAX (n_known, from); h < run->n_days * 24; h++)
    air_c[h] = NAN;
  if (question->n_past > 0)
    {
      const FrAirHours *other = question->past[past];
      gint64 shift = past_winter (other, question->is_south) - winter;

      for (gint h = MAX (n_known, from); h < run->n_days * 24; h++)
        air_c[h] = h + shift >= 0 && h + shift < (gint64)other->n_hours ? other->temp_c[h + shift] : NAN;
    }
}

static void
draw_errors (FrForecastRun *run)
{
  FrChance chance = { run->question->seed };
  gint first = MAX (run->as_of, 0);

  for (guint c = 0; c < COURSES && first < run->n_days; c++)
    fr_forecast_error_draw (&run->question->errors, &chance, first - run->as_of, run->n_days - first,
                            run->low_k + (gsize)c * run->n_days + first, run->high_k + (gsize)c * run->n_days + first);
}

/* A past season for each draw, in turn. */
static guint
past_of (const FrForecastRun *run, guint course, guint draw)
{
  return run->question->n_past == 0 ? 0 : (run->is_ageless ? draw : course) % run->question->n_past;
}

/* A rule looks at whole days, some of them partly observed. */
static void
run_rule (FrForecastRun *run, guint member, const double *ages, gint n_observed, double *air_c)
{
  gint n_hours = run->n_days * 24, n_past = CLAMP (run->as_of + 1, 0, run->n_days);

  memcpy (air_c, run->question->air->temp_c, n_observed * sizeof *air_c);
  for (guint j = 0; j < run->n_draws; j++)
    {
      double *units = fr_forecast_run_units (run, member, j);
      guint course = (member * run->n_draws + j) % COURSES;

      if (j > 0)
        memcpy (units, fr_forecast_run_units (run, member, 0), n_past * sizeof *units);
      put_course (run, course, past_of (run, course, j), n_observed, air_c);
      for (gint d = j > 0 ? n_past : 0; d < run->n_days; d++)
        units[d] = (run->is_ageless ? 1 : ages[d])
                   * fr_sap_rule_units (run->members->rule, air_c, n_hours,
                                        d * 24 + (gint)fr_forecast_gather_hour (run->question, member));
    }
}

static void
run_member (FrForecastRun *run, guint member, double *air_c, double *hours)
{
  const FrForecastQuestion *question = run->question;
  const FrSapShape *shape = &run->members->members[member].shape;
  guint gather_hour = fr_forecast_gather_hour (question, member);
  gint n_observed = CLAMP (run->as_of * 24 + (gint)gather_hour, 0, MIN ((gint)question->air->n_hours, run->n_days * 24));
  g_autofree double *ages = g_new (double, run->n_days);
  g_autofree double *observed = g_new0 (double, run->n_days);
  FrSapState state = fr_sap_state ();

  if (!run->is_ageless)
    put_ages (question, shape, run->n_days, ages);
  if (run->members->rule != FR_SAP_RULE_TREE)
    {
      run_rule (run, member, ages, n_observed, air_c);
      return;
    }
  fr_sap_run (shape, &state, question->air->temp_c, n_observed, hours);
  put_hours (hours, 0, n_observed, gather_hour, run->n_days, observed);
  for (guint j = 0; j < run->n_draws; j++)
    {
      double *units = fr_forecast_run_units (run, member, j);
      FrSapState ahead = state;

      memcpy (units, observed, run->n_days * sizeof *units);
      if (n_observed < run->n_days * 24)
        {
          guint course = (member * run->n_draws + j) % COURSES;

          put_course (run, course, past_of (run, course, j), n_observed, air_c);
          fr_sap_run (shape, &ahead, air_c + n_observed, run->n_days * 24 - n_observed, hours);
          put_hours (hours, n_observed, run->n_days * 24 - n_observed, gather_hour, run->n_days, units);
        }
      for (gint d = 0; d < run->n_days && !run->is_ageless; d++)
        units[d] *= ages[d];
    }
}

static FrForecastRun *
run_new (const FrForecastQuestion *question, gboolean is_ageless)
{
  FrForecastRun *run = g_new0 (FrForecastRun, 1);
  guint latest = question->gather_hour >= 0 ? (guint)question->gather_hour : FR_SAP_HOUR_LO + FR_SAP_HOURS - 1;
  g_autofree double *air_c = NULL, *hours = NULL;
  gint season_end;

  run->question = question;
  run->members = question->members ? question->members : fr_sap_members ();
  run->as_of = day_of (question, question->as_of);
  run->is_ageless = is_ageless;
  run->n_draws = is_ageless && question->n_past > 0 ? question->n_past : question->n_draws;
  run->n_weather = question->air->n_hours < latest ? 0 : (gint)(question->air->n_hours - latest) / 24 + 1;
  season_end = day_of (question, fr_midwinter (question->as_of, question->is_south)) + FR_SEASON_DAYS;
  run->n_weather = MIN (run->n_weather, MAX (season_end, 0));
  run->n_days = run->n_weather;
  if (question->n_past > 0 && run->n_days > 0)
    run->n_days = MAX (run->n_days, season_end);
  run->units = g_new0 (double, (gsize)run->members->n *run->n_draws *MAX (run->n_days, 1));
  run->low_k = g_new0 (double, (gsize)COURSES *MAX (run->n_days, 1));
  run->high_k = g_new0 (double, (gsize)COURSES *MAX (run->n_days, 1));
  if (run->n_days == 0)
    return run;
  draw_errors (run);
  air_c = g_new (double, run->n_days * 24);
  hours = g_new (double, run->n_days * 24);
  for (guint m = 0; m < run->members->n; m++)
    run_member (run, m, air_c, hours);
  return run;
}

FrForecastRun *
fr_forecast_run_new (const FrForecastQuestion *question)
{
  return run_new (question, FALSE);
}

FrForecastRun *
fr_forecast_run_ageless_new (const FrForecastQuestion *question)
{
  return run_new (question, TRUE);
}

void
fr_forecast_run_free (FrForecastRun *run)
{
  if (!run)
    return;
  g_free (run->units);
  g_free (run->low_k);
  g_free (run->high_k);
  g_free (run);
}
