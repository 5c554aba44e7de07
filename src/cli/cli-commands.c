/* What each command does: read, ask the maths, write for people or for programs. */
#include "cli/cli-commands.h"

#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "domain/maths/sucrose.h"
#include "domain/maths/water.h"
#include "formats/boil-json.h"
#include "formats/json-input.h"
#include "formats/json-output.h"
#include "formats/place-json.h"

#include <json-glib/json-glib.h>
#include <math.h>

/* --- syrup --- */

static char *altitude_text, *pressure_text, *boils_text, *brix_text;

static const GOptionEntry syrup_entries[] = {
  { "altitude-m", 0, 0, G_OPTION_ARG_STRING, &altitude_text, "Altitude, m, -500 to 9000", "M" },
  { "pressure-pa", 0, 0, G_OPTION_ARG_STRING, &pressure_text, "Or the air pressure at the place, Pa", "PA" },
  { "water-boils-c", 0, 0, G_OPTION_ARG_STRING, &boils_text, "Or where plain water boils today, °C", "C" },
  { "brix", 0, 0, G_OPTION_ARG_STRING, &brix_text, "Sugar in 100 g of syrup, °Bx, 0 to 80", "BX" },
  { NULL }
};

/* Adds an option's text as a number to what then is read like any other input. FALSE when it is none. */
static gboolean
add_number (JsonObject *object, const char *key, const char *option, const char *text, GError **error)
{
  char *end;
  double value;

  if (text == NULL)
    return TRUE;
  value = g_ascii_strtod (text, &end);
  if (end == text || *end != '\0' || !isfinite (value))
    {
      g_autofree char *quoted = fr_json_quote (text);

      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_WRONG, "%s “%s” is not a number", option, quoted);
      return FALSE;
    }
  json_object_set_double_member (object, key, value);
  return TRUE;
}

