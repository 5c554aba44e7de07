/* frostrun-cli boil and charge. */
#include "cli/cli-commands.h"
#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "formats/boil-json.h"

#include <math.h>

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

gboolean
fr_run_boil (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
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

gboolean
fr_run_charge (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
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
        fr_print_words (print, "Into the bucket", "nothing: even without it the night fails");
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
