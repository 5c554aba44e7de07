/* frostrun-cli price. */
#include "cli/cli-commands.h"
#include "cli/cli-print.h"
#include "cli/cli-read.h"
#include "formats/price-json.h"

#include <math.h>

/* A price as it is listed: as many decimals as it has, up to five. */
static char *
price_text (double price)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  return g_strdup (g_ascii_formatd (text, sizeof text, "%.8g", price));
}

static void
print_cost (const FrCost *cost, GString *answer)
{
  g_autoptr (FrPrint) print = fr_print_new ();

  fr_print_number (print, "Cost", cost->cost_minor, 2, "minor units (cents)");
  fr_print_number (print, "Electricity", cost->energy_kwh, 3, "kWh");
  for (guint i = 0; i < cost->n_bands; i++)
    {
      g_autofree char *price
          = price_text (cost->bands[i].listed_per_kwh),
          *full = price_text (cost->bands[i].full_per_kwh), *what = g_strdup_printf ("At %s per kWh", price),
          *rest = g_strdup_printf ("h, %.3f kWh, %.2f%s%s%s", cost->bands[i].energy_kwh,
                                   cost->bands[i].cost_minor, g_strcmp0 (price, full) != 0 ? " at " : "",
                                   g_strcmp0 (price, full) != 0 ? full : "",
                                   g_strcmp0 (price, full) != 0 ? " in full" : "");

      fr_print_number (print, what, cost->bands[i].hours_h, 2, rest);
    }
  fr_print_finish (print, answer);
}

gboolean
fr_run_price (const FrCommandOptions *options, const char *file, GString *answer, GError **error)
{
  g_autoptr (JsonNode) root = fr_cli_read_json (file, error);
  g_autoptr (FrPriceInput) input = NULL;
  g_autoptr (FrZoneTable) zone = NULL;
  FrCost cost;

  if (root == NULL)
    return FALSE;
  input = fr_price_input_read (root, error);
  if (input == NULL)
    return FALSE;
  zone = fr_price_input_zone (input, error);
  if (zone == NULL || !fr_price_input_run (input, zone, &cost, error))
    return FALSE;
  if (options->json)
    {
      g_autofree char *text = fr_cost_to_json (&cost);

      g_string_append (answer, text);
    }
  else
    print_cost (&cost, answer);
  fr_cost_clear (&cost);
  return TRUE;
}
