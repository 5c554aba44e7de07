/* Plan and round of a book. The keys are those of tap-plan and round where the meaning is the same. */
#include "formats/bush-plan-json.h"
#include "formats/json-output.h"

#include <math.h>

static const char *const codes[] = { "ok", "no_buckets", "no_trees", "too_many_must" };

static void
put_plan (FrOutput *output, const FrBushPlan *plan)
{
  fr_output_number (output, "sugar_kg", plan->sugar_kg);
  fr_output_number (output, "sugar_low_kg", plan->sugar_low_kg);
  fr_output_number (output, "sugar_high_kg", plan->sugar_high_kg);
  fr_output_number (output, "litres", plan->volume_l);
  fr_output_number (output, "peak_litres_per_day", plan->peak_l);
  fr_output_number (output, "buckets_used", plan->n_taps);
  fr_output_number (output, "trees_used", plan->n_trees);
  fr_output_number (output, "next_bucket_kg", plan->next_bucket_kg);
  fr_output_boolean (output, "kitchen_limits", plan->kitchen_limits);
  fr_output_number (output, "kitchen_limits_from_buckets",
                    plan->kitchen_from_buckets > 0 ? plan->kitchen_from_buckets : NAN);
  fr_output_boolean (output, "walk_limits", plan->walk_limits);
  fr_output_number (output, "walk_m", plan->walk_m);
  fr_output_number (output, "trees_without_place", plan->n_unplaced);
  fr_output_boolean (output, "exact", plan->is_exact);
  fr_output_number (output, "bound_kg", plan->bound_kg);
}

char *
fr_bush_plan_to_json (const FrBush *bush, const FrBushPlan *plan, const char *sentence)
{
  const gboolean found = plan->code == FR_BUSH_PLAN_OK;
  FrOutput output;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_number (&output, "season", fr_bush_get_season (bush));
  fr_output_string (&output, "status", codes[plan->code]);
  fr_output_string (&output, "sentence", sentence);
  if (found)
    put_plan (&output, plan);
  fr_output_array (&output, "trees");
  for (guint i = 0; i < fr_bush_n_trees (bush); i++)
    {
      const FrBushTree *row = fr_bush_tree_at (bush, i);

      fr_output_object (&output, NULL);
      fr_output_string (&output, "name", row->tree->name != NULL ? row->tree->name : "");
      fr_output_number (&output, "taps", found ? g_array_index (plan->taps, guint, i) : NAN);
      fr_output_number (&output, "taps_set", row->taps_set);
      fr_output_number (&output, "taps_planned", row->taps_planned);
      fr_output_end_object (&output);
    }
  fr_output_end_array (&output);
  fr_output_array (&output, "sugar_by_buckets_kg");
  for (guint i = 0; i < plan->curve->len; i++)
    fr_output_number (&output, NULL, g_array_index (plan->curve, double, i));
  fr_output_end_array (&output);
  fr_output_end_object (&output);
  return fr_output_finish (&output);
}

static void
put_trips (FrOutput *output, const FrBush *bush, const FrBushRound *round)
{
  fr_output_array (output, "trips");
  for (guint i = 0; round != NULL && i < round->stops->len;)
    {
      const guint trip = g_array_index (round->stops, FrBushStop, i).trip;

      fr_output_array (output, NULL);
      for (; i < round->stops->len && g_array_index (round->stops, FrBushStop, i).trip == trip; i++)
        {
          const FrBushStop *stop = &g_array_index (round->stops, FrBushStop, i);
          const FrTree *tree = fr_bush_find (bush, stop->tree)->tree;

          fr_output_object (output, NULL);
          fr_output_string (output, "name", tree->name != NULL ? tree->name : "");
          fr_output_number (output, "litres", stop->volume_l);
          fr_output_number (output, "leg_m", stop->leg_m);
          fr_output_end_object (output);
        }
      fr_output_end_array (output);
    }
  fr_output_end_array (output);
}

char *
fr_bush_round_to_json (const FrBush *bush, const FrBushRound *round, const char *sentence)
{
  FrOutput output;

  fr_output_init (&output);
  fr_output_object (&output, NULL);
  fr_output_number (&output, "season", fr_bush_get_season (bush));
  fr_output_string (&output, "sentence", sentence);
  put_trips (&output, bush, round);
  if (round != NULL)
    {
      fr_output_boolean (&output, "start_is_drawn", round->has_start);
      fr_output_number (&output, "start_x_m", round->start_x_m);
      fr_output_number (&output, "start_y_m", round->start_y_m);
      fr_output_number (&output, "trees_without_place", round->n_unplaced);
      fr_output_number (&output, "walk_m", round->walk_m);
      fr_output_number (&output, "bound_m", round->bound_m);
      fr_output_boolean (&output, "exact", round->is_exact);
      fr_output_number (&output, "litres", round->volume_l);
      fr_output_number (&output, "litre_metres", round->litre_metres);
    }
  fr_output_end_object (&output);
  return fr_output_finish (&output);
}
