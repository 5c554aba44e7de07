/* Each emptying asked of the forecast as it would have been asked on the evening of the one before.
 *
 * Drawn errors: over the observed hours after that evening one course is laid, drawn from the errors' own distribution
 * (forecast-error.h), and the forecast then draws its own around it as it does on any evening. */
#include "domain/plan/forecast-score.h"

#include "domain/maths/scores.h"
#include "domain/plan/forecast-private.h"

#include <math.h>
#include <string.h>

static const FrSapRule rules[FR_N_SCORE_MODELS] = {
  [FR_SCORE_CONSTANT] = FR_SAP_RULE_CONSTANT,     [FR_SCORE_FREEZE_THAW] = FR_SAP_RULE_FREEZE_THAW,
  [FR_SCORE_ZERO] = FR_SAP_RULE_ZERO,             [FR_SCORE_NIGHTS] = FR_SAP_RULE_NIGHTS,
  [FR_SCORE_THAW_HOURS] = FR_SAP_RULE_THAW_HOURS,
};

static double
span_log (const FrSapFitSpan *span)
{
  return log (span->per_tap_l * 24 / (span->to_hour - span->from_hour) + FR_SAP_NOISE_L);
}

FrScoreRivals *
fr_score_rivals_new (const FrSapFitSeason *seasons, guint n_seasons)
{
  FrScoreRivals *rivals = g_new0 (FrScoreRivals, 1);
  g_autoptr (GArray) offs = g_array_new (FALSE, FALSE, sizeof (double)), steps = g_array_new (FALSE, FALSE, sizeof (double));
  double mean = 0;

  for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
    if (rules[m] != FR_SAP_RULE_TREE)
      rivals->fits[m] = fr_sap_fit_rule (rules[m], seasons, n_seasons);
  for (guint s = 0; s < n_seasons; s++)
    for (guint i = 0; i < seasons[s].n_spans; i++)
      {
        double log_l = span_log (&seasons[s].spans[i]);

        g_array_append_val (offs, log_l);
        mean += log_l;
        if (i > 0)
          {
            log_l -= span_log (&seasons[s].spans[i - 1]);
            g_array_append_val (steps, log_l);
          }
      }
  mean /= MAX (offs->len, 1);
  for (guint i = 0; i < offs->len; i++)
    g_array_index (offs, double, i) -= mean;
  rivals->fits[FR_SCORE_SEASON_MEAN] = fr_sap_fit_scatter ((const double *)offs->data, offs->len, exp (mean) - FR_SAP_NOISE_L);
  rivals->fits[FR_SCORE_LAST] = fr_sap_fit_scatter ((const double *)steps->data, steps->len, exp (mean) - FR_SAP_NOISE_L);
  return rivals;
}

void
fr_score_rivals_free (FrScoreRivals *rivals)
{
  if (!rivals)
    return;
  for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
    fr_sap_fit_free (rivals->fits[m]);
  g_free (rivals);
}

/* Hours up to the end of the span, later ones with a drawn course where @course is 0 or more. Borrows nothing. */
static double *
air_of (const FrForecastQuestion *season, const FrAirHours *air, FrDate as_of, guint n_hours, gint course)
{
  double *air_c = g_memdup2 (air->temp_c, n_hours * sizeof *air_c);
  gint n_days = (gint)n_hours / 24, day = (gint)(fr_date_to_days (as_of) - fr_date_to_days (air->first));
  gint first = MAX (day, 0), from = MAX (day * 24 + (gint)fr_forecast_gather_hour (season, 4), 0);
  g_autofree double *low_k = g_new0 (double, MAX (n_days, 1)), *high_k = g_new0 (double, MAX (n_days, 1));
  FrChance chance = { season->seed + 7919 * (guint64)(course + 1) + (guint64)fr_date_to_days (as_of) };

  if (course < 0 || first >= n_days)
    return air_c;
  fr_chance_bits (&chance);
  fr_forecast_error_draw (&season->errors, &chance, first - day, n_days - first, low_k + first, high_k + first);
  for (gint h = from; h < n_days * 24; h++)
    air_c[h] += fr_forecast_error_at_k (low_k, high_k, n_days, from, h);
  return air_c;
}

static const FrAirHours *
kept_on (const FrScoreQuestion *question, FrDate as_of)
{
  for (guint i = 0; i < question->n_kept; i++)
    if (fr_date_compare (question->kept[i].as_of, as_of) == 0)
      return question->kept[i].air;
  return NULL;
}

