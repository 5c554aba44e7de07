/* The plan's numbers and codes, key by key. */
#include "formats/plan-json.h"

#include <math.h>

static void
put_after (FrOutput *output, const char *key, gint64 start_utc, double span_s)
{
  fr_output_instant (output, key, isnan (span_s) ? G_MININT64 : start_utc + (gint64) lround (span_s));
}

static void
put_feed (FrOutput *output, const FrPlanFeed *feed)
{
  fr_output_object (output, "feed");
  fr_output_number (output, "ml_per_min", feed->ml_per_min);
  fr_output_number (output, "s_per_100ml", feed->s_per_100ml);
  fr_output_number (output, "drops_per_min", feed->drops_per_min);
  fr_output_number (output, "hole_m", feed->hole_m);
  fr_output_number (output, "trip_mass_kg", feed->trip_mass_kg);
  fr_output_array (output, "cases");
  for (guint i = 0; i < feed->n_cases; i++)
    {
      fr_output_object (output, NULL);
      fr_output_number (output, "flow_ratio", feed->cases[i].flow_ratio);
      fr_output_string (output, "ended_by", fr_end_code (feed->cases[i].ended_by));
      fr_output_number (output, "end_s", feed->cases[i].end_s);
      fr_output_number (output, "dry_s", feed->cases[i].dry_s);
      fr_output_number (output, "rim_s", feed->cases[i].rim_s);
      fr_output_number (output, "foam_s", feed->cases[i].foam_s);
      fr_output_number (output, "min_s", feed->cases[i].min_s);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
  fr_output_number (output, "trip_worst_s", feed->trip_worst_s);
  fr_output_number (output, "trip_rim_s", feed->trip_rim_s);
  fr_output_end_object (output);
}

static void
put_share (FrOutput *output, const FrPlanShare *share, const FrPlanInput *input)
{
  const FrPlanKit *kit = &input->kits[share->kit];

  fr_output_object (output, NULL);
  fr_output_string (output, "cooker", kit->name);
  fr_output_string (output, "pan", kit->pan_name);
  fr_output_boolean (output, "used", share->used);
  if (share->used)
    {
      fr_output_number (output, "pan_l", share->pan_l);
      fr_output_number (output, "bucket_l", share->bucket_l);
      fr_output_number (output, "bucket_max_l", share->bucket_max_l);
      fr_output_string (output, "limited_by", fr_limit_code (share->limited_by));
      if (share->next == FR_LIMIT_NONE)
        fr_output_null (output, "next");
      else
        {
          fr_output_object (output, "next");
          fr_output_string (output, "limit", fr_limit_code (share->next));
          fr_output_number (output, "litres", share->next_l);
          fr_output_end_object (output);
        }
      put_after (output, "boils", input->start_utc, share->run.boils_s);
      put_after (output, "dry", input->start_utc, share->run.feed_dry_s);
      put_after (output, "off", input->start_utc, share->run.time_s);
      put_after (output, "off_early", input->start_utc, share->early_s);
      put_after (output, "off_late", input->start_utc, share->late_s);
      fr_output_string (output, "ended_by", fr_end_code (share->run.ended_by));
      fr_output_number (output, "left_kg", share->run.left_kg);
      fr_output_number (output, "left_l", share->run.left_l);
      fr_output_number (output, "left_brix", share->run.left_brix);
      fr_output_number (output, "finish_kg", share->finish_kg);
      fr_output_number (output, "finish_s", share->finish_s);
      fr_output_number (output, "syrup_l", share->syrup_l);
      fr_output_number (output, "energy_kwh", share->energy_kwh);
      fr_output_number (output, "cost_minor", share->cost_minor);
      fr_output_number (output, "circuit_used_a", share->circuit.used_a);
      fr_output_number (output, "circuit_allowed_a", share->circuit.allowed_a);
      put_feed (output, &share->feed);
    }
  fr_output_end_object (output);
}

static const char *const way_codes[] = { "tonight", "day", "best", "fuel" };
static const char *const option_codes[] = { "earlier", "later", "second_cooker", "refill", "higher_cutoff" };
static const char *const severity_codes[] = { "danger", "warn", "passed" };

void
fr_plan_write_json (FrOutput *output, const FrPlan *plan, const FrPlanInput *input)
{
  fr_output_string (output, "status", fr_plan_status_code (plan->status));
  fr_output_instant (output, "start", input->start_utc);
  fr_output_instant (output, "off_by", input->off_by_utc);
  if (plan->status != FR_PLAN_OK)
    {
      fr_output_instant (output, "needs_start", plan->needs_start_utc);
      if (plan->fault[0] != '\0')
        fr_output_string (output, "fault", plan->fault);
      return;
    }
  fr_output_number (output, "water_boils_c", plan->water_boils_c);
  fr_output_number (output, "finish_c", plan->finish_c);
  fr_output_number (output, "used_l", plan->used_l);
  fr_output_number (output, "over_l", plan->over_l);
  fr_output_instant (output, "keep_until", plan->keep_until_utc);
  fr_output_instant (output, "dry", plan->dry_utc);
  fr_output_instant (output, "off", plan->end_utc);
  fr_output_instant (output, "off_early", plan->early_utc);
  fr_output_instant (output, "off_late", plan->late_utc);
  fr_output_number (output, "left_kg", plan->left_kg);
  fr_output_number (output, "left_l", plan->left_l);
  fr_output_number (output, "left_brix", plan->left_brix);
  fr_output_number (output, "finish_kg", plan->finish_kg);
  fr_output_number (output, "finish_s", plan->finish_s);
  fr_output_number (output, "syrup_l", plan->syrup_l);
  fr_output_number (output, "jars", plan->jars);
  fr_output_number (output, "energy_kwh", plan->energy_kwh);
  fr_output_number (output, "cost_minor", plan->cost_minor);
  fr_output_instant (output, "price_rises", plan->rise_utc);
  fr_output_array (output, "cookers");
  for (guint i = 0; i < plan->n_shares; i++)
    put_share (output, &plan->shares[i], input);
  fr_output_end_array (output);
  fr_output_array (output, "ways");
  for (guint i = 0; i < plan->n_ways; i++)
    {
      fr_output_object (output, NULL);
      fr_output_string (output, "way", way_codes[plan->ways[i].code]);
      fr_output_instant (output, "start", plan->ways[i].start_utc);
      fr_output_number (output, "fuel_kg", plan->ways[i].fuel_kg);
      fr_output_number (output, "cost_minor", plan->ways[i].cost_minor);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
  fr_output_array (output, "cost_by_start_hour_minor");
  for (guint i = 0; i < G_N_ELEMENTS (plan->start_cost_minor); i++)
    fr_output_number (output, NULL, plan->start_cost_minor[i]);
  fr_output_end_array (output);
  fr_output_number (output, "fuel_break_even_per_kg_minor", plan->fuel_break_even_per_kg);
  fr_output_array (output, "options");
  for (guint i = 0; i < plan->n_options; i++)
    {
      fr_output_object (output, NULL);
      fr_output_string (output, "option", option_codes[plan->options[i].code]);
      fr_output_instant (output, "at", plan->options[i].utc);
      fr_output_number (output, "power_w", plan->options[i].power_w);
      fr_output_number (output, "cutoff_l", plan->options[i].cutoff_l);
      fr_output_number (output, "extra_minor", plan->options[i].extra_minor);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
  fr_output_array (output, "cautions");
  for (guint i = 0; i < plan->n_cautions; i++)
    {
      const FrCaution *caution = &plan->cautions[i];

      fr_output_object (output, NULL);
      fr_output_string (output, "caution", fr_caution_code (caution->code));
      fr_output_string (output, "severity", severity_codes[caution->severity]);
      if (caution->kit < input->n_kits)
        fr_output_string (output, "cooker", input->kits[caution->kit].name);
      fr_output_end_object (output);
    }
  fr_output_end_array (output);
}
