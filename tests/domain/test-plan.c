/* Sharing and limits of tonight's plan. What must hold is asked of the boil run itself, at both ends of the
 * heat ratio's range, and of planning again with what an option offers. */
#include "evenings.h"

#include "domain/maths/calibrate.h"

static FrZoneTable *zone;
static FrTariff *tariff;

/* The share's boil once more with another ratio and no clock. */
static FrBoilRun
run_at (const FrPlan *plan, const FrPlanInput *input, guint i, double ratio, double bucket_l)
{
  FrBoil boil = plan->shares[i].boil;
  FrBoilTable table;
  FrBoilRun run;

  g_assert_true (fr_boil_table_init (&table, plan->pressure_pa));
  boil.table = &table;
  boil.heat_ratio = ratio;
  boil.after_s = NAN;
  boil.feed_l = bucket_l;
  g_assert_cmpint (fr_boil_run (&boil, FALSE, &run), ==, FR_BOIL_OK);
  return run;
}

static double
careful_ratio (const FrPlanKit *kit)
{
  return kit->heat_ratio - fr_heat_ratio_half_range (kit->heat_ratio, kit->heat_ratio_sd);
}

/* Whatever the evening: no limit broken, nothing promised is unknown, the sums fit. */
static void
assert_sound (const FrPlan *plan, const FrPlanInput *input)
{
  double used_l = 0;
  const double span_s = (double)(input->off_by_utc - input->start_utc);

  g_assert_cmpint (plan->status, ==, FR_PLAN_OK);
  for (guint i = 0; i < plan->n_shares; i++)
    {
      const FrPlanShare *share = &plan->shares[i];
      const FrPlanKit *kit = &input->kits[share->kit];
      FrBoilRun careful, nominal;
      const double numbers[] = { share->pan_l,         share->bucket_l,     share->bucket_max_l,
                                 share->early_s,       share->late_s,       share->finish_kg,
                                 share->syrup_l,       share->level_hold_m, share->energy_kwh,
                                 share->level_cutoff_m };

      if (!share->used)
        {
          g_assert_cmpint (share->off_because, !=, FR_PLAN_OK);
          g_assert_true (share->pan_l == 0 && share->bucket_l == 0);
          continue;
        }
      for (guint k = 0; k < G_N_ELEMENTS (numbers); k++)
        g_assert_true (isfinite (numbers[k]) && numbers[k] >= 0);
      used_l += share->pan_l + share->bucket_l;
      g_assert_cmpfloat (fabs (share->bucket_l * 10 - round (share->bucket_l * 10)), <, 1e-6);
      if (!isnan (kit->bucket_l))
        g_assert_cmpfloat (share->bucket_l, <=, kit->bucket_l + 1e-9);
      g_assert_cmpfloat (share->bucket_l, <=, share->bucket_max_l + 1e-9);
      careful = run_at (plan, input, i, careful_ratio (kit), share->bucket_l);
      g_assert_cmpint (careful.ended_by, ==, FR_END_CUTOFF);
      g_assert_cmpfloat (careful.time_s, <=, span_s + 1e-6);
      g_assert_cmpfloat (careful.left_brix, <=, input->max_brix + 1e-6);
      nominal = run_at (plan, input, i, kit->heat_ratio, share->bucket_max_l);
      if (isnan (kit->rest_l) && share->pan_l >= kit->hold_l - 1e-9)
        {
          g_assert_cmpfloat (nominal.time_s, <=, span_s + 1e-3);
          g_assert_cmpfloat (nominal.left_brix, <=, input->max_brix + 1e-3);
        }
      g_assert_cmpfloat (share->early_s, <=, share->run.time_s + 1e-6);
      g_assert_cmpfloat (share->late_s, >=, share->run.time_s - 1e-6);
    }
  g_assert_cmpfloat (fabs (used_l - plan->used_l), <, 1e-9);
  g_assert_cmpfloat (fabs (plan->used_l + plan->over_l - input->sap_l), <, 1e-9 + 1e-9 * input->sap_l);
  g_assert_true (isfinite (plan->left_kg) && isfinite (plan->left_l) && isfinite (plan->left_brix));
  g_assert_true (isfinite (plan->syrup_l) && isfinite (plan->energy_kwh) && isfinite (plan->finish_kg));
  g_assert_cmpint (plan->early_utc, <=, plan->end_utc);
  g_assert_cmpint (plan->end_utc, <=, plan->late_utc);
  g_assert_cmpint (plan->late_utc, <=, input->off_by_utc);
  if (input->tariff != NULL)
    for (guint i = 0; i < plan->n_ways; i++)
      if (!(plan->ways[i].code == FR_WAY_FUEL && isnan (input->fuel_price_per_kg)))
        g_assert_true (isfinite (plan->ways[i].cost_minor));
}

