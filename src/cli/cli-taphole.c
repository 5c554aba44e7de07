/* frostrun-cli taphole. */
#include "cli/cli-commands.h"
#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "formats/input-error.h"
#include "formats/taphole-json.h"
#include "words/taphole-words.h"

#include <math.h>

static void
print_place (const FrTaphole *place, const char *reason, GString *answer)
{
  g_autoptr (FrPrint) print = fr_print_new ();
  g_autofree char *side = g_strdup_printf ("° clockwise from north: %s", fr_trunk_side (place->angle_deg));

  fr_print_number (print, "Angle", place->angle_deg, 1, side);
  fr_print_number (print, "Height", 100 * place->height_m, 1, "cm");
  fr_print_number (print, "Clearance", place->clearance_ratio, 2,
                   isnan (place->clearance_ratio) ? "" : "times the asked distance");
  fr_print_line (print, reason);
  fr_print_finish (print, answer);
}

gboolean
fr_run_taphole (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  const FrSay say = { .units = { .decimal_mark = '.' } };
  g_autoptr (JsonNode) root = fr_cli_read_json (file, error);
  g_autoptr (FrTapholeInput) input = NULL;
  g_autofree char *reason = NULL;
  FrTaphole place;

  if (root == NULL)
    return FALSE;
  input = fr_taphole_input_read (root, error);
  if (input == NULL)
    return FALSE;
  if (!fr_taphole_find (&input->trunk, input->holes, input->n_holes, &place))
    {
      g_set_error (error, FR_INPUT_ERROR, FR_INPUT_ERROR_FAILED, "this trunk has no place for a hole");
      return FALSE;
    }
  reason = fr_taphole_reason (&place, input->holes, input->n_holes, NULL, TRUE, &say);
  if (options->json)
    {
      g_autofree char *text = fr_taphole_to_json (&place, reason);

      g_string_append (answer, text);
    }
  else
    print_place (&place, reason, answer);
  return TRUE;
}
