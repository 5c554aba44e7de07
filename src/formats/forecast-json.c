/* Days as a list, the season as an object; unknown is null. */
#include "formats/forecast-json.h"

static void
put_date (FrOutput *output, const char *key, FrDate date)
{
  g_autofree char *iso = date.year != 0 ? fr_date_to_iso (date) : NULL;

  if (iso != NULL)
    fr_output_string (output, key, iso);
  else
    fr_output_null (output, key);
}

/* @stem: "litres_per_tap"; the keys get _p10, …, @tail after it. */
static void
put_litres (FrOutput *output, const char *stem, const char *tail, const FrLitres *litres)
{
  const struct
  {
    const char *name;
    double value_l;
  } all[] = { { "p10", litres->lo_l },         { "p25", litres->quarter_lo_l }, { "p50", litres->middle_l },
              { "p75", litres->quarter_hi_l }, { "p90", litres->hi_l },         { "mean", litres->mean_l } };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      g_autofree char *key = g_strconcat (stem, "_", all[i].name, tail, NULL);

      fr_output_number (output, key, all[i].value_l);
    }
}

static void
put_day (FrOutput *output, const FrForecastDay *day)
{
  fr_output_object (output, NULL);
  put_date (output, "date", day->date);
  fr_output_boolean (output, "ahead", day->is_ahead);
  fr_output_boolean (output, "by_past_seasons", day->is_beyond);
  fr_output_number (output, "run_probability", day->run_probability);
  put_litres (output, "litres_per_tap", "", &day->per_tap);
  fr_output_number (output, "hours", day->thaw_h);
  fr_output_number (output, "frozen_hours", day->frozen_h);
  fr_output_number (output, "low_c", day->low_c);
  fr_output_number (output, "high_c", day->high_c);
  put_litres (output, "bush", "_l", &day->bush);
  put_litres (output, "so_far", "_l", &day->so_far);
  fr_output_number (output, "gathered_litres_per_tap", day->gathered_l);
  fr_output_number (output, "gathered_days", day->gathered_days);
  fr_output_number (output, "days_since_tapping", day->tapped_days);
  fr_output_number (output, "degree_days_above_5c", day->warmth_k_days);
  fr_output_end_object (output);
}

static void
put_gain (FrOutput *output, const char *key, const double gain_l[3])
{
  fr_output_object (output, key);
  fr_output_number (output, "p10", gain_l[0]);
  fr_output_number (output, "p50", gain_l[1]);
  fr_output_number (output, "p90", gain_l[2]);
  fr_output_end_object (output);
}

void
fr_forecast_write_json (FrOutput *output, const FrForecast *forecast, FrDate recommended)
{
  fr_output_array (output, "days");
  for (guint i = 0; i < forecast->n_days; i++)
    put_day (output, &forecast->days[i]);
  fr_output_end_array (output);
  fr_output_object (output, "season");
  put_date (output, "as_of", forecast->as_of);
  fr_output_number (output, "taps", forecast->n_taps);
  fr_output_number (output, "gathered_l", forecast->gathered_l);
  put_litres (output, "to_come", "_l", &forecast->to_come);
  put_date (output, "to_come_until",
            forecast->n_days > 0 ? forecast->days[forecast->n_days - 1].date : (FrDate){ 0 });
  fr_output_number (output, "past_seasons", forecast->n_past);
  fr_output_number (output, "over_probability", forecast->over_probability);
  fr_output_number (output, "off_flavour_probability", forecast->off_flavour_probability);
  put_date (output, "recommended_tap_date", recommended);
  fr_output_number (output, "learned_from", forecast->n_learned);
  fr_output_number (output, "ran_ratio", forecast->ran_ratio);
  fr_output_number (output, "raised_ratio", forecast->raised_ratio);
  put_gain (output, "gain_before_l", forecast->gain_before_l);
  put_gain (output, "gain_after_l", forecast->gain_after_l);
  fr_output_end_object (output);
}

static void
put_shift (FrOutput *output, const char *key, const FrTapDateShift *shift)
{
  fr_output_object (output, key);
  fr_output_number (output, "loss_litres_per_tap", shift->loss_l);
  fr_output_number (output, "loss_ratio", shift->loss_ratio);
  fr_output_number (output, "better_probability", shift->better_probability);
  fr_output_end_object (output);
}

void
fr_tap_dates_write_json (FrOutput *output, const FrTapDates *dates)
{
  static const char *const whys[FR_N_TAP_DATE_WHYS]
      = { "unknown", "frozen", "ageing", "run-near", "running", "waiting-loses", "too-late" };

  put_date (output, "as_of", dates->as_of);
  put_date (output, "recommended_tap_date", fr_tap_dates_recommended (dates));
  fr_output_string (output, "why", whys[dates->why]);
  put_date (output, "greatest_total_date", dates->best >= 0 ? dates->dates[dates->best].date : (FrDate){ 0 });
  put_shift (output, "week_early", &dates->early);
  put_shift (output, "week_late", &dates->late);
  put_date (output, "first_run", dates->first_run);
  fr_output_boolean (output, "first_run_is_forecast", dates->is_first_run_forecast);
  fr_output_boolean (output, "season_is_known", dates->is_season_known);
  fr_output_number (output, "past_seasons", dates->n_past);
  fr_output_number (output, "days_with_gaps", dates->n_gap_days);
  fr_output_array (output, "dates");
  for (guint i = 0; i < dates->n_dates; i++)
    {
      fr_output_object (output, NULL);
      put_date (output, "date", dates->dates[i].date);
      fr_output_boolean (output, "past", dates->dates[i].is_past);
      put_litres (output, "litres_per_tap", "", &dates->dates[i].total);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
}