/* Every option once more as an evening of its own. Returns how many there were. */
static guint
assert_options (const FrPlan *plan, const FrPlanInput *input)
{
  for (guint i = 0; i < plan->n_options; i++)
    {
      const FrOption *option = &plan->options[i];
      FrPlanInput other = *input;
      g_autoptr (FrPlan) again = NULL;

      switch (option->code)
        {
        case FR_OPTION_EARLIER:
          g_assert_cmpint (option->utc, >=, input->now_utc);
          other.start_utc = option->utc;
          break;
        case FR_OPTION_LATER:
          g_assert_cmpint (option->utc, >, input->off_by_utc);
          other.off_by_utc = option->utc;
          break;
        case FR_OPTION_SECOND:
          other.kits[other.n_kits] = evening_kit ("Second", option->power_w);
          other.kits[other.n_kits].vessel = input->kits[0].vessel;
          other.kits[other.n_kits].heat_ratio = input->kits[0].heat_ratio;
          other.kits[other.n_kits].heat_ratio_sd = input->kits[0].heat_ratio_sd;
          other.kits[other.n_kits].hold_l = input->kits[0].hold_l;
          other.kits[other.n_kits].cutoff_l = input->kits[0].cutoff_l;
          other.kits[other.n_kits].wall_w_per_k = input->kits[0].wall_w_per_k;
          other.n_kits++;
          break;
        case FR_OPTION_HIGHER_CUTOFF:
          other.kits[option->kit].cutoff_l = option->cutoff_l;
          other.off_by_utc += 4 * 86400; /* if time allows */
          break;
        case FR_OPTION_REFILL:
          g_assert_cmpint (option->utc, >, input->start_utc);
          other.kits[option->kit].bucket_l *= 2;
          break;
        }
      again = fr_plan_new (&other);
      g_assert_cmpint (again->status, ==, FR_PLAN_OK);
      if (again->over_l >= 0.2)
        g_test_message ("option %d: %g L stayed, %g L still do; limit %d", option->code, plan->over_l,
                        again->over_l, plan->shares[0].limited_by);
      if (option->code == FR_OPTION_REFILL)
        g_assert_cmpfloat (again->over_l, <, plan->over_l);
      else
        g_assert_cmpfloat (again->over_l, <, 0.2);
      /* All of it is boiled a little longer or shorter for a bucket's rounding: 0.1 L is 0.1 kWh at most. */
      if ((option->code == FR_OPTION_EARLIER || option->code == FR_OPTION_LATER) && input->tariff != NULL)
        g_assert_cmpfloat (fabs (again->cost_minor - plan->cost_minor - option->extra_minor), <,
                           0.15 * 20 * input->n_kits);
    }
  return plan->n_options;
}

