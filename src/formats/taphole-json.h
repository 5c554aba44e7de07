/* A trunk and its holes as JSON, and where the next hole goes. Keys with units and ranges: docs/json.md. */
#pragma once

#include "domain/maths/taphole.h"

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

#define FR_TAPHOLE_HOLES_MAX 500

/* Free with fr_taphole_input_free. */
typedef struct
{
  FrTrunk trunk;
  guint n_holes;
  FrHole *holes;
} FrTapholeInput;

/* NULL with a sentence (FR_INPUT_ERROR) that names the key and the range. */
FrTapholeInput *
fr_taphole_input_read (JsonNode *root, GError **error);
void
fr_taphole_input_free (FrTapholeInput *input);

/* @reason: what is said of the place. Free the result. */
char *
fr_taphole_to_json (const FrTaphole *place, const char *reason);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrTapholeInput, fr_taphole_input_free)

G_END_DECLS
