/* A trunk from JSON, in centimetres as people measure. Ranges: those of the same amounts in a book, in the
 * unit of the key. */
#include "formats/taphole-json.h"

#include <math.h>

#include "domain/maths/tapping.h"
#include "formats/json-input.h"
#include "formats/json-output.h"

#define METRES_PER_CM 0.01
#define TIDY 1e9 /* answers are whole billionths: metres inside leave a tail of rounding in centimetres */

static const char *const root_keys[] = { "girth_cm", "rule", "holes", NULL };
static const char *const rule_keys[]
    = { "sideways_cm", "up_down_cm", "min_height_cm", "max_height_cm", NULL };
static const char *const hole_keys[] = { "angle_deg", "height_cm", NULL };

void
fr_taphole_input_free (FrTapholeInput *input)
{
  if (input == NULL)
    return;
  g_free (input->holes);
  g_free (input);
}

static double
read_cm (const FrInput *in, const char *key, double min, double max)
{
  return METRES_PER_CM * fr_input_number (in, key, FR_INPUT_REQUIRED, min, max);
}

static void
read_rule (const FrInput *in, FrTrunk *trunk)
{
  const FrSpacing *usual = fr_spacing (FR_SPACING_SIX_TWELVE);
  double min_cm;
  FrInput rule;

  trunk->sideways_m = usual->sideways_m;
  trunk->up_down_m = usual->up_down_m;
  trunk->min_height_m = FR_TAP_HEIGHT_MIN_M;
  trunk->max_height_m = FR_TAP_HEIGHT_MAX_M;
  if (!fr_input_object (in, "rule", FR_INPUT_OPTIONAL, rule_keys, &rule))
    return;
  trunk->sideways_m = read_cm (&rule, "sideways_cm", 0.5, 200);
  trunk->up_down_m = read_cm (&rule, "up_down_cm", 0.5, 400);
  min_cm = fr_input_number (&rule, "min_height_cm", FR_INPUT_REQUIRED, 0, 1000);
  trunk->min_height_m = METRES_PER_CM * min_cm;
  trunk->max_height_m = read_cm (&rule, "max_height_cm", isnan (min_cm) ? 0 : min_cm, 1000);
}

FrTapholeInput *
fr_taphole_input_read (JsonNode *root, GError **error)
{
  g_autoptr (FrTapholeInput) input = g_new0 (FrTapholeInput, 1);
  GError *first = NULL;
  JsonArray *list = NULL;
  FrInput in, one;

  if (fr_input_root (root, root_keys, &first, &in))
    {
      input->trunk.girth_m = read_cm (&in, "girth_cm", 1, 2000);
      read_rule (&in, &input->trunk);
      list = fr_input_array (&in, "holes", FR_INPUT_REQUIRED, 0, FR_TAPHOLE_HOLES_MAX);
    }
  if (list != NULL)
    {
      input->n_holes = json_array_get_length (list);
      input->holes = g_new0 (FrHole, input->n_holes + 1);
      for (guint i = 0; i < input->n_holes && first == NULL; i++)
        if (fr_input_element (&in, "holes", list, i, hole_keys, &one))
          input->holes[i] = (FrHole){ fr_input_number (&one, "angle_deg", FR_INPUT_REQUIRED, 0, 360),
                                      read_cm (&one, "height_cm", 0, 1000), NAN, NAN, NAN };
    }
  if (first != NULL)
    {
      g_propagate_error (error, first);
      return NULL;
    }
  return g_steal_pointer (&input);
}

static double
tidy (double value)
{
  return round (value * TIDY) / TIDY;
}

char *
fr_taphole_to_json (const FrTaphole *place, const char *reason)
{
  const double angle_deg = tidy (place->angle_deg);
  FrOutput out;

  fr_output_init (&out);
  fr_output_object (&out, NULL);
  fr_output_number (&out, "angle_deg", angle_deg < 360 ? angle_deg : 0);
  fr_output_number (&out, "height_cm", tidy (place->height_m / METRES_PER_CM));
  fr_output_number (&out, "clearance_ratio", tidy (place->clearance_ratio));
  fr_output_boolean (&out, "keeps_rule", place->keeps_rule);
  fr_output_string (&out, "reason", reason);
  fr_output_end_object (&out);
  return fr_output_finish (&out);
}
