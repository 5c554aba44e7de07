/* What the evening is asked with: sap, kit, hours and weather. Wide it is a column of groups; narrow each group folds into one
 * line that says what stands in it. */
#pragma once

#include <adwaita.h>

#include "models/tonight.h"

G_BEGIN_DECLS

#define FR_TYPE_TONIGHT_INPUTS (fr_tonight_inputs_get_type ())
G_DECLARE_FINAL_TYPE (FrTonightInputs, fr_tonight_inputs, FR, TONIGHT_INPUTS, AdwBin)

GtkWidget *fr_tonight_inputs_new (FrTonight *tonight);
void fr_tonight_inputs_set_narrow (FrTonightInputs *self, gboolean narrow);
/* Finishes what is being typed, so that keeping keeps it. */
void fr_tonight_inputs_finish (FrTonightInputs *self);
/* The title of the first entry left with a text that could not be read, or NULL; "unread" tells of a change. */
const char *fr_tonight_inputs_unread (FrTonightInputs *self);

G_END_DECLS
