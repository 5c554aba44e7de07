/* frostrun-cli syrup: where syrup is done, from options instead of a file. */
#include "cli/cli-commands.h"
#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "domain/maths/sucrose.h"
#include "formats/json-input.h"
#include "formats/json-output.h"
#include "formats/place-json.h"

#include <json-glib/json-glib.h>
#include <math.h>

static char *altitude_text, *pressure_text, *boils_text, *brix_text;

const GOptionEntry fr_syrup_entries[] = {
  { "altitude-m", 0, 0, G_OPTION_ARG_STRING, &altitude_text, "Altitude, m, -500 to 9000", "M" },
  { "pressure-pa", 0, 0, G_OPTION_ARG_STRING, &pressure_text, "Or the air pressure at the place, Pa", "PA" },
  { "water-boils-c", 0, 0, G_OPTION_ARG_STRING, &boils_text, "Or where plain water boils today, °C", "C" },
  { "brix", 0, 0, G_OPTION_ARG_STRING, &brix_text, "Sugar in 100 g of syrup, °Bx, 0 to 80", "BX" },
  { NULL }
};

gboolean
fr_run_syrup (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_autoptr (JsonObject) object = json_object_new ();
  GError *first = NULL;
  FrInput in = { object, "", &first };
  FrBoilTable table;
  double brix, finish_c, cold, hot;

  if (!fr_cli_add_number (object, "altitude_m", "--altitude-m", altitude_text, error)
      || !fr_cli_add_number (object, "pressure_pa", "--pressure-pa", pressure_text, error)
      || !fr_cli_add_number (object, "water_boils_c", "--water-boils-c", boils_text, error)
      || !fr_cli_add_number (object, "brix", "--brix", brix_text, error))
    return FALSE;
  brix = fr_input_number (&in, "brix", FR_INPUT_REQUIRED, 0, FR_BRIX_MAX);
  if (!fr_input_place (&in, NAN, &table))
    {
      g_propagate_error (error, first);
      return FALSE;
    }
  finish_c = fr_sucrose_boil_temp_c (brix, table.pressure_pa);
  cold = fr_sucrose_density_kg_m3 (brix, 20);
  hot = fr_sucrose_density_kg_m3 (brix, finish_c);
  if (options->json)
    {
      FrOutput out;
      g_autofree char *text = NULL;

      fr_output_init (&out);
      fr_output_object (&out, NULL);
      fr_output_number (&out, "water_boils_c", table.water_boils_c);
      fr_output_number (&out, "finish_c", finish_c);
      fr_output_number (&out, "density_20c_kg_m3", cold);
      fr_output_number (&out, "density_finish_kg_m3", hot);
      fr_output_end_object (&out);
      text = fr_output_finish (&out);
      g_string_append (answer, text);
    }
  else
    {
      g_autoptr (FrPrint) print = fr_print_new ();

      fr_print_number (print, "Plain water boils at", table.water_boils_c, 2, "°C");
      fr_print_number (print, "Finish at", finish_c, 2, "°C");
      fr_print_number (print, "Density at 20 °C", cold, 1, "kg/m³");
      fr_print_number (print, "Density at the finish", hot, 1, "kg/m³");
      fr_print_finish (print, answer);
    }
  return TRUE;
}