static void
test_limits (void)
{
  FrPlanInput input = evening_input (zone, 36);
  g_autoptr (FrPlan) time = fr_plan_new (&input), brix = NULL, bucket = NULL, sap = NULL;

  assert_sound (time, &input);
  g_assert_cmpint (time->shares[0].limited_by, ==, FR_LIMIT_TIME);
  /* A tenth of a litre more breaks it, at the careful end. */
  g_assert_cmpfloat (
      run_at (time, &input, 0, careful_ratio (&input.kits[0]), time->shares[0].bucket_l + 0.1).time_s, >,
      42600);
  g_assert_cmpuint (assert_options (time, &input), ==, 2); /* too late in the day to start early enough */

  input.max_brix = 12;
  input.sap_l = 20;
  brix = fr_plan_new (&input);
  assert_sound (brix, &input);
  g_assert_cmpint (brix->shares[0].limited_by, ==, FR_LIMIT_BRIX);
  g_assert_cmpfloat (brix->left_brix, >, 11.5);
  g_assert_nonnull (evening_option (brix, FR_OPTION_HIGHER_CUTOFF));
  assert_options (brix, &input);

  input.max_brix = 60;
  input.kits[0].bucket_l = 9.87;
  bucket = fr_plan_new (&input);
  assert_sound (bucket, &input);
  g_assert_cmpint (bucket->shares[0].limited_by, ==, FR_LIMIT_CAPACITY);
  g_assert_cmpfloat (fabs (bucket->shares[0].bucket_l - 9.8), <, 1e-9);
  g_assert_nonnull (evening_option (bucket, FR_OPTION_REFILL));
  g_assert_null (evening_option (bucket, FR_OPTION_EARLIER));
  assert_options (bucket, &input);

  input.kits[0].bucket_l = NAN;
  input.sap_l = 10.05;
  sap = fr_plan_new (&input);
  assert_sound (sap, &input);
  g_assert_cmpint (sap->shares[0].limited_by, ==, FR_LIMIT_SAP);
  g_assert_cmpint (sap->shares[0].next, ==, FR_LIMIT_TIME);
  g_assert_cmpfloat (sap->over_l, <, 0.1);
  g_assert_cmpuint (sap->n_options, ==, 0);
}

static void
test_earlier (void)
{
  FrPlanInput input = evening_input (zone, 24);
  g_autoptr (FrPlan) plan = NULL;

  input.tariff = tariff;
  input.now_utc = input.start_utc - 10 * 3600;
  plan = fr_plan_new (&input);
  assert_sound (plan, &input);
  g_assert_nonnull (evening_option (plan, FR_OPTION_EARLIER));
  g_assert_nonnull (evening_option (plan, FR_OPTION_LATER));
  g_assert_nonnull (evening_option (plan, FR_OPTION_SECOND));
  g_assert_cmpfloat (evening_option (plan, FR_OPTION_LATER)->extra_minor, >, 0);
  assert_options (plan, &input);
}

