/* A boil as JSON: input of `boil` and `charge`, and their answers. The keys with units and ranges are in
 * docs/json.md. */
#pragma once

#include "domain/maths/charge.h"
#include "domain/maths/vessel.h"

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/**
 * FrBoilInput:
 * What was read. @boil points at @table: keep it where it is, do not copy it.
 */
typedef struct
{
  FrBoilTable table;
  FrBoil boil;
  FrVessel vessel;
  double capacity_l; /* of the bucket; NAN when not given */
} FrBoilInput;

typedef enum
{
  FR_BOIL_INPUT_RUN,   /* feed.volume_l is needed, every stop is optional */
  FR_BOIL_INPUT_CHARGE /* feed.volume_l is not looked for, stop.cutoff_volume_l is needed */
} FrBoilInputKind;

/* FALSE with a sentence (FR_INPUT_ERROR) that names the key and the range. */
gboolean
fr_boil_input_read (JsonNode *root, FrBoilInputKind kind, FrBoilInput *input_out, GError **error);

/* Follows the boil; FR_INPUT_ERROR_FAILED when it cannot be followed. */
gboolean
fr_boil_input_run (const FrBoilInput *input, FrBoilRun *run_out, GError **error);
gboolean
fr_boil_input_charge (const FrBoilInput *input, FrCharge *charge_out, GError **error);

/* The answers as text. Free them. */
char *
fr_boil_run_to_json (const FrBoilRun *run);
char *
fr_charge_to_json (const FrCharge *charge);

G_END_DECLS
