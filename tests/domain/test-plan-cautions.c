/* Cautions, each provoked by the one thing that should, and what a set feed does, followed a second way. */
#include "evenings.h"

static FrZoneTable *zone;

typedef void (*Spoil) (FrPlanInput *input);

#define SPOIL(NAME, ...)                                                                                     \
  static void spoil_##NAME (FrPlanInput *in)                                                                 \
  {                                                                                                          \
    FrPlanKit *kit = &in->kits[0];                                                                           \
    (void)kit;                                                                                               \
    __VA_ARGS__;                                                                                             \
  }

SPOIL (over, kit->breaker_a = 15)
SPOIL (no_cutoff, kit->cutoff_by = FR_CUTOFF_BY_NONE)
SPOIL (runs_over, kit->feed = FR_FEED_STREAM; kit->vessel.a_m = 0.12)
SPOIL (rim, kit->vessel.height_m = 4.05e-3 / (G_PI * 0.15 * 0.15); kit->foam_ratio = NAN)
SPOIL (min_level, kit->min_level_l = 1.5)
SPOIL (solder, kit->solder = TRUE)
SPOIL (steam, kit->place = FR_PLACE_INDOORS)
SPOIL (foam, kit->foam_ratio = 5)
SPOIL (frost, in->air_low_c = -6)
SPOIL (near, kit->breaker_a = 19)
SPOIL (left_off, in->n_kits = 2; in->kits[1] = evening_kit ("Other", 4000); in->kits[1].off = TRUE)
SPOIL (gfci, kit->gfci = FALSE)
SPOIL (age, in->sap_c = 15)
SPOIL (thick, in->sap_brix = 6; in->max_brix = 66)
SPOIL (uncalibrated, kit->heat_ratio_sd = NAN)
SPOIL (breaker, kit->circuit_id = 0; kit->breaker_a = NAN)
SPOIL (flame, in->fuel_flame = TRUE; in->fuel_price_per_kg = 200; in->fuel_mj_per_kg = 50;
       in->fuel_heat_ratio = 0.4)

static const struct
{
  FrCautionCode code;
  FrSeverity severity;
  Spoil spoil;
} provoked[] = {
  { FR_CAUTION_CIRCUIT_OVER, FR_SEVERITY_DANGER, spoil_over },
  { FR_CAUTION_NO_CUTOFF, FR_SEVERITY_DANGER, spoil_no_cutoff },
  { FR_CAUTION_RUNS_OVER, FR_SEVERITY_WARN, spoil_runs_over },
  { FR_CAUTION_RIM, FR_SEVERITY_WARN, spoil_rim },
  { FR_CAUTION_MIN_LEVEL, FR_SEVERITY_WARN, spoil_min_level },
  { FR_CAUTION_SOLDER, FR_SEVERITY_WARN, spoil_solder },
  { FR_CAUTION_STEAM, FR_SEVERITY_WARN, spoil_steam },
  { FR_CAUTION_FOAM, FR_SEVERITY_WARN, spoil_foam },
  { FR_CAUTION_FROST, FR_SEVERITY_WARN, spoil_frost },
  { FR_CAUTION_CIRCUIT_NEAR, FR_SEVERITY_WARN, spoil_near },
  { FR_CAUTION_LEFT_OFF, FR_SEVERITY_WARN, spoil_left_off },
  { FR_CAUTION_NO_GFCI, FR_SEVERITY_WARN, spoil_gfci },
  { FR_CAUTION_AGE, FR_SEVERITY_WARN, spoil_age },
  { FR_CAUTION_THICK, FR_SEVERITY_WARN, spoil_thick },
  { FR_CAUTION_UNCALIBRATED, FR_SEVERITY_WARN, spoil_uncalibrated },
  { FR_CAUTION_BREAKER_UNKNOWN, FR_SEVERITY_WARN, spoil_breaker },
  { FR_CAUTION_FLAME, FR_SEVERITY_WARN, spoil_flame },
};

