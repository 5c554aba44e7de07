/* Observations of a cooker as JSON, and the heat ratio they show. Keys with units and ranges: docs/json.md.
 */
#pragma once

#include "domain/maths/calibrate.h"

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

#define FR_OBSERVATIONS_MAX 1000

/* Free with fr_calibrate_input_free. */
typedef struct
{
  FrBoilTable table;
  gboolean has_vessel; /* not needed when no level drop was seen */
  FrVessel vessel;
  double wall_w_per_k;
  guint n_seen;
  FrSeen *seen;
  char **kinds; /* as written, for messages; NULL-terminated */
} FrCalibrateInput;

/* NULL with a sentence (FR_INPUT_ERROR) that names the key and the range. */
FrCalibrateInput *
fr_calibrate_input_read (JsonNode *root, GError **error);
void
fr_calibrate_input_free (FrCalibrateInput *input);

/* @each_out: one for every observation; free it. */
gboolean
fr_calibrate_input_run (const FrCalibrateInput *input, FrCalibration *out, FrSeenRatio **each_out,
                        GError **error);

/* Free it. */
char *
fr_calibration_to_json (const FrCalibration *calibration, const FrSeenRatio *each, guint n);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrCalibrateInput, fr_calibrate_input_free)

G_END_DECLS
