/* frostrun-cli calibrate. */
#include "cli/cli-commands.h"
#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "formats/calibrate-json.h"

#include <math.h>

static void
print_calibration (const FrCalibrateInput *input, const FrCalibration *found, const FrSeenRatio *each,
                   GString *answer)
{
  g_autoptr (FrPrint) print = fr_print_new ();
  g_autofree char *sd = g_strdup_printf ("± %.3f", found->heat_ratio_sd);

  fr_print_number (print, "Heat ratio", found->heat_ratio, 3, sd);
  if (!isnan (found->wall_w_per_k_sd))
    {
      g_autofree char *wall_sd = g_strdup_printf ("± %.2f W/K", found->wall_w_per_k_sd);

      fr_print_number (print, "Wall, found from the data", found->wall_w_per_k, 2, wall_sd);
    }
  else
    fr_print_number (print, "Wall, as given", found->wall_w_per_k, 2, "W/K");
  for (guint i = 0; i < input->n_seen; i++)
    {
      g_autofree char *what = g_strdup_printf ("By %s %u", input->kinds[i], i + 1),
                      *rest = g_strdup_printf ("± %.3f%s", each[i].heat_ratio_sd,
                                               each[i].outlier ? ", set aside: too far from the others" : "");

      fr_print_number (print, what, each[i].heat_ratio, 3, rest);
    }
  fr_print_finish (print, answer);
}

gboolean
fr_run_calibrate (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_autoptr (JsonNode) root = fr_cli_read_json (file, error);
  g_autoptr (FrCalibrateInput) input = NULL;
  g_autofree FrSeenRatio *each = NULL;
  FrCalibration found;

  if (root == NULL)
    return FALSE;
  input = fr_calibrate_input_read (root, error);
  if (input == NULL || !fr_calibrate_input_run (input, &found, &each, error))
    return FALSE;
  if (options->json)
    {
      g_autofree char *text = fr_calibration_to_json (&found, each, input->n_seen);

      g_string_append (answer, text);
    }
  else
    print_calibration (input, &found, each, answer);
  return TRUE;
}