static void
test_each (void)
{
  guint64 seen = 0;

  for (guint n = 0; n < G_N_ELEMENTS (provoked); n++)
    {
      FrPlanInput input = evening_input (zone, 16);
      g_autoptr (FrPlan) plan = NULL;

      provoked[n].spoil (&input);
      plan = fr_plan_new (&input);
      g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
      /* This one, and nothing else beside what every night has. */
      g_assert_true (evening_has (plan, provoked[n].code));
      for (guint i = 0; i < plan->n_cautions; i++)
        {
          const FrCaution *caution = &plan->cautions[i];

          if (caution->code == provoked[n].code)
            g_assert_cmpint (caution->severity, ==, provoked[n].severity);
          else if (caution->code != FR_CAUTION_ATTEND && caution->code != FR_CAUTION_STEAM_OK)
            g_error ("%s brought %s", fr_caution_code (provoked[n].code), fr_caution_code (caution->code));
          seen |= G_GUINT64_CONSTANT (1) << caution->code;
        }
      g_assert_true (evening_has (plan, FR_CAUTION_ATTEND));
      g_assert_cmpint (evening_has (plan, FR_CAUTION_STEAM_OK), ==, provoked[n].code != FR_CAUTION_STEAM);
    }
  g_assert_cmpuint (seen, ==, (G_GUINT64_CONSTANT (1) << FR_N_CAUTIONS) - 1);
}

static void
test_none (void)
{
  FrPlanInput input = evening_input (zone, 16);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);

  g_assert_cmpuint (plan->n_cautions, ==, 2);
  g_assert_cmpint (plan->cautions[0].code, ==, FR_CAUTION_ATTEND);
  /* Looked at half an hour before the bucket is dry. */
  g_assert_cmpfloat (plan->cautions[0].a, ==, (double)plan->dry_utc - 1800);
  g_assert_cmpint (plan->cautions[1].code, ==, FR_CAUTION_STEAM_OK);
}

/* Of two buckets the first to run dry is looked at. */
static void
test_look (void)
{
  FrPlanInput input = evening_input (zone, 60);
  g_autoptr (FrPlan) plan = NULL;
  double dry_s;

  input.n_kits = 2;
  input.kits[1] = evening_kit ("Two", 1500);
  input.kits[1].bucket_l = 6;
  plan = fr_plan_new (&input);
  dry_s = plan->shares[1].run.feed_dry_s;
  g_assert_cmpfloat (dry_s, <, plan->shares[0].run.feed_dry_s - 3600);
  for (guint i = 0; i < plan->n_cautions; i++)
    if (plan->cautions[i].code == FR_CAUTION_ATTEND)
      g_assert_cmpfloat (fabs (plan->cautions[i].a - (double)EVENING_UTC - dry_s + 1800), <, 1);
}

static void
test_order (void)
{
  FrPlanInput input = evening_input (zone, 16);
  g_autoptr (FrPlan) plan = NULL;

  for (guint n = 0; n < G_N_ELEMENTS (provoked); n++)
    if (provoked[n].spoil != spoil_rim && provoked[n].spoil != spoil_near
        && provoked[n].spoil != spoil_breaker && provoked[n].spoil != spoil_thick)
      provoked[n].spoil (&input);
  plan = fr_plan_new (&input);
  g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
  g_assert_cmpuint (plan->n_cautions, >=, 12);
  for (guint i = 1; i < plan->n_cautions; i++)
    {
      const FrCaution *a = &plan->cautions[i - 1], *b = &plan->cautions[i];

      g_assert_true (a->severity < b->severity || (a->severity == b->severity && a->code <= b->code));
    }
  g_assert_cmpint (plan->cautions[0].severity, ==, FR_SEVERITY_DANGER);
}