static gboolean
run_syrup (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_autoptr (JsonObject) object = json_object_new ();
  GError *first = NULL;
  FrInput in = { object, "", &first };
  FrBoilTable table;
  double brix, finish_c, cold, hot;

  if (!add_number (object, "altitude_m", "--altitude-m", altitude_text, error)
      || !add_number (object, "pressure_pa", "--pressure-pa", pressure_text, error)
      || !add_number (object, "water_boils_c", "--water-boils-c", boils_text, error)
      || !add_number (object, "brix", "--brix", brix_text, error))
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

/* --- boil and charge --- */

static const char *
end_words (FrEnd end)
{
  switch (end)
    {
    case FR_END_CUTOFF:
      return "the level came down to the cut-off";
    case FR_END_BRIX:
      return "it was as thick as asked for";
    case FR_END_TIME:
      return "the time was over";
    case FR_END_NEVER_BOILS:
      return "it never boils: more heat is lost than the cooker brings";
    default:
      return "nearly nothing was left to boil";
    }
}

static void
print_run (FrPrint *print, const FrBoilRun *run)
{
  fr_print_words (print, "Ends because", end_words (run->ended_by));
  fr_print_span (print, "Boils after", run->boils_s, "never");
  fr_print_span (print, "Bucket dry after", run->feed_dry_s, "never");
  if (!isnan (run->rim_s))
    fr_print_span (print, "Runs over after", run->rim_s, "never");
  if (!isnan (run->foam_s))
    fr_print_span (print, "At the foam line after", run->foam_s, "never");
  if (!isnan (run->min_s))
    fr_print_span (print, "Under the minimum after", run->min_s, "never");
  fr_print_span (print, "Ends after", run->time_s, "–");
  fr_print_number (print, "Left in the pan", run->left_l, 2, "L as it stands");
  fr_print_number (print, "", run->left_20c_l, 2, "L at 20 °C");
  fr_print_number (print, "", run->left_kg, 2, "kg");
  fr_print_number (print, "Sugar in it", run->left_brix, 1, "°Bx");
  fr_print_number (print, "It boils at", run->boil_c, 1, "°C");
  fr_print_number (print, "Boiled off", run->evaporated_kg, 2, "kg of water");
  fr_print_number (print, "Electricity", run->energy_kwh, 2, "kWh");
  if (run->extrapolated)
    fr_print_line (print, "The litres rest on densities beyond the published range of temperature or sugar.");
}

static gboolean
run_boil (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_autoptr (JsonNode) root = fr_cli_read_json (file, error);
  FrBoilInput input;
  FrBoilRun run;

  if (root == NULL || !fr_boil_input_read (root, FR_BOIL_INPUT_RUN, &input, error)
      || !fr_boil_input_run (&input, &run, error))
    return FALSE;
  if (options->json)
    {
      g_autofree char *text = fr_boil_run_to_json (&run);

      g_string_append (answer, text);
    }
  else
    {
      g_autoptr (FrPrint) print = fr_print_new ();

      print_run (print, &run);
      fr_print_finish (print, answer);
    }
  fr_boil_run_clear (&run);
  return TRUE;
}

static const char *
limit_words (FrLimit limit)
{
  switch (limit)
    {
    case FR_LIMIT_TIME:
      return "the time: more would not cut off soon enough";
    case FR_LIMIT_BRIX:
      return "the sugar: more would leave it too thick";
    case FR_LIMIT_CAPACITY:
      return "the bucket: it holds no more";
    case FR_LIMIT_SAP:
      return "the sap: there is no more";
    default:
      return "nothing";
    }
}

static gboolean
run_charge (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_autoptr (JsonNode) root = fr_cli_read_json (file, error);
  FrBoilInput input;
  FrCharge charge;

  if (root == NULL || !fr_boil_input_read (root, FR_BOIL_INPUT_CHARGE, &input, error)
      || !fr_boil_input_charge (&input, &charge, error))
    return FALSE;
  if (options->json)
    {
      g_autofree char *text = fr_charge_to_json (&charge);

      g_string_append (answer, text);
    }
  else
    {
      g_autoptr (FrPrint) print = fr_print_new ();

      if (charge.feasible)
        fr_print_number (print, "Into the bucket", floor (charge.feed_l * 100) / 100, 2, "L");
      else
        fr_print_words (print, "Into the bucket", "nothing: what is in the pan is already too much");
      fr_print_words (print, "Limited by", limit_words (charge.limited_by));
      if (charge.next != FR_LIMIT_NONE)
        {
          fr_print_number (print, "Without that limit", floor (charge.next_l * 100) / 100, 2, "L");
          fr_print_words (print, "then limited by", limit_words (charge.next));
        }
      fr_print_line (print, "");
      print_run (print, &charge.run);
      fr_print_finish (print, answer);
    }
  fr_boil_run_clear (&charge.run);
  return TRUE;
}

const FrCommand fr_commands[] = {
  { "syrup", "--altitude-m M --brix BX", "Where syrup of a given density is done",
    "Says where plain water boils, where syrup of so much sugar boils, and its density (true, in vacuum) at "
    "20 °C and "
    "at the boil.",
    "frostrun-cli syrup --altitude-m 300 --brix 66.9", FALSE, syrup_entries, run_syrup },
  { "boil", "IN.json", "Follow a boil from switch-on to its end",
    "Says when and why a fed pan stops, when the bucket runs dry, how much is left and how thick it is. "
    "The input is described in frostrun-cli(1) and docs/json.md.",
    "echo '{\"altitude_m\":250,\"air_c\":-3,\n"
    "  \"vessel\":{\"shape\":\"cylinder\",\"radius_m\":0.1,\"height_m\":0.18},\n"
    "  \"cooker\":{\"power_w\":1800,\"heat_ratio\":0.85,\"wall_w_per_k\":0.9},\n"
    "  \"start\":{\"volume_l\":1.5,\"brix\":2,\"temp_c\":3},\n"
    "  \"feed\":{\"volume_l\":12,\"brix\":2,\"temp_c\":3},\n"
    "  \"hold_volume_l\":1.5,\n"
    "  \"stop\":{\"cutoff_volume_l\":0.8,\"after_s\":43200,\"brix\":60}}' | frostrun-cli boil -",
    TRUE, NULL, run_boil },
  { "charge", "IN.json", "The most sap that fits into a night",
    "Finds the largest feed.volume_l whose run cuts off no later than stop.after_s, with what is left no "
    "thicker than "
    "stop.brix, and not over feed.capacity_l; says which of these limits it and which is next. The input is "
    "that of boil.",
    "frostrun-cli charge tonight.json --json", TRUE, NULL, run_charge },
};

const guint fr_n_commands = G_N_ELEMENTS (fr_commands);
