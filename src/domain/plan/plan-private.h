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

/* Power on for @span_s from @start_utc; NAN unknown. */
double fr_plan_cost_minor (const FrPlanInput *input, double power_w, gint64 start_utc, double span_s,
                           FrTariffProblem *problem_out);

/* Stretches of one price, in order; days without a price leave gaps. Free with g_free. */
FrPriceSpan *fr_plan_price_spans (const FrTariff *tariff, const FrZoneTable *zone, gint64 from_utc, gint64 to_utc,
                                  guint *n_out);

/* The ratio at the unfavourable (side −1) or favourable (+1) end of nine times in ten, or as it stands (0). */
double fr_planning_ratio (const FrPlanKit *kit, int side);

/* What is in the pan from last night, 0 for none. */
double fr_planning_rest_l (const FrPlanKit *kit);

/* Fresh sap that fills the pan to its hold level. */
double fr_planning_room_l (const FrPlanKit *kit);

/* The boil of a kit with @litres_l of sap, the pan filled first; no clock ends it. Its length, NAN when it never ends by the
 * cut-off. */
double fr_planning_span_s (const FrPlanning *planning, const FrPlanKit *kit, double litres_l, int side);

/**
 * fr_planning_together_s:
 * @planning: the evening
 * @side: at which end of the heat ratio's range
 * @least_l: by share, the least a pan can be started with
 * @most_l: by share, the most it may get; 0 for one that stays off
 * @total_l: what is to be shared out
 * @litres_l_out: by share; may lie below @least_l when the common end is before such a pan could be done
 *
 * Shares @total_l out so that all that are not at their most end together, within a minute.
 *
 * Returns: when the last of them ends, s; NAN when the most of all is less than @total_l
 */
double fr_planning_together_s (const FrPlanning *planning, int side, const double *least_l, const double *most_l,
                          double total_l, double *litres_l_out);

/* The least a pan can be started with, and the most it may get whatever the time. */
double fr_planning_least_l (const FrPlanKit *kit);
double fr_planning_most_untimed_l (const FrPlanning *planning, const FrPlanKit *kit);

G_END_DECLS