static void
test_status (void)
{
  FrPlanInput input = evening_input (zone, 20);

#define EXPECT(STATUS, ...)                                                                                  \
  {                                                                                                          \
    FrPlanInput in = input;                                                                                  \
    g_autoptr (FrPlan) plan = NULL;                                                                          \
    __VA_ARGS__;                                                                                             \
    plan = fr_plan_new (&in);                                                                                \
    g_assert_cmpstr (fr_plan_status_code (plan->status), ==, fr_plan_status_code (FR_PLAN_##STATUS));        \
  }
  EXPECT (OK, )
  EXPECT (NO_SAP, in.sap_l = 0)
  EXPECT (NO_SAP, in.sap_l = NAN)
  EXPECT (NO_KIT, in.n_kits = 0)
  EXPECT (NO_HOURS, in.off_by_utc = in.start_utc)
  EXPECT (NO_HOURS, in.off_by_utc = in.start_utc + 6 * 86400)
  EXPECT (TOO_LITTLE, in.sap_l = 1.3)
  EXPECT (OK, in.sap_l = 1.33)
  EXPECT (OK, in.sap_l = 0.5; in.kits[0].rest_l = 2; in.kits[0].rest_brix = 20; in.kits[0].rest_c = 5)
  EXPECT (TOO_LATE, in.off_by_utc = in.start_utc + 3600)
  /* A pan that is not filled because there is no more is asked for what there is. */
  EXPECT (OK, in.off_by_utc = in.start_utc + 3600; in.sap_l = 1.4)
  EXPECT (TOO_SWEET, in.sap_brix = 25; in.max_brix = 30)
  EXPECT (NEVER_BOILS, in.kits[0].power_w = 120)
  EXPECT (BAD_KIT, in.kits[0].power_w = NAN)
  EXPECT (BAD_KIT, in.kits[0].cutoff_l = 5)
  EXPECT (BAD_KIT, in.kits[0].hold_l = 99)
  EXPECT (BAD_KIT, in.kits[0].vessel.a_m = 0)
  EXPECT (BAD_INPUT, in.sap_brix = NAN)
  EXPECT (BAD_INPUT, in.sap_l = -1)
  EXPECT (BAD_INPUT, in.altitude_m = 9000)
#undef EXPECT
}

static void
test_too_late (void)
{
  FrPlanInput input = evening_input (zone, 20);
  g_autoptr (FrPlan) plan = NULL, again = NULL;

  input.off_by_utc = input.start_utc + 3600;
  plan = fr_plan_new (&input);
  g_assert_cmpint (plan->needs_start_utc, <, input.start_utc);
  g_assert_cmpuint (plan->fault_kit, ==, 0);
  input.start_utc = plan->needs_start_utc;
  again = fr_plan_new (&input);
  assert_sound (again, &input);
}

static void
test_fault (void)
{
  FrPlanInput input = evening_input (zone, 20);
  g_autoptr (FrPlan) plan = NULL;

  input.n_kits = 2;
  input.kits[1] = evening_kit ("Other", 1000);
  input.kits[1].heat_ratio = 1.2;
  plan = fr_plan_new (&input);
  g_assert_cmpint (plan->status, ==, FR_PLAN_BAD_KIT);
  g_assert_cmpuint (plan->fault_kit, ==, 1);
  g_assert_cmpstr (plan->fault, ==, "heat_ratio");
  g_assert_cmpfloat (plan->fault_max, ==, 1);
}

static void
test_several_end_together (void)
{
  /* Unlike pans and powers; enough sap for each, less than all could take. */
  for (double sap_l = 12; sap_l <= 36; sap_l += 4)
    {
      FrPlanInput input = evening_input (zone, sap_l);
      g_autoptr (FrPlan) plan = NULL;
      double first_s = INFINITY, last_s = 0;

      input.n_kits = 3;
      input.kits[1] = evening_kit ("Wok", 1200);
      input.kits[1].hold_l = 2;
      input.kits[1].cutoff_l = 0.5;
      input.kits[2] = evening_kit ("Kettle", 2000);
      input.kits[2].hold_l = 7;
      input.kits[2].cutoff_l = 2.5;
      plan = fr_plan_new (&input);
      assert_sound (plan, &input);
      g_assert_cmpfloat (plan->over_l, <, 0.1 + 1e-9);
      for (guint i = 0; i < 3; i++)
        {
          const FrPlanShare *share = &plan->shares[i];

          g_assert_true (share->used);
          g_assert_cmpint (share->limited_by, ==, FR_LIMIT_SAP);
          first_s = MIN (first_s, share->run.time_s);
          last_s = MAX (last_s, share->run.time_s);
        }
      /* A tenth of a litre is about five minutes of the weakest. */
      g_assert_cmpfloat (last_s - first_s, <, 11 * 60);
    }
}

static void
test_one_stays_off (void)
{
  FrPlanInput input = evening_input (zone, 2.2);
  g_autoptr (FrPlan) plan = NULL;

  /* Half of it would stand below either cut-off; all of it in one does not. */
  input.n_kits = 2;
  input.kits[1] = evening_kit ("Small", 900);
  plan = fr_plan_new (&input);
  assert_sound (plan, &input);
  g_assert_true (plan->shares[0].used && !plan->shares[1].used);
  g_assert_cmpint (plan->shares[1].off_because, ==, FR_PLAN_TOO_LITTLE);
  g_assert_cmpfloat (plan->over_l, <, 0.1);
}

static void
test_one_too_late (void)
{
  FrPlanInput input = evening_input (zone, 30);
  g_autoptr (FrPlan) plan = NULL;

  input.n_kits = 2;
  input.off_by_utc = input.start_utc + 3 * 3600;
  input.kits[1] = evening_kit ("Slow", 600);
  plan = fr_plan_new (&input);
  assert_sound (plan, &input);
  g_assert_true (plan->shares[0].used && !plan->shares[1].used);
  g_assert_cmpint (plan->shares[1].off_because, ==, FR_PLAN_TOO_LATE);
  g_assert_cmpint (plan->needs_start_utc, ==, G_MININT64);
}

static void
test_rest (void)
{
  FrPlanInput input = evening_input (zone, 60);
  g_autoptr (FrPlan) plan = NULL;

  input.kits[0].rest_l = 1;
  input.kits[0].rest_brix = 30;
  input.kits[0].rest_c = 8;
  plan = fr_plan_new (&input);
  assert_sound (plan, &input);
  g_assert_cmpfloat (fabs (plan->shares[0].pan_l - 3), <, 1e-9);
  /* Sugar is neither made nor lost: 1 L at 30 °Bx holds 0.339 kg (density 1129 kg/m³ at 20 °C, ICUMSA, from
   * memory). */
  g_assert_cmpfloat (fabs (plan->shares[0].run.sugar_out_kg - 0.339 - plan->used_l * 1.0087 * 0.022), <,
                     0.01);
}

/* Common practice, no source: about 500 W cannot boil off an average running day of five taps (some 20 L)
 * overnight, 1800 W can come near it. */
static void
test_weak_cooker (void)
{
  FrPlanInput input = evening_input (zone, 20);
  g_autoptr (FrPlan) strong = fr_plan_new (&input), weak = NULL;

  input.kits[0].power_w = 500;
  weak = fr_plan_new (&input);
  g_assert_cmpfloat (strong->over_l, <, 4);
  g_assert_cmpfloat (weak->used_l, <, 8);
}

/* Sap without a known past keeps from its gathering by the stricter table; what the store knows goes before. */
static void
test_keeps (void)
{
  static const double hours_h[][2] = { { -1, 72 }, { 4, 48 }, { 7, 24 }, { 30, 12 } };

  for (guint i = 0; i < G_N_ELEMENTS (hours_h); i++)
    {
      FrPlanInput input = evening_input (zone, 20);
      g_autoptr (FrPlan) plan = NULL, known = NULL;

      input.sap_c = hours_h[i][0];
      plan = fr_plan_new (&input);
      g_assert_cmpint (plan->keep_until_utc, ==, input.oldest_utc + (gint64)(3600 * hours_h[i][1]));
      input.spoils_utc = input.oldest_utc + 12345;
      known = fr_plan_new (&input);
      g_assert_cmpint (known->keep_until_utc, ==, input.spoils_utc);
    }
}

static void
test_random (void)
{
  GRand *rand = g_rand_new_with_seed (20250212);
  guint seen[FR_PLAN_BAD_INPUT + 1] = { 0 }, n_options = 0, limits[FR_N_LIMITS] = { 0 };

  for (guint n = 0; n < 300; n++)
    {
      FrPlanInput input = evening_input (zone, g_rand_double_range (rand, 1, 80));
      g_autoptr (FrPlan) plan = NULL;

      input.tariff = tariff;
      input.sap_brix = g_rand_double_range (rand, 0.8, 8);
      input.sap_c = g_rand_double_range (rand, -0.5, 15);
      input.max_brix = g_rand_double_range (rand, 15, 68);
      input.air_c = g_rand_double_range (rand, -25, 20);
      input.altitude_m = g_rand_double_range (rand, 0, 2500);
      input.start_utc += 300 * g_rand_int_range (rand, -100, 100);
      input.now_utc = input.start_utc - g_rand_int_range (rand, 0, 86400);
      input.off_by_utc = input.start_utc + 300 * g_rand_int_range (rand, 24, 200);
      input.n_kits = (guint)g_rand_int_range (rand, 1, 5);
      for (guint i = 0; i < input.n_kits; i++)
        {
          FrPlanKit *kit = &input.kits[i];

          *kit = evening_kit ("Cooker", g_rand_double_range (rand, 400, 3000));
          kit->heat_ratio = g_rand_double_range (rand, 0.5, 0.95);
          kit->heat_ratio_sd = g_rand_boolean (rand) ? NAN : g_rand_double_range (rand, 0.005, 0.05);
          kit->wall_w_per_k = g_rand_double_range (rand, 0, 2);
          kit->hold_l = g_rand_double_range (rand, 1, 8);
          kit->cutoff_l = kit->hold_l * g_rand_double_range (rand, 0.15, 0.7);
          if (kit->cutoff_l < 0.06)
            kit->cutoff_l = 0.06;
          kit->bucket_l = g_rand_boolean (rand) ? NAN : g_rand_double_range (rand, 4, 30);
          kit->feed = g_rand_int_range (rand, 0, 12) == 0 ? FR_FEED_STREAM : FR_FEED_LEVEL;
          if (g_rand_int_range (rand, 0, 4) == 0)
            {
              kit->rest_l = kit->hold_l * g_rand_double_range (rand, 0.1, 0.9);
              kit->rest_brix = g_rand_double_range (rand, 5, 50);
              kit->rest_c = g_rand_double_range (rand, 0, 90);
            }
        }
      plan = fr_plan_new (&input);
      seen[plan->status]++;
      if (plan->status != FR_PLAN_OK)
        {
          g_assert_cmpint (plan->status, !=, FR_PLAN_BAD_INPUT);
          g_assert_cmpint (plan->status, !=, FR_PLAN_BAD_KIT);
          continue;
        }
      assert_sound (plan, &input);
      for (guint i = 0; i < plan->n_shares; i++)
        if (plan->shares[i].used)
          limits[plan->shares[i].limited_by]++;
      if (input.n_kits == 1)
        n_options += assert_options (plan, &input);
      else
        for (guint i = 0; i < plan->n_options; i++)
          if (plan->options[i].code == FR_OPTION_EARLIER || plan->options[i].code == FR_OPTION_LATER)
            {
              FrPlanInput other = input;
              g_autoptr (FrPlan) again = NULL;

              if (plan->options[i].code == FR_OPTION_EARLIER)
                other.start_utc = plan->options[i].utc;
              else
                other.off_by_utc = plan->options[i].utc;
              again = fr_plan_new (&other);
              g_assert_cmpfloat (again->over_l, <, 0.2);
              n_options++;
            }
    }
  g_rand_free (rand);
  /* The evenings were varied enough to mean something. */
  g_assert_cmpuint (seen[FR_PLAN_OK], >, 150);
  g_assert_cmpuint (n_options, >, 40);
  for (FrLimit limit = FR_LIMIT_TIME; limit <= FR_LIMIT_SAP; limit++)
    g_assert_cmpuint (limits[limit], >, 10);
  g_test_message ("%u plans, %u too late, %u too sweet, %u too little, %u options", seen[FR_PLAN_OK],
                  seen[FR_PLAN_TOO_LATE], seen[FR_PLAN_TOO_SWEET], seen[FR_PLAN_TOO_LITTLE], n_options);
}

int
main (int argc, char **argv)
{
  FrTariffProblem problem;
  int failed;

  g_test_init (&argc, &argv, NULL);
  zone = test_zone ("America/Toronto");
  tariff = fr_tariff_parse (WINTER_2024 "05-01 10-31 all 00:00 24:00 10\n", NULL, 0, 0, &problem);
  g_assert_nonnull (tariff);
  g_test_add_func ("/plan/limits", test_limits);
  g_test_add_func ("/plan/earlier", test_earlier);
  g_test_add_func ("/plan/status", test_status);
  g_test_add_func ("/plan/too-late", test_too_late);
  g_test_add_func ("/plan/fault", test_fault);
  g_test_add_func ("/plan/several-end-together", test_several_end_together);
  g_test_add_func ("/plan/one-stays-off", test_one_stays_off);
  g_test_add_func ("/plan/one-too-late", test_one_too_late);
  g_test_add_func ("/plan/rest", test_rest);
  g_test_add_func ("/plan/weak-cooker", test_weak_cooker);
  g_test_add_func ("/plan/keeps", test_keeps);
  g_test_add_func ("/plan/random", test_random);
  failed = g_test_run ();
  fr_tariff_free (tariff);
  fr_zone_table_free (zone);
  return failed;
}
