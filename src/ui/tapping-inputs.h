/* What the tapping plan is made from, each entry one step: buckets and other limits, the kitchen, the guideline and the spacing with
 * what they say and where they are printed. */
#pragma once

#include <adwaita.h>

#include "models/sugarbush.h"

G_BEGIN_DECLS

#define FR_TYPE_TAPPING_INPUTS (fr_tapping_inputs_get_type ())
G_DECLARE_FINAL_TYPE (FrTappingInputs, fr_tapping_inputs, FR, TAPPING_INPUTS, AdwBin)

GtkWidget *fr_tapping_inputs_new (FrSugarbush *bush);

/* Shows what the book has now; asked for only while it is seen. */
void fr_tapping_inputs_update (FrTappingInputs *self);
/* Puts a number of buckets into the book, as if it had been typed. */
void fr_tapping_inputs_take_buckets (FrTappingInputs *self, guint buckets);
/* For someone who has said nothing yet: the keyboard on the number of buckets. */
void fr_tapping_inputs_grab (FrTappingInputs *self);

G_END_DECLS
