/* Observations from JSON. Ranges: those that calibrate.c takes, in the unit of the key. */
#include "formats/calibrate-json.h"

#include "formats/json-input.h"
#include "formats/json-output.h"
#include "formats/place-json.h"

#include <math.h>

#define METRES_PER_CM 0.01
#define SECONDS_PER_HOUR 3600.0

static const struct
{
  const char *code;
  FrSeenKind kind;
  double scale;
  double max; /* in the unit of the key */
} kinds[] = {
  { "level_drop_cm", FR_SEEN_LEVEL_DROP, METRES_PER_CM, 500 },
  { "volume_fed_l", FR_SEEN_VOLUME_FED, 1, 10000 },
  { "weight_lost_kg", FR_SEEN_WEIGHT_LOST, 1, 10000 },
};

static const char *const root_keys[] = { FR_PLACE_KEYS, "vessel", "wall_w_per_k", "observations", NULL };
static const char *const seen_keys[]
    = { "kind", "value", "sd", "hours", "power_w", "air_c", "feed_c", "brix", "from_depth_cm", NULL };

void
fr_calibrate_input_free (FrCalibrateInput *input)
{
  if (input == NULL)
    return;
  g_free (input->seen);
  g_strfreev (input->kinds);
  g_free (input);
}

/* A level drop needs the vessel, and the depth it began at unless the walls are straight. */
static void
check_drop (const FrInput *in, const FrCalibrateInput *input, const FrSeen *seen)
{
  double height_m, depth_m = seen->from_depth_m;
  gboolean straight;

  if (*in->error != NULL)
    return;
  if (!input->has_vessel)
    {
      fr_input_fail (in, "kind", "is level_drop_cm, which needs vessel: give the vessel's shape");
      return;
    }
  height_m = fr_vessel_height_m (&input->vessel);
  straight = input->vessel.shape == FR_SHAPE_CYLINDER || input->vessel.shape == FR_SHAPE_BOX;
  if (isnan (depth_m) && !straight)
    fr_input_fail_range (in, "from_depth_cm", NAN, 0, height_m / METRES_PER_CM);
  else if (!isnan (depth_m) && depth_m > height_m)
    fr_input_fail_range (in, "from_depth_cm", depth_m / METRES_PER_CM, 0, height_m / METRES_PER_CM);
  else if (seen->value > (isnan (depth_m) ? height_m : depth_m))
    fr_input_fail_range (in, "value", seen->value / METRES_PER_CM, 0,
                         (isnan (depth_m) ? height_m : depth_m) / METRES_PER_CM);
}

static void
read_seen (const FrInput *in, const FrCalibrateInput *input, FrSeen *seen, char **kind_out)
{
  static const char what[] = "a kind: level_drop_cm, volume_fed_l or weight_lost_kg";
  const char *code = fr_input_string (in, "kind", FR_INPUT_REQUIRED, what);
  guint i = 0;

  if (code == NULL)
    return;
  while (i < G_N_ELEMENTS (kinds) && g_strcmp0 (code, kinds[i].code) != 0)
    i++;
  if (i == G_N_ELEMENTS (kinds))
    {
      g_autofree char *quoted = fr_json_quote (code);

      fr_input_fail (in, "kind", "is “%s”; it must be %s", quoted, what);
      return;
    }
  *kind_out = g_strdup (code);
  seen->kind = kinds[i].kind;
  seen->value = kinds[i].scale * fr_input_number (in, "value", FR_INPUT_REQUIRED, 1e-6, kinds[i].max);
  seen->sd = kinds[i].scale * fr_input_number (in, "sd", FR_INPUT_REQUIRED, 1e-6, kinds[i].max);
  seen->span_s = SECONDS_PER_HOUR * fr_input_number (in, "hours", FR_INPUT_REQUIRED, 0.02, 720);
  seen->power_w = fr_input_number (in, "power_w", FR_INPUT_REQUIRED, 1, 1e6);
  seen->air_c = fr_input_number (in, "air_c", FR_INPUT_REQUIRED, -60, 60);
  seen->feed_c = fr_input_number (in, "feed_c",
                                  seen->kind == FR_SEEN_VOLUME_FED ? FR_INPUT_REQUIRED : FR_INPUT_OPTIONAL,
                                  -1, input->table.water_boils_c);
  seen->brix = fr_input_number (in, "brix", FR_INPUT_REQUIRED, 0, 70);
  seen->from_depth_m = METRES_PER_CM * fr_input_number (in, "from_depth_cm", FR_INPUT_OPTIONAL, 0, 500);
  if (seen->kind == FR_SEEN_LEVEL_DROP)
    check_drop (in, input, seen);
}

