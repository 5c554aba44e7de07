/* Place and vessel from JSON. Ranges: those of water.c and vessel.c. */
#include "formats/place-json.h"

#include "domain/maths/water.h"

#include <math.h>

#define SIZE_MIN_M 0.005
#define SIZE_MAX_M 5.0

gboolean
fr_input_place (const FrInput *input, double air_c, FrBoilTable *table_out)
{
  double boils_c = fr_input_number (input, "water_boils_c", FR_INPUT_OPTIONAL, 70, 103);
  double pressure_pa = fr_input_number (input, "pressure_pa", FR_INPUT_OPTIONAL, 30000, 115000);
  double sea_level_pa = fr_input_number (input, "sea_level_pa", FR_INPUT_OPTIONAL, 87000, 108500);
  gboolean known = fr_input_has (input, "water_boils_c") || fr_input_has (input, "pressure_pa");
  double altitude_m = fr_input_number (input, "altitude_m", known ? FR_INPUT_OPTIONAL : FR_INPUT_REQUIRED,
                                       FR_ALTITUDE_MIN_M, FR_ALTITUDE_MAX_M);

  if (*input->error != NULL)
    return FALSE;
  if (!isnan (boils_c))
    pressure_pa = fr_saturation_pressure_pa (boils_c);
  else if (isnan (pressure_pa) && !isnan (sea_level_pa))
    {
      if (isnan (air_c))
        return fr_input_fail (input, "sea_level_pa", "needs air_c beside it");
      pressure_pa = fr_pressure_from_sea_level_pa (sea_level_pa, altitude_m, air_c);
    }
  else if (isnan (pressure_pa))
    pressure_pa = fr_pressure_from_altitude_pa (altitude_m);
  if (!fr_boil_table_init (table_out, pressure_pa))
    return fr_input_fail (input, isnan (sea_level_pa) ? "altitude_m" : "sea_level_pa",
                          "leads to an air pressure outside 30000 to 115000 Pa");
  return TRUE;
}

static void
read_rows (const FrInput *vessel, FrVessel *out)
{
  JsonArray *rows = fr_input_array (vessel, "rows", FR_INPUT_REQUIRED, 2, FR_VESSEL_ROWS_MAX);

  if (rows == NULL)
    return;
  out->n_rows = json_array_get_length (rows);
  for (guint i = 0; i < out->n_rows && *vessel->error == NULL; i++)
    {
      JsonNode *row = json_array_get_element (rows, i);
      char name[32], first[40], second[40];

      g_snprintf (name, sizeof name, "rows[%u]", i);
      g_snprintf (first, sizeof first, "%s[0]", name);
      g_snprintf (second, sizeof second, "%s[1]", name);
      if (!JSON_NODE_HOLDS_ARRAY (row) || json_array_get_length (json_node_get_array (row)) != 2)
        {
          fr_input_fail (vessel, name, "must be a pair [depth_m, litres]");
          return;
        }
      out->row_depth_m[i]
          = fr_input_array_number (vessel, json_node_get_array (row), 0, first, 0, SIZE_MAX_M);
      out->row_l[i] = fr_input_array_number (vessel, json_node_get_array (row), 1, second, 0, 100000);
      if (*vessel->error != NULL)
        return;
      if (i > 0 && !(out->row_depth_m[i] > out->row_depth_m[i - 1] && out->row_l[i] > out->row_l[i - 1]))
        fr_input_fail (vessel, name, "does not rise above the row before; depth and litres must both rise");
      else if (i == 0 && (out->row_depth_m[0] == 0) != (out->row_l[0] == 0))
        fr_input_fail (vessel, name, "has only one of depth and litres at 0; no depth is no litres");
    }
}

gboolean
fr_input_vessel (const FrInput *input, FrInputNeed need, FrVessel *vessel_out)
{
  static const char *const cylinder[] = { "shape", "radius_m", "height_m", NULL };
  static const char *const cone[] = { "shape", "bottom_radius_m", "top_radius_m", "height_m", NULL };
  static const char *const cap[] = { "shape", "rim_radius_m", "depth_m", "flat_radius_m", NULL };
  static const char *const box[] = { "shape", "length_m", "width_m", "corner_radius_m", "height_m", NULL };
  static const char *const table[] = { "shape", "rows", NULL };
  static const char *const *const keys[FR_N_SHAPES] = { cylinder, cone, cap, box, table };
  static const char shapes[] = "a shape: cylinder, cone, cap, box or table";
  FrVessel v = { 0 };
  FrInput in;
  const char *shape;

  if (!fr_input_object (input, "vessel", need, NULL, &in))
    return FALSE;
  shape = fr_input_string (&in, "shape", FR_INPUT_REQUIRED, shapes);
  if (shape == NULL)
    return FALSE;
  if (!fr_shape_from_code (shape, &v.shape))
    {
      g_autofree char *quoted = fr_json_quote (shape);

      return fr_input_fail (&in, "shape", "is “%s”; it must be %s", quoted, shapes);
    }
  if (!fr_input_check_keys (&in, keys[v.shape]))
    return FALSE;
  switch (v.shape)
    {
    case FR_SHAPE_CYLINDER:
      v.a_m = fr_input_number (&in, "radius_m", FR_INPUT_REQUIRED, SIZE_MIN_M, SIZE_MAX_M);
      break;
    case FR_SHAPE_CONE:
      v.a_m = fr_input_number (&in, "bottom_radius_m", FR_INPUT_REQUIRED, SIZE_MIN_M, SIZE_MAX_M);
      v.b_m = fr_input_number (&in, "top_radius_m", FR_INPUT_REQUIRED, SIZE_MIN_M, SIZE_MAX_M);
      break;
    case FR_SHAPE_CAP:
      v.a_m = fr_input_number (&in, "rim_radius_m", FR_INPUT_REQUIRED, SIZE_MIN_M, SIZE_MAX_M);
      v.height_m = fr_input_number (&in, "depth_m", FR_INPUT_REQUIRED, SIZE_MIN_M, SIZE_MAX_M);
      v.b_m = fr_input_number (&in, "flat_radius_m", FR_INPUT_OPTIONAL, 0, v.a_m);
      if (isnan (v.b_m))
        v.b_m = 0; /* round to the bottom */
      else if (v.b_m == v.a_m)
        fr_input_fail (&in, "flat_radius_m", "must be smaller than rim_radius_m");
      break;
    case FR_SHAPE_BOX:
      v.a_m = fr_input_number (&in, "length_m", FR_INPUT_REQUIRED, SIZE_MIN_M, SIZE_MAX_M);
      v.b_m = fr_input_number (&in, "width_m", FR_INPUT_REQUIRED, SIZE_MIN_M, SIZE_MAX_M);
      v.c_m = fr_input_number (&in, "corner_radius_m", FR_INPUT_REQUIRED, 0, MIN (v.a_m, v.b_m) / 2);
      break;
    default:
      read_rows (&in, &v);
    }
  if (v.shape != FR_SHAPE_CAP && v.shape != FR_SHAPE_TABLE)
    v.height_m = fr_input_number (&in, "height_m", FR_INPUT_REQUIRED, SIZE_MIN_M, SIZE_MAX_M);
  if (*in.error != NULL)
    return FALSE;
  /* The ranges above are those of the check; this holds them to it. */
  if (fr_vessel_check (&v) != FR_VESSEL_OK)
    return fr_input_fail (&in, "", "cannot be: its sizes do not go together");
  *vessel_out = v;
  return TRUE;
}
