/* What stands in the evening's entries, in a line each. */
#pragma once

#include "domain/plan/plan.h"
#include "words/say.h"

G_BEGIN_DECLS

/* "1800 W, heat 84 ± 2 %" and below it "wide pot held at 2.5 L, bucket 30 L". Free it, as all of these. */
char *fr_kit_note (const FrPlanKit *kit, const FrSay *say);

/* "31.0 L at 2.2 °Bx, 2 °C" */
char *fr_sap_summary (const FrPlanInput *input, const FrSay *say);
/* The names of the cookers that are on. */
char *fr_kits_summary (const FrPlanInput *input, const FrSay *say);
/* "19:00 until 06:50, no thicker than 60 °Bx" */
char *fr_hours_summary (const FrPlanInput *input, const FrSay *say);
/* "0 °C at the pan" */
char *fr_air_summary (const FrPlanInput *input, const FrSay *say);

G_END_DECLS
