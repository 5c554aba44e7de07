/* The stops of a gathering round as JSON, and the round found. Keys with units and ranges: docs/json.md. */
#pragma once

#include "domain/maths/round.h"

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* Free with fr_round_input_free. */
typedef struct
{
  double start_x_m;
  double start_y_m;
  double pail_l; /* NAN: no limit */
  guint n_stops;
  FrRoundStop *stops;
  char **names; /* of the stops, all different; NULL-terminated */
} FrRoundInput;

/* NULL with a sentence (FR_INPUT_ERROR) that names the key and the range. */
FrRoundInput *
fr_round_input_read (JsonNode *root, GError **error);
void
fr_round_input_free (FrRoundInput *input);

/* NULL with a sentence when a pail so small would be carried too often. Free with fr_round_free. */
FrRound *
fr_round_input_run (const FrRoundInput *input, GError **error);

/* Free it. */
char *
fr_round_to_json (const FrRoundInput *input, const FrRound *round);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrRoundInput, fr_round_input_free)

G_END_DECLS
