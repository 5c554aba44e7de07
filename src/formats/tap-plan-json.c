/* The tapping plan from JSON. What contradicts itself within one tree is refused here, by its path; limits
 * that leave no choice are an answer. */
#include "formats/tap-plan-json.h"

#include "formats/json-input.h"
#include "formats/json-output.h"

#include <math.h>

#define BUCKETS_MAX 100000
#define TAP_L_MAX 10000
#define BOIL_L_MAX 1e6
#define BRIX_MAX 25
#define PEAK_MAX 100
#define DAYS_MAX 366

static const char *const root_keys[]
    = { "buckets", "boil_litres_per_day", "season_days", "peak_ratio", "trees", "max_trees", NULL };
static const char *const tree_keys[]
    = { "name", "taps_max", "litres_per_tap", "brix", "must", "never", NULL };

void
fr_tap_plan_input_free (FrTapPlanInput *input)
{
  if (input == NULL)
    return;
  for (guint i = 0; i < input->n_trees; i++)
    g_free ((double *)(gpointer)input->trees[i].litres_per_tap_l);
  g_free (input->trees);
  g_strfreev (input->names);
  g_free (input);
}

/* A whole number; @absent when it is not there. */
static guint
read_count (const FrInput *in, const char *key, FrInputNeed need, guint max, guint absent)
{
  double value = fr_input_number (in, key, need, 0, max);

  if (isnan (value))
    return absent;
  if (value != floor (value))
    {
      g_autofree char *text = fr_input_number_text (value);

      fr_input_fail (in, key, "is %s; it must be a whole number", text);
    }
  return (guint)value;
}

static gboolean
read_switch (const FrInput *in, const char *key)
{
  JsonNode *node;

  if (!fr_input_has (in, key))
    return FALSE;
  node = json_object_get_member (in->object, key);
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    return json_node_get_boolean (node);
  return fr_input_fail (in, key, "must be true or false");
}

/* Litres of the first @n taps; more than that are read but not used. NULL when there are too few. */
static double *
read_litres (const FrInput *tree, guint n)
{
  JsonArray *list
      = fr_input_array (tree, "litres_per_tap", n > 0 ? FR_INPUT_REQUIRED : FR_INPUT_OPTIONAL, 0, 1000);
  double *litres_l;
  guint given;

  if (list == NULL)
    return NULL;
  given = json_array_get_length (list);
  if (given < n)
    {
      fr_input_fail (tree, "litres_per_tap",
                     "has %u %s; it must have one for each of the %u that taps_max allows", given,
                     given == 1 ? "entry" : "entries", n);
      return NULL;
    }
  litres_l = g_new (double, given + 1);
  for (guint j = 0; j < given; j++)
    {
      g_autofree char *path = g_strdup_printf ("litres_per_tap[%u]", j);

      litres_l[j] = fr_input_array_number (tree, list, j, path, 0, TAP_L_MAX);
    }
  return litres_l;
}

static void
read_tree (const FrInput *in, FrTapTree *tree, char **name_out)
{
  *name_out = g_strdup (fr_input_string (in, "name", FR_INPUT_REQUIRED, "the tree's name"));
  tree->taps_max = read_count (in, "taps_max", FR_INPUT_REQUIRED, FR_TAP_CHOICE_TAPS_MAX, 0);
  tree->must = read_switch (in, "must");
  tree->never = read_switch (in, "never");
  tree->brix = fr_input_number (in, "brix", FR_INPUT_REQUIRED, 0, BRIX_MAX);
  tree->litres_per_tap_l = read_litres (in, tree->taps_max);
  if (tree->must && tree->never)
    fr_input_fail (in, "must", "is true and so is never; one of them must be false");
  else if (tree->must && tree->taps_max == 0)
    fr_input_fail (in, "must", "is true, but taps_max is 0; allow a tap or make it false");
}

FrTapPlanInput *
fr_tap_plan_input_read (JsonNode *root, GError **error)
{
  g_autoptr (FrTapPlanInput) input = g_new0 (FrTapPlanInput, 1);
  FrInputNeed need;
  GError *first = NULL;
  JsonArray *list = NULL;
  FrInput in, one;

  if (fr_input_root (root, root_keys, &first, &in))
    {
      FrTapLimits *limits = &input->limits;

      limits->buckets = read_count (&in, "buckets", FR_INPUT_REQUIRED, BUCKETS_MAX, 0);
      limits->boil_l_per_day = fr_input_number (&in, "boil_litres_per_day", FR_INPUT_OPTIONAL, 0, BOIL_L_MAX);
      need = isnan (limits->boil_l_per_day) ? FR_INPUT_OPTIONAL : FR_INPUT_REQUIRED;
      limits->season_days = fr_input_number (&in, "season_days", need, 1, DAYS_MAX);
      limits->peak_ratio = fr_input_number (&in, "peak_ratio", need, 1, PEAK_MAX);
      limits->trees_max
          = read_count (&in, "max_trees", FR_INPUT_OPTIONAL, BUCKETS_MAX, FR_TAP_CHOICE_NO_LIMIT);
      list = fr_input_array (&in, "trees", FR_INPUT_REQUIRED, 0, FR_TAP_CHOICE_TREES_MAX);
    }
  if (list != NULL)
    {
      input->n_trees = json_array_get_length (list);
      input->trees = g_new0 (FrTapTree, input->n_trees + 1);
      input->names = g_new0 (char *, input->n_trees + 1);
      for (guint i = 0; i < input->n_trees && first == NULL; i++)
        if (fr_input_element (&in, "trees", list, i, tree_keys, &one))
          read_tree (&one, &input->trees[i], &input->names[i]);
    }
  if (first != NULL)
    {
      g_propagate_error (error, first);
      return NULL;
    }
  return g_steal_pointer (&input);
}

char *
fr_tap_plan_to_json (const FrTapPlanInput *input, const FrTapChoice *choice, const char *sentence)
{
  gboolean found = choice->code == FR_TAP_CHOICE_OK;
  FrOutput out;

  fr_output_init (&out);
  fr_output_object (&out, NULL);
  fr_output_string (&out, "status", fr_tap_choice_code (choice->code));
  fr_output_string (&out, "sentence", sentence);
  fr_output_number (&out, "sugar_kg", choice->sugar_kg);
  fr_output_number (&out, "litres", choice->litres_l);
  fr_output_number (&out, "peak_litres_per_day", choice->peak_l);
  fr_output_number (&out, "buckets_used", found ? choice->buckets_used : NAN);
  fr_output_number (&out, "trees_used", found ? choice->trees_used : NAN);
  fr_output_number (&out, "next_bucket_kg", choice->next_bucket_kg);
  if (found)
    fr_output_boolean (&out, "kitchen_limits", choice->kitchen_limits);
  else
    fr_output_null (&out, "kitchen_limits");
  fr_output_number (&out, "kitchen_limits_from_buckets",
                    choice->kitchen_limits_from == FR_TAP_CHOICE_NO_LIMIT ? NAN
                                                                          : choice->kitchen_limits_from);
  if (found)
    fr_output_boolean (&out, "exact", choice->is_exact);
  else
    fr_output_null (&out, "exact");
  fr_output_number (&out, "bound_kg", choice->bound_kg);
  fr_output_array (&out, "trees");
  for (guint i = 0; i < input->n_trees; i++)
    {
      fr_output_object (&out, NULL);
      fr_output_string (&out, "name", input->names[i]);
      fr_output_number (&out, "taps", found ? choice->taps[i] : NAN);
      fr_output_end_object (&out);
    }
  fr_output_end_array (&out);
  fr_output_end_object (&out);
  return fr_output_finish (&out);
}