/* The question of that evening, but for its members. */
static gboolean
evening_of (const FrScoreQuestion *question, const FrScoreTry *try, FrScoreAir kind, gint course, FrForecastQuestion *asked_out,
            FrAirHours *air_out)
{
  const FrForecastQuestion *season = question->season;
  const FrAirHours *air = kind == FR_SCORE_KEPT ? kept_on (question, try->as_of) : season->air;
  gint64 n_hours;

  if (air == NULL)
    return FALSE;
  n_hours = 24 * (fr_date_to_days (try->date) - fr_date_to_days (air->first) + 1);
  if (n_hours <= 0)
    return FALSE;
  *air_out = *air;
  air_out->n_hours = (guint)MIN (n_hours, (gint64)air->n_hours);
  air_out->temp_c = air_of (season, air, try->as_of, air_out->n_hours, course);
  *asked_out = *season;
  asked_out->air = air_out;
  asked_out->as_of = try->as_of;
  asked_out->n_past = 0;
  if (kind == FR_SCORE_OBSERVED)
    {
      asked_out->errors.first_sd_k = asked_out->errors.last_sd_k = 0;
      asked_out->n_draws = 1;
    }
  return TRUE;
}

/* The rate of the emptying before @at; NAN when there is none. */
static double
last_l (const FrForecastQuestion *season, guint at)
{
  for (guint i = at; i-- > 0;)
    if (!isnan (season->gathered[i].per_tap_l))
      return season->gathered[i].per_tap_l / season->gathered[i].span_days;
  return NAN;
}

/* Members of "as the emptying before": all tell what came then; without one, what the fit does. */
static FrSapMember *
retold (const FrSapMembers *members, double per_day_l)
{
  FrSapMember *told = g_memdup2 (members->members, members->n * sizeof *told);

  for (guint m = 0; m < members->n && !isnan (per_day_l); m++)
    told[m].gain_l = per_day_l;
  return told;
}

static void
foretell (const FrScoreQuestion *question, FrScoreModel model, guint at, FrForecastQuestion *asked, FrScoreTry *try)
{
  FrSapMembers members = { 0 };
  g_autofree FrSapMember *told = NULL;
  FrForecastSpan span;

  if (model != FR_SCORE_PROGRAM)
    members = question->rivals->fits[model]->members;
  if (model == FR_SCORE_LAST)
    members.members = told = retold (&members, last_l (question->season, at));
  if (model == FR_SCORE_LAST || model == FR_SCORE_SEASON_MEAN)
    asked->n_gathered = 0;
  if (model != FR_SCORE_PROGRAM)
    asked->members = &members;
  fr_forecast_span (asked, try->date, try->span_days, &span);
  try->per_day = span.per_day;
  try->run_probability = span.run_probability;
  if (isnan (span.per_day.middle_l))
    return;
  try->crps_l = fr_score_crps_l (span.at_l, span.below_ratio, FR_FORECAST_STEPS + 1, try->came_l);
  try->log_score = fr_score_log (span.at_l, span.below_ratio, FR_FORECAST_STEPS + 1, try->came_l, FR_SCORE_WITHIN_L);
}

static gboolean
looks_at_weather (FrScoreModel model)
{
  return model != FR_SCORE_CONSTANT && model != FR_SCORE_LAST && model != FR_SCORE_SEASON_MEAN;
}

static void
put_tries (const FrScoreQuestion *question, FrScoreModel model, FrScoreAir kind, FrSeasonScore *score)
{
  const FrForecastQuestion *season = question->season;
  guint n_courses = kind == FR_SCORE_DRAWN ? question->n_courses : kind == FR_SCORE_KEPT ? question->n_kept > 0 : 1;

  if (!looks_at_weather (model))
    n_courses = MIN (n_courses, 1);
  score->n_courses[model][kind] = n_courses;
  score->tries[model][kind] = g_new0 (FrScoreTry, MAX (score->n * n_courses, 1));
  for (guint c = 0; c < n_courses; c++)
    for (guint i = 0; i < score->n; i++)
      {
        const FrSapGathered *gathered = &season->gathered[i];
        FrScoreTry *try = &score->tries[model][kind][c * score->n + i];
        FrForecastQuestion asked;
        FrAirHours air;

        *try = (FrScoreTry){ .as_of = fr_date_add_days (gathered->date, -(gint)ceil (gathered->span_days)),
                             .date = gathered->date,
                             .span_days = gathered->span_days,
                             .per_day = { NAN, NAN, NAN, NAN, NAN, NAN },
                             .run_probability = NAN,
                             .came_l = gathered->per_tap_l / gathered->span_days,
                             .crps_l = NAN,
                             .log_score = NAN };
        if (isnan (try->came_l) || !evening_of (question, try, kind, kind == FR_SCORE_DRAWN ? (gint)c : -1, &asked, &air))
          continue;
        foretell (question, model, i, &asked, try);
        g_free (air.temp_c);
      }
}

FrSeasonScore *
fr_season_score_new (const FrScoreQuestion *question)
{
  FrSeasonScore *score = g_new0 (FrSeasonScore, 1);

  score->n = question->season->n_gathered;
  for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
    for (guint k = 0; k < FR_N_SCORE_AIRS; k++)
      put_tries (question, m, k, score);
  return score;
}

void
fr_season_score_free (FrSeasonScore *score)
{
  if (!score)
    return;
  for (guint m = 0; m < FR_N_SCORE_MODELS; m++)
    for (guint k = 0; k < FR_N_SCORE_AIRS; k++)
      g_free (score->tries[m][k]);
  g_free (score);
}
