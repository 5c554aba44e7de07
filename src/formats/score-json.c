/* Each score is an object of value, lo and hi (9 in 10); unknown is null. */
#include "formats/score-json.h"

const char *const fr_score_model_codes[FR_N_SCORE_MODELS]
    = { "program", "constant", "last", "season_mean", "rule_freeze_thaw", "rule_zero", "rule_four_nights", "thaw_hours" };
const char *const fr_score_air_codes[FR_N_SCORE_AIRS] = { "observed", "drawn_errors", "kept" };

static const char *const score_codes[FR_N_SCORES] = {
  [FR_SCORE_RANK] = "rank_correlation",
  [FR_SCORE_ERROR_L] = "mean_absolute_error_l",
  [FR_SCORE_ERROR_RATIO] = "mean_absolute_error_of_constant",
  [FR_SCORE_CRPS_L] = "crps_l_per_day",
  [FR_SCORE_CRPS_RATIO] = "crps_of_constant",
  [FR_SCORE_BRIER] = "brier",
  [FR_SCORE_BRIER_BASE] = "brier_base_rate",
  [FR_SCORE_BRIER_SKILL] = "brier_skill",
  [FR_SCORE_HIT_RATIO] = "hit_rate",
  [FR_SCORE_FALSE_RATIO] = "false_alarm_ratio",
  [FR_SCORE_SUCCESS_RATIO] = "critical_success_index",
  [FR_SCORE_SUCCESS_ALWAYS] = "critical_success_index_always",
  [FR_SCORE_INSIDE_RATIO] = "inside_p10_p90",
  [FR_SCORE_INTERVAL_L] = "interval_score_l_per_day",
  [FR_SCORE_INTERVAL_RATIO] = "interval_score_of_constant",
  [FR_SCORE_LOG] = "log_score",
};

void
fr_score_row_write_json (FrOutput *output, const char *key, const FrScoreRow *row)
{
  fr_output_object (output, key);
  fr_output_number (output, "emptyings", row->n);
  fr_output_number (output, "runs", row->n_runs);
  for (guint k = 0; k < FR_N_SCORES; k++)
    {
      fr_output_object (output, score_codes[k]);
      fr_output_number (output, "value", row->scores[k].value);
      fr_output_number (output, "lo", row->scores[k].lo);
      fr_output_number (output, "hi", row->scores[k].hi);
      fr_output_end_object (output);
    }
  fr_output_end_object (output);
}

void
fr_score_reliability_write_json (FrOutput *output, const FrReliabilityBin *bins, guint n_bins)
{
  fr_output_array (output, "reliability");
  for (guint i = 0; i < n_bins; i++)
    {
      fr_output_object (output, NULL);
      fr_output_number (output, "said", bins[i].said_ratio);
      fr_output_number (output, "happened", bins[i].happened_ratio);
      fr_output_number (output, "lo", bins[i].lo_ratio);
      fr_output_number (output, "hi", bins[i].hi_ratio);
      fr_output_number (output, "emptyings", bins[i].n);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
}

void
fr_score_tries_write_json (FrOutput *output, const FrSeasonScore *season, FrScoreModel model, FrScoreAir air)
{
  fr_output_array (output, "emptyings");
  for (guint i = 0; i < season->n && season->n_courses[model][air] > 0; i++)
    {
      const FrScoreTry *try = &season->tries[model][air][i];
      g_autofree char *as_of = fr_date_to_iso (try->as_of), *date = fr_date_to_iso (try->date);

      fr_output_object (output, NULL);
      fr_output_string (output, "as_of", as_of);
      fr_output_string (output, "date", date);
      fr_output_number (output, "days", try->span_days);
      fr_output_number (output, "came_l_per_day", try->came_l);
      fr_output_number (output, "p10_l_per_day", try->per_day.lo_l);
      fr_output_number (output, "p50_l_per_day", try->per_day.middle_l);
      fr_output_number (output, "p90_l_per_day", try->per_day.hi_l);
      fr_output_number (output, "mean_l_per_day", try->per_day.mean_l);
      fr_output_number (output, "run_probability", try->run_probability);
      fr_output_number (output, "crps_l_per_day", try->crps_l);
      fr_output_number (output, "log_score", try->log_score);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
}
