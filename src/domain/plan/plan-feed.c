/* The feed: what to set it to, what a bit off does, and what happens when the power trips while it runs on.
 *
 * A feed that holds the level needs no setting; its draw is shown so that the bucket and the outlet can be chosen. A stream
 * or a hole is set once: it is followed as set and 20 % either way, and with a trip at each hour of the night. A bucket is
 * taken to be as deep as it is wide, which fixes how its head falls. */
#include "domain/plan/plan-private.h"

#include "domain/maths/feed.h"
#include "domain/maths/sucrose.h"

#include <math.h>

#define TRIP_EVERY_S 1800.0
#define TRIP_WATCH_S 86400.0
#define SQRT_2_OVER_G 0.45158 /* sqrt (2 / 9.80665), s/√m */

/* The feed of a set stream or hole that gives @flow_l_per_h on the mean over the bucket. */
static void
set_feed (const FrPlanKit *kit, double bucket_l, double flow_l_per_h, FrBoil *boil)
{
  double volume_m3 = 1e-3 * (isnan (kit->bucket_l) ? bucket_l : MAX (kit->bucket_l, bucket_l));
  double side_m = cbrt (4 * volume_m3 / G_PI), area_m2 = G_PI / 4 * side_m * side_m;
  double full_m = 1e-3 * bucket_l / area_m2, span_s = 3600 * bucket_l / flow_l_per_h;

  if (kit->feed == FR_FEED_HOLE && kit->head_m >= 0)
    {
      boil->feed_kind = FR_FEED_HOLE;
      boil->head_m = kit->head_m;
      boil->bucket_m2 = area_m2;
      /* Torricelli with a falling head empties in A / (Cd a) √(2/g) (√(h + full) − √h). */
      boil->hole_m2 = area_m2 * SQRT_2_OVER_G * (sqrt (kit->head_m + full_m) - sqrt (kit->head_m)) / span_s;
      return;
    }
  boil->feed_kind = FR_FEED_STREAM;
  boil->stream_l_per_s = flow_l_per_h / 3600;
}

static void
watch (const FrPlanKit *kit, FrBoil *boil)
{
  double height_m = fr_vessel_height_m (&kit->vessel);

  boil->rim_l = fr_vessel_capacity_l (&kit->vessel);
  boil->foam_l = isnan (kit->foam_ratio) ? NAN : fr_vessel_volume_l (&kit->vessel, height_m / (1 + kit->foam_ratio));
  boil->min_l = kit->min_level_l;
}

static void
try_cases (FrPlanShare *share, const FrPlanKit *kit, const FrBoil *set)
{
  static const double ratios[] = { 1.0, 0.8, 1.2 };
  FrPlanFeed *feed = &share->feed;

  for (guint i = 0; i < G_N_ELEMENTS (ratios); i++)
    {
      FrBoil boil = *set;
      FrBoilRun run;

      boil.stream_l_per_s *= ratios[i];
      boil.hole_m2 *= ratios[i];
      if (fr_boil_run (&boil, FALSE, &run) != FR_BOIL_OK)
        continue;
      feed->cases[feed->n_cases++] = (FrPlanFeedCase){
        ratios[i], run.ended_by, run.time_s, run.feed_dry_s, run.rim_s, run.foam_s, run.min_s,
      };
    }
}

/* The trip that runs over soonest after it happens; a trip before the pan has room is worst. */
static void
try_trips (FrPlanShare *share, const FrBoil *set)
{
  FrPlanFeed *feed = &share->feed;
  double last_s = isnan (share->run.feed_dry_s) ? share->run.time_s : share->run.feed_dry_s, worst_s = INFINITY;

  for (double trip_s = TRIP_EVERY_S; trip_s < last_s; trip_s += TRIP_EVERY_S)
    {
      FrBoil boil = *set;
      FrBoilRun run;

      boil.trip_s = trip_s;
      boil.after_s = trip_s + TRIP_WATCH_S;
      boil.cutoff_l = NAN;
      if (fr_boil_run (&boil, FALSE, &run) != FR_BOIL_OK || isnan (run.rim_s) || run.rim_s < trip_s)
        continue;
      if (run.rim_s - trip_s < worst_s)
        {
          worst_s = run.rim_s - trip_s;
          feed->trip_worst_s = trip_s;
          feed->trip_rim_s = run.rim_s;
        }
    }
}

void
fr_planning_feed (FrPlanning *planning, FrPlanShare *share)
{
  const FrPlanKit *kit = &planning->input->kits[share->kit];
  FrPlanFeed *feed = &share->feed;
  const FrBoilRun *run = &share->run;
  double feeds_s;

  feed->trip_worst_s = feed->trip_rim_s = feed->hole_m = NAN;
  feed->trip_mass_kg = run->left_kg;
  feed->flow_l_per_h = feed->ml_per_min = feed->s_per_100ml = feed->drops_per_min = NAN;
  if (!(share->bucket_l > 0) || isnan (run->boils_s))
    return;
  feeds_s = (isnan (run->feed_dry_s) ? run->time_s : run->feed_dry_s) - run->boils_s;
  if (!(feeds_s > 0))
    return;
  feed->flow_l_per_h = 3600 * share->bucket_l / feeds_s;
  feed->ml_per_min = feed->flow_l_per_h * 1e3 / 60;
  feed->s_per_100ml = fr_feed_seconds_per_100_ml (feed->flow_l_per_h);
  feed->drops_per_min = fr_feed_drops_per_min (feed->flow_l_per_h, FR_FEED_DROPS_PER_ML);
  if (kit->head_m > 0)
    feed->hole_m = fr_feed_hole_m (feed->flow_l_per_h, kit->head_m, FR_FEED_DISCHARGE_RATIO);
  if (kit->feed != FR_FEED_LEVEL)
    {
      FrBoil set = share->boil;

      set.table = &planning->table;
      set_feed (kit, share->bucket_l, feed->flow_l_per_h, &set);
      watch (kit, &set);
      try_cases (share, kit, &set);
      try_trips (share, &set);
    }
}
