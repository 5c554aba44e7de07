/* What would take the sap that stays: other hours, a second cooker, a bucket filled again, a higher cut-off.
 *
 * Each is worked out with the same runs as the plan, at the unfavourable end of the heat ratio's range, and
 * with room for the rounding of every bucket, so that planning again with it leaves nothing over. */
#include "domain/plan/plan-private.h"

#include "domain/maths/sucrose.h"

#include <math.h>

#define WORTH_L 0.2      /* less than that is not worth a sentence */
#define ROUNDING_L 0.1   /* each bucket may lose that when it is rounded down */
#define CLOCK_STEP_S 300 /* times to set a clock to */
#define POWER_STEP_W 50
#define POWER_MAX_W 20000
#define CUTOFF_STEP_L 0.01
#define LONGEST_S (4 * 86400)

static void
add (FrPlan *plan, FrOption option)
{
  g_return_if_fail (plan->n_options < G_N_ELEMENTS (plan->options));
  plan->options[plan->n_options++] = option;
}

/* Beside tonight's, what it costs to boil these litres from @start_utc. */
static double
extra_cost (const FrPlanning *planning, const double *litres_l, gint64 start_utc)
{
  const FrPlanInput *input = planning->input;
  const FrPlan *plan = planning->plan;
  FrTariffProblem problem;
  double sum = 0;

  for (guint i = 0; i < plan->n_shares; i++)
    if (litres_l[i] > 0)
      {
        const FrPlanKit *kit = &input->kits[plan->shares[i].kit];

        sum += fr_plan_cost_minor (input, kit->power_w, start_utc,
                                   fr_planning_span_s (planning, kit, litres_l[i], 0), &problem);
      }
  return sum - plan->cost_minor;
}

/* Start earlier, or go on longer. */
static void
other_hours (FrPlanning *planning, const double *most_l)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  double least_l[FR_PLAN_KITS_MAX], litres_l[FR_PLAN_KITS_MAX], span_s, room_l = 0;
  gint64 start_utc, end_utc;

  for (guint i = 0; i < plan->n_shares; i++)
    {
      least_l[i] = fr_planning_least_l (&input->kits[plan->shares[i].kit]);
      room_l += most_l[i];
    }
  span_s = fr_planning_together_s (planning, -1, least_l, most_l,
                                   MIN (input->sap_l + ROUNDING_L * plan->n_shares, room_l), litres_l);
  if (!(span_s <= LONGEST_S))
    return;
  start_utc = input->off_by_utc - (gint64)ceil (span_s);
  start_utc -= ((start_utc % CLOCK_STEP_S) + CLOCK_STEP_S) % CLOCK_STEP_S;
  end_utc = input->start_utc + (gint64)ceil (span_s);
  end_utc += (CLOCK_STEP_S - end_utc % CLOCK_STEP_S) % CLOCK_STEP_S;
  if (start_utc >= input->now_utc && start_utc < input->start_utc)
    add (plan, (FrOption){ FR_OPTION_EARLIER, G_MAXUINT, start_utc, NAN, NAN,
                           extra_cost (planning, litres_l, start_utc) });
  if (end_utc > input->off_by_utc)
    add (plan, (FrOption){ FR_OPTION_LATER, G_MAXUINT, end_utc, NAN, NAN,
                           extra_cost (planning, litres_l, input->start_utc) });
}

/* The least power, in steps, of a cooker like @like with a bucket of its own that takes what stays in
 * tonight's hours. */
