/* Trees with what they give, limits, and the choice of taps as JSON. Keys with units and ranges: docs/json.md. */
#pragma once

#include "domain/maths/tap-choice.h"

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* Free with fr_tap_plan_input_free. */
typedef struct
{
  FrTapLimits limits;
  guint n_trees;
  FrTapTree *trees;
  char **names; /* of the trees, NULL-terminated */
} FrTapPlanInput;

/* NULL with a sentence (FR_INPUT_ERROR) that names the key and the range. */
FrTapPlanInput *
fr_tap_plan_input_read (JsonNode *root, GError **error);
void
fr_tap_plan_input_free (FrTapPlanInput *input);

/* @sentence: what is said of the choice, or why there is none. Free the result. */
char *
fr_tap_plan_to_json (const FrTapPlanInput *input, const FrTapChoice *choice, const char *sentence);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FrTapPlanInput, fr_tap_plan_input_free)

G_END_DECLS
