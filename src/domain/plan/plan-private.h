/* Shared among the files of the plan; not for others. */
#pragma once

#include "domain/plan/plan.h"

G_BEGIN_DECLS

/* How long before the price rises everything has to be off by default. */
#define FR_PLAN_MARGIN_S 600

typedef struct
{
  const FrPlanInput *input;
  FrPlan *plan;
  FrBoilTable table;
} FrPlanning;

/* The boil of a kit with @fresh_l of sap poured into the pan and @bucket_l into its bucket, ending at off-by. */
FrBoil fr_planning_boil (const FrPlanning *planning, const FrPlanKit *kit, double fresh_l, double bucket_l);

/* Shares out the sap and follows every pan; sets status. */
void fr_planning_share (FrPlanning *planning);

/* Feed settings, what a set stream does, and a trip. */
void fr_planning_feed (FrPlanning *planning, FrPlanShare *share);

/* Prices: spans, the rise, costs, other ways; then what would take the rest. */
void fr_planning_money (FrPlanning *planning);
void fr_planning_options (FrPlanning *planning);
void fr_planning_cautions (FrPlanning *planning);

/* Cost of all used cookers when started at @start_utc, each for its own span times @stretch; NAN unknown. */
double fr_planning_cost (const FrPlanning *planning, gint64 start_utc, double stretch, FrTariffProblem *problem_out);

G_END_DECLS