FrCalibrateInput *
fr_calibrate_input_read (JsonNode *root, GError **error)
{
  g_autoptr (FrCalibrateInput) input = g_new0 (FrCalibrateInput, 1);
  GError *first = NULL;
  JsonArray *list = NULL;
  FrInput in, one;

  if (fr_input_root (root, root_keys, &first, &in) && fr_input_place (&in, NAN, &input->table))
    {
      input->wall_w_per_k = fr_input_number (&in, "wall_w_per_k", FR_INPUT_REQUIRED, 0, 1000);
      input->has_vessel = fr_input_vessel (&in, FR_INPUT_OPTIONAL, &input->vessel);
      list = fr_input_array (&in, "observations", FR_INPUT_REQUIRED, 1, FR_OBSERVATIONS_MAX);
    }
  if (list != NULL)
    {
      input->n_seen = json_array_get_length (list);
      input->seen = g_new0 (FrSeen, input->n_seen);
      input->kinds = g_new0 (char *, input->n_seen + 1);
      for (guint i = 0; i < input->n_seen && first == NULL; i++)
        if (fr_input_element (&in, "observations", list, i, seen_keys, &one))
          read_seen (&one, input, &input->seen[i], &input->kinds[i]);
    }
  if (first != NULL)
    {
      g_propagate_error (error, first);
      return NULL;
    }
  return g_steal_pointer (&input);
}

gboolean
fr_calibrate_input_run (const FrCalibrateInput *input, FrCalibration *out, FrSeenRatio **each_out,
                        GError **error)
{
  g_autofree FrSeenRatio *each = g_new0 (FrSeenRatio, input->n_seen);
  guint which = 0;

  switch (fr_calibrate (&input->table, input->has_vessel ? &input->vessel : NULL, input->wall_w_per_k,
                        input->seen, input->n_seen, each, out, &which))
    {
    case FR_CALIBRATE_OK:
      *each_out = g_steal_pointer (&each);
      return TRUE;
    case FR_CALIBRATE_TOO_MUCH_HEAT:
      {
        g_autofree char *ratio = fr_input_number_text (each[which].heat_ratio);

        g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG,
                     "observations[%u] boiled off more than its power can: it would take a heat ratio of %s, "
                     "and at most "
                     "1.05 is taken; value, hours or power_w is off",
                     which, ratio);
        return FALSE;
      }
    case FR_CALIBRATE_BAD_INPUT:
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG,
                   "observations[%u] cannot be: its values do not go together", which);
      return FALSE;
    default:
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_FAILED, "the observations give no heat ratio");
      return FALSE;
    }
}

char *
fr_calibration_to_json (const FrCalibration *calibration, const FrSeenRatio *each, guint n)
{
  FrOutput out;

  fr_output_init (&out);
  fr_output_object (&out, NULL);
  fr_output_number (&out, "heat_ratio", calibration->heat_ratio);
  fr_output_number (&out, "heat_ratio_sd", calibration->heat_ratio_sd);
  fr_output_number (&out, "wall_w_per_k", calibration->wall_w_per_k);
  fr_output_number (&out, "wall_w_per_k_sd", calibration->wall_w_per_k_sd);
  fr_output_number (&out, "n_used", calibration->n_used);
  fr_output_array (&out, "each");
  for (guint i = 0; i < n; i++)
    {
      fr_output_object (&out, NULL);
      fr_output_number (&out, "heat_ratio", each[i].heat_ratio);
      fr_output_number (&out, "sd", each[i].heat_ratio_sd);
      fr_output_boolean (&out, "outlier", each[i].outlier);
      fr_output_end_object (&out);
    }
  fr_output_end_array (&out);
  fr_output_end_object (&out);
  return fr_output_finish (&out);
}
