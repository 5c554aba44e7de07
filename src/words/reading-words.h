/* What a sap reading means once it is corrected, or why it cannot be. */
#pragma once

#include "words/say.h"

G_BEGIN_DECLS

/* @instrument_code as kept in the book; NAN is unknown. "True sweetness 2.1 °Bx, give or take 0.2." or what to do with the sample. NULL when there is no reading. Free it. */
char *fr_reading_sentence (const char *instrument_code, double reading_brix, double sample_c, const FrSay *say);

G_END_DECLS