/* 16 A is the most on a 20 A breaker for hours on end: the 80 % rule of wiring codes. */
static void
test_circuit_adds_up (void)
{
  FrPlanInput input = evening_input (zone, 16);
  g_autoptr (FrPlan) plan = NULL, apart = NULL;
  guint n = 0;

  input.n_kits = 2;
  for (guint i = 0; i < 2; i++)
    {
      input.kits[i] = evening_kit (i == 0 ? "One" : "Two", 1000);
      input.kits[i].breaker_a = 20;
      input.kits[i].place = i == 0 ? FR_PLACE_INDOORS : FR_PLACE_SHED;
      input.kits[i].gfci = FALSE;
    }
  plan = fr_plan_new (&input);
  for (guint i = 0; i < plan->n_cautions; i++)
    if (plan->cautions[i].code == FR_CAUTION_CIRCUIT_OVER)
      {
        n++;
        g_assert_cmpfloat (fabs (plan->cautions[i].a - 2000.0 / 120), <, 1e-9);
        g_assert_cmpfloat (fabs (plan->cautions[i].b - 16), <, 1e-9);
      }
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpfloat (plan->shares[0].circuit.used_a, ==, plan->shares[1].circuit.used_a);
  /* The circuit serves the shed too, although the first on it stands in the house. */
  g_assert_true (evening_has (plan, FR_CAUTION_NO_GFCI));
  input.kits[1].circuit_id = 2;
  apart = fr_plan_new (&input);
  g_assert_false (evening_has (apart, FR_CAUTION_CIRCUIT_OVER));
}

/* --- the feed --- */

static void
test_feed_level (void)
{
  FrPlanInput input = evening_input (zone, 16);
  g_autoptr (FrPlan) plan = fr_plan_new (&input);
  const FrPlanFeed *feed = &plan->shares[0].feed;

  g_assert_cmpuint (feed->n_cases, ==, 0);
  g_assert_true (isnan (feed->trip_worst_s) && isnan (feed->trip_rim_s));
  /* 1800 W at 80 % less the wall lift 3 to 100 °C and boil off about 2.66 MJ/kg: 1.8 L an hour. */
  g_assert_cmpfloat (fabs (feed->flow_l_per_h - (1800 * 0.8 - 102) * 3600 / 2.66e6), <, 0.05);
  g_assert_cmpfloat (fabs (feed->ml_per_min * 60 / 1000 - feed->flow_l_per_h), <, 1e-9);
  g_assert_cmpfloat (fabs (feed->s_per_100ml * feed->ml_per_min - 6000), <, 1e-6);
  g_assert_cmpfloat (fabs (feed->drops_per_min - 20 * feed->ml_per_min), <, 1e-6);
}

static double
run_level_l (FrBoil boil, const FrPlan *plan, double at_s, double *bucket_out)
{
  FrBoilTable table;
  FrBoilRun run;
  FrTracePoint point;

  g_assert_true (fr_boil_table_init (&table, plan->pressure_pa));
  boil.table = &table;
  boil.after_s = NAN;
  boil.cutoff_l = NAN;
  boil.stop_brix = NAN;
  boil.after_s = at_s;
  g_assert_cmpint (fr_boil_run (&boil, TRUE, &run), ==, FR_BOIL_OK);
  point = fr_boil_run_at (&run, at_s);
  *bucket_out = point.feed_left_l;
  fr_boil_run_clear (&run);
  return point.volume_l;
}

