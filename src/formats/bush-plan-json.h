/* The tapping plan and the gathering round of a book as JSON. Keys with units: docs/json.md. */
#pragma once

#include "domain/plan/bush.h"

G_BEGIN_DECLS

/* @sentence: what is said of it. Free the result. */
char *
fr_bush_plan_to_json (const FrBush *bush, const FrBushPlan *plan, const char *sentence);
/* @round NULL: there is no tree to go to. Free the result. */
char *
fr_bush_round_to_json (const FrBush *bush, const FrBushRound *round, const char *sentence);

G_END_DECLS
