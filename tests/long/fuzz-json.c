/* A target for libFuzzer over every reader of JSON and what stands behind it. The first byte chooses the
 * command, the rest is the input. What is read must also be answered: with numbers, or with a sentence; never
 * with a crash. How to run: tests/long/fuzz-json. */
#include "formats/boil-json.h"
#include "formats/calibrate-json.h"
#include "formats/json-text.h"
#include "formats/price-json.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

static void
boil (JsonNode *root, gboolean charge, GError **error)
{
  FrBoilInput input;

  if (!fr_boil_input_read (root, charge ? FR_BOIL_INPUT_CHARGE : FR_BOIL_INPUT_RUN, &input, error))
    return;
  if (charge)
    {
      FrCharge answer;

      if (fr_boil_input_charge (&input, &answer, error))
        {
          g_autofree char *text = fr_charge_to_json (&answer);
          g_autoptr (JsonNode) again = fr_json_parse (text, strlen (text), NULL);

          g_assert_nonnull (again);
          g_assert_true (isfinite (answer.feed_l) && isfinite (answer.run.left_kg));
          fr_boil_run_clear (&answer.run);
        }
    }
  else
    {
      FrBoilRun answer;

      if (fr_boil_input_run (&input, &answer, error))
        {
          g_autofree char *text = fr_boil_run_to_json (&answer);
          g_autoptr (JsonNode) again = fr_json_parse (text, strlen (text), NULL);

          g_assert_nonnull (again);
          g_assert_true (isfinite (answer.time_s) && isfinite (answer.left_kg)
                         && isfinite (answer.left_brix));
          fr_boil_run_clear (&answer);
        }
    }
}

static void
price (JsonNode *root, GError **error)
{
  g_autoptr (FrPriceInput) input = fr_price_input_read (root, error);
  g_autoptr (FrZoneTable) zone = NULL;
  FrCost cost;

  if (input == NULL)
    return;
  zone = fr_price_input_zone (input, error);
  if (zone != NULL && fr_price_input_run (input, zone, &cost, error))
    {
      g_autofree char *text = fr_cost_to_json (&cost);

      g_assert_true (isfinite (cost.cost_minor));
      fr_cost_clear (&cost);
    }
}

static void
calibrate (JsonNode *root, GError **error)
{
  g_autoptr (FrCalibrateInput) input = fr_calibrate_input_read (root, error);
  g_autofree FrSeenRatio *each = NULL;
  FrCalibration found;

  if (input != NULL && fr_calibrate_input_run (input, &found, &each, error))
    {
      g_autofree char *text = fr_calibration_to_json (&found, each, input->n_seen);

      g_assert_true (isfinite (found.heat_ratio));
    }
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) root = NULL;

  if (size == 0)
    return 0;
  root = fr_json_parse ((const char *)data + 1, size - 1, &error);
  if (root == NULL)
    g_assert_nonnull (error);
  else if (data[0] % 4 == 3)
    calibrate (root, &error);
  else if (data[0] % 4 == 2)
    price (root, &error);
  else
    boil (root, data[0] % 4 == 1, &error);
  if (error != NULL)
    g_assert_true (g_utf8_validate (error->message, -1, NULL));
  return 0;
}