static void
test_feed_set (void)
{
  for (guint hole = 0; hole < 2; hole++)
    {
      FrPlanInput input = evening_input (zone, 20);
      FrPlanKit *kit = &input.kits[0];
      g_autoptr (FrPlan) plan = NULL;
      const FrPlanFeed *feed;
      const FrPlanShare *share;
      FrBoil set;
      FrBoilTable table;
      double level_l, bucket_l, at_s, side_m, area_m2, full_m;

      kit->feed = hole ? FR_FEED_HOLE : FR_FEED_STREAM;
      kit->head_m = hole ? 0.5 : NAN;
      kit->vessel.a_m = 0.12; /* 11.3 L to the rim */
      plan = fr_plan_new (&input);
      g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
      share = &plan->shares[0];
      feed = &share->feed;
      g_assert_cmpuint (feed->n_cases, ==, 3);
      g_assert_true (fr_boil_table_init (&table, plan->pressure_pa));
      set = share->boil;
      set.table = &table;
      set.feed_kind = kit->feed;
      set.stream_l_per_s = feed->flow_l_per_h / 3600;
      /* A bucket as deep as it is wide; the hole that empties it in the same time, by halving. */
      side_m = cbrt (4e-3 * share->bucket_l / G_PI);
      area_m2 = G_PI / 4 * side_m * side_m;
      full_m = 1e-3 * share->bucket_l / area_m2;
      set.bucket_m2 = area_m2;
      set.head_m = kit->head_m;
      if (hole)
        {
          double lo = 1e-9, hi = 1e-4;

          for (guint n = 0; n < 60; n++)
            {
              double mid = sqrt (lo * hi), left_m = full_m, s = 0;

              /* Torricelli, a minute at a time from the middle of each. */
              while (left_m > 0 && s < 1e6)
                {
                  double v = sqrt (2 * 9.80665 * (set.head_m + left_m)) * mid / area_m2;

                  left_m -= 60 * sqrt (2 * 9.80665 * (set.head_m + MAX (0, left_m - 30 * v))) * mid / area_m2;
                  s += 60;
                }
              if (s > 3600 * share->bucket_l / feed->flow_l_per_h)
                lo = mid;
              else
                hi = mid;
            }
          set.hole_m2 = lo;
        }
      set.rim_l = fr_vessel_capacity_l (&kit->vessel);
      for (guint i = 0; i < 3; i++)
        {
          FrBoil boil = set;
          FrBoilRun run;

          boil.stream_l_per_s *= feed->cases[i].flow_ratio;
          boil.hole_m2 *= feed->cases[i].flow_ratio;
          g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
          g_assert_cmpint (run.ended_by, ==, feed->cases[i].ended_by);
          g_assert_cmpfloat (fabs (run.time_s - feed->cases[i].end_s), <, 120);
          g_assert_cmpint (isnan (run.feed_dry_s), ==, isnan (feed->cases[i].dry_s));
        }
      g_assert_cmpfloat (feed->cases[1].flow_ratio, ==, 0.8);
      g_assert_cmpfloat (feed->cases[2].flow_ratio, ==, 1.2);

      /* The worst trip minute by minute: what runs in stays in. Shrinking as it cools is left out: 4 % of the
       * pan. */
      g_assert_true (isfinite (feed->trip_worst_s) && feed->trip_rim_s > feed->trip_worst_s);
      at_s = feed->trip_worst_s;
      level_l = run_level_l (set, plan, at_s, &bucket_l);
      while (level_l < set.rim_l && bucket_l > 0)
        {
          double flow
              = hole ? 1e3 * set.hole_m2 * sqrt (2 * 9.80665 * (set.head_m + 1e-3 * bucket_l / area_m2))
                     : set.stream_l_per_s;

          level_l += 60 * flow;
          bucket_l -= 60 * flow;
          at_s += 60;
        }
      g_assert_cmpfloat (level_l, >=, set.rim_l);
      g_assert_cmpfloat (fabs (at_s - feed->trip_rim_s), <, 0.08 * (feed->trip_rim_s - feed->trip_worst_s));
    }
}

int
main (int argc, char **argv)
{
  int failed;

  g_test_init (&argc, &argv, NULL);
  zone = test_zone ("America/Toronto");
  g_test_add_func ("/plan-cautions/none", test_none);
  g_test_add_func ("/plan-cautions/each", test_each);
  g_test_add_func ("/plan-cautions/look", test_look);
  g_test_add_func ("/plan-cautions/order", test_order);
  g_test_add_func ("/plan-cautions/circuit-adds-up", test_circuit_adds_up);
  g_test_add_func ("/plan-cautions/feed-level", test_feed_level);
  g_test_add_func ("/plan-cautions/feed-set", test_feed_set);
  failed = g_test_run ();
  fr_zone_table_free (zone);
  return failed;
}
