/* A plan as JSON, for programs. Keys carry their unit; unknown is null. See docs/json.md. */
#pragma once

#include "domain/plan/plan.h"
#include "formats/json-output.h"

G_BEGIN_DECLS

/* Writes the members of the plan into the object that is open in @output. */
void fr_plan_write_json (FrOutput *output, const FrPlan *plan, const FrPlanInput *input);

G_END_DECLS