static void
second_cooker (FrPlanning *planning, const FrPlanKit *like)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  FrPlanKit kit = *like;
  double span_s = (double)(input->off_by_utc - input->start_utc), litres_l;
  guint lo = 0, hi = POWER_MAX_W / POWER_STEP_W;
  FrTariffProblem problem;

  if (input->n_kits >= FR_PLAN_KITS_MAX)
    return;
  kit.rest_l = kit.bucket_l = NAN;
  litres_l = MAX (plan->over_l + 2 * ROUNDING_L, fr_planning_least_l (&kit));
  if (litres_l > fr_planning_most_untimed_l (planning, &kit))
    return;
  /* The pan is filled before the bucket, so less than a pan is no easier than a full one to plan again. */
  litres_l = MAX (litres_l, MIN (fr_planning_room_l (&kit), input->sap_l));
  while (hi - lo > 1)
    {
      guint mid = (lo + hi) / 2;

      kit.power_w = mid * POWER_STEP_W;
      if (fr_planning_span_s (planning, &kit, litres_l, -1) <= span_s)
        hi = mid;
      else
        lo = mid;
    }
  kit.power_w = hi * POWER_STEP_W;
  if (!(fr_planning_span_s (planning, &kit, litres_l, -1) <= span_s))
    return;
  add (plan, (FrOption){ FR_OPTION_SECOND, G_MAXUINT, G_MININT64, kit.power_w, NAN,
                         fr_plan_cost_minor (
                             input, kit.power_w, input->start_utc,
                             fr_planning_span_s (planning, &kit, MAX (plan->over_l, kit.cutoff_l * 1.01), 0),
                             &problem) });
}

/* The cut-off at which what stays could go in as well: all of its sugar at the ceiling then fills this much
 * at the boil. */
static void
higher_cutoff (FrPlanning *planning, guint i)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  const FrPlanShare *share = &plan->shares[i];
  const FrPlanKit *kit = &input->kits[share->kit];
  double boil_c = fr_boil_table_temp_c (&planning->table, input->max_brix, NULL);
  double sugar_kg = share->run.sugar_in_kg
                    + 1e-5 * (plan->over_l + ROUNDING_L) * input->sap_brix
                          * fr_sucrose_density_kg_m3 (input->sap_brix, input->sap_c);
  double cutoff_l = 1e5 * sugar_kg / (input->max_brix * fr_sucrose_density_kg_m3 (input->max_brix, boil_c));

  cutoff_l = ceil (cutoff_l / CUTOFF_STEP_L) * CUTOFF_STEP_L;
  /* Of use where the pan and the bucket have the room. */
  if (cutoff_l < kit->hold_l && !(share->bucket_l + plan->over_l > kit->bucket_l))
    add (plan, (FrOption){ FR_OPTION_HIGHER_CUTOFF, share->kit, G_MININT64, NAN, cutoff_l, NAN });
}

void
fr_planning_options (FrPlanning *planning)
{
  const FrPlanInput *input = planning->input;
  FrPlan *plan = planning->plan;
  const FrPlanShare *by_time = NULL, *by_bucket = NULL, *by_brix = NULL;
  double most_l[FR_PLAN_KITS_MAX], room_l = 0;

  if (plan->over_l < WORTH_L)
    return;
  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanShare *share = &plan->shares[i], **bound;

      most_l[i] = share->used ? fr_planning_most_untimed_l (planning, &input->kits[share->kit]) : 0;
      room_l += most_l[i];
      if (!share->used)
        continue;
      bound = share->limited_by == FR_LIMIT_CAPACITY ? &by_bucket
              : share->limited_by == FR_LIMIT_BRIX   ? &by_brix
                                                     : &by_time;
      if (*bound == NULL || share->bucket_l > (*bound)->bucket_l)
        *bound = share;
    }
  if (by_bucket != NULL && !isnan (by_bucket->run.feed_dry_s))
    add (plan, (FrOption){ FR_OPTION_REFILL, by_bucket->kit,
                           input->start_utc + (gint64)lround (by_bucket->run.feed_dry_s), NAN, NAN, NAN });
  if (by_time == NULL)
    {
      if (by_brix != NULL)
        higher_cutoff (planning, (guint)(by_brix - plan->shares));
      return;
    }
  if (room_l >= input->sap_l)
    other_hours (planning, most_l);
  second_cooker (planning, &input->kits[by_time->kit]);
}
